/* The guide in a window of the program, for desktops without a help reader: a list of its pages and their text. The pages are the same
 * Mallard files the help reader shows; of their markup only what carries meaning in plain text is kept. */
#include "help-window.h"

#include <gio/gio.h>
#include <glib/gi18n.h>

#include "dialog.h"
#include "guide-page.h"

/* In reading order; the names of the files under help/C. */
static const char *const pages[]
    = { "first-scene",  "own-scene",    "composing",   "arranging",    "artwork",         "photo",
        "photo-square", "stitch-order", "hoopings",    "wishes",       "decisions",       "parts",
        "candidates",   "why",          "problems",    "warnings",     "density",         "marks",
        "templates",    "bench-sheet",  "corrections", "draw-in",      "at-the-machine",  "marks-in-photo",
        "cautions",     "supplies",     "take-along",  "needle-lists", "threads-at-hand", "scene-file",
        "keeping",      "keyboard",     "words",       "questions" };

typedef struct
{
  GtkWindow *window;
  GtkTextBuffer *buffer; /* the view's */
  GtkWidget *view;
  GtkWidget *list;
  GArray *trail; /* guint: places in pages[] gone through by links, the last at the end */
} Guide;

/* One window shows the guide, whoever asks for it. */
static Guide *shown;

static void
show_page (Guide *guide, guint index)
{
  g_autoptr (GBytes) bytes = hw_guide_page_load (pages[index]);
  GtkTextIter start;

  /* A buffer of its own: emptied and filled again, the scrollbar would go and come between. */
  guide->buffer = gtk_text_buffer_new (NULL);
  hw_guide_page_add_tags (guide->buffer);
  if (bytes != NULL)
    hw_guide_page_fill (guide->buffer, bytes);
  gtk_text_buffer_get_start_iter (guide->buffer, &start);
  gtk_text_buffer_place_cursor (guide->buffer, &start);
  gtk_text_view_set_buffer (GTK_TEXT_VIEW (guide->view), guide->buffer);
  g_object_unref (guide->buffer);
  gtk_text_view_scroll_to_iter (GTK_TEXT_VIEW (guide->view), &start, 0, TRUE, 0, 0);
}

/* The first page when there is none of that name. Returns: its row */
static GtkWidget *
choose_page (Guide *guide, const char *page)
{
  GtkListBoxRow *row;
  int place = 0;

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (pages[i], page) == 0)
      place = (int)i;
  row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (guide->list), place);
  gtk_list_box_select_row (GTK_LIST_BOX (guide->list), row);
  return GTK_WIDGET (row);
}

static const char *
link_at (Guide *guide, double x, double y)
{
  GtkTextIter place;
  int bx, by;

  gtk_text_view_window_to_buffer_coords (GTK_TEXT_VIEW (guide->view), GTK_TEXT_WINDOW_WIDGET, (int)x, (int)y,
                                         &bx, &by);
  if (!gtk_text_view_get_iter_at_location (GTK_TEXT_VIEW (guide->view), &place, bx, by))
    return NULL;
  return hw_guide_page_link_at (&place);
}

/* Goes to a page by a link, so that one can come back. */
static void
follow (Guide *guide, const char *page)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (guide->list));
  guint here = row != NULL ? (guint)gtk_list_box_row_get_index (row) : 0;

  g_array_append_val (guide->trail, here);
  choose_page (guide, page);
}

static gboolean
go_back (Guide *guide)
{
  guint place;

  if (guide->trail->len == 0)
    return FALSE;
  place = g_array_index (guide->trail, guint, guide->trail->len - 1);
  g_array_set_size (guide->trail, guide->trail->len - 1);
  choose_page (guide, pages[place]);
  return TRUE;
}

/* The link after what is selected, or before it. FALSE: there is none more. */
static gboolean
next_link (Guide *guide, gboolean backward)
{
  GtkTextIter from, to, start, end, found, found_end;
  gboolean any = FALSE;

  gtk_text_buffer_get_selection_bounds (guide->buffer, &from, &to);
  gtk_text_buffer_get_start_iter (guide->buffer, &start);
  do
    {
      if (hw_guide_page_link_at (&start) == NULL)
        continue;
      end = start;
      gtk_text_iter_forward_to_tag_toggle (&end, NULL);
      if (backward ? gtk_text_iter_compare (&start, &from) >= 0 : gtk_text_iter_compare (&start, &to) < 0)
        continue;
      found = start;
      found_end = end;
      any = TRUE;
      if (!backward)
        break;
    }
  while (gtk_text_iter_forward_to_tag_toggle (&start, NULL));
  if (!any)
    return FALSE;
  gtk_text_buffer_select_range (guide->buffer, &found, &found_end);
  gtk_text_view_scroll_mark_onscreen (GTK_TEXT_VIEW (guide->view),
                                      gtk_text_buffer_get_insert (guide->buffer));
  return TRUE;
}

/* Tab goes from link to link, past the last of them to the list of pages; what is selected is the link one is at. */
static gboolean
key_cb (GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType state, Guide *guide)
{
  GtkTextIter from, to;
  const char *page = NULL;

  gboolean backward = keyval == GDK_KEY_ISO_Left_Tab || (state & GDK_SHIFT_MASK);

  if (keyval == GDK_KEY_Tab || keyval == GDK_KEY_ISO_Left_Tab)
    return next_link (guide, backward)
           || gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_selected_row (GTK_LIST_BOX (guide->list))));
  if (keyval == GDK_KEY_BackSpace)
    return go_back (guide);
  if (keyval != GDK_KEY_Return && keyval != GDK_KEY_KP_Enter)
    return FALSE;
  if (gtk_text_buffer_get_selection_bounds (guide->buffer, &from, &to))
    page = hw_guide_page_link_at (&from);
  if (page == NULL)
    return FALSE;
  follow (guide, page);
  return TRUE;
}

/* From the list into the page, and not through all its rows. */
static gboolean
list_key_cb (GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType state, Guide *guide)
{
  return keyval == GDK_KEY_Tab && (state & GDK_SHIFT_MASK) == 0 && gtk_widget_grab_focus (guide->view);
}

static gboolean
back_cb (GtkWidget *widget, GVariant *arguments, gpointer user_data)
{
  return go_back (user_data);
}

static void
released_cb (GtkGestureClick *click, int n, double x, double y, Guide *guide)
{
  const char *page = link_at (guide, x, y);

  if (page != NULL && !gtk_text_buffer_get_has_selection (guide->buffer))
    follow (guide, page);
}

static void
motion_cb (GtkEventControllerMotion *motion, double x, double y, Guide *guide)
{
  gtk_widget_set_cursor_from_name (guide->view, link_at (guide, x, y) != NULL ? "pointer" : "text");
}

static void
follow_links (Guide *guide)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  GtkEventController *list_keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (list_keys, GTK_PHASE_CAPTURE);
  g_signal_connect (list_keys, "key-pressed", G_CALLBACK (list_key_cb), guide);
  gtk_widget_add_controller (guide->list, list_keys);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), guide);
  gtk_widget_add_controller (guide->view, keys);
  g_signal_connect (click, "released", G_CALLBACK (released_cb), guide);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), guide);
  gtk_widget_add_controller (guide->view, GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (guide->view, motion);
}

static void
row_selected_cb (GtkListBox *list, GtkListBoxRow *row, Guide *guide)
{
  if (row != NULL)
    show_page (guide, (guint)gtk_list_box_row_get_index (row));
}

static GtkWidget *
make_list (void)
{
  GtkWidget *list = gtk_list_box_new ();

  gtk_widget_add_css_class (list, "plain-list");
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autoptr (GBytes) bytes = hw_guide_page_load (pages[i]);
      g_autofree char *title = bytes != NULL ? hw_guide_page_title (bytes) : NULL;
      GtkWidget *label = gtk_label_new (title != NULL ? title : pages[i]);

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_list_box_append (GTK_LIST_BOX (list), label);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Pages of the guide"), -1);
  return list;
}

static GtkWidget *
scrolled (GtkWidget *child)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), child);
  return scroller;
}

static void
guide_free (gpointer data)
{
  Guide *guide = data;

  shown = NULL;
  g_array_unref (guide->trail);
  g_free (guide);
}

static void
make_view (Guide *guide)
{
  guide->view = gtk_text_view_new ();
  gtk_text_view_set_editable (GTK_TEXT_VIEW (guide->view), FALSE);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (guide->view), FALSE);
  gtk_text_view_set_cursor_visible (GTK_TEXT_VIEW (guide->view), FALSE);
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (guide->view), GTK_WRAP_WORD);
  gtk_widget_add_css_class (guide->view, "guide");
  gtk_accessible_update_property (GTK_ACCESSIBLE (guide->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Page of the guide"), -1);
  follow_links (guide);
}

/* A window group of its own lets the guide be read beside a dialog that is open. */
static Guide *
guide_new (GtkWindow *parent)
{
  Guide *guide = g_new0 (Guide, 1);
  GtkEventController *back = gtk_shortcut_controller_new ();
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  g_autoptr (GtkWindowGroup) group = gtk_window_group_new ();
  GtkWidget *left, *right;

  guide->trail = g_array_new (FALSE, FALSE, sizeof (guint));
  guide->list = make_list ();
  make_view (guide);
  left = scrolled (guide->list);
  right = scrolled (guide->view);
  gtk_widget_set_hexpand (right, TRUE);
  gtk_widget_set_size_request (left, 250, -1);
  gtk_box_append (GTK_BOX (content), left);
  gtk_box_append (GTK_BOX (content), right);

  guide->window = hw_dialog_new (parent, _ ("Guide"), content, 1040, 700);
  gtk_window_set_modal (guide->window, FALSE);
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (back),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Left, GDK_ALT_MASK),
                                                          gtk_callback_action_new (back_cb, guide, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (guide->window), back);
  gtk_window_group_add_window (group, guide->window);
  g_object_set_data_full (G_OBJECT (guide->window), "guide", guide, guide_free);
  g_signal_connect (guide->list, "row-selected", G_CALLBACK (row_selected_cb), guide);
  return guide;
}

/* It belongs to the window below all dialogs: closing the dialog that asked does not close it. */
static void
show_own_window (GtkWindow *parent, const char *page)
{
  while (gtk_window_get_transient_for (parent) != NULL)
    parent = gtk_window_get_transient_for (parent);
  if (shown == NULL)
    shown = guide_new (parent);
  else
    gtk_window_set_transient_for (shown->window, parent);
  gtk_widget_grab_focus (choose_page (shown, page));
  gtk_window_present (shown->window);
}

/* The help reader finds a guide only where help is installed. */
static gboolean
guide_is_installed (void)
{
  const char *const *folders = g_get_system_data_dirs ();

  for (guint i = 0; folders[i] != NULL; i++)
    {
      g_autofree char *page = g_build_filename (folders[i], "help", "C", "hoopwright", "index.page", NULL);
      if (g_file_test (page, G_FILE_TEST_IS_REGULAR))
        return TRUE;
    }
  return FALSE;
}

typedef struct
{
  GtkWindow *parent;
  char *page;
} Asked;

static void
shown_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Asked *asked = user_data;

  if (!gtk_show_uri_full_finish (GTK_WINDOW (source), result, NULL))
    show_own_window (asked->parent, asked->page);
  g_object_unref (asked->parent);
  g_free (asked->page);
  g_free (asked);
}

void
hw_help_show (GtkWindow *parent, const char *page)
{
  g_return_if_fail (GTK_IS_WINDOW (parent));

  g_autoptr (GAppInfo) reader = g_app_info_get_default_for_uri_scheme ("help");
  if (reader != NULL && guide_is_installed ())
    {
      Asked *asked = g_new0 (Asked, 1);
      g_autofree char *uri = g_strconcat ("help:hoopwright", page != NULL ? "/" : NULL, page, NULL);

      asked->parent = g_object_ref (parent);
      asked->page = g_strdup (page);
      gtk_show_uri_full (parent, uri, GDK_CURRENT_TIME, NULL, shown_cb, asked);
    }
  else
    show_own_window (parent, page);
}

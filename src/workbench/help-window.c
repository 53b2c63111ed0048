/* The guide in a window of the program, for desktops without a help reader: a list of its pages and their text. The pages are the same
 * Mallard files the help reader shows; of their markup only what carries meaning in plain text is kept. */
#include "help-window.h"

#include <gio/gio.h>
#include <glib/gi18n.h>

#include "dialog.h"
#include "guide-page.h"

#define GUIDE_PATH "/org/hoopwright/Hoopwright/guide/"

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
  GtkTextBuffer *buffer;
  GtkWidget *view;
} Guide;

static GBytes *
page_bytes (guint index)
{
  g_autofree char *path = g_strconcat (GUIDE_PATH, pages[index], ".page", NULL);

  return g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
}

static void
show_page (Guide *guide, guint index)
{
  g_autoptr (GBytes) bytes = page_bytes (index);
  GtkTextIter start;

  gtk_text_buffer_set_text (guide->buffer, "", 0);
  if (bytes != NULL)
    hw_guide_page_fill (guide->buffer, bytes);
  gtk_text_buffer_get_start_iter (guide->buffer, &start);
  gtk_text_view_scroll_to_iter (GTK_TEXT_VIEW (guide->view), &start, 0, TRUE, 0, 0);
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
      g_autoptr (GBytes) bytes = page_bytes (i);
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
show_own_window (GtkWindow *parent)
{
  Guide *guide = g_new0 (Guide, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *list = make_list ();
  GtkWidget *left = scrolled (list);

  guide->view = gtk_text_view_new ();
  guide->buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (guide->view));
  gtk_text_view_set_editable (GTK_TEXT_VIEW (guide->view), FALSE);
  gtk_text_view_set_cursor_visible (GTK_TEXT_VIEW (guide->view), FALSE);
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (guide->view), GTK_WRAP_WORD);
  gtk_widget_add_css_class (guide->view, "guide");
  gtk_accessible_update_property (GTK_ACCESSIBLE (guide->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Page of the guide"), -1);
  hw_guide_page_add_tags (guide->buffer);

  GtkWidget *right = scrolled (guide->view);
  gtk_widget_set_hexpand (right, TRUE);
  gtk_widget_set_size_request (left, 250, -1);
  gtk_box_append (GTK_BOX (content), left);
  gtk_box_append (GTK_BOX (content), right);

  GtkWindow *window = hw_dialog_new (parent, _ ("Guide"), content, 940, 680);
  gtk_window_set_modal (window, FALSE);
  g_object_set_data_full (G_OBJECT (window), "guide", guide, g_free);
  g_signal_connect (list, "row-selected", G_CALLBACK (row_selected_cb), guide);
  gtk_list_box_select_row (GTK_LIST_BOX (list), gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), 0));
  gtk_window_present (window);
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

static void
shown_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  if (!gtk_show_uri_full_finish (GTK_WINDOW (source), result, NULL))
    show_own_window (GTK_WINDOW (source));
}

void
hw_help_show (GtkWindow *parent)
{
  g_return_if_fail (GTK_IS_WINDOW (parent));

  g_autoptr (GAppInfo) reader = g_app_info_get_default_for_uri_scheme ("help");
  if (reader != NULL && guide_is_installed ())
    gtk_show_uri_full (parent, "help:hoopwright", GDK_CURRENT_TIME, NULL, shown_cb, NULL);
  else
    show_own_window (parent);
}

/* The guide's window: a link is followed with a key or a click and one comes back, keys go from link to link and between page and list, and whoever asks, there is one
 * window. */
#include "hands.h"
#include "window-fixture.h"
#include "workbench/guide-page.h"
#include "workbench/help-window.h"

typedef struct
{
  GtkWindow *parent, *guide;
  GtkWidget *view, *list;
} Fixture;

static void
ask (Fixture *f, GtkWindow *parent, const char *page)
{
  hw_help_show (parent, page);
  f->guide = hands_window ("Guide");
  g_assert_nonnull (f->guide);
  f->view = room_first (f->guide, GTK_TYPE_TEXT_VIEW);
  f->list = room_first (f->guide, GTK_TYPE_LIST_BOX);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  f->parent = hands_show (gtk_label_new ("orchard"), 300, 200);
  ask (f, f->parent, "composing");
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  gtk_window_destroy (f->parent);
  hands_settle ();
  g_assert_null (hands_window ("Guide"));
}

/* The title of the page that is chosen in the list. */
static const char *
page (Fixture *f)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (f->list));

  g_assert_nonnull (row);
  return gtk_label_get_text (GTK_LABEL (gtk_list_box_row_get_child (row)));
}

static void
assert_page (Fixture *f, const char *name)
{
  g_autoptr (GBytes) bytes = hw_guide_page_load (name);
  g_autofree char *title = hw_guide_page_title (bytes);
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (f->view));
  GtkTextIter start, end;

  g_assert_cmpstr (page (f), ==, title);
  gtk_text_buffer_get_bounds (buffer, &start, &end);
  g_autofree char *text = gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
  g_assert_nonnull (strstr (text, title));
}

/* The page that what is selected leads to, or NULL. */
static const char *
link_selected (Fixture *f)
{
  GtkTextIter from, to;

  if (!gtk_text_buffer_get_selection_bounds (gtk_text_view_get_buffer (GTK_TEXT_VIEW (f->view)), &from, &to))
    return NULL;
  return hw_guide_page_link_at (&from);
}

static guint
count_links (Fixture *f)
{
  GtkTextIter at;
  guint n = 0;

  gtk_text_buffer_get_start_iter (gtk_text_view_get_buffer (GTK_TEXT_VIEW (f->view)), &at);
  do
    n += hw_guide_page_link_at (&at) != NULL;
  while (gtk_text_iter_forward_to_tag_toggle (&at, NULL));
  return n;
}

static GtkWidget *
focus (Fixture *f)
{
  return gtk_window_get_focus (f->guide);
}

static void
a_link_is_followed_and_one_comes_back (Fixture *f, gconstpointer data)
{
  g_autofree char *to = NULL, *back = NULL;

  assert_page (f, "composing");
  /* With no link at hand Enter is not the guide's. */
  g_assert_false (hands_key (f->view, GDK_KEY_Return, 0));
  g_assert_true (hands_key (f->view, GDK_KEY_Tab, 0));
  to = g_strdup (link_selected (f));
  g_assert_nonnull (to);
  g_assert_true (hands_key (f->view, GDK_KEY_Return, 0));
  assert_page (f, to);
  g_assert_true (hands_key (f->view, GDK_KEY_Tab, 0));
  back = g_strdup (link_selected (f));
  g_assert_true (hands_key (f->view, GDK_KEY_KP_Enter, 0));
  assert_page (f, back);
  g_assert_true (hands_key (f->view, GDK_KEY_BackSpace, 0));
  assert_page (f, to);
  g_assert_true (hands_key (f->view, GDK_KEY_BackSpace, 0));
  assert_page (f, "composing");
  g_assert_false (hands_key (f->view, GDK_KEY_BackSpace, 0));
  assert_page (f, "composing");
  g_assert_false (hands_key (f->view, GDK_KEY_a, 0));
}

static void
tab_goes_from_link_to_link_and_then_to_the_list (Fixture *f, gconstpointer data)
{
  guint n = count_links (f);
  GtkTextIter first, to;
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (f->view));
  int before = -1;

  g_assert_cmpuint (n, >=, 2);
  gtk_widget_grab_focus (f->view);
  for (guint i = 0; i < n; i++)
    {
      g_assert_true (hands_key (f->view, GDK_KEY_Tab, 0));
      g_assert_true (gtk_text_buffer_get_selection_bounds (buffer, &first, &to));
      g_assert_cmpint (gtk_text_iter_get_offset (&first), >, before);
      before = gtk_text_iter_get_offset (&first);
      g_assert_true (focus (f) == f->view);
    }
  g_assert_true (hands_key (f->view, GDK_KEY_Tab, 0));
  g_assert_true (gtk_widget_is_ancestor (focus (f), f->list));
  /* And back again, before the first of them to the list as well. */
  g_assert_true (hands_key (f->list, GDK_KEY_Tab, 0));
  g_assert_true (focus (f) == f->view);
  for (guint i = 1; i < n; i++)
    {
      g_assert_true (hands_key (f->view, i % 2 ? GDK_KEY_ISO_Left_Tab : GDK_KEY_Tab, GDK_SHIFT_MASK));
      g_assert_true (gtk_text_buffer_get_selection_bounds (buffer, &first, &to));
      g_assert_cmpint (gtk_text_iter_get_offset (&first), <, before);
      before = gtk_text_iter_get_offset (&first);
    }
  g_assert_true (hands_key (f->view, GDK_KEY_Tab, GDK_SHIFT_MASK));
  g_assert_true (gtk_widget_is_ancestor (focus (f), f->list));
  /* In the list, what is not a plain Tab is the list's. */
  g_assert_false (hands_key (f->list, GDK_KEY_Tab, GDK_SHIFT_MASK));
  g_assert_false (hands_key (f->list, GDK_KEY_Down, 0));
}

/* Where the page's first link is seen. */
static const char *
place_of_link (Fixture *f, double *x, double *y)
{
  GtkTextIter at;
  GdkRectangle box;
  int wx, wy;

  gtk_text_buffer_get_start_iter (gtk_text_view_get_buffer (GTK_TEXT_VIEW (f->view)), &at);
  while (hw_guide_page_link_at (&at) == NULL)
    g_assert_true (gtk_text_iter_forward_to_tag_toggle (&at, NULL));
  gtk_text_view_scroll_to_iter (GTK_TEXT_VIEW (f->view), &at, 0, TRUE, 0, 0.3);
  hands_frame (f->view);
  gtk_text_view_get_iter_location (GTK_TEXT_VIEW (f->view), &at, &box);
  gtk_text_view_buffer_to_window_coords (GTK_TEXT_VIEW (f->view), GTK_TEXT_WINDOW_WIDGET,
                                         box.x + box.width / 2, box.y + box.height / 2, &wx, &wy);
  *x = wx;
  *y = wy;
  return hw_guide_page_link_at (&at);
}

static const char *
cursor (Fixture *f)
{
  return gdk_cursor_get_name (gtk_widget_get_cursor (f->view));
}

static void
release_at (Fixture *f, double x, double y)
{
  g_signal_emit_by_name (hands_controller (f->view, GTK_TYPE_GESTURE_CLICK), "released", 1, x, y);
  hands_settle ();
}

static void
a_click_on_a_link_follows_it (Fixture *f, gconstpointer data)
{
  GtkEventController *motion = hands_controller (f->view, GTK_TYPE_EVENT_CONTROLLER_MOTION);
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (f->view));
  GtkTextIter start, end;
  double x, y;
  g_autofree char *to = g_strdup (place_of_link (f, &x, &y));

  g_signal_emit_by_name (motion, "motion", x, y);
  g_assert_cmpstr (cursor (f), ==, "pointer");
  g_signal_emit_by_name (motion, "motion", 2.0, y);
  g_assert_cmpstr (cursor (f), ==, "text");
  release_at (f, 2, y);
  assert_page (f, "composing");
  /* Text that was selected by pulling over a link is only selected. */
  gtk_text_buffer_get_bounds (buffer, &start, &end);
  gtk_text_buffer_select_range (buffer, &start, &end);
  release_at (f, x, y);
  assert_page (f, "composing");
  gtk_text_buffer_place_cursor (buffer, &start);
  release_at (f, x, y);
  assert_page (f, to);
}

static void
there_is_one_guide_whoever_asks (Fixture *f, gconstpointer data)
{
  GtkWindow *first = f->guide, *other = hands_show (gtk_label_new ("harbour"), 300, 200);
  GtkWindow *over = hands_show (gtk_label_new ("quay"), 200, 100);

  gtk_window_set_transient_for (over, other);
  ask (f, over, "marks");
  g_assert_true (f->guide == first);
  assert_page (f, "marks");
  /* It belongs to the window below the dialog that asked. */
  g_assert_true (gtk_window_get_transient_for (f->guide) == other);
  gtk_window_destroy (over);
  hands_settle ();
  g_assert_true (hands_window ("Guide") == first);
  ask (f, f->parent, "a page that is not there");
  assert_page (f, "first-scene");
  ask (f, f->parent, NULL);
  assert_page (f, "first-scene");
  gtk_window_destroy (other);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/help-window/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (a_link_is_followed_and_one_comes_back);
  ADD (tab_goes_from_link_to_link_and_then_to_the_list);
  ADD (a_click_on_a_link_follows_it);
  ADD (there_is_one_guide_whoever_asks);
  return g_test_run ();
}

/* The view of a photo being put square, from the keyboard and with the pointer: handles go where the hand says, and the photo is looked at near and far. */
#include <math.h>

#include "hands.h"
#include "workbench/photo-view-private.h"

/* A photo of 400 x 300 pixels fills this at two to one, but for the padding. */
#define WIDTH 832
#define HEIGHT 632

typedef struct
{
  HwSquaring *squaring;
  HwPhotoView *view;
  GtkWindow *window;
  guint moved, spot_moved, chosen, lines;
} Fixture;

static void
count_cb (HwPhotoView *view, guint which, guint *count)
{
  (*count)++;
}

static void
line_cb (HwPhotoView *view, guint *count)
{
  (*count)++;
}

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autoptr (HwSnapshot) cloth = hw_snapshot_new ();
  g_autoptr (GPtrArray) places = hw_known_places (cloth, NULL);

  f->squaring = hw_squaring_new (400, 300);
  hw_squaring_begin (f->squaring, places);
  hw_squaring_solve (f->squaring, FALSE);
  f->view = HW_PHOTO_VIEW (hw_photo_view_new (f->squaring));
  g_signal_connect (f->view, "moved", G_CALLBACK (count_cb), &f->moved);
  g_signal_connect (f->view, "spot-moved", G_CALLBACK (count_cb), &f->spot_moved);
  g_signal_connect (f->view, "chosen", G_CALLBACK (count_cb), &f->chosen);
  g_signal_connect (f->view, "line-changed", G_CALLBACK (line_cb), &f->lines);
  f->window = hands_show (GTK_WIDGET (f->view), WIDTH, HEIGHT);
  hw_photo_view_fit (f->view);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  gtk_window_destroy (f->window);
  hands_settle ();
  hw_squaring_free (f->squaring);
}

static gboolean
key (Fixture *f, guint keyval, GdkModifierType held)
{
  return hands_key (GTK_WIDGET (f->view), keyval, held);
}

static HwPoint
handle (Fixture *f, guint i)
{
  return *hw_photo_view_place (f->view, i);
}

static void
assert_near (HwPoint a, HwPoint b)
{
  g_assert_cmpfloat_with_epsilon (a.x, b.x, 1e-6);
  g_assert_cmpfloat_with_epsilon (a.y, b.y, 1e-6);
}

/* A key moves it by a pixel of the screen, so that one can go as fine as one sees. */
static void
arrows_move_the_chosen_handle (Fixture *f, gconstpointer data)
{
  HwPoint before = handle (f, 1);
  double px = 1 / f->view->zoom;

  hw_photo_view_choose (f->view, 1);
  g_assert_true (key (f, GDK_KEY_Right, 0));
  g_assert_true (key (f, GDK_KEY_Down, 0));
  assert_near (handle (f, 1), (HwPoint){ before.x + px, before.y + px });
  g_assert_true (key (f, GDK_KEY_Left, GDK_SHIFT_MASK));
  g_assert_true (key (f, GDK_KEY_Up, GDK_SHIFT_MASK));
  assert_near (handle (f, 1), (HwPoint){ before.x - 9 * px, before.y - 9 * px });
  g_assert_cmpuint (f->moved, ==, 4);
  assert_near (handle (f, 0), (HwPoint){ 80, 60 });
}

static void
a_handle_stays_in_the_photo (Fixture *f, gconstpointer data)
{
  hw_photo_view_choose (f->view, 0);
  for (guint i = 0; i < 40; i++)
    {
      key (f, GDK_KEY_Left, GDK_SHIFT_MASK);
      key (f, GDK_KEY_Up, GDK_SHIFT_MASK);
    }
  assert_near (handle (f, 0), (HwPoint){ 0, 0 });
  hw_photo_view_choose (f->view, 2);
  for (guint i = 0; i < 40; i++)
    {
      key (f, GDK_KEY_Right, GDK_SHIFT_MASK);
      key (f, GDK_KEY_Down, GDK_SHIFT_MASK);
    }
  assert_near (handle (f, 2), (HwPoint){ 400, 300 });
}

/* Keys that are not the view's are the window's: with no handle chosen the arrows, and whatever comes with Ctrl or Alt. */
static void
other_keys_are_left_to_the_window (Fixture *f, gconstpointer data)
{
  static const guint arrows[] = { GDK_KEY_Left, GDK_KEY_Right, GDK_KEY_Up, GDK_KEY_Down };

  for (guint i = 0; i < G_N_ELEMENTS (arrows); i++)
    g_assert_false (key (f, arrows[i], 0));
  hw_photo_view_choose (f->view, 1);
  for (guint i = 0; i < G_N_ELEMENTS (arrows); i++)
    {
      g_assert_false (key (f, arrows[i], GDK_CONTROL_MASK));
      g_assert_false (key (f, arrows[i], GDK_ALT_MASK));
    }
  g_assert_false (key (f, GDK_KEY_q, 0));
  g_assert_cmpuint (f->moved, ==, 0);
}

static void
page_keys_go_round_the_handles (Fixture *f, gconstpointer data)
{
  static const int expected[] = { 0, 1, 2, 3, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      g_assert_true (key (f, GDK_KEY_Page_Down, 0));
      g_assert_cmpint (f->view->chosen, ==, expected[i]);
    }
  g_assert_true (key (f, GDK_KEY_Page_Up, 0));
  g_assert_cmpint (f->view->chosen, ==, 3);
  hw_photo_view_choose (f->view, -1);
  g_assert_true (key (f, GDK_KEY_Page_Up, 0));
  g_assert_cmpint (f->view->chosen, ==, 3);
  g_assert_cmpuint (f->chosen, ==, 7);
}

static void
without_handles_there_is_none_to_choose (Fixture *f, gconstpointer data)
{
  while (f->squaring->points->len > 0)
    hw_squaring_remove (f->squaring, 0);
  f->view->chosen = 2;
  hw_photo_view_refresh (f->view);
  g_assert_cmpint (f->view->chosen, ==, -1);
  key (f, GDK_KEY_Page_Down, 0);
  g_assert_cmpint (f->view->chosen, ==, -1);
  g_assert_cmpuint (f->chosen, ==, 0);
}

/* Marks found in the photo come after the handles; those that are only shown are passed over. */
static void
marks_are_reached_after_the_handles (Fixture *f, gconstpointer data)
{
  const HwPhotoSpot spots[] = { { { 100, 100 }, (char *)"A", FALSE }, { { 200, 120 }, (char *)"B", TRUE } };

  hw_photo_view_set_spots (f->view, spots, 2, TRUE);
  hw_photo_view_choose (f->view, 3);
  key (f, GDK_KEY_Page_Down, 0);
  g_assert_cmpint (f->view->chosen, ==, 4);
  key (f, GDK_KEY_Right, 0);
  assert_near (hw_photo_view_get_spot (f->view, 0), (HwPoint){ 100 + 1 / f->view->zoom, 100 });
  g_assert_cmpuint (f->spot_moved, ==, 1);
  g_assert_cmpuint (f->moved, ==, 0);
  hw_photo_view_choose_spot (f->view, 1);
  g_assert_cmpint (f->view->chosen, ==, 5);
  hw_photo_view_choose_spot (f->view, 2);
  g_assert_cmpint (f->view->chosen, ==, -1);

  hw_photo_view_set_spots (f->view, spots, 2, FALSE);
  hw_photo_view_choose (f->view, 3);
  key (f, GDK_KEY_Page_Down, 0);
  g_assert_cmpint (f->view->chosen, ==, 0);
  hw_photo_view_choose_spot (f->view, 0);
  g_assert_cmpint (f->view->chosen, ==, -1);
}

static void
zoom_keys_keep_the_middle (Fixture *f, gconstpointer data)
{
  static const guint nearer[] = { GDK_KEY_plus, GDK_KEY_KP_Add },
                     farther[] = { GDK_KEY_minus, GDK_KEY_KP_Subtract },
                     whole[] = { GDK_KEY_0, GDK_KEY_KP_0 };
  double fitting = f->view->zoom;

  g_assert_cmpfloat_with_epsilon (fitting, 2, 0.05);
  for (guint i = 0; i < 2; i++)
    {
      HwPoint middle = hw_photo_view_middle (f->view);

      g_assert_true (key (f, nearer[i], 0));
      g_assert_true (key (f, nearer[i], 0));
      g_assert_cmpfloat_with_epsilon (f->view->zoom, fitting * 1.25 * 1.25, 1e-9);
      assert_near (hw_photo_view_middle (f->view), middle);
      g_assert_true (key (f, farther[i], 0));
      g_assert_cmpfloat_with_epsilon (f->view->zoom, fitting * 1.25, 1e-9);
      g_assert_true (key (f, whole[i], 0));
      g_assert_cmpfloat_with_epsilon (f->view->zoom, fitting, 1e-9);
      g_assert_true (f->view->fitted);
    }
  /* Not farther than the whole photo, and not so near that there is nothing to see. */
  key (f, GDK_KEY_minus, 0);
  g_assert_cmpfloat_with_epsilon (f->view->zoom, fitting, 1e-9);
  for (guint i = 0; i < 30; i++)
    key (f, GDK_KEY_plus, 0);
  g_assert_cmpfloat_with_epsilon (f->view->zoom, 24, 1e-9);
}

static HwPoint
seen_at (Fixture *f, guint i)
{
  return hw_photo_view_to_widget (f->view, handle (f, i));
}

static void
the_pointer_pulls_a_handle (Fixture *f, gconstpointer data)
{
  HwPoint at = seen_at (f, 1), before = handle (f, 1);

  hands_pointer (GTK_WIDGET (f->view), "move", at.x + 6, at.y);
  g_assert_cmpint (f->view->hover, ==, 1);
  hands_pointer (GTK_WIDGET (f->view), "press", at.x + 6, at.y);
  g_assert_cmpint (f->view->chosen, ==, 1);
  hands_pointer (GTK_WIDGET (f->view), "move", at.x + 26, at.y + 10);
  hands_pointer (GTK_WIDGET (f->view), "move", at.x + 46, at.y + 30);
  hands_pointer (GTK_WIDGET (f->view), "release", at.x + 46, at.y + 30);
  assert_near (handle (f, 1), (HwPoint){ before.x + 40 / f->view->zoom, before.y + 30 / f->view->zoom });
  g_assert_cmpint (f->view->hand, ==, HW_PHOTO_HAND_NONE);
  g_assert_cmpuint (f->moved, >=, 1);
  assert_near (handle (f, 2), (HwPoint){ 320, 240 });
}

static void
elsewhere_the_pointer_pulls_the_photo (Fixture *f, gconstpointer data)
{
  HwPoint at = f->view->at, before = handle (f, 0);

  hands_pointer (GTK_WIDGET (f->view), "press", 400, 300);
  hands_pointer (GTK_WIDGET (f->view), "move", 420, 310);
  hands_pointer (GTK_WIDGET (f->view), "move", 450, 280);
  hands_pointer (GTK_WIDGET (f->view), "release", 450, 280);
  assert_near (f->view->at, (HwPoint){ at.x + 50, at.y - 20 });
  assert_near (handle (f, 0), before);
  g_assert_false (f->view->fitted);
  g_assert_cmpuint (f->moved, ==, 0);
}

/* To see whether something straight is straight, points are set along it; beside the photo there is nothing to set them on. */
static void
checking_sets_points_along_a_line (Fixture *f, gconstpointer data)
{
  HwPoint at = seen_at (f, 0);

  hw_photo_view_set_checking (f->view, TRUE);
  hands_pointer (GTK_WIDGET (f->view), "press", at.x, at.y);
  hands_pointer (GTK_WIDGET (f->view), "release", at.x, at.y);
  hands_pointer (GTK_WIDGET (f->view), "press", 3, 300);
  hands_pointer (GTK_WIDGET (f->view), "release", 3, 300);
  hands_pointer (GTK_WIDGET (f->view), "press", 300, 200);
  hands_pointer (GTK_WIDGET (f->view), "release", 300, 200);
  g_assert_cmpuint (hw_photo_view_get_line (f->view)->len, ==, 2);
  g_assert_cmpuint (f->lines, ==, 2);
  g_assert_cmpint (f->view->chosen, ==, -1);
  HwPoint first = g_array_index (hw_photo_view_get_line (f->view), HwPoint, 0);
  g_assert_cmpfloat (hw_point_distance (first, handle (f, 0)), <, 1);
  hw_photo_view_set_checking (f->view, FALSE);
  g_assert_cmpuint (hw_photo_view_get_line (f->view)->len, ==, 0);
}

static void
the_wheel_keeps_what_lies_under_the_pointer (Fixture *f, gconstpointer data)
{
  HwPoint at = { 200, 150 };
  double zoom = f->view->zoom;

  hands_pointer (GTK_WIDGET (f->view), "move", at.x, at.y);
  HwPoint under = { (at.x - f->view->at.x) / zoom, (at.y - f->view->at.y) / zoom };
  hands_pointer (GTK_WIDGET (f->view), "wheel-up", at.x, at.y);
  g_assert_cmpfloat_with_epsilon (f->view->zoom, zoom * 1.25, 1e-9);
  HwPoint now = hw_photo_view_to_widget (f->view, under);
  g_assert_cmpfloat (hw_point_distance (now, at), <, 1);
}

/* What a point the others do not agree with looks like is told by its colour, too: the picture has more madder in it. */
static void
a_doubtful_handle_is_seen (Fixture *f, gconstpointer data)
{
  guint before = hands_reddish (GTK_WIDGET (f->view));

  f->squaring->bad = 1;
  hw_photo_view_refresh (f->view);
  g_assert_cmpuint (hands_reddish (GTK_WIDGET (f->view)), >, before);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/photo-view/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (arrows_move_the_chosen_handle);
  ADD (a_handle_stays_in_the_photo);
  ADD (other_keys_are_left_to_the_window);
  ADD (page_keys_go_round_the_handles);
  ADD (without_handles_there_is_none_to_choose);
  ADD (marks_are_reached_after_the_handles);
  ADD (zoom_keys_keep_the_middle);
  ADD (the_pointer_pulls_a_handle);
  ADD (elsewhere_the_pointer_pulls_the_photo);
  ADD (checking_sets_points_along_a_line);
  ADD (the_wheel_keeps_what_lies_under_the_pointer);
  ADD (a_doubtful_handle_is_seen);
  return g_test_run ();
}

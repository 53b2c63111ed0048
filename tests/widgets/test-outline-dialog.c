/* The outline of a motif, edited large: from the keyboard and with the pointer, undone and done again, taken over or left. */
#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "workbench/artwork-view.h"
#include "workbench/outline-dialog.h"

#define TITLE "Outline of Pear"

static void
show_pear (GtkWindow *parent, HwBench *bench)
{
  hw_outline_dialog_show (parent, bench, "m1");
}

static GtkWidget *
open (Desk *desk)
{
  desk_open (desk, show_pear, TITLE);
  return hands_find (desk->dialog, GTK_TYPE_WIDGET, "The outline, with its points");
}

static const HwOutline *
outline (Desk *desk)
{
  return hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (desk->bench), "m1"))->outline;
}

static void
says_points (Desk *desk, guint n)
{
  g_autofree char *beginning = g_strdup_printf ("%u points, ", n);
  g_autofree char *said = desk_sentence (desk, beginning);

  if (said == NULL)
    g_error ("there are no %u points", n);
}

static gboolean
can (Desk *desk, const char *button)
{
  return gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_BUTTON, button));
}

/* The corner at the upper left, 20 mm from the middle, goes 0.3 mm left and 1 mm down. */
static void
a_chosen_point_is_nudged_and_taken_over (Desk *desk, gconstpointer data)
{
  GtkWidget *view = open (desk);
  g_autofree char *step = NULL;
  HwPoint before;

  g_assert_false (hands_key (view, GDK_KEY_Left, 0)); /* none is chosen yet */
  g_assert_false (can (desk, "Take the point away"));
  g_assert_true (hands_key (view, GDK_KEY_Tab, 0));
  before = outline (desk)->rings[0].points[0];
  for (guint i = 0; i < 3; i++)
    g_assert_true (hands_key (view, GDK_KEY_Left, 0));
  g_assert_true (hands_key (view, GDK_KEY_Down, GDK_SHIFT_MASK));
  g_assert_true (hands_key (view, GDK_KEY_Down, 0));
  g_assert_true (hands_key (view, GDK_KEY_Up, 0));
  g_assert_true (hands_key (view, GDK_KEY_Right, 0));
  g_assert_true (hands_key (view, GDK_KEY_Left, 0));
  g_assert_true (hands_key (view, GDK_KEY_Return, 0));
  g_assert_true (desk_is_closed (desk, TITLE));
  HwPoint after = outline (desk)->rings[0].points[0];
  g_assert_cmpfloat_with_epsilon (after.x, before.x - 0.3, 1e-6);
  g_assert_cmpfloat_with_epsilon (after.y, before.y + 1, 1e-6);
  g_object_get (desk->bench, "undo-name", &step, NULL);
  g_assert_nonnull (step);
}

static void
what_is_left_stays_as_it_was (Desk *desk, gconstpointer data)
{
  GtkWidget *view = open (desk);
  const HwOutline *before = outline (desk);

  hands_key (view, GDK_KEY_Tab, 0);
  hands_key (view, GDK_KEY_Left, GDK_SHIFT_MASK);
  hands_click (desk->dialog, "Cancel");
  g_assert_true (desk_is_closed (desk, TITLE));
  g_assert_true (outline (desk) == before);
}

/* An outline that was not changed is no step. */
static void
taking_over_nothing_is_no_step (Desk *desk, gconstpointer data)
{
  g_autofree char *step = NULL;

  open (desk);
  hands_click (desk->dialog, "Use this outline");
  g_assert_true (desk_is_closed (desk, TITLE));
  g_object_get (desk->bench, "undo-name", &step, NULL);
  g_assert_null (step);
}

static void
three_points_stay (Desk *desk, gconstpointer data)
{
  GtkWidget *view = open (desk);

  says_points (desk, 4);
  hands_key (view, GDK_KEY_Tab, 0);
  g_assert_true (hands_key (view, GDK_KEY_Delete, 0));
  says_points (desk, 3);
  hands_key (view, GDK_KEY_Tab, 0);
  g_assert_true (hands_key (view, GDK_KEY_BackSpace, 0));
  desk_says (desk, "An outline needs three points: these stay.");
  says_points (desk, 3);
}

static void
steps_are_undone_and_done_again (Desk *desk, gconstpointer data)
{
  GtkWidget *view = open (desk);

  g_assert_false (can (desk, "Undo"));
  g_assert_false (can (desk, "Redo"));
  hands_key (view, GDK_KEY_Tab, 0);
  hands_click (desk->dialog, "Take the point away");
  says_points (desk, 3);
  hands_click (desk->dialog, "Undo");
  says_points (desk, 4);
  g_assert_false (can (desk, "Undo"));
  hands_click (desk->dialog, "Redo");
  says_points (desk, 3);
  g_assert_false (can (desk, "Redo"));
}

/* And from the last, or before the first, on to the buttons. */
static void
tab_goes_through_the_points (Desk *desk, gconstpointer data)
{
  GtkWidget *view = open (desk);

  for (guint i = 0; i < 4; i++)
    g_assert_true (hands_key (view, GDK_KEY_Tab, 0));
  g_assert_false (hands_key (view, GDK_KEY_Tab, 0));
  g_assert_false (can (desk, "Take the point away"));
  for (guint i = 0; i < 4; i++)
    g_assert_true (hands_key (view, GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK));
  g_assert_false (hands_key (view, GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK));
  g_assert_false (hands_key (view, GDK_KEY_x, 0));
  g_assert_false (hands_key (view, GDK_KEY_Tab, GDK_CONTROL_MASK));
}

static HwPoint
pixel (GtkWidget *view, double x, double y)
{
  return hw_view_to_pixels (hw_artwork_view_get_view (HW_ARTWORK_VIEW (view)), (HwPoint){ x, y });
}

/* The lower right corner, at 20, 20, is pulled out; a press on a side puts a point there. */
static void
the_pointer_pulls_points_and_puts_new_ones (Desk *desk, gconstpointer data)
{
  GtkWidget *view = open (desk);
  HwPoint from = pixel (view, 20, 20), to = pixel (view, 25, 22), side = pixel (view, 0, -20);

  hands_pointer (view, "press", from.x, from.y);
  hands_pointer (view, "move", (from.x + to.x) / 2, (from.y + to.y) / 2);
  hands_pointer (view, "move", to.x, to.y);
  hands_pointer (view, "release", to.x, to.y);
  says_points (desk, 4);
  hands_pointer (view, "move", side.x, side.y);
  hands_pointer (view, "press", side.x, side.y);
  hands_pointer (view, "release", side.x, side.y);
  says_points (desk, 5);
  hands_click (desk->dialog, "Use this outline");
  g_assert_cmpfloat_with_epsilon (outline (desk)->box.x1, 25, 0.2);
  g_assert_cmpfloat_with_epsilon (outline (desk)->box.y1, 22, 0.2);
}

/* The right button takes a point away at once; beside all points it does nothing. */
static void
the_right_button_takes_a_point_away (Desk *desk, gconstpointer data)
{
  GtkWidget *view = open (desk);
  HwPoint at = pixel (view, -20, -20), middle = pixel (view, 0, 0);

  hands_pointer (view, "menu", middle.x, middle.y);
  says_points (desk, 4);
  hands_pointer (view, "menu", at.x, at.y);
  says_points (desk, 3);
}

/* Nearer about the middle with keys, about the pointer with the wheel; pulled where there is no point, the picture is pushed; nought shows all again. */
static void
the_outline_is_looked_at_near_and_far (Desk *desk, gconstpointer data)
{
  GtkWidget *view = open (desk);
  static const guint nearer[] = { GDK_KEY_plus, GDK_KEY_equal, GDK_KEY_KP_Add },
                     farther[] = { GDK_KEY_minus, GDK_KEY_KP_Subtract },
                     whole[] = { GDK_KEY_0, GDK_KEY_KP_0 };
  HwView all = *hw_artwork_view_get_view (HW_ARTWORK_VIEW (view));
  HwPoint corner = pixel (view, 20, 20);

  for (guint i = 0; i < 3; i++)
    g_assert_true (hands_key (view, nearer[i], 0));
  HwView near = *hw_artwork_view_get_view (HW_ARTWORK_VIEW (view));
  g_assert_cmpfloat (near.zoom, >, all.zoom * 1.5);
  for (guint i = 0; i < 2; i++)
    g_assert_true (hands_key (view, farther[i], 0));
  g_assert_cmpfloat (hw_artwork_view_get_view (HW_ARTWORK_VIEW (view))->zoom, <, near.zoom);
  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (hands_key (view, whole[i], 0));
      g_assert_cmpfloat_with_epsilon (hw_artwork_view_get_view (HW_ARTWORK_VIEW (view))->zoom, all.zoom,
                                      1e-9);
      hands_key (view, GDK_KEY_plus, 0);
    }
  hands_key (view, GDK_KEY_0, 0);
  hands_pointer (view, "move", corner.x, corner.y);
  hands_pointer (view, "wheel-up", corner.x, corner.y);
  g_assert_cmpfloat (hw_artwork_view_get_view (HW_ARTWORK_VIEW (view))->zoom, >, all.zoom);
  g_assert_cmpfloat (hw_point_distance (pixel (view, 20, 20), corner), <, 2);
  HwPoint before = pixel (view, 0, 0);
  hands_pointer (view, "press", before.x, before.y);
  hands_pointer (view, "move", before.x + 15, before.y - 10);
  hands_pointer (view, "move", before.x + 30, before.y - 20);
  hands_pointer (view, "release", before.x + 30, before.y - 20);
  HwPoint after = pixel (view, 0, 0);
  g_assert_cmpfloat_with_epsilon (after.x - before.x, 30, 1.01);
  g_assert_cmpfloat_with_epsilon (after.y - before.y, -20, 1.01);
  says_points (desk, 4);
}

/* Of a motif that is stitched, or locked, the outline stays what it is. */
static void
what_is_held_is_not_edited (Desk *desk, gconstpointer data)
{
  hw_bench_select_only (desk->bench, "m1");
  hw_bench_set_locked (desk->bench, TRUE);
  show_pear (desk->parent, desk->bench);
  g_assert_null (hands_window (TITLE));
  hw_outline_dialog_show (desk->parent, desk->bench, "m77");
  g_assert_null (hands_window (TITLE));
}

static char *sloe;

static void
show_sloe (GtkWindow *parent, HwBench *bench)
{
  hw_outline_dialog_show (parent, bench, sloe);
}

/* Behind the outline its stitches are seen, in their threads. */
static void
the_stitches_are_seen_behind_it (Desk *desk, gconstpointer data)
{
  guint moss = 0;

  bench_add_stitched (desk->bench, "Sloe", 300, 200);
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (desk->bench);
  sloe = g_strdup (hw_scene_motif_get_record (g_ptr_array_index (selection, 0))->id);
  desk_open (desk, show_sloe, "Outline of Sloe");
  cairo_surface_t *picture = hands_picture (GTK_WIDGET (desk->dialog));
  for (int y = 0; y < cairo_image_surface_get_height (picture); y++)
    for (int x = 0; x < cairo_image_surface_get_width (picture); x++)
      {
        guint32 p = hands_row (picture, y)[x];

        moss += (p >> 8 & 0xff) > (p >> 16 & 0xff) + 20 && (p >> 8 & 0xff) > (p & 0xff) + 20;
      }
  cairo_surface_destroy (picture);
  g_assert_cmpuint (moss, >, 500);
  g_clear_pointer (&sloe, g_free);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/outline-dialog/" #test, Desk, NULL, desk_set_up, test, desk_tear_down)
  ADD (a_chosen_point_is_nudged_and_taken_over);
  ADD (what_is_left_stays_as_it_was);
  ADD (taking_over_nothing_is_no_step);
  ADD (three_points_stay);
  ADD (steps_are_undone_and_done_again);
  ADD (tab_goes_through_the_points);
  ADD (the_pointer_pulls_points_and_puts_new_ones);
  ADD (the_right_button_takes_a_point_away);
  ADD (the_outline_is_looked_at_near_and_far);
  ADD (what_is_held_is_not_edited);
  ADD (the_stitches_are_seen_behind_it);
  return g_test_run ();
}

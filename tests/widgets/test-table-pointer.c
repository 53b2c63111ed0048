/* The pointer over the table: its shape says what a press would do, what lies under it is told apart, and the wheel looks nearer and a touchpad elsewhere. */
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "table-fixture.h"
#include "workbench/canvas-marks.h"

static const HwPoint pear = { 100, 100 }, quince = { 550, 100 }, bare = { 350, 300 };

static void
point_at (Table *table, HwPoint pixel)
{
  GtkEventController *motion
      = hands_controller (GTK_WIDGET (table->canvas), GTK_TYPE_EVENT_CONTROLLER_MOTION);

  g_signal_emit_by_name (motion, "motion", pixel.x, pixel.y);
  hands_settle ();
}

static void
point_at_cloth (Table *table, HwPoint at)
{
  point_at (table, table_pixel (table, at.x, at.y));
}

static void
assert_cursor (Table *table, const char *name)
{
  GdkCursor *cursor = gtk_widget_get_cursor (GTK_WIDGET (table->canvas));

  g_assert_nonnull (cursor);
  g_assert_cmpstr (gdk_cursor_get_name (cursor), ==, name);
}

static void
its_shape_says_what_a_press_would_do (Table *table, gconstpointer data)
{
  HwHandles handles;

  point_at_cloth (table, bare);
  assert_cursor (table, "default");
  point_at_cloth (table, quince);
  g_assert_cmpint (table->canvas->hover_motif, ==, 2);
  assert_cursor (table, "pointer");
  hw_bench_select_only (table->bench, "m3");
  point_at_cloth (table, quince);
  assert_cursor (table, "move");
  hw_bench_set_locked (table->bench, TRUE);
  point_at_cloth (table, quince);
  assert_cursor (table, "not-allowed");
  hw_bench_select_only (table->bench, NULL);
  point_at_cloth (table, quince);
  assert_cursor (table, "pointer");
  hw_bench_undo (table->bench);
  point_at (table, hw_canvas_disc_at (table->canvas, 0));
  g_assert_cmpint (table->canvas->hover_hooping, ==, 0);
  assert_cursor (table, "pointer");
  hw_bench_select_only (table->bench, "m3");
  g_assert_true (hw_canvas_handles (table->canvas, &handles));
  point_at (table, handles.at[HW_HANDLE_TOP_LEFT]);
  assert_cursor (table, "nwse-resize");
  point_at (table, handles.at[HW_HANDLE_TOP_RIGHT]);
  assert_cursor (table, "nesw-resize");
  point_at (table, handles.at[HW_HANDLE_TURN]);
  assert_cursor (table, NULL); /* one of our own */
}

/* A turned motif's corner is pulled straight to the side: so does the pointer show. */
static void
a_turned_corner_is_pulled_its_own_way (Table *table, gconstpointer data)
{
  HwPlacement turned = { .position = quince, .angle = 45, .scale = 1 };
  HwHandles handles;

  hw_scene_motif_set_placement (hw_scene_find_motif (hw_bench_get_scene (table->bench), "m3"), &turned);
  hw_bench_select_only (table->bench, "m3");
  g_assert_true (hw_canvas_handles (table->canvas, &handles));
  point_at (table, handles.at[HW_HANDLE_TOP_LEFT]);
  assert_cursor (table, "ns-resize");
  point_at (table, handles.at[HW_HANDLE_TOP_RIGHT]);
  assert_cursor (table, "ew-resize");
}

static void
alt_reaches_through_to_the_motif_below (Table *table, gconstpointer data)
{
  HwPlacement over = { .position = { 150, 100 }, .scale = 1 };
  GtkEventController *keys = hands_controller (GTK_WIDGET (table->canvas), GTK_TYPE_EVENT_CONTROLLER_KEY);
  gboolean taken;

  hw_scene_motif_set_placement (hw_scene_find_motif (hw_bench_get_scene (table->bench), "m3"), &over);
  point_at_cloth (table, over.position);
  g_signal_emit_by_name (keys, "modifiers", GDK_ALT_MASK, &taken);
  assert_cursor (table, "cell");
  point_at_cloth (table, pear);
  assert_cursor (table, "pointer"); /* nothing lies below it */
  point_at_cloth (table, over.position);
  g_signal_emit_by_name (keys, "modifiers", 0, &taken);
  assert_cursor (table, "pointer");
}

static void
what_is_in_the_hand_is_held (Table *table, gconstpointer data)
{
  hands_key (GTK_WIDGET (table->canvas), GDK_KEY_space, 0);
  assert_cursor (table, "grab");
  g_signal_emit_by_name (hands_controller (GTK_WIDGET (table->canvas), GTK_TYPE_EVENT_CONTROLLER_KEY),
                         "key-released", GDK_KEY_space, 0, 0);
  table_pull (table, quince, (HwPoint){ -20, 20 }, 0);
  assert_cursor (table, "grabbing");
  hw_drag_cancel (table->canvas);
  table_pull (table, bare, (HwPoint){ -20, 20 }, 0);
  assert_cursor (table, "crosshair");
  hw_drag_cancel (table->canvas);
  hw_drag_press (table->canvas, (HwPoint){ 400, 300 }, 0, TRUE);
  hw_drag_motion (table->canvas, (HwPoint){ 420, 310 }, 0);
  assert_cursor (table, "grabbing");
  hw_drag_cancel (table->canvas);
}

static void
marks_in_reach_are_told_from_those_that_stay (Table *table, gconstpointer data)
{
  g_autoptr (GArray) marks = NULL;

  hw_bench_choose_hooping (table->bench, 0);
  hands_key (GTK_WIDGET (table->canvas), GDK_KEY_1, 0);
  marks = hw_canvas_marks (table->canvas);
  hw_canvas_show (table->canvas, g_array_index (marks, HwCanvasMark, 0).at);
  point_at_cloth (table, g_array_index (marks, HwCanvasMark, 0).at);
  g_assert_cmpint (table->canvas->hover_mark, ==, 0);
  assert_cursor (table, "move");
  g_assert_true (hw_bench_begin_hooping (table->bench, 0));
  wait_for_plan (table->bench);
  hw_bench_choose_hooping (table->bench, hw_bench_get_begun_hooping (table->bench));
  hw_bench_set_reading (table->bench, hw_bench_get_begun (table->bench)->marks[0].letter, (HwPoint){ 1, 1 });
  hands_settle ();
  point_at_cloth (table, hw_bench_get_begun (table->bench)->marks[0].at);
  g_assert_cmpint (table->canvas->hover_mark, ==, 0);
  assert_cursor (table, "not-allowed");
}

/* Beside the cloth's table, over its rulers, and outside the window nothing is under the pointer. */
static void
over_the_rulers_nothing_is_meant (Table *table, gconstpointer data)
{
  HwPoint at = table_pixel (table, quince.x, quince.y);

  point_at_cloth (table, quince);
  g_assert_cmpint (table->canvas->hover_motif, ==, 2);
  point_at (table, (HwPoint){ at.x, 3 });
  g_assert_cmpint (table->canvas->hover_motif, ==, -1);
  point_at_cloth (table, quince);
  g_signal_emit_by_name (hands_controller (GTK_WIDGET (table->canvas), GTK_TYPE_EVENT_CONTROLLER_MOTION),
                         "leave");
  g_assert_cmpint (table->canvas->hover_motif, ==, -1);
}

static gboolean
scroll (Table *table, double dx, double dy)
{
  gboolean taken = FALSE;

  g_signal_emit_by_name (hands_controller (GTK_WIDGET (table->canvas), GTK_TYPE_EVENT_CONTROLLER_SCROLL),
                         "scroll", dx, dy, &taken);
  return taken;
}

/* Whole notches are a wheel's and zoom about the pointer; parts of notches are a touchpad's and push the cloth. */
static void
a_wheel_zooms_and_a_touchpad_pushes (Table *table, gconstpointer data)
{
  HwPoint at = table_pixel (table, 350, 200);
  double zoom = table->canvas->view.zoom;

  point_at (table, at);
  g_assert_true (scroll (table, 0, -1));
  g_assert_true (scroll (table, 0, -1));
  g_assert_true (scroll (table, 0, -1));
  g_assert_cmpfloat_with_epsilon (table->canvas->view.zoom, zoom * 1.15 * 1.15 * 1.15, 1e-6);
  HwPoint under = hw_view_to_cloth (&table->canvas->view, at);
  g_assert_cmpfloat_with_epsilon (under.x, 350, 0.5);
  g_assert_cmpfloat_with_epsilon (under.y, 200, 0.5);
  HwView before = table->canvas->view;
  g_assert_true (scroll (table, 0.5, 0.25));
  g_assert_cmpfloat_with_epsilon (table->canvas->view.zoom, before.zoom, 1e-9);
  g_assert_cmpfloat_with_epsilon (table->canvas->view.x, before.x - 30, 1.01);
  g_assert_cmpfloat_with_epsilon (table->canvas->view.y, before.y - 15, 1.01);
  before = table->canvas->view;
  g_assert_true (scroll (table, 1, 0)); /* a wheel that is tilted */
  g_assert_cmpfloat_with_epsilon (table->canvas->view.zoom, before.zoom, 1e-9);
  g_assert_cmpfloat (table->canvas->view.x, <, before.x);
}

/* A pull that the system breaks off, as when another window takes the pointer, is none: what was pulled goes back. */
static void
a_pull_broken_off_is_given_back (Table *table, gconstpointer data)
{
  GtkEventController *drag = hands_controller (GTK_WIDGET (table->canvas), GTK_TYPE_GESTURE_DRAG);

  table_pull (table, quince, (HwPoint){ -60, 40 }, 0);
  g_signal_emit_by_name (drag, "cancel", NULL);
  g_assert_cmpfloat_with_epsilon (table_placement (table, "m3").position.x, 550, 1e-9);
  g_assert_false (hw_bench_is_editing (table->bench));
}

/* Held at the table's rim, what is pulled takes the cloth along, as far as there is cloth. */
static void
at_the_rim_the_cloth_creeps (Table *table, gconstpointer data)
{
  hands_key (GTK_WIDGET (table->canvas), GDK_KEY_1, 0);
  hw_canvas_show (table->canvas, pear);
  HwPoint from = table_pixel (table, pear.x, pear.y);
  double right = hw_canvas_area (table->canvas).x1;

  table_pull_pixels (table, from, (HwPoint){ right - 4, from.y }, GDK_CONTROL_MASK);
  double x = table->canvas->view.x;
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  while (table->canvas->view.x > x - 20 && g_get_monotonic_time () < end)
    hands_frame (GTK_WIDGET (table->canvas));
  g_assert_cmpfloat (table->canvas->view.x, <=, x - 20);
  hw_drag_release (table->canvas);
  HwPoint at = table_pixel (table, table_placement (table, "m1").position.x, pear.y);
  g_assert_cmpfloat_with_epsilon (at.x, right - 4, 6);
}

/* The same to the left and upwards, and not where there is no more cloth. */
static void
at_the_near_rims_it_creeps_back (Table *table, gconstpointer data)
{
  HwBox area;

  hw_canvas_set_place (table->canvas, (HwPoint){ 560, 260 }, 4);
  hands_settle ();
  area = hw_canvas_area (table->canvas);
  hw_bench_select_only (table->bench, "m3");
  hw_bench_nudge (table->bench, 10, 160);
  HwPoint from = table_pixel (table, 560, 260), corner = { area.x0 + 3, area.y0 + 3 };
  table_pull_pixels (table, from, corner, GDK_CONTROL_MASK);
  double x = table->canvas->view.x, y = table->canvas->view.y;
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  while ((table->canvas->view.x < x + 20 || table->canvas->view.y < y + 20) && g_get_monotonic_time () < end)
    hands_frame (GTK_WIDGET (table->canvas));
  g_assert_cmpfloat (table->canvas->view.x, >=, x + 20);
  g_assert_cmpfloat (table->canvas->view.y, >=, y + 20);
  hw_drag_cancel (table->canvas);
  hw_canvas_zoom_fit (table->canvas);
  hands_settle ();
  from = table_pixel (table, 100, 100);
  table_pull_pixels (table, from, corner, GDK_CONTROL_MASK);
  x = table->canvas->view.x;
  for (guint i = 0; i < 4; i++)
    hands_frame (GTK_WIDGET (table->canvas));
  g_assert_cmpfloat (table->canvas->view.x, ==, x);
  hw_drag_cancel (table->canvas);
}

/* What is seen while something is pulled, pointed out or looked at closely: a picture is made of each, and the red of what breaks a rule is in it. */
static void
what_is_pulled_past_the_edge_is_seen_in_red (Table *table, gconstpointer data)
{
  guint before;

  hw_bench_select_only (table->bench, "m3");
  before = hands_reddish (GTK_WIDGET (table->canvas));
  table_pull (table, quince, (HwPoint){ 0, -105 }, GDK_CONTROL_MASK);
  hands_frame (GTK_WIDGET (table->canvas));
  g_assert_cmpuint (hands_reddish (GTK_WIDGET (table->canvas)), >, before);
  hw_drag_cancel (table->canvas);
  hands_frame (GTK_WIDGET (table->canvas));
  g_assert_cmpuint (hands_reddish (GTK_WIDGET (table->canvas)), <=, before + 20);
}

/* Between three in a line the gaps come to be the same, and the gap is written beside each of them. */
static void
equal_gaps_are_shown_with_their_length (Table *table, gconstpointer data)
{
  static const char *const pair[] = { "m1", "m2", NULL };

  table_pull (table, quince, (HwPoint){ -349.6, 0.2 }, 0);
  hands_frame (GTK_WIDGET (table->canvas));
  g_assert_cmpuint (table->canvas->drag.n_guides, >=, 1);
  g_assert_cmpfloat_with_epsilon (table_placement (table, "m3").position.x, 200, 1e-6);
  hands_reddish (GTK_WIDGET (table->canvas));
  hw_drag_cancel (table->canvas);
  /* And below each other. */
  hw_bench_select_ids (table->bench, pair + 1);
  hw_bench_nudge (table->bench, -50, 60);
  hw_bench_select_only (table->bench, NULL);
  table_pull (table, quince, (HwPoint){ -450, 120.3 }, 0);
  hands_frame (GTK_WIDGET (table->canvas));
  g_assert_cmpuint (table->canvas->drag.n_guides, >=, 1);
  g_assert_cmpfloat_with_epsilon (table_placement (table, "m3").position.y, 220, 1e-6);
  hands_reddish (GTK_WIDGET (table->canvas));
  hw_drag_release (table->canvas);
}

/* The pointer of the desk itself: a press and a pull lay a motif elsewhere, pressed on the rulers nothing is taken up. */
static void
a_pull_by_the_pointer_lays_it_elsewhere (Table *table, gconstpointer data)
{
  GtkWidget *canvas = GTK_WIDGET (table->canvas);
  HwPoint from = table_pixel (table, 550, 100), to = table_pixel (table, 480, 220);
  HwPoint lies;

  hands_pointer (canvas, "move", from.x, from.y);
  hands_pointer (canvas, "press", from.x, from.y);
  hands_pointer (canvas, "move", (from.x + to.x) / 2, (from.y + to.y) / 2);
  g_assert_cmpint (table->canvas->drag.pull, ==, HW_PULL_MOVE);
  hands_pointer (canvas, "move", to.x, to.y);
  hands_pointer (canvas, "release", to.x, to.y);
  g_assert_cmpint (table->canvas->drag.pull, ==, HW_PULL_NONE);
  g_assert_true (gtk_widget_has_focus (canvas));
  lies = table_placement (table, "m3").position;
  g_assert_cmpfloat (hw_point_distance (lies, (HwPoint){ 480, 220 }), <, 6);
  hands_pointer (canvas, "move", 8, 300);
  hands_pointer (canvas, "press", 8, 300);
  hands_pointer (canvas, "move", 200, 320);
  g_assert_cmpint (table->canvas->drag.pull, ==, HW_PULL_NONE);
  hands_pointer (canvas, "release", 200, 320);
  /* The third button asks what can be done there. */
  HwPoint at = table_pixel (table, 100, 100);
  hands_pointer (canvas, "menu", at.x, at.y);
  g_assert_true (hw_bench_is_selected (table->bench, "m1"));
  /* The wheel brings nearer what lies under the pointer. */
  double zoom = table->canvas->view.zoom;
  gtk_widget_grab_focus (canvas);
  hands_key (canvas, GDK_KEY_Escape, 0);
  for (GtkWidget *child = gtk_widget_get_first_child (canvas); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child))
      gtk_popover_popdown (GTK_POPOVER (child));
  hands_settle ();
  hands_pointer (canvas, "wheel-up", at.x, at.y);
  g_assert_cmpfloat (table->canvas->view.zoom, >, zoom);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/table-pointer/" #test, Table, NULL, table_set_up, test, table_tear_down)
  ADD (its_shape_says_what_a_press_would_do);
  ADD (a_turned_corner_is_pulled_its_own_way);
  ADD (alt_reaches_through_to_the_motif_below);
  ADD (what_is_in_the_hand_is_held);
  ADD (marks_in_reach_are_told_from_those_that_stay);
  ADD (over_the_rulers_nothing_is_meant);
  ADD (a_wheel_zooms_and_a_touchpad_pushes);
  ADD (a_pull_broken_off_is_given_back);
  ADD (at_the_rim_the_cloth_creeps);
  ADD (at_the_near_rims_it_creeps_back);
  ADD (what_is_pulled_past_the_edge_is_seen_in_red);
  ADD (equal_gaps_are_shown_with_their_length);
  ADD (a_pull_by_the_pointer_lays_it_elsewhere);
  return g_test_run ();
}

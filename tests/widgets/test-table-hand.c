/* The hand on the table: what is pulled goes where it is pulled, as one step; Escape gives all of it back; a click takes what is meant. */
#include <math.h>

#include "table-fixture.h"

static const HwPoint pear = { 100, 100 }, plum = { 150, 100 }, quince = { 550, 100 }, bare = { 350, 300 };

static void
assert_step (Table *table, const char *expected)
{
  g_autofree char *name = table_undo_name (table);

  g_assert_cmpstr (name, ==, expected);
}

static void
assert_selected (Table *table, const char *expected)
{
  g_autofree char *ids = table_selected (table);

  g_assert_cmpstr (ids, ==, expected);
}

static void
assert_at (Table *table, const char *id, double x, double y)
{
  HwPoint at = table_placement (table, id).position;

  g_assert_cmpfloat_with_epsilon (at.x, x, 0.05 + 1e-9);
  g_assert_cmpfloat_with_epsilon (at.y, y, 0.05 + 1e-9);
}

/* With Ctrl it comes to rest nowhere, on tenths of a millimetre; one step of the history whatever the way. */
static void
what_is_pulled_lies_where_it_was_pulled (Table *table, gconstpointer data)
{
  table_pull (table, quince, (HwPoint){ -123.4, 77.7 }, GDK_CONTROL_MASK);
  g_assert_true (hw_bench_is_editing (table->bench));
  hw_drag_release (table->canvas);
  assert_at (table, "m3", 426.6, 177.7);
  assert_step (table, "move Quince");
  assert_selected (table, "m3");
  hw_bench_undo (table->bench);
  assert_at (table, "m3", 550, 100);
}

static void
shift_keeps_a_pull_on_one_axis (Table *table, gconstpointer data)
{
  table_pull (table, quince, (HwPoint){ -40, 15 }, GDK_SHIFT_MASK | GDK_CONTROL_MASK);
  hw_drag_release (table->canvas);
  assert_at (table, "m3", 510, 100);
  table_pull (table, (HwPoint){ 510, 100 }, (HwPoint){ 10, 60 }, GDK_SHIFT_MASK | GDK_CONTROL_MASK);
  hw_drag_release (table->canvas);
  assert_at (table, "m3", 510, 160);
}

/* Plum stands at 100 mm down: what is pulled beside it, near that, comes to rest there. */
static void
near_another_it_comes_to_rest_in_line (Table *table, gconstpointer data)
{
  HwPlacement low = { .position = { 550, 200 }, .scale = 1 };

  hw_scene_motif_set_placement (hw_scene_find_motif (hw_bench_get_scene (table->bench), "m3"), &low);
  table_pull (table, low.position, (HwPoint){ -330, -98.6 }, 0);
  g_assert_cmpuint (table->canvas->drag.n_guides, >=, 1);
  hw_drag_release (table->canvas);
  g_assert_cmpfloat_with_epsilon (table_placement (table, "m3").position.y, 100, 1e-9);
  g_assert_cmpuint (table->canvas->drag.n_guides, ==, 0);
}

static void
a_locked_motif_stays_while_the_others_go (Table *table, gconstpointer data)
{
  const char *both[] = { "m1", "m2", NULL };

  hw_bench_select_only (table->bench, "m1");
  hw_bench_set_locked (table->bench, TRUE);
  hw_bench_select_ids (table->bench, both);
  table_pull (table, plum, (HwPoint){ 20, 30 }, GDK_CONTROL_MASK);
  hw_drag_release (table->canvas);
  assert_at (table, "m1", 100, 100);
  assert_at (table, "m2", 170, 130);
  /* Of what is all locked nothing comes along. */
  hw_bench_select_only (table->bench, "m1");
  table_pull (table, pear, (HwPoint){ 20, 30 }, GDK_CONTROL_MASK);
  g_assert_false (hw_bench_is_editing (table->bench));
  hw_drag_release (table->canvas);
  assert_at (table, "m1", 100, 100);
}

static HwPoint
handle_at (Table *table, HwHandle handle)
{
  HwHandles handles;

  g_assert_true (hw_canvas_handles (table->canvas, &handles));
  return handles.at[handle];
}

static void
pull_handle (Table *table, HwHandle handle, HwPoint to, GdkModifierType held)
{
  table_pull_pixels (table, handle_at (table, handle), to, held);
}

/* Pulled from above the motif to its right, by a quarter turn clockwise. */
static void
the_turning_handle_turns (Table *table, gconstpointer data)
{
  HwPoint middle = table_pixel (table, quince.x, quince.y), from;
  double far;

  hw_bench_select_only (table->bench, "m3");
  from = handle_at (table, HW_HANDLE_TURN);
  far = hw_point_distance (from, middle);
  pull_handle (table, HW_HANDLE_TURN,
               (HwPoint){ middle.x - (from.y - middle.y), middle.y + (from.x - middle.x) }, 0);
  hw_drag_release (table->canvas);
  g_assert_cmpfloat_with_epsilon (table_placement (table, "m3").angle, 90, 1e-9);
  assert_at (table, "m3", 550, 100);
  assert_step (table, "turn Quince");
  /* With Shift in steps of 15 degrees. */
  from = handle_at (table, HW_HANDLE_TURN);
  g_assert_cmpfloat (far, >, 0);
  HwPoint arm = hw_point_turn ((HwPoint){ from.x - middle.x, from.y - middle.y }, 27);
  pull_handle (table, HW_HANDLE_TURN, (HwPoint){ middle.x + arm.x, middle.y + arm.y }, GDK_SHIFT_MASK);
  hw_drag_release (table->canvas);
  g_assert_cmpfloat_with_epsilon (table_placement (table, "m3").angle, 120, 1e-9);
}

/* Two are turned about the middle of both: they change places after half a turn. */
static void
several_turn_about_their_middle (Table *table, gconstpointer data)
{
  const char *both[] = { "m1", "m2", NULL };
  HwPoint middle, from;

  hw_bench_select_ids (table->bench, both);
  middle = table_pixel (table, 125, 100);
  from = handle_at (table, HW_HANDLE_TURN);
  pull_handle (table, HW_HANDLE_TURN, (HwPoint){ 2 * middle.x - from.x + 1, 2 * middle.y - from.y },
               GDK_SHIFT_MASK);
  hw_drag_release (table->canvas);
  assert_at (table, "m1", 150, 100);
  assert_at (table, "m2", 100, 100);
  assert_step (table, "turn 2 motifs");
}

static void
a_corner_resizes_about_the_opposite_one (Table *table, gconstpointer data)
{
  HwPoint from, to, far = table_pixel (table, 530, 80);
  HwPlacement now;

  hw_bench_select_only (table->bench, "m3");
  from = table_pixel (table, 570, 120);
  to = (HwPoint){ from.x + (from.x - far.x), from.y + (from.y - far.y) };
  HwPoint handle = handle_at (table, HW_HANDLE_BOTTOM_RIGHT);
  pull_handle (table, HW_HANDLE_BOTTOM_RIGHT, (HwPoint){ handle.x + to.x - from.x, handle.y + to.y - from.y },
               0);
  hw_drag_release (table->canvas);
  now = table_placement (table, "m3");
  g_assert_cmpfloat_with_epsilon (now.scale, 2, 1e-9);
  assert_at (table, "m3", 570, 120);
  assert_step (table, "resize Quince");
}

static void
with_ctrl_a_corner_resizes_about_the_middle (Table *table, gconstpointer data)
{
  HwPoint handle, arm;

  hw_bench_select_only (table->bench, "m3");
  handle = handle_at (table, HW_HANDLE_TOP_LEFT);
  arm = table_pixel (table, 530, 80);
  HwPoint middle = table_pixel (table, 550, 100);
  pull_handle (table, HW_HANDLE_TOP_LEFT,
               (HwPoint){ handle.x + (arm.x - middle.x) / 2, handle.y + (arm.y - middle.y) / 2 },
               GDK_CONTROL_MASK);
  hw_drag_release (table->canvas);
  g_assert_cmpfloat_with_epsilon (table_placement (table, "m3").scale, 1.5, 1e-9);
  assert_at (table, "m3", 550, 100);
}

/* However far it is pulled in, something is left to take hold of. */
static void
nothing_is_resized_away (Table *table, gconstpointer data)
{
  hw_bench_select_only (table->bench, "m3");
  pull_handle (table, HW_HANDLE_BOTTOM_RIGHT, table_pixel (table, 530, 80), 0);
  hw_drag_release (table->canvas);
  g_assert_cmpfloat (table_placement (table, "m3").scale, >=, 0.05);
  g_assert_cmpfloat (table_placement (table, "m3").scale, <, 0.5);
}

/* On the whole window, since the keyboard may be elsewhere. */
static void
escape (Table *table)
{
  g_assert_true (hands_key (GTK_WIDGET (table->window), GDK_KEY_Escape, 0));
}

static void
escape_gives_back_what_was_pulled (Table *table, gconstpointer data)
{
  table_pull (table, quince, (HwPoint){ -60, 40 }, 0);
  assert_at (table, "m3", 490, 140);
  g_assert_false (hands_key (GTK_WIDGET (table->window), GDK_KEY_x, 0));
  escape (table);
  assert_at (table, "m3", 550, 100);
  assert_step (table, NULL);
  /* What is still held moves nothing any more, and no step is left behind. */
  hw_drag_motion (table->canvas, table_pixel (table, 300, 300), 0);
  hw_drag_release (table->canvas);
  assert_at (table, "m3", 550, 100);
  assert_step (table, NULL);
}

static void
escape_gives_back_turn_and_size (Table *table, gconstpointer data)
{
  hw_bench_select_only (table->bench, "m3");
  pull_handle (table, HW_HANDLE_TURN, table_pixel (table, 650, 150), 0);
  g_assert_cmpfloat (table_placement (table, "m3").angle, !=, 0);
  escape (table);
  g_assert_cmpfloat (table_placement (table, "m3").angle, ==, 0);
  pull_handle (table, HW_HANDLE_BOTTOM_LEFT, table_pixel (table, 450, 200), 0);
  g_assert_cmpfloat (table_placement (table, "m3").scale, >, 1);
  hands_key (GTK_WIDGET (table->canvas), GDK_KEY_Escape, 0);
  g_assert_cmpfloat (table_placement (table, "m3").scale, ==, 1);
  assert_step (table, NULL);
}

static void
a_band_selects_what_it_covers (Table *table, gconstpointer data)
{
  table_pull (table, (HwPoint){ 60, 160 }, (HwPoint){ 65, -100 }, 0);
  assert_selected (table, "m1");
  hw_drag_motion (table->canvas, table_pixel (table, 200, 60), 0);
  assert_selected (table, "m1 m2");
  hw_drag_release (table->canvas);
  assert_selected (table, "m1 m2");
}

static void
with_shift_a_band_adds (Table *table, gconstpointer data)
{
  HwPoint from = table_pixel (table, 60, 160), to = table_pixel (table, 200, 60);

  hw_bench_select_only (table->bench, "m3");
  hw_drag_press (table->canvas, from, GDK_SHIFT_MASK, FALSE);
  hw_drag_motion (table->canvas, to, GDK_SHIFT_MASK);
  assert_selected (table, "m1 m2 m3");
  hw_drag_cancel (table->canvas);
  assert_selected (table, "m3");
}

static void
panning_is_given_back_too (Table *table, gconstpointer data)
{
  HwView before = table->canvas->view;

  hw_canvas_zoom_by (table->canvas, 4);
  before = table->canvas->view;
  hw_drag_press (table->canvas, (HwPoint){ 450, 350 }, 0, TRUE);
  hw_drag_motion (table->canvas, (HwPoint){ 480, 330 }, 0);
  g_assert_cmpfloat_with_epsilon (table->canvas->view.x - before.x, 30, 1e-9);
  g_assert_cmpfloat_with_epsilon (table->canvas->view.y - before.y, -20, 1e-9);
  hw_drag_cancel (table->canvas);
  g_assert_cmpfloat_with_epsilon (table->canvas->view.x, before.x, 1e-9);
  hw_drag_press (table->canvas, (HwPoint){ 450, 350 }, 0, TRUE);
  hw_drag_motion (table->canvas, (HwPoint){ 480, 330 }, 0);
  hw_drag_release (table->canvas);
  g_assert_cmpfloat_with_epsilon (table->canvas->view.x - before.x, 30, 1e-9);
  assert_selected (table, "");
}

static void
clicks_take_add_and_leave (Table *table, gconstpointer data)
{
  table_click (table, pear, 0);
  assert_selected (table, "m1");
  table_click (table, quince, GDK_SHIFT_MASK);
  assert_selected (table, "m1 m3");
  table_click (table, pear, GDK_CONTROL_MASK);
  assert_selected (table, "m3");
  table_click (table, bare, GDK_SHIFT_MASK);
  assert_selected (table, "m3");
  table_click (table, bare, 0);
  assert_selected (table, "");
}

/* Quince over Plum: again, or with Alt, the one below is taken; the second half of a double click takes nothing else. */
static void
a_click_again_takes_the_one_below (Table *table, gconstpointer data)
{
  HwPlacement over = { .position = plum, .scale = 1 };

  hw_scene_motif_set_placement (hw_scene_find_motif (hw_bench_get_scene (table->bench), "m3"), &over);
  table_click (table, plum, 0);
  assert_selected (table, "m3");
  table_click (table, plum, 0);
  assert_selected (table, "m2");
  table_click (table, plum, GDK_ALT_MASK);
  assert_selected (table, "m3");
  table->canvas->last_click = g_get_monotonic_time ();
  hw_drag_press (table->canvas, table_pixel (table, plum.x, plum.y), 0, FALSE);
  hw_drag_release (table->canvas);
  assert_selected (table, "m3");
}

/* One pull is enough to take along what was not selected, and with Shift it joins what was. */
static void
a_pull_with_shift_takes_both_along (Table *table, gconstpointer data)
{
  HwPoint from = table_pixel (table, plum.x, plum.y), to = table_pixel (table, plum.x + 30, plum.y + 50);

  hw_bench_select_only (table->bench, "m1");
  hw_drag_press (table->canvas, from, GDK_SHIFT_MASK, FALSE);
  hw_drag_motion (table->canvas, to, GDK_CONTROL_MASK);
  hw_drag_release (table->canvas);
  assert_selected (table, "m1 m2");
  assert_at (table, "m1", 130, 150);
  assert_at (table, "m2", 180, 150);
  hw_bench_undo (table->bench);
  hw_drag_press (table->canvas, table_pixel (table, quince.x, quince.y), GDK_ALT_MASK, FALSE);
  hw_drag_motion (table->canvas, table_pixel (table, quince.x + 9, quince.y + 19), GDK_CONTROL_MASK);
  hw_drag_release (table->canvas);
  assert_selected (table, "m3");
  assert_at (table, "m3", 559, 119);
}

static void
a_disc_chooses_its_hooping_and_leaves_it (Table *table, gconstpointer data)
{
  HwPoint disc = hw_canvas_disc_at (table->canvas, 1);

  hw_drag_press (table->canvas, disc, 0, FALSE);
  hw_drag_release (table->canvas);
  g_assert_cmpint (hw_bench_get_chosen_hooping (table->bench), ==, 1);
  hw_drag_press (table->canvas, hw_canvas_disc_at (table->canvas, 1), 0, FALSE);
  hw_drag_release (table->canvas);
  g_assert_cmpint (hw_bench_get_chosen_hooping (table->bench), ==, -1);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/table-hand/" #test, Table, NULL, table_set_up, test, table_tear_down)
  ADD (what_is_pulled_lies_where_it_was_pulled);
  ADD (shift_keeps_a_pull_on_one_axis);
  ADD (near_another_it_comes_to_rest_in_line);
  ADD (a_locked_motif_stays_while_the_others_go);
  ADD (the_turning_handle_turns);
  ADD (several_turn_about_their_middle);
  ADD (a_corner_resizes_about_the_opposite_one);
  ADD (with_ctrl_a_corner_resizes_about_the_middle);
  ADD (nothing_is_resized_away);
  ADD (escape_gives_back_what_was_pulled);
  ADD (escape_gives_back_turn_and_size);
  ADD (a_band_selects_what_it_covers);
  ADD (with_shift_a_band_adds);
  ADD (panning_is_given_back_too);
  ADD (clicks_take_add_and_leave);
  ADD (a_click_again_takes_the_one_below);
  ADD (a_pull_with_shift_takes_both_along);
  ADD (a_disc_chooses_its_hooping_and_leaves_it);
  return g_test_run ();
}

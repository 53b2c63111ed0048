/* What is not there, or may not be touched, is left alone by every verb: no step is made, and the scene stays as it was. */
#include <math.h>

#include "bench-fixture.h"

static HwBench *
planned (void)
{
  HwBench *bench = bench_with_orchard ();

  wait_for_plan (bench);
  return bench;
}

typedef void (*Verb) (HwBench *bench);

static void
leaves_alone (HwBench *bench, Verb verb, const char *what)
{
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_autofree char *step = NULL, *after_step = NULL;

  g_object_get (bench, "undo-name", &step, NULL);
  verb (bench);
  g_autoptr (HwSnapshot) after = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_object_get (bench, "undo-name", &after_step, NULL);
  if (!hw_snapshot_equal (before, after) || g_strcmp0 (step, after_step) != 0 || hw_bench_is_editing (bench))
    g_error ("%s changed something", what);
}

#define LEAVES(name, ...)                                                                                    \
  static void name (HwBench *b) { __VA_ARGS__; }

LEAVES (unpin_none, hw_bench_unpin (b, 7))
LEAVES (unpin_free, hw_bench_unpin (b, 0))
LEAVES (keep_none, hw_bench_keep_hooping (b, 7, HW_KEEP_ALL))
LEAVES (begin_none, g_assert_false (hw_bench_begin_hooping (b, 7)))
LEAVES (stitched_none, g_assert_false (hw_bench_mark_stitched (b, 7)))
LEAVES (take_back_none, g_assert_false (hw_bench_take_back (b)))
LEAVES (stitched_nothing, g_assert_false (hw_bench_stitched (b)))
LEAVES (lay_aside_none, hw_bench_lay_aside (b))
LEAVES (step_of_none, hw_bench_go_to_step (b, HW_WORK_STITCH))
LEAVES (thread_back_of_none, hw_bench_thread_back (b))
LEAVES (thread_done_of_none, hw_bench_thread_done (b, 1, "m1", "moss"))
LEAVES (note_of_none, hw_bench_note_step (b, HW_WORK_MARK, "chalk"))
LEAVES (reading_of_none, hw_bench_set_reading (b, "A", (HwPoint){ 1, 1 }))
LEAVES (forget_of_none, hw_bench_forget_reading (b, "A"))
LEAVES (leave_out_of_none, hw_bench_leave_out_reading (b, "A", TRUE))
LEAVES (readings_of_none, hw_bench_set_readings (b, "readings", NULL, 0))
LEAVES (hoop_again_none, hw_bench_hoop_again (b))
LEAVES (delete_photo_none, hw_bench_delete_photo (b, 3))
LEAVES (rename_photo_none, hw_bench_rename_photo (b, 3, "Linen", NULL))
LEAVES (square_photo_none, hw_bench_square_photo (b, 3, NULL, 0, 0))
LEAVES (look_of_no_photo, hw_bench_set_photo_look (b, 3, 0.5, 0.5))
LEAVES (hold_no_mark, hw_bench_hold_mark (b, 7, 0); hw_bench_hold_mark (b, 0, 70))
LEAVES (let_go_no_mark, hw_bench_let_go_mark_at (b, (HwPoint){ -300, -300 }))
LEAVES (take_no_mark, hw_bench_take_mark_away (b, 7, 0); hw_bench_take_mark_away (b, 0, 70))
LEAVES (move_no_mark, hw_bench_move_mark (b, 7, 0, (HwPoint){ 1, 1 });
        hw_bench_move_mark (b, 0, 70, (HwPoint){ 1, 1 }))
LEAVES (one_more_of_none, g_assert_false (hw_bench_one_more_mark (b, 7)))
LEAVES (let_go_all_of_none, hw_bench_let_go_all_marks (b))
LEAVES (order_of_none, hw_bench_move_in_order (b, "m9", 0))
LEAVES (order_as_it_is, hw_bench_move_in_order (b, "m2", 1))
LEAVES (outline_of_none, g_autoptr (HwOutline) square = hw_outline_new_rectangle (10, 10);
        g_autofree char *refusal = NULL;
        g_assert_false (hw_bench_set_outline (b, "m9", square, &refusal)))
LEAVES (no_part_to_rename, g_assert_false (hw_bench_rename_part (b, 3, "Gate")))
LEAVES (no_part_to_move, hw_bench_move_part (b, 3, 0))
LEAVES (no_part_to_drop, hw_bench_drop_part (b, 3))
LEAVES (nothing_in_parts, hw_bench_take_out_of_parts (b))
LEAVES (nothing_to_put_in, g_assert_false (hw_bench_put_in_part (b, "Gate")))
LEAVES (no_name_to_put_in, hw_bench_select_only (b, "m1"); g_assert_false (hw_bench_put_in_part (b, "  "));
        hw_bench_select_only (b, NULL))
LEAVES (nothing_selected, hw_bench_nudge (b, 1, 1); hw_bench_mirror (b); hw_bench_duplicate (b);
        hw_bench_delete (b);
        hw_bench_bring_forward (b);
        hw_bench_send_back (b);
        hw_bench_set_locked (b, TRUE);
        hw_bench_align (b, HW_ALIGN_LEFT);
        hw_bench_distribute (b, TRUE);
        hw_bench_mirror_pair (b, TRUE);
        hw_bench_keep_apart (b);
        hw_bench_let_share (b))
LEAVES (toggled_none, hw_bench_select_toggle (b, "m9"))
LEAVES (no_motifs_come, g_autoptr (GPtrArray) none = g_ptr_array_new (); hw_bench_add_motifs (b, none, NULL))

static void
what_is_not_there_changes_nothing (void)
{
  g_autoptr (HwBench) bench = planned ();
#define ALONE(verb) leaves_alone (bench, verb, #verb)
  ALONE (unpin_none);
  ALONE (unpin_free);
  ALONE (keep_none);
  ALONE (begin_none);
  ALONE (stitched_none);
  ALONE (take_back_none);
  ALONE (stitched_nothing);
  ALONE (lay_aside_none);
  ALONE (step_of_none);
  ALONE (thread_back_of_none);
  ALONE (thread_done_of_none);
  ALONE (note_of_none);
  ALONE (reading_of_none);
  ALONE (forget_of_none);
  ALONE (leave_out_of_none);
  ALONE (readings_of_none);
  ALONE (hoop_again_none);
  ALONE (delete_photo_none);
  ALONE (rename_photo_none);
  ALONE (square_photo_none);
  ALONE (look_of_no_photo);
  ALONE (hold_no_mark);
  ALONE (let_go_no_mark);
  ALONE (take_no_mark);
  ALONE (move_no_mark);
  ALONE (one_more_of_none);
  ALONE (let_go_all_of_none);
  ALONE (order_of_none);
  ALONE (order_as_it_is);
  ALONE (outline_of_none);
  ALONE (no_part_to_rename);
  ALONE (no_part_to_move);
  ALONE (no_part_to_drop);
  ALONE (nothing_in_parts);
  ALONE (nothing_to_put_in);
  ALONE (no_name_to_put_in);
  ALONE (nothing_selected);
  ALONE (toggled_none);
  ALONE (no_motifs_come);
}

/* The same before there is any plan: hoopings are none then. */
static void
without_a_plan_there_are_no_hoopings (void)
{
  g_autoptr (HwBench) bench = hw_bench_new ();

  g_assert_null (hw_bench_get_plan (bench));
  ALONE (unpin_none);
  ALONE (keep_none);
  ALONE (begin_none);
  ALONE (stitched_none);
  ALONE (take_back_none);
  ALONE (take_no_mark);
  ALONE (hold_no_mark);
  ALONE (one_more_of_none);
  ALONE (nothing_selected);
  hw_bench_choose_hooping (bench, 2);
  g_assert_cmpint (hw_bench_get_chosen_hooping (bench), ==, -1);
  hw_bench_set_stage (bench, 2);
  g_assert_cmpint (hw_bench_get_stage (bench), <=, 0);
  g_assert_false (hw_bench_place_with_allowance (bench));
}

static guint
hooping_of (HwBench *bench, const char *id)
{
  const HwPlan *plan = hw_bench_get_plan (bench);

  return (guint)hw_plan_hooping_of (plan, (guint)hw_snapshot_find_motif (plan->snapshot, id));
}

LEAVES (keep_stitched, hw_bench_keep_hooping (b, hooping_of (b, "m1"), HW_KEEP_ALL))
LEAVES (begin_stitched, g_assert_false (hw_bench_begin_hooping (b, hooping_of (b, "m1"))))
LEAVES (stitch_stitched, g_assert_false (hw_bench_mark_stitched (b, hooping_of (b, "m1"))))
LEAVES (unpin_stitched, hw_bench_unpin (b, hooping_of (b, "m1")))
LEAVES (mark_stitched, hw_bench_hold_mark (b, hooping_of (b, "m1"), 0);
        hw_bench_take_mark_away (b, hooping_of (b, "m1"), 0);
        hw_bench_move_mark (b, hooping_of (b, "m1"), 0, (HwPoint){ 1, 1 }))
LEAVES (delete_stitched, hw_bench_select_only (b, "m1"); hw_bench_delete (b); hw_bench_select_only (b, NULL))

/* What is on the cloth already stays as it is, ties and all. */
static void
what_is_stitched_stays (void)
{
  g_autoptr (HwBench) bench = planned ();

  g_assert_true (hw_bench_tie (bench, "m3", "m1", NULL));
  wait_for_plan (bench);
  g_assert_true (hw_bench_mark_stitched (bench, hooping_of (bench, "m1")));
  wait_for_plan (bench);
  ALONE (keep_stitched);
  ALONE (begin_stitched);
  ALONE (stitch_stitched);
  ALONE (unpin_stitched);
  ALONE (mark_stitched);
  ALONE (delete_stitched);
  g_assert_true (hw_bench_is_tied (bench, "m3", "m1"));
}

/* What was chosen keeps its meaning where there was no plan to choose from, and is none where the new plan has not so many. */
static void
values_are_kept_within_what_can_be (void)
{
  g_autoptr (HwBench) bench = planned ();
  guint8 dot[4] = { 0 };
  g_autoptr (GBytes) bytes = g_bytes_new (dot, sizeof dot);
  const HwPhoto *photo;

  g_assert_true (hw_bench_add_photo (bench, "/nowhere/a.png", bytes, "Linen", "no day", FALSE, NULL));
  g_assert_true (hw_bench_add_photo (bench, "/nowhere/b.png", bytes, "Cotton", "2026-05-01", FALSE, NULL));
  photo = g_ptr_array_index (hw_scene_get_photos (hw_bench_get_scene (bench)), 0);
  hw_bench_set_photo_look (bench, 0, -7, -7);
  photo = g_ptr_array_index (hw_scene_get_photos (hw_bench_get_scene (bench)), 0);
  g_assert_cmpfloat (photo->brightness, ==, -1);
  g_assert_cmpfloat (photo->strength, ==, 0);
  hw_bench_set_photo_look (bench, 0, 0.25, 7);
  photo = g_ptr_array_index (hw_scene_get_photos (hw_bench_get_scene (bench)), 0);
  g_assert_cmpfloat (photo->brightness, ==, 0.25);
  g_assert_cmpfloat (photo->strength, ==, 1);
  hw_bench_set_photo_fade (bench, 7);
  g_assert_cmpfloat (hw_scene_get_photo_fade (hw_bench_get_scene (bench)), ==, 1);
  hw_bench_set_photo_fade (bench, -7);
  g_assert_cmpfloat (hw_scene_get_photo_fade (hw_bench_get_scene (bench)), ==, 0);
  hw_bench_show_photo (bench, 9);
  g_assert_cmpint (hw_scene_get_photo_shown (hw_bench_get_scene (bench)), <, 2);
  /* The one that is shown stays shown when one above it goes, and its day may be told later. */
  hw_bench_show_photo (bench, 0);
  hw_bench_rename_photo (bench, 0, "Linen", "2026-06-02");
  photo = g_ptr_array_index (hw_scene_get_photos (hw_bench_get_scene (bench)), 0);
  g_assert_cmpstr (photo->taken, ==, "2026-06-02");
  hw_bench_delete_photo (bench, 1);
  g_assert_cmpint (hw_scene_get_photo_shown (hw_bench_get_scene (bench)), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/bench-refusals/" #test, test)
  ADD (what_is_not_there_changes_nothing);
  ADD (without_a_plan_there_are_no_hoopings);
  ADD (what_is_stitched_stays);
  ADD (values_are_kept_within_what_can_be);
  return g_test_run ();
}

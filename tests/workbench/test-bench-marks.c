/* Marks held, moved, asked for and let go: each is one step that can be undone, and the plan follows. */
#include <math.h>

#include "bench-fixture.h"

static const HwHooping *
hooping_of (HwBench *bench, const char *id, guint *index)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  int found = hw_plan_hooping_of (plan, (guint)hw_snapshot_find_motif (plan->snapshot, id));

  g_assert_cmpint (found, >=, 0);
  *index = (guint)found;
  return &plan->hoopings[found];
}

static GPtrArray *
held_of (HwBench *bench)
{
  return hw_scene_get_held_marks (hw_bench_get_scene (bench));
}

static gboolean
has_mark_at (const HwHooping *hooping, HwPoint at)
{
  for (guint i = 0; i < hooping->n_marks; i++)
    if (hw_point_distance (hooping->marks[i].at, at) < 1e-6)
      return TRUE;
  return FALSE;
}

static void
move_motif (HwBench *bench, const char *id, double dx)
{
  hw_bench_select_only (bench, id);
  hw_bench_nudge (bench, dx, 0);
  wait_for_plan (bench);
}

/* Held, the marks stay where they are and keep their letters when a motif is moved a little. */
static void
test_all_are_held (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwMark before[2];
  guint index;

  wait_for_plan (bench);
  g_assert_cmpuint (hooping_of (bench, "m1", &index)->n_marks, ==, 2);
  memcpy (before, hooping_of (bench, "m1", &index)->marks, sizeof before);
  hw_bench_hold_all_marks (bench);
  wait_for_plan (bench);
  g_assert_cmpuint (held_of (bench)->len, ==, 4);
  move_motif (bench, "m1", -3);
  for (guint i = 0; i < 2; i++)
    {
      const HwHooping *hooping = hooping_of (bench, "m1", &index);

      g_assert_true (has_mark_at (hooping, before[i].at));
      g_assert_cmpstr (hooping->marks[i].letter, ==, before[i].letter);
    }
  hw_bench_undo (bench);
  hw_bench_undo (bench);
  g_assert_cmpuint (held_of (bench)->len, ==, 0);
}

static void
test_holding_again_changes_nothing (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *undo = NULL;

  wait_for_plan (bench);
  hw_bench_hold_all_marks (bench);
  wait_for_plan (bench);
  hw_bench_hold_all_marks (bench);
  g_assert_cmpuint (held_of (bench)->len, ==, 4);
  hw_bench_let_go_all_marks (bench);
  g_assert_cmpuint (held_of (bench)->len, ==, 0);
  hw_bench_undo (bench);
  hw_bench_undo (bench);
  g_object_get (bench, "undo-name", &undo, NULL);
  g_assert_null (undo);
}

static void
test_a_mark_is_moved_in_one_step (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *undo = NULL;
  HwPoint to = { 90, 60 }, other;
  guint index;

  wait_for_plan (bench);
  other = hooping_of (bench, "m1", &index)->marks[1].at;
  hw_bench_move_mark (bench, index, 0, to);
  wait_for_plan (bench);
  g_object_get (bench, "undo-name", &undo, NULL);
  g_assert_true (g_str_has_prefix (undo, "move mark "));
  g_assert_true (has_mark_at (hooping_of (bench, "m1", &index), to));
  g_assert_true (has_mark_at (hooping_of (bench, "m1", &index), other));
  g_assert_true (hw_bench_is_mark_held (bench, to));
  hw_bench_undo (bench);
  g_assert_cmpuint (held_of (bench)->len, ==, 0);
}

/* As a hand does it: many places within one edit, and back. */
static void
test_a_pull_leaves_one_held_mark_at_its_end (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwPoint at;
  guint index;

  wait_for_plan (bench);
  at = hooping_of (bench, "m3", &index)->marks[0].at;
  hw_bench_begin_edit (bench, "move mark", FALSE);
  for (guint i = 0; i < 20; i++)
    {
      HwPoint to = { at.x + 0.5, at.y + 0.3 };

      hw_bench_put_mark (bench, "m3", &at, to);
      at = to;
    }
  hw_bench_end_edit (bench);
  g_assert_cmpuint (held_of (bench)->len, ==, 1);
  g_assert_true (hw_bench_is_mark_held (bench, at));
  hw_bench_begin_edit (bench, "move mark", FALSE);
  hw_bench_put_mark (bench, "m3", &at, (HwPoint){ 0, 0 });
  hw_bench_cancel_edit (bench);
  g_assert_true (hw_bench_is_mark_held (bench, at));
}

static void
test_one_more_makes_the_error_smaller (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  double before;
  guint index, n;

  wait_for_plan (bench);
  before = hooping_of (bench, "m1", &index)->predicted_error[0];
  n = hooping_of (bench, "m1", &index)->n_marks;
  g_assert_true (hw_bench_one_more_mark (bench, index));
  wait_for_plan (bench);
  g_assert_cmpuint (hooping_of (bench, "m1", &index)->n_marks, ==, n + 1);
  g_assert_cmpfloat (hooping_of (bench, "m1", &index)->predicted_error[0], <, before);
  hw_bench_take_mark_away (bench, index, n);
  wait_for_plan (bench);
  g_assert_cmpuint (hooping_of (bench, "m1", &index)->n_marks, ==, n);
}

static void
test_marks_of_the_hooping_at_hand (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwPoint to = { 95, 60 };
  guint index, n;

  wait_for_plan (bench);
  hooping_of (bench, "m1", &index);
  g_assert_true (hw_bench_begin_hooping (bench, index));
  wait_for_plan (bench);
  n = hooping_of (bench, "m1", &index)->n_marks;
  g_assert_true (hw_bench_is_mark_of_pin (bench, index));
  hw_bench_move_mark (bench, index, 0, to);
  wait_for_plan (bench);
  g_assert_true (has_mark_at (hooping_of (bench, "m1", &index), to));
  g_assert_cmpuint (held_of (bench)->len, ==, 0);
  g_assert_true (hw_bench_one_more_mark (bench, index));
  wait_for_plan (bench);
  g_assert_cmpuint (hooping_of (bench, "m1", &index)->n_marks, ==, n + 1);
  /* Once a mark was read, the marks stay. */
  hw_bench_set_reading (bench, hooping_of (bench, "m1", &index)->marks[0].letter, (HwPoint){ 0, 0 });
  wait_for_plan (bench);
  hooping_of (bench, "m1", &index);
  g_assert_false (hw_bench_may_change_marks (bench, index));
  hw_bench_move_mark (bench, index, 0, (HwPoint){ 100, 60 });
  wait_for_plan (bench);
  g_assert_true (has_mark_at (hooping_of (bench, "m1", &index), to));
  g_assert_false (hw_bench_one_more_mark (bench, index));
}

static void
test_what_is_not_there_does_nothing (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  wait_for_plan (bench);
  hw_bench_hold_mark (bench, 99, 0);
  hw_bench_hold_mark (bench, 0, 99);
  hw_bench_move_mark (bench, 0, 99, (HwPoint){ 0, 0 });
  hw_bench_take_mark_away (bench, 99, 99);
  hw_bench_let_go_mark_at (bench, (HwPoint){ 1, 1 });
  hw_bench_let_go_all_marks (bench);
  g_assert_false (hw_bench_one_more_mark (bench, 99));
  g_assert_false (hw_bench_may_change_marks (bench, 99));
  g_assert_cmpuint (held_of (bench)->len, ==, 0);
}

/* A mark that is held for one motif stays that motif's when it is moved, though it lies nearer to another by now. */
static void
test_a_held_mark_stays_its_motifs (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const HwMark *mark;
  HwPoint at;
  guint index;

  wait_for_plan (bench);
  hooping_of (bench, "m1", &index);
  at = hooping_of (bench, "m1", &index)->marks[0].at;
  const char *nearest = hw_bench_motif_of_mark (bench, index, at);
  const char *other = g_str_equal (nearest, "m1") ? "m2" : "m1";
  hw_bench_begin_edit (bench, "hold", FALSE);
  hw_bench_put_mark (bench, other, NULL, at);
  hw_bench_end_edit (bench);
  wait_for_plan (bench);
  g_assert_cmpstr (hw_bench_motif_of_mark (bench, index, at), ==, other);
  for (guint i = 0; i < hooping_of (bench, "m1", &index)->n_marks; i++)
    {
      mark = &hooping_of (bench, "m1", &index)->marks[i];
      if (hw_point_distance (mark->at, at) < 1e-6)
        hw_bench_move_mark (bench, index, i, (HwPoint){ at.x + 2, at.y });
    }
  gboolean found = FALSE;
  for (guint i = 0; i < held_of (bench)->len; i++)
    {
      const HwHeldMark *held = held_of (bench)->pdata[i];

      if (hw_point_distance (held->at, (HwPoint){ at.x + 2, at.y }) < 1e-6)
        {
          g_assert_cmpstr (held->motif, ==, other);
          found = TRUE;
        }
    }
  g_assert_true (found);
}

/* Held once, a mark is not held again; marks of a motif that is gone are put nowhere; and the last mark of a drawn hooping stays. */
static void
test_the_last_drawn_mark_stays (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  guint index;

  wait_for_plan (bench);
  hooping_of (bench, "m1", &index);
  hw_bench_hold_mark (bench, index, 0);
  hw_bench_hold_mark (bench, index, 0);
  g_assert_cmpuint (held_of (bench)->len, ==, 1);
  hw_bench_let_go_all_marks (bench);
  hw_bench_begin_edit (bench, "hold", FALSE);
  hw_bench_put_mark (bench, "m77", NULL, (HwPoint){ 90, 60 });
  hw_bench_end_edit (bench);
  g_assert_cmpuint (held_of (bench)->len, ==, 0);
  wait_for_plan (bench);
  hw_bench_keep_hooping (bench, hooping_of (bench, "m3", &index) != NULL ? index : 0, HW_KEEP_ALL);
  wait_for_plan (bench);
  hooping_of (bench, "m1", &index);
  g_assert_true (hw_bench_begin_hooping (bench, index));
  for (guint i = 0; i < 5; i++)
    {
      wait_for_plan (bench);
      hooping_of (bench, "m1", &index);
      hw_bench_take_mark_away (bench, index, 0);
    }
  g_assert_cmpuint (hw_bench_get_begun (bench)->n_marks, ==, 1);
  g_assert_cmpuint (hw_scene_get_pins (hw_bench_get_scene (bench))->len, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/workbench/bench-marks/all-are-held", test_all_are_held);
  g_test_add_func ("/workbench/bench-marks/holding-again-changes-nothing",
                   test_holding_again_changes_nothing);
  g_test_add_func ("/workbench/bench-marks/a-mark-is-moved-in-one-step", test_a_mark_is_moved_in_one_step);
  g_test_add_func ("/workbench/bench-marks/a-pull-leaves-one-held-mark-at-its-end",
                   test_a_pull_leaves_one_held_mark_at_its_end);
  g_test_add_func ("/workbench/bench-marks/one-more-makes-the-error-smaller",
                   test_one_more_makes_the_error_smaller);
  g_test_add_func ("/workbench/bench-marks/marks-of-the-hooping-at-hand", test_marks_of_the_hooping_at_hand);
  g_test_add_func ("/workbench/bench-marks/what-is-not-there-does-nothing",
                   test_what_is_not_there_does_nothing);
  g_test_add_func ("/workbench/bench-marks/a-held-mark-stays-its-motifs", test_a_held_mark_stays_its_motifs);
  g_test_add_func ("/workbench/bench-marks/the-last-drawn-mark-stays", test_the_last_drawn_mark_stays);
  return g_test_run ();
}

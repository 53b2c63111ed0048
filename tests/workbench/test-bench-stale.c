/* A bench whose plan is not made yet, or older than the scene, or does not hold what is asked for: what cannot be done is not done, and leaves no step behind. */
#include "bench-fixture.h"

#include "workbench/machine-work.h"

static const HwPoint somewhere = { 200, 160 };

/* All that a person may decide of one hooping. */
static void
decide_of (HwBench *bench, guint hooping)
{
  hw_bench_keep_hooping (bench, hooping, HW_KEEP_ALL);
  hw_bench_keep_hooping (bench, hooping, HW_KEEP_MOTIFS);
  hw_bench_keep_hooping (bench, hooping, HW_KEEP_GRAIN);
  hw_bench_unpin (bench, hooping);
  hw_bench_hold_mark (bench, hooping, 0);
  hw_bench_take_mark_away (bench, hooping, 0);
  hw_bench_move_mark (bench, hooping, 0, somewhere);
  g_assert_false (hw_bench_one_more_mark (bench, hooping));
  g_assert_false (hw_bench_begin_hooping (bench, hooping));
  g_assert_false (hw_bench_mark_stitched (bench, hooping));
  g_assert_false (hw_bench_has_pin (bench, hooping));
  g_assert_false (hw_bench_may_change_marks (bench, hooping));
  g_assert_false (hw_bench_is_mark_of_pin (bench, hooping));
  g_assert_null (hw_bench_pin_of (bench, hooping));
}

/* And of the work at the machine, where none is begun. */
static void
work_without_a_hooping (HwBench *bench)
{
  hw_bench_lay_aside (bench);
  hw_bench_go_to_step (bench, HW_WORK_READ);
  hw_bench_set_reading (bench, "A", somewhere);
  hw_bench_forget_reading (bench, "A");
  hw_bench_leave_out_reading (bench, "A", TRUE);
  hw_bench_enter_correction (bench, NULL);
  hw_bench_hoop_again (bench);
  hw_bench_thread_done (bench, 3, "m1", "moss");
  hw_bench_thread_back (bench);
  hw_bench_thread_broke (bench, "m1", "moss");
  hw_bench_full_bobbin (bench);
  hw_bench_note_step (bench, HW_WORK_READ, "windy");
  g_assert_false (hw_bench_stitched (bench));
  g_assert_cmpint (hw_bench_get_begun_hooping (bench), ==, -1);
  g_assert_null (hw_bench_get_begun (bench));
}

static void
assert_as_it_was (HwBench *bench, const HwSnapshot *before, const char *undo_name)
{
  g_autoptr (HwSnapshot) now = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_autofree char *name = NULL;

  g_object_get (bench, "undo-name", &name, NULL);
  g_assert_true (hw_snapshot_equal (before, now));
  g_assert_cmpstr (name, ==, undo_name);
}

static void
test_nothing_is_decided_before_there_is_a_plan (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (bench));
  const guint motifs[] = { 0 };
  const HwProblem problem = { .kind = HW_PROBLEM_PIN, .motif = 0, .hooping = -1 };

  g_assert_null (hw_bench_get_plan (bench));
  decide_of (bench, 0);
  g_assert_null (hw_bench_motif_of_mark (bench, 0, somewhere));
  work_without_a_hooping (bench);
  hw_bench_take_candidate (bench, motifs, 1, 0, somewhere, 0);
  hw_bench_hold_all_marks (bench);
  g_assert_false (hw_bench_take_back (bench));
  g_assert_null (hw_bench_pin_behind (bench, &problem));
  assert_as_it_was (bench, before, NULL);
}

static void
test_a_hooping_beyond_the_plan_is_none (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwSnapshot) before = NULL;
  const guint motifs[] = { 0 }, none[] = { 77 };
  const HwProblem problems[] = { { .kind = HW_PROBLEM_PIN, .motif = -1 },
                                 { .kind = HW_PROBLEM_PIN, .motif = 77 },
                                 { .kind = HW_PROBLEM_PIN, .motif = 0 },
                                 { .kind = HW_PROBLEM_DENSE, .motif = 0 } };

  wait_for_plan (bench);
  before = hw_scene_snapshot (hw_bench_get_scene (bench));
  decide_of (bench, hw_bench_get_plan (bench)->n_hoopings);
  g_assert_null (hw_bench_motif_of_mark (bench, 77, somewhere));
  work_without_a_hooping (bench);
  hw_bench_take_candidate (bench, motifs, 1, 77, somewhere, 0);
  hw_bench_take_candidate (bench, none, 1, 0, somewhere, 0);
  hw_bench_hoop_unavailable (bench, "h77");
  for (guint i = 0; i < G_N_ELEMENTS (problems); i++)
    g_assert_null (hw_bench_pin_behind (bench, &problems[i]));
  assert_as_it_was (bench, before, NULL);
}

static guint
hooping_of (HwBench *bench, const char *id)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  int hooping = hw_plan_hooping_of (plan, (guint)hw_snapshot_find_motif (plan->snapshot, id));

  g_assert_cmpint (hooping, >=, 0);
  return (guint)hooping;
}

static void
test_what_is_stitched_stays (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwSnapshot) before = NULL;
  g_autofree char *name = NULL;
  guint stitched;

  wait_for_plan (bench);
  g_assert_true (hw_bench_mark_stitched (bench, hooping_of (bench, "m1")));
  wait_for_plan (bench);
  stitched = hooping_of (bench, "m1");
  g_assert_cmpint (hw_bench_get_plan (bench)->hoopings[stitched].hold, ==, HW_PLACE_FROZEN);
  before = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_object_get (bench, "undo-name", &name, NULL);
  decide_of (bench, stitched);
  assert_as_it_was (bench, before, name);
}

/* The motif goes, and the plan that knew it is still on the table. */
static void
test_what_is_gone_is_not_held (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *quince[] = { "m3", NULL };
  g_autoptr (HwSnapshot) before = NULL;
  g_autofree char *name = NULL;
  guint hooping, motif;

  wait_for_plan (bench);
  hooping = hooping_of (bench, "m3");
  motif = (guint)hw_snapshot_find_motif (hw_bench_get_plan (bench)->snapshot, "m3");
  hw_bench_select_ids (bench, quince);
  hw_bench_delete (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->snapshot->motifs->len, ==, 3);
  before = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_object_get (bench, "undo-name", &name, NULL);
  decide_of (bench, hooping);
  hw_bench_take_candidate (bench, &motif, 1, 0, somewhere, 0);
  assert_as_it_was (bench, before, name);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, test) g_test_add_func ("/bench-stale/" name, test)
  ADD ("nothing-is-decided-before-there-is-a-plan", test_nothing_is_decided_before_there_is_a_plan);
  ADD ("a-hooping-beyond-the-plan-is-none", test_a_hooping_beyond_the_plan_is_none);
  ADD ("what-is-stitched-stays", test_what_is_stitched_stays);
  ADD ("what-is-gone-is-not-held", test_what_is_gone_is_not_held);
  return g_test_run ();
}

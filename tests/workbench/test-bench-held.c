/* Several things held at once: one that is changed, begun, stitched or taken back leaves the others as they are. */
#include <math.h>

#include "bench-fixture.h"

static guint
hooping_of (HwBench *bench, const char *id)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  int hooping = hw_plan_hooping_of (plan, (guint)hw_snapshot_find_motif (plan->snapshot, id));

  g_assert_cmpint (hooping, >=, 0);
  return (guint)hooping;
}

static HwBench *
planned (void)
{
  HwBench *bench = bench_with_orchard ();

  wait_for_plan (bench);
  return bench;
}

static GPtrArray *
pins_of (HwBench *bench)
{
  return hw_scene_get_pins (hw_bench_get_scene (bench));
}

static const HwPin *
pin_with (HwBench *bench, const char *id)
{
  GPtrArray *pins = pins_of (bench);

  for (guint i = 0; i < pins->len; i++)
    if (g_strv_contains ((const char *const *)((const HwPin *)pins->pdata[i])->motifs, id))
      return pins->pdata[i];
  return NULL;
}

static const HwLogLine *
last_line (HwBench *bench)
{
  GPtrArray *log = hw_scene_get_log (hw_bench_get_scene (bench));

  return g_ptr_array_index (log, log->len - 1);
}

static void
keep (HwBench *bench, const char *id, HwKeep how)
{
  hw_bench_keep_hooping (bench, hooping_of (bench, id), how);
  wait_for_plan (bench);
}

static void
work_at_one_leaves_the_other_held (void)
{
  g_autoptr (HwBench) bench = planned ();

  keep (bench, "m3", HW_KEEP_ALL);
  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m1")));
  wait_for_plan (bench);
  hw_bench_go_to_step (bench, HW_WORK_STICK);
  g_assert_cmpuint (pins_of (bench)->len, ==, 2);
  g_assert_null (pin_with (bench, "m3")->work);
  g_assert_true (hw_bench_stitched (bench));
  g_assert_cmpuint (pins_of (bench)->len, ==, 1);
  g_assert_nonnull (pin_with (bench, "m3"));
}

/* What is held as it is goes to the machine as it is held, with the marks that were drawn for it. */
static void
a_held_hooping_is_begun_as_it_is_held (void)
{
  g_autoptr (HwBench) bench = planned ();

  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m1")));
  wait_for_plan (bench);
  hw_bench_move_mark (bench, hooping_of (bench, "m1"), 0, (HwPoint){ 95, 60 });
  wait_for_plan (bench);
  hw_bench_lay_aside (bench);
  wait_for_plan (bench);
  const HwPin *aside = pin_with (bench, "m1");
  g_assert_null (aside->work);
  HwPoint mark = aside->marks[0].at, centre = aside->centre;
  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m1")));
  const HwPin *again = hw_bench_get_begun (bench);
  g_assert_nonnull (again);
  g_assert_cmpfloat_with_epsilon (hw_point_distance (again->marks[0].at, mark), 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_point_distance (again->centre, centre), 0, 1e-9);
}

/* Marked stitched, the hooping in the machine takes along what was written down while it was there. */
static void
marked_stitched_it_keeps_its_work (void)
{
  g_autoptr (HwBench) bench = planned ();

  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m1")));
  wait_for_plan (bench);
  hw_bench_note_step (bench, HW_WORK_MARK, "chalk");
  g_assert_true (hw_bench_mark_stitched (bench, hooping_of (bench, "m1")));
  GPtrArray *frozen = hw_scene_get_frozen (hw_bench_get_scene (bench));
  g_assert_cmpuint (frozen->len, ==, 1);
  const HwPin *pin = frozen->pdata[0];
  g_assert_nonnull (pin->work);
  g_assert_cmpstr (pin->work->notes[HW_WORK_MARK], ==, "chalk");
  g_assert_null (hw_bench_get_begun (bench));
}

/* One that was stitched without the program is taken back while another is in the machine: that one is laid aside, and the log tells both. */
static void
taken_back_it_takes_the_others_place (void)
{
  g_autoptr (HwBench) bench = planned ();

  g_assert_true (hw_bench_mark_stitched (bench, hooping_of (bench, "m1")));
  wait_for_plan (bench);
  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m3")));
  wait_for_plan (bench);
  g_assert_true (hw_bench_take_back (bench));
  const HwPin *begun = hw_bench_get_begun (bench);
  g_assert_true (g_strv_contains ((const char *const *)begun->motifs, "m1"));
  g_assert_cmpint (begun->work->begun, >, 0);
  g_assert_cmpint (begun->work->step, ==, HW_WORK_DONE);
  g_assert_null (pin_with (bench, "m3")->work);
  g_assert_cmpuint (hw_scene_get_frozen (hw_bench_get_scene (bench))->len, ==, 0);
  GPtrArray *log = hw_scene_get_log (hw_bench_get_scene (bench));
  g_assert_cmpint (((const HwLogLine *)log->pdata[log->len - 2])->kind, ==, HW_LOG_LAID_ASIDE);
}

/* A hoop that broke takes along what was held in it as it is; motifs kept together stay so, in another hoop. */
static void
a_hoop_that_is_gone_leaves_what_is_not_its_own (void)
{
  g_autoptr (HwBench) bench = planned ();

  keep (bench, "m1", HW_KEEP_MOTIFS);
  keep (bench, "m3", HW_KEEP_ALL);
  hw_bench_hoop_unavailable (bench, "h1");
  g_assert_nonnull (pin_with (bench, "m1"));
  g_assert_null (pin_with (bench, "m3"));
  hw_bench_undo (bench);
  g_assert_cmpuint (pins_of (bench)->len, ==, 2);
}

static void
letting_one_go_leaves_the_other (void)
{
  g_autoptr (HwBench) bench = planned ();
  g_autoptr (HwPin) gone = NULL;

  keep (bench, "m1", HW_KEEP_MOTIFS);
  keep (bench, "m3", HW_KEEP_GRAIN);
  g_assert_true (hw_bench_is_pin_kept (bench, pin_with (bench, "m1")));
  g_assert_true (hw_bench_is_pin_kept (bench, pin_with (bench, "m3")));
  gone = hw_pin_ref ((HwPin *)pin_with (bench, "m3"));
  hw_bench_let_pin_go (bench, gone);
  g_assert_nonnull (pin_with (bench, "m1"));
  g_assert_cmpuint (pins_of (bench)->len, ==, 1);
  hw_bench_let_pin_go (bench, gone); /* there no more: nothing, and no step */
  g_autofree char *name = NULL;
  g_object_get (bench, "undo-name", &name, NULL);
  g_assert_cmpstr (name, ==, "let Quince go");
  hw_bench_undo (bench);
  g_assert_cmpuint (pins_of (bench)->len, ==, 2);
}

/* A thread is told with its motif, as long as the motif is there. */
static void
a_thread_is_told_with_its_motif (void)
{
  g_autoptr (HwBench) bench = planned ();

  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m1")));
  hw_bench_thread_broke (bench, "m1", "moss");
  g_assert_cmpstr (last_line (bench)->text, ==, "The thread broke: moss, Pear.");
  hw_bench_thread_broke (bench, "m77", "moss");
  g_assert_cmpstr (last_line (bench)->text, ==, "The thread broke: moss.");
  hw_bench_thread_broke (bench, NULL, "fern");
  g_assert_cmpstr (last_line (bench)->text, ==, "The thread broke: fern.");
}

/* A note is written down once; wiped away it is gone, and the log keeps what was said. */
static void
a_note_wiped_away_says_nothing_more (void)
{
  g_autoptr (HwBench) bench = planned ();
  guint lines;

  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m1")));
  hw_bench_note_step (bench, HW_WORK_HOOP, "ring sits tight");
  lines = hw_scene_get_log (hw_bench_get_scene (bench))->len;
  hw_bench_note_step (bench, HW_WORK_HOOP, "ring sits tight");
  hw_bench_note_step (bench, HW_WORK_HOOP, "");
  g_assert_null (hw_bench_get_begun (bench)->work->notes[HW_WORK_HOOP]);
  hw_bench_note_step (bench, HW_WORK_HOOP, NULL);
  g_assert_cmpuint (hw_scene_get_log (hw_bench_get_scene (bench))->len, ==, lines);
}

static void
places (HwBench *bench, HwPoint at[3])
{
  static const char *const ids[] = { "m1", "m2", "m3" };

  for (guint i = 0; i < 3; i++)
    at[i] = hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (bench), ids[i]))
                ->placement.position;
}

/* Dense stitching draws the cloth in: what is stitched later is placed against that, seen beside where it lay; what is locked or held stays. */
static void
what_is_locked_is_placed_with_no_allowance (void)
{
  g_autoptr (HwBench) bench = planned ();
  HwScene *scene = hw_bench_get_scene (bench);
  const HwThreadBlock dense = { .name = (char *)"moss", .colour = { 0.2, 0.33, 0.13 }, .stitches = 30000 };
  static const char *const ids[] = { "m1", "m2", "m3" };
  HwPoint before[3], after[3];
  guint moved = 0;

  for (guint i = 0; i < 3; i++)
    {
      HwSceneMotif *motif = hw_scene_find_motif (scene, ids[i]);
      g_autoptr (HwMotif) copy = hw_motif_copy (hw_scene_motif_get_record (motif));

      hw_motif_set_threads (copy, &dense, 1);
      hw_scene_motif_set_record (motif, copy);
    }
  hw_bench_set_draw_in (bench, 1);
  wait_for_plan (bench);
  places (bench, before);
  g_assert_true (hw_bench_place_with_allowance (bench));
  places (bench, after);
  for (guint i = 0; i < 3; i++)
    moved += hw_point_distance (before[i], after[i]) > 0.05;
  g_assert_cmpuint (moved, >=, 1);
  g_assert_nonnull (hw_bench_get_beside (bench));
  hw_bench_undo (bench);
  hw_bench_select_all (bench);
  hw_bench_set_locked (bench, TRUE);
  wait_for_plan (bench);
  g_assert_false (hw_bench_place_with_allowance (bench));
  hw_bench_set_locked (bench, FALSE);
  wait_for_plan (bench);
  keep (bench, "m1", HW_KEEP_ALL);
  keep (bench, "m3", HW_KEEP_ALL);
  g_assert_false (hw_bench_place_with_allowance (bench));
  places (bench, after);
  for (guint i = 0; i < 3; i++)
    g_assert_cmpfloat (hw_point_distance (before[i], after[i]), ==, 0);
}

/* Ties and pairs beside the one that is taken back stay. */
static void
other_ties_and_pairs_stay (void)
{
  g_autoptr (HwBench) bench = planned ();
  const char *all[] = { "m1", "m2", "m3", NULL }, *pair[] = { "m1", "m2", NULL };
  g_autofree char *refusal = NULL, *name = NULL;

  g_assert_true (hw_bench_tie (bench, "m1", "m2", NULL));
  g_assert_true (hw_bench_tie (bench, "m1", "m3", NULL));
  g_assert_true (hw_bench_tie (bench, "m1", "m3", &refusal)); /* it is so already */
  g_assert_null (refusal);
  g_assert_false (hw_bench_tie (bench, "m2", "m1", NULL));
  hw_bench_untie (bench, "m1", "m2");
  g_assert_false (hw_bench_is_tied (bench, "m1", "m2"));
  g_assert_true (hw_bench_is_tied (bench, "m1", "m3"));
  hw_bench_untie (bench, "m2", "m3"); /* never tied */
  hw_bench_select_ids (bench, all);
  hw_bench_keep_apart (bench);
  g_object_get (bench, "undo-name", &name, NULL);
  g_assert_cmpstr (name, ==, "keep 3 motifs apart");
  g_assert_true (hw_bench_all_apart (bench));
  hw_bench_let_share_pair (bench, "m1", "m2");
  g_assert_false (hw_bench_are_apart (bench, "m1", "m2"));
  g_assert_true (hw_bench_are_apart (bench, "m1", "m3"));
  g_assert_false (hw_bench_all_apart (bench));
  g_assert_true (hw_bench_some_apart (bench));
  hw_bench_undo (bench);
  hw_bench_select_ids (bench, pair);
  hw_bench_let_share (bench);
  g_assert_false (hw_bench_are_apart (bench, "m1", "m2"));
  g_assert_true (hw_bench_are_apart (bench, "m2", "m3"));
  hw_bench_select_only (bench, "m1");
  hw_bench_keep_apart (bench); /* one alone is kept apart from nothing */
  g_assert_false (hw_bench_are_apart (bench, "m1", "m2"));
}

/* The motif that goes takes its ties, its place in pins and its name in the selection along, and leaves the others'. */
static void
a_motif_that_goes_leaves_the_others_held (void)
{
  g_autoptr (HwBench) bench = planned ();

  g_assert_true (hw_bench_tie (bench, "m1", "m2", NULL));
  g_assert_true (hw_bench_tie (bench, "m1", "m3", NULL));
  g_assert_true (hw_bench_tie (bench, "m2", "m3", NULL));
  keep (bench, "m1", HW_KEEP_MOTIFS);
  keep (bench, "m3", HW_KEEP_ALL);
  hw_bench_select_only (bench, "m3");
  hw_bench_delete (bench);
  g_assert_cmpuint (pins_of (bench)->len, ==, 1);
  g_assert_true (hw_bench_is_tied (bench, "m1", "m2"));
  g_assert_cmpuint (
      g_strv_length (
          hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (bench), "m1"))->before),
      ==, 1);
  g_assert_null (hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (bench), "m2"))->before);
  hw_bench_select_only (bench, "m2");
  hw_bench_delete (bench);
  const char *left[] = { "m1", NULL };
  g_assert_cmpuint (pins_of (bench)->len, ==, 1);
  g_assert_true (g_strv_equal ((const char *const *)pin_with (bench, "m1")->motifs, left));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/bench-held/" #test, test)
  ADD (work_at_one_leaves_the_other_held);
  ADD (a_held_hooping_is_begun_as_it_is_held);
  ADD (marked_stitched_it_keeps_its_work);
  ADD (taken_back_it_takes_the_others_place);
  ADD (a_hoop_that_is_gone_leaves_what_is_not_its_own);
  ADD (letting_one_go_leaves_the_other);
  ADD (a_thread_is_told_with_its_motif);
  ADD (a_note_wiped_away_says_nothing_more);
  ADD (what_is_locked_is_placed_with_no_allowance);
  ADD (other_ties_and_pairs_stay);
  ADD (a_motif_that_goes_leaves_the_others_held);
  return g_test_run ();
}

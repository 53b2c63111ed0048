/* What comes of a decision, in words: counts set side by side, and why it cannot be. */
#include "bench-fixture.h"
#include "workbench/consequence-private.h"

static HwPlan *
plan_of (const HwSnapshot *scene, guint hoopings, guint changes, double minutes)
{
  HwPlan *plan = hw_plan_new ((HwSnapshot *)scene);

  plan->hoopings = g_new0 (HwHooping, hoopings);
  plan->n_hoopings = hoopings;
  plan->thread_changes = changes;
  plan->minutes = minutes;
  return plan;
}

static void
counts_are_set_side_by_side (void)
{
  static const struct
  {
    guint hoopings[2], changes[2];
    double minutes[2];
    const char *text;
  } all[] = {
    { { 6, 7 }, { 9, 6 }, { 90, 102 }, "6 hoopings become 7, 3 thread changes less, 12 minutes more." },
    { { 1, 2 }, { 4, 5 }, { 30, 29 }, "1 hooping becomes 2, 1 thread change more, 1 minute less." },
    { { 5, 5 }, { 8, 8 }, { 60, 60.3 }, "Still 5 hoopings, as many thread changes, as much time." },
    { { 1, 1 }, { 8, 10 }, { 60, 58 }, "Still 1 hooping, 2 thread changes more, 2 minutes less." },
    { { 3, 2 }, { 5, 4 }, { 10, 11 }, "3 hoopings become 2, 1 thread change less, 1 minute more." },
  };
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autoptr (HwPlan) before = plan_of (scene, all[i].hoopings[0], all[i].changes[0], all[i].minutes[0]);
      g_autoptr (HwPlan) after = plan_of (scene, all[i].hoopings[1], all[i].changes[1], all[i].minutes[1]);
      g_autofree char *text = hw_consequence_counts_text (before, after);

      g_assert_cmpstr (text, ==, all[i].text);
    }
}

/* Of a new plan that takes the motifs apart after all nothing is promised. */
static void
motifs_that_come_apart_are_not_together (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *together[] = { "m1", "m2", NULL }, *apart[] = { "m1", "m3", NULL },
             *gone[] = { "m1", "m77", NULL };

  wait_for_plan (bench);
  const HwPlan *plan = hw_bench_get_plan (bench);
  g_autoptr (HwConsequence) yes = hw_consequence_new (plan, plan, together);
  g_autoptr (HwConsequence) no = hw_consequence_new (plan, plan, apart);
  g_autoptr (HwConsequence) neither = hw_consequence_new (plan, plan, gone);
  g_assert_true (yes->possible);
  g_assert_true (g_str_has_prefix (yes->text, "Still 2 hoopings"));
  g_assert_false (no->possible);
  g_assert_cmpstr (no->text, ==, "No hoop takes these motifs together in the order they need.");
  g_assert_false (neither->possible);
}

/* What is stitched, not there, or one and the same is neither joined nor split nor turned. */
static void
what_is_not_free_is_not_weighed (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *pear[] = { "m1", NULL }, *none[] = { NULL }, *all[] = { "m1", "m2", "m3", NULL };

  wait_for_plan (bench);
  const HwPlan *plan = hw_bench_get_plan (bench);
  guint first = (guint)hw_plan_hooping_of (plan, 0), other = (guint)hw_plan_hooping_of (plan, 2);
  g_assert_null (hw_consequence_joined (bench, plan, first, first));
  g_assert_null (hw_consequence_joined (bench, plan, first, 77));
  g_assert_null (hw_consequence_joined (bench, NULL, first, other));
  g_assert_null (hw_consequence_split (bench, plan, 77, pear));
  g_assert_null (hw_consequence_split (bench, plan, first, none));
  g_assert_null (hw_consequence_split (bench, plan, first, all));
  g_assert_null (hw_consequence_along_grain (bench, plan, 77));
  g_autoptr (HwSnapshot) split = hw_consequence_split (bench, plan, first, pear);
  g_assert_nonnull (split);
  g_assert_true (hw_bench_mark_stitched (bench, first));
  wait_for_plan (bench);
  plan = hw_bench_get_plan (bench);
  first = (guint)hw_plan_hooping_of (plan, 0);
  other = (guint)hw_plan_hooping_of (plan, 2);
  g_assert_null (hw_consequence_joined (bench, plan, first, other));
  g_assert_null (hw_consequence_joined (bench, plan, other, first));
  g_assert_null (hw_consequence_split (bench, plan, first, pear));
  g_assert_null (hw_consequence_along_grain (bench, plan, first));
}

/* Joined, they need no longer be kept apart; other pairs still are. */
static void
joining_frees_just_the_pairs_among_them (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *all[] = { "m1", "m2", "m3", NULL };

  hw_bench_select_ids (bench, all);
  hw_bench_keep_apart (bench);
  wait_for_plan (bench);
  const HwPlan *plan = hw_bench_get_plan (bench);
  g_autoptr (HwSnapshot) joined = hw_consequence_joined (bench, plan, (guint)hw_plan_hooping_of (plan, 0),
                                                         (guint)hw_plan_hooping_of (plan, 1));
  g_assert_nonnull (joined);
  g_assert_cmpuint (joined->apart->len, ==, 2);
  for (guint i = 0; i < joined->apart->len; i++)
    g_assert_true (hw_apart_names (joined->apart->pdata[i], "m3"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/consequence/" #test, test)
  ADD (counts_are_set_side_by_side);
  ADD (motifs_that_come_apart_are_not_together);
  ADD (what_is_not_free_is_not_weighed);
  ADD (joining_frees_just_the_pairs_among_them);
  return g_test_run ();
}

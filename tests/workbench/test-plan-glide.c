/* Which hoopings glide from one plan to the next, which come and which leave. */
#include "workbench/plan-glide.h"

#include <math.h>

#include "bench-fixture.h"

static HwPlan *
plan_now (HwBench *bench)
{
  wait_for_plan (bench);
  return hw_plan_ref (hw_bench_get_plan (bench));
}

static void
test_a_moved_motif_takes_its_hooping_along (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwPlan) before = plan_now (bench);
  g_autoptr (HwPlan) after = NULL;
  g_autoptr (HwGlide) still = hw_glide_new (before, before);
  g_autoptr (HwGlide) glide = NULL;
  HwPoint centre;
  double angle;
  guint moved = 0;

  g_assert_false (still->anything);
  hw_bench_select_all (bench);
  hw_bench_nudge (bench, 0, 200); /* farther than a hoop that stays could follow */
  after = plan_now (bench);
  glide = hw_glide_new (before, after);
  g_assert_nonnull (glide);
  g_assert_true (glide->anything);
  for (guint i = 0; i < glide->n; i++)
    {
      const HwHooping *now = &after->hoopings[i];

      g_assert_true (glide->from[i].known);
      hw_glide_pose (glide, after, i, 0, &centre, &angle);
      g_assert_cmpfloat_with_epsilon (centre.y, before->hoopings[glide->from[i].before].centre.y, 1e-9);
      hw_glide_pose (glide, after, i, 1, &centre, &angle);
      g_assert_cmpfloat_with_epsilon (centre.x, now->centre.x, 1e-9);
      g_assert_cmpfloat_with_epsilon (centre.y, now->centre.y, 1e-9);
      g_assert_cmpfloat_with_epsilon (remainder (angle - now->angle, 360), 0, 1e-9);
      moved++;
    }
  g_assert_cmpuint (moved, ==, 2);
  for (guint i = 0; i < glide->n_before; i++)
    g_assert_false (glide->leaves[i]);
}

static void
test_a_hooping_without_motifs_left_leaves (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwPlan) before = plan_now (bench);
  g_autoptr (HwPlan) after = NULL;
  g_autoptr (HwGlide) less = NULL;
  g_autoptr (HwGlide) more = NULL;
  guint leaving = 0, coming = 0;

  g_assert_cmpuint (before->n_hoopings, ==, 2);
  for (guint i = 0; i < before->snapshot->motifs->len; i++)
    if (g_str_equal (hw_snapshot_motif (before->snapshot, i)->name, "Quince"))
      hw_bench_select_only (bench, hw_snapshot_motif (before->snapshot, i)->id);
  hw_bench_delete (bench);
  after = plan_now (bench);
  g_assert_cmpuint (after->n_hoopings, ==, 1);
  less = hw_glide_new (before, after);
  for (guint i = 0; i < less->n_before; i++)
    leaving += less->leaves[i];
  g_assert_cmpuint (leaving, ==, 1);
  more = hw_glide_new (after, before);
  for (guint i = 0; i < more->n; i++)
    coming += !more->from[i].known;
  g_assert_cmpuint (coming, ==, 1);
}

static void
test_another_scene_does_not_glide (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwBench) other = bench_with_orchard ();
  g_autoptr (HwPlan) one = plan_now (bench);
  g_autoptr (HwPlan) two = plan_now (other);

  g_assert_null (hw_glide_new (one, two));
}

static void
test_the_way_begins_and_ends (void)
{
  g_assert_cmpfloat (hw_glide_part (0), ==, 0);
  g_assert_cmpfloat (hw_glide_part (HW_GLIDE_LASTS), ==, 1);
  g_assert_cmpfloat (hw_glide_part (10 * HW_GLIDE_LASTS), ==, 1);
  g_assert_cmpfloat (hw_glide_part (HW_GLIDE_LASTS / 2.0), >, 0.5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan-glide/moved", test_a_moved_motif_takes_its_hooping_along);
  g_test_add_func ("/plan-glide/leaves-and-comes", test_a_hooping_without_motifs_left_leaves);
  g_test_add_func ("/plan-glide/another-scene", test_another_scene_does_not_glide);
  g_test_add_func ("/plan-glide/begins-and-ends", test_the_way_begins_and_ends);
  return g_test_run ();
}

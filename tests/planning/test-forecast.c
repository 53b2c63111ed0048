/* The forecast of what stitching draws in: one patch has a closed answer, patches add up, what is symmetric stays so, and only what is stitched before counts. */
#include "planning/forecast.h"

#include "geometry/region.h"
#include "little-scenes.h"

/* A round motif in one thread. */
static void
round_motif (HwSnapshot *scene, double radius, guint stitches, double x, double y)
{
  HwMotif *motif = little_motif (scene, "Rose", 1, 1, x, y);

  hw_outline_unref (motif->outline);
  motif->outline = hw_outline_new_ellipse (2 * radius, 2 * radius, 720);
  hw_motif_set_threads (motif, &(HwThreadBlock){ .name = (char *)"red", .stitches = stitches }, 1);
}

/* Each motif in a hooping of its own, in list order. */
static HwPlan *
one_by_one (const HwSnapshot *scene)
{
  HwPlan *plan = hw_plan_new (scene);

  plan->n_hoopings = scene->motifs->len;
  plan->hoopings = g_new0 (HwHooping, plan->n_hoopings);
  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      plan->hoopings[i].motifs = g_new0 (guint, 1);
      plan->hoopings[i].motifs[0] = i;
      plan->hoopings[i].n_motifs = 1;
    }
  return plan;
}

static void
assert_move (HwPoint move, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (move.x, x, 1e-6);
  g_assert_cmpfloat_with_epsilon (move.y, y, 1e-6);
}

/* 4 stitches a square mm at 0.5 % each: the rim of a patch of 30 mm radius comes in by 2 % of it, a place twice as far by half of that. */
static void
test_one_motif_alone (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  double area, shrink;

  round_motif (scene, 30, 11310, 300, 200);
  scene->wishes.draw_in = 0.5;
  plan = one_by_one (scene);
  area = hw_outline_area (hw_snapshot_motif (scene, 0)->outline);
  g_assert_cmpfloat_with_epsilon (area, G_PI * 900, 0.1);
  shrink = 0.005 * 11310 / area;
  g_assert_cmpfloat_with_epsilon (shrink, 0.02, 1e-5);
  assert_move (hw_forecast_move_at (plan, 1, (HwPoint){ 300, 200 }), 0, 0);
  assert_move (hw_forecast_move_at (plan, 1, (HwPoint){ 315, 200 }), -15 * shrink, 0);
  assert_move (hw_forecast_move_at (plan, 1, (HwPoint){ 300, 260 }), 0, -60 * shrink * (area / G_PI) / 3600);
  assert_move (hw_forecast_move_at (plan, 1, (HwPoint){ 180, 200 }), 120 * shrink * (area / G_PI) / 14400, 0);
  /* Before it is stitched nothing has moved. */
  assert_move (hw_forecast_move_at (plan, 0, (HwPoint){ 180, 200 }), 0, 0);
}

/* A motif scaled down has its stitches on less cloth. */
static void
test_scale_changes_the_density (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwSnapshot) smaller = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwPlan) plan_smaller = NULL;
  HwPoint as_is, scaled;

  round_motif (scene, 30, 5000, 0, 0);
  round_motif (smaller, 30, 5000, 0, 0);
  ((HwMotif *)g_ptr_array_index (smaller->motifs, 0))->placement.scale = 0.5;
  plan = one_by_one (scene);
  plan_smaller = one_by_one (smaller);
  /* Inside both: four times as dense. Outside both: the same stitches draw by as much. */
  as_is = hw_forecast_move_at (plan, 1, (HwPoint){ 10, 5 });
  scaled = hw_forecast_move_at (plan_smaller, 1, (HwPoint){ 10, 5 });
  assert_move (scaled, 4 * as_is.x, 4 * as_is.y);
  as_is = hw_forecast_move_at (plan, 1, (HwPoint){ 50, -20 });
  scaled = hw_forecast_move_at (plan_smaller, 1, (HwPoint){ 50, -20 });
  assert_move (scaled, as_is.x, as_is.y);
}

static void
test_patches_add_up (void)
{
  g_autoptr (HwSnapshot) both = little_scene (700, 540);
  g_autoptr (HwSnapshot) first = little_scene (700, 540);
  g_autoptr (HwSnapshot) second = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwPlan) plan_first = NULL;
  g_autoptr (HwPlan) plan_second = NULL;

  round_motif (both, 30, 9000, 100, 100);
  round_motif (both, 20, 3000, 180, 150);
  round_motif (first, 30, 9000, 100, 100);
  round_motif (second, 20, 3000, 180, 150);
  plan = one_by_one (both);
  plan_first = one_by_one (first);
  plan_second = one_by_one (second);
  for (guint i = 0; i < 200; i++)
    {
      HwPoint place = { g_test_rand_double_range (0, 300), g_test_rand_double_range (0, 300) };
      HwPoint a = hw_forecast_move_at (plan_first, 1, place), b = hw_forecast_move_at (plan_second, 1, place);

      assert_move (hw_forecast_move_at (plan, 2, place), a.x + b.x, a.y + b.y);
      assert_move (hw_forecast_move_at (plan, 1, place), a.x, a.y);
    }
}

/* Each motif has moved by what is stitched before its hooping, and by nothing of what comes after or is stitched together with it. */
static void
test_the_order_of_the_plan_counts (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  HwPoint moves[3], last;

  for (guint i = 0; i < 3; i++)
    round_motif (scene, 25, 6000, 100 + 80 * i, 100 + 30 * i);
  plan = one_by_one (scene);
  hw_forecast_moves (plan, moves);
  assert_move (moves[0], 0, 0);
  g_assert_cmpfloat (moves[1].x, <, -0.1);
  last = hw_forecast_move_at (plan, 2, (HwPoint){ 260, 160 });
  assert_move (moves[2], last.x, last.y);

  /* The first two in one hooping. */
  plan->hoopings[0].motifs = g_renew (guint, plan->hoopings[0].motifs, 2);
  plan->hoopings[0].motifs[1] = 1;
  plan->hoopings[0].n_motifs = 2;
  plan->hoopings[1].motifs[0] = 2;
  plan->n_hoopings = 2;
  g_free (plan->hoopings[2].motifs);
  hw_forecast_moves (plan, moves);
  assert_move (moves[0], 0, 0);
  assert_move (moves[1], 0, 0);
  assert_move (moves[2], last.x, last.y);
}

/* What is stitched already lies in the scene as it is. */
static void
test_stitched_hoopings_do_not_count (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  HwPoint moves[3];
  double across, along, across_then, along_then;

  for (guint i = 0; i < 3; i++)
    round_motif (scene, 25, 6000, 100 + 80 * i, 100);
  plan = one_by_one (scene);
  hw_forecast_whole (plan, &across, &along);
  plan->hoopings[0].hold = HW_PLACE_FROZEN;
  hw_forecast_moves (plan, moves);
  assert_move (moves[0], 0, 0);
  assert_move (moves[1], 0, 0);
  g_assert_cmpfloat (moves[2].x, <, -0.1);
  hw_forecast_whole (plan, &across_then, &along_then);
  g_assert_cmpfloat (across_then, <, across);
  g_assert_cmpfloat (along_then, <, along);
}

/* Four alike about a middle: it stays, each corner moves by as much, and the picture draws in alike both ways. */
static void
test_symmetric_stays_symmetric (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  HwPoint middle = { 200, 200 }, corner;
  double across, along;

  for (guint i = 0; i < 4; i++)
    round_motif (scene, 35, 12000, 200 + (i % 2 ? 45 : -45), 200 + (i / 2 ? 45 : -45));
  plan = one_by_one (scene);
  assert_move (hw_forecast_move_at (plan, 4, middle), 0, 0);
  corner = hw_forecast_move_at (plan, 4, (HwPoint){ 120, 120 });
  g_assert_cmpfloat (corner.x, >, 0.1);
  assert_move (hw_forecast_move_at (plan, 4, (HwPoint){ 280, 120 }), -corner.x, corner.y);
  assert_move (hw_forecast_move_at (plan, 4, (HwPoint){ 280, 280 }), -corner.x, -corner.y);
  hw_forecast_whole (plan, &across, &along);
  g_assert_cmpfloat_with_epsilon (across, along, 1e-6);
  g_assert_cmpfloat (across, >, 0.3);
  /* Never more than the motifs themselves: 12,000 stitches on 3848 square mm at half a per cent. */
  g_assert_cmpfloat (across, <, 0.5 * 12000 / (G_PI * 35 * 35));
}

static void
test_without_a_rule_nothing_moves (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwSnapshot) empty = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwPlan) none = NULL;
  HwPoint moves[2];
  double across = 1, along = 1;

  round_motif (scene, 35, 12000, 100, 100);
  round_motif (scene, 35, 12000, 150, 100);
  scene->wishes.draw_in = 0;
  plan = one_by_one (scene);
  hw_forecast_moves (plan, moves);
  assert_move (moves[1], 0, 0);
  hw_forecast_whole (plan, &across, &along);
  g_assert_cmpfloat (across, ==, 0);
  g_assert_cmpfloat (along, ==, 0);
  across = along = 1;
  none = one_by_one (empty);
  hw_forecast_whole (none, &across, &along);
  g_assert_cmpfloat (across, ==, 0);
}

/* A stem of less than a millimetre draws in as well, along and across. */
static void
test_a_thin_motif_counts (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);

  for (guint turned = 0; turned < 2; turned++)
    {
      g_autoptr (HwPlan) plan = NULL;
      double across, along;

      g_ptr_array_set_size (scene->motifs, 0);
      hw_motif_set_threads (little_motif (scene, "Stem", turned ? 60 : 0.8, turned ? 0.8 : 60, 300, 200),
                            &(HwThreadBlock){ .name = (char *)"green", .stitches = 192 }, 1);
      scene->wishes.draw_in = 0.5;
      plan = one_by_one (scene);
      hw_forecast_whole (plan, &across, &along);
      g_assert_cmpfloat (across, >, 0);
      g_assert_cmpfloat (along, >, 0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/forecast/one-motif-alone", test_one_motif_alone);
  g_test_add_func ("/planning/forecast/scale-changes-the-density", test_scale_changes_the_density);
  g_test_add_func ("/planning/forecast/patches-add-up", test_patches_add_up);
  g_test_add_func ("/planning/forecast/the-order-of-the-plan-counts", test_the_order_of_the_plan_counts);
  g_test_add_func ("/planning/forecast/stitched-hoopings-do-not-count", test_stitched_hoopings_do_not_count);
  g_test_add_func ("/planning/forecast/symmetric-stays-symmetric", test_symmetric_stays_symmetric);
  g_test_add_func ("/planning/forecast/without-a-rule-nothing-moves", test_without_a_rule_nothing_moves);
  g_test_add_func ("/planning/forecast/thin", test_a_thin_motif_counts);
  return g_test_run ();
}

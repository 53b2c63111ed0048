/* The overlap order and the person's ties. */
#include "random-scenes.h"

#include "../../src/geometry/region.h"

static HwSnapshot *
row_of_squares (const double *x, guint n, double side)
{
  HwSnapshot *scene = hw_snapshot_new ();
  static const char *const names[] = { "Gate", "Fig branch", "Quince", "Rose", "Wall" };

  for (guint i = 0; i < n; i++)
    {
      scene_add_motif (scene, hw_outline_new_rectangle (side, side),
                       (HwPlacement){ { x[i], 100 }, 0, 1, FALSE });
      g_free (((HwMotif *)scene->motifs->pdata[i])->name);
      ((HwMotif *)scene->motifs->pdata[i])->name = g_strdup (names[i]);
    }
  return scene;
}

static void
tie (HwSnapshot *scene, guint first, guint second)
{
  HwMotif *motif = scene->motifs->pdata[first];

  g_strfreev (motif->before);
  motif->before = g_new0 (char *, 2);
  motif->before[0] = g_strdup (hw_snapshot_motif (scene, second)->id);
}

static void
overlap_binds_and_touching_does_not (void)
{
  g_autoptr (HwSnapshot) scene = row_of_squares ((double[]){ 100, 120, 140 }, 3, 20.001);
  g_autoptr (HwSnapshot) touching = row_of_squares ((double[]){ 100, 120, 140 }, 3, 20);
  g_autofree guint8 *before = NULL;

  before = hw_order_of_snapshot (touching, NULL);
  for (guint k = 0; k < 9; k++)
    g_assert_cmpuint (before[k], ==, 0);
  g_free (before);
  /* common area 0.001 x 20 = 0.02 mm^2, over 0.01 */
  before = hw_order_of_snapshot (scene, NULL);
  g_assert_cmpuint (before[0 * 3 + 1], ==, 1);
  g_assert_cmpuint (before[1 * 3 + 2], ==, 1);
  g_assert_cmpuint (before[1 * 3 + 0], ==, 0);
  g_assert_cmpuint (before[0 * 3 + 2], ==, 0);
}

static void
tiny_overlap_does_not_bind (void)
{
  /* common area 0.0004 x 20 = 0.008 mm^2, under 0.01 */
  g_autoptr (HwSnapshot) scene = row_of_squares ((double[]){ 100, 120 }, 2, 20.0004);
  g_autofree guint8 *before = hw_order_of_snapshot (scene, NULL);

  g_assert_cmpuint (before[1], ==, 0);
}

static void
holes_and_bays_do_not_bind (void)
{
  HwSnapshot *scene = hw_snapshot_new ();
  HwPoint outer[] = { { -50, -50 }, { 50, -50 }, { 50, 50 }, { -50, 50 } };
  HwPoint inner[] = { { -30, -30 }, { 30, -30 }, { 30, 30 }, { -30, 30 } };
  HwRing rings[] = { { outer, 4 }, { inner, 4 } };
  g_autofree guint8 *before = NULL;

  scene_add_motif (scene, hw_outline_new (rings, 2), (HwPlacement){ { 200, 200 }, 0, 1, FALSE });
  scene_add_motif (scene, hw_outline_new_ellipse (50, 50, 40), (HwPlacement){ { 200, 200 }, 0, 1, FALSE });
  before = hw_order_of_snapshot (scene, NULL);
  g_assert_cmpuint (before[1], ==, 0);
  hw_snapshot_unref (scene);
}

static void
loop_is_found_and_named (void)
{
  g_autoptr (HwSnapshot) scene = row_of_squares ((double[]){ 100, 115, 130 }, 3, 20);
  g_autoptr (GArray) loop = NULL;
  g_autofree guint8 *before = NULL;

  tie (scene, 2, 0);
  before = hw_order_of_snapshot (scene, &loop);
  g_assert_nonnull (loop);
  g_assert_cmpuint (loop->len, ==, 4);
  g_assert_cmpuint (g_array_index (loop, guint, 0), ==, 2);
  g_assert_cmpuint (g_array_index (loop, guint, 1), ==, 0);
  g_assert_cmpuint (g_array_index (loop, guint, 2), ==, 1);
  g_assert_cmpuint (g_array_index (loop, guint, 3), ==, 2);
}

static void
refused_tie_says_why (void)
{
  g_autoptr (HwSnapshot) scene = row_of_squares ((double[]){ 100, 115, 130, 400 }, 4, 20);
  g_autofree char *refused = hw_order_refuses_tie (scene, 2, 0);
  g_autofree char *itself = hw_order_refuses_tie (scene, 1, 1);

  g_assert_cmpstr (
      refused, ==,
      "Quince cannot be stitched before Gate, because the order already goes Gate before Fig branch, "
      "Fig branch before Quince.");
  g_assert_cmpstr (itself, ==, "Fig branch cannot be stitched before itself.");
  g_assert_null (hw_order_refuses_tie (scene, 3, 0));
  tie (scene, 3, 0);
  g_assert_null (hw_order_refuses_tie (scene, 3, 2));
  g_free (refused);
  refused = hw_order_refuses_tie (scene, 2, 3);
  g_assert_nonnull (strstr (refused, "Rose before Gate, Gate before Fig branch, Fig branch before Quince"));
}

static void
tie_is_kept_in_the_plan (void)
{
  for (guint turn = 0; turn < 2; turn++)
    {
      g_autoptr (HwSnapshot) scene = row_of_squares ((double[]){ 100, 400 }, 2, 20);
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      g_autoptr (HwPlan) plan = NULL;

      scene_add_hoop (scene, "h", 100, 100, HW_TURN_ANY);
      tie (scene, turn, 1 - turn);
      plan = hw_planner_plan (planner, scene, NULL, NULL, NULL, NULL);
      g_assert_true (hw_plan_verify (plan, NULL));
      g_assert_cmpint (hw_plan_hooping_of (plan, turn), ==, 0);
      g_assert_cmpint (hw_plan_hooping_of (plan, 1 - turn), ==, 1);
    }
}

static void
contradicting_tie_is_left_out_with_a_word (void)
{
  g_autoptr (HwSnapshot) scene = row_of_squares ((double[]){ 100, 115, 130 }, 3, 20);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwPlan) plan = NULL;
  const HwProblem *problem;
  g_autoptr (GError) error = NULL;

  scene_add_hoop (scene, "h", 100, 100, HW_TURN_ANY);
  tie (scene, 2, 0);
  plan = hw_planner_plan (planner, scene, NULL, NULL, NULL, NULL);
  hw_plan_verify (plan, &error);
  g_assert_no_error (error);
  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  g_assert_cmpuint (plan->problems->len, >, 0);
  problem = g_ptr_array_index (plan->problems, 0);
  g_assert_cmpint (problem->kind, ==, HW_PROBLEM_ORDER_LOOP);
  g_assert_cmpstr (
      problem->text, ==,
      "Quince is tied before Gate, but the order already goes Gate before Fig branch, Fig branch before "
      "Quince. That tie is left out.");
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/order/overlap-binds-and-touching-does-not", overlap_binds_and_touching_does_not);
  g_test_add_func ("/order/tiny-overlap-does-not-bind", tiny_overlap_does_not_bind);
  g_test_add_func ("/order/holes-and-bays-do-not-bind", holes_and_bays_do_not_bind);
  g_test_add_func ("/order/loop-is-found-and-named", loop_is_found_and_named);
  g_test_add_func ("/order/refused-tie-says-why", refused_tie_says_why);
  g_test_add_func ("/order/tie-is-kept-in-the-plan", tie_is_kept_in_the_plan);
  g_test_add_func ("/order/contradicting-tie-is-left-out-with-a-word",
                   contradicting_tie_is_left_out_with_a_word);
  return g_test_run ();
}

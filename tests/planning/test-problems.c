/* What the plan says about a scene: each sentence, amount and place. */
#include <stdio.h>

#include "random-scenes.h"

static HwSnapshot *
one_motif (double width, double height, HwPlacement placement)
{
  HwSnapshot *scene = hw_snapshot_new ();

  scene_add_hoop (scene, "h", 130, 180, HW_TURN_ANY);
  scene_add_motif (scene, hw_outline_new_rectangle (width, height), placement);
  g_free (((HwMotif *)scene->motifs->pdata[0])->name);
  ((HwMotif *)scene->motifs->pdata[0])->name = g_strdup ("Quince");
  return scene;
}

static HwPlan *
plan_scene (const HwSnapshot *scene, HwUnit unit)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlanOptions options = { .seconds = 1, .unit = unit };
  HwPlan *plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
  g_autoptr (GError) error = NULL;

  hw_plan_verify (plan, &error);
  g_assert_no_error (error);
  return plan;
}

static const HwProblem *
only_problem (const HwPlan *plan, HwProblemKind kind)
{
  const HwProblem *found = NULL;

  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);

      g_assert_cmpint (problem->kind, ==, kind);
      found = problem;
    }
  g_assert_cmpuint (plan->problems->len, ==, 1);
  return found;
}

static void
oversize_motif_is_named_with_its_miss (void)
{
  g_autoptr (HwSnapshot) scene = one_motif (132, 150, (HwPlacement){ { 300, 300 }, 0, 1, FALSE });
  g_autoptr (HwPlan) plan = plan_scene (scene, HW_UNIT_MM);
  const HwProblem *problem = only_problem (plan, HW_PROBLEM_OVERSIZE);

  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  g_assert_true (problem->grave);
  g_assert_cmpint (problem->motif, ==, 0);
  g_assert_cmpfloat_with_epsilon (problem->amount, 6, 1e-3); /* 126 mm are usable */
  g_assert_cmpstr (
      problem->text, ==,
      "Quince does not fit the 130 × 180 mm hoop: it is 6.0 mm too wide at its best angle. At 95 % it fits.");
}

/* The scale named does make it fit. */
static void
named_scale_is_enough (void)
{
  for (double height = 60; height < 260; height += 21)
    {
      g_autoptr (HwSnapshot) scene = one_motif (150, height, (HwPlacement){ { 300, 300 }, 20, 1, FALSE });
      g_autoptr (HwPlan) plan = plan_scene (scene, HW_UNIT_MM);
      const char *at;
      int percent = 100;
      g_autoptr (HwPlan) scaled = NULL;

      if (plan->status != HW_PLAN_UNPLANNABLE)
        continue;
      at = strstr (((HwProblem *)g_ptr_array_index (plan->problems, 0))->text, "At ");
      g_assert_cmpint (sscanf (at, "At %d", &percent), ==, 1);
      ((HwMotif *)scene->motifs->pdata[0])->placement.scale = percent / 100.0;
      scaled = plan_scene (scene, HW_UNIT_MM);
      g_assert_cmpint (scaled->status, ==, HW_PLAN_OPTIMAL);
      ((HwMotif *)scene->motifs->pdata[0])->placement.scale = (percent + 1.01) / 100.0;
      g_clear_pointer (&scaled, hw_plan_unref);
      scaled = plan_scene (scene, HW_UNIT_MM);
      g_assert_cmpint (scaled->status, ==, HW_PLAN_UNPLANNABLE);
    }
}

static void
others_are_planned_beside_an_oversize_motif (void)
{
  g_autoptr (HwSnapshot) scene = one_motif (300, 300, (HwPlacement){ { 300, 300 }, 0, 1, FALSE });
  g_autoptr (HwPlan) plan = NULL;

  scene_add_motif (scene, hw_outline_new_rectangle (50, 50), (HwPlacement){ { 300, 300 }, 0, 1, FALSE });
  plan = plan_scene (scene, HW_UNIT_MM);
  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
  g_assert_cmpuint (plan->hoopings[0].motifs[0], ==, 1);
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), ==, -1);
}

static void
edge_line_names_amount_and_side (void)
{
  /* The edge line runs at 40 mm, with 2 mm kept free. */
  struct
  {
    double x, y;
    const char *text;
    double amount;
  } cases[] = {
    { 300, 300, NULL, 0 },
    { 62.01, 300, NULL, 0 },
    { 56.9, 300, "Quince passes the edge line by 3.1 mm at its left.", 3.1 },
    { 60.5, 300, "Quince comes too near the edge line by 1.5 mm at its left; 2.0 mm are kept free.", 1.5 },
    { 645, 300, "Quince passes the edge line by 5.0 mm at its right.", 5 },
    { 300, 50, "Quince passes the edge line by 10.0 mm at its top.", 10 },
    { 300, 490, "Quince passes the edge line by 10.0 mm at its bottom.", 10 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwSnapshot) scene
          = one_motif (40, 40, (HwPlacement){ { cases[i].x, cases[i].y }, 0, 1, FALSE });
      g_autoptr (HwPlan) plan = plan_scene (scene, HW_UNIT_MM);
      const HwProblem *problem;

      if (cases[i].text == NULL)
        {
          g_assert_cmpuint (plan->problems->len, ==, 0);
          continue;
        }
      problem = only_problem (plan, HW_PROBLEM_OUTSIDE_EDGE_LINE);
      g_assert_cmpstr (problem->text, ==, cases[i].text);
      g_assert_cmpfloat_with_epsilon (problem->amount, cases[i].amount, 0.01);
      g_assert_false (problem->grave);
      g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
    }
}

static void
lengths_follow_the_unit (void)
{
  g_autoptr (HwSnapshot) scene = one_motif (40, 40, (HwPlacement){ { 47.3, 300 }, 0, 1, FALSE });
  g_autoptr (HwPlan) plan = plan_scene (scene, HW_UNIT_INCH);

  g_assert_nonnull (strstr (((HwProblem *)g_ptr_array_index (plan->problems, 0))->text, "0.50 in"));
}

static void
leaving_the_cloth_is_said (void)
{
  g_autoptr (HwSnapshot) scene = one_motif (40, 40, (HwPlacement){ { 690, 300 }, 0, 1, FALSE });
  g_autoptr (HwPlan) plan = NULL;

  g_clear_pointer (&scene->edge_line, hw_edge_line_unref);
  plan = plan_scene (scene, HW_UNIT_MM);
  g_assert_cmpstr (only_problem (plan, HW_PROBLEM_OUTSIDE_CLOTH)->text, ==,
                   "Quince leaves the cloth by 10.0 mm at its right.");
}

static void
clamped_motif_at_the_side_is_named (void)
{
  g_autoptr (HwSnapshot) scene = one_motif (100, 100, (HwPlacement){ { 60, 270 }, 0, 1, FALSE });
  g_autoptr (HwPlan) plan = NULL;
  const HwProblem *problem;

  g_clear_pointer (&scene->edge_line, hw_edge_line_unref);
  scene->fabric.hold = HW_HOLD_CLAMPED;
  plan = plan_scene (scene, HW_UNIT_MM);
  problem = only_problem (plan, HW_PROBLEM_OVERSIZE);
  g_assert_nonnull (strstr (problem->text, "the cloth is clamped"));
  g_assert_true (problem->grave);
}

static void
artwork_and_mended_outlines_are_mentioned (void)
{
  g_autoptr (HwSnapshot) scene = one_motif (40, 40, (HwPlacement){ { 300, 300 }, 0, 1, FALSE });
  HwMotif *motif = scene->motifs->pdata[0];
  g_autoptr (HwPlan) plan = NULL;

  motif->artwork_trouble = g_strdup ("quince.csv: there is no such file.");
  motif->outline_repaired = TRUE;
  plan = plan_scene (scene, HW_UNIT_MM);
  g_assert_cmpuint (plan->problems->len, ==, 2);
  g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
  g_assert_cmpstr (((HwProblem *)g_ptr_array_index (plan->problems, 0))->text, ==,
                   "Quince is drawn from its outline. quince.csv: there is no such file.");
  g_assert_cmpstr (((HwProblem *)g_ptr_array_index (plan->problems, 1))->text, ==,
                   "The outline of Quince crossed itself and was mended; please check its shape.");
}

static void
scene_without_hoops_says_so (void)
{
  g_autoptr (HwSnapshot) scene = one_motif (40, 40, (HwPlacement){ { 300, 300 }, 0, 1, FALSE });
  g_autoptr (HwSnapshot) empty = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwPlan) nothing = plan_scene (empty, HW_UNIT_MM);
  g_autofree char *sentence = hw_plan_sentence (nothing);

  g_ptr_array_set_size (scene->hoops, 0);
  plan = plan_scene (scene, HW_UNIT_MM);
  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  g_assert_cmpuint (plan->n_hoopings, ==, 0);
  g_assert_true (only_problem (plan, HW_PROBLEM_NO_HOOP)->grave);
  g_assert_cmpint (nothing->status, ==, HW_PLAN_OPTIMAL);
  g_assert_cmpuint (nothing->problems->len, ==, 0);
  g_assert_cmpstr (sentence, ==, "No motifs yet");
}

static void
sentence_counts_and_proves (void)
{
  g_autoptr (HwSnapshot) scene = one_motif (100, 100, (HwPlacement){ { 150, 200 }, 0, 1, FALSE });
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *sentence = NULL;
  const HwThreadBlock blocks[]
      = { { (char *)"moss", { 0, 1, 0 }, 6000, NULL }, { (char *)"rust", { 1, 0, 0 }, 600, NULL } };

  scene_add_motif (scene, hw_outline_new_rectangle (100, 100), (HwPlacement){ { 550, 200 }, 0, 1, FALSE });
  g_free (((HwMotif *)scene->motifs->pdata[1])->name);
  ((HwMotif *)scene->motifs->pdata[1])->name = g_strdup ("Gate");
  hw_motif_set_threads (scene->motifs->pdata[0], blocks, 2);
  hw_motif_set_threads (scene->motifs->pdata[1], blocks, 2);
  plan = plan_scene (scene, HW_UNIT_MM);
  sentence = hw_plan_sentence (plan);
  /* 13,200 stitches at 600 a minute, 3 changes of 1.5 minutes, 2 hoopings of 8: 42.5 minutes */
  g_assert_cmpfloat_with_epsilon (plan->minutes, 42.5, 1e-9);
  g_assert_cmpuint (plan->one_by_one_changes, ==, 3);
  g_assert_true (g_str_has_prefix (sentence, "2 hoopings, proven fewest · 3 thread changes · about 4"));
  g_assert_cmpstr (plan->proof, ==, "Quince and Gate can never share a hooping.");
  g_assert_cmpuint (plan->n_proof_motifs, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/problems/oversize-motif-is-named-with-its-miss", oversize_motif_is_named_with_its_miss);
  g_test_add_func ("/problems/named-scale-is-enough", named_scale_is_enough);
  g_test_add_func ("/problems/others-are-planned-beside-an-oversize-motif",
                   others_are_planned_beside_an_oversize_motif);
  g_test_add_func ("/problems/edge-line-names-amount-and-side", edge_line_names_amount_and_side);
  g_test_add_func ("/problems/lengths-follow-the-unit", lengths_follow_the_unit);
  g_test_add_func ("/problems/leaving-the-cloth-is-said", leaving_the_cloth_is_said);
  g_test_add_func ("/problems/clamped-motif-at-the-side-is-named", clamped_motif_at_the_side_is_named);
  g_test_add_func ("/problems/artwork-and-mended-outlines-are-mentioned",
                   artwork_and_mended_outlines_are_mentioned);
  g_test_add_func ("/problems/scene-without-hoops-says-so", scene_without_hoops_says_so);
  g_test_add_func ("/problems/sentence-counts-and-proves", sentence_counts_and_proves);
  return g_test_run ();
}

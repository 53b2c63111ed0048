/* Small scenes for the tests of the warnings: 700 x 540 mm of floated cloth without an edge line; the hoop's field is 130 x 180 mm, its frame
 * 170 x 240 mm, its clearance 2 mm. */
#pragma once

#include "planning/warnings.h"

#include "random-scenes.h"

static inline HwSnapshot *
new_scene (void)
{
  HwSnapshot *scene = hw_snapshot_new ();

  g_clear_pointer (&scene->edge_line, hw_edge_line_unref);
  scene_add_hoop (scene, "h", 130, 180, HW_TURN_ANY);
  return scene;
}

static inline HwMotif *
add (HwSnapshot *scene, const char *name, double width, double height, double x, double y)
{
  HwMotif *motif;

  scene_add_motif (scene, hw_outline_new_rectangle (width, height), (HwPlacement){ { x, y }, 0, 1, FALSE });
  motif = scene->motifs->pdata[scene->motifs->len - 1];
  g_free (motif->name);
  motif->name = g_strdup (name);
  return motif;
}

static inline void
set_stitches (HwMotif *motif, guint stitches)
{
  const HwThreadBlock block = { (char *)"moss", { 0, 1, 0 }, stitches, NULL };

  hw_motif_set_threads (motif, &block, 1);
}

static inline HwPlan *
plan_scene (const HwSnapshot *scene)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlanOptions options = { .seconds = 1, .unit = HW_UNIT_MM };

  return hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
}

static inline const HwProblem *
find (const HwPlan *plan, HwProblemKind kind)
{
  for (guint i = 0; i < plan->problems->len; i++)
    if (((HwProblem *)g_ptr_array_index (plan->problems, i))->kind == kind)
      return g_ptr_array_index (plan->problems, i);
  return NULL;
}

static inline guint
count (const HwPlan *plan, HwProblemKind kind)
{
  guint n = 0;

  for (guint i = 0; i < plan->problems->len; i++)
    n += ((HwProblem *)g_ptr_array_index (plan->problems, i))->kind == kind;
  return n;
}

/* A plan of one hooping for each motif, in their order, upright, centred on it; every motif placed to `error` mm. */
static inline HwPlan *
one_by_one (const HwSnapshot *scene, double error)
{
  HwPlan *plan = hw_plan_new (scene);

  plan->n_hoopings = scene->motifs->len;
  plan->hoopings = g_new0 (HwHooping, plan->n_hoopings + 1);
  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      plan->hoopings[i].centre = hw_snapshot_motif (scene, i)->placement.position;
      plan->hoopings[i].n_motifs = 1;
      plan->hoopings[i].motifs = g_memdup2 (&i, sizeof i);
      plan->hoopings[i].predicted_error = g_memdup2 (&error, sizeof error);
      plan->hoopings[i].n_marks = 2;
      plan->hoopings[i].marks = g_new0 (HwMark, 2);
    }
  return plan;
}

/* Little scenes with known answers: rectangles in a garden without an edge line, placed by hand. */
#pragma once

#include <string.h>

#include "../../src/planning/planner.h"

static inline HwSnapshot *
little_scene (double width, double height)
{
  HwSnapshot *scene = hw_snapshot_new ();

  g_clear_pointer (&scene->edge_line, hw_edge_line_unref);
  scene->fabric.width = width;
  scene->fabric.height = height;
  scene->fabric.hold = HW_HOLD_FLOATED;
  return scene;
}

static inline HwHoop *
little_hoop (HwSnapshot *scene, double width, double height, double clearance, HwTurn turn)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup_printf ("h%u", scene->hoops->len + 1);
  hoop->name = g_strdup_printf ("%g x %g", width, height);
  hoop->field_width = width;
  hoop->field_height = height;
  hoop->frame_width = width + 40;
  hoop->frame_height = height + 60;
  hoop->clearance = clearance;
  hoop->turn = turn;
  g_ptr_array_add (scene->hoops, hoop);
  return hoop;
}

/* A rectangle about (x, y). */
static inline HwMotif *
little_motif (HwSnapshot *scene, const char *name, double width, double height, double x, double y)
{
  HwMotif *motif = hw_motif_new ();

  motif->id = g_strdup_printf ("m%u", scene->motifs->len + 1);
  motif->name = g_strdup (name);
  motif->outline = hw_outline_new_rectangle (width, height);
  motif->placement = (HwPlacement){ { x, y }, 0, 1, FALSE };
  g_ptr_array_add (scene->motifs, motif);
  return motif;
}

static inline HwPin *
little_pin (const char *hoop, double x, double y, const char *motifs)
{
  HwPin *pin = hw_pin_new ();

  pin->hoop = g_strdup (hoop);
  pin->centre = (HwPoint){ x, y };
  pin->motifs = g_strsplit (motifs, " ", -1);
  return pin;
}

static inline HwPlan *
little_plan (const HwSnapshot *scene)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();

  return hw_planner_plan (planner, scene, NULL, NULL, NULL, NULL);
}

static inline void
assert_says (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("\"%s\" is not said in:\n%s", part, text);
}

static inline void
assert_does_not_say (const char *text, const char *part)
{
  if (strstr (text, part) != NULL)
    g_error ("\"%s\" is said in:\n%s", part, text);
}

static inline HwPlan *
plan_verified (const HwSnapshot *scene)
{
  HwPlan *plan = little_plan (scene);
  g_autoptr (GError) error = NULL;

  hw_plan_verify (plan, &error);
  g_assert_no_error (error);
  return plan;
}

static inline const HwProblem *
find_problem (const HwPlan *plan, HwProblemKind kind)
{
  for (guint i = 0; i < plan->problems->len; i++)
    if (((HwProblem *)plan->problems->pdata[i])->kind == kind)
      return plan->problems->pdata[i];
  return NULL;
}

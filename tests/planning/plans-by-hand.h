/* Plans put together by hand, to be held against the check with exactly one fault each: right to begin with; a fault is put in, must be told in its
 * own words, and is taken out again. What looks like a fault and is none must be let through. */
#pragma once

#include "little-scenes.h"

/* A hoop whose motifs must lie within 50 mm of its centre, both ways; frame 144 x 164. */
static inline HwSnapshot *
garden (void)
{
  HwSnapshot *scene = little_scene (800, 600);

  little_hoop (scene, 104, 104, 2, HW_TURN_ANY);
  return scene;
}

/* A further hooping in the first hoop, square to the cloth, with the motifs of these numbers: "0 2 1". */
static inline HwHooping *
hoop_up (HwPlan *plan, double x, double y, const char *numbers)
{
  g_auto (GStrv) each = g_strsplit (numbers, " ", -1);
  HwHooping *hooping;

  plan->hoopings = g_renew (HwHooping, plan->hoopings, plan->n_hoopings + 1);
  hooping = &plan->hoopings[plan->n_hoopings++];
  plan->status = HW_PLAN_FEASIBLE; /* nothing is said to be proven */
  *hooping = (HwHooping){ .centre = { x, y } };
  hooping->motifs = g_new0 (guint, g_strv_length (each) + 1);
  for (; each[hooping->n_motifs] != NULL && *each[hooping->n_motifs] != '\0'; hooping->n_motifs++)
    hooping->motifs[hooping->n_motifs] = (guint)g_ascii_strtoull (each[hooping->n_motifs], NULL, 10);
  return hooping;
}

#define assert_right(plan) assert_verdict (G_STRLOC, plan, NULL)
#define assert_wrong(plan, sentence) assert_verdict (G_STRLOC, plan, sentence)

static inline void
assert_verdict (const char *where, const HwPlan *plan, const char *sentence)
{
  g_autoptr (GError) error = NULL;
  gboolean right = hw_plan_verify (plan, &error);

  g_assert_true (right == (error == NULL));
  g_assert_true (error == NULL || g_error_matches (error, HW_PLAN_ERROR, HW_PLAN_ERROR_BROKEN_RULE));
  if (g_strcmp0 (error != NULL ? error->message : NULL, sentence) != 0)
    g_error ("%s: \"%s\" instead of \"%s\"", where, error != NULL ? error->message : "(right)",
             sentence != NULL ? sentence : "(right)");
  g_assert_true (hw_plan_verify (plan, NULL) == right);
}

static inline HwProblem *
problem_of (HwPlan *plan, HwProblemKind kind, int motif, gboolean grave)
{
  return hw_plan_add_problem (plan, kind, motif, grave, g_strdup ("Something is the matter."));
}

/* Gate and Quince in one hooping, Rose in the next. */
static inline HwPlan *
plan_of_three (HwSnapshot **scene)
{
  HwPlan *plan;

  *scene = garden ();
  little_motif (*scene, "Gate", 40, 40, 100, 100);
  little_motif (*scene, "Quince", 40, 40, 150, 100);
  little_motif (*scene, "Rose", 40, 40, 400, 100);
  plan = hw_plan_new (*scene);
  hoop_up (plan, 125, 100, "0 1");
  hoop_up (plan, 400, 100, "2");
  assert_right (plan);
  return plan;
}

static inline void
swap (HwPlan *plan, guint a, guint b)
{
  HwHooping hooping = plan->hoopings[a];

  plan->hoopings[a] = plan->hoopings[b];
  plan->hoopings[b] = hooping;
}

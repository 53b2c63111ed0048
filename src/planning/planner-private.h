/* The inside of the planner, shared by the files that make it up. */
#pragma once

#include "again.h"
#include "held.h"
#include "planner.h"
#include "thread-order.h"

G_BEGIN_DECLS

/* Chosen hoops by set of placed motifs. */
typedef struct _HwChoices HwChoices;
HwChoices *
hw_choices_new (void);
void
hw_choices_free (HwChoices *choices);
void
hw_choices_forget (HwChoices *choices);

/* One planning call. */
typedef struct
{
  const HwSnapshot *snapshot;
  HwPlanOptions options;
  GCancellable *cancellable;
  const HwPlan *last;        /* the plan before, or NULL */
  GHashTable *last_hoopings; /* id -> hooping of it + 1 */
  HwPlacings *placings;
  HwSetFit *fit;
  HwChoices *choices;
  const HwPlaced *placed;
  HwPlan *scene; /* a plan without hoopings: problems found before the search */
  HwHeldFast *held;
  HwSearch *search;
  HwThreadProblem threads;
  HwThreadOrder *order;
} HwPlanning;

/* plan-build.c: the plan as it stands: hoopings with hoops, poses, marks, counts, sentences. Returns: (transfer full) */
HwPlan *
hw_plan_build (HwPlanning *planning);

/* plan-proof.c: fills bound, status and the sentence that says why not fewer. */
void
hw_plan_prove (HwPlanning *planning, HwPlan *plan);

/* planner-threads.c: the motifs' threads as numbers. */
void
hw_planning_take_threads (HwPlanning *planning, HwMayShare may_share);
void
hw_planning_drop_threads (HwPlanning *planning);

G_END_DECLS

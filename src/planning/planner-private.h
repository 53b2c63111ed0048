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

/* Thread blocks of a motif that follow one another in the same thread: what is stitched without a change. All blocks of a motif that takes turns in the
 * machine: their order is settled, and what changes among them cannot be saved. */
typedef struct
{
  guint motif;        /* its number among the planned ones */
  guint first, count; /* the motif's blocks; count 0: it has none at all */
  guint enters;       /* the number of the thread it begins with, or HW_THREAD_NONE */
  guint leaves;       /* of the one it ends with */
} HwBlockRun;

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
  HwThreadProblem threads; /* of motifs */
  HwThreadProblem blocks;  /* of block runs, where they may be mixed */
  GArray *runs;            /* HwBlockRun, motif by motif */
  HwThreadOrder *order;
  gboolean in_blocks; /* the order is of block runs */
} HwPlanning;

/* plan-build.c: the plan as it stands: hoopings with hoops, poses, marks, counts, sentences. Returns: (transfer full) */
HwPlan *
hw_plan_build (HwPlanning *planning);

/* plan-build.c: takes over what was found wrong with the scene before the search. */
void
hw_plan_take_problems (HwPlan *plan, const HwPlan *scene);

/* plan-beside.c: the plan with another snapshot. Returns: (transfer full) */
HwPlan *
hw_plan_copy (const HwPlan *plan, const HwSnapshot *beside);

/* planner.c: what is held fast and what is wrong with the scene, from planning's snapshot, placed motifs, sets and options. FALSE when
 * cancelled. */
gboolean
hw_planning_look (HwPlanning *planning, HwOverlaps *overlaps);

/* plan-proof.c: fills bound, status, reason and the sentence that says why not fewer. */
void
hw_plan_prove (HwPlanning *planning, HwPlan *plan);
/* The sentence alone, of what is proven already. */
void
hw_plan_say_proof (const HwPlanning *planning, HwPlan *plan);

/* planner-threads.c: the motifs' threads as numbers. */
void
hw_planning_take_threads (HwPlanning *planning, HwMayShare may_share);
void
hw_planning_drop_threads (HwPlanning *planning);

/* planner-blocks.c: the same for runs of blocks, after the motifs'. */
void
hw_planning_take_blocks (HwPlanning *planning, HwMayShare may_share);
void
hw_planning_drop_blocks (HwPlanning *planning);
/* The motifs' order told in block runs. Returns: (transfer full) */
HwThreadOrder *
hw_planning_order_in_blocks (const HwPlanning *planning, const HwThreadOrder *order);
/* Whether every motif of a part of the sequence is stitched through before the next begins. */
gboolean
hw_planning_is_motif_by_motif (const HwPlanning *planning, const guint *sequence, guint n);

G_END_DECLS

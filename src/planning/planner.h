/* The planner: a snapshot in, a plan out. Knows no file and no screen. */
#pragma once

#include <gio/gio.h>

#include "plan.h"

G_BEGIN_DECLS

typedef struct
{
  double seconds; /* time for search and proof; <= 0: the first valid plan only */
  HwUnit unit;    /* of the lengths in sentences */
  gsize memory;   /* bytes the planner may use beside the scene; 0: HW_PLAN_MEMORY */
} HwPlanOptions;

#define HW_PLAN_MEMORY ((gsize)512 << 20)

#define HW_PLAN_OPTIONS_DEFAULT ((HwPlanOptions){ .seconds = 10.0, .unit = HW_UNIT_MM })

/* What a planner remembers between calls, so that a small edit is answered from the plan before: pairs that overlap,
 * sets that fit, the last plan. Used by one thread at a time. */
typedef struct _HwPlanner HwPlanner;
HwPlanner *
hw_planner_new (void);
void
hw_planner_free (HwPlanner *planner);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPlanner, hw_planner_free)

/* Called with each better plan on the way to the last, on the planner's thread. */
typedef void (*HwPlanFound) (const HwPlan *plan, gpointer user_data);

/* Plans the snapshot. A plan is always returned, whatever the scene holds, unless cancelled (then NULL); when some
 * motif cannot be stitched its status is HW_PLAN_UNPLANNABLE and problems say why. Equal snapshots give equal
 * plans. found may be NULL. Returns: (transfer full) (nullable) */
HwPlan *
hw_planner_plan (HwPlanner *planner,
                 const HwSnapshot *snapshot,
                 const HwPlanOptions *options,
                 GCancellable *cancellable,
                 HwPlanFound found,
                 gpointer user_data);

/* Which motifs must come before which (rule 1): n x n bytes, before[i * n + j] = 1 when i is stitched before j by overlap
 * in list order or by a tie; not the transitive closure. loop (may be NULL) receives the indices of a
 * contradicting loop, ended by the first again, or NULL. Returns: (transfer full) */
guint8 *
hw_order_of_snapshot (const HwSnapshot *snapshot, GArray **loop);

/* Whether the tie first -> second would close a loop; the sentence names it. Returns: (transfer full) (nullable) */
char *
hw_order_refuses_tie (const HwSnapshot *snapshot, guint first, guint second);

G_END_DECLS

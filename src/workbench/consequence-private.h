/* The parts of weighing a consequence. */
#pragma once

#include "../planning/planner.h"
#include "consequence.h"

G_BEGIN_DECLS

/* "6 hoopings become 7, 3 thread changes less, 12 minutes more." Returns: (transfer full) */
char *
hw_consequence_counts_text (const HwPlan *before, const HwPlan *after);

/* Whether the wish last made keeps a hooping along the grain. */
gboolean
hw_consequence_is_of_grain (const HwSnapshot *changed);

/* Completes what is said of that wish, which `after` is the plan with: where the one hooping cannot be had, it is told in how many along the grain its
 * motifs can, and that is offered instead; or why not at all. */
void
hw_consequence_weigh_grain (HwConsequence *consequence,
                            const HwPlan *before,
                            const HwSnapshot *changed,
                            const HwPlan *after,
                            const HwPlanOptions *options,
                            GCancellable *cancellable);

G_END_DECLS

/* A plan explained in plain text for people: why there are not fewer hoopings, and why each one is as it is. Worked out afresh from the plan and
 * its snapshot; lines end with a newline, lists begin with a bullet. Slow enough (milliseconds) to be asked for, not kept up to date. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* Everything: the count, the threads, motifs that cannot be stitched, then every hooping. Returns: (transfer full) */
char *
hw_explain_plan (const HwPlan *plan, HwUnit unit);

/* How many hoopings there are, how sure that is, and why not fewer. Returns: (transfer full) */
char *
hw_explain_count (const HwPlan *plan, HwUnit unit);

/* How many thread changes there are, how sure that is, and what the order saves. Returns: (transfer full) */
char *
hw_explain_threads (const HwPlan *plan);

/* Where the time goes: "Setting 6 hoopings takes 48 min, 96 thread changes 2 h 24, stitching 4 h 03." Returns: (transfer full) */
char *
hw_explain_time (const HwPlan *plan);

/* Why hooping (index, below n_hoopings) is here: its hoop, its angle, its room, what it waits for, what it could not join.
 * Returns: (transfer full) */
char *
hw_explain_hooping (const HwPlan *plan, guint hooping, HwUnit unit);

/* What would make a motif that no hoop takes fit: a turn on the cloth, a scale, a larger hoop. Returns: (transfer full) */
char *
hw_explain_oversize (const HwPlan *plan, guint motif, HwUnit unit);

G_END_DECLS

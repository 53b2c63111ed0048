/* The parts of a divided scene as the planner keeps them: every motif of an earlier part is stitched before every motif of a later one, and no
 * hooping holds motifs of two. */
#pragma once

#include "held.h"

G_BEGIN_DECLS

#define HW_NO_PART G_MAXUINT

/* The part that names each motif of the snapshot, or HW_NO_PART. Of equal ids the first motif counts. Returns: (transfer full) */
guint *
hw_parts_of_motifs (const HwSnapshot *snapshot);

/* Adds the order of the parts to what is held, after overlaps, ties and pins. A motif that must be stitched before one of an earlier part joins
 * that part, and plan is told why. overlaps may be NULL. */
void
hw_parts_hold (HwHeldFast *held, HwOverlaps *overlaps, HwPlan *plan);

/* Whether the two motifs (indices into the snapshot) are of different parts as they are planned. */
gboolean
hw_parts_differ (const HwHeldFast *held, guint a, guint b);

G_END_DECLS

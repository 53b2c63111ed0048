/* What to look at in a scene, each in one sentence. */
#pragma once

#include "held.h"
#include "placings.h"
#include "plan.h"

G_BEGIN_DECLS

/* No hoop takes the motif: which comes nearest, by how much it misses, at what scale it would fit. */
void
hw_problems_add_oversize (HwPlan *plan, guint motif, const HwOutline *placed, HwUnit unit);

/* A tie that contradicts the order: the way round, first, second, ..., first. The tie is left out of the plan. */
void
hw_problems_add_loop (HwPlan *plan, const GArray *loop);

/* What can be seen from the scene alone: edge line, cloth, artwork, mended outlines, no hoop. */
void
hw_problems_add_scene (HwPlan *plan, HwPlacings *placings, const HwPlaced *placed, HwUnit unit);

/* Tells of each pair of overlapping motifs of which the one that was to lie on top is stitched before the other. overlaps may be NULL. */
void
hw_problems_add_out_of_order (HwPlan *plan, const HwPlaced *placed, HwOverlaps *overlaps);

/* The same of what is in the machine, where a tie may say so too. */
void
hw_problems_add_out_of_turn (HwPlan *plan, const HwHeldFast *held, HwOverlaps *overlaps);

G_END_DECLS

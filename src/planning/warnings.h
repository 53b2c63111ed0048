/* What the bench warns of beside what stops a plan: motifs scaled too far, hairlines that may open, frames where they should not lie, a cloth that
 * is too small, stitching stacked too dense. None of it is grave; each is one sentence with its place on the cloth. */
#pragma once

#include "density.h"
#include "order.h"
#include "plan.h"

G_BEGIN_DECLS

/* Adds the warnings that are quick to find to a plan under construction whose hoopings, marks and predicted errors are there. placed: the
 * motifs as they lie on the cloth, one for each of the snapshot, or NULL to place them here. Rules come in a fixed order, and within a rule
 * hoopings and motifs in theirs; at most HW_WARNINGS_MOST of a rule are told one by one, the rest in one sentence. */
void
hw_warnings_add (HwPlan *plan, const HwPlaced *placed, HwUnit unit);

#define HW_WARNINGS_MOST 8

/* Adds the warnings of stitching stacked too dense, for the last plan of a call: counting a large scene for the first time takes longer than a first
 * plan may. *kept (may hold NULL) is the density map of the call before and is replaced. */
void
hw_warnings_add_dense (HwPlan *plan, HwDensityMap **kept);

/* For a plan that a better one follows: takes over what the last plan said of stacked stitching, as far as it speaks of motifs that lie as they did.
 * last may be NULL. */
void
hw_warnings_keep_dense (HwPlan *plan, const HwPlan *last);

/* The least area, mm^2, that is worth a word when it lies over the limit: common practice, no source. */
#define HW_WARNINGS_DENSE_AREA 50.0

/* The gap between two placed outlines as a positive figure, or how deep they lie over each other as a negative one; INFINITY or -INFINITY when
 * it is `reach` or more. An overlap is as deep as the farthest point of one inside the other, so that a stem that crosses a leaf does not count
 * as a thin one. where (may be NULL): the place. */
double
hw_warnings_gap (const HwOutline *a, const HwOutline *b, double reach, HwPoint *where);

G_END_DECLS

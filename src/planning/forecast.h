/* What stitching will draw in, before it is stitched, from the stitch density of each motif and a rule of thumb (wishes.draw_in: percent for each
 * stitch per square mm; common practice, no source). Each stitched motif is taken as a round patch of its area that shrinks by that
 * percent; the cloth around follows it, less with distance (a round inclusion in an even sheet: outside, the way falls with 1 / distance). */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* How far the cloth at a motif's place will have moved by the time its hooping begins, through what is stitched before, in the order of the plan. Fills moves
 * (fabric mm; one for each motif of the plan's snapshot): the place p of the scene then lies at p + move. Motifs of frozen hoopings and motifs in no hooping: 0. */
void
hw_forecast_moves (const HwPlan *plan, HwPoint *moves);
/* The same for any place when hooping `before` (index; n_hoopings: all stitched) begins; frozen ones are in the scene's places already and do not count. */
HwPoint
hw_forecast_move_at (const HwPlan *plan, guint before, HwPoint place);
/* How much shorter the finished picture is expected to be, percent across and along (positive: drawn in), over the box of all motifs. */
void
hw_forecast_whole (const HwPlan *plan, double *across, double *along);

G_END_DECLS

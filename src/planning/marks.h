/* Where to draw the marks of each hooping (rule 9): two to four small crosses inside the field, on the cloth,
 * not within 1.5 mm of stitching of an earlier hooping, laid out so that the largest predicted error over the
 * hooping's motifs is smallest. Neighbouring hoopings share marks where that costs nothing. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* Fills marks and predicted_error (at each motif's centre; INFINITY with fewer than two marks) of every hooping of a plan under construction and adds a problem
 * for each hooping with fewer than two usable marks, and for each held mark that cannot serve. sigma: mm per axis of drawing and reading a mark.
 * - A frozen hooping, or a pinned one kept whole, whose pin brings marks has exactly these.
 * - Else marks held for its motifs that can serve come first; more are chosen up to the scene's wish (2 to 4), beyond that only where they help and
 *   fewer are held than wished for: with enough held, the rest is the person's to ask for.
 *   Chosen marks lie 3 mm inside the field and 4 mm inside the cloth (less where these are small), and at least 20 mm or a fifth of the
 *   field's diagonal, whichever is less, from each other.
 * - Letters run on from hooping to hooping, in each from the top of the hoop down; a mark shared has one letter; pins' marks keep theirs. */
void
hw_marks_choose (HwPlan *plan, double sigma, HwUnit unit);

/* Why a mark at this place (fabric mm) could not serve the hooping: a clause to go on after "because"; NULL when it can. Returns: (transfer full) (nullable) */
char *
hw_marks_why_not (const HwPlan *plan, guint hooping, HwPoint at, HwUnit unit);

/* Where one more mark helps the hooping most. FALSE when there is no place for it. */
gboolean
hw_marks_one_more (const HwPlan *plan, guint hooping, double sigma, HwPoint *at);

#define HW_MARKS_SIGMA 0.35     /* mm per axis; common practice, no source */
#define HW_MARKS_STITCH_GAP 1.5 /* mm from earlier stitching */

G_END_DECLS

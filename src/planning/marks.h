/* Where to draw the marks of each hooping (rule 9): two to four small crosses inside the field, on the cloth,
 * not within 1.5 mm of stitching of an earlier hooping, laid out so that the largest predicted error over the
 * hooping's motifs is smallest. Neighbouring hoopings share marks where that costs nothing. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* Fills marks and predicted_error (at each motif's centre; INFINITY with fewer than two marks) of every hooping of a plan under construction and adds a problem for each
 * hooping with fewer than two usable marks. sigma: mm per axis of drawing and reading a mark. */
void
hw_marks_choose (HwPlan *plan, double sigma, HwUnit unit);

#define HW_MARKS_SIGMA 0.35     /* mm per axis; common practice, no source */
#define HW_MARKS_STITCH_GAP 1.5 /* mm from earlier stitching */

G_END_DECLS

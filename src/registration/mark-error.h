/* Predicted error at a target from the layout of the marks: Fitzpatrick, West and Maurer 1998, IEEE Transactions on
 * Medical Imaging 17(5), in its planar form E[TRE^2] = FLE^2/N (1 + d^2 / (2 f^2)), FLE^2 = 2 sigma^2. */
#pragma once

#include "../geometry/point.h"

G_BEGIN_DECLS

/* Root of the expected squared error at target, mm, for n marks with sigma mm per axis. Infinite with marks that all
 * coincide and target elsewhere, and with no mark. */
double
hw_mark_error (const HwPoint *marks, guint n, double sigma, HwPoint target);

/* The largest of these over some targets; 0 without a target. */
double
hw_mark_error_worst (const HwPoint *marks, guint n, double sigma, const HwPoint *targets, guint n_targets);

/* How the errors to be expected spread about a target. With m the marks from their centroid and r the target from it, to first order
 * (the turn is small): sigma^2 / N in every direction, and sigma^2 |r|^2 / sum |m|^2 more across the line to the centroid, which is what the
 * turn adds. The trace is the square of hw_mark_error(). */
typedef struct
{
  double xx, xy, yy;    /* mm^2 */
  double along, across; /* mm: root mean square along the line to the centroid and across it */
  double angle; /* degrees: the line's direction, from the centroid to the target; 0 where they coincide */
} HwMarkSpread;

/* All infinite with no mark, and with marks that all coincide and the target elsewhere. */
HwMarkSpread
hw_mark_spread (const HwPoint *marks, guint n, double sigma, HwPoint target);

G_END_DECLS

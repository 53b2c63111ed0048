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

G_END_DECLS

/* What both roads to the cloth's change share: least squares that say when they cannot tell, and the symmetric root. */
#pragma once

#include "draw-in.h"

G_BEGIN_DECLS

/* Least squares by singular values: n rows of `unknowns` numbers (row by row), right sides; FALSE when the rows do not tell all unknowns apart. */
gboolean
hw_least_squares (const double *rows, const double *right, guint n, guint unknowns, double *result);

/* S with S S = G = (xx, xy; xy, yy), written into stretch. HW_DRAW_IN_ERROR_DOUBTFUL when G is no square of a stretch or S changes a length by more than
 * 20 %. */
gboolean
hw_stretch_root (const double g[3], HwStretch *stretch, GError **error);

G_END_DECLS

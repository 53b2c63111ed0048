/* Least-squares rigid fit of two point sets in the plane: turn = atan2 (sum a x b, sum a . b) over centred points,
 * shift = mean b - R mean a (Schoenemann 1966; Kabsch 1976; Umeyama 1991). */
#pragma once

#include "../geometry/point.h"

G_BEGIN_DECLS

typedef struct
{
  double turn; /* degrees: b = R(turn) a + shift */
  HwPoint shift;
  double rms; /* root mean square of what remains, mm */
} HwRigidFit;

#define HW_FIT_ERROR (hw_fit_error_quark ())
typedef enum
{
  HW_FIT_ERROR_TOO_FEW, /* no point at all, or fewer than the fit needs */
  HW_FIT_ERROR_COINCIDENT, /* all points in one place (or on one line, where that is not enough): a turn cannot be told */
  HW_FIT_ERROR_FAR /* a place that is no number or metres away */
} HwFitError;
GQuark
hw_fit_error_quark (void);

/* n >= 1; one pair gives a shift with turn 0. */
gboolean
hw_rigid_fit (const HwPoint *a, const HwPoint *b, guint n, HwRigidFit *fit, GError **error);

/* Similarity: b = scale R(turn) a + shift (Umeyama 1991, determinant held at +1). */
gboolean
hw_similarity_fit (
    const HwPoint *a, const HwPoint *b, guint n, HwRigidFit *fit, double *scale, GError **error);

G_END_DECLS

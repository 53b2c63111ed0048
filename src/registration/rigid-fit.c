/* Fits of one set of points to another in the plane, by least squares: with both sets about their means, the turn is
 * atan2 (sum a x b, sum a . b) (Schoenemann 1966, Psychometrika 31(1); Kabsch 1976, Acta Cryst. A32), and the scale is the projection of b
 * on the turned a over the spread of a (Umeyama 1991, IEEE PAMI 13(4), its determinant held at +1: no mirroring). */
#include "rigid-fit.h"

#include <math.h>

#include "../geometry/language.h"

G_DEFINE_QUARK (hw_fit_error_quark, hw_fit_error)

/* Both sets about their means. */
typedef struct
{
  HwPoint mean_a, mean_b;
  double dot, cross;         /* sums over a, b */
  double spread_a, spread_b; /* sums of squares */
} Sums;

static HwPoint
mean_of (const HwPoint *points, guint n)
{
  HwPoint mean = { 0, 0 };

  for (guint i = 0; i < n; i++)
    {
      mean.x += points[i].x / n;
      mean.y += points[i].y / n;
    }
  return mean;
}

static Sums
sum_up (const HwPoint *a, const HwPoint *b, guint n)
{
  Sums sums = { .mean_a = mean_of (a, n), .mean_b = mean_of (b, n) };

  for (guint i = 0; i < n; i++)
    {
      double ax = a[i].x - sums.mean_a.x, ay = a[i].y - sums.mean_a.y;
      double bx = b[i].x - sums.mean_b.x, by = b[i].y - sums.mean_b.y;

      sums.dot += ax * bx + ay * by;
      sums.cross += ax * by - ay * bx;
      sums.spread_a += ax * ax + ay * ay;
      sums.spread_b += bx * bx + by * by;
    }
  return sums;
}

/* Points closer than a millionth of a millimetre are in one place. */
static gboolean
in_one_place (double spread, guint n)
{
  return !(spread > 1e-12 * n);
}

/* Puts turn and scale together with the shift and what remains. */
static void
complete_fit (const HwPoint *a, const HwPoint *b, guint n, const Sums *sums, double scale, HwRigidFit *fit)
{
  HwPoint moved = hw_point_turn (sums->mean_a, fit->turn);
  double remains = 0;

  fit->shift = (HwPoint){ sums->mean_b.x - scale * moved.x, sums->mean_b.y - scale * moved.y };
  for (guint i = 0; i < n; i++)
    {
      HwPoint p = hw_point_turn (a[i], fit->turn);
      double x = scale * p.x + fit->shift.x - b[i].x, y = scale * p.y + fit->shift.y - b[i].y;

      remains += x * x + y * y;
    }
  fit->rms = sqrt (remains / n);
}

static gboolean
has_points (guint n, GError **error)
{
  if (n > 0)
    return TRUE;
  g_set_error_literal (error, HW_FIT_ERROR, HW_FIT_ERROR_TOO_FEW,
                       _ ("There is no pair of points to fit. Take a reading at one mark at least."));
  return FALSE;
}

static void
set_coincident (GError **error)
{
  g_set_error_literal (error, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT,
                       _ ("The points all lie in one place, so a turn cannot be told. Take readings at marks "
                          "that lie apart."));
}

gboolean
hw_rigid_fit (const HwPoint *a, const HwPoint *b, guint n, HwRigidFit *fit, GError **error)
{
  Sums sums;

  g_return_val_if_fail (fit != NULL, FALSE);
  g_return_val_if_fail ((a != NULL && b != NULL) || n == 0, FALSE);

  if (!has_points (n, error))
    return FALSE;
  sums = sum_up (a, b, n);
  if (n > 1 && (in_one_place (sums.spread_a, n) || in_one_place (sums.spread_b, n)))
    {
      set_coincident (error);
      return FALSE;
    }
  fit->turn = n > 1 ? atan2 (sums.cross, sums.dot) * (180 / G_PI) : 0;
  complete_fit (a, b, n, &sums, 1, fit);
  return TRUE;
}

gboolean
hw_similarity_fit (
    const HwPoint *a, const HwPoint *b, guint n, HwRigidFit *fit, double *scale, GError **error)
{
  Sums sums;

  g_return_val_if_fail (fit != NULL && scale != NULL, FALSE);
  g_return_val_if_fail ((a != NULL && b != NULL) || n == 0, FALSE);

  if (!has_points (n, error))
    return FALSE;
  sums = sum_up (a, b, n);
  if (n > 1 && (in_one_place (sums.spread_a, n) || in_one_place (sums.spread_b, n)))
    {
      set_coincident (error);
      return FALSE;
    }
  fit->turn = n > 1 ? atan2 (sums.cross, sums.dot) * (180 / G_PI) : 0;
  *scale = n > 1 ? hypot (sums.dot, sums.cross) / sums.spread_a : 1;
  complete_fit (a, b, n, &sums, *scale, fit);
  return TRUE;
}

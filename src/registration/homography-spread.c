/* How well a photo put square tells where something lies: what the handles are each off by is carried to any other place through the fit itself, by moving each a
 * little and fitting anew (propagation of errors to first order). */
#include <math.h>

#include "homography.h"

#define ASSUMED_WEIGHT 4 /* the assumption counts as much as two points over what the fit needs */
#define NUDGE 0.05       /* mm */

double
hw_homography_point_sigma (const double *residuals, guint n, guint unknowns, double assumed)
{
  double sum = ASSUMED_WEIGHT * assumed * assumed;
  guint left = 2 * n > unknowns ? 2 * n - unknowns : 0;

  g_return_val_if_fail (residuals != NULL || n == 0, assumed);

  for (guint i = 0; i < n; i++)
    sum += residuals[i] * residuals[i];
  return sqrt (sum / (ASSUMED_WEIGHT + left));
}

gboolean
hw_homography_spread (const HwPhotoPoint *points,
                      guint n,
                      double width,
                      double height,
                      const HwHomography *h,
                      double sigma,
                      const HwPoint *px,
                      guint n_px,
                      double *spread)
{
  g_autofree HwPhotoPoint *moved = NULL;
  g_autofree HwPoint *rest = NULL;

  g_return_val_if_fail (points != NULL && h != NULL && (n_px == 0 || (px != NULL && spread != NULL)), FALSE);

  moved = g_memdup2 (points, n * sizeof *points);
  rest = g_new (HwPoint, n_px + 1);
  for (guint k = 0; k < n_px; k++)
    {
      rest[k] = hw_homography_apply (h, px[k]);
      spread[k] = 0;
    }
  for (guint i = 0; i < 2 * n; i++)
    {
      double *value = i % 2 == 0 ? &moved[i / 2].mm.x : &moved[i / 2].mm.y, before = *value;
      HwHomography other;

      *value += NUDGE;
      if (!hw_homography_fit (moved, n, width, height, h->bow, FALSE, &other, NULL, NULL))
        return FALSE;
      *value = before;
      for (guint k = 0; k < n_px; k++)
        {
          double by = hw_point_distance (hw_homography_apply (&other, px[k]), rest[k]) / NUDGE;

          spread[k] += by * by;
        }
    }
  for (guint k = 0; k < n_px; k++)
    spread[k] = isfinite (spread[k]) ? sigma * sqrt (spread[k] / 2) : HUGE_VAL;
  return TRUE;
}

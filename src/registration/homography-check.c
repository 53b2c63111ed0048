/* Whether the points of a photo agree. A wrong point is told by leaving out each in turn: when the others then agree far better than chance would have it (the F test
 * of a mean-shift outlier, as in Cook and Weisberg 1982, Residuals and Influence in Regression, 2.2.2, at a level shared among the points after Bonferroni), it is the
 * wrong one. What counts as agreeing follows from the points themselves; while they are few, how well hands place a point counts as well. */
#include <gsl/gsl_cdf.h>
#include <math.h>

#include "homography.h"

#define LEVEL 0.003
#define HAND 1.0    /* px: as near as a hand places a point */
#define WORTH 4.0   /* numbers left over that this knowledge is worth */
#define FINEST 0.02 /* mm */

/* mm on the cloth that a pixel is wide about px. */
static double
pixel_size (const HwHomography *h, HwPoint px)
{
  HwPoint a = hw_homography_apply (h, (HwPoint){ px.x - 0.5, px.y - 0.5 });
  HwPoint b = hw_homography_apply (h, (HwPoint){ px.x + 0.5, px.y + 0.5 });

  return hw_point_distance (a, b) / sqrt (2);
}

static double
sum_of_squares (const double *residuals, guint n)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += residuals[i] * residuals[i];
  return sum;
}

/* The variance, per direction, that placing points by hand has anyhow. */
static double
variance_by_hand (const HwPhotoPoint *points, guint n, const HwHomography *h)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += pixel_size (h, points[i].px) / n;
  return isfinite (sum) ? pow (MAX (HAND * sum, FINEST), 2) : FINEST * FINEST;
}

/* The point without which the rest is least, and that rest; -1 when there is none. */
static int
find_suspect (const HwPhotoPoint *points,
              guint n,
              const HwHomography *h,
              double width,
              double height,
              double *rest,
              double *by)
{
  g_autofree HwPhotoPoint *others = g_new (HwPhotoPoint, n);
  g_autofree double *residuals = g_new (double, n);
  int suspect = -1;

  *rest = INFINITY;
  for (guint i = 0; i < n; i++)
    {
      HwHomography without;
      guint m = 0;
      double sum;

      for (guint k = 0; k < n; k++)
        if (k != i)
          others[m++] = points[k];
      if (!hw_homography_fit (others, m, width, height, h->bow, FALSE, &without, residuals, NULL))
        continue;
      sum = sum_of_squares (residuals, m);
      if (sum < *rest)
        {
          *rest = sum;
          *by = hw_point_distance (hw_homography_apply (&without, points[i].px), points[i].mm);
          suspect = (int)i;
        }
    }
  return suspect;
}

int
hw_homography_bad_point (
    const HwPhotoPoint *points, guint n, const HwHomography *h, double width, double height, double *by)
{
  double all = 0, rest, far = 0, variance, gain, free_numbers = 2.0 * n - 10;
  int suspect;

  g_return_val_if_fail (points != NULL || n == 0, -1);
  g_return_val_if_fail (h != NULL && width > 0 && height > 0, -1);

  if (by != NULL)
    *by = 0;
  /* Any four of five points agree. */
  if (n < 6)
    return -1;
  for (guint i = 0; i < n; i++)
    all += pow (hw_point_distance (hw_homography_apply (h, points[i].px), points[i].mm), 2);
  variance = variance_by_hand (points, n, h);
  suspect = find_suspect (points, n, h, width, height, &rest, &far);
  if (suspect < 0)
    return -1;
  gain = (all - rest) / 2 / ((rest + WORTH * variance) / (free_numbers + WORTH));
  if (isfinite (far) && !(gain > gsl_cdf_fdist_Qinv (LEVEL / n, 2, free_numbers + WORTH)))
    return -1;
  if (by != NULL)
    *by = far;
  return suspect;
}

double
hw_homography_straightness (const HwHomography *h, const HwPoint *px, guint n)
{
  g_autofree HwPoint *p = NULL;
  HwPoint mean = { 0, 0 };
  double xx = 0, xy = 0, yy = 0, angle, worst = 0;

  g_return_val_if_fail (h != NULL, 0);
  g_return_val_if_fail (px != NULL || n == 0, 0);

  p = g_new (HwPoint, n + 1);
  for (guint i = 0; i < n; i++)
    {
      p[i] = hw_homography_apply (h, px[i]);
      mean = (HwPoint){ mean.x + p[i].x / n, mean.y + p[i].y / n };
    }
  for (guint i = 0; i < n; i++)
    {
      p[i] = (HwPoint){ p[i].x - mean.x, p[i].y - mean.y };
      xx += p[i].x * p[i].x;
      xy += p[i].x * p[i].y;
      yy += p[i].y * p[i].y;
    }
  angle = atan2 (2 * xy, xx - yy) / 2;
  for (guint i = 0; i < n; i++)
    worst = MAX (worst, fabs (p[i].y * cos (angle) - p[i].x * sin (angle)));
  return worst;
}

/* How far the needle may miss its place, from where the marks are drawn: the planar form of the target registration error. */
#include "mark-error.h"

#include <math.h>

static double
square_of (HwPoint from, HwPoint to)
{
  double x = to.x - from.x, y = to.y - from.y;

  return x * x + y * y;
}

/* The marks' centroid, and the sum of the squares of their distances from it. */
static double
squares_about (const HwPoint *marks, guint n, HwPoint *centroid)
{
  double x = 0, y = 0, sum = 0;

  for (guint i = 0; i < n; i++)
    {
      x += marks[i].x;
      y += marks[i].y;
    }
  *centroid = (HwPoint){ x / n, y / n };
  for (guint i = 0; i < n; i++)
    sum += square_of (*centroid, marks[i]);
  return sum;
}

double
hw_mark_error (const HwPoint *marks, guint n, double sigma, HwPoint target)
{
  return hw_mark_error_worst (marks, n, sigma, &target, 1);
}

double
hw_mark_error_worst (const HwPoint *marks, guint n, double sigma, const HwPoint *targets, guint n_targets)
{
  double fle2 = 2 * sigma * sigma, f2, d2 = 0;
  HwPoint centroid;

  g_return_val_if_fail (marks != NULL || n == 0, INFINITY);
  g_return_val_if_fail (targets != NULL || n_targets == 0, INFINITY);

  if (n_targets == 0)
    return 0;
  if (n == 0)
    return INFINITY;
  f2 = squares_about (marks, n, &centroid) / n;
  /* The error grows with the distance from the marks' centroid alone. */
  for (guint i = 0; i < n_targets; i++)
    d2 = MAX (d2, square_of (centroid, targets[i]));
  if (f2 == 0)
    return d2 == 0 ? sqrt (fle2 / n) : INFINITY;
  return sqrt (fle2 / n * (1 + d2 / (2 * f2)));
}

HwMarkSpread
hw_mark_spread (const HwPoint *marks, guint n, double sigma, HwPoint target)
{
  HwMarkSpread spread = { INFINITY, INFINITY, INFINITY, INFINITY, INFINITY, 0 };
  double x, y, m2, r2, turn2;
  HwPoint centroid;

  g_return_val_if_fail (marks != NULL || n == 0, spread);

  if (n == 0)
    return spread;
  m2 = squares_about (marks, n, &centroid);
  x = target.x - centroid.x;
  y = target.y - centroid.y;
  r2 = x * x + y * y;
  if (m2 == 0 && r2 > 0)
    return spread;
  turn2 = m2 > 0 ? sigma * sigma / m2 : 0;
  spread.xx = sigma * sigma / n + turn2 * y * y;
  spread.xy = -turn2 * x * y;
  spread.yy = sigma * sigma / n + turn2 * x * x;
  spread.along = sigma / sqrt (n);
  spread.across = sqrt (sigma * sigma / n + turn2 * r2);
  spread.angle = atan2 (y, x) * 180 / G_PI;
  return spread;
}

/* How far the needle may miss its place, from where the marks are drawn: the planar form of the target registration error. */
#include "mark-error.h"

#include <math.h>

double
hw_mark_error (const HwPoint *marks, guint n, double sigma, HwPoint target)
{
  return hw_mark_error_worst (marks, n, sigma, &target, 1);
}

double
hw_mark_error_worst (const HwPoint *marks, guint n, double sigma, const HwPoint *targets, guint n_targets)
{
  double fle2 = 2 * sigma * sigma, x = 0, y = 0, f2 = 0, d2 = 0;

  g_return_val_if_fail (marks != NULL || n == 0, INFINITY);
  g_return_val_if_fail (targets != NULL || n_targets == 0, INFINITY);

  if (n_targets == 0)
    return 0;
  if (n == 0)
    return INFINITY;
  for (guint i = 0; i < n; i++)
    {
      x += marks[i].x;
      y += marks[i].y;
    }
  x /= n;
  y /= n;
  for (guint i = 0; i < n; i++)
    f2 += (marks[i].x - x) * (marks[i].x - x) + (marks[i].y - y) * (marks[i].y - y);
  f2 /= n;
  /* The error grows with the distance from the marks' centroid alone. */
  for (guint i = 0; i < n_targets; i++)
    d2 = MAX (d2, (targets[i].x - x) * (targets[i].x - x) + (targets[i].y - y) * (targets[i].y - y));
  if (f2 == 0)
    return d2 == 0 ? sqrt (fle2 / n) : INFINITY;
  return sqrt (fle2 / n * (1 + d2 / (2 * f2)));
}

HwMarkSpread
hw_mark_spread (const HwPoint *marks, guint n, double sigma, HwPoint target)
{
  HwMarkSpread spread = { INFINITY, INFINITY, INFINITY, INFINITY, INFINITY, 0 };
  double x = 0, y = 0, m2 = 0, r2, turn2;

  g_return_val_if_fail (marks != NULL || n == 0, spread);

  if (n == 0)
    return spread;
  for (guint i = 0; i < n; i++)
    {
      x += marks[i].x / n;
      y += marks[i].y / n;
    }
  for (guint i = 0; i < n; i++)
    m2 += (marks[i].x - x) * (marks[i].x - x) + (marks[i].y - y) * (marks[i].y - y);
  x = target.x - x;
  y = target.y - y;
  r2 = x * x + y * y;
  if (m2 == 0 && r2 > 0)
    return spread;
  turn2 = m2 > 0 ? sigma * sigma / m2 : 0;
  spread.xx = sigma * sigma / n + turn2 * y * y;
  spread.xy = -turn2 * x * y;
  spread.yy = sigma * sigma / n + turn2 * x * x;
  spread.along = sigma / sqrt (n);
  spread.across = sqrt (sigma * sigma / n + turn2 * r2);
  spread.angle = r2 > 0 ? atan2 (y, x) * 180 / G_PI : 0;
  return spread;
}

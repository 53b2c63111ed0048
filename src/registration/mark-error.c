/* How far the needle may miss its place, from where the marks are drawn: the planar form of the target registration error. */
#include "mark-error.h"

#include <math.h>

double
hw_mark_error (const HwPoint *marks, guint n, double sigma, HwPoint target)
{
  double fle2 = 2 * sigma * sigma, x = 0, y = 0, f2 = 0, d2;

  g_return_val_if_fail (marks != NULL || n == 0, INFINITY);

  if (n == 0)
    return INFINITY;
  for (guint i = 0; i < n; i++)
    {
      x += marks[i].x / n;
      y += marks[i].y / n;
    }
  for (guint i = 0; i < n; i++)
    f2 += ((marks[i].x - x) * (marks[i].x - x) + (marks[i].y - y) * (marks[i].y - y)) / n;
  d2 = (target.x - x) * (target.x - x) + (target.y - y) * (target.y - y);
  if (f2 == 0)
    return d2 == 0 ? sqrt (fle2 / n) : INFINITY;
  return sqrt (fle2 / n * (1 + d2 / (2 * f2)));
}

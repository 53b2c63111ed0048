/* Rotating calipers (M. I. Shamos 1978, "Computational geometry", thesis, Yale; G. Toussaint 1983, "Solving
 * geometric problems with the rotating calipers", Proc. IEEE MELECON). Directions are kept as vectors: no angle is
 * ever computed. */
#include "calipers.h"

#include <math.h>

/* The direction of u at which touching line k lies along the hull's side after its point. */
static HwPoint
event_direction (const HwCalipers *calipers, guint k)
{
  guint i = calipers->touch[k];
  HwPoint a = calipers->hull[i], b = calipers->hull[i + 1 == calipers->n ? 0 : i + 1];
  double x = b.x - a.x, y = b.y - a.y;

  switch (k)
    {
    case 0:
      return (HwPoint){ y, -x };
    case 1:
      return (HwPoint){ -x, -y };
    case 2:
      return (HwPoint){ -y, x };
    default:
      return (HwPoint){ x, y };
    }
}

void
hw_calipers_start (HwCalipers *calipers, const HwPoint *hull, guint n)
{
  guint right = 0, low = 0, left = 0, high = 0;

  g_return_if_fail (hull != NULL && n >= 1);

  /* Among points that touch at once, the one that goes on touching as the calipers turn. */
  for (guint i = 1; i < n; i++)
    {
      HwPoint p = hull[i];

      if (p.x > hull[right].x || (p.x == hull[right].x && p.y > hull[right].y))
        right = i;
      if (p.y > hull[low].y || (p.y == hull[low].y && p.x < hull[low].x))
        low = i;
      if (p.x < hull[left].x || (p.x == hull[left].x && p.y < hull[left].y))
        left = i;
      if (p.y < hull[high].y || (p.y == hull[high].y && p.x > hull[high].x))
        high = i;
    }
  calipers->hull = hull;
  calipers->n = n;
  calipers->touch[0] = right;
  calipers->touch[1] = low;
  calipers->touch[2] = left;
  calipers->touch[3] = high;
  for (guint k = 0; k < 4; k++)
    calipers->event[k] = event_direction (calipers, k);
  calipers->e = (HwPoint){ 1, 0 };
  calipers->left = n + 8;
  calipers->done = FALSE;
}

/* The touching line that hands over first before the quarter ends, or 4. */
static guint
first_event (const HwCalipers *calipers)
{
  guint first = 4;

  for (guint k = 0; k < 4; k++)
    if (calipers->event[k].x > 0 && (first == 4 || hw_cross (calipers->event[k], calipers->event[first]) > 0))
      first = k;
  return calipers->left > 0 ? first : 4;
}

static void
hand_over (HwCalipers *calipers, guint k)
{
  calipers->touch[k] = calipers->touch[k] + 1 == calipers->n ? 0 : calipers->touch[k] + 1;
  calipers->event[k] = event_direction (calipers, k);
  calipers->left--;
}

gboolean
hw_calipers_next (HwCalipers *calipers, HwCaliperSpan *span)
{
  guint k;

  if (calipers->done)
    return FALSE;

  /* Sides of equal direction, and rounding on sides almost so, give spans without length. */
  while ((k = first_event (calipers)) < 4 && hw_cross (calipers->e, calipers->event[k]) <= 0)
    hand_over (calipers, k);

  span->from = calipers->e;
  span->u_far = calipers->hull[calipers->touch[0]];
  span->v_far = calipers->hull[calipers->touch[1]];
  span->u_near = calipers->hull[calipers->touch[2]];
  span->v_near = calipers->hull[calipers->touch[3]];
  span->across = (HwPoint){ span->u_far.x - span->u_near.x, span->u_far.y - span->u_near.y };
  span->along = (HwPoint){ span->v_far.y - span->v_near.y, span->v_near.x - span->v_far.x };
  if (k == 4)
    {
      span->to = (HwPoint){ 0, 1 };
      calipers->done = TRUE;
    }
  else
    {
      HwPoint event = calipers->event[k];
      double length = sqrt (event.x * event.x + event.y * event.y);

      span->to = (HwPoint){ event.x / length, event.y / length };
      hand_over (calipers, k);
    }
  calipers->e = span->to;
  return TRUE;
}

gboolean
hw_directions_with_extent (HwPoint d, double k, HwPoint *rising, HwPoint *falling)
{
  double length2 = hw_dot (d, d);
  double rest = length2 - k * k, root;

  if (!(rest >= 0) || length2 == 0)
    return FALSE;
  root = sqrt (rest);
  *rising = (HwPoint){ (k * d.x + root * d.y) / length2, (k * d.y - root * d.x) / length2 };
  *falling = (HwPoint){ (k * d.x - root * d.y) / length2, (k * d.y + root * d.x) / length2 };
  return TRUE;
}

#include "edge-gap.h"

#include <math.h>

/* Between a point and a stretch: the foot of the perpendicular, kept within its ends. */
static double
to_stretch (HwPoint p, HwPoint a, HwPoint b)
{
  double dx = b.x - a.x, dy = b.y - a.y, along = dx * dx + dy * dy;
  double t = along > 0 ? CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / along, 0, 1) : 0;

  return hypot (p.x - (a.x + t * dx), p.y - (a.y + t * dy));
}

static double
to_rings (HwPoint p, const HwOutline *outline)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < outline->n_rings; i++)
    {
      const HwRing *ring = &outline->rings[i];

      for (guint j = 0; j < ring->n_points; j++)
        least = MIN (least, to_stretch (p, ring->points[j], ring->points[(j + 1) % ring->n_points]));
    }
  return least;
}

double
hw_edge_gap (const HwOutline *placed, const HwOutline *edge)
{
  double inside = G_MAXDOUBLE, outside = 0;

  g_return_val_if_fail (placed != NULL && edge != NULL, 0);

  /* The nearest points of two rings that do not cross: one of them is a corner. */
  for (guint i = 0; i < placed->n_rings; i++)
    for (guint j = 0; j < placed->rings[i].n_points; j++)
      {
        HwPoint p = placed->rings[i].points[j];
        double away = to_rings (p, edge);

        if (hw_outline_contains (edge, p))
          inside = MIN (inside, away);
        else
          outside = MAX (outside, away);
      }
  if (outside > 0)
    return -outside;
  for (guint i = 0; i < edge->n_rings; i++)
    for (guint j = 0; j < edge->rings[i].n_points; j++)
      inside = MIN (inside, to_rings (edge->rings[i].points[j], placed));
  return inside;
}

/* How far one area passes outside another: the greatest distance from a point of the inner boundary to the outer
 * area. Along one straight side, the distance to each single side of the outer outline is a convex function, so the
 * larger of its values at the two ends bounds it between them; the least such bound over all sides prunes the
 * halving of the inner's sides (branch and bound, to 0.001 mm). */
#include "region.h"

#include <math.h>

#define NEAR_ENOUGH 0.001 /* mm */
#define DEEPEST 40

static double
distance_to_segment (HwPoint p, HwPoint a, HwPoint b)
{
  double dx = b.x - a.x, dy = b.y - a.y;
  double length2 = dx * dx + dy * dy;
  double t = length2 > 0 ? CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0, 1) : 0;

  return hypot (a.x + t * dx - p.x, a.y + t * dy - p.y);
}

static double
distance_to_rings (const HwOutline *outline, HwPoint p)
{
  double least = INFINITY;

  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          least = MIN (least, distance_to_segment (p, a, ring->points[i]));
          a = ring->points[i];
        }
    }
  return least;
}

double
hw_outline_distance_to_point (const HwOutline *outline, HwPoint p)
{
  g_return_val_if_fail (outline != NULL, 0);

  return hw_outline_contains (outline, p) ? 0 : distance_to_rings (outline, p);
}

static double
side (HwPoint a, HwPoint b, HwPoint p)
{
  return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static gboolean
segments_meet (HwPoint a, HwPoint b, HwPoint c, HwPoint d)
{
  double c_side = side (a, b, c), d_side = side (a, b, d);
  double a_side = side (c, d, a), b_side = side (c, d, b);

  return !((c_side > 0 && d_side > 0) || (c_side < 0 && d_side < 0) || (a_side > 0 && b_side > 0)
           || (a_side < 0 && b_side < 0));
}

/* What is known of the distance between a and b: an upper bound, and whether the outer's boundary is met. */
static double
bound_between (const HwOutline *outer, HwPoint a, HwPoint b, gboolean *meets)
{
  double bound = INFINITY;

  *meets = FALSE;
  for (guint r = 0; r < outer->n_rings; r++)
    {
      const HwRing *ring = &outer->rings[r];
      HwPoint c = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint d = ring->points[i];

          bound = MIN (bound, MAX (distance_to_segment (a, c, d), distance_to_segment (b, c, d)));
          *meets = *meets || segments_meet (a, b, c, d);
          c = d;
        }
    }
  return bound;
}

typedef struct
{
  const HwOutline *outer;
  double greatest;
  HwPoint where;
} Search;

static double
look_at (Search *search, HwPoint p)
{
  double distance = hw_outline_distance_to_point (search->outer, p);

  if (distance > search->greatest)
    {
      search->greatest = distance;
      search->where = p;
    }
  return distance;
}

/* Both ends have been looked at; their distances are at_a and at_b. */
static void
look_between (Search *search, HwPoint a, double at_a, HwPoint b, double at_b, guint depth)
{
  HwPoint middle = { (a.x + b.x) / 2, (a.y + b.y) / 2 };
  double length = hw_point_distance (a, b), at_middle;
  gboolean meets;

  if (depth == DEEPEST || (at_a + at_b + length) / 2 <= search->greatest + NEAR_ENOUGH)
    return;
  if (bound_between (search->outer, a, b, &meets) <= search->greatest + NEAR_ENOUGH)
    return;
  if (!meets && hw_outline_contains (search->outer, middle))
    return;
  at_middle = look_at (search, middle);
  look_between (search, a, at_a, middle, at_middle, depth + 1);
  look_between (search, middle, at_middle, b, at_b, depth + 1);
}

double
hw_outline_passes (const HwOutline *inner, const HwOutline *outer, HwPoint *where)
{
  Search search = { outer, 0, { 0, 0 } };

  g_return_val_if_fail (inner != NULL && outer != NULL, 0);

  if (where != NULL)
    *where = (HwPoint){ 0, 0 };
  if (inner->n_rings == 0)
    return 0;
  search.where = inner->rings[0].points[0];
  for (guint pass = 0; pass < 2; pass++)
    for (guint r = 0; r < inner->n_rings; r++)
      {
        const HwRing *ring = &inner->rings[r];

        for (guint i = 0; i < ring->n_points; i++)
          {
            HwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];

            if (pass == 0)
              look_at (&search, a);
            else
              look_between (&search, a, hw_outline_distance_to_point (outer, a), b,
                            hw_outline_distance_to_point (outer, b), 0);
          }
      }
  if (where != NULL)
    *where = search.where;
  return search.greatest;
}

/* Convex hulls by the monotone chain (A. M. Andrew 1979, "Another efficient algorithm for convex hulls in
 * two dimensions", Information Processing Letters 9(5)). Two hulls are merged without sorting: each is
 * already two chains in order of x. */
#include "hull.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "outline.h"

#define SMALL 256

static double
cross (HwPoint o, HwPoint a, HwPoint b)
{
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

static int
compare_points (const void *pa, const void *pb)
{
  const HwPoint *a = pa, *b = pb;

  if (a->x != b->x)
    return a->x < b->x ? -1 : 1;
  if (a->y != b->y)
    return a->y < b->y ? -1 : 1;
  return 0;
}

static gboolean
is_before (HwPoint a, HwPoint b)
{
  return a.x < b.x || (a.x == b.x && a.y < b.y);
}

/* Adds p to the chain that begins at index base, taking back what it makes concave. */
static guint
chain_add (HwPoint *hull, guint k, guint base, HwPoint p)
{
  while (k >= base + 2 && cross (hull[k - 2], hull[k - 1], p) <= 0)
    k--;
  if (k > base && hull[k - 1].x == p.x && hull[k - 1].y == p.y)
    return k;
  hull[k] = p;
  return k + 1;
}

/* The chains there and back over points in order of x. */
static guint
hull_of_sorted (const HwPoint *sorted, guint n, HwPoint *hull)
{
  guint k = 0, base;

  if (n == 0)
    return 0;
  for (guint i = 0; i < n; i++)
    k = chain_add (hull, k, 0, sorted[i]);
  if (k < 2)
    return k;
  base = k - 1;
  for (guint i = n - 1; i > 0; i--)
    k = chain_add (hull, k, base, sorted[i - 1]);
  return k - 1; /* the last is the first again */
}

guint
hw_convex_hull (const HwPoint *points, guint n, HwPoint *hull)
{
  HwPoint small[SMALL];
  HwPoint *sorted = small;
  guint finite = 0, n_hull;

  g_return_val_if_fail (points != NULL || n == 0, 0);
  g_return_val_if_fail (hull != NULL, 0);

  if (n > SMALL)
    sorted = g_new (HwPoint, n);
  for (guint i = 0; i < n; i++)
    if (isfinite (points[i].x) && isfinite (points[i].y))
      sorted[finite++] = points[i];
  qsort (sorted, finite, sizeof (HwPoint), compare_points);
  n_hull = hull_of_sorted (sorted, finite, hull);
  if (sorted != small)
    g_free (sorted);
  return n_hull;
}

/* A part of a hull's way round, walked from its first point in order of x to its last or on from there back
 * to the first. */
typedef struct
{
  const HwPoint *hull;
  guint n, at, left;
} Walk;

static HwPoint
walk_take (Walk *walk)
{
  HwPoint p = walk->hull[walk->at];

  walk->left--;
  walk->at = walk->at + 1 == walk->n ? 0 : walk->at + 1;
  return p;
}

/* Cuts a hull's way round at its first and last point; both walks hold both. */
static void
split_walks (const HwPoint *hull, guint n, Walk *there, Walk *back)
{
  guint first = 0, last = 0, length;

  for (guint i = 1; i < n; i++)
    {
      if (is_before (hull[i], hull[first]))
        first = i;
      if (is_before (hull[last], hull[i]))
        last = i;
    }
  length = (last + n - first) % n;
  *there = (Walk){ hull, n, first, length + 1 };
  *back = (Walk){ hull, n, last, (n - length) % n + 1 };
}

static HwPoint
take_first (Walk *a, Walk *b)
{
  if (a->left == 0 || (b->left > 0 && is_before (b->hull[b->at], a->hull[a->at])))
    return walk_take (b);
  return walk_take (a);
}

static HwPoint
take_last (Walk *a, Walk *b)
{
  if (a->left == 0 || (b->left > 0 && is_before (a->hull[a->at], b->hull[b->at])))
    return walk_take (b);
  return walk_take (a);
}

guint
hw_hull_merge (const HwPoint *a, guint na, const HwPoint *b, guint nb, HwPoint *out)
{
  Walk a_there, a_back, b_there, b_back;
  guint k = 0, base;

  g_return_val_if_fail (out != NULL, 0);

  if (na == 0 || nb == 0)
    {
      if (na + nb > 0)
        memcpy (out, na == 0 ? b : a, (na + nb) * sizeof (HwPoint));
      return na + nb;
    }
  split_walks (a, na, &a_there, &a_back);
  split_walks (b, nb, &b_there, &b_back);

  while (a_there.left + b_there.left > 0)
    k = chain_add (out, k, 0, take_first (&a_there, &b_there));
  if (k < 2)
    return k;
  base = k - 1;
  while (a_back.left + b_back.left > 0)
    k = chain_add (out, k, base, take_last (&a_back, &b_back));
  return k - 1; /* the last is the first again */
}

double
hw_hull_area (const HwPoint *hull, guint n)
{
  double twice = 0;

  for (guint i = 2; i < n; i++)
    twice += cross (hull[0], hull[i - 1], hull[i]);
  return twice / 2;
}

guint
hw_hull_clip (const HwPoint *hull, guint n, HwPoint a, double b, HwPoint *out)
{
  guint kept = 0;

  for (guint i = 0; i < n; i++)
    {
      HwPoint p = hull[i], q = hull[i + 1 == n ? 0 : i + 1];
      double over_p = a.x * p.x + a.y * p.y - b, over_q = a.x * q.x + a.y * q.y - b;

      if (over_p <= 0)
        out[kept++] = p;
      if ((over_p < 0 && over_q > 0) || (over_p > 0 && over_q < 0))
        {
          double t = over_p / (over_p - over_q);

          out[kept++] = (HwPoint){ p.x + t * (q.x - p.x), p.y + t * (q.y - p.y) };
        }
    }
  return kept;
}

double
hw_hull_diameter (const HwPoint *hull, guint n)
{
  double greatest = 0;

  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      {
        double x = hull[i].x - hull[j].x, y = hull[i].y - hull[j].y;

        greatest = MAX (greatest, x * x + y * y);
      }
  return sqrt (greatest);
}

/* TRUE when an edge of a has all of b on its outer side. */
static gboolean
edge_separates (const HwPoint *a, guint na, const HwPoint *b, guint nb)
{
  for (guint i = 0; i < na; i++)
    {
      HwPoint p = a[i], q = a[i + 1 == na ? 0 : i + 1];
      guint j = 0;

      while (j < nb && cross (p, q, b[j]) <= 0)
        j++;
      if (j == nb)
        return TRUE;
    }
  return FALSE;
}

gboolean
hw_hulls_apart (const HwPoint *a, guint na, const HwPoint *b, guint nb)
{
  if (na < 3 || nb < 3)
    return TRUE;
  return edge_separates (a, na, b, nb) || edge_separates (b, nb, a, na);
}

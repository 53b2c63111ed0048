/* The common area of two outlines, asked for every pair of motifs each time one moves. The plane is cut into upright strips at all corners and at
 * all crossings of a side of one with a side of the other; within a strip, sides are straight and do not cross, so the
 * area between two of them is the strip's width times their distance at its middle (the slab decomposition of Preparata and Shamos 1985,
 * "Computational Geometry", section 2.2.2). Sides that coincide enclose nothing, so shared borders need no care. */
#include "region.h"

#include <stdlib.h>

#include "hull.h"

#define SMALL 192

/* A side that is not upright, from left to right. */
typedef struct
{
  double x0, x1;
  double y0, slope;
  double low, high; /* its range of y */
  guint8 owner;     /* 0 or 1: of which outline */
} Side;

static double
side_at (const Side *side, double x)
{
  return side->y0 + side->slope * (x - side->x0);
}

static guint
collect_sides (const HwOutline *outline, guint8 owner, double from, double to, Side *sides)
{
  guint n = 0;

  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint b = ring->points[i], left = a.x < b.x ? a : b, right = a.x < b.x ? b : a;

          if (left.x < right.x && left.x < to && right.x > from)
            sides[n++]
                = (Side){ left.x,         right.x,        left.y, (right.y - left.y) / (right.x - left.x),
                          MIN (a.y, b.y), MAX (a.y, b.y), owner };
          a = b;
        }
    }
  return n;
}

static int
compare_sides (const void *pa, const void *pb)
{
  const Side *a = pa, *b = pb;

  return (a->x0 > b->x0) - (a->x0 < b->x0);
}

static int
compare_doubles (const void *pa, const void *pb)
{
  double a = *(const double *)pa, b = *(const double *)pb;

  return (a > b) - (a < b);
}

/* Cuts at the crossings of a side of one outline with a side of the other. */
static void
add_crossings (const Side *sides, guint n, double from, double to, GArray *cuts)
{
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n && sides[j].x0 < sides[i].x1; j++)
      if (sides[i].owner != sides[j].owner && sides[i].low < sides[j].high && sides[j].low < sides[i].high)
        {
          double left = MAX (sides[j].x0, from), right = MIN (MIN (sides[i].x1, sides[j].x1), to);
          double at_left = side_at (&sides[i], left) - side_at (&sides[j], left);
          double at_right = side_at (&sides[i], right) - side_at (&sides[j], right);

          if (left < right && ((at_left < 0 && at_right > 0) || (at_left > 0 && at_right < 0)))
            {
              double x = left + (right - left) * at_left / (at_left - at_right);

              g_array_append_val (cuts, x);
            }
        }
}

static void
add_corners (const Side *sides, guint n, double from, double to, GArray *cuts)
{
  for (guint i = 0; i < n; i++)
    {
      if (sides[i].x0 > from && sides[i].x0 < to)
        g_array_append_val (cuts, sides[i].x0);
      if (sides[i].x1 > from && sides[i].x1 < to)
        g_array_append_val (cuts, sides[i].x1);
    }
  g_array_append_val (cuts, from);
  g_array_append_val (cuts, to);
}

/* A side met on the way down the middle of a strip. */
typedef struct
{
  double y;
  guint8 owner;
} Met;

/* The length within both outlines on the way down the middle line of a strip; met is put in order. */
static double
common_length (Met *met, guint n)
{
  gboolean inside[2] = { FALSE, FALSE };
  double length = 0;

  for (guint i = 1; i < n; i++)
    {
      Met next = met[i];
      guint j = i;

      for (; j > 0 && met[j - 1].y > next.y; j--)
        met[j] = met[j - 1];
      met[j] = next;
    }
  for (guint i = 0; i < n; i++)
    {
      if (inside[0] && inside[1])
        length += met[i].y - met[i - 1].y;
      inside[met[i].owner] = !inside[met[i].owner];
    }
  return length;
}

/* The strips from left to right; `live` has room for all sides and holds those that reach the present strip. */
static double
sum_strips (const Side *sides, guint n, const double *cuts, guint n_cuts, guint *live, Met *met)
{
  guint n_live = 0, next = 0;
  double area = 0;

  for (guint k = 0; k + 1 < n_cuts; k++)
    {
      double left = cuts[k], right = cuts[k + 1], middle = (left + right) / 2;
      guint n_met = 0, kept = 0;

      if (!(left < right))
        continue;
      while (next < n && sides[next].x0 <= left)
        live[n_live++] = next++;
      for (guint i = 0; i < n_live; i++)
        if (sides[live[i]].x1 >= right)
          {
            met[n_met++] = (Met){ side_at (&sides[live[i]], middle), sides[live[i]].owner };
            live[kept++] = live[i];
          }
      n_live = kept;
      area += common_length (met, n_met) * (right - left);
    }
  return area;
}

static double
area_of_strips (const HwOutline *a, const HwOutline *b, guint room)
{
  Side small_sides[SMALL];
  guint small_live[SMALL];
  Met small_met[SMALL];
  g_autofree Side *many_sides = room > SMALL ? g_new (Side, room) : NULL;
  g_autofree guint *many_live = room > SMALL ? g_new (guint, room) : NULL;
  g_autofree Met *many_met = room > SMALL ? g_new (Met, room) : NULL;
  Side *sides = many_sides != NULL ? many_sides : small_sides;
  double from = MAX (a->box.x0, b->box.x0), to = MIN (a->box.x1, b->box.x1);
  g_autoptr (GArray) cuts = g_array_sized_new (FALSE, FALSE, sizeof (double), 2 * room + 16);
  guint n;

  n = collect_sides (a, 0, from, to, sides);
  n += collect_sides (b, 1, from, to, sides + n);
  qsort (sides, n, sizeof (Side), compare_sides);
  add_corners (sides, n, from, to, cuts);
  add_crossings (sides, n, from, to, cuts);
  qsort (cuts->data, cuts->len, sizeof (double), compare_doubles);
  return sum_strips (sides, n, (const double *)cuts->data, cuts->len,
                     many_live != NULL ? many_live : small_live, many_met != NULL ? many_met : small_met);
}

double
hw_outline_overlap_area (const HwOutline *a, const HwOutline *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, 0);

  if (!hw_box_overlaps (a->box, b->box) || hw_hulls_apart (a->hull, a->n_hull, b->hull, b->n_hull))
    return 0;
  return area_of_strips (a, b, hw_outline_count_points (a) + hw_outline_count_points (b));
}

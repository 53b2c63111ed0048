/* From a mask of opacity to an outline: marching squares (Lorensen and Cline 1987, in the plane), the edge put where opacity passes a half
 * between two pixels, so that it lies finer than a pixel. The walk keeps what is opaque on its left; each ring is thinned while it is
 * walked, rings too small are dropped, the rest is simplified together. */
#include "trace.h"

#include <math.h>
#include <string.h>

#include "../geometry/region.h"
#include "../scene/limits.h"
#include "artwork.h"

#define HALF 127.5 /* between two values a pixel can have: no pixel lies on the edge itself */
/* Of the smoothing asked for: while walking, and for the line; the rest is what tracing between pixels errs at the fineness of a scan. */
#define WALK_SHARE 0.1
#define LINE_SHARE 0.35
#define LEAST_SLACK 0.02 /* pixels: rounding of opacity to 8 bits */
#define MOST_BROADENINGS 5
#define LEAST_LINE_SLACK 0.3 /* pixels: no line is known better */
#define SMALLEST_SIDE 8u     /* pixels: not made coarser than this */

typedef struct
{
  const guint8 *mask;
  int width, height;
  gsize stride;
  guint8 *walked; /* a bit for each place where opacity begins, going right along a row */
  double slack;   /* pixels */
  double speck;   /* square pixels */
  GArray *rings;  /* HwRing, pixels */
  GArray *sizes;  /* double: their areas */
  GArray *points; /* of the ring being walked */
  guint n_points; /* kept so far, over all rings */
} Trace;

static inline double
value_at (const Trace *t, int x, int y)
{
  return x < 0 || y < 0 || x >= t->width || y >= t->height ? 0 : t->mask[(gsize)y * t->stride + x];
}

static void
mark_walked (Trace *t, int x, int y)
{
  gsize bit = (gsize)y * t->width + x;

  t->walked[bit >> 3] |= 1 << (bit & 7);
}

static gboolean
was_walked (const Trace *t, int x, int y)
{
  gsize bit = (gsize)y * t->width + x;

  return (t->walked[bit >> 3] & 1 << (bit & 7)) != 0;
}

/* Ways through the grid of pixel middles: down, right, up, left. Turning left is the next, turning right the one before. */
typedef struct
{
  int x, y;
} Step;

static const Step ahead[] = { { 0, 1 }, { 1, 0 }, { 0, -1 }, { -1, 0 } };

/* The place on the walk: between the opaque pixel on the left and the clear one on the right, about to go ahead. */
typedef struct
{
  Step left, right;
  int way;
} Walk;

static HwPoint
edge_of (const Trace *t, const Walk *w)
{
  double in = value_at (t, w->left.x, w->left.y), out = value_at (t, w->right.x, w->right.y);
  double part = (in - HALF) / (in - out);

  return (HwPoint){ w->left.x + 0.5 + (w->right.x - w->left.x) * part,
                    w->left.y + 0.5 + (w->right.y - w->left.y) * part };
}

/* Where four pixels meet with the opaque ones at opposite corners, their mean says whether those are joined. */
static gboolean
joined (const Trace *t, const Walk *w, Step l, Step r)
{
  return value_at (t, w->left.x, w->left.y) + value_at (t, w->right.x, w->right.y) + value_at (t, l.x, l.y)
             + value_at (t, r.x, r.y)
         > 4 * HALF;
}

static void
go_on (const Trace *t, Walk *w)
{
  Step l = { w->left.x + ahead[w->way].x, w->left.y + ahead[w->way].y };
  Step r = { w->right.x + ahead[w->way].x, w->right.y + ahead[w->way].y };
  gboolean in_l = value_at (t, l.x, l.y) > HALF, in_r = value_at (t, r.x, r.y) > HALF;

  if (in_r && (in_l || joined (t, w, l, r)))
    {
      w->left = r;
      w->way = (w->way + 3) % 4;
    }
  else if (in_l)
    {
      w->left = l;
      w->right = r;
    }
  else
    {
      w->right = l;
      w->way = (w->way + 1) % 4;
    }
}

/* The point farthest from the middle first: it is a corner, if there is any, and simplification leaves the first point where it is. */
static HwRing
ring_from (GArray *points)
{
  const HwPoint *from = (const HwPoint *)(gpointer)points->data;
  guint n = points->len, first = 0;
  HwBox box = hw_box_of_points (from, n);
  HwPoint middle = { (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 };
  HwRing ring = { g_new (HwPoint, n), n };

  for (guint i = 1; i < n; i++)
    {
      if (hw_point_distance (from[i], middle) > hw_point_distance (from[first], middle))
        first = i;
    }
  memcpy (ring.points, from + first, (n - first) * sizeof *from);
  memcpy (ring.points + (n - first), from, first * sizeof *from);
  return ring;
}

static void
drop_repeated_end (GArray *points)
{
  HwPoint a = g_array_index (points, HwPoint, 0), b = g_array_index (points, HwPoint, points->len - 1);

  if (points->len > 1 && a.x == b.x && a.y == b.y)
    g_array_set_size (points, points->len - 1);
}

/* Walks the ring that passes left of pixel x, y. FALSE when there are more points than the mask can be worth. */
static gboolean
walk_ring (Trace *t, int x, int y)
{
  const Walk start = { { x, y }, { x - 1, y }, 0 };
  Walk w = start;
  HwPoint first = edge_of (t, &start), last = first;
  double twice_area = 0;
  HwThinLine line;

  g_array_set_size (t->points, 0);
  hw_thin_line_start (&line, t->points, t->slack, first);
  do
    {
      HwPoint p;

      go_on (t, &w);
      p = edge_of (t, &w);
      twice_area += (last.x - first.x) * (p.y - first.y) - (p.x - first.x) * (last.y - first.y);
      hw_thin_line_add (&line, p);
      last = p;
      if (w.way == 0)
        mark_walked (t, w.left.x, w.left.y);
      if (t->points->len > HW_MOST_TRACED_POINTS)
        return FALSE;
    }
  while (w.left.x != start.left.x || w.left.y != start.left.y || w.way != start.way);

  hw_thin_line_end (&line);
  drop_repeated_end (t->points);
  if (fabs (twice_area) / 2 >= t->speck && t->points->len >= 3)
    {
      double size = fabs (twice_area) / 2;
      HwRing ring = ring_from (t->points);

      g_array_append_val (t->rings, ring);
      g_array_append_val (t->sizes, size);
      t->n_points += ring.n_points;
    }
  return t->n_points <= HW_MOST_TRACED_POINTS;
}

/* Every ring goes down a row somewhere past a pixel that is the first opaque one after a clear one. */
static gboolean
walk_all (Trace *t)
{
  for (int y = 0; y < t->height; y++)
    {
      const guint8 *row = t->mask + (gsize)y * t->stride;
      gboolean before = FALSE;

      for (int x = 0; x < t->width; x++)
        {
          gboolean in = row[x] > HALF;

          if (in && !before && !was_walked (t, x, y) && !walk_ring (t, x, y))
            return FALSE;
          before = in;
        }
    }
  return TRUE;
}

static int
larger_first (gconstpointer a, gconstpointer b, gpointer sizes)
{
  const double *size = (const double *)(gpointer)((GArray *)sizes)->data;
  double x = size[*(const guint *)a], y = size[*(const guint *)b];

  return (x < y) - (x > y);
}

/* An outline of more points than anybody could look after is drawn with a broader stroke. */
static HwOutline *
simplified (const HwRing *rings, guint n_rings, double slack)
{
  g_autoptr (HwOutline) outline = hw_rings_simplified (rings, n_rings, slack);

  for (guint i = 0; i < MOST_BROADENINGS && hw_outline_count_points (outline) > HW_MOST_DRAWN_POINTS; i++)
    {
      HwOutline *finer = outline;

      slack *= 2;
      outline = hw_rings_simplified (finer->rings, finer->n_rings, slack);
      hw_outline_unref (finer);
    }
  return hw_outline_repair (outline, NULL, NULL);
}

/* The rings as an outline in mm. A ring's holes are smaller than it, so that the largest rings are whole shapes. */
static HwOutline *
outline_of (const Trace *t, double pixels_per_mm, double slack)
{
  guint n = t->rings->len, kept = MIN (n, HW_MOST_TRACED_RINGS);
  g_autofree guint *order = g_new (guint, n + 1);
  g_autofree HwRing *rings = g_new (HwRing, kept + 1);

  if (n == 0)
    return NULL;
  for (guint i = 0; i < n; i++)
    order[i] = i;
  g_qsort_with_data (order, (int)n, sizeof *order, larger_first, t->sizes);
  for (guint i = 0; i < kept; i++)
    {
      rings[i] = g_array_index (t->rings, HwRing, order[i]);
      for (guint k = 0; k < rings[i].n_points; k++)
        {
          rings[i].points[k].x /= pixels_per_mm;
          rings[i].points[k].y /= pixels_per_mm;
        }
    }
  return simplified (rings, kept, slack);
}

static void
clear_ring (gpointer ring)
{
  g_free (((HwRing *)ring)->points);
}

/* Half as many pixels each way, each the mean of four. */
static guint8 *
coarser (const guint8 *mask, guint width, guint height, gsize stride)
{
  guint across = width / 2, down = height / 2;
  guint8 *half = g_malloc ((gsize)across * down);

  for (guint y = 0; y < down; y++)
    {
      const guint8 *a = mask + (gsize)(2 * y) * stride, *b = a + stride;

      for (guint x = 0; x < across; x++)
        half[(gsize)y * across + x] = (a[2 * x] + a[2 * x + 1] + b[2 * x] + b[2 * x + 1] + 2) / 4;
    }
  return half;
}

HwOutline *
hw_trace_mask (const guint8 *mask,
               guint width,
               guint height,
               gsize stride,
               double pixels_per_mm,
               double smoothing,
               double speck)
{
  HwOutline *outline = NULL;
  gboolean whole;

  g_return_val_if_fail (mask != NULL && width > 0 && height > 0 && stride >= width, NULL);
  g_return_val_if_fail (width <= G_MAXINT / 2 && height <= G_MAXINT / 2, NULL);
  g_return_val_if_fail (pixels_per_mm > 0 && smoothing >= 0 && speck >= 0, NULL);

  Trace t = {
    .mask = mask,
    .width = (int)width,
    .height = (int)height,
    .stride = stride,
    .slack = MAX (smoothing * pixels_per_mm * WALK_SHARE, LEAST_SLACK),
    .speck = speck * pixels_per_mm * pixels_per_mm,
  };
  t.walked = g_malloc0 ((gsize)width * height / 8 + 1);
  t.rings = g_array_new (FALSE, FALSE, sizeof (HwRing));
  t.sizes = g_array_new (FALSE, FALSE, sizeof (double));
  t.points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  g_array_set_clear_func (t.rings, clear_ring);
  whole = walk_all (&t);
  if (whole)
    outline = outline_of (&t, pixels_per_mm, MAX (smoothing * LINE_SHARE, LEAST_LINE_SLACK / pixels_per_mm));
  g_free (t.walked);
  g_array_unref (t.points);
  g_array_unref (t.sizes);
  g_array_unref (t.rings);
  if (!whole && MIN (width, height) >= 2 * SMALLEST_SIDE)
    {
      g_autofree guint8 *half = coarser (mask, width, height, stride);

      return hw_trace_mask (half, width / 2, height / 2, width / 2, pixels_per_mm / 2, smoothing, speck);
    }
  return outline;
}

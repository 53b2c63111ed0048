/* Stand-in stitches: a motif that brings only its outline is shown as if someone had filled it: rows 0.4 mm
 * apart with staggered ends, one band for each thread block as large as its share of the stitches, and a
 * satin border. They are only looked at, never stitched. */
#include "strand-fill.h"

#include <math.h>
#include <string.h>

#define ROW_MM 0.4
#define LONGEST_MM 4.0 /* filling stitch */
#define BORDER_MM 1.6
#define MOST_STITCHES 60000
#define FILL_ANGLE 25.0 /* degrees: rows lie a little aslant, so that upright shapes do not show steps */

typedef struct
{
  const HwMotif *motif;
  HwOutline *turned; /* the outline with its rows brought level */
  GArray *points;    /* HwNeedlePoint */
  double row;        /* mm between rows; wider for very large areas */
  double *ends;      /* y at which each thread's band ends */
} Filling;

static void
add_point (Filling *filling, HwPoint turned, guint thread, HwNeedleAction action)
{
  HwPoint p = hw_point_turn (turned, FILL_ANGLE);
  HwNeedlePoint point = { p.x, p.y, thread, action };

  g_array_append_val (filling->points, point);
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return (x > y) - (x < y);
}

/* Where the level line at y crosses the outline, from left to right. */
static void
find_crossings (const HwOutline *outline, double y, GArray *crossings)
{
  g_array_set_size (crossings, 0);
  for (guint r = 0; r < outline->n_rings; r++)
    for (guint i = 0; i < outline->rings[r].n_points; i++)
      {
        HwPoint a = outline->rings[r].points[i];
        HwPoint b = outline->rings[r].points[(i + 1) % outline->rings[r].n_points];

        if ((a.y <= y) != (b.y <= y))
          {
            double x = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);

            g_array_append_val (crossings, x);
          }
      }
  g_array_sort (crossings, compare_doubles);
}

/* One row from x0 to x1, its inner needle holes staggered against the rows beside it. */
static void
fill_row (Filling *filling, double x0, double x1, double y, guint thread, guint row)
{
  static const double stagger[] = { 0, 0.5, 0.25, 0.75 };
  double pitch = MAX (LONGEST_MM, (x1 - x0) / 400);
  double first = (floor (x0 / pitch) + stagger[row % G_N_ELEMENTS (stagger)]) * pitch;

  add_point (filling, (HwPoint){ x0, y }, thread, HW_NEEDLE_JUMP);
  for (double x = first; x < x1 - 0.4; x += pitch)
    if (x > x0 + 0.4)
      add_point (filling, (HwPoint){ x, y }, thread, HW_NEEDLE_STITCH);
  add_point (filling, (HwPoint){ x1, y }, thread, HW_NEEDLE_STITCH);
}

/* The band of a thread at a place; its lower edge waves a little. */
static guint
band_at (const Filling *filling, double x, double y)
{
  double wave = 1.5 * sin (x * 0.35) + 1.1 * sin (x * 0.13 + 1);
  guint thread = 0;

  while (thread + 1 < filling->motif->n_threads && y + wave > filling->ends[thread])
    thread++;
  return thread;
}

static void
fill_rows (Filling *filling, guint thread)
{
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (double));
  const HwBox *box = &filling->turned->box;
  guint row = 0;

  for (double y = box->y0 + filling->row / 2; y < box->y1; y += filling->row, row++)
    {
      find_crossings (filling->turned, y, crossings);
      for (guint i = 0; i + 1 < crossings->len; i += 2)
        {
          double x0 = g_array_index (crossings, double, i), x1 = g_array_index (crossings, double, i + 1);
          double from = x0, step = MAX (0.8, (x1 - x0) / 400);

          for (double x = x0; x < x1 + step; x += step)
            {
              gboolean here = x < x1 && band_at (filling, x, y) == thread;

              if (!here)
                {
                  if (x - from > 0.3)
                    fill_row (filling, from, MIN (x, x1), y, thread, row);
                  from = x + step;
                }
            }
        }
    }
}

/* Short strands square to the outline, from its line inwards. */
static void
add_border (Filling *filling, guint thread)
{
  for (guint r = 0; r < filling->turned->n_rings; r++)
    {
      const HwRing *ring = &filling->turned->rings[r];
      double wide = MIN (BORDER_MM, 0.15
                                        * MIN (filling->turned->box.x1 - filling->turned->box.x0,
                                               filling->turned->box.y1 - filling->turned->box.y0));
      guint count = 0;

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
          double length = hw_point_distance (a, b), nx, ny;

          if (length < 1e-6)
            continue;
          nx = -(b.y - a.y) / length * wide / 2;
          ny = (b.x - a.x) / length * wide / 2;
          for (double at = 0; at < length; at += filling->row, count++)
            {
              double x = a.x + (b.x - a.x) * at / length, y = a.y + (b.y - a.y) * at / length;
              double side = count % 2 ? 1 : -1;

              add_point (filling, (HwPoint){ x + side * nx, y + side * ny }, thread,
                         count == 0 ? HW_NEEDLE_JUMP : HW_NEEDLE_STITCH);
            }
        }
    }
}

/* Rows of a very large area are opened until they are few enough to be drawn. */
static double
row_distance (const HwOutline *outline)
{
  double w = outline->box.x1 - outline->box.x0, h = outline->box.y1 - outline->box.y0;
  double stitches = w * h / (ROW_MM * LONGEST_MM) + h / ROW_MM;

  return ROW_MM * MAX (1, stitches / MOST_STITCHES);
}

static void
find_bands (Filling *filling)
{
  const HwBox *box = &filling->turned->box;
  double total = 0, sum = 0;

  for (guint t = 0; t < filling->motif->n_threads; t++)
    total += MAX (filling->motif->threads[t].stitches, 1);
  for (guint t = 0; t < filling->motif->n_threads; t++)
    {
      sum += MAX (filling->motif->threads[t].stitches, 1);
      filling->ends[t] = box->y0 + (box->y1 - box->y0) * sum / total;
    }
}

HwNeedleList *
hw_strand_fill_outline (const HwMotif *motif)
{
  HwPlacement level = { .angle = -FILL_ANGLE, .scale = 1 };
  Filling filling = { .motif = motif };
  guint n_threads = MAX (motif->n_threads, 1), n_points;
  char **names;

  if (motif->outline == NULL || motif->outline->n_rings == 0)
    return NULL;
  filling.turned = hw_outline_place (motif->outline, &level);
  filling.points = g_array_new (FALSE, FALSE, sizeof (HwNeedlePoint));
  filling.row = row_distance (filling.turned);
  filling.ends = g_new0 (double, n_threads);
  find_bands (&filling);
  for (guint t = 0; t < n_threads; t++)
    fill_rows (&filling, t);
  add_border (&filling, n_threads - 1);

  n_points = filling.points->len;
  names = g_new0 (char *, n_threads + 1);
  for (guint t = 0; t < n_threads; t++)
    names[t] = g_strdup (motif->n_threads > 0 ? motif->threads[t].name : "");
  hw_outline_unref (filling.turned);
  g_free (filling.ends);
  return hw_needle_list_new ((HwNeedlePoint *)(void *)g_array_free (filling.points, FALSE), n_points, names);
}

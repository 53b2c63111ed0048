/* The outline of what a needle list stitches. Every cell of a fine grid that a stitch passes is taken; runs of cells are joined, gaps
 * between rows of stitching closed, and the ring thinned (Ramer 1972; Douglas and Peucker 1973) so that planning stays quick. */
#include "stitched-area.h"

#include <math.h>

#include "../geometry/region.h"

#define CELL 1.0       /* mm: rows of filling lie closer than this */
#define MOST_CELLS 400 /* along the longer side */
#define GROW 1.2       /* mm, then */
#define SHRINK 0.7     /* mm: closes what lies nearer than twice GROW */
#define THIN 0.35      /* mm a thinned ring may leave the old one */

typedef struct
{
  guint8 *taken;
  guint columns, rows;
  double cell;
  HwPoint origin;
} Grid;

static void
take_segment (Grid *grid, HwPoint a, HwPoint b)
{
  guint steps = (guint)ceil (hw_point_distance (a, b) / (grid->cell / 2)) + 1;

  for (guint i = 0; i <= steps; i++)
    {
      double t = (double)i / steps;
      double x = (a.x + (b.x - a.x) * t - grid->origin.x) / grid->cell;
      double y = (a.y + (b.y - a.y) * t - grid->origin.y) / grid->cell;
      guint column = (guint)CLAMP (x, 0, grid->columns - 1);
      guint row = (guint)CLAMP (y, 0, grid->rows - 1);

      grid->taken[row * grid->columns + column] = 1;
    }
}

static void
take_stitches (Grid *grid, const HwNeedleList *needles)
{
  HwPoint last = { 0, 0 };
  gboolean drawn = FALSE; /* thread runs from the last point */

  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *p = &needles->points[i];
      HwPoint at = { p->x, p->y };

      if (p->action == HW_NEEDLE_STITCH)
        {
          take_segment (grid, drawn ? last : at, at);
          drawn = TRUE;
        }
      else
        drawn = FALSE;
      last = at;
    }
}

static HwOutline *
run_outline (const Grid *grid, guint row, guint from, guint to)
{
  double x0 = grid->origin.x + from * grid->cell, x1 = grid->origin.x + to * grid->cell;
  double y0 = grid->origin.y + row * grid->cell, y1 = y0 + grid->cell;
  HwPoint corners[] = { { x0, y0 }, { x1, y0 }, { x1, y1 }, { x0, y1 } };
  HwRing ring = { corners, G_N_ELEMENTS (corners) };

  return hw_outline_new (&ring, 1);
}

static GPtrArray *
runs_of (const Grid *grid)
{
  GPtrArray *runs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);

  for (guint row = 0; row < grid->rows; row++)
    for (guint column = 0; column < grid->columns;)
      {
        guint from = column;

        while (column < grid->columns && grid->taken[row * grid->columns + column])
          column++;
        if (column > from)
          g_ptr_array_add (runs, run_outline (grid, row, from, column));
        else
          column++;
      }
  return runs;
}

static double
distance_to_chord (HwPoint p, HwPoint a, HwPoint b)
{
  double dx = b.x - a.x, dy = b.y - a.y, length = hypot (dx, dy);

  if (length <= 0)
    return hw_point_distance (p, a);
  double t = CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / (length * length), 0, 1);
  return hw_point_distance (p, (HwPoint){ a.x + t * dx, a.y + t * dy });
}

static void
mark_kept (const HwPoint *points, guint first, guint last, gboolean *kept)
{
  double farthest = THIN;
  guint at = 0;

  for (guint i = first + 1; i < last; i++)
    {
      double d = distance_to_chord (points[i], points[first], points[last]);
      if (d > farthest)
        {
          farthest = d;
          at = i;
        }
    }
  if (at == 0)
    return;
  kept[at] = TRUE;
  mark_kept (points, first, at, kept);
  mark_kept (points, at, last, kept);
}

static HwRing
thin_ring (const HwRing *ring)
{
  g_autofree gboolean *kept = g_new0 (gboolean, ring->n_points);
  guint half = ring->n_points / 2, n = 0;

  kept[0] = kept[half] = kept[ring->n_points - 1] = TRUE;
  mark_kept (ring->points, 0, half, kept);
  mark_kept (ring->points, half, ring->n_points - 1, kept);

  HwRing thin = { .points = g_new (HwPoint, ring->n_points) };
  for (guint i = 0; i < ring->n_points; i++)
    if (kept[i])
      thin.points[n++] = ring->points[i];
  thin.n_points = n;
  return thin;
}

static HwOutline *
thinned (const HwOutline *outline)
{
  g_autofree HwRing *rings = g_new0 (HwRing, outline->n_rings);

  for (guint i = 0; i < outline->n_rings; i++)
    rings[i] = thin_ring (&outline->rings[i]);
  g_autoptr (HwOutline) thin = hw_outline_new (rings, outline->n_rings);
  for (guint i = 0; i < outline->n_rings; i++)
    g_free (rings[i].points);
  return hw_outline_repair (thin, NULL, NULL);
}

HwOutline *
hw_stitched_area (const HwNeedleList *needles)
{
  g_return_val_if_fail (needles != NULL, NULL);

  HwBox box = needles->box;
  double width = box.x1 - box.x0, height = box.y1 - box.y0;
  if (needles->n_stitches == 0 || !(width > 0 || height > 0))
    return NULL;

  Grid grid = { .cell = MAX (CELL, MAX (width, height) / MOST_CELLS), .origin = { box.x0, box.y0 } };
  grid.columns = (guint)ceil (width / grid.cell) + 1;
  grid.rows = (guint)ceil (height / grid.cell) + 1;
  g_autofree guint8 *taken = g_new0 (guint8, (gsize)grid.columns * grid.rows);
  grid.taken = taken;
  take_stitches (&grid, needles);

  g_autoptr (GPtrArray) runs = runs_of (&grid);
  if (runs->len == 0)
    return NULL;
  g_autoptr (HwOutline) joined = hw_outline_join ((const HwOutline *const *)runs->pdata, runs->len);
  g_autoptr (HwOutline) grown = joined != NULL ? hw_outline_grow (joined, GROW) : NULL;
  g_autoptr (HwOutline) closed = grown != NULL ? hw_outline_grow (grown, -SHRINK) : NULL;
  return closed != NULL ? thinned (closed) : NULL;
}

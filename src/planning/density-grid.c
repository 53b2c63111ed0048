/* One motif's stitches, counted into square cells. Each stitch is spread over three by three cells with the weights of a quadratic
 * B-spline (Schoenberg 1946): they always sum to one stitch and change smoothly as it moves, so that the count shows how dense the stitching
 * is rather than how it falls on the lattice. */
#include <math.h>
#include <stdlib.h>

#include "density-private.h"

#define CELL_LINES 4 /* lines across each row of cells that measure how much of an outline they hold */

typedef guint8 Weights[HW_DENSITY_STEPS][3];

/* The weights of the cells before, at and after a point, by its place in its own cell. */
static void
fill_weights (Weights weights)
{
  for (guint k = 0; k < HW_DENSITY_STEPS; k++)
    {
      double d = (k + 0.5) / HW_DENSITY_STEPS - 0.5;

      weights[k][0] = (guint8)lround (HW_DENSITY_STEPS * (0.5 - d) * (0.5 - d) / 2);
      weights[k][2] = (guint8)lround (HW_DENSITY_STEPS * (0.5 + d) * (0.5 + d) / 2);
      weights[k][1] = HW_DENSITY_STEPS - weights[k][0] - weights[k][2];
    }
}

static HwBox
box_on_cloth (HwBox box, const HwPlacement *placement)
{
  HwPoint corners[] = { { box.x0, box.y0 }, { box.x1, box.y0 }, { box.x1, box.y1 }, { box.x0, box.y1 } };

  for (guint k = 0; k < G_N_ELEMENTS (corners); k++)
    corners[k] = hw_placement_apply (placement, corners[k]);
  return hw_box_of_points (corners, G_N_ELEMENTS (corners));
}

static gboolean
has_needles (const HwMotif *motif)
{
  return motif->needles != NULL && motif->needles->n_stitches > 0;
}

HwBox
hw_density_box (const HwMotif *motif)
{
  HwBox box = HW_BOX_EMPTY;

  if (has_needles (motif))
    box = motif->needles->box;
  else if (hw_motif_stitches (motif) > 0)
    box = motif->outline->box;
  if (hw_box_is_empty (box))
    return HW_BOX_EMPTY;
  box = box_on_cloth (box, &motif->placement);
  if (!(fabs (box.x0) < 1e9 && fabs (box.y0) < 1e9 && fabs (box.x1) < 1e9 && fabs (box.y1) < 1e9))
    return HW_BOX_EMPTY;
  return box;
}

/* The grid reaches two cells beyond the box of all stitches, so that each has its neighbours. */
static void
count_needles (HwDensityGrid *grid, const HwMotif *motif)
{
  const HwPlacement *placement = &motif->placement;
  HwPoint along = hw_point_turn ((HwPoint){ placement->mirrored ? -1 : 1, 0 }, placement->angle);
  HwPoint across = hw_point_turn ((HwPoint){ 0, 1 }, placement->angle);
  double per_cell = placement->scale / grid->cell;
  double x0 = placement->position.x / grid->cell - grid->column,
         y0 = placement->position.y / grid->cell - grid->row;
  Weights weights;

  fill_weights (weights);
  for (guint i = 0; i < motif->needles->n_points; i++)
    {
      const HwNeedlePoint *p = &motif->needles->points[i];
      double x = x0 + per_cell * (along.x * p->x + across.x * p->y);
      double y = y0 + per_cell * (along.y * p->x + across.y * p->y);
      guint column, row;
      guint32 *cell;
      const guint8 *wx, *wy;

      if (p->action != HW_NEEDLE_STITCH)
        continue;
      column = (guint)x;
      row = (guint)y;
      wx = weights[(guint)((x - column) * HW_DENSITY_STEPS) % HW_DENSITY_STEPS];
      wy = weights[(guint)((y - row) * HW_DENSITY_STEPS) % HW_DENSITY_STEPS];
      cell = grid->counts + (gsize)(row - 1) * grid->columns + column - 1;
      for (guint k = 0; k < 3; k++, cell += grid->columns)
        {
          cell[0] += (guint32)wx[0] * wy[k];
          cell[1] += (guint32)wx[1] * wy[k];
          cell[2] += (guint32)wx[2] * wy[k];
        }
    }
}

static int
compare_doubles (const void *pa, const void *pb)
{
  double a = *(const double *)pa, b = *(const double *)pb;

  return (a > b) - (a < b);
}

/* Where the line y = at crosses the outline, in order; both in cells of the grid. */
static void
find_crossings (const HwOutline *outline, const HwDensityGrid *grid, double at, GArray *crossings)
{
  g_array_set_size (crossings, 0);
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint b = ring->points[i];
          double ya = a.y / grid->cell - grid->row, yb = b.y / grid->cell - grid->row;

          if ((ya <= at) != (yb <= at))
            {
              double x = (a.x + (b.x - a.x) * (at - ya) / (yb - ya)) / grid->cell - grid->column;

              g_array_append_val (crossings, x);
            }
          a = b;
        }
    }
  if (crossings->len > 1)
    qsort (crossings->data, crossings->len, sizeof (double), compare_doubles);
}

/* Adds the part of each cell that lies between two places of a row; the grid reaches two cells beyond the outline on every side. */
static void
cover (double *row, double from, double to)
{
  for (guint c = (guint)from; c < to; c++)
    row[c] += MIN (to, c + 1.0) - MAX (from, c);
}

/* How much of each cell the outline holds; returns the sum. */
static double
measure_cover (const HwOutline *outline, const HwDensityGrid *grid, double *held)
{
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (double));
  double sum = 0;

  for (guint row = 0; row < grid->rows; row++)
    for (guint line = 0; line < CELL_LINES; line++)
      {
        find_crossings (outline, grid, row + (line + 0.5) / CELL_LINES, crossings);
        for (guint k = 0; k + 1 < crossings->len; k += 2)
          cover (held + (gsize)row * grid->columns, g_array_index (crossings, double, k),
                 g_array_index (crossings, double, k + 1));
      }
  for (gsize i = 0; i < (gsize)grid->columns * grid->rows; i++)
    sum += held[i];
  return sum;
}

static void
spread_over_outline (HwDensityGrid *grid, const HwMotif *motif)
{
  gsize n = (gsize)grid->columns * grid->rows;
  g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);
  g_autofree double *held = g_new0 (double, n);
  double sum = measure_cover (placed, grid, held);
  double stitches = (double)hw_motif_stitches (motif) * HW_DENSITY_STITCH;

  for (gsize i = 0; i < n && sum > 0; i++)
    grid->counts[i] = (guint32)MIN (held[i] / sum * stitches + 0.5, G_MAXUINT32);
}

HwDensityGrid *
hw_density_grid_new (const HwMotif *motif, HwBox box, double cell)
{
  HwDensityGrid *grid = g_new0 (HwDensityGrid, 1);

  g_atomic_ref_count_init (&grid->ref_count);
  grid->motif = hw_motif_ref (motif);
  grid->cell = cell;
  if (hw_box_is_empty (box))
    return grid;
  grid->column = (int)floor (box.x0 / cell) - 2;
  grid->row = (int)floor (box.y0 / cell) - 2;
  grid->columns = (guint)((int)floor (box.x1 / cell) + 3 - grid->column);
  grid->rows = (guint)((int)floor (box.y1 / cell) + 3 - grid->row);
  grid->counts = g_new0 (guint32, (gsize)grid->columns * grid->rows);
  if (has_needles (motif))
    count_needles (grid, motif);
  else
    spread_over_outline (grid, motif);
  return grid;
}

HwDensityGrid *
hw_density_grid_ref (HwDensityGrid *grid)
{
  g_atomic_ref_count_inc (&grid->ref_count);
  return grid;
}

void
hw_density_grid_unref (HwDensityGrid *grid)
{
  if (!g_atomic_ref_count_dec (&grid->ref_count))
    return;
  hw_motif_unref (grid->motif);
  g_free (grid->counts);
  g_free (grid);
}

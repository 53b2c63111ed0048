/* The density map: the motifs' cells put together. Every motif keeps its own counts, known by its record, so that a scene in which one motif
 * moved is counted anew for that motif alone and then only added up. */
#include "density.h"

#include <math.h>

#include "density-private.h"

#define MOST_CELLS 2000000 /* of the map */
#define MOST_ADDED 8000000 /* of all motifs together */
#define STACKED 0.25       /* of the limit has to come from other motifs than the first */

struct _HwDensityMap
{
  gatomicrefcount ref_count;
  GHashTable *by_motif; /* HwMotif -> HwDensityGrid */
  GPtrArray *grids;     /* of each motif of the snapshot, in its order; owned by the table */
  double cell;
  int column, row;
  guint columns, rows;
  guint32 *counts;
};

/* The smallest cell at which the scene stays within bounds. */
static double
choose_cell (const HwBox *boxes, guint n)
{
  for (double cell = 1;; cell *= 2)
    {
      HwBox all = HW_BOX_EMPTY;
      double added = 0;

      for (guint i = 0; i < n; i++)
        if (!hw_box_is_empty (boxes[i]))
          {
            added += ((boxes[i].x1 - boxes[i].x0) / cell + 6) * ((boxes[i].y1 - boxes[i].y0) / cell + 6);
            all = hw_box_union (all, boxes[i]);
          }
      if (hw_box_is_empty (all)
          || (((all.x1 - all.x0) / cell + 6) * ((all.y1 - all.y0) / cell + 6) <= MOST_CELLS
              && (added <= MOST_ADDED || added <= 100.0 * n)))
        return cell;
    }
}

/* Takes over or counts the cells of each motif. */
static void
collect_grids (HwDensityMap *map,
               const HwSnapshot *snapshot,
               const HwBox *boxes,
               const HwDensityMap *previous)
{
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      HwMotif *motif = g_ptr_array_index (snapshot->motifs, i);
      HwDensityGrid *grid = g_hash_table_lookup (map->by_motif, motif);

      if (grid == NULL && previous != NULL && previous->cell == map->cell)
        {
          grid = g_hash_table_lookup (previous->by_motif, motif);
          if (grid != NULL)
            g_hash_table_insert (map->by_motif, motif, hw_density_grid_ref (grid));
        }
      if (grid == NULL)
        {
          grid = hw_density_grid_new (motif, boxes[i], map->cell);
          g_hash_table_insert (map->by_motif, motif, grid);
        }
      g_ptr_array_add (map->grids, grid);
    }
}

static void
find_extent (HwDensityMap *map)
{
  int column_end = G_MININT, row_end = G_MININT;

  map->column = map->row = G_MAXINT;
  for (guint i = 0; i < map->grids->len; i++)
    {
      const HwDensityGrid *grid = g_ptr_array_index (map->grids, i);

      if (grid->columns == 0)
        continue;
      map->column = MIN (map->column, grid->column);
      map->row = MIN (map->row, grid->row);
      column_end = MAX (column_end, grid->column + (int)grid->columns);
      row_end = MAX (row_end, grid->row + (int)grid->rows);
    }
  if (column_end == G_MININT)
    map->column = map->row = column_end = row_end = 0;
  map->columns = (guint)(column_end - map->column);
  map->rows = (guint)(row_end - map->row);
}

/* Where row r of a motif's cells begins in the map. */
static gsize
cell_of (const HwDensityMap *map, const HwDensityGrid *grid, guint r)
{
  return (gsize)(grid->row - map->row + (int)r) * map->columns + (gsize)(grid->column - map->column);
}

static void
add_up (HwDensityMap *map)
{
  map->counts = g_new0 (guint32, (gsize)map->columns * map->rows + 1);
  for (guint i = 0; i < map->grids->len; i++)
    {
      const HwDensityGrid *grid = g_ptr_array_index (map->grids, i);

      for (guint r = 0; r < grid->rows; r++)
        {
          const guint32 *from = grid->counts + (gsize)r * grid->columns;
          guint32 *to = map->counts + cell_of (map, grid, r);

          for (guint c = 0; c < grid->columns; c++)
            to[c] += from[c];
        }
    }
}

HwDensityMap *
hw_density_map_new (const HwSnapshot *snapshot, const HwDensityMap *previous)
{
  HwDensityMap *map;
  g_autofree HwBox *boxes = NULL;

  g_return_val_if_fail (snapshot != NULL, NULL);

  boxes = g_new (HwBox, snapshot->motifs->len + 1);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    boxes[i] = hw_density_box (hw_snapshot_motif (snapshot, i));
  map = g_new0 (HwDensityMap, 1);
  g_atomic_ref_count_init (&map->ref_count);
  map->by_motif = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)hw_density_grid_unref);
  map->grids = g_ptr_array_new ();
  map->cell = choose_cell (boxes, snapshot->motifs->len);
  collect_grids (map, snapshot, boxes, previous);
  find_extent (map);
  add_up (map);
  return map;
}

HwDensityMap *
hw_density_map_ref (const HwDensityMap *map)
{
  HwDensityMap *shared = (HwDensityMap *)map;

  g_return_val_if_fail (map != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_density_map_unref (HwDensityMap *map)
{
  g_return_if_fail (map != NULL);

  if (!g_atomic_ref_count_dec (&map->ref_count))
    return;
  g_ptr_array_unref (map->grids);
  g_hash_table_unref (map->by_motif);
  g_free (map->counts);
  g_free (map);
}

guint
hw_density_map_columns (const HwDensityMap *map)
{
  g_return_val_if_fail (map != NULL, 0);
  return map->columns;
}

guint
hw_density_map_rows (const HwDensityMap *map)
{
  g_return_val_if_fail (map != NULL, 0);
  return map->rows;
}

double
hw_density_map_cell (const HwDensityMap *map)
{
  g_return_val_if_fail (map != NULL, 1);
  return map->cell;
}

HwPoint
hw_density_map_corner (const HwDensityMap *map)
{
  g_return_val_if_fail (map != NULL, ((HwPoint){ 0, 0 }));
  return (HwPoint){ map->column * map->cell, map->row * map->cell };
}

HwPoint
hw_density_map_middle (const HwDensityMap *map, guint column, guint row)
{
  g_return_val_if_fail (map != NULL, ((HwPoint){ 0, 0 }));
  return (HwPoint){ (map->column + (int)column + 0.5) * map->cell, (map->row + (int)row + 0.5) * map->cell };
}

static double
per_square_mm (const HwDensityMap *map, guint32 count)
{
  return count / (HW_DENSITY_STITCH * map->cell * map->cell);
}

double
hw_density_map_value (const HwDensityMap *map, guint column, guint row)
{
  g_return_val_if_fail (map != NULL && column < map->columns && row < map->rows, 0);
  return per_square_mm (map, map->counts[(gsize)row * map->columns + column]);
}

/* The cell of a lattice part that holds a place; FALSE when none does. */
static gboolean
find_cell (HwPoint where, double cell, int column, int row, guint columns, guint rows, gsize *index)
{
  double x = where.x / cell - column, y = where.y / cell - row;

  if (!(x >= 0 && y >= 0 && x < columns && y < rows))
    return FALSE;
  *index = (gsize)y * columns + (gsize)x;
  return TRUE;
}

double
hw_density_map_at (const HwDensityMap *map, HwPoint where)
{
  gsize index;

  g_return_val_if_fail (map != NULL, 0);

  if (!find_cell (where, map->cell, map->column, map->row, map->columns, map->rows, &index))
    return 0;
  return per_square_mm (map, map->counts[index]);
}

double
hw_density_map_share (const HwDensityMap *map, guint motif, HwPoint where)
{
  const HwDensityGrid *grid;
  gsize index;

  g_return_val_if_fail (map != NULL && motif < map->grids->len, 0);

  grid = g_ptr_array_index (map->grids, motif);
  if (!find_cell (where, map->cell, grid->column, grid->row, grid->columns, grid->rows, &index))
    return 0;
  return per_square_mm (map, grid->counts[index]);
}

double
hw_density_map_peak (const HwDensityMap *map, HwPoint *where)
{
  gsize n, best = 0;

  g_return_val_if_fail (map != NULL, 0);

  n = (gsize)map->columns * map->rows;
  for (gsize i = 1; i < n; i++)
    if (map->counts[i] > map->counts[best])
      best = i;
  if (n > 0 && where != NULL)
    *where = hw_density_map_middle (map, (guint)(best % map->columns), (guint)(best / map->columns));
  return n > 0 ? per_square_mm (map, map->counts[best]) : 0;
}

/* Gathers the cells over the limit that hang together with cell `start`, and takes them off the list of those to look at. */
static HwDensePatch
gather_patch (const HwDensityMap *map, guint32 limit, gsize start, guint8 *seen, GArray *heap)
{
  guint32 peak = 0;
  gsize best = start, n = 0;

  g_array_set_size (heap, 0);
  g_array_append_val (heap, start);
  seen[start] = TRUE;
  while (heap->len > 0)
    {
      gsize at = g_array_index (heap, gsize, heap->len - 1);
      guint column = (guint)(at % map->columns), row = (guint)(at / map->columns);

      g_array_set_size (heap, heap->len - 1);
      n++;
      if (map->counts[at] > peak || (map->counts[at] == peak && at < best))
        {
          peak = map->counts[at];
          best = at;
        }
      for (guint r = row > 0 ? row - 1 : 0; r <= row + 1 && r < map->rows; r++)
        for (guint c = column > 0 ? column - 1 : 0; c <= column + 1 && c < map->columns; c++)
          {
            gsize next = (gsize)r * map->columns + c;

            if (seen[next] || map->counts[next] <= limit)
              continue;
            seen[next] = TRUE;
            g_array_append_val (heap, next);
          }
    }
  return (
      HwDensePatch){ per_square_mm (map, peak),
                     hw_density_map_middle (map, (guint)(best % map->columns), (guint)(best / map->columns)),
                     (double)n * map->cell * map->cell };
}

/* For each cell of some rows what the motif that adds most to it adds. Returns: (transfer full) */
static guint32 *
largest_shares (const HwDensityMap *map, guint first_row, guint n_rows)
{
  guint32 *largest = g_new0 (guint32, (gsize)map->columns * n_rows + 1);

  for (guint i = 0; i < map->grids->len; i++)
    {
      const HwDensityGrid *grid = g_ptr_array_index (map->grids, i);
      int top = grid->row - map->row - (int)first_row; /* of the grid, among these rows */

      for (int r = MAX (0, -top); r < (int)grid->rows && top + r < (int)n_rows; r++)
        {
          const guint32 *from = grid->counts + (gsize)r * grid->columns;
          guint32 *to = largest + (gsize)(top + r) * map->columns + (gsize)(grid->column - map->column);

          for (guint c = 0; c < grid->columns; c++)
            to[c] = MAX (to[c], from[c]);
        }
    }
  return largest;
}

/* Marks the cells that are not to be looked at, for one motif alone makes them: in the rows from the one that holds cell `start` to the
 * last that has a cell over the limit. Returns: (transfer full) */
static guint8 *
leave_out_single (const HwDensityMap *map, guint32 limit, gsize start)
{
  gsize n = (gsize)map->columns * map->rows, end = n;
  guint8 *seen = g_new0 (guint8, n + 1);
  guint first_row = (guint)(start / map->columns), n_rows;
  gsize begin = (gsize)first_row * map->columns;
  g_autofree guint32 *largest = NULL;

  while (map->counts[end - 1] <= limit)
    end--;
  n_rows = (guint)((end - 1) / map->columns) + 1 - first_row;
  largest = largest_shares (map, first_row, n_rows);
  for (gsize i = start; i < end; i++)
    seen[i] = map->counts[i] > limit && map->counts[i] - largest[i - begin] < limit * STACKED;
  return seen;
}

GArray *
hw_density_map_patches (const HwDensityMap *map, double limit, gboolean stacked)
{
  GArray *patches = g_array_new (FALSE, FALSE, sizeof (HwDensePatch));
  g_autoptr (GArray) heap = g_array_new (FALSE, FALSE, sizeof (gsize));
  g_autofree guint8 *seen = NULL;
  guint32 most;
  gsize n;

  g_return_val_if_fail (map != NULL, patches);

  n = (gsize)map->columns * map->rows;
  most = (guint32)CLAMP (limit * HW_DENSITY_STITCH * map->cell * map->cell, 0, G_MAXUINT32);
  for (gsize i = 0; i < n; i++)
    {
      if (map->counts[i] <= most)
        continue;
      if (seen == NULL)
        seen = stacked ? leave_out_single (map, most, i) : g_new0 (guint8, n);
      if (!seen[i])
        {
          HwDensePatch patch = gather_patch (map, most, i, seen, heap);

          g_array_append_val (patches, patch);
        }
    }
  return patches;
}

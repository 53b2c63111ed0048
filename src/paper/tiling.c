/* Tiles: a template or a whole cloth larger than the sheet is printed in pieces that share a strip with
 * their neighbours. The strip's middle line is where the pieces meet: one sheet is cut there and laid on
 * the other, cross on cross. */
#include "tiling.h"

#include <math.h>

#include "../geometry/language.h"
#include "page.h"
#include "plate.h"

/* A hair of slack, so that what fits exactly does not need a second sheet by rounding. */
#define SLACK 1e-6
#define MOST_TILES 1e6    /* along one side: whoever asks refuses far fewer */
#define LEAST_WINDOW 40.0 /* mm: less is a strip, not a sheet */

static guint
tiles_needed (double length, double window, double overlap)
{
  if (length <= window + SLACK)
    return 1;

  return (guint)MIN (ceil ((length - overlap) / (window - overlap) - SLACK), MOST_TILES);
}

HwTiling
hw_tiling_new (HwBox extent, double width, double height, double overlap)
{
  HwTiling tiling = { .extent = extent, .width = width, .height = height };
  double long_x = extent.x1 - extent.x0, long_y = extent.y1 - extent.y0;

  g_assert (width > 0 && height > 0 && long_x >= 0 && long_y >= 0);

  tiling.overlap = CLAMP (overlap, 0, MIN (width, height) / 4);
  tiling.columns = tiles_needed (long_x, width, tiling.overlap);
  tiling.rows = tiles_needed (long_y, height, tiling.overlap);
  tiling.x0
      = (extent.x0 + extent.x1) / 2 - (tiling.columns * width - (tiling.columns - 1) * tiling.overlap) / 2;
  tiling.y0 = (extent.y0 + extent.y1) / 2 - (tiling.rows * height - (tiling.rows - 1) * tiling.overlap) / 2;

  return tiling;
}

gboolean
hw_tiling_window_size (
    const HwSheetSize *sheet, gboolean lying, double margin, double rest, double *width, double *height)
{
  *width = (lying ? sheet->height : sheet->width) - 2 * margin;
  *height = (lying ? sheet->width : sheet->height) - 2 * margin - rest;

  return *width >= LEAST_WINDOW && *height >= LEAST_WINDOW;
}

gboolean
hw_tiling_fit_sheet (HwTiling *tiling,
                     HwBox extent,
                     const HwSheetSize *sheet,
                     double margin,
                     double rest,
                     double overlap,
                     double *sheet_width,
                     double *sheet_height)
{
  guint64 fewest = 0;

  for (guint lying = 0; lying < 2; lying++)
    {
      double width, height;
      HwTiling try;

      if (!hw_tiling_window_size (sheet, lying, margin, rest, &width, &height))
        continue;
      try = hw_tiling_new (extent, width, height, overlap);
      if (fewest > 0 && hw_tiling_count (&try) >= fewest)
        continue;
      fewest = hw_tiling_count (&try);
      *tiling = try;
      *sheet_width = lying ? sheet->height : sheet->width;
      *sheet_height = lying ? sheet->width : sheet->height;
    }

  return fewest > 0;
}

gboolean
hw_tiling_leaves_out (const HwTiling *tiling, guint column, guint row)
{
  return tiling->left_out != NULL && tiling->left_out[(gsize)row * tiling->columns + column];
}

/* How far p is from the nearest join when the first window begins at `begin`; along one axis. */
static double
clear_of_joins (double begin, double window, double overlap, guint n, double p)
{
  double clear = G_MAXDOUBLE;

  for (guint k = 0; k + 1 < n; k++)
    clear = MIN (clear, fabs (begin + k * (window - overlap) + window - overlap / 2 - p));

  return clear;
}

/* The best place is where p is in the middle of a window, or at an end of the room there is. */
static double
clear_begin (double from, double to, double window, double overlap, guint n, double p)
{
  double room = n * window - (n - 1) * overlap - (to - from);
  double best = from - room / 2;

  for (guint k = 0; k < n + 2; k++)
    {
      double begin = k == n ? from : k == n + 1 ? from - room : p - k * (window - overlap) - window / 2;

      begin = CLAMP (begin, from - room, from);
      if (clear_of_joins (begin, window, overlap, n, p)
          > clear_of_joins (best, window, overlap, n, p) + SLACK)
        best = begin;
    }

  return best;
}

void
hw_tiling_keep_clear (HwTiling *tiling, HwPoint p)
{
  const HwBox *extent = &tiling->extent;

  if (tiling->columns > 1)
    tiling->x0 = clear_begin (extent->x0, extent->x1, tiling->width, tiling->overlap, tiling->columns, p.x);
  if (tiling->rows > 1)
    tiling->y0 = clear_begin (extent->y0, extent->y1, tiling->height, tiling->overlap, tiling->rows, p.y);
}

HwBox
hw_tiling_window (const HwTiling *tiling, guint column, guint row)
{
  double x = tiling->x0 + column * (tiling->width - tiling->overlap);
  double y = tiling->y0 + row * (tiling->height - tiling->overlap);

  return (HwBox){ x, y, x + tiling->width, y + tiling->height };
}

HwBox
hw_tiling_cell (const HwTiling *tiling, guint column, guint row)
{
  HwBox cell = hw_tiling_window (tiling, column, row);
  double half = tiling->overlap / 2;

  return (HwBox){ column > 0 ? cell.x0 + half : cell.x0, row > 0 ? cell.y0 + half : cell.y0,
                  column + 1 < tiling->columns ? cell.x1 - half : cell.x1,
                  row + 1 < tiling->rows ? cell.y1 - half : cell.y1 };
}

char *
hw_tile_name (guint column, guint row)
{
  GString *name = g_string_new (NULL);

  for (guint rest = column + 1; rest > 0; rest = (rest - 1) / 26)
    g_string_prepend_c (name, 'A' + (rest - 1) % 26);
  g_string_append_printf (name, "%u", row + 1);

  return g_string_free (name, FALSE);
}

static void
draw_join_cross (cairo_t *cr, double x, double y, double arm)
{
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_width (cr, 0.25);
  cairo_move_to (cr, x - arm, y);
  cairo_line_to (cr, x + arm, y);
  cairo_move_to (cr, x, y - arm);
  cairo_line_to (cr, x, y + arm);
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, arm * 0.55, 0, 2 * G_PI);
  cairo_stroke (cr);
}

/* One join, in a user space where it runs along x from 0 to length and the other sheet lies towards
 * `beyond` (+1: down, -1: up). The upper or left sheet is the one that stays whole. */
static void
draw_join (cairo_t *cr, double length, double strip, int beyond, const char *here, const char *there)
{
  static const double dashes[] = { 2.0, 1.2 };
  double arm = CLAMP (strip * 0.3, 1.0, 3.0);
  g_autofree char *pair = NULL, *words = NULL;

  if (beyond > 0)
    {
      pair = g_strdup_printf ("%s · %s", here, there);
      /* TRANSLATORS: %s is the name of a tile, such as B2 */
      words = g_strdup_printf (_ ("%s goes on here"), there);
    }
  else
    {
      pair = g_strdup_printf ("%s · %s", there, here);
      words = g_strdup_printf (_ ("cut here, lay on %s"), there);
    }

  hw_ink_pale (cr);
  cairo_set_line_width (cr, 0.2);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, length, 0);
  cairo_stroke (cr);
  hw_ink (cr);
  for (int k = 1; k <= 3; k += 2)
    {
      draw_join_cross (cr, length * k / 4, 0, arm);
      hw_draw_plate (cr, length * k / 4 + arm + 1, 0.4, 0, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, pair);
    }
  hw_draw_plate (cr, length / 2, beyond > 0 ? 0.4 : -0.5 - HW_TYPE_SMALL * 1.2, 0, HW_TYPE_SMALL, FALSE,
                 HW_LETTER_CENTRE, words);
}

/* Whether a printed tile lies next to this one on that side. */
static gboolean
meets (const HwTiling *tiling, guint column, guint row, int across, int down)
{
  gint64 c = (gint64)column + across, r = (gint64)row + down;

  return c >= 0 && r >= 0 && c < tiling->columns && r < tiling->rows
         && !hw_tiling_leaves_out (tiling, (guint)c, (guint)r);
}

void
hw_tiling_draw_joins (const HwTiling *tiling, cairo_t *cr, guint column, guint row)
{
  HwBox window = hw_tiling_window (tiling, column, row);
  g_autofree char *here = hw_tile_name (column, row);
  double half = tiling->overlap / 2;

  for (int side = -1; side <= 1; side += 2)
    {
      if (meets (tiling, column, row, 0, side))
        {
          g_autofree char *there = hw_tile_name (column, row + side);

          cairo_save (cr);
          cairo_translate (cr, window.x0, side < 0 ? window.y0 + half : window.y1 - half);
          draw_join (cr, tiling->width, tiling->overlap, side, here, there);
          cairo_restore (cr);
        }
      if (meets (tiling, column, row, side, 0))
        {
          g_autofree char *there = hw_tile_name (column + side, row);

          cairo_save (cr);
          cairo_translate (cr, side < 0 ? window.x0 + half : window.x1 - half, window.y1);
          cairo_rotate (cr, -G_PI / 2);
          draw_join (cr, tiling->height, tiling->overlap, side, here, there);
          cairo_restore (cr);
        }
    }
}

/* A stroke from corner to corner through each tile that is not printed. */
static void
path_left_out (const HwTiling *tiling, cairo_t *cr)
{
  for (guint row = 0; row < tiling->rows; row++)
    for (guint column = 0; column < tiling->columns; column++)
      if (hw_tiling_leaves_out (tiling, column, row))
        {
          HwBox cell = hw_tiling_cell (tiling, column, row);

          cairo_move_to (cr, cell.x0, cell.y1);
          cairo_line_to (cr, cell.x1, cell.y0);
          cairo_move_to (cr, cell.x0, cell.y0);
          cairo_line_to (cr, cell.x1, cell.y1);
        }
}

void
hw_tiling_draw_index (const HwTiling *tiling,
                      cairo_t *cr,
                      guint column,
                      guint row,
                      HwBox box,
                      HwTilingSketch sketch,
                      gpointer user_data)
{
  HwBox first = hw_tiling_window (tiling, 0, 0);
  HwBox last = hw_tiling_window (tiling, tiling->columns - 1, tiling->rows - 1);
  HwBox here = hw_tiling_window (tiling, column, row);
  double step_x = tiling->width - tiling->overlap, step_y = tiling->height - tiling->overlap;
  double scale = MIN ((box.x1 - box.x0) / (last.x1 - first.x0), (box.y1 - box.y0) / (last.y1 - first.y0));
  double hairline = HW_HAIRLINE / scale;

  cairo_save (cr);
  cairo_translate (cr, (box.x0 + box.x1) / 2 - scale * (first.x0 + last.x1) / 2,
                   (box.y0 + box.y1) / 2 - scale * (first.y0 + last.y1) / 2);
  cairo_scale (cr, scale, scale);

  cairo_rectangle (cr, here.x0, here.y0, here.x1 - here.x0, here.y1 - here.y0);
  cairo_set_source_rgb (cr, 0.78, 0.76, 0.73);
  cairo_fill (cr);
  if (sketch != NULL)
    sketch (cr, hairline, user_data);

  hw_ink (cr);
  cairo_set_line_width (cr, hairline);
  for (guint c = 0; c <= tiling->columns; c++)
    {
      double x = c == 0                 ? first.x0
                 : c == tiling->columns ? last.x1
                                        : first.x0 + c * step_x + tiling->overlap / 2;
      cairo_move_to (cr, x, first.y0);
      cairo_line_to (cr, x, last.y1);
    }
  for (guint r = 0; r <= tiling->rows; r++)
    {
      double y = r == 0              ? first.y0
                 : r == tiling->rows ? last.y1
                                     : first.y0 + r * step_y + tiling->overlap / 2;
      cairo_move_to (cr, first.x0, y);
      cairo_line_to (cr, last.x1, y);
    }
  path_left_out (tiling, cr);
  cairo_stroke (cr);
  cairo_restore (cr);
}

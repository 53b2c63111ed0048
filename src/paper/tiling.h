/* Private to this room: something larger than a sheet, cut into tiles that are joined again with a little
 * overlap. All figures are millimetres of the content. */
#pragma once

#include <cairo.h>

#include "../geometry/point.h"
#include "sheet-size.h"

G_BEGIN_DECLS

typedef struct
{
  HwBox extent;         /* what has to be shown */
  double width, height; /* of the window each sheet has for it */
  double overlap;
  guint columns, rows;
  double x0, y0; /* where the first window begins */
  const gboolean
      *left_out; /* by row, then column: tiles that are not printed; NULL: none; not the tiling's own */
} HwTiling;

/* The fewest tiles that show the whole extent, laid evenly over it. overlap is taken back to a quarter of
 * the window where it would leave nothing. width and height must be over 0. */
HwTiling
hw_tiling_new (HwBox extent, double width, double height, double overlap);

/* The sheet, upright or lying, that takes the fewest tiles. margin: white on all sides; rest: height taken
 * by head and foot. FALSE when either way leaves too little room to draw in. */
gboolean
hw_tiling_fit_sheet (HwTiling *tiling,
                     HwBox extent,
                     const HwSheetSize *sheet,
                     double margin,
                     double rest,
                     double overlap,
                     double *sheet_width,
                     double *sheet_height);

/* The window a sheet has for its content, upright or lying. FALSE when it is too small to draw in. */
gboolean
hw_tiling_window_size (
    const HwSheetSize *sheet, gboolean lying, double margin, double rest, double *width, double *height);

/* Whether the tile is not printed. */
gboolean
hw_tiling_leaves_out (const HwTiling *tiling, guint column, guint row);

#define hw_tiling_count(t) ((guint64)(t)->columns * (t)->rows)

/* The part of the content a tile shows. */
HwBox
hw_tiling_window (const HwTiling *tiling, guint column, guint row);

/* What of it no neighbour shows: as far as the joins. */
HwBox
hw_tiling_cell (const HwTiling *tiling, guint column, guint row);

/* Moves the windows, as far as they have room to spare, so that p lies as far from every join as can be. */
void
hw_tiling_keep_clear (HwTiling *tiling, HwPoint p);

/* "B2": second column, second row. Returns: (transfer full) */
char *
hw_tile_name (guint column, guint row);

/* In content user space, towards each neighbour that is printed: the dashed line along which two sheets meet, in the middle of what they share, two
 * small crosses on it that come to lie on each other, and the name of the sheet beyond. */
void
hw_tiling_draw_joins (const HwTiling *tiling, cairo_t *cr, guint column, guint row);

/* A small map of all tiles in a box of the sheet's user space, this tile shaded and those left out struck through; sketch, in content user
 * space, draws what they show (may be NULL). */
typedef void (*HwTilingSketch) (cairo_t *cr, double hairline, gpointer user_data);
void
hw_tiling_draw_index (const HwTiling *tiling,
                      cairo_t *cr,
                      guint column,
                      guint row,
                      HwBox box,
                      HwTilingSketch sketch,
                      gpointer user_data);

G_END_DECLS

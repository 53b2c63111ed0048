/* The cells one motif's stitches fall into: the inside of the density map. */
#pragma once

#include "density.h"

G_BEGIN_DECLS

#define HW_DENSITY_STEPS 64                                     /* a stitch's weight along one axis */
#define HW_DENSITY_STITCH (HW_DENSITY_STEPS * HW_DENSITY_STEPS) /* what one stitch adds in all */

/* Cells of a lattice whose corner is the cloth's; whole numbers, so that sums do not depend on their order. Refcounted. */
typedef struct
{
  gatomicrefcount ref_count;
  HwMotif *motif; /* held, so that its address stays its own */
  double cell;    /* mm */
  int column, row;
  guint columns, rows; /* 0 when nothing is stitched */
  guint32 *counts;
} HwDensityGrid;

/* The box the motif's stitches lie in on the cloth; empty when it has none or it is no finite box. */
HwBox
hw_density_box (const HwMotif *motif);

/* Returns: (transfer full) */
HwDensityGrid *
hw_density_grid_new (const HwMotif *motif, HwBox box, double cell);
HwDensityGrid *
hw_density_grid_ref (HwDensityGrid *grid);
void
hw_density_grid_unref (HwDensityGrid *grid);

G_END_DECLS

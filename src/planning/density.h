/* How dense the stitching lies: a map of needle holes per square millimetre over the whole scene, as the cloth has to bear them when all is
 * stitched. Immutable, shared by reference; any thread may read it. */
#pragma once

#include "../scene/snapshot.h"

G_BEGIN_DECLS

typedef struct _HwDensityMap HwDensityMap;

/* Counts each stitch where the needle goes down, under its motif's placement, spread smoothly over about 2 mm; thread that is laid between counts nothing. A
 * motif without a needle list has its stitches spread evenly over its outline. previous (may be NULL): a map made before; motifs it holds
 * unchanged (the same record) are taken over, so that dragging one motif counts one anew. Returns: (transfer full) */
HwDensityMap *
hw_density_map_new (const HwSnapshot *snapshot, const HwDensityMap *previous);
HwDensityMap *
hw_density_map_ref (const HwDensityMap *map);
void
hw_density_map_unref (HwDensityMap *map);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwDensityMap, hw_density_map_unref)

/* Cells lie in rows from the top left; both counts are 0 when nothing is stitched. */
guint
hw_density_map_columns (const HwDensityMap *map);
guint
hw_density_map_rows (const HwDensityMap *map);
/* The side of a cell, mm: 1, or a power of two where the scene is very large. */
double
hw_density_map_cell (const HwDensityMap *map);
/* The top left corner of the first cell, fabric mm. */
HwPoint
hw_density_map_corner (const HwDensityMap *map);
/* The middle of a cell, fabric mm. */
HwPoint
hw_density_map_middle (const HwDensityMap *map, guint column, guint row);

/* Stitches per mm^2 in a cell; at a place on the cloth (0 off the map). */
double
hw_density_map_value (const HwDensityMap *map, guint column, guint row);
double
hw_density_map_at (const HwDensityMap *map, HwPoint where);
/* What motif i of the snapshot adds at a place. */
double
hw_density_map_share (const HwDensityMap *map, guint motif, HwPoint where);
/* The largest value and the middle of the first cell that has it; where may be NULL and is left alone on an empty map. */
double
hw_density_map_peak (const HwDensityMap *map, HwPoint *where);

/* Cells that touch, corners included, and all lie over a limit. */
typedef struct
{
  double peak;   /* stitches per mm^2 */
  HwPoint where; /* the middle of its densest cell, fabric mm */
  double area;   /* mm^2 */
} HwDensePatch;
/* From the top left, row by row. stacked: only where motifs lie over one another; what one motif makes by itself is left out.
 * Returns: (transfer full) (element-type HwDensePatch) */
GArray *
hw_density_map_patches (const HwDensityMap *map, double limit, gboolean stacked);

G_END_DECLS

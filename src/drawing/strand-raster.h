/* Strands of thread drawn into pixels: the inside of thread-painting.c and used by nothing else. */
#pragma once

#include <cairo.h>

#include "../scene/colour.h"

G_BEGIN_DECLS

/* One stitch, in pixels of the picture. */
typedef struct
{
  float x0, y0, x1, y1;
  guint32 number; /* its place in the list: gives it its own small variation */
} HwStrand;

typedef struct _HwStrandRaster HwStrandRaster;

/* A raster over an ARGB32 image surface, which must outlive it. width: of a strand, in pixels.
 * NULL when there is no memory for it. */
HwStrandRaster *
hw_strand_raster_new (cairo_surface_t *surface, double width);
void
hw_strand_raster_free (HwStrandRaster *raster);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwStrandRaster, hw_strand_raster_free)

/* Draws strands of one colour that were stitched without a break, one after another, and the shadow they cast together on
 * what lies beside them. */
void
hw_strand_raster_run (HwStrandRaster *raster, const HwStrand *strands, guint n_strands, HwColour colour);

G_END_DECLS

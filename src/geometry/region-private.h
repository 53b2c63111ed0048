/* Between outlines and GEOS, for the files of this room. */
#pragma once

#include <geos_c.h>

#include "outline.h"

G_BEGIN_DECLS

/* This thread's GEOS context. Where memory ends within GEOS, the program ends. */
GEOSContextHandle_t
hw_region_context (void);

/* NULL is fine. */
void
hw_region_free (GEOSGeometry *geometry);

/* The outline as a polygon or several, not checked for crossings; NULL when GEOS cannot hold it. Free with
 * hw_region_free(). */
GEOSGeometry *
hw_region_from_outline (const HwOutline *outline);

/* The polygons of a geometry as one outline; NULL when it has no area. Returns: (transfer full) (nullable) */
HwOutline *
hw_region_to_outline (const GEOSGeometry *area);

/* One ring as a closed line. */
GEOSGeometry *
hw_region_ring (GEOSContextHandle_t context, const HwRing *ring);

/* Frees the points of a ring in an array. */
void
hw_region_clear_ring (gpointer ring);

/* The area of an outline whose rings cross: its faces inside by the even-odd rule, joined. NULL when GEOS gives up. */
GEOSGeometry *
hw_region_even_odd (const HwOutline *outline);

/* An area below this (mm^2) is no stitching. */
#define HW_REGION_SMALLEST 1e-6

G_END_DECLS

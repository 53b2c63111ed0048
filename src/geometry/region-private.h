/* Between outlines and GEOS, for the files of this room. */
#pragma once

#include <geos_c.h>

#include "outline.h"

G_BEGIN_DECLS

/* This thread's GEOS context. */
GEOSContextHandle_t
hw_region_context (void);

/* The outline as a polygon or several, not checked for crossings; NULL when GEOS cannot hold it. Free with
 * GEOSGeom_destroy_r(). */
GEOSGeometry *
hw_region_from_outline (const HwOutline *outline);

/* The polygons of a geometry as one outline; NULL when it has no area. Returns: (transfer full) (nullable) */
HwOutline *
hw_region_to_outline (const GEOSGeometry *area);

G_END_DECLS

/* The thin face over GEOS (reentrant C API): questions about areas. Each thread gets its own GEOS
 * context, so every function here may be called from any thread. */
#pragma once

#include "outline.h"

G_BEGIN_DECLS

#define HW_REGION_ERROR (hw_region_error_quark ())
typedef enum
{
  HW_REGION_ERROR_EMPTY,     /* nothing is left: no area */
  HW_REGION_ERROR_CROSSING,  /* crosses itself and has no clear meaning */
  HW_REGION_ERROR_NOT_FINITE /* a point that is no number, or kilometres away */
} HwRegionError;
GQuark
hw_region_error_quark (void);

/* Makes an outline valid: repeated points dropped, self-crossings resolved by the even-odd rule. *repaired is
 * set when the result differs in more than point order (may be NULL). Returns: (transfer full): a valid
 * outline with area over 0, or NULL and an error of HW_REGION_ERROR. */
HwOutline *
hw_outline_repair (const HwOutline *outline, gboolean *repaired, GError **error);

/* True when no ring crosses itself or another. */
gboolean
hw_outline_is_simple (const HwOutline *outline);

double
hw_outline_area (const HwOutline *outline); /* mm^2, holes taken off */

/* Common area of two valid outlines, mm^2. */
double
hw_outline_overlap_area (const HwOutline *a, const HwOutline *b);

/* Smallest distance between two areas in mm; 0 when they touch or overlap. */
double
hw_outline_distance (const HwOutline *a, const HwOutline *b);
/* Smallest distance from p to the area in mm; 0 inside. */
double
hw_outline_distance_to_point (const HwOutline *outline, HwPoint p);

/* The outline grown (mm > 0) or shrunk (mm < 0), round corners. NULL when nothing is left.
 * Returns: (transfer full) (nullable) */
HwOutline *
hw_outline_grow (const HwOutline *outline, double mm);

/* The part of a outside b / common to both / of either; NULL when empty. Returns: (transfer full) (nullable) */
HwOutline *
hw_outline_minus (const HwOutline *a, const HwOutline *b);
HwOutline *
hw_outline_common (const HwOutline *a, const HwOutline *b);
HwOutline *
hw_outline_join (const HwOutline *const *outlines, guint n);

/* How far the area of inner passes outside outer at most, in mm (0 when it stays inside), and at which
 * point of inner's boundary (where may be NULL). */
double
hw_outline_passes (const HwOutline *inner, const HwOutline *outer, HwPoint *where);

G_END_DECLS

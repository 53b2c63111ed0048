/* Convex hulls and questions about them: the sharing test, the overlap test and the search all work on
 * hulls. A hull is clockwise as seen (y down), open, without collinear triples, as hw_convex_hull()
 * writes it. */
#pragma once

#include "point.h"

G_BEGIN_DECLS

/* The hull of two hulls in time proportional to their points. out must hold na + nb + 2 points and may not
 * be a or b; returns the number written. No allocation. */
guint
hw_hull_merge (const HwPoint *a, guint na, const HwPoint *b, guint nb, HwPoint *out);

double
hw_hull_area (const HwPoint *hull, guint n); /* mm^2 */

/* The part of a convex polygon where a . p <= b. out must hold n + 1 points; returns the number written. */
guint
hw_hull_clip (const HwPoint *hull, guint n, HwPoint a, double b, HwPoint *out);

/* The greatest distance between two of its points, mm. */
double
hw_hull_diameter (const HwPoint *hull, guint n);

/* TRUE when a line separates the two hulls or they only touch (no common area). */
gboolean
hw_hulls_apart (const HwPoint *a, guint na, const HwPoint *b, guint nb);

G_END_DECLS

/* An outline: the closed rings that bound a stitched area. Immutable and shared by reference, so that
 * a snapshot of a scene costs nothing. A ring inside another is a hole (even-odd). Rings are stored
 * open: the last point is not the first one again. */
#pragma once

#include "point.h"

G_BEGIN_DECLS

typedef struct
{
  HwPoint *points;
  guint n_points; /* at least 3 */
} HwRing;

typedef struct
{
  gatomicrefcount ref_count;
  HwRing *rings;
  guint n_rings;
  HwBox box;     /* bounds of all rings, in the outline's own mm */
  HwPoint *hull; /* convex hull of all rings, clockwise as seen, open; never collinear triples */
  guint n_hull;
} HwOutline;

/* Copies n_rings rings. Rings with fewer than three points are left out; no check for crossings is
 * made here (see hw_outline_repair()).
 * Returns: (transfer full): a new outline */
HwOutline *
hw_outline_new (const HwRing *rings, guint n_rings);
HwOutline *
hw_outline_new_rectangle (double width, double height); /* centred on the origin */
HwOutline *
hw_outline_new_ellipse (double width, double height, guint n_points);
HwOutline *
hw_outline_ref (const HwOutline *outline);
void
hw_outline_unref (HwOutline *outline);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwOutline, hw_outline_unref)

/* Returns: how many points all rings have */
guint
hw_outline_count_points (const HwOutline *outline);
gboolean
hw_outline_equal (const HwOutline *a, const HwOutline *b);

/* Returns: (transfer full): the outline as it lies on the cloth */
HwOutline *
hw_outline_place (const HwOutline *outline, const HwPlacement *placement);

/* The convex hull of n points (monotone chain, Andrew 1979), clockwise as seen with y down, written to
 * hull, which must hold n + 1 points. Returns the number of hull points; 1 or 2 for degenerate sets. */
guint
hw_convex_hull (const HwPoint *points, guint n, HwPoint *hull);

/* True when p lies inside (even-odd). */
gboolean
hw_outline_contains (const HwOutline *outline, HwPoint p);

G_END_DECLS

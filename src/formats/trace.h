/* The parts of tracing that are not the walk itself. Private to this room. */
#pragma once

#include "../geometry/outline.h"

G_BEGIN_DECLS

/* A line drawn point by point, of which only those points are kept that it needs to stay within `slack` of all it was given: an opening
 * cone (Williams 1978; Sklansky and Gonzalez 1980). */
typedef struct
{
  GArray *kept; /* HwPoint */
  double slack;
  HwPoint anchor, last;
  double middle, half,
      farthest; /* the cone seen from the anchor: its direction and half angle, and how far it reaches */
  gboolean open;
} HwThinLine;

void
hw_thin_line_start (HwThinLine *line, GArray *kept, double slack, HwPoint first);
void
hw_thin_line_add (HwThinLine *line, HwPoint p);
void
hw_thin_line_end (HwThinLine *line);

/* The rings with fewer points, each new line within `slack` of the old, none crossing another (GEOS's simplification that keeps topology).
 * Where rings cross or touch, they may
 * after it. Returns: (transfer full) */
HwOutline *
hw_rings_simplified (const HwRing *rings, guint n_rings, double slack);

G_END_DECLS

/* What lies under the pointer, and what a rubber band takes in. All in fabric mm. */
#pragma once

#include "../geometry/outline.h"

G_BEGIN_DECLS

/* The placed outlines (back to front) that hold the point, or pass it within reach mm: their indices, topmost first.
 * An outline that holds it goes before all that only pass near. Returns: (transfer full) (element-type guint) */
GArray *
hw_hits_at (const HwOutline *const *placed, guint n, HwPoint at, double reach);
/* The one to take when the stack is clicked again: the one below `current`, or the topmost. -1 for an empty stack. */
int
hw_hits_next (const GArray *stack, int current);
/* True when the band (any two corners) takes the outline in: it covers its bounds wholly. */
gboolean
hw_hits_band (const HwOutline *placed, HwBox band);

G_END_DECLS

/* The outline of what a needle list stitches. */
#pragma once

#include "../geometry/outline.h"
#include "../scene/needle-list.h"

G_BEGIN_DECLS

/* The area its stitches cover, gaps between rows closed, a little grown so that every needle point lies inside; few points. In the
 * list's own mm. Returns: (transfer full) (nullable): NULL when there is no stitch with an extent. */
HwOutline *
hw_stitched_area (const HwNeedleList *needles);

G_END_DECLS

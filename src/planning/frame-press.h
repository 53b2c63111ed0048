/* Frames closed over finished stitching: whether one lies on it, and how it is set beside it. */
#pragma once

#include "hoop-choice.h"
#include "order.h"

G_BEGIN_DECLS

/* Whether the frame's ring lies over the placed outline by more than can be seen, and where (fabric mm). */
gboolean
hw_frame_presses_on (
    const HwHoop *hoop, HwPoint centre, double angle, const HwOutline *outline, HwPoint *where);

/* Sets the frame so that it presses on fewest of the stitched outlines (element-type const HwOutline), without more trouble and in no larger
 * hoop; turned by quarters only when along_grain. Leaves the choice alone when that helps nothing. */
void
hw_frame_set_beside (const HwSnapshot *snapshot,
                     const HwPoint *hull,
                     guint n_hull,
                     const GArray *liked,
                     gboolean along_grain,
                     const GPtrArray *stitched,
                     HwHoopChoice *choice);

G_END_DECLS

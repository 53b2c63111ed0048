/* Artwork that is a picture, not a needle list, as it lies on the cloth. Private to this room. */
#pragma once

#include "thread-painting.h"

G_BEGIN_DECLS

/* motif->picture under the motif's turn, scale and mirroring, its middle at the motif's position. FALSE when it would be too large. */
gboolean
hw_picture_paint (HwThreadPicture *painted, const HwMotif *motif, double pixels_per_mm);

G_END_DECLS

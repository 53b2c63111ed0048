/* Private to this room: what one hooping takes. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* How much stabiliser and thread the hooping takes, over the writer's width; nothing for one that is stitched, and where it is not known. */
void
hw_hooping_needs_write (HwWriter *writer, guint hooping);

G_END_DECLS

/* Private to this room: the stitches of a motif as lines on a template. */
#pragma once

#include <cairo.h>

#include "../scene/records.h"

G_BEGIN_DECLS

/* Every stitch of the needle list as a thin line in its thread's colour, in the motif's axes at its size on the cloth and mirrored as the
 * motif's placement says, unturned. */
void
hw_draw_template_stitches (cairo_t *cr, const HwMotif *motif);

G_END_DECLS

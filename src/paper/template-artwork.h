/* Private to this room: a motif's artwork as a pale picture for paper. */
#pragma once

#include <cairo.h>

#include "../scene/records.h"

G_BEGIN_DECLS

/* How fine the pictures of a job may be, so that 200 motifs still make a small file: pixels per mm. */
double
hw_artwork_fineness (const HwMotif *const *motifs, guint n_motifs);

/* The motif's artwork in its own axes, at its size on the cloth and mirrored as on the cloth, centred on (0, 0) of the current
 * user space (mm), then turned by `turn` degrees. paleness: 0 as it is, 1 white. alone: nothing lies below it, so it may cover its
 * whole box with white, which makes the smaller file. */
void
hw_draw_artwork (
    cairo_t *cr, const HwMotif *motif, double turn, double paleness, gboolean alone, double pixels_per_mm);

G_END_DECLS

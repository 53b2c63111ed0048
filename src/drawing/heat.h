/* The heat picture: how dense the stitching lies, laid over the cloth. Light where there is little thread, by way of straw and weld to madder at the limit and
 * dark walnut beyond: it darkens all the way, so that it reads the same in grey and for every kind of colour vision; what is over the
 * limit is hatched and has a line around it besides. */
#pragma once

#include <cairo.h>

#include "../planning/density.h"

G_BEGIN_DECLS

typedef struct _HwHeat HwHeat;

/* Makes the picture of a map, once for many drawings; the map is not kept. limit: stitches per mm^2 (HwWishes), > 0. May be called on any
 * thread. Returns: (transfer full) */
HwHeat *
hw_heat_new (const HwDensityMap *map, double limit);
void
hw_heat_free (HwHeat *heat);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHeat, hw_heat_free)

/* Draws it in fabric mm. px: one screen pixel (or hairline on paper) in user units. */
void
hw_heat_draw (cairo_t *cr, const HwHeat *heat, double px);

/* The colour of a density and how much of what lies beneath it covers (0 to 1). At HW_HEAT_MOST times the limit it is darkest. */
#define HW_HEAT_MOST 1.6
HwColour
hw_heat_colour (double density, double limit, double *cover);

/* The key to the colours: a bar of the given width with its top left corner at x, y, with figures below it: none, the limit, more, and below
 * them in two lines of about 20 em what counts as too dense. size: em of the figures, px: a hairline, all in user units; ink: of figures and
 * lines. Returns the height it took. */
double
hw_heat_draw_key (
    cairo_t *cr, double x, double y, double width, double size, double px, double limit, HwColour ink);

G_END_DECLS

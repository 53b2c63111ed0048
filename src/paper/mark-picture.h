/* Private to this room: the picture that goes with the list of marks to draw. */
#pragma once

#include <cairo.h>

#include "../planning/mark-list.h"
#include "page.h"

G_BEGIN_DECLS

/* The cloth in the box, with its edge line, the corner that is measured from, the motifs pale, and every cross of the list with its name. */
void
hw_draw_mark_picture (cairo_t *cr, const HwPlan *plan, const HwMarkList *list, HwBox box);

/* What the box's width and height come to with the cloth's proportions. */
void
hw_mark_picture_size (
    const HwPlan *plan, double width, double height, double *used_width, double *used_height);

/* The index of the hooping, not stitched yet, whose centre cross stands at the place, or -1; after: the one to search on from, -1 at first. */
int
hw_centre_at (const HwPlan *plan, HwPoint at, int after);

G_END_DECLS

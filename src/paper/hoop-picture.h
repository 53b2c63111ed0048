/* Private to this room: a small picture of one hooping as it stands on the machine. */
#pragma once

#include <cairo.h>

#include "page.h"

G_BEGIN_DECLS

/* Draws the hoop upright in the box (mm of the page): ring, field, centre cross, its motifs as they lie in
 * it, marks; earlier stitching as pale outlines. */
void
hw_draw_hoop_picture (cairo_t *cr, const HwPlan *plan, guint hooping, HwBox box);

/* The whole scene in the box: the cloth pale, its motifs, every hooping's footprint with its number. */
void
hw_draw_plan_picture (cairo_t *cr, const HwPlan *plan, HwBox box);

/* What the box's width and height come to with the scene's proportions. */
void
hw_plan_picture_size (
    const HwPlan *plan, double width, double height, double *used_width, double *used_height);

G_END_DECLS

/* The picture of a hooping in the machine, drawn in pixels. */
#pragma once

#include <cairo.h>

#include "machine-work.h"

G_BEGIN_DECLS

/* Draws it into width x height px (of the user space), device_scale pixels to each. mark: see machine-picture.h. dark: light letters on a dark table. */
void
hw_machine_draw (cairo_t *cr,
                 const HwMachineWork *work,
                 const char *mark,
                 double width,
                 double height,
                 double letter_size,
                 int device_scale,
                 gboolean dark);
/* The whole cloth as far as it is stitched, and the hooping `next` (-1: none). */
void
hw_machine_draw_whole (
    cairo_t *cr, const HwPlan *plan, int next, double width, double height, int device_scale);

G_END_DECLS

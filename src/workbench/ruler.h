/* The rulers along the top and the left of the canvas, in millimetres or inches. */
#pragma once

#include <cairo.h>

#include "../geometry/units.h"
#include "canvas-view.h"

G_BEGIN_DECLS

#define HW_RULER_BREADTH 26 /* px */

/* How a ruler is divided at a zoom. */
typedef struct
{
  double unit_mm;  /* mm of one unit */
  double label;    /* units from figure to figure */
  guint parts;     /* ticks per figure */
  guint half_part; /* every so many ticks a longer one; 0: none */
} HwRulerSteps;

/* The closest figures at least 56 px apart, with ticks at least 5 px apart. */
HwRulerSteps
hw_ruler_steps (double zoom, HwUnit unit);

/* Paints both rulers with their corner into a canvas of so many pixels. */
void
hw_rulers_draw (cairo_t *cr, const HwView *view, HwUnit unit, int width, int height, gboolean dark);
/* The selection's extent (mm; may be empty) as bands and the pointer (pixels; NULL: outside) as markers, over the rulers. */
void
hw_rulers_draw_marks (cairo_t *cr,
                      const HwView *view,
                      HwBox extent,
                      const HwPoint *pointer,
                      int width,
                      int height,
                      gboolean dark);

G_END_DECLS

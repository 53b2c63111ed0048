/* Private to this room: words that lie over artwork. */
#pragma once

#include "../drawing/lettering.h"

G_BEGIN_DECLS

/* One line of ink on a strip of white; shortened to width when width > 0. y is the top of its line. */
void
hw_draw_plate (cairo_t *cr,
               double x,
               double y,
               double width,
               double size,
               gboolean bold,
               HwLetterAlign align,
               const char *text);

G_END_DECLS

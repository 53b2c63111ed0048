/* A plate: words in ink on a strip of paper white, readable over stitches, outlines and joins. */
#include "plate.h"

#include "page-frame.h"

#define BESIDE 0.6 /* white left and right of the words */
#define LESS 0.3   /* the strip is lower than the line by this at its top and bottom */
#define COVER 0.82

void
hw_draw_plate (cairo_t *cr,
               double x,
               double y,
               double width,
               double size,
               gboolean bold,
               HwLetterAlign align,
               const char *text)
{
  HwLettering how = { .size = size, .bold = bold };
  double wide, high, left;

  hw_letter_measure (cr, &how, text, &wide, &high);
  if (width > 0)
    wide = MIN (wide, width);
  left = align == HW_LETTER_RIGHT ? x - wide : align == HW_LETTER_CENTRE ? x - wide / 2 : x;

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, left - BESIDE, y + LESS, wide + 2 * BESIDE, high - 2 * LESS);
  cairo_set_source_rgba (cr, 1, 1, 1, COVER);
  cairo_fill (cr);
  hw_ink (cr);
  hw_line (cr, x, y, width, size, bold, align, text);
  cairo_restore (cr);
}

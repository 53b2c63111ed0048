/* Words on cloth and paper: one typeface (Lato, else the desktop's sans), aligned figures. Sizes are in user units (em). */
#pragma once

#include <pango/pangocairo.h>

#include "../scene/colour.h"

G_BEGIN_DECLS

typedef enum
{
  HW_LETTER_LEFT,
  HW_LETTER_CENTRE,
  HW_LETTER_RIGHT
} HwLetterAlign;

typedef struct
{
  double size; /* em, user units */
  gboolean bold;
  gboolean italic;
  HwLetterAlign align;
  double width;       /* wrap to this width, user units; 0: one line, never wrapped */
  gboolean ellipsize; /* with width: one line, shortened at its end */
} HwLettering;

/* Draws text with its first baseline's top-left (or centre, right) corner at x, y (y is the top of the text). Uses the current source
 * colour. Returns the height it took, user units. */
double
hw_letter (cairo_t *cr, double x, double y, const HwLettering *how, const char *text);
/* The same without drawing; width and height may be NULL. */
void
hw_letter_measure (cairo_t *cr, const HwLettering *how, const char *text, double *width, double *height);

G_END_DECLS

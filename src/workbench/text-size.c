/* One size for the whole program, since there is one desktop; set when it changes and not asked for whenever a word is drawn. */
#include "text-size.h"

#define MOST 2.5

static double wanted = 1;

double
hw_text_size (double px)
{
  return px * wanted;
}

gboolean
hw_text_set_scale (double scale)
{
  double before = wanted;

  wanted = CLAMP (scale, 1, MOST);
  return wanted != before;
}

/* Lengths of thread as they are bought and wound: metres, or yards with the metres beside. A yard is 0.9144 m exactly (international yard and
 * pound agreement of 1959). */
#include "thread-words.h"

#include <math.h>

#include "../geometry/figures.h"
#include "../geometry/language.h"

#define METRES_PER_YARD 0.9144
#define WHOLE_FROM 10.0 /* metres below it have a decimal */

static char *
figure (double length)
{
  return length < WHOLE_FROM ? hw_figure_text (length, 1) : hw_count_text ((gulong)round (length));
}

char *
hw_words_thread (double metres, HwUnit unit)
{
  g_autofree char *in_metres = NULL, *in_yards = NULL;

  if (!isfinite (metres))
    return g_strdup (_ ("not known"));

  in_metres = figure (metres);
  if (unit == HW_UNIT_MM)
    return g_strdup_printf (_ ("%s m"), in_metres);

  in_yards = figure (metres / METRES_PER_YARD);
  return g_strdup_printf (_ ("%s yd (%s m)"), in_yards, in_metres);
}

/* Where on an interval is a polynomial not negative? */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double from, to;
} HwSpan;

/* p(x) = c[0] + c[1] x + ... + c[4] x^4 on [from, to]. Writes the closed spans of p >= 0, in order, to spans (room for
 * three) and returns their number. A single point where p touches zero from below may be left out. */
guint
hw_not_negative (const double c[5], double from, double to, HwSpan spans[3]);

G_END_DECLS

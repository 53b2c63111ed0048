/* Thread and cloth colours: sRGB, each part 0 to 1. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double red, green, blue;
} HwColour;

/* Reads "#rrggbb" (or "#rgb"). Returns FALSE and leaves *colour alone on anything else. */
gboolean
hw_colour_parse (const char *text, HwColour *colour);
/* Returns: (transfer full): "#rrggbb" */
char *
hw_colour_text (HwColour colour);
gboolean
hw_colour_equal (HwColour a, HwColour b);
/* amount 0 gives a, 1 gives b. */
HwColour
hw_colour_mix (HwColour a, HwColour b, double amount);
/* Relative luminance 0 to 1 (IEC 61966-2-1 decoding, Rec. 709 weights). */
double
hw_colour_luminance (HwColour colour);

G_END_DECLS

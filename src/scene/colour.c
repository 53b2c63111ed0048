/* Thread and cloth colours as a person writes them, and how light they look. Decoding of sRGB follows
 * IEC 61966-2-1; the weights of the three parts are those of ITU-R BT.709. */
#include "colour.h"

#include <math.h>
#include <string.h>

gboolean
hw_colour_parse (const char *text, HwColour *colour)
{
  int digits[6];
  gsize n;

  g_return_val_if_fail (colour != NULL, FALSE);

  if (text == NULL || text[0] != '#')
    return FALSE;
  n = strlen (text + 1);
  if (n != 3 && n != 6)
    return FALSE;
  for (gsize i = 0; i < n; i++)
    {
      digits[i] = g_ascii_xdigit_value (text[1 + i]);
      if (digits[i] < 0)
        return FALSE;
    }

  if (n == 3)
    *colour = (HwColour){ digits[0] / 15.0, digits[1] / 15.0, digits[2] / 15.0 };
  else
    *colour = (HwColour){ (digits[0] * 16 + digits[1]) / 255.0, (digits[2] * 16 + digits[3]) / 255.0,
                          (digits[4] * 16 + digits[5]) / 255.0 };
  return TRUE;
}

static guint
to_byte (double part)
{
  return (guint)lround (CLAMP (part, 0.0, 1.0) * 255.0);
}

char *
hw_colour_text (HwColour colour)
{
  return g_strdup_printf ("#%02x%02x%02x", to_byte (colour.red), to_byte (colour.green),
                          to_byte (colour.blue));
}

gboolean
hw_colour_equal (HwColour a, HwColour b)
{
  return to_byte (a.red) == to_byte (b.red) && to_byte (a.green) == to_byte (b.green)
         && to_byte (a.blue) == to_byte (b.blue);
}

HwColour
hw_colour_mix (HwColour a, HwColour b, double amount)
{
  return (HwColour){ a.red + (b.red - a.red) * amount, a.green + (b.green - a.green) * amount,
                     a.blue + (b.blue - a.blue) * amount };
}

static double
decode (double part)
{
  return part <= 0.04045 ? part / 12.92 : pow ((part + 0.055) / 1.055, 2.4);
}

double
hw_colour_luminance (HwColour colour)
{
  return 0.2126 * decode (colour.red) + 0.7152 * decode (colour.green) + 0.0722 * decode (colour.blue);
}

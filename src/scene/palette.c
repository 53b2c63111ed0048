/* Threads at hand, and how near one colour of thread comes to another. The way from sRGB to CIELAB is that of IEC 61966-2-1 and CIE 15 (white D65: 95.047, 100,
 * 108.883); the difference is CIEDE2000 as Sharma, Wu and Dalal write it out: "The CIEDE2000 color-difference formula", Color Research and Application 30(1), 2005,
 * 21-30. What a difference means in words is common practice, no source: about 1 is the least that an eye sees side by side. */
#include "palette.h"

#include <math.h>

#include "../geometry/language.h"
#include "../geometry/one-line.h"

#define WHITE_X 0.95047
#define WHITE_Z 1.08883
#define EPSILON (216.0 / 24389.0) /* CIE 15: where the cube root gives way to a line */
#define KAPPA (24389.0 / 27.0)
#define DEGREES(radians) ((radians)*180.0 / G_PI)
#define RADIANS(degrees) ((degrees)*G_PI / 180.0)

static double
to_linear (double part)
{
  part = CLAMP (part, 0.0, 1.0);
  return part <= 0.04045 ? part / 12.92 : pow ((part + 0.055) / 1.055, 2.4);
}

static double
from_linear (double part)
{
  part = part <= 0.0031308 ? part * 12.92 : 1.055 * pow (part, 1 / 2.4) - 0.055;
  return CLAMP (part, 0.0, 1.0);
}

static double
lab_part (double t)
{
  return t > EPSILON ? cbrt (t) : (KAPPA * t + 16) / 116;
}

static double
part_back (double f)
{
  double cube = f * f * f;

  return cube > EPSILON ? cube : (116 * f - 16) / KAPPA;
}

HwLab
hw_colour_lab (HwColour colour)
{
  double red = to_linear (colour.red), green = to_linear (colour.green), blue = to_linear (colour.blue);
  double x = lab_part ((0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / WHITE_X);
  double y = lab_part (0.2126729 * red + 0.7151522 * green + 0.0721750 * blue);
  double z = lab_part ((0.0193339 * red + 0.1191920 * green + 0.9503041 * blue) / WHITE_Z);

  /* The three weights add up to a little over 1, and white is 100. */
  return (HwLab){ MIN (116 * y - 16, 100), 500 * (x - y), 200 * (y - z) };
}

HwColour
hw_lab_colour (HwLab lab)
{
  double fy = (lab.l + 16) / 116;
  double x = WHITE_X * part_back (fy + lab.a / 500), y = part_back (fy);
  double z = WHITE_Z * part_back (fy - lab.b / 200);

  return (HwColour){ from_linear (3.2404542 * x - 1.5371385 * y - 0.4985314 * z),
                     from_linear (-0.9692660 * x + 1.8760108 * y + 0.0415560 * z),
                     from_linear (0.0556434 * x - 0.2040259 * y + 1.0572252 * z) };
}

/* 0 to 360; 0 for a grey. */
static double
hue (double a, double b)
{
  double angle = a == 0 && b == 0 ? 0 : DEGREES (atan2 (b, a));

  return angle < 0 ? angle + 360 : angle;
}

/* From hue h1 to h2 the short way round; 0 when either is a grey. */
static double
hue_step (double h1, double h2, gboolean grey)
{
  double step = h2 - h1;

  if (grey)
    return 0;
  return step > 180 ? step - 360 : step < -180 ? step + 360 : step;
}

static double
mean_hue (double h1, double h2, gboolean grey)
{
  double sum = h1 + h2;

  if (grey)
    return sum;
  if (fabs (h1 - h2) <= 180)
    return sum / 2;
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}

static double
seventh (double chroma)
{
  double power = pow (chroma, 7);

  return sqrt (power / (power + 6103515625.0)); /* 25^7 */
}

/* The paper's equations (2) to (22), in its order. */
double
hw_lab_difference (HwLab x, HwLab y)
{
  double g = 0.5 * (1 - seventh ((hypot (x.a, x.b) + hypot (y.a, y.b)) / 2));
  double a1 = (1 + g) * x.a, a2 = (1 + g) * y.a;
  double c1 = hypot (a1, x.b), c2 = hypot (a2, y.b);
  double h1 = hue (a1, x.b), h2 = hue (a2, y.b);
  gboolean grey = c1 * c2 == 0;
  double dl = y.l - x.l, dc = c2 - c1;
  double dh = 2 * sqrt (c1 * c2) * sin (RADIANS (hue_step (h1, h2, grey) / 2));
  double l = (x.l + y.l) / 2, c = (c1 + c2) / 2, h = mean_hue (h1, h2, grey);
  double t = 1 - 0.17 * cos (RADIANS (h - 30)) + 0.24 * cos (RADIANS (2 * h))
             + 0.32 * cos (RADIANS (3 * h + 6)) - 0.20 * cos (RADIANS (4 * h - 63));
  double turn = 30 * exp (-pow ((h - 275) / 25, 2));
  double square = (l - 50) * (l - 50);
  double sl = 1 + 0.015 * square / sqrt (20 + square), sc = 1 + 0.045 * c, sh = 1 + 0.015 * c * t;
  double rt = -sin (RADIANS (2 * turn)) * 2 * seventh (c);

  dl /= sl;
  dc /= sc;
  dh /= sh;
  return sqrt (MAX (dl * dl + dc * dc + dh * dh + rt * dc * dh, 0));
}

HwPaletteThread *
hw_palette_thread_new (const char *name, const char *number, HwLab lab, double metres)
{
  HwPaletteThread *thread = g_new0 (HwPaletteThread, 1);

  g_atomic_ref_count_init (&thread->ref_count);
  thread->name = hw_one_line_name (name != NULL ? name : "");
  thread->number = number != NULL && number[0] != '\0' ? hw_one_line_name (number) : NULL;
  thread->lab = lab;
  thread->metres = metres;
  return thread;
}

HwPaletteThread *
hw_palette_thread_ref (const HwPaletteThread *thread)
{
  HwPaletteThread *shared = (HwPaletteThread *)thread;

  g_return_val_if_fail (thread != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_palette_thread_unref (HwPaletteThread *thread)
{
  g_return_if_fail (thread != NULL);

  if (!g_atomic_ref_count_dec (&thread->ref_count))
    return;
  g_free (thread->name);
  g_free (thread->number);
  g_clear_pointer (&thread->unknown, hw_unknown_unref);
  g_free (thread);
}

gboolean
hw_palette_thread_equal (const HwPaletteThread *a, const HwPaletteThread *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a == b
         || (g_strcmp0 (a->name, b->name) == 0 && g_strcmp0 (a->number, b->number) == 0
             && a->lab.l == b->lab.l && a->lab.a == b->lab.a && a->lab.b == b->lab.b
             && (a->metres == b->metres || (isnan (a->metres) && isnan (b->metres)))
             && hw_unknown_equal (a->unknown, b->unknown));
}

guint
hw_palette_nearest (GPtrArray *palette, HwLab lab, guint n, HwThreadMatch *matches)
{
  guint found = 0;

  g_return_val_if_fail (palette != NULL, 0);
  g_return_val_if_fail (matches != NULL || n == 0, 0);

  for (guint i = 0; i < palette->len && n > 0; i++)
    {
      const HwPaletteThread *thread = palette->pdata[i];
      HwThreadMatch match = { i, hw_lab_difference (lab, thread->lab) };
      guint at = found < n ? found++ : n;

      /* Strictly nearer ones only move ahead, so that ties keep the palette's order. */
      for (; at > 0 && matches[at - 1].difference > match.difference; at--)
        {
          if (at < n)
            matches[at] = matches[at - 1];
        }
      if (at < n)
        matches[at] = match;
    }
  return found;
}

const char *
hw_difference_words (double difference)
{
  if (difference < 1)
    return _ ("the same to the eye");
  if (difference < 2)
    return _ ("hardly to be told apart");
  if (difference < 5)
    return _ ("near");
  if (difference < 10)
    return _ ("clearly another shade");
  return _ ("another colour");
}

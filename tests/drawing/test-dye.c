/* The dyes tell hoopings apart for all eyes. Colour vision deficiency is simulated after Machado, Oliveira and
 * Fernandes 2009, "A physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15(6),
 * severity 1.0 (matrices from memory; each row sums to 1, as white must stay white). Colour difference: CIEDE2000
 * as given by Sharma, Wu and Dalal 2005, Color Research and Application 30(1), 21-30, and checked against their table 1. */
#include <math.h>

#include "drawing/dye.h"

typedef struct
{
  double l, a, b;
} Lab;

/* Colours this far apart are told apart at a glance side by side; 1 is just noticeable. */
#define LEAST_DIFFERENCE 15.0

static const double simulations[4][3][3] = {
  { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
  { { 0.152286, 1.052583, -0.204868 }, { 0.114503, 0.786281, 0.099216 }, { -0.003882, -0.048116, 1.051998 } },
  { { 0.367322, 0.860646, -0.227968 }, { 0.280085, 0.672501, 0.047413 }, { -0.011820, 0.042940, 0.968881 } },
  { { 1.255528, -0.076749, -0.178779 }, { -0.078411, 0.930809, 0.147602 }, { 0.004733, 0.691367, 0.303900 } },
};

static double
linear (double part)
{
  return part <= 0.04045 ? part / 12.92 : pow ((part + 0.055) / 1.055, 2.4);
}

static double
lab_curve (double t)
{
  return t > 216.0 / 24389 ? cbrt (t) : (24389.0 / 27 * t + 16) / 116;
}

/* IEC 61966-2-1 primaries, D65 white 95.047, 100, 108.883. */
static Lab
lab_of_linear (const double rgb[3])
{
  double x = 0.4124 * rgb[0] + 0.3576 * rgb[1] + 0.1805 * rgb[2];
  double y = 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
  double z = 0.0193 * rgb[0] + 0.1192 * rgb[1] + 0.9505 * rgb[2];
  double fx = lab_curve (x / 0.95047), fy = lab_curve (y), fz = lab_curve (z / 1.08883);

  return (Lab){ 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz) };
}

static Lab
seen (HwColour colour, const double simulation[3][3])
{
  double rgb[3] = { linear (colour.red), linear (colour.green), linear (colour.blue) }, out[3];

  for (guint i = 0; i < 3; i++)
    {
      out[i] = simulation[i][0] * rgb[0] + simulation[i][1] * rgb[1] + simulation[i][2] * rgb[2];
      out[i] = CLAMP (out[i], 0, 1);
    }
  return lab_of_linear (out);
}

static double
radians (double degrees)
{
  return degrees * (G_PI / 180);
}

static double
hue (double a, double b)
{
  double h = a == 0 && b == 0 ? 0 : atan2 (b, a) / G_PI * 180;

  return h < 0 ? h + 360 : h;
}

static double
mean_hue (double h1, double h2, double chroma_product)
{
  if (chroma_product == 0)
    return h1 + h2;
  if (fabs (h1 - h2) <= 180)
    return (h1 + h2) / 2;
  return h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
}

static double
ciede2000 (Lab p, Lab q)
{
  double c = (hypot (p.a, p.b) + hypot (q.a, q.b)) / 2, c7 = pow (c, 7);
  double g = 0.5 * (1 - sqrt (c7 / (c7 + pow (25, 7))));
  double a1 = (1 + g) * p.a, a2 = (1 + g) * q.a, c1 = hypot (a1, p.b), c2 = hypot (a2, q.b);
  double h1 = hue (a1, p.b), h2 = hue (a2, q.b), dh = h2 - h1;
  double l = (p.l + q.l) / 2, cm = (c1 + c2) / 2, hm = mean_hue (h1, h2, c1 * c2);
  double t = 1 - 0.17 * cos (radians (hm - 30)) + 0.24 * cos (radians (2 * hm))
             + 0.32 * cos (radians (3 * hm + 6)) - 0.20 * cos (radians (4 * hm - 63));
  double cm7 = pow (cm, 7), rc = 2 * sqrt (cm7 / (cm7 + pow (25, 7)));
  double sl = 1 + 0.015 * pow (l - 50, 2) / sqrt (20 + pow (l - 50, 2));
  double sc = 1 + 0.045 * cm, sh = 1 + 0.015 * cm * t;
  double rt = -sin (radians (60 * exp (-pow ((hm - 275) / 25, 2)))) * rc;
  double dl = q.l - p.l, dc = c2 - c1, dhh;

  if (c1 * c2 == 0)
    dh = 0;
  else if (dh > 180)
    dh -= 360;
  else if (dh < -180)
    dh += 360;
  dhh = 2 * sqrt (c1 * c2) * sin (radians (dh / 2));
  return sqrt (pow (dl / sl, 2) + pow (dc / sc, 2) + pow (dhh / sh, 2) + rt * (dc / sc) * (dhh / sh));
}

/* Sharma, Wu and Dalal 2005, table 1: pairs 1, 4, 7, 9, 14, 17, 20, 25, 30, 34. */
static void
measures_differences_like_the_published_pairs (void)
{
  static const struct
  {
    Lab p, q;
    double difference;
  } pairs[] = {
    { { 50, 2.6772, -79.7751 }, { 50, 0, -82.7485 }, 2.0425 },
    { { 50, -1.3802, -84.2814 }, { 50, 0, -82.7485 }, 1.0000 },
    { { 50, 0, 0 }, { 50, -1, 2 }, 2.3669 },
    { { 50, 2.4900, -0.0010 }, { 50, -2.4900, 0.0009 }, 7.1792 },
    { { 50, -0.001, 2.49 }, { 50, 0.001, -2.49 }, 4.8045 },
    { { 50, 2.5, 0 }, { 73, 25, -18 }, 27.1492 },
    { { 50, 2.5, 0 }, { 58, 24, 15 }, 19.4535 },
    { { 60.2574, -34.0099, 36.2677 }, { 60.4626, -34.1751, 39.4387 }, 1.2644 },
    { { 36.4612, 47.858, 18.3852 }, { 36.2715, 50.5065, 21.2231 }, 1.4146 },
    { { 2.0776, 0.0795, -1.135 }, { 0.9033, -0.0636, -0.5514 }, 0.9082 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    g_assert_cmpfloat_with_epsilon (ciede2000 (pairs[i].p, pairs[i].q), pairs[i].difference, 1e-4);
}

static void
white_stays_white_in_every_simulation (void)
{
  for (guint s = 0; s < G_N_ELEMENTS (simulations); s++)
    for (guint row = 0; row < 3; row++)
      g_assert_cmpfloat_with_epsilon (
          simulations[s][row][0] + simulations[s][row][1] + simulations[s][row][2], 1.0, 1e-5);
}

static void
neighbours_differ_for_all_eyes (void)
{
  for (guint s = 0; s < G_N_ELEMENTS (simulations); s++)
    for (guint d = 0; d < HW_N_DYES; d++)
      {
        double difference = ciede2000 (seen (hw_dye (d)->colour, simulations[s]),
                                       seen (hw_dye (d + 1)->colour, simulations[s]));

        g_test_message ("sight %u: %s to %s %.1f", s, hw_dye (d)->name, hw_dye (d + 1)->name, difference);
        g_assert_cmpfloat (difference, >=, LEAST_DIFFERENCE);
      }
}

static void
no_two_dyes_share_name_or_hatch (void)
{
  for (guint i = 0; i < HW_N_DYES; i++)
    for (guint j = i + 1; j < HW_N_DYES; j++)
      {
        g_assert_cmpstr (hw_dye (i)->name, !=, hw_dye (j)->name);
        g_assert_cmpint (hw_dye (i)->hatch, !=, hw_dye (j)->hatch);
      }
  g_assert_true (hw_dye (0) == hw_dye (HW_N_DYES));
}

/* The part of pixels with ink after hatching a square. */
static double
inked (HwHatch hatch)
{
  const int size = 200;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, size, size);
  cairo_t *cr = cairo_create (surface);
  const guchar *data;
  guint count = 0;

  cairo_rectangle (cr, 50, 50, 100, 100);
  hw_dye_hatch_path (cr, hatch, (HwColour){ 0, 0, 0 }, 1, 10, 1);
  g_assert_false (cairo_has_current_point (cr));
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  data = cairo_image_surface_get_data (surface);
  for (int y = 0; y < size; y++)
    for (int x = 0; x < size; x++)
      if (data[y * cairo_image_surface_get_stride (surface) + x] > 64)
        {
          g_assert_true (x >= 50 && x < 150 && y >= 50 && y < 150);
          count++;
        }
  cairo_surface_destroy (surface);
  return count / 10000.0;
}

static void
hatches_mark_the_path_and_nothing_else (void)
{
  for (int hatch = HW_HATCH_45; hatch <= HW_HATCH_WIDE_45; hatch++)
    {
      double part = inked (hatch);

      g_assert_cmpfloat (part, >, 0.015);
      g_assert_cmpfloat (part, <, 0.35);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/dye/measures-differences-like-the-published-pairs",
                   measures_differences_like_the_published_pairs);
  g_test_add_func ("/drawing/dye/white-stays-white-in-every-simulation",
                   white_stays_white_in_every_simulation);
  g_test_add_func ("/drawing/dye/neighbours-differ-for-all-eyes", neighbours_differ_for_all_eyes);
  g_test_add_func ("/drawing/dye/no-two-dyes-share-name-or-hatch", no_two_dyes_share_name_or_hatch);
  g_test_add_func ("/drawing/dye/hatches-mark-the-path-and-nothing-else",
                   hatches_mark_the_path_and_nothing_else);
  return g_test_run ();
}

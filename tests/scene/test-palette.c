/* Colours of threads in CIELAB, how far they lie apart, and which threads at hand come nearest. */
#include <math.h>

#include "scene/palette.h"

/* Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and mathematical observations", Color Research and
 * Application 30(1), 2005, 21-30, table 1. */
static const struct
{
  HwLab x, y;
  double difference;
} published[] = {
  { { 50.0000, 2.6772, -79.7751 }, { 50.0000, 0.0000, -82.7485 }, 2.0425 },
  { { 50.0000, 3.1571, -77.2803 }, { 50.0000, 0.0000, -82.7485 }, 2.8615 },
  { { 50.0000, 2.8361, -74.0200 }, { 50.0000, 0.0000, -82.7485 }, 3.4412 },
  { { 50.0000, -1.3802, -84.2814 }, { 50.0000, 0.0000, -82.7485 }, 1.0000 },
  { { 50.0000, -1.1848, -84.8006 }, { 50.0000, 0.0000, -82.7485 }, 1.0000 },
  { { 50.0000, -0.9009, -85.5211 }, { 50.0000, 0.0000, -82.7485 }, 1.0000 },
  { { 50.0000, 0.0000, 0.0000 }, { 50.0000, -1.0000, 2.0000 }, 2.3669 },
  { { 50.0000, -1.0000, 2.0000 }, { 50.0000, 0.0000, 0.0000 }, 2.3669 },
  { { 50.0000, 2.4900, -0.0010 }, { 50.0000, -2.4900, 0.0009 }, 7.1792 },
  { { 50.0000, 2.4900, -0.0010 }, { 50.0000, -2.4900, 0.0010 }, 7.1792 },
  { { 50.0000, 2.4900, -0.0010 }, { 50.0000, -2.4900, 0.0011 }, 7.2195 },
  { { 50.0000, 2.4900, -0.0010 }, { 50.0000, -2.4900, 0.0012 }, 7.2195 },
  { { 50.0000, -0.0010, 2.4900 }, { 50.0000, 0.0009, -2.4900 }, 4.8045 },
  { { 50.0000, -0.0010, 2.4900 }, { 50.0000, 0.0010, -2.4900 }, 4.8045 },
  { { 50.0000, -0.0010, 2.4900 }, { 50.0000, 0.0011, -2.4900 }, 4.7461 },
  { { 50.0000, 2.5000, 0.0000 }, { 50.0000, 0.0000, -2.5000 }, 4.3065 },
  { { 50.0000, 2.5000, 0.0000 }, { 73.0000, 25.0000, -18.0000 }, 27.1492 },
  { { 50.0000, 2.5000, 0.0000 }, { 61.0000, -5.0000, 29.0000 }, 22.8977 },
  { { 50.0000, 2.5000, 0.0000 }, { 56.0000, -27.0000, -3.0000 }, 31.9030 },
  { { 50.0000, 2.5000, 0.0000 }, { 58.0000, 24.0000, 15.0000 }, 19.4535 },
  { { 50.0000, 2.5000, 0.0000 }, { 50.0000, 3.1736, 0.5854 }, 1.0000 },
  { { 50.0000, 2.5000, 0.0000 }, { 50.0000, 3.2972, 0.0000 }, 1.0000 },
  { { 50.0000, 2.5000, 0.0000 }, { 50.0000, 1.8634, 0.5757 }, 1.0000 },
  { { 50.0000, 2.5000, 0.0000 }, { 50.0000, 3.2592, 0.3350 }, 1.0000 },
  { { 60.2574, -34.0099, 36.2677 }, { 60.4626, -34.1751, 39.4387 }, 1.2644 },
  { { 63.0109, -31.0961, -5.8663 }, { 62.8187, -29.7946, -4.0864 }, 1.2630 },
  { { 61.2901, 3.7196, -5.3901 }, { 61.4292, 2.2480, -4.9620 }, 1.8731 },
  { { 35.0831, -44.1164, 3.7933 }, { 35.0232, -40.0716, 1.5901 }, 1.8645 },
  { { 22.7233, 20.0904, -46.6940 }, { 23.0331, 14.9730, -42.5619 }, 2.0373 },
  { { 36.4612, 47.8580, 18.3852 }, { 36.2715, 50.5065, 21.2231 }, 1.4146 },
  { { 90.8027, -2.0831, 1.4410 }, { 91.1528, -1.6435, 0.0447 }, 1.4441 },
  { { 90.9257, -0.5406, -0.9208 }, { 88.6381, -0.8985, -0.7239 }, 1.5381 },
  { { 6.7747, -0.2908, -2.4247 }, { 5.8714, -0.0985, -2.2286 }, 0.6377 },
  { { 2.0776, 0.0795, -1.1350 }, { 0.9033, -0.0636, -0.5514 }, 0.9082 },
};

static void
test_difference_meets_the_published_pairs (void)
{
  g_assert_cmpuint (G_N_ELEMENTS (published), ==, 34);
  for (guint i = 0; i < G_N_ELEMENTS (published); i++)
    {
      g_assert_cmpfloat_with_epsilon (hw_lab_difference (published[i].x, published[i].y),
                                      published[i].difference, 1e-4);
      g_assert_cmpfloat_with_epsilon (hw_lab_difference (published[i].y, published[i].x),
                                      published[i].difference, 1e-4);
      g_assert_cmpfloat_with_epsilon (hw_lab_difference (published[i].x, published[i].x), 0, 1e-12);
    }
}

static HwLab
lab_of (const char *text)
{
  HwColour colour = { 0 };

  g_assert_true (hw_colour_parse (text, &colour));
  return hw_colour_lab (colour);
}

static void
assert_lab (HwLab lab, double l, double a, double b, double within)
{
  g_assert_cmpfloat_with_epsilon (lab.l, l, within);
  g_assert_cmpfloat_with_epsilon (lab.a, a, within);
  g_assert_cmpfloat_with_epsilon (lab.b, b, within);
}

/* sRGB by IEC 61966-2-1, D65 white 95.047, 100, 108.883. The lightness of #808080 follows from the standard's formula by hand: 53.585; the primaries are
 * widely tabled values to two decimals, from memory. */
static void
test_lab_of_srgb (void)
{
  assert_lab (lab_of ("#ffffff"), 100, 0, 0, 1e-3);
  assert_lab (lab_of ("#000000"), 0, 0, 0, 1e-9);
  assert_lab (lab_of ("#808080"), 53.585, 0, 0, 1e-3);
  assert_lab (lab_of ("#ff0000"), 53.24, 80.09, 67.20, 0.01);
  assert_lab (lab_of ("#00ff00"), 87.73, -86.18, 83.18, 0.01);
  assert_lab (lab_of ("#0000ff"), 32.30, 79.19, -107.86, 0.01);
}

static void
test_lab_and_back (void)
{
  for (guint i = 0; i < 200; i++)
    {
      HwColour colour = { g_test_rand_double (), g_test_rand_double (), g_test_rand_double () };
      HwColour back = hw_lab_colour (hw_colour_lab (colour));

      g_assert_cmpfloat_with_epsilon (back.red, colour.red, 1e-5);
      g_assert_cmpfloat_with_epsilon (back.green, colour.green, 1e-5);
      g_assert_cmpfloat_with_epsilon (back.blue, colour.blue, 1e-5);
    }
}

static void
test_colours_no_screen_shows_are_cut (void)
{
  HwColour colour = hw_lab_colour ((HwLab){ 60, 128, -128 });

  g_assert_true (colour.red >= 0 && colour.red <= 1);
  g_assert_true (colour.green >= 0 && colour.green <= 1);
  g_assert_true (colour.blue >= 0 && colour.blue <= 1);
}

static GPtrArray *
make_palette (const char *const *colours)
{
  GPtrArray *palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);

  for (; *colours != NULL; colours++)
    g_ptr_array_add (palette, hw_palette_thread_new (*colours, NULL, lab_of (*colours), NAN));
  return palette;
}

static void
test_nearest_come_first (void)
{
  static const char *const colours[] = { "#203040", "#335522", "#ff0000", "#345623", "#335522", NULL };
  g_autoptr (GPtrArray) palette = make_palette (colours);
  HwThreadMatch matches[8];

  g_assert_cmpuint (hw_palette_nearest (palette, lab_of ("#335522"), 3, matches), ==, 3);
  g_assert_cmpuint (matches[0].thread, ==, 1);
  g_assert_cmpuint (matches[1].thread, ==, 4);
  g_assert_cmpuint (matches[2].thread, ==, 3);
  g_assert_cmpfloat (matches[0].difference, ==, 0);
  g_assert_cmpfloat (matches[2].difference, >, 0);
  g_assert_cmpuint (hw_palette_nearest (palette, lab_of ("#335522"), 8, matches), ==, 5);
  g_assert_cmpuint (matches[4].thread, ==, 2);
  g_assert_cmpuint (hw_palette_nearest (palette, lab_of ("#335522"), 0, NULL), ==, 0);
}

/* Against sorting all of them. */
static void
test_nearest_of_many (void)
{
  g_autoptr (GPtrArray) palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);
  HwLab wanted = { 50, 10, 10 };
  HwThreadMatch matches[10];

  for (guint i = 0; i < 300; i++)
    {
      HwLab lab = { g_test_rand_double_range (0, 100), g_test_rand_double_range (-80, 80),
                    g_test_rand_double_range (-80, 80) };

      g_ptr_array_add (palette, hw_palette_thread_new ("thread", NULL, lab, NAN));
    }
  g_assert_cmpuint (hw_palette_nearest (palette, wanted, 10, matches), ==, 10);
  for (guint i = 0; i < 10; i++)
    {
      guint nearer = 0;

      for (guint k = 0; k < palette->len; k++)
        nearer += hw_lab_difference (wanted, ((HwPaletteThread *)palette->pdata[k])->lab)
                  < matches[i].difference;
      g_assert_cmpuint (nearer, ==, i);
    }
}

static void
test_differences_in_words (void)
{
  g_assert_cmpstr (hw_difference_words (0), ==, "the same to the eye");
  g_assert_cmpstr (hw_difference_words (1.5), ==, "hardly to be told apart");
  g_assert_cmpstr (hw_difference_words (3), ==, "near");
  g_assert_cmpstr (hw_difference_words (7), ==, "clearly another shade");
  g_assert_cmpstr (hw_difference_words (40), ==, "another colour");
}

static void
test_threads_compare (void)
{
  HwLab lab = { 50, 1, 2 };
  g_autoptr (HwPaletteThread) a = hw_palette_thread_new ("moss", "17", lab, NAN);
  g_autoptr (HwPaletteThread) b = hw_palette_thread_new ("moss", "17", lab, NAN);
  g_autoptr (HwPaletteThread) c = hw_palette_thread_new ("moss", "17", lab, 20);
  g_autoptr (HwPaletteThread) d = hw_palette_thread_new ("moss", "", lab, NAN);

  g_assert_true (hw_palette_thread_equal (a, b));
  g_assert_false (hw_palette_thread_equal (a, c));
  g_assert_false (hw_palette_thread_equal (a, d));
  g_assert_null (d->number);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/palette/difference-meets-the-published-pairs",
                   test_difference_meets_the_published_pairs);
  g_test_add_func ("/palette/lab-of-srgb", test_lab_of_srgb);
  g_test_add_func ("/palette/lab-and-back", test_lab_and_back);
  g_test_add_func ("/palette/colours-no-screen-shows-are-cut", test_colours_no_screen_shows_are_cut);
  g_test_add_func ("/palette/nearest-come-first", test_nearest_come_first);
  g_test_add_func ("/palette/nearest-of-many", test_nearest_of_many);
  g_test_add_func ("/palette/differences-in-words", test_differences_in_words);
  g_test_add_func ("/palette/threads-compare", test_threads_compare);
  return g_test_run ();
}

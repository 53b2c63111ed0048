#include "scene/colour.h"

static void
reads_both_ways_of_writing (void)
{
  HwColour colour;

  g_assert_true (hw_colour_parse ("#335522", &colour));
  g_assert_cmpfloat_with_epsilon (colour.red, 0x33 / 255.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (colour.green, 0x55 / 255.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (colour.blue, 0x22 / 255.0, 1e-12);
  g_assert_true (hw_colour_parse ("#F0a", &colour));
  g_assert_cmpfloat_with_epsilon (colour.red, 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (colour.blue, 0xaa / 255.0, 1e-12);
}

static void
leaves_the_colour_alone_on_anything_else (void)
{
  const char *wrong[]
      = { "", "335522", "#33552", "#3355222", "#33552g", "moss", "#", "# 35522", "rgb(1,2,3)" };
  HwColour colour = { 0.1, 0.2, 0.3 };

  g_assert_false (hw_colour_parse (NULL, &colour));
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    g_assert_false (hw_colour_parse (wrong[i], &colour));
  g_assert_cmpfloat (colour.red, ==, 0.1);
  g_assert_cmpfloat (colour.blue, ==, 0.3);
}

static void
every_byte_survives_writing_and_reading (void)
{
  for (guint i = 0; i < 256; i++)
    {
      g_autofree char *text = g_strdup_printf ("#%02x%02x%02x", i, 255 - i, (i * 7) % 256);
      g_autofree char *again = NULL;
      HwColour colour;

      g_assert_true (hw_colour_parse (text, &colour));
      again = hw_colour_text (colour);
      g_assert_cmpstr (again, ==, text);
    }
}

static void
mixes_from_one_to_the_other (void)
{
  HwColour black = { 0, 0, 0 }, white = { 1, 1, 1 };

  g_assert_true (hw_colour_equal (hw_colour_mix (black, white, 0), black));
  g_assert_true (hw_colour_equal (hw_colour_mix (black, white, 1), white));
  g_assert_cmpfloat_with_epsilon (hw_colour_mix (black, white, 0.25).green, 0.25, 1e-12);
}

/* IEC 61966-2-1: #808080 decodes to 0.21586; its CIE L* is 53.585 (116 Y^(1/3) - 16 = 53.585 gives Y = 0.21586).
 * ITU-R BT.709: the weights are 0.2126, 0.7152, 0.0722. */
static void
luminance_follows_the_standard (void)
{
  HwColour grey;

  g_assert_true (hw_colour_parse ("#808080", &grey));
  g_assert_cmpfloat_with_epsilon (hw_colour_luminance (grey), 0.21586, 1e-5);
  g_assert_cmpfloat_with_epsilon (hw_colour_luminance ((HwColour){ 0, 1, 0 }), 0.7152, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_colour_luminance ((HwColour){ 1, 1, 1 }), 1, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_colour_luminance ((HwColour){ 0.04, 0.04, 0.04 }), 0.04 / 12.92, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/colour/reads-both-ways-of-writing", reads_both_ways_of_writing);
  g_test_add_func ("/colour/leaves-alone-on-anything-else", leaves_the_colour_alone_on_anything_else);
  g_test_add_func ("/colour/every-byte-survives", every_byte_survives_writing_and_reading);
  g_test_add_func ("/colour/mixes", mixes_from_one_to_the_other);
  g_test_add_func ("/colour/luminance-follows-the-standard", luminance_follows_the_standard);
  return g_test_run ();
}

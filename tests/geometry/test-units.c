/* Lengths and angles in words, and read back. */
#include "geometry/units.h"

static void
assert_text (char *text, const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

static void
test_words (void)
{
  assert_text (hw_length_text (12.46, HW_UNIT_MM), "12.5 mm");
  assert_text (hw_length_text (12.5, HW_UNIT_INCH), "0.49 in");
  assert_text (hw_length_text (-0.01, HW_UNIT_MM), "0.0 mm");
  assert_text (hw_length_figure (25.4, HW_UNIT_INCH), "1.00");
  assert_text (hw_size_text (130, 180, HW_UNIT_MM), "130 × 180 mm");
  assert_text (hw_size_text (130.25, 180, HW_UNIT_MM), "130.2 × 180 mm");
  assert_text (hw_size_text (127, 177.8, HW_UNIT_INCH), "5.00 × 7.00 in");
  assert_text (hw_angle_text (12.5), "12.5°");
  assert_text (hw_angle_text (-90), "-90°");
  assert_text (hw_angle_text (-0.001), "0°");
}

static void
assert_reads (const char *text, HwUnit unit, double expected)
{
  double mm = -1;

  g_assert_true (hw_length_parse (text, unit, &mm));
  g_assert_cmpfloat_with_epsilon (mm, expected, 1e-9);
}

static void
test_reading (void)
{
  assert_reads ("90 mm", HW_UNIT_INCH, 90);
  assert_reads ("9cm", HW_UNIT_MM, 90);
  assert_reads ("3.5 in", HW_UNIT_MM, 88.9);
  assert_reads ("3,5 in", HW_UNIT_MM, 88.9);
  assert_reads ("3 1/2\"", HW_UNIT_MM, 88.9);
  assert_reads ("1/4 inch", HW_UNIT_MM, 6.35);
  assert_reads ("12", HW_UNIT_MM, 12);
  assert_reads ("12", HW_UNIT_INCH, 304.8);
  assert_reads ("  .5  ", HW_UNIT_MM, 0.5);
  assert_reads ("-7 mm", HW_UNIT_MM, -7);
  assert_reads ("−7 mm", HW_UNIT_MM, -7);
  assert_reads ("+ 7 mm", HW_UNIT_MM, 7);
  assert_reads ("1.2 m", HW_UNIT_MM, 1200);
  assert_reads ("１２．５", HW_UNIT_MM, 12.5);
  assert_reads ("ー３。５　ｉｎ", HW_UNIT_MM, -88.9);
  assert_reads ("１２、５", HW_UNIT_MM, 12.5);
}

static void
test_what_is_no_length (void)
{
  const char *texts[]
      = { "",    " ",   "mm",  "abc",   "12 furlongs", "1/0",     "1//2", "1.5 1/2", "3 4",
          "1e3", "nan", "inf", "12..5", "0x10",        "1 2/3/4", "--3",  "\xff",    "5 mm mm" };
  double mm = 42;

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_assert_false (hw_length_parse (texts[i], HW_UNIT_MM, &mm));
  g_assert_false (hw_length_parse (NULL, HW_UNIT_MM, &mm));
  g_assert_cmpfloat (mm, ==, 42);
}

/* What is shown can be typed again. */
static void
test_words_read_back (void)
{
  for (guint i = 0; i < 2000; i++)
    {
      double length = g_test_rand_double_range (-900, 900), mm;
      HwUnit unit = g_test_rand_bit () ? HW_UNIT_MM : HW_UNIT_INCH;
      g_autofree char *text = hw_length_text (length, unit);

      g_assert_true (hw_length_parse (text, HW_UNIT_MM, &mm));
      g_assert_cmpfloat_with_epsilon (mm, length, unit == HW_UNIT_MM ? 0.0501 : 0.1271);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/units/words", test_words);
  g_test_add_func ("/geometry/units/reading", test_reading);
  g_test_add_func ("/geometry/units/what-is-no-length", test_what_is_no_length);
  g_test_add_func ("/geometry/units/words-read-back", test_words_read_back);
  return g_test_run ();
}

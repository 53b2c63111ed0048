/* Figures of readings as they are typed standing up: which way, how far, and what is no length. */
#include "workbench/reading-text.h"

static void
test_what_is_typed (void)
{
  static const struct
  {
    const char *text;
    gboolean along, was_negative;
    HwUnit unit;
    HwReadingText kind;
    double mm;
    gboolean negative;
  } cases[] = {
    { "41.3", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 41.3, FALSE },
    { "41,3", FALSE, TRUE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 41.3, TRUE }, /* nothing said: as it was */
    { "41.3 l", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 41.3, TRUE },
    { "41.3L", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 41.3, TRUE },
    { "41.3 right", FALSE, TRUE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 41.3, FALSE },
    { "1 in away", TRUE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 25.4, TRUE },
    { "1 1/2 t", TRUE, TRUE, HW_UNIT_INCH, HW_READING_TEXT_LENGTH, 38.1, FALSE },
    { "-12", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 12, TRUE },
    { "\u221212", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 12, TRUE },
    { "-12", TRUE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 12, FALSE }, /* machines differ there */
    { "４１．３", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 41.3,
      FALSE }, /* as a Japanese keyboard types */
    { "ー１２", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 12, TRUE },
    { "12 mm", TRUE, TRUE, HW_UNIT_MM, HW_READING_TEXT_LENGTH, 12, TRUE },
    { "  ", FALSE, TRUE, HW_UNIT_MM, HW_READING_TEXT_EMPTY, 0, TRUE },
    { "l", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_EMPTY, 0, TRUE },
    { "x", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_NONE, 0, FALSE },
    { "4 5 6 l", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_NONE, 0, TRUE },
    { "1e9", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_NONE, 0, FALSE },
    { "100001", FALSE, FALSE, HW_UNIT_MM, HW_READING_TEXT_NONE, 0, FALSE }, /* no scene is so large */
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      gboolean negative = cases[i].was_negative;
      double mm = 0;

      g_test_message ("\"%s\"", cases[i].text);
      g_assert_cmpint (hw_reading_text_parse (cases[i].text, cases[i].along, cases[i].unit, &mm, &negative),
                       ==, cases[i].kind);
      g_assert_cmpfloat_with_epsilon (mm, cases[i].mm, 1e-9);
      g_assert_cmpint (negative, ==, cases[i].negative);
    }
}

/* A language may need two words where English needs one. */
static void
test_ways_of_two_words (void)
{
  static const char *const words[2] = { "vers vous", "fond" };
  static const struct
  {
    const char *text, *rest;
    gboolean negative;
  } cases[] = {
    { "41,3 vers vous", "41,3 ", FALSE },
    { "41,3 Vers Vous", "41,3 ", FALSE },
    { "41,3v", "41,3", FALSE },
    { "41,3 vers", "41,3 ", FALSE },
    { "41,3 mm FOND", "41,3 mm ", TRUE },
    { "41,3 f", "41,3 ", TRUE },
    { "vers vous", "", FALSE },
    { "41,3 vous", "41,3 vous", TRUE }, /* no beginning: as it was */
    { "41,3", "41,3", TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup (cases[i].text);
      gboolean negative = TRUE;

      g_test_message ("\"%s\"", cases[i].text);
      hw_reading_text_take_way (text, words, &negative);
      g_assert_cmpstr (text, ==, cases[i].rest);
      g_assert_cmpint (negative, ==, cases[i].negative);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reading-text/what-is-typed", test_what_is_typed);
  g_test_add_func ("/reading-text/ways-of-two-words", test_ways_of_two_words);
  return g_test_run ();
}

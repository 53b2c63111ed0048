/* Lengths, places and turns as they are said. */
#include <glib.h>

#include "../../src/paper/words.h"

/* Takes text over. */
static void
assert_words (char *text, const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

static void
test_shift (void)
{
  assert_words (hw_words_shift ((HwPoint){ 12.34, -4 }, HW_UNIT_MM), "12.3 mm right, 4.0 mm away from you");
  assert_words (hw_words_shift ((HwPoint){ -0.6, 2 }, HW_UNIT_MM), "0.6 mm left, 2.0 mm towards you");
  assert_words (hw_words_shift ((HwPoint){ 0.01, -30 }, HW_UNIT_MM), "30.0 mm away from you");
  assert_words (hw_words_shift ((HwPoint){ 7, 0.04 }, HW_UNIT_MM), "7.0 mm right");
  assert_words (hw_words_shift ((HwPoint){ 0, 0 }, HW_UNIT_MM), "in the middle");
}

static void
test_inches_keep_millimetres (void)
{
  assert_words (hw_words_length (25.4, HW_UNIT_INCH), "1.00 in (25.4 mm)");
  assert_words (hw_words_shift ((HwPoint){ -50.8, 0 }, HW_UNIT_INCH), "2.00 in (50.8 mm) left");
}

static void
test_place (void)
{
  assert_words (hw_words_place ((HwPoint){ 121.2, 109 }, HW_UNIT_MM), "121.2 mm right, 109.0 mm down");
  assert_words (hw_words_place ((HwPoint){ -3, -1 }, HW_UNIT_MM), "3.0 mm left, 1.0 mm up");
}

static void
test_turn (void)
{
  assert_words (hw_words_turn (12.5), "12.5° clockwise");
  assert_words (hw_words_turn (-3), "3° anticlockwise");
  assert_words (hw_words_turn (0.02), "not turned");
  assert_words (hw_words_turn (360), "not turned");
  assert_words (hw_words_turn (270), "90° anticlockwise");
}

static void
test_time_and_percent (void)
{
  assert_words (hw_words_minutes (25.4), "25 min");
  assert_words (hw_words_minutes (190), "3 h 10");
  assert_words (hw_words_percent (1), "100 %");
  assert_words (hw_words_percent (0.965), "96.5 %");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/shift-in-the-hoop", test_shift);
  g_test_add_func ("/words/inches-keep-millimetres", test_inches_keep_millimetres);
  g_test_add_func ("/words/place-on-the-cloth", test_place);
  g_test_add_func ("/words/turn", test_turn);
  g_test_add_func ("/words/time-and-percent", test_time_and_percent);

  return g_test_run ();
}

/* Readings typed in the wrong unit, at each other's mark or with a sign turned are asked about; honest ones never. */
#include "readings.h"

#include <string.h>

/* Measured: no doubt in 300,000 hoopings of up to 10 degrees, 15 mm and 5 % stretch. */
static void
test_no_honest_hooping_is_doubted (void)
{
  for (guint i = 0; i < 20000; i++)
    {
      HwReading readings[4];
      HwPoint marks[4];
      guint n = g_test_rand_int_range (1, 5);
      double reach = between (5, 150);
      Lie lie = lie_set_by_hand ();

      lie.stretch = between (0.95, 1.05);
      for (guint k = 0; k < n; k++)
        marks[k] = point_between (-reach, reach);
      read_marks (readings, marks, n, lie, SIGMA);
      g_assert_cmpint (hw_readings_doubt (readings, n, SIGMA).kind, ==, HW_DOUBT_NONE);
    }
}

/* One wrong reading is the correction's business. Measured: 1 in 65,000 is doubted. */
static void
test_one_wrong_reading_is_no_doubt (void)
{
  guint doubted = 0;

  for (guint i = 0; i < 5000; i++)
    {
      HwReading readings[4];
      guint which = g_test_rand_int_range (0, 4);
      HwPoint way = way_of_length (between (1, 30));

      read_marks (readings, corners, 4, lie_set_by_hand (), SIGMA);
      readings[which].at.x += way.x;
      readings[which].at.y += way.y;
      doubted += hw_readings_doubt (readings, 4, SIGMA).kind != HW_DOUBT_NONE;
    }
  g_assert_cmpuint (doubted, <=, 2);
}

/* Set far off, as no careful hand does, but read well. Two readings may look as if mistyped by chance; of three or four that agree none is doubted. Measured: none in
 * 100,000 with three and four. */
static void
test_a_hooping_far_off_but_read_well (void)
{
  for (guint i = 0; i < 5000; i++)
    {
      HwReading readings[4];
      guint n = g_test_rand_int_range (3, 5);
      Lie lie = { between (-25, 25), way_of_length (between (15, 35)), 1 };

      read_marks (readings, corners, n, lie, SIGMA);
      g_assert_cmpint (hw_readings_doubt (readings, n, SIGMA).kind, ==, HW_DOUBT_NONE);
    }
}

static void
mistype (HwReading *readings, guint n, HwDoubtKind kind, guint first, guint second)
{
  for (guint i = 0; i < n; i++)
    {
      HwPoint *at = &readings[i].at;

      if (kind == HW_DOUBT_INCHES)
        *at = (HwPoint){ at->x / 25.4, at->y / 25.4 };
      else if (kind == HW_DOUBT_MILLIMETRES)
        *at = (HwPoint){ at->x * 25.4, at->y * 25.4 };
      else if (kind == HW_DOUBT_MIRRORED_U)
        at->x = -at->x;
      else if (kind == HW_DOUBT_MIRRORED_V)
        at->y = -at->y;
      else if (kind == HW_DOUBT_FAR)
        *at = hw_point_turn (*at, 50);
    }
  if (kind == HW_DOUBT_SWAPPED)
    {
      HwPoint at = readings[first].at;

      readings[first].at = readings[second].at;
      readings[second].at = at;
    }
}

/* Per cent of hoopings in which each mistyping is recognised for what it is, marks at the field's corners or anywhere 20 mm apart. Measured over
 * 20,000: with two marks 98.8 to 100, with three and four 99.9 to 100. Of two marks some layouts look the same both ways. */
static void
test_what_was_meant_is_recognised (void)
{
  const guint trials = 2000;

  for (int kind = HW_DOUBT_INCHES; kind <= HW_DOUBT_FAR; kind++)
    for (guint n = 2; n <= 4; n++)
      {
        guint right = 0;

        for (guint i = 0; i < trials; i++)
          {
            HwReading readings[4];
            HwPoint marks[4];
            guint first = g_test_rand_int_range (0, n - 1), second = first + 1;
            Lie lie = lie_set_by_hand ();
            HwDoubt doubt;

            lie.stretch = between (0.98, 1.02);
            for (guint k = 0; k < n; k++)
              {
                marks[k] = i % 2 == 0 ? corners[n == 2 ? 2 * k : k] : point_between (-80, 80);
                for (guint m = 0; m < k; m++)
                  if (hw_point_distance (marks[m], marks[k]) < 20)
                    k = m = 0; /* once more */
              }
            read_marks (readings, marks, n, lie, SIGMA);
            mistype (readings, n, kind, first, second);
            doubt = hw_readings_doubt (readings, n, SIGMA);
            right += (int)doubt.kind == kind
                     && (kind != HW_DOUBT_SWAPPED
                         || (doubt.first == (int)first && doubt.second == (int)second));
            if ((int)doubt.kind == kind)
              g_assert_cmpfloat (doubt.rms, >, 1);
            if ((int)doubt.kind == kind && kind != HW_DOUBT_FAR)
              g_assert_cmpfloat (doubt.rms_then, <, doubt.rms / 2);
          }
        g_assert_cmpfloat (100.0 * right / trials, >, n == 2 ? 97.5 : 99.5);
      }
}

/* What one reading can tell. */
static void
test_one_reading_alone (void)
{
  HwReading reading = { .letter = "A", .design = { -60, -80 }, .at = { -52, -85 } };
  HwReading inches = reading, far = reading;

  inches.at = (HwPoint){ -52 / 25.4, -85 / 25.4 };
  far.at = (HwPoint){ 52, -85 };
  g_assert_cmpint (hw_readings_doubt (&reading, 1, SIGMA).kind, ==, HW_DOUBT_NONE);
  g_assert_cmpint (hw_readings_doubt (&inches, 1, SIGMA).kind, ==, HW_DOUBT_INCHES);
  g_assert_cmpint (hw_readings_doubt (&far, 1, SIGMA).kind, ==, HW_DOUBT_FAR);
}

static void
assert_nothing_said (const HwReading *readings, guint n)
{
  HwDoubt doubt = hw_readings_doubt (readings, n, SIGMA);

  g_assert_cmpint (doubt.kind, ==, HW_DOUBT_NONE);
  g_assert_cmpint (doubt.first, ==, -1);
  g_assert_cmpint (doubt.second, ==, -1);
  g_assert_cmpfloat (doubt.rms, ==, 0);
  g_assert_cmpfloat (doubt.rms_then, ==, 0);
}

static void
test_where_there_is_no_reading_there_is_no_doubt (void)
{
  HwReading out = { .letter = "A", .design = { -60, -80 }, .at = { 52, -85 }, .left_out = TRUE };

  assert_nothing_said (NULL, 0);
  assert_nothing_said (&out, 1);
}

/* Shifted by 18 mm, turned by 12 degrees and stretched by 6 %, a mark 100 mm from the middle comes to lie 18 + 100 (2 sin 6 + 0.06) = 44.9 mm off. Of one
 * reading 5 mm more are let be; beyond that it is asked about, and no mark is named. */
static void
test_how_far_one_reading_may_be_off (void)
{
  static const HwPoint ways[] = { { -0.6, -0.8 }, { 0.6, 0.8 }, { 0.8, -0.6 } };
  double allowed = 18 + 100 * (2 * sin (6 * G_PI / 180) + 0.06);

  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    for (int past = -1; past <= 5; past += 3)
      {
        double by = allowed + past + (past > 0 ? 0.9 : 0);
        HwReading reading
            = { .letter = "A", .design = { -60, -80 }, .at = { -60 + by * ways[i].x, -80 + by * ways[i].y } };
        HwDoubt doubt = hw_readings_doubt (&reading, 1, SIGMA);

        g_assert_cmpint (doubt.kind, ==, past == 5 ? HW_DOUBT_FAR : HW_DOUBT_NONE);
        g_assert_cmpint (doubt.first, ==, -1);
        g_assert_cmpint (doubt.second, ==, -1);
        g_assert_cmpfloat_with_epsilon (doubt.rms, MAX (0, by - allowed), 1e-9);
      }
}

/* A reading left out is not looked at, and the others keep their letters. */
static void
test_left_out_ones_are_passed_over (void)
{
  HwReading readings[4];
  HwDoubt doubt;
  g_autofree char *text = NULL;

  read_marks (readings, corners, 4, (Lie){ 2, { 3, 1 }, 1 }, 0);
  readings[1].at = (HwPoint){ 900, 900 };
  readings[1].left_out = TRUE;
  mistype (readings, 4, HW_DOUBT_SWAPPED, 0, 3);
  doubt = hw_readings_doubt (readings, 4, SIGMA);
  g_assert_cmpint (doubt.kind, ==, HW_DOUBT_SWAPPED);
  g_assert_cmpint (doubt.first, ==, 0);
  g_assert_cmpint (doubt.second, ==, 3);
  text = hw_doubt_text (&doubt, readings, 4, HW_UNIT_MM);
  g_assert_nonnull (strstr (text, "Readings A and D seem to have changed places"));
}

static HwDoubt
doubt_of (HwPoint a, HwPoint b, HwPoint read_a, HwPoint read_b)
{
  HwReading readings[]
      = { { .letter = "A", .design = a, .at = read_a }, { .letter = "B", .design = b, .at = read_b } };

  return hw_readings_doubt (readings, 2, SIGMA);
}

/* By how much readings miss what a hand may have done, worked out by hand. */
static void
test_what_is_left_over (void)
{
  HwReading readings[4];

  /* Within every bound: nothing. */
  read_marks (readings, corners, 4, (Lie){ 11, { 9, -12 }, 1.05 }, 0);
  g_assert_cmpfloat_with_epsilon (hw_readings_doubt (readings, 4, SIGMA).rms, 0, 1e-9);
  /* 25 mm where a hand's shift is 18 at most. */
  read_marks (readings, corners, 4, (Lie){ 0, { 15, -20 }, 1 }, 0);
  g_assert_cmpfloat_with_epsilon (hw_readings_doubt (readings, 4, SIGMA).rms, 7, 1e-9);
  /* Stretched by 8 % where 6 are allowed: 2 % of 50 mm. */
  g_assert_cmpfloat_with_epsilon (
      doubt_of ((HwPoint){ -50, 0 }, (HwPoint){ 50, 0 }, (HwPoint){ -54, 0 }, (HwPoint){ 54, 0 }).rms, 1,
      1e-9);
}

/* Two marks 2 mm apart, 100 mm from the middle: a third of a millimetre of scatter turns them by 20 degrees and more, which there are 35 mm. A turn of what a hand
 * does explains them. */
static void
test_marks_near_each_other_do_not_tell_the_turn (void)
{
  HwPoint a = { 100, 0 }, b = { 102, 0 };

  for (int side = -1; side <= 1; side += 2)
    {
      HwDoubt still = doubt_of (a, b, a, (HwPoint){ 101.8, side * 0.8 });
      HwPoint turned = hw_point_turn ((HwPoint){ 118, 0 }, side * 12);
      HwPoint nearer = hw_point_turn ((HwPoint){ 119.88, 0 }, side * 12);
      HwDoubt far = doubt_of (a, b, turned, nearer);

      g_assert_cmpint (still.kind, ==, HW_DOUBT_NONE);
      g_assert_cmpfloat (still.rms, <, 0.5);
      /* As far as a hand turns and shifts, and the scatter makes it look drawn in besides. */
      g_assert_cmpint (far.kind, ==, HW_DOUBT_NONE);
      g_assert_cmpfloat (far.rms, <, 0.1);
    }
}

/* Two meanings that explain the readings without rest: exchanged, or the sign of the first number turned. The one is taken that asks less of the hand. */
static void
test_of_two_meanings_the_likelier (void)
{
  HwPoint low = { -60, -4 }, high = { 60, 4 };
  HwDoubt doubt = doubt_of (low, high, (HwPoint){ 60, -4 }, (HwPoint){ -60, 4 });

  /* Exchanged they would be turned by 7.6 degrees. */
  g_assert_cmpint (doubt.kind, ==, HW_DOUBT_MIRRORED_U);
  g_assert_cmpint (doubt.first, ==, -1);
  g_assert_cmpint (doubt.second, ==, -1);
  /* Mirrored they would be. */
  doubt = doubt_of (low, high, high, low);
  g_assert_cmpint (doubt.kind, ==, HW_DOUBT_SWAPPED);
  g_assert_cmpint (doubt.first, ==, 0);
  g_assert_cmpint (doubt.second, ==, 1);
  /* No turn tells them apart: exchanged, as is done sooner. */
  doubt = doubt_of ((HwPoint){ -60, 0 }, (HwPoint){ 60, 0 }, (HwPoint){ 60, 0 }, (HwPoint){ -60, 0 });
  g_assert_cmpint (doubt.kind, ==, HW_DOUBT_SWAPPED);
  /* A shift of 12 mm, or a turn of 6 degrees: half of what a hand may turn, two thirds of what it may shift. */
  doubt = doubt_of ((HwPoint){ -66, -3.14 }, (HwPoint){ 54, 3.14 }, (HwPoint){ 54, -3.14 },
                    (HwPoint){ -66, 3.14 });
  g_assert_cmpint (doubt.kind, ==, HW_DOUBT_SWAPPED);
  /* A shift of 10 mm, or a turn of 10 degrees. */
  doubt = doubt_of ((HwPoint){ -65, -5.25 }, (HwPoint){ 55, 5.25 }, (HwPoint){ 55, -5.25 },
                    (HwPoint){ -65, 5.25 });
  g_assert_cmpint (doubt.kind, ==, HW_DOUBT_MIRRORED_U);
}

/* Marks 2 mm apart, read the wrong way round by a whisker and by a millimetre: only what is much likelier is asked about. */
static void
test_a_meaning_must_convince (void)
{
  HwPoint a = { -1, 0 }, b = { 1, 0 };

  g_assert_cmpint (doubt_of (a, b, (HwPoint){ 0.15, 0 }, (HwPoint){ -0.15, 0 }).kind, ==, HW_DOUBT_NONE);
  g_assert_cmpint (doubt_of (a, b, (HwPoint){ 0.5, 0 }, (HwPoint){ -0.5, 0 }).kind, ==, HW_DOUBT_SWAPPED);
}

/* Read in inches it would lie 1 mm farther off than a hand may have set it, which chance does, and 2.5 mm, which it does not. */
static void
test_one_reading_in_inches (void)
{
  double allowed = 18 + 100 * (2 * sin (6 * G_PI / 180) + 0.06);
  HwReading reading = { .letter = "A", .design = { 100, 0 }, .at = { (100 + allowed + 1) / 25.4, 0 } };
  HwDoubt doubt = hw_readings_doubt (&reading, 1, SIGMA);

  g_assert_cmpint (doubt.kind, ==, HW_DOUBT_INCHES);
  g_assert_cmpint (doubt.first, ==, -1);
  g_assert_cmpint (doubt.second, ==, -1);
  g_assert_cmpfloat_with_epsilon (doubt.rms_then, 1, 1e-9);
  reading.at.x += 1.5 / 25.4;
  g_assert_cmpint (hw_readings_doubt (&reading, 1, SIGMA).kind, ==, HW_DOUBT_FAR);
}

static void
test_every_doubt_has_words (void)
{
  HwReading readings[] = { { .letter = "A" }, { .letter = "B" } };

  for (int kind = HW_DOUBT_NONE; kind <= HW_DOUBT_FAR; kind++)
    for (int unit = HW_UNIT_MM; unit <= HW_UNIT_INCH; unit++)
      {
        HwDoubt doubt = { kind, 0, 1, 25.4, 0.1 };
        g_autofree char *text = hw_doubt_text (&doubt, readings, 2, unit);

        if (kind == HW_DOUBT_NONE)
          g_assert_null (text);
        else
          g_assert_nonnull (strstr (text, unit == HW_UNIT_MM ? "25.4 mm" : "1.000 in"));
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/readings-doubt/no-honest-hooping-is-doubted",
                   test_no_honest_hooping_is_doubted);
  g_test_add_func ("/registration/readings-doubt/one-wrong-reading-is-no-doubt",
                   test_one_wrong_reading_is_no_doubt);
  g_test_add_func ("/registration/readings-doubt/a-hooping-far-off-but-read-well",
                   test_a_hooping_far_off_but_read_well);
  g_test_add_func ("/registration/readings-doubt/what-was-meant-is-recognised",
                   test_what_was_meant_is_recognised);
  g_test_add_func ("/registration/readings-doubt/one-reading-alone", test_one_reading_alone);
  g_test_add_func ("/registration/readings-doubt/no-reading-no-doubt",
                   test_where_there_is_no_reading_there_is_no_doubt);
  g_test_add_func ("/registration/readings-doubt/how-far-one-reading-may-be-off",
                   test_how_far_one_reading_may_be_off);
  g_test_add_func ("/registration/readings-doubt/left-out-ones-are-passed-over",
                   test_left_out_ones_are_passed_over);
  g_test_add_func ("/registration/readings-doubt/what-is-left-over", test_what_is_left_over);
  g_test_add_func ("/registration/readings-doubt/marks-near-each-other-do-not-tell-the-turn",
                   test_marks_near_each_other_do_not_tell_the_turn);
  g_test_add_func ("/registration/readings-doubt/of-two-meanings-the-likelier",
                   test_of_two_meanings_the_likelier);
  g_test_add_func ("/registration/readings-doubt/a-meaning-must-convince", test_a_meaning_must_convince);
  g_test_add_func ("/registration/readings-doubt/one-reading-in-inches", test_one_reading_in_inches);
  g_test_add_func ("/registration/readings-doubt/every-doubt-has-words", test_every_doubt_has_words);
  return g_test_run ();
}

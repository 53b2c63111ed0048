/* Readings and distances as JSON: what is understood, and what is refused with which words. */
#include "formats/readings-json.h"

#include <string.h>

static HwMeasured *
parsed (const char *text, HwMeasuredKind kind)
{
  g_autoptr (GError) error = NULL;
  HwMeasured *measured = hw_measured_parse (text, -1, kind, &error);

  g_assert_no_error (error);
  g_assert_nonnull (measured);
  return measured;
}

static void
assert_refused (const char *text, HwMeasuredKind kind, const char *sentence)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwMeasured) measured = hw_measured_parse (text, -1, kind, &error);

  g_assert_null (measured);
  g_assert_nonnull (error);
  g_assert_cmpstr (error->message, ==, sentence);
}

/* A hooping turned by 90 degrees: its right is the cloth's down. */
static HwPlan *
turned_plan (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  HwPlan *plan = hw_plan_new (scene);

  plan->hoopings = g_new0 (HwHooping, 1);
  plan->n_hoopings = 1;
  plan->hoopings[0] = (HwHooping){ .centre = { 200, 150 }, .angle = 90, .n_marks = 3 };
  plan->hoopings[0].marks = g_new0 (HwMark, 3);
  for (guint i = 0; i < 3; i++)
    {
      plan->hoopings[0].marks[i].letter[0] = (char)('A' + i);
      plan->hoopings[0].marks[i].at = (HwPoint){ 170 + 30.0 * i, 110 + 20.0 * i * i };
    }
  return plan;
}

static void
readings_are_read (void)
{
  g_autoptr (HwMeasured) measured
      = parsed ("{\"hooping\": 2, \"operator\": \"late shift\", \"readings\": ["
                "{\"mark\": \"A\", \"at\": [-40.5, 12], \"pen\": 1}, "
                "{\"mark\": \"C\", \"at\": [3, -1e1], \"left_out\": true}], \"sure\": true}",
                HW_MEASURED_READINGS);

  g_assert_cmpuint (measured->hooping, ==, 2);
  g_assert_true (measured->sure);
  g_assert_cmpuint (measured->n_readings, ==, 2);
  g_assert_cmpstr (measured->readings[0].mark, ==, "A");
  g_assert_cmpfloat (measured->readings[0].at.x, ==, -40.5);
  g_assert_cmpfloat (measured->readings[0].at.y, ==, 12);
  g_assert_false (measured->readings[0].left_out);
  g_assert_cmpstr (measured->readings[1].mark, ==, "C");
  g_assert_cmpfloat (measured->readings[1].at.y, ==, -10);
  g_assert_true (measured->readings[1].left_out);
  g_assert_true (hw_measured_names_marks (measured));
}

static void
a_byte_order_mark_is_passed_over (void)
{
  g_autoptr (HwMeasured) measured
      = parsed ("\xef\xbb\xbf{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}]}",
                HW_MEASURED_READINGS);

  g_assert_false (measured->sure);
  g_assert_cmpuint (measured->n_readings, ==, 1);
}

/* 1 inch = 25.4 mm exactly (international inch, ISO 31-1). */
static void
inches_become_millimetres (void)
{
  g_autoptr (HwMeasured) readings
      = parsed ("{\"unit\": \"in\", \"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [1, -0.5]}]}",
                HW_MEASURED_READINGS);
  g_autoptr (HwMeasured) distances
      = parsed ("{\"distances\": [{\"from\": [0, 0], \"to\": [100, 0], \"in\": 2}]}", HW_MEASURED_EITHER);

  g_assert_cmpfloat_with_epsilon (readings->readings[0].at.x, 25.4, 1e-12);
  g_assert_cmpfloat_with_epsilon (readings->readings[0].at.y, -12.7, 1e-12);
  g_assert_cmpfloat_with_epsilon (distances->distances[0].mm, 50.8, 1e-12);
}

static void
distances_are_read (void)
{
  g_autoptr (HwMeasured) measured
      = parsed ("{\"hooping\": 1, \"distances\": [{\"from\": \"A\", \"to\": \"B\", \"mm\": 119.2}, "
                "{\"from\": \"B\", \"to\": [10, 20.5], \"hooping\": 3, \"mm\": 80}, "
                "{\"from\": [1, 2], \"to\": [30, 40], \"mm\": 47.5}]}",
                HW_MEASURED_EITHER);

  g_assert_cmpuint (measured->n_distances, ==, 3);
  g_assert_cmpuint (measured->n_readings, ==, 0);
  g_assert_cmpstr (measured->distances[0].from.mark, ==, "A");
  g_assert_cmpuint (measured->distances[0].hooping, ==, 1);
  g_assert_cmpfloat (measured->distances[0].mm, ==, 119.2);
  g_assert_cmpuint (measured->distances[1].hooping, ==, 3);
  g_assert_null (measured->distances[1].to.mark);
  g_assert_cmpfloat (measured->distances[1].to.place.y, ==, 20.5);
  g_assert_cmpuint (measured->distances[2].hooping, ==, 0);
}

static void
distances_between_places_need_no_plan (void)
{
  g_autoptr (HwMeasured) measured
      = parsed ("{\"distances\": [{\"from\": [1, 2], \"to\": [31, 42], \"mm\": 49}]}", HW_MEASURED_EITHER);
  g_autofree HwDistance *distances = NULL;

  g_assert_false (hw_measured_names_marks (measured));
  distances = hw_measured_distances (measured, NULL, NULL);
  g_assert_cmpfloat (distances[0].from.x, ==, 1);
  g_assert_cmpfloat (distances[0].to.y, ==, 42);
  g_assert_cmpfloat (distances[0].measured, ==, 49);
}

static void
marks_are_looked_up_in_the_hoopings_axes (void)
{
  g_autoptr (HwPlan) plan = turned_plan ();
  g_autoptr (HwMeasured) measured
      = parsed ("{\"hooping\": 1, \"readings\": [{\"mark\": \"B\", \"at\": [-20, 1]}, {\"mark\": \"A\", "
                "\"at\": [-40, 30]}]}",
                HW_MEASURED_READINGS);
  const HwHooping *hooping = hw_measured_hooping (measured, plan, NULL);
  g_autofree HwReading *readings = hw_measured_readings (measured, hooping, NULL);

  g_assert_true (hooping == &plan->hoopings[0]);
  g_assert_cmpstr (readings[0].letter, ==, "B");
  g_assert_cmpfloat_with_epsilon (readings[0].design.x, -20, 1e-12); /* 20 mm up the cloth from the centre */
  g_assert_cmpfloat_with_epsilon (readings[0].design.y, 0, 1e-12);
  g_assert_cmpfloat (readings[0].at.y, ==, 1);
  g_assert_cmpstr (readings[1].letter, ==, "A");
  g_assert_cmpfloat_with_epsilon (readings[1].design.x, -40, 1e-12);
  g_assert_cmpfloat_with_epsilon (readings[1].design.y, 30, 1e-12);
}

static void
assert_plan_refuses (const char *text, const char *sentence)
{
  g_autoptr (HwPlan) plan = turned_plan ();
  g_autoptr (HwMeasured) measured = parsed (text, HW_MEASURED_EITHER);
  g_autoptr (GError) error = NULL;
  g_autofree HwReading *readings = NULL;
  g_autofree HwDistance *distances = NULL;

  if (measured->n_readings > 0)
    {
      const HwHooping *hooping = hw_measured_hooping (measured, plan, &error);

      readings = hooping != NULL ? hw_measured_readings (measured, hooping, &error) : NULL;
    }
  else
    distances = hw_measured_distances (measured, plan, &error);
  g_assert_null (readings);
  g_assert_null (distances);
  g_assert_error (error, HW_MEASURED_ERROR, HW_MEASURED_ERROR_MARK);
  g_assert_cmpstr (error->message, ==, sentence);
}

static void
what_the_plan_does_not_have_is_refused (void)
{
  assert_plan_refuses ("{\"hooping\": 2, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}]}",
                       "hooping: the plan has 1 hooping, found 2.");
  assert_plan_refuses ("{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}, {\"mark\": \"D\", "
                       "\"at\": [0, 0]}]}",
                       "readings[1].mark: hooping 1 has the marks A, B and C, found \"D\".");
  assert_plan_refuses ("{\"hooping\": 1, \"readings\": [{\"mark\": \"ABCD\", \"at\": [0, 0]}]}",
                       "readings[0].mark: hooping 1 has the marks A, B and C, found \"ABCD\".");
  assert_plan_refuses ("{\"hooping\": 1, \"readings\": [{\"mark\": \"two\\nlines\", \"at\": [0, 0]}]}",
                       "readings[0].mark: hooping 1 has the marks A, B and C, found \"two\\nlines\".");
  assert_plan_refuses ("{\"distances\": [{\"from\": \"A\", \"to\": \"F\", \"hooping\": 1, \"mm\": 50}]}",
                       "distances[0].to: hooping 1 has the marks A, B and C, found \"F\".");
  assert_plan_refuses ("{\"distances\": [{\"from\": \"A\", \"to\": \"B\", \"hooping\": 9, \"mm\": 50}]}",
                       "distances[0].hooping: the plan has 1 hooping, found 9.");
}

static void
readings_that_say_nothing_are_refused (void)
{
  static const char *const cases[][2] = {
    { "", "the text is empty." },
    { "[]", "expected keys in braces, found []." },
    { "{}", "hooping: expected the number of a hooping, counted from 1, found nothing." },
    { "{\"hooping\": 1}", "readings: expected a list of readings, found nothing." },
    { "{\"hooping\": 1, \"readings\": []}", "readings: expected one reading or more, found none." },
    { "{\"hooping\": 1, \"readings\": {}}", "readings: expected a list of readings, found keys in braces." },
    { "{\"hooping\": 1, \"readings\": [7]}", "readings[0]: expected keys in braces, found 7." },
    { "{\"hooping\": 0, \"readings\": []}",
      "hooping: expected the number of a hooping, counted from 1, found 0." },
    { "{\"hooping\": 1.5, \"readings\": []}",
      "hooping: expected the number of a hooping, counted from 1, found 1.5." },
    { "{\"hooping\": \"2\", \"readings\": []}",
      "hooping: expected the number of a hooping, counted from 1, found \"2\"." },
    { "{\"hooping\": 1, \"unit\": \"cm\", \"readings\": []}",
      "unit: expected one of \"mm\", \"in\", found \"cm\"." },
    { "{\"hooping\": 1, \"sure\": \"yes\", \"readings\": []}",
      "sure: expected true or false, found \"yes\"." },
    { "{\"hooping\": 1, \"readings\": [{\"at\": [0, 0]}]}",
      "readings[0].mark: expected a text that is not empty, found nothing." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": 1, \"at\": [0, 0]}]}",
      "readings[0].mark: expected a text that is not empty, found 1." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\"}]}",
      "readings[0].at: expected two numbers of millimetres, how far right and how far towards you, up to "
      "100000, found nothing." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [1, \"2\"]}]}",
      "readings[0].at: expected two numbers of millimetres, how far right and how far towards you, up to "
      "100000, found [1, \"2\"]." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [1, 2, 3]}]}",
      "readings[0].at: expected two numbers of millimetres, how far right and how far towards you, up to "
      "100000, found [1, 2, 3]." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [1e300, 0]}]}",
      "readings[0].at: expected two numbers of millimetres, how far right and how far towards you, up to "
      "100000, found [1e+300, 0]." },
    { "{\"hooping\": 1, \"unit\": \"in\", \"readings\": [{\"mark\": \"A\", \"at\": [4000, 0]}]}",
      "readings[0].at: expected two numbers of inches, how far right and how far towards you, up to 3937, "
      "found [4000, 0]." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0], \"left_out\": 1}]}",
      "readings[0].left_out: expected true or false, found 1." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}, {\"mark\": \"A\", \"at\": [0, "
      "0]}]}",
      "readings[1]: expected one reading of each mark, found mark \"A\" again." },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_refused (cases[i][0], HW_MEASURED_READINGS, cases[i][1]);
}

static void
distances_that_say_nothing_are_refused (void)
{
  static const char *const cases[][2] = {
    { "{}", "expected a list of distances, or a hooping and its readings, found neither." },
    { "{\"hooping\": 1, \"readings\": [], \"distances\": []}",
      "expected either distances or readings, found both." },
    { "{\"distances\": []}", "distances: expected one distance or more, found none." },
    { "{\"distances\": 3}", "distances: expected a list of distances, found 3." },
    { "{\"distances\": [{\"to\": [1, 2], \"mm\": 3}]}",
      "distances[0].from: expected the letter of a mark, or a place on the cloth in millimetres, found "
      "nothing." },
    { "{\"distances\": [{\"from\": [1, 2], \"to\": [1], \"mm\": 3}]}",
      "distances[0].to: expected the letter of a mark, or a place on the cloth in millimetres, found [1]." },
    { "{\"distances\": [{\"from\": \"A\", \"to\": \"B\", \"mm\": 3}]}",
      "distances[0].hooping: expected the number of a hooping, counted from 1, found nothing." },
    { "{\"distances\": [{\"from\": [1, 2], \"to\": [30, 2]}]}",
      "distances[0].mm: expected a length in millimetres of more than 0, up to 100000, found nothing." },
    { "{\"distances\": [{\"from\": [1, 2], \"to\": [30, 2], \"mm\": 0}]}",
      "distances[0].mm: expected a length in millimetres of more than 0, up to 100000, found 0." },
    { "{\"distances\": [{\"from\": [1, 2], \"to\": [30, 2], \"mm\": -4}]}",
      "distances[0].mm: expected a length in millimetres of more than 0, up to 100000, found -4." },
    { "{\"distances\": [{\"from\": [1, 2], \"to\": [30, 2], \"in\": 1e9}]}",
      "distances[0].in: expected a length in inches of more than 0, up to 3937, found 1000000000." },
    { "{\"distances\": [{\"from\": [1, 2], \"to\": [30, 2], \"mm\": 29, \"in\": 1}]}",
      "distances[0]: expected one length, under \"mm\" or under \"in\", found both." },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_refused (cases[i][0], HW_MEASURED_EITHER, cases[i][1]);
}

static void
numbers_that_are_none_are_refused (void)
{
  static const char *const numbers[] = { "NaN", "Infinity", "-Infinity", "1e999", "nan", "0x10", "1,5" };

  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [%s, 2]}]}", numbers[i]);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwMeasured) measured = hw_measured_parse (text, -1, HW_MEASURED_READINGS, &error);

      g_assert_null (measured);
      g_assert_nonnull (error);
      g_assert_null (strchr (error->message, '\n'));
    }
}

static void
too_many_are_refused (void)
{
  g_autoptr (GString) text = g_string_new ("{\"hooping\": 1, \"readings\": [");

  for (guint i = 0; i <= HW_MOST_MEASURED; i++)
    g_string_append_printf (text, "%s{\"mark\": \"M%u\", \"at\": [0, 0]}", i > 0 ? ", " : "", i);
  g_string_append (text, "]}");
  assert_refused (text->str, HW_MEASURED_READINGS, "readings: expected at most 1000, found 1001.");
}

/* Wherever a file is cut off, it is refused with one line, and every change of a character is either understood or refused. */
static void
broken_texts_are_refused_and_never_crash (void)
{
  static const char whole[]
      = "{\"hooping\": 1, \"sure\": false, \"distances\": [{\"from\": \"A\", \"to\": [10, 20.5], \"mm\": "
        "80}, {\"from\": [1, 2], \"to\": [30, 40], \"in\": 1.5}]}";
  gsize length = strlen (whole);
  guint understood = 0;

  for (gsize n = 0; n < length; n++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HwMeasured) measured = hw_measured_parse (whole, (gssize)n, HW_MEASURED_EITHER, &error);

      g_assert_null (measured);
      g_assert_error (error, HW_MEASURED_ERROR, HW_MEASURED_ERROR_SYNTAX);
      g_assert_null (strchr (error->message, '\n'));
    }
  for (guint i = 0; i < 3000; i++)
    {
      g_autofree char *text = g_strdup (whole);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwMeasured) measured = NULL;

      text[g_test_rand_int_range (0, (gint32)length)] = (char)g_test_rand_int_range (1, 256);
      measured = hw_measured_parse (text, -1, HW_MEASURED_EITHER, &error);
      g_assert_true ((measured != NULL) == (error == NULL));
      understood += measured != NULL;
      g_assert_true (error == NULL || strchr (error->message, '\n') == NULL);
    }
  g_assert_cmpuint (understood, >, 0);
}

static void
a_file_that_cannot_be_read_is_named (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwMeasured) measured = hw_measured_load ("/no/such/tide.json", HW_MEASURED_EITHER, &error);

  g_assert_null (measured);
  g_assert_error (error, HW_MEASURED_ERROR, HW_MEASURED_ERROR_READ);
  g_assert_cmpstr (error->message, ==, "tide.json: there is no such file.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/readings-json/readings-are-read", readings_are_read);
  g_test_add_func ("/readings-json/a-byte-order-mark-is-passed-over", a_byte_order_mark_is_passed_over);
  g_test_add_func ("/readings-json/inches-become-millimetres", inches_become_millimetres);
  g_test_add_func ("/readings-json/distances-are-read", distances_are_read);
  g_test_add_func ("/readings-json/distances-between-places-need-no-plan",
                   distances_between_places_need_no_plan);
  g_test_add_func ("/readings-json/marks-are-looked-up-in-the-hoopings-axes",
                   marks_are_looked_up_in_the_hoopings_axes);
  g_test_add_func ("/readings-json/what-the-plan-does-not-have-is-refused",
                   what_the_plan_does_not_have_is_refused);
  g_test_add_func ("/readings-json/readings-that-say-nothing-are-refused",
                   readings_that_say_nothing_are_refused);
  g_test_add_func ("/readings-json/distances-that-say-nothing-are-refused",
                   distances_that_say_nothing_are_refused);
  g_test_add_func ("/readings-json/numbers-that-are-none-are-refused", numbers_that_are_none_are_refused);
  g_test_add_func ("/readings-json/too-many-are-refused", too_many_are_refused);
  g_test_add_func ("/readings-json/broken-texts-are-refused-and-never-crash",
                   broken_texts_are_refused_and_never_crash);
  g_test_add_func ("/readings-json/a-file-that-cannot-be-read-is-named", a_file_that_cannot_be_read_is_named);
  return g_test_run ();
}

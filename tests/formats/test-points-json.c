/* Known points of a photo as JSON: what is understood, that nothing breaks the reader, and how the answer is written. */
#include "formats/points-json.h"
#include "scene/limits.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

static const char given[]
    = "{\"camera\": \"borrowed\", \"points\": [{\"px\": [10, 20.5], \"mm\": [0, 0]}, {\"px\": [800, 10], "
      "\"mm\": "
      "[100, 0], \"note\": \"gate\"}, {\"px\": [790, 610], \"mm\": [100, 80]}, {\"px\": [15, 600], \"mm\": "
      "[-1e1, 80]}], \"bow\": -0.05, \"box\": [0, -5, 100, 85], \"lines\": [[[1, 2], [3, 4], [5, 6.5]]]}";

static void
points_and_wishes_are_read (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwKnownPoints) known = hw_known_points_parse (given, -1, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (known->n_points, ==, 4);
  g_assert_cmpfloat (known->points[0].px.y, ==, 20.5);
  g_assert_cmpfloat (known->points[3].mm.x, ==, -10);
  g_assert_false (known->fit_bow);
  g_assert_cmpfloat (known->bow, ==, -0.05);
  g_assert_cmpfloat (known->box.x0, ==, 0);
  g_assert_cmpfloat (known->box.y1, ==, 80);
  g_assert_cmpuint (known->n_lines, ==, 1);
  g_assert_cmpuint (known->lines[0].n, ==, 3);
  g_assert_cmpfloat (known->lines[0].px[2].y, ==, 6.5);
}

static void
what_is_not_said_has_a_meaning (void)
{
  g_autofree char *start = g_strndup (given, strstr (given, ", \"bow\"") - given);
  g_autofree char *plain = g_strdup_printf ("\xef\xbb\xbf%s}", start);
  g_autofree char *fitted = g_strdup_printf ("%s, \"bow\": \"fit\", \"box\": null, \"lines\": null}", start);
  g_autoptr (HwKnownPoints) known = hw_known_points_parse (plain, -1, NULL);
  g_autoptr (HwKnownPoints) fit = hw_known_points_parse (fitted, -1, NULL);

  g_assert_nonnull (known);
  g_assert_false (known->fit_bow);
  g_assert_cmpfloat (known->bow, ==, 0);
  g_assert_true (hw_box_is_empty (known->box));
  g_assert_cmpuint (known->n_lines, ==, 0);
  g_assert_nonnull (fit);
  g_assert_true (fit->fit_bow);
  g_assert_true (hw_box_is_empty (fit->box));
}

static void
places_outside_the_photo_are_named (void)
{
  g_autoptr (HwKnownPoints) known = hw_known_points_parse (given, -1, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_known_points_check (known, 800, 610, &error));
  g_assert_no_error (error);
  g_assert_false (hw_known_points_check (known, 799, 610, &error));
  g_assert_error (error, HW_POINTS_ERROR, HW_POINTS_ERROR_CONTENT);
  g_assert_cmpstr (
      error->message, ==,
      "points[1].px: expected a place in the photo, which is 799 × 610 pixels, found [800, 10].");
  known->lines[0].px[1].x = 900;
  g_clear_error (&error);
  g_assert_false (hw_known_points_check (known, 800, 610, &error));
  g_assert_true (g_str_has_prefix (error->message, "lines[0][1]: "));
}

/* Any byte changed or the end cut off: an answer or one sentence, and nothing breaks. */
static void
broken_text_is_read_or_refused (void)
{
  gsize length = strlen (given);
  guint read = 0;

  for (guint i = 0; i < 4000; i++)
    {
      g_autofree char *text = g_strdup (given);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwKnownPoints) known = NULL;

      text[g_test_rand_int_range (0, (int)length)] = (char)g_test_rand_int_range (1, 256);
      if (i % 3 == 0)
        text[g_test_rand_int_range (0, (int)length)] = '\0';
      known = hw_known_points_parse (text, -1, &error);
      g_assert_true ((known == NULL) == (error != NULL));
      if (error != NULL)
        g_assert_null (strchr (error->message, '\n'));
      read += known != NULL;
    }
  g_assert_cmpuint (read, >, 100);
  g_assert_cmpuint (read, <, 3000);
}

static void
too_long_lists_are_refused (void)
{
  g_autoptr (GString) text = g_string_new ("{\"points\": [");
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i <= HW_MOST_LISTED_POINTS; i++)
    g_string_append_printf (text, "%s{\"px\": [%u, 0], \"mm\": [0, 0]}", i == 0 ? "" : ", ", i);
  g_string_append (text, "]}");
  g_assert_null (hw_known_points_parse (text->str, -1, &error));
  g_assert_cmpstr (error->message, ==, "points: expected at most 200, found 201.");
}

/* What JSON cannot hold is told as null; the other keys are there when they have something to say. */
static void
the_answer_is_json_whatever_it_holds (void)
{
  g_autoptr (HwKnownPoints) known = hw_known_points_parse (given, -1, NULL);
  HwHomography h = { .m = { { 0.5, -0.0, 3 }, { 0, 1 / 3.0, 0 }, { 1e-5, 0, 1 } },
                     .bow = -0.05,
                     .middle = { 400, 305 },
                     .diagonal = 503 };
  const double residuals[] = { 0.1, NAN, 0.3, 0.123456 };
  g_autofree char *text = hw_square_json_text (known, &h, residuals, 2, 7.5);
  g_autoptr (JsonNode) root = json_from_string (text, NULL);
  JsonObject *answer;
  JsonArray *list;

  g_assert_nonnull (root);
  answer = json_node_get_object (root);
  list = json_array_get_array_element (json_object_get_array_member (answer, "matrix"), 1);
  g_assert_cmpfloat (json_array_get_double_element (list, 1), ==, 0.3333333333);
  list = json_object_get_array_member (answer, "residuals_mm");
  g_assert_true (json_array_get_null_element (list, 1));
  g_assert_cmpfloat (json_array_get_double_element (list, 3), ==, 0.1235);
  g_assert_true (json_object_get_null_member (answer, "rms_mm"));
  g_assert_cmpint (json_object_get_int_member (answer, "bad_point"), ==, 2);
  g_assert_cmpfloat (json_object_get_double_member (answer, "bad_by_mm"), ==, 7.5);
  g_assert_cmpfloat (json_object_get_double_member (answer, "bow"), ==, -0.05);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (answer, "straight_mm")), ==, 1);
  g_assert_null (strstr (text, "-0,"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/formats/points-json/read", points_and_wishes_are_read);
  g_test_add_func ("/formats/points-json/not-said", what_is_not_said_has_a_meaning);
  g_test_add_func ("/formats/points-json/outside", places_outside_the_photo_are_named);
  g_test_add_func ("/formats/points-json/broken", broken_text_is_read_or_refused);
  g_test_add_func ("/formats/points-json/too-long", too_long_lists_are_refused);
  g_test_add_func ("/formats/points-json/answer", the_answer_is_json_whatever_it_holds);
  return g_test_run ();
}

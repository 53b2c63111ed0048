/* hoopwright square, as somebody at a terminal runs it on a photo taken askew. The photo is made up, so that it is known where on the cloth each of its pixels lies. */
#include "formats/picture-load.h"
#include "registration/mark-finder.h"

#include "../registration/cloth-photo.h"
#include "command-run.h"

#define WIDTH 900
#define HEIGHT 700
#define SCALE 4.0 /* px per mm, about */
#define ARM 5.0   /* mm */
#define DPI 127.0 /* 5 px per mm */

/* Known points, then check points. */
static const HwPoint places[] = {
  { 35, 30 }, { 190, 35 },  { 185, 145 }, { 40, 140 }, { 110, 90 }, { 115, 40 }, /* known */
  { 75, 60 }, { 150, 115 }, { 80, 120 },  { 150, 60 },                           /* to be checked */
};
#define KNOWN 6

typedef struct
{
  char *folder, *photo, *points, *output;
  HwHomography view;
} Desk;

static void
set_up (Desk *desk, gconstpointer data)
{
  ClothPhoto photo = { .width = WIDTH,
                       .height = HEIGHT,
                       .ground = 170,
                       .thread = 0.6,
                       .turn = 0.3,
                       .weave = 8,
                       .pen = 90,
                       .blur = 0.8,
                       .shade = 30,
                       .noise = 5 };
  g_autoptr (HwPicture) picture = NULL;

  cloth_photo_aim (&photo, SCALE, 0.08);
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      HwPoint p = places[i];

      photo.lines[photo.n_lines++] = (PenLine){ { p.x - ARM, p.y }, { p.x + ARM, p.y }, 0.6 };
      photo.lines[photo.n_lines++] = (PenLine){ { p.x, p.y - ARM }, { p.x, p.y + ARM }, 0.6 };
    }
  picture = cloth_photo_take (&photo);
  desk->view = photo.view;
  desk->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  desk->photo = g_build_filename (desk->folder, "cloth.png", NULL);
  desk->points = g_build_filename (desk->folder, "points.json", NULL);
  desk->output = g_build_filename (desk->folder, "square.png", NULL);
  g_assert_true (hw_picture_save_png (picture, desk->photo, NULL));
}

static void
tear_down (Desk *desk, gconstpointer data)
{
  g_unlink (desk->photo);
  g_unlink (desk->points);
  g_unlink (desk->output);
  /* Nothing else was left behind. */
  g_assert_cmpint (g_rmdir (desk->folder), ==, 0);
  g_free (desk->folder);
  g_free (desk->photo);
  g_free (desk->points);
  g_free (desk->output);
}

/* The points as a hand places them: to half a pixel. wrong: one that is 6 mm off, or -1. more: further keys. */
static void
write_points (Desk *desk, guint n, int wrong, const char *more)
{
  g_autoptr (GString) text = g_string_new ("{\"points\": [");

  for (guint i = 0; i < n; i++)
    {
      HwPoint px;

      g_assert_true (hw_homography_back (&desk->view, places[i], &px));
      g_string_append_printf (text, "%s{\"px\": [%.1f, %.1f], \"mm\": [%g, %g]}", i == 0 ? "" : ", ",
                              round (2 * px.x) / 2, round (2 * px.y) / 2,
                              places[i].x + ((int)i == wrong ? 6 : 0), places[i].y);
    }
  g_string_append_printf (text, "]%s}", more);
  g_assert_true (g_file_set_contents (desk->points, text->str, -1, NULL));
}

static JsonObject *
square (Desk *desk, Run *run, JsonNode **root, const char *first, const char *second)
{
  const char *const words[]
      = { "square", desk->photo, desk->points, "-o", desk->output, first, second, NULL };

  run_words (run, words);
  *root = answer_of (run);
  return json_node_get_object (*root);
}

static double
matrix_at (JsonObject *answer, guint row, guint column)
{
  return json_array_get_double_element (
      json_array_get_array_element (json_object_get_array_member (answer, "matrix"), row), column);
}

/* By hand, from what was printed. */
static HwPoint
land (JsonObject *answer, HwPoint px)
{
  double p[3];

  for (guint i = 0; i < 3; i++)
    p[i] = matrix_at (answer, i, 0) * px.x + matrix_at (answer, i, 1) * px.y + matrix_at (answer, i, 2);
  return (HwPoint){ p[0] / p[2], p[1] / p[2] };
}

static void
the_matrix_takes_check_points_to_their_places (Desk *desk, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *answer;
  double worst = 0;

  write_points (desk, KNOWN, -1, "");
  answer = square (desk, &run, &root, NULL, NULL);
  for (guint i = KNOWN; i < G_N_ELEMENTS (places); i++)
    {
      HwPoint px;

      g_assert_true (hw_homography_back (&desk->view, places[i], &px));
      worst = MAX (worst, hw_point_distance (land (answer, px), places[i]));
    }
  g_test_message ("worst %.3f mm", worst);
  g_assert_cmpfloat (worst, <, 0.2);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (answer, "residuals_mm")), ==, KNOWN);
  g_assert_cmpfloat (json_object_get_double_member (answer, "rms_mm"), <, 0.2);
  g_assert_true (json_object_get_null_member (answer, "bad_point"));
  g_assert_false (json_object_has_member (answer, "bow"));
  g_assert_false (json_object_has_member (answer, "straight_mm"));
}

static void
the_squared_picture_shows_crosses_at_their_places (Desk *desk, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (HwPicture) squared = NULL;
  double px_per_mm = DPI / 25.4, worst = 0;

  write_points (desk, KNOWN, -1, ", \"box\": [30, 25, 160, 120]");
  square (desk, &run, &root, "--dpi", "127");
  squared = hw_picture_load (desk->output, NULL);
  g_assert_nonnull (squared);
  g_assert_cmpuint (squared->width, ==, 800);
  g_assert_cmpuint (squared->height, ==, 600);
  g_assert_cmpfloat_with_epsilon (squared->dpi_x, DPI, 0.1);
  for (guint i = KNOWN; i < G_N_ELEMENTS (places); i++)
    {
      HwPoint wanted = { (places[i].x - 30) * px_per_mm, (places[i].y - 25) * px_per_mm };
      HwFoundMark mark;

      g_assert_true (hw_find_cross (squared, wanted, 5 * px_per_mm, ARM * px_per_mm, &mark));
      g_assert_cmpfloat (mark.confidence, >, 0.5);
      worst = MAX (worst, hw_point_distance (mark.px, wanted) / px_per_mm);
    }
  g_test_message ("worst %.3f mm", worst);
  g_assert_cmpfloat (worst, <, 0.2);
}

static void
without_a_box_the_picture_shows_the_points (Desk *desk, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (HwPicture) squared = NULL;

  write_points (desk, KNOWN, -1, "");
  square (desk, &run, &root, NULL, NULL);
  squared = hw_picture_load (desk->output, NULL);
  g_assert_nonnull (squared);
  g_assert_cmpuint (squared->width, ==, lround (155 / 25.4 * 100));
  g_assert_cmpuint (squared->height, ==, lround (115 / 25.4 * 100));
}

static void
a_wrong_point_is_named (Desk *desk, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *answer;

  write_points (desk, G_N_ELEMENTS (places), 4, "");
  answer = square (desk, &run, &root, NULL, NULL);
  g_assert_cmpint (json_object_get_int_member (answer, "bad_point"), ==, 4);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (answer, "bad_by_mm"), 6, 0.5);
}

static void
the_bow_and_straight_lines_are_told (Desk *desk, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *more = NULL;
  HwPoint px[3];
  JsonObject *answer;

  for (guint i = 0; i < 3; i++)
    g_assert_true (hw_homography_back (&desk->view, (HwPoint){ 40 + 60.0 * i, i == 1 ? 92 : 90 }, &px[i]));
  more = g_strdup_printf (", \"bow\": \"fit\", \"lines\": [[[%g, %g], [%g, %g], [%g, %g]]]", px[0].x, px[0].y,
                          px[1].x, px[1].y, px[2].x, px[2].y);
  write_points (desk, G_N_ELEMENTS (places), -1, more);
  answer = square (desk, &run, &root, NULL, NULL);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (answer, "bow"), 0, 0.02);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (answer, "half_diagonal"),
                                  hypot (WIDTH, HEIGHT) / 2, 1e-6);
  g_assert_cmpfloat_with_epsilon (
      json_array_get_double_element (json_object_get_array_member (answer, "straight_mm"), 0), 4 / 3.0, 0.1);
}

static void
what_cannot_be_used_is_refused (Desk *desk, gconstpointer data)
{
#define P(x, y, X, Y) "{\"px\": [" #x ", " #y "], \"mm\": [" #X ", " #Y "]}"
#define THREE "{\"points\": [" P (10, 10, 0, 0) ", " P (800, 10, 100, 0) ", " P (800, 600, 100, 80)
  static const char *const cases[][2] = {
    { "", "points.json: the text is empty." },
    { "[]", "points.json: expected keys in braces, found []." },
    { "{}", "points.json: points: expected a list of points, found nothing." },
    { THREE "]}", "points.json: points: expected four points or more, found 3." },
    { THREE ", {\"px\": [10, 600]}]}",
      "points.json: points[3].mm: expected two numbers of millimetres on the cloth, up to 100000, found "
      "nothing." },
    { THREE ", " P (10, 1e9, 0, 80) "]}", NULL },
    { THREE ", " P (10, NaN, 0, 80) "]}", NULL },
    { THREE ", " P (10, 600, 0, 1e999) "]}", NULL },
    { THREE ", " P (10, 701, 0, 80) "]}", "points.json: points[3].px: expected a place in the photo, which "
                                          "is 900 × 700 pixels, found [10, 701]." },
    { THREE ", " P (400, 10, 50, 0) "]}",
      "points.json: Too many of the points lie on one line or in one place. Take four at least of which no "
      "three are on one line." },
    { "{\"points\": [" P (10, 10, 0, 0) ", " P (800, 10, 100, 0) ", " P (800, 600, 0,
                                                                         80) ", " P (10, 600, 100, 80) "]}",
      "points.json: The points do not follow each other on the cloth as they do in the photo: two of them "
      "are "
      "exchanged, one is far off, or the photo is mirrored." },
    { THREE ", " P (10, 600, 0, 80) "], \"bow\": \"fit\"}",
      "points.json: Six known points are needed to find the bow of the lens." },
    { THREE ", " P (10, 600, 0, 80) "], \"bow\": 4}",
      "points.json: bow: expected \"fit\", or a number from -0.3 to 0.3, found 4." },
    { THREE ", " P (10, 600, 0, 80) "], \"box\": [0, 0, -3, 4]}", NULL },
    { THREE ", " P (10, 600, 0, 80) "], \"box\": [0, 0, 3]}", NULL },
    { THREE ", " P (10, 600, 0, 80) "], \"box\": [0, 0, 99999, 99999]}", NULL },
    { THREE ", " P (10, 600, 0, 80) "], \"lines\": [[[1, 2], [3, 4]]]}",
      "points.json: lines[0]: expected three places or more, found 2." },
    { THREE ", " P (10, 600, 0, 80) "], \"lines\": [[[1, 2], [3, 4], [5, 6000]]]}", NULL },
    { THREE ", " P (10, 600, 0, 80) "], \"lines\": [7]}", NULL },
  };
  const char *const words[] = { "square", desk->photo, desk->points, "-o", desk->output, NULL };
  g_auto (Run) run = { 0 };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_true (g_file_set_contents (desk->points, cases[i][0], -1, NULL));
      run_words (&run, words);
      if (cases[i][1] != NULL)
        assert_refused (&run, cases[i][1]);
      else
        assert_one_complaint (&run, HW_EXIT_BAD);
      g_assert_false (g_file_test (desk->output, G_FILE_TEST_EXISTS));
    }
}

static void
words_that_cannot_be_used_are_refused (Desk *desk, gconstpointer data)
{
  const char *const dpis[] = { "0", "-5", "1e9", "nan", "inf", "many", "", "100x", "2401" };
  const char *const one[] = { "square", desk->photo, NULL };
  const char *const no_photo[] = { "square", "/no/such.png", desk->points, NULL };
  const char *const no_picture[] = { "square", desk->points, desk->points, NULL };
  const char *const no_points[] = { "square", desk->photo, "/no/such.json", NULL };
  const char *const no_folder[] = { "square", desk->photo, desk->points, "-o", "/no/such/folder.png", NULL };
  const char *const strange[] = { "square", desk->photo, desk->points, "--strange", NULL };
  g_auto (Run) run = { 0 };

  write_points (desk, KNOWN, -1, "");
  run_words (&run, one);
  assert_refused (&run,
                  "square: name the photo and POINTS.json, found 1. hoopwright square --help says more.");
  run_words (&run, no_photo);
  assert_one_complaint (&run, HW_EXIT_BAD);
  run_words (&run, no_picture);
  assert_one_complaint (&run, HW_EXIT_BAD);
  run_words (&run, no_points);
  assert_refused (&run, "such.json: there is no such file.");
  run_words (&run, no_folder);
  assert_one_complaint (&run, HW_EXIT_BAD);
  run_words (&run, strange);
  assert_one_complaint (&run, HW_EXIT_BAD);
  for (guint i = 0; i < G_N_ELEMENTS (dpis); i++)
    {
      const char *const words[] = { "square", desk->photo, desk->points, "--dpi", dpis[i], NULL };
      g_autofree char *sentence
          = g_strdup_printf ("--dpi: expected dots per inch from 1 to 2400, found \"%s\".", dpis[i]);

      run_words (&run, words);
      assert_refused (&run, sentence);
    }
}

/* An older file is as it was when nothing could be written. */
static void
an_older_picture_stays_when_the_new_one_is_refused (Desk *desk, gconstpointer data)
{
  const char *const words[]
      = { "square", desk->photo, desk->points, "-o", desk->output, "--dpi", "2400", NULL };
  g_auto (Run) run = { 0 };
  g_autofree char *text = NULL;

  g_assert_true (g_file_set_contents (desk->output, "older", -1, NULL));
  write_points (desk, KNOWN, -1, ", \"box\": [0, 0, 500, 500]");
  run_words (&run, words);
  assert_one_complaint (&run, HW_EXIT_BAD);
  g_assert_true (g_file_get_contents (desk->output, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "older");
}

#define ADD(name, function) g_test_add ("/square/" name, Desk, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  if (argc > 1 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);

  g_test_init (&argc, &argv, NULL);
  ADD ("check-points", the_matrix_takes_check_points_to_their_places);
  ADD ("squared-picture", the_squared_picture_shows_crosses_at_their_places);
  ADD ("without-a-box", without_a_box_the_picture_shows_the_points);
  ADD ("wrong-point", a_wrong_point_is_named);
  ADD ("bow-and-lines", the_bow_and_straight_lines_are_told);
  ADD ("refused-points", what_cannot_be_used_is_refused);
  ADD ("refused-words", words_that_cannot_be_used_are_refused);
  ADD ("older-picture", an_older_picture_stays_when_the_new_one_is_refused);
  return g_test_run ();
}

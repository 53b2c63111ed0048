/* The command that matches threads, run as a person runs it. */
#include "command-run.h"

static char *threads;

static void
set_up (Bench *bench, gconstpointer data)
{
  bench_set_up (bench, data);
  threads = g_build_filename (bench->folder, "threads.csv", NULL);
}

static void
tear_down (Bench *bench, gconstpointer data)
{
  g_unlink (threads);
  g_clear_pointer (&threads, g_free);
  bench_tear_down (bench, data);
}

static JsonObject *
item (JsonObject *in, const char *list, guint i)
{
  JsonArray *array = json_object_get_array_member (in, list);

  g_assert_cmpuint (i, <, json_array_get_length (array));
  return json_array_get_object_element (array, i);
}

static void
the_nearest_three_and_what_to_buy (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *answer, *stone, *nearest;

  bench_write (threads, "name,number,colour,metres\n"
                        "pebble,41,#767665,5\n"
                        "chalk,2,#fefefe,\n"
                        "deep water,,#2f4c68,100\n"
                        "poppy,7,#cc2211,100\n");
  run_words (&run, (const char *const[]){ "match", bench->scene, threads, NULL });
  root = answer_of (&run);
  answer = json_node_get_object (root);
  g_assert_cmpstr (json_object_get_string_member (answer, "format"), ==, "hoopwright-match");
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (answer, "threads")), ==, 3);

  stone = item (answer, "threads", 0);
  g_assert_cmpstr (json_object_get_string_member (stone, "name"), ==, "stone");
  g_assert_cmpint (json_object_get_int_member (stone, "stitches"), ==, 1400);
  g_assert_cmpfloat (json_object_get_double_member (stone, "metres_needed"), ==, 7);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (stone, "motifs")), ==, 2);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (stone, "nearest")), ==, 3);
  nearest = item (stone, "nearest", 0);
  g_assert_cmpstr (json_object_get_string_member (nearest, "name"), ==, "pebble");
  g_assert_cmpstr (json_object_get_string_member (nearest, "number"), ==, "41");
  g_assert_cmpfloat (json_object_get_double_member (nearest, "delta_e"), <, 1);
  g_assert_cmpstr (json_object_get_string_member (nearest, "words"), ==, "the same to the eye");
  g_assert_cmpfloat (json_object_get_double_member (nearest, "metres_left"), ==, 5);
  for (guint i = 1; i < 3; i++)
    g_assert_cmpfloat (json_object_get_double_member (item (stone, "nearest", i - 1), "delta_e"), <=,
                       json_object_get_double_member (item (stone, "nearest", i), "delta_e"));
  g_assert_true (
      json_object_get_null_member (item (item (answer, "threads", 2), "nearest", 0), "metres_left"));

  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (answer, "buy")), ==, 1);
  g_assert_cmpstr (json_object_get_string_member (item (answer, "buy", 0), "name"), ==, "pebble");
  g_assert_cmpfloat (json_object_get_double_member (item (answer, "buy", 0), "metres"), ==, 2);
  g_assert_true (json_object_get_boolean_member (item (answer, "buy", 0), "at_hand"));
}

/* White against mid grey and black, worked out by scikit-image 0.19, skimage.color.deltaE_ciede2000 over rgb2lab. */
static void
differences_as_another_library_has_them (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *white;

  bench_write (threads, "name,colour\nashes,#808080\nsoot,#000000\npoppy,#cc2211\n");
  run_words (&run, (const char *const[]){ "match", bench->scene, threads, NULL });
  root = answer_of (&run);
  white = item (json_node_get_object (root), "threads", 2);
  g_assert_cmpstr (json_object_get_string_member (white, "name"), ==, "white");
  for (guint i = 0; i < 3; i++)
    {
      JsonObject *nearest = item (white, "nearest", i);
      const char *name = json_object_get_string_member (nearest, "name");
      double expected = g_str_equal (name, "ashes")  ? 33.2390
                        : g_str_equal (name, "soot") ? 100.0000
                                                     : 50.9898;

      g_assert_cmpfloat_with_epsilon (json_object_get_double_member (nearest, "delta_e"), expected, 0.01);
    }
}

static void
nothing_near_means_buying (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *answer;

  bench_change (bench, "\"stitches\": 700", "\"stitches\": 0");
  bench_write (threads, "name,colour,metres\npoppy,#cc2211,100\n");
  run_words (&run, (const char *const[]){ "match", bench->scene, threads, NULL });
  root = answer_of (&run);
  answer = json_node_get_object (root);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (answer, "buy")), ==, 3);
  g_assert_cmpstr (json_object_get_string_member (item (answer, "buy", 0), "name"), ==, "stone");
  g_assert_false (json_object_get_boolean_member (item (answer, "buy", 0), "at_hand"));
  g_assert_true (json_object_get_null_member (item (answer, "buy", 1), "metres"));
  g_assert_true (json_object_get_null_member (item (answer, "threads", 1), "stitches"));
}

static void
bad_lists_are_refused (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };

  run_words (&run, (const char *const[]){ "match", bench->scene, threads, NULL });
  assert_refused (&run, "threads.csv: there is no such file.");
  bench_write (threads, "name,colour\nmoss,green\n");
  run_words (&run, (const char *const[]){ "match", bench->scene, threads, NULL });
  assert_refused (
      &run, "threads.csv: line 2: column \"colour\": expected a colour like \"#335522\", found \"green\".");
  run_words (&run, (const char *const[]){ "match", bench->scene, NULL });
  assert_one_complaint (&run, HW_EXIT_BAD);
  run_words (&run, (const char *const[]){ "match", threads, threads, NULL });
  assert_one_complaint (&run, HW_EXIT_BAD);
}

/* It plans nothing and measures nothing on the cloth. */
static void
time_and_unit_are_refused (Bench *bench, gconstpointer data)
{
  static const char *const options[] = { "--time=5", "--unit=in", "-t", "-u" };

  bench_write (threads, "name,colour\npoppy,#cc2211\n");
  for (guint i = 0; i < G_N_ELEMENTS (options); i++)
    {
      g_auto (Run) run = { 0 };

      run_words (&run, (const char *const[]){ "match", options[i], bench->scene, threads, NULL });
      assert_one_complaint (&run, HW_EXIT_BAD);
      g_assert_nonnull (strstr (run.err, i < 2 ? "option --" : options[i]));
    }
}

static void
help_says_what_metres_are_reckoned_from (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };

  run_words (&run, (const char *const[]){ "match", "--help", NULL });
  g_assert_cmpint (run.status, ==, 0);
  g_assert_nonnull (strstr (run.out, "SCENE THREADS.csv"));
  g_assert_nonnull (strstr (run.out, "5 m of needle thread"));
  g_assert_null (strstr (run.out, "--time"));
  g_assert_null (strstr (run.out, "--unit"));
}

#define ADD(name, function) g_test_add ("/match/" name, Bench, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  if (argc > 2 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);
  g_test_init (&argc, &argv, NULL);
  ADD ("the-nearest-three-and-what-to-buy", the_nearest_three_and_what_to_buy);
  ADD ("differences-as-another-library-has-them", differences_as_another_library_has_them);
  ADD ("nothing-near-means-buying", nothing_near_means_buying);
  ADD ("bad-lists-are-refused", bad_lists_are_refused);
  ADD ("time-and-unit-are-refused", time_and_unit_are_refused);
  ADD ("help-says-what-metres-are-reckoned-from", help_says_what_metres_are_reckoned_from);
  return g_test_run ();
}

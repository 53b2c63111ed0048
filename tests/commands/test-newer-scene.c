/* A scene that a newer program wrote: the commands read it as far as they understand it and say so, and write none. */
#include "command-run.h"

#define WARNING                                                                                              \
  "hoopwright: harbour.hoopscene: a newer Hoopwright wrote this scene (form 2); what only the newer one "    \
  "knows is passed over, and the scene is only read.\n"

static void
it_is_planned_with_a_warning (Bench *bench, gconstpointer data)
{
  const char *const words[] = { "plan", bench->scene, NULL };
  g_auto (Run) before = { 0 }, after = { 0 };

  run_words (&before, words);
  bench_change (bench, "\"version\": 1,", "\"version\": 2, \"weather\": \"west wind\",");
  run_words (&after, words);
  g_assert_cmpint (after.status, ==, HW_EXIT_PLANNED);
  g_assert_cmpstr (after.err, ==, WARNING);
  g_assert_cmpstr (after.out, ==, before.out);
}

static void
what_is_not_understood_is_refused (Bench *bench, gconstpointer data)
{
  const char *const words[] = { "plan", bench->scene, NULL };
  g_auto (Run) run = { 0 };

  bench_change (bench, "\"version\": 1,", "\"version\": 2,");
  bench_change (bench, "\"position\": [170, 200]", "\"position\": {\"x\": 170, \"y\": 200}");
  run_words (&run, words);
  assert_refused (&run,
                  "harbour.hoopscene: version: expected 1, found 2: a newer Hoopwright wrote this scene, "
                  "and it takes a newer one to open it.");
}

static void
none_is_written (Bench *bench, gconstpointer data)
{
  const char *const words[] = { "follow", bench->scene, bench->measured, "-o", bench->output, NULL };
  const char *const over[] = { "follow", bench->scene, bench->measured, "-o", bench->scene, NULL };
  g_autofree char *before = NULL, *after = NULL;
  g_auto (Run) run = { 0 };

  bench_write (bench->measured, "{\"distances\": [{\"from\": [100, 100], \"to\": [300, 100], \"mm\": 199}, "
                                "{\"from\": [100, 100], \"to\": [100, 300], \"mm\": 199}]}");
  bench_change (bench, "\"version\": 1,", "\"version\": 2,");
  g_assert_true (g_file_get_contents (bench->scene, &before, NULL, NULL));
  run_words (&run, words);
  g_assert_cmpint (run.status, ==, HW_EXIT_BAD);
  g_assert_nonnull (
      strstr (run.err, "followed.hoopscene was not saved: a newer Hoopwright wrote this scene"));
  g_assert_false (g_file_test (bench->output, G_FILE_TEST_EXISTS));
  run_words (&run, over);
  g_assert_cmpint (run.status, ==, HW_EXIT_BAD);
  g_assert_true (g_file_get_contents (bench->scene, &after, NULL, NULL));
  g_assert_cmpstr (before, ==, after);
}

int
main (int argc, char **argv)
{
  if (argc > 1 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);

  g_test_init (&argc, &argv, NULL);
#define ADD(name, test)                                                                                      \
  g_test_add ("/commands/newer-scene/" name, Bench, NULL, bench_set_up, test, bench_tear_down)
  ADD ("planned", it_is_planned_with_a_warning);
  ADD ("refused", what_is_not_understood_is_refused);
  ADD ("none-written", none_is_written);
  return g_test_run ();
}

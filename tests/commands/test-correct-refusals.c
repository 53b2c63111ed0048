/* What hoopwright correct asks about or refuses, instead of using it. */
#include "planned-hooping.h"

static void
doubtful_readings_are_asked_about (Bench *bench, gconstpointer data)
{
  static const char *const doubts[] = { "inches", "changed places", "Right and left", "farther off" };
  Hooping hooping;
  double at[8][2] = { 0 };

  hooping_of (bench, "boat", &hooping);
  for (guint i = 0; i < G_N_ELEMENTS (doubts); i++)
    {
      g_auto (Run) run = { 0 };
      g_autoptr (JsonNode) answer = NULL;

      readings_at (&hooping, 1, -1.8, 0.6, at);
      for (guint k = 0; k < hooping.n_marks; k++)
        {
          if (i == 0)
            at[k][0] /= 25.4, at[k][1] /= 25.4;
          else if (i == 2)
            at[k][0] = -at[k][0];
          else if (i == 3)
            at[k][0] += 200;
        }
      if (i == 1)
        for (guint k = 0; k < 2; k++)
          {
            double first = at[0][k];

            at[0][k] = at[1][k];
            at[1][k] = first;
          }
      write_readings (bench, &hooping, hooping.n_marks, at, "");
      correct (bench, &run);
      assert_one_complaint (&run, HW_EXIT_BAD);
      g_assert_true (g_str_has_prefix (run.err, "hoopwright: tide.json: "));
      g_assert_nonnull (strstr (run.err, doubts[i]));
      g_assert_nonnull (strstr (run.err, "\"sure\": true"));

      write_readings (bench, &hooping, hooping.n_marks, at, "\"sure\": true,");
      correct (bench, &run);
      answer = answer_of (&run);
    }
}

static void
what_cannot_be_used_is_refused (Bench *bench, gconstpointer data)
{
  static const char *const cases[][2] = {
    { "", "tide.json: the text is empty." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [1,",
      "tide.json: line 1, column 52: the text ends in the middle, it may have been cut off; expected a "
      "value." },
    { "{\"hooping\": 3, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}]}",
      "tide.json: hooping: the plan has 2 hoopings, found 3." },
    { "{\"hooping\": 1, \"readings\": []}",
      "tide.json: readings: expected one reading or more, found none." },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [NaN, 0]}]}", NULL },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [1e999, 0]}]}", NULL },
    { "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}, {\"mark\": \"A\", \"at\": [0, "
      "0]}]}",
      "tide.json: readings[1]: expected one reading of each mark, found mark \"A\" again." },
  };
  const char *const no_file[] = { "correct", bench->scene, "/no/such/readings.json", NULL };
  const char *const one_word[] = { "correct", bench->scene, NULL };
  const char *const three_words[] = { "correct", bench->scene, bench->measured, bench->measured, NULL };
  const char *const no_scene[] = { "correct", "/no/such.hoopscene", bench->measured, NULL };
  g_auto (Run) run = { 0 };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      bench_write (bench->measured, cases[i][0]);
      correct (bench, &run);
      if (cases[i][1] != NULL)
        assert_refused (&run, cases[i][1]);
      else
        assert_one_complaint (&run, HW_EXIT_BAD);
    }
  run_words (&run, no_file);
  assert_refused (&run, "readings.json: there is no such file.");
  run_words (&run, no_scene);
  assert_refused (&run, "such.hoopscene: there is no such file.");
  run_words (&run, one_word);
  assert_refused (&run, "correct: name the scene file and READINGS.json, found 1. hoopwright correct --help "
                        "says more.");
  run_words (&run, three_words);
  assert_one_complaint (&run, HW_EXIT_BAD);
}

static void
a_mark_the_hooping_does_not_have_is_told_with_those_it_has (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autofree char *expected = NULL;
  Hooping hooping;
  double at[8][2] = { 0 };

  hooping_of (bench, "boat", &hooping);
  g_assert_cmpuint (hooping.n_marks, ==, 2);
  expected = g_strdup_printf ("tide.json: readings[1].mark: hooping %u has the marks %s and %s, found \"Z\".",
                              hooping.number, hooping.marks[0].letter, hooping.marks[1].letter);
  readings_at (&hooping, 1, -1.8, 0.6, at);
  strcpy (hooping.marks[1].letter, "Z");
  write_readings (bench, &hooping, 2, at, "");
  correct (bench, &run);
  assert_refused (&run, expected);
}

static void
a_scene_that_cannot_be_planned_ends_with_1 (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };

  bench_change (bench, "\"angle\": 20", "\"scale\": 9, \"angle\": 20");
  bench_write (bench->measured, "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}]}");
  correct (bench, &run);
  assert_one_complaint (&run, HW_EXIT_UNPLANNABLE);
  g_assert_nonnull (strstr (run.err, "Quay"));
}

/* Whatever marks and numbers are given: an answer that is JSON and ends with 0, or one line and 2. */
static void
any_readings_are_answered_or_refused (Bench *bench, gconstpointer data)
{
  Hooping hooping;
  guint answered = 0;

  hooping_of (bench, "boat", &hooping);
  for (guint trial = 0; trial < 60; trial++)
    {
      static const double sizes[] = { 0, 1e-9, 0.3, 5, 90, 4000, 99999 };
      g_auto (Run) run = { 0 };
      double at[8][2] = { 0 };
      double size = sizes[trial % G_N_ELEMENTS (sizes)];

      readings_at (&hooping, 0, 0, 0, at);
      for (guint i = 0; i < hooping.n_marks; i++)
        for (guint k = 0; k < 2; k++)
          at[i][k] = (trial % 2 == 0 ? at[i][k] : 0) + g_test_rand_double_range (-1, 1) * size * 0.9;
      write_readings (bench, &hooping, 1 + trial % hooping.n_marks, at,
                      trial % 3 == 0 ? "\"sure\": true," : "");
      correct (bench, &run);
      if (run.status == 0)
        {
          g_autoptr (JsonNode) answer = answer_of (&run);

          g_assert_true (isfinite (number_at (answer, "turn", -1)));
          answered++;
        }
      else
        assert_one_complaint (&run, HW_EXIT_BAD);
    }
  g_assert_cmpuint (answered, >, 10);
}

#define ADD(name, function)                                                                                  \
  g_test_add ("/correct-refusals/" name, Bench, NULL, bench_set_up, function, bench_tear_down)

int
main (int argc, char **argv)
{
  if (argc > 1 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);

  g_test_init (&argc, &argv, NULL);
  ADD ("doubtful-readings-are-asked-about", doubtful_readings_are_asked_about);
  ADD ("what-cannot-be-used-is-refused", what_cannot_be_used_is_refused);
  ADD ("a-mark-the-hooping-does-not-have-is-told-with-those-it-has",
       a_mark_the_hooping_does_not_have_is_told_with_those_it_has);
  ADD ("a-scene-that-cannot-be-planned-ends-with-1", a_scene_that_cannot_be_planned_ends_with_1);
  ADD ("any-readings-are-answered-or-refused", any_readings_are_answered_or_refused);
  return g_test_run ();
}

/* hoopwright correct, as somebody at the machine or a script meets it. The marks are taken from what `hoopwright plan` prints; what the needle would show over them
 * is worked out here. */
#include "planned-hooping.h"

static void
a_cloth_set_askew_is_found (Bench *bench, gconstpointer data)
{
  static const double lies[][3]
      = { { 0, 0, 0 }, { 1, -1.8, 0.6 }, { -3.25, 4.444, -2.01 }, { 0.004, 0, -6 } };
  double at[8][2] = { 0 };

  for (guint which = 0; which < 2; which++)
    {
      Hooping hooping;

      hooping_of (bench, which == 0 ? "boat" : "gull1", &hooping);
      g_assert_cmpuint (hooping.n_marks, >=, 2);
      for (guint i = 0; i < G_N_ELEMENTS (lies); i++)
        {
          g_autoptr (JsonNode) answer = NULL;

          readings_at (&hooping, lies[i][0], lies[i][1], lies[i][2], at);
          write_readings (bench, &hooping, hooping.n_marks, at, "");
          answer = corrected (bench);
          /* The plan prints places to a millionth of a millimetre. */
          assert_near (number_at (answer, "exact.turn", -1), lies[i][0], 1e-5);
          assert_near (number_at (answer, "exact.shift", 0), lies[i][1], 1e-5);
          assert_near (number_at (answer, "exact.shift", 1), lies[i][2], 1e-5);
          g_assert_true (json_object_get_null_member (json_node_get_object (answer), "outlier"));
          assert_near (number_at (answer, "stretch_percent", -1), 0, 1e-4);
        }
    }
}

/* The word of the machine and the steps of the machine. */
static void
the_answer_has_its_keys_in_order (Bench *bench, gconstpointer data)
{
  static const char *const keys[]
      = { "shift", "turn", "exact", "remaining_error", "outlier", "stretch_percent", "advice", NULL };
  g_autoptr (JsonNode) answer = NULL;
  g_autoptr (GList) members = NULL;
  JsonObject *remaining;
  Hooping hooping;
  double at[8][2] = { 0 };
  GList *member;

  hooping_of (bench, "boat", &hooping);
  readings_at (&hooping, 1, -1.8, 0.6, at);
  write_readings (bench, &hooping, hooping.n_marks, at, "");
  answer = corrected (bench);
  members = json_object_get_members (json_node_get_object (answer));
  member = members;
  for (guint i = 0; keys[i] != NULL; i++, member = member->next)
    g_assert_cmpstr (member->data, ==, keys[i]);
  g_assert_cmpfloat (number_at (answer, "shift", 0), ==, -1.8);
  g_assert_cmpfloat (number_at (answer, "shift", 1), ==, 0.6);
  g_assert_cmpfloat (number_at (answer, "turn", -1), ==, 1);
  g_assert_true (g_str_has_prefix (text_of (answer, "advice"),
                                   "Shift 1.8 mm left, 0.6 mm towards you; turn 1 degree clockwise."));
  g_assert_cmpstr (text_of (answer, "next"), ==, "enter");
  remaining = json_object_get_object_member (json_node_get_object (answer), "remaining_error");
  g_assert_cmpuint (json_object_get_size (remaining), ==, 3);
  for (guint i = 0; i < 3; i++)
    assert_near (json_object_get_double_member (remaining, hooping.motifs[i]), 0, 1e-4);
}

static double
worst_error (const Hooping *hooping, const double exact[3], const double entered[3])
{
  double worst = 0;

  for (guint i = 0; i < hooping->n_motifs; i++)
    {
      double a[2], b[2];

      carry (exact[0], exact[1], exact[2], hooping->centres[i][0], hooping->centres[i][1], a);
      carry (entered[0], entered[1], entered[2], hooping->centres[i][0], hooping->centres[i][1], b);
      worst = MAX (worst, hypot (a[0] - b[0], a[1] - b[1]));
    }
  return worst;
}

/* Against every step the machine has nearby, tried one by one. */
static void
no_other_step_leaves_a_smaller_worst_error (Bench *bench, gconstpointer data)
{
  const double shift_step = 0.5, turn_step = 2;
  Hooping hooping;
  double at[8][2] = { 0 };
  guint not_rounded_alone = 0;

  bench_change (bench, "\"shift_step\": 0.1, \"turn_step\": 1", "\"shift_step\": 0.5, \"turn_step\": 2");
  hooping_of (bench, "boat", &hooping);
  for (guint trial = 0; trial < 40; trial++)
    {
      double exact[3] = { g_test_rand_double_range (-5, 5), g_test_rand_double_range (-4, 4),
                          g_test_rand_double_range (-4, 4) };
      g_autoptr (JsonNode) answer = NULL;
      double chosen[3], of_chosen, best = INFINITY;

      readings_at (&hooping, exact[0], exact[1], exact[2], at);
      write_readings (bench, &hooping, hooping.n_marks, at, "");
      answer = corrected (bench);
      chosen[0] = number_at (answer, "turn", -1);
      chosen[1] = number_at (answer, "shift", 0);
      chosen[2] = number_at (answer, "shift", 1);
      assert_near (remainder (chosen[0], turn_step), 0, 1e-6);
      assert_near (remainder (chosen[1], shift_step), 0, 1e-6);
      assert_near (remainder (chosen[2], shift_step), 0, 1e-6);
      of_chosen = worst_error (&hooping, exact, chosen);
      for (int t = -4; t <= 4; t++)
        for (int x = -40; x <= 40; x++)
          for (int y = -40; y <= 40; y++)
            {
              double other[3] = { t * turn_step, x * shift_step, y * shift_step };

              best = MIN (best, worst_error (&hooping, exact, other));
            }
      g_assert_cmpfloat (of_chosen, <=, best + 1e-4);
      for (guint i = 0; i < hooping.n_motifs; i++)
        {
          g_autofree char *key = g_strdup_printf ("remaining_error.%s", hooping.motifs[i]);

          g_assert_cmpfloat (number_at (answer, key, -1), <=, of_chosen + 1e-4);
        }
      not_rounded_alone += fabs (chosen[0] - turn_step * round (exact[0] / turn_step)) > 1e-6
                           || fabs (chosen[1] - shift_step * round (exact[1] / shift_step)) > 1e-6
                           || fabs (chosen[2] - shift_step * round (exact[2] / shift_step)) > 1e-6;
    }
  /* Else this test would say nothing of choosing them together. */
  g_assert_cmpuint (not_rounded_alone, >, 0);
}

static double
sum_of_squares (const Hooping *hooping, double at[8][2], const double fit[3])
{
  double sum = 0;

  for (guint i = 0; i < hooping->n_marks; i++)
    {
      double p[2];

      carry (fit[0], fit[1], fit[2], hooping->marks[i].u, hooping->marks[i].v, p);
      sum += (p[0] - at[i][0]) * (p[0] - at[i][0]) + (p[1] - at[i][1]) * (p[1] - at[i][1]);
    }
  return sum;
}

/* By the definition of least squares: whatever else is tried, the squares add up to more. */
static void
exact_is_the_least_squares_answer (Bench *bench, gconstpointer data)
{
  Hooping hooping;
  double at[8][2] = { 0 };

  bench_change (bench, "\"motifs\": [", "\"wishes\": {\"marks\": 4}, \"motifs\": [");
  hooping_of (bench, "boat", &hooping);
  g_assert_cmpuint (hooping.n_marks, ==, 4);
  for (guint trial = 0; trial < 10; trial++)
    {
      g_autoptr (JsonNode) answer = NULL;
      double fit[3], least;

      readings_at (&hooping, g_test_rand_double_range (-3, 3), 2, -1, at);
      for (guint i = 0; i < hooping.n_marks; i++)
        {
          at[i][0] += g_test_rand_double_range (-0.5, 0.5);
          at[i][1] += g_test_rand_double_range (-0.5, 0.5);
        }
      write_readings (bench, &hooping, hooping.n_marks, at, "");
      answer = corrected (bench);
      fit[0] = number_at (answer, "exact.turn", -1);
      fit[1] = number_at (answer, "exact.shift", 0);
      fit[2] = number_at (answer, "exact.shift", 1);
      least = sum_of_squares (&hooping, at, fit);
      for (guint k = 0; k < 3; k++)
        for (int way = -1; way <= 1; way += 2)
          {
            double other[3] = { fit[0], fit[1], fit[2] };

            other[k] += way * 0.002;
            g_assert_cmpfloat (sum_of_squares (&hooping, at, other), >, least);
          }
    }
}

static void
a_reading_that_does_not_agree_is_named (Bench *bench, gconstpointer data)
{
  g_autoptr (JsonNode) answer = NULL;
  g_autoptr (JsonNode) without = NULL;
  g_autoptr (GString) text = NULL;
  g_autofree char *given = NULL;
  Hooping hooping;
  double at[8][2] = { 0 }, along_fit[3], least;

  bench_change (bench, "\"motifs\": [", "\"wishes\": {\"marks\": 4}, \"motifs\": [");
  hooping_of (bench, "boat", &hooping);
  readings_at (&hooping, 1, -1.8, 0.6, at);
  at[2][0] += 5;
  write_readings (bench, &hooping, hooping.n_marks, at, "");
  answer = corrected (bench);
  g_assert_cmpstr (text_of (answer, "outlier"), ==, hooping.marks[2].letter);
  assert_near (number_at (answer, "outlier_by", -1), 5, 1e-3);
  g_assert_nonnull (strstr (text_of (answer, "advice"), hooping.marks[2].letter));
  g_assert_cmpstr (text_of (answer, "next"), ==, "read-again");
  /* It still counts in what is called exact, and not in the answer without it. */
  along_fit[0] = number_at (answer, "exact.turn", -1);
  along_fit[1] = number_at (answer, "exact.shift", 0);
  along_fit[2] = number_at (answer, "exact.shift", 1);
  least = sum_of_squares (&hooping, at, along_fit);
  g_assert_cmpfloat (least, <, sum_of_squares (&hooping, at, (double[3]){ 1, -1.8, 0.6 }));
  assert_near (number_at (answer, "without_outlier.turn", -1), 1, 1e-5);
  assert_near (number_at (answer, "without_outlier.shift", 0), -1.8, 1e-5);
  assert_near (number_at (answer, "without_outlier.shift", 1), 0.6, 1e-5);

  /* Left out by the person. */
  g_assert_true (g_file_get_contents (bench->measured, &given, NULL, NULL));
  text = g_string_new (given);
  {
    g_autofree char *from = g_strdup_printf ("{\"mark\": \"%s\",", hooping.marks[2].letter);
    g_autofree char *to = g_strdup_printf ("%s \"left_out\": true,", from);

    g_assert_cmpuint (g_string_replace (text, from, to, 1), ==, 1);
  }
  bench_write (bench->measured, text->str);
  without = corrected (bench);
  assert_near (number_at (without, "exact.turn", -1), 1, 1e-5);
  assert_near (number_at (without, "exact.shift", 0), -1.8, 1e-5);
  g_assert_true (json_object_get_null_member (json_node_get_object (without), "outlier"));
  g_assert_cmpstr (text_of (without, "next"), ==, "enter");
}

static void
one_reading_gives_a_shift_alone (Bench *bench, gconstpointer data)
{
  g_autoptr (JsonNode) answer = NULL;
  Hooping hooping;
  double at[8][2] = { 0 };

  hooping_of (bench, "boat", &hooping);
  readings_at (&hooping, 0, 1.24, -3, at);
  write_readings (bench, &hooping, 1, at, "");
  answer = corrected (bench);
  assert_near (number_at (answer, "exact.shift", 0), 1.24, 1e-5);
  g_assert_cmpfloat (number_at (answer, "turn", -1), ==, 0);
  g_assert_cmpfloat (number_at (answer, "shift", 0), ==, 1.2);
  g_assert_true (json_object_get_null_member (json_node_get_object (answer), "stretch_percent"));
}

static void
stretched_cloth_is_told_in_percent (Bench *bench, gconstpointer data)
{
  Hooping hooping;

  hooping_of (bench, "boat", &hooping);
  for (int percent = -3; percent <= 3; percent += 6)
    {
      g_autoptr (JsonNode) answer = NULL;
      double at[8][2] = { 0 };

      readings_at (&hooping, 0, 0, 0, at);
      for (guint i = 0; i < hooping.n_marks; i++)
        for (guint k = 0; k < 2; k++)
          at[i][k] *= 1 + percent / 100.0;
      write_readings (bench, &hooping, hooping.n_marks, at, "");
      answer = corrected (bench);
      assert_near (number_at (answer, "stretch_percent", -1), percent, 1e-3);
    }
}

static void
inches_say_the_same_as_millimetres (Bench *bench, gconstpointer data)
{
  const char *const words[] = { "correct", "--unit", "in", bench->scene, bench->measured, NULL };
  g_autoptr (JsonNode) metric = NULL;
  g_autoptr (JsonNode) inches = NULL;
  g_auto (Run) run = { 0 };
  Hooping hooping;
  double at[8][2] = { 0 };

  hooping_of (bench, "boat", &hooping);
  readings_at (&hooping, 1, -1.8, 0.6, at);
  write_readings (bench, &hooping, hooping.n_marks, at, "");
  metric = corrected (bench);
  for (guint i = 0; i < hooping.n_marks; i++)
    for (guint k = 0; k < 2; k++)
      at[i][k] /= 25.4;
  write_readings (bench, &hooping, hooping.n_marks, at, "\"unit\": \"in\",");
  inches = corrected (bench);
  assert_near (number_at (inches, "exact.shift", 0), number_at (metric, "exact.shift", 0), 1e-6);
  g_assert_cmpstr (text_of (inches, "advice"), ==, text_of (metric, "advice"));

  /* --unit is of the sentences alone. */
  run_words (&run, words);
  g_clear_pointer (&inches, json_node_unref);
  inches = answer_of (&run);
  g_assert_cmpfloat (number_at (inches, "shift", 0), ==, -1.8);
  g_assert_nonnull (strstr (text_of (inches, "advice"), " in left"));
}

static void
what_no_step_mends_is_hooped_again (Bench *bench, gconstpointer data)
{
  g_autoptr (JsonNode) answer = NULL;
  Hooping hooping;
  double at[8][2] = { 0 };

  bench_change (bench, "\"turn_step\": 1", "\"turn_step\": 10");
  hooping_of (bench, "boat", &hooping);
  readings_at (&hooping, 5, 0, 0, at);
  write_readings (bench, &hooping, hooping.n_marks, at, "");
  answer = corrected (bench);
  g_assert_cmpstr (text_of (answer, "next"), ==, "hoop-again");
  g_assert_true (g_str_has_prefix (text_of (answer, "advice"), "Hoop again"));
}

/* A hooping in the machine keeps the marks that were drawn for it. */
static void
the_marks_a_hooping_is_held_with_are_its_marks (Bench *bench, gconstpointer data)
{
  g_autoptr (JsonNode) answer = NULL;
  Hooping hooping;
  double at[8][2] = { 0 };

  bench_change (bench, "\"motifs\": [",
                "\"pins\": [{\"hoop\": \"h1\", \"centre\": [175, 255], \"angle\": 30, \"motifs\": [\"quay\", "
                "\"wall\", \"boat\"], \"marks\": [{\"id\": \"K\", \"at\": [120.5, 240]}, {\"id\": \"L\", "
                "\"at\": [200, 250]}, {\"id\": \"M\", \"at\": [190, 330]}]}], \"motifs\": [");
  hooping_of (bench, "boat", &hooping);
  g_assert_cmpuint (hooping.n_marks, ==, 3);
  g_assert_cmpstr (hooping.marks[0].letter, ==, "K");
  readings_at (&hooping, -2, 1, 1, at);
  write_readings (bench, &hooping, 3, at, "");
  answer = corrected (bench);
  assert_near (number_at (answer, "exact.turn", -1), -2, 1e-5);
  assert_near (number_at (answer, "exact.shift", 0), 1, 1e-5);
}

#define ADD(name, function)                                                                                  \
  g_test_add ("/correct/" name, Bench, NULL, bench_set_up, function, bench_tear_down)

int
main (int argc, char **argv)
{
  if (argc > 1 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);

  g_test_init (&argc, &argv, NULL);
  ADD ("a-cloth-set-askew-is-found", a_cloth_set_askew_is_found);
  ADD ("the-answer-has-its-keys-in-order", the_answer_has_its_keys_in_order);
  ADD ("no-other-step-leaves-a-smaller-worst-error", no_other_step_leaves_a_smaller_worst_error);
  ADD ("exact-is-the-least-squares-answer", exact_is_the_least_squares_answer);
  ADD ("a-reading-that-does-not-agree-is-named", a_reading_that_does_not_agree_is_named);
  ADD ("one-reading-gives-a-shift-alone", one_reading_gives_a_shift_alone);
  ADD ("stretched-cloth-is-told-in-percent", stretched_cloth_is_told_in_percent);
  ADD ("inches-say-the-same-as-millimetres", inches_say_the_same_as_millimetres);
  ADD ("what-no-step-mends-is-hooped-again", what_no_step_mends_is_hooped_again);
  ADD ("the-marks-a-hooping-is-held-with-are-its-marks", the_marks_a_hooping_is_held_with_are_its_marks);
  return g_test_run ();
}

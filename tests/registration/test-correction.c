/* From readings to the answer: the exact fit, the steps and what remains, a stretch, what to do, in words. */
#include "readings.h"

#include <string.h>

static const HwPoint motifs[] = { { -40, -50 }, { 45, 10 }, { -10, 60 } };

static HwCorrectionTask
usual_task (void)
{
  return (HwCorrectionTask){ .shift_step = 0.1,
                             .turn_step = 1,
                             .sigma = SIGMA,
                             .tolerance = 0.7,
                             .targets = motifs,
                             .n_targets = G_N_ELEMENTS (motifs) };
}

static void
assert_has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("\"%s\" is not said in: %s", part, text);
}

static void
test_the_hooping_is_found_again (void)
{
  for (guint i = 0; i < 1000; i++)
    {
      HwReading readings[4];
      HwCorrectionTask task = usual_task ();
      HwCorrectionAnswer answer;
      Lie lie = lie_set_by_hand ();
      guint n = g_test_rand_int_range (2, 5);

      read_marks (readings, corners, n, lie, 0);
      g_assert_true (hw_correction_find (readings, n, &task, &answer, NULL));
      g_assert_cmpfloat_with_epsilon (answer.exact.turn, lie.turn, 1e-9);
      g_assert_cmpfloat_with_epsilon (answer.exact.shift.x, lie.shift.x, 1e-9);
      g_assert_cmpfloat_with_epsilon (answer.exact.shift.y, lie.shift.y, 1e-9);
      g_assert_cmpint (answer.outlier, ==, -1);
      g_assert_true (answer.stretch_seen && !answer.stretch_told);
      g_assert_cmpfloat_with_epsilon (answer.stretch, 0, 1e-6);
      g_assert_cmpuint (answer.n_targets, ==, 3);
      for (guint k = 0; k < 3; k++)
        {
          HwPoint p = hw_point_turn (motifs[k], lie.turn);
          HwPoint q = hw_correction_apply (&answer.chosen, motifs[k]);

          g_assert_cmpfloat_with_epsilon (answer.remaining[k],
                                          hypot (p.x + lie.shift.x - q.x, p.y + lie.shift.y - q.y), 1e-9);
          g_assert_cmpfloat (answer.remaining[k], <=, answer.worst);
        }
      g_assert_cmpfloat (answer.remaining[answer.worst_target], ==, answer.worst);
      for (guint k = 0; k < n; k++)
        g_assert_cmpfloat_with_epsilon (answer.residuals[k], 0, 1e-9);
      hw_correction_answer_clear (&answer);
    }
}

static void
test_one_reading_gives_a_shift (void)
{
  HwReading reading = { .letter = "A", .design = { -60, -80 }, .at = { -61.8, -79.4 } };
  HwCorrectionTask task = usual_task ();
  HwCorrectionAnswer answer;
  g_autofree char *text = NULL;

  g_assert_true (hw_correction_find (&reading, 1, &task, &answer, NULL));
  g_assert_cmpfloat (answer.chosen.turn, ==, 0);
  g_assert_cmpfloat (answer.chosen.shift.x, ==, -1.8);
  g_assert_cmpfloat (answer.chosen.shift.y, ==, 0.6);
  g_assert_false (answer.stretch_seen);
  text = hw_correction_advice_text (&answer, &reading, 1, &task, HW_UNIT_MM);
  assert_has (text, "Shift 1.8 mm left, 0.6 mm towards you.");
  assert_has (text, "One mark tells no turn");
  hw_correction_answer_clear (&answer);
}

/* Told when beyond 2.6 times its scatter: without a stretch in 1 of 100 (measured 0.9 to 1.0 %); one of 1 % between corner marks in nearly all. */
static void
test_a_stretch_is_told_when_it_is_more_than_chance (void)
{
  const guint trials = 4000;
  guint by_chance = 0, found = 0;
  double mean = 0;

  for (guint i = 0; i < trials; i++)
    {
      HwReading readings[4];
      HwCorrectionTask task = usual_task ();
      HwCorrectionAnswer answer;
      Lie lie = lie_set_by_hand ();

      read_marks (readings, corners, 4, lie, SIGMA);
      g_assert_true (hw_correction_find (readings, 4, &task, &answer, NULL));
      by_chance += answer.stretch_told;
      hw_correction_answer_clear (&answer);
      lie.stretch = 0.99;
      read_marks (readings, corners, 4, lie, SIGMA);
      g_assert_true (hw_correction_find (readings, 4, &task, &answer, NULL));
      found += answer.stretch_told;
      mean += answer.stretch / trials;
      hw_correction_answer_clear (&answer);
    }
  g_assert_cmpfloat (100.0 * by_chance / trials, <, 1.6);
  g_assert_cmpfloat (100.0 * by_chance / trials, >, 0.4);
  g_assert_cmpfloat (100.0 * found / trials, >, 99.5);
  g_assert_cmpfloat_with_epsilon (mean, -1, 0.02);
}

/* Two marks 20 mm apart and far from the middle: their stretch scatters by 0.35 / sqrt (200), and 2.6 times that are 6.434 %. */
static void
test_marks_near_each_other_tell_little_of_a_stretch (void)
{
  static const double percents[] = { -6.45, -6.42, -1, 0, 1, 6.42, 6.45 };
  HwPoint marks[] = { { 40, 70 }, { 52, 86 } };

  for (guint i = 0; i < G_N_ELEMENTS (percents); i++)
    {
      HwCorrectionTask task = usual_task ();
      HwReading readings[2];
      HwCorrectionAnswer answer;

      read_marks (readings, marks, 2, (Lie){ 1, { 2, -1 }, 1 + percents[i] / 100 }, 0);
      g_assert_true (hw_correction_find (readings, 2, &task, &answer, NULL));
      g_assert_cmpfloat_with_epsilon (answer.stretch, percents[i], 1e-6);
      g_assert_cmpint (answer.stretch_told, ==, fabs (percents[i]) > 6.434);
      g_assert_false (answer.stretch_too_much);
      hw_correction_answer_clear (&answer);
    }
}

static HwCorrectionAnswer
answer_to (const HwReading *readings, guint n, const HwCorrectionTask *task)
{
  HwCorrectionAnswer answer;
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_correction_find (readings, n, task, &answer, &error));
  g_assert_no_error (error);
  return answer;
}

static void
test_what_to_do (void)
{
  HwCorrectionTask task = usual_task ();
  HwReading readings[4];
  HwCorrectionAnswer answer;
  HwPoint stitching[] = { { -60, -80 }, { 60, 85 } };
  g_autofree char *stitch = NULL;
  g_autofree char *enter = NULL;
  g_autofree char *field = NULL;
  g_autofree char *turn = NULL;
  g_autofree char *coarse = NULL;

  read_marks (readings, corners, 4, (Lie){ 0, { 0.02, 0 }, 1 }, 0);
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_STITCH);
  stitch = hw_correction_advice_text (&answer, readings, 4, &task, HW_UNIT_MM);
  g_assert_cmpstr (stitch, ==, "Nothing to enter. Nothing that can be seen remains at the motifs.");
  hw_correction_answer_clear (&answer);

  read_marks (readings, corners, 4, (Lie){ 1.2, { -1.8, 0.6 }, 0.992 }, 0);
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_ENTER);
  enter = hw_correction_advice_text (&answer, readings, 4, &task, HW_UNIT_MM);
  assert_has (enter, "turn 1 degree clockwise. At most 0.2 mm remains at the motifs.");
  assert_has (enter, "The cloth has drawn in by 0.8 % between the marks.");
  hw_correction_answer_clear (&answer);

  for (int k = 0; k < 4; k++)
    {
      g_autofree char *named
          = g_strdup_printf ("The reading of mark %c does not agree with the others", 'A' + k);
      g_autofree char *again = NULL;

      read_marks (readings, corners, 4, (Lie){ 1.2, { -1.8, 0.6 }, 0.992 }, 0);
      readings[k].at.x += 6;
      answer = answer_to (readings, 4, &task);
      g_assert_cmpint (answer.advice, ==, HW_ADVICE_READ_AGAIN);
      g_assert_cmpint (answer.outlier, ==, k);
      again = hw_correction_advice_text (&answer, readings, 4, &task, HW_UNIT_MM);
      assert_has (again, named);
      hw_correction_answer_clear (&answer);
    }

  task.stitching = stitching;
  task.n_stitching = 2;
  task.half_width = 65;
  task.half_height = 90;
  read_marks (readings, corners, 4, (Lie){ 0, { 3, 7 }, 1 }, 0);
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_HOOP_AGAIN);
  g_assert_cmpfloat_with_epsilon (answer.leaves_field, 2, 1e-9);
  field = hw_correction_advice_text (&answer, readings, 4, &task, HW_UNIT_MM);
  assert_has (field, "pass the sewing field by 2.0 mm");
  hw_correction_answer_clear (&answer);

  task = usual_task ();
  task.turn_step = 0;
  read_marks (readings, corners, 4, (Lie){ -2, { 0, 0 }, 1 }, 0);
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_HOOP_AGAIN);
  g_assert_true (answer.turn_lacks);
  turn = hw_correction_advice_text (&answer, readings, 4, &task, HW_UNIT_MM);
  assert_has (turn, "2 degrees anticlockwise, and the machine does not turn designs");
  hw_correction_answer_clear (&answer);

  task.turn_step = 5;
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_HOOP_AGAIN);
  coarse = hw_correction_advice_text (&answer, readings, 4, &task, HW_UNIT_INCH);
  assert_has (coarse, "would remain at one of the motifs, and 0.028 in is wished for");
  hw_correction_answer_clear (&answer);
}

/* A machine that cannot turn is good enough for what chance turns. */
static void
test_a_turn_that_cannot_be_seen_is_let_be (void)
{
  HwCorrectionTask task = usual_task ();
  HwPoint stitching[] = { { -60, -80 }, { 60, 80 } };
  HwReading readings[4];
  HwCorrectionAnswer answer;

  task.turn_step = 0;
  task.stitching = stitching;
  task.n_stitching = 2;
  read_marks (readings, corners, 4, (Lie){ 0.3, { 2, 1 }, 1 }, 0);
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_ENTER);
  g_assert_cmpfloat (answer.chosen.turn, ==, 0);
  hw_correction_answer_clear (&answer);
}

static void
test_two_readings_that_cloth_cannot_explain (void)
{
  HwCorrectionTask task = usual_task ();
  HwReading readings[2];
  HwCorrectionAnswer answer;
  g_autofree char *text = NULL;

  read_marks (readings, corners, 2, (Lie){ 0, { 0, 0 }, 1.08 }, 0);
  answer = answer_to (readings, 2, &task);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_READ_AGAIN);
  g_assert_cmpint (answer.outlier, ==, -1);
  text = hw_correction_advice_text (&answer, readings, 2, &task, HW_UNIT_MM);
  assert_has (text, "Read both marks again");
  hw_correction_answer_clear (&answer);
}

/* Cloth gives a few per cent (common practice, no source); what lies farther apart was read or compared wrongly, however many readings say so. */
static void
test_no_cloth_stretches_so_far (void)
{
  for (guint n = 2; n <= 4; n++)
    for (int percent = -12; percent <= 12; percent += 8)
      {
        HwCorrectionTask task = usual_task ();
        HwReading readings[4];
        HwCorrectionAnswer answer;
        g_autofree char *text = NULL;
        gboolean too_much = ABS (percent) > 5;

        read_marks (readings, corners, n, (Lie){ 1, { 2, -1 }, 1 + percent / 100.0 }, 0);
        answer = answer_to (readings, n, &task);
        text = hw_correction_advice_text (&answer, readings, n, &task, HW_UNIT_MM);
        g_assert_cmpfloat_with_epsilon (answer.stretch, percent, 1e-6);
        g_assert_cmpint (answer.outlier, ==, -1);
        g_assert_cmpint (answer.stretch_too_much, ==, too_much);
        g_assert_cmpint (answer.advice == HW_ADVICE_READ_AGAIN, ==, too_much);
        if (!too_much)
          assert_has (text,
                      percent > 0 ? "The cloth has stretched by 4.0 %" : "The cloth has drawn in by 4.0 %");
        else if (n == 2)
          assert_has (text, "read a third one");
        else
          assert_has (text, percent > 0 ? "The readings lie 12.0 % farther apart than planned"
                                        : "The readings lie 12.0 % nearer together than planned");
        hw_correction_answer_clear (&answer);
      }
}

/* A reading left out counts for nothing and still gets its residual. */
static void
test_a_reading_left_out (void)
{
  HwCorrectionTask task = usual_task ();
  HwReading readings[4];
  HwCorrectionAnswer answer;

  read_marks (readings, corners, 4, (Lie){ 2, { 1, 1 }, 1 }, 0);
  readings[0].at.x += 8;
  readings[0].left_out = TRUE;
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.outlier, ==, -1);
  g_assert_cmpuint (answer.n_used, ==, 3);
  g_assert_cmpfloat_with_epsilon (answer.exact.turn, 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (answer.residuals[0], 8, 1e-9);
  hw_correction_answer_clear (&answer);
  /* An outlier is told by its place among all readings. */
  readings[0].left_out = FALSE;
  readings[0].at.x -= 8;
  readings[3].at.y += 8;
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.outlier, ==, 3);
  g_assert_cmpfloat_with_epsilon (answer.outlier_by, 8, 1e-9);
  g_assert_cmpfloat_with_epsilon (answer.stretch, 0, 1e-6);
  hw_correction_answer_clear (&answer);
}

static void
assert_refused (const HwReading *readings, guint n, HwFitError code, const char *part)
{
  HwCorrectionTask task = usual_task ();
  HwCorrectionAnswer answer;
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_correction_find (readings, n, &task, &answer, &error));
  g_assert_error (error, HW_FIT_ERROR, (gint)code);
  assert_has (error->message, part);
  hw_correction_answer_clear (&answer);
}

static void
test_where_there_is_no_answer (void)
{
  HwReading none = { .letter = "A", .left_out = TRUE };
  HwReading near[] = { { .letter = "A", .design = { 5, 5 }, .at = { 5, 6 } },
                       { .letter = "B", .design = { 5.6, 5.5 }, .at = { 9, 6 } } };
  HwReading same[] = { { .letter = "A", .design = { -50, 5 }, .at = { 5, 6 } },
                       { .letter = "B", .design = { 50, 5 }, .at = { 5, 6 } } };
  HwReading far[] = { { .letter = "A", .design = { -50, 5 }, .at = { -50, 5 } },
                      { .letter = "B", .design = { 50, 5 }, .at = { 1e300, NAN } } };

  assert_refused (NULL, 0, HW_FIT_ERROR_TOO_FEW, "reading");
  assert_refused (&none, 1, HW_FIT_ERROR_TOO_FEW, "reading");
  assert_refused (near, 2, HW_FIT_ERROR_COINCIDENT, "near each other");
  assert_refused (same, 2, HW_FIT_ERROR_COINCIDENT, "one and the same place");
  assert_refused (far, 2, HW_FIT_ERROR_FAR, "mark B");
}

/* Two marks must lie 1 mm apart, whichever of them: here the first and the last do. */
static void
test_how_near_marks_may_lie (void)
{
  HwCorrectionTask task = usual_task ();
  HwReading readings[3];
  HwCorrectionAnswer answer;

  for (int more = 0; more <= 1; more++)
    {
      HwPoint marks[] = { { 20, 30 }, { 20.3, 30.4 }, { 20.6 + 0.1 * more, 30.8 } };

      read_marks (readings, marks, 3, (Lie){ 0, { 2, 5 }, 1 }, 0);
      if (more)
        {
          answer = answer_to (readings, 3, &task);
          g_assert_true (answer.stretch_seen);
          g_assert_cmpfloat_with_epsilon (answer.exact.turn, 0, 1e-6);
          hw_correction_answer_clear (&answer);
        }
      else
        {
          readings[2].design.x -= 0.01;
          assert_refused (readings, 3, HW_FIT_ERROR_COINCIDENT, "near each other");
        }
    }
}

static void
test_marks_on_one_line_are_fine (void)
{
  HwPoint marks[] = { { -60, -80 }, { -60, 0 }, { -60, 80 }, { -60, 40 } };
  HwCorrectionTask task = usual_task ();
  HwReading readings[4];
  HwCorrectionAnswer answer;

  read_marks (readings, marks, 4, (Lie){ -3, { 2, 5 }, 1 }, 0);
  answer = answer_to (readings, 4, &task);
  g_assert_cmpfloat_with_epsilon (answer.exact.turn, -3, 1e-9);
  hw_correction_answer_clear (&answer);
}

static void
assert_text (double u, double v, double turn, HwUnit unit, const char *expected)
{
  g_autofree char *text = hw_correction_text (&(HwCorrection){ { u, v }, turn }, unit);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_words_of_the_machine (void)
{
  g_autofree char *way = hw_way_text ((HwPoint){ -1.83, 0.62 }, HW_UNIT_MM);
  g_autofree char *spot = hw_way_text ((HwPoint){ 0.04, -0.04 }, HW_UNIT_MM);
  g_autofree char *inches = hw_way_text ((HwPoint){ 0.254, -2.54 }, HW_UNIT_INCH);
  /* What its figure would round to nothing is left away, and nothing else. */
  g_autofree char *grain = hw_way_text ((HwPoint){ -0.0126, 0.0126 }, HW_UNIT_INCH);
  g_autofree char *midway = hw_way_text ((HwPoint){ 0.0005 * HW_MM_PER_INCH, 0 }, HW_UNIT_INCH);
  g_autofree char *tenth = hw_way_text ((HwPoint){ 0, 0.05 }, HW_UNIT_MM);

  g_assert_cmpstr (way, ==, "1.8 mm left, 0.6 mm towards you");
  g_assert_cmpstr (spot, ==, "on the spot");
  g_assert_cmpstr (inches, ==, "0.010 in right, 0.100 in away from you");
  g_assert_cmpstr (grain, ==, "on the spot");
  g_assert_cmpstr (midway, ==, "0.001 in right");
  g_assert_cmpstr (tenth, ==, "0.1 mm towards you");
  assert_text (-1.8, 0.6, 1, HW_UNIT_MM, "Shift 1.8 mm left, 0.6 mm towards you; turn 1 degree clockwise.");
  assert_text (1.8, 0, -1.5, HW_UNIT_MM, "Shift 1.8 mm right; turn 1.5 degrees anticlockwise.");
  assert_text (0, -12, 0, HW_UNIT_MM, "Shift 12.0 mm away from you.");
  assert_text (0, 0, -2, HW_UNIT_MM, "Turn 2 degrees anticlockwise.");
  assert_text (0, 0, 0, HW_UNIT_MM, "Nothing to enter.");
  assert_text (0.25, 0.5, 0.25, HW_UNIT_MM,
               "Shift 0.25 mm right, 0.50 mm towards you; turn 0.25 degrees clockwise.");
  assert_text (2.54, 0, 0, HW_UNIT_INCH, "Shift 0.100 in right.");
}

/* Four readings that disagree and of which none stands out; where nothing is stitched yet; and a machine that does not turn, judged by
 * the corners of the stitching. */
static void
test_what_to_do_at_the_edges (void)
{
  HwCorrectionTask task = usual_task ();
  const HwPoint off[] = { { 9, 0 }, { 0, -8 }, { 10, 3 }, { -4, 9 } };
  HwPoint stitching[] = { { -60, -80 }, { 60, 80 } };
  HwReading readings[4];
  HwCorrectionAnswer answer;
  g_autofree char *all = NULL;
  g_autofree char *bare = NULL;

  read_marks (readings, corners, 4, (Lie){ 0, { 0, 0 }, 1 }, 0);
  for (guint i = 0; i < 4; i++)
    {
      readings[i].at.x += off[i].x;
      readings[i].at.y += off[i].y;
    }
  answer = answer_to (readings, 4, &task);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_READ_AGAIN);
  g_assert_cmpint (answer.outlier, ==, -1);
  all = hw_correction_advice_text (&answer, readings, 4, &task, HW_UNIT_MM);
  assert_has (all, "none of them stands out. Read all marks again.");
  hw_correction_answer_clear (&answer);

  task.n_targets = 0;
  read_marks (readings, corners, 4, (Lie){ 0, { 2, 0 }, 1 }, 0);
  answer = answer_to (readings, 4, &task);
  bare = hw_correction_advice_text (&answer, readings, 4, &task, HW_UNIT_MM);
  g_assert_cmpstr (bare, ==, "Shift 2.0 mm right.");
  hw_correction_answer_clear (&answer);

  task = usual_task ();
  task.turn_step = 0;
  task.stitching = stitching;
  task.n_stitching = 2;
  task.half_width = 80;
  task.half_height = 100;
  read_marks (readings, corners, 4, (Lie){ -2, { 0, 0 }, 1 }, 0);
  answer = answer_to (readings, 4, &task);
  g_assert_true (answer.turn_lacks);
  g_assert_cmpfloat (answer.leaves_field, ==, 0);
  g_assert_cmpint (answer.advice, ==, HW_ADVICE_HOOP_AGAIN);
  hw_correction_answer_clear (&answer);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/correction/the-hooping-is-found-again", test_the_hooping_is_found_again);
  g_test_add_func ("/registration/correction/one-reading-gives-a-shift", test_one_reading_gives_a_shift);
  g_test_add_func ("/registration/correction/no-cloth-stretches-so-far", test_no_cloth_stretches_so_far);
  g_test_add_func ("/registration/correction/a-stretch-is-told-when-it-is-more-than-chance",
                   test_a_stretch_is_told_when_it_is_more_than_chance);
  g_test_add_func ("/registration/correction/marks-near-each-other-tell-little-of-a-stretch",
                   test_marks_near_each_other_tell_little_of_a_stretch);
  g_test_add_func ("/registration/correction/what-to-do", test_what_to_do);
  g_test_add_func ("/registration/correction/a-turn-that-cannot-be-seen-is-let-be",
                   test_a_turn_that_cannot_be_seen_is_let_be);
  g_test_add_func ("/registration/correction/two-readings-that-cloth-cannot-explain",
                   test_two_readings_that_cloth_cannot_explain);
  g_test_add_func ("/registration/correction/a-reading-left-out", test_a_reading_left_out);
  g_test_add_func ("/registration/correction/where-there-is-no-answer", test_where_there_is_no_answer);
  g_test_add_func ("/registration/correction/how-near-marks-may-lie", test_how_near_marks_may_lie);
  g_test_add_func ("/registration/correction/marks-on-one-line-are-fine", test_marks_on_one_line_are_fine);
  g_test_add_func ("/registration/correction/words-of-the-machine", test_words_of_the_machine);
  g_test_add_func ("/registration/correction/what-to-do-at-the-edges", test_what_to_do_at_the_edges);
  return g_test_run ();
}

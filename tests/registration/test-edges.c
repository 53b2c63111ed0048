/* Where the numbers of registration run out: too few, in one place, on one line, no numbers, outside the picture; and the answer's words there. */
#include <string.h>

#include "readings.h"

#include "registration/draw-in.h"
#include "registration/homography.h"
#include "registration/mark-error.h"
#include "registration/mark-finder.h"
#include "registration/rigid-fit.h"

static void
assert_has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("\"%s\" is not said in: %s", part, text);
}

static void
test_similarity_of_little (void)
{
  const HwPoint one[] = { { 3, 4 } }, there[] = { { 5, 1 } }, place[] = { { 1, 1 }, { 1, 1 }, { 1, 1 } };
  const HwPoint apart[] = { { 0, 0 }, { 10, 0 }, { 0, 10 } };
  HwRigidFit fit;
  double scale = 0;
  g_autoptr (GError) none = NULL, from = NULL, to = NULL, rigid = NULL;

  g_assert_false (hw_similarity_fit (NULL, NULL, 0, &fit, &scale, &none));
  g_assert_error (none, HW_FIT_ERROR, HW_FIT_ERROR_TOO_FEW);
  g_assert_true (hw_similarity_fit (one, there, 1, &fit, &scale, NULL));
  g_assert_true (fit.turn == 0 && fit.shift.x == 2 && fit.shift.y == -3 && scale == 1);
  g_assert_false (hw_similarity_fit (place, apart, 3, &fit, &scale, &from));
  g_assert_error (from, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT);
  g_assert_false (hw_similarity_fit (apart, place, 3, &fit, &scale, &to));
  g_assert_error (to, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT);
  g_assert_false (hw_rigid_fit (apart, place, 3, &fit, &rigid));
  g_assert_error (rigid, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT);
}

static void
test_marks_and_targets_that_are_not_there (void)
{
  const HwPoint mark = { 5, 5 };

  g_assert_cmpfloat (hw_mark_error_worst (&mark, 1, SIGMA, NULL, 0), ==, 0);
  g_assert_true (isinf (hw_mark_error (NULL, 0, SIGMA, mark)));
  g_assert_true (isinf (hw_mark_spread (NULL, 0, SIGMA, mark).xx));
}

/* What remains, to be found by trying every step about the answer. */
static double
worst_of (const HwCorrectionAnswer *answer, const HwCorrectionTask *task, HwCorrection chosen)
{
  double worst = 0;

  for (guint i = 0; i < task->n_targets; i++)
    {
      HwPoint exact = hw_point_turn (task->targets[i], answer->exact.turn);
      HwPoint p = hw_correction_apply (&chosen, task->targets[i]);

      worst
          = MAX (worst, hypot (p.x - exact.x - answer->exact.shift.x, p.y - exact.y - answer->exact.shift.y));
    }
  return worst;
}

/* Motifs in a row, in any order: the smallest circle about them is the one over the outermost two. */
static void
test_motifs_in_a_row (void)
{
  const HwPoint marks[] = { { -80, -60 }, { 80, -60 }, { 80, 60 } };
  const guint orders[][3] = { { 0, 1, 2 }, { 0, 2, 1 }, { 1, 0, 2 }, { 1, 2, 0 }, { 2, 0, 1 }, { 2, 1, 0 } };

  for (guint trial = 0; trial < 60; trial++)
    {
      const double across = between (20, 70), up = between (-40, 40), middle = between (-0.9, 0.9);
      const HwPoint row[] = { { -across, -up }, { middle * across, middle * up }, { across, up } };
      Lie lie = { between (-3, 3), point_between (-2, 2), 1 };
      double first = -1;

      for (guint o = 0; o < G_N_ELEMENTS (orders); o++)
        {
          const HwPoint targets[] = { row[orders[o][0]], row[orders[o][1]], row[orders[o][2]] };
          HwCorrectionTask task = { .shift_step = 0.5,
                                    .turn_step = 1,
                                    .sigma = SIGMA,
                                    .tolerance = 5,
                                    .targets = targets,
                                    .n_targets = 3 };
          HwReading readings[3];
          HwCorrectionAnswer answer;

          read_marks (readings, marks, 3, lie, 0);
          g_assert_true (hw_correction_find (readings, 3, &task, &answer, NULL));
          if (first < 0)
            first = answer.worst;
          g_assert_cmpfloat_with_epsilon (answer.worst, first, 1e-6);
          for (int u = -3; u <= 3; u++)
            for (int v = -3; v <= 3; v++)
              for (int turn = -1; turn <= 1; turn++)
                {
                  HwCorrection other = { { answer.chosen.shift.x + 0.5 * u, answer.chosen.shift.y + 0.5 * v },
                                         answer.chosen.turn + turn };

                  g_assert_cmpfloat (worst_of (&answer, &task, other), >=, answer.worst - 1e-6);
                }
          hw_correction_answer_clear (&answer);
        }
    }
}

/* A mark in the middle of the others has no arm to be turned by; its reading is named all the same. */
static void
test_a_mark_in_the_middle_of_the_others (void)
{
  const HwPoint marks[] = { { -60, -60 }, { 60, -60 }, { 60, 60 }, { -60, 60 }, { 0, 0 } };
  HwCorrectionTask task = { .shift_step = 0.1, .turn_step = 1, .sigma = SIGMA, .tolerance = 0.7 };
  HwReading readings[5];
  HwCorrectionAnswer answer;

  read_marks (readings, marks, 5, (Lie){ 1, { 1, 2 }, 1 }, 0);
  readings[4].at.x += 8;
  g_assert_true (hw_correction_find (readings, 5, &task, &answer, NULL));
  g_assert_cmpint (answer.outlier, ==, 4);
  g_assert_cmpfloat_with_epsilon (answer.outlier_by, 8, 1e-6);
  hw_correction_answer_clear (&answer);
}

static HwCorrectionAnswer
two_read (const HwReading *readings, const HwCorrectionTask *task)
{
  HwCorrectionAnswer answer;

  g_assert_true (hw_correction_find (readings, 2, task, &answer, NULL));
  return answer;
}

/* The field is left to each side; a machine that cannot turn, and a turn too small to be told in figures. */
static void
test_what_makes_her_hoop_again (void)
{
  const HwPoint marks[] = { { -60, 0 }, { 60, 0 } }, wide[] = { { 74, 0 } }, high[] = { { 0, 94 } },
                low[] = { { 0, -94 } };
  const struct
  {
    const HwPoint *stitching;
    HwPoint shift;
  } sides[] = { { wide, { 2, 0 } }, { high, { 0, 3 } }, { low, { 0, -3 } } };
  HwReading readings[2];
  HwCorrectionAnswer answer;

  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    {
      HwCorrectionTask task = { .shift_step = 0.1,
                                .turn_step = 1,
                                .sigma = SIGMA,
                                .tolerance = 5,
                                .half_width = 75,
                                .half_height = 95,
                                .stitching = sides[i].stitching,
                                .n_stitching = 1 };

      read_marks (readings, marks, 2, (Lie){ 0, sides[i].shift, 1 }, 0);
      answer = two_read (readings, &task);
      g_assert_cmpint (answer.advice, ==, HW_ADVICE_HOOP_AGAIN);
      g_assert_cmpfloat_with_epsilon (answer.leaves_field, i == 0 ? 1 : 2, 1e-6);
      hw_correction_answer_clear (&answer);
      task.half_height = 0; /* no field is known */
      answer = two_read (readings, &task);
      g_assert_cmpfloat (answer.leaves_field, ==, 0);
      hw_correction_answer_clear (&answer);
    }
  {
    HwCorrectionTask task
        = { .shift_step = 0.1, .sigma = SIGMA, .tolerance = 1e-6, .stitching = wide, .n_stitching = 1 };
    g_autofree char *text = NULL;

    read_marks (readings, marks, 2, (Lie){ 1e-4, { 0, 0 }, 1 }, 0);
    answer = two_read (readings, &task);
    g_assert_true (answer.turn_lacks);
    text = hw_correction_advice_text (&answer, readings, 2, &task, HW_UNIT_MM);
    assert_has (text, "Hoop again");
    g_assert_null (strstr (text, "(null)"));
    hw_correction_answer_clear (&answer);
  }
}

static void
test_readings_that_are_no_place (void)
{
  const double odd[] = { NAN, INFINITY, 2e4, -2e4 };
  HwCorrectionTask task = { .shift_step = 0.1, .turn_step = 1, .sigma = SIGMA, .tolerance = 0.7 };

  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    for (guint where = 0; where < 4; where++)
      {
        HwReading readings[] = { { .letter = "A", .design = { -50, 0 }, .at = { -50, 0 } },
                                 { .letter = "B", .design = { 50, 0 }, .at = { 50, 0 } } };
        double *number[]
            = { &readings[1].design.x, &readings[1].design.y, &readings[1].at.x, &readings[1].at.y };
        HwCorrectionAnswer answer;
        g_autoptr (GError) error = NULL;

        *number[where] = odd[i];
        g_assert_false (hw_correction_find (readings, 2, &task, &answer, &error));
        g_assert_error (error, HW_FIT_ERROR, HW_FIT_ERROR_FAR);
        assert_has (error->message, "mark B");
      }
}

static void
test_photo_points_that_are_no_place (void)
{
  const HwPhotoPoint square[] = { { .px = { 0, 0 }, .mm = { 0, 0 } },
                                  { .px = { 100, 0 }, .mm = { 10, 0 } },
                                  { .px = { 100, 100 }, .mm = { 10, 10 } },
                                  { .px = { 0, 100 }, .mm = { 0, 10 } } };
  const double sizes[][3] = { { INFINITY, 100, 0 }, { 100, INFINITY, 0 }, { 100, 100, NAN } };
  HwHomography h;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (
          hw_homography_fit (square, 4, sizes[i][0], sizes[i][1], sizes[i][2], FALSE, &h, NULL, &error));
      g_assert_error (error, HW_HOMOGRAPHY_ERROR, HW_HOMOGRAPHY_ERROR_NOT_FINITE);
    }
  for (guint where = 0; where < 4; where++)
    {
      HwPhotoPoint points[4];
      double *number[] = { &points[2].px.x, &points[2].px.y, &points[2].mm.x, &points[2].mm.y };
      g_autoptr (GError) error = NULL;

      memcpy (points, square, sizeof points);
      *number[where] = NAN;
      g_assert_false (hw_homography_fit (points, 4, 100, 100, 0, FALSE, &h, NULL, &error));
      g_assert_error (error, HW_HOMOGRAPHY_ERROR, HW_HOMOGRAPHY_ERROR_NOT_FINITE);
    }
  for (guint way = 0; way < 2; way++)
    {
      HwPhotoPoint points[4];
      g_autoptr (GError) place = NULL, line = NULL;

      memcpy (points, square, sizeof points);
      for (guint i = 0; i < 4; i++)
        *(way == 0 ? &points[i].px : &points[i].mm) = (HwPoint){ 7, 7 };
      g_assert_false (hw_homography_fit (points, 4, 100, 100, 0, FALSE, &h, NULL, &place));
      g_assert_error (place, HW_HOMOGRAPHY_ERROR, HW_HOMOGRAPHY_ERROR_LINE);
      memcpy (points, square, sizeof points);
      for (guint i = 0; i < 4; i++)
        *(way == 0 ? &points[i].px : &points[i].mm) = (HwPoint){ 10 * i, 20 * i };
      g_assert_false (hw_homography_fit (points, 4, 100, 100, 0, FALSE, &h, NULL, &line));
      g_assert_error (line, HW_HOMOGRAPHY_ERROR, HW_HOMOGRAPHY_ERROR_LINE);
    }
}

/* The bad point is named whether or not she asks by how much. */
static void
test_a_bad_point_without_its_measure (void)
{
  HwPhotoPoint points[7];
  HwHomography h;
  double by;

  for (guint i = 0; i < 7; i++)
    {
      points[i] = (HwPhotoPoint){ .px = { 100 * (i % 3) + 7 * i, 110 * (i / 3) + 3 * (i % 2) } };
      points[i].mm = (HwPoint){ points[i].px.x / 4, points[i].px.y / 4 };
    }
  g_assert_true (hw_homography_fit (points, 7, 300, 300, 0, FALSE, &h, NULL, NULL));
  g_assert_cmpint (hw_homography_bad_point (points, 5, &h, 300, 300, NULL), ==, -1);
  points[4].mm.x += 12;
  g_assert_true (hw_homography_fit (points, 7, 300, 300, 0, FALSE, &h, NULL, NULL));
  g_assert_cmpint (hw_homography_bad_point (points, 7, &h, 300, 300, NULL), ==, 4);
  g_assert_cmpint (hw_homography_bad_point (points, 7, &h, 300, 300, &by), ==, 4);
  g_assert_cmpfloat_with_epsilon (by, 12, 0.5);
}

/* A guess outside the picture, or none; nothing is found, and nothing outside is looked at. */
static void
test_crosses_outside_the_picture (void)
{
  const HwPoint odd[] = { { NAN, 5 },   { 5, NAN },  { -500, 20 }, { 500, 20 },
                          { 20, -500 }, { 20, 500 }, { -1, -1 },   { 41, 41 } };
  const double arms[] = { 2, 2e5, NAN };
  g_autoptr (HwPicture) picture = hw_picture_new (40, 40, 40 * 4, g_malloc0 (40 * 40 * 4));
  HwFoundMark found;

  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    for (guint big = 0; big < 2; big++)
      {
        g_assert_false (hw_find_cross (picture, odd[i], big ? 1e9 : 8, 6, &found));
        g_assert_cmpfloat (found.confidence, ==, 0);
      }
  for (guint i = 0; i < G_N_ELEMENTS (arms); i++)
    g_assert_false (hw_find_cross (picture, (HwPoint){ 20, 20 }, 8, arms[i], &found));
  g_assert_false (hw_find_cross (picture, (HwPoint){ 20, 20 }, -1, 6, &found));
}

static void
test_stretches_of_little (void)
{
  const HwPoint near[] = { { 0, 0 }, { 3, 0 } }, far[] = { { 0, 0 }, { NAN, 0 } };
  const HwDistance torn[]
      = { { { 0, 0 }, { 100, 0 }, 100 }, { { 0, 0 }, { 0, 100 }, 100 }, { { 0, 0 }, { 70, 70 }, 118 } };
  HwStretch stretch = { .kind = HW_STRETCH_ALIKE, .xx = 1.01, .yy = 1.01 };
  g_autofree char *grown = hw_stretch_text (&stretch), *shrunk = NULL;
  g_autoptr (GError) one = NULL, short_ = NULL, odd = NULL, none = NULL;
  HwStretch fit;

  stretch.xx = stretch.yy = 0.99;
  shrunk = hw_stretch_text (&stretch);
  assert_has (grown, "Stretched 1.0 %");
  assert_has (shrunk, "Drawn in 1.0 %");
  g_assert_false (hw_stretch_from_points (near, near, 1, &fit, &one));
  g_assert_error (one, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_TOO_FEW);
  g_assert_false (hw_stretch_from_points (near, near, 2, &fit, &short_));
  g_assert_error (short_, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_TOO_SHORT);
  g_assert_false (hw_stretch_from_points (far, far, 2, &fit, &odd));
  g_assert_nonnull (odd);
  /* Three distances that no stretch of a cloth explains: the diagonal as long as if there were none across. */
  g_assert_false (hw_stretch_from_distances (torn, 3, &fit, &none));
  g_assert_error (none, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_DOUBTFUL);
}

#define ADD(name, test) g_test_add_func ("/registration/edges/" name, test)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("similarity-of-little", test_similarity_of_little);
  ADD ("marks-and-targets-that-are-not-there", test_marks_and_targets_that_are_not_there);
  ADD ("motifs-in-a-row", test_motifs_in_a_row);
  ADD ("a-mark-in-the-middle-of-the-others", test_a_mark_in_the_middle_of_the_others);
  ADD ("what-makes-her-hoop-again", test_what_makes_her_hoop_again);
  ADD ("readings-that-are-no-place", test_readings_that_are_no_place);
  ADD ("photo-points-that-are-no-place", test_photo_points_that_are_no_place);
  ADD ("a-bad-point-without-its-measure", test_a_bad_point_without_its_measure);
  ADD ("crosses-outside-the-picture", test_crosses_outside_the_picture);
  ADD ("stretches-of-little", test_stretches_of_little);
  return g_test_run ();
}

/* Bounds and beginnings of what readings and points are asked, each worked out by hand: the first and the last of them count, and none behind the last. */
#include <math.h>
#include <string.h>

#include "registration/correction-private.h"
#include "registration/draw-in.h"
#include "registration/homography.h"

/* Only what is counted may leave the field, here one millimetre to each side; with no motif none is the worst. */
static void
the_field_is_left_by_what_is_stitched (void)
{
  const HwPoint stitching[] = { { 0, 3 }, { 500, 500 } };
  const HwReading readings[] = { { .letter = "A", .design = { -60, 0 }, .at = { -60, 0 } },
                                 { .letter = "B", .design = { 60, 0 }, .at = { 60, 0 } } };
  const HwCorrectionTask task = { .shift_step = 0.1,
                                  .turn_step = 1,
                                  .sigma = 0.35,
                                  .tolerance = 5,
                                  .half_width = 75,
                                  .half_height = 1,
                                  .stitching = stitching,
                                  .n_stitching = 1 };
  HwCorrectionAnswer answer;

  g_assert_true (hw_correction_find (readings, 2, &task, &answer, NULL));
  g_assert_cmpfloat_with_epsilon (answer.leaves_field, 2, 1e-9);
  g_assert_cmpint (answer.worst_target, ==, -1);
  hw_correction_answer_clear (&answer);
}

/* Marks at the corners of a square, the last read 5.2 sigma farther out. The others agree, so it lies 5.2^2 / (1 + 1 / 3) = 20.3 off, and chance goes to 13.8 in 1 of 1000 (chi
 * square, 2 degrees). An even stretch of all would leave half of 5.2^2, 13.5, where chance leaves 13.3 in 1 of 100 (4 degrees): handbook tables. */
static void
a_mark_read_too_far_out_is_named (void)
{
  HwPoint design[] = { { -50, -50 }, { 50, -50 }, { -50, 50 }, { 50, 50 } }, at[4];
  guint index[] = { 0, 1, 2, 3 };
  const HwUsedReadings used = { design, at, index, 4 };
  HwAgreement agreement;

  memcpy (at, design, sizeof at);
  at[3].x += 5.2 / sqrt (2);
  at[3].y += 5.2 / sqrt (2);
  agreement = hw_readings_agree (&used, 1);
  g_assert_cmpint (agreement.outlier, ==, 3);
  g_assert_cmpfloat_with_epsilon (agreement.by, 5.2, 1e-9);
}

/* A hooping 30 mm off is the hooping's doing where two readings say the same; 60 mm off is none. */
static void
two_that_agree_tell_of_the_hooping (void)
{
  const double off[] = { 30, 60 };

  for (guint i = 0; i < G_N_ELEMENTS (off); i++)
    {
      const HwReading readings[] = { { .letter = "A", .design = { -60, 0 }, .at = { off[i] - 60, 0 } },
                                     { .letter = "B", .design = { 60, 0 }, .at = { off[i] + 60, 0 } } };

      g_assert_cmpint (hw_readings_doubt (readings, 2, 0.35).kind, ==, i == 0 ? HW_DOUBT_NONE : HW_DOUBT_FAR);
    }
}

static void
a_stretch_is_told_and_applied (void)
{
  const HwDistance distances[] = { { { 0, 0 }, { 100, 0 }, 100 }, { { 0, 0 }, { 5, 0 }, 5 } };
  const HwStretch stretch = { .kind = HW_STRETCH_FULL, .xx = 1.1, .xy = 0.2, .yy = 0.9 };
  const HwStretch little = { .kind = HW_STRETCH_ALIKE, .xx = 1.005, .yy = 1.005 };
  const HwPoint p = hw_stretch_apply (&stretch, (HwPoint){ 10, 20 }, (HwPoint){ 30, 50 });
  g_autofree char *text = hw_stretch_text (&little);
  g_autoptr (GError) error = NULL;
  HwStretch fit = { 0 };

  /* 10 + 1.1 * 20 + 0.2 * 30, 20 + 0.2 * 20 + 0.9 * 30 */
  g_assert_cmpfloat_with_epsilon (p.x, 38, 1e-9);
  g_assert_cmpfloat_with_epsilon (p.y, 51, 1e-9);
  g_assert_nonnull (strstr (text, "Stretched 0.5 %"));
  g_assert_false (hw_stretch_from_distances (distances, 2, &fit, &error));
  g_assert_nonnull (strstr (error->message, "Distance 2 is too short"));
  g_assert_true (fit.xx == 1 && fit.xy == 0 && fit.yy == 1);
}

static gboolean
fits (const HwPhotoPoint *points, guint n, double width, double bow, HwHomography *h, HwHomographyError *code)
{
  g_autoptr (GError) error = NULL;
  gboolean fitted = hw_homography_fit (points, n, width, width, bow, FALSE, h, NULL, &error);

  *code = error != NULL ? (HwHomographyError)error->code : 0;
  return fitted;
}

/* Each of the four in turn, in the photo and on the cloth: no number, or the one beside three that lie on a line but for a hundredth of its length. */
static void
each_point_counts (void)
{
  const HwPoint square[] = { { 0, 0 }, { 100, 0 }, { 100, 100 }, { 0, 100 } };
  const HwPoint row[] = { { 0, 0 }, { 100, 1 }, { 200, 0 } };
  HwHomography h;
  HwHomographyError code;

  for (guint way = 0; way < 2; way++)
    for (guint i = 0; i < 4; i++)
      {
        HwPhotoPoint odd[4], line[4];

        for (guint k = 0, n = 0; k < 4; k++)
          {
            const HwPoint p = k == i ? (HwPoint){ 100, 90 } : row[n++];

            odd[k] = (HwPhotoPoint){ .px = square[k], .mm = square[k] };
            line[k] = odd[k];
            *(way == 0 ? &line[k].px : &line[k].mm) = p;
          }
        *(way == 0 ? &odd[i].px.x : &odd[i].mm.x) = NAN;
        g_assert_false (fits (odd, 4, 200, 0, &h, &code));
        g_assert_cmpint (code, ==, HW_HOMOGRAPHY_ERROR_NOT_FINITE);
        g_assert_false (fits (line, 4, 200, 0, &h, &code));
        g_assert_cmpint (code, ==, HW_HOMOGRAPHY_ERROR_LINE);
      }
}

/* From a strip 1.5e-155 px wide to 8e153 mm the way is longer than numbers go (1.8e308). */
static void
a_view_that_is_no_number_is_none (void)
{
  const double wide = 1.5e-155, high = 3e-154, mm = 8e153;
  const HwPhotoPoint points[] = { { .px = { 0, 0 }, .mm = { 0, 0 } },
                                  { .px = { wide, 0 }, .mm = { mm, 0 } },
                                  { .px = { wide, high }, .mm = { mm, mm } },
                                  { .px = { 0, high }, .mm = { 0, mm } } };
  HwHomography h;
  HwHomographyError code;

  g_assert_false (fits (points, 4, high, 0, &h, &code));
  g_assert_cmpint (code, ==, HW_HOMOGRAPHY_ERROR_NOT_FINITE);
}

/* A bow that is given is taken as it is, however strong; mm as the division model has them. */
static void
a_bow_that_is_given_stays (void)
{
  const HwPoint px[] = { { -20, -20 }, { 20, -20 }, { 20, 20 }, { -20, 20 }, { -10, 5 } };
  HwPhotoPoint points[5];
  HwHomography h;
  HwHomographyError code;

  for (guint i = 0; i < 5; i++)
    {
      double part = 1 + 0.5 * (px[i].x * px[i].x + px[i].y * px[i].y) / 5000;

      points[i] = (HwPhotoPoint){ .px = { 50 + px[i].x, 50 + px[i].y },
                                  .mm = { px[i].x / part / 4, px[i].y / part / 4 } };
    }
  g_assert_true (fits (points, 5, 100, 0.5, &h, &code));
  g_assert_cmpfloat (h.bow, ==, 0.5);
  for (guint i = 0; i < 5; i++)
    g_assert_cmpfloat (hw_point_distance (hw_homography_apply (&h, points[i].px), points[i].mm), <, 1e-9);
}

/* Seen in a mirror, half as wide: what lies at -10 is seen at 20. And x / (x / 2 + 1) comes to 2 nowhere: that is the horizon. */
static void
back_to_the_photo (void)
{
  const HwHomography mirror = { .m = { { -0.5, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } }, .diagonal = 100 };
  const HwHomography steep
      = { .m = { { 1, 0, 0 }, { 0, 1, 0 }, { 0.5, 0, 1 } }, .bow = -0.1, .diagonal = 100 };
  HwPoint px;

  g_assert_true (hw_homography_back (&mirror, (HwPoint){ -10, 7 }, &px));
  g_assert_true (px.x == 20 && px.y == 7);
  g_assert_false (hw_homography_back (&steep, (HwPoint){ 2, 1 }, &px));
}

/* Four pixels to the millimetre. One of six is 0.8 mm, some three pixels, off: within what a hand does with so few points. What stands behind the last is
 * no point. */
static void
a_bad_point_is_sought_among_those_given (void)
{
  HwPhotoPoint points[7]
      = { { .px = { 40, 40 } },   { .px = { 360, 40 } },  { .px = { 360, 360 } }, { .px = { 40, 360 } },
          { .px = { 190, 110 } }, { .px = { 130, 250 } }, { .px = { NAN, NAN } } };
  HwHomography h;
  HwHomographyError code;

  for (guint i = 0; i < 6; i++)
    points[i].mm = (HwPoint){ points[i].px.x / 4, points[i].px.y / 4 };
  points[5].mm.x += 0.8;
  g_assert_true (fits (points, 6, 400, 0, &h, &code));
  g_assert_cmpint (hw_homography_bad_point (points, 6, &h, 400, 400, NULL), ==, -1);
}

#define ADD(name, test) g_test_add_func ("/registration/readings-by-hand/" name, test)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("the-field-is-left-by-what-is-stitched", the_field_is_left_by_what_is_stitched);
  ADD ("a-mark-read-too-far-out-is-named", a_mark_read_too_far_out_is_named);
  ADD ("two-that-agree-tell-of-the-hooping", two_that_agree_tell_of_the_hooping);
  ADD ("a-stretch-is-told-and-applied", a_stretch_is_told_and_applied);
  ADD ("each-point-counts", each_point_counts);
  ADD ("a-view-that-is-no-number-is-none", a_view_that_is_no_number_is_none);
  ADD ("a-bow-that-is-given-stays", a_bow_that_is_given_stays);
  ADD ("back-to-the-photo", back_to_the_photo);
  ADD ("a-bad-point-is-sought-among-those-given", a_bad_point_is_sought_among_those_given);
  return g_test_run ();
}

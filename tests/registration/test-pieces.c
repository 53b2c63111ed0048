/* The parts that finding and fitting are made of, each by itself: a patch of grey, one cross, the sides of a sheet, the machine's steps. */
#include <math.h>

#include "registration/correction-private.h"
#include "registration/draw-in.h"
#include "registration/grey-patch.h"
#include "registration/mark-finder-private.h"
#include "registration/mark-finder.h"
#include "registration/sheet-finder-private.h"
#include "registration/stretch-fit.h"

#include "lit-picture.h"
#include "seen-cross.h"
#include "seen-square.h"

/* A sheet between two corners, as bright where a pixel lies half on it as its area says. */
typedef struct
{
  double x0, y0, x1, y1;
} Sheet;

static double
part_within (double middle, double from, double to)
{
  return CLAMP (middle + 0.5 - from, 0, 1) - CLAMP (middle + 0.5 - to, 0, 1);
}

static double
sheet_light (const void *what, double x, double y)
{
  const Sheet *sheet = what;

  return 80 + 150 * part_within (x, sheet->x0, sheet->x1) * part_within (y, sheet->y0, sheet->y1);
}

static double
dark_cross_light (const void *what, double x, double y)
{
  return cross_light (what, 200, x, y);
}

static void
a_patch_goes_on_beyond_its_border (void)
{
  g_auto (HwGreyPatch) patch = patch_of (NULL, 3);

  for (guint i = 0; i < 9; i++)
    patch.grey[i] = 10.0f * (float)i;
  g_assert_cmpfloat (hw_grey_patch_at (&patch, 1.5, 1.5), ==, 40);
  g_assert_cmpfloat (hw_grey_patch_at (&patch, 2, 1.5), ==, 45);
  g_assert_cmpfloat (hw_grey_patch_at (&patch, -7, -3), ==, 0);
  g_assert_cmpfloat (hw_grey_patch_at (&patch, 50, -3), ==, 20);
  g_assert_cmpfloat (hw_grey_patch_at (&patch, -7, 50), ==, 60);
  g_assert_cmpfloat (hw_grey_patch_at (&patch, 50, 50), ==, 80);
}

static void
a_patch_beside_the_picture_is_none (void)
{
  Sheet sheet = { 5, 5, 15, 15 };
  g_autoptr (HwPicture) picture = picture_of (20, 20, sheet_light, &sheet);
  g_auto (HwGreyPatch) patch = { 0 };

  g_assert_false (hw_grey_patch_take (&patch, picture, -9, 2, -1, 9, 1));
  g_assert_false (hw_grey_patch_take (&patch, picture, 2, -9, 9, -1, 1));
  g_assert_false (hw_grey_patch_take (&patch, picture, 20, 2, 29, 9, 1));
  g_assert_false (hw_grey_patch_take (&patch, picture, 2, 20, 9, 29, 1));
  g_assert_true (hw_grey_patch_take (&patch, picture, -9, -9, 1, 1, 1));
  g_assert_cmpuint (patch.width, ==, 1);
}

/* Each pixel by the bell curve of Gauss as it is written down, the border going on outside. */
static void
a_patch_is_smoothed (void)
{
  g_auto (HwGreyPatch) patch = { .width = 14, .height = 9, .grey = g_new0 (float, 14 * 9), .coarse = 1 };
  float plain[14 * 9];

  for (guint i = 0; i < 14 * 9; i++)
    plain[i] = patch.grey[i] = (float)g_test_rand_double_range (0, 255);
  hw_grey_patch_smooth (&patch, 1.5);
  for (int y = 0; y < 9; y++)
    for (int x = 0; x < 14; x++)
      {
        double sum = 0, weights = 0;

        for (int v = -5; v <= 5; v++)
          for (int u = -5; u <= 5; u++)
            {
              double weight = exp (-(u * u + v * v) / (2 * 1.5 * 1.5));

              sum += weight * plain[CLAMP (y + v, 0, 8) * 14 + CLAMP (x + u, 0, 13)];
              weights += weight;
            }
        g_assert_cmpfloat_with_epsilon (patch.grey[y * 14 + x], sum / weights, 0.01);
      }
}

/* In the middle, and in each corner where the patch cuts off a part of what is looked at. */
static void
a_cross_is_fitted_at_the_border (void)
{
  const double places[] = { 4.3, 20.2, 35.6 };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    for (guint k = 0; k < G_N_ELEMENTS (places); k++)
      {
        HwCross cross = { { places[i], places[k] }, { 0.2, 0.2 + G_PI / 2 }, 1.1, -90, 0, 0 }, fitted = cross;
        g_auto (HwGreyPatch) patch = patch_of (&cross, 40);

        fitted.at = (HwPoint){ cross.at.x + 0.5, cross.at.y - 0.4 };
        fitted.turn[0] += 0.05;
        fitted.contrast = -60;
        g_assert_true (hw_cross_fit (&patch, 8, &fitted));
        g_assert_cmpfloat (hw_point_distance (fitted.at, cross.at), <, 0.01);
        g_assert_cmpfloat_with_epsilon (fitted.contrast, -90, 0.5);
        g_assert_cmpfloat (fitted.told, >, 0.99);
      }
}

/* What a cross leaves unexplained, here a pattern of squares, is a part of what is uneven without the light that falls off across it. */
static void
shade_counts_for_nothing (void)
{
  double told[3];

  for (guint i = 0; i < 3; i++)
    {
      HwCross cross = { { 20, 20 }, { 0.2, 0.2 + G_PI / 2 }, 1.1, -40, 0, 0 };
      g_auto (HwGreyPatch) patch = patch_of (&cross, 40);

      for (guint y = 0; y < 40; y++)
        for (guint x = 0; x < 40; x++)
          patch.grey[y * 40 + x] += (float)((x + y) % 2 * 20) + 4.0f * (float)(i == 1 ? x : i == 2 ? y : 0);
      g_assert_true (hw_cross_fit (&patch, 8, &cross));
      told[i] = cross.told;
    }
  g_assert_cmpfloat (told[0], <, 0.8);
  g_assert_cmpfloat_with_epsilon (told[1], told[0], 0.01);
  g_assert_cmpfloat_with_epsilon (told[2], told[0], 0.01);
}

static void
what_is_no_cross_is_not_fitted (void)
{
  HwCross cross = { { 20, 20 }, { 0, G_PI / 2 }, 1.1, -90, 0, 0 }, small = cross, bright = cross,
          none = cross;
  g_auto (HwGreyPatch) patch = patch_of (&cross, 40);
  g_auto (HwGreyPatch) bare = patch_of (NULL, 40);

  /* Nine numbers are not told from a handful of pixels. */
  g_assert_false (hw_cross_fit (&patch, 3, &small));
  /* Sought lighter than the cloth, and it is darker. */
  bright.contrast = 90;
  g_assert_false (hw_cross_fit (&patch, 8, &bright));
  /* A cross accounts for nothing where all is even. */
  hw_cross_fit (&bare, 8, &none);
  g_assert_cmpfloat (none.told, ==, 0);
}

/* The picture ends where the spokes of a cross do: there is no other place to tell it from. */
static void
a_cross_fills_its_picture (void)
{
  const HwCross cross = { { 15.3, 15.1 }, { 0.1, 0.1 + G_PI / 2 }, 1, -120, 0, 0 };
  g_autoptr (HwPicture) picture = picture_of (31, 31, dark_cross_light, &cross);
  g_autoptr (HwPicture) flat = picture_of (90, 20, dark_cross_light, &cross);
  HwFoundMark mark;

  g_assert_true (hw_find_cross (picture, (HwPoint){ 15, 15 }, 6, 12, &mark));
  g_assert_cmpfloat (hw_point_distance (mark.px, cross.at), <, 0.1);
  g_assert_false (hw_find_cross (flat, (HwPoint){ 15, 10 }, 6, 12, &mark));
}

static void
assert_follows (Sheet sheet, double reach, double off)
{
  g_autoptr (HwPicture) picture = picture_of (700, 520, sheet_light, &sheet);
  const HwPoint wanted[]
      = { { sheet.x0, sheet.y0 }, { sheet.x1, sheet.y0 }, { sheet.x1, sheet.y1 }, { sheet.x0, sheet.y1 } };
  HwPoint corners[4];

  for (guint i = 0; i < 4; i++)
    corners[i]
        = (HwPoint){ wanted[i].x + (i == 0 || i == 3 ? -off : off), wanted[i].y + (i < 2 ? off : -off) };
  g_assert_true (hw_sheet_follow_sides (picture, corners, reach));
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat (hw_point_distance (corners[i], wanted[i]), <, 0.15);
}

static void
sides_are_followed_near_and_far (void)
{
  assert_follows ((Sheet){ 100.4, 90.7, 400.2, 300.6 }, 6, 2);
  assert_follows ((Sheet){ 100.4, 90.7, 400.2, 300.6 }, 3, 1);
  /* up to the picture's border */
  assert_follows ((Sheet){ 3.3, 2.6, 696.8, 517.2 }, 6, 1);
  /* a sheet as small as any that is one, and a reach of many steps */
  assert_follows ((Sheet){ 300.2, 200.6, 330.7, 228.1 }, 4, 1);
  assert_follows ((Sheet){ 150.5, 130.5, 560.5, 400.5 }, 120, 10);
}

static void
what_has_no_four_sides_is_no_sheet (void)
{
  const Sheet sheet = { 100, 100, 300, 250 };
  g_autoptr (HwPicture) picture = picture_of (700, 520, sheet_light, &sheet);
  const Sheet little = { 100, 100, 106, 106 };
  g_autoptr (HwPicture) small = picture_of (700, 520, sheet_light, &little);
  HwPoint speck[] = { { 100, 100 }, { 106, 100 }, { 106, 106 }, { 100, 106 } };
  HwPoint slanted[] = { { 100, 100 }, { 300, 100 }, { 300, 102 }, { 100, 102 } };
  const HwPoint bare[] = { { 400, 300 }, { 600, 300 }, { 600, 450 }, { 400, 450 } };
  HwPoint corners[4] = { bare[0], bare[1], bare[2], bare[3] };

  g_assert_false (hw_sheet_follow_sides (small, speck, 3));
  g_assert_false (hw_sheet_follow_sides (picture, slanted, 4));
  g_assert_false (hw_sheet_follow_sides (picture, corners, 4));
  g_assert_false (hw_sheet_reduce (bare, 3, corners));
}

/* A sheet that the photo cuts off has no corners there; a strip of a photo holds none. */
static void
a_sheet_beyond_the_photo_is_not_found (void)
{
  const Sheet whole = { 100, 100, 300, 250 };
  const Sheet cut[]
      = { { 100, 300, 300, 600 }, { 500, 100, 800, 250 }, { -50, 100, 150, 250 }, { 100, -50, 300, 150 } };
  g_autoptr (HwPicture) there = picture_of (700, 520, sheet_light, &whole);
  g_autoptr (HwPicture) strip = picture_of (2000, 2, sheet_light, &whole);
  HwPoint corners[4];

  g_assert_true (hw_find_sheet (there, corners));
  g_assert_cmpfloat (hw_point_distance (corners[2], (HwPoint){ 300, 250 }), <, 0.2);
  g_assert_false (hw_find_sheet (strip, corners));
  for (guint i = 0; i < G_N_ELEMENTS (cut); i++)
    {
      g_autoptr (HwPicture) picture = picture_of (700, 520, sheet_light, &cut[i]);

      g_assert_false (hw_find_sheet (picture, corners));
    }
}

static HwCorrection
steps_for (double turn, HwPoint shift, double shift_step, const HwPoint *targets, guint n)
{
  const HwRigidFit exact = { .turn = turn, .shift = shift };
  const HwCorrectionTask task
      = { .shift_step = shift_step, .turn_step = 1, .targets = targets, .n_targets = n };

  return hw_correction_steps (&exact, &task);
}

/* Half a step to one side is as near as half a step to the other: the machine moves less. */
static void
of_two_equal_steps_the_smaller_is_taken (void)
{
  const HwPoint one[] = { { 0, 0 } }, two[] = { { -50, 0 }, { 50, 0 } };

  for (int side = -1; side <= 1; side += 2)
    {
      HwCorrection shift = steps_for (0, (HwPoint){ side * 0.25, 0 }, 0.5, one, 1);
      HwCorrection up = steps_for (0, (HwPoint){ 1, side * 0.75 }, 0.5, one, 1);
      HwCorrection turn = steps_for (side * 0.5, (HwPoint){ 0, 0 }, 0.1, two, 2);
      HwCorrection more = steps_for (side * 1.5, (HwPoint){ 0, 0 }, 0.1, two, 2);
      HwCorrection alone = steps_for (side * 0.5, (HwPoint){ 0, 0 }, 0.1, one, 1);
      HwCorrection dust = steps_for (side * (0.5 - 1e-11), (HwPoint){ 0, 0 }, 0.1, two, 2);

      g_assert_true (shift.shift.x == 0 && shift.shift.y == 0);
      g_assert_true (up.shift.x == 1 && up.shift.y == side * 0.5);
      g_assert_true (turn.turn == 0 && dust.turn == 0 && more.turn == side && alone.turn == 0);
    }
}

/* Steps so coarse that any turn may help: against all turns and the shifts about. */
static void
coarse_steps_are_tried_all_around (void)
{
  const HwPoint targets[] = { { 80, 0 }, { 104, 0 }, { 95, 2 } };
  const HwRigidFit exact = { .turn = 20.3, .shift = { 29, 31 } };
  const HwCorrection chosen = steps_for (exact.turn, exact.shift, 60, targets, 3);
  double least = INFINITY, worst = 0;

  for (int turn = -180; turn <= 180; turn++)
    for (int u = -5; u <= 5; u++)
      for (int v = -5; v <= 5; v++)
        {
          const HwCorrection other = { { 60 * u, 60 * v }, turn };
          double now = 0;

          for (guint i = 0; i < 3; i++)
            {
              HwPoint to = hw_point_turn (targets[i], exact.turn),
                      p = hw_correction_apply (&other, targets[i]);
              now = MAX (now, hypot (to.x + exact.shift.x - p.x, to.y + exact.shift.y - p.y));
            }
          least = MIN (least, now);
          if (turn == chosen.turn && 60 * u == chosen.shift.x && 60 * v == chosen.shift.y)
            worst = now;
        }
  g_assert_cmpfloat_with_epsilon (worst, least, 1e-9);
}

/* A lens bent more than lenses are is taken for one bent as much as they are. */
static void
no_lens_bends_more_than_lenses_do (void)
{
  const HwPoint plain[] = { { 400, 300 }, { 3600, 300 }, { 3600, 2700 }, { 400, 2700 } };

  for (int side = -1; side <= 1; side += 2)
    {
      Seen seen = seen_by_corners (plain);
      HwPhotoPoint points[20];
      double residuals[20], worst = 0;
      HwHomography h;

      seen.bow = side * 0.38;
      seen_points (&seen, points, 20, 0);
      g_assert_true (hw_homography_fit (points, 20, PHOTO_WIDTH, PHOTO_HEIGHT, 0, TRUE, &h, residuals, NULL));
      g_assert_cmpfloat (h.bow, ==, side * 0.3);
      for (guint i = 0; i < 20; i++)
        worst = MAX (worst, residuals[i]);
      g_assert_cmpfloat (worst, >, 0.1);
    }
}

/* Through a lens that draws in, no more than so much of the cloth is ever seen. */
static void
a_bent_lens_sees_no_farther (void)
{
  const HwPoint plain[] = { { 400, 300 }, { 3600, 300 }, { 3600, 2700 }, { 400, 2700 } };
  const HwPoint far = { 3000, 1000 };
  HwPhotoPoint points[8];
  HwHomography h;
  HwPoint px;

  for (int bent = 0; bent <= 1; bent++)
    {
      Seen seen = seen_by_corners (plain);

      seen.bow = 0.25 * bent;
      seen_points (&seen, points, 8, 0);
      g_assert_true (
          hw_homography_fit (points, 8, PHOTO_WIDTH, PHOTO_HEIGHT, seen.bow, FALSE, &h, NULL, NULL));
      g_assert_cmpint (hw_homography_back (&h, far, &px), ==, !bent);
    }
}

/* The horizon goes through the photo's corner, where the matrix has its last number: there is none to make one of. */
static void
the_horizon_may_go_through_the_corner (void)
{
  HwPhotoPoint points[4];
  HwHomography h;

  for (guint i = 0; i < 4; i++)
    {
      double y = i < 2 ? 1000 : 2800;

      points[i].px = (HwPoint){ i == 1 || i == 2 ? 3000 : 1000, y };
      points[i].mm = (HwPoint){ (points[i].px.x - 2000) * 1000 / y, -200000 / y };
    }
  g_assert_true (hw_homography_fit (points, 4, PHOTO_WIDTH, PHOTO_HEIGHT, 0, FALSE, &h, NULL, NULL));
  g_assert_cmpfloat (fabs (h.m[2][2]), <, 1e-6);
  g_assert_cmpfloat_with_epsilon (hw_homography_apply (&h, (HwPoint){ 2000, 2000 }).y, -100, 1e-6);
  g_assert_false (isfinite (hw_homography_apply (&h, (HwPoint){ 2000, -10 }).x));
}

/* Seen from very near: a pixel is less than what a hand can be held to. */
static void
a_bad_point_is_told_from_very_near (void)
{
  HwPhotoPoint points[7];
  HwHomography h;

  for (guint i = 0; i < 7; i++)
    {
      points[i] = (HwPhotoPoint){ .px = { 100 * (i % 3) + 7 * i, 110 * (i / 3) + 3 * (i % 2) } };
      points[i].mm = (HwPoint){ points[i].px.x / 200, points[i].px.y / 200 };
    }
  points[4].mm.x += 0.06;
  g_assert_true (hw_homography_fit (points, 7, 300, 300, 0, FALSE, &h, NULL, NULL));
  g_assert_cmpint (hw_homography_bad_point (points, 7, &h, 300, 300, NULL), ==, -1);
  points[4].mm.x += 0.5;
  g_assert_true (hw_homography_fit (points, 7, 300, 300, 0, FALSE, &h, NULL, NULL));
  g_assert_cmpint (hw_homography_bad_point (points, 7, &h, 300, 300, NULL), ==, 4);
}

static void
no_cloth_stretches_so (void)
{
  const double squares[][3] = { { -1, 0, -1 }, { 1, 1.1, 1 }, { 0.5, 0, 0.5 }, { 1.5, 0, 1.5 } };
  const double turned[3] = { 1.1 * 1.1, 0, 0.9 * 0.9 };
  const HwPoint far[] = { { 0, 0 }, { INFINITY, 0 } };
  HwStretch stretch;
  g_autoptr (GError) endless = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (squares); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hw_stretch_root (squares[i], &stretch, &error));
      g_assert_error (error, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_DOUBTFUL);
    }
  g_assert_true (hw_stretch_root (turned, &stretch, NULL));
  g_assert_cmpfloat_with_epsilon (stretch.xx, 1.1, 1e-12);
  g_assert_cmpfloat_with_epsilon (stretch.yy, 0.9, 1e-12);
  g_assert_false (hw_stretch_from_points (far, far, 2, &stretch, &endless));
  g_assert_error (endless, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_TOO_SHORT);
}

#define ADD(name, test) g_test_add_func ("/registration/pieces/" name, test)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("a-patch-goes-on-beyond-its-border", a_patch_goes_on_beyond_its_border);
  ADD ("a-patch-beside-the-picture-is-none", a_patch_beside_the_picture_is_none);
  ADD ("a-patch-is-smoothed", a_patch_is_smoothed);
  ADD ("a-cross-is-fitted-at-the-border", a_cross_is_fitted_at_the_border);
  ADD ("shade-counts-for-nothing", shade_counts_for_nothing);
  ADD ("what-is-no-cross-is-not-fitted", what_is_no_cross_is_not_fitted);
  ADD ("a-cross-fills-its-picture", a_cross_fills_its_picture);
  ADD ("sides-are-followed-near-and-far", sides_are_followed_near_and_far);
  ADD ("what-has-no-four-sides-is-no-sheet", what_has_no_four_sides_is_no_sheet);
  ADD ("a-sheet-beyond-the-photo-is-not-found", a_sheet_beyond_the_photo_is_not_found);
  ADD ("of-two-equal-steps-the-smaller-is-taken", of_two_equal_steps_the_smaller_is_taken);
  ADD ("coarse-steps-are-tried-all-around", coarse_steps_are_tried_all_around);
  ADD ("no-lens-bends-more-than-lenses-do", no_lens_bends_more_than_lenses_do);
  ADD ("a-bent-lens-sees-no-farther", a_bent_lens_sees_no_farther);
  ADD ("the-horizon-may-go-through-the-corner", the_horizon_may_go_through_the_corner);
  ADD ("a-bad-point-is-told-from-very-near", a_bad_point_is_told_from_very_near);
  ADD ("no-cloth-stretches-so", no_cloth_stretches_so);
  return g_test_run ();
}

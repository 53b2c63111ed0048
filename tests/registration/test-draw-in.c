/* What the cloth drew in: exact changes found again, no more told than the distances tell, and sentences where there is no answer. */
#include "registration/draw-in.h"

#include <string.h>

#include "readings.h"

static void
assert_has (const char *text, const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("\"%s\" is not said in: %s", part, text);
}

static HwDistance
distance_of (HwPoint from, HwPoint to, const HwStretch *truth)
{
  HwPoint a = hw_stretch_apply (truth, from, from), b = hw_stretch_apply (truth, from, to);

  return (HwDistance){ from, to, hw_point_distance (a, b) };
}

static void
assert_stretch (const HwStretch *stretch, HwStretchKind kind, double xx, double xy, double yy)
{
  g_assert_cmpint (stretch->kind, ==, kind);
  g_assert_cmpfloat_with_epsilon (stretch->xx, xx, 1e-9);
  g_assert_cmpfloat_with_epsilon (stretch->xy, xy, 1e-9);
  g_assert_cmpfloat_with_epsilon (stretch->yy, yy, 1e-9);
}

/* Six distances between four marks tell all; the sides of a rectangle tell across and along; one tells one number. */
static void
test_as_much_is_told_as_the_directions_tell (void)
{
  for (guint i = 0; i < 500; i++)
    {
      HwStretch truth = { .xx = between (0.9, 1.1), .xy = between (-0.04, 0.04), .yy = between (0.9, 1.1) };
      HwStretch upright = { .xx = truth.xx, .yy = truth.yy }, alike = { .xx = truth.xx, .yy = truth.xx };
      HwDistance all[6];
      HwStretch stretch;
      guint n = 0;

      for (guint k = 0; k < 4; k++)
        for (guint m = k + 1; m < 4; m++)
          all[n++] = distance_of (corners[k], corners[m], &truth);
      g_assert_true (hw_stretch_from_distances (all, n, &stretch, NULL));
      assert_stretch (&stretch, HW_STRETCH_FULL, truth.xx, truth.xy, truth.yy);
      g_assert_cmpfloat (stretch.rms, <, 1e-9);
      g_free (stretch.residuals);

      all[0] = distance_of (corners[0], corners[1], &upright);
      all[1] = distance_of (corners[1], corners[2], &upright);
      g_assert_true (hw_stretch_from_distances (all, 2, &stretch, NULL));
      assert_stretch (&stretch, HW_STRETCH_AXES, truth.xx, 0, truth.yy);
      g_free (stretch.residuals);

      all[0] = distance_of (corners[0], corners[2], &alike);
      g_assert_true (hw_stretch_from_distances (all, 1, &stretch, NULL));
      assert_stretch (&stretch, HW_STRETCH_ALIKE, truth.xx, 0, truth.xx);
      g_free (stretch.residuals);
    }
}

/* The two diagonals of a square lie in two directions and yet tell nothing of across against along. */
static void
test_diagonals_of_a_square (void)
{
  HwStretch truth = { .xx = 0.98, .yy = 0.98 }, stretch;
  HwDistance diagonals[] = { distance_of ((HwPoint){ 0, 0 }, (HwPoint){ 100, 100 }, &truth),
                             distance_of ((HwPoint){ 100, 0 }, (HwPoint){ 0, 100 }, &truth) };

  g_assert_true (hw_stretch_from_distances (diagonals, 2, &stretch, NULL));
  assert_stretch (&stretch, HW_STRETCH_ALIKE, 0.98, 0, 0.98);
  g_free (stretch.residuals);
}

/* Measured twice with opposite mistakes, the mistakes cancel and remain as residuals. */
static void
test_mistakes_remain (void)
{
  HwDistance twice[]
      = { { { 0, 0 }, { 200, 0 }, 199 }, { { 200, 0 }, { 0, 0 }, 197 }, { { 0, 0 }, { 0, 100 }, 99.5 } };
  HwStretch stretch;

  g_assert_true (hw_stretch_from_distances (twice, 3, &stretch, NULL));
  g_assert_cmpint (stretch.kind, ==, HW_STRETCH_AXES);
  g_assert_cmpfloat_with_epsilon (stretch.xx, 0.99, 1e-4);
  g_assert_cmpfloat_with_epsilon (stretch.yy, 0.995, 1e-9);
  g_assert_cmpfloat_with_epsilon (stretch.residuals[0], 1, 0.01);
  g_assert_cmpfloat_with_epsilon (stretch.residuals[1], -1, 0.01);
  g_assert_cmpfloat_with_epsilon (stretch.residuals[2], 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (stretch.rms, sqrt (2.0 / 3), 0.01);
  g_free (stretch.residuals);
}

/* However the hooping lies, the change of the cloth is found in the scene's own axes. */
static void
test_points_found_turned_and_shifted (void)
{
  for (guint i = 0; i < 500; i++)
    {
      HwStretch truth = { .xx = between (0.9, 1.1), .xy = between (-0.04, 0.04), .yy = between (0.9, 1.1) },
                stretch;
      HwPoint found[4], shift = point_between (-300, 300);
      double turn = between (-180, 180);

      for (guint k = 0; k < 4; k++)
        {
          HwPoint p = hw_point_turn (hw_stretch_apply (&truth, (HwPoint){ 0, 0 }, corners[k]), turn);

          found[k] = (HwPoint){ p.x + shift.x, p.y + shift.y };
        }
      g_assert_true (hw_stretch_from_points (corners, found, g_test_rand_int_range (3, 5), &stretch, NULL));
      assert_stretch (&stretch, HW_STRETCH_FULL, truth.xx, truth.xy, truth.yy);
      g_assert_null (stretch.residuals);
      /* Two points tell their distance. */
      g_assert_true (hw_stretch_from_points (corners, found, 2, &stretch, NULL));
      g_assert_cmpint (stretch.kind, ==, HW_STRETCH_ALIKE);
      g_assert_cmpfloat_with_epsilon (stretch.xx, hypot (truth.xx, truth.xy), 1e-9);
      g_assert_cmpfloat (stretch.xx, ==, stretch.yy);
    }
}

static void
assert_refused (const HwDistance *distances, guint n, HwDrawInError code, const char *part)
{
  HwStretch stretch;
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_stretch_from_distances (distances, n, &stretch, &error));
  g_assert_error (error, HW_DRAW_IN_ERROR, (gint)code);
  assert_has (error->message, part);
  g_assert_null (stretch.residuals);
}

static void
test_distances_that_tell_nothing (void)
{
  HwDistance distances[] = { { { 0, 0 }, { 200, 0 }, 199 }, { { 0, 0 }, { 0, 9 }, 9 } };

  assert_refused (NULL, 0, HW_DRAW_IN_ERROR_TOO_FEW, "Measure one");
  assert_refused (distances, 2, HW_DRAW_IN_ERROR_TOO_SHORT, "Distance 2 is too short");
  distances[1] = (HwDistance){ { 0, 0 }, { 0, 0 }, 0 };
  assert_refused (distances, 2, HW_DRAW_IN_ERROR_TOO_SHORT, "Distance 2 is too short");
  distances[1] = (HwDistance){ { 0, 0 }, { 0, 100 }, 100 / 25.4 };
  assert_refused (distances, 2, HW_DRAW_IN_ERROR_DOUBTFUL, "other unit");
  assert_refused (distances, 2, HW_DRAW_IN_ERROR_DOUBTFUL,
                  "Distance 2 measures 3.9 mm where the scene has 100.0 mm");
  distances[1].measured = 98 * 25.4;
  assert_refused (distances, 2, HW_DRAW_IN_ERROR_DOUBTFUL, "other unit");
  distances[1].measured = 75;
  assert_refused (distances, 2, HW_DRAW_IN_ERROR_DOUBTFUL, "more than cloth gives");
  distances[1].measured = -100;
  assert_refused (distances, 2, HW_DRAW_IN_ERROR_DOUBTFUL, "more than cloth gives");
  distances[1].measured = NAN;
  assert_refused (distances, 2, HW_DRAW_IN_ERROR_DOUBTFUL, "more than cloth gives");
}

static void
assert_points_refused (
    const HwPoint *scene, const HwPoint *found, guint n, HwDrawInError code, const char *part)
{
  HwStretch stretch;
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_stretch_from_points (scene, found, n, &stretch, &error));
  g_assert_error (error, HW_DRAW_IN_ERROR, (gint)code);
  assert_has (error->message, part);
}

static void
test_points_that_tell_nothing (void)
{
  HwPoint scene[] = { { 0, 0 }, { 100, 0 }, { 0, 100 } }, near[] = { { 0, 0 }, { 4, 0 }, { 0, 4 } };
  HwPoint turned_over[] = { { 0, 0 }, { -100, 0 }, { 0, 100 } }, one[] = { { 5, 5 }, { 5, 5 }, { 5, 5 } };
  HwPoint line[] = { { 0, 0 }, { 100, 0 }, { 200, 0 } }, line_found[] = { { 0, 0 }, { 0, 99 }, { 0, 198 } };
  HwPoint nowhere[] = { { 0, 0 }, { NAN, 0 }, { 0, 100 } };
  HwStretch stretch;

  assert_points_refused (scene, scene, 1, HW_DRAW_IN_ERROR_TOO_FEW, "Read two");
  assert_points_refused (near, near, 3, HW_DRAW_IN_ERROR_TOO_SHORT, "near each other");
  assert_points_refused (scene, turned_over, 3, HW_DRAW_IN_ERROR_DOUBTFUL, "20 %");
  assert_points_refused (scene, one, 3, HW_DRAW_IN_ERROR_DOUBTFUL, "20 %");
  assert_points_refused (scene, one, 2, HW_DRAW_IN_ERROR_DOUBTFUL, "20 %");
  assert_points_refused (scene, nowhere, 3, HW_DRAW_IN_ERROR_DOUBTFUL, "20 %");
  assert_points_refused (nowhere, scene, 3, HW_DRAW_IN_ERROR_TOO_SHORT, "near each other");
  /* On a line the change along it is told. */
  g_assert_true (hw_stretch_from_points (line, line_found, 3, &stretch, NULL));
  assert_stretch (&stretch, HW_STRETCH_ALIKE, 0.99, 0, 0.99);
}

static void
test_affine_fit_says_where_it_cannot (void)
{
  HwPoint line[] = { { 0, 0 }, { 10, 10 }, { 20, 20 }, { 30, 30 } },
          twice[] = { { 0, 0 }, { 50, 0 }, { 50, 0 } };
  HwAffineFit fit;
  g_autoptr (GError) few = NULL;
  g_autoptr (GError) on_line = NULL;
  g_autoptr (GError) coincident = NULL;

  g_assert_false (hw_affine_fit (corners, corners, 2, &fit, &few));
  g_assert_error (few, HW_FIT_ERROR, HW_FIT_ERROR_TOO_FEW);
  g_assert_false (hw_affine_fit (line, corners, 4, &fit, &on_line));
  g_assert_error (on_line, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT);
  g_assert_false (hw_affine_fit (twice, corners, 3, &fit, &coincident));
  g_assert_error (coincident, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT);
}

/* At the corners of a rectangle, shifts of (0.3, -0.4) there and back in turn are at right angles to every affine change: the fit is the change
 * underneath, and each corner is left 0.5 mm off. */
static void
test_affine_fit_tells_what_it_leaves (void)
{
  HwPoint scene[4] = { { 10, 20 }, { 110, 20 }, { 110, 90 }, { 10, 90 } }, found[4];
  HwAffineFit fit;
  HwStretch stretch;

  for (guint i = 0; i < 4; i++)
    {
      double side = i % 2 == 0 ? 1 : -1;

      found[i] = (HwPoint){ 0.98 * scene[i].x + 0.01 * scene[i].y + 3 + 0.3 * side,
                            0.01 * scene[i].x + 1.02 * scene[i].y - 7 - 0.4 * side };
    }
  g_assert_true (hw_affine_fit (scene, found, 4, &fit, NULL));
  g_assert_cmpfloat_with_epsilon (fit.xx, 0.98, 1e-9);
  g_assert_cmpfloat_with_epsilon (fit.xy, 0.01, 1e-9);
  g_assert_cmpfloat_with_epsilon (fit.yx, 0.01, 1e-9);
  g_assert_cmpfloat_with_epsilon (fit.yy, 1.02, 1e-9);
  g_assert_cmpfloat_with_epsilon (fit.shift.x, 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (fit.shift.y, -7, 1e-9);
  g_assert_cmpfloat_with_epsilon (fit.rms, 0.5, 1e-9);
  g_assert_true (hw_stretch_from_points (scene, found, 4, &stretch, NULL));
  assert_stretch (&stretch, HW_STRETCH_FULL, 0.98, 0.01, 1.02);
  g_assert_cmpfloat_with_epsilon (stretch.rms, 0.5, 1e-9);
}

static void
assert_text (double xx, double yy, HwStretchKind kind, const char *expected)
{
  g_autofree char *text = hw_stretch_text (&(HwStretch){ .kind = kind, .xx = xx, .yy = yy });

  g_assert_cmpstr (text, ==, expected);
}

static void
test_words (void)
{
  assert_text (0.992, 0.997, HW_STRETCH_AXES, "Drawn in 0.8 % across, 0.3 % along the grain.");
  assert_text (1.008, 1.003, HW_STRETCH_FULL, "Stretched 0.8 % across, 0.3 % along the grain.");
  assert_text (0.992, 1.003, HW_STRETCH_AXES, "Drawn in 0.8 % across, stretched 0.3 % along the grain.");
  assert_text (1.008, 0.997, HW_STRETCH_AXES, "Stretched 0.8 % across, drawn in 0.3 % along the grain.");
  assert_text (0.992, 1.0001, HW_STRETCH_AXES, "Drawn in 0.8 % across, 0.0 % along the grain.");
  assert_text (1.0001, 0.992, HW_STRETCH_AXES, "Drawn in 0.0 % across, 0.8 % along the grain.");
  assert_text (1.0001, 0.9999, HW_STRETCH_AXES, "The cloth has kept its size.");
  assert_text (0.99, 0.99, HW_STRETCH_ALIKE,
               "Drawn in 1.0 % (the same across and along the grain, as far as can be told).");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/draw-in/as-much-is-told-as-the-directions-tell",
                   test_as_much_is_told_as_the_directions_tell);
  g_test_add_func ("/registration/draw-in/diagonals-of-a-square", test_diagonals_of_a_square);
  g_test_add_func ("/registration/draw-in/mistakes-remain", test_mistakes_remain);
  g_test_add_func ("/registration/draw-in/points-found-turned-and-shifted",
                   test_points_found_turned_and_shifted);
  g_test_add_func ("/registration/draw-in/distances-that-tell-nothing", test_distances_that_tell_nothing);
  g_test_add_func ("/registration/draw-in/points-that-tell-nothing", test_points_that_tell_nothing);
  g_test_add_func ("/registration/draw-in/affine-fit-says-where-it-cannot",
                   test_affine_fit_says_where_it_cannot);
  g_test_add_func ("/registration/draw-in/affine-fit-tells-what-it-leaves",
                   test_affine_fit_tells_what_it_leaves);
  g_test_add_func ("/registration/draw-in/words", test_words);
  return g_test_run ();
}

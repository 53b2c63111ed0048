/* The predicted error: least at the marks' centroid, less with more marks, without end where marks tell no turn. */
#include <math.h>

#include "registration/mark-error.h"
#include "registration/rigid-fit.h"

static void
test_shape (void)
{
  HwPoint marks[] = { { -50, 0 }, { 50, 0 }, { 0, 50 }, { 0, -50 } };

  /* Midway between two marks, what is left is one sigma; among four, less by the root of two. */
  g_assert_cmpfloat_with_epsilon (hw_mark_error (marks, 2, 0.35, (HwPoint){ 0, 0 }), 0.35, 1e-12);
  g_assert_cmpfloat_with_epsilon (hw_mark_error (marks, 4, 0.35, (HwPoint){ 0, 0 }), 0.35 / G_SQRT2, 1e-12);
  /* At a mark's own distance d = f, by the root of 1.5 more. */
  g_assert_cmpfloat_with_epsilon (hw_mark_error (marks, 2, 0.35, (HwPoint){ 0, 50 }), 0.35 * sqrt (1.5),
                                  1e-12);
  g_assert_cmpfloat_with_epsilon (hw_mark_error (marks, 2, 0.7, (HwPoint){ 0, 50 }), 0.7 * sqrt (1.5), 1e-12);
}

static void
test_no_turn_can_be_told (void)
{
  HwPoint marks[] = { { 5, 5 }, { 5, 5 } };

  g_assert_true (isinf (hw_mark_error (marks, 0, 0.35, (HwPoint){ 0, 0 })));
  g_assert_true (isinf (hw_mark_error (marks, 2, 0.35, (HwPoint){ 0, 0 })));
  g_assert_cmpfloat_with_epsilon (hw_mark_error (marks, 2, 0.35, (HwPoint){ 5, 5 }), 0.35, 1e-12);
}

static void
test_worst_is_the_largest (void)
{
  HwPoint marks[] = { { -50, 10 }, { 50, -20 }, { 7, 60 } };

  for (guint i = 0; i < 500; i++)
    {
      HwPoint targets[5];
      double worst = 0;

      for (guint k = 0; k < 5; k++)
        {
          targets[k] = (HwPoint){ g_test_rand_double_range (-99, 99), g_test_rand_double_range (-99, 99) };
          worst = MAX (worst, hw_mark_error (marks, 3, 0.35, targets[k]));
        }
      g_assert_cmpfloat (hw_mark_error_worst (marks, 3, 0.35, targets, 5), ==, worst);
    }
}

static double
normal (void)
{
  /* Box and Muller 1958. */
  return sqrt (-2 * log (1 - g_test_rand_double ())) * cos (2 * G_PI * g_test_rand_double ());
}

/* The spread about a target, beside as many marks drawn, read and fitted. The largest entry is what 2 % are of; 120,000 trials scatter by 0.5 %. */
static void
test_spread_against_simulation (void)
{
  const guint trials = 120000;

  for (guint layout = 0; layout < 6; layout++)
    {
      HwPoint marks[4], target = { g_test_rand_double_range (-90, 90), g_test_rand_double_range (-90, 90) };
      guint n = 2 + layout % 3;
      double xx = 0, xy = 0, yy = 0, most;
      HwMarkSpread spread;

      for (guint i = 0; i < n; i++)
        {
          HwPoint corner = hw_point_turn ((HwPoint){ 80, 0 }, 360.0 * i / n + 20 * layout);

          marks[i] = (HwPoint){ corner.x + g_test_rand_double_range (-15, 15),
                                corner.y + g_test_rand_double_range (-15, 15) };
        }
      spread = hw_mark_spread (marks, n, 0.35, target);
      for (guint k = 0; k < trials; k++)
        {
          HwPoint read[4], at;
          HwRigidFit fit;

          for (guint i = 0; i < n; i++)
            read[i] = (HwPoint){ marks[i].x + 0.35 * normal (), marks[i].y + 0.35 * normal () };
          g_assert_true (hw_rigid_fit (marks, read, n, &fit, NULL));
          at = hw_point_turn (target, fit.turn);
          at = (HwPoint){ at.x + fit.shift.x - target.x, at.y + fit.shift.y - target.y };
          xx += at.x * at.x / trials;
          xy += at.x * at.y / trials;
          yy += at.y * at.y / trials;
        }
      most = MAX (spread.xx, spread.yy);
      g_assert_cmpfloat_with_epsilon (xx, spread.xx, 0.02 * most);
      g_assert_cmpfloat_with_epsilon (xy, spread.xy, 0.02 * most);
      g_assert_cmpfloat_with_epsilon (yy, spread.yy, 0.02 * most);
    }
}

static void
test_spread_and_error_agree (void)
{
  HwPoint marks[] = { { -40, -20 }, { 60, 10 }, { 15, 70 } }, target = { 90, -30 };
  HwMarkSpread spread = hw_mark_spread (marks, 3, 0.35, target);
  double error = hw_mark_error (marks, 3, 0.35, target);
  HwPoint line = hw_point_turn ((HwPoint){ 1, 0 }, spread.angle);

  g_assert_cmpfloat_with_epsilon (spread.xx + spread.yy, error * error, 1e-12);
  g_assert_cmpfloat_with_epsilon (hypot (spread.along, spread.across), error, 1e-12);
  /* Along the line to the centroid nothing is added by the turn. */
  g_assert_cmpfloat_with_epsilon (line.x * line.x * spread.xx + 2 * line.x * line.y * spread.xy
                                      + line.y * line.y * spread.yy,
                                  0.35 * 0.35 / 3, 1e-12);
  g_assert_true (isinf (hw_mark_spread (marks, 1, 0.35, target).across));
  g_assert_cmpfloat (hw_mark_spread (marks, 1, 0.35, marks[0]).across, ==, 0.35);
  g_assert_cmpfloat (hw_mark_spread (marks, 1, 0.35, marks[0]).angle, ==, 0);
}

/* Marks nearer than a millimetre tell a turn badly, and yet as the formula says; one mark tells none, however near to it. */
static void
test_within_a_millimetre (void)
{
  HwPoint marks[] = { { 30, 40 }, { 30.1, 40.2 } }, near = { 30.3, 40 };
  HwMarkSpread spread = hw_mark_spread (marks, 2, 0.35, near);
  HwMarkSpread none = hw_mark_spread (NULL, 0, 0.35, near);

  g_assert_cmpfloat_with_epsilon (hypot (spread.along, spread.across), hw_mark_error (marks, 2, 0.35, near),
                                  1e-9);
  g_assert_cmpfloat (spread.across, >, 2 * spread.along);
  g_assert_true (isinf (hw_mark_spread (marks, 1, 0.35, near).across));
  g_assert_true (isinf (none.across));
  g_assert_cmpfloat (none.angle, ==, 0);
  g_assert_cmpfloat (hw_mark_error_worst (marks, 2, 0.35, NULL, 0), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/mark-error/shape", test_shape);
  g_test_add_func ("/registration/mark-error/no-turn-can-be-told", test_no_turn_can_be_told);
  g_test_add_func ("/registration/mark-error/worst-is-the-largest", test_worst_is_the_largest);
  g_test_add_func ("/registration/mark-error/spread-against-simulation", test_spread_against_simulation);
  g_test_add_func ("/registration/mark-error/spread-and-error-agree", test_spread_and_error_agree);
  g_test_add_func ("/registration/mark-error/within-a-millimetre", test_within_a_millimetre);
  return g_test_run ();
}

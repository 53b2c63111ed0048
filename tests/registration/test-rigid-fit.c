/* Least-squares fits: exact motions found again, the best of all near ones, and plain words where there is no answer. */
#include <math.h>

#include "registration/rigid-fit.h"

static HwPoint
moved (HwPoint p, double turn, double scale, HwPoint shift)
{
  HwPoint q = hw_point_turn (p, turn);

  return (HwPoint){ scale * q.x + shift.x, scale * q.y + shift.y };
}

static void
test_exact_motion_is_found_again (void)
{
  for (guint i = 0; i < 2000; i++)
    {
      HwPoint a[6], b[6], shift = { g_test_rand_double_range (-9, 9), g_test_rand_double_range (-9, 9) };
      guint n = g_test_rand_int_range (2, 7);
      double turn = g_test_rand_double_range (-179, 179), scale = g_test_rand_double_range (0.3, 3), found;
      HwRigidFit fit;

      for (guint k = 0; k < n; k++)
        {
          a[k] = (HwPoint){ g_test_rand_double_range (-300, 300), g_test_rand_double_range (-300, 300) };
          b[k] = moved (a[k], turn, 1, shift);
        }
      g_assert_true (hw_rigid_fit (a, b, n, &fit, NULL));
      g_assert_cmpfloat_with_epsilon (fit.turn, turn, 1e-9);
      g_assert_cmpfloat_with_epsilon (fit.shift.x, shift.x, 1e-9);
      g_assert_cmpfloat_with_epsilon (fit.shift.y, shift.y, 1e-9);
      g_assert_cmpfloat (fit.rms, <, 1e-9);
      for (guint k = 0; k < n; k++)
        b[k] = moved (a[k], turn, scale, shift);
      g_assert_true (hw_similarity_fit (a, b, n, &fit, &found, NULL));
      g_assert_cmpfloat_with_epsilon (found, scale, 1e-9);
      g_assert_cmpfloat_with_epsilon (fit.turn, turn, 1e-9);
      g_assert_cmpfloat (fit.rms, <, 1e-9);
    }
}

static double
rms_of (const HwPoint *a, const HwPoint *b, guint n, double turn, double scale, HwPoint shift)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    {
      double distance = hw_point_distance (moved (a[i], turn, scale, shift), b[i]);

      sum += distance * distance;
    }
  return sqrt (sum / n);
}

/* With readings that do not agree, no motion near the one found leaves less. */
static void
test_no_near_motion_is_better (void)
{
  for (guint i = 0; i < 300; i++)
    {
      HwPoint a[4], b[4];
      HwRigidFit rigid, similar;
      double scale;

      for (guint k = 0; k < 4; k++)
        {
          a[k] = (HwPoint){ g_test_rand_double_range (-90, 90), g_test_rand_double_range (-90, 90) };
          b[k] = (HwPoint){ a[k].x + g_test_rand_double_range (-9, 9),
                            a[k].y + g_test_rand_double_range (-9, 9) };
        }
      g_assert_true (hw_rigid_fit (a, b, 4, &rigid, NULL));
      g_assert_true (hw_similarity_fit (a, b, 4, &similar, &scale, NULL));
      g_assert_cmpfloat_with_epsilon (rigid.rms, rms_of (a, b, 4, rigid.turn, 1, rigid.shift), 1e-12);
      g_assert_cmpfloat (similar.rms, <=, rigid.rms + 1e-12);
      for (guint k = 0; k < 50; k++)
        {
          double turn = g_test_rand_double_range (-0.5, 0.5), grow = g_test_rand_double_range (-0.01, 0.01);
          HwPoint off = { g_test_rand_double_range (-0.5, 0.5), g_test_rand_double_range (-0.5, 0.5) };

          g_assert_cmpfloat (rms_of (a, b, 4, rigid.turn + turn, 1,
                                     (HwPoint){ rigid.shift.x + off.x, rigid.shift.y + off.y }),
                             >=, rigid.rms - 1e-12);
          g_assert_cmpfloat (rms_of (a, b, 4, similar.turn + turn, scale + grow,
                                     (HwPoint){ similar.shift.x + off.x, similar.shift.y + off.y }),
                             >=, similar.rms - 1e-12);
        }
    }
}

static void
test_one_pair_gives_a_shift (void)
{
  HwPoint a = { 10, 20 }, b = { 11.5, 19 };
  HwRigidFit fit;

  g_assert_true (hw_rigid_fit (&a, &b, 1, &fit, NULL));
  g_assert_cmpfloat (fit.turn, ==, 0);
  g_assert_cmpfloat (fit.shift.x, ==, 1.5);
  g_assert_cmpfloat (fit.shift.y, ==, -1);
  g_assert_cmpfloat (fit.rms, ==, 0);
}

static void
test_where_there_is_no_answer (void)
{
  HwPoint same[] = { { 3, 3 }, { 3, 3 } }, apart[] = { { 0, 0 }, { 5, 0 } };
  HwRigidFit fit;
  double scale;
  g_autoptr (GError) none = NULL;
  g_autoptr (GError) one_place = NULL;
  g_autoptr (GError) readings = NULL;

  g_assert_false (hw_rigid_fit (NULL, NULL, 0, &fit, &none));
  g_assert_error (none, HW_FIT_ERROR, HW_FIT_ERROR_TOO_FEW);
  g_assert_false (hw_rigid_fit (same, apart, 2, &fit, &one_place));
  g_assert_error (one_place, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT);
  g_assert_false (hw_similarity_fit (apart, same, 2, &fit, &scale, &readings));
  g_assert_error (readings, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/rigid-fit/exact-motion-is-found-again", test_exact_motion_is_found_again);
  g_test_add_func ("/registration/rigid-fit/no-near-motion-is-better", test_no_near_motion_is_better);
  g_test_add_func ("/registration/rigid-fit/one-pair-gives-a-shift", test_one_pair_gives_a_shift);
  g_test_add_func ("/registration/rigid-fit/where-there-is-no-answer", test_where_there_is_no_answer);
  return g_test_run ();
}

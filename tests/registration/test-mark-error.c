/* The predicted error: least at the marks' centroid, less with more marks, without end where marks tell no turn. */
#include <math.h>

#include "registration/mark-error.h"

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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/mark-error/shape", test_shape);
  g_test_add_func ("/registration/mark-error/no-turn-can-be-told", test_no_turn_can_be_told);
  g_test_add_func ("/registration/mark-error/worst-is-the-largest", test_worst_is_the_largest);
  return g_test_run ();
}

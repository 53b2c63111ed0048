/* Where a polynomial of degree four is not negative. */
#include <math.h>

#include "geometry/not-negative.h"

static double
value_at (const double c[5], double x)
{
  return (((c[4] * x + c[3]) * x + c[2]) * x + c[1]) * x + c[0];
}

static void
test_known_roots (void)
{
  /* (x - 1) (x - 2) (x - 3) (x - 4) */
  double c[5] = { 24, -50, 35, -10, 1 };
  HwSpan spans[3];

  g_assert_cmpuint (hw_not_negative (c, 0, 5, spans), ==, 3);
  g_assert_cmpfloat (spans[0].from, ==, 0);
  g_assert_cmpfloat_with_epsilon (spans[0].to, 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (spans[1].from, 2, 1e-12);
  g_assert_cmpfloat_with_epsilon (spans[1].to, 3, 1e-12);
  g_assert_cmpfloat_with_epsilon (spans[2].from, 4, 1e-12);
  g_assert_cmpfloat (spans[2].to, ==, 5);
}

static void
test_lower_degrees (void)
{
  double line[5] = { -1, 2, 0, 0, 0 }, one[5] = { 1, 0, 0, 0, 0 }, minus[5] = { -1, 0, 0, 0, 0 },
         zero[5] = { 0 };
  HwSpan spans[3];

  g_assert_cmpuint (hw_not_negative (line, 0, 1, spans), ==, 1);
  g_assert_cmpfloat_with_epsilon (spans[0].from, 0.5, 1e-15);
  g_assert_cmpfloat (spans[0].to, ==, 1);
  g_assert_cmpuint (hw_not_negative (one, -1, 1, spans), ==, 1);
  g_assert_cmpfloat (spans[0].from, ==, -1);
  g_assert_cmpuint (hw_not_negative (minus, -1, 1, spans), ==, 0);
  g_assert_cmpuint (hw_not_negative (zero, -1, 1, spans), ==, 1);
}

/* A hill that rises above zero by a hair is not overlooked. */
static void
test_a_low_hill (void)
{
  double c[5] = { 1e-7 - 0.09, 0.6, -1, 0, 0 }; /* 1e-7 - (x - 0.3)^2 */
  HwSpan spans[3];

  g_assert_cmpuint (hw_not_negative (c, -0.4, 0.4, spans), ==, 1);
  g_assert_cmpfloat_with_epsilon (spans[0].from, 0.3 - sqrt (1e-7), 1e-9);
  g_assert_cmpfloat_with_epsilon (spans[0].to, 0.3 + sqrt (1e-7), 1e-9);
}

static void
test_random_polynomials (void)
{
  guint several = 0;

  for (guint i = 0; i < 20000; i++)
    {
      double c[5], from = g_test_rand_double_range (-2, 0), to = g_test_rand_double_range (0, 2);
      HwSpan spans[3];
      guint n;

      for (guint k = 0; k < 5; k++)
        c[k] = g_test_rand_double_range (-1, 1) * (k == 0 ? 0.3 : 1);
      n = hw_not_negative (c, from, to, spans);
      several += n > 1;
      for (guint k = 0; k < n; k++)
        {
          g_assert_cmpfloat (spans[k].from, <=, spans[k].to);
          g_assert_cmpfloat (value_at (c, spans[k].from), >=, -1e-12);
          g_assert_cmpfloat (value_at (c, spans[k].to), >=, -1e-12);
        }
      for (guint k = 0; k <= 40; k++)
        {
          double x = k == 40 ? to : from + (to - from) * k / 40, value = value_at (c, x);
          gboolean listed = FALSE;

          for (guint s = 0; s < n; s++)
            listed = listed || (x >= spans[s].from && x <= spans[s].to);
          if (fabs (value) > 1e-12)
            g_assert_cmpint (listed, ==, value > 0);
        }
    }
  g_assert_cmpuint (several, >, 500);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/not-negative/known-roots", test_known_roots);
  g_test_add_func ("/geometry/not-negative/lower-degrees", test_lower_degrees);
  g_test_add_func ("/geometry/not-negative/a-low-hill", test_a_low_hill);
  g_test_add_func ("/geometry/not-negative/random-polynomials", test_random_polynomials);
  return g_test_run ();
}

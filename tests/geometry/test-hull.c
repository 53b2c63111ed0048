/* Convex hulls: found, merged, clipped, told apart. */
#include <math.h>

#include "geometry/hull.h"
#include "geometry/outline.h"

static guint
random_points (HwPoint *points, guint most, double x)
{
  guint n = g_test_rand_int_range (1, most + 1);
  /* Points on a coarse grid bring doubles and points in line. */
  gboolean coarse = g_test_rand_bit ();

  for (guint i = 0; i < n; i++)
    {
      points[i].x = x + g_test_rand_double_range (-50, 50);
      points[i].y = g_test_rand_double_range (-50, 50);
      if (coarse)
        points[i] = (HwPoint){ round (points[i].x / 20) * 20, round (points[i].y / 20) * 20 };
    }
  return n;
}

static double
turn_at (HwPoint a, HwPoint b, HwPoint c)
{
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static void
assert_hull_of (const HwPoint *hull, guint n_hull, const HwPoint *points, guint n)
{
  for (guint i = 0; n_hull >= 3 && i < n_hull; i++)
    {
      HwPoint a = hull[i], b = hull[(i + 1) % n_hull];

      g_assert_cmpfloat (turn_at (a, b, hull[(i + 2) % n_hull]), >, 0); /* clockwise as seen */
      for (guint k = 0; k < n; k++)
        g_assert_cmpfloat (turn_at (a, b, points[k]), >=, -1e-9);
    }
  for (guint i = 0; i < n_hull; i++)
    {
      gboolean among = FALSE;

      for (guint k = 0; k < n; k++)
        among = among || (hull[i].x == points[k].x && hull[i].y == points[k].y);
      g_assert_true (among);
    }
}

static void
test_random_hulls (void)
{
  for (guint i = 0; i < 3000; i++)
    {
      HwPoint points[40], hull[41];
      guint n = random_points (points, 40, 0), n_hull = hw_convex_hull (points, n, hull);

      g_assert_cmpuint (n_hull, >=, 1);
      g_assert_cmpuint (n_hull, <=, n);
      assert_hull_of (hull, n_hull, points, n);
    }
}

static void
test_degenerate_sets (void)
{
  HwPoint same[] = { { 3, 3 }, { 3, 3 }, { 3, 3 } }, line[] = { { 0, 0 }, { 2, 2 }, { 1, 1 }, { 5, 5 } };
  HwPoint odd[] = { { 0, 0 }, { NAN, 1 }, { 4, 0 }, { INFINITY, 2 }, { 0, 4 } };
  HwPoint hull[8];

  g_assert_cmpuint (hw_convex_hull (same, 3, hull), ==, 1);
  g_assert_cmpuint (hw_convex_hull (line, 4, hull), ==, 2);
  g_assert_cmpuint (hw_convex_hull (NULL, 0, hull), ==, 0);
  g_assert_cmpuint (hw_convex_hull (odd, 5, hull), ==, 3);
}

/* The hull of two hulls is the hull of all their points, wherever each begins. */
static void
test_merging (void)
{
  for (guint i = 0; i < 5000; i++)
    {
      HwPoint points[60], a[31], b[31], merged[64], whole[61], turned[31];
      guint n = random_points (points, 30, 0), m, na, nb, n_merged, n_whole, shift;

      m = random_points (points + n, 30, g_test_rand_double_range (-120, 120));
      na = hw_convex_hull (points, n, a);
      nb = hw_convex_hull (points + n, m, b);
      shift = g_test_rand_int_range (0, na);
      for (guint k = 0; k < na; k++)
        turned[k] = a[(k + shift) % na];
      n_merged = hw_hull_merge (turned, na, b, nb, merged);
      n_whole = hw_convex_hull (points, n + m, whole);
      g_assert_cmpuint (n_merged, ==, n_whole);
      for (guint k = 0; k < n_whole; k++)
        g_assert_true (merged[k].x == whole[k].x && merged[k].y == whole[k].y);
    }
}

static void
test_merging_with_nothing (void)
{
  HwPoint a[] = { { 0, 0 }, { 4, 0 }, { 0, 4 } }, out[8];

  g_assert_cmpuint (hw_hull_merge (a, 3, NULL, 0, out), ==, 3);
  g_assert_cmpuint (hw_hull_merge (NULL, 0, a, 3, out), ==, 3);
  g_assert_true (out[1].x == 4);
  g_assert_cmpuint (hw_hull_merge (a, 3, a, 3, out), ==, 3);
}

static void
test_clipping (void)
{
  HwPoint square[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } }, out[5];
  guint n;

  n = hw_hull_clip (square, 4, (HwPoint){ 1, 0 }, 4, out);
  g_assert_cmpfloat (hw_hull_area (out, n), ==, 40);
  n = hw_hull_clip (square, 4, (HwPoint){ 1, 1 }, 10, out);
  g_assert_cmpfloat (hw_hull_area (out, n), ==, 50);
  g_assert_cmpuint (hw_hull_clip (square, 4, (HwPoint){ 1, 0 }, -1, out), ==, 0);
  g_assert_cmpuint (hw_hull_clip (square, 4, (HwPoint){ 1, 0 }, 11, out), ==, 4);
}

static void
test_measures (void)
{
  HwPoint rectangle[] = { { 0, 0 }, { 3, 0 }, { 3, 4 }, { 0, 4 } };

  g_assert_cmpfloat (hw_hull_area (rectangle, 4), ==, 12);
  g_assert_cmpfloat (hw_hull_diameter (rectangle, 4), ==, 5);
}

static void
test_apart (void)
{
  HwPoint a[] = { { 0, 0 }, { 4, 0 }, { 4, 4 }, { 0, 4 } };
  HwPoint touching[] = { { 4, 0 }, { 8, 0 }, { 8, 4 }, { 4, 4 } };
  HwPoint crossing[] = { { 3.9, 1 }, { 8, 1 }, { 8, 2 } };
  HwPoint beside[] = { { 5, 6 }, { 7, 4 }, { 8, 8 } }; /* boxes apart only on a slant */

  g_assert_true (hw_hulls_apart (a, 4, touching, 4));
  g_assert_false (hw_hulls_apart (a, 4, crossing, 3));
  g_assert_true (hw_hulls_apart (a, 4, beside, 3));
  g_assert_false (hw_hulls_apart (a, 4, a, 4));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/hull/random-hulls", test_random_hulls);
  g_test_add_func ("/geometry/hull/degenerate-sets", test_degenerate_sets);
  g_test_add_func ("/geometry/hull/merging", test_merging);
  g_test_add_func ("/geometry/hull/merging-with-nothing", test_merging_with_nothing);
  g_test_add_func ("/geometry/hull/clipping", test_clipping);
  g_test_add_func ("/geometry/hull/measures", test_measures);
  g_test_add_func ("/geometry/hull/apart", test_apart);
  return g_test_run ();
}

/* Rotating calipers: spans that follow one another through a quarter turn, with the extents of the hull. */
#include <math.h>

#include "geometry/calipers.h"
#include "geometry/outline.h"

static double
extent (const HwPoint *hull, guint n, HwPoint e)
{
  double least = INFINITY, most = -INFINITY;

  for (guint i = 0; i < n; i++)
    {
      least = MIN (least, hw_dot (hull[i], e));
      most = MAX (most, hw_dot (hull[i], e));
    }
  return most - least;
}

static void
assert_spans (const HwPoint *hull, guint n)
{
  HwCalipers calipers;
  HwCaliperSpan span;
  HwPoint at = { 1, 0 };
  guint n_spans = 0;

  hw_calipers_start (&calipers, hull, n);
  while (hw_calipers_next (&calipers, &span))
    {
      g_assert_cmpfloat (hw_point_distance (span.from, at), ==, 0);
      g_assert_cmpfloat (hw_cross (span.from, span.to), >=, 0);
      g_assert_cmpfloat_with_epsilon (hw_dot (span.to, span.to), 1, 1e-12);
      for (guint k = 0; k <= 4; k++)
        {
          HwPoint e = { span.from.x + (span.to.x - span.from.x) * k / 4,
                        span.from.y + (span.to.y - span.from.y) * k / 4 };
          double length = hypot (e.x, e.y);

          e = (HwPoint){ e.x / length, e.y / length };
          g_assert_cmpfloat_with_epsilon (hw_dot (span.across, e), extent (hull, n, e), 1e-9);
          g_assert_cmpfloat_with_epsilon (hw_dot (span.along, e), extent (hull, n, (HwPoint){ -e.y, e.x }),
                                          1e-9);
        }
      at = span.to;
      n_spans++;
    }
  g_assert_true (at.x == 0 && at.y == 1);
  g_assert_cmpuint (n_spans, <=, n + 1);
}

static void
test_random_hulls (void)
{
  for (guint i = 0; i < 3000; i++)
    {
      HwPoint points[40], hull[41];
      guint n = g_test_rand_int_range (1, 40);

      for (guint k = 0; k < n; k++)
        points[k] = (HwPoint){ g_test_rand_double_range (-500, 500), g_test_rand_double_range (-80, 80) };
      assert_spans (hull, hw_convex_hull (points, n, hull));
    }
}

/* Upright and level sides, sides of equal direction, and hulls turned so that these are so but for rounding. */
static void
test_regular_hulls (void)
{
  for (guint n = 3; n <= 24; n++)
    for (guint k = 0; k < 40; k++)
      {
        g_autoptr (HwOutline) shape = hw_outline_new_ellipse (40, 40, n);
        HwPlacement placement = { { 300, 200 }, 7.5 * k, 1, k % 2 };
        g_autoptr (HwOutline) placed = hw_outline_place (shape, &placement);

        assert_spans (placed->hull, placed->n_hull);
      }
}

static void
test_points_and_segments (void)
{
  HwPoint level[] = { { 0, 0 }, { 5, 0 } }, upright[] = { { 0, 0 }, { 0, 5 } },
          slanting[] = { { 0, 0 }, { 3, 4 } };

  assert_spans (level, 1);
  assert_spans (level, 2);
  assert_spans (upright, 2);
  assert_spans (slanting, 2);
}

static void
test_directions_with_extent (void)
{
  HwPoint rising, falling;

  g_assert_true (hw_directions_with_extent ((HwPoint){ 0, 2 }, 1, &rising, &falling));
  g_assert_cmpfloat_with_epsilon (rising.y, 0.5, 1e-12); /* at 30 degrees, on the way up to 90 */
  g_assert_cmpfloat_with_epsilon (rising.x, sqrt (3) / 2, 1e-12);
  g_assert_cmpfloat_with_epsilon (falling.x, -sqrt (3) / 2, 1e-12);
  g_assert_false (hw_directions_with_extent ((HwPoint){ 0, 2 }, 2.1, &rising, &falling));
  g_assert_false (hw_directions_with_extent ((HwPoint){ 0, 0 }, 0, &rising, &falling));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/calipers/random-hulls", test_random_hulls);
  g_test_add_func ("/geometry/calipers/regular-hulls", test_regular_hulls);
  g_test_add_func ("/geometry/calipers/points-and-segments", test_points_and_segments);
  g_test_add_func ("/geometry/calipers/directions-with-extent", test_directions_with_extent);
  return g_test_run ();
}

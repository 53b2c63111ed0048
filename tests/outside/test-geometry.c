/* Geometry by a second road: Shapely (python3-shapely 1.8, https://shapely.readthedocs.io). Common areas, areas of hulls and the smallest rectangle at any
 * angle around a hull, for the same random outlines. */
#include <math.h>

#include "geometry/calipers.h"
#include "geometry/hull.h"
#include "geometry/region.h"
#include "python-road.h"

#define N_CASES 400

static HwOutline *
random_star (double x, double y)
{
  HwPoint points[24];
  guint n = g_test_rand_int_range (3, 25);
  HwRing ring = { points, n };

  for (guint i = 0; i < n; i++)
    {
      HwPoint unit = hw_point_turn ((HwPoint){ 1, 0 }, 360.0 * i / n);
      double reach = g_test_rand_double_range (5, 40);

      points[i] = (HwPoint){ x + unit.x * reach, y + unit.y * reach };
    }
  return hw_outline_new (&ring, 1);
}

static void
append_outline (GString *input, const HwOutline *outline)
{
  append_number (input, outline->rings[0].n_points);
  for (guint i = 0; i < outline->rings[0].n_points; i++)
    {
      append_number (input, outline->rings[0].points[i].x);
      append_number (input, outline->rings[0].points[i].y);
    }
}

/* The smallest rectangle around a hull has a side along one of the hull's (Freeman and Shapira 1975, Communications of the ACM 18(7)): so it
 * stands at an end of a caliper span. */
static double
smallest_rectangle (const HwOutline *outline)
{
  HwCalipers calipers;
  HwCaliperSpan span;
  double least = INFINITY;

  hw_calipers_start (&calipers, outline->hull, outline->n_hull);
  while (hw_calipers_next (&calipers, &span))
    least = MIN (least, MIN (hw_dot (span.across, span.from) * hw_dot (span.along, span.from),
                             hw_dot (span.across, span.to) * hw_dot (span.along, span.to)));
  return least;
}

static const char *const script = "import sys\n"
                                  "from shapely.geometry import Polygon\n"
                                  "def outline(numbers):\n"
                                  "    n = int(next(numbers))\n"
                                  "    return Polygon([(next(numbers), next(numbers)) for _ in range(n)])\n"
                                  "for line in sys.stdin:\n"
                                  "    numbers = iter([float(word) for word in line.split()])\n"
                                  "    a, b = outline(numbers), outline(numbers)\n"
                                  "    print(*(repr(float(x)) for x in (a.intersection(b).area, "
                                  "a.convex_hull.area, a.area, a.distance(b),\n"
                                  "          a.minimum_rotated_rectangle.area)))\n";

static void
test_against_shapely (void)
{
  g_autoptr (GString) input = g_string_new (NULL);
  g_autoptr (GPtrArray) outlines = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
  g_auto (GStrv) lines = NULL;
  guint overlapping = 0;

  for (guint i = 0; i < N_CASES; i++)
    {
      HwOutline *a = random_star (0, 0);
      HwOutline *b = random_star (g_test_rand_double_range (-60, 60), g_test_rand_double_range (-60, 60));

      g_ptr_array_add (outlines, a);
      g_ptr_array_add (outlines, b);
      append_outline (input, a);
      append_outline (input, b);
      g_string_append_c (input, '\n');
    }
  lines = python_road (script, input->str);
  g_assert_cmpuint (g_strv_length (lines), ==, N_CASES);
  for (guint i = 0; i < N_CASES; i++)
    {
      const HwOutline *a = g_ptr_array_index (outlines, 2 * i), *b = g_ptr_array_index (outlines, 2 * i + 1);
      double theirs[5];

      g_assert_cmpuint (read_numbers (lines[i], theirs, 5), ==, 5);
      g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (a, b), theirs[0], 1e-7);
      g_assert_cmpfloat_with_epsilon (hw_hull_area (a->hull, a->n_hull), theirs[1], 1e-7);
      g_assert_cmpfloat_with_epsilon (hw_outline_area (a), theirs[2], 1e-7);
      g_assert_cmpfloat_with_epsilon (hw_outline_distance (a, b), theirs[3], 1e-9);
      g_assert_cmpfloat_with_epsilon (smallest_rectangle (a), theirs[4], 1e-6);
      overlapping += theirs[0] > 1;
    }
  g_assert_cmpuint (overlapping, >, N_CASES / 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/geometry/against-shapely", test_against_shapely);
  return g_test_run ();
}

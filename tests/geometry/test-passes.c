/* How far one area passes outside another. */
#include <math.h>

#include "geometry/region.h"

static HwOutline *
outline_of (const HwPoint *points, guint n)
{
  HwRing ring = { (HwPoint *)points, n };

  return hw_outline_new (&ring, 1);
}

static void
test_inside_is_nothing (void)
{
  g_autoptr (HwOutline) outer = hw_outline_new_rectangle (100, 80);
  g_autoptr (HwOutline) inner = hw_outline_new_ellipse (99.99, 79.99, 200);
  g_autoptr (HwOutline) same = hw_outline_new_rectangle (100, 80);

  g_assert_cmpfloat (hw_outline_passes (inner, outer, NULL), ==, 0);
  g_assert_cmpfloat (hw_outline_passes (same, outer, NULL), ==, 0);
}

static void
test_at_a_corner (void)
{
  HwPoint points[] = { { 0, 0 }, { 53, 44 }, { 0, 10 } };
  g_autoptr (HwOutline) outer = hw_outline_new_rectangle (100, 80);
  g_autoptr (HwOutline) inner = outline_of (points, 3);
  HwPoint where;

  g_assert_cmpfloat (hw_outline_passes (inner, outer, &where), ==, 5);
  g_assert_true (where.x == 53 && where.y == 44);
}

/* Over a bay in the outer outline a side passes farthest between its ends, where both of these lie inside. */
static void
test_between_corners_over_a_bay (void)
{
  HwPoint bay[]
      = { { 0, 0 }, { 40, 0 }, { 40, 40 }, { 30, 40 }, { 30, 10 }, { 10, 10 }, { 10, 40 }, { 0, 40 } };
  HwPoint bridge[] = { { 5, 30 }, { 35, 30 }, { 35, 35 }, { 5, 35 } };
  g_autoptr (HwOutline) outer = outline_of (bay, G_N_ELEMENTS (bay));
  g_autoptr (HwOutline) inner = outline_of (bridge, 4);
  HwPoint where;

  g_assert_cmpfloat_with_epsilon (hw_outline_passes (inner, outer, &where), 10, 0.0011);
  g_assert_cmpfloat_with_epsilon (where.x, 20, 0.01);
}

static void
test_wholly_outside (void)
{
  g_autoptr (HwOutline) outer = hw_outline_new_rectangle (10, 10);
  g_autoptr (HwOutline) small = hw_outline_new_rectangle (2, 2);
  g_autoptr (HwOutline) away = hw_outline_place (small, &(HwPlacement){ { 20, 0 }, 0, 1, FALSE });

  g_assert_cmpfloat_with_epsilon (hw_outline_passes (away, outer, NULL), 16, 0.0011);
}

static HwOutline *
random_star (double x, double y)
{
  guint n = g_test_rand_int_range (3, 20);
  HwPoint points[20];

  for (guint i = 0; i < n; i++)
    {
      HwPoint unit = hw_point_turn ((HwPoint){ 1, 0 }, 360.0 * i / n);
      double reach = g_test_rand_double_range (8, 30);

      points[i] = (HwPoint){ x + unit.x * reach, y + unit.y * reach };
    }
  return outline_of (points, n);
}

/* Against the boundary looked at in small steps. */
static void
test_against_small_steps (void)
{
  for (guint i = 0; i < 300; i++)
    {
      g_autoptr (HwOutline) outer = random_star (0, 0);
      g_autoptr (HwOutline) inner
          = random_star (g_test_rand_double_range (-20, 20), g_test_rand_double_range (-20, 20));
      double greatest = 0, found;
      HwPoint where;

      for (guint k = 0; k < inner->rings[0].n_points; k++)
        for (guint s = 0; s < 200; s++)
          {
            HwPoint a = inner->rings[0].points[k],
                    b = inner->rings[0].points[(k + 1) % inner->rings[0].n_points];
            HwPoint p = { a.x + (b.x - a.x) * s / 200, a.y + (b.y - a.y) * s / 200 };

            greatest = MAX (greatest, hw_outline_distance_to_point (outer, p));
          }
      found = hw_outline_passes (inner, outer, &where);
      g_assert_cmpfloat (found, >=, greatest - 0.0011);
      g_assert_cmpfloat (found, <=, greatest + 0.16); /* half a step of the longest side */
      g_assert_cmpfloat_with_epsilon (hw_outline_distance_to_point (outer, where), found, 1e-9);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/passes/inside-is-nothing", test_inside_is_nothing);
  g_test_add_func ("/geometry/passes/at-a-corner", test_at_a_corner);
  g_test_add_func ("/geometry/passes/between-corners-over-a-bay", test_between_corners_over_a_bay);
  g_test_add_func ("/geometry/passes/wholly-outside", test_wholly_outside);
  g_test_add_func ("/geometry/passes/against-small-steps", test_against_small_steps);
  return g_test_run ();
}

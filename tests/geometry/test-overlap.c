/* The common area by strips: against known areas, and against the general overlay. */
#include <math.h>

#include "geometry/region.h"

static HwOutline *
rectangle_at (double x, double y, double width, double height, double angle)
{
  g_autoptr (HwOutline) rectangle = hw_outline_new_rectangle (width, height);

  return hw_outline_place (rectangle, &(HwPlacement){ { x, y }, angle, 1, FALSE });
}

static void
test_known_areas (void)
{
  g_autoptr (HwOutline) a = rectangle_at (0, 0, 10, 10, 0);
  g_autoptr (HwOutline) shifted = rectangle_at (6, 3, 10, 10, 0);
  g_autoptr (HwOutline) beside = rectangle_at (10, 0, 10, 10, 0);
  g_autoptr (HwOutline) diamond = rectangle_at (0, 0, 10, 10, 45);
  g_autoptr (HwOutline) within = rectangle_at (1, -2, 3, 2, 20);

  g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (a, shifted), 4 * 7, 1e-9);
  g_assert_cmpfloat (hw_outline_overlap_area (a, beside), ==, 0);
  g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (a, a), 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (a, within), 6, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (within, a), 6, 1e-9);
  /* Two equal squares turned by 45 degrees share a regular octagon: 8 tan(22.5 deg) r^2 with r = 5. */
  g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (a, diamond), 8 * (G_SQRT2 - 1) * 25, 1e-9);
}

static void
test_holes_do_not_overlap (void)
{
  HwPoint outer[] = { { -10, -10 }, { 10, -10 }, { 10, 10 }, { -10, 10 } };
  HwPoint hole[] = { { -5, -5 }, { 5, -5 }, { 5, 5 }, { -5, 5 } };
  HwRing rings[] = { { outer, 4 }, { hole, 4 } };
  g_autoptr (HwOutline) frame = hw_outline_new (rings, 2);
  g_autoptr (HwOutline) inside = rectangle_at (0, 0, 10, 10, 0);
  g_autoptr (HwOutline) reaching = rectangle_at (0, 0, 12, 2, 0);

  g_assert_cmpfloat (hw_outline_overlap_area (frame, inside), ==, 0);
  g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (frame, reaching), 4, 1e-9);
}

static HwOutline *
random_star (double x, double y)
{
  guint n = g_test_rand_int_range (3, 60);
  g_autofree HwPoint *points = g_new (HwPoint, n);
  HwRing ring = { points, n };

  for (guint i = 0; i < n; i++)
    {
      HwPoint unit = hw_point_turn ((HwPoint){ 1, 0 }, 360.0 * i / n);
      double reach = g_test_rand_double_range (5, 30);

      points[i] = (HwPoint){ x + unit.x * reach, y + unit.y * reach };
    }
  return hw_outline_new (&ring, 1);
}

static void
test_against_general_overlay (void)
{
  for (guint i = 0; i < 2000; i++)
    {
      g_autoptr (HwOutline) a = random_star (0, 0);
      g_autoptr (HwOutline) b
          = random_star (g_test_rand_double_range (-60, 60), g_test_rand_double_range (-60, 60));
      g_autoptr (HwOutline) common = hw_outline_common (a, b);

      /* The overlay leaves out what is no stitching: below 1e-6 mm^2. */
      g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (a, b),
                                      common != NULL ? hw_outline_area (common) : 0,
                                      common != NULL ? 1e-7 : 1.1e-6);
    }
}

/* Sides that coincide, corners on sides, doubles: whole numbers bring all of these. */
static void
test_against_general_overlay_on_a_grid (void)
{
  for (guint i = 0; i < 3000; i++)
    {
      g_autoptr (HwOutline) a = rectangle_at (g_test_rand_int_range (0, 8), g_test_rand_int_range (0, 8),
                                              g_test_rand_int_range (1, 6), g_test_rand_int_range (1, 6),
                                              45 * g_test_rand_int_range (0, 4));
      g_autoptr (HwOutline) b = rectangle_at (g_test_rand_int_range (0, 8), g_test_rand_int_range (0, 8),
                                              g_test_rand_int_range (1, 6), g_test_rand_int_range (1, 6),
                                              45 * g_test_rand_int_range (0, 4));
      g_autoptr (HwOutline) common = hw_outline_common (a, b);

      g_assert_cmpfloat_with_epsilon (hw_outline_overlap_area (a, b),
                                      common != NULL ? hw_outline_area (common) : 0, 1e-9);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/overlap/known-areas", test_known_areas);
  g_test_add_func ("/geometry/overlap/holes-do-not-overlap", test_holes_do_not_overlap);
  g_test_add_func ("/geometry/overlap/against-general-overlay", test_against_general_overlay);
  g_test_add_func ("/geometry/overlap/against-general-overlay-on-a-grid",
                   test_against_general_overlay_on_a_grid);
  return g_test_run ();
}

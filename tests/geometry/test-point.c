/* Points, boxes, placements. */
#include <math.h>

#include "geometry/point.h"

static void
assert_point (HwPoint p, double x, double y, double within)
{
  g_assert_cmpfloat_with_epsilon (p.x, x, within);
  g_assert_cmpfloat_with_epsilon (p.y, y, within);
}

/* Clockwise as seen, y down: the right goes down, down goes to the left. */
static void
test_turns_are_clockwise_as_seen (void)
{
  assert_point (hw_point_turn ((HwPoint){ 1, 0 }, 90), 0, 1, 0x1p-1074);
  assert_point (hw_point_turn ((HwPoint){ 0, 1 }, 90), -1, 0, 0x1p-1074);
  assert_point (hw_point_turn ((HwPoint){ 1, 0 }, 30), sqrt (3) / 2, 0.5, 1e-15);
}

static void
test_quarter_turns_are_exact (void)
{
  HwPoint p = { 0.1, -17.3 };

  for (int quarters = -9; quarters <= 9; quarters++)
    {
      HwPoint turned = hw_point_turn (hw_point_turn (p, 90 * quarters), -90 * quarters);

      g_assert_true (turned.x == p.x && turned.y == p.y);
    }
  g_assert_true (hw_point_turn (p, 180).x == -p.x && hw_point_turn (p, -180).y == -p.y);
  g_assert_true (hw_point_turn (p, 360).x == p.x && hw_point_turn (p, 720).y == p.y);
}

static void
test_placement_order (void)
{
  HwPlacement placement = { { 100, 50 }, 90, 2, TRUE };

  /* Mirrored to (-3, 1), scaled to (-6, 2), turned to (-2, -6), moved. */
  assert_point (hw_placement_apply (&placement, (HwPoint){ 3, 1 }), 98, 44, 1e-12);
}

static void
test_placement_inverts (void)
{
  for (guint i = 0; i < 1000; i++)
    {
      HwPlacement placement
          = { { g_test_rand_double_range (-500, 500), g_test_rand_double_range (-500, 500) },
              g_test_rand_double_range (-360, 360),
              g_test_rand_double_range (0.05, 5),
              g_test_rand_bit () };
      HwPoint p = { g_test_rand_double_range (-200, 200), g_test_rand_double_range (-200, 200) };
      HwPoint back = hw_placement_invert (&placement, hw_placement_apply (&placement, p));

      assert_point (back, p.x, p.y, 1e-9);
    }
}

static void
test_boxes (void)
{
  HwPoint points[] = { { 3, 4 }, { -1, 7 }, { 2, -2 } };
  HwBox box = hw_box_of_points (points, 3), nothing = hw_box_of_points (NULL, 0);

  g_assert_true (box.x0 == -1 && box.y0 == -2 && box.x1 == 3 && box.y1 == 7);
  g_assert_true (hw_box_is_empty (nothing));
  g_assert_false (hw_box_is_empty (box));
  g_assert_true (hw_box_union (nothing, box).x1 == 3 && hw_box_union (box, nothing).y0 == -2);
  g_assert_false (hw_box_overlaps (box, nothing));
  g_assert_true (hw_box_overlaps (box, (HwBox){ 3, 0, 9, 9 }));
  g_assert_false (hw_box_overlaps (box, (HwBox){ 3.001, 0, 9, 9 }));
}

static void
test_angles_are_brought_into_one_turn (void)
{
  g_assert_cmpfloat (hw_angle_normal (0), ==, 0);
  g_assert_cmpfloat (hw_angle_normal (180), ==, 180);
  g_assert_cmpfloat (hw_angle_normal (-180), ==, 180);
  g_assert_cmpfloat (hw_angle_normal (181), ==, -179);
  g_assert_cmpfloat (hw_angle_normal (-541), ==, 179);
  g_assert_cmpfloat (hw_angle_normal (720), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/point/turns-are-clockwise-as-seen", test_turns_are_clockwise_as_seen);
  g_test_add_func ("/geometry/point/quarter-turns-are-exact", test_quarter_turns_are_exact);
  g_test_add_func ("/geometry/point/placement-order", test_placement_order);
  g_test_add_func ("/geometry/point/placement-inverts", test_placement_inverts);
  g_test_add_func ("/geometry/point/boxes", test_boxes);
  g_test_add_func ("/geometry/point/angles-are-brought-into-one-turn", test_angles_are_brought_into_one_turn);
  return g_test_run ();
}

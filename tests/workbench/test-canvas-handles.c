/* The handles about what is selected, and what pulling them does. */
#include "workbench/canvas-handles.h"

#include <math.h>

#define CLOSE(a, b) g_assert_cmpfloat_with_epsilon ((a), (b), 1e-9)

static const HwBox table = { 26, 26, 1280, 800 };

static HwPlacement
some_placement (void)
{
  return (HwPlacement){ { g_test_rand_double_range (0, 700), g_test_rand_double_range (0, 540) },
                        g_test_rand_double_range (-180, 180),
                        g_test_rand_double_range (0.2, 3),
                        g_test_rand_bit () };
}

static void
test_frame_holds_every_corner_of_the_motif (void)
{
  const HwPoint ring_points[] = { { -30, -10 }, { 50, -10 }, { 50, 40 }, { -30, 40 } };
  HwRing ring = { (HwPoint *)ring_points, 4 };
  g_autoptr (HwOutline) outline = hw_outline_new (&ring, 1);

  for (int i = 0; i < 200; i++)
    {
      HwPlacement placement = some_placement ();
      HwHandleFrame frame = hw_handle_frame_of_motif (outline, &placement);
      double nearest[4] = { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE };

      /* A rectangle's own corners are the frame's, whichever way round when it is mirrored. */
      for (int k = 0; k < 4; k++)
        for (int j = 0; j < 4; j++)
          nearest[k] = MIN (nearest[k], hw_point_distance (hw_placement_apply (&placement, ring_points[k]),
                                                           hw_handle_frame_corner (&frame, (HwHandle)j)));
      for (int k = 0; k < 4; k++)
        g_assert_cmpfloat (nearest[k], <, 1e-9);
    }
}

static void
test_turning_handle_stands_above_the_top (void)
{
  HwView view = { 2, 100, 100 };
  HwHandleFrame frame = { { 200, 150 }, 40, 30, 0 };
  HwHandles handles;

  hw_handles_place (&handles, &frame, &view, table);
  CLOSE (handles.at[HW_HANDLE_TURN].x, 500);
  g_assert_cmpfloat (handles.at[HW_HANDLE_TURN].y, <, handles.at[HW_HANDLE_TOP_LEFT].y);

  frame.angle = 90; /* the top now looks to the right */
  hw_handles_place (&handles, &frame, &view, table);
  CLOSE (handles.at[HW_HANDLE_TURN].y, 400);
  g_assert_cmpfloat (handles.at[HW_HANDLE_TURN].x, >, 500);
}

static void
test_turning_handle_comes_below_when_the_ruler_is_in_the_way (void)
{
  HwView view = { 2, 26, 26 };
  HwHandleFrame frame = { { 200, 30 }, 40, 28, 0 };
  HwHandles handles;

  hw_handles_place (&handles, &frame, &view, table);
  g_assert_cmpfloat (handles.at[HW_HANDLE_TURN].y, >, handles.at[HW_HANDLE_BOTTOM_LEFT].y);
}

static void
test_small_motif_keeps_its_handles_apart (void)
{
  HwView view = { 0.2, 300, 300 };
  HwHandleFrame frame = { { 0, 0 }, 4, 2, 30 };
  HwHandles handles;

  hw_handles_place (&handles, &frame, &view, table);
  for (int i = 0; i < HW_N_HANDLES; i++)
    for (int j = 0; j < i; j++)
      g_assert_cmpfloat (hw_point_distance (handles.at[i], handles.at[j]), >=, 2 * HW_HANDLE_HIT_RADIUS);
}

static void
test_handle_is_felt_over_24_pixels (void)
{
  HwView view = { 1, 300, 300 };
  HwHandleFrame frame = { { 100, 100 }, 60, 40, 20 };
  HwHandles handles;

  hw_handles_place (&handles, &frame, &view, table);
  for (int i = 0; i < HW_N_HANDLES; i++)
    for (int k = 0; k < 8; k++)
      {
        HwPoint off = hw_point_turn ((HwPoint){ 12, 0 }, k * 45);
        HwPoint p = { handles.at[i].x + off.x, handles.at[i].y + off.y };

        g_assert_cmpint (hw_handles_hit (&handles, p), ==, i);
      }
  g_assert_cmpint (hw_handles_hit (&handles, (HwPoint){ 400, 400 }), ==, HW_HANDLE_NONE);
}

static void
test_turn_is_clockwise (void)
{
  HwPoint pivot = { 10, 10 };

  CLOSE (hw_handle_turn (pivot, (HwPoint){ 10, 0 }, (HwPoint){ 20, 10 }), 90);
  CLOSE (hw_handle_turn (pivot, (HwPoint){ 10, 0 }, (HwPoint){ 0, 10 }), -90);
  CLOSE (fabs (hw_handle_turn (pivot, (HwPoint){ 10, 0 }, (HwPoint){ 10, 20 })), 180);
}

static void
test_angle_settles (void)
{
  CLOSE (hw_handle_settle_angle (1.6, FALSE), 0);
  CLOSE (hw_handle_settle_angle (-91.5, FALSE), -90);
  CLOSE (hw_handle_settle_angle (3.14159, FALSE), 3.1);
  CLOSE (hw_handle_settle_angle (187.2, FALSE), -172.8);
  CLOSE (hw_handle_settle_angle (38, TRUE), 45);
  CLOSE (hw_handle_settle_angle (-7, TRUE), 0);
}

static void
test_pull_of_a_corner (void)
{
  HwPoint pivot = { 0, 0 }, corner = { 30, 40 };

  CLOSE (hw_handle_pull (pivot, corner, (HwPoint){ 60, 80 }), 2);
  CLOSE (hw_handle_pull (pivot, corner, corner), 1);
  /* Across the diagonal nothing changes; past the pivot the motif stays small and is never turned inside out. */
  CLOSE (hw_handle_pull (pivot, corner, (HwPoint){ 30 - 4, 40 + 3 }), 1);
  CLOSE (hw_handle_pull (pivot, corner, (HwPoint){ -30, -40 }), 0.02);
  CLOSE (hw_handle_pull (pivot, pivot, corner), 1);
}

/* A motif turned and scaled about a point: every one of its points goes the same way. */
static void
test_placement_about_a_point (void)
{
  for (int i = 0; i < 300; i++)
    {
      HwPlacement before = some_placement ();
      HwPoint pivot = { g_test_rand_double_range (0, 700), g_test_rand_double_range (0, 540) };
      HwPoint p = { g_test_rand_double_range (-50, 50), g_test_rand_double_range (-50, 50) };
      double turn = g_test_rand_double_range (-180, 180), scale = g_test_rand_double_range (0.3, 3);
      HwPlacement after = hw_placement_about (&before, pivot, turn, scale);
      HwPoint from = hw_placement_apply (&before, p), to = hw_placement_apply (&after, p);
      HwPoint arm = hw_point_turn ((HwPoint){ (from.x - pivot.x) * scale, (from.y - pivot.y) * scale }, turn);

      g_assert_cmpfloat_with_epsilon (to.x, pivot.x + arm.x, 1e-8);
      g_assert_cmpfloat_with_epsilon (to.y, pivot.y + arm.y, 1e-8);
      g_assert_cmpint (after.mirrored, ==, before.mirrored);
    }
}

static void
test_opposite_corner_stays_when_resizing (void)
{
  g_autoptr (HwOutline) outline = hw_outline_new_rectangle (80, 50);

  for (int i = 0; i < 100; i++)
    {
      HwPlacement before = some_placement ();
      HwHandleFrame frame = hw_handle_frame_of_motif (outline, &before), now;
      HwHandle corner = (HwHandle)g_test_rand_int_range (0, 4), still = hw_handle_opposite (corner);
      HwPoint pivot = hw_handle_frame_corner (&frame, still);
      HwPlacement after = hw_placement_about (&before, pivot, 0, g_test_rand_double_range (0.2, 4));

      now = hw_handle_frame_of_motif (outline, &after);
      g_assert_cmpfloat (hw_point_distance (pivot, hw_handle_frame_corner (&now, still)), <, 1e-8);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/canvas-handles/frame-holds-every-corner-of-the-motif",
                   test_frame_holds_every_corner_of_the_motif);
  g_test_add_func ("/canvas-handles/turning-handle-stands-above-the-top",
                   test_turning_handle_stands_above_the_top);
  g_test_add_func ("/canvas-handles/turning-handle-comes-below-when-the-ruler-is-in-the-way",
                   test_turning_handle_comes_below_when_the_ruler_is_in_the_way);
  g_test_add_func ("/canvas-handles/small-motif-keeps-its-handles-apart",
                   test_small_motif_keeps_its_handles_apart);
  g_test_add_func ("/canvas-handles/handle-is-felt-over-24-pixels", test_handle_is_felt_over_24_pixels);
  g_test_add_func ("/canvas-handles/turn-is-clockwise", test_turn_is_clockwise);
  g_test_add_func ("/canvas-handles/angle-settles", test_angle_settles);
  g_test_add_func ("/canvas-handles/pull-of-a-corner", test_pull_of_a_corner);
  g_test_add_func ("/canvas-handles/placement-about-a-point", test_placement_about_a_point);
  g_test_add_func ("/canvas-handles/opposite-corner-stays-when-resizing",
                   test_opposite_corner_stays_when_resizing);
  return g_test_run ();
}

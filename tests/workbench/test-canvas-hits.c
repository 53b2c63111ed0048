/* What lies under the pointer. */
#include "workbench/canvas-hits.h"

static HwOutline *
rectangle_at (double x, double y, double width, double height)
{
  g_autoptr (HwOutline) outline = hw_outline_new_rectangle (width, height);
  HwPlacement placement = { { x, y }, 0, 1, FALSE };

  return hw_outline_place (outline, &placement);
}

static HwOutline *
wreath_at (double x, double y)
{
  HwPoint outer[] = { { x - 50, y - 50 }, { x + 50, y - 50 }, { x + 50, y + 50 }, { x - 50, y + 50 } };
  HwPoint inner[] = { { x - 30, y - 30 }, { x + 30, y - 30 }, { x + 30, y + 30 }, { x - 30, y + 30 } };
  HwRing rings[] = { { outer, 4 }, { inner, 4 } };

  return hw_outline_new (rings, 2);
}

static void
test_topmost_comes_first (void)
{
  g_autoptr (HwOutline) wall = rectangle_at (0, 0, 200, 200);
  g_autoptr (HwOutline) pear = rectangle_at (20, 0, 60, 60);
  g_autoptr (HwOutline) bee = rectangle_at (10, 0, 20, 20);
  const HwOutline *placed[] = { wall, pear, bee };
  g_autoptr (GArray) stack = hw_hits_at (placed, 3, (HwPoint){ 12, 0 }, 0);

  g_assert_cmpuint (stack->len, ==, 3);
  g_assert_cmpuint (g_array_index (stack, guint, 0), ==, 2);
  g_assert_cmpuint (g_array_index (stack, guint, 1), ==, 1);
  g_assert_cmpuint (g_array_index (stack, guint, 2), ==, 0);
}

static void
test_through_the_hole_of_a_wreath (void)
{
  g_autoptr (HwOutline) bird = rectangle_at (0, 0, 20, 20);
  g_autoptr (HwOutline) wreath = wreath_at (0, 0);
  const HwOutline *placed[] = { bird, wreath };
  g_autoptr (GArray) middle = hw_hits_at (placed, 2, (HwPoint){ 0, 0 }, 1);
  g_autoptr (GArray) rim = hw_hits_at (placed, 2, (HwPoint){ 40, 0 }, 1);

  g_assert_cmpuint (middle->len, ==, 1);
  g_assert_cmpuint (g_array_index (middle, guint, 0), ==, 0);
  g_assert_cmpuint (rim->len, ==, 1);
  g_assert_cmpuint (g_array_index (rim, guint, 0), ==, 1);
}

static void
test_near_miss_counts_after_what_is_hit (void)
{
  g_autoptr (HwOutline) wall = rectangle_at (0, 0, 200, 200);
  g_autoptr (HwOutline) stem = rectangle_at (0, 0, 1, 80);
  const HwOutline *placed[] = { wall, stem };
  g_autoptr (GArray) stack = hw_hits_at (placed, 2, (HwPoint){ 3, 0 }, 4);
  g_autoptr (GArray) far = hw_hits_at (placed, 2, (HwPoint){ 9, 0 }, 4);
  g_autoptr (GArray) nothing = hw_hits_at (placed, 2, (HwPoint){ 150, 0 }, 4);

  g_assert_cmpuint (stack->len, ==, 2);
  g_assert_cmpuint (g_array_index (stack, guint, 0), ==, 0);
  g_assert_cmpuint (g_array_index (stack, guint, 1), ==, 1);
  g_assert_cmpuint (far->len, ==, 1);
  g_assert_cmpuint (nothing->len, ==, 0);
}

static void
test_again_goes_down_the_stack_and_round (void)
{
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (guint));
  const guint order[] = { 7, 4, 1 };

  g_assert_cmpint (hw_hits_next (stack, 3), ==, -1);
  g_array_append_vals (stack, order, 3);
  g_assert_cmpint (hw_hits_next (stack, -1), ==, 7);
  g_assert_cmpint (hw_hits_next (stack, 7), ==, 4);
  g_assert_cmpint (hw_hits_next (stack, 4), ==, 1);
  g_assert_cmpint (hw_hits_next (stack, 1), ==, 7);
}

static void
test_band_takes_what_it_covers (void)
{
  g_autoptr (HwOutline) pear = rectangle_at (50, 50, 20, 20);

  g_assert_true (hw_hits_band (pear, (HwBox){ 39, 39, 61, 61 }));
  g_assert_true (hw_hits_band (pear, (HwBox){ 61, 61, 39, 39 })); /* pulled to the left and up */
  g_assert_false (hw_hits_band (pear, (HwBox){ 45, 39, 61, 61 }));
  g_assert_false (hw_hits_band (pear, (HwBox){ 39, 39, 55, 61 }));
  g_assert_false (hw_hits_band (pear, (HwBox){ 39, 45, 61, 61 }));
  g_assert_false (hw_hits_band (pear, (HwBox){ 39, 39, 61, 55 }));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/canvas-hits/topmost-comes-first", test_topmost_comes_first);
  g_test_add_func ("/canvas-hits/through-the-hole-of-a-wreath", test_through_the_hole_of_a_wreath);
  g_test_add_func ("/canvas-hits/near-miss-counts-after-what-is-hit",
                   test_near_miss_counts_after_what_is_hit);
  g_test_add_func ("/canvas-hits/again-goes-down-the-stack-and-round",
                   test_again_goes_down_the_stack_and_round);
  g_test_add_func ("/canvas-hits/band-takes-what-it-covers", test_band_takes_what_it_covers);
  return g_test_run ();
}

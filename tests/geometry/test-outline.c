/* Outlines: stored open, placed, compared, asked what they contain. */
#include <math.h>

#include "geometry/hull.h"
#include "geometry/outline.h"

static void
test_rings_are_stored_open (void)
{
  HwPoint closed[] = { { 0, 0 }, { 4, 0 }, { 4, 4 }, { 0, 0 } }, thin[] = { { 1, 1 }, { 2, 2 }, { 1, 1 } };
  HwRing rings[] = { { closed, 4 }, { thin, 3 }, { thin, 2 } };
  g_autoptr (HwOutline) outline = hw_outline_new (rings, 3);

  g_assert_cmpuint (outline->n_rings, ==, 1);
  g_assert_cmpuint (outline->rings[0].n_points, ==, 3);
  g_assert_cmpuint (outline->n_hull, ==, 3);
  g_assert_true (outline->box.x1 == 4 && outline->box.y0 == 0);
}

static void
test_nothing_is_an_outline_too (void)
{
  g_autoptr (HwOutline) outline = hw_outline_new (NULL, 0);
  g_autoptr (HwOutline) placed = hw_outline_place (outline, &(HwPlacement){ { 1, 2 }, 3, 1, FALSE });

  g_assert_cmpuint (placed->n_hull, ==, 0);
  g_assert_true (hw_box_is_empty (placed->box));
  g_assert_false (hw_outline_contains (placed, (HwPoint){ 1, 2 }));
}

static void
test_holes_are_outside (void)
{
  HwPoint outer[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } };
  HwPoint hole[] = { { 3, 3 }, { 7, 3 }, { 7, 7 }, { 3, 7 } };
  HwPoint island[] = { { 4, 4 }, { 6, 4 }, { 6, 6 }, { 4, 6 } };
  HwRing rings[] = { { outer, 4 }, { hole, 4 }, { island, 4 } };
  g_autoptr (HwOutline) outline = hw_outline_new (rings, 3);

  g_assert_true (hw_outline_contains (outline, (HwPoint){ 1, 5 }));
  g_assert_false (hw_outline_contains (outline, (HwPoint){ 3.5, 5 }));
  g_assert_true (hw_outline_contains (outline, (HwPoint){ 5, 5 }));
  g_assert_false (hw_outline_contains (outline, (HwPoint){ 11, 5 }));
  g_assert_false (hw_outline_contains (outline, (HwPoint){ NAN, 5 }));
}

/* What is placed is every point placed, and its hull is the hull of the placed points. */
static void
test_placing (void)
{
  for (guint i = 0; i < 500; i++)
    {
      HwPoint points[12], hull[13];
      HwRing ring = { points, 12 };
      HwPlacement placement = { { g_test_rand_double_range (-500, 500), 40 },
                                g_test_rand_double_range (-180, 180),
                                g_test_rand_double_range (0.2, 3),
                                g_test_rand_bit () };
      g_autoptr (HwOutline) outline = NULL;
      g_autoptr (HwOutline) placed = NULL;
      guint n;

      for (guint k = 0; k < 12; k++)
        points[k] = (HwPoint){ g_test_rand_double_range (-40, 40), g_test_rand_double_range (-40, 40) };
      outline = hw_outline_new (&ring, 1);
      placed = hw_outline_place (outline, &placement);
      for (guint k = 0; k < 12; k++)
        g_assert_cmpfloat (
            hw_point_distance (placed->rings[0].points[k], hw_placement_apply (&placement, points[k])), ==,
            0);
      n = hw_convex_hull (placed->rings[0].points, 12, hull);
      g_assert_cmpuint (placed->n_hull, ==, n);
      g_assert_cmpfloat_with_epsilon (hw_hull_area (placed->hull, n), hw_hull_area (hull, n), 1e-6);
      g_assert_cmpfloat (hw_hull_area (placed->hull, n), >, 0);
    }
}

static void
test_offered_shapes (void)
{
  g_autoptr (HwOutline) rectangle = hw_outline_new_rectangle (30, 20);
  g_autoptr (HwOutline) ellipse = hw_outline_new_ellipse (30, 20, 360);

  g_assert_true (rectangle->box.x0 == -15 && rectangle->box.y1 == 10);
  g_assert_cmpfloat_with_epsilon (hw_hull_area (rectangle->hull, rectangle->n_hull), 600, 1e-12);
  g_assert_cmpfloat_with_epsilon (hw_hull_area (ellipse->hull, ellipse->n_hull), G_PI * 15 * 10, 0.1);
}

static void
test_equality_and_sharing (void)
{
  g_autoptr (HwOutline) a = hw_outline_new_rectangle (30, 20);
  g_autoptr (HwOutline) b = hw_outline_new_rectangle (30, 20);
  g_autoptr (HwOutline) c = hw_outline_new_rectangle (30, 20.5);
  g_autoptr (HwOutline) triangle
      = hw_outline_new (&(HwRing){ (HwPoint[]){ { 0, 0 }, { 4, 0 }, { 0, 3 } }, 3 }, 1);
  g_autoptr (HwOutline) nothing = hw_outline_new (NULL, 0);
  g_autoptr (HwOutline) shared = hw_outline_ref (a);

  g_assert_true (shared == a);
  g_assert_true (hw_outline_equal (a, b));
  g_assert_false (hw_outline_equal (a, c));
  g_assert_false (hw_outline_equal (a, NULL));
  g_assert_false (hw_outline_equal (NULL, a));
  g_assert_true (hw_outline_equal (a, a));
  g_assert_true (hw_outline_equal (NULL, NULL));
  g_assert_false (hw_outline_equal (a, triangle));
  g_assert_false (hw_outline_equal (a, nothing));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/outline/rings-are-stored-open", test_rings_are_stored_open);
  g_test_add_func ("/geometry/outline/nothing-is-an-outline-too", test_nothing_is_an_outline_too);
  g_test_add_func ("/geometry/outline/holes-are-outside", test_holes_are_outside);
  g_test_add_func ("/geometry/outline/placing", test_placing);
  g_test_add_func ("/geometry/outline/offered-shapes", test_offered_shapes);
  g_test_add_func ("/geometry/outline/equality-and-sharing", test_equality_and_sharing);
  return g_test_run ();
}

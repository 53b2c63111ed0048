/* Points of an outline in the hand: moved, added, taken away, and each step undone. */
#include "workbench/outline-edit.h"

/* A square of 40 mm with a square hole of 10 mm. */
static HwOutlineEdit *
frame (void)
{
  HwPoint outer[] = { { -20, -20 }, { 20, -20 }, { 20, 20 }, { -20, 20 } };
  HwPoint inner[] = { { -5, -5 }, { 5, -5 }, { 5, 5 }, { -5, 5 } };
  HwRing rings[] = { { outer, 4 }, { inner, 4 } };
  g_autoptr (HwOutline) outline = hw_outline_new (rings, 2);

  return hw_outline_edit_new (outline);
}

static void
test_nearest_point_and_side_are_found_within_reach (void)
{
  g_autoptr (HwOutlineEdit) edit = frame ();
  HwOutlineSpot spot;

  g_assert_true (hw_outline_edit_point_near (edit, (HwPoint){ 6, 6 }, 2, &spot));
  g_assert_cmpuint (spot.ring, ==, 1);
  g_assert_cmpuint (spot.point, ==, 2);
  g_assert_false (hw_outline_edit_point_near (edit, (HwPoint){ 0, 20 }, 2, &spot));
  g_assert_true (hw_outline_edit_side_near (edit, (HwPoint){ 0, 21 }, 2, &spot));
  g_assert_cmpuint (spot.ring, ==, 0);
  g_assert_cmpuint (spot.point, ==, 3);
  g_assert_false (hw_outline_edit_side_near (edit, (HwPoint){ 0, 12 }, 2, &spot));
}

static void
test_a_pull_is_one_step (void)
{
  g_autoptr (HwOutlineEdit) edit = frame ();
  HwOutlineSpot corner = { 0, 1 };

  hw_outline_edit_move (edit, corner, (HwPoint){ 25, -25 }, FALSE);
  hw_outline_edit_move (edit, corner, (HwPoint){ 30, -30 }, TRUE);
  hw_outline_edit_move (edit, corner, (HwPoint){ 35, -30 }, TRUE);
  g_assert_cmpfloat (hw_outline_edit_at (edit, corner).x, ==, 35);
  g_assert_cmpfloat (hw_outline_edit_get (edit)->box.x1, ==, 35);
  g_assert_true (hw_outline_edit_is_changed (edit));
  g_assert_true (hw_outline_edit_undo (edit));
  g_assert_cmpfloat (hw_outline_edit_at (edit, corner).x, ==, 20);
  g_assert_false (hw_outline_edit_is_changed (edit));
  g_assert_false (hw_outline_edit_undo (edit));
  g_assert_true (hw_outline_edit_redo (edit));
  g_assert_cmpfloat (hw_outline_edit_at (edit, corner).x, ==, 35);
  g_assert_false (hw_outline_edit_redo (edit));
}

static void
test_a_point_is_added_on_a_side_and_pulled_with_it (void)
{
  g_autoptr (HwOutlineEdit) edit = frame ();
  HwOutlineSpot spot;

  g_assert_true (hw_outline_edit_side_near (edit, (HwPoint){ -20, 3 }, 1, &spot));
  hw_outline_edit_add (edit, spot, (HwPoint){ -20, 3 });
  hw_outline_edit_move (edit, spot, (HwPoint){ -30, 3 }, TRUE);
  g_assert_cmpuint (hw_outline_edit_count (edit), ==, 9);
  g_assert_cmpfloat (hw_outline_edit_get (edit)->box.x0, ==, -30);
  g_assert_true (hw_outline_edit_undo (edit));
  g_assert_cmpuint (hw_outline_edit_count (edit), ==, 8);
}

static void
test_a_hole_goes_with_its_third_last_point_but_the_last_ring_stays (void)
{
  g_autoptr (HwOutlineEdit) edit = frame ();

  g_assert_true (hw_outline_edit_remove (edit, (HwOutlineSpot){ 1, 0 }));
  g_assert_cmpuint (hw_outline_edit_get (edit)->n_rings, ==, 2);
  g_assert_true (hw_outline_edit_remove (edit, (HwOutlineSpot){ 1, 0 }));
  g_assert_cmpuint (hw_outline_edit_get (edit)->n_rings, ==, 1);
  g_assert_true (hw_outline_edit_remove (edit, (HwOutlineSpot){ 0, 3 }));
  g_assert_false (hw_outline_edit_remove (edit, (HwOutlineSpot){ 0, 0 }));
  g_assert_cmpuint (hw_outline_edit_count (edit), ==, 3);
}

static void
test_tab_goes_through_all_points_and_back (void)
{
  g_autoptr (HwOutlineEdit) edit = frame ();
  HwOutlineSpot spot = { 0, 0 };

  for (guint i = 0; i < 8; i++)
    {
      HwOutlineSpot next = hw_outline_edit_beside (edit, spot, 1);
      HwOutlineSpot back = hw_outline_edit_beside (edit, next, -1);

      g_assert_cmpuint (back.ring, ==, spot.ring);
      g_assert_cmpuint (back.point, ==, spot.point);
      spot = next;
    }
  g_assert_cmpuint (spot.ring, ==, 0);
  g_assert_cmpuint (spot.point, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/outline-edit/nearest-point-and-side-are-found-within-reach",
                   test_nearest_point_and_side_are_found_within_reach);
  g_test_add_func ("/outline-edit/a-pull-is-one-step", test_a_pull_is_one_step);
  g_test_add_func ("/outline-edit/a-point-is-added-on-a-side-and-pulled-with-it",
                   test_a_point_is_added_on_a_side_and_pulled_with_it);
  g_test_add_func ("/outline-edit/a-hole-goes-with-its-third-last-point-but-the-last-ring-stays",
                   test_a_hole_goes_with_its_third_last_point_but_the_last_ring_stays);
  g_test_add_func ("/outline-edit/tab-goes-through-all-points-and-back",
                   test_tab_goes_through_all_points_and_back);
  return g_test_run ();
}

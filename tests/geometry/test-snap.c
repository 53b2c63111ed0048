/* A box in the hand comes to rest at the nearest line, side, middle or equal gap, and the rules shown are true of where it lies. */
#include <math.h>

#include "geometry/snap.h"

static void
assert_point (HwPoint got, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (got.x, x, 1e-9);
  g_assert_cmpfloat_with_epsilon (got.y, y, 1e-9);
}

static HwBox
moved (HwBox box, HwPoint by)
{
  return (HwBox){ box.x0 + by.x, box.y0 + by.y, box.x1 + by.x, box.y1 + by.y };
}

static void
test_side_rests_at_the_nearer_of_two_lines (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();

  hw_snap_field_add_line (field, TRUE, 20, 0, 400, HW_SNAP_EDGE);
  hw_snap_field_add_line (field, TRUE, 22, 0, 400, HW_SNAP_MARGIN);
  assert_point (hw_snap_shift (field, (HwBox){ 21.4, 50, 61.4, 90 }, 3, TRUE, TRUE), 0.6, 0);
  assert_point (hw_snap_shift (field, (HwBox){ 20.4, 50, 60.4, 90 }, 3, TRUE, TRUE), -0.4, 0);
}

static void
test_nothing_within_reach_leaves_it_alone (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();
  HwSnapGuide guides[HW_SNAP_MOST_GUIDES];

  hw_snap_field_add_line (field, FALSE, 100, 0, 400, HW_SNAP_CENTRE);
  assert_point (hw_snap_shift (field, (HwBox){ 0, 76, 40, 116 }, 3, TRUE, TRUE), 0, 0);
  g_assert_cmpuint (hw_snap_guides (field, (HwBox){ 0, 76, 40, 116 }, TRUE, TRUE, guides), ==, 0);
}

static void
test_a_centre_line_takes_the_middle_and_no_side (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();

  hw_snap_field_add_line (field, TRUE, 300, 0, 400, HW_SNAP_CENTRE);
  assert_point (hw_snap_shift (field, (HwBox){ 281, 0, 321, 40 }, 2, TRUE, TRUE), -1, 0);
  assert_point (hw_snap_shift (field, (HwBox){ 299, 0, 339, 40 }, 2, TRUE, TRUE), 0, 0);
}

static void
test_an_axis_that_may_not_move_stays (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();

  hw_snap_field_add_box (field, (HwBox){ 0, 0, 40, 40 });
  assert_point (hw_snap_shift (field, (HwBox){ 51, 1, 91, 41 }, 2, TRUE, FALSE), 0, 0);
  assert_point (hw_snap_shift (field, (HwBox){ 51, 1, 91, 41 }, 2, TRUE, TRUE), 0, -1);
}

static void
test_a_box_far_away_is_no_neighbour (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();

  hw_snap_field_add_box (field, (HwBox){ 400, 0, 440, 40 });
  assert_point (hw_snap_shift (field, (HwBox){ 0, 1, 40, 41 }, 2, TRUE, TRUE), 0, 0);
}

static void
test_third_of_a_row_takes_the_gap_of_the_first_two (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();
  HwBox box = { 111.5, 3, 151.5, 33 };
  HwSnapGuide guides[HW_SNAP_MOST_GUIDES];
  HwPoint shift;
  guint n, gaps = 0;

  hw_snap_field_add_box (field, (HwBox){ 0, 0, 40, 40 });
  hw_snap_field_add_box (field, (HwBox){ 55, 0, 95, 40 });
  shift = hw_snap_shift (field, box, 2, TRUE, FALSE);
  assert_point (shift, -1.5, 0);
  n = hw_snap_guides (field, moved (box, shift), TRUE, FALSE, guides);
  for (guint i = 0; i < n; i++)
    if (guides[i].kind == HW_SNAP_GAP)
      {
        gaps++;
        g_assert_cmpfloat_with_epsilon (guides[i].gap, 15, 1e-9);
      }
  g_assert_cmpuint (gaps, ==, 2);
}

static void
test_between_two_it_rests_in_the_middle_of_the_gap (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();

  hw_snap_field_add_box (field, (HwBox){ 0, 0, 40, 30 });
  hw_snap_field_add_box (field, (HwBox){ 0, 110, 40, 150 });
  assert_point (hw_snap_shift (field, (HwBox){ 7, 49, 33, 89 }, 2, FALSE, TRUE), 0, 1);
}

/* Whatever lies about: it goes no farther than the reach, where it rests it stays, and if it went there is a rule that says why. */
static void
test_any_field_is_answered_within_reach_and_with_a_reason (void)
{
  for (int round = 0; round < 2000; round++)
    {
      g_autoptr (HwSnapField) field = hw_snap_field_new ();
      double reach = g_test_rand_double_range (0.5, 6);
      HwSnapGuide guides[HW_SNAP_MOST_GUIDES];
      HwBox box;
      HwPoint shift, again;

      for (int i = g_test_rand_int_range (0, 7); i > 0; i--)
        {
          double x = g_test_rand_double_range (0, 200), y = g_test_rand_double_range (0, 200);
          hw_snap_field_add_box (field, (HwBox){ x, y, x + g_test_rand_double_range (5, 60),
                                                 y + g_test_rand_double_range (5, 60) });
        }
      for (int i = g_test_rand_int_range (0, 5); i > 0; i--)
        hw_snap_field_add_line (field, g_test_rand_bit (), g_test_rand_double_range (0, 200), 0, 200,
                                (HwSnapKind)g_test_rand_int_range (HW_SNAP_EDGE, HW_SNAP_CENTRE + 1));
      box.x0 = g_test_rand_double_range (0, 200);
      box.y0 = g_test_rand_double_range (0, 200);
      box.x1 = box.x0 + g_test_rand_double_range (5, 60);
      box.y1 = box.y0 + g_test_rand_double_range (5, 60);
      for (int axis = 0; axis < 2; axis++)
        {
          shift = hw_snap_shift (field, box, reach, axis == 0, axis == 1);
          g_assert_cmpfloat (fabs (shift.x), <=, axis == 0 ? reach : 0);
          g_assert_cmpfloat (fabs (shift.y), <=, axis == 1 ? reach : 0);
          if (shift.x == 0 && shift.y == 0)
            continue;
          again = hw_snap_shift (field, moved (box, shift), reach, axis == 0, axis == 1);
          g_assert_cmpfloat (fabs (again.x) + fabs (again.y), <, 1e-6);
          g_assert_cmpuint (hw_snap_guides (field, moved (box, shift), axis == 0, axis == 1, guides), >, 0);
        }
    }
}

/* Of the same width and one under the other, both sides and the middle rest; a rule there already is drawn as far as the third box. */
static void
test_each_reason_is_shown_once_and_as_long_as_it_reaches (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();
  HwSnapGuide guides[HW_SNAP_MOST_GUIDES];
  const double at[] = { 10, 50, 30 };
  const HwSnapKind kinds[] = { HW_SNAP_SIDE, HW_SNAP_SIDE, HW_SNAP_MIDDLE };
  guint n;

  hw_snap_field_add_box (field, (HwBox){ 10, 0, 50, 20 });
  hw_snap_field_add_box (field, (HwBox){ 10, 61, 50, 80 });
  n = hw_snap_guides (field, (HwBox){ 10, 30, 50, 45 }, TRUE, FALSE, guides);
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (at));
  for (guint i = 0; i < n; i++)
    {
      assert_point (guides[i].from, at[i], 0);
      assert_point (guides[i].to, at[i], 80);
      g_assert_cmpint (guides[i].kind, ==, kinds[i]);
    }
  /* Level rules are kept apart from upright ones at the same figure, and an edge wins over a side. */
  hw_snap_field_add_line (field, FALSE, 30, -5, 90, HW_SNAP_EDGE);
  g_assert_cmpuint (hw_snap_guides (field, (HwBox){ 10, 30, 50, 45 }, TRUE, TRUE, guides), ==, 4);
  assert_point (guides[3].from, -5, 30);
  assert_point (guides[3].to, 90, 30);
  g_assert_cmpint (guides[3].kind, ==, HW_SNAP_EDGE);
}

/* No more rules than there is room for, however many boxes rest at each other; what is no box rests nowhere. */
static void
test_rules_have_an_end (void)
{
  g_autoptr (HwSnapField) field = hw_snap_field_new ();
  HwSnapGuide guides[HW_SNAP_MOST_GUIDES + 1];
  HwBox empty = { 1, 1, 0, 0 };

  guides[HW_SNAP_MOST_GUIDES].gap = 42;
  for (guint i = 0; i < 40; i++)
    hw_snap_field_add_line (field, TRUE, 10 + i * 9e-7 / 40, 0, 10, HW_SNAP_EDGE);
  hw_snap_field_add_box (field, empty);
  for (guint i = 0; i < 9; i++)
    for (guint j = 0; j < 9; j++)
      hw_snap_field_add_box (field, (HwBox){ i * 20, j * 20, i * 20 + 10, j * 20 + 10 });
  g_assert_cmpuint (hw_snap_guides (field, (HwBox){ 80, 80, 90, 90 }, TRUE, TRUE, guides), ==,
                    HW_SNAP_MOST_GUIDES);
  g_assert_cmpfloat (guides[HW_SNAP_MOST_GUIDES].gap, ==, 42);
  g_assert_cmpuint (hw_snap_guides (field, empty, TRUE, TRUE, guides), ==, 0);
  assert_point (hw_snap_shift (field, empty, 5, TRUE, TRUE), 0, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/snap/nearer-line", test_side_rests_at_the_nearer_of_two_lines);
  g_test_add_func ("/snap/out-of-reach", test_nothing_within_reach_leaves_it_alone);
  g_test_add_func ("/snap/centre-line", test_a_centre_line_takes_the_middle_and_no_side);
  g_test_add_func ("/snap/one-axis", test_an_axis_that_may_not_move_stays);
  g_test_add_func ("/snap/far-away", test_a_box_far_away_is_no_neighbour);
  g_test_add_func ("/snap/third-of-a-row", test_third_of_a_row_takes_the_gap_of_the_first_two);
  g_test_add_func ("/snap/between-two", test_between_two_it_rests_in_the_middle_of_the_gap);
  g_test_add_func ("/snap/any-field", test_any_field_is_answered_within_reach_and_with_a_reason);
  g_test_add_func ("/snap/shown-once", test_each_reason_is_shown_once_and_as_long_as_it_reaches);
  g_test_add_func ("/snap/rules-have-an-end", test_rules_have_an_end);
  return g_test_run ();
}

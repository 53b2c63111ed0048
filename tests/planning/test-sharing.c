/* The sharing question on floated cloth: yes or no, and the intervals of angles. Dense sampling of angles serves here, and only here, as
 * the other road. */
#include "sharing-cases.h"

static const HwFabric floated = { .width = 700, .height = 540, .hold = HW_HOLD_FLOATED };

static void
test_exact_rectangle (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (130, 180, 2, HW_TURN_ANY);

  /* Exactly as large as the usable field, and a hundredth larger, wherever and however it lies. */
  for (guint i = 0; i < 2000; i++)
    {
      double angle = g_test_rand_double_range (-180, 180);
      double x = g_test_rand_double_range (-2000, 2000), y = g_test_rand_double_range (-2000, 2000);

      for (int larger = 0; larger < 2; larger++)
        {
          g_autoptr (HwOutline) rectangle = hw_outline_new_rectangle (126 + 0.01 * larger, 176);
          HwPlacement placement = { { x, y }, angle, 1, i % 2 };
          g_autoptr (HwOutline) placed = hw_outline_place (rectangle, &placement);
          g_autoptr (GArray) angles = hw_sharing_angles (placed->hull, placed->n_hull, hoop, &floated);

          g_assert_cmpint (hw_sharing_fits (placed->hull, placed->n_hull, hoop, &floated), ==, !larger);
          g_assert_cmpint (angles->len > 0, ==, !larger);
          if (!larger)
            {
              HwAngleInterval found = g_array_index (angles, HwAngleInterval, 0);

              g_assert_cmpfloat (fabs (remainder (found.from - angle, 180)), <, 1e-6);
              g_assert_cmpfloat (found.to - found.from, <, 1e-6);
            }
        }
    }
}

static void
test_single_point_and_segment (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (100, 100, 2, HW_TURN_ANY);
  HwPoint points[] = { { 30, 40 }, { 30 + 96 * G_SQRT2 - 1e-9, 40 }, { 30 + 96 * G_SQRT2 + 0.001, 40 } };
  HwPoint longer[] = { points[0], points[2] };
  g_autoptr (GArray) angles = hw_sharing_angles (points, 1, hoop, &floated);

  g_assert_true (hw_sharing_fits (points, 1, hoop, &floated));
  g_assert_cmpuint (angles->len, ==, 1);
  g_assert_cmpfloat (g_array_index (angles, HwAngleInterval, 0).from, ==, 0);
  g_assert_cmpfloat (g_array_index (angles, HwAngleInterval, 0).to, ==, 180);
  g_assert_true (hw_sharing_fits (points, 2, hoop, &floated));
  g_assert_false (hw_sharing_fits (longer, 2, hoop, &floated));
  g_assert_false (hw_sharing_fits (points, 0, hoop, &floated));
}

static void
test_no_usable_field (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (100, 100, 50.1, HW_TURN_ANY);
  HwPoint point = { 0, 0 };
  g_autoptr (GArray) angles = hw_sharing_angles (&point, 1, hoop, &floated);

  g_assert_false (hw_sharing_fits (&point, 1, hoop, &floated));
  g_assert_cmpuint (angles->len, ==, 0);
}

static void
test_quarter_turns_only (void)
{
  g_autoptr (HwHoop) any = case_hoop (100, 60, 0, HW_TURN_ANY);
  g_autoptr (HwHoop) quarter = case_hoop (100, 60, 0, HW_TURN_QUARTER);
  HwPoint slanting[] = { { 0, 0 }, { 80, 80 } }; /* as long as the diagonal would take */
  HwPoint standing[] = { { 0, 0 }, { 60, 0 }, { 60, 100 }, { 0, 100 } };
  g_autoptr (GArray) angles = hw_sharing_angles (standing, 4, quarter, &floated);

  g_assert_true (hw_sharing_fits (slanting, 2, any, &floated));
  g_assert_false (hw_sharing_fits (slanting, 2, quarter, &floated));
  g_assert_true (hw_sharing_fits (standing, 4, quarter, &floated));
  g_assert_cmpuint (angles->len, ==, 1);
  g_assert_cmpfloat (g_array_index (angles, HwAngleInterval, 0).from, ==, 90);
  g_assert_cmpfloat (g_array_index (angles, HwAngleInterval, 0).to, ==, 90);
}

/* Every sampled angle agrees with the intervals, but for those within a hair of an interval's end. */
static void
test_intervals_against_sampling (void)
{
  guint fitting = 0, several = 0;

  for (guint i = 0; i < 3000; i++)
    {
      HwPoint hull[64];
      guint n = case_random_hull (300, 200, g_test_rand_double_range (100, 260),
                                  g_test_rand_int_range (2, 31), hull);
      g_autoptr (HwHoop) hoop
          = case_hoop (g_test_rand_double_range (60, 200), g_test_rand_double_range (60, 200),
                       g_test_rand_double_range (0, 5), HW_TURN_ANY);
      g_autoptr (GArray) angles = hw_sharing_angles (hull, n, hoop, &floated);
      double before = -1;

      g_assert_cmpint (angles->len > 0, ==, hw_sharing_fits (hull, n, hoop, &floated));
      fitting += angles->len > 0;
      several += angles->len > 1;
      for (guint k = 0; k < angles->len; k++)
        {
          HwAngleInterval interval = g_array_index (angles, HwAngleInterval, k);

          g_assert_cmpfloat (interval.from, >, before);
          g_assert_cmpfloat (interval.from, <=, interval.to);
          g_assert_cmpfloat (interval.to, <=, 180);
          before = interval.to;
          /* At an end that is not 0 or 180 an extent just reaches its limit. */
          if (interval.from > 0)
            g_assert_cmpfloat_with_epsilon (case_excess (hull, n, hoop, interval.from), 0, 1.1e-7);
          if (interval.to < 180)
            g_assert_cmpfloat_with_epsilon (case_excess (hull, n, hoop, interval.to), 0, 1.1e-7);
        }
      for (double degrees = 0; degrees < 180; degrees += 0.73)
        {
          double excess = case_excess (hull, n, hoop, degrees);

          if (fabs (excess) > 1e-6)
            g_assert_cmpint (case_angle_listed (angles, degrees), ==, excess < 0);
        }
    }
  g_assert_cmpuint (fitting, >, 500);
  g_assert_cmpuint (several, >, 200);
}

/* What does not depend on where the cloth's axes are. */
static void
test_turning_the_cloth_changes_nothing (void)
{
  for (guint i = 0; i < 2000; i++)
    {
      HwPoint hull[64], turned[64];
      guint n = case_random_hull (0, 0, g_test_rand_double_range (120, 220), 20, hull), n_turned;
      g_autoptr (HwHoop) hoop = case_hoop (100, 150, 2, HW_TURN_ANY);
      double turn = g_test_rand_double_range (-180, 180);

      for (guint k = 0; k < n; k++)
        turned[k] = hw_point_turn (hull[k], turn);
      n_turned = hw_convex_hull (turned, n, turned);
      g_assert_cmpint (hw_sharing_fits (hull, n, hoop, &floated), ==,
                       hw_sharing_fits (turned, n_turned, hoop, &floated));
    }
}

static void
test_hull_of_motifs (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  g_autoptr (GArray) hull = NULL;
  guint motifs[] = { 0, 1 };
  double area;

  for (guint i = 0; i < 2; i++)
    {
      HwMotif *motif = hw_motif_new ();

      motif->id = g_strdup_printf ("m%u", i + 1);
      motif->outline = hw_outline_new_rectangle (20, 10);
      motif->placement = (HwPlacement){ { 100 + 60.0 * i, 50 }, 90 * i, 1, i };
      g_ptr_array_add (snapshot->motifs, motif);
    }
  hull = hw_sharing_hull (snapshot, motifs, 2);
  /* A trapezoid from the lying rectangle's left side, 10 high at 90, to the standing one, 20 high from 155 to 165. */
  area = hw_hull_area ((const HwPoint *)hull->data, hull->len);
  g_assert_cmpuint (hull->len, ==, 6);
  g_assert_cmpfloat_with_epsilon (area, 65 * (10 + 20) / 2.0 + 10 * 20, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/sharing/exact-rectangle", test_exact_rectangle);
  g_test_add_func ("/planning/sharing/single-point-and-segment", test_single_point_and_segment);
  g_test_add_func ("/planning/sharing/no-usable-field", test_no_usable_field);
  g_test_add_func ("/planning/sharing/quarter-turns-only", test_quarter_turns_only);
  g_test_add_func ("/planning/sharing/intervals-against-sampling", test_intervals_against_sampling);
  g_test_add_func ("/planning/sharing/turning-the-cloth-changes-nothing",
                   test_turning_the_cloth_changes_nothing);
  g_test_add_func ("/planning/sharing/hull-of-motifs", test_hull_of_motifs);
  return g_test_run ();
}

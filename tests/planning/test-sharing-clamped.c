/* The sharing question on clamped cloth, where the frame must lie on the cloth too: against a search over a grid of centres and
 * angles, which serves here, and only here, as the other road. */
#include "sharing-cases.h"

static HwFabric
clamped_cloth (double width, double height)
{
  return (HwFabric){ .width = width, .height = height, .hold = HW_HOLD_CLAMPED };
}

/* The best over a grid of centres of the least room that any condition leaves at this angle, mm. */
static double
grid_room (
    const HwPoint *hull, guint n, const HwHoop *hoop, const HwFabric *fabric, double degrees, double step)
{
  double best = -INFINITY, wide, high;
  HwPoint middle, at;
  double c = fabs (cos (degrees * G_PI / 180)), s = fabs (sin (degrees * G_PI / 180));
  double half_x = (hoop->frame_width * c + hoop->frame_height * s) / 2;
  double half_y = (hoop->frame_width * s + hoop->frame_height * c) / 2;

  case_extents (hull, n, degrees, &wide, &high, &middle);
  for (at.x = half_x; at.x <= fabric->width - half_x + step; at.x += step)
    for (at.y = half_y; at.y <= fabric->height - half_y + step; at.y += step)
      {
        HwPoint off = hw_point_turn ((HwPoint){ at.x - middle.x, at.y - middle.y }, -degrees);
        double room = MIN (hoop->field_width / 2 - hoop->clearance - wide / 2 - fabs (off.x),
                           hoop->field_height / 2 - hoop->clearance - high / 2 - fabs (off.y));

        room = MIN (room, MIN (fabric->width - half_x - at.x, fabric->height - half_y - at.y));
        best = MAX (best, room);
      }
  return best;
}

static void
test_frame_as_large_as_the_cloth (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (100, 150, 0, HW_TURN_ANY);
  HwFabric exact = clamped_cloth (130, 200), small = clamped_cloth (129.99, 200);
  HwPoint hull[] = { { 20, 40 }, { 110, 40 }, { 110, 170 }, { 20, 170 } };
  g_autoptr (GArray) angles = hw_sharing_angles (hull, 4, hoop, &exact);
  HwPose pose;

  g_assert_true (hw_sharing_fits (hull, 4, hoop, &exact));
  g_assert_false (hw_sharing_fits (hull, 4, hoop, &small));
  g_assert_cmpuint (angles->len, ==, 2); /* 0, and 180 where it is cut */
  g_assert_true (hw_sharing_pose_at (hull, 4, hoop, &exact, 0, &pose));
  g_assert_cmpfloat_with_epsilon (pose.centre.x, 65, 1e-6);
  g_assert_cmpfloat_with_epsilon (pose.centre.y, 100, 1e-6);
  g_assert_false (hw_sharing_pose_at (hull, 4, hoop, &exact, 1, &pose));
}

static void
test_motif_in_the_corner (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (100, 150, 0, HW_TURN_ANY); /* frame 15 and 25 mm beyond the field */
  HwFabric cloth = clamped_cloth (700, 540);
  HwPoint inside[] = { { 15, 25 }, { 40, 25 }, { 40, 60 }, { 15, 60 } };
  HwPoint beyond[] = { { 5, 5 }, { 30, 5 }, { 30, 40 }, { 5, 40 } };
  HwPose pose;

  g_assert_true (hw_sharing_pose_at (inside, 4, hoop, &cloth, 0, &pose));
  g_assert_cmpfloat_with_epsilon (pose.centre.x, 65, 1e-6);
  g_assert_cmpfloat_with_epsilon (pose.centre.y, 100, 1e-6);
  g_assert_cmpfloat_with_epsilon (pose.margin, 0, 1e-6);
  g_assert_false (hw_sharing_fits (beyond, 4, hoop, &cloth));
}

static void
test_against_centre_grid (void)
{
  guint yes = 0, no = 0;

  for (guint i = 0; i < 250; i++)
    {
      HwPoint hull[64];
      HwFabric cloth
          = clamped_cloth (g_test_rand_double_range (180, 320), g_test_rand_double_range (180, 320));
      g_autoptr (HwHoop) hoop
          = case_hoop (g_test_rand_double_range (90, 160), g_test_rand_double_range (90, 160),
                       g_test_rand_double_range (0, 4), HW_TURN_ANY);
      guint n = case_random_hull (g_test_rand_double_range (60, cloth.width - 60),
                                  g_test_rand_double_range (60, cloth.height - 60),
                                  g_test_rand_double_range (40, 120), 16, hull);
      g_autoptr (GArray) angles = hw_sharing_angles (hull, n, hoop, &cloth);

      g_assert_cmpint (angles->len > 0, ==, hw_sharing_fits (hull, n, hoop, &cloth));
      for (double degrees = 0; degrees < 180; degrees += 7.3)
        {
          const double step = 1.5;
          double room = grid_room (hull, n, hoop, &cloth, degrees, step);
          gboolean listed = case_angle_listed (angles, degrees);
          HwPose pose;

          g_assert_cmpint (listed, ==, hw_sharing_pose_at (hull, n, hoop, &cloth, degrees, &pose));
          if (listed)
            g_assert_true (case_pose_holds (hull, n, hoop, &cloth, pose.centre, degrees, 1e-6));
          /* A grid point that holds proves yes; none within a step proves no. */
          if (room >= 0)
            g_assert_true (listed);
          if (room < -step * 1.5)
            g_assert_false (listed);
          yes += room >= 0;
          no += room < -step * 1.5;
        }
    }
  g_assert_cmpuint (yes, >, 300);
  g_assert_cmpuint (no, >, 300);
}

/* The ends of the intervals are where the room at the best centre is just used up. */
static void
test_interval_ends (void)
{
  guint ends = 0;

  for (guint i = 0; i < 3000; i++)
    {
      HwPoint hull[64];
      HwFabric cloth
          = clamped_cloth (g_test_rand_double_range (160, 320), g_test_rand_double_range (160, 320));
      g_autoptr (HwHoop) hoop
          = case_hoop (g_test_rand_double_range (90, 160), g_test_rand_double_range (90, 160),
                       g_test_rand_double_range (0, 4), HW_TURN_ANY);
      guint n = case_random_hull (g_test_rand_double_range (40, cloth.width - 40),
                                  g_test_rand_double_range (40, cloth.height - 40),
                                  g_test_rand_double_range (40, 160), 16, hull);
      g_autoptr (GArray) angles = hw_sharing_angles (hull, n, hoop, &cloth);

      g_assert_cmpint (angles->len > 0, ==, hw_sharing_fits (hull, n, hoop, &cloth));
      for (guint k = 0; k < angles->len; k++)
        {
          HwAngleInterval interval = g_array_index (angles, HwAngleInterval, k);
          HwPose pose;

          for (int part = 0; part <= 10; part++)
            {
              double degrees = interval.from + (interval.to - interval.from) * part / 10;

              g_assert_true (hw_sharing_pose_at (hull, n, hoop, &cloth, degrees, &pose));
              g_assert_true (case_pose_holds (hull, n, hoop, &cloth, pose.centre, degrees, 1e-6));
            }
          if (interval.from > 0)
            g_assert_false (hw_sharing_pose_at (hull, n, hoop, &cloth, interval.from - 1e-4, &pose));
          if (interval.to < 180)
            g_assert_false (hw_sharing_pose_at (hull, n, hoop, &cloth, interval.to + 1e-4, &pose));
          ends++;
        }
    }
  g_assert_cmpuint (ends, >, 1000);
}

/* On a cloth so large that no frame reaches its sides, clamped and floated are the same question. */
static void
test_large_cloth_is_as_floated (void)
{
  HwFabric large = clamped_cloth (4000, 4000),
           floated = { .width = 4000, .height = 4000, .hold = HW_HOLD_FLOATED };

  for (guint i = 0; i < 2000; i++)
    {
      HwPoint hull[64];
      guint n = case_random_hull (2000, 2000, g_test_rand_double_range (100, 220), 20, hull);
      g_autoptr (HwHoop) hoop = case_hoop (g_test_rand_double_range (80, 160),
                                           g_test_rand_double_range (80, 160), 2, HW_TURN_ANY);
      g_autoptr (GArray) a = hw_sharing_angles (hull, n, hoop, &large);
      g_autoptr (GArray) b = hw_sharing_angles (hull, n, hoop, &floated);

      g_assert_cmpuint (a->len, ==, b->len);
      for (guint k = 0; k < a->len; k++)
        {
          g_assert_cmpfloat_with_epsilon (g_array_index (a, HwAngleInterval, k).from,
                                          g_array_index (b, HwAngleInterval, k).from, 1e-9);
          g_assert_cmpfloat_with_epsilon (g_array_index (a, HwAngleInterval, k).to,
                                          g_array_index (b, HwAngleInterval, k).to, 1e-9);
        }
    }
}

/* Where no angle is liked, the one found leaves as much room as any of a fine comb over half a turn. */
static void
test_widest_angle (void)
{
  guint compared = 0;

  for (guint i = 0; i < 3000; i++)
    {
      HwPoint hull[64];
      HwFabric cloth
          = clamped_cloth (g_test_rand_double_range (160, 260), g_test_rand_double_range (160, 260));
      g_autoptr (HwHoop) hoop = case_hoop (g_test_rand_double_range (90, 150),
                                           g_test_rand_double_range (90, 150), 0, HW_TURN_ANY);
      guint n = case_random_hull (g_test_rand_double_range (60, cloth.width - 60),
                                  g_test_rand_double_range (60, cloth.height - 60),
                                  g_test_rand_double_range (40, 110), 16, hull);
      double best = -INFINITY;
      HwPose pose, found;

      for (double degrees = 0; degrees < 180; degrees += 0.5)
        if (hw_sharing_pose_at (hull, n, hoop, &cloth, degrees, &pose))
          best = MAX (best, pose.margin);
      if (!hw_sharing_pose (hull, n, hoop, &cloth, NULL, 0, 0, &found))
        continue;
      compared++;
      g_assert_cmpfloat (found.margin, >=, best - 0.005);
    }
  g_assert_cmpuint (compared, >, 1000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/sharing-clamped/frame-as-large-as-the-cloth", test_frame_as_large_as_the_cloth);
  g_test_add_func ("/planning/sharing-clamped/motif-in-the-corner", test_motif_in_the_corner);
  g_test_add_func ("/planning/sharing-clamped/against-centre-grid", test_against_centre_grid);
  g_test_add_func ("/planning/sharing-clamped/interval-ends", test_interval_ends);
  g_test_add_func ("/planning/sharing-clamped/large-cloth-is-as-floated", test_large_cloth_is_as_floated);
  g_test_add_func ("/planning/sharing-clamped/widest-angle", test_widest_angle);
  return g_test_run ();
}

/* Where the hoop is set: a liked angle first, then the turn step, then the most room; and there with the same room on all sides. */
#include "sharing-cases.h"

static const HwFabric floated = { .width = 700, .height = 540, .hold = HW_HOLD_FLOATED };

static guint
placed_rectangle (double x, double y, double width, double height, double angle, HwPoint hull[4])
{
  g_autoptr (HwOutline) rectangle = hw_outline_new_rectangle (width, height);
  HwPlacement placement = { { x, y }, angle, 1, FALSE };
  g_autoptr (HwOutline) placed = hw_outline_place (rectangle, &placement);

  for (guint i = 0; i < placed->n_hull; i++)
    hull[i] = placed->hull[i];
  return placed->n_hull;
}

static void
test_unturned_when_it_can_be (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (130, 180, 2, HW_TURN_ANY);
  HwPoint hull[4];
  guint n = placed_rectangle (200, 150, 60, 100, 20, hull);
  const double liked[] = { 0, 20 };
  HwPose pose;

  g_assert_true (hw_sharing_pose (hull, n, hoop, &floated, liked, 2, 1, &pose));
  g_assert_cmpfloat (pose.angle, ==, 0);
  g_assert_cmpfloat_with_epsilon (pose.centre.x, 200, 1e-9);
  g_assert_cmpfloat_with_epsilon (pose.centre.y, 150, 1e-9);
  g_assert_true (hw_sharing_pose (hull, n, hoop, &floated, liked + 1, 1, 1, &pose));
  g_assert_cmpfloat (pose.angle, ==, 20);
  g_assert_cmpfloat_with_epsilon (pose.margin, 35, 1e-9);
}

static void
test_quarter_turn_before_any_other (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (130, 180, 2, HW_TURN_ANY);
  HwPoint hull[4];
  guint n = placed_rectangle (200, 150, 170, 100, 0, hull);
  const double liked[] = { 0 };
  HwPose pose;

  g_assert_true (hw_sharing_pose (hull, n, hoop, &floated, liked, 1, 1, &pose));
  g_assert_cmpfloat (pose.angle, ==, 90);
}

static void
test_turn_step_before_the_most_room (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (130, 180, 2, HW_TURN_ANY);
  HwPoint hull[4];
  guint n = placed_rectangle (200, 150, 122, 172, 33.3, hull);
  const double liked[] = { 0 };
  HwPose pose;

  g_assert_true (hw_sharing_pose (hull, n, hoop, &floated, liked, 1, 1, &pose));
  g_assert_cmpfloat_with_epsilon (pose.angle, 33, 1e-9);
  /* No step of five degrees lies where it fits. */
  g_assert_true (hw_sharing_pose (hull, n, hoop, &floated, liked, 1, 5, &pose));
  g_assert_cmpfloat_with_epsilon (pose.angle, 33.3, 1e-6);
  g_assert_cmpfloat_with_epsilon (pose.margin, 4, 1e-6);
}

static void
test_exact_fit_has_a_pose (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (130, 180, 2, HW_TURN_ANY);

  for (guint i = 0; i < 500; i++)
    {
      HwPoint hull[4];
      double angle = g_test_rand_double_range (-90, 90);
      guint n = placed_rectangle (200, 150, 126, 176, angle, hull);
      HwPose pose;

      g_assert_true (hw_sharing_pose (hull, n, hoop, &floated, NULL, 0, 1, &pose));
      g_assert_cmpfloat_with_epsilon (pose.margin, 2, 1e-6);
      g_assert_cmpfloat (fabs (remainder (pose.angle - angle, 180)), <, 1e-6);
    }
}

static void
test_quarter_hoop_keeps_its_angles (void)
{
  g_autoptr (HwHoop) hoop = case_hoop (130, 180, 2, HW_TURN_QUARTER);
  HwPoint hull[4];
  guint n = placed_rectangle (200, 150, 60, 100, 20, hull);
  const double liked[] = { 20 };
  HwPose pose;

  g_assert_true (hw_sharing_pose (hull, n, hoop, &floated, liked, 1, 1, &pose));
  g_assert_true (pose.angle == 0 || pose.angle == 90);
  g_assert_false (hw_sharing_pose_at (hull, n, hoop, &floated, 20, &pose));
}

/* Whatever pose is found holds, its margin is what it says, and no sampled angle leaves more room than the widest. */
static void
test_random_poses (void)
{
  guint found = 0;

  for (guint i = 0; i < 2000; i++)
    {
      HwPoint hull[64];
      guint n = case_random_hull (300, 200, g_test_rand_double_range (80, 220), 16, hull);
      g_autoptr (HwHoop) hoop = case_hoop (g_test_rand_double_range (60, 180),
                                           g_test_rand_double_range (60, 180), 2, HW_TURN_ANY);
      gboolean fits = hw_sharing_fits (hull, n, hoop, &floated);
      double wide, high;
      HwPoint middle;
      HwPose pose;

      g_assert_cmpint (hw_sharing_pose (hull, n, hoop, &floated, NULL, 0, 0, &pose), ==, fits);
      if (!fits)
        continue;
      found++;
      g_assert_true (case_pose_holds (hull, n, hoop, &floated, pose.centre, pose.angle, 1e-6));
      g_assert_true (pose.angle > -90 && pose.angle <= 90);
      case_extents (hull, n, pose.angle, &wide, &high, &middle);
      g_assert_cmpfloat_with_epsilon (pose.margin,
                                      MIN (hoop->field_width - wide, hoop->field_height - high) / 2, 1e-9);
      for (double degrees = 0; degrees < 180; degrees += 0.9)
        {
          case_extents (hull, n, degrees, &wide, &high, &middle);
          g_assert_cmpfloat (MIN (hoop->field_width - wide, hoop->field_height - high) / 2, <=,
                             pose.margin + 1e-6);
        }
    }
  g_assert_cmpuint (found, >, 300);
}

static void
test_clamped_centre_keeps_most_room (void)
{
  guint moved = 0;

  for (guint i = 0; i < 1500; i++)
    {
      HwPoint hull[64], middle;
      HwFabric cloth = { .width = 300, .height = 280, .hold = HW_HOLD_CLAMPED };
      g_autoptr (HwHoop) hoop = case_hoop (130, 160, 2, HW_TURN_ANY);
      guint n = case_random_hull (g_test_rand_double_range (50, 250), g_test_rand_double_range (50, 230),
                                  g_test_rand_double_range (20, 90), 12, hull);
      double angle = g_test_rand_double_range (-90, 90), wide, high;
      HwPose pose;

      if (!hw_sharing_pose_at (hull, n, hoop, &cloth, angle, &pose))
        continue;
      g_assert_true (case_pose_holds (hull, n, hoop, &cloth, pose.centre, angle, 1e-6));
      case_extents (hull, n, angle, &wide, &high, &middle);
      moved += hw_point_distance (middle, pose.centre) > 1e-6;
      /* No other allowed centre leaves more room, and none with the same room lies nearer to the even one. */
      for (guint k = 0; k < 200; k++)
        {
          HwPoint at = { pose.centre.x + g_test_rand_double_range (-8, 8),
                         pose.centre.y + g_test_rand_double_range (-8, 8) };
          HwPoint off = hw_point_turn ((HwPoint){ at.x - middle.x, at.y - middle.y }, -angle);
          double margin = MIN ((hoop->field_width - wide) / 2 - fabs (off.x),
                               (hoop->field_height - high) / 2 - fabs (off.y));

          if (!case_pose_holds (hull, n, hoop, &cloth, at, angle, 0))
            continue;
          g_assert_cmpfloat (margin, <=, pose.margin + 1e-6);
          if (margin >= pose.margin)
            g_assert_cmpfloat (hw_point_distance (at, middle), >=,
                               hw_point_distance (pose.centre, middle) - 1e-6);
        }
    }
  g_assert_cmpuint (moved, >, 100);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/sharing-pose/unturned-when-it-can-be", test_unturned_when_it_can_be);
  g_test_add_func ("/planning/sharing-pose/quarter-turn-before-any-other",
                   test_quarter_turn_before_any_other);
  g_test_add_func ("/planning/sharing-pose/turn-step-before-the-most-room",
                   test_turn_step_before_the_most_room);
  g_test_add_func ("/planning/sharing-pose/exact-fit-has-a-pose", test_exact_fit_has_a_pose);
  g_test_add_func ("/planning/sharing-pose/quarter-hoop-keeps-its-angles",
                   test_quarter_hoop_keeps_its_angles);
  g_test_add_func ("/planning/sharing-pose/random-poses", test_random_poses);
  g_test_add_func ("/planning/sharing-pose/clamped-centre-keeps-most-room",
                   test_clamped_centre_keeps_most_room);
  return g_test_run ();
}

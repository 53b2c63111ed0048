/* The sharing question against closed forms of plane trigonometry. A rectangle w x h turned by t has the extents w |cos t| + h |sin t| and
 * w |sin t| + h |cos t|; a segment of length L fits a field of a x b at some angle exactly when L <= sqrt (a^2 + b^2); and a rectangle p x q with
 * p > a fits a field a x b (p >= q, a >= b) exactly when q <= b and b >= (2 p q a + (p^2 - q^2) sqrt (p^2 + q^2 - a^2)) / (p^2 + q^2)
 * (L. Carver 1957, "Solution to problem E1225", American Mathematical Monthly 64(2), 114-116; cited from memory). */
#include <math.h>

#include "geometry/outline.h"
#include "planning/sharing.h"

static const HwFabric floated = { .width = 700, .height = 540, .hold = HW_HOLD_FLOATED };

static HwHoop *
hoop_of (double width, double height, HwTurn turn)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->field_width = hoop->frame_width = width;
  hoop->field_height = hoop->frame_height = height;
  hoop->turn = turn;
  return hoop;
}

static HwOutline *
turned_rectangle (double w, double h, double degrees)
{
  g_autoptr (HwOutline) rectangle = hw_outline_new_rectangle (w, h);
  HwPlacement placement = { { 300, 200 }, degrees, 1, FALSE };

  return hw_outline_place (rectangle, &placement);
}

static void
test_extents_of_a_turned_rectangle (void)
{
  guint yes = 0, no = 0;

  for (guint i = 0; i < 20000; i++)
    {
      double w = g_test_rand_double_range (20, 150), h = g_test_rand_double_range (20, 150);
      double t = g_test_rand_double_range (-180, 180), c = fabs (cos (t * G_PI / 180)),
             s = fabs (sin (t * G_PI / 180));
      double wide = w * c + h * s, high = w * s + h * c, a = g_test_rand_double_range (60, 180),
             b = g_test_rand_double_range (60, 180);
      g_autoptr (HwHoop) hoop = hoop_of (a, b, HW_TURN_QUARTER);
      g_autoptr (HwOutline) placed = turned_rectangle (w, h, t);
      gboolean fits = (wide <= a && high <= b) || (wide <= b && high <= a);

      g_assert_cmpint (hw_sharing_fits (placed->hull, placed->n_hull, hoop, &floated), ==, fits);
      yes += fits;
      no += !fits;
    }
  g_assert_cmpuint (yes, >, 2000);
  g_assert_cmpuint (no, >, 2000);
}

static void
test_segment_in_a_field (void)
{
  for (guint i = 0; i < 5000; i++)
    {
      double a = g_test_rand_double_range (40, 200), b = g_test_rand_double_range (40, 200),
             diagonal = sqrt (a * a + b * b);
      g_autoptr (HwHoop) hoop = hoop_of (a, b, HW_TURN_ANY);
      HwPoint along = hw_point_turn ((HwPoint){ 1, 0 }, g_test_rand_double_range (0, 360));

      for (int longer = 0; longer < 2; longer++)
        {
          double length = diagonal + (longer ? 1e-4 : -1e-9);
          HwPoint ends[] = { { 300, 200 }, { 300 + length * along.x, 200 + length * along.y } }, hull[3];
          guint n = hw_convex_hull (ends, 2, hull);

          g_assert_cmpint (hw_sharing_fits (hull, n, hoop, &floated), ==, !longer);
        }
    }
}

/* mm by which the width of a field a x b exceeds what a rectangle p x q needs of it; negative when it does not fit. */
static double
room_for (double p, double q, double a, double b)
{
  double longer = MAX (p, q), shorter = MIN (p, q), length = MAX (a, b), width = MIN (a, b);
  double square = longer * longer + shorter * shorter;

  if (longer <= length || shorter > width)
    return width - shorter;
  return width
         - (2 * longer * shorter * length
            + (longer * longer - shorter * shorter) * sqrt (square - length * length))
               / square;
}

static void
test_rectangle_in_a_rectangle (void)
{
  guint slanting = 0;

  for (guint i = 0; i < 40000; i++)
    {
      double a = g_test_rand_double_range (60, 200), b = g_test_rand_double_range (60, 200);
      double p = g_test_rand_double_range (60, 260), q = g_test_rand_double_range (1, 60);
      double room = room_for (p, q, a, b);
      g_autoptr (HwHoop) hoop = hoop_of (a, b, HW_TURN_ANY);
      g_autoptr (HwOutline) placed = turned_rectangle (p, q, g_test_rand_double_range (-180, 180));

      if (fabs (room) > 1e-5)
        g_assert_cmpint (hw_sharing_fits (placed->hull, placed->n_hull, hoop, &floated), ==, room > 0);
      slanting += room > 0 && p > MAX (a, b);
    }
  g_assert_cmpuint (slanting, >, 500);
}

/* w cos t + h sin t = a at t = atan (h / w) -+ acos (a / sqrt (w^2 + h^2)): the end of the first interval of a rectangle that fits upright and is
 * stopped by the field's width. */
static void
test_end_of_an_interval (void)
{
  guint looked_at = 0;

  for (guint i = 0; i < 3000; i++)
    {
      double w = g_test_rand_double_range (60, 100), h = g_test_rand_double_range (60, 150),
             a = w + g_test_rand_double_range (1, 20);
      double diagonal = sqrt (w * w + h * h), end;
      g_autoptr (HwHoop) hoop = hoop_of (a, 400, HW_TURN_ANY);
      g_autoptr (HwOutline) placed = turned_rectangle (w, h, 0);
      g_autoptr (GArray) angles = hw_sharing_angles (placed->hull, placed->n_hull, hoop, &floated);

      if (a >= diagonal - 0.01)
        continue;
      looked_at++;
      end = (atan2 (h, w) - acos ((a + HW_SHARING_TOLERANCE) / diagonal)) * 180 / G_PI;
      g_assert_cmpfloat (g_array_index (angles, HwAngleInterval, 0).from, ==, 0);
      g_assert_cmpfloat_with_epsilon (g_array_index (angles, HwAngleInterval, 0).to, end, 1e-6);
      /* And mirrored at the other end of the half turn. */
      g_assert_cmpfloat_with_epsilon (g_array_index (angles, HwAngleInterval, angles->len - 1).from,
                                      180 - end, 1e-6);
    }
  g_assert_cmpuint (looked_at, >, 1000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/sharing/extents-of-a-turned-rectangle", test_extents_of_a_turned_rectangle);
  g_test_add_func ("/outside/sharing/segment-in-a-field", test_segment_in_a_field);
  g_test_add_func ("/outside/sharing/rectangle-in-a-rectangle", test_rectangle_in_a_rectangle);
  g_test_add_func ("/outside/sharing/end-of-an-interval", test_end_of_an_interval);
  return g_test_run ();
}

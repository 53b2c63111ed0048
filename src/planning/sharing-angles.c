/* All the angles at which a set of motifs fits a hoop: the allowed parts of each caliper span, joined where they meet. */
#include <math.h>

#include "sharing-private.h"

/* Degrees; spans meet exactly but for rounding. */
#define JOIN 1e-9
#define SNAP 1e-12

double
hw_direction_degrees (HwPoint e)
{
  if (e.x == 0)
    return 90;
  return atan2 (e.y, e.x) * (180 / G_PI);
}

double
hw_hoop_angle_normal (double degrees)
{
  double turn = remainder (degrees, 180);

  return turn <= -90 ? turn + 180 : turn + 0.0;
}

static void
append_interval (GArray *intervals, double from, double to)
{
  HwAngleInterval interval = { from, to };

  if (intervals->len > 0)
    {
      HwAngleInterval *last = &g_array_index (intervals, HwAngleInterval, intervals->len - 1);

      if (from <= last->to + JOIN)
        {
          last->to = MAX (last->to, to);
          return;
        }
    }
  g_array_append_val (intervals, interval);
}

/* Appends the angles over a quarter turn that begins at `base` degrees. */
static void
append_quarter (GArray *intervals, const HwPoint *hull, guint n, const HwHoopCase *hoop, double base)
{
  HwCalipers calipers;
  HwCaliperSpan span;

  hw_calipers_start (&calipers, hull, n);
  while (hw_calipers_next (&calipers, &span))
    {
      HwSpan parts[HW_MOST_SPANS];
      HwPoint middle;
      guint n_parts = hw_allowed_parts (hoop, &span, &middle, parts);
      double start = hw_direction_degrees (span.from), end = hw_direction_degrees (span.to);
      double centre = hw_direction_degrees (middle);

      for (guint i = 0; i < n_parts; i++)
        {
          double from = centre + atan (parts[i].from) * (360 / G_PI);
          double to = centre + atan (parts[i].to) * (360 / G_PI);

          /* A part that reaches the end of its span ends exactly there, so that the next one joins it. */
          from = from <= start + SNAP ? start : from;
          to = to >= end - SNAP ? end : to;
          append_interval (intervals, base + MIN (from, end), base + MAX (to, start));
        }
    }
}

GArray *
hw_sharing_angles (const HwPoint *hull, guint n_hull, const HwHoop *hoop, const HwFabric *fabric)
{
  GArray *intervals = g_array_new (FALSE, FALSE, sizeof (HwAngleInterval));
  HwHoopCase as_is, exchanged;

  g_return_val_if_fail (hull != NULL || n_hull == 0, intervals);
  g_return_val_if_fail (hoop != NULL && fabric != NULL, intervals);

  as_is = hw_hoop_case (hoop, fabric);
  exchanged = hw_hoop_case_exchanged (&as_is);
  if (n_hull == 0 || as_is.usable_u < HW_SHARING_TOLERANCE || as_is.usable_v < HW_SHARING_TOLERANCE)
    return intervals;
  if (hoop->turn == HW_TURN_QUARTER)
    {
      HwPose pose;

      for (guint degrees = 0; degrees <= 90; degrees += 90)
        if (hw_hoop_case_pose (&as_is, hull, n_hull, degrees, &pose))
          append_interval (intervals, degrees, degrees);
      return intervals;
    }
  append_quarter (intervals, hull, n_hull, &as_is, 0);
  append_quarter (intervals, hull, n_hull, &exchanged, 90);
  return intervals;
}

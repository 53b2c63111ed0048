/* For motifs that no hoop takes: the hoop and the turn that come nearest, and the scale that would do. The excess of one extent over its
 * limit is concave between caliper events; so the larger of the two is least at an event or where both are equal, and the
 * same holds for the ratios that give the scale. On clamped cloth it also counts how far the frame must pass the cloth to take the motifs: exact at
 * one angle, and least over the angles by bisection with the steepest it can change (Piyavskii 1972, Shubert 1972), to 0.02 mm. */
#include <math.h>

#include "sharing-private.h"

/* What is sought over all angles of one hoop. */
typedef struct
{
  double degrees;
  double miss;
  gboolean too_wide;
  gboolean by_frame;
  double ratio; /* least of the larger of extent / usable size */
} Nearest;

#define MISS_ACCURACY 0.02 /* mm */
#define LEAST_SPAN 1e-4    /* radians */

/* By how much the frame passes the cloth, at least, when the field takes the hull; below 0 it has that much room. Both the centres that take the hull (a
 * rectangle in hoop axes) and those that leave the frame no more than d beyond the cloth (an upright one, which grows with d) are rectangles: they
 * meet unless one of their four axes separates them, and each axis says how large d must be. A hull too large for the field lies evenly over it. */
static double
frame_overhang (const HwHoopCase *hoop, const HwHullPose *pose)
{
  double c = fabs (pose->e.x), s = fabs (pose->e.y);
  double reach_u = MAX ((hoop->usable_u - pose->wide) / 2, 0),
         reach_v = MAX ((hoop->usable_v - pose->high) / 2, 0);
  double over_x = (hoop->frame_u * c + hoop->frame_v * s - hoop->cloth_width) / 2;
  double over_y = (hoop->frame_u * s + hoop->frame_v * c - hoop->cloth_height) / 2;
  double off_x = pose->middle_u * pose->e.x - pose->middle_v * pose->e.y - hoop->cloth_width / 2;
  double off_y = pose->middle_u * pose->e.y + pose->middle_v * pose->e.x - hoop->cloth_height / 2;
  double off_u = fabs (off_x * pose->e.x + off_y * pose->e.y),
         off_v = fabs (off_y * pose->e.x - off_x * pose->e.y);
  double over = MAX (over_x, over_y);

  over = MAX (over, over_x + fabs (off_x) - reach_u * c - reach_v * s);
  over = MAX (over, over_y + fabs (off_y) - reach_u * s - reach_v * c);
  over = MAX (over, (off_u - reach_u + over_x * c + over_y * s) / (c + s));
  return MAX (over, (off_v - reach_v + over_x * s + over_y * c) / (c + s));
}

/* Looks at one direction of u; base: degrees added for the exchanged hoop. */
static double
look_at (Nearest *nearest, const HwHoopCase *hoop, const HwCaliperSpan *span, HwPoint e, double base)
{
  HwHullPose pose = hw_hull_pose_in_span (span, e);
  double usable_u = hoop->usable_u - HW_SHARING_TOLERANCE, usable_v = hoop->usable_v - HW_SHARING_TOLERANCE;
  double excess_u = pose.wide - usable_u, excess_v = pose.high - usable_v;
  double miss = MAX (excess_u, excess_v);
  gboolean by_frame = FALSE;

  if (hoop->clamped)
    {
      double lack = frame_overhang (hoop, &pose);

      by_frame = lack > miss;
      miss = MAX (miss, lack);
    }
  nearest->ratio = MIN (nearest->ratio, MAX (pose.wide / usable_u, pose.high / usable_v));
  if (miss < nearest->miss - 1e-9)
    {
      nearest->miss = miss;
      nearest->degrees = base + hw_direction_degrees (e);
      nearest->too_wide = (excess_u >= excess_v) == (base == 0);
      nearest->by_frame = by_frame;
    }
  return miss;
}

static HwPoint
between (HwPoint from, HwPoint to, double part)
{
  HwPoint e = { from.x + (to.x - from.x) * part, from.y + (to.y - from.y) * part };
  double length = hypot (e.x, e.y);

  return (HwPoint){ e.x / length, e.y / length };
}

/* Looks into the span from its middle on, as far as it may hold less than what is found already. */
static void
look_between (Nearest *nearest,
              const HwHoopCase *hoop,
              const HwCaliperSpan *span,
              double base,
              HwPoint from,
              double at_from,
              HwPoint to,
              double at_to,
              double steepest)
{
  double width = asin (CLAMP (hw_cross (from, to), -1, 1));
  HwPoint middle;
  double at_middle;

  if (width < LEAST_SPAN || (at_from + at_to - steepest * width) / 2 > nearest->miss - MISS_ACCURACY)
    return;
  middle = between (from, to, 0.5);
  at_middle = look_at (nearest, hoop, span, middle, base);
  look_between (nearest, hoop, span, base, from, at_from, middle, at_middle, steepest);
  look_between (nearest, hoop, span, base, middle, at_middle, to, at_to, steepest);
}

/* No condition changes faster with the angle, mm to the radian: each is a sum of half extents of frame, field and hull and of the way from the
 * cloth's middle to the hull's, all turned, over c + s, which is 1 at least. */
static double
steepest_change (const HwHoopCase *hoop, const HwCaliperSpan *span)
{
  HwPoint u = { (span->u_far.x + span->u_near.x) / 2, (span->u_far.y + span->u_near.y) / 2 };
  HwPoint v = { (span->v_far.x + span->v_near.x) / 2, (span->v_far.y + span->v_near.y) / 2 };
  double frame = hypot (hoop->frame_u, hoop->frame_v), cloth = hypot (hoop->cloth_width, hoop->cloth_height);
  double hull = hypot (span->across.x, span->across.y) + hypot (span->along.x, span->along.y);
  double off = hypot (u.x - hoop->cloth_width / 2, u.y - hoop->cloth_height / 2)
               + hypot (v.x - hoop->cloth_width / 2, v.y - hoop->cloth_height / 2);

  return 2 * (frame + cloth + hull + off);
}

/* Looks where d . e = k within the span. */
static void
look_where (
    Nearest *nearest, const HwHoopCase *hoop, const HwCaliperSpan *span, HwPoint d, double k, double base)
{
  HwPoint at[2];

  if (!hw_directions_with_extent (d, k, &at[0], &at[1]))
    return;
  for (guint i = 0; i < 2; i++)
    if (hw_cross (span->from, at[i]) >= 0 && hw_cross (at[i], span->to) >= 0
        && hw_dot (span->from, at[i]) >= 0)
      look_at (nearest, hoop, span, at[i], base);
}

static void
look_over_span (Nearest *nearest, const HwHoopCase *hoop, const HwCaliperSpan *span, double base)
{
  double u = hoop->usable_u - HW_SHARING_TOLERANCE, v = hoop->usable_v - HW_SHARING_TOLERANCE;
  HwPoint across = span->across, along = span->along;

  double at_from = look_at (nearest, hoop, span, span->from, base);
  double at_to = look_at (nearest, hoop, span, span->to, base);

  look_where (nearest, hoop, span, (HwPoint){ across.x - along.x, across.y - along.y }, u - v, base);
  look_where (nearest, hoop, span, (HwPoint){ across.x / u - along.x / v, across.y / u - along.y / v }, 0,
              base);
  if (hoop->clamped)
    look_between (nearest, hoop, span, base, span->from, at_from, span->to, at_to,
                  steepest_change (hoop, span));
}

static Nearest
nearest_of_hoop (const HwPoint *hull, guint n, const HwHoop *hoop, const HwFabric *fabric)
{
  HwHoopCase as_is = hw_hoop_case (hoop, fabric);
  HwHoopCase exchanged = hw_hoop_case_exchanged (&as_is);
  Nearest nearest = { .miss = INFINITY, .ratio = INFINITY };
  HwCalipers calipers;
  HwCaliperSpan span;

  if (as_is.usable_u <= HW_SHARING_TOLERANCE || as_is.usable_v <= HW_SHARING_TOLERANCE)
    return nearest;
  hw_calipers_start (&calipers, hull, n);
  while (hw_calipers_next (&calipers, &span))
    {
      if (hoop->turn == HW_TURN_QUARTER)
        {
          look_at (&nearest, &as_is, &span, span.from, 0);
          look_at (&nearest, &exchanged, &span, span.from, 90);
          break;
        }
      look_over_span (&nearest, &as_is, &span, 0);
      look_over_span (&nearest, &exchanged, &span, 90);
    }
  return nearest;
}

static gboolean
fits_scaled (const HwPoint *hull, guint n, double scale, const HwHoop *hoop, const HwFabric *fabric)
{
  g_autofree HwPoint *scaled = g_new (HwPoint, n);
  HwPoint middle = { 0, 0 };

  for (guint i = 0; i < n; i++)
    {
      middle.x += hull[i].x / n;
      middle.y += hull[i].y / n;
    }
  for (guint i = 0; i < n; i++)
    scaled[i]
        = (HwPoint){ middle.x + scale * (hull[i].x - middle.x), middle.y + scale * (hull[i].y - middle.y) };
  return hw_sharing_fits (scaled, n, hoop, fabric);
}

/* The greatest scale at which it fits, never above `guess`, which the field alone allows; 0 when none does. */
static double
fitting_scale (const HwPoint *hull, guint n, double guess, const HwHoop *hoop, const HwFabric *fabric)
{
  double lo = 0, hi = MIN (guess, 1);

  if (fits_scaled (hull, n, hi, hoop, fabric))
    return hi;
  /* A smaller copy about a point of the hull lies within the larger, so what fits stays fitting below. */
  for (guint i = 0; i < 50; i++)
    {
      double middle = (lo + hi) / 2;

      if (fits_scaled (hull, n, middle, hoop, fabric))
        lo = middle;
      else
        hi = middle;
    }
  return lo;
}

HwNearMiss
hw_sharing_nearest (const HwPoint *hull, guint n_hull, const HwSnapshot *snapshot)
{
  HwNearMiss near_miss = { .hoop = 0, .miss = INFINITY };

  g_return_val_if_fail (hull != NULL || n_hull == 0, near_miss);
  g_return_val_if_fail (snapshot != NULL, near_miss);

  if (n_hull == 0)
    return near_miss;
  for (guint h = 0; h < snapshot->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (snapshot, h);
      Nearest nearest = nearest_of_hoop (hull, n_hull, hoop, &snapshot->fabric);

      if (nearest.miss < near_miss.miss)
        near_miss = (HwNearMiss){ .hoop = h,
                                  .angle = hw_hoop_angle_normal (nearest.degrees),
                                  .miss = MAX (nearest.miss, 0),
                                  .too_wide = nearest.too_wide,
                                  .scale = 1 / nearest.ratio,
                                  .by_frame = nearest.by_frame };
    }
  if (isfinite (near_miss.miss))
    near_miss.scale = fitting_scale (hull, n_hull, near_miss.scale,
                                     hw_snapshot_hoop (snapshot, near_miss.hoop), &snapshot->fabric);
  return near_miss;
}

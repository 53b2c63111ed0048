/* For motifs that no hoop takes: the hoop and the turn that come nearest, and the scale that would do. The excess of one extent over its
 * limit is concave between caliper events; so the larger of the two is least at an event or where both are equal, and the
 * same holds for the ratios that give the scale. */
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
      double margin = hw_greatest_margin (hoop, &pose);
      double lack = hoop->clearance - margin;

      if (isinf (margin)) /* the frame is larger than the cloth itself */
        lack = MAX (hoop->frame_u * fabs (e.x) + hoop->frame_v * fabs (e.y) - hoop->cloth_width,
                    hoop->frame_u * fabs (e.y) + hoop->frame_v * fabs (e.x) - hoop->cloth_height);
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

/* Golden section over the span, for the frame's conditions, which have no closed form here. */
static void
look_between (Nearest *nearest, const HwHoopCase *hoop, const HwCaliperSpan *span, double base)
{
  const double golden = 0.6180339887498949;
  double lo = 0, hi = 1;

  for (guint i = 0; i < 24; i++)
    {
      double a = hi - golden * (hi - lo), b = lo + golden * (hi - lo);
      double at_a = look_at (nearest, hoop, span, between (span->from, span->to, a), base);
      double at_b = look_at (nearest, hoop, span, between (span->from, span->to, b), base);

      if (at_a <= at_b)
        hi = b;
      else
        lo = a;
    }
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

  look_at (nearest, hoop, span, span->from, base);
  look_at (nearest, hoop, span, span->to, base);
  look_where (nearest, hoop, span, (HwPoint){ across.x - along.x, across.y - along.y }, u - v, base);
  look_where (nearest, hoop, span, (HwPoint){ across.x / u - along.x / v, across.y / u - along.y / v }, 0,
              base);
  if (hoop->clamped)
    look_between (nearest, hoop, span, base);
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

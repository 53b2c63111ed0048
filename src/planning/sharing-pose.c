/* Where to set the hoop: first an angle that leaves the motifs as they are at the machine, then one the machine can be told
 * without a fraction, then the one with most room; and there the centre with the same room on all sides, or as
 * near to it as the frame may go on clamped cloth. */
#include <math.h>

#include "../geometry/hull.h"
#include "sharing-private.h"

/* mm by which the rectangle of best centres is widened so that rounding cannot empty it. */
#define ROOM_FOR_ROUNDING 1e-9
#define FEW_DEGREES 5.0

/* The point of the polygon's sides nearest to p. */
static HwPoint
nearest_on (const HwPoint *polygon, guint n, HwPoint p)
{
  HwPoint nearest = polygon[0];
  double least = INFINITY;

  for (guint i = 0; i < n; i++)
    {
      HwPoint a = polygon[i], b = polygon[i + 1 == n ? 0 : i + 1];
      HwPoint side = { b.x - a.x, b.y - a.y }, way = { p.x - a.x, p.y - a.y };
      double length2 = hw_dot (side, side);
      double t = length2 > 0 ? CLAMP (hw_dot (way, side) / length2, 0, 1) : 0;
      HwPoint at = { a.x + t * side.x, a.y + t * side.y };
      double distance = hw_point_distance (at, p);

      if (distance < least)
        {
          least = distance;
          nearest = at;
        }
    }
  return nearest;
}

/* On clamped cloth: of the centres with the given margin that keep the frame on the cloth, the nearest to `even`, the one
 * that is even on all sides. */
static HwPoint
clamped_centre (const HwHoopCase *hoop, const HwHullPose *pose, double margin, HwPoint even)
{
  HwPoint e = pose->e, f = { -e.y, e.x };
  double c = fabs (e.x), s = fabs (e.y);
  double x = MAX (0, hoop->cloth_width - hoop->frame_u * c - hoop->frame_v * s + HW_SHARING_TOLERANCE) / 2;
  double y = MAX (0, hoop->cloth_height - hoop->frame_u * s - hoop->frame_v * c + HW_SHARING_TOLERANCE) / 2;
  double mid_x = hoop->cloth_width / 2, mid_y = hoop->cloth_height / 2;
  double a = MAX (0, (hoop->field_u - pose->wide) / 2 - margin) + ROOM_FOR_ROUNDING;
  double b = MAX (0, (hoop->field_v - pose->high) / 2 - margin) + ROOM_FOR_ROUNDING;
  HwPoint one[9] = {
    { mid_x - x, mid_y - y }, { mid_x + x, mid_y - y }, { mid_x + x, mid_y + y }, { mid_x - x, mid_y + y }
  };
  HwPoint other[9];
  guint n = 4;

  if (fabs (even.x - mid_x) <= x && fabs (even.y - mid_y) <= y)
    return even;
  n = hw_hull_clip (one, n, e, pose->middle_u + a, other);
  n = hw_hull_clip (other, n, (HwPoint){ -e.x, -e.y }, a - pose->middle_u, one);
  n = hw_hull_clip (one, n, f, pose->middle_v + b, other);
  n = hw_hull_clip (other, n, (HwPoint){ -f.x, -f.y }, b - pose->middle_v, one);
  if (n == 0) /* by rounding alone */
    return (HwPoint){ CLAMP (even.x, mid_x - x, mid_x + x), CLAMP (even.y, mid_y - y, mid_y + y) };
  return nearest_on (one, n, even);
}

gboolean
hw_hoop_case_pose (const HwHoopCase *hoop, const HwPoint *hull, guint n, double degrees, HwPose *pose)
{
  HwHullPose lie = hw_hull_pose_at (hull, n, degrees);
  HwPoint e = lie.e, f = { -e.y, e.x }, even, off;
  double margin = hw_greatest_margin (hoop, &lie);

  if (!(margin >= hoop->clearance - HW_SHARING_SLACK))
    return FALSE;
  even = (HwPoint){ lie.middle_u * e.x + lie.middle_v * f.x, lie.middle_u * e.y + lie.middle_v * f.y };
  pose->centre = hoop->clamped ? clamped_centre (hoop, &lie, margin, even) : even;
  pose->angle = hw_hoop_angle_normal (degrees);
  off = (HwPoint){ pose->centre.x - even.x, pose->centre.y - even.y };
  pose->margin = MIN ((hoop->field_u - lie.wide) / 2 - fabs (hw_dot (off, e)),
                      (hoop->field_v - lie.high) / 2 - fabs (hw_dot (off, f)));
  return TRUE;
}

/* Whether the hoop may be set at the angle at all. */
static gboolean
may_turn_to (const HwHoop *hoop, double degrees)
{
  return hoop->turn == HW_TURN_ANY || fabs (remainder (degrees, 90)) < 1e-9;
}

gboolean
hw_sharing_pose_at (
    const HwPoint *hull, guint n_hull, const HwHoop *hoop, const HwFabric *fabric, double angle, HwPose *pose)
{
  HwHoopCase as_is;

  g_return_val_if_fail (hull != NULL || n_hull == 0, FALSE);
  g_return_val_if_fail (hoop != NULL && fabric != NULL && pose != NULL, FALSE);

  if (n_hull == 0 || !isfinite (angle) || !may_turn_to (hoop, angle))
    return FALSE;
  as_is = hw_hoop_case (hoop, fabric);
  return hw_hoop_case_pose (&as_is, hull, n_hull, angle, pose);
}

/* The search for the angle of greatest margin. */
typedef struct
{
  const HwHoopCase *hoop;
  const HwPoint *hull;
  guint n;
  double angle, margin;
} Widest;

static double
try_angle (Widest *widest, double degrees)
{
  HwHullPose pose = hw_hull_pose_at (widest->hull, widest->n, degrees);
  double margin = hw_greatest_margin (widest->hoop, &pose);

  if (margin > widest->margin + 1e-9)
    {
      widest->margin = margin;
      widest->angle = degrees;
    }
  return margin;
}

/* Golden section for the greatest margin between two angles. */
static void
try_between (Widest *widest, double from, double to)
{
  const double golden = 0.6180339887498949;
  double a = to - golden * (to - from), b = from + golden * (to - from);
  double at_a = try_angle (widest, a), at_b = try_angle (widest, b);

  while (to - from > 0.01)
    if (at_a >= at_b)
      {
        to = b;
        b = a;
        at_b = at_a;
        a = to - golden * (to - from);
        at_a = try_angle (widest, a);
      }
    else
      {
        from = a;
        a = b;
        at_a = at_b;
        b = from + golden * (to - from);
        at_b = try_angle (widest, b);
      }
}

/* The frame's conditions may leave several heights between two angles: so each few degrees are looked at by themselves. */
static void
try_in_parts (Widest *widest, double from, double to)
{
  guint parts = (guint)ceil ((to - from) / FEW_DEGREES);

  for (guint k = 0; k < parts; k++)
    try_between (widest, from + (to - from) * k / parts, from + (to - from) * (k + 1) / parts);
}

/* Looks at one span: a margin is greatest at its ends or where both extents leave the same room, because each extent is concave
 * between. The frame's conditions on clamped cloth have no such form; there a golden section looks between as well. */
static void
try_span (
    Widest *widest, const HwHoopCase *lies, const HwCaliperSpan *span, double base, HwAngleInterval between)
{
  double from = base + hw_direction_degrees (span->from), to = base + hw_direction_degrees (span->to);
  HwPoint even[2], difference = { span->across.x - span->along.x, span->across.y - span->along.y };

  /* The interval may begin below 0 where it passes 180. */
  for (int turn = 0; turn <= 180; turn += 180)
    {
      double lo = MAX (from - turn, between.from), hi = MIN (to - turn, between.to);

      if (lo > hi)
        continue;
      try_angle (widest, lo);
      try_angle (widest, hi);
      if (hw_directions_with_extent (difference, lies->field_u - lies->field_v, &even[0], &even[1]))
        for (int i = 0; i < 2; i++)
          {
            double at = base - turn + atan2 (even[i].y, even[i].x) * (180 / G_PI);

            if (at > lo && at < hi)
              try_angle (widest, at);
          }
      if (lies->clamped)
        try_in_parts (widest, lo, hi);
    }
}

/* The angle of greatest margin within the interval. */
static double
widest_angle (const HwHoopCase *hoop, const HwPoint *hull, guint n, HwAngleInterval between)
{
  HwHoopCase exchanged = hw_hoop_case_exchanged (hoop);
  Widest widest = { hoop, hull, n, between.from, -INFINITY };
  HwCalipers calipers;
  HwCaliperSpan span;

  if (between.from == between.to)
    return between.from;
  hw_calipers_start (&calipers, hull, n);
  while (hw_calipers_next (&calipers, &span))
    {
      try_span (&widest, hoop, &span, 0, between);
      try_span (&widest, &exchanged, &span, 90, between);
    }
  return widest.angle;
}

/* The turn of half turns that brings the angle into the interval, if there is one. */
static gboolean
bring_between (double *degrees, HwAngleInterval between)
{
  double angle = *degrees - 180 * floor ((*degrees - between.from + 1e-9) / 180);

  *degrees = angle;
  return angle <= between.to + 1e-9;
}

/* The angle on the steps from `base` within the interval and nearest to `wanted`. */
static gboolean
step_between (double base, double step, double wanted, HwAngleInterval between, double *degrees)
{
  double k = round ((wanted - base) / step);

  if (base + k * step < between.from)
    k++;
  else if (base + k * step > between.to)
    k--;
  *degrees = base + k * step;
  return *degrees >= between.from && *degrees <= between.to;
}

gboolean
hw_sharing_pose_between (const HwPoint *hull,
                         guint n_hull,
                         const HwHoop *hoop,
                         const HwFabric *fabric,
                         HwAngleInterval between,
                         const double *liked,
                         guint n_liked,
                         double turn_step,
                         HwPose *pose,
                         guint *rank)
{
  HwHoopCase as_is = hw_hoop_case (hoop, fabric);
  double angle, widest;

  for (*rank = 0; *rank < 2; (*rank)++)
    for (guint i = 0; i < n_liked; i++)
      {
        angle = liked[i] + 90 * *rank;
        if (isfinite (angle) && may_turn_to (hoop, angle) && bring_between (&angle, between)
            && hw_hoop_case_pose (&as_is, hull, n_hull, angle, pose))
          return TRUE;
      }
  widest = widest_angle (&as_is, hull, n_hull, between);
  if (turn_step > 0)
    for (guint i = 0; i < MAX (n_liked, 1); i++)
      if (step_between (n_liked > 0 ? liked[i] : 0, turn_step, widest, between, &angle)
          && may_turn_to (hoop, angle) && hw_hoop_case_pose (&as_is, hull, n_hull, angle, pose))
        return TRUE;
  *rank = 3;
  return hw_hoop_case_pose (&as_is, hull, n_hull, widest, pose);
}

gboolean
hw_sharing_pose (const HwPoint *hull,
                 guint n_hull,
                 const HwHoop *hoop,
                 const HwFabric *fabric,
                 const double *liked,
                 guint n_liked,
                 double turn_step,
                 HwPose *pose)
{
  g_autoptr (GArray) intervals = NULL;
  guint best_rank = G_MAXUINT;

  g_return_val_if_fail (hull != NULL || n_hull == 0, FALSE);
  g_return_val_if_fail (hoop != NULL && fabric != NULL && pose != NULL, FALSE);
  g_return_val_if_fail (liked != NULL || n_liked == 0, FALSE);

  if (n_hull == 0)
    return FALSE;
  /* Most sets lie at a liked angle: no need to know all the others. */
  for (guint quarter = 0; quarter < 180; quarter += 90)
    for (guint i = 0; i < n_liked; i++)
      if (hw_sharing_pose_at (hull, n_hull, hoop, fabric, liked[i] + quarter, pose))
        return TRUE;
  intervals = hw_sharing_angles (hull, n_hull, hoop, fabric);
  for (guint i = 0; i < intervals->len; i++)
    {
      HwPose found;
      guint rank;

      if (hw_sharing_pose_between (hull, n_hull, hoop, fabric, g_array_index (intervals, HwAngleInterval, i),
                                   liked, n_liked, turn_step, &found, &rank)
          && (rank < best_rank || (rank == best_rank && found.margin > pose->margin + 1e-9)))
        {
          *pose = found;
          best_rank = rank;
        }
    }
  return best_rank != G_MAXUINT;
}

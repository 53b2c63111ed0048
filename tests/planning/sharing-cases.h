/* Hulls, hoops and cloths for the tests of the sharing question, and its answer at one angle by projection alone. */
#pragma once

#include <math.h>

#include "geometry/hull.h"
#include "planning/sharing.h"

static inline HwHoop *
case_hoop (double width, double height, double clearance, HwTurn turn)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup ("h1");
  hoop->name = g_strdup_printf ("%g x %g", width, height);
  hoop->field_width = width;
  hoop->field_height = height;
  hoop->frame_width = width + 30;
  hoop->frame_height = height + 50;
  hoop->clearance = clearance;
  hoop->turn = turn;
  return hoop;
}

/* A hull of up to most_points random points spread over about size mm around (x, y), longer than wide. */
static inline guint
case_random_hull (double x, double y, double size, guint most_points, HwPoint *hull)
{
  HwPoint points[64];
  guint n = g_test_rand_int_range (2, most_points + 1);
  double turn = g_test_rand_double_range (0, 360), slim = g_test_rand_double_range (0.05, 1);

  g_assert_cmpuint (most_points, <=, G_N_ELEMENTS (points));
  for (guint i = 0; i < n; i++)
    {
      HwPoint p = { g_test_rand_double_range (-0.5, 0.5) * size,
                    g_test_rand_double_range (-0.5, 0.5) * size * slim };

      points[i] = hw_point_turn (p, turn);
      points[i].x += x;
      points[i].y += y;
    }
  return hw_convex_hull (points, n, hull);
}

static inline void
case_extents (const HwPoint *hull, guint n, double degrees, double *wide, double *high, HwPoint *middle)
{
  double u0 = INFINITY, u1 = -INFINITY, v0 = INFINITY, v1 = -INFINITY;

  for (guint i = 0; i < n; i++)
    {
      HwPoint q = hw_point_turn (hull[i], -degrees);

      u0 = MIN (u0, q.x);
      u1 = MAX (u1, q.x);
      v0 = MIN (v0, q.y);
      v1 = MAX (v1, q.y);
    }
  *wide = u1 - u0;
  *high = v1 - v0;
  *middle = hw_point_turn ((HwPoint){ (u0 + u1) / 2, (v0 + v1) / 2 }, degrees);
}

/* mm by which the hull is too large for the hoop's usable field at an angle; negative when it fits. */
static inline double
case_excess (const HwPoint *hull, guint n, const HwHoop *hoop, double degrees)
{
  double wide, high;
  HwPoint middle;

  case_extents (hull, n, degrees, &wide, &high, &middle);
  return MAX (wide - (hoop->field_width - 2 * hoop->clearance),
              high - (hoop->field_height - 2 * hoop->clearance));
}

/* Whether field and frame conditions hold for a pose, to `slack` mm. */
static inline gboolean
case_pose_holds (const HwPoint *hull,
                 guint n,
                 const HwHoop *hoop,
                 const HwFabric *fabric,
                 HwPoint centre,
                 double degrees,
                 double slack)
{
  for (guint i = 0; i < n; i++)
    {
      HwPoint q = hw_point_turn ((HwPoint){ hull[i].x - centre.x, hull[i].y - centre.y }, -degrees);

      if (fabs (q.x) > hoop->field_width / 2 - hoop->clearance + slack
          || fabs (q.y) > hoop->field_height / 2 - hoop->clearance + slack)
        return FALSE;
    }
  if (fabric->hold == HW_HOLD_CLAMPED)
    for (int i = 0; i < 4; i++)
      {
        HwPoint corner = hw_point_turn (
            (HwPoint){ (i & 1 ? 0.5 : -0.5) * hoop->frame_width, (i & 2 ? 0.5 : -0.5) * hoop->frame_height },
            degrees);

        if (centre.x + corner.x < -slack || centre.x + corner.x > fabric->width + slack
            || centre.y + corner.y < -slack || centre.y + corner.y > fabric->height + slack)
          return FALSE;
      }
  return TRUE;
}

static inline gboolean
case_angle_listed (const GArray *intervals, double degrees)
{
  for (guint i = 0; i < intervals->len; i++)
    {
      const HwAngleInterval *interval = &g_array_index (intervals, HwAngleInterval, i);

      if (degrees >= interval->from && degrees <= interval->to)
        return TRUE;
    }
  return FALSE;
}

/* What the files of the sharing question have in common. A hoop turned by 90 degrees is the hoop with its sides exchanged at 0,
 * so every question is asked twice over a quarter turn: once as the hoop is, once with its sides exchanged. */
#pragma once

#include "../geometry/calipers.h"
#include "../geometry/not-negative.h"
#include "sharing.h"

G_BEGIN_DECLS

/* One hoop (perhaps with its sides exchanged) over one cloth. */
typedef struct
{
  double field_u, field_v;   /* mm, whole field */
  double usable_u, usable_v; /* field less the clearance on both sides, with the tolerance added */
  double frame_u, frame_v;   /* mm */
  double clearance;
  double cloth_width, cloth_height;
  gboolean clamped;
} HwHoopCase;

HwHoopCase
hw_hoop_case (const HwHoop *hoop, const HwFabric *fabric);
HwHoopCase
hw_hoop_case_exchanged (const HwHoopCase *as_is);

/* How a hull lies under the hoop's axes at one angle, e = direction of u. */
typedef struct
{
  HwPoint e;
  double wide, high;         /* extents along u and v */
  double middle_u, middle_v; /* middle of the hull's extents: the hoop centre that is even on all sides */
} HwHullPose;

static inline HwHullPose
hw_hull_pose_in_span (const HwCaliperSpan *span, HwPoint e)
{
  HwPoint f = { -e.y, e.x };

  return (HwHullPose){ e, hw_dot (span->across, e), hw_dot (span->along, e),
                       (hw_dot (span->u_far, e) + hw_dot (span->u_near, e)) / 2,
                       (hw_dot (span->v_far, f) + hw_dot (span->v_near, f)) / 2 };
}

HwHullPose
hw_hull_pose_at (const HwPoint *hull, guint n, double degrees);

/* The greatest margin (mm between hull and field sides) that some allowed centre gives at this pose: -INFINITY when
 * the frame cannot lie on clamped cloth at this angle. It fits when this is at least the clearance, less
 * HW_SHARING_SLACK. For e anywhere. */
double
hw_greatest_margin (const HwHoopCase *hoop, const HwHullPose *pose);

/* Slack on a margin when a pose is taken at an angle found before: a little over the tolerance, for rounding. */
#define HW_SHARING_SLACK 2e-7

/* The parts of a span at which the hull fits the field and, on clamped cloth, the frame can lie on it, as tangents of half the turn from the
 * span's middle direction (written to middle). Room for HW_MOST_SPANS; returns their number. */
#define HW_MOST_SPANS 32
guint
hw_allowed_parts (const HwHoopCase *hoop, const HwCaliperSpan *span, HwPoint *middle, HwSpan *parts);

/* Degrees of direction e, from 0 to 90 for a direction of a span. */
double
hw_direction_degrees (HwPoint e);
/* degrees brought into (-90, 90]: a hoop looks the same after half a turn. */
double
hw_hoop_angle_normal (double degrees);

/* The pose at the angle; FALSE when it does not fit there. Any angle, whatever the hoop's `turn`. */
gboolean
hw_hoop_case_pose (const HwHoopCase *hoop, const HwPoint *hull, guint n, double degrees, HwPose *pose);

/* The handiest pose at an angle within [from, to] (degrees, allowed all through). *rank: 0 unturned, 1 turned by a quarter, 2 on
 * the turn step, 3 at the angle of greatest margin. */
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
                         guint *rank);

G_END_DECLS

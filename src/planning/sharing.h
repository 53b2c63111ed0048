/* The sharing question: at which hoop angles can a set of motifs lie in one field? A question about the
 * convex hull of their placed outlines. Exact: the angles form finitely many intervals whose ends are
 * computed; no sampling. All hulls are fabric mm, clockwise as seen, as hw_convex_hull() writes them. */
#pragma once

#include "../scene/snapshot.h"

G_BEGIN_DECLS

/* Hoop angles, degrees; from <= to. A hoop looks the same after half a turn, so intervals lie in
 * [0, 180] and one that passes 180 is cut in two there. */
typedef struct
{
  double from, to;
} HwAngleInterval;

typedef struct
{
  HwPoint centre; /* fabric mm */
  double angle;   /* degrees, in (-90, 90] */
  double
      margin; /* mm free between the hull and the field's sides, the least of the four (clearance included) */
} HwPose;

/* mm added to the usable field's sides, so that what fits exactly does so in spite of rounding. */
#define HW_SHARING_TOLERANCE 1e-7

/* Quick yes or no; an empty hull fits nothing. Allocates nothing. When the cloth is clamped the frame must lie on it too. */
gboolean
hw_sharing_fits (const HwPoint *hull, guint n_hull, const HwHoop *hoop, const HwFabric *fabric);

/* All angles at which it fits. Returns: (transfer full) (element-type HwAngleInterval): empty when none.
 * For HW_TURN_QUARTER the intervals are single angles (0, 90). */
GArray *
hw_sharing_angles (const HwPoint *hull, guint n_hull, const HwHoop *hoop, const HwFabric *fabric);

/* At one given angle: the centre with the greatest margin that is allowed, or FALSE. */
gboolean
hw_sharing_pose_at (const HwPoint *hull,
                    guint n_hull,
                    const HwHoop *hoop,
                    const HwFabric *fabric,
                    double angle,
                    HwPose *pose);

/* The most convenient pose: first an angle that leaves the motifs unturned at the machine (an angle of `liked`,
 * tried in order, e.g. 0 and the motifs' own angles), then one on the turn step relative to those, then the angle of
 * greatest margin; centred so that the margin is equal on opposite sides where the cloth allows. FALSE if it cannot fit. */
gboolean
hw_sharing_pose (const HwPoint *hull,
                 guint n_hull,
                 const HwHoop *hoop,
                 const HwFabric *fabric,
                 const double *liked,
                 guint n_liked,
                 double turn_step,
                 HwPose *pose);

/* For a hull no hoop takes: the hoop and angle that come nearest, by how many mm the hull is too large there (the
 * larger of the two excesses, minimised over angles), and the scale (< 1) about the hull's own place at which
 * it would fit that hoop. */
typedef struct
{
  guint hoop;        /* index into hoops */
  double angle;      /* degrees */
  double miss;       /* mm */
  gboolean too_wide; /* the larger excess is across (u), else along (v) */
  double scale;      /* 0 when no scale would do */
  gboolean by_frame; /* on clamped cloth: the field would do, but the frame would pass the cloth by `miss` */
} HwNearMiss;
/* miss is INFINITY when no hoop has a usable field. */
HwNearMiss
hw_sharing_nearest (const HwPoint *hull, guint n_hull, const HwSnapshot *snapshot);

/* Every way to take the motifs (indices into the snapshot) in one hooping: per hoop in use, one candidate for each angle
 * interval. Returns: (transfer full) (element-type HwCandidate) */
typedef struct
{
  guint hoop;
  HwPose pose;
} HwCandidate;
GArray *
hw_sharing_candidates (const HwSnapshot *snapshot, const guint *motifs, guint n_motifs);

/* Convex hull of the placed outlines of some motifs. Returns: (transfer full) (element-type HwPoint) */
GArray *
hw_sharing_hull (const HwSnapshot *snapshot, const guint *motifs, guint n_motifs);

G_END_DECLS

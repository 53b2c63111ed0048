/* Points, boxes and placements in the plane: millimetres, x right, y down.
 * Angles are degrees, clockwise as seen; R(a) p = (x cos a - y sin a, x sin a + y cos a). */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double x;
  double y;
} HwPoint;

/* An upright box; empty when x1 < x0. */
typedef struct
{
  double x0, y0, x1, y1;
} HwBox;

/* How a motif lies on the cloth: a motif point p lands at
 * position + R(angle) * scale * M * p, where M mirrors x when mirrored. */
typedef struct
{
  HwPoint position; /* mm on the cloth */
  double angle;     /* degrees */
  double scale;     /* 1 = as designed, always > 0 */
  gboolean mirrored;
} HwPlacement;

#define HW_BOX_EMPTY ((HwBox){ G_MAXDOUBLE, G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE })

/* R(degrees) p. Exact for multiples of 90 degrees. */
HwPoint
hw_point_turn (HwPoint p, double degrees);

double
hw_point_distance (HwPoint a, HwPoint b);

/* Where the motif point p lands on the cloth. */
HwPoint
hw_placement_apply (const HwPlacement *placement, HwPoint p);

/* The motif point that lands on the cloth point p: the inverse of hw_placement_apply(). */
HwPoint
hw_placement_invert (const HwPlacement *placement, HwPoint p);

gboolean
hw_placement_equal (const HwPlacement *a, const HwPlacement *b);

HwBox
hw_box_of_points (const HwPoint *points, gsize n_points);
HwBox
hw_box_union (HwBox a, HwBox b);
gboolean
hw_box_overlaps (HwBox a, HwBox b);
gboolean
hw_box_is_empty (HwBox box);

/* degrees brought into (-180, 180]. */
double
hw_angle_normal (double degrees);

G_END_DECLS

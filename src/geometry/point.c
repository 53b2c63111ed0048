/* Points, boxes and placements: the small sums everything else stands on. Quarter turns are exact, so
 * that a motif turned four times lies where it lay before. */
#include "point.h"

#include <math.h>

/* Sine and cosine of an angle in degrees, exact at multiples of 90. */
static void
sine_cosine (double degrees, double *sine, double *cosine)
{
  double turn = remainder (degrees, 360.0);

  if (fmod (turn, 90.0) == 0)
    {
      int quarter = ((int)(turn / 90.0) + 4) % 4;
      static const double sines[] = { 0, 1, 0, -1 };
      static const double cosines[] = { 1, 0, -1, 0 };

      *sine = sines[quarter];
      *cosine = cosines[quarter];
      return;
    }

  sincos (turn * (G_PI / 180.0), sine, cosine);
}

HwPoint
hw_point_turn (HwPoint p, double degrees)
{
  double s, c;

  sine_cosine (degrees, &s, &c);
  return (HwPoint){ p.x * c - p.y * s, p.x * s + p.y * c };
}

double
hw_point_distance (HwPoint a, HwPoint b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

HwPoint
hw_placement_apply (const HwPlacement *placement, HwPoint p)
{
  HwPoint scaled = { (placement->mirrored ? -p.x : p.x) * placement->scale, p.y * placement->scale };
  HwPoint turned = hw_point_turn (scaled, placement->angle);

  return (HwPoint){ placement->position.x + turned.x, placement->position.y + turned.y };
}

HwPoint
hw_placement_invert (const HwPlacement *placement, HwPoint p)
{
  HwPoint shifted = { p.x - placement->position.x, p.y - placement->position.y };
  HwPoint turned = hw_point_turn (shifted, -placement->angle);
  double x = turned.x / placement->scale;

  return (HwPoint){ placement->mirrored ? -x : x, turned.y / placement->scale };
}

gboolean
hw_placement_equal (const HwPlacement *a, const HwPlacement *b)
{
  return a->position.x == b->position.x && a->position.y == b->position.y && a->angle == b->angle
         && a->scale == b->scale && !a->mirrored == !b->mirrored;
}

HwBox
hw_box_of_points (const HwPoint *points, gsize n_points)
{
  HwBox box = HW_BOX_EMPTY;

  for (gsize i = 0; i < n_points; i++)
    {
      box.x0 = MIN (box.x0, points[i].x);
      box.y0 = MIN (box.y0, points[i].y);
      box.x1 = MAX (box.x1, points[i].x);
      box.y1 = MAX (box.y1, points[i].y);
    }
  return box;
}

HwBox
hw_box_union (HwBox a, HwBox b)
{
  if (hw_box_is_empty (a))
    return b;
  if (hw_box_is_empty (b))
    return a;
  return (HwBox){ MIN (a.x0, b.x0), MIN (a.y0, b.y0), MAX (a.x1, b.x1), MAX (a.y1, b.y1) };
}

gboolean
hw_box_overlaps (HwBox a, HwBox b)
{
  return !hw_box_is_empty (a) && !hw_box_is_empty (b) && a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1
         && b.y0 <= a.y1;
}

gboolean
hw_box_is_empty (HwBox box)
{
  return box.x1 < box.x0 || box.y1 < box.y0;
}

double
hw_angle_normal (double degrees)
{
  double turn = remainder (degrees, 360.0);

  return turn <= -180.0 ? turn + 360.0 : turn + 0.0;
}

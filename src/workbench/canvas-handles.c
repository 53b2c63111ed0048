/* The handles about what is selected. All sums are plain similarity transforms of the plane: pulling a corner scales about
 * the opposite one, the handle above the top turns about the middle. Handles keep clear of the stitching and of each
 * other, so that an unsteady hand can still tell them apart on a motif the size of a thimble. */

#include "canvas-handles.h"

#include <math.h>

#define FRAME_PADDING 7.0 /* px between stitching and line */
#define LEAST_HALF 24.0   /* px */
#define STEM 36.0         /* px from the line to the turning handle */
#define SOFT_SNAP 2.0     /* degrees */
#define FIRM_STEP 15.0    /* degrees */

static const double corner_signs[4][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 } };

HwHandleFrame
hw_handle_frame_of_motif (const HwOutline *outline, const HwPlacement *placement)
{
  HwBox box = outline->box;

  return (HwHandleFrame){
    .centre = hw_placement_apply (placement, (HwPoint){ (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 }),
    .half_width = (box.x1 - box.x0) / 2 * placement->scale,
    .half_height = (box.y1 - box.y0) / 2 * placement->scale,
    .angle = placement->angle,
  };
}

HwHandleFrame
hw_handle_frame_of_box (HwBox box)
{
  return (HwHandleFrame){
    .centre = { (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 },
    .half_width = (box.x1 - box.x0) / 2,
    .half_height = (box.y1 - box.y0) / 2,
  };
}

static HwPoint
turned_from (HwPoint centre, double x, double y, double angle)
{
  HwPoint d = hw_point_turn ((HwPoint){ x, y }, angle);

  return (HwPoint){ centre.x + d.x, centre.y + d.y };
}

HwPoint
hw_handle_frame_corner (const HwHandleFrame *frame, HwHandle handle)
{
  g_return_val_if_fail (handle >= HW_HANDLE_TOP_LEFT && handle <= HW_HANDLE_BOTTOM_LEFT, frame->centre);

  return turned_from (frame->centre, corner_signs[handle][0] * frame->half_width,
                      corner_signs[handle][1] * frame->half_height, frame->angle);
}

HwHandle
hw_handle_opposite (HwHandle corner)
{
  return (HwHandle)((corner + 2) % 4);
}

static gboolean
is_within (HwBox area, HwPoint p, double padding)
{
  return p.x >= area.x0 + padding && p.x <= area.x1 - padding && p.y >= area.y0 + padding
         && p.y <= area.y1 - padding;
}

void
hw_handles_place (HwHandles *handles, const HwHandleFrame *frame, const HwView *view, HwBox area)
{
  HwPoint centre = hw_view_to_pixels (view, frame->centre);
  double half_width = MAX (frame->half_width * view->zoom + FRAME_PADDING, LEAST_HALF);
  double half_height = MAX (frame->half_height * view->zoom + FRAME_PADDING, LEAST_HALF);
  HwPoint above = turned_from (centre, 0, -half_height - STEM, frame->angle);
  HwPoint below = turned_from (centre, 0, half_height + STEM, frame->angle);
  gboolean flip = !is_within (area, above, HW_HANDLE_RADIUS) && is_within (area, below, HW_HANDLE_RADIUS);

  for (int i = 0; i < 4; i++)
    handles->at[i] = turned_from (centre, corner_signs[i][0] * half_width, corner_signs[i][1] * half_height,
                                  frame->angle);
  handles->at[HW_HANDLE_TURN] = flip ? below : above;
  handles->top = turned_from (centre, 0, flip ? half_height : -half_height, frame->angle);
}

HwHandle
hw_handles_hit (const HwHandles *handles, HwPoint pixel)
{
  HwHandle found = HW_HANDLE_NONE;
  double nearest = HW_HANDLE_HIT_RADIUS;

  for (int i = 0; i < HW_N_HANDLES; i++)
    {
      double distance = hw_point_distance (handles->at[i], pixel);
      if (distance <= nearest)
        {
          nearest = distance;
          found = i;
        }
    }
  return found;
}

HwBox
hw_handles_bounds (const HwHandles *handles)
{
  HwBox box = hw_box_of_points (handles->at, HW_N_HANDLES);
  double around = HW_HANDLE_RADIUS + 4;

  return (HwBox){ box.x0 - around, box.y0 - around, box.x1 + around, box.y1 + around };
}

/* Ink with a light seam on both sides reads on any thread and any cloth. */
static void
stroke_ink (cairo_t *cr, gboolean clear)
{
  cairo_set_source_rgba (cr, 1, 1, 1, clear ? 1 : 0.72);
  cairo_set_line_width (cr, clear ? 6 : 3.2);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  cairo_set_line_width (cr, clear ? 2.5 : 1.25);
  cairo_stroke (cr);
}

static void
draw_knob (cairo_t *cr, HwPoint at, gboolean hovered, gboolean clear)
{
  cairo_arc (cr, at.x, at.y, HW_HANDLE_RADIUS + (hovered ? 1.5 : 0), 0, 2 * G_PI);
  if (hovered)
    cairo_set_source_rgb (cr, 0.18, 0.40, 0.56);
  else
    cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  cairo_set_line_width (cr, clear ? 3 : 1.5);
  cairo_stroke (cr);
}

/* Two thirds of a circle with a head, inside the turning handle. */
static void
draw_turn_sign (cairo_t *cr, HwPoint at, gboolean hovered)
{
  double r = 3.1, shade = hovered ? 1 : 0.14;

  cairo_set_source_rgb (cr, shade, shade, hovered ? 1 : 0.2);
  cairo_set_line_width (cr, 1.3);
  cairo_arc (cr, at.x, at.y, r, -0.6 * G_PI, 0.75 * G_PI);
  cairo_stroke (cr);
  cairo_move_to (cr, at.x - 4.2, at.y + 1.2);
  cairo_line_to (cr, at.x - 0.4, at.y + 1.4);
  cairo_line_to (cr, at.x - 2.6, at.y + 4.4);
  cairo_fill (cr);
}

void
hw_handles_draw (cairo_t *cr, const HwHandles *handles, HwHandle hovered, gboolean fixed, gboolean clear)
{
  for (int i = 0; i < 4; i++)
    cairo_line_to (cr, handles->at[i].x, handles->at[i].y);
  cairo_close_path (cr);
  if (!fixed)
    {
      cairo_move_to (cr, handles->top.x, handles->top.y);
      cairo_line_to (cr, handles->at[HW_HANDLE_TURN].x, handles->at[HW_HANDLE_TURN].y);
    }
  stroke_ink (cr, clear);
  if (fixed)
    return;
  for (int i = 0; i < HW_N_HANDLES; i++)
    draw_knob (cr, handles->at[i], hovered == i, clear);
  draw_turn_sign (cr, handles->at[HW_HANDLE_TURN], hovered == HW_HANDLE_TURN);
}

double
hw_handle_turn (HwPoint pivot, HwPoint from, HwPoint to)
{
  double before = atan2 (from.y - pivot.y, from.x - pivot.x);
  double after = atan2 (to.y - pivot.y, to.x - pivot.x);

  return hw_angle_normal ((after - before) * 180 / G_PI);
}

double
hw_handle_settle_angle (double angle, gboolean steps)
{
  double quarter = round (angle / 90) * 90;

  if (steps)
    return hw_angle_normal (round (angle / FIRM_STEP) * FIRM_STEP);
  if (fabs (angle - quarter) <= SOFT_SNAP)
    return hw_angle_normal (quarter);
  return hw_angle_normal (round (angle * 10) / 10);
}

double
hw_handle_pull (HwPoint pivot, HwPoint from, HwPoint to)
{
  HwPoint arm = { from.x - pivot.x, from.y - pivot.y };
  double length_squared = arm.x * arm.x + arm.y * arm.y;
  double along = (to.x - pivot.x) * arm.x + (to.y - pivot.y) * arm.y;

  if (length_squared < 1e-12)
    return 1;
  return CLAMP (along / length_squared, 0.02, 50);
}

HwPlacement
hw_placement_about (const HwPlacement *placement, HwPoint pivot, double turn, double scale)
{
  HwPlacement result = *placement;
  HwPoint arm = { (placement->position.x - pivot.x) * scale, (placement->position.y - pivot.y) * scale };

  result.position = turned_from (pivot, arm.x, arm.y, turn);
  result.angle = hw_angle_normal (placement->angle + turn);
  result.scale = placement->scale * scale;
  return result;
}

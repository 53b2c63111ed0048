/* The handles about what is selected: four round ones at the corners to resize, one above the top to turn.
 * Where they lie, which one a pointer means, and what pulling one does. */
#pragma once

#include <cairo.h>

#include "../geometry/outline.h"
#include "canvas-view.h"

G_BEGIN_DECLS

typedef enum
{
  HW_HANDLE_NONE = -1,
  HW_HANDLE_TOP_LEFT,
  HW_HANDLE_TOP_RIGHT,
  HW_HANDLE_BOTTOM_RIGHT,
  HW_HANDLE_BOTTOM_LEFT,
  HW_HANDLE_TURN,
  HW_N_HANDLES
} HwHandle;

#define HW_HANDLE_RADIUS 6.5     /* px, as drawn */
#define HW_HANDLE_HIT_RADIUS 14. /* px, as felt */

/* A turned rectangle on the cloth, mm and degrees. */
typedef struct
{
  HwPoint centre;
  double half_width, half_height;
  double angle;
} HwHandleFrame;

/* The frame as it lies on the screen, pixels: corners in handle order, then the turning handle. */
typedef struct
{
  HwPoint at[HW_N_HANDLES];
  HwPoint top; /* where the turning handle's stem begins */
} HwHandles;

HwHandleFrame
hw_handle_frame_of_motif (const HwOutline *outline, const HwPlacement *placement);
HwHandleFrame
hw_handle_frame_of_box (HwBox box);
/* A corner of the frame, mm. */
HwPoint
hw_handle_frame_corner (const HwHandleFrame *frame, HwHandle handle);
HwHandle
hw_handle_opposite (HwHandle corner);

/* Lays the handles out a little outside the frame, never closer together than a hand can tell apart. The turning handle
 * goes below the frame when there is no room above within area (pixels). */
void
hw_handles_place (HwHandles *handles, const HwHandleFrame *frame, const HwView *view, HwBox area);
/* The nearest handle whose hit area holds the pixel, or HW_HANDLE_NONE. */
HwHandle
hw_handles_hit (const HwHandles *handles, HwPoint pixel);
/* Bounds of all that hw_handles_draw() paints, pixels. */
HwBox
hw_handles_bounds (const HwHandles *handles);
/* The frame as a thin ink line with its handles; hovered is drawn filled. `fixed`: no handles, for what is held in place. clear: in bold lines, for high contrast. */
void
hw_handles_draw (cairo_t *cr, const HwHandles *handles, HwHandle hovered, gboolean fixed, gboolean clear);

/* The turn that takes the direction pivot -> from to pivot -> to, degrees in (-180, 180]. */
double
hw_handle_turn (HwPoint pivot, HwPoint from, HwPoint to);
/* Draws an angle softly to the nearest quarter turn when it is within 2 degrees; firmly to steps of 15 degrees when `steps`.
 * Otherwise to a tenth of a degree. */
double
hw_handle_settle_angle (double angle, gboolean steps);
/* The factor that a pull of a corner from -> to about pivot means; between 0.02 and 50. */
double
hw_handle_pull (HwPoint pivot, HwPoint from, HwPoint to);

/* The placement turned and then scaled about a point of the cloth. */
HwPlacement
hw_placement_about (const HwPlacement *placement, HwPoint pivot, double turn, double scale);

G_END_DECLS

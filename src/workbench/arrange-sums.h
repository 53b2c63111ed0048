/* The sums of arranging: where boxes go to be in line or evenly spaced, how a mirrored pair lies, how far outlines reach over
 * one another along a line. No scene, no screen. */
#pragma once

#include "../geometry/outline.h"

G_BEGIN_DECLS

typedef enum
{
  HW_ALIGN_LEFT,
  HW_ALIGN_MIDDLE, /* on one upright line */
  HW_ALIGN_RIGHT,
  HW_ALIGN_TOP,
  HW_ALIGN_CENTRE, /* on one level line */
  HW_ALIGN_BOTTOM
} HwAlign;

/* What brings the box in line with `with`, mm. */
HwPoint
hw_align_shift (HwAlign align, HwBox box, HwBox with);

/* Shifts that make the gaps between n boxes equal, across (x) or down (y), in the order of their middles. The first and the last stay,
 * and so do those marked in fixed (may be NULL): between two that stay the gaps are equal. Gaps below 0 mean that they overlap evenly. */
void
hw_spread_shifts (const HwBox *boxes, const gboolean *fixed, guint n, gboolean across, HwPoint *shifts);

/* How far outlines reach along a direction (a unit vector): least and most of direction . p. */
void
hw_outline_span (const HwOutline *outline, HwPoint direction, double *least, double *most);

/* The placement of the mirror image across the upright line x = at, or the level line y = at. */
HwPlacement
hw_placement_across (const HwPlacement *placement, gboolean upright, double at);

/* The farthest shift of `moving` along the unit vector `away` (mm, below 0 when the two lie apart) at which its area still touches that of
 * `still`: any farther and they are apart for good. FALSE when they pass each other whatever the shift. */
gboolean
hw_outline_contact (const HwOutline *moving, const HwOutline *still, HwPoint away, double *shift);

G_END_DECLS

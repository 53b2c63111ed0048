/* How the cloth is seen on the table: a zoom and a shift between millimetres on the cloth and pixels of the
 * canvas. Plain sums, no screen. */
#pragma once

#include "../geometry/point.h"

G_BEGIN_DECLS

typedef struct
{
  double zoom; /* pixels per mm */
  double x, y; /* pixel where the cloth's top left corner lies */
} HwView;

#define HW_VIEW_MIN_ZOOM 0.05
#define HW_VIEW_MAX_ZOOM 24.0

HwPoint
hw_view_to_pixels (const HwView *view, HwPoint mm);
HwPoint
hw_view_to_cloth (const HwView *view, HwPoint pixels);
HwBox
hw_view_box_to_pixels (const HwView *view, HwBox mm);

/* The cloth point under `at` (pixels) stays there; the zoom is kept within its limits. */
void
hw_view_zoom_at (HwView *view, double factor, HwPoint at);
/* Two fingers that lay at `from` (pixels) when the view was `start` lie at `at` now, `scale` times as far from each other: the cloth stays under them. */
void
hw_view_pinch (HwView *view, const HwView *start, HwPoint from, HwPoint at, double scale);
/* Shows the whole box (mm) in the middle of area (pixels) with so many pixels free around it. */
void
hw_view_fit (HwView *view, HwBox mm, HwBox area, double padding);
/* Shifts so that at least `keep` pixels of the box (mm) stay inside area (pixels) on each axis. */
void
hw_view_keep_in (HwView *view, HwBox mm, HwBox area, double keep);
/* Shifts as little as brings the cloth point inside area less padding. */
void
hw_view_show (HwView *view, HwPoint mm, HwBox area, double padding);

/* True when the box (pixels) lies over one of the points (HwPoint, pixels), with room for a disc around each. */
gboolean
hw_view_covers (HwBox box, const GArray *points);

G_END_DECLS

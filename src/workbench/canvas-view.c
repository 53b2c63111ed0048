/* How the cloth is seen on the table: zooming about a point, fitting the cloth into the window, panning without
 * losing it. A pixel is zoom * mm + shift on both axes; the cloth is never seen turned. */

#include "canvas-view.h"

HwPoint
hw_view_to_pixels (const HwView *view, HwPoint mm)
{
  return (HwPoint){ view->x + mm.x * view->zoom, view->y + mm.y * view->zoom };
}

HwPoint
hw_view_to_cloth (const HwView *view, HwPoint pixels)
{
  return (HwPoint){ (pixels.x - view->x) / view->zoom, (pixels.y - view->y) / view->zoom };
}

HwBox
hw_view_box_to_pixels (const HwView *view, HwBox mm)
{
  HwPoint a = hw_view_to_pixels (view, (HwPoint){ mm.x0, mm.y0 });
  HwPoint b = hw_view_to_pixels (view, (HwPoint){ mm.x1, mm.y1 });

  return (HwBox){ a.x, a.y, b.x, b.y };
}

void
hw_view_zoom_at (HwView *view, double factor, HwPoint at)
{
  double zoom = CLAMP (view->zoom * factor, HW_VIEW_MIN_ZOOM, HW_VIEW_MAX_ZOOM);
  double ratio = zoom / view->zoom;

  view->x = at.x - (at.x - view->x) * ratio;
  view->y = at.y - (at.y - view->y) * ratio;
  view->zoom = zoom;
}

void
hw_view_pinch (HwView *view, const HwView *start, HwPoint from, HwPoint at, double scale)
{
  HwPoint held = hw_view_to_cloth (start, from);

  view->zoom = CLAMP (start->zoom * scale, HW_VIEW_MIN_ZOOM, HW_VIEW_MAX_ZOOM);
  view->x = at.x - held.x * view->zoom;
  view->y = at.y - held.y * view->zoom;
}

void
hw_view_fit (HwView *view, HwBox mm, HwBox area, double padding)
{
  double width = MAX (mm.x1 - mm.x0, 1e-3);
  double height = MAX (mm.y1 - mm.y0, 1e-3);
  double free_width = MAX (area.x1 - area.x0 - 2 * padding, 16);
  double free_height = MAX (area.y1 - area.y0 - 2 * padding, 16);

  view->zoom = CLAMP (MIN (free_width / width, free_height / height), HW_VIEW_MIN_ZOOM, HW_VIEW_MAX_ZOOM);
  view->x = (area.x0 + area.x1) / 2 - view->zoom * (mm.x0 + mm.x1) / 2;
  view->y = (area.y0 + area.y1) / 2 - view->zoom * (mm.y0 + mm.y1) / 2;
}

/* The shift that leaves at least keep of [from, to] within [low, high]. */
static double
shift_into (double from, double to, double low, double high, double keep)
{
  keep = MIN (keep, MIN (to - from, high - low));
  if (to < low + keep)
    return low + keep - to;
  if (from > high - keep)
    return high - keep - from;
  return 0;
}

void
hw_view_keep_in (HwView *view, HwBox mm, HwBox area, double keep)
{
  HwBox box = hw_view_box_to_pixels (view, mm);

  view->x += shift_into (box.x0, box.x1, area.x0, area.x1, keep);
  view->y += shift_into (box.y0, box.y1, area.y0, area.y1, keep);
}

void
hw_view_show (HwView *view, HwPoint mm, HwBox area, double padding)
{
  HwPoint p = hw_view_to_pixels (view, mm);
  double pad_x = MIN (padding, (area.x1 - area.x0) / 2);
  double pad_y = MIN (padding, (area.y1 - area.y0) / 2);

  view->x += CLAMP (p.x, area.x0 + pad_x, area.x1 - pad_x) - p.x;
  view->y += CLAMP (p.y, area.y0 + pad_y, area.y1 - pad_y) - p.y;
}

gboolean
hw_view_covers (HwBox box, const GArray *points)
{
  const double around = 12;

  for (guint i = 0; i < points->len; i++)
    {
      HwPoint p = g_array_index (points, HwPoint, i);

      if (p.x > box.x0 - around && p.x < box.x1 + around && p.y > box.y0 - around && p.y < box.y1 + around)
        return TRUE;
    }
  return FALSE;
}

/* The place on the cloth that a person left, told and taken up again: the point in the middle of the table and the zoom. While the window finds its size,
 * the point stays in the middle; once the person has moved or zoomed, it is given up. */
#include "canvas-private.h"

static HwPoint
middle (HwCanvas *canvas)
{
  HwBox area = hw_canvas_area (canvas);

  return (HwPoint){ (area.x0 + area.x1) / 2, (area.y0 + area.y1) / 2 };
}

static gboolean
is_where_it_was_put (HwCanvas *canvas)
{
  const HwView *put = &canvas->place.put;

  return put->zoom == 0
         || (put->zoom == canvas->view.zoom && put->x == canvas->view.x && put->y == canvas->view.y);
}

gboolean
hw_canvas_get_place (HwCanvas *canvas, HwPoint *centre, double *zoom)
{
  g_return_val_if_fail (HW_IS_CANVAS (canvas), FALSE);
  g_return_val_if_fail (centre != NULL && zoom != NULL, FALSE);

  if (canvas->fitted)
    return FALSE;
  if (canvas->place.wanted && is_where_it_was_put (canvas))
    {
      *centre = canvas->place.centre;
      *zoom = canvas->place.zoom;
      return TRUE;
    }
  if (gtk_widget_get_width (GTK_WIDGET (canvas)) <= 0)
    return FALSE;
  *centre = hw_view_to_cloth (&canvas->view, middle (canvas));
  *zoom = canvas->view.zoom;
  return TRUE;
}

gboolean
hw_canvas_take_place (HwCanvas *canvas)
{
  HwPoint at;
  HwView view;

  if (!canvas->place.wanted)
    return FALSE;
  if (canvas->fitted || !is_where_it_was_put (canvas))
    {
      canvas->place.wanted = FALSE;
      return FALSE;
    }
  at = middle (canvas);
  view.zoom = CLAMP (canvas->place.zoom, HW_VIEW_MIN_ZOOM, HW_VIEW_MAX_ZOOM);
  view.x = at.x - canvas->place.centre.x * view.zoom;
  view.y = at.y - canvas->place.centre.y * view.zoom;
  hw_canvas_set_view (canvas, &view);
  canvas->place.put = canvas->view;
  return TRUE;
}

void
hw_canvas_set_place (HwCanvas *canvas, HwPoint centre, double zoom)
{
  g_return_if_fail (HW_IS_CANVAS (canvas));
  g_return_if_fail (zoom > 0);

  canvas->fitted = FALSE;
  canvas->place = (HwCanvasPlace){ .wanted = TRUE, .centre = centre, .zoom = zoom };
  if (gtk_widget_get_width (GTK_WIDGET (canvas)) > 0)
    hw_canvas_take_place (canvas);
}

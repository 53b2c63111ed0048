/* While something is held at the rim of the table the cloth creeps along under it, the faster the nearer the rim, so that one can
 * drag to where one does not yet see. */

#include "canvas-private.h"

#define RIM 28.0    /* px from the rim at which it begins */
#define SPEED 600.0 /* px a second at the rim itself */

/* How far into the rim, from -1 (left or top) to 1; nought on a side where the cloth is seen to its end. */
static double
push (double at, double low, double high, double cloth_low, double cloth_high)
{
  if (at < low + RIM)
    return cloth_low < low ? -CLAMP ((low + RIM - at) / RIM, 0, 1) : 0;
  return cloth_high > high ? CLAMP ((at - (high - RIM)) / RIM, 0, 1) : 0;
}

static gboolean
creep_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer user_data)
{
  HwCanvas *canvas = HW_CANVAS (widget);
  HwBox area = hw_canvas_area (canvas);
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  double seconds = CLAMP ((now - canvas->drag.creep_time) / 1e6, 0, 0.1);
  HwBox cloth = hw_view_box_to_pixels (&canvas->view, hw_canvas_cloth_box (canvas));
  double dx = push (canvas->drag.to.x, area.x0, area.x1, cloth.x0, cloth.x1);
  double dy = push (canvas->drag.to.y, area.y0, area.y1, cloth.y0, cloth.y1);
  HwView view = canvas->view;

  canvas->drag.creep_time = now;
  if (dx == 0 && dy == 0)
    return G_SOURCE_CONTINUE;
  view.x -= dx * SPEED * seconds;
  view.y -= dy * SPEED * seconds;
  canvas->fitted = FALSE;
  hw_canvas_set_view (canvas, &view);
  hw_drag_motion (canvas, canvas->drag.to, canvas->drag.modifiers);
  return G_SOURCE_CONTINUE;
}

void
hw_creep_begin (HwCanvas *canvas)
{
  if (canvas->drag.creep == 0)
    canvas->drag.creep = gtk_widget_add_tick_callback (GTK_WIDGET (canvas), creep_cb, NULL, NULL);
}

void
hw_creep_end (HwCanvas *canvas)
{
  if (canvas->drag.creep != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (canvas), canvas->drag.creep);
  canvas->drag.creep = 0;
}

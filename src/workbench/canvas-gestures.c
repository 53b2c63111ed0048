/* What the hand does on the canvas: pressing and pulling, the wheel, two fingers on a touchpad or a screen, hovering. Each gesture only
 * says what happened; what it means is decided in canvas-drag.c. */

#include <math.h>

#include "canvas-hits.h"
#include "canvas-private.h"

#define WHEEL_ZOOM 1.15
#define WHEEL_PAN 60.0 /* px of panning for one notch */

static GdkModifierType
modifiers_of (gpointer controller)
{
  return gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, HwCanvas *canvas)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  HwBox area = hw_canvas_area (canvas);

  if (canvas->bench == NULL || canvas->drag.pull != HW_PULL_NONE || x < area.x0 || y < area.y0)
    {
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  gtk_widget_grab_focus (GTK_WIDGET (canvas));
  canvas->pointer = (HwPoint){ x, y };
  hw_drag_press (canvas, canvas->pointer, modifiers_of (gesture),
                 button == GDK_BUTTON_MIDDLE || canvas->space_held);
  hw_canvas_update_cursor (canvas);
}

static void
drag_update_cb (GtkGestureDrag *gesture, double dx, double dy, HwCanvas *canvas)
{
  double x, y;

  if (gtk_gesture_drag_get_start_point (gesture, &x, &y))
    hw_drag_motion (canvas, (HwPoint){ x + dx, y + dy }, modifiers_of (gesture));
}

static void
drag_end_cb (GtkGestureDrag *gesture, double dx, double dy, HwCanvas *canvas)
{
  hw_drag_release (canvas);
}

static void
drag_broken_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwCanvas *canvas)
{
  hw_drag_cancel (canvas);
}

static void
menu_pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, HwCanvas *canvas)
{
  HwPoint at = { x, y };

  if (canvas->bench == NULL || canvas->drag.pull != HW_PULL_NONE)
    return;
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  gtk_widget_grab_focus (GTK_WIDGET (canvas));
  hw_canvas_popup (canvas, &at);
}

static void
long_pressed_cb (GtkGestureLongPress *gesture, double x, double y, HwCanvas *canvas)
{
  HwPoint at = { x, y };

  if (canvas->bench == NULL)
    return;
  hw_drag_cancel (canvas);
  hw_canvas_popup (canvas, &at);
}

/* A touchpad scrolls by pixels or by parts of a notch, and pans; a wheel scrolls by notches, and zooms. */
static gboolean
is_touchpad (GtkEventControllerScroll *controller, double dx, double dy)
{
  GdkDevice *device = gtk_event_controller_get_current_event_device (GTK_EVENT_CONTROLLER (controller));

  return (device != NULL && gdk_device_get_source (device) == GDK_SOURCE_TOUCHPAD)
         || gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_SURFACE || dx != rint (dx)
         || dy != rint (dy);
}

static gboolean
scroll_cb (GtkEventControllerScroll *controller, double dx, double dy, HwCanvas *canvas)
{
  GdkModifierType modifiers = modifiers_of (controller);
  gboolean touchpad = is_touchpad (controller, dx, dy);
  double step = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_SURFACE ? 1 : WHEEL_PAN;
  HwView view = canvas->view;

  if (modifiers & GDK_SHIFT_MASK && dx == 0)
    view.x -= dy * step;
  else if (modifiers & GDK_SHIFT_MASK || (dx != 0 && !(modifiers & GDK_CONTROL_MASK))
           || (touchpad && !(modifiers & GDK_CONTROL_MASK)))
    {
      view.x += canvas->owed.x - dx * step;
      view.y += canvas->owed.y - dy * step;
    }
  else
    hw_view_zoom_at (&view, pow (WHEEL_ZOOM, -dy * (step == 1 ? 1 / WHEEL_PAN : 1)), canvas->pointer);
  canvas->fitted = FALSE;
  hw_canvas_set_view (canvas, &view);
  hw_drag_motion (canvas, canvas->pointer, modifiers);
  hw_canvas_hover (canvas);
  return GDK_EVENT_STOP;
}

static void
pinch_begin_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwCanvas *canvas)
{
  hw_drag_cancel (canvas);
  canvas->pinch_view = canvas->view;
  canvas->pinch_from = canvas->pointer;
  gtk_gesture_get_bounding_box_center (gesture, &canvas->pinch_from.x, &canvas->pinch_from.y);
}

static void
pinch_cb (GtkGestureZoom *gesture, double scale, HwCanvas *canvas)
{
  HwView view = canvas->view;
  HwPoint at = canvas->pinch_from;

  gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &at.x, &at.y);
  hw_view_pinch (&view, &canvas->pinch_view, canvas->pinch_from, at, scale);
  canvas->fitted = FALSE;
  hw_canvas_set_view (canvas, &view);
}

/* A sign is only looked at; a press takes what lies under it. */
static void
set_hover_sign (HwCanvas *canvas, int sign)
{
  if (sign == canvas->hover_sign)
    return;
  if (sign >= 0)
    canvas->told = (HwPoint){ NAN, NAN };
  canvas->hover_sign = sign;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_SIGNS));
}

static void
set_hover_mark (HwCanvas *canvas, int mark)
{
  if (mark == canvas->hover_mark)
    return;
  canvas->hover_mark = mark;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_MARKS));
}

static void
set_hover (HwCanvas *canvas, int motif, int hooping, int ghost, HwHandle handle)
{
  guint stale = 0;

  if (motif != canvas->hover_motif || handle != canvas->hover_handle)
    stale |= HW_BIT (HW_LAYER_SELECTION);
  if (hooping != canvas->hover_hooping)
    stale |= HW_BIT (HW_LAYER_HOOPINGS);
  if (ghost != canvas->hover_ghost)
    stale |= HW_BIT (HW_LAYER_GHOSTS);
  canvas->hover_motif = motif;
  canvas->hover_hooping = hooping;
  canvas->hover_ghost = ghost;
  canvas->hover_handle = handle;
  if (stale != 0)
    hw_canvas_spoil (canvas, stale);
  hw_canvas_update_cursor (canvas);
}

/* What lies under the pointer, in the order in which a press would take it. */
void
hw_canvas_hover (HwCanvas *canvas)
{
  g_autoptr (GArray) stack = NULL;
  int found;

  if (canvas->drag.pull != HW_PULL_NONE)
    return;
  if (!canvas->pointer_inside || canvas->bench == NULL)
    {
      set_hover_sign (canvas, -1);
      set_hover_mark (canvas, -1);
      set_hover (canvas, -1, -1, -1, HW_HANDLE_NONE);
      return;
    }
  set_hover_sign (canvas, hw_signs_under (canvas->signs, canvas->pointer));
  set_hover_mark (canvas, hw_canvas_mark_under (canvas, canvas->pointer));
  if (canvas->hover_mark >= 0)
    {
      set_hover (canvas, -1, -1, -1, HW_HANDLE_NONE);
      return;
    }
  if ((found = (int)hw_canvas_handle_under (canvas, canvas->pointer)) != HW_HANDLE_NONE)
    {
      set_hover (canvas, -1, -1, -1, found);
      return;
    }
  stack = hw_canvas_stack_at (canvas, canvas->pointer);
  if ((found = hw_canvas_ghost_under (canvas, canvas->pointer, stack->len > 0)) >= 0)
    set_hover (canvas, -1, -1, found, HW_HANDLE_NONE);
  else if ((found = hw_canvas_disc_under (canvas, canvas->pointer)) >= 0)
    set_hover (canvas, -1, found, -1, HW_HANDLE_NONE);
  else if (stack->len > 0)
    set_hover (canvas, (int)g_array_index (stack, guint, 0), -1, -1, HW_HANDLE_NONE);
  else
    set_hover (canvas, -1, -1, -1, HW_HANDLE_NONE);
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, HwCanvas *canvas)
{
  HwBox area = hw_canvas_area (canvas);

  canvas->pointer = (HwPoint){ x, y };
  canvas->pointer_inside = x >= area.x0 && y >= area.y0;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_RULER_MARKS) | (canvas->lens_held ? HW_BIT (HW_LAYER_LENS) : 0));
  hw_canvas_hover (canvas);
}

static void
leave_cb (GtkEventControllerMotion *controller, HwCanvas *canvas)
{
  canvas->pointer_inside = FALSE;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_RULER_MARKS));
  hw_canvas_hover (canvas);
}

static GtkGesture *
add_drag (HwCanvas *canvas, guint button)
{
  GtkGesture *drag = gtk_gesture_drag_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), button);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), canvas);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), canvas);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), canvas);
  g_signal_connect (drag, "cancel", G_CALLBACK (drag_broken_cb), canvas);
  gtk_widget_add_controller (GTK_WIDGET (canvas), GTK_EVENT_CONTROLLER (drag));
  return drag;
}

void
hw_canvas_add_gestures (HwCanvas *canvas)
{
  GtkWidget *widget = GTK_WIDGET (canvas);
  GtkGesture *click = gtk_gesture_click_new ();
  GtkGesture *press = gtk_gesture_long_press_new ();
  GtkGesture *pinch = gtk_gesture_zoom_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);

  GtkGesture *drag = add_drag (canvas, GDK_BUTTON_PRIMARY);
  add_drag (canvas, GDK_BUTTON_MIDDLE);

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect (click, "pressed", G_CALLBACK (menu_pressed_cb), canvas);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));

  gtk_gesture_single_set_touch_only (GTK_GESTURE_SINGLE (press), TRUE);
  g_signal_connect (press, "pressed", G_CALLBACK (long_pressed_cb), canvas);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (press));

  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_begin_cb), canvas);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinch_cb), canvas);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));

  /* A finger that the drag has taken may still become a long press, or the first of two. */
  gtk_gesture_group (press, drag);
  gtk_gesture_group (pinch, drag);

  g_signal_connect (motion, "enter", G_CALLBACK (motion_cb), canvas);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), canvas);
  g_signal_connect (motion, "leave", G_CALLBACK (leave_cb), canvas);
  gtk_widget_add_controller (widget, motion);

  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), canvas);
  gtk_widget_add_controller (widget, scroll);
}

/* Pointer, wheel and keys on a photo being put square. A handle keeps its place under the pointer as it was taken; with Shift it goes slowly. */
#include <math.h>

#include "photo-view-private.h"

#define REACH 24.0 /* px */
#define WHEEL 1.25
#define WHEEL_SURFACE 60.0 /* px of a touchpad that mean one notch */
#define SLOW 0.2
#define STRIDE 10.0 /* px of the screen, with Shift held */

static int
handle_under (HwPhotoView *view, HwPoint at)
{
  double nearest = REACH;
  int found = -1;

  for (guint i = 0; i < hw_photo_view_count (view); i++)
    {
      double away = hw_point_distance (hw_photo_view_to_widget (view, *hw_photo_view_place (view, i)), at);

      if (away < nearest || (away <= REACH && view->chosen == (int)i && away < nearest + 6))
        {
          nearest = away;
          found = (int)i;
        }
    }
  return found;
}

static void
move_handle (HwPhotoView *view, double dx, double dy)
{
  HwPoint *px = hw_photo_view_place (view, (guint)view->chosen);

  px->x = CLAMP (px->x + dx / view->zoom, 0, view->squaring->width);
  px->y = CLAMP (px->y + dy / view->zoom, 0, view->squaring->height);
  hw_photo_view_emit (view, "moved", (guint)view->chosen);
}

static void
add_to_line (HwPhotoView *view, HwPoint at)
{
  HwPoint px = { (at.x - view->at.x) / view->zoom, (at.y - view->at.y) / view->zoom };

  if (px.x < 0 || px.y < 0 || px.x > view->squaring->width || px.y > view->squaring->height)
    return;
  g_array_append_val (view->line, px);
  gtk_widget_queue_draw (GTK_WIDGET (view));
  hw_photo_view_emit (view, "line-changed", 0);
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, HwPhotoView *view)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  int handle = button == GDK_BUTTON_PRIMARY && !view->checking ? handle_under (view, (HwPoint){ x, y }) : -1;

  gtk_widget_grab_focus (GTK_WIDGET (view));
  gtk_window_set_focus_visible (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (view))), FALSE);
  view->last = (HwPoint){ 0, 0 };
  if (button == GDK_BUTTON_PRIMARY && view->checking)
    add_to_line (view, (HwPoint){ x, y });
  else if (handle >= 0)
    {
      view->hand = HW_PHOTO_HAND_HANDLE;
      view->chosen = handle;
      hw_photo_view_emit (view, "chosen", (guint)handle);
      gtk_widget_queue_draw (GTK_WIDGET (view));
    }
  else
    {
      view->hand = HW_PHOTO_HAND_PAN;
      gtk_widget_set_cursor_from_name (GTK_WIDGET (view), "grabbing");
    }
}

static void
drag_update_cb (GtkGestureDrag *gesture, double x, double y, HwPhotoView *view)
{
  GdkModifierType held = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  double dx = x - view->last.x, dy = y - view->last.y;

  view->last = (HwPoint){ x, y };
  if (view->hand == HW_PHOTO_HAND_HANDLE && view->chosen >= 0)
    {
      double pace = held & GDK_SHIFT_MASK ? SLOW : 1;
      move_handle (view, dx * pace, dy * pace);
    }
  else if (view->hand == HW_PHOTO_HAND_PAN)
    {
      view->at.x += dx;
      view->at.y += dy;
      view->fitted = FALSE;
      gtk_widget_queue_draw (GTK_WIDGET (view));
    }
}

static void
drag_end_cb (GtkGestureDrag *gesture, double x, double y, HwPhotoView *view)
{
  view->hand = HW_PHOTO_HAND_NONE;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (view), view->checking ? "crosshair" : NULL);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, HwPhotoView *view)
{
  int hover = view->checking ? -1 : handle_under (view, (HwPoint){ x, y });

  view->pointer = (HwPoint){ x, y };
  if (hover == view->hover || view->hand != HW_PHOTO_HAND_NONE)
    return;
  view->hover = hover;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (view), view->checking ? "crosshair"
                                                      : hover >= 0   ? "grab"
                                                                     : NULL);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

static gboolean
scroll_cb (GtkEventControllerScroll *scroll, double dx, double dy, HwPhotoView *view)
{
  double step
      = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_SURFACE ? 1 / WHEEL_SURFACE : 1;

  hw_photo_view_zoom_at (view, pow (WHEEL, -dy * step), view->pointer);
  return TRUE;
}

static void
pinch_begin_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwPhotoView *view)
{
  view->pinch_zoom = view->zoom;
}

static void
pinch_cb (GtkGestureZoom *gesture, double scale, HwPhotoView *view)
{
  HwPoint at = { 0, 0 };

  gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &at.x, &at.y);
  hw_photo_view_zoom_at (view, view->pinch_zoom * scale / view->zoom, at);
}

static void
choose_beside (HwPhotoView *view, int step)
{
  int n = (int)hw_photo_view_count (view);

  if (n == 0)
    return;
  view->chosen = view->chosen < 0 ? (step > 0 ? 0 : n - 1) : (view->chosen + step + n) % n;
  hw_photo_view_emit (view, "chosen", (guint)view->chosen);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType held, HwPhotoView *view)
{
  HwPoint middle
      = { gtk_widget_get_width (GTK_WIDGET (view)) / 2.0, gtk_widget_get_height (GTK_WIDGET (view)) / 2.0 };
  double stride = held & GDK_SHIFT_MASK ? STRIDE : 1;

  if (held & (GDK_CONTROL_MASK | GDK_ALT_MASK))
    return FALSE;
  switch (key)
    {
    case GDK_KEY_Left:
    case GDK_KEY_Right:
      if (view->chosen >= 0)
        move_handle (view, key == GDK_KEY_Left ? -stride : stride, 0);
      return view->chosen >= 0;
    case GDK_KEY_Up:
    case GDK_KEY_Down:
      if (view->chosen >= 0)
        move_handle (view, 0, key == GDK_KEY_Up ? -stride : stride);
      return view->chosen >= 0;
    case GDK_KEY_Page_Up:
      choose_beside (view, -1);
      return TRUE;
    case GDK_KEY_Page_Down:
      choose_beside (view, 1);
      return TRUE;
    case GDK_KEY_plus:
    case GDK_KEY_KP_Add:
      hw_photo_view_zoom_at (view, WHEEL, middle);
      return TRUE;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      hw_photo_view_zoom_at (view, 1 / WHEEL, middle);
      return TRUE;
    case GDK_KEY_0:
    case GDK_KEY_KP_0:
      hw_photo_view_fit (view);
      return TRUE;
    default:
      return FALSE;
    }
}

void
hw_photo_view_add_hands (HwPhotoView *view)
{
  GtkWidget *widget = GTK_WIDGET (view);
  GtkGesture *drag = gtk_gesture_drag_new (), *pinch = gtk_gesture_zoom_new ();
  GtkEventController *motion = gtk_event_controller_motion_new (), *keys = gtk_event_controller_key_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), 0);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), view);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), view);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), view);
  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_begin_cb), view);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinch_cb), view);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), view);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), view);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), view);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, keys);
}

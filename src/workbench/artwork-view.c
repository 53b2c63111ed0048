/* A picture of artwork on white, zoomed and panned like the table: the wheel zooms, a pull on nothing pans. */
#include "artwork-view.h"

#include <math.h>

#define PADDING 24 /* px */
#define WHEEL 1.25
#define WHEEL_SURFACE 60.0 /* px of a touchpad that mean one notch */
#define PAPER 4            /* px around the picture */

struct _HwArtworkView
{
  GtkWidget parent_instance;

  const HwArtworkHands *hands;
  gpointer data;
  HwPhotoLevels *levels;
  HwBox box, shown;
  HwView view;
  gboolean fitted;
  gboolean pulling, panning;
  HwPoint pressed; /* px */
  HwPoint last;    /* of the drag, from where it began */
  HwPoint pointer; /* px */
  double pinch_zoom;
};

G_DEFINE_FINAL_TYPE (HwArtworkView, hw_artwork_view, GTK_TYPE_WIDGET)

static HwBox
area_of (HwArtworkView *view)
{
  return (HwBox){ 0, 0, MAX (gtk_widget_get_width (GTK_WIDGET (view)), 1),
                  MAX (gtk_widget_get_height (GTK_WIDGET (view)), 1) };
}

static void
fit (HwArtworkView *view)
{
  view->fitted = TRUE;
  if (!hw_box_is_empty (view->shown))
    hw_view_fit (&view->view, view->shown, area_of (view), PADDING);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

static void
zoom_at (HwArtworkView *view, double factor, HwPoint at)
{
  hw_view_zoom_at (&view->view, factor, at);
  view->fitted = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

void
hw_artwork_view_zoom_by (HwArtworkView *view, double factor)
{
  HwBox area;

  g_return_if_fail (HW_IS_ARTWORK_VIEW (view));

  area = area_of (view);
  if (factor > 0)
    zoom_at (view, factor, (HwPoint){ area.x1 / 2, area.y1 / 2 });
  else
    fit (view);
}

void
hw_artwork_view_show (HwArtworkView *view, HwPhotoLevels *levels, HwBox box, HwBox shown)
{
  g_return_if_fail (HW_IS_ARTWORK_VIEW (view));

  g_clear_pointer (&view->levels, hw_photo_levels_unref);
  view->levels = levels != NULL ? hw_photo_levels_ref (levels) : NULL;
  view->box = box;
  view->shown = shown;
  fit (view);
}

const HwView *
hw_artwork_view_get_view (HwArtworkView *view)
{
  g_return_val_if_fail (HW_IS_ARTWORK_VIEW (view), NULL);
  return &view->view;
}

void
hw_artwork_view_reveal (HwArtworkView *view, HwPoint at)
{
  g_return_if_fail (HW_IS_ARTWORK_VIEW (view));

  hw_view_show (&view->view, at, area_of (view), PADDING);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

static void
hw_artwork_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwArtworkView *view = HW_ARTWORK_VIEW (widget);
  HwBox area = area_of (view), box = hw_view_box_to_pixels (&view->view, view->box);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)area.x1, (float)area.y1);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);

  /* Thread colours are judged on white and on nothing else. */
  cairo_set_source_rgb (cr, 0.87, 0.86, 0.835);
  cairo_paint (cr);
  if (!hw_box_is_empty (view->box))
    {
      cairo_rectangle (cr, box.x0 - PAPER, box.y0 - PAPER, box.x1 - box.x0 + 2 * PAPER,
                       box.y1 - box.y0 + 2 * PAPER);
      cairo_set_source_rgb (cr, 1, 1, 1);
      cairo_fill (cr);
    }
  if (view->levels != NULL)
    hw_photo_levels_paint (view->levels, cr, box.x0, box.y0, box.x1 - box.x0, box.y1 - box.y0);
  if (view->hands->draw != NULL)
    view->hands->draw (view, cr, view->data);
  cairo_destroy (cr);
}

static void
hw_artwork_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  if (HW_ARTWORK_VIEW (widget)->fitted)
    fit (HW_ARTWORK_VIEW (widget));
}

static void
hw_artwork_view_measure (GtkWidget *widget,
                         GtkOrientation orientation,
                         int for_size,
                         int *minimum,
                         int *natural,
                         int *minimum_baseline,
                         int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 280 : 240;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 560 : 460;
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, HwArtworkView *view)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  HwPoint at = hw_view_to_cloth (&view->view, (HwPoint){ x, y });

  gtk_widget_grab_focus (GTK_WIDGET (view));
  view->pressed = (HwPoint){ x, y };
  view->last = (HwPoint){ 0, 0 };
  view->pulling = button == GDK_BUTTON_PRIMARY && view->hands->press != NULL
                  && view->hands->press (view, at, view->data);
  view->panning = !view->pulling;
}

static void
drag_update_cb (GtkGestureDrag *gesture, double x, double y, HwArtworkView *view)
{
  if (view->pulling && view->hands->pull != NULL)
    view->hands->pull (view,
                       hw_view_to_cloth (&view->view, (HwPoint){ view->pressed.x + x, view->pressed.y + y }),
                       view->data);
  else if (view->panning)
    {
      view->view.x += x - view->last.x;
      view->view.y += y - view->last.y;
      view->last = (HwPoint){ x, y };
      view->fitted = FALSE;
      gtk_widget_queue_draw (GTK_WIDGET (view));
    }
}

static void
drag_end_cb (GtkGestureDrag *gesture, double x, double y, HwArtworkView *view)
{
  if (view->pulling && view->hands->let_go != NULL)
    view->hands->let_go (view, view->data);
  view->pulling = view->panning = FALSE;
}

static void
menu_cb (GtkGestureClick *gesture, int n_press, double x, double y, HwArtworkView *view)
{
  gtk_widget_grab_focus (GTK_WIDGET (view));
  if (view->hands->menu != NULL)
    view->hands->menu (view, hw_view_to_cloth (&view->view, (HwPoint){ x, y }), view->data);
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, HwArtworkView *view)
{
  view->pointer = (HwPoint){ x, y };
  if (!view->pulling && !view->panning && view->hands->hover != NULL)
    gtk_widget_set_cursor_from_name (
        GTK_WIDGET (view),
        view->hands->hover (view, hw_view_to_cloth (&view->view, view->pointer), view->data));
}

static gboolean
scroll_cb (GtkEventControllerScroll *scroll, double dx, double dy, HwArtworkView *view)
{
  double step
      = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_SURFACE ? 1 / WHEEL_SURFACE : 1;

  zoom_at (view, pow (WHEEL, -dy * step), view->pointer);
  return GDK_EVENT_STOP;
}

static void
pinch_begin_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwArtworkView *view)
{
  view->pinch_zoom = view->view.zoom;
}

static void
pinch_cb (GtkGestureZoom *gesture, double scale, HwArtworkView *view)
{
  HwPoint at = view->pointer;

  gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &at.x, &at.y);
  zoom_at (view, view->pinch_zoom * scale / view->view.zoom, at);
}

static gboolean
key_cb (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType held, HwArtworkView *view)
{
  if (view->hands->key != NULL && view->hands->key (view, key, held, view->data))
    return GDK_EVENT_STOP;
  if (held & (GDK_CONTROL_MASK | GDK_ALT_MASK))
    return GDK_EVENT_PROPAGATE;
  switch (key)
    {
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
      hw_artwork_view_zoom_by (view, WHEEL);
      return GDK_EVENT_STOP;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      hw_artwork_view_zoom_by (view, 1 / WHEEL);
      return GDK_EVENT_STOP;
    case GDK_KEY_0:
    case GDK_KEY_KP_0:
      fit (view);
      return GDK_EVENT_STOP;
    default:
      return GDK_EVENT_PROPAGATE;
    }
}

static void
hw_artwork_view_finalize (GObject *object)
{
  g_clear_pointer (&HW_ARTWORK_VIEW (object)->levels, hw_photo_levels_unref);
  G_OBJECT_CLASS (hw_artwork_view_parent_class)->finalize (object);
}

static void
hw_artwork_view_class_init (HwArtworkViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hw_artwork_view_finalize;
  widget_class->snapshot = hw_artwork_view_snapshot;
  widget_class->size_allocate = hw_artwork_view_size_allocate;
  widget_class->measure = hw_artwork_view_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_artwork_view_init (HwArtworkView *view)
{
  GtkWidget *widget = GTK_WIDGET (view);
  GtkGesture *drag = gtk_gesture_drag_new (), *click = gtk_gesture_click_new (),
             *pinch = gtk_gesture_zoom_new ();
  GtkEventController *motion = gtk_event_controller_motion_new (), *keys = gtk_event_controller_key_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);

  view->box = view->shown = HW_BOX_EMPTY;
  view->view.zoom = 1;
  view->fitted = TRUE;
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), GDK_BUTTON_SECONDARY);
  g_signal_connect (click, "pressed", G_CALLBACK (menu_cb), view);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), view);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), view);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), view);
  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_begin_cb), view);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinch_cb), view);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), view);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), view);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), view);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, keys);
}

GtkWidget *
hw_artwork_view_new (const char *label, const HwArtworkHands *hands, gpointer data)
{
  HwArtworkView *view = g_object_new (HW_TYPE_ARTWORK_VIEW, NULL);

  g_return_val_if_fail (hands != NULL, GTK_WIDGET (view));
  view->hands = hands;
  view->data = data;
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return GTK_WIDGET (view);
}

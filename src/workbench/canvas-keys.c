/* The canvas from the keyboard: arrows nudge, Tab goes through the motifs in stitch order (and on to the next part of the window after
 * the last), Space with the pointer pans, plus and minus zoom, L held lays a lens at
 * the pointer, the menu key opens the menu at the selection. */

#include "canvas-private.h"

#define NUDGE 0.5     /* mm */
#define FAR_NUDGE 5.0 /* mm */
#define ZOOM_STEP 1.25

static gboolean
nudge (HwCanvas *canvas, guint keyval, GdkModifierType modifiers)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (canvas->bench);
  double step = modifiers & GDK_SHIFT_MASK ? FAR_NUDGE : NUDGE;
  double dx = 0, dy = 0;

  if (selection->len == 0)
    return GDK_EVENT_PROPAGATE;
  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      dx = -step;
      break;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      dx = step;
      break;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      dy = -step;
      break;
    default:
      dy = step;
    }
  hw_bench_nudge (canvas->bench, dx, dy);
  return GDK_EVENT_STOP;
}

/* The motif after (step 1) or before (-1) the one selected; past either end the focus goes on. */
static gboolean
go_through (HwCanvas *canvas, int step)
{
  int n = (int)canvas->cast->len;
  int at = step > 0 ? -1 : n;
  HwBox box;

  for (int i = 0; i < n; i++)
    if (hw_canvas_is_selected (canvas, (guint)i))
      {
        at = i;
        if (step < 0)
          break;
      }
  at += step;
  if (at < 0 || at >= n)
    return GDK_EVENT_PROPAGATE;
  hw_bench_select_only (canvas->bench, hw_canvas_record (canvas, (guint)at)->id);
  box = hw_canvas_selection_box (canvas);
  hw_canvas_show (canvas, (HwPoint){ (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 });
  return GDK_EVENT_STOP;
}

static gboolean
hold_space (HwCanvas *canvas, gboolean held)
{
  canvas->space_held = held;
  hw_canvas_update_cursor (canvas);
  return GDK_EVENT_STOP;
}

static gboolean
escape (HwCanvas *canvas)
{
  if (canvas->drag.pull != HW_PULL_NONE)
    hw_drag_cancel (canvas);
  else if (hw_bench_get_n_selected (canvas->bench) > 0)
    hw_bench_select_only (canvas->bench, NULL);
  else
    return GDK_EVENT_PROPAGATE; /* the window has a step back of its own */
  return GDK_EVENT_STOP;
}

static gboolean
zoom (HwCanvas *canvas, double factor)
{
  hw_canvas_zoom_by (canvas, factor);
  return GDK_EVENT_STOP;
}

static gboolean
plain_key (HwCanvas *canvas, guint keyval)
{
  switch (keyval)
    {
    case GDK_KEY_Escape:
      return escape (canvas);
    case GDK_KEY_space:
      return hold_space (canvas, TRUE);
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
      return zoom (canvas, ZOOM_STEP);
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      return zoom (canvas, 1 / ZOOM_STEP);
    case GDK_KEY_0:
    case GDK_KEY_KP_0:
      hw_canvas_zoom_fit (canvas);
      return GDK_EVENT_STOP;
    case GDK_KEY_1:
    case GDK_KEY_KP_1:
      hw_canvas_zoom_true_size (canvas);
      return GDK_EVENT_STOP;
    case GDK_KEY_l:
    case GDK_KEY_L:
      hw_canvas_hold_lens (canvas, TRUE);
      return GDK_EVENT_STOP;
    case GDK_KEY_Menu:
      hw_canvas_popup (canvas, NULL);
      return GDK_EVENT_STOP;
    default:
      return GDK_EVENT_PROPAGATE;
    }
}

static gboolean
key_pressed_cb (
    GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType modifiers, HwCanvas *canvas)
{
  if (canvas->bench == NULL || modifiers & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK))
    return GDK_EVENT_PROPAGATE;
  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_Right:
    case GDK_KEY_Up:
    case GDK_KEY_Down:
    case GDK_KEY_KP_Left:
    case GDK_KEY_KP_Right:
    case GDK_KEY_KP_Up:
    case GDK_KEY_KP_Down:
      /* The hand that drags is not helped along by the keyboard. */
      return hw_canvas_is_dragging (canvas) ? GDK_EVENT_STOP : nudge (canvas, keyval, modifiers);
    case GDK_KEY_Tab:
    case GDK_KEY_KP_Tab:
      return go_through (canvas, modifiers & GDK_SHIFT_MASK ? -1 : 1);
    case GDK_KEY_ISO_Left_Tab:
      return go_through (canvas, -1);
    case GDK_KEY_F10:
      if (!(modifiers & GDK_SHIFT_MASK))
        return GDK_EVENT_PROPAGATE;
      hw_canvas_popup (canvas, NULL);
      return GDK_EVENT_STOP;
    case GDK_KEY_Delete:
    case GDK_KEY_BackSpace:
      return gtk_widget_activate_action (GTK_WIDGET (canvas), "win.delete", NULL);
    default:
      return plain_key (canvas, keyval);
    }
}

static void
key_released_cb (
    GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType modifiers, HwCanvas *canvas)
{
  if (keyval == GDK_KEY_space)
    hold_space (canvas, FALSE);
  else if (keyval == GDK_KEY_l || keyval == GDK_KEY_L)
    hw_canvas_hold_lens (canvas, FALSE);
}

/* Shift and Ctrl count during a drag even when the pointer rests. */
static gboolean
modifiers_cb (GtkEventControllerKey *keys, GdkModifierType modifiers, HwCanvas *canvas)
{
  canvas->alt_held = (modifiers & GDK_ALT_MASK) != 0;
  if (canvas->drag.pull == HW_PULL_NONE)
    hw_canvas_update_cursor (canvas);
  if (hw_canvas_is_dragging (canvas) || canvas->drag.pull == HW_PULL_MARK)
    hw_drag_motion (canvas, canvas->drag.to, modifiers);
  return FALSE;
}

static void
focus_left_cb (GtkEventControllerFocus *focus, HwCanvas *canvas)
{
  canvas->space_held = canvas->alt_held = FALSE;
  hw_canvas_hold_lens (canvas, FALSE);
}

void
hw_canvas_add_keys (HwCanvas *canvas)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed_cb), canvas);
  g_signal_connect (keys, "key-released", G_CALLBACK (key_released_cb), canvas);
  g_signal_connect (keys, "modifiers", G_CALLBACK (modifiers_cb), canvas);
  gtk_widget_add_controller (GTK_WIDGET (canvas), keys);
  g_signal_connect (focus, "leave", G_CALLBACK (focus_left_cb), canvas);
  gtk_widget_add_controller (GTK_WIDGET (canvas), focus);
}

/* The window and its hints: which one is due, and where on the window it points. A window of a program started plainly shows
 * them; one that was opened on a file by name only when they were asked for. One is shown at a time. */
#include "window.h"

#include <glib/gi18n.h>

#include "hint-slip.h"
#include "hints.h"
#include "window-private.h"

#define REST 20      /* s without a hint before one that can wait */
#define AIR 10       /* px kept to the sides of the window */
#define HANDLES 52   /* px around a motif where its handles are */
#define FOOT_STEP 82 /* px of the foot of the view at the machine */

typedef struct _HwWindowHints HwWindowHints;

struct _HwWindowHints
{
  HwWindow *window;
  GtkWidget *overlay, *slip;
  int shown; /* HwHintKind, or -1 */
  gboolean wanted;
  gint64 last; /* when one was put away, µs; 0: none was yet */
};

static guint
n_motifs (HwWindow *window)
{
  return g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (window->bench)));
}

static gboolean
at_table (HwWindow *window)
{
  return !hw_window_is_at_machine (window) && !hw_window_is_at_start (window);
}

static void
hide (HwWindowHints *hints)
{
  hints->shown = -1;
  gtk_widget_set_visible (hints->slip, FALSE);
}

static void
show (HwWindowHints *hints, HwHintKind kind)
{
  hints->shown = (int)kind;
  hw_hint_slip_say (HW_HINT_SLIP (hints->slip), hw_hint_text (kind));
  gtk_widget_queue_resize (hints->slip);
}

/* Whether the person had time for the work itself since the last hint. */
static gboolean
has_rested (HwWindowHints *hints)
{
  return hints->last == 0 || g_get_monotonic_time () - hints->last > REST * G_USEC_PER_SEC;
}

static gboolean
is_due (HwWindowHints *hints, HwHintKind kind)
{
  HwWindow *window = hints->window;
  const HwPlan *plan = hw_bench_get_plan (window->bench);

  switch (kind)
    {
    case HW_HINT_MOTIF:
      return at_table (window) && hw_bench_get_n_selected (window->bench) == 1;
    case HW_HINT_PLAN:
      return at_table (window) && plan != NULL && plan->n_hoopings > 0 && n_motifs (window) > 0;
    case HW_HINT_ORDER:
      return has_rested (hints) && at_table (window) && hw_bench_get_n_selected (window->bench) == 1
             && n_motifs (window) > 1;
    case HW_HINT_PRINT:
      return has_rested (hints) && at_table (window) && plan != NULL && plan->n_hoopings > 0
             && n_motifs (window) > 0;
    case HW_HINT_MACHINE:
      return hw_window_is_at_machine (window);
    default:
      return FALSE;
    }
}

/* The first hint that is due, if none is shown. */
static void
consider (HwWindowHints *hints)
{
  if (!hints->wanted || hints->shown >= 0 || hw_bench_is_editing (hints->window->bench))
    return;
  for (HwHintKind kind = 0; kind < HW_N_HINTS; kind++)
    if (is_due (hints, kind) && hw_hint_is_wanted (kind))
      {
        show (hints, kind);
        return;
      }
}

static void
put_away (HwWindowHints *hints)
{
  if (hints->shown >= 0)
    hw_hint_put_away ((HwHintKind)hints->shown);
  hints->last = g_get_monotonic_time ();
  hide (hints);
}

static void
put_away_cb (HwHintSlip *slip, gboolean all, HwWindowHints *hints)
{
  put_away (hints);
  if (all)
    hw_hints_stop ();
  if (at_table (hints->window))
    gtk_widget_grab_focus (GTK_WIDGET (hints->window->canvas));
}

/* Done is as good as read. */
static void
scene_changed_cb (HwBench *bench, guint flags, HwWindowHints *hints)
{
  if ((hints->shown == HW_HINT_MOTIF && flags & HW_SCENE_CHANGE_PLACEMENT)
      || (hints->shown == HW_HINT_ORDER && flags & HW_SCENE_CHANGE_ORDER))
    put_away (hints);
  else if (hints->shown >= 0 && n_motifs (hints->window) == 0)
    hide (hints);
}

static void
plan_changed_cb (HwBench *bench, HwWindowHints *hints)
{
  consider (hints);
}

/* An edit has ended: what fell due during it is shown now. */
static void
history_cb (HwBench *bench, GParamSpec *pspec, HwWindowHints *hints)
{
  consider (hints);
}

/* A hint about a motif goes with the motif's being chosen, and comes back with it. */
static void
selection_changed_cb (HwBench *bench, HwWindowHints *hints)
{
  if (hints->shown == HW_HINT_MOTIF || hints->shown == HW_HINT_ORDER)
    {
      if (hw_bench_get_n_selected (bench) != 1)
        hide (hints);
      else
        gtk_widget_queue_resize (hints->slip);
    }
  else
    consider (hints);
}

static void
room_cb (GObject *object, GParamSpec *pspec, HwWindowHints *hints)
{
  hide (hints);
  consider (hints);
}

static GdkRectangle
bounds_of (GtkWidget *widget, GtkWidget *in)
{
  graphene_rect_t bounds;

  if (!gtk_widget_compute_bounds (widget, in, &bounds))
    return (GdkRectangle){ 0 };
  return (GdkRectangle){ (int)bounds.origin.x, (int)bounds.origin.y, (int)bounds.size.width,
                         (int)bounds.size.height };
}

/* The chosen motif with its handles, in the overlay's pixels. */
static GdkRectangle
motif_place (HwWindow *window, GtkWidget *in)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (window->bench);
  GdkRectangle canvas = bounds_of (GTK_WIDGET (window->canvas), in);
  double x0, y0, x1, y1;

  if (selection->len == 0)
    return canvas;
  const HwMotif *motif = hw_scene_motif_get_record (g_ptr_array_index (selection, 0));
  g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);
  hw_canvas_to_pixels (window->canvas, (HwPoint){ placed->box.x0, placed->box.y0 }, &x0, &y0);
  hw_canvas_to_pixels (window->canvas, (HwPoint){ placed->box.x1, placed->box.y1 }, &x1, &y1);
  return (GdkRectangle){ canvas.x + (int)x0 - HANDLES, canvas.y + (int)y0 - HANDLES,
                         (int)(x1 - x0) + 2 * HANDLES, (int)(y1 - y0) + 2 * HANDLES };
}

static gboolean
place_cb (GtkOverlay *overlay, GtkWidget *child, GdkRectangle *place, HwWindowHints *hints)
{
  HwWindow *window = hints->window;
  GtkWidget *in = GTK_WIDGET (overlay);
  GdkRectangle room = { AIR, 0, gtk_widget_get_width (in) - 2 * AIR, gtk_widget_get_height (in) };
  GdkRectangle target;
  gboolean beside = FALSE;

  if (child != hints->slip)
    return FALSE;
  switch (hints->shown)
    {
    case HW_HINT_PLAN:
      target = bounds_of (GTK_WIDGET (window->foot), in);
      target.width = MIN (target.width, 440);
      target.x += AIR;
      break;
    case HW_HINT_PRINT:
      target = bounds_of (window->print_button, in);
      target.y = -target.height;
      break;
    case HW_HINT_MACHINE:
      target = bounds_of (window->machine_view, in);
      target = (GdkRectangle){ target.x + target.width * 3 / 4, target.y + target.height - FOOT_STEP,
                               target.width / 4, FOOT_STEP };
      break;
    default:
      target = motif_place (window, in);
      beside = TRUE;
      room = bounds_of (GTK_WIDGET (window->canvas), in);
      room.x += AIR;
      room.width -= 2 * AIR;
      break;
    }
  hw_hint_slip_place (HW_HINT_SLIP (hints->slip), &target, &room, beside, place);
  return TRUE;
}

void
hw_window_want_hints (HwWindow *window)
{
  g_return_if_fail (HW_IS_WINDOW (window));

  window->hints->wanted = TRUE;
  consider (window->hints);
}

static void
again_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;

  hw_hints_bring_back ();
  hide (window->hints);
  window->hints->last = 0;
  hw_window_want_hints (window);
}

void
hw_window_end_hints (HwWindow *window)
{
  HwWindowHints *hints = g_steal_pointer (&window->hints);

  if (hints == NULL)
    return;
  g_signal_handlers_disconnect_by_data (window->bench, hints);
  g_signal_handlers_disconnect_by_data (window->rooms, hints);
  g_signal_handlers_disconnect_by_data (hints->overlay, hints);
  g_signal_handlers_disconnect_by_data (hints->slip, hints);
  g_free (hints);
}

void
hw_window_add_hints (HwWindow *window)
{
  static const GActionEntry entries[] = { { "hints-again", again_cb } };
  GtkWidget *rooms = GTK_WIDGET (window->rooms), *overlay = gtk_overlay_new ();
  HwWindowHints *hints = g_new0 (HwWindowHints, 1);

  window->hints = hints;
  hints->window = window;
  hints->shown = -1;
  hints->slip = hw_hint_slip_new ();
  hints->overlay = overlay;
  g_object_ref (rooms);
  gtk_box_remove (window->bars, rooms);
  gtk_overlay_set_child (GTK_OVERLAY (overlay), rooms);
  gtk_box_append (window->bars, overlay);
  g_object_unref (rooms);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), hints->slip);
  g_signal_connect (overlay, "get-child-position", G_CALLBACK (place_cb), hints);
  g_signal_connect (hints->slip, "put-away", G_CALLBACK (put_away_cb), hints);
  g_signal_connect (rooms, "notify::visible-child", G_CALLBACK (room_cb), hints);
  g_signal_connect (window->bench, "scene-changed", G_CALLBACK (scene_changed_cb), hints);
  g_signal_connect (window->bench, "notify::undo-name", G_CALLBACK (history_cb), hints);
  g_signal_connect (window->bench, "plan-changed", G_CALLBACK (plan_changed_cb), hints);
  g_signal_connect (window->bench, "selection-changed", G_CALLBACK (selection_changed_cb), hints);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
}

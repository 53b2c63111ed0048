/* The pointer at work: from the press through the drag to the release. A press decides what is meant, marks and handles before discs, discs
 * before motifs, motifs before ghosts, and bare cloth last; a few pixels of motion decide whether it is a click or a pull. Pulling
 * changes the scene live, within one edit of the bench, so that the plan follows the hand; Escape gives everything back. */

#include <glib/gi18n.h>
#include <math.h>

#include "canvas-hits.h"
#include "canvas-private.h"

#define DRAG_FROM 4.0  /* px */
#define REST_REACH 5.0 /* px within which a moved motif comes to rest */
#define HIT_REACH 5.0  /* px by which a thin motif may be missed */
#define LEAST_SCALE 0.05
#define MOST_SCALE 20.0

GArray *
hw_canvas_stack_at (HwCanvas *canvas, HwPoint pixel)
{
  guint n = canvas->cast->len;
  g_autofree const HwOutline **placed = g_new0 (const HwOutline *, n + 1);

  for (guint i = 0; i < n; i++)
    placed[i] = hw_scene_motif_get_placed (hw_canvas_motif (canvas, i));
  return hw_hits_at (placed, n, hw_view_to_cloth (&canvas->view, pixel), HIT_REACH / canvas->view.zoom);
}

/* A handle next to a disc leaves the disc what lies nearer to it. */
HwHandle
hw_canvas_handle_under (HwCanvas *canvas, HwPoint pixel)
{
  HwHandles handles;
  HwHandle handle;
  int disc;

  if (!hw_canvas_handles (canvas, &handles))
    return HW_HANDLE_NONE;
  handle = hw_handles_hit (&handles, pixel);
  disc = hw_canvas_disc_under (canvas, pixel);
  if (handle == HW_HANDLE_NONE || disc < 0)
    return handle;
  return hw_point_distance (handles.at[handle], pixel)
                 <= hw_point_distance (hw_canvas_disc_at (canvas, (guint)disc), pixel)
             ? handle
             : HW_HANDLE_NONE;
}

int
hw_canvas_ghost_under (HwCanvas *canvas, HwPoint pixel, gboolean labels_only)
{
  g_autoptr (GArray) avoid = NULL;

  if (canvas->ghosts == NULL || canvas->ghosts->len == 0)
    return -1;
  avoid = hw_canvas_avoid (canvas);
  return hw_ghosts_hit (canvas->ghosts, &canvas->view, hw_canvas_area (canvas), avoid, pixel, labels_only);
}

static int
first_selected (HwCanvas *canvas, const GArray *stack)
{
  for (guint i = 0; i < stack->len; i++)
    if (hw_canvas_is_selected (canvas, g_array_index (stack, guint, i)))
      return (int)g_array_index (stack, guint, i);
  return -1;
}

static gboolean
is_sole_selection (HwCanvas *canvas, guint index)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (canvas->bench);

  return selection->len == 1 && g_ptr_array_index (selection, 0) == hw_canvas_motif (canvas, index);
}

static void
press_motif (HwCanvas *canvas, const GArray *stack)
{
  HwDrag *drag = &canvas->drag;
  int top = (int)g_array_index (stack, guint, 0);
  int held = first_selected (canvas, stack);

  drag->press = HW_PRESS_MOTIF;
  drag->target = held >= 0 ? held : top;
  drag->was_sole = held >= 0 && is_sole_selection (canvas, (guint)held);
  /* An unselected motif is taken at once, so that one pull is enough to move it. */
  if (held < 0 && !drag->toggles && !drag->below)
    hw_bench_select_only (canvas->bench, hw_canvas_record (canvas, (guint)top)->id);
}

void
hw_drag_press (HwCanvas *canvas, HwPoint pixel, GdkModifierType modifiers, gboolean pan)
{
  HwDrag *drag = &canvas->drag;
  g_autoptr (GArray) stack = hw_canvas_stack_at (canvas, pixel);

  *drag = (HwDrag){ .pull = HW_PULL_UNDECIDED,
                    .press = HW_PRESS_CLOTH,
                    .from = pixel,
                    .to = pixel,
                    .hold = hw_view_to_cloth (&canvas->view, pixel),
                    .target = -1,
                    .view = canvas->view,
                    .time = g_get_monotonic_time () };
  drag->handle = HW_HANDLE_NONE;
  drag->toggles = (modifiers & (GDK_SHIFT_MASK | GDK_CONTROL_MASK)) != 0;
  drag->below = (modifiers & GDK_ALT_MASK) != 0;

  if (pan)
    {
      drag->press = HW_PRESS_PAN;
      drag->pull = HW_PULL_PAN;
    }
  else if ((drag->target = hw_canvas_mark_under (canvas, pixel)) >= 0)
    drag->press = HW_PRESS_MARK;
  else if ((drag->handle = hw_canvas_handle_under (canvas, pixel)) != HW_HANDLE_NONE)
    drag->press = HW_PRESS_HANDLE;
  else if ((drag->target = hw_canvas_ghost_under (canvas, pixel, stack->len > 0)) >= 0)
    drag->press = HW_PRESS_GHOST;
  else if ((drag->target = hw_canvas_disc_under (canvas, pixel)) >= 0)
    drag->press = HW_PRESS_DISC;
  else if (stack->len > 0)
    press_motif (canvas, stack);
}

/* Escape ends the drag, not what the window else would step back from: during a drag it is listened for first. */
static gboolean
escape_cb (GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType modifiers, HwCanvas *canvas)
{
  if (keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  hw_drag_cancel (canvas);
  return GDK_EVENT_STOP;
}

static void
listen_for_escape (HwCanvas *canvas)
{
  GtkWidget *root = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (canvas)));
  GtkEventController *keys;

  if (root == NULL)
    return;
  keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (escape_cb), canvas);
  gtk_widget_add_controller (root, keys);
  canvas->drag.escape = keys;
}

static void
end_drag (HwCanvas *canvas)
{
  HwDrag *drag = &canvas->drag;

  hw_creep_end (canvas);
  if (drag->escape != NULL)
    gtk_widget_remove_controller (gtk_event_controller_get_widget (drag->escape), drag->escape);
  g_clear_pointer (&drag->motifs, g_ptr_array_unref);
  g_clear_pointer (&drag->starts, g_free);
  g_clear_pointer (&drag->rests, hw_snap_field_free);
  drag->n_guides = 0;
  g_clear_pointer (&drag->band_before, g_strfreev);
  g_clear_pointer (&drag->mark_motif, g_free);
  drag->escape = NULL;
  drag->pull = HW_PULL_NONE;
  drag->fine = FALSE;
  drag->handle = HW_HANDLE_NONE;
  hw_canvas_refresh_rules (canvas);
  hw_canvas_refresh_ghosts (canvas);
  hw_canvas_spoil (canvas, HW_ALL_LAYERS & ~(HW_BIT (HW_LAYER_RULERS) | HW_BIT (HW_LAYER_HOOPINGS)));
  hw_canvas_hover (canvas);
}

/* Takes the selected motifs that are not held in place into the hand. FALSE when none is. */
static gboolean
take_motifs (HwCanvas *canvas, HwPull pull, const char *verb)
{
  HwDrag *drag = &canvas->drag;
  g_autofree char *name = hw_bench_edit_name (canvas->bench, verb);
  gboolean fixed;

  if (!hw_canvas_selection_frame (canvas, &drag->frame, &fixed) || fixed)
    return FALSE;
  drag->motifs = g_ptr_array_new_with_free_func (g_object_unref);
  for (guint i = 0; i < canvas->cast->len; i++)
    if (hw_canvas_is_selected (canvas, i) && !hw_canvas_record (canvas, i)->locked)
      g_ptr_array_add (drag->motifs, g_object_ref (hw_canvas_motif (canvas, i)));
  drag->starts = g_new (HwPlacement, drag->motifs->len);
  for (guint i = 0; i < drag->motifs->len; i++)
    drag->starts[i] = hw_scene_motif_get_record (g_ptr_array_index (drag->motifs, i))->placement;
  drag->pull = pull;
  drag->box = HW_BOX_EMPTY;
  for (guint i = 0; i < drag->motifs->len; i++)
    drag->box
        = hw_box_union (drag->box, hw_scene_motif_get_placed (g_ptr_array_index (drag->motifs, i))->box);
  if (pull == HW_PULL_MOVE && !canvas->drags_freely)
    drag->rests = hw_guides_field_new (canvas->bench, drag->motifs);
  hw_creep_begin (canvas);
  hw_bench_begin_edit (canvas->bench, name, FALSE);
  listen_for_escape (canvas);
  canvas->hover_motif = -1;
  hw_canvas_refresh_ghosts (canvas);
  hw_canvas_lift (canvas);
  return TRUE;
}

static void
begin_band (HwCanvas *canvas)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (canvas->bench);
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  canvas->drag.pull = HW_PULL_BAND;
  hw_creep_begin (canvas);
  for (guint i = 0; canvas->drag.toggles && i < selection->len; i++)
    g_ptr_array_add (ids, g_strdup (hw_scene_motif_get_record (g_ptr_array_index (selection, i))->id));
  g_ptr_array_add (ids, NULL);
  canvas->drag.band_before = (char **)g_ptr_array_free (g_steal_pointer (&ids), FALSE);
  listen_for_escape (canvas);
}

/* The press has become a pull: what kind is it? */
static void
begin_pull (HwCanvas *canvas)
{
  HwDrag *drag = &canvas->drag;

  switch (drag->press)
    {
    case HW_PRESS_HANDLE:
      if (drag->handle == HW_HANDLE_TURN)
        take_motifs (canvas, HW_PULL_TURN, _ ("turn"));
      else
        take_motifs (canvas, HW_PULL_RESIZE, _ ("resize"));
      break;
    case HW_PRESS_MOTIF:
      if (!hw_canvas_is_selected (canvas, (guint)drag->target))
        {
          if (drag->toggles)
            hw_bench_select_toggle (canvas->bench, hw_canvas_record (canvas, (guint)drag->target)->id);
          else
            hw_bench_select_only (canvas->bench, hw_canvas_record (canvas, (guint)drag->target)->id);
        }
      take_motifs (canvas, HW_PULL_MOVE, _ ("move"));
      break;
    case HW_PRESS_MARK:
      if (hw_marks_can_be_pulled (canvas))
        {
          hw_marks_begin_pull (canvas);
          listen_for_escape (canvas);
        }
      break;
    case HW_PRESS_CLOTH:
      begin_band (canvas);
      break;
    default:
      break;
    }
}

static void
place_all (HwCanvas *canvas, const HwPlacement *placements)
{
  HwScene *scene = hw_bench_get_scene (canvas->bench);

  hw_scene_hold (scene);
  for (guint i = 0; i < canvas->drag.motifs->len; i++)
    hw_scene_motif_set_placement (g_ptr_array_index (canvas->drag.motifs, i), &placements[i]);
  hw_scene_release (scene);
}

static double
tenth (double mm)
{
  return round (mm * 10) / 10;
}

/* Draws the shift to where something is near to rest at, on the axes that move, and notes the rules that show it. */
static HwPoint
come_to_rest (HwCanvas *canvas, HwPoint shift, gboolean across, gboolean down)
{
  HwDrag *drag = &canvas->drag;
  HwBox box
      = { drag->box.x0 + shift.x, drag->box.y0 + shift.y, drag->box.x1 + shift.x, drag->box.y1 + shift.y };
  HwPoint by = hw_snap_shift (drag->rests, box, REST_REACH / canvas->view.zoom, across, down);

  box = (HwBox){ box.x0 + by.x, box.y0 + by.y, box.x1 + by.x, box.y1 + by.y };
  drag->n_guides = hw_snap_guides (drag->rests, box, across, down, drag->guides);
  return by;
}

/* The first motif comes to lie on tenths of a millimetre where it rests at nothing, the others keep their distance from it. */
static void
pull_move (HwCanvas *canvas, HwPlacement *placements, gboolean one_axis, gboolean freely)
{
  const HwDrag *drag = &canvas->drag;
  HwPoint start = drag->starts[0].position;
  HwPoint to = hw_view_to_cloth (&canvas->view, drag->to);
  double dx = to.x - drag->hold.x, dy = to.y - drag->hold.y;
  HwPoint rest = { 0, 0 };

  if (one_axis && fabs (dx) >= fabs (dy))
    dy = 0;
  else if (one_axis)
    dx = 0;
  canvas->drag.n_guides = 0;
  if (drag->rests != NULL && !freely)
    rest = come_to_rest (canvas, (HwPoint){ dx, dy }, !one_axis || dx != 0, !one_axis || dy != 0);
  if (rest.x != 0)
    dx += rest.x;
  else if (dx != 0)
    dx = tenth (start.x + dx) - start.x;
  if (rest.y != 0)
    dy += rest.y;
  else if (dy != 0)
    dy = tenth (start.y + dy) - start.y;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_GUIDES));
  for (guint i = 0; i < drag->motifs->len; i++)
    {
      placements[i] = drag->starts[i];
      placements[i].position.x += dx;
      placements[i].position.y += dy;
    }
}

static void
pull_turn (HwCanvas *canvas, HwPlacement *placements, gboolean steps)
{
  const HwDrag *drag = &canvas->drag;
  HwPoint pivot = drag->motifs->len == 1 ? drag->starts[0].position : drag->frame.centre;
  double turn = hw_handle_turn (pivot, drag->hold, hw_view_to_cloth (&canvas->view, drag->to));
  double settled = hw_handle_settle_angle (drag->starts[0].angle + turn, steps);

  turn = settled - drag->starts[0].angle;
  for (guint i = 0; i < drag->motifs->len; i++)
    placements[i] = hw_placement_about (&drag->starts[i], pivot, turn, 1);
  placements[0].angle = settled;
}

/* The factor that keeps every motif within sensible sizes, the first on tenths of a percent. */
static double
settled_factor (const HwDrag *drag, double factor)
{
  double scale = round (drag->starts[0].scale * factor * 1000) / 1000;

  factor = scale / drag->starts[0].scale;
  for (guint i = 0; i < drag->motifs->len; i++)
    factor = CLAMP (factor, LEAST_SCALE / drag->starts[i].scale, MOST_SCALE / drag->starts[i].scale);
  return factor;
}

static void
pull_resize (HwCanvas *canvas, HwPlacement *placements, gboolean about_centre)
{
  const HwDrag *drag = &canvas->drag;
  HwPoint corner = hw_handle_frame_corner (&drag->frame, drag->handle);
  HwPoint pivot = about_centre ? drag->frame.centre
                               : hw_handle_frame_corner (&drag->frame, hw_handle_opposite (drag->handle));
  HwPoint at = hw_view_to_cloth (&canvas->view, drag->to);
  HwPoint to = { corner.x + at.x - drag->hold.x, corner.y + at.y - drag->hold.y };
  double factor = settled_factor (drag, hw_handle_pull (pivot, corner, to));

  for (guint i = 0; i < drag->motifs->len; i++)
    placements[i] = hw_placement_about (&drag->starts[i], pivot, 0, factor);
}

static void
pull_band (HwCanvas *canvas)
{
  HwDrag *drag = &canvas->drag;
  HwPoint a = drag->hold, b = hw_view_to_cloth (&canvas->view, drag->to);
  HwBox band = { a.x, a.y, b.x, b.y };
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  for (guint i = 0; i < canvas->cast->len; i++)
    {
      const char *id = hw_canvas_record (canvas, i)->id;
      if (g_strv_contains ((const char *const *)drag->band_before, id)
          || hw_hits_band (hw_scene_motif_get_placed (hw_canvas_motif (canvas, i)), band))
        g_ptr_array_add (ids, (gpointer)id);
    }
  g_ptr_array_add (ids, NULL);
  hw_bench_select_ids (canvas->bench, (const char *const *)ids->pdata);
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_SELECTION));
}

static void
pull_pan (HwCanvas *canvas)
{
  const HwDrag *drag = &canvas->drag;
  HwView view = drag->view;

  view.zoom = canvas->view.zoom;
  view.x += drag->to.x - drag->from.x;
  view.y += drag->to.y - drag->from.y;
  canvas->fitted = FALSE;
  hw_canvas_set_view (canvas, &view);
}

void
hw_drag_motion (HwCanvas *canvas, HwPoint pixel, GdkModifierType modifiers)
{
  HwDrag *drag = &canvas->drag;
  gboolean shift = (modifiers & GDK_SHIFT_MASK) != 0;

  if (drag->pull == HW_PULL_NONE)
    return;
  drag->to = pixel;
  drag->modifiers = modifiers;
  if (drag->pull == HW_PULL_UNDECIDED && hw_point_distance (drag->from, pixel) >= DRAG_FROM)
    begin_pull (canvas);
  if (drag->pull == HW_PULL_BAND)
    pull_band (canvas);
  else if (drag->pull == HW_PULL_MARK)
    hw_marks_pull (canvas);
  else if (drag->pull == HW_PULL_PAN)
    pull_pan (canvas);
  else if (hw_canvas_is_dragging (canvas))
    {
      g_autofree HwPlacement *placements = g_new (HwPlacement, drag->motifs->len);

      if (drag->pull == HW_PULL_MOVE)
        pull_move (canvas, placements, shift, (modifiers & GDK_CONTROL_MASK) != 0);
      else if (drag->pull == HW_PULL_TURN)
        pull_turn (canvas, placements, shift);
      else
        pull_resize (canvas, placements, (modifiers & GDK_CONTROL_MASK) != 0);
      place_all (canvas, placements);
      hw_canvas_lift_no_more (canvas);
    }
  if (hw_canvas_is_dragging (canvas) || drag->pull == HW_PULL_MARK)
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_FIGURES) | HW_BIT (HW_LAYER_LENS));
  hw_canvas_update_cursor (canvas);
}

static gboolean
is_double_click (HwCanvas *canvas)
{
  int most = 400;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (canvas)), "gtk-double-click-time", &most, NULL);
  return canvas->drag.time - canvas->last_click < most * G_GINT64_CONSTANT (1000);
}

/* A click on a motif: with Shift or Ctrl it joins or leaves the selection; again on the same one, or with Alt, the one below it
 * is taken. The second half of a double click means nothing of its own. */
static void
click_motif (HwCanvas *canvas)
{
  const HwDrag *drag = &canvas->drag;
  g_autoptr (GArray) stack = hw_canvas_stack_at (canvas, drag->from);
  int top = stack->len > 0 ? (int)g_array_index (stack, guint, 0) : -1;
  int take = top;

  if (top < 0)
    return;
  if (drag->below || (drag->was_sole && !drag->toggles && !is_double_click (canvas)))
    take = hw_hits_next (stack, first_selected (canvas, stack));
  else if (drag->was_sole && !drag->toggles)
    return;
  if (drag->toggles)
    hw_bench_select_toggle (canvas->bench, hw_canvas_record (canvas, (guint)take)->id);
  else
    hw_bench_select_only (canvas->bench, hw_canvas_record (canvas, (guint)take)->id);
}

static void
click_ghost (HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  const HwGhost *ghost;
  int hooping = -1;

  if (canvas->ghosts == NULL || canvas->drag.target >= (int)canvas->ghosts->len || plan == NULL)
    return;
  ghost = &g_array_index (canvas->ghosts, HwGhost, canvas->drag.target);
  hooping = ghost->hooping;
  if (hooping < 0 || hooping >= (int)plan->n_hoopings)
    return;
  hw_bench_take_candidate (canvas->bench, plan->hoopings[hooping].motifs, plan->hoopings[hooping].n_motifs,
                           ghost->candidate.hoop, ghost->candidate.pose.centre, ghost->candidate.pose.angle);
}

static void
click (HwCanvas *canvas)
{
  const HwDrag *drag = &canvas->drag;

  switch (drag->press)
    {
    case HW_PRESS_MOTIF:
      click_motif (canvas);
      break;
    case HW_PRESS_GHOST:
      click_ghost (canvas);
      break;
    case HW_PRESS_DISC:
      hw_bench_choose_hooping (
          canvas->bench, drag->target == hw_bench_get_chosen_hooping (canvas->bench) ? -1 : drag->target);
      break;
    case HW_PRESS_CLOTH:
      if (drag->toggles)
        break;
      hw_bench_select_only (canvas->bench, NULL);
      hw_bench_choose_hooping (canvas->bench, -1);
      break;
    default:
      break;
    }
  canvas->last_click = drag->time;
}

void
hw_drag_release (HwCanvas *canvas)
{
  if (canvas->drag.pull == HW_PULL_NONE)
    return;
  if (canvas->drag.pull == HW_PULL_UNDECIDED)
    click (canvas);
  else if (hw_canvas_is_dragging (canvas) || canvas->drag.pull == HW_PULL_MARK)
    {
      /* The hand is empty before the edit ends, so that what the end brings about is drawn as lying still. */
      canvas->drag.pull = HW_PULL_NONE;
      hw_bench_end_edit (canvas->bench);
    }
  end_drag (canvas);
}

void
hw_drag_cancel (HwCanvas *canvas)
{
  gboolean edits = hw_canvas_is_dragging (canvas) || canvas->drag.pull == HW_PULL_MARK;
  HwPull pull = canvas->drag.pull;

  if (pull == HW_PULL_NONE)
    return;
  canvas->drag.pull = HW_PULL_NONE;
  if (edits)
    hw_bench_cancel_edit (canvas->bench);
  else if (pull == HW_PULL_BAND)
    hw_bench_select_ids (canvas->bench, (const char *const *)canvas->drag.band_before);
  else if (pull == HW_PULL_PAN)
    hw_canvas_set_view (canvas, &canvas->drag.view);
  end_drag (canvas);
}

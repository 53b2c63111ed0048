/* Marks in the hand: those of the chosen hooping can be pulled to another place, which holds them there. The plan follows the hand, and with it the error
 * to be expected at each motif. */
#include "canvas-marks.h"

#include <glib/gi18n.h>
#include <math.h>

#define REACH 14.0 /* px: half of what a mark can be taken by */
#define SAME_PLACE 0.05
#define FINE_PACE 0.2 /* of the hand's, with Shift */

static gboolean
is_motif_of (const HwPlan *plan, guint hooping, const char *id)
{
  for (guint i = 0; i < plan->hoopings[hooping].n_motifs; i++)
    if (g_str_equal (hw_snapshot_motif (plan->snapshot, plan->hoopings[hooping].motifs[i])->id, id))
      return TRUE;
  return FALSE;
}

int
hw_canvas_marked_hooping (HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  int chosen = hw_bench_get_chosen_hooping (canvas->bench), stage = hw_bench_get_stage (canvas->bench);

  if (plan == NULL || !canvas->show_hoopings || !canvas->show_marks)
    return -1;
  if (chosen < 0)
    chosen = stage; /* the hooping about to be stitched */
  if (stage >= 0 && stage != chosen)
    return -1;
  if (canvas->drag.pull == HW_PULL_MARK)
    {
      int motif = hw_snapshot_find_motif (plan->snapshot, canvas->drag.mark_motif);

      return motif >= 0 ? hw_plan_hooping_of (plan, (guint)motif) : -1;
    }
  return chosen < (int)plan->n_hoopings ? chosen : -1;
}

GArray *
hw_canvas_serving_marks (HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  int hooping = hw_canvas_marked_hooping (canvas);
  GArray *places = g_array_new (FALSE, FALSE, sizeof (HwPoint));

  for (guint i = 0; hooping >= 0 && i < plan->hoopings[hooping].n_marks; i++)
    g_array_append_val (places, plan->hoopings[hooping].marks[i].at);
  return places;
}

static gboolean
serves (const HwHooping *hooping, HwPoint at)
{
  for (guint i = 0; i < hooping->n_marks; i++)
    if (hw_point_distance (hooping->marks[i].at, at) < SAME_PLACE)
      return TRUE;
  return FALSE;
}

GArray *
hw_canvas_marks (HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  int hooping = hw_canvas_marked_hooping (canvas);
  GArray *marks = g_array_new (FALSE, TRUE, sizeof (HwCanvasMark));
  GPtrArray *held;
  gboolean drawn;

  if (hooping < 0)
    return marks;
  drawn = hw_bench_is_mark_of_pin (canvas->bench, (guint)hooping);
  for (guint i = 0; i < plan->hoopings[hooping].n_marks; i++)
    {
      const HwMark *mark = &plan->hoopings[hooping].marks[i];
      HwCanvasMark shown = { .at = mark->at,
                             .held = drawn || hw_bench_is_mark_held (canvas->bench, mark->at),
                             .serves = TRUE };

      g_strlcpy (shown.letter, mark->letter, sizeof shown.letter);
      g_array_append_val (marks, shown);
    }
  held = hw_scene_get_held_marks (hw_bench_get_scene (canvas->bench));
  for (guint i = 0; !drawn && i < held->len; i++)
    {
      const HwHeldMark *mark = g_ptr_array_index (held, i);
      HwCanvasMark shown = { .at = mark->at, .held = TRUE };

      if (is_motif_of (plan, (guint)hooping, mark->motif) && !serves (&plan->hoopings[hooping], mark->at))
        g_array_append_val (marks, shown);
    }
  return marks;
}

int
hw_canvas_mark_under (HwCanvas *canvas, HwPoint pixel)
{
  g_autoptr (GArray) marks = hw_canvas_marks (canvas);
  double nearest = REACH;
  int found = -1;
  HwHandles handles;
  HwHandle handle;

  for (guint i = 0; i < marks->len; i++)
    {
      HwPoint at = hw_view_to_pixels (&canvas->view, g_array_index (marks, HwCanvasMark, i).at);

      if (hw_point_distance (at, pixel) <= nearest)
        {
          nearest = hw_point_distance (at, pixel);
          found = (int)i;
        }
    }
  if (found < 0 || !hw_canvas_handles (canvas, &handles))
    return found;
  /* What lies nearer is meant. */
  handle = hw_handles_hit (&handles, pixel);
  return handle != HW_HANDLE_NONE && hw_point_distance (handles.at[handle], pixel) < nearest ? -1 : found;
}

gboolean
hw_marks_can_be_pulled (HwCanvas *canvas)
{
  int hooping = hw_canvas_marked_hooping (canvas);

  return hooping >= 0 && hw_bench_may_change_marks (canvas->bench, (guint)hooping);
}

void
hw_marks_begin_pull (HwCanvas *canvas)
{
  HwDrag *drag = &canvas->drag;
  g_autoptr (GArray) marks = hw_canvas_marks (canvas);
  int hooping = hw_canvas_marked_hooping (canvas);
  g_autofree char *step = NULL;
  const HwCanvasMark *mark;
  const char *motif;

  if (drag->target < 0 || drag->target >= (int)marks->len)
    return;
  mark = &g_array_index (marks, HwCanvasMark, drag->target);
  motif = hw_bench_motif_of_mark (canvas->bench, (guint)hooping, mark->at);
  if (motif == NULL)
    return;
  /* Translators: a step of the history */
  step = mark->letter[0] != '\0' ? g_strdup_printf (_ ("move mark %s"), mark->letter)
                                 : g_strdup (_ ("move a mark"));
  drag->mark_motif = g_strdup (motif);
  drag->mark_start = drag->mark_at = mark->at;
  g_strlcpy (drag->mark_letter, mark->letter, sizeof drag->mark_letter);
  drag->pull = HW_PULL_MARK;
  canvas->hover_mark = -1;
  hw_creep_begin (canvas);
  hw_bench_begin_edit (canvas->bench, step, FALSE);
  hw_bench_hold_marks_of (canvas->bench, (guint)hooping);
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_MARKS));
}

/* To tenths of a millimetre, as a ruler on cloth is read at best. */
void
hw_marks_pull (HwCanvas *canvas)
{
  HwDrag *drag = &canvas->drag;
  HwPoint pointer = hw_view_to_cloth (&canvas->view, drag->to);
  gboolean fine = (drag->modifiers & GDK_SHIFT_MASK) != 0;
  double pace = fine ? FINE_PACE : 1;
  HwPoint to;

  /* Where the pace changes, the mark stays: it is pulled on from there. */
  if (fine != drag->fine)
    {
      drag->fine = fine;
      drag->mark_start = drag->mark_at;
      drag->hold = pointer;
    }
  to = (HwPoint){ round ((drag->mark_start.x + (pointer.x - drag->hold.x) * pace) * 10) / 10,
                  round ((drag->mark_start.y + (pointer.y - drag->hold.y) * pace) * 10) / 10 };

  if (to.x == drag->mark_at.x && to.y == drag->mark_at.y)
    return;
  hw_bench_put_mark (canvas->bench, drag->mark_motif, &drag->mark_at, to);
  drag->mark_at = to;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_MARKS));
}

/* The motifs on the table as the canvas sees them: by their place in the stitch order, selected or not, in the air or not, and the frame
 * about those that are selected. */

#include "canvas-private.h"

HwSceneMotif *
hw_canvas_motif (HwCanvas *canvas, guint index)
{
  return g_ptr_array_index (canvas->cast, index);
}

const HwMotif *
hw_canvas_record (HwCanvas *canvas, guint index)
{
  return hw_scene_motif_get_record (hw_canvas_motif (canvas, index));
}

gboolean
hw_canvas_is_selected (HwCanvas *canvas, guint index)
{
  return hw_bench_is_selected (canvas->bench, hw_canvas_record (canvas, index)->id);
}

int
hw_canvas_hooping_of (HwCanvas *canvas, guint index)
{
  return GPOINTER_TO_INT (g_hash_table_lookup (canvas->hooping_of, hw_canvas_record (canvas, index)->id)) - 1;
}

gboolean
hw_canvas_is_dragging (HwCanvas *canvas)
{
  return canvas->drag.pull == HW_PULL_MOVE || canvas->drag.pull == HW_PULL_TURN
         || canvas->drag.pull == HW_PULL_RESIZE;
}

gboolean
hw_canvas_is_moving (HwCanvas *canvas, guint index)
{
  return hw_canvas_is_dragging (canvas)
         && g_ptr_array_find (canvas->drag.motifs, hw_canvas_motif (canvas, index), NULL);
}

gboolean
hw_canvas_is_pointed_out (HwCanvas *canvas, guint index)
{
  return canvas->n_pointed > 0
         && hw_bench_is_pointed_out (canvas->bench, hw_canvas_record (canvas, index)->id);
}

HwBox
hw_canvas_selection_box (HwCanvas *canvas)
{
  HwBox box = HW_BOX_EMPTY;

  for (guint i = 0; i < canvas->cast->len; i++)
    if (hw_canvas_is_selected (canvas, i))
      box = hw_box_union (box, hw_scene_motif_get_placed (hw_canvas_motif (canvas, i))->box);
  return box;
}

gboolean
hw_canvas_selection_frame (HwCanvas *canvas, HwHandleFrame *frame, gboolean *fixed)
{
  guint n = 0, sole = 0;

  *fixed = TRUE;
  for (guint i = 0; i < canvas->cast->len; i++)
    if (hw_canvas_is_selected (canvas, i))
      {
        n++;
        sole = i;
        *fixed = *fixed && hw_canvas_record (canvas, i)->locked;
      }
  if (n == 0)
    return FALSE;
  if (n == 1)
    *frame = hw_handle_frame_of_motif (hw_canvas_record (canvas, sole)->outline,
                                       &hw_canvas_record (canvas, sole)->placement);
  else
    *frame = hw_handle_frame_of_box (hw_canvas_selection_box (canvas));
  return TRUE;
}

gboolean
hw_canvas_handles (HwCanvas *canvas, HwHandles *handles)
{
  HwHandleFrame frame;
  gboolean fixed;

  if (!hw_canvas_selection_frame (canvas, &frame, &fixed) || fixed)
    return FALSE;
  hw_handles_place (handles, &frame, &canvas->view, hw_canvas_area (canvas));
  return TRUE;
}

/* The bench arranges motifs at once: in line, evenly spaced, as a mirrored pair. What needs figures is in arrange-figures.c. */
#include "bench.h"

#include <glib/gi18n.h>

#include "../geometry/region.h"
#include "arrange-private.h"
#include "bench-private.h"

static gboolean
pin_holds (const HwPin *pin, const char *id)
{
  return pin != NULL && g_strv_contains ((const char *const *)pin->motifs, id);
}

gboolean
hw_bench_may_arrange (HwBench *bench, const HwMotif *motif)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (motif != NULL, FALSE);

  return !motif->locked && !pin_holds (hw_bench_get_begun (bench), motif->id)
         && !hw_arrange_is_stitched (bench, motif->id);
}

gboolean
hw_arrange_is_stitched (HwBench *bench, const char *id)
{
  GPtrArray *frozen = hw_scene_get_frozen (bench->scene);

  for (guint i = 0; i < frozen->len; i++)
    if (pin_holds (g_ptr_array_index (frozen, i), id))
      return TRUE;
  return FALSE;
}

GPtrArray *
hw_arrange_movable (HwBench *bench)
{
  GPtrArray *motifs = hw_bench_get_selection (bench);

  for (guint i = motifs->len; i > 0; i--)
    if (!hw_bench_may_arrange (bench, hw_scene_motif_get_record (g_ptr_array_index (motifs, i - 1))))
      g_ptr_array_remove_index (motifs, i - 1);
  return motifs;
}

guint
hw_bench_count_arrangeable (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), 0);

  g_autoptr (GPtrArray) movable = hw_arrange_movable (bench);
  return movable->len;
}

HwBox
hw_bench_edge_box (HwBench *bench, gboolean inside_margin)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), HW_BOX_EMPTY);

  const HwEdgeLine *edge = hw_scene_get_edge_line (bench->scene);
  const HwFabric *fabric = hw_scene_get_fabric (bench->scene);
  if (edge == NULL || edge->outline == NULL)
    return (HwBox){ 0, 0, fabric->width, fabric->height };
  if (inside_margin && edge->margin > 0)
    {
      g_autoptr (HwOutline) inside = hw_outline_grow (edge->outline, -edge->margin);
      if (inside != NULL)
        return inside->box;
    }
  return edge->outline->box;
}

const char *
hw_arrange_first_name (GPtrArray *motifs)
{
  return hw_scene_motif_get_record (g_ptr_array_index (motifs, 0))->name;
}

void
hw_arrange_shift (HwSceneMotif *motif, HwPoint by)
{
  HwPlacement placement = hw_scene_motif_get_record (motif)->placement;

  placement.position.x += by.x;
  placement.position.y += by.y;
  hw_scene_motif_set_placement (motif, &placement);
}

HwBox
hw_arrange_box (GPtrArray *motifs)
{
  HwBox box = HW_BOX_EMPTY;

  for (guint i = 0; i < motifs->len; i++)
    box = hw_box_union (box, hw_scene_motif_get_placed (g_ptr_array_index (motifs, i))->box);
  return box;
}

/* What the motifs are brought in line with. */
static HwBox
line_up_with (HwBench *bench, GPtrArray *movable)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  g_autoptr (GPtrArray) staying = g_ptr_array_new ();

  for (guint i = 0; i < selection->len; i++)
    if (!g_ptr_array_find (movable, g_ptr_array_index (selection, i), NULL))
      g_ptr_array_add (staying, g_ptr_array_index (selection, i));
  if (staying->len > 0)
    return hw_arrange_box (staying);
  return movable->len == 1 ? hw_bench_edge_box (bench, TRUE) : hw_arrange_box (movable);
}

/* Takes the name over. */
static void
begin (HwBench *bench, char *name)
{
  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_hold (bench->scene);
  g_free (name);
}

static void
end (HwBench *bench)
{
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
}

void
hw_bench_align (HwBench *bench, HwAlign align)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) movable = hw_arrange_movable (bench);
  if (movable->len == 0)
    return;
  HwBox with = line_up_with (bench, movable);
  /* Translators: steps of the history, after "Undo" */
  begin (bench, HW_ARRANGE_NAME (movable, _ ("align %s"), _ ("align %u motifs")));
  for (guint i = 0; i < movable->len; i++)
    {
      HwSceneMotif *motif = g_ptr_array_index (movable, i);
      hw_arrange_shift (motif, hw_align_shift (align, hw_scene_motif_get_placed (motif)->box, with));
    }
  end (bench);
}

void
hw_bench_distribute (HwBench *bench, gboolean across)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) movable = hw_arrange_movable (bench);
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  guint n = selection->len;
  g_autofree HwBox *boxes = g_new (HwBox, n + 1);
  g_autofree gboolean *fixed = g_new0 (gboolean, n + 1);
  g_autofree HwPoint *shifts = g_new (HwPoint, n + 1);

  if (n < 3 || movable->len == 0)
    return;
  for (guint i = 0; i < n; i++)
    {
      boxes[i] = hw_scene_motif_get_placed (g_ptr_array_index (selection, i))->box;
      fixed[i] = !g_ptr_array_find (movable, g_ptr_array_index (selection, i), NULL);
    }
  hw_spread_shifts (boxes, fixed, n, across, shifts);
  begin (bench, HW_ARRANGE_NAME (selection, _ ("space out %s"), _ ("space out %u motifs evenly")));
  for (guint i = 0; i < n; i++)
    if (shifts[i].x != 0 || shifts[i].y != 0)
      hw_arrange_shift (g_ptr_array_index (selection, i), shifts[i]);
  end (bench);
}

char *
hw_arrange_add_copy (HwBench *bench, const HwMotif *original, const HwPlacement *placement, guint at)
{
  g_autoptr (HwMotif) copy = hw_motif_copy (original);

  g_free (copy->id);
  copy->id = hw_scene_free_id (bench->scene);
  g_free (copy->name);
  copy->name = hw_bench_free_name (bench, original->name);
  g_clear_pointer (&copy->before, g_strfreev);
  copy->locked = FALSE;
  copy->placement = *placement;
  g_autoptr (HwSceneMotif) added = hw_scene_motif_new (copy);
  hw_scene_insert_motif (bench->scene, at, added);
  hw_bench_join_part_of (bench, original->id, copy->id);
  return g_strdup (copy->id);
}

guint
hw_arrange_above (HwBench *bench, GPtrArray *motifs)
{
  guint above = 0;

  for (guint i = 0; i < motifs->len; i++)
    above = MAX (above, (guint)hw_scene_index_of (bench->scene, g_ptr_array_index (motifs, i)) + 1);
  return above;
}

void
hw_bench_mirror_pair (HwBench *bench, gboolean upright)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);
  HwBox edge = hw_bench_edge_box (bench, FALSE);
  guint at = hw_arrange_above (bench, selection);

  if (selection->len == 0)
    return;
  begin (bench, HW_ARRANGE_NAME (selection, _ ("add the mirrored pair of %s"),
                                 _ ("add the mirrored pairs of %u motifs")));
  for (guint i = 0; i < selection->len; i++)
    {
      const HwMotif *motif = hw_scene_motif_get_record (g_ptr_array_index (selection, i));
      HwPlacement image = hw_placement_across (&motif->placement, upright,
                                               upright ? (edge.x0 + edge.x1) / 2 : (edge.y0 + edge.y1) / 2);

      g_ptr_array_add (ids, g_strdup (motif->id));
      g_ptr_array_add (ids, hw_arrange_add_copy (bench, motif, &image, at + i));
    }
  end (bench);
  g_ptr_array_add (ids, NULL);
  hw_bench_select_ids (bench, (const char *const *)ids->pdata);
}

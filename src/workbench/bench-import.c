/* Motifs from files, and outlines drawn by hand, as steps of the history. */
#include "bench.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../geometry/region.h"
#include "../formats/named-file.h"
#include "bench-private.h"
#include "motif-import.h"

#define GAP 10.0 /* mm between motifs that come together */

/* The same artwork used many times is kept once. */
static void
share_artwork (HwBench *bench, HwMotif *motif)
{
  GListModel *motifs = hw_scene_get_motifs (bench->scene);
  guint n = g_list_model_get_n_items (motifs);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwSceneMotif) other = g_list_model_get_item (motifs, i);

      if (hw_motif_share_artwork (motif, hw_scene_motif_get_record (other)))
        return;
    }
}

/* Puts it on top of all and returns its id. Returns: (transfer full) */
static char *
add_one (HwBench *bench, const HwMotif *record, HwPoint at)
{
  g_autoptr (HwMotif) copy = hw_motif_copy (record);
  g_autofree char *name = hw_bench_free_name (bench, copy->name);

  g_free (copy->id);
  copy->id = hw_scene_free_id (bench->scene);
  g_free (copy->name);
  copy->name = g_steal_pointer (&name);
  copy->placement.position = at;
  if (copy->artwork != NULL && g_path_is_absolute (copy->artwork))
    {
      char *artwork = hw_motif_artwork_from (copy->artwork, bench->folder);

      g_free (copy->artwork);
      copy->artwork = artwork;
      if (g_path_is_absolute (artwork) && (copy->needles != NULL || copy->picture != NULL))
        hw_named_file_choose (artwork, NULL);
    }
  share_artwork (bench, copy);

  g_autoptr (HwSceneMotif) added = hw_scene_motif_new (copy);
  hw_scene_insert_motif (bench->scene, g_list_model_get_n_items (hw_scene_get_motifs (bench->scene)), added);
  return g_strdup (copy->id);
}

/* The middles of n places in rows, side by side about a point, each as large as the largest motif. */
static HwPoint
place_of (guint i, guint n, double width, double height, HwPoint about)
{
  guint columns = (guint)ceil (sqrt (n)), rows = (n + columns - 1) / columns;
  guint row = i / columns, in_row = row + 1 < rows ? columns : n - row * columns;

  return (HwPoint){ about.x + (i % columns - (in_row - 1) / 2.0) * (width + GAP),
                    about.y + (row - (rows - 1) / 2.0) * (height + GAP) };
}

gboolean
hw_bench_add_motifs (HwBench *bench, GPtrArray *records, const HwPoint *at)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (records != NULL, FALSE);

  const HwFabric *fabric = hw_scene_get_fabric (bench->scene);
  HwPoint about = at != NULL ? *at : (HwPoint){ fabric->width / 2, fabric->height / 2 };
  double width = 0, height = 0;
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *step = NULL;

  if (records->len == 0)
    return TRUE;
  if (records->len == 1)
    step = g_strdup_printf (_ ("add %s"), ((const HwMotif *)records->pdata[0])->name);
  else
    step = g_strdup_printf (ngettext ("add %u motif", "add %u motifs", records->len), records->len);
  for (guint i = 0; i < records->len; i++)
    {
      HwBox box = ((const HwMotif *)records->pdata[i])->outline->box;

      width = MAX (width, 2 * MAX (fabs (box.x0), fabs (box.x1)));
      height = MAX (height, 2 * MAX (fabs (box.y0), fabs (box.y1)));
    }
  hw_bench_begin_edit (bench, step, FALSE);
  hw_scene_hold (bench->scene);
  for (guint i = 0; i < records->len; i++)
    g_ptr_array_add (ids,
                     add_one (bench, records->pdata[i], place_of (i, records->len, width, height, about)));
  hw_scene_release (bench->scene);
  if (!hw_bench_end_edit (bench))
    return FALSE;
  g_ptr_array_add (ids, NULL);
  hw_bench_select_ids (bench, (const char *const *)ids->pdata);
  return TRUE;
}

static gboolean
is_stitched (HwBench *bench, const char *id)
{
  GPtrArray *frozen = hw_scene_get_frozen (bench->scene);

  for (guint i = 0; i < frozen->len; i++)
    if (g_strv_contains ((const char *const *)((const HwPin *)frozen->pdata[i])->motifs, id))
      return TRUE;
  return FALSE;
}

gboolean
hw_bench_may_edit_outline (HwBench *bench, const char *motif_id)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  HwSceneMotif *motif = motif_id != NULL ? hw_scene_find_motif (bench->scene, motif_id) : NULL;

  return motif != NULL && !hw_scene_motif_get_record (motif)->locked && !is_stitched (bench, motif_id);
}

gboolean
hw_bench_set_outline (HwBench *bench, const char *motif_id, const HwOutline *outline, char **refusal)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (motif_id != NULL && outline != NULL, FALSE);

  HwSceneMotif *motif = hw_scene_find_motif (bench->scene, motif_id);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwOutline) mended = NULL;
  const char *why = NULL;

  if (motif == NULL)
    why = _ ("The motif is no longer in the scene.");
  else if (!hw_bench_may_edit_outline (bench, motif_id))
    why = _ ("The motif is locked or stitched already: its outline stays as it is.");
  else
    {
      mended = outline->n_rings > 0 ? hw_outline_repair (outline, NULL, &error) : NULL;
      if (mended == NULL)
        why = _ ("These points enclose no area: an outline needs three points that do not lie in one line.");
    }
  if (why != NULL)
    {
      if (refusal != NULL)
        *refusal = g_strdup (why);
      return FALSE;
    }

  const HwMotif *record = hw_scene_motif_get_record (motif);
  g_autofree char *step = g_strdup_printf (_ ("edit the outline of %s"), record->name);
  g_autoptr (HwMotif) copy = hw_motif_copy (record);
  hw_outline_unref (copy->outline);
  copy->outline = g_steal_pointer (&mended);
  copy->outline_repaired = FALSE;
  hw_bench_begin_edit (bench, step, FALSE);
  hw_scene_motif_set_record (motif, copy);
  hw_bench_end_edit (bench);
  return TRUE;
}

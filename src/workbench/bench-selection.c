/* The bench and what is selected and pointed out on it: motif ids, so that both outlive an undo. */
#include "bench.h"

#include "bench-private.h"

static gboolean
motif_is_gone (gpointer key, gpointer value, gpointer user_data)
{
  return hw_scene_find_motif (user_data, key) == NULL;
}

gboolean
hw_bench_prune_selection (HwBench *bench)
{
  return g_hash_table_foreach_remove (bench->selected, motif_is_gone, bench->scene) > 0;
}

gboolean
hw_bench_is_selected (HwBench *bench, const char *motif_id)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  return motif_id != NULL && g_hash_table_contains (bench->selected, motif_id);
}

GPtrArray *
hw_bench_get_selection (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  GListModel *motifs = hw_scene_get_motifs (bench->scene);
  guint n = g_list_model_get_n_items (motifs);
  GPtrArray *selection = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < n && selection->len < g_hash_table_size (bench->selected); i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);

      if (hw_bench_is_selected (bench, hw_scene_motif_get_record (motif)->id))
        g_ptr_array_add (selection, g_steal_pointer (&motif));
    }
  return selection;
}

guint
hw_bench_get_n_selected (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), 0);
  return g_hash_table_size (bench->selected);
}

void
hw_bench_select_only (HwBench *bench, const char *motif_id)
{
  const char *ids[] = { motif_id, NULL };

  hw_bench_select_ids (bench, ids);
}

void
hw_bench_select_toggle (HwBench *bench, const char *motif_id)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (motif_id != NULL);

  if (!g_hash_table_remove (bench->selected, motif_id))
    {
      if (hw_scene_find_motif (bench->scene, motif_id) == NULL)
        return;
      g_hash_table_add (bench->selected, g_strdup (motif_id));
    }
  hw_bench_emit_selection_changed (bench);
}

static gboolean
same_ids (GHashTable *a, GHashTable *b)
{
  GHashTableIter iter;
  gpointer id;

  if (g_hash_table_size (a) != g_hash_table_size (b))
    return FALSE;
  g_hash_table_iter_init (&iter, a);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    if (!g_hash_table_contains (b, id))
      return FALSE;
  return TRUE;
}

void
hw_bench_select_ids (HwBench *bench, const char *const *motif_ids)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GHashTable) selected = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; motif_ids != NULL && motif_ids[i] != NULL; i++)
    if (hw_scene_find_motif (bench->scene, motif_ids[i]) != NULL)
      g_hash_table_add (selected, g_strdup (motif_ids[i]));

  if (same_ids (selected, bench->selected))
    return;
  g_hash_table_unref (bench->selected);
  bench->selected = g_steal_pointer (&selected);
  hw_bench_emit_selection_changed (bench);
}

void
hw_bench_select_all (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  GListModel *motifs = hw_scene_get_motifs (bench->scene);
  guint n = g_list_model_get_n_items (motifs);
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);
      g_ptr_array_add (ids, g_strdup (hw_scene_motif_get_record (motif)->id));
    }
  g_ptr_array_add (ids, NULL);
  hw_bench_select_ids (bench, (const char *const *)ids->pdata);
}

void
hw_bench_point_out (HwBench *bench, const char *const *motif_ids)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GHashTable) pointed_out = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; motif_ids != NULL && motif_ids[i] != NULL; i++)
    g_hash_table_add (pointed_out, g_strdup (motif_ids[i]));

  if (same_ids (pointed_out, bench->pointed_out))
    return;
  g_hash_table_unref (bench->pointed_out);
  bench->pointed_out = g_steal_pointer (&pointed_out);
  hw_bench_emit_pointed_out_changed (bench);
}

void
hw_bench_show_beside (HwBench *bench, const HwSnapshot *snapshot)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  if (snapshot == bench->beside)
    return;
  g_clear_pointer (&bench->beside, hw_snapshot_unref);
  bench->beside = snapshot != NULL ? hw_snapshot_ref (snapshot) : NULL;
  hw_bench_emit_pointed_out_changed (bench);
}

const HwSnapshot *
hw_bench_get_beside (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  return bench->beside;
}

gboolean
hw_bench_is_pointed_out (HwBench *bench, const char *motif_id)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  return motif_id != NULL && g_hash_table_contains (bench->pointed_out, motif_id);
}

guint
hw_bench_get_n_pointed_out (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), 0);
  return g_hash_table_size (bench->pointed_out);
}

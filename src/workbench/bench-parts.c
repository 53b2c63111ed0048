/* The bench and the parts a scene is divided into, each stitched for itself and one after the other. */
#include "bench.h"

#include <glib/gi18n.h>

#include "../geometry/one-line.h"
#include "bench-private.h"

static GPtrArray *
copy_parts (HwBench *bench)
{
  GPtrArray *old = hw_scene_get_parts (bench->scene);
  GPtrArray *parts = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_part_unref);

  for (guint i = 0; i < old->len; i++)
    g_ptr_array_add (parts, hw_part_ref (old->pdata[i]));
  return parts;
}

static void
set_parts (HwBench *bench, const char *step, GPtrArray *parts)
{
  hw_bench_begin_edit (bench, step, FALSE);
  hw_scene_set_parts (bench->scene, parts);
  hw_bench_end_edit (bench);
}

/* The part under a name, with the motifs of its old list that are not selected and those of `more`. */
static HwPart *
change_part (HwBench *bench, const HwPart *part, const char *name, GPtrArray *more)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) motifs = NULL;
  HwPart *changed;

  for (guint k = 0; part != NULL && part->motifs[k] != NULL; k++)
    if (!hw_bench_is_selected (bench, part->motifs[k]))
      g_strv_builder_add (builder, part->motifs[k]);
  for (guint k = 0; more != NULL && k < more->len; k++)
    g_strv_builder_add (builder, hw_scene_motif_get_record (more->pdata[k])->id);
  motifs = g_strv_builder_end (builder);
  changed = hw_part_new (name, (const char *const *)motifs);
  if (part != NULL && part->unknown != NULL)
    changed->unknown = hw_unknown_ref (part->unknown);
  return changed;
}

static int
find_name (HwBench *bench, const char *name)
{
  GPtrArray *parts = hw_scene_get_parts (bench->scene);

  for (guint i = 0; i < parts->len; i++)
    if (g_str_equal (((const HwPart *)parts->pdata[i])->name, name))
      return (int)i;
  return -1;
}

static char *
stripped (const char *name)
{
  return g_strstrip (hw_one_line_name (name));
}

gboolean
hw_bench_put_in_part (HwBench *bench, const char *name)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (name != NULL, FALSE);

  g_autofree char *clean = stripped (name);
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_part_unref);
  GPtrArray *old = hw_scene_get_parts (bench->scene);
  int found = find_name (bench, clean);

  if (selection->len == 0 || *clean == '\0' || (found < 0 && old->len >= HW_MOST_PARTS))
    return FALSE;
  for (guint i = 0; i < old->len; i++)
    {
      const HwPart *part = old->pdata[i];

      g_ptr_array_add (parts, change_part (bench, part, part->name, (int)i == found ? selection : NULL));
    }
  if (found < 0)
    g_ptr_array_add (parts, change_part (bench, NULL, clean, selection));
  g_autofree char *words
      = selection->len == 1
            ? g_strdup (hw_scene_motif_get_record (selection->pdata[0])->name)
            : g_strdup_printf (ngettext ("%u motif", "%u motifs", selection->len), selection->len);
  /* Translators: a step of the history: "put Fig branch into “Upper”" */
  g_autofree char *step = g_strdup_printf (_ ("put %s into “%s”"), words, clean);
  set_parts (bench, step, parts);
  return TRUE;
}

void
hw_bench_take_out_of_parts (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_part_unref);
  GPtrArray *old = hw_scene_get_parts (bench->scene);
  g_autofree char *step = hw_bench_edit_name (bench, _ ("take out of its part"));

  if (!hw_bench_some_in_parts (bench))
    return;
  for (guint i = 0; i < old->len; i++)
    g_ptr_array_add (parts, change_part (bench, old->pdata[i], ((const HwPart *)old->pdata[i])->name, NULL));
  set_parts (bench, step, parts);
}

void
hw_bench_join_part_of (HwBench *bench, const char *original, const char *copy)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (original != NULL && copy != NULL);
  g_return_if_fail (bench->editing);

  int index = hw_parts_find (hw_scene_get_parts (bench->scene), original);
  if (index < 0)
    return;
  g_autoptr (GPtrArray) parts = copy_parts (bench);
  HwPart *part = parts->pdata[index];
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) motifs = NULL;

  g_strv_builder_addv (builder, (const char **)part->motifs);
  g_strv_builder_add (builder, copy);
  motifs = g_strv_builder_end (builder);
  parts->pdata[index] = hw_part_new (part->name, (const char *const *)motifs);
  if (part->unknown != NULL)
    ((HwPart *)parts->pdata[index])->unknown = hw_unknown_ref (part->unknown);
  hw_part_unref (part);
  hw_scene_set_parts (bench->scene, parts);
}

int
hw_bench_part_of_selection (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), -1);

  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  GPtrArray *parts = hw_scene_get_parts (bench->scene);
  int common = -1;

  for (guint k = 0; k < selection->len; k++)
    {
      int part = hw_parts_find (parts, hw_scene_motif_get_record (selection->pdata[k])->id);

      if (part < 0 || (k > 0 && part != common))
        return -1;
      common = part;
    }
  return common;
}

gboolean
hw_bench_some_in_parts (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);

  for (guint k = 0; k < selection->len; k++)
    if (hw_parts_find (hw_scene_get_parts (bench->scene), hw_scene_motif_get_record (selection->pdata[k])->id)
        >= 0)
      return TRUE;
  return FALSE;
}

gboolean
hw_bench_rename_part (HwBench *bench, guint part, const char *name)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (name != NULL, FALSE);

  g_autoptr (GPtrArray) parts = copy_parts (bench);
  g_autofree char *clean = stripped (name);
  int found = find_name (bench, clean);

  if (part >= parts->len || *clean == '\0' || (found >= 0 && found != (int)part))
    return FALSE;
  if (found == (int)part)
    return TRUE;
  const HwPart *old = parts->pdata[part];
  HwPart *renamed = hw_part_new (clean, (const char *const *)old->motifs);
  /* Translators: a step of the history: "rename “Upper” to “Sky”" */
  g_autofree char *step = g_strdup_printf (_ ("rename “%s” to “%s”"), old->name, clean);

  if (old->unknown != NULL)
    renamed->unknown = hw_unknown_ref (old->unknown);
  hw_part_unref (parts->pdata[part]);
  parts->pdata[part] = renamed;
  set_parts (bench, step, parts);
  return TRUE;
}

void
hw_bench_move_part (HwBench *bench, guint part, guint to)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) parts = copy_parts (bench);

  if (part >= parts->len)
    return;
  to = MIN (to, parts->len - 1);
  g_autoptr (HwPart) moved = hw_part_ref (parts->pdata[part]);
  /* Translators: a step of the history: "stitch “Upper” earlier" */
  g_autofree char *step
      = g_strdup_printf (to < part ? _ ("stitch “%s” earlier") : _ ("stitch “%s” later"), moved->name);

  g_ptr_array_remove_index (parts, part);
  g_ptr_array_insert (parts, (int)to, g_steal_pointer (&moved));
  set_parts (bench, step, parts);
}

void
hw_bench_drop_part (HwBench *bench, guint part)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) parts = copy_parts (bench);

  if (part >= parts->len)
    return;
  /* Translators: a step of the history: "take “Upper” apart" */
  g_autofree char *step = g_strdup_printf (_ ("take “%s” apart"), ((const HwPart *)parts->pdata[part])->name);
  g_ptr_array_remove_index (parts, part);
  set_parts (bench, step, parts);
}

char *
hw_bench_free_part_name (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  for (guint number = hw_scene_get_parts (bench->scene)->len + 1;; number++)
    {
      g_autofree char *name = g_strdup_printf (_ ("Part %u"), number);

      if (find_name (bench, name) < 0)
        return g_steal_pointer (&name);
    }
}

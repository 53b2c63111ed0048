/* The bench's verbs: what a person does to the selected motifs, each as one named step of the history. */
#include "bench.h"

#include <glib/gi18n.h>
#include <string.h>

#include "../geometry/one-line.h"
#include "bench-private.h"

#define DUPLICATE_SHIFT 8.0 /* mm, so that the copy is seen beside its original */

/* Called with each motif of a step. */
typedef void (*MotifVerb) (HwBench *bench, HwSceneMotif *motif, gpointer user_data);

static GPtrArray *
unlocked_selection (HwBench *bench)
{
  GPtrArray *selection = hw_bench_get_selection (bench);

  for (guint i = selection->len; i > 0; i--)
    if (hw_scene_motif_get_record (g_ptr_array_index (selection, i - 1))->locked)
      g_ptr_array_remove_index (selection, i - 1);
  return selection;
}

static char *
name_for (GPtrArray *motifs, const char *verb)
{
  if (motifs->len == 1)
    {
      /* Translators: a step of the history: a verb and a motif's name, "move Fig branch" */
      return g_strdup_printf (_ ("%s %s"), verb,
                              hw_scene_motif_get_record (g_ptr_array_index (motifs, 0))->name);
    }
  /* Translators: a step of the history: a verb and a number, "move 3 motifs" */
  return g_strdup_printf (ngettext ("%s %u motif", "%s %u motifs", motifs->len), verb, motifs->len);
}

char *
hw_bench_edit_name (HwBench *bench, const char *verb)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  g_return_val_if_fail (verb != NULL, NULL);

  g_autoptr (GPtrArray) motifs = unlocked_selection (bench);
  if (motifs->len == 0)
    {
      g_ptr_array_unref (motifs);
      motifs = hw_bench_get_selection (bench);
    }
  return name_for (motifs, verb);
}

static void
for_each (
    HwBench *bench, GPtrArray *motifs, const char *verb, gboolean merge, MotifVerb call, gpointer user_data)
{
  if (motifs->len == 0)
    return;

  g_autofree char *name = name_for (motifs, verb);
  hw_bench_begin_edit (bench, name, merge);
  hw_scene_hold (bench->scene);
  for (guint i = 0; i < motifs->len; i++)
    call (bench, g_ptr_array_index (motifs, i), user_data);
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
}

static void
nudge_motif (HwBench *bench, HwSceneMotif *motif, gpointer by)
{
  HwPlacement placement = hw_scene_motif_get_record (motif)->placement;
  const HwPoint *shift = by;

  placement.position.x += shift->x;
  placement.position.y += shift->y;
  hw_scene_motif_set_placement (motif, &placement);
}

void
hw_bench_nudge (HwBench *bench, double dx, double dy)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) motifs = unlocked_selection (bench);
  HwPoint by = { dx, dy };
  for_each (bench, motifs, _ ("move"), TRUE, nudge_motif, &by);
}

static void
mirror_motif (HwBench *bench, HwSceneMotif *motif, gpointer user_data)
{
  HwPlacement placement = hw_scene_motif_get_record (motif)->placement;

  placement.mirrored = !placement.mirrored;
  hw_scene_motif_set_placement (motif, &placement);
}

void
hw_bench_mirror (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) motifs = unlocked_selection (bench);
  for_each (bench, motifs, _ ("mirror"), FALSE, mirror_motif, NULL);
}

/* Moves every motif of the step one place, those in front first when bringing forward, so that a group keeps its own order and
 * stops together at the end of the list. */
static void
shift_order (HwBench *bench, gboolean forward, const char *verb)
{
  g_autoptr (GPtrArray) motifs = unlocked_selection (bench);
  int last = (int)g_list_model_get_n_items (hw_scene_get_motifs (bench->scene)) - 1;

  if (motifs->len == 0)
    return;

  g_autofree char *name = name_for (motifs, verb);
  int barrier = forward ? last + 1 : -1;
  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_hold (bench->scene);
  for (guint i = 0; i < motifs->len; i++)
    {
      HwSceneMotif *motif = g_ptr_array_index (motifs, forward ? motifs->len - 1 - i : i);
      int at = hw_scene_index_of (bench->scene, motif);
      int to = forward ? at + 1 : at - 1;

      if (forward ? to < barrier : to > barrier)
        {
          hw_scene_move_motif (bench->scene, (guint)at, (guint)to);
          barrier = to;
        }
      else
        barrier = at;
    }
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
}

void
hw_bench_bring_forward (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  shift_order (bench, TRUE, _ ("bring forward"));
}

void
hw_bench_send_back (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  shift_order (bench, FALSE, _ ("send back"));
}

void
hw_bench_move_in_order (HwBench *bench, const char *motif_id, guint to)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (motif_id != NULL);

  HwSceneMotif *motif = hw_scene_find_motif (bench->scene, motif_id);
  guint n = g_list_model_get_n_items (hw_scene_get_motifs (bench->scene));
  if (motif == NULL)
    return;

  guint from = (guint)hw_scene_index_of (bench->scene, motif);
  to = MIN (to, n - 1);
  if (from == to)
    return;

  g_autofree char *name = g_strdup_printf (_ ("move %s to place %u of the stitch order"),
                                           hw_scene_motif_get_record (motif)->name, to + 1);
  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_move_motif (bench->scene, from, to);
  hw_bench_end_edit (bench);
}

static gboolean
name_is_taken (HwBench *bench, const char *name)
{
  GListModel *motifs = hw_scene_get_motifs (bench->scene);
  guint n = g_list_model_get_n_items (motifs);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);
      if (g_strcmp0 (hw_scene_motif_get_record (motif)->name, name) == 0)
        return TRUE;
    }
  return FALSE;
}

/* The stem with the lowest number from 2 on that no motif has. All that are taken are noted in one walk: a bed of ten thousand leaves has as many. */
static char *
numbered_name (HwBench *bench, const char *stem)
{
  GListModel *motifs = hw_scene_get_motifs (bench->scene);
  guint n = g_list_model_get_n_items (motifs), number = 2;
  gsize length = strlen (stem);
  g_autofree gboolean *taken = g_new0 (gboolean, n + 3);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);
      const char *name = hw_scene_motif_get_record (motif)->name;
      guint64 its;

      if (name != NULL && g_str_has_prefix (name, stem) && name[length] == ' ' && name[length + 1] != '0'
          && g_ascii_string_to_unsigned (name + length + 1, 10, 2, n + 2, &its, NULL))
        taken[its] = TRUE;
    }
  while (taken[number])
    number++;
  return g_strdup_printf ("%s %u", stem, number);
}

char *
hw_bench_free_name (HwBench *bench, const char *name)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  g_return_val_if_fail (name != NULL, NULL);

  /* "Fig branch 2" is followed by "Fig branch 3", not by "Fig branch 2 2". */
  const char *end = name + strlen (name);
  while (end > name && g_ascii_isdigit (end[-1]))
    end--;
  gboolean counted = *end != '\0' && end > name + 1 && end[-1] == ' ';
  g_autofree char *stem = counted ? g_strndup (name, (gsize)(end - 1 - name)) : g_strdup (name);

  if (!name_is_taken (bench, name))
    return g_strdup (name);
  /* A name as long as names may be keeps room for its number. */
  if (g_utf8_strlen (stem, -1) > HW_LONGEST_NAME - 10)
    *g_utf8_offset_to_pointer (stem, HW_LONGEST_NAME - 10) = '\0';
  return numbered_name (bench, stem);
}

static void
duplicate_motif (HwBench *bench, HwSceneMotif *motif, gpointer ids)
{
  g_autoptr (HwMotif) copy = hw_motif_copy (hw_scene_motif_get_record (motif));
  g_autofree char *name = hw_bench_free_name (bench, copy->name);

  g_free (copy->id);
  copy->id = hw_scene_free_id (bench->scene);
  g_free (copy->name);
  copy->name = g_steal_pointer (&name);
  g_clear_pointer (&copy->before, g_strfreev);
  copy->locked = FALSE;
  copy->placement.position.x += DUPLICATE_SHIFT;
  copy->placement.position.y += DUPLICATE_SHIFT;

  g_autoptr (HwSceneMotif) added = hw_scene_motif_new (copy);
  hw_scene_insert_motif (bench->scene, (guint)hw_scene_index_of (bench->scene, motif) + 1, added);
  hw_bench_join_part_of (bench, hw_scene_motif_get_record (motif)->id, copy->id);
  g_ptr_array_add (ids, g_strdup (copy->id));
}

void
hw_bench_duplicate (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) motifs = hw_bench_get_selection (bench);
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);
  for_each (bench, motifs, _ ("duplicate"), FALSE, duplicate_motif, ids);
  if (ids->len == 0)
    return;
  g_ptr_array_add (ids, NULL);
  hw_bench_select_ids (bench, (const char *const *)ids->pdata);
}

void
hw_bench_add_motif (HwBench *bench, const HwMotif *record)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (record != NULL);

  g_autoptr (HwMotif) copy = hw_motif_copy (record);
  g_autofree char *name = hw_bench_free_name (bench, copy->name);
  g_free (copy->id);
  copy->id = hw_scene_free_id (bench->scene);
  g_free (copy->name);
  copy->name = g_steal_pointer (&name);

  g_autoptr (HwSceneMotif) added = hw_scene_motif_new (copy);
  g_autofree char *step = g_strdup_printf (_ ("add %s"), copy->name);
  hw_bench_begin_edit (bench, step, FALSE);
  hw_scene_insert_motif (bench->scene, g_list_model_get_n_items (hw_scene_get_motifs (bench->scene)), added);
  hw_bench_end_edit (bench);
  hw_bench_select_only (bench, copy->id);
}

/* Its ties, its place in pins and what else names it go with it; one that is stitched stays, and so do they. */
static void
delete_motif (HwBench *bench, HwSceneMotif *motif, gpointer user_data)
{
  hw_scene_remove_motif (bench->scene, motif);
}

void
hw_bench_delete (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) motifs = unlocked_selection (bench);
  for_each (bench, motifs, _ ("delete"), FALSE, delete_motif, NULL);
}

static void
lock_motif (HwBench *bench, HwSceneMotif *motif, gpointer locked)
{
  g_object_set (motif, "locked", GPOINTER_TO_INT (locked), NULL);
}

void
hw_bench_set_locked (HwBench *bench, gboolean locked)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) motifs = hw_bench_get_selection (bench);
  for_each (bench, motifs, locked ? _ ("lock") : _ ("unlock"), FALSE, lock_motif,
            GINT_TO_POINTER (locked != FALSE));
}

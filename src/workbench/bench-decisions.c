/* The bench and what a person decides about the plan: what counts as best, hoops set aside, motifs kept apart, one motif tied before another.
 * Each decision is one step of the history. */
#include "bench.h"

#include <glib/gi18n.h>

#include "bench-private.h"

void
hw_bench_set_best (HwBench *bench, HwBest best)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  HwWishes wishes = *hw_scene_get_wishes (bench->scene);

  wishes.best = best;
  hw_bench_begin_edit (
      bench, best == HW_BEST_LEAST_TIME ? _ ("plan for the least time") : _ ("plan for the fewest hoopings"),
      FALSE);
  hw_scene_set_wishes (bench->scene, &wishes);
  hw_bench_end_edit (bench);
}

void
hw_bench_set_interleave (HwBench *bench, gboolean interleave)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  HwWishes wishes = *hw_scene_get_wishes (bench->scene);

  wishes.interleave = interleave != FALSE;
  hw_bench_begin_edit (bench, interleave ? _ ("stitch threads in turns") : _ ("stitch motif by motif"),
                       FALSE);
  hw_scene_set_wishes (bench->scene, &wishes);
  hw_bench_end_edit (bench);
}

void
hw_bench_set_pace (HwBench *bench, double per_hooping, double per_change, double stitches_per_minute)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (per_hooping >= 0 && per_change >= 0 && stitches_per_minute > 0);

  HwMachine machine = *hw_scene_get_machine (bench->scene);

  machine.minutes_per_hooping = per_hooping;
  machine.minutes_per_change = per_change;
  machine.stitches_per_minute = stitches_per_minute;
  hw_bench_begin_edit (bench, _ ("change the pace of work"), TRUE);
  hw_scene_set_machine (bench->scene, &machine);
  hw_bench_end_edit (bench);
}

void
hw_bench_set_limits (HwBench *bench, double density, double tolerance)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (density > 0 && tolerance > 0);

  HwWishes wishes = *hw_scene_get_wishes (bench->scene);

  wishes.density_limit = density;
  wishes.tolerance = tolerance;
  hw_bench_begin_edit (bench, _ ("change what to warn of"), TRUE);
  hw_scene_set_wishes (bench->scene, &wishes);
  hw_bench_end_edit (bench);
}

void
hw_bench_set_scale_range (HwBench *bench, double low, double high)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (low > 0 && low <= high);

  HwWishes wishes = *hw_scene_get_wishes (bench->scene);

  wishes.scale_low = low;
  wishes.scale_high = high;
  hw_bench_begin_edit (bench, _ ("change the scales without new stitches"), TRUE);
  hw_scene_set_wishes (bench->scene, &wishes);
  hw_bench_end_edit (bench);
}

void
hw_bench_set_least_marks (HwBench *bench, guint marks)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (marks >= 2 && marks <= 4);

  HwWishes wishes = *hw_scene_get_wishes (bench->scene);

  wishes.marks = marks;
  hw_bench_begin_edit (bench, _ ("change how many marks a hooping has"), TRUE);
  hw_scene_set_wishes (bench->scene, &wishes);
  hw_bench_end_edit (bench);
}

void
hw_bench_set_hoop_aside (HwBench *bench, HwSceneHoop *hoop, gboolean set_aside)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (HW_IS_SCENE_HOOP (hoop));

  const char *hoop_name = hw_scene_hoop_get_record (hoop)->name;
  g_autofree char *name = set_aside ? g_strdup_printf (_ ("set the hoop %s aside"), hoop_name)
                                    : g_strdup_printf (_ ("use the hoop %s again"), hoop_name);

  hw_bench_begin_edit (bench, name, FALSE);
  g_object_set (hoop, "set-aside", set_aside, NULL);
  hw_bench_end_edit (bench);
}

static gboolean
is_pair (const HwApart *apart, const char *first, const char *second)
{
  return hw_apart_names (apart, first) && hw_apart_names (apart, second);
}

gboolean
hw_bench_are_apart (HwBench *bench, const char *first, const char *second)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  GPtrArray *apart = hw_scene_get_apart (bench->scene);

  for (guint i = 0; i < apart->len; i++)
    if (is_pair (g_ptr_array_index (apart, i), first, second))
      return TRUE;
  return FALSE;
}

static const char *
id_in (GPtrArray *motifs, guint i)
{
  return hw_scene_motif_get_record (g_ptr_array_index (motifs, i))->id;
}

/* How many of the pairs of the selection are kept apart, out of how many. */
static guint
count_apart (HwBench *bench, guint *out_of)
{
  g_autoptr (GPtrArray) motifs = hw_bench_get_selection (bench);
  guint n = 0;

  *out_of = 0;
  for (guint j = 0; j < motifs->len; j++)
    for (guint i = 0; i < j; i++, (*out_of)++)
      n += hw_bench_are_apart (bench, id_in (motifs, i), id_in (motifs, j)) ? 1 : 0;
  return n;
}

gboolean
hw_bench_some_apart (HwBench *bench)
{
  guint out_of;

  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  return hw_scene_get_apart (bench->scene)->len > 0 && count_apart (bench, &out_of) > 0;
}

gboolean
hw_bench_all_apart (HwBench *bench)
{
  guint out_of;

  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  return hw_scene_get_apart (bench->scene)->len > 0 && count_apart (bench, &out_of) == out_of && out_of > 0;
}

static void
set_apart (HwBench *bench, const char *name, GPtrArray *apart)
{
  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_set_apart (bench->scene, apart);
  hw_bench_end_edit (bench);
}

static GPtrArray *
new_pairs (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)hw_apart_unref);
}

static char *
words_for_selection (GPtrArray *motifs)
{
  if (motifs->len == 2)
    return g_strdup_printf (_ ("%s and %s"), hw_scene_motif_get_record (motifs->pdata[0])->name,
                            hw_scene_motif_get_record (motifs->pdata[1])->name);
  return g_strdup_printf (ngettext ("%u motif", "%u motifs", motifs->len), motifs->len);
}

void
hw_bench_keep_apart (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) motifs = hw_bench_get_selection (bench);
  GPtrArray *old = hw_scene_get_apart (bench->scene);
  g_autoptr (GPtrArray) apart = new_pairs ();

  if (motifs->len < 2)
    return;
  for (guint i = 0; i < old->len; i++)
    g_ptr_array_add (apart, hw_apart_ref (g_ptr_array_index (old, i)));
  for (guint j = 0; j < motifs->len; j++)
    for (guint i = 0; i < j; i++)
      g_ptr_array_add (apart, hw_apart_new (id_in (motifs, i), id_in (motifs, j)));
  g_autofree char *words = words_for_selection (motifs);
  /* Translators: a step of the history: "keep Pear and Plum apart" */
  g_autofree char *name = g_strdup_printf (_ ("keep %s apart"), words);
  set_apart (bench, name, apart);
}

void
hw_bench_let_share (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) motifs = hw_bench_get_selection (bench);
  GPtrArray *old = hw_scene_get_apart (bench->scene);
  g_autoptr (GPtrArray) apart = new_pairs ();

  for (guint i = 0; i < old->len; i++)
    {
      HwApart *pair = g_ptr_array_index (old, i);
      if (!hw_bench_is_selected (bench, pair->first) || !hw_bench_is_selected (bench, pair->second))
        g_ptr_array_add (apart, hw_apart_ref (pair));
    }
  g_autofree char *words = words_for_selection (motifs);
  /* Translators: a step of the history: "let Pear and Plum share a hooping" */
  g_autofree char *name = g_strdup_printf (_ ("let %s share a hooping"), words);
  set_apart (bench, name, apart);
}

static const char *
name_of (HwBench *bench, const char *id)
{
  HwSceneMotif *motif = hw_scene_find_motif (bench->scene, id);

  return motif != NULL ? hw_scene_motif_get_record (motif)->name : id;
}

void
hw_bench_let_share_pair (HwBench *bench, const char *first, const char *second)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  GPtrArray *old = hw_scene_get_apart (bench->scene);
  g_autoptr (GPtrArray) apart = new_pairs ();

  for (guint i = 0; i < old->len; i++)
    if (!is_pair (g_ptr_array_index (old, i), first, second))
      g_ptr_array_add (apart, hw_apart_ref (g_ptr_array_index (old, i)));
  g_autofree char *words = g_strdup_printf (_ ("%s and %s"), name_of (bench, first), name_of (bench, second));
  g_autofree char *name = g_strdup_printf (_ ("let %s share a hooping"), words);
  set_apart (bench, name, apart);
}

gboolean
hw_bench_is_tied (HwBench *bench, const char *first, const char *second)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  HwSceneMotif *motif = hw_scene_find_motif (bench->scene, first);
  const HwMotif *record = motif != NULL ? hw_scene_motif_get_record (motif) : NULL;

  return record != NULL && record->before != NULL
         && g_strv_contains ((const char *const *)record->before, second);
}

/* Sets whom a motif goes before, as one step. ids may be empty. */
static void
set_before (HwBench *bench, const char *step, HwSceneMotif *motif, char **ids)
{
  g_autoptr (HwMotif) copy = hw_motif_copy (hw_scene_motif_get_record (motif));

  g_strfreev (copy->before);
  copy->before = ids != NULL && ids[0] != NULL ? g_strdupv (ids) : NULL;
  hw_bench_begin_edit (bench, step, FALSE);
  hw_scene_motif_set_record (motif, copy);
  hw_bench_end_edit (bench);
}

gboolean
hw_bench_tie (HwBench *bench, const char *first, const char *second, char **refusal)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  g_autoptr (HwSnapshot) snapshot = hw_scene_snapshot (bench->scene);
  HwSceneMotif *motif = hw_scene_find_motif (bench->scene, first);
  int from = hw_snapshot_find_motif (snapshot, first), to = hw_snapshot_find_motif (snapshot, second);
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  g_return_val_if_fail (from >= 0 && to >= 0 && from != to, FALSE);

  if (hw_bench_is_tied (bench, first, second))
    return TRUE;
  g_autofree char *why_not = hw_order_refuses_tie (snapshot, (guint)from, (guint)to);
  if (why_not != NULL)
    {
      if (refusal != NULL)
        *refusal = g_steal_pointer (&why_not);
      return FALSE;
    }
  if (hw_scene_motif_get_record (motif)->before != NULL)
    g_strv_builder_addv (ids, (const char **)hw_scene_motif_get_record (motif)->before);
  g_strv_builder_add (ids, second);
  g_auto (GStrv) before = g_strv_builder_end (ids);
  /* Translators: a step of the history: "stitch Pear before Plum" */
  g_autofree char *step
      = g_strdup_printf (_ ("stitch %s before %s"), name_of (bench, first), name_of (bench, second));
  set_before (bench, step, motif, before);
  return TRUE;
}

void
hw_bench_untie (HwBench *bench, const char *first, const char *second)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  HwSceneMotif *motif = hw_scene_find_motif (bench->scene, first);
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  if (!hw_bench_is_tied (bench, first, second))
    return;
  char **old = hw_scene_motif_get_record (motif)->before;
  for (guint i = 0; old[i] != NULL; i++)
    if (!g_str_equal (old[i], second))
      g_strv_builder_add (ids, old[i]);
  g_auto (GStrv) before = g_strv_builder_end (ids);
  /* Translators: a step of the history: "let Pear and Plum be stitched in any order" */
  g_autofree char *step = g_strdup_printf (_ ("let %s and %s be stitched in any order"),
                                           name_of (bench, first), name_of (bench, second));
  set_before (bench, step, motif, before);
}

void
hw_bench_take_snapshot (HwBench *bench, const char *name, const HwSnapshot *changed)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (name != NULL && changed != NULL);

  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_restore (bench->scene, changed);
  hw_bench_end_edit (bench);
}

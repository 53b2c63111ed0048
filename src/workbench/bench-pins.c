/* The bench and its pins: a hooping held fast, wholly or only its motifs, until the person lets it go. */
#include "bench.h"

#include <glib/gi18n.h>

#include "bench-private.h"

static gboolean
share_a_motif (char **a, char **b)
{
  for (guint i = 0; a[i] != NULL; i++)
    if (g_strv_contains ((const char *const *)b, a[i]))
      return TRUE;
  return FALSE;
}

GPtrArray *
hw_bench_pins_without (HwBench *bench, char **ids)
{
  GPtrArray *pins = hw_scene_get_pins (bench->scene);
  GPtrArray *kept = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);

  for (guint i = 0; i < pins->len; i++)
    {
      HwPin *pin = g_ptr_array_index (pins, i);
      if (!share_a_motif (pin->motifs, ids))
        g_ptr_array_add (kept, hw_pin_ref (pin));
    }
  return kept;
}

/* The plan may be an edit older than the scene: only motifs that are still there. */
char **
hw_bench_ids_of (HwBench *bench, const HwPlan *plan, const guint *motifs, guint n_motifs)
{
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  for (guint i = 0; i < n_motifs; i++)
    {
      if (motifs[i] >= plan->snapshot->motifs->len)
        continue;
      const char *id = hw_snapshot_motif (plan->snapshot, motifs[i])->id;
      if (hw_scene_find_motif (bench->scene, id) != NULL)
        g_strv_builder_add (ids, id);
    }
  return g_strv_builder_end (ids);
}

static char *
words_for (HwBench *bench, char **ids)
{
  guint n = g_strv_length (ids);

  if (n == 1)
    return g_strdup (hw_scene_motif_get_record (hw_scene_find_motif (bench->scene, ids[0]))->name);
  return g_strdup_printf (ngettext ("%u motif", "%u motifs", n), n);
}

void
hw_bench_take_candidate (
    HwBench *bench, const guint *motifs, guint n_motifs, guint hoop, HwPoint centre, double angle)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (motifs != NULL && n_motifs > 0);

  if (bench->plan == NULL || hoop >= bench->plan->snapshot->hoops->len)
    return;
  g_auto (GStrv) ids = hw_bench_ids_of (bench, bench->plan, motifs, n_motifs);
  if (ids[0] == NULL)
    return;

  const HwHoop *taken = hw_snapshot_hoop (bench->plan->snapshot, hoop);
  g_autofree char *words = words_for (bench, ids);
  /* Translators: a step of the history: "hold Fig branch in the hoop 130 × 180" */
  g_autofree char *name = g_strdup_printf (_ ("hold %s in the hoop %s"), words, taken->name);
  g_autoptr (GPtrArray) pins = hw_bench_pins_without (bench, ids);
  HwPin *pin = hw_pin_new ();
  pin->hoop = g_strdup (taken->id);
  pin->centre = centre;
  pin->angle = angle;
  pin->motifs = g_steal_pointer (&ids);
  g_ptr_array_add (pins, pin);

  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_set_pins (bench->scene, pins);
  hw_bench_end_edit (bench);
}

void
hw_bench_unpin (HwBench *bench, guint hooping)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  if (bench->plan == NULL || hooping >= bench->plan->n_hoopings)
    return;
  const HwHooping *held = &bench->plan->hoopings[hooping];
  g_auto (GStrv) ids = hw_bench_ids_of (bench, bench->plan, held->motifs, held->n_motifs);
  if (held->hold != HW_PLACE_PINNED || ids[0] == NULL)
    return;

  g_autofree char *words = words_for (bench, ids);
  g_autofree char *name = g_strdup_printf (_ ("let %s go"), words);
  g_autoptr (GPtrArray) pins = hw_bench_pins_without (bench, ids);
  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_set_pins (bench->scene, pins);
  hw_bench_end_edit (bench);
}

HwPin *
hw_bench_pin_for (const HwPlan *plan, guint hooping, char **ids, HwKeep keep)
{
  const HwHooping *held = &plan->hoopings[hooping];
  HwPin *pin = hw_pin_new ();

  pin->keep = keep;
  pin->hoop = g_strdup (hw_snapshot_hoop (plan->snapshot, held->hoop)->id);
  pin->centre = held->centre;
  pin->angle = held->angle;
  pin->motifs = g_strdupv (ids);
  return pin;
}

static char *
step_name (HwKeep keep, guint number)
{
  switch (keep)
    {
    case HW_KEEP_MOTIFS:
      /* Translators: a step of the history */
      return g_strdup_printf (_ ("keep hooping %u together"), number);
    case HW_KEEP_GRAIN:
      /* Translators: a step of the history */
      return g_strdup_printf (_ ("keep hooping %u along the grain"), number);
    case HW_KEEP_ALL:
    default:
      /* Translators: a step of the history */
      return g_strdup_printf (_ ("hold hooping %u as it is"), number);
    }
}

void
hw_bench_keep_hooping (HwBench *bench, guint hooping, HwKeep keep)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  if (bench->plan == NULL || hooping >= bench->plan->n_hoopings)
    return;
  const HwHooping *held = &bench->plan->hoopings[hooping];
  g_auto (GStrv) ids = hw_bench_ids_of (bench, bench->plan, held->motifs, held->n_motifs);
  if (held->hold == HW_PLACE_FROZEN || ids[0] == NULL)
    return;

  g_autofree char *name = step_name (keep, hooping + 1);
  g_autoptr (GPtrArray) pins = hw_bench_pins_without (bench, ids);
  g_ptr_array_add (pins, hw_bench_pin_for (bench->plan, hooping, ids, keep));
  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_set_pins (bench->scene, pins);
  hw_bench_end_edit (bench);
}

const HwPin *
hw_bench_pin_of (HwBench *bench, guint hooping)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  if (bench->plan == NULL || hooping >= bench->plan->n_hoopings)
    return NULL;
  const HwHooping *held = &bench->plan->hoopings[hooping];
  GPtrArray *pins = hw_scene_get_pins (bench->scene);
  g_auto (GStrv) ids = hw_bench_ids_of (bench, bench->plan, held->motifs, held->n_motifs);

  if (held->hold != HW_PLACE_PINNED)
    return NULL;
  for (guint i = 0; i < pins->len; i++)
    if (share_a_motif (((HwPin *)g_ptr_array_index (pins, i))->motifs, ids))
      return g_ptr_array_index (pins, i);
  return NULL;
}

/* The bench and its pins: a hooping held fast, wholly or only its motifs, until the person lets it go. */
#include "bench.h"

#include <glib/gi18n.h>
#include <math.h>

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

  if (n == 0)
    return g_strdup (_ ("what is gone"));
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

static void
set_pins_without (HwBench *bench, char **ids, GPtrArray *pins)
{
  g_autofree char *words = words_for (bench, ids);
  g_autofree char *name = g_strdup_printf (_ ("let %s go"), words);

  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_set_pins (bench->scene, pins);
  hw_bench_end_edit (bench);
}

/* NULL when the hooping is stitched, or there is none. */
static char **
free_ids (HwBench *bench, guint hooping)
{
  if (bench->plan == NULL || hooping >= bench->plan->n_hoopings
      || bench->plan->hoopings[hooping].hold == HW_PLACE_FROZEN)
    return NULL;
  const HwHooping *held = &bench->plan->hoopings[hooping];
  return hw_bench_ids_of (bench, bench->plan, held->motifs, held->n_motifs);
}

void
hw_bench_unpin (HwBench *bench, guint hooping)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_auto (GStrv) ids = free_ids (bench, hooping);

  if (ids == NULL || ids[0] == NULL || !hw_bench_has_pin (bench, hooping))
    return;
  g_autoptr (GPtrArray) pins = hw_bench_pins_without (bench, ids);
  set_pins_without (bench, ids, pins);
}

gboolean
hw_bench_has_pin (HwBench *bench, guint hooping)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  g_auto (GStrv) ids = free_ids (bench, hooping);
  GPtrArray *pins = hw_scene_get_pins (bench->scene);

  for (guint i = 0; ids != NULL && i < pins->len; i++)
    if (share_a_motif (((HwPin *)g_ptr_array_index (pins, i))->motifs, ids))
      return TRUE;
  return FALSE;
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

static char **
ids_of_pin (HwBench *bench, const HwPin *pin)
{
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  for (guint k = 0; pin->motifs != NULL && pin->motifs[k] != NULL; k++)
    if (hw_scene_find_motif (bench->scene, pin->motifs[k]) != NULL)
      g_strv_builder_add (ids, pin->motifs[k]);
  return g_strv_builder_end (ids);
}

void
hw_bench_let_pin_go (HwBench *bench, const HwPin *pin)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (pin != NULL);

  GPtrArray *old = hw_scene_get_pins (bench->scene);
  g_autoptr (GPtrArray) pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);
  g_auto (GStrv) ids = ids_of_pin (bench, pin);

  for (guint i = 0; i < old->len; i++)
    if (g_ptr_array_index (old, i) != pin)
      g_ptr_array_add (pins, hw_pin_ref (g_ptr_array_index (old, i)));
  if (pins->len < old->len)
    set_pins_without (bench, ids, pins);
}

static gboolean
is_as_pinned (const HwPlan *plan, const HwHooping *hooping, const HwPin *pin)
{
  switch (pin->keep)
    {
    case HW_KEEP_GRAIN:
      return fabs (remainder (hooping->angle, 90)) < 1e-6;
    case HW_KEEP_ALL:
      return g_strcmp0 (hw_snapshot_hoop (plan->snapshot, hooping->hoop)->id, pin->hoop) == 0
             && hw_point_distance (hooping->centre, pin->centre) < 1e-6
             && fabs (remainder (hooping->angle - pin->angle, 360)) < 1e-6;
    case HW_KEEP_MOTIFS:
    default:
      return TRUE;
    }
}

/* What is stitched, or gone, no longer matters to a pin. */
gboolean
hw_bench_is_pin_kept (HwBench *bench, const HwPin *pin)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (pin != NULL, FALSE);

  const HwPlan *plan = bench->plan;
  int hooping = -1;
  guint n = 0;

  if (plan == NULL || !g_ptr_array_find (plan->snapshot->pins, pin, NULL))
    return TRUE;
  for (guint k = 0; pin->motifs != NULL && pin->motifs[k] != NULL; k++)
    {
      int motif = hw_snapshot_find_motif (plan->snapshot, pin->motifs[k]);
      int its = motif >= 0 ? hw_plan_hooping_of (plan, (guint)motif) : -1;

      if (motif < 0 || (its >= 0 && plan->hoopings[its].hold == HW_PLACE_FROZEN))
        continue;
      if (its < 0 || (n > 0 && its != hooping))
        return FALSE;
      hooping = its;
      n++;
    }
  return n == 0
         || (plan->hoopings[hooping].hold == HW_PLACE_PINNED && plan->hoopings[hooping].n_motifs == n
             && is_as_pinned (plan, &plan->hoopings[hooping], pin));
}

/* "Fig branch", "Fig branch and Quince", "Fig branch, Quince and Pear" */
static char *
names_of (HwBench *bench, char **ids)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; ids[k] != NULL; k++)
    {
      if (k > 0)
        g_string_append (text, ids[k + 1] == NULL ? _ (" and ") : _ (", "));
      g_string_append (text, hw_scene_motif_get_record (hw_scene_find_motif (bench->scene, ids[k]))->name);
    }
  return g_string_free (text, FALSE);
}

char *
hw_bench_pin_text (HwBench *bench, const HwPin *pin)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  g_return_val_if_fail (pin != NULL, NULL);

  g_auto (GStrv) ids = ids_of_pin (bench, pin);
  g_autofree char *names = names_of (bench, ids);
  g_autofree char *held = NULL;

  if (ids[0] == NULL)
    return g_strdup (_ ("Held: motifs that are no longer in the scene"));
  if (pin->keep == HW_KEEP_ALL)
    held = g_strdup_printf (_ ("Held as it is: the hooping of %s"), names);
  else if (pin->keep == HW_KEEP_GRAIN)
    held = g_strdup_printf (ids[1] == NULL ? _ ("Held: %s has a hooping of its own, along the grain")
                                           : _ ("Held: %s share a hooping, along the grain"),
                            names);
  else
    held = g_strdup_printf (
        ids[1] == NULL ? _ ("Held: %s has a hooping of its own") : _ ("Held: %s share a hooping"), names);
  /* Translators: a decision that the plan could not follow */
  return hw_bench_is_pin_kept (bench, pin) ? g_steal_pointer (&held)
                                           : g_strdup_printf (_ ("%s – not kept"), held);
}

const HwPin *
hw_bench_pin_behind (HwBench *bench, const HwProblem *problem)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  g_return_val_if_fail (problem != NULL, NULL);

  GPtrArray *pins = hw_scene_get_pins (bench->scene);
  const HwPlan *plan = bench->plan;

  if (problem->kind != HW_PROBLEM_PIN || plan == NULL || problem->motif < 0
      || problem->motif >= (int)plan->snapshot->motifs->len)
    return NULL;
  const char *id = hw_snapshot_motif (plan->snapshot, (guint)problem->motif)->id;
  for (guint i = 0; i < pins->len; i++)
    {
      const HwPin *pin = g_ptr_array_index (pins, i);

      if (pin->motifs != NULL && g_strv_contains ((const char *const *)pin->motifs, id)
          && !hw_bench_is_pin_kept (bench, pin))
        return pin;
    }
  return NULL;
}

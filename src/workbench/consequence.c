/* What comes of joining or splitting hoopings, told before it is done: the changed scene is planned by a planner of its own, on a thread of its
 * own, and the counts of both plans are set side by side. */
#include "consequence.h"

#include <glib/gi18n.h>
#include <math.h>

#include "bench-private.h"
#include "consequence-private.h"

#define SECONDS 3.0 /* a preview need not be proven */

void
hw_consequence_free (HwConsequence *consequence)
{
  g_clear_pointer (&consequence->instead, hw_snapshot_unref);
  g_free (consequence->text);
  g_free (consequence);
}

static void
free_apart_among (HwSnapshot *changed, char **ids)
{
  g_autoptr (GPtrArray) apart = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_apart_unref);

  for (guint i = 0; i < changed->apart->len; i++)
    {
      HwApart *pair = g_ptr_array_index (changed->apart, i);
      if (!g_strv_contains ((const char *const *)ids, pair->first)
          || !g_strv_contains ((const char *const *)ids, pair->second))
        g_ptr_array_add (apart, hw_apart_ref (pair));
    }
  g_ptr_array_unref (changed->apart);
  changed->apart = g_steal_pointer (&apart);
}

static HwSnapshot *
with_pin (HwBench *bench, const HwPlan *plan, guint hooping, char **all, char **kept, HwKeep keep)
{
  g_autoptr (HwSnapshot) now = hw_scene_snapshot (bench->scene);
  HwSnapshot *changed = hw_snapshot_copy (now);

  g_ptr_array_unref (changed->pins);
  changed->pins = hw_bench_pins_without (bench, all);
  g_ptr_array_add (changed->pins, hw_bench_pin_for (plan, hooping, kept, keep));
  return changed;
}

static gboolean
is_free (const HwPlan *plan, guint hooping)
{
  return plan != NULL && hooping < plan->n_hoopings && plan->hoopings[hooping].hold != HW_PLACE_FROZEN;
}

HwSnapshot *
hw_consequence_joined (HwBench *bench, const HwPlan *plan, guint first, guint second)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  if (!is_free (plan, first) || !is_free (plan, second) || first == second)
    return NULL;
  const HwHooping *a = &plan->hoopings[first], *b = &plan->hoopings[second];
  g_auto (GStrv) of_a = hw_bench_ids_of (bench, plan, a->motifs, a->n_motifs);
  g_auto (GStrv) of_b = hw_bench_ids_of (bench, plan, b->motifs, b->n_motifs);
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  g_strv_builder_addv (ids, (const char **)of_a);
  g_strv_builder_addv (ids, (const char **)of_b);
  g_auto (GStrv) all = g_strv_builder_end (ids);
  if (of_a[0] == NULL || of_b[0] == NULL)
    return NULL;
  HwSnapshot *changed = with_pin (bench, plan, first, all, all, HW_KEEP_MOTIFS);
  free_apart_among (changed, all);
  return changed;
}

HwSnapshot *
hw_consequence_split (HwBench *bench, const HwPlan *plan, guint hooping, const char *const *taken_out)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  g_return_val_if_fail (taken_out != NULL, NULL);

  if (!is_free (plan, hooping))
    return NULL;
  const HwHooping *split = &plan->hoopings[hooping];
  g_auto (GStrv) all = hw_bench_ids_of (bench, plan, split->motifs, split->n_motifs);
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  for (guint i = 0; all[i] != NULL; i++)
    if (!g_strv_contains (taken_out, all[i]))
      g_strv_builder_add (ids, all[i]);
  g_auto (GStrv) kept = g_strv_builder_end (ids);
  if (kept[0] == NULL || g_strv_length (kept) == g_strv_length (all))
    return NULL;
  return with_pin (bench, plan, hooping, all, kept, HW_KEEP_MOTIFS);
}

HwSnapshot *
hw_consequence_along_grain (HwBench *bench, const HwPlan *plan, guint hooping)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  if (!is_free (plan, hooping))
    return NULL;
  g_auto (GStrv) all
      = hw_bench_ids_of (bench, plan, plan->hoopings[hooping].motifs, plan->hoopings[hooping].n_motifs);
  return all[0] != NULL ? with_pin (bench, plan, hooping, all, all, HW_KEEP_GRAIN) : NULL;
}

static gboolean
has_text (const HwPlan *plan, const char *text)
{
  for (guint i = 0; i < plan->problems->len; i++)
    if (g_str_equal (((const HwProblem *)g_ptr_array_index (plan->problems, i))->text, text))
      return TRUE;
  return FALSE;
}

static gboolean
are_together (const HwPlan *plan, const char *const *ids)
{
  int together = -2;

  for (guint i = 0; ids != NULL && ids[i] != NULL; i++)
    {
      int motif = hw_snapshot_find_motif (plan->snapshot, ids[i]);
      int hooping = motif >= 0 ? hw_plan_hooping_of (plan, (guint)motif) : -1;

      if (hooping < 0 || (together >= 0 && hooping != together))
        return FALSE;
      together = hooping;
    }
  return TRUE;
}

/* What the new plan complains of and the old one did not: a wish that cannot be kept first. */
static const char *
new_trouble (const HwPlan *before, const HwPlan *after, gboolean grave_only)
{
  const char *trouble = NULL;

  for (guint i = 0; i < after->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (after->problems, i);

      if (has_text (before, problem->text))
        continue;
      if (!grave_only && problem->kind == HW_PROBLEM_PIN)
        return problem->text;
      if (problem->grave && trouble == NULL)
        trouble = problem->text;
    }
  return trouble;
}

static char *
hoopings_text (guint before, guint after)
{
  g_autofree char *now = g_strdup_printf (ngettext ("%u hooping", "%u hoopings", before), before);

  if (before == after)
    return g_strdup_printf (_ ("Still %s"), now);
  return g_strdup_printf (ngettext ("%s becomes %u", "%s become %u", before), now, after);
}

static char *
changes_text (guint before, guint after)
{
  guint n = before > after ? before - after : after - before;

  if (n == 0)
    return g_strdup (_ ("as many thread changes"));
  if (after < before)
    return g_strdup_printf (ngettext ("%u thread change less", "%u thread changes less", n), n);
  return g_strdup_printf (ngettext ("%u thread change more", "%u thread changes more", n), n);
}

static char *
minutes_text (double before, double after)
{
  guint n = (guint)MIN (lround (fabs (after - before)), G_MAXINT);

  if (n == 0)
    return g_strdup (_ ("as much time"));
  if (after < before)
    return g_strdup_printf (ngettext ("%u minute less", "%u minutes less", n), n);
  return g_strdup_printf (ngettext ("%u minute more", "%u minutes more", n), n);
}

char *
hw_consequence_counts_text (const HwPlan *before, const HwPlan *after)
{
  g_autofree char *hoopings = hoopings_text (before->n_hoopings, after->n_hoopings);
  g_autofree char *changes = changes_text (before->thread_changes, after->thread_changes);
  g_autofree char *minutes = minutes_text (before->minutes, after->minutes);

  /* Translators: "6 hoopings become 7, 3 thread changes less, 12 minutes more." */
  return g_strdup_printf (_ ("%s, %s, %s."), hoopings, changes, minutes);
}

HwConsequence *
hw_consequence_new (const HwPlan *before, const HwPlan *after, const char *const *kept_together)
{
  g_return_val_if_fail (before != NULL && after != NULL, NULL);

  HwConsequence *consequence = g_new0 (HwConsequence, 1);
  gboolean together = are_together (after, kept_together);
  const char *trouble = new_trouble (before, after, together);

  consequence->possible = together && trouble == NULL;
  if (trouble != NULL)
    consequence->text = g_strdup (trouble);
  else if (!together)
    consequence->text = g_strdup (_ ("No hoop takes these motifs together in the order they need."));
  else
    consequence->text = hw_consequence_counts_text (before, after);
  return consequence;
}

typedef struct
{
  HwPlan *before;
  HwSnapshot *changed;
  char **together;
  HwUnit unit;
} Weighing;

static void
weighing_free (gpointer data)
{
  Weighing *weighing = data;

  hw_plan_unref (weighing->before);
  hw_snapshot_unref (weighing->changed);
  g_strfreev (weighing->together);
  g_free (weighing);
}

static void
weigh (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Weighing *weighing = data;
  HwPlanOptions options = { .seconds = SECONDS, .unit = weighing->unit };
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwPlan) after = hw_planner_plan (planner, weighing->changed, &options, cancellable, NULL, NULL);
  g_autoptr (HwConsequence) consequence = NULL;

  if (after != NULL)
    consequence = hw_consequence_new (weighing->before, after, (const char *const *)weighing->together);
  if (after != NULL && hw_consequence_is_of_grain (weighing->changed))
    hw_consequence_weigh_grain (consequence, weighing->before, weighing->changed, after, &options,
                                cancellable);
  if (after == NULL || g_cancellable_is_cancelled (cancellable))
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, _ ("It was left."));
  else
    g_task_return_pointer (task, g_steal_pointer (&consequence), (GDestroyNotify)hw_consequence_free);
}

void
hw_consequence_weigh_async (HwBench *bench,
                            const HwPlan *before,
                            const HwSnapshot *changed,
                            const char *const *kept_together,
                            GCancellable *cancellable,
                            GAsyncReadyCallback callback,
                            gpointer user_data)
{
  g_return_if_fail (HW_IS_BENCH (bench) && before != NULL);
  g_return_if_fail (changed != NULL);

  g_autoptr (GTask) task = g_task_new (bench, cancellable, callback, user_data);
  Weighing *weighing = g_new0 (Weighing, 1);

  weighing->before = hw_plan_ref (before);
  weighing->changed = hw_snapshot_ref ((HwSnapshot *)changed);
  weighing->together = g_strdupv ((char **)kept_together);
  weighing->unit = bench->unit;
  g_task_set_task_data (task, weighing, weighing_free);
  g_task_run_in_thread (task, weigh);
}

HwConsequence *
hw_consequence_weigh_finish (GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (G_IS_TASK (result), NULL);
  return g_task_propagate_pointer (G_TASK (result), error);
}

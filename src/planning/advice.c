/* Advice is an edit that was planned and found better. The count of hoopings does not ask for threads, so these are left out while planning unless
 * the least time is asked for; that spares the search for fewer thread changes. */
#include "advice.h"

#include "advice-private.h"
#include "common-hoops.h"
#include "../geometry/language.h"

#define ONE_TRY 0.25    /* seconds of planning for one piece of advice, at most */
#define WORSE 0.05      /* mm: less is rounding */
#define LEAST_SAVED 1.0 /* minutes */

void
hw_advice_free (HwAdvice *advice)
{
  g_free (advice->text);
  g_free (advice);
}

static void
replace_motif (HwSnapshot *snapshot, guint motif, HwMotif *by)
{
  hw_motif_unref (snapshot->motifs->pdata[motif]);
  snapshot->motifs->pdata[motif] = by;
}

static void
add_hoop (HwSnapshot *snapshot, double width, double height)
{
  for (guint k = 0; k < HW_N_COMMON_HOOPS; k++)
    {
      g_autoptr (HwHoop) hoop = hw_common_hoop_new (k, snapshot);

      if (hoop->field_width == width && hoop->field_height == height)
        {
          g_ptr_array_add (snapshot->hoops, g_steal_pointer (&hoop));
          return;
        }
    }
  g_return_if_reached ();
}

static HwSnapshot *
take (const HwSnapshot *snapshot, const HwAdvice *advice)
{
  HwSnapshot *changed = hw_snapshot_copy (snapshot);
  HwMotif *motif;

  if (advice->kind == HW_ADVICE_HOOP)
    {
      add_hoop (changed, advice->field_width, advice->field_height);
      return changed;
    }
  motif = hw_motif_copy (hw_snapshot_motif (snapshot, (guint)advice->motif));
  if (advice->kind == HW_ADVICE_SCALE)
    motif->placement.scale = advice->scale;
  if (advice->kind == HW_ADVICE_TURN)
    motif->placement.angle = hw_angle_normal (motif->placement.angle + advice->turn);
  motif->placement.position.x += advice->shift.x;
  motif->placement.position.y += advice->shift.y;
  replace_motif (changed, (guint)advice->motif, motif);
  return changed;
}

HwSnapshot *
hw_advice_apply (const HwPlan *plan, const HwAdvice *advice)
{
  g_return_val_if_fail (plan != NULL && advice != NULL, NULL);
  g_return_val_if_fail (advice->kind == HW_ADVICE_HOOP
                            || (advice->motif >= 0 && (guint)advice->motif < plan->snapshot->motifs->len),
                        NULL);

  return take (plan->snapshot, advice);
}

HwSnapshot *
hw_advising_take (const HwAdvising *advising, const HwAdvice *advice)
{
  return take (advising->plain, advice);
}

gboolean
hw_advising_is_over (const HwAdvising *advising)
{
  return g_cancellable_is_cancelled (advising->cancellable) || g_get_monotonic_time () >= advising->deadline;
}

/* How bad a problem of the kind is for the motif in a plan; 0 when there is none. */
static double
amount_of (const HwPlan *plan, HwProblemKind kind, int motif)
{
  for (guint p = 0; p < plan->problems->len; p++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, p);

      if (problem->kind == kind && problem->motif == motif)
        return problem->amount;
    }
  return 0;
}

static gboolean
has_problem (const HwPlan *plan, const HwProblem *wanted)
{
  for (guint p = 0; p < plan->problems->len; p++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, p);

      if (problem->kind == wanted->kind && problem->motif == wanted->motif)
        return TRUE;
    }
  return FALSE;
}

gboolean
hw_advising_is_oversize (const HwPlan *plan, int motif)
{
  for (guint p = 0; p < plan->problems->len; p++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, p);

      if (problem->kind == HW_PROBLEM_OVERSIZE && problem->motif == motif)
        return TRUE;
    }
  return FALSE;
}

static gboolean
brings_trouble (const HwPlan *before, const HwPlan *then)
{
  for (guint p = 0; p < then->problems->len; p++)
    {
      const HwProblem *problem = g_ptr_array_index (then->problems, p);

      if ((problem->kind == HW_PROBLEM_OUTSIDE_EDGE_LINE || problem->kind == HW_PROBLEM_OUTSIDE_CLOTH)
          && problem->amount > amount_of (before, problem->kind, problem->motif) + WORSE)
        return TRUE;
      if ((problem->grave || problem->kind == HW_PROBLEM_PIN) && !has_problem (before, problem))
        return TRUE;
    }
  return FALSE;
}

/* While a try goes on. */
typedef struct
{
  GCancellable *stop;
  HwWorth most;
} Trying;

static void
found_cb (const HwPlan *plan, gpointer data)
{
  const Trying *trying = data;

  if (plan->lower_bound > trying->most.hoopings || plan->minutes_bound > trying->most.minutes)
    g_cancellable_cancel (trying->stop);
}

static void
cancelled_cb (GCancellable *cancellable, GCancellable *stop)
{
  g_cancellable_cancel (stop);
}

HwPlan *
hw_advising_try (const HwAdvising *advising, HwPlanner *planner, const HwSnapshot *snapshot, HwWorth most)
{
  gint64 left = advising->deadline - g_get_monotonic_time ();
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_autoptr (HwPlan) then = NULL;
  Trying trying = { stop, most };
  HwPlanOptions options
      = { .seconds = MIN (ONE_TRY, (double)MAX (left, 0) / G_USEC_PER_SEC), .unit = advising->unit };
  gulong handler = 0;

  if (advising->cancellable != NULL)
    handler = g_cancellable_connect (advising->cancellable, G_CALLBACK (cancelled_cb), g_object_ref (stop),
                                     g_object_unref);
  then = hw_planner_plan (planner, snapshot, &options, stop, found_cb, &trying);
  if (advising->cancellable != NULL)
    g_cancellable_disconnect (advising->cancellable, handler);
  if (then == NULL || then->n_hoopings > most.hoopings || then->minutes > most.minutes
      || brings_trouble (advising->plan, then))
    return NULL;
  return g_steal_pointer (&then);
}

gboolean
hw_advising_saves_time (const HwAdvising *advising)
{
  return advising->plan->snapshot->wishes.best == HW_BEST_LEAST_TIME;
}

HwWorth
hw_advising_less_than (const HwAdvising *advising, guint hoopings, double minutes)
{
  HwWorth most = HW_WORTH_ANY;

  if (hw_advising_saves_time (advising))
    most.minutes = minutes - LEAST_SAVED;
  else
    most.hoopings = hoopings - 1;
  return most;
}

static char *
saved_time_text (double before, double then)
{
  guint saved = (guint)lround (CLAMP (before - then, 0, 1e8));
  g_autofree char *less = g_strdup_printf (ngettext ("%u minute less", "%u minutes less", saved), saved);
  g_autofree char *time_before = hw_plan_time_text (before), *time_then = hw_plan_time_text (then);

  if (g_str_equal (time_before, time_then)) /* both are rounded when they are long */
    return g_steal_pointer (&less);
  /* Translators: "12 minutes less: about 1 h 08 in place of about 1 h 20" */
  return g_strdup_printf (_ ("%s: %s in place of %s"), less, time_then, time_before);
}

char *
hw_advising_gain_text (const HwAdvising *advising, const HwPlan *then)
{
  guint before = advising->plan->n_hoopings, saved = before - then->n_hoopings;

  if (hw_advising_saves_time (advising))
    return saved_time_text (advising->plan->minutes, then->minutes);
  if (saved == 1)
    return g_strdup_printf (_ ("one hooping less: %u in place of %u"), then->n_hoopings, before);
  return g_strdup_printf (
      ngettext ("%u hooping less: %u in place of %u", "%u hoopings less: %u in place of %u", saved), saved,
      then->n_hoopings, before);
}

static HwSnapshot *
without_threads (const HwSnapshot *scene)
{
  HwSnapshot *plain = hw_snapshot_copy (scene);

  for (guint i = 0; i < plain->motifs->len && scene->wishes.best != HW_BEST_LEAST_TIME; i++)
    {
      HwMotif *motif = hw_motif_copy (hw_snapshot_motif (scene, i));

      hw_motif_set_threads (motif, NULL, 0);
      replace_motif (plain, i, motif);
    }
  return plain;
}

GPtrArray *
hw_advice_find_within (const HwPlan *plan, HwUnit unit, double seconds, GCancellable *cancellable)
{
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GPtrArray) hoops = NULL;
  HwAdvising advising = { .plan = plan, .unit = unit, .cancellable = cancellable };
  gint64 end;

  g_return_val_if_fail (plan != NULL, NULL);

  advising.start = g_get_monotonic_time ();
  end = advising.start + (gint64)(CLAMP (seconds, 0, 1e6) * G_USEC_PER_SEC);
  found = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_advice_free);
  hoops = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_advice_free);
  advising.plain = without_threads (plan->snapshot);
  advising.planner = hw_planner_new ();
  advising.ex = hw_explaining_new (plan, unit);
  advising.deadline = end;
  hw_advise_turns (&advising, found);
  hw_advise_scales (&advising, found);
  /* Hoops take half of the time at most; they come last in the answer, but are the fewer to try. */
  advising.deadline = (g_get_monotonic_time () + end) / 2;
  hw_advise_hoops (&advising, hoops);
  advising.deadline = end;
  hw_advise_moves (&advising, found);
  g_ptr_array_extend_and_steal (found, g_steal_pointer (&hoops));
  hw_explaining_free (advising.ex);
  hw_planner_free (advising.planner);
  hw_snapshot_unref (advising.plain);
  return g_cancellable_is_cancelled (cancellable) ? NULL : g_steal_pointer (&found);
}

GPtrArray *
hw_advice_find (const HwPlan *plan, HwUnit unit, GCancellable *cancellable)
{
  return hw_advice_find_within (plan, unit, HW_ADVICE_SECONDS, cancellable);
}

typedef struct
{
  HwPlan *plan;
  HwUnit unit;
} Asked;

static void
asked_free (gpointer data)
{
  Asked *asked = data;

  hw_plan_unref (asked->plan);
  g_free (asked);
}

static void
find_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Asked *asked = data;
  GPtrArray *found = hw_advice_find (asked->plan, asked->unit, cancellable);

  if (found != NULL)
    g_task_return_pointer (task, found, (GDestroyNotify)g_ptr_array_unref);
  else
    g_task_return_error_if_cancelled (task);
}

void
hw_advice_find_async (const HwPlan *plan,
                      HwUnit unit,
                      GCancellable *cancellable,
                      GAsyncReadyCallback callback,
                      gpointer user_data)
{
  g_autoptr (GTask) task = NULL;
  Asked *asked;

  g_return_if_fail (plan != NULL);

  task = g_task_new (NULL, cancellable, callback, user_data);
  asked = g_new0 (Asked, 1);
  asked->plan = hw_plan_ref (plan);
  asked->unit = unit;
  g_task_set_source_tag (task, hw_advice_find_async);
  g_task_set_task_data (task, asked, asked_free);
  g_task_run_in_thread (task, find_in_thread);
}

GPtrArray *
hw_advice_find_finish (GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_task_is_valid (result, NULL), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}

/* A plan: the ordered hoopings that stitch a scene, and what is said about them. Its counts are made here:
 * stitches, thread changes and minutes follow from the motifs' order alone. */
#include "plan.h"

#include <math.h>

#include "../geometry/language.h"

G_DEFINE_QUARK (hw_plan_error_quark, hw_plan_error)

static void
problem_free (gpointer data)
{
  HwProblem *problem = data;

  g_free (problem->text);
  g_free (problem);
}

HwPlan *
hw_plan_new (const HwSnapshot *snapshot)
{
  HwPlan *plan;

  g_return_val_if_fail (snapshot != NULL, NULL);

  plan = g_new0 (HwPlan, 1);
  g_atomic_ref_count_init (&plan->ref_count);
  plan->snapshot = hw_snapshot_ref ((HwSnapshot *)snapshot);
  plan->problems = g_ptr_array_new_with_free_func (problem_free);
  plan->language = hw_language_now ();
  return plan;
}

HwPlan *
hw_plan_ref (const HwPlan *plan)
{
  HwPlan *shared = (HwPlan *)plan;

  g_return_val_if_fail (plan != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_plan_unref (HwPlan *plan)
{
  g_return_if_fail (plan != NULL);

  if (!g_atomic_ref_count_dec (&plan->ref_count))
    return;
  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      g_free (plan->hoopings[i].motifs);
      g_free (plan->hoopings[i].steps);
      g_free (plan->hoopings[i].marks);
      g_free (plan->hoopings[i].predicted_error);
    }
  g_free (plan->hoopings);
  g_free (plan->proof);
  g_free (plan->proof_motifs);
  g_ptr_array_unref (plan->problems);
  hw_snapshot_unref (plan->snapshot);
  g_free (plan);
}

HwProblem *
hw_plan_add_problem (HwPlan *plan, HwProblemKind kind, int motif, gboolean grave, char *text)
{
  HwProblem *problem;

  g_return_val_if_fail (plan != NULL, NULL);

  problem = g_new0 (HwProblem, 1);
  problem->kind = kind;
  problem->motif = motif;
  problem->other = -1;
  problem->hooping = -1;
  problem->grave = grave;
  problem->text = text;
  if (motif >= 0)
    problem->where = hw_snapshot_motif (plan->snapshot, motif)->placement.position;
  g_ptr_array_add (plan->problems, problem);
  return problem;
}

static const HwWork *
work_in (const GPtrArray *pins, const char *motif)
{
  for (guint i = 0; pins != NULL && i < pins->len; i++)
    {
      const HwPin *pin = g_ptr_array_index (pins, i);

      if (pin->work != NULL && pin->motifs != NULL
          && g_strv_contains ((const char *const *)pin->motifs, motif))
        return pin->work;
    }

  return NULL;
}

const HwWork *
hw_work_of_hooping (const HwPlan *plan, guint hooping)
{
  const HwHooping *h = &plan->hoopings[hooping];
  const char *motif = h->n_motifs > 0 ? hw_snapshot_motif (plan->snapshot, h->motifs[0])->id : NULL;

  if (motif == NULL)
    return NULL;

  return work_in (h->hold == HW_PLACE_FROZEN ? plan->snapshot->frozen : plan->snapshot->pins, motif);
}

GArray *
hw_plan_steps (const HwPlan *plan, guint hooping)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (HwBlockStep));
  const HwHooping *one;

  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, steps);

  one = &plan->hoopings[hooping];
  if (one->steps != NULL)
    return g_array_append_vals (steps, one->steps, one->n_steps);
  for (guint k = 0; k < one->n_motifs; k++)
    for (guint t = 0; t < hw_snapshot_motif (plan->snapshot, one->motifs[k])->n_threads; t++)
      {
        HwBlockStep step = { one->motifs[k], t };

        g_array_append_val (steps, step);
      }
  return steps;
}

int
hw_plan_hooping_of (const HwPlan *plan, guint motif)
{
  g_return_val_if_fail (plan != NULL, -1);

  for (guint i = 0; i < plan->n_hoopings; i++)
    for (guint j = 0; j < plan->hoopings[i].n_motifs; j++)
      if (plan->hoopings[i].motifs[j] == motif)
        return i;
  return -1;
}

const char *
hw_problem_nick (HwProblemKind kind)
{
  static const char *const nicks[] = {
    [HW_PROBLEM_OVERSIZE] = "oversize",
    [HW_PROBLEM_OUTSIDE_EDGE_LINE] = "outside-edge-line",
    [HW_PROBLEM_OUTSIDE_CLOTH] = "outside-cloth",
    [HW_PROBLEM_ORDER_LOOP] = "order-loop",
    [HW_PROBLEM_ARTWORK] = "artwork",
    [HW_PROBLEM_OUTLINE_REPAIRED] = "outline-repaired",
    [HW_PROBLEM_PIN] = "pin",
    [HW_PROBLEM_MARKS] = "marks",
    [HW_PROBLEM_NO_HOOP] = "no-hoop",
    [HW_PROBLEM_SCALE_RANGE] = "scale-range",
    [HW_PROBLEM_DENSE] = "dense",
    [HW_PROBLEM_HAIRLINE] = "hairline",
    [HW_PROBLEM_FRAME_OFF_CLOTH] = "frame-off-cloth",
    [HW_PROBLEM_FRAME_ON_STITCHING] = "frame-on-stitching",
    [HW_PROBLEM_CLOTH_TOO_SMALL] = "cloth-too-small",
    [HW_PROBLEM_STITCHED_OUT_OF_ORDER] = "stitched-out-of-order",
    [HW_PROBLEM_PART] = "part",
  };

  g_return_val_if_fail ((guint)kind < G_N_ELEMENTS (nicks), NULL);
  return nicks[kind];
}

const char *
hw_plan_status_nick (HwPlanStatus status)
{
  static const char *const nicks[] = {
    [HW_PLAN_OPTIMAL] = "optimal",
    [HW_PLAN_FEASIBLE] = "feasible",
    [HW_PLAN_UNPLANNABLE] = "unplannable",
  };

  g_return_val_if_fail ((guint)status < G_N_ELEMENTS (nicks), NULL);
  return nicks[status];
}

/* Whether the thread is another than *last, the one in the needle so far (NULL: none yet). */
static guint
count_change (const HwThreadBlock *thread, const HwThreadBlock **last)
{
  guint change = *last != NULL && !hw_thread_same (*last, thread);

  *last = thread;
  return change;
}

/* The same over the motif's own thread blocks. */
static guint
count_changes (const HwMotif *motif, const HwThreadBlock **last)
{
  guint changes = 0;

  for (guint i = 0; i < motif->n_threads; i++)
    changes += count_change (&motif->threads[i], last);
  return changes;
}

static guint
count_one_by_one (const HwPlan *plan)
{
  const HwThreadBlock *last = NULL;
  g_autofree guint8 *held = g_new0 (guint8, plan->snapshot->motifs->len + 1);
  guint changes = 0;

  for (guint i = 0; i < plan->n_hoopings; i++)
    for (guint j = 0; j < plan->hoopings[i].n_motifs; j++)
      held[plan->hoopings[i].motifs[j]] = TRUE;
  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    if (held[i])
      changes += count_changes (hw_snapshot_motif (plan->snapshot, i), &last);
  return changes;
}

void
hw_plan_count (HwPlan *plan)
{
  const HwThreadBlock *last = NULL;
  const HwMachine *machine;

  g_return_if_fail (plan != NULL);

  machine = &plan->snapshot->machine;
  plan->thread_changes = 0;
  plan->minutes = 0;
  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      HwHooping *hooping = &plan->hoopings[i];

      hooping->stitches = hooping->thread_changes = 0;
      for (guint j = 0; j < hooping->n_motifs; j++)
        {
          const HwMotif *motif = hw_snapshot_motif (plan->snapshot, hooping->motifs[j]);

          if (hooping->steps == NULL)
            hooping->thread_changes += count_changes (motif, &last);
          hooping->stitches += hw_motif_stitches (motif);
        }
      for (guint k = 0; k < hooping->n_steps; k++)
        {
          const HwBlockStep *step = &hooping->steps[k];

          hooping->thread_changes
              += count_change (&hw_snapshot_motif (plan->snapshot, step->motif)->threads[step->block], &last);
        }
      hooping->minutes = machine->minutes_per_hooping + hooping->thread_changes * machine->minutes_per_change
                         + hooping->stitches / MAX (machine->stitches_per_minute, 1.0);
      plan->thread_changes += hooping->thread_changes;
      plan->minutes += hooping->minutes;
    }
  plan->one_by_one_changes = count_one_by_one (plan);
}

char *
hw_plan_time_text (double minutes)
{
  guint whole = lround (MIN (minutes, 1e8));

  if (whole < 60)
    return g_strdup_printf (ngettext ("about %u minute", "about %u minutes", whole), whole);
  if (whole >= 300)
    whole = (whole + 2) / 5 * 5;
  return g_strdup_printf (_ ("about %u h %02u"), whole / 60, whole % 60);
}

static char *
count_text (const HwPlan *plan)
{
  guint n = plan->n_hoopings;
  guint over = n > plan->lower_bound ? n - plan->lower_bound : 0;
  g_autofree char *count = g_strdup_printf (ngettext ("%u hooping", "%u hoopings", n), n);

  if (plan->status == HW_PLAN_UNPLANNABLE)
    return g_strdup_printf (_ ("%s, not the whole scene"), count);
  if (plan->snapshot->wishes.best == HW_BEST_LEAST_TIME)
    return g_steal_pointer (&count);
  if (plan->status == HW_PLAN_OPTIMAL)
    return g_strdup_printf (_ ("%s, proven fewest"), count);
  return g_strdup_printf (
      ngettext ("%s, at most %u more than the fewest", "%s, at most %u more than the fewest", over), count,
      over);
}

char *
hw_plan_sentence (const HwPlan *plan)
{
  g_autofree char *count = NULL, *changes = NULL, *time = NULL;

  g_return_val_if_fail (plan != NULL, NULL);

  if (plan->n_hoopings == 0)
    return g_strdup (plan->status == HW_PLAN_UNPLANNABLE ? _ ("Nothing here can be stitched yet")
                                                         : _ ("No motifs yet"));
  count = count_text (plan);
  changes = g_strdup_printf (ngettext ("%u thread change", "%u thread changes", plan->thread_changes),
                             plan->thread_changes);
  time = hw_plan_time_text (plan->minutes);
  if (plan->snapshot->wishes.best == HW_BEST_LEAST_TIME && plan->status != HW_PLAN_UNPLANNABLE)
    {
      double over = plan->minutes - plan->minutes_bound;

      /* Translators: hoopings, thread changes, time, set apart by middle dots */
      if (plan->least_time_proven)
        return g_strdup_printf (_ ("%s · %s · %s, proven least time"), count, changes, time);
      return g_strdup_printf (ngettext ("%s · %s · %s, at most %u minute over the least time",
                                        "%s · %s · %s, at most %u minutes over the least time",
                                        (gulong)ceil (over)),
                              count, changes, time, (guint)ceil (MIN (over, 1e8)));
    }
  /* Translators: hoopings, thread changes, time, set apart by middle dots */
  return g_strdup_printf (_ ("%s · %s · %s"), count, changes, time);
}

char *
hw_plan_saving_sentence (const HwPlan *plan)
{
  g_autofree char *changes = NULL;

  g_return_val_if_fail (plan != NULL, NULL);

  if (plan->n_hoopings == 0 || plan->one_by_one_changes <= plan->thread_changes)
    return NULL;
  changes = g_strdup_printf (ngettext ("%u thread change", "%u thread changes", plan->thread_changes),
                             plan->thread_changes);
  /* Translators: "18 thread changes; stitched one by one it would be 31" */
  return g_strdup_printf (_ ("%s; stitched one by one it would be %u"), changes, plan->one_by_one_changes);
}

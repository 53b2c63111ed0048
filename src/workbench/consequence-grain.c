/* What comes of keeping a hooping along the grain, the hoop at 0 or 90 degrees. Where no hoop takes its motifs so, they are planned by themselves with all hoops
 * square to the cloth: that gives the fewest hoopings along the grain they can be had in. */
#include <glib/gi18n.h>
#include <math.h>

#include "consequence-private.h"

static HwPin *
last_pin (const HwSnapshot *changed)
{
  return changed->pins->len > 0 ? g_ptr_array_index (changed->pins, changed->pins->len - 1) : NULL;
}

gboolean
hw_consequence_is_of_grain (const HwSnapshot *changed)
{
  const HwPin *pin = last_pin (changed);

  return pin != NULL && pin->keep == HW_KEEP_GRAIN;
}

/* Whether the plan has the pin's motifs, and no others, in a hooping along the grain. */
static gboolean
is_kept (const HwPlan *plan, const HwPin *pin)
{
  int together = -1;

  for (guint k = 0; pin->motifs[k] != NULL; k++)
    {
      int motif = hw_snapshot_find_motif (plan->snapshot, pin->motifs[k]);
      int hooping = motif >= 0 ? hw_plan_hooping_of (plan, (guint)motif) : -1;

      if (hooping < 0 || (k > 0 && hooping != together))
        return FALSE;
      together = hooping;
    }
  return together >= 0 && plan->hoopings[together].hold == HW_PLACE_PINNED
         && plan->hoopings[together].n_motifs == g_strv_length (pin->motifs)
         && fabs (remainder (plan->hoopings[together].angle, 90)) < 1e-6;
}

/* The pin's motifs alone, and every hoop square to the cloth. */
static HwSnapshot *
alone_along_grain (const HwSnapshot *changed, const HwPin *pin)
{
  HwSnapshot *alone = hw_snapshot_copy (changed);

  for (guint i = alone->motifs->len; i-- > 0;)
    if (!g_strv_contains ((const char *const *)pin->motifs, hw_snapshot_motif (alone, i)->id))
      g_ptr_array_remove_index (alone->motifs, i);
  for (guint i = 0; i < alone->hoops->len; i++)
    {
      HwHoop *square = hw_hoop_copy (hw_snapshot_hoop (alone, i));

      square->turn = HW_TURN_QUARTER;
      hw_hoop_unref (alone->hoops->pdata[i]);
      alone->hoops->pdata[i] = square;
    }
  g_ptr_array_set_size (alone->pins, 0);
  g_ptr_array_set_size (alone->frozen, 0);
  alone->wishes.best = HW_BEST_FEWEST;
  return alone;
}

static HwPin *
pin_of_part (const HwPlan *parts, guint part)
{
  const HwHooping *hooping = &parts->hoopings[part];
  HwPin *pin = hw_pin_new ();

  pin->keep = HW_KEEP_GRAIN;
  pin->hoop = g_strdup (hw_snapshot_hoop (parts->snapshot, hooping->hoop)->id);
  pin->centre = hooping->centre;
  pin->angle = hooping->angle;
  pin->motifs = g_new0 (char *, hooping->n_motifs + 1);
  for (guint k = 0; k < hooping->n_motifs; k++)
    pin->motifs[k] = g_strdup (hw_snapshot_motif (parts->snapshot, hooping->motifs[k])->id);
  return pin;
}

static HwSnapshot *
with_parts (const HwSnapshot *changed, const HwPlan *parts)
{
  HwSnapshot *parted = hw_snapshot_copy (changed);

  g_ptr_array_remove_index (parted->pins, parted->pins->len - 1);
  for (guint part = 0; part < parts->n_hoopings; part++)
    g_ptr_array_add (parted->pins, pin_of_part (parts, part));
  return parted;
}

static gboolean
all_kept (const HwPlan *then, guint n)
{
  const GPtrArray *pins = then->snapshot->pins;

  for (guint k = 0; k < n; k++)
    if (!is_kept (then, g_ptr_array_index (pins, pins->len - 1 - k)))
      return FALSE;
  return TRUE;
}

static char *
alone_too_large_text (const HwPlan *parts)
{
  for (guint i = 0; i < parts->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (parts->problems, i);

      if (problem->kind == HW_PROBLEM_OVERSIZE && problem->motif >= 0)
        return g_strdup_printf (_ ("Along the grain no hoop in use takes %s even by itself."),
                                hw_snapshot_motif (parts->snapshot, (guint)problem->motif)->name);
    }
  return NULL;
}

/* Why the wish is not kept, where nothing else tells. */
static const char *
why_not (const HwConsequence *consequence, const HwPlan *after)
{
  const HwPin *pin = last_pin (after->snapshot);

  for (guint i = 0; i < after->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (after->problems, i);

      if (problem->kind == HW_PROBLEM_PIN && problem->motif >= 0
          && g_strv_contains ((const char *const *)pin->motifs,
                              hw_snapshot_motif (after->snapshot, (guint)problem->motif)->id))
        return problem->text;
    }
  return consequence->text;
}

static void
say (HwConsequence *consequence, char *text)
{
  g_free (consequence->text);
  consequence->text = text;
}

void
hw_consequence_weigh_grain (HwConsequence *consequence,
                            const HwPlan *before,
                            const HwSnapshot *changed,
                            const HwPlan *after,
                            const HwPlanOptions *options,
                            GCancellable *cancellable)
{
  const HwPin *pin = last_pin (changed);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwPlanner) fresh = hw_planner_new ();
  g_autoptr (HwSnapshot) alone = NULL;
  g_autoptr (HwSnapshot) parted = NULL;
  g_autoptr (HwPlan) parts = NULL;
  g_autoptr (HwPlan) then = NULL;

  if (is_kept (after, pin))
    return;
  consequence->possible = FALSE;
  say (consequence, g_strdup (why_not (consequence, after)));
  alone = alone_along_grain (changed, pin);
  parts = hw_planner_plan (planner, alone, options, cancellable, NULL, NULL);
  if (parts == NULL)
    return;
  if (parts->status == HW_PLAN_UNPLANNABLE)
    {
      char *text = alone_too_large_text (parts);

      if (text != NULL)
        say (consequence, text);
      return;
    }
  if (parts->n_hoopings < 2)
    return;
  parted = with_parts (changed, parts);
  then = hw_planner_plan (fresh, parted, options, cancellable, NULL, NULL);
  if (then == NULL)
    return;
  if (!all_kept (then, parts->n_hoopings))
    {
      say (consequence, g_strdup_printf (_ ("%s Nor can they be had in %u hoopings along the grain."),
                                         consequence->text, parts->n_hoopings));
      return;
    }
  g_autofree char *counts = hw_consequence_counts_text (before, then);
  /* Translators: after why one hooping cannot be had: "It takes 2 hoopings along the grain: 6 hoopings become 7, as many thread changes, 8 minutes more." */
  g_autofree char *offer
      = g_strdup_printf (_ ("It takes %u hoopings along the grain: %s"), parts->n_hoopings, counts);
  char *text = g_strdup_printf ("%s %s", consequence->text, offer);

  say (consequence, text);
  consequence->instead = g_steal_pointer (&parted);
}

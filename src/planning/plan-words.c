/* A plan said again: its sentences are made when it is made, in the screen's language and unit, and paper may speak another. The figures stay; what there is to
 * look at is looked at anew, in the planner's order, so that sentence by sentence the same is said. */
#include "marks.h"
#include "planner-private.h"
#include "warnings.h"

#include "../geometry/language.h"

static void
forget_marks (HwHooping *hooping)
{
  g_clear_pointer (&hooping->marks, g_free);
  g_clear_pointer (&hooping->predicted_error, g_free);
  hooping->n_marks = 0;
}

/* A copy that says nothing yet. */
static HwPlan *
silent_copy (const HwPlan *plan, HwUnit unit)
{
  HwPlan *copy = hw_plan_copy (plan, plan->snapshot);

  g_ptr_array_set_size (copy->problems, 0);
  copy->unit = unit;
  copy->language = hw_language_now ();
  return copy;
}

/* Which marks are missing is told while they are chosen; those chosen then give way to the plan's own. */
static void
say_marks (HwPlan *plan, const HwPlan *from)
{
  for (guint h = 0; h < plan->n_hoopings; h++)
    forget_marks (&plan->hoopings[h]);
  hw_marks_choose (plan, HW_MARKS_SIGMA, plan->unit);
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      HwHooping *hooping = &plan->hoopings[h];
      const HwHooping *own = &from->hoopings[h];

      forget_marks (hooping);
      hooping->marks = g_memdup2 (own->marks, own->n_marks * sizeof (HwMark));
      hooping->n_marks = own->n_marks;
      hooping->predicted_error = g_memdup2 (own->predicted_error, own->n_motifs * sizeof (double));
    }
}

static void
say (HwPlanning *planning, HwPlan *plan, const HwPlan *from)
{
  g_autoptr (HwDensityMap) density = NULL;

  hw_plan_take_problems (plan, planning->scene);
  hw_plan_say_proof (planning, plan);
  say_marks (plan, from);
  hw_warnings_add (plan, planning->placed, plan->unit);
  hw_warnings_add_dense (plan, &density);
}

HwPlan *
hw_plan_said_again (const HwPlan *plan, HwUnit unit)
{
  HwPlanning planning = { .options = HW_PLAN_OPTIONS_DEFAULT };
  HwOverlaps *overlaps;
  HwPlan *again;

  g_return_val_if_fail (plan != NULL, NULL);

  if (plan->unit == unit && plan->language == hw_language_now ())
    return hw_plan_ref (plan);
  again = silent_copy (plan, unit);
  overlaps = hw_overlaps_new ();
  planning.snapshot = plan->snapshot;
  planning.options.unit = unit;
  planning.placings = hw_placings_new ();
  planning.fit = hw_set_fit_new ();
  planning.placed = hw_placings_take (planning.placings, plan->snapshot);
  hw_set_fit_begin (planning.fit, plan->snapshot, planning.placed, plan->snapshot->motifs->len);
  if (hw_planning_look (&planning, overlaps))
    say (&planning, again, plan);
  g_clear_pointer (&planning.held, hw_held_free);
  hw_plan_unref (planning.scene);
  hw_set_fit_free (planning.fit);
  hw_placings_free (planning.placings);
  hw_overlaps_free (overlaps);
  return again;
}

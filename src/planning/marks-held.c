/* Marks that are there already: those drawn for a hooping that is stitched or in the machine, which it keeps whatever is planned, and those the person put
 * or drew, which serve wherever they can. */

#include "mark-list.h"
#include "marks-private.h"
#include "../geometry/language.h"

#define SAME_ANGLE 1e-6

/* Whether the pin is the one the hooping was made from. */
static gboolean
is_pin_of (const HwPlan *plan, const HwHooping *hooping, const HwPin *pin)
{
  const HwSnapshot *snapshot = plan->snapshot;
  const char *first = hooping->n_motifs > 0 ? hw_snapshot_motif (snapshot, hooping->motifs[0])->id : NULL;

  if (pin->marks == NULL || pin->n_marks == 0 || pin->keep != HW_KEEP_ALL
      || hw_point_distance (pin->centre, hooping->centre) > HW_SAME_MARK
      || ABS (pin->angle - hooping->angle) > SAME_ANGLE
      || hw_snapshot_find_hoop (snapshot, pin->hoop) != (int)hooping->hoop)
    return FALSE;
  return first == NULL || (pin->motifs != NULL && g_strv_contains ((const char *const *)pin->motifs, first));
}

const HwPin *
hw_marks_pin_of (const HwPlan *plan, guint index)
{
  const HwHooping *hooping = &plan->hoopings[index];
  GPtrArray *pins = hooping->hold == HW_PLACE_FROZEN   ? plan->snapshot->frozen
                    : hooping->hold == HW_PLACE_PINNED ? plan->snapshot->pins
                                                       : NULL;

  for (guint i = 0; pins != NULL && i < pins->len; i++)
    if (is_pin_of (plan, hooping, g_ptr_array_index (pins, i)))
      return g_ptr_array_index (pins, i);
  return NULL;
}

static gboolean
stitches (const HwHooping *hooping, int motif)
{
  for (guint i = 0; i < hooping->n_motifs; i++)
    if ((int)hooping->motifs[i] == motif)
      return TRUE;
  return FALSE;
}

static gboolean
is_among (const GArray *points, HwPoint at)
{
  for (guint i = 0; i < points->len; i++)
    if (hw_point_distance (g_array_index (points, HwPoint, i), at) < HW_SAME_MARK)
      return TRUE;
  return FALSE;
}

static void
add_problem (HwPlan *plan, guint index, int motif, HwPoint at, const char *trouble, HwUnit unit)
{
  g_autofree char *place = hw_mark_place_text (plan->snapshot, at, unit);
  HwProblem *problem = hw_plan_add_problem (
      plan, HW_PROBLEM_MARKS, motif, FALSE,
      /* Translators: the name of a motif; a place such as "60.0 mm right, 12.5 mm down"; a reason such as "it lies beside the cloth". */
      g_strdup_printf (_ ("The mark held for %s (%s from the corner) cannot serve because %s. "
                          "Move it or let it go."),
                       hw_snapshot_motif (plan->snapshot, (guint)motif)->name, place, trouble));

  problem->hooping = (int)index;
  problem->where = at;
}

GArray *
hw_marks_held_for (HwPlan *plan, guint index, HwOutline *const *placed, HwUnit unit)
{
  GArray *usable = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  g_autoptr (GArray) refused = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  const GPtrArray *held = plan->snapshot->held_marks;

  for (guint i = 0; held != NULL && i < held->len; i++)
    {
      const HwHeldMark *mark = g_ptr_array_index (held, i);
      int motif = hw_snapshot_find_motif (plan->snapshot, mark->motif);
      g_autofree char *trouble = NULL;

      if (motif < 0 || !stitches (&plan->hoopings[index], motif) || is_among (usable, mark->at)
          || is_among (refused, mark->at))
        continue;
      trouble = hw_mark_trouble (plan, index, placed, mark->at, unit);
      if (trouble == NULL && usable->len < HW_MARK_TARGETS - HW_MOST_MARKS)
        {
          g_array_append_val (usable, mark->at);
          continue;
        }
      g_array_append_val (refused, mark->at);
      if (trouble != NULL)
        add_problem (plan, index, motif, mark->at, trouble, unit);
    }
  return usable;
}

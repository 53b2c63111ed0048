/* Motifs that no hoop takes as they lie, but a hoop turned by quarters would if the motif lay square to it: turned on the cloth about its own middle. */
#include <math.h>

#include "advice-private.h"

static HwAdvice *
try_turn (const HwAdvising *advising, guint motif)
{
  const char *name = hw_snapshot_motif (advising->plan->snapshot, motif)->name;
  g_autoptr (GArray) hull = hw_explaining_hull (advising->ex, &motif, 1);
  g_autoptr (HwAdvice) advice = g_new0 (HwAdvice, 1);
  g_autoptr (HwSnapshot) turned = NULL;
  g_autoptr (HwPlan) then = NULL;

  advice->kind = HW_ADVICE_TURN;
  advice->motif = (int)motif;
  advice->turn = hw_explaining_turn (advising->ex, hull);
  if (advice->turn == 0 || hw_snapshot_motif (advising->plan->snapshot, motif)->locked)
    return NULL;
  turned = hw_advising_take (advising, advice);
  then = hw_advising_try (advising, advising->planner, turned, HW_WORTH_ANY);
  if (then == NULL || hw_advising_is_oversize (then, advice->motif))
    return NULL;
  advice->hoopings_then = then->n_hoopings;
  advice->proven_then = then->lower_bound == then->n_hoopings;
  advice->minutes_then = then->minutes;
  advice->text = hw_explaining_turn_text (advice->turn, name);
  return g_steal_pointer (&advice);
}

void
hw_advise_turns (HwAdvising *advising, GPtrArray *found)
{
  for (guint i = 0; i < advising->plan->snapshot->motifs->len && !hw_advising_is_over (advising); i++)
    {
      HwAdvice *advice = hw_advising_is_oversize (advising->plan, (int)i) ? try_turn (advising, i) : NULL;

      if (advice != NULL)
        g_ptr_array_add (found, advice);
    }
}

/* Common hoops the person does not own, each planned with. And the scale at which a motif that no hoop takes would fit. */
#include <math.h>

#include "advice-private.h"
#include "common-hoops.h"
#include "../geometry/language.h"

static char *
hoop_text (const HwAdvising *advising, const HwAdvice *advice, const HwPlan *then)
{
  g_autofree char *size = hw_size_text (advice->field_width, advice->field_height, advising->unit);
  guint n = then->n_hoopings;

  if (advising->plan->status == HW_PLAN_UNPLANNABLE)
    return g_strdup_printf (ngettext ("With a %s hoop the whole scene can be stitched, in %u hooping.",
                                      "With a %s hoop the whole scene can be stitched, in %u hoopings.", n),
                            size, n);
  if (hw_advising_saves_time (advising))
    {
      g_autofree char *gain = hw_advising_gain_text (advising, then);

      return g_strdup_printf (_ ("With a %s hoop, %s."), size, gain);
    }
  if (then->status == HW_PLAN_OPTIMAL)
    return g_strdup_printf (ngettext ("With a %s hoop: %u hooping in place of %u.",
                                      "With a %s hoop: %u hoopings in place of %u.", n),
                            size, n, advising->plan->n_hoopings);
  return g_strdup_printf (ngettext ("With a %s hoop: %u hooping or fewer in place of %u.",
                                    "With a %s hoop: %u hoopings or fewer in place of %u.", n),
                          size, n, advising->plan->n_hoopings);
}

static HwAdvice *
try_hoop (const HwAdvising *advising, guint k)
{
  gboolean whole = advising->plan->status != HW_PLAN_UNPLANNABLE;
  g_autoptr (HwHoop) hoop = hw_common_hoop_new (k, advising->plan->snapshot);
  g_autoptr (HwAdvice) advice = g_new0 (HwAdvice, 1);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) with = NULL;
  g_autoptr (HwPlan) then = NULL;

  advice->kind = HW_ADVICE_HOOP;
  advice->motif = -1;
  advice->field_width = hoop->field_width;
  advice->field_height = hoop->field_height;
  with = hw_advising_take (advising, advice);
  then = hw_advising_try (
      advising, planner, with,
      whole ? hw_advising_less_than (advising, advising->plan->n_hoopings, advising->plan->minutes)
            : HW_WORTH_ANY);
  if (then == NULL || then->status == HW_PLAN_UNPLANNABLE)
    return NULL;
  advice->hoopings_then = then->n_hoopings;
  advice->proven_then = then->status == HW_PLAN_OPTIMAL;
  advice->minutes_then = then->minutes;
  advice->text = hoop_text (advising, advice, then);
  return g_steal_pointer (&advice);
}

/* Most saved first, then the smaller hoop. */
static int
compare_hoops (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const HwAdvising *advising = data;
  const HwAdvice *a = *(HwAdvice *const *)pa, *b = *(HwAdvice *const *)pb;
  double area_a = a->field_width * a->field_height, area_b = b->field_width * b->field_height;

  if (hw_advising_saves_time (advising) && a->minutes_then != b->minutes_then)
    return a->minutes_then < b->minutes_then ? -1 : 1;
  if (!hw_advising_saves_time (advising) && a->hoopings_then != b->hoopings_then)
    return a->hoopings_then < b->hoopings_then ? -1 : 1;
  return (area_a > area_b) - (area_a < area_b);
}

void
hw_advise_hoops (HwAdvising *advising, GPtrArray *found)
{
  g_autoptr (GPtrArray) hoops = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_advice_free);
  gboolean whole = advising->plan->status != HW_PLAN_UNPLANNABLE;

  if (advising->plan->snapshot->motifs->len == 0 || (whole && advising->plan->n_hoopings < 2))
    return;
  /* The largest first: what does not help there need not be tried smaller, and time may end before all are tried. */
  for (guint k = HW_N_COMMON_HOOPS; k-- > 0 && !hw_advising_is_over (advising);)
    {
      HwAdvice *advice
          = hw_common_hoop_is_there (k, advising->plan->snapshot) ? NULL : try_hoop (advising, k);

      if (advice != NULL)
        g_ptr_array_add (hoops, advice);
    }
  g_ptr_array_sort_with_data (hoops, compare_hoops, advising);
  g_ptr_array_extend_and_steal (found, g_steal_pointer (&hoops));
}

static char *
scale_text (const HwAdvising *advising, const HwAdvice *advice, double part)
{
  const HwWishes *wishes = &advising->plan->snapshot->wishes;
  const char *name = hw_snapshot_motif (advising->plan->snapshot, (guint)advice->motif)->name;

  if (advice->scale >= wishes->scale_low - 1e-9)
    return g_strdup_printf (_ ("At %d %% of its size here, %s fits."), (int)lround (part * 100), name);
  return g_strdup_printf (
      _ ("At %d %% of its size here, %s fits, but then it needs new stitches: below %d %% of "
         "its design they lie too close."),
      (int)lround (part * 100), name, (int)lround (wishes->scale_low * 100));
}

static HwAdvice *
try_scale (const HwAdvising *advising, guint motif)
{
  const HwMotif *record = hw_snapshot_motif (advising->plan->snapshot, motif);
  g_autoptr (GArray) hull = hw_explaining_hull (advising->ex, &motif, 1);
  HwNearMiss near_miss = hw_sharing_nearest ((const HwPoint *)hull->data, hull->len, advising->ex->usable);
  double part = floor (near_miss.scale * 100 + 1e-9) / 100;
  g_autoptr (HwAdvice) advice = g_new0 (HwAdvice, 1);
  g_autoptr (HwSnapshot) smaller = NULL;
  g_autoptr (HwPlan) then = NULL;

  advice->kind = HW_ADVICE_SCALE;
  advice->motif = (int)motif;
  advice->scale = record->placement.scale * part;
  if (part < 0.01 || record->locked || !isfinite (near_miss.miss) || advice->scale < HW_SMALLEST_SCALE)
    return NULL;
  smaller = hw_advising_take (advising, advice);
  then = hw_advising_try (advising, advising->planner, smaller, HW_WORTH_ANY);
  if (then == NULL || hw_advising_is_oversize (then, advice->motif))
    return NULL;
  advice->hoopings_then = then->n_hoopings;
  advice->proven_then = then->lower_bound == then->n_hoopings;
  advice->minutes_then = then->minutes;
  advice->text = scale_text (advising, advice, part);
  return g_steal_pointer (&advice);
}

void
hw_advise_scales (HwAdvising *advising, GPtrArray *found)
{
  for (guint i = 0; i < advising->plan->snapshot->motifs->len && !hw_advising_is_over (advising); i++)
    {
      HwAdvice *advice = hw_advising_is_oversize (advising->plan, (int)i) ? try_scale (advising, i) : NULL;

      if (advice != NULL)
        g_ptr_array_add (found, advice);
    }
}

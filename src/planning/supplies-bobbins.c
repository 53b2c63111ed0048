/* The bobbin goes on from hooping to hooping, from the last full one that was written down at the machine, or from a full one where that is not known. One that would run out inside the next is taken out before it, so that no hooping is interrupted; only a hooping
 * that takes more than a full one is, and there the bobbin is changed between two thread blocks where that can be. */
#include <math.h>

#include "supplies-private.h"

/* Metres that are nothing: sums of many blocks. */
#define NOTHING 1e-6

typedef struct
{
  HwSupplying *supplying;
  double full; /* metres on a full bobbin */
  double left; /* on the one in the machine; NAN: not known */
  guint n;     /* full ones taken */
} Winding;

static void
put_in_full (Winding *winding)
{
  winding->left = winding->full;
  winding->n++;
}

/* The thread block in which the bobbin in the machine comes to its end. */
static HwBlockStep
find_end (const Winding *winding, const GArray *steps)
{
  double left = winding->left;

  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);
      double metres = hw_supplying_bobbin (winding->supplying, step);

      if (isfinite (metres))
        left -= metres;
      if (left < -NOTHING)
        return *step;
    }
  return g_array_index (steps, HwBlockStep, steps->len - 1);
}

static void
note_change (GArray *changes, const HwBlockStep *block, gboolean within)
{
  HwBobbinChange change = { *block, within };

  g_array_append_val (changes, change);
}

/* A hooping that takes more than a full bobbin, begun with a full one. */
static void
change_within (Winding *winding, const GArray *steps, HwHoopingSupplies *taken)
{
  g_autoptr (GArray) changes = g_array_new (FALSE, FALSE, sizeof (HwBobbinChange));
  gsize n;

  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);
      double metres = hw_supplying_bobbin (winding->supplying, step);

      if (!isfinite (metres))
        continue;
      if (metres > winding->left + NOTHING && i > 0 && winding->left < winding->full)
        {
          note_change (changes, step - 1, FALSE);
          put_in_full (winding);
        }
      for (; metres > winding->left + NOTHING; put_in_full (winding))
        {
          metres -= winding->left;
          note_change (changes, step, TRUE);
        }
      winding->left -= metres;
    }
  taken->changes = g_array_steal (changes, &n);
  taken->n_changes = (guint)n;
}

static gboolean
is_known (const Winding *winding, const GArray *steps)
{
  for (guint i = 0; i < steps->len; i++)
    if (!isfinite (hw_supplying_bobbin (winding->supplying, &g_array_index (steps, HwBlockStep, i))))
      return FALSE;
  return TRUE;
}

/* What is stitched of a hooping, off the bobbin. One that held out longer than it can has been changed without a word. */
static void
wind_back (Winding *winding, const HwPlan *plan, guint hooping)
{
  const HwWork *work = hw_work_of_hooping (plan, hooping);
  g_autoptr (GArray) steps = hw_plan_steps (plan, hooping);
  guint done = plan->hoopings[hooping].hold == HW_PLACE_FROZEN ? steps->len
               : work != NULL                                  ? MIN (work->threads_done, steps->len)
                                                               : 0;
  guint full_at = work != NULL && work->new_bobbin ? MIN (work->bobbin_at, done) : G_MAXUINT;

  for (guint i = 0; i < done; i++)
    {
      if (i == full_at)
        winding->left = winding->full;
      winding->left -= hw_supplying_bobbin (winding->supplying, &g_array_index (steps, HwBlockStep, i));
      if (winding->left < -NOTHING)
        winding->left = NAN;
    }
  if (full_at == done)
    winding->left = winding->full;
}

static void
wind_for (Winding *winding, HwHoopingSupplies *taken)
{
  g_autoptr (GArray) steps = hw_supplying_steps (winding->supplying, taken->hooping);
  double metres = isfinite (taken->bobbin_metres) ? taken->bobbin_metres : 0;

  if (winding->n == 0 && metres > 0 && !isfinite (winding->left))
    put_in_full (winding);
  taken->bobbin_left = winding->left;
  if (metres > winding->left + NOTHING && winding->left < winding->full)
    {
      taken->bobbin_runs_out = TRUE;
      taken->bobbin_lacking = metres - winding->left;
      taken->bobbin_out_at = find_end (winding, steps);
      put_in_full (winding);
    }
  if (metres > winding->full + NOTHING)
    {
      if (!isfinite (winding->left))
        put_in_full (winding);
      change_within (winding, steps, taken);
    }
  else
    winding->left -= metres;
  if (!is_known (winding, steps))
    winding->left = NAN;
}

guint
hw_supplying_wind (HwSupplying *supplying, HwHoopingSupplies *hoopings, guint n, double *now)
{
  const HwPlan *plan = supplying->plan;
  Winding winding = { .supplying = supplying, .left = NAN };

  winding.full = hw_supply_facts_full_bobbin (&plan->snapshot->supplies);
  g_return_val_if_fail (winding.full > 0, 0);

  for (guint h = 0; h < plan->n_hoopings; h++)
    wind_back (&winding, plan, h);
  *now = winding.left;
  /* What is in the machine is stitched first. */
  for (guint h = 0; h < n; h++)
    if (hw_work_of_hooping (plan, hoopings[h].hooping) != NULL)
      wind_for (&winding, &hoopings[h]);
  for (guint h = 0; h < n; h++)
    if (hw_work_of_hooping (plan, hoopings[h].hooping) == NULL)
      wind_for (&winding, &hoopings[h]);
  return winding.n;
}

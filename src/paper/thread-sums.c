/* How much of each thread a plan takes, by the number of its stitches (common practice, no source: HW_METRES_PER_1000). A thread of which one block does not
 * know its stitches is not known in all. */
#include "thread-sums.h"

#include <math.h>

#include "../scene/thread-needs.h"
#include "steps.h"

static double
block_metres (const HwThreadBlock *block)
{
  return block->stitches > 0 ? block->stitches * HW_METRES_PER_1000 / 1000 : NAN;
}

static void
add_block (GArray *threads, const HwThreadBlock *block)
{
  HwThreadSum sum = { block, block->stitches, block_metres (block) };

  for (guint i = 0; i < threads->len; i++)
    {
      HwThreadSum *known = &g_array_index (threads, HwThreadSum, i);

      if (!hw_thread_same (known->block, block))
        continue;
      known->stitches += sum.stitches;
      known->metres += sum.metres;
      return;
    }
  g_array_append_val (threads, sum);
}

static void
add_hooping (GArray *threads, const HwPlan *plan, guint hooping)
{
  g_autoptr (GArray) steps = hw_plan_steps (plan, hooping);

  for (guint i = 0; i < steps->len; i++)
    add_block (threads, hw_step_block (plan, &g_array_index (steps, HwBlockStep, i)));
}

static double
sum_known (const GArray *threads)
{
  double metres = NAN;

  for (guint i = 0; i < threads->len; i++)
    {
      double more = g_array_index (threads, HwThreadSum, i).metres;

      if (isfinite (more))
        metres = isfinite (metres) ? metres + more : more;
    }

  return metres;
}

gboolean
hw_hooping_is_to_come (const HwPrintJob *job, guint hooping)
{
  return job->plan->hoopings[hooping].hold != HW_PLACE_FROZEN && hw_print_job_takes_hooping (job, hooping);
}

HwThreadSums *
hw_thread_sums_new (const HwPrintJob *job)
{
  HwThreadSums *sums = g_new0 (HwThreadSums, 1);

  sums->threads = g_array_new (FALSE, FALSE, sizeof (HwThreadSum));
  for (guint h = 0; h < job->plan->n_hoopings; h++)
    if (hw_hooping_is_to_come (job, h))
      add_hooping (sums->threads, job->plan, h);
  sums->metres = sum_known (sums->threads);

  return sums;
}

void
hw_thread_sums_free (HwThreadSums *sums)
{
  if (sums == NULL)
    return;

  g_array_unref (sums->threads);
  g_free (sums);
}

double
hw_thread_metres_of_hooping (const HwPlan *plan, guint hooping)
{
  g_autoptr (GArray) threads = g_array_new (FALSE, FALSE, sizeof (HwThreadSum));

  add_hooping (threads, plan, hooping);

  return sum_known (threads);
}

const char *
hw_thread_sums_basis (void)
{
  return _ ("Reckoned at 5 m to a thousand stitches; 4 to 6 m are usual.");
}

/* What a plan takes, hooping by hooping and in all. Thread follows from the stitches (lockstitch.c); a full bobbin is put in before a hooping in which the one
 * in the machine would run out, and within a hooping only where that takes more than a full one; a piece of stabiliser is the frame with what
 * must reach beyond it. */
#include "supplies.h"

#include <math.h>

#include "../geometry/language.h"
#include "../scene/lockstitch.h"
#include "parts-hoopings.h"
#include "roll-cutting.h"
#include "supplies-private.h"

static void
use_free (gpointer data)
{
  HwThreadUse *use = data;

  g_free (use->name);
  g_free (use);
}

/* What of a length is not known stays so; what is known is added. */
static void
add_known (double *sum, double more)
{
  if (isfinite (more))
    *sum = isfinite (*sum) ? *sum + more : more;
}

/* Adds what a thread takes to the thread of the same name and colour. */
static void
add_use (GPtrArray *threads, const HwThreadUse *use)
{
  HwThreadUse *own;

  for (guint i = 0; i < threads->len; i++)
    {
      own = threads->pdata[i];
      if (g_strcmp0 (own->name, use->name) != 0 || !hw_colour_equal (own->colour, use->colour))
        continue;
      own->stitches += use->stitches;
      own->metres += use->metres;
      own->bobbin_metres += use->bobbin_metres;
      own->counted = own->counted && use->counted;
      return;
    }
  own = g_memdup2 (use, sizeof *use);
  own->name = g_strdup (use->name);
  g_ptr_array_add (threads, own);
}

/* What each motif takes, reckoned when it is first asked for. */
static const HwThreadLength *
lengths_of (HwSupplying *supplying, guint motif)
{
  if (supplying->lengths[motif] == NULL)
    supplying->lengths[motif] = hw_motif_thread_lengths (hw_snapshot_motif (supplying->plan->snapshot, motif),
                                                         &supplying->plan->snapshot->supplies);
  return supplying->lengths[motif];
}

HwSupplying *
hw_supplying_new (const HwPlan *plan)
{
  HwSupplying *supplying = g_new0 (HwSupplying, 1);

  supplying->plan = plan;
  supplying->lengths = g_new0 (HwThreadLength *, plan->snapshot->motifs->len + 1);
  return supplying;
}

void
hw_supplying_free (HwSupplying *supplying)
{
  for (guint i = 0; i < supplying->plan->snapshot->motifs->len; i++)
    g_free (supplying->lengths[i]);
  g_free (supplying->lengths);
  g_free (supplying);
}

/* Thread blocks of the hooping that are stitched already: of the one in the machine. */
static guint
blocks_done (const HwPlan *plan, guint hooping)
{
  const HwWork *work = hw_work_of_hooping (plan, hooping);

  return plan->hoopings[hooping].hold == HW_PLACE_PINNED && work != NULL ? work->threads_done : 0;
}

GArray *
hw_supplying_steps (HwSupplying *supplying, guint hooping)
{
  GArray *steps = hw_plan_steps (supplying->plan, hooping);
  guint done = blocks_done (supplying->plan, hooping);

  if (done > 0)
    g_array_remove_range (steps, 0, MIN (done, steps->len));
  return steps;
}

double
hw_supplying_bobbin (HwSupplying *supplying, const HwBlockStep *step)
{
  return lengths_of (supplying, step->motif)[step->block].bobbin;
}

/* What is done of a hooping in the machine takes no more time. */
static void
count_time (HwSupplying *supplying, const GArray *steps, HwHoopingSupplies *taken)
{
  const HwPlan *plan = supplying->plan;
  const HwHooping *hooping = &plan->hoopings[taken->hooping];
  const HwMachine *machine = &plan->snapshot->machine;
  const HwThreadBlock *last = NULL;

  taken->stitches = hooping->stitches;
  taken->thread_changes = hooping->thread_changes;
  taken->minutes = hooping->minutes;
  if (blocks_done (plan, taken->hooping) == 0)
    return;
  taken->stitches = taken->thread_changes = 0;
  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);
      const HwThreadBlock *block = &hw_snapshot_motif (plan->snapshot, step->motif)->threads[step->block];

      taken->stitches += block->stitches;
      taken->thread_changes += last != NULL && !hw_thread_same (last, block);
      last = block;
    }
  taken->minutes = taken->thread_changes * machine->minutes_per_change
                   + taken->stitches / MAX (machine->stitches_per_minute, 1.0);
}

static void
count_thread (HwSupplying *supplying, const GArray *steps, HwHoopingSupplies *taken)
{
  taken->threads = g_ptr_array_new_with_free_func (use_free);
  taken->needle_metres = taken->bobbin_metres = NAN;
  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);
      const HwThreadBlock *block
          = &hw_snapshot_motif (supplying->plan->snapshot, step->motif)->threads[step->block];
      const HwThreadLength *length = &lengths_of (supplying, step->motif)[step->block];
      HwThreadUse use = { .name = block->name,
                          .colour = block->colour,
                          .stitches = block->stitches,
                          .metres = length->needle,
                          .bobbin_metres = length->bobbin,
                          .counted = length->counted };

      add_use (taken->threads, &use);
      add_known (&taken->needle_metres, length->needle);
      add_known (&taken->bobbin_metres, length->bobbin);
    }
}

static void
measure_piece (const HwPlan *plan, HwHoopingSupplies *taken)
{
  const HwSupplyFacts *facts = &plan->snapshot->supplies;
  guint hoop = plan->hoopings[taken->hooping].hoop;

  taken->sheets = facts->stabiliser_sheets;
  if (hoop >= plan->snapshot->hoops->len)
    return;
  taken->piece_width = hw_snapshot_hoop (plan->snapshot, hoop)->frame_width + 2 * facts->reach;
  taken->piece_height = hw_snapshot_hoop (plan->snapshot, hoop)->frame_height + 2 * facts->reach;
}

static void
take_hooping (HwSupplying *supplying, guint hooping, HwHoopingSupplies *taken)
{
  g_autoptr (GArray) steps = hw_supplying_steps (supplying, hooping);

  taken->hooping = hooping;
  count_time (supplying, steps, taken);
  count_thread (supplying, steps, taken);
  measure_piece (supplying->plan, taken);
}

static void
add_up (HwSupplies *supplies)
{
  supplies->threads = g_ptr_array_new_with_free_func (use_free);
  supplies->needle_metres = supplies->bobbin_metres = NAN;
  for (guint h = 0; h < supplies->n_hoopings; h++)
    {
      const HwHoopingSupplies *taken = &supplies->hoopings[h];

      supplies->stitches += taken->stitches;
      supplies->thread_changes += taken->thread_changes;
      supplies->minutes += taken->minutes;
      add_known (&supplies->needle_metres, taken->needle_metres);
      add_known (&supplies->bobbin_metres, taken->bobbin_metres);
      for (guint i = 0; i < taken->threads->len; i++)
        add_use (supplies->threads, taken->threads->pdata[i]);
    }
}

/* Needles for so many stitches. */
static guint
count_needles (const HwSnapshot *snapshot, guint64 stitches)
{
  const HwSupplyFacts *facts = &snapshot->supplies;
  double last = facts->needle_stitches > 0
                    ? facts->needle_stitches
                    : facts->needle_hours * 60 * MAX (snapshot->machine.stitches_per_minute, 1.0);

  return stitches > 0 ? (guint)MIN (ceil (stitches / MAX (last, 1)), G_MAXINT) : 0;
}

static void
cut_stabiliser (HwSupplies *supplies)
{
  g_autoptr (GArray) pieces = g_array_new (FALSE, FALSE, sizeof (HwRollPiece));

  supplies->roll_width = supplies->plan->snapshot->supplies.roll_width;
  for (guint h = 0; h < supplies->n_hoopings; h++)
    {
      const HwHoopingSupplies *taken = &supplies->hoopings[h];
      HwRollPiece piece = { taken->piece_width, taken->piece_height };

      for (guint k = 0; k < taken->sheets && piece.width > 0; k++)
        g_array_append_val (pieces, piece);
    }
  supplies->roll_length = hw_roll_length ((const HwRollPiece *)pieces->data, pieces->len,
                                          supplies->roll_width, &supplies->pieces_too_wide);
}

HwSupplies *
hw_supplies_new (const HwPlan *plan, guint part)
{
  HwSupplies *supplies;
  HwSupplying *supplying;
  g_autofree int *part_of = NULL;

  g_return_val_if_fail (plan != NULL, NULL);

  supplies = g_new0 (HwSupplies, 1);
  g_atomic_ref_count_init (&supplies->ref_count);
  supplies->plan = hw_plan_ref (plan);
  supplies->hoopings = g_new0 (HwHoopingSupplies, plan->n_hoopings + 1);
  supplying = hw_supplying_new (plan);
  part_of = hw_plan_parts (plan);
  for (guint h = 0; h < plan->n_hoopings; h++)
    if (plan->hoopings[h].hold != HW_PLACE_FROZEN && (part == 0 || part_of[h] == (int)part - 1))
      take_hooping (supplying, h, &supplies->hoopings[supplies->n_hoopings++]);
  add_up (supplies);
  supplies->bobbin_full = hw_supply_facts_full_bobbin (&plan->snapshot->supplies);
  supplies->bobbins
      = hw_supplying_wind (supplying, supplies->hoopings, supplies->n_hoopings, &supplies->bobbin_now);
  supplies->needles = count_needles (plan->snapshot, supplies->stitches);
  cut_stabiliser (supplies);
  hw_supplies_cut_cloth (supplies);
  supplies->assumptions = hw_supplies_assumptions (supplies);
  hw_supplying_free (supplying);
  return supplies;
}

HwSupplies *
hw_supplies_ref (const HwSupplies *supplies)
{
  HwSupplies *shared = (HwSupplies *)supplies;

  g_return_val_if_fail (supplies != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_supplies_unref (HwSupplies *supplies)
{
  g_return_if_fail (supplies != NULL);

  if (!g_atomic_ref_count_dec (&supplies->ref_count))
    return;
  for (guint h = 0; h < supplies->n_hoopings; h++)
    {
      g_ptr_array_unref (supplies->hoopings[h].threads);
      g_free (supplies->hoopings[h].changes);
    }
  g_free (supplies->hoopings);
  g_ptr_array_unref (supplies->threads);
  g_free (supplies->cloth_reason);
  g_free (supplies->assumptions);
  hw_plan_unref (supplies->plan);
  g_free (supplies);
}

const HwHoopingSupplies *
hw_supplies_of_hooping (const HwSupplies *supplies, guint hooping)
{
  g_return_val_if_fail (supplies != NULL, NULL);

  for (guint h = 0; h < supplies->n_hoopings; h++)
    if (supplies->hoopings[h].hooping == hooping)
      return &supplies->hoopings[h];
  return NULL;
}

/* Blocks of neighbouring motifs mixed within one hooping: each run of blocks in one thread is put in order by itself. Runs of a motif keep their
 * order and their hooping; where one motif comes before another, all its runs do. */
#include "planner-private.h"

static const HwBlockRun *
run_at (const HwPlanning *planning, guint i)
{
  return &g_array_index (planning->runs, HwBlockRun, i);
}

/* Row i: the runs that come before run i. */
static guint64 *
order_runs (const HwPlanning *planning, const guint *first_run)
{
  const HwHeldFast *held = planning->held;
  const guint n = planning->runs->len, words = HW_MASK_WORDS (n);
  guint64 *before = g_new0 (guint64, (gsize)MAX (n, 1) * words);

  for (guint i = 0; i < n; i++)
    {
      guint motif = run_at (planning, i)->motif;
      guint64 *row = HW_MASK_ROW (before, i, words);

      for (guint r = first_run[motif]; r < i; r++)
        hw_mask_add (row, r);
      for (HW_MASK_EACH (other, HW_MASK_ROW (held->order->before, motif, held->order->words),
                         held->order->words))
        for (guint r = first_run[other]; r < first_run[other + 1]; r++)
          hw_mask_add (row, r);
    }
  return before;
}

/* Where the runs of each motif begin; one more at the end. */
static guint *
find_first_runs (const HwPlanning *planning)
{
  guint *first_run = g_new0 (guint, planning->held->n + 2);

  for (guint i = 0; i < planning->runs->len; i++)
    first_run[run_at (planning, i)->motif + 1] = i + 1;
  return first_run;
}

void
hw_planning_take_blocks (HwPlanning *planning, HwMayShare may_share)
{
  const guint n = planning->runs->len;
  g_autofree guint *first_run = find_first_runs (planning);
  guint *enters = g_new (guint, n + 1), *leaves = g_new (guint, n + 1), *motif_of = g_new (guint, n + 1);
  guint *pin_of = g_new (guint, n + 1), *item_of = g_new (guint, n + 1);

  for (guint i = 0; i < n; i++)
    {
      const HwBlockRun *run = run_at (planning, i);

      enters[i] = run->enters;
      leaves[i] = run->leaves;
      motif_of[i] = first_run[run->motif];
      pin_of[i] = planning->held->pin_of[run->motif];
      item_of[i] = planning->held->item_of[run->motif];
    }
  planning->blocks = planning->threads;
  planning->blocks.n = n;
  planning->blocks.before = order_runs (planning, first_run);
  planning->blocks.enters = enters;
  planning->blocks.leaves = leaves;
  planning->blocks.pin_of = pin_of;
  planning->blocks.item_of = item_of;
  planning->blocks.motif_of = motif_of;
  planning->blocks.may_share = may_share;
}

void
hw_planning_drop_blocks (HwPlanning *planning)
{
  HwThreadProblem *blocks = &planning->blocks;

  if (blocks->motif_of == NULL)
    return;
  g_free ((guint64 *)blocks->before);
  g_free ((guint *)blocks->enters);
  g_free ((guint *)blocks->leaves);
  g_free ((guint *)blocks->pin_of);
  g_free ((guint *)blocks->item_of);
  g_free ((guint *)blocks->motif_of);
  *blocks = (HwThreadProblem){ 0 };
}

HwThreadOrder *
hw_planning_order_in_blocks (const HwPlanning *planning, const HwThreadOrder *order)
{
  g_autofree guint *first_run = find_first_runs (planning);
  HwThreadOrder *told = hw_thread_order_new (planning->runs->len, order->n_blocks);
  guint n = 0;

  for (guint b = 0, at = 0; b < order->n_blocks; b++)
    {
      for (; at < order->ends[b]; at++)
        for (guint r = first_run[order->sequence[at]]; r < first_run[order->sequence[at] + 1]; r++)
          told->sequence[n++] = r;
      told->ends[b] = n;
    }
  told->changes = hw_thread_order_count (&planning->blocks, told->sequence, told->n);
  told->bound = MIN (told->changes, hw_thread_order_low (&planning->blocks, NULL, planning->blocks.start));
  return told;
}

gboolean
hw_planning_is_motif_by_motif (const HwPlanning *planning, const guint *sequence, guint n)
{
  for (guint k = 1; k < n; k++)
    if (sequence[k] != sequence[k - 1] + 1 && run_at (planning, sequence[k])->first != 0)
      return FALSE; /* a motif that was left is gone on with: it is here that this shows */
  return TRUE;
}

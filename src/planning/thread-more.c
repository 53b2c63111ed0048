/* Less time by a further hooping: setting the cloth once more may save more thread changes than it costs. Each hooping in turn is cut in two,
 * and the row with one more is moved about as in thread-moves.c; it stays when it takes less time in all. */
#include "thread-order.h"

#define MOVES_A_TRIAL 150

/* Whether one more hooping could pay at all: every change that can be saved against its cost. */
static gboolean
could_pay (const HwThreadProblem *problem, const HwThreadOrder *order)
{
  guint low = hw_thread_order_low (problem, NULL, problem->start);

  return order->changes > low && (order->changes - low) * problem->change_cost > problem->hooping_cost;
}

/* Whether the row may be cut before place `at` of its sequence: not inside a motif or a pinned hooping. */
static gboolean
may_cut (const HwThreadProblem *problem, const HwThreadOrder *order, guint begin, guint at, guint end)
{
  if (problem->pin_of[order->sequence[at]] != G_MAXUINT)
    return FALSE;
  for (guint i = begin; i < at; i++)
    for (guint j = at; j < end; j++)
      if (hw_thread_motif (problem, order->sequence[i]) == hw_thread_motif (problem, order->sequence[j]))
        return FALSE;
  return TRUE;
}

static HwThreadOrder *
cut (const HwThreadProblem *problem, const HwThreadOrder *order, guint block, guint at)
{
  HwThreadOrder *trial = hw_thread_order_new (order->n, order->n_blocks);

  hw_thread_order_assign (trial, order);
  memmove (trial->ends + block + 1, trial->ends + block, (order->n_blocks - block) * sizeof (guint));
  trial->ends[block] = at;
  trial->n_blocks++;
  trial->bound = hw_thread_order_low (problem, NULL, problem->start);
  return trial;
}

/* TRUE when a cut somewhere took less time. */
static gboolean
try_cuts (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort, guint *left)
{
  HwThreadProblem fixed = *problem;

  fixed.by_time = FALSE;
  for (guint b = 0, begin = 0; b < order->n_blocks; begin = order->ends[b++])
    for (guint at = begin + 1; at < order->ends[b]; at++)
      {
        HwThreadEffort little = { MOVES_A_TRIAL, 0, effort->deadline, effort->cancellable };
        g_autoptr (HwThreadOrder) trial = NULL;

        if (!may_cut (problem, order, begin, at, order->ends[b]))
          continue;
        if (*left < MOVES_A_TRIAL || g_get_monotonic_time () > effort->deadline
            || g_cancellable_is_cancelled (effort->cancellable))
          return FALSE;
        *left -= MOVES_A_TRIAL;
        trial = cut (problem, order, b, at);
        hw_thread_moves (&fixed, trial, &little);
        if (hw_thread_order_cost (problem, trial) >= hw_thread_order_cost (problem, order))
          continue;
        hw_thread_order_assign (order, trial);
        return TRUE;
      }
  return FALSE;
}

void
hw_thread_more (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort)
{
  guint left = effort->moves;

  while (order->n_blocks < order->n && could_pay (problem, order) && try_cuts (problem, order, effort, &left))
    hw_thread_moves (problem, order, effort);
}

/* Fewer thread changes by small moves: a whole hooping to another place in the row, a motif into another hooping, two motifs exchanged; where
 * least time is asked for, also a motif into a hooping of its own, and a hooping given up. Each move keeps the order and what may share; it
 * stays when it saves something. */
#include "thread-order.h"

typedef struct
{
  const HwThreadProblem *problem;
  const HwThreadEffort *effort;
  guint words, n_blocks;
  guint *block_of;
  HwThreadOrder *best;
  guint looked;
} Moves;

static gboolean
enough (const Moves *moves)
{
  return hw_thread_order_cost (moves->problem, moves->best)
             <= (moves->problem->by_time ? moves->best->cost_bound : moves->best->bound)
         || moves->looked >= moves->effort->moves || g_get_monotonic_time () > moves->effort->deadline
         || g_cancellable_is_cancelled (moves->effort->cancellable);
}

/* Whether the motif comes in no later hooping than one that waits for it; what binds its first block binds them all. */
static gboolean
in_order (const Moves *moves, guint motif)
{
  const HwThreadProblem *problem = moves->problem;

  for (guint i = 0; i < problem->n; i++)
    {
      if (hw_mask_has (HW_MASK_ROW (problem->before, motif, moves->words), i)
          && moves->block_of[i] > moves->block_of[motif])
        return FALSE;
      if (hw_mask_has (HW_MASK_ROW (problem->before, i, moves->words), motif)
          && moves->block_of[i] < moves->block_of[motif])
        return FALSE;
    }
  return TRUE;
}

/* Moves all blocks of a motif. */
static void
put (Moves *moves, guint motif, guint block)
{
  moves->block_of[motif] = block;
  if (moves->problem->motif_of != NULL)
    for (guint i = 0; i < moves->problem->n; i++)
      if (moves->problem->motif_of[i] == motif)
        moves->block_of[i] = block;
}

static gboolean
all_in_order (const Moves *moves)
{
  for (guint j = 0; j < moves->problem->n; j++)
    for (HW_MASK_EACH (i, HW_MASK_ROW (moves->problem->before, j, moves->words), moves->words))
      if (moves->block_of[i] > moves->block_of[j])
        return FALSE;
  return TRUE;
}

static gboolean
still_shares (const Moves *moves, guint block)
{
  g_autofree guint *set = g_new (guint, moves->problem->n + 1);
  guint n = 0;

  for (guint i = 0; i < moves->problem->n; i++)
    if (moves->block_of[i] == block && hw_thread_motif (moves->problem, i) == i)
      set[n++] = i;
  for (guint k = 2; k <= n; k++)
    if (!moves->problem->may_share (moves->problem->data, set, k))
      return FALSE;
  return n > 0;
}

/* Keeps the grouping when it saves something. */
static gboolean
weigh_up (Moves *moves)
{
  g_autoptr (HwThreadOrder) trial
      = hw_thread_order_of_grouping (moves->problem, moves->block_of, moves->n_blocks);

  moves->looked++;
  if (hw_thread_order_cost (moves->problem, trial) >= hw_thread_order_cost (moves->problem, moves->best))
    return FALSE;
  hw_thread_order_assign (moves->best, trial);
  return TRUE;
}

static void
shift_block (Moves *moves, guint from, guint to)
{
  for (guint i = 0; i < moves->problem->n; i++)
    {
      guint *b = &moves->block_of[i];

      if (*b == from)
        *b = to;
      else if (from<to && * b> from && *b <= to)
        (*b)--;
      else if (to < from && *b >= to && *b < from)
        (*b)++;
    }
}

static gboolean
move_blocks (Moves *moves)
{
  for (guint from = 0; from < moves->n_blocks; from++)
    for (guint to = 0; to < moves->n_blocks && !enough (moves); to++)
      {
        if (to == from || to + 1 == from)
          continue;
        shift_block (moves, from, to);
        if (all_in_order (moves) && weigh_up (moves))
          return TRUE;
        shift_block (moves, to, from);
      }
  return FALSE;
}

/* A whole motif that may go elsewhere, by its first block. */
static gboolean
is_free (const Moves *moves, guint motif)
{
  return moves->problem->pin_of[motif] == G_MAXUINT && hw_thread_motif (moves->problem, motif) == motif;
}

static gboolean
is_empty (const Moves *moves, guint block)
{
  for (guint i = 0; i < moves->problem->n; i++)
    if (moves->block_of[i] == block)
      return FALSE;
  return TRUE;
}

/* Takes an empty hooping out of the row, or makes room for one. */
static void
close_block (Moves *moves, guint block)
{
  moves->n_blocks--;
  for (guint i = 0; i < moves->problem->n; i++)
    moves->block_of[i] -= moves->block_of[i] > block;
}

static void
open_block (Moves *moves, guint block)
{
  moves->n_blocks++;
  for (guint i = 0; i < moves->problem->n; i++)
    moves->block_of[i] += moves->block_of[i] >= block;
}

/* A motif into another hooping; where time counts, its own may be given up by that. */
static gboolean
move_motif (Moves *moves, guint i, guint to)
{
  guint from = moves->block_of[i];
  gboolean good;

  put (moves, i, to);
  if (in_order (moves, i) && still_shares (moves, to))
    {
      if (!is_empty (moves, from))
        good = still_shares (moves, from) && weigh_up (moves);
      else
        {
          good = moves->problem->by_time;
          if (good)
            {
              close_block (moves, from);
              good = weigh_up (moves);
              if (!good)
                open_block (moves, from);
            }
        }
      if (good)
        return TRUE;
    }
  put (moves, i, from);
  return FALSE;
}

static gboolean
move_motifs (Moves *moves)
{
  for (guint i = 0; i < moves->problem->n; i++)
    for (guint to = 0; to < moves->n_blocks && is_free (moves, i) && !enough (moves); to++)
      if (to != moves->block_of[i] && move_motif (moves, i, to))
        return TRUE;
  return FALSE;
}

/* A motif into a hooping of its own. */
static gboolean
open_for_motifs (Moves *moves)
{
  for (guint i = 0; i < moves->problem->n && moves->problem->by_time; i++)
    for (guint to = 0; to <= moves->n_blocks && is_free (moves, i) && !enough (moves); to++)
      {
        guint from;

        open_block (moves, to);
        from = moves->block_of[i];
        put (moves, i, to);
        if (!is_empty (moves, from) && in_order (moves, i) && still_shares (moves, from) && weigh_up (moves))
          return TRUE;
        put (moves, i, from);
        close_block (moves, to);
      }
  return FALSE;
}

static gboolean
exchange_motifs (Moves *moves)
{
  for (guint i = 0; i < moves->problem->n; i++)
    for (guint j = 0; j < i && is_free (moves, i) && !enough (moves); j++)
      {
        guint a = moves->block_of[i], b = moves->block_of[j];

        if (a == b || !is_free (moves, j))
          continue;
        put (moves, i, b);
        put (moves, j, a);
        if (in_order (moves, i) && in_order (moves, j) && still_shares (moves, a) && still_shares (moves, b)
            && weigh_up (moves))
          return TRUE;
        put (moves, i, a);
        put (moves, j, b);
      }
  return FALSE;
}

void
hw_thread_moves (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort)
{
  g_autofree guint *block_of = g_new (guint, problem->n + 1);
  Moves moves = { problem, effort, HW_MASK_WORDS (problem->n), order->n_blocks, block_of, order, 0 };

  for (guint k = 0, at = 0; k < order->n_blocks; k++)
    for (; at < order->ends[k]; at++)
      block_of[order->sequence[at]] = k;
  if (!enough (&moves))
    weigh_up (&moves); /* the order inside the hoopings alone */
  while (!enough (&moves)
         && (move_blocks (&moves) || move_motifs (&moves) || exchange_motifs (&moves)
             || open_for_motifs (&moves)))
    ;
}

/* Fewer thread changes by small moves: a whole hooping to another place in the row, a motif into another hooping, two motifs exchanged. Each
 * move keeps the order and what may share; it stays when it saves a change. */
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
  return moves->best->changes <= moves->best->bound || moves->looked >= moves->effort->moves
         || g_get_monotonic_time () > moves->effort->deadline
         || g_cancellable_is_cancelled (moves->effort->cancellable);
}

/* Whether no motif comes in a later hooping than one that waits for it. */
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
    if (moves->block_of[i] == block)
      set[n++] = i;
  for (guint k = 2; k <= n; k++)
    if (!moves->problem->may_share (moves->problem->data, set, k))
      return FALSE;
  return n > 0;
}

/* Keeps the grouping when it saves a change. */
static gboolean
weigh_up (Moves *moves)
{
  HwThreadOrder *trial = hw_thread_order_of_grouping (moves->problem, moves->block_of, moves->n_blocks);

  moves->looked++;
  if (trial->changes >= moves->best->changes)
    {
      hw_thread_order_free (trial);
      return FALSE;
    }
  memcpy (moves->best->sequence, trial->sequence, trial->n * sizeof (guint));
  memcpy (moves->best->ends, trial->ends, trial->n_blocks * sizeof (guint));
  moves->best->changes = trial->changes;
  hw_thread_order_free (trial);
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

static gboolean
is_free (const Moves *moves, guint motif)
{
  return moves->problem->pin_of[motif] == G_MAXUINT;
}

static gboolean
move_motifs (Moves *moves)
{
  for (guint i = 0; i < moves->problem->n; i++)
    for (guint to = 0; to < moves->n_blocks && is_free (moves, i) && !enough (moves); to++)
      {
        guint from = moves->block_of[i];

        if (to == from)
          continue;
        moves->block_of[i] = to;
        if (in_order (moves, i) && still_shares (moves, to) && still_shares (moves, from) && weigh_up (moves))
          return TRUE;
        moves->block_of[i] = from;
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
        moves->block_of[i] = b;
        moves->block_of[j] = a;
        if (in_order (moves, i) && in_order (moves, j) && still_shares (moves, a) && still_shares (moves, b)
            && weigh_up (moves))
          return TRUE;
        moves->block_of[i] = a;
        moves->block_of[j] = b;
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
  while (!enough (&moves) && (move_blocks (&moves) || move_motifs (&moves) || exchange_motifs (&moves)))
    ;
}

/* The fewest thread changes, exactly: over all groupings of the given number of hoopings and all orders at once. States are what is
 * stitched, what of it lies in the hooping at hand, the thread in the needle and the number of hoopings; the cheapest estimate goes first
 * (P. E. Hart, N. J. Nilsson and B. Raphael 1968, "A formal basis for the heuristic determination of minimum cost paths", IEEE Transactions
 * on Systems Science and Cybernetics 4(2)) with the bound of thread-order.c as the estimate. */
#include "thread-order.h"

#define MOST_MOTIFS 64

typedef struct
{
  guint64 done, here; /* stitched; stitched in the hooping at hand */
  guint16 needle, blocks, changes;
  gint16 last; /* the motif stitched last, or -1 */
  int from;
} State;

typedef struct
{
  const HwThreadProblem *problem;
  const HwThreadEffort *effort;
  guint limit; /* hoopings */
  guint64 all;
  guint64 before[MOST_MOTIFS];
  guint64 pin[MOST_MOTIFS]; /* the motifs of its pinned hooping; 0 for free motifs */
  guint n_items;
  guint64 members[MOST_MOTIFS]; /* of an item of the search */
  GArray *states;
  guint32 *slots;
  guint room;
  GPtrArray *open; /* GArray of guint: states by estimate */
  guint most;      /* estimates from here on are no better than what is known */
  gboolean full;
} Find;

#define state_at(find, k) (&g_array_index ((find)->states, State, (k)))

static guint
slot_of (const Find *find, const State *state)
{
  guint64 hash = state->done * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);

  hash ^= (state->here + 1) * G_GUINT64_CONSTANT (0xc2b2ae3d27d4eb4f);
  hash ^= (((guint64)state->needle << 16 | state->blocks) + 1) * G_GUINT64_CONSTANT (0x165667b19e3779f9);
  hash ^= hash >> 31;
  hash *= G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
  return (guint)(hash >> 33) & (find->room - 1);
}

static gboolean
same_state (const State *a, const State *b)
{
  return a->done == b->done && a->here == b->here && a->needle == b->needle && a->blocks == b->blocks;
}

static void
widen (Find *find)
{
  g_free (find->slots);
  find->room *= 2;
  find->slots = g_new0 (guint32, find->room);
  for (guint k = 0; k < find->states->len; k++)
    {
      guint slot = slot_of (find, state_at (find, k));

      while (find->slots[slot] != 0)
        slot = (slot + 1) & (find->room - 1);
      find->slots[slot] = k + 1;
    }
}

static void
put_in_line (Find *find, guint k, guint estimate)
{
  while (find->open->len <= estimate)
    g_ptr_array_add (find->open, g_array_new (FALSE, FALSE, sizeof (guint)));
  g_array_append_val ((GArray *)g_ptr_array_index (find->open, estimate), k);
}

/* Takes up a state unless it is known to be reached as cheaply. */
static void
reach (Find *find, const State *state)
{
  guint64 rest = find->all & ~state->done;
  guint slot = slot_of (find, state), estimate;

  estimate = state->changes + hw_thread_order_low (find->problem, &rest, state->needle);
  if (estimate >= find->most)
    return;
  while (find->slots[slot] != 0 && !same_state (state_at (find, find->slots[slot] - 1), state))
    slot = (slot + 1) & (find->room - 1);
  if (find->slots[slot] != 0)
    {
      State *known = state_at (find, find->slots[slot] - 1);

      if (known->changes <= state->changes)
        return;
      *known = *state;
      put_in_line (find, find->slots[slot] - 1, estimate);
      return;
    }
  if (find->states->len >= find->effort->states)
    {
      find->full = TRUE;
      return;
    }
  g_array_append_val (find->states, *state);
  find->slots[slot] = find->states->len;
  put_in_line (find, find->states->len - 1, estimate);
  if (find->states->len * 2 > find->room)
    widen (find);
}

static gboolean
fits_here (const Find *find, guint64 here, guint motif)
{
  guint set[MOST_MOTIFS], n = 0;
  guint64 pinned = find->pin[motif];

  if (pinned != 0 || find->pin[__builtin_ctzll (here)] != 0)
    return pinned != 0 && (here & ~pinned) == 0;
  for (; here != 0; here &= here - 1)
    set[n++] = (guint)__builtin_ctzll (here);
  set[n++] = motif;
  return find->problem->may_share (find->problem->data, set, n);
}

/* Whether a hooping may end here: no pinned one half done, and the rest within the hoopings left. */
static gboolean
may_close (const Find *find, const State *state)
{
  guint64 rest = 0, left = find->all & ~state->done;

  if (state->here != 0 && (find->pin[__builtin_ctzll (state->here)] & ~state->here) != 0)
    return FALSE;
  if (state->blocks >= find->limit)
    return FALSE;
  if (find->problem->search == NULL)
    return TRUE;
  for (guint item = 0; item < find->n_items; item++)
    if (find->members[item] & left)
      rest |= G_GUINT64_CONSTANT (1) << item;
  return hw_search_within (find->problem->search, &rest, find->limit - state->blocks) != 0;
}

static void
step (Find *find, const State *state, guint at, guint motif, gboolean open_new)
{
  guint enters = find->problem->enters[motif];
  State next = *state;

  next.done |= G_GUINT64_CONSTANT (1) << motif;
  next.here = open_new ? 0 : state->here;
  next.here |= G_GUINT64_CONSTANT (1) << motif;
  next.blocks += open_new;
  if (enters != HW_THREAD_NONE)
    {
      next.changes += state->needle != HW_THREAD_NONE && state->needle != enters;
      next.needle = find->problem->leaves[motif];
    }
  next.last = motif;
  next.from = at;
  reach (find, &next);
}

static void
expand (Find *find, guint at)
{
  State state = *state_at (find, at);
  gboolean close = may_close (find, &state);

  for (guint k = find->problem->n; k-- > 0;) /* what is put in line last is looked at first */
    {
      if ((state.done >> k & 1) || (find->before[k] & ~state.done) != 0)
        continue;
      if (close)
        step (find, &state, at, k, TRUE);
      if (state.here != 0 && fits_here (find, state.here, k))
        step (find, &state, at, k, FALSE);
    }
}

/* Reads the way to a finished state back into the order. */
static void
read_back (const Find *find, guint at, HwThreadOrder *order)
{
  const State *state = state_at (find, at);

  order->changes = state->changes;
  order->n_blocks = state->blocks;
  for (guint k = find->problem->n; k-- > 0; state = state_at (find, state->from))
    {
      order->sequence[k] = state->last;
      order->ends[state->blocks - 1] = MAX (order->ends[state->blocks - 1], k + 1);
    }
}

static gboolean
times_up (const Find *find, guint looked)
{
  return (looked & 7) == 0
         && (g_get_monotonic_time () > find->effort->deadline
             || g_cancellable_is_cancelled (find->effort->cancellable));
}

/* Works through the states in line, cheapest estimate first. */
static void
find_best (Find *find, HwThreadOrder *order)
{
  State start = { .needle = find->problem->start, .last = -1, .from = -1 };
  guint looked = 0, estimate = 0;

  reach (find, &start);
  for (; estimate < find->most; estimate++)
    {
      GArray *line = estimate < find->open->len ? g_ptr_array_index (find->open, estimate) : NULL;

      while (line != NULL && line->len > 0)
        {
          guint at = g_array_index (line, guint, line->len - 1);
          const State *state = state_at (find, at);
          guint64 rest = find->all & ~state->done;

          g_array_set_size (line, line->len - 1);
          if (find->full || times_up (find, looked++))
            {
              order->bound = MAX (order->bound, MIN (estimate, order->changes));
              return;
            }
          if (state->changes + hw_thread_order_low (find->problem, &rest, state->needle) < estimate)
            continue; /* reached more cheaply since */
          if (rest == 0)
            {
              memset (order->ends, 0, order->n * sizeof (guint));
              read_back (find, at, order);
              order->bound = order->changes;
              return;
            }
          expand (find, at);
        }
    }
  order->bound = order->changes; /* nothing cheaper is left */
}

void
hw_thread_search (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort)
{
  Find find = { .problem = problem, .effort = effort, .limit = order->n_blocks, .most = order->changes };

  if (problem->n > MOST_MOTIFS || problem->n == 0 || effort->states == 0)
    return;
  for (guint i = 0; i < problem->n; i++)
    {
      find.all |= G_GUINT64_CONSTANT (1) << i;
      find.before[i] = problem->before[i];
      for (guint j = 0; j < problem->n && problem->pin_of[i] != G_MAXUINT; j++)
        if (problem->pin_of[j] == problem->pin_of[i])
          find.pin[i] |= G_GUINT64_CONSTANT (1) << j;
      if (problem->search != NULL)
        {
          find.members[problem->item_of[i]] |= G_GUINT64_CONSTANT (1) << i;
          find.n_items = MAX (find.n_items, problem->item_of[i] + 1);
        }
    }
  find.states = g_array_new (FALSE, FALSE, sizeof (State));
  find.room = 1024;
  find.slots = g_new0 (guint32, find.room);
  find.open = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  find_best (&find, order);
  g_array_unref (find.states);
  g_ptr_array_unref (find.open);
  g_free (find.slots);
}

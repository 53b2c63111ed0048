/* The fewest thread changes, exactly: over all groupings of the given number of hoopings and all orders at once. States are what is
 * stitched, what of it lies in the hooping at hand, the thread in the needle and the number of hoopings; the cheapest estimate goes first
 * (P. E. Hart, N. J. Nilsson and B. Raphael 1968, "A formal basis for the heuristic determination of minimum cost paths", IEEE Transactions
 * on Systems Science and Cybernetics 4(2)) with the bound of thread-order.c as the estimate, and where time counts the hoopings that what is left needs at least. */
#include "thread-order.h"

#define MOST_MOTIFS 64

typedef struct
{
  guint64 done, here; /* stitched; stitched in the hooping at hand */
  guint64 cost;
  guint16 needle, blocks;
  gint16 last; /* stitched last, or -1 */
  int from;
} State;

/* A state in line. */
typedef struct
{
  guint64 estimate, cost;
  guint at;
} Waiting;

typedef struct
{
  const HwThreadProblem *problem;
  const HwThreadEffort *effort;
  guint limit; /* hoopings; where time counts there is none */
  guint64 hooping_cost, change_cost;
  guint64 all;
  guint64 before[MOST_MOTIFS];
  guint64 pin[MOST_MOTIFS];   /* the motifs of its pinned hooping; 0 for free motifs */
  guint64 whole[MOST_MOTIFS]; /* all blocks of its motif */
  guint n_items;
  guint64 members[MOST_MOTIFS]; /* of an item of the search */
  GArray *states;
  guint32 *slots;
  guint room;
  GArray *open; /* Waiting: a heap, the next on top */
  guint64 most; /* estimates from here on are no better than what is known */
  gboolean full;
} Find;

#define state_at(find, k) (&g_array_index ((find)->states, State, (k)))

static guint
slot_of (const Find *find, const State *state)
{
  guint64 hash = state->done * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);

  hash ^= (state->here + 1) * G_GUINT64_CONSTANT (0xc2b2ae3d27d4eb4f);
  hash ^= (((guint64)state->needle << 16 | (find->problem->by_time ? 0 : state->blocks)) + 1)
          * G_GUINT64_CONSTANT (0x165667b19e3779f9);
  hash ^= hash >> 31;
  hash *= G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
  return (guint)(hash >> 33) & (find->room - 1);
}

static gboolean
same_state (const Find *find, const State *a, const State *b)
{
  return a->done == b->done && a->here == b->here && a->needle == b->needle
         && (find->problem->by_time || a->blocks == b->blocks);
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

/* The cheaper estimate first; among equals what was found last. */
static gboolean
is_sooner (const Waiting *a, const Waiting *b)
{
  return a->estimate != b->estimate ? a->estimate < b->estimate : a->at > b->at;
}

static void
put_in_line (Find *find, guint at, guint64 cost, guint64 estimate)
{
  Waiting fresh = { estimate, cost, at };
  guint k = find->open->len;
  Waiting *line;

  g_array_append_val (find->open, fresh);
  line = (Waiting *)find->open->data;
  for (; k > 0 && is_sooner (&fresh, &line[(k - 1) / 2]); k = (k - 1) / 2)
    line[k] = line[(k - 1) / 2];
  line[k] = fresh;
}

static Waiting
take_next (Find *find)
{
  Waiting *line = (Waiting *)find->open->data, next = line[0];
  guint n = find->open->len - 1, k = 0;
  Waiting last = line[n];

  for (guint child = 1; child < n; k = child, child = 2 * k + 1)
    {
      if (child + 1 < n && is_sooner (&line[child + 1], &line[child]))
        child++;
      if (!is_sooner (&line[child], &last))
        break;
      line[k] = line[child];
    }
  line[k] = last;
  g_array_set_size (find->open, n);
  return next;
}

/* The search's items that some of the motifs belong to. */
static guint64
items_of (const Find *find, guint64 motifs)
{
  guint64 items = 0;

  for (guint item = 0; item < find->n_items; item++)
    if (find->members[item] & motifs)
      items |= G_GUINT64_CONSTANT (1) << item;
  return items;
}

/* No way to go on from the state costs less than this in all. */
static guint64
estimate (const Find *find, const State *state)
{
  guint64 rest = find->all & ~state->done, items;
  guint64 cost = state->cost + find->change_cost * hw_thread_order_low (find->problem, &rest, state->needle);
  guint more = rest != 0 && state->here == 0;

  if (!find->problem->by_time || find->hooping_cost == 0 || rest == 0)
    return cost;
  if (find->problem->search != NULL)
    {
      items = items_of (find, rest | state->here);
      more = MAX (more, hw_search_at_least (find->problem->search, &items) - (state->here != 0));
    }
  return cost + find->hooping_cost * more;
}

/* Takes up a state unless it is known to be reached as cheaply. */
static void
reach (Find *find, const State *state)
{
  guint slot = slot_of (find, state);
  guint64 least;

  while (find->slots[slot] != 0 && !same_state (find, state_at (find, find->slots[slot] - 1), state))
    slot = (slot + 1) & (find->room - 1);
  if (find->slots[slot] != 0 && state_at (find, find->slots[slot] - 1)->cost <= state->cost)
    return;
  least = estimate (find, state);
  if (least >= find->most)
    return;
  if (find->slots[slot] != 0)
    {
      *state_at (find, find->slots[slot] - 1) = *state;
      put_in_line (find, find->slots[slot] - 1, state->cost, least);
      return;
    }
  if (find->states->len >= find->effort->states)
    {
      find->full = TRUE;
      return;
    }
  g_array_append_val (find->states, *state);
  find->slots[slot] = find->states->len;
  put_in_line (find, find->states->len - 1, state->cost, least);
  if (find->states->len * 2 > find->room)
    widen (find);
}

static gboolean
fits_here (const Find *find, guint64 here, guint motif)
{
  guint set[MOST_MOTIFS], n = 0;
  guint64 pinned = find->pin[motif], all_here = here;

  if (find->whole[motif] & here)
    return TRUE;
  if (pinned != 0 || find->pin[__builtin_ctzll (here)] != 0)
    return pinned != 0 && (here & ~pinned) == 0;
  for (; here != 0; here &= here - 1)
    {
      guint k = (guint)__builtin_ctzll (here);

      if ((guint)__builtin_ctzll (find->whole[k] & all_here) == k)
        set[n++] = k;
    }
  set[n++] = motif;
  return find->problem->may_share (find->problem->data, set, n);
}

/* Whether a hooping may end here: no pinned one or motif half done, and the rest within the hoopings left. */
static gboolean
may_close (const Find *find, const State *state)
{
  guint64 rest;

  if (state->here != 0 && (find->pin[__builtin_ctzll (state->here)] & ~state->here) != 0)
    return FALSE;
  for (guint64 here = find->problem->motif_of != NULL ? state->here : 0; here != 0; here &= here - 1)
    if (find->whole[__builtin_ctzll (here)] & ~state->here)
      return FALSE;
  if (find->problem->by_time)
    return TRUE;
  if (state->blocks >= find->limit)
    return FALSE;
  if (find->problem->search == NULL)
    return TRUE;
  rest = items_of (find, find->all & ~state->done);
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
  next.cost += open_new ? find->hooping_cost : 0;
  if (enters != HW_THREAD_NONE)
    {
      if (state->needle != HW_THREAD_NONE && state->needle != enters)
        next.cost += find->change_cost;
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
      if (close && !(find->whole[k] & state.done))
        step (find, &state, at, k, TRUE);
      if (state.here != 0 && fits_here (find, state.here, k))
        step (find, &state, at, k, FALSE);
    }
}

/* Reads the way to a finished state back into the order. A state may have been reached more cheaply after others went on from it, so
 * hoopings and changes are counted along the way. */
static void
read_back (const Find *find, guint at, HwThreadOrder *order)
{
  const State *state = state_at (find, at);
  g_autofree gboolean *opens = g_new0 (gboolean, find->problem->n + 1);

  for (guint k = find->problem->n; k-- > 0; state = state_at (find, state->from))
    {
      guint64 stayed = state_at (find, state->from)->here;

      opens[k] = stayed == 0 || (stayed | G_GUINT64_CONSTANT (1) << state->last) != state->here;
      order->sequence[k] = state->last;
    }
  order->n_blocks = 0;
  for (guint k = 0; k < find->problem->n; k++)
    {
      order->n_blocks += opens[k];
      order->ends[order->n_blocks - 1] = k + 1;
    }
  order->changes = hw_thread_order_count (find->problem, order->sequence, order->n);
}

/* No order costs less than this. */
static void
note_bound (const Find *find, HwThreadOrder *order, guint64 least)
{
  if (!find->problem->by_time)
    {
      order->bound = MAX (order->bound, MIN (least, order->changes));
      return;
    }
  order->cost_bound = MAX (order->cost_bound, MIN (least, hw_thread_order_cost (find->problem, order)));
  if (order->cost_bound == hw_thread_order_cost (find->problem, order) && find->change_cost > 0)
    order->bound = order->changes; /* as many hoopings with fewer changes would cost less */
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
  guint looked = 0;
  guint64 floor
      = 0; /* the highest that the cheapest estimate in line has been, while none was left out of the line */

  reach (find, &start);
  while (find->open->len > 0)
    {
      Waiting next = take_next (find);

      if (!find->full)
        floor = MAX (floor, next.estimate);
      if (find->full || times_up (find, looked++))
        {
          note_bound (find, order, floor);
          return;
        }
      if (state_at (find, next.at)->cost < next.cost)
        continue; /* reached more cheaply since */
      if (state_at (find, next.at)->done == find->all)
        {
          read_back (find, next.at, order);
          find->full = FALSE;
          break;
        }
      expand (find, next.at);
    }
  note_bound (find, order, find->full ? floor : G_MAXUINT64); /* nothing cheaper is left */
}

void
hw_thread_search (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort)
{
  Find find = { .problem = problem,
                .effort = effort,
                .limit = order->n_blocks,
                .hooping_cost = problem->by_time ? problem->hooping_cost : 0,
                .change_cost = problem->by_time ? problem->change_cost : 1,
                .most = hw_thread_order_cost (problem, order) };

  if (problem->n > MOST_MOTIFS || problem->n == 0 || effort->states == 0)
    return;
  for (guint i = 0; i < problem->n; i++)
    {
      find.all |= G_GUINT64_CONSTANT (1) << i;
      find.before[i] = problem->before[i];
      for (guint j = 0; j < problem->n; j++)
        if (hw_thread_motif (problem, j) == hw_thread_motif (problem, i))
          find.whole[i] |= G_GUINT64_CONSTANT (1) << j;
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
  find.open = g_array_new (FALSE, FALSE, sizeof (Waiting));
  find_best (&find, order);
  g_array_unref (find.states);
  g_array_unref (find.open);
  g_free (find.slots);
}

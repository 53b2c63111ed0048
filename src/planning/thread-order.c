/* Thread order. Inside a hooping the best order is found over all subsets of its motifs (M. Held and R. M. Karp 1962, "A dynamic programming
 * approach to sequencing problems", Journal of SIAM 10(1)), carried on from hooping to hooping with the thread left in the needle. The
 * bound strings the motifs, seen as arrows from first to last thread, on as few unbroken runs as Euler's theorem allows. */
#include "thread-order.h"

#define FAR_TOO_MANY 0x3fffffffu
#define MOST_MOVED 60
#define MOST_CELLS (1u << 16) /* of a hooping's table; beyond, it is ordered simply */

HwThreadOrder *
hw_thread_order_new (guint n, guint n_blocks)
{
  HwThreadOrder *order = g_new0 (HwThreadOrder, 1);

  order->n = n;
  order->n_blocks = n_blocks;
  order->sequence = g_new0 (guint, n + 1);
  order->ends = g_new0 (guint, n + 1);
  return order;
}

void
hw_thread_order_free (HwThreadOrder *order)
{
  g_free (order->sequence);
  g_free (order->ends);
  g_free (order);
}

guint64
hw_thread_order_cost (const HwThreadProblem *problem, const HwThreadOrder *order)
{
  if (!problem->by_time)
    return order->changes;
  return order->n_blocks * problem->hooping_cost + order->changes * problem->change_cost;
}

void
hw_thread_order_assign (HwThreadOrder *order, const HwThreadOrder *from)
{
  memcpy (order->sequence, from->sequence, from->n * sizeof (guint));
  memcpy (order->ends, from->ends, from->n_blocks * sizeof (guint));
  order->n_blocks = from->n_blocks;
  order->changes = from->changes;
}

guint
hw_thread_order_count (const HwThreadProblem *problem, const guint *sequence, guint n)
{
  guint needle = problem->start, changes = 0;

  for (guint k = 0; k < n; k++)
    {
      guint enters = problem->enters[sequence[k]];

      if (enters == HW_THREAD_NONE)
        continue;
      changes += needle != HW_THREAD_NONE && needle != enters;
      needle = problem->leaves[sequence[k]];
    }
  return changes;
}

/* The thread at the head of t's family: threads tied together by motifs. */
static guint
head_of (guint *family, guint t)
{
  while (family[t] != t)
    t = family[t] = family[family[t]];
  return t;
}

guint
hw_thread_order_low (const HwThreadProblem *problem, const guint64 *rest, guint now)
{
  guint size = problem->n_threads + 1, runs = 0, few[3 * 80];
  g_autofree guint *many = size > 80 ? g_new (guint, 3 * (gsize)size) : NULL;
  guint *family = many != NULL ? many : few, *starts = family + size;
  int *spare = (int *)(starts + size); /* motifs that begin with the thread less those that end with it */
  gboolean any = FALSE;

  for (guint t = 0; t < size; t++)
    {
      family[t] = t;
      starts[t] = 0;
      spare[t] = 0;
    }
  for (guint i = 0; i < problem->n; i++)
    {
      guint a = problem->enters[i], b = problem->leaves[i];

      if ((rest != NULL && !hw_mask_has (rest, i)) || a == HW_THREAD_NONE)
        continue;
      any = TRUE;
      spare[a]++;
      spare[b]--;
      starts[a] = 1; /* in use */
      family[head_of (family, a)] = head_of (family, b);
    }
  if (!any)
    return 0;
  if (now != HW_THREAD_NONE)
    {
      spare[HW_THREAD_NONE]
          = 1; /* what was stitched so far: an arrow that ends with the thread in the needle */
      spare[now]--;
      starts[HW_THREAD_NONE] = 1;
      family[head_of (family, HW_THREAD_NONE)] = head_of (family, now);
    }
  for (guint t = 0; t < size; t++) /* a family needs as many runs as it has spare beginnings, at least one */
    if (starts[t])
      starts[head_of (family, t)] |= 2;
  for (guint head = 0; head < size; head++)
    {
      guint spares = 0;

      if (!(starts[head] & 2))
        continue;
      for (guint t = 0; t < size; t++)
        if (head_of (family, t) == head && spare[t] > 0)
          spares += spare[t];
      runs += MAX (1, spares);
    }
  return runs - 1;
}

/* One hooping being put in order. cells: for each subset of its motifs and each thread in the needle afterwards the fewest changes. */
typedef struct
{
  const HwThreadProblem *problem;
  const guint *motifs;
  guint n, width;  /* width: threads + 1 */
  guint needs[32]; /* subset of its own motifs that come before */
  guint *cells;
} Table;

static void
table_needs (Table *table)
{
  for (guint a = 0; a < table->n; a++)
    {
      const guint64 *row
          = HW_MASK_ROW (table->problem->before, table->motifs[a], HW_MASK_WORDS (table->problem->n));

      table->needs[a] = 0;
      for (guint b = 0; b < table->n; b++)
        if (hw_mask_has (row, table->motifs[b]))
          table->needs[a] |= 1u << b;
    }
}

/* least: the fewest changes of the subset, whatever thread is in the needle. */
static void
table_step (Table *table, guint subset, guint a, guint least)
{
  const guint *from = table->cells + (gsize)subset * table->width;
  guint *to = table->cells + (gsize)(subset | 1u << a) * table->width;
  guint motif = table->motifs[a], enters = table->problem->enters[motif], *cell;

  if (enters == HW_THREAD_NONE)
    {
      for (guint t = 0; t < table->width; t++)
        to[t] = MIN (to[t], from[t]);
      return;
    }
  cell = &to[table->problem->leaves[motif]];
  *cell = MIN (*cell, MIN (MIN (from[enters], from[HW_THREAD_NONE]), least + 1));
}

static guint
least_of (const guint *cells, guint width)
{
  guint least = FAR_TOO_MANY;

  for (guint t = 0; t < width; t++)
    least = MIN (least, cells[t]);
  return least;
}

/* reached: changes so far by thread in the needle. */
static void
table_fill (Table *table, const guint *reached)
{
  guint all = (1u << table->n) - 1;

  table_needs (table);
  for (gsize c = table->width; c < ((gsize)all + 1) * table->width; c++)
    table->cells[c] = FAR_TOO_MANY;
  memcpy (table->cells, reached, table->width * sizeof (guint));
  for (guint subset = 0; subset < all; subset++)
    {
      guint least = least_of (table->cells + (gsize)subset * table->width, table->width);

      for (guint a = 0; a < table->n && least < FAR_TOO_MANY; a++)
        if (!(subset >> a & 1) && (table->needs[a] & ~subset) == 0)
          table_step (table, subset, a, least);
    }
}

/* The thread in the needle before motif a was stitched last of the subset, leaving thread t; G_MAXUINT when it was not. */
static guint
thread_before (const Table *table, guint subset, guint a, guint t)
{
  const guint *from = table->cells + (gsize)(subset & ~(1u << a)) * table->width;
  guint cost = table->cells[(gsize)subset * table->width + t];
  guint enters = table->problem->enters[table->motifs[a]];

  if (enters == HW_THREAD_NONE)
    return from[t] == cost ? t : G_MAXUINT;
  if (table->problem->leaves[table->motifs[a]] != t)
    return G_MAXUINT;
  if (from[enters] == cost)
    return enters;
  if (from[HW_THREAD_NONE] == cost)
    return HW_THREAD_NONE;
  for (guint s = 0; s < table->width; s++)
    if (from[s] + 1 == cost)
      return s;
  return G_MAXUINT;
}

/* Writes the hooping's order backwards from the thread it ends with; returns the thread it began with. Among equals the last in the
 * list comes last. What another waits for does not: without it that subset is never reached. */
static guint
table_trace (const Table *table, guint t, guint *sequence)
{
  guint subset = (1u << table->n) - 1;

  for (guint k = table->n; k-- > 0;)
    {
      guint a = table->n, before = G_MAXUINT;

      while (before == G_MAXUINT)
        {
          g_assert (a > 0);
          a--;
          if (subset >> a & 1)
            before = thread_before (table, subset, a, t);
        }
      sequence[k] = table->motifs[a];
      subset &= ~(1u << a);
      t = before;
    }
  return t;
}

static guint
changes_after (const HwThreadProblem *problem, guint needle, const guint *sequence, guint n)
{
  HwThreadProblem from_here = *problem;

  from_here.start = needle;
  return hw_thread_order_count (&from_here, sequence, n);
}

static gboolean
is_before (const HwThreadProblem *problem, guint a, guint b)
{
  return hw_mask_has (HW_MASK_ROW (problem->before, b, HW_MASK_WORDS (problem->n)), a);
}

/* Moves single motifs to better places in the row while that saves a change. */
static gboolean
move_one (const HwThreadProblem *problem, guint needle, guint *sequence, guint n)
{
  guint now = changes_after (problem, needle, sequence, n);

  for (guint from = 0; from < n; from++)
    for (int way = -1; way <= 1; way += 2)
      {
        guint at = from;

        while ((way < 0 ? at > 0 : at + 1 < n)
               && !(way < 0 ? is_before (problem, sequence[at - 1], sequence[at])
                            : is_before (problem, sequence[at], sequence[at + 1])))
          {
            guint swap = sequence[at];

            sequence[at] = sequence[(guint)((int)at + way)];
            at = (guint)((int)at + way);
            sequence[at] = swap;
            if (changes_after (problem, needle, sequence, n) < now)
              return TRUE;
          }
        for (; at != from; at = (guint)((int)at - way)) /* back again */
          {
            guint swap = sequence[at];

            sequence[at] = sequence[(guint)((int)at - way)];
            sequence[(guint)((int)at - way)] = swap;
          }
      }
  return FALSE;
}

/* A hooping too large for the table: always the next that keeps the thread, else the first; then single motifs are moved. */
static void
order_simply (const HwThreadProblem *problem, const guint *motifs, guint n, guint needle, guint *sequence)
{
  guint words = HW_MASK_WORDS (problem->n), start = needle;
  g_autofree guint64 *rest = g_new0 (guint64, words);

  for (guint a = 0; a < n; a++)
    hw_mask_add (rest, motifs[a]);
  for (guint k = 0; k < n; k++)
    {
      guint best = G_MAXUINT;

      for (guint a = 0; a < n; a++)
        {
          guint motif = motifs[a];
          gboolean same = problem->enters[motif] == needle || problem->enters[motif] == HW_THREAD_NONE;

          if (!hw_mask_has (rest, motif) || (best != G_MAXUINT && !same)
              || hw_mask_meets (HW_MASK_ROW (problem->before, motif, words), rest, words))
            continue;
          best = motif;
          if (same)
            break;
        }
      sequence[k] = best;
      hw_mask_remove (rest, best);
      if (problem->enters[best] != HW_THREAD_NONE)
        needle = problem->leaves[best];
    }
  for (guint round = 0; round < 40 && n <= MOST_MOVED && move_one (problem, start, sequence, n); round++)
    ;
}

static gboolean
fits_table (const HwThreadProblem *problem, guint n)
{
  return n < 20 && (1u << n) <= MOST_CELLS / (problem->n_threads + 1);
}

static guint
cheapest (const guint *reached, guint width)
{
  guint best = 0;

  for (guint t = 1; t < width; t++)
    if (reached[t] < reached[best])
      best = t;
  return best;
}

/* Orders the hoopings a .. b - 1, all small enough, beginning with the thread `needle`; they lie in sequence one after another. */
static guint
order_run (const HwThreadProblem *problem, HwThreadOrder *order, guint a, guint b, guint needle)
{
  guint width = problem->n_threads + 1, begin = a > 0 ? order->ends[a - 1] : 0, most = 0, t;
  g_autofree guint *reached = g_new (guint, (gsize)(b - a + 1) * width);
  g_autofree guint *motifs = g_memdup2 (order->sequence, order->n * sizeof (guint));
  g_autofree guint *cells = NULL;

  for (guint k = a, at = begin; k < b; at = order->ends[k++])
    most = MAX (most, order->ends[k] - at);
  cells = g_new (guint, (gsize)width << most);
  for (t = 0; t < width; t++)
    reached[t] = t == needle ? 0 : FAR_TOO_MANY;
  for (guint k = a, at = begin; k < b; at = order->ends[k++])
    {
      Table table = { problem, motifs + at, order->ends[k] - at, width, { 0 }, cells };

      table_fill (&table, reached + (gsize)(k - a) * width);
      memcpy (reached + (gsize)(k - a + 1) * width, cells + (gsize)((1u << table.n) - 1) * width,
              width * sizeof (guint));
    }
  needle = t = cheapest (reached + (gsize)(b - a) * width, width);
  for (guint k = b; k-- > a;)
    {
      guint at = k > 0 ? order->ends[k - 1] : 0;
      Table table = { problem, motifs + at, order->ends[k] - at, width, { 0 }, cells };

      table_fill (&table, reached + (gsize)(k - a) * width);
      t = table_trace (&table, t, order->sequence + at);
    }
  return needle;
}

HwThreadOrder *
hw_thread_order_of_grouping (const HwThreadProblem *problem, const guint *block_of, guint n_blocks)
{
  HwThreadOrder *order = hw_thread_order_new (problem->n, n_blocks);
  g_autofree guint *room = g_new0 (guint, n_blocks + 1);
  guint needle = problem->start;

  for (guint i = 0; i < problem->n; i++)
    room[block_of[i]]++;
  for (guint k = 0, at = 0; k < n_blocks; k++)
    {
      order->ends[k] = at;
      at += room[k];
    }
  for (guint i = 0; i < problem->n; i++)
    order->sequence[order->ends[block_of[i]]++] = i;

  for (guint k = 0; k < n_blocks;)
    {
      guint at = k > 0 ? order->ends[k - 1] : 0, last = k;

      while (last < n_blocks
             && fits_table (problem, order->ends[last] - (last > 0 ? order->ends[last - 1] : 0)))
        last++;
      if (last > k)
        {
          needle = order_run (problem, order, k, last, needle);
          k = last;
          continue;
        }
      {
        guint n = order->ends[k] - at;
        g_autofree guint *motifs = g_memdup2 (order->sequence + at, n * sizeof (guint));

        order_simply (problem, motifs, n, needle, order->sequence + at);
        for (guint i = at; i < order->ends[k]; i++)
          if (problem->enters[order->sequence[i]] != HW_THREAD_NONE)
            needle = problem->leaves[order->sequence[i]];
      }
      k++;
    }
  order->changes = hw_thread_order_count (problem, order->sequence, order->n);
  order->bound = MIN (order->changes, hw_thread_order_low (problem, NULL, problem->start));
  return order;
}

static gboolean
is_best (const HwThreadProblem *problem, const HwThreadOrder *order)
{
  return hw_thread_order_cost (problem, order) <= (problem->by_time ? order->cost_bound : order->bound);
}

void
hw_thread_order_improve (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort)
{
  if (!is_best (problem, order))
    hw_thread_moves (problem, order, effort);
  if (!is_best (problem, order) && problem->by_time)
    hw_thread_more (problem, order, effort);
  if (!is_best (problem, order))
    hw_thread_search (problem, order, effort);
}

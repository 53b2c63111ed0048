/* The order of fewest thread changes: against going through every order of small rows of motifs. */
#include "../../src/planning/thread-order.h"

#define MOST 8

typedef struct
{
  HwThreadProblem problem;
  guint64 before[MOST];
  guint enters[MOST], leaves[MOST], pin_of[MOST], item_of[MOST];
  guint64 apart[MOST]; /* motifs that cannot share with it */
  guint limit;         /* hoopings */
  guint best;
} Row;

static gboolean
may_share (gpointer data, const guint *set, guint n)
{
  const Row *row = data;

  for (guint a = 0; a < n; a++)
    for (guint b = 0; b < a; b++)
      if (row->apart[set[a]] >> set[b] & 1)
        return FALSE;
  return TRUE;
}

static void
random_row (Row *row, guint n, guint threads, gboolean bare)
{
  memset (row, 0, sizeof *row);
  for (guint j = 0; j < n; j++)
    {
      row->enters[j] = g_test_rand_int_range (1, threads + 1);
      row->leaves[j] = g_test_rand_int_range (1, threads + 1);
      if (bare && g_test_rand_int_range (0, 4) == 0)
        row->enters[j] = row->leaves[j] = HW_THREAD_NONE;
      row->pin_of[j] = G_MAXUINT;
      row->item_of[j] = j;
      for (guint i = 0; i < j; i++)
        {
          if (g_test_rand_int_range (0, 5) == 0)
            row->before[j] |= row->before[i] | G_GUINT64_CONSTANT (1) << i;
          if (g_test_rand_int_range (0, 4) == 0)
            {
              row->apart[i] |= G_GUINT64_CONSTANT (1) << j;
              row->apart[j] |= G_GUINT64_CONSTANT (1) << i;
            }
        }
    }
  row->problem = (HwThreadProblem){ .n = n,
                                    .before = row->before,
                                    .enters = row->enters,
                                    .leaves = row->leaves,
                                    .n_threads = threads,
                                    .start = g_test_rand_bit () ? HW_THREAD_NONE
                                                                : g_test_rand_int_range (1, threads + 1),
                                    .pin_of = row->pin_of,
                                    .may_share = may_share,
                                    .data = row,
                                    .item_of = row->item_of };
}

/* Every order, every way to cut it into hoopings; fixed: a grouping to keep to, or NULL. */
static void
go_through (
    Row *row, const guint *fixed, guint64 done, guint64 here, guint hoopings, guint needle, guint changes)
{
  const HwThreadProblem *problem = &row->problem;

  if (changes >= row->best || hoopings > row->limit)
    return;
  if (done == (G_GUINT64_CONSTANT (1) << problem->n) - 1)
    {
      row->best = changes;
      return;
    }
  for (guint i = 0; i < problem->n; i++)
    {
      guint64 bit = G_GUINT64_CONSTANT (1) << i;
      guint enters = problem->enters[i], now = enters == HW_THREAD_NONE ? needle : problem->leaves[i];
      guint more = enters != HW_THREAD_NONE && needle != HW_THREAD_NONE && enters != needle;

      if ((done & bit) || (row->before[i] & ~done))
        continue;
      if (fixed != NULL)
        {
          gboolean first = here == 0 || fixed[__builtin_ctzll (here)] != fixed[i];

          if (fixed[i] + 1 == hoopings + first)
            go_through (row, fixed, done | bit, first ? bit : here | bit, hoopings + first, now,
                        changes + more);
          continue;
        }
      if (here != 0 && (row->apart[i] & here) == 0)
        go_through (row, NULL, done | bit, here | bit, hoopings, now, changes + more);
      go_through (row, NULL, done | bit, bit, hoopings + 1, now, changes + more);
    }
}

static void
assert_right (const Row *row, const HwThreadOrder *order)
{
  guint64 done = 0;

  g_assert_cmpuint (order->n_blocks, <=, row->limit);
  g_assert_cmpuint (order->ends[order->n_blocks - 1], ==, row->problem.n);
  for (guint b = 0, at = 0; b < order->n_blocks; at = order->ends[b++])
    {
      g_assert_cmpuint (order->ends[b], >, at);
      g_assert_true (may_share ((gpointer)row, order->sequence + at, order->ends[b] - at));
    }
  for (guint k = 0; k < row->problem.n; k++)
    {
      g_assert_true ((row->before[order->sequence[k]] & ~done) == 0);
      done |= G_GUINT64_CONSTANT (1) << order->sequence[k];
    }
  g_assert_cmpuint (done, ==, (G_GUINT64_CONSTANT (1) << row->problem.n) - 1);
  g_assert_cmpuint (order->changes, ==, hw_thread_order_count (&row->problem, order->sequence, order->n));
  g_assert_cmpuint (order->bound, <=, order->changes);
}

/* Motifs in list order, a new hooping when the next cannot share. */
static guint
group_simply (const Row *row, guint *block_of)
{
  guint n = 0;
  guint64 here = 0;

  for (guint i = 0; i < row->problem.n; i++)
    {
      if (row->apart[i] & here)
        {
          here = 0;
          n++;
        }
      here |= G_GUINT64_CONSTANT (1) << i;
      block_of[i] = n;
    }
  return n + 1;
}

static void
order_in_given_hoopings_is_best (void)
{
  for (guint round = 0; round < 2000; round++)
    {
      Row row;
      guint block_of[MOST];
      g_autoptr (HwThreadOrder) order = NULL;

      random_row (&row, g_test_rand_int_range (1, MOST), g_test_rand_int_range (1, 5), round % 3 == 0);
      row.limit = group_simply (&row, block_of);
      row.best = G_MAXUINT;
      go_through (&row, block_of, 0, 0, 0, row.problem.start, 0);
      order = hw_thread_order_of_grouping (&row.problem, block_of, row.limit);
      assert_right (&row, order);
      g_assert_cmpuint (order->changes, ==, row.best);
    }
}

static void
best_over_all_groupings (void)
{
  HwThreadEffort effort = { 1000, 100000, G_MAXINT64, NULL };

  for (guint round = 0; round < 2000; round++)
    {
      Row row;
      guint block_of[MOST];
      g_autoptr (HwThreadOrder) order = NULL;

      random_row (&row, g_test_rand_int_range (1, MOST), g_test_rand_int_range (1, 5), round % 3 == 0);
      row.limit = group_simply (&row, block_of);
      row.best = G_MAXUINT;
      go_through (&row, NULL, 0, 0, 0, row.problem.start, 0);
      order = hw_thread_order_of_grouping (&row.problem, block_of, row.limit);
      hw_thread_order_improve (&row.problem, order, &effort);
      assert_right (&row, order);
      g_assert_cmpuint (order->changes, ==, row.best);
      g_assert_cmpuint (order->bound, ==, row.best);
    }
}

static void
bound_is_never_too_high (void)
{
  for (guint round = 0; round < 2000; round++)
    {
      Row row;
      guint low;

      random_row (&row, g_test_rand_int_range (1, 7), g_test_rand_int_range (1, 6), round % 3 == 0);
      memset (row.before, 0, sizeof row.before);
      memset (row.apart, 0, sizeof row.apart);
      row.limit = 1;
      row.best = G_MAXUINT;
      go_through (&row, NULL, 0, 0, 0, row.problem.start, 0);
      low = hw_thread_order_low (&row.problem, NULL, row.problem.start);
      g_assert_cmpuint (low, ==,
                        row.best); /* with no order to keep and one hooping the bound is the answer: Euler */
    }
}

static void
moves_alone_do_no_harm (void)
{
  HwThreadEffort effort = { 300, 0, G_MAXINT64, NULL };

  for (guint round = 0; round < 500; round++)
    {
      Row row;
      guint block_of[MOST], before;
      g_autoptr (HwThreadOrder) order = NULL;

      random_row (&row, MOST, 4, FALSE);
      row.limit = group_simply (&row, block_of);
      order = hw_thread_order_of_grouping (&row.problem, block_of, row.limit);
      before = order->changes;
      hw_thread_order_improve (&row.problem, order, &effort);
      assert_right (&row, order);
      g_assert_cmpuint (order->changes, <=, before);
    }
}

/* A hooping with more motifs than the table takes: the row of one thread each comes together. */
static void
large_hooping_keeps_like_threads_together (void)
{
  enum
  {
    N = 40
  };
  guint64 before[N] = { 0 };
  guint threads[N], pin_of[N], block_of[N] = { 0 };
  HwThreadProblem problem
      = { .n = N, .before = before, .enters = threads, .leaves = threads, .n_threads = 5, .pin_of = pin_of };
  g_autoptr (HwThreadOrder) order = NULL;

  for (guint i = 0; i < N; i++)
    {
      threads[i] = 1 + i % 5;
      pin_of[i] = G_MAXUINT;
    }
  order = hw_thread_order_of_grouping (&problem, block_of, 1);
  g_assert_cmpuint (order->changes, ==, 4);
  g_assert_cmpuint (order->bound, ==, 4);
}

/* The first is of the last one's thread, and that waits for all others: moved behind them it saves a change. */
static void
large_hooping_moves_a_single_motif (void)
{
  enum
  {
    N = 40
  };
  guint64 before[N] = { 0 };
  guint threads[N], pin_of[N], block_of[N] = { 0 };
  HwThreadProblem problem
      = { .n = N, .before = before, .enters = threads, .leaves = threads, .n_threads = 2, .pin_of = pin_of };
  g_autoptr (HwThreadOrder) order = NULL;

  for (guint i = 0; i < N; i++)
    {
      threads[i] = i == 0 || i + 1 == N ? 1 : 2;
      pin_of[i] = G_MAXUINT;
      before[N - 1] |= i > 0 && i + 1 < N ? G_GUINT64_CONSTANT (1) << i : 0;
    }
  order = hw_thread_order_of_grouping (&problem, block_of, 1);
  g_assert_cmpuint (order->changes, ==, 1);
}

/* Three free motifs of the threads given in one hooping, in the order given. */
static HwThreadOrder *
three (Row *row, const guint threads[3], const guint sequence[3])
{
  HwThreadOrder *order = hw_thread_order_new (3, 1);

  random_row (row, 3, 3, FALSE);
  memset (row->before, 0, sizeof row->before);
  memset (row->apart, 0, sizeof row->apart);
  row->problem.start = HW_THREAD_NONE;
  memcpy (row->enters, threads, 3 * sizeof (guint));
  memcpy (row->leaves, threads, 3 * sizeof (guint));
  memcpy (order->sequence, sequence, 3 * sizeof (guint));
  order->ends[0] = 3;
  order->n_blocks = 1;
  order->changes = hw_thread_order_count (&row->problem, sequence, 3);
  order->bound = 0;
  return order;
}

/* Three threads take two changes in any order: the one there is stays, and is known to be the best. */
static void
among_equals_the_order_stays (void)
{
  const guint sequence[] = { 2, 0, 1 };
  HwThreadEffort effort = { 0, 1000, G_MAXINT64, NULL };
  Row row;
  g_autoptr (HwThreadOrder) order = three (&row, (const guint[]){ 1, 2, 3 }, sequence);

  hw_thread_search (&row.problem, order, &effort);
  g_assert_cmpmem (order->sequence, sizeof sequence, sequence, sizeof sequence);
  g_assert_cmpuint (order->bound, ==, 2);
}

/* Moss, rust, moss: there is a way with one change. Without the time to look for it, it is known that there must be one. */
static void
search_without_time_tells_its_bound (void)
{
  HwThreadEffort none = { 0, 1000, 0, NULL }, enough = { 0, 1000, G_MAXINT64, NULL };
  Row row;
  g_autoptr (HwThreadOrder) order = three (&row, (const guint[]){ 1, 2, 1 }, (const guint[]){ 0, 1, 2 });

  hw_thread_search (&row.problem, order, &none);
  g_assert_cmpuint (order->changes, ==, 2);
  g_assert_cmpuint (order->bound, ==, 1);
  hw_thread_search (&row.problem, order, &enough);
  g_assert_cmpuint (order->changes, ==, 1);
}

/* Two hoopings, each with two motifs of moss and two of rust, none of which shares with its like in the other: moss and rust, rust and moss. Where a
 * change takes longer than setting the hoop, one of them is cut in two and changes once: moss, moss, rust, rust. No single motif moved does it. */
static void
a_hooping_cut_in_two_saves_time (void)
{
  HwThreadEffort moves = { 20000, 0, G_MAXINT64, NULL };
  const guint block_of[MOST] = { 0, 0, 0, 0, 1, 1, 1, 1 };
  Row row;
  g_autoptr (HwThreadOrder) order = NULL;

  random_row (&row, MOST, 2, FALSE);
  memset (row.before, 0, sizeof row.before);
  for (guint i = 0; i < MOST; i++)
    {
      row.enters[i] = row.leaves[i] = i / 2 % 2 + 1;
      row.apart[i] = G_GUINT64_CONSTANT (3) << (i / 2 + 2) % 4 * 2;
    }
  row.problem.start = HW_THREAD_NONE;
  row.problem.by_time = TRUE;
  row.problem.hooping_cost = 1;
  row.problem.change_cost = 10;
  row.limit = MOST;
  order = hw_thread_order_of_grouping (&row.problem, block_of, 2);
  g_assert_cmpuint (order->changes, ==, 2);
  hw_thread_order_improve (&row.problem, order, &moves);
  assert_right (&row, order);
  g_assert_cmpuint (order->changes, ==, 1);
  g_assert_cmpuint (order->n_blocks, ==, 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/threads/order-in-given-hoopings-is-best", order_in_given_hoopings_is_best);
  g_test_add_func ("/threads/best-over-all-groupings", best_over_all_groupings);
  g_test_add_func ("/threads/bound-is-never-too-high", bound_is_never_too_high);
  g_test_add_func ("/threads/moves-alone-do-no-harm", moves_alone_do_no_harm);
  g_test_add_func ("/threads/large-hooping-keeps-like-threads-together",
                   large_hooping_keeps_like_threads_together);
  g_test_add_func ("/threads/large-hooping-moves-a-single-motif", large_hooping_moves_a_single_motif);
  g_test_add_func ("/threads/among-equals-the-order-stays", among_equals_the_order_stays);
  g_test_add_func ("/threads/search-without-time-tells-its-bound", search_without_time_tells_its_bound);
  g_test_add_func ("/threads/a-hooping-cut-in-two-saves-time", a_hooping_cut_in_two_saves_time);
  return g_test_run ();
}

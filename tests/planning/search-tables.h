/* The search for the fewest hoopings, asked about tables in place of cloth, and a plain dynamic program over everything that can be stitched so far
 * to hold it against. */
#pragma once

#include "../../src/planning/search-private.h"

#define MOST 60

/* A made-up scene: an order, and what may share: points in the plane within a window, a list of forbidden sets, and sizes that add up. */
typedef struct
{
  guint n;
  guint64 before[MOST];
  double x[MOST], y[MOST];
  double window;
  int size[MOST], room;
  guint64 forbidden[MOST];
  guint n_forbidden;
} Table;

static inline gboolean
table_shares (const Table *table, guint64 set)
{
  double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
  int size = 0;

  for (guint i = 0; i < table->n; i++)
    if (set >> i & 1)
      {
        x0 = MIN (x0, table->x[i]);
        x1 = MAX (x1, table->x[i]);
        y0 = MIN (y0, table->y[i]);
        y1 = MAX (y1, table->y[i]);
        size += table->size[i];
      }
  for (guint k = 0; k < table->n_forbidden; k++)
    if ((set & table->forbidden[k]) == table->forbidden[k])
      return FALSE;
  return x1 - x0 <= table->window && y1 - y0 <= table->window && size <= table->room;
}

static inline gboolean
may_share (gpointer data, const guint *set, guint n)
{
  guint64 mask = 0;

  for (guint k = 0; k < n; k++)
    mask |= G_GUINT64_CONSTANT (1) << set[k];
  return table_shares (data, mask);
}

static inline HwSearch *
search_table (Table *table)
{
  HwSearchProblem problem = { table->n, table->before, may_share, table, NULL };

  return hw_search_new (&problem);
}

static inline void
random_table (Table *table, guint n, double ties, double spread)
{
  memset (table, 0, sizeof *table);
  table->n = n;
  table->window = 1;
  table->room = 1000;
  for (guint j = 0; j < n; j++)
    {
      table->x[j] = g_test_rand_double_range (0, spread);
      table->y[j] = g_test_rand_double_range (0, spread);
      table->size[j] = g_test_rand_int_range (1, 10);
      for (guint i = 0; i < j; i++)
        if (g_test_rand_double_range (0, 1) < ties)
          table->before[j] |= table->before[i] | G_GUINT64_CONSTANT (1) << i;
    }
  if (g_test_rand_bit ())
    table->room = g_test_rand_int_range (9, 30);
  if (g_test_rand_bit ())
    for (table->n_forbidden = 0; table->n_forbidden < n / 2; table->n_forbidden++)
      for (guint k = 0; k < 2 + table->n_forbidden % 2; k++)
        table->forbidden[table->n_forbidden] |= G_GUINT64_CONSTANT (1) << g_test_rand_int_range (0, n);
  for (guint k = 0; k < table->n_forbidden; k++)
    if ((table->forbidden[k] & (table->forbidden[k] - 1)) == 0)
      table->forbidden[k] = ~G_GUINT64_CONSTANT (0); /* one item alone always fits */
}

/* The fewest hoopings by filling a table of everything that can have been stitched at some moment. */
static inline guint
fewest_plainly (const Table *table)
{
  guint64 all = (G_GUINT64_CONSTANT (1) << table->n) - 1;
  g_autofree guint *fewest = g_new (guint, all + 1);

  for (guint64 done = 0; done <= all; done++)
    fewest[done] = G_MAXUINT;
  fewest[0] = 0;
  for (guint64 done = 0; done <= all; done++)
    {
      guint64 left = all & ~done;

      if (fewest[done] == G_MAXUINT)
        continue;
      for (guint64 set = left; set != 0; set = (set - 1) & left)
        {
          gboolean good = fewest[done] + 1 < fewest[done | set];

          for (guint i = 0; i < table->n && good; i++)
            good = !(set >> i & 1) || (table->before[i] & ~(done | set)) == 0;
          if (good && table_shares (table, set))
            fewest[done | set] = fewest[done] + 1;
        }
    }
  return fewest[all];
}

static inline void
assert_works (const Table *table, HwSearch *search)
{
  const guint *block_of = hw_search_blocks (search);
  guint n = hw_search_count (search);

  for (guint j = 0; j < table->n; j++)
    {
      g_assert_cmpuint (block_of[j], <, n);
      for (guint i = 0; i < table->n; i++)
        if (table->before[j] >> i & 1)
          g_assert_cmpuint (block_of[i], <=, block_of[j]);
    }
  for (guint b = 0; b < n; b++)
    {
      guint64 set = 0;

      for (guint i = 0; i < table->n; i++)
        if (block_of[i] == b)
          set |= G_GUINT64_CONSTANT (1) << i;
      g_assert_true (set != 0 && table_shares (table, set));
    }
}

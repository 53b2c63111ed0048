/* Windows of some hoopings solved anew: begun with every item alone, they lead to the fewest that a plain dynamic program finds; they touch no more
 * items than they may, and leave a grouping that works. */
#include "search-tables.h"

/* Every item in a hooping of its own, in the order of the list. */
static HwPart *
all_alone (HwSearch *search)
{
  HwPart *part = g_ptr_array_index (search->parts, 0);

  g_array_set_size (part->blocks, 0);
  for (guint i = 0; i < search->n; i++)
    {
      guint64 row = G_GUINT64_CONSTANT (1) << i;

      g_array_append_val (part->blocks, row);
      search->block_of[i] = i;
    }
  search->n_blocks = search->n;
  return part;
}

/* A table whose items hang together: one part. */
static HwSearch *
whole_table (Table *table, guint n, double ties, double spread)
{
  for (;;)
    {
      HwSearch *search;

      random_table (table, n, ties, spread);
      search = search_table (table);
      if (search->parts->len == 1)
        return search;
      hw_search_free (search);
    }
}

static guint64
row_of (const GArray *blocks, guint b)
{
  return g_array_index (blocks, guint64, b);
}

/* The items of hoopings that are in one list and not in the other. */
static guint
n_items_touched (const GArray *before, const GArray *after)
{
  guint64 touched = 0;

  for (guint a = 0; a < before->len; a++)
    {
      gboolean kept = FALSE;

      for (guint b = 0; b < after->len && !kept; b++)
        kept = row_of (before, a) == row_of (after, b);
      if (!kept)
        touched |= row_of (before, a);
    }
  return (guint)__builtin_popcountll (touched);
}

/* Improves until nothing more is found. Every time there are fewer hoopings, and few enough items are touched. */
static void
improve_to_the_end (const Table *table, HwSearch *search, HwPart *part, guint most_items)
{
  for (;;)
    {
      g_autoptr (GArray) before = g_array_copy (part->blocks);

      if (!hw_search_improve (search, part, most_items))
        {
          g_assert_cmpmem (before->data, before->len, part->blocks->data, part->blocks->len);
          break;
        }
      g_assert_cmpuint (part->blocks->len, <, before->len);
      g_assert_cmpuint (n_items_touched (before, part->blocks), <=, most_items);
    }
  search->deadline = G_MAXINT64;
  hw_search_run (search, 0); /* puts the hoopings in a row */
  g_assert_cmpuint (hw_search_count (search), ==, part->blocks->len);
  assert_works (table, search);
}

static void
a_window_over_everything_finds_the_fewest (void)
{
  for (guint round = 0; round < 300; round++)
    {
      Table table;
      g_autoptr (HwSearch) search = whole_table (&table, g_test_rand_int_range (2, 10), 0, 1.5);
      HwPart *part = all_alone (search);

      improve_to_the_end (&table, search, part, table.n);
      g_assert_cmpuint (part->blocks->len, ==, fewest_plainly (&table));
    }
}

/* With an order there are also hoopings between others: a window that took in only the outer ones would leave a grouping that cannot be stitched. */
static void
small_windows_keep_the_order (void)
{
  guint better = 0;

  for (guint round = 0; round < 300; round++)
    {
      Table table;
      g_autoptr (HwSearch) search
          = whole_table (&table, g_test_rand_int_range (6, 13), g_test_rand_double_range (0.05, 0.4), 1.5);
      HwPart *part = all_alone (search);

      improve_to_the_end (&table, search, part, g_test_rand_int_range (2, 7));
      better += part->blocks->len < table.n;
      g_assert_cmpuint (part->blocks->len, >=, fewest_plainly (&table));
    }
  g_assert_cmpuint (better, >, 200);
}

/* A row of motifs, three to a hooping, in windows of nine: each hooping ends up full. */
static void
a_long_row_fills_every_hooping (void)
{
  Table table = { .n = 48, .window = 1, .room = 1000 };
  g_autoptr (HwSearch) search = NULL;
  HwPart *part;

  for (guint i = 0; i < table.n; i++)
    table.x[i] = 0.45 * i;
  search = search_table (&table);
  part = all_alone (search);
  improve_to_the_end (&table, search, part, 24);
  g_assert_cmpuint (part->blocks->len, ==, 16);
}

/* Once the time is up no further window is looked at: the first item of the list shares with none that is better put elsewhere, the others do. */
static void
time_ends_after_a_window (void)
{
  Table table = { .n = 6, .window = 1, .room = 1000, .x = { 0, 0.9, 1.8, 2.7, 2.8, 2.9 } };
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (HwSearch) search = search_table (&table);
  HwPart *part = g_ptr_array_index (search->parts, 0);
  const guint64 rows[]
      = { 0x3, 0xc, 0x10, 0x20 }; /* 0 1 | 2 3 | 4 | 5: the last two want to join 3, three to a window */

  g_assert_cmpuint (search->parts->len, ==, 1);
  g_array_set_size (part->blocks, 0);
  g_array_append_vals (part->blocks, rows, 4);
  search->deadline = 0;
  g_assert_false (hw_search_improve (search, part, 4));
  search->deadline = G_MAXINT64;
  search->cancellable = cancellable;
  g_cancellable_cancel (cancellable);
  g_assert_false (hw_search_improve (search, part, 4));
  search->cancellable = NULL;
  g_assert_true (hw_search_improve (search, part, 4));
  g_assert_cmpuint (part->blocks->len, ==, 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/search-windows/everything", a_window_over_everything_finds_the_fewest);
  g_test_add_func ("/search-windows/order", small_windows_keep_the_order);
  g_test_add_func ("/search-windows/row", a_long_row_fills_every_hooping);
  g_test_add_func ("/search-windows/time", time_ends_after_a_window);
  return g_test_run ();
}

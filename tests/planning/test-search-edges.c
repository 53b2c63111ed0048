/* The search at its edges: hundreds of items and thousands, none at all, no memory, no time, offers that are no answer. */
#include "search-tables.h"

/* Items in a row, so far apart; those within a window of 1 may share. calls counts questions; at some question the search is cancelled. */
typedef struct
{
  double step;
  guint n;
  guint calls, cancel_at;
  GCancellable *cancellable;
} Row;

static gboolean
row_shares (gpointer data, const guint *set, guint n)
{
  Row *row = data;
  guint first = G_MAXUINT, last = 0;

  if (++row->calls == row->cancel_at)
    g_cancellable_cancel (row->cancellable);
  for (guint k = 0; k < n; k++)
    {
      g_assert_cmpuint (set[k], <, row->n); /* no others are asked about */
      first = MIN (first, set[k]);
      last = MAX (last, set[k]);
    }
  return (last - first) * row->step <= 1;
}

static HwSearch *
search_row (Row *row, guint n, const guint64 *before)
{
  HwSearchProblem problem = { n, before, row_shares, row, row->cancellable };

  row->n = n;
  return hw_search_new (&problem);
}

static void
assert_row_works (HwSearch *search, const Row *row, guint n)
{
  const guint *block_of = hw_search_blocks (search);
  g_autofree guint *first = g_new (guint, n), *last = g_new0 (guint, n);

  for (guint b = 0; b < n; b++)
    first[b] = G_MAXUINT;
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpuint (block_of[i], <, hw_search_count (search));
      first[block_of[i]] = MIN (first[block_of[i]], i);
      last[block_of[i]] = MAX (last[block_of[i]], i);
    }
  for (guint b = 0; b < hw_search_count (search); b++)
    g_assert_true (first[b] != G_MAXUINT && (last[b] - first[b]) * row->step <= 1);
}

/* Three to a hooping: with 300 items a row of bits is longer than what is kept without asking for memory. */
static void
hundreds_in_a_row (void)
{
  for (guint tied = 0; tied < 2; tied++)
    {
      const guint n = 300, words = HW_MASK_WORDS (n);
      g_autofree guint64 *before = g_new0 (guint64, n * words);
      Row row = { .step = 0.45 };
      g_autoptr (HwSearch) search = NULL;
      g_autoptr (GArray) items = NULL;
      HwReason reason;

      for (guint i = 1; i < n && tied; i++) /* each after the one before */
        {
          hw_mask_copy (HW_MASK_ROW (before, i, words), HW_MASK_ROW (before, i - 1, words), words);
          hw_mask_add (HW_MASK_ROW (before, i, words), i - 1);
        }
      search = search_row (&row, n, before);
      g_assert_true (hw_search_run (search, G_MAXINT64));
      g_assert_cmpuint (hw_search_count (search), ==, 100);
      g_assert_cmpuint (hw_search_bound (search), ==, 100);
      assert_row_works (search, &row, n);
      items = hw_search_reason (search, &reason);
      g_assert_cmpint (reason, !=, HW_REASON_NONE);
    }
}

/* So many that pairs are not all asked beforehand: still an answer that works, and a bound that holds. */
static void
thousands_in_a_row (void)
{
  const guint n = HW_SEARCH_MOST_PAIRS + 76, words = HW_MASK_WORDS (n);
  g_autofree guint64 *before = g_new0 (guint64, n * words), *some = g_new0 (guint64, words);
  Row row = { .step = 0.45, .cancellable = g_cancellable_new () };
  g_autoptr (HwSearch) search = search_row (&row, n, before);
  g_autoptr (HwSearch) cancelled = NULL;
  g_autoptr (GArray) items = NULL;
  HwReason reason;
  guint calls;

  hw_mask_add (some, 0);
  g_assert_cmpuint (hw_search_bound (search), ==, 1);
  g_assert_cmpint (hw_search_within (search, some, 1), ==, -1);
  g_assert_cmpuint (hw_search_at_least (search, some), ==, 0);
  row.cancel_at = row.calls + 100;
  calls = row.calls;
  g_assert_false (hw_search_run (search, G_MAXINT64)); /* given up on the way */
  g_assert_cmpuint (row.calls, <, calls + n);
  g_assert_cmpuint (hw_search_bound (search), >, 1); /* and yet what was found counts */
  g_cancellable_reset (row.cancellable);
  g_assert_true (hw_search_run (search, G_MAXINT64));
  g_assert_cmpuint (hw_search_count (search), ==, (n + 2) / 3);
  g_assert_true (hw_search_run (search, G_MAXINT64));
  assert_row_works (search, &row, n);
  items = hw_search_reason (search, &reason);
  g_assert_cmpint (reason, ==, HW_REASON_NONE);
  row.cancel_at = row.calls + 100;
  cancelled = search_row (&row, n, before);
  g_assert_null (cancelled);
  g_object_unref (row.cancellable);
}

/* Every seventh waits for the one before it. */
static void
thousands_with_ties_keep_their_order (void)
{
  const guint n = HW_SEARCH_MOST_PAIRS + 76, words = HW_MASK_WORDS (n);
  g_autofree guint64 *before = g_new0 (guint64, n * words);
  Row row = { .step = 0.45 };
  g_autoptr (HwSearch) search = NULL;

  for (guint i = 7; i < n; i += 7)
    hw_mask_add (HW_MASK_ROW (before, i - 1, words), i); /* which is the later in the list */
  search = search_row (&row, n, before);
  assert_row_works (search, &row, n);
  for (guint i = 7; i < n; i += 7)
    g_assert_cmpuint (hw_search_blocks (search)[i], <=, hw_search_blocks (search)[i - 1]);
}

static void
nothing_takes_no_hooping (void)
{
  Row row = { .step = 1 };
  guint64 none = 0;
  g_autoptr (HwSearch) search = search_row (&row, 0, &none);
  g_autoptr (GArray) items = NULL;
  HwReason reason;

  g_assert_true (hw_search_run (search, G_MAXINT64));
  g_assert_cmpuint (hw_search_count (search), ==, 0);
  g_assert_cmpuint (hw_search_bound (search), ==, 0);
  g_assert_cmpint (hw_search_within (search, &none, 0), ==, 1);
  items = hw_search_reason (search, &reason);
  g_assert_cmpint (reason, ==, HW_REASON_TRIVIAL);
}

static void
offers_that_are_no_answer_are_refused (void)
{
  Table table = { .n = 4, .window = 1, .room = 2, .size = { 1, 1, 1, 1 } };
  g_autoptr (HwSearch) search = NULL;
  const guint right[] = { 0, 0, 1, 1 }, out_of_order[] = { 1, 1, 0, 0 }, no_such[] = { 0, 0, 1, 2 },
              empty[] = { 0, 0, 2, 2 }, longer[] = { 0, 0, 1, 2 };

  table.before[2] = 3; /* the third waits for the first two */
  search = search_table (&table);
  g_assert_true (hw_search_run (search, G_MAXINT64));
  g_assert_cmpuint (hw_search_count (search), ==, 2);
  g_assert_true (hw_search_offer (search, right, 2));
  g_assert_false (hw_search_offer (search, out_of_order, 2));
  g_assert_false (hw_search_offer (search, no_such, 2));
  g_assert_false (hw_search_offer (search, empty, 3));
  g_assert_false (hw_search_offer (search, longer, 3)); /* it works, but takes more */
  g_assert_false (hw_search_offer (search, right, 0));
  g_assert_cmpmem (hw_search_blocks (search), sizeof right, right, sizeof right);
  search->n_blocks = 3; /* were three the best so far, an empty one among them would be no answer */
  g_assert_false (hw_search_offer (search, empty, 3));
  g_assert_true (hw_search_offer (search, longer, 3));
}

static void
without_memory_or_steps_nothing_is_claimed (void)
{
  Table table;
  g_autoptr (HwSearch) search = NULL;
  guint64 all;
  guint fewest;

  random_table (&table, 12, 0.1, 2);
  search = search_table (&table);
  fewest = fewest_plainly (&table);
  all = (G_GUINT64_CONSTANT (1) << table.n) - 1;
  hw_search_limit_memory (search, 0);
  g_assert_cmpint (hw_search_within (search, &all, fewest), ==, -1);
  g_assert_cmpint (hw_search_within (search, &all, fewest - 1), !=, 1);
  search->step_limit = 0;
  search->stopped = FALSE;
  hw_search_limit_memory (search, 1 << 20);
  g_assert_true (!hw_search_solve (search, &all, fewest) && search->stopped);
  g_assert_cmpint (hw_search_within (search, &all, table.n), !=,
                   0); /* shown or, the steps being few, not known */
  g_assert_cmpint (hw_search_assign (search, &all, (guint64[]){ 0 }, 0, 1000, NULL), ==, -1);
  g_assert_cmpint (hw_search_assign (search, &all, (guint64[]){ 0 }, 33, 1000, NULL), ==, -1); /* too many */
  g_assert_cmpint (hw_search_assign (search, &all, (guint64[]){ 0 }, fewest, 0, NULL), ==, -1);
  g_assert_cmpint (hw_search_assign (search, &all, (guint64[]){ 7 }, 2, 1000, NULL), ==, 0); /* never share */
  g_assert_cmpint (hw_search_within (search, &all, G_MAXUINT16), ==,
                   1); /* more than there can be of anything */
}

/* Where no pairs were found that carry the bound a chain does, or the weights, or only that every way was tried. */
static void
reasons_are_the_plainest_there_is (void)
{
  Table table = { .n = 3, .window = 1, .room = 1, .size = { 1, 1, 1 } };
  g_autoptr (HwSearch) search = NULL;
  HwReason reason;

  table.before[1] = 1;
  table.before[2] = 3;
  search = search_table (&table);
  for (guint p = 0; p < search->parts->len; p++)
    hw_mask_clear (((HwPart *)g_ptr_array_index (search->parts, p))->strangers, search->words);
  g_autoptr (GArray) chain = hw_search_reason (search, &reason);
  g_assert_cmpint (reason, ==, HW_REASON_CHAIN);
  g_assert_cmpuint (chain->len, ==, 3);
  for (guint k = 0; k < 3; k++) /* told in their order */
    g_assert_cmpuint (g_array_index (chain, guint, k), ==, k);
  g_assert_cmpuint (hw_search_chain (search, (guint64[]){ 7 }, NULL), ==, 3);
  g_assert_cmpuint (hw_search_chain (search, (guint64[]){ 0 }, NULL), ==, 0);
}

/* The heaviest first, among equals the larger, then the earlier. */
static void
loads_are_tried_by_their_weight (void)
{
  const guint64 rows[] = { 0x1, 0x6, 0x8, 0x30, 0xc0 };
  const guint weight[] = { 5, 3, 3, 7, 2, 3, 1, 4 };
  HwSearch search = { .words = 1 };
  g_autoptr (GArray) loads = g_array_new (FALSE, FALSE, sizeof (guint64));
  g_autofree HwRanked *ranked = NULL;

  /* 5, 3 + 3, 7 alone, 2 + 3 and 1 + 4: the last two weigh as much as the first and are larger. */
  g_array_append_vals (loads, rows, 5);
  ranked = hw_search_rank_loads (&search, loads, weight);
  g_assert_cmpuint (ranked[0].row, ==, 2);
  g_assert_cmpuint (ranked[1].row, ==, 1);
  g_assert_cmpuint (ranked[2].row, ==, 3);
  g_assert_cmpuint (ranked[3].row, ==, 4);
  g_assert_cmpuint (ranked[4].row, ==, 0);
}

/* A dive that is stopped leaves the grouping alone; so does one too many. */
static void
dives_end_with_the_time (void)
{
  Row row = { .step = 0.3, .cancellable = g_cancellable_new () }; /* four to a hooping */
  g_autofree guint64 *before = g_new0 (guint64, 40);
  g_autoptr (HwSearch) search = search_row (&row, 40, before);
  HwPart *part = g_ptr_array_index (search->parts, 0);
  g_autoptr (GArray) blocks = NULL;
  guint calls;

  g_assert_cmpuint (part->blocks->len, ==, 10);
  blocks = g_array_copy (part->blocks);
  search->deadline = 0;
  g_assert_false (hw_search_dive (search, part));
  search->deadline = G_MAXINT64;
  g_cancellable_cancel (row.cancellable);
  g_assert_false (hw_search_dive (search, part));
  g_cancellable_reset (row.cancellable);
  for (guint k = 0; k < 30;
       k++) /* ten is the fewest: none of them finds less, and in the end they are no longer made */
    g_assert_false (hw_search_dive (search, part));
  calls = row.calls;
  g_assert_false (hw_search_dive (search, part));
  g_assert_cmpuint (row.calls, ==, calls);
  g_assert_cmpmem (part->blocks->data, 10 * sizeof (guint64), blocks->data, 10 * sizeof (guint64));
  g_object_unref (row.cancellable);
}

/* Eight hoopings filled to the last: put together greedily they are nine. A dive searches through what is left once that is little. */
static void
dive_finds_the_eight_hoopings_that_greed_misses (void)
{
  Table table = { .n = 24, .window = 1, .room = 20, .size = { 9, 8, 10, 9, 11, 8, 10, 9, 7, 7, 6, 6,
                                                              6, 8, 7,  8, 4,  5, 4,  5, 3, 4, 3, 3 } };
  g_autoptr (HwSearch) search = search_table (&table);
  HwPart *part = g_ptr_array_index (search->parts, 0);

  g_assert_cmpuint (part->n, ==, 24);
  g_assert_cmpuint (part->blocks->len, ==, 9);
  g_assert_true (hw_search_dive (search, part));
  g_assert_cmpuint (part->blocks->len, ==, 8);
  for (guint b = 0; b < 8; b++)
    g_assert_true (table_shares (&table, g_array_index (part->blocks, guint64, b)));
}

/* A hub shares with two that do not share with each other; those with fewest companions are taken up first, and so the two tell that one
 * hooping is not enough. Begun with the hub, nobody would be left who cannot share with it. */
static void
the_lonely_tell_how_many_there_must_be (void)
{
  for (guint hub = 0; hub < 3; hub++)
    {
      Table table = { .n = 3, .window = 1, .room = 1000, .x = { 0.8, 0.8, 0.8 } };
      g_autoptr (HwSearch) search = NULL;

      table.x[(hub + 1) % 3] = 0;
      table.x[(hub + 2) % 3] = 1.6;
      search = search_table (&table);
      g_assert_cmpuint (hw_search_low (search, ((HwPart *)search->parts->pdata[0])->mask), ==, 2);
    }
}

/* Two that something else must come between share only together with it. */
static void
what_lies_between_comes_along (void)
{
  Table table = { .n = 3, .window = 1, .room = 2, .size = { 1, 1, 1 }, .before = { 0, 1, 3 } };
  Table loose = { .n = 3, .window = 1, .room = 2, .size = { 1, 1, 1 } };
  g_autoptr (HwSearch) search = search_table (&table);
  g_autoptr (HwSearch) free_to_share = search_table (&loose);
  const guint64 ends = 5;

  g_assert_true (hw_load_holds (free_to_share, &ends));
  g_assert_false (hw_load_holds (search, &ends));
  g_assert_false (hw_mask_has (hw_search_share (search, 0), 2));
  g_assert_true (hw_mask_has (hw_search_share (search, 0), 1));
}

/* Four in a row, each sharing with its neighbours: the outermost has but one companion, so that only its hooping is tried first. */
static void
the_outermost_of_a_row_leads (void)
{
  Table table = { .n = 4, .window = 1, .room = 1000, .x = { 0.8, 0, 1.6, 2.4 } };
  g_autoptr (HwSearch) search = search_table (&table);
  g_autoptr (GArray) loads = g_array_new (FALSE, FALSE, sizeof (guint64));
  const guint64 all = 15;
  gboolean backwards;

  g_assert_true (hw_search_list_loads (search, &all, 100, &backwards, loads));
  g_assert_cmpuint (loads->len, ==, 1);
  g_assert_cmpuint (g_array_index (loads, guint64, 0), ==, 3);
}

/* Filled from the back, hoopings come in their order all the same. */
static void
hoopings_filled_from_the_back_come_in_order (void)
{
  Table table = { .n = 3, .window = 1, .room = 1, .size = { 1, 1, 1 }, .before = { 0, 1, 3 } };
  g_autoptr (HwSearch) search = search_table (&table);

  for (guint backwards = 0; backwards < 2; backwards++)
    {
      g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (guint64));
      const guint64 all = 7;

      g_assert_true (hw_search_greedy (search, &all, 0, backwards, blocks));
      g_assert_cmpuint (blocks->len, ==, 3);
      for (guint b = 0; b < 3; b++)
        g_assert_cmpuint (g_array_index (blocks, guint64, b), ==, 1u << b);
    }
}

/* The most hoopings that are looked through item by item: 32, one after the other. */
static void
thirty_two_in_a_chain_are_placed_item_by_item (void)
{
  Table table = { .n = 32, .window = 1, .room = 1 };
  g_autoptr (HwSearch) search = NULL;
  const guint64 all = G_MAXUINT32, none = 0;

  for (guint i = 0; i < table.n; i++)
    {
      table.size[i] = 1;
      table.before[i] = (G_GUINT64_CONSTANT (1) << i) - 1;
    }
  search = search_table (&table);
  for (guint limit = 31; limit <= 32; limit++)
    {
      g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (guint64));

      g_assert_cmpint (hw_search_assign (search, &all, &none, limit, 100000, blocks), ==, limit == 32);
      g_assert_cmpuint (blocks->len, ==, limit == 32 ? 32 : 0);
    }
}

/* Dives on tables that are hard, stopped at any question: what is left always works, and more time finds no more hoopings. */
static void
stopped_anywhere_the_answer_works (void)
{
  for (guint round = 0; round < 60; round++)
    {
      Table table;
      g_autoptr (HwSearch) search = NULL;
      guint before;

      random_table (&table, g_test_rand_int_range (40, 60), round % 4 * 0.02, 2.5);
      search = search_table (&table);
      before = hw_search_count (search);
      for (guint k = 1; k < 6; k++)
        {
          hw_search_run (search, g_get_monotonic_time () + g_test_rand_int_range (100, 4000));
          assert_works (&table, search);
          g_assert_cmpuint (hw_search_count (search), <=, before);
          g_assert_cmpuint (hw_search_bound (search), <=, hw_search_count (search));
          before = hw_search_count (search);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/search-edges/hundreds", hundreds_in_a_row);
  g_test_add_func ("/search-edges/thousands", thousands_in_a_row);
  g_test_add_func ("/search-edges/thousands-tied", thousands_with_ties_keep_their_order);
  g_test_add_func ("/search-edges/nothing", nothing_takes_no_hooping);
  g_test_add_func ("/search-edges/offers", offers_that_are_no_answer_are_refused);
  g_test_add_func ("/search-edges/no-memory", without_memory_or_steps_nothing_is_claimed);
  g_test_add_func ("/search-edges/reasons", reasons_are_the_plainest_there_is);
  g_test_add_func ("/search-edges/ranked", loads_are_tried_by_their_weight);
  g_test_add_func ("/search-edges/dives", dives_end_with_the_time);
  g_test_add_func ("/search-edges/dive-finds", dive_finds_the_eight_hoopings_that_greed_misses);
  g_test_add_func ("/search-edges/lonely", the_lonely_tell_how_many_there_must_be);
  g_test_add_func ("/search-edges/between", what_lies_between_comes_along);
  g_test_add_func ("/search-edges/leads", the_outermost_of_a_row_leads);
  g_test_add_func ("/search-edges/from-the-back", hoopings_filled_from_the_back_come_in_order);
  g_test_add_func ("/search-edges/thirty-two", thirty_two_in_a_chain_are_placed_item_by_item);
  g_test_add_func ("/search-edges/stopped", stopped_anywhere_the_answer_works);
  return g_test_run ();
}

/* Improvement of a large grouping: a few hoopings that lie close together are taken out and their items grouped anew by the exact search,
 * with one hooping less (a large neighbourhood search: P. Shaw 1998, CP-98, LNCS 1520). The hoopings of a window leave no gap in the order
 * of the hoopings, so that the rest need not change. */
#include "search-private.h"

#define STEPS_A_WINDOW 3000

typedef struct
{
  HwSearch *search;
  HwPart *part;
  guint n;         /* hoopings */
  guint words;     /* of rows over hoopings */
  guint64 *before; /* n rows: which hoopings come before, transitive */
  guint64 *after;
  guint64 *near; /* n rows: some items of both could share */
} Windows;

static guint64 *
block (const Windows *windows, guint b)
{
  return &g_array_index (windows->part->blocks, guint64, (gsize)b * windows->search->words);
}

static gboolean
any_row_meets (const Windows *windows, guint a, const guint64 *rows, const guint64 *other)
{
  HwSearch *search = windows->search;
  const guint64 *items = block (windows, a);

  for (HW_MASK_EACH (i, items, search->words))
    if (hw_mask_meets (HW_MASK_ROW (rows, i, search->words), other, search->words))
      return TRUE;
  return FALSE;
}

static void
windows_init (Windows *windows)
{
  guint n = windows->n, words = windows->words;

  windows->before = g_new0 (guint64, (gsize)n * words);
  windows->near = g_new0 (guint64, (gsize)n * words);
  for (guint a = 0; a < n; a++)
    for (guint b = 0; b < n; b++)
      if (a != b)
        {
          if (any_row_meets (windows, a, windows->search->after, block (windows, b)))
            hw_mask_add (HW_MASK_ROW (windows->before, b, words), a);
          if (any_row_meets (windows, a, windows->search->share, block (windows, b)))
            hw_mask_add (HW_MASK_ROW (windows->near, a, words), b);
        }
  for (guint k = 0; k < n; k++)
    for (guint b = 0; b < n; b++)
      if (hw_mask_has (HW_MASK_ROW (windows->before, b, words), k))
        hw_mask_join (HW_MASK_ROW (windows->before, b, words), HW_MASK_ROW (windows->before, k, words),
                      words);
  windows->after = g_new0 (guint64, (gsize)n * words);
  for (guint b = 0; b < n; b++)
    for (HW_MASK_EACH (a, HW_MASK_ROW (windows->before, b, words), words))
      hw_mask_add (HW_MASK_ROW (windows->after, a, words), b);
}

static void
windows_clear (Windows *windows)
{
  g_free (windows->before);
  g_free (windows->after);
  g_free (windows->near);
}

/* Takes a hooping into the window with all that lie between it and the others. */
static void
take_in (const Windows *windows, guint64 *window, guint b)
{
  guint words = windows->words;
  g_autofree guint64 *pre = g_new0 (guint64, 2 * (gsize)words);
  guint64 *post = pre + words;

  hw_mask_add (window, b);
  for (HW_MASK_EACH (a, window, words))
    {
      hw_mask_join (pre, HW_MASK_ROW (windows->before, a, words), words);
      hw_mask_join (post, HW_MASK_ROW (windows->after, a, words), words);
    }
  hw_mask_keep (pre, post, words);
  hw_mask_join (window, pre, words);
}

static guint
items_of (const Windows *windows, const guint64 *window, guint64 *items)
{
  hw_mask_clear (items, windows->search->words);
  for (HW_MASK_EACH (a, window, windows->words))
    hw_mask_join (items, block (windows, a), windows->search->words);
  return hw_mask_count (items, windows->search->words);
}

/* Grows a window from one hooping, nearest first, while it holds few enough items. */
static void
grow_window (const Windows *windows, guint seed, guint most_items, guint64 *window, guint64 *items)
{
  guint words = windows->words;
  g_autofree guint64 *trial = g_new (guint64, words);
  g_autofree guint64 *refused = g_new0 (guint64, words);

  hw_mask_clear (window, words);
  hw_mask_add (window, seed);
  for (;;)
    {
      guint best = G_MAXUINT, most = 0;

      for (guint b = 0; b < windows->n; b++)
        {
          guint near;

          if (hw_mask_has (window, b) || hw_mask_has (refused, b))
            continue;
          near = hw_mask_count_common (HW_MASK_ROW (windows->near, b, words), window, words);
          if (near > most)
            {
              most = near;
              best = b;
            }
        }
      if (best == G_MAXUINT)
        break;
      hw_mask_copy (trial, window, words);
      take_in (windows, trial, best);
      if (items_of (windows, trial, items) <= most_items)
        hw_mask_copy (window, trial, words);
      else
        hw_mask_add (refused, best);
    }
  items_of (windows, window, items);
}

/* Replaces the hoopings of the window by what the search found. */
static void
replace_window (const Windows *windows, const guint64 *window, const guint64 *items)
{
  GArray *blocks = g_array_new (FALSE, FALSE, sizeof (guint64));

  for (guint b = 0; b < windows->n; b++)
    if (!hw_mask_has (window, b))
      g_array_append_vals (blocks, block (windows, b), windows->search->words);
  hw_search_extract (windows->search, items, blocks);
  g_array_unref (windows->part->blocks);
  windows->part->blocks = blocks;
}

gboolean
hw_search_improve (HwSearch *search, HwPart *part, guint most_items)
{
  Windows windows = { .search = search, .part = part, .n = part->blocks->len / search->words };
  g_autofree guint64 *window = NULL;
  g_autofree guint64 *items = g_new (guint64, search->words);
  gboolean better = FALSE;

  windows.words = HW_MASK_WORDS (windows.n);
  window = g_new (guint64, windows.words);
  windows_init (&windows);
  for (guint seed = 0; seed < windows.n && !better; seed++)
    {
      guint count;

      grow_window (&windows, seed, most_items, window, items);
      count = hw_mask_count (window, windows.words);
      search->stopped = FALSE;
      search->step_limit = search->steps + STEPS_A_WINDOW;
      if (hw_search_solve (search, items, count - 1))
        {
          replace_window (&windows, window, items);
          better = TRUE;
        }
      if (g_get_monotonic_time () > search->deadline || g_cancellable_is_cancelled (search->cancellable))
        break;
    }
  windows_clear (&windows);
  return better;
}

/* First answers: hoopings filled one after another, from the front of the order or from the back, always with what has fewest chances
 * left. Simple list scheduling, in several ways; the best one counts. */
#include "search-private.h"

typedef struct
{
  HwSearch *search;
  const guint64 *needs;
  HwGreedyWay way;
  guint64 *rest;
  guint *height; /* longest chain of items that wait for this one */
} Greedy;

static gboolean
is_ready (const Greedy *greedy, guint item)
{
  const guint64 *needs = HW_MASK_ROW (greedy->needs, item, greedy->search->words);
  const guint64 *in = greedy->search->load.mask;

  for (guint w = 0; w < greedy->search->words; w++)
    if (needs[w] & greedy->rest[w] & ~in[w])
      return FALSE;
  return TRUE;
}

static gint64
urgency (const Greedy *greedy, guint item)
{
  const HwSearch *search = greedy->search;
  gint64 friends = hw_mask_count_common (hw_search_share (search, item), greedy->rest, search->words);

  switch (greedy->way)
    {
    case HW_GREEDY_CHAIN:
      return greedy->height[item] * G_GINT64_CONSTANT (100000) - friends;
    case HW_GREEDY_FIRST:
      return -(gint64)item;
    case HW_GREEDY_WEIGHT:
      return search->weight[item] * G_GINT64_CONSTANT (100000) - friends;
    case HW_GREEDY_LONELY:
    default:
      return -friends;
    }
}

/* The most urgent ready item among the set that fits the load. */
static gboolean
push_best (Greedy *greedy, guint64 *among)
{
  HwSearch *search = greedy->search;

  for (;;)
    {
      guint best = G_MAXUINT;
      gint64 most = G_MININT64;

      for (HW_MASK_EACH (i, among, search->words))
        {
          gint64 urgent;

          if (!is_ready (greedy, i))
            continue;
          urgent = urgency (greedy, i);
          if (urgent > most)
            {
              most = urgent;
              best = i;
            }
        }
      if (best == G_MAXUINT)
        return FALSE;
      hw_mask_remove (among, best);
      if (hw_load_push (search, best))
        {
          hw_mask_keep (among, hw_search_share (search, best), search->words);
          return TRUE;
        }
    }
}

static void
find_heights (Greedy *greedy, const guint64 *set)
{
  HwSearch *search = greedy->search;
  const guint64 *rows = greedy->needs == search->before ? search->after : search->before;

  for (HW_MASK_EACH (i, set, search->words))
    greedy->height[i] = hw_mask_count_common (HW_MASK_ROW (rows, i, search->words), set, search->words);
}

static void
turn_round (GArray *blocks, guint first, guint words)
{
  guint n = blocks->len / words;

  for (guint a = first, b = n; a + 1 < b; a++)
    {
      b--;
      for (guint w = 0; w < words; w++)
        {
          guint64 *x = &g_array_index (blocks, guint64, (gsize)a * words + w);
          guint64 *y = &g_array_index (blocks, guint64, (gsize)b * words + w);
          guint64 swap = *x;

          *x = *y;
          *y = swap;
        }
    }
}

gboolean
hw_search_greedy (HwSearch *search, const guint64 *set, HwGreedyWay way, gboolean backwards, GArray *blocks)
{
  guint words = search->words, first = blocks->len / words;
  g_autofree guint64 *rest = g_memdup2 (set, words * sizeof (guint64));
  g_autofree guint64 *among = g_new (guint64, words);
  g_autofree guint *height = g_new0 (guint, search->n);
  Greedy greedy = { search, backwards ? search->after : search->before, way, rest, height };

  find_heights (&greedy, set);
  while (!hw_mask_is_empty (rest, words))
    {
      if (g_cancellable_is_cancelled (search->cancellable))
        return FALSE;
      hw_load_restart (search);
      hw_mask_copy (among, rest, words);
      while (push_best (&greedy, among))
        ;
      g_array_append_vals (blocks, search->load.mask, words);
      hw_mask_drop (rest, search->load.mask, words);
    }
  if (backwards)
    turn_round (blocks, first, words);
  return TRUE;
}

/* For very many items: no table of pairs, in the order of the list. */
gboolean
hw_search_greedy_of_many (HwSearch *search)
{
  guint n = search->n, words = search->words, left = n, first = 0;
  g_autofree guint *waits = g_new (guint, n + 1);
  HwLoad *load = &search->load;

  for (guint i = 0; i < n; i++)
    {
      waits[i] = hw_mask_count (hw_search_before (search, i), words);
      search->block_of[i] = G_MAXUINT;
    }
  search->n_blocks = 0;
  while (left > 0)
    {
      guint misses = 0;

      if (g_cancellable_is_cancelled (search->cancellable))
        return FALSE;
      load->n = 0;
      while (first < n && search->block_of[first] != G_MAXUINT)
        first++;
      for (guint i = first; i < n && misses < 2000; i++)
        {
          if (search->block_of[i] != G_MAXUINT || waits[i] > 0)
            continue;
          load->items[load->n++] = i;
          if (load->n > 1 && !search->problem.may_share (search->problem.data, load->items, load->n))
            {
              load->n--;
              misses++;
              continue;
            }
          search->block_of[i] = search->n_blocks;
          left--;
          for (HW_MASK_EACH (j, hw_search_after (search, i), words))
            waits[j]--;
        }
      search->n_blocks++;
    }
  load->n = 0;
  return TRUE;
}

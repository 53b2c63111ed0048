/* Sets that may share a hooping, put together item by item. An item between two others in the order must come along with them, because
 * hoopings follow one another. Of what could be stitched next only the maximal sets matter: a smaller one can always be filled up from
 * later hoopings without harm (maximal loads: J. R. Jackson 1956, "A computing procedure for a line balancing problem", Management
 * Science 2(3)). They are listed by leaving out or taking in one item at a time, cutting off as soon as all that is left fits. */
#include "search-private.h"

void
hw_load_init (HwLoad *load, guint n)
{
  load->items = g_new (guint, n + 1);
  load->starts = g_new (guint, n + 1);
  load->mask = g_new0 (guint64, HW_MASK_WORDS (n));
}

void
hw_load_clear (HwLoad *load)
{
  g_free (load->items);
  g_free (load->starts);
  g_free (load->mask);
  g_free (load->pre);
  g_free (load->post);
}

void
hw_load_restart (HwSearch *search)
{
  search->load.n = search->load.depth = 0;
  hw_mask_clear (search->load.mask, search->words);
}

static void
load_grow (HwLoad *load, guint words)
{
  load->room = MAX (16, load->room * 2);
  load->pre = g_renew (guint64, load->pre, (gsize)load->room * words);
  load->post = g_renew (guint64, load->post, (gsize)load->room * words);
}

/* Takes back items until n are left. */
static void
load_cut (HwLoad *load, guint n)
{
  while (load->n > n)
    hw_mask_remove (load->mask, load->items[--load->n]);
}

static gboolean
load_take (HwSearch *search, guint item)
{
  HwLoad *load = &search->load;

  load->items[load->n++] = item;
  hw_mask_add (load->mask, item);
  return load->n == 1 || search->problem.may_share (search->problem.data, load->items, load->n);
}

/* What lies between the load so far and the item, word by word, without both. */
static gboolean
load_take_between (HwSearch *search, guint item)
{
  HwLoad *load = &search->load;
  const guint64 *pre = HW_MASK_ROW (load->pre, load->depth - 1, search->words);
  const guint64 *post = HW_MASK_ROW (load->post, load->depth - 1, search->words);
  const guint64 *before = hw_search_before (search, item), *after = hw_search_after (search, item);

  for (guint w = 0; w < search->words; w++)
    {
      guint64 between = ((post[w] & before[w]) | (pre[w] & after[w])) & ~load->mask[w];

      for (; between != 0; between &= between - 1)
        if (!load_take (search, w * 64 + (guint)__builtin_ctzll (between)))
          return FALSE;
    }
  return TRUE;
}

gboolean
hw_load_push (HwSearch *search, guint item)
{
  HwLoad *load = &search->load;
  guint n = load->n, words = search->words;
  guint64 *pre, *post;

  if (load->depth == load->room)
    load_grow (load, words);
  if (!hw_mask_has (load->mask, item)
      && ((load->depth > 0 && !load_take_between (search, item)) || !load_take (search, item)))
    {
      load_cut (load, n);
      return FALSE;
    }
  pre = HW_MASK_ROW (load->pre, load->depth, words);
  post = HW_MASK_ROW (load->post, load->depth, words);
  hw_mask_copy (pre, hw_search_before (search, item), words);
  hw_mask_copy (post, hw_search_after (search, item), words);
  if (load->depth > 0)
    {
      hw_mask_join (pre, pre - words, words);
      hw_mask_join (post, post - words, words);
    }
  load->starts[load->depth++] = n;
  return TRUE;
}

void
hw_load_pop (HwSearch *search)
{
  HwLoad *load = &search->load;

  load_cut (load, load->starts[--load->depth]);
}

/* Pushes all items of the set; FALSE, having taken back what was pushed, when they do not all fit. */
static gboolean
push_all (HwSearch *search, const guint64 *set)
{
  guint depth = search->load.depth;

  for (HW_MASK_EACH (i, set, search->words))
    if (!hw_load_push (search, i))
      {
        while (search->load.depth > depth)
          hw_load_pop (search);
        return FALSE;
      }
  return TRUE;
}

gboolean
hw_load_holds (HwSearch *search, const guint64 *set)
{
  hw_load_restart (search);
  return push_all (search, set);
}

/* One listing of maximal sets. */
typedef struct
{
  HwSearch *search;
  const guint64 *region;
  const guint64 *needs;   /* rows: what must be in before an item can be */
  const guint64 *needing; /* rows: what cannot be in without an item */
  guint most;
  GArray *found;
} Listing;

/* An item all of whose needs within the region are in. */
static gboolean
is_open (const Listing *listing, guint item)
{
  const guint64 *needs = HW_MASK_ROW (listing->needs, item, listing->search->words);
  const guint64 *in = listing->search->load.mask;

  for (guint w = 0; w < listing->search->words; w++)
    if (needs[w] & listing->region[w] & ~in[w])
      return FALSE;
  return TRUE;
}

/* Drops from maybe what no longer fits, and what needs it. */
static void
sift (const Listing *listing, guint64 *maybe)
{
  guint words = listing->search->words;

  for (HW_MASK_EACH (i, maybe, words))
    {
      if (hw_mask_has (listing->search->load.mask, i))
        {
          hw_mask_remove (maybe, i);
          continue;
        }
      if (!is_open (listing, i))
        continue;
      if (hw_load_push (listing->search, i))
        {
          hw_load_pop (listing->search);
          continue;
        }
      hw_mask_remove (maybe, i);
      hw_mask_drop (maybe, HW_MASK_ROW (listing->needing, i, words), words);
    }
}

static gboolean
any_fits (const Listing *listing, const guint64 *set)
{
  for (HW_MASK_EACH (i, set, listing->search->words))
    if (hw_load_push (listing->search, i))
      {
        hw_load_pop (listing->search);
        return TRUE;
      }
  return FALSE;
}

/* The open item that gets on with fewest of the others. */
static guint
choose_item (const Listing *listing, const guint64 *maybe)
{
  HwSearch *search = listing->search;
  guint best = G_MAXUINT, fewest = G_MAXUINT;

  for (HW_MASK_EACH (i, maybe, search->words))
    {
      guint friends;

      if (!is_open (listing, i))
        continue;
      friends = hw_mask_count_common (hw_search_share (search, i), maybe, search->words);
      if (friends < fewest)
        {
          fewest = friends;
          best = i;
        }
    }
  return best;
}

/* Drops from maybe what never shares with the item, and what needs that. */
static void
drop_strangers (const Listing *listing, guint64 *maybe, guint item)
{
  guint words = listing->search->words;
  const guint64 *share = hw_search_share (listing->search, item);

  for (guint w = 0; w < words; w++)
    {
      guint64 strangers = maybe[w] & ~share[w];

      maybe[w] &= share[w];
      for (; strangers != 0; strangers &= strangers - 1)
        hw_mask_drop (
            maybe, HW_MASK_ROW (listing->needing, w * 64 + (guint)__builtin_ctzll (strangers), words), words);
    }
}

/* Lists the maximal sets that hold the load, some of maybe and none of left_out. */
static gboolean
list_sets (Listing *listing, guint64 *maybe, guint64 *left_out, gboolean sifted)
{
  HwSearch *search = listing->search;
  guint words = search->words, depth = search->load.depth, item;
  g_autofree guint64 *inner = NULL;
  gboolean going = TRUE;

  if (hw_search_should_stop (search))
    return FALSE;
  if (!sifted)
    sift (listing, maybe);
  if (push_all (search, maybe))
    {
      if (!any_fits (listing, left_out))
        g_array_append_vals (listing->found, search->load.mask, words);
      while (search->load.depth > depth)
        hw_load_pop (search);
      return listing->found->len <= (gsize)listing->most * words;
    }
  item = choose_item (listing, maybe);
  g_assert (item != G_MAXUINT);

  inner = g_new (guint64, 2 * words);
  hw_mask_copy (inner, maybe, words);
  hw_mask_copy (inner + words, left_out, words);
  hw_mask_remove (inner, item);
  drop_strangers (listing, inner, item);
  hw_mask_keep (inner + words, hw_search_share (search, item), words);
  if (hw_load_push (search, item))
    {
      going = list_sets (listing, inner, inner + words, FALSE);
      hw_load_pop (search);
    }
  if (!going)
    return FALSE;
  hw_mask_remove (maybe, item);
  hw_mask_drop (maybe, HW_MASK_ROW (listing->needing, item, words), words);
  hw_mask_add (left_out, item);
  return list_sets (listing, maybe, left_out, TRUE);
}

gboolean
hw_loads_find (
    HwSearch *search, const guint64 *region, guint must, gboolean backwards, guint most, GArray *found)
{
  Listing listing = { .search = search,
                      .region = region,
                      .needs = backwards ? search->after : search->before,
                      .needing = backwards ? search->before : search->after,
                      .most = most,
                      .found = found };
  g_autofree guint64 *sets = g_new0 (guint64, 2 * (gsize)search->words);

  hw_load_restart (search);
  hw_mask_copy (sets, region, search->words);
  if (must != G_MAXUINT)
    {
      hw_load_push (search, must);
      hw_mask_remove (sets, must);
      drop_strangers (&listing, sets, must);
    }
  return list_sets (&listing, sets, sets + search->words, FALSE);
}

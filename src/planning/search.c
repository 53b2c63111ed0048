/* The search for the fewest hoopings, as a whole: a first answer, bounds, exact search part by part, improvement of what is too large for
 * it. Steps are counted, not timed, wherever a choice depends on them, so that equal questions get equal answers; only the deadline looks
 * at the clock. */
#include "search-private.h"

#define FIRST_STEPS 20000
#define FIRST_ASSIGNED 1000
#define FIRST_TRIES 50 /* at strangers */
#define MOST_TRIES 20000
#define WITHIN_STEPS 200
#define DEFAULT_BYTES ((gsize)256 << 20)
#define MEMO_DEPTH 24    /* lists of sets that are in use at once, one inside the other, reckoned with */
#define MOST_WEIGHED 400 /* items of a part that is weighed */

gboolean
hw_search_time_is_up (const HwSearch *search)
{
  return g_get_monotonic_time () > search->deadline || g_cancellable_is_cancelled (search->cancellable);
}

gboolean
hw_search_should_stop (HwSearch *search)
{
  if (search->stopped)
    return TRUE;
  search->steps++;
  if (search->steps >= search->step_limit || ((search->steps & 31) == 0 && hw_search_time_is_up (search)))
    search->stopped = TRUE;
  return search->stopped;
}

static void
part_free (gpointer data)
{
  HwPart *part = data;

  g_free (part->mask);
  g_free (part->strangers);
  g_array_unref (part->blocks);
  g_free (part);
}

static guint
part_count (const HwSearch *search, const HwPart *part)
{
  return part->blocks->len / search->words;
}

/* Which pairs may share, with all that lies between them. */
static void
find_pairs (HwSearch *search)
{
  search->share = g_new0 (guint64, (gsize)MAX (search->n, 1) * search->words);
  for (guint i = 0; i < search->n; i++)
    {
      hw_load_restart (search);
      hw_load_push (search, i);
      for (guint j = i + 1; j < search->n; j++)
        if (hw_load_push (search, j))
          {
            hw_load_pop (search);
            hw_mask_add (hw_search_share (search, i), j);
            hw_mask_add (hw_search_share (search, j), i);
          }
    }
  hw_load_restart (search);
}

static void
find_parts (HwSearch *search)
{
  g_autofree guint64 *rest = g_new0 (guint64, search->words);

  for (guint i = 0; i < search->n; i++)
    hw_mask_add (rest, i);
  while (!hw_mask_is_empty (rest, search->words))
    {
      HwPart *part = g_new0 (HwPart, 1);

      part->mask = g_new0 (guint64, search->words);
      part->strangers = g_new0 (guint64, search->words);
      hw_search_take_part (search, rest, part->mask);
      part->n = hw_mask_count (part->mask, search->words);
      part->blocks = g_array_new (FALSE, FALSE, sizeof (guint64));
      g_ptr_array_add (search->parts, part);
    }
}

/* Puts the blocks of all parts into one row that respects the order, the earliest in the list first. */
static void
line_up (HwSearch *search)
{
  g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (guint64));
  g_autofree guint64 *rest = g_new0 (guint64, search->words);
  g_autofree gboolean *done = NULL;
  guint n, words = search->words;

  for (guint p = 0; p < search->parts->len; p++)
    {
      const HwPart *part = g_ptr_array_index (search->parts, p);

      g_array_append_vals (blocks, part->blocks->data, part->blocks->len);
      hw_mask_join (rest, part->mask, words);
    }
  n = blocks->len / words;
  done = g_new0 (gboolean, n + 1);
  for (guint k = 0; k < n; k++)
    {
      guint best = G_MAXUINT, first = G_MAXUINT;
      const guint64 *items;

      for (guint b = 0; b < n; b++)
        {
          gboolean ready = !done[b];

          items = &g_array_index (blocks, guint64, (gsize)b * words);
          if (!ready || hw_mask_next (items, words, 0) >= first)
            continue;
          for (HW_MASK_EACH (i, items, words))
            for (guint w = 0; w < words && ready; w++)
              ready = (hw_search_before (search, i)[w] & rest[w] & ~items[w]) == 0;
          if (ready)
            {
              best = b;
              first = hw_mask_next (items, words, 0);
            }
        }
      g_assert (best != G_MAXUINT);
      done[best] = TRUE;
      items = &g_array_index (blocks, guint64, (gsize)best * words);
      for (HW_MASK_EACH (i, items, words))
        search->block_of[i] = k;
      hw_mask_drop (rest, items, words);
    }
  search->n_blocks = n;
}

/* One greedy way for a part; kept when it is the first or needs fewer. */
static gboolean
try_way (HwSearch *search, HwPart *part, HwGreedyWay way, gboolean backwards)
{
  g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (guint64));

  if (!hw_search_greedy (search, part->mask, way, backwards, blocks)
      || (part->blocks->len > 0 && blocks->len >= part->blocks->len))
    return FALSE;
  g_array_set_size (part->blocks, 0);
  g_array_append_vals (part->blocks, blocks->data, blocks->len);
  return TRUE;
}

/* Looks for items of the part that never share, harder than before. */
static void
look_for_strangers (HwSearch *search, HwPart *part, guint tries)
{
  g_autofree guint64 *found = NULL;

  if (tries <= part->tries)
    return;
  found = g_new0 (guint64, search->words);
  hw_search_strangers (search, part->mask, G_MAXUINT, tries, found);
  if (!search->stopped)
    part->tries = tries;
  if (hw_mask_count (found, search->words) <= hw_mask_count (part->strangers, search->words))
    return;
  hw_mask_copy (part->strangers, found, search->words);
  part->low = MAX (part->low, hw_mask_count (found, search->words));
}

static void
begin_part (HwSearch *search, HwPart *part)
{
  part->low = hw_search_low (search, part->mask);
  look_for_strangers (search, part, FIRST_TRIES);
  for (guint way = 0; way < HW_GREEDY_WEIGHT; way++)
    for (guint back = 0; back < 2; back++)
      {
        if (part->blocks->len > 0 && (part_count (search, part) == part->low || part->n > 100))
          return;
        try_way (search, part, way, back);
      }
}

HwSearch *
hw_search_new (const HwSearchProblem *problem)
{
  g_autoptr (HwSearch) search = g_new0 (HwSearch, 1);

  search->problem = *problem;
  search->n = problem->n;
  search->cancellable = problem->cancellable;
  search->words = HW_MASK_WORDS (problem->n);
  search->before = problem->before;
  search->weight = g_new0 (guint, problem->n + 1);
  search->block_of = g_new0 (guint, problem->n + 1);
  search->parts = g_ptr_array_new_with_free_func (part_free);
  search->deadline = G_MAXINT64;
  search->step_limit = G_MAXUINT64;
  search->after = g_new0 (guint64, (gsize)MAX (search->n, 1) * search->words);
  for (guint j = 0; j < search->n; j++)
    for (HW_MASK_EACH (i, hw_search_before (search, j), search->words))
      hw_mask_add (hw_search_after (search, i), j);
  hw_load_init (&search->load, search->n);
  hw_memo_init (&search->memo, search->words);
  search->heavy = g_array_new (FALSE, FALSE, sizeof (guint64));
  search->weighings
      = g_hash_table_new_full (g_bytes_hash, g_bytes_equal, (GDestroyNotify)g_bytes_unref, g_free);
  hw_search_limit_memory (search, DEFAULT_BYTES);
  if (search->n > HW_SEARCH_MOST_PAIRS)
    {
      search->low_of_all = 1;
      return hw_search_greedy_of_many (search) ? g_steal_pointer (&search) : NULL;
    }
  find_pairs (search);
  hw_search_sort (search);
  find_parts (search);
  for (guint p = 0; p < search->parts->len; p++)
    begin_part (search, g_ptr_array_index (search->parts, p));
  if (g_cancellable_is_cancelled (search->cancellable))
    return NULL;
  line_up (search);
  return g_steal_pointer (&search);
}

void
hw_search_limit_memory (HwSearch *search, gsize bytes)
{
  search->memo.most_bytes = bytes / 4 * 3;
  search->most_listed = MAX (64, bytes / 4 / MEMO_DEPTH / (search->words * sizeof (guint64)));
}

void
hw_search_free (HwSearch *search)
{
  g_free (search->after);
  g_free (search->share);
  g_free (search->weight);
  g_free (search->sorted);
  g_free (search->lonely);
  g_free (search->block_of);
  g_ptr_array_unref (search->parts);
  g_array_unref (search->heavy);
  g_hash_table_unref (search->weighings);
  hw_load_clear (&search->load);
  hw_memo_clear (&search->memo);
  g_free (search);
}

/* Whether the grouping respects the order and each of its sets may share. rows: its sets. */
static gboolean
grouping_works (HwSearch *search, const guint *block_of, guint n_blocks, const guint64 *rows)
{
  for (guint j = 0; j < search->n; j++)
    for (HW_MASK_EACH (i, hw_search_before (search, j), search->words))
      if (block_of[i] > block_of[j])
        return FALSE;
  for (guint b = 0; b < n_blocks; b++)
    if (hw_mask_is_empty (HW_MASK_ROW (rows, b, search->words), search->words)
        || !hw_load_holds (search, HW_MASK_ROW (rows, b, search->words)))
      return FALSE;
  return TRUE;
}

gboolean
hw_search_offer (HwSearch *search, const guint *block_of, guint n_blocks)
{
  g_autofree guint64 *rows = NULL;

  if (n_blocks > search->n_blocks || n_blocks == 0)
    return FALSE;
  rows = g_new0 (guint64, (gsize)n_blocks * search->words);
  for (guint i = 0; i < search->n; i++)
    {
      if (block_of[i] >= n_blocks)
        return FALSE;
      hw_mask_add (HW_MASK_ROW (rows, block_of[i], search->words), i);
    }
  if (!grouping_works (search, block_of, n_blocks, rows))
    return FALSE;
  memcpy (search->block_of, block_of, search->n * sizeof (guint));
  search->n_blocks = n_blocks;
  for (guint p = 0; p < search->parts->len; p++)
    {
      HwPart *part = g_ptr_array_index (search->parts, p);

      g_array_set_size (part->blocks, 0);
      for (guint b = 0; b < n_blocks; b++)
        if (hw_mask_meets (part->mask, HW_MASK_ROW (rows, b, search->words), search->words))
          g_array_append_vals (part->blocks, HW_MASK_ROW (rows, b, search->words), search->words);
    }
  return TRUE;
}

static gboolean
is_closed (const HwSearch *search, const HwPart *part)
{
  return part->low >= part_count (search, part);
}

/* The exact search of one part within a number of steps, one hooping more each time it fails. */
static void
prove_part (HwSearch *search, HwPart *part, guint64 steps)
{
  search->stopped = FALSE;
  search->step_limit = steps == G_MAXUINT64 ? steps : search->steps + steps;
  while (!is_closed (search, part))
    {
      if (hw_search_solve (search, part->mask, part->low))
        {
          g_array_set_size (part->blocks, 0);
          hw_search_extract (search, part->mask, part->blocks);
        }
      else if (search->stopped)
        return;
      else
        {
          part->low++;
          search->tried = TRUE;
        }
    }
}

/* The same item by item. */
static void
assign_part (HwSearch *search, HwPart *part, gsize steps)
{
  while (!is_closed (search, part))
    {
      g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (guint64));
      int answer = hw_search_assign (search, part->mask, part->strangers, part->low, steps, blocks);

      if (answer < 0)
        return;
      if (answer == 1)
        {
          g_array_set_size (part->blocks, 0);
          g_array_append_vals (part->blocks, blocks->data, blocks->len);
          return;
        }
      part->low++;
      search->tried = TRUE;
    }
}

static void
weigh_part (HwSearch *search, HwPart *part)
{
  search->stopped = FALSE;
  search->step_limit = G_MAXUINT64;
  part->all_weighed = hw_search_weigh (search, part->mask);
  part->low = MAX (part->low, hw_search_low (search, part->mask));
}

static gboolean
work_on (HwSearch *search, HwPart *part, guint round)
{
  if (round == 0)
    {
      look_for_strangers (search, part, MOST_TRIES);
      if (!is_closed (search, part) && part->n <= MOST_WEIGHED)
        weigh_part (search, part);
      if (hw_search_time_is_up (search))
        return is_closed (search, part); /* begun again later, so that the clock does not choose the proof */
      for (guint way = 0; way < 2 * HW_GREEDY_WAYS && !is_closed (search, part); way++)
        try_way (search, part, way / 2, way & 1);
    }
  if (!is_closed (search, part))
    assign_part (search, part, (gsize)FIRST_ASSIGNED << MIN (2 * round, 40));
  if (part->n <= HW_SEARCH_ALWAYS)
    prove_part (search, part, G_MAXUINT64);
  else if (!is_closed (search, part))
    prove_part (search, part, (guint64)FIRST_STEPS << MIN (2 * round, 40));
  if (part->n > HW_SEARCH_ALWAYS)
    {
      while (!is_closed (search, part) && !hw_search_time_is_up (search)
             && hw_search_improve (search, part, MIN (24 + 6 * round, part->n)))
        ;
      while (part->all_weighed && !is_closed (search, part) && !hw_search_time_is_up (search)
             && hw_search_dive (search, part))
        ;
    }
  return is_closed (search, part);
}

static gboolean
run_many (HwSearch *search)
{
  guint strangers = hw_search_strangers_of_many (search); /* once: cancelled, a second look finds fewer */

  search->low_of_all = MAX (search->low_of_all, strangers);
  return search->low_of_all >= search->n_blocks;
}

gboolean
hw_search_run (HwSearch *search, gint64 deadline)
{
  guint open = search->parts->len, before;

  search->deadline = deadline;
  if (search->share == NULL)
    return run_many (search);
  for (guint round = 0; open > 0 && (round == 0 || !hw_search_time_is_up (search)); round++)
    {
      open = 0;
      for (guint p = 0; p < search->parts->len && !hw_search_time_is_up (search); p++)
        {
          HwPart *part = g_ptr_array_index (search->parts, p);

          open += !is_closed (search, part) && !work_on (search, part, round);
        }
      if (round > 40)
        break;
    }
  before = 0;
  for (guint p = 0; p < search->parts->len; p++)
    before += part_count (search, g_ptr_array_index (search->parts, p));
  if (before < search->n_blocks)
    line_up (search);
  return hw_search_bound (search) >= search->n_blocks;
}

guint
hw_search_count (HwSearch *search)
{
  return search->n_blocks;
}

guint
hw_search_bound (HwSearch *search)
{
  guint low = 0;

  if (search->share == NULL)
    return search->low_of_all;
  for (guint p = 0; p < search->parts->len; p++)
    low += ((HwPart *)g_ptr_array_index (search->parts, p))->low;
  return low;
}

const guint *
hw_search_blocks (HwSearch *search)
{
  return search->block_of;
}

int
hw_search_within (HwSearch *search, const guint64 *set, guint limit)
{
  gboolean yes;

  if (search->share == NULL)
    return -1;
  search->stopped = FALSE;
  search->deadline = G_MAXINT64;
  search->step_limit = search->steps + WITHIN_STEPS;
  yes = hw_search_solve (search, set, limit);
  if (!yes && search->stopped)
    return -1;
  return yes ? 1 : 0;
}

guint
hw_search_at_least (HwSearch *search, const guint64 *set)
{
  guint least = 0;

  while (hw_search_within (search, set, least) == 0)
    least++;
  return least;
}

static void
add_members (GArray *items, const guint64 *members, guint words)
{
  for (HW_MASK_EACH (i, members, words))
    g_array_append_val (items, i);
}

/* The weight of all items reaches the bound; the items that carry it. */
static gboolean
weights_say_it (HwSearch *search, guint bound, GArray *items)
{
  guint sum = 0;

  for (guint p = 0; p < search->parts->len; p++)
    {
      const HwPart *part = g_ptr_array_index (search->parts, p);

      sum += hw_search_low (search, part->mask);
    }
  for (guint i = 0; i < search->n; i++)
    if (search->weight[i] > 0)
      g_array_append_val (items, i);
  return sum >= bound;
}

GArray *
hw_search_reason (HwSearch *search, HwReason *reason)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree guint64 *all = NULL;
  guint bound = hw_search_bound (search);

  *reason = bound <= 1 ? HW_REASON_TRIVIAL : HW_REASON_NONE;
  if (bound <= 1 || search->share == NULL)
    return items;
  *reason = HW_REASON_PAIRS;
  for (guint p = 0; p < search->parts->len; p++)
    add_members (items, ((HwPart *)g_ptr_array_index (search->parts, p))->strangers, search->words);
  if (items->len >= bound)
    return items;
  g_array_set_size (items, 0);
  *reason = HW_REASON_CHAIN;
  all = g_new0 (guint64, search->words);
  for (guint i = 0; i < search->n; i++)
    hw_mask_add (all, i);
  if (hw_search_chain (search, all, items) >= bound)
    return items;
  g_array_set_size (items, 0);
  *reason = HW_REASON_WEIGHTS;
  if (search->weighed && weights_say_it (search, bound, items))
    return items;
  g_array_set_size (items, 0);
  *reason = HW_REASON_TRIED;
  return items;
}

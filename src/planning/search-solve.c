/* The exact search for the fewest hoopings. A set of items is first taken apart into parts that share no hooping and go round no loop of
 * the order: their hoopings simply add up. A part is then opened at a place where that loses nothing:
 *  - an item whose every possible companion waits for nothing in the part (or for that item alone): its hooping can be moved to the very
 *    front, so only the sets with that item are tried; the same from the back;
 *  - else every maximal set that can be stitched first (or last, whichever are fewer) is tried.
 * What is left is again a set of this kind, so that every answer is remembered by its set (dynamic programming over ideals of the order:
 * M. Held, R. M. Karp and R. Shareshian 1963, "Assembly-line balancing: dynamic programming with precedence constraints", Operations
 * Research 11(3)) and cut off by its bound. */
#include "search-private.h"

#include <stdlib.h>

#define MOST_LOADS 200000

/* Everything reached from the first item of set by sharing or by the order, in one direction. */
static void
reach (const HwSearch *search, const guint64 *set, guint from, const guint64 *order, guint64 *reached)
{
  guint words = search->words;
  g_autofree guint64 *many = words > 4 ? g_new (guint64, words) : NULL;
  guint64 few[4];
  guint64 *fresh = many != NULL ? many : few;

  hw_mask_clear (reached, words);
  hw_mask_clear (fresh, words);
  hw_mask_add (reached, from);
  hw_mask_add (fresh, from);
  for (guint i = from; i != G_MAXUINT; i = hw_mask_next (fresh, words, 0))
    {
      const guint64 *share = hw_search_share (search, i), *row = HW_MASK_ROW (order, i, words);

      hw_mask_remove (fresh, i);
      for (guint w = 0; w < words; w++)
        {
          guint64 found = (share[w] | row[w]) & set[w] & ~reached[w];

          fresh[w] |= found;
          reached[w] |= found;
        }
    }
}

void
hw_search_take_part (HwSearch *search, guint64 *rest, guint64 *part)
{
  guint words = search->words, first = hw_mask_next (rest, words, 0);
  g_autofree guint64 *many = words > 4 ? g_new (guint64, words) : NULL;
  guint64 few[4];
  guint64 *backwards = many != NULL ? many : few;

  reach (search, rest, first, search->after, part);
  reach (search, part, first, search->before, backwards);
  hw_mask_copy (part, backwards, words);
  hw_mask_drop (rest, part, words);
}

/* Whether everything that could join item waits for nothing else in the set (needs: before or after). */
static gboolean
can_lead (const HwSearch *search, const guint64 *set, guint item, const guint64 *needs)
{
  guint words = search->words;
  const guint64 *share = hw_search_share (search, item);

  for (guint w = 0; w < words; w++)
    if (HW_MASK_ROW (needs, item, words)[w] & set[w])
      return FALSE;
  for (guint w = 0; w < words; w++)
    for (guint64 friends = share[w] & set[w]; friends != 0; friends &= friends - 1)
      {
        guint f = w * 64 + (guint)__builtin_ctzll (friends);
        const guint64 *row = HW_MASK_ROW (needs, f, words);

        for (guint v = 0; v < words; v++)
          {
            guint64 waits = row[v] & set[v];

            if (v == item >> 6)
              waits &= ~(G_GUINT64_CONSTANT (1) << (item & 63));
            if (waits != 0)
              return FALSE;
          }
      }
  return TRUE;
}

/* How many items of the set wait for none of it. */
static guint
count_open (const HwSearch *search, const guint64 *set, const guint64 *needs)
{
  guint n = 0;

  for (HW_MASK_EACH (i, set, search->words))
    n += !hw_mask_meets (HW_MASK_ROW (needs, i, search->words), set, search->words);
  return n;
}

/* Where to open the set: the leading item with fewest companions, or G_MAXUINT. */
static guint
choose_lead (const HwSearch *search, const guint64 *set, gboolean *backwards)
{
  guint best = G_MAXUINT, fewest = G_MAXUINT;

  for (HW_MASK_EACH (i, set, search->words))
    {
      guint n = hw_mask_count_common (hw_search_share (search, i), set, search->words);

      if (n >= fewest)
        continue;
      if (can_lead (search, set, i, search->before))
        *backwards = FALSE;
      else if (can_lead (search, set, i, search->after))
        *backwards = TRUE;
      else
        continue;
      fewest = n;
      best = i;
    }
  if (best == G_MAXUINT)
    *backwards = count_open (search, set, search->after) < count_open (search, set, search->before);
  return best;
}

static int
compare_ranked (const void *pa, const void *pb)
{
  const HwRanked *a = pa, *b = pb;

  if (a->worth != b->worth)
    return a->worth > b->worth ? -1 : 1;
  return a->row < b->row ? -1 : 1;
}

HwRanked *
hw_search_rank_loads (const HwSearch *search, const GArray *loads, const guint *weight)
{
  guint n = loads->len / search->words;
  HwRanked *ranked = g_new (HwRanked, n + 1);

  for (guint r = 0; r < n; r++)
    {
      const guint64 *load = &g_array_index (loads, guint64, (gsize)r * search->words);

      ranked[r] = (HwRanked){ 0, r };
      for (HW_MASK_EACH (i, load, search->words))
        ranked[r].worth += ((guint64)weight[i] << 16) + 1;
    }
  qsort (ranked, n, sizeof *ranked, compare_ranked);
  return ranked;
}

gboolean
hw_search_list_loads (HwSearch *search, const guint64 *set, guint most, gboolean *backwards, GArray *loads)
{
  guint lead;

  *backwards = FALSE;
  lead = choose_lead (search, set, backwards);
  return hw_loads_find (search, set, lead, *backwards, most, loads);
}

static gboolean
try_loads (HwSearch *search, const guint64 *set, guint limit, guint64 *choice)
{
  guint words = search->words, n;
  gboolean backwards, found = FALSE;
  g_autofree guint64 *rest = g_new (guint64, words);
  g_autoptr (GArray) loads = g_array_new (FALSE, FALSE, sizeof (guint64));
  g_autofree HwRanked *ranked = NULL;

  if (!hw_search_list_loads (search, set, MIN (MOST_LOADS, search->most_listed), &backwards, loads))
    {
      search->stopped = TRUE;
      return FALSE;
    }
  n = loads->len / words;
  ranked = hw_search_rank_loads (search, loads, search->weight);
  for (guint r = 0; r < n && !found && !search->stopped; r++)
    {
      const guint64 *load = &g_array_index (loads, guint64, (gsize)ranked[r].row * words);

      hw_mask_copy (rest, set, words);
      hw_mask_drop (rest, load, words);
      found = hw_search_solve (search, rest, limit - 1);
      if (found)
        hw_mask_copy (choice, load, words);
    }
  return found;
}

/* What is known of a part, its bound made when it is new; NULL when stopped. */
static HwKnown *
know_part (HwSearch *search, const guint64 *part)
{
  gboolean made;
  HwKnown *known = hw_memo_get (&search->memo, part, &made);

  if (known == NULL)
    {
      search->stopped = TRUE;
      return NULL;
    }
  if (!made)
    return known;
  if (hw_load_holds (search, part))
    {
      known->low = known->high = 1;
      hw_mask_copy (hw_memo_choice (&search->memo, known), part, search->words);
    }
  else
    known->low = MAX (2, hw_search_low (search, part));
  return known;
}

static gboolean
solve_part (HwSearch *search, const guint64 *part, guint limit)
{
  gboolean made, found;
  HwKnown *known = know_part (search, part);
  g_autofree guint64 *choice = NULL;

  if (known == NULL || known->low > limit)
    return FALSE;
  if (known->high <= limit)
    return TRUE;
  if (hw_search_should_stop (search))
    return FALSE;
  choice = g_new0 (guint64, search->words);
  found = try_loads (search, part, limit, choice);
  if (!found && search->stopped)
    return FALSE;
  known = hw_memo_get (&search->memo, part, &made);
  if (found)
    {
      known->high = limit;
      hw_mask_copy (hw_memo_choice (&search->memo, known), choice, search->words);
    }
  else
    known->low = limit + 1;
  return found;
}

/* Shares the hoopings that are left out over the parts: each begins at its bound and gets more while there are some. */
static gboolean
solve_parts (HwSearch *search, GArray *parts, guint n, guint limit)
{
  g_autofree guint *low = g_new (guint, n);
  guint sum = 0;

  for (guint k = 0; k < n; k++)
    {
      HwKnown *known = know_part (search, &g_array_index (parts, guint64, (gsize)k * search->words));

      if (known == NULL)
        return FALSE;
      sum += low[k] = known->low;
    }
  for (guint k = 0; k < n; k++)
    for (;; low[k]++, sum++)
      {
        if (sum > limit)
          return FALSE;
        if (solve_part (search, &g_array_index (parts, guint64, (gsize)k * search->words), low[k]))
          break;
        if (search->stopped)
          return FALSE;
      }
  return TRUE;
}

static GArray *
split (HwSearch *search, const guint64 *set)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (guint64));
  g_autofree guint64 *rows = g_new (guint64, 2 * (gsize)search->words);

  hw_mask_copy (rows, set, search->words);
  while (!hw_mask_is_empty (rows, search->words))
    {
      hw_search_take_part (search, rows, rows + search->words);
      g_array_append_vals (parts, rows + search->words, search->words);
    }
  return parts;
}

gboolean
hw_search_solve (HwSearch *search, const guint64 *set, guint limit)
{
  g_autoptr (GArray) parts = split (search, set);
  guint n = parts->len / search->words;

  if (n == 0)
    return TRUE;
  if (n > limit || limit >= G_MAXUINT16)
    return n <= limit;
  return solve_parts (search, parts, n, limit);
}

void
hw_search_extract (HwSearch *search, const guint64 *set, GArray *blocks)
{
  g_autoptr (GArray) parts = split (search, set);

  for (guint k = 0; k < parts->len / search->words; k++)
    {
      guint64 *part = &g_array_index (parts, guint64, (gsize)k * search->words);
      gboolean made;
      HwKnown *known = hw_memo_get (&search->memo, part, &made);
      const guint64 *choice = hw_memo_choice (&search->memo, known);

      g_assert (!made && known->high != G_MAXUINT16);
      g_array_append_vals (blocks, choice, search->words);
      hw_mask_drop (part, choice, search->words);
      hw_search_extract (search, part, blocks);
    }
}

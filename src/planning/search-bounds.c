/* Bounds: why there cannot be fewer hoopings. A set of items no two of which can share needs a hooping each. Along a chain of the order a
 * new hooping begins wherever neighbours cannot share, and the items before and after an item fill hoopings of their own (heads and tails
 * of line balancing: A. Scholl and C. Becker 2006, European Journal of Operational Research 168(3)). Weights add up over a set. */
#include "search-private.h"

static guint
hoopings_of_weight (guint64 weight)
{
  return (weight + HW_WEIGHT_ONE - 1) / HW_WEIGHT_ONE;
}

static guint64
weight_of_common (const HwSearch *search, const guint64 *a, const guint64 *b)
{
  guint64 weight = 0;

  for (guint w = 0; w < search->words; w++)
    for (guint64 common = a[w] & b[w]; common != 0; common &= common - 1)
      weight += search->weight[w * 64 + (guint)__builtin_ctzll (common)];
  return weight;
}

static int
compare_lonely (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const HwSearch *search = data;
  guint a = *(const guint *)pa, b = *(const guint *)pb;
  guint friends_a = hw_mask_count (hw_search_share (search, a), search->words);
  guint friends_b = hw_mask_count (hw_search_share (search, b), search->words);

  if (friends_a != friends_b)
    return friends_a < friends_b ? -1 : 1;
  return a < b ? -1 : 1;
}

static int
compare_waits (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const HwSearch *search = data;
  guint a = *(const guint *)pa, b = *(const guint *)pb;
  guint waits_a = hw_mask_count (hw_search_before (search, a), search->words);
  guint waits_b = hw_mask_count (hw_search_before (search, b), search->words);

  if (waits_a != waits_b) /* what comes before has less before it, as the order is transitive */
    return waits_a < waits_b ? -1 : 1;
  return a < b ? -1 : 1;
}

void
hw_search_sort (HwSearch *search)
{
  search->sorted = g_new (guint, search->n + 1);
  search->lonely = g_new (guint, search->n + 1);
  for (guint i = 0; i < search->n; i++)
    search->sorted[i] = search->lonely[i] = i;
  g_qsort_with_data (search->sorted, search->n, sizeof (guint), compare_waits, search);
  g_qsort_with_data (search->lonely, search->n, sizeof (guint), compare_lonely, search);
}

/* The items of the set so that each comes after all it waits for. */
static guint
sort_by_order (const HwSearch *search, const guint64 *set, guint *sorted)
{
  guint n = 0;

  for (guint k = 0; k < search->n; k++)
    if (hw_mask_has (set, search->sorted[k]))
      sorted[n++] = search->sorted[k];
  return n;
}

/* Items of the set no two of which share, taken up as they come, the lonely first. */
static guint
low_by_strangers (const HwSearch *search, const guint64 *set)
{
  guint words = search->words, n = 0;
  g_autofree guint64 *many = words > 4 ? g_new (guint64, words) : NULL;
  guint64 few[4], *rest = many != NULL ? many : few;

  hw_mask_copy (rest, set, words);
  for (guint k = 0; k < search->n; k++)
    if (hw_mask_has (rest, search->lonely[k]))
      {
        hw_mask_drop (rest, hw_search_share (search, search->lonely[k]), words);
        n++;
      }
  return n;
}

/* The least number of hoopings up to and with each item's own, walking sorted in its order; rows: what comes before. */
static void
find_heads (const HwSearch *search,
            const guint64 *set,
            const guint64 *rows,
            const guint *sorted,
            guint n,
            guint *head)
{
  for (guint k = 0; k < n; k++)
    {
      guint j = sorted[k];
      const guint64 *row = HW_MASK_ROW (rows, j, search->words), *share = hw_search_share (search, j);
      guint least = 1;

      for (guint w = 0; w < search->words; w++)
        for (guint64 earlier = row[w] & set[w]; earlier != 0; earlier &= earlier - 1)
          {
            guint i = w * 64 + (guint)__builtin_ctzll (earlier);

            least = MAX (least, head[i] + !hw_mask_has (share, i));
          }
      if (search->weighed)
        least = MAX (least, hoopings_of_weight (weight_of_common (search, row, set) + search->weight[j]));
      head[j] = least;
    }
}

static guint
low_by_order (HwSearch *search, const guint64 *set)
{
  guint most = 1, n;
  guint few[3 * 64];
  g_autofree guint *many = search->n > 64 ? g_new (guint, 3 * (gsize)search->n) : NULL;
  guint *sorted = many != NULL ? many : few, *head = sorted + search->n, *tail = head + search->n;

  n = sort_by_order (search, set, sorted);
  find_heads (search, set, search->before, sorted, n, head);
  for (guint k = 0; k < n / 2; k++)
    {
      guint swap = sorted[k];

      sorted[k] = sorted[n - 1 - k];
      sorted[n - 1 - k] = swap;
    }
  find_heads (search, set, search->after, sorted, n, tail);
  for (guint k = 0; k < n; k++)
    most = MAX (most, head[sorted[k]] + tail[sorted[k]] - 1);
  return most;
}

guint
hw_search_low (HwSearch *search, const guint64 *set)
{
  guint by_weight = hoopings_of_weight (weight_of_common (search, set, set));

  return MAX (MAX (by_weight, low_by_strangers (search, set)), low_by_order (search, set));
}

guint
hw_search_chain (HwSearch *search, const guint64 *set, GArray *chain)
{
  g_autofree guint *length = g_new0 (guint, search->n);
  g_autofree guint *came = g_new (guint, search->n);
  g_autofree guint *sorted = g_new (guint, search->n);
  guint n = sort_by_order (search, set, sorted), best = G_MAXUINT, first;

  for (guint k = 0; k < n; k++)
    {
      guint j = sorted[k];
      const guint64 *row = hw_search_before (search, j);

      length[j] = 1;
      came[j] = G_MAXUINT;
      for (HW_MASK_EACH (i, row, search->words))
        if (hw_mask_has (set, i) && !hw_mask_has (hw_search_share (search, j), i) && length[i] >= length[j])
          {
            length[j] = length[i] + 1;
            came[j] = i;
          }
      if (best == G_MAXUINT || length[j] > length[best])
        best = j;
    }
  if (best == G_MAXUINT)
    return 0;
  if (chain == NULL)
    return length[best];
  first = chain->len;
  for (guint i = best; i != G_MAXUINT; i = came[i])
    g_array_append_val (chain, i);
  for (guint a = first, b = chain->len; a + 1 < b; a++)
    {
      guint swap = g_array_index (chain, guint, a);

      g_array_index (chain, guint, a) = g_array_index (chain, guint, --b);
      g_array_index (chain, guint, b) = swap;
    }
  return length[best];
}

/* A search for strangers. */
typedef struct
{
  HwSearch *search;
  guint wanted, best;
  guint tries; /* left */
  guint64 *members, *now;
} Strangers;

/* Takes in or leaves out the item with fewest friends, then the next. */
static void
find_strangers (Strangers *find, const guint64 *among, guint size)
{
  guint words = find->search->words, item = G_MAXUINT, fewest = G_MAXUINT;
  g_autofree guint64 *rest = NULL;

  if (size > find->best)
    {
      find->best = size;
      hw_mask_copy (find->members, find->now, words);
    }
  rest = g_memdup2 (among, words * sizeof (guint64));
  while (find->best < find->wanted && find->tries > 0 && !find->search->stopped
         && size + hw_mask_count (rest, words) > find->best)
    {
      g_autofree guint64 *inner = g_memdup2 (rest, words * sizeof (guint64));

      fewest = G_MAXUINT;
      for (HW_MASK_EACH (i, rest, words))
        {
          guint friends = hw_mask_count_common (hw_search_share (find->search, i), rest, words);

          if (friends < fewest)
            {
              fewest = friends;
              item = i;
            }
        }
      find->tries--;
      hw_search_should_stop (find->search);
      hw_mask_drop (inner, hw_search_share (find->search, item), words);
      hw_mask_remove (inner, item);
      hw_mask_add (find->now, item);
      find_strangers (find, inner, size + 1);
      hw_mask_remove (find->now, item);
      if (fewest <= 1)
        break; /* an item with one friend at most may always be taken in */
      hw_mask_remove (rest, item);
    }
}

guint
hw_search_strangers (HwSearch *search, const guint64 *set, guint wanted, guint tries, guint64 *members)
{
  g_autofree guint64 *rows = g_new0 (guint64, 2 * (gsize)search->words);
  Strangers find
      = { .search = search, .wanted = wanted, .tries = tries, .members = rows, .now = rows + search->words };

  search->stopped = FALSE;
  search->step_limit = G_MAXUINT64;
  find_strangers (&find, set, 0);
  if (members != NULL)
    hw_mask_join (members, find.members, search->words);
  return find.best;
}

guint
hw_search_strangers_of_many (HwSearch *search)
{
  g_autoptr (GArray) strangers = g_array_new (FALSE, FALSE, sizeof (guint));
  guint asked = 0;

  for (guint i = 0; i < search->n && asked < 3000000; i++)
    {
      gboolean alone = TRUE;

      if (g_cancellable_is_cancelled (search->cancellable))
        break;
      for (guint k = 0; k < strangers->len && alone; k++)
        {
          guint pair[2] = { g_array_index (strangers, guint, k), i };

          asked++;
          alone = !search->problem.may_share (search->problem.data, pair, 2);
        }
      if (alone)
        g_array_append_val (strangers, i);
    }
  return strangers->len;
}

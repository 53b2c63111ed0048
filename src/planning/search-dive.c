/* A dive for a grouping with one hooping less: hooping after hooping is fixed at the front of the order or at its back, and what is left is
 * weighed anew each time, so that the next one is chosen by what is scarce by then (diving on the linear program of column generation: C.
 * Joncour, S. Michel, R. Sadykov, D. Sverdlov and F. Vanderbeck 2010, "Column generation based primal heuristics", Electronic Notes in
 * Discrete Mathematics 36). Some beginnings are followed side by side (beam search: P. S. Ow and T. E. Morton 1988, "Filtered beam search in
 * scheduling", International Journal of Production Research 26(1)); those whose weight says that they need too many are left. */
#include "search-private.h"

#include <math.h>

#define MOST_LISTED 4000 /* sets to choose the next hooping from */
#define MOST_PARTS 4000  /* remembered */
#define MOST_BRANCHES 5
#define MOST_DIVES 10 /* each follows twice as many beginnings as the one before */
#define SMALL 28      /* items left that are searched through at once */
#define STEPS_SMALL 1500

/* Some hoopings fixed at both ends. */
typedef struct
{
  guint64 *rest;
  guint n_rest;
  guint *weight;  /* of what is left */
  double cost;    /* its weight, in hoopings */
  guint low;      /* hoopings it needs at least */
  GArray *blocks; /* rows in order */
  guint n_front;  /* of them before what is left */
} Beginning;

typedef struct
{
  HwSearch *search;
  guint target, width;
  GPtrArray *now, *next; /* Beginning */
} Dive;

static gboolean
is_over (const Dive *dive)
{
  return dive->search->stopped || hw_search_time_is_up (dive->search);
}

static void
beginning_free (gpointer data)
{
  Beginning *beginning = data;

  g_free (beginning->rest);
  g_free (beginning->weight);
  g_array_unref (beginning->blocks);
  g_free (beginning);
}

/* What a part weighs, remembered by its items: beginnings have much in common. */
typedef struct
{
  guint low;
  double cost;
  guint weight[]; /* of its items in their order */
} Weighed;

static Weighed *
weigh_part (Dive *dive, const guint64 *part, guint *weight)
{
  HwSearch *search = dive->search;
  guint n = hw_mask_count (part, search->words), k = 0;
  Weighed *weighed = g_malloc (sizeof (Weighed) + n * sizeof (guint));
  gboolean good;
  double sum = 0;

  *weighed = (Weighed){ .low = 1, .cost = 1 };
  if (hw_load_holds (search, part))
    {
      for (; k < n; k++)
        weighed->weight[k] = HW_WEIGHT_ONE / n;
      return weighed;
    }
  good = hw_search_weigh_set (search, part, weight);
  for (HW_MASK_EACH (i, part, search->words))
    sum += weighed->weight[k++] = good ? weight[i] : search->weight[i];
  weighed->low = MAX (2, hw_search_low (search, part));
  weighed->low = MAX (weighed->low, (guint)ceil (sum / HW_WEIGHT_ONE));
  weighed->cost = MAX (sum / HW_WEIGHT_ONE, weighed->low - 1);
  return weighed;
}

/* Weighs what is left, part by part. FALSE when stopped. */
static gboolean
weigh (Dive *dive, Beginning *beginning)
{
  HwSearch *search = dive->search;
  g_autofree guint64 *rows = g_new (guint64, 2 * (gsize)search->words);
  g_autofree guint *weight = g_new (guint, search->n + 1);
  guint64 *part = rows + search->words;

  beginning->weight = g_new0 (guint, search->n + 1);
  hw_mask_copy (rows, beginning->rest, search->words);
  while (!hw_mask_is_empty (rows, search->words))
    {
      g_autoptr (GBytes) key = NULL;
      Weighed *weighed;
      guint k = 0;

      hw_search_take_part (search, rows, part);
      key = g_bytes_new (part, search->words * sizeof (guint64));
      weighed = g_hash_table_lookup (search->weighings, key);
      if (weighed == NULL)
        {
          weighed = weigh_part (dive, part, weight);
          if (is_over (dive))
            {
              g_free (weighed);
              return FALSE;
            }
          if (g_hash_table_size (search->weighings) >= MOST_PARTS)
            g_hash_table_remove_all (search->weighings);
          g_hash_table_insert (search->weighings, g_steal_pointer (&key), weighed);
        }
      beginning->low += weighed->low;
      beginning->cost += weighed->cost;
      for (HW_MASK_EACH (i, part, search->words))
        beginning->weight[i] = weighed->weight[k++];
    }
  return TRUE;
}

static Beginning *
go_on_with (const Dive *dive, const Beginning *from, const guint64 *load, gboolean backwards)
{
  guint words = dive->search->words;
  Beginning *to = g_new0 (Beginning, 1);

  to->rest = g_memdup2 (from->rest, words * sizeof (guint64));
  hw_mask_drop (to->rest, load, words);
  to->n_rest = hw_mask_count (to->rest, words);
  to->blocks = g_array_copy (from->blocks);
  g_array_insert_vals (to->blocks, from->n_front * words, load, words);
  to->n_front = from->n_front + !backwards;
  return to;
}

static int
compare_beginnings (gconstpointer pa, gconstpointer pb)
{
  const Beginning *a = *(Beginning *const *)pa, *b = *(Beginning *const *)pb;

  if (a->low != b->low)
    return a->low < b->low ? -1 : 1;
  if (a->cost != b->cost)
    return a->cost < b->cost ? -1 : 1;
  return 0;
}

static gboolean
is_known (const Dive *dive, const Beginning *beginning)
{
  for (guint i = 0; i < dive->next->len; i++)
    if (hw_mask_equal (((Beginning *)g_ptr_array_index (dive->next, i))->rest, beginning->rest,
                       dive->search->words))
      return TRUE;
  return FALSE;
}

/* Searches through what is left where it is little: 1 done, 0 it cannot be, -1 not known. */
static int
finish (Dive *dive, Beginning *beginning, guint left)
{
  HwSearch *search = dive->search;
  gboolean found;
  GArray *rest;

  if (beginning->n_rest > SMALL)
    return -1;
  search->step_limit = search->steps + STEPS_SMALL;
  found = hw_search_solve (search, beginning->rest, left);
  if (!found && search->stopped)
    {
      search->stopped = FALSE;
      search->step_limit = G_MAXUINT64;
      return -1;
    }
  search->step_limit = G_MAXUINT64;
  if (!found)
    return 0;
  rest = g_array_new (FALSE, FALSE, sizeof (guint64));
  hw_search_extract (search, beginning->rest, rest);
  g_array_insert_vals (beginning->blocks, beginning->n_front * search->words, rest->data, rest->len);
  g_array_unref (rest);
  return 1;
}

/* Fixes one hooping more in the most promising ways. TRUE when that led to the end: next then holds nothing but the answer. */
static gboolean
branch (Dive *dive, const Beginning *from)
{
  HwSearch *search = dive->search;
  guint words = search->words, used = from->blocks->len / words + 1, n;
  g_autoptr (GArray) loads = g_array_new (FALSE, FALSE, sizeof (guint64));
  g_autofree HwRanked *ranked = NULL;
  gboolean backwards;

  hw_search_list_loads (search, from->rest, MOST_LISTED, &backwards, loads);
  n = used <= dive->target ? MIN (loads->len / words, MOST_BRANCHES) : 0;
  ranked = hw_search_rank_loads (search, loads, from->weight);
  for (guint r = 0; r < n && !is_over (dive); r++)
    {
      const guint64 *load = &g_array_index (loads, guint64, (gsize)ranked[r].row * words);
      Beginning *to = go_on_with (dive, from, load, backwards);
      int end = is_known (dive, to) ? 0 : finish (dive, to, dive->target - used);

      if (end == 1)
        {
          g_ptr_array_set_size (dive->next, 0);
          g_ptr_array_add (dive->next, to);
          return TRUE;
        }
      if (end == 0 || !weigh (dive, to) || used + to->low > dive->target)
        beginning_free (to);
      else
        g_ptr_array_add (dive->next, to);
    }
  return FALSE;
}

static gboolean
dive_on (Dive *dive)
{
  while (dive->now->len > 0)
    {
      GPtrArray *swap = dive->now;

      g_ptr_array_set_size (dive->next, 0);
      for (guint i = 0; i < dive->now->len && !is_over (dive); i++)
        if (branch (dive, g_ptr_array_index (dive->now, i)))
          return TRUE;
      if (is_over (dive))
        return FALSE;
      g_ptr_array_sort (dive->next, compare_beginnings);
      if (dive->next->len > dive->width)
        g_ptr_array_set_size (dive->next, dive->width);
      dive->now = dive->next;
      dive->next = swap;
    }
  return FALSE;
}

gboolean
hw_search_dive (HwSearch *search, HwPart *part)
{
  guint words = search->words;
  Dive dive = { search, part->blocks->len / words - 1, 1u << part->dives, NULL, NULL };
  Beginning *first;
  gboolean found = FALSE;

  if (part->dives > MOST_DIVES)
    return FALSE;
  part->dives++;
  search->stopped = FALSE;
  search->step_limit = G_MAXUINT64;
  dive.now = g_ptr_array_new_with_free_func (beginning_free);
  dive.next = g_ptr_array_new_with_free_func (beginning_free);
  first = g_new0 (Beginning, 1);
  first->rest = g_memdup2 (part->mask, words * sizeof (guint64));
  first->n_rest = part->n;
  first->blocks = g_array_new (FALSE, FALSE, sizeof (guint64));
  g_ptr_array_add (dive.now, first);
  if (weigh (&dive, first))
    found = dive_on (&dive);
  if (found)
    {
      const Beginning *best = g_ptr_array_index (dive.next, 0);

      g_array_set_size (part->blocks, 0);
      g_array_append_vals (part->blocks, best->blocks->data, best->blocks->len);
    }
  g_ptr_array_unref (dive.now);
  g_ptr_array_unref (dive.next);
  return found;
}

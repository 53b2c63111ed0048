/* Weights as a bound: give each item a weight so that no set that may share weighs more than one hooping; then all weights together tell
 * how many hoopings are needed at least. The best weights are the dual of the fractional covering by hoopings (P. C. Gilmore and R. E.
 * Gomory 1961, "A linear programming approach to the cutting-stock problem", Operations Research 9(6)). Sets that weigh too much are
 * looked for and added one by one. In the end the weights are whole numbers and no set weighs too much, so rounding cannot make the bound wrong. */
#include "search-dictionary.h"

#include <math.h>

#define MOST_ROUNDS 300
#define MOST_LOOKS 400000 /* sets looked at for one weighing */
#define MOST_KEPT 3000    /* sets found that are kept for the next weighing */

/* A weighing of some items. */
typedef struct
{
  HwSearch *search;
  guint n;
  guint *items;  /* heaviest first */
  guint *column; /* search->n: column of an item */
  guint *weight; /* search->n, in HW_WEIGHT_ONE */
  guint looks;
  guint64 best; /* of the set being looked for */
  guint *set;   /* the best set found */
  guint n_set;
  guint64 *row; /* the same, to be kept */
} Weighing;

static void
keep_set (Weighing *weighing, guint64 weight)
{
  const HwLoad *load = &weighing->search->load;

  weighing->best = weight;
  weighing->n_set = 0;
  for (guint k = 0; k < load->n; k++)
    if (weighing->column[load->items[k]] != G_MAXUINT)
      weighing->set[weighing->n_set++] = load->items[k];
}

static guint64
load_weight (const Weighing *weighing)
{
  const HwLoad *load = &weighing->search->load;
  guint64 weight = 0;

  for (guint k = 0; k < load->n; k++)
    weight += weighing->weight[load->items[k]];
  return weight;
}

/* Looks for a heavier set with what is in the load and some of the n items. FALSE when there are too many to look at. */
static gboolean
look_on (Weighing *weighing, const guint *items, guint n)
{
  HwSearch *search = weighing->search;
  guint64 here = load_weight (weighing), rest = 0;
  g_autofree guint *inner = NULL;

  if (here > weighing->best)
    keep_set (weighing, here);
  for (guint k = 0; k < n; k++)
    rest += hw_mask_has (search->load.mask, items[k]) ? 0 : weighing->weight[items[k]];
  if (here + rest <= weighing->best)
    return TRUE;
  if (++weighing->looks > MOST_LOOKS || hw_search_should_stop (search))
    return FALSE;
  inner = g_new (guint, n);
  for (guint k = 0; k < n && here + rest > weighing->best; k++)
    {
      guint n_inner = 0;

      if (hw_mask_has (search->load.mask, items[k]))
        continue;
      rest -= weighing->weight[items[k]];
      if (!hw_load_push (search, items[k]))
        continue;
      for (guint l = k + 1; l < n; l++)
        if (hw_mask_has (hw_search_share (search, items[k]), items[l]))
          inner[n_inner++] = items[l];
      if (!look_on (weighing, inner, n_inner))
        return FALSE;
      hw_load_pop (search);
    }
  return TRUE;
}

/* The heaviest set over `over` whose heaviest item in the list is the k-th. */
static gboolean
look_from (Weighing *weighing, guint k, guint64 over)
{
  HwSearch *search = weighing->search;
  g_autofree guint *friends = g_new (guint, weighing->n + 1);
  guint n = 0, item = weighing->items[k];

  weighing->best = over;
  weighing->n_set = 0;
  for (guint l = k + 1; l < weighing->n; l++)
    if (weighing->weight[weighing->items[l]] > 0
        && hw_mask_has (hw_search_share (search, item), weighing->items[l]))
      friends[n++] = weighing->items[l];
  hw_load_restart (search);
  hw_load_push (search, item);
  return look_on (weighing, friends, n);
}

/* Fills the set up with what else fits, so that it binds more. */
static void
fill_up (Weighing *weighing)
{
  HwSearch *search = weighing->search;

  hw_load_restart (search);
  for (guint k = 0; k < weighing->n_set; k++)
    hw_load_push (search, weighing->set[k]);
  for (guint k = 0; k < weighing->n; k++)
    if (!hw_mask_has (search->load.mask, weighing->items[k]))
      hw_load_push (search, weighing->items[k]);
  keep_set (weighing, 0);
}

static void
read_weights (Weighing *weighing, const HwDictionary *dict)
{
  for (guint k = 0; k < weighing->n; k++)
    {
      guint item = weighing->items[k];
      double y = hw_dictionary_weight (dict, weighing->column[item]);

      weighing->weight[item] = (guint)floor (CLAMP (y, 0, 1) * HW_WEIGHT_ONE);
    }
}

static int
compare_weights (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const Weighing *weighing = data;
  guint a = *(const guint *)pa, b = *(const guint *)pb;

  if (weighing->weight[a] != weighing->weight[b])
    return weighing->weight[a] > weighing->weight[b] ? -1 : 1;
  return a < b ? -1 : 1;
}

static void
add_set (Weighing *weighing, HwDictionary *dict)
{
  for (guint l = 0; l < weighing->n_set; l++)
    weighing->set[l] = weighing->column[weighing->set[l]];
  hw_dictionary_add (dict, weighing->set, weighing->n_set);
}

static void
keep_for_later (Weighing *weighing)
{
  HwSearch *search = weighing->search;

  if (search->heavy->len >= (gsize)MOST_KEPT * search->words)
    g_array_set_size (search->heavy, 0);
  hw_mask_clear (weighing->row, search->words);
  for (guint l = 0; l < weighing->n_set; l++)
    hw_mask_add (weighing->row, weighing->set[l]);
  g_array_append_vals (search->heavy, weighing->row, search->words);
}

/* Adds sets found in earlier weighings that are too heavy now, the heaviest for each item that is the first in the list. Returns how many. */
static guint
add_known_sets (Weighing *weighing, HwDictionary *dict, guint64 over)
{
  HwSearch *search = weighing->search;
  guint words = search->words, n = search->heavy->len / words, found = 0;
  g_autofree guint64 *most = g_new0 (guint64, search->n + 1);
  g_autofree guint *best = g_new (guint, search->n + 1);

  for (guint r = 0; r < n; r++)
    {
      const guint64 *row = &g_array_index (search->heavy, guint64, (gsize)r * words);
      guint64 weight = 0;
      guint first = G_MAXUINT;

      for (HW_MASK_EACH (i, row, words))
        if (weighing->column[i] != G_MAXUINT)
          {
            weight += weighing->weight[i];
            if (first == G_MAXUINT || weighing->weight[i] > weighing->weight[first])
              first = i;
          }
      if (weight <= over || weight <= most[first])
        continue;
      most[first] = weight;
      best[first] = r;
    }
  for (guint i = 0; i < search->n; i++)
    if (most[i] > 0)
      {
        const guint64 *row = &g_array_index (search->heavy, guint64, (gsize)best[i] * words);

        weighing->n_set = 0;
        for (HW_MASK_EACH (k, row, words))
          if (weighing->column[k] != G_MAXUINT)
            weighing->set[weighing->n_set++] = k;
        add_set (weighing, dict);
        found++;
      }
  return found;
}

/* Adds every too heavy set it finds, one for each item at most; *found says how many. FALSE when it cannot look at all of them. */
static gboolean
add_heavy_sets (Weighing *weighing, HwDictionary *dict, guint64 over, guint *found)
{
  *found = 0;
  g_qsort_with_data (weighing->items, weighing->n, sizeof (guint), compare_weights, weighing);
  for (guint k = 0; k < weighing->n; k++)
    {
      if (weighing->weight[weighing->items[k]] == 0)
        break;
      if (!look_from (weighing, k, over))
        return FALSE;
      if (weighing->n_set == 0)
        continue;
      fill_up (weighing);
      keep_for_later (weighing);
      add_set (weighing, dict);
      (*found)++;
    }
  return TRUE;
}

/* TRUE when no set that may share is too heavy at the end. */
static gboolean
weigh (Weighing *weighing)
{
  HwDictionary dict;
  guint64 over = HW_WEIGHT_ONE + weighing->n; /* what rounding may add */
  gboolean good = FALSE;

  hw_dictionary_init (&dict, weighing->n);
  for (guint round = 0; round < MOST_ROUNDS; round++)
    {
      guint found;

      read_weights (weighing, &dict);
      found = add_known_sets (weighing, &dict, over);
      if (found == 0 && !add_heavy_sets (weighing, &dict, over, &found))
        break;
      good = found == 0;
      if (good || !hw_dictionary_solve (&dict, weighing->search))
        break;
      if (dict.m > 3 * dict.n)
        hw_dictionary_drop_slack (&dict);
    }
  hw_dictionary_clear (&dict);
  for (guint k = 0; k < weighing->n; k++)
    {
      guint item = weighing->items[k];

      weighing->weight[item] = (guint)((guint64)weighing->weight[item] * HW_WEIGHT_ONE / over);
    }
  return good;
}

gboolean
hw_search_weigh_set (HwSearch *search, const guint64 *set, guint *weight)
{
  guint n = hw_mask_count (set, search->words), k = 0;
  g_autofree guint *items = g_new (guint, n + 1);
  g_autofree guint *column = g_new (guint, search->n);
  g_autofree guint *found = g_new (guint, search->n);
  g_autofree guint64 *row = g_new (guint64, search->words);
  Weighing weighing = {
    .search = search, .n = n, .items = items, .column = column, .weight = weight, .set = found, .row = row
  };

  for (guint i = 0; i < search->n; i++)
    column[i] = G_MAXUINT;
  for (HW_MASK_EACH (i, set, search->words))
    {
      column[i] = k;
      items[k++] = i;
    }
  memset (weight, 0, search->n * sizeof (guint));
  return weigh (&weighing);
}

/* The joint members of some layers of strangers: fewer items, spread out, so that few of them share. */
static void
thin_out (HwSearch *search, const guint64 *part, guint layers, guint64 *thin)
{
  g_autofree guint64 *rest = g_memdup2 (part, search->words * sizeof (guint64));

  hw_mask_clear (thin, search->words);
  for (guint k = 0; k < layers; k++)
    {
      hw_search_strangers (search, rest, G_MAXUINT, 1000, thin);
      hw_mask_drop (rest, thin, search->words);
    }
}

gboolean
hw_search_weigh (HwSearch *search, const guint64 *part)
{
  g_autofree guint *weight = g_new (guint, search->n);
  g_autofree guint64 *set = g_memdup2 (part, search->words * sizeof (guint64));
  guint64 now = 0, fresh = 0;
  gboolean all = hw_search_weigh_set (search, set, weight), good = all;

  for (guint layers = 4; !good && layers > 0; layers--)
    {
      thin_out (search, part, layers, set);
      good = hw_search_weigh_set (search, set, weight);
    }
  if (!good)
    return FALSE;
  for (HW_MASK_EACH (i, part, search->words))
    {
      now += search->weight[i];
      fresh += weight[i];
    }
  if (fresh <= now)
    return all;
  for (HW_MASK_EACH (i, part, search->words))
    search->weight[i] = weight[i];
  search->weighed = TRUE;
  return all;
}

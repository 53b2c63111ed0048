/* Weights as a bound: give each item a weight so that no set that may share weighs more than one hooping; then all weights together tell
 * how many hoopings are needed at least. The best weights are the dual of the fractional covering by hoopings (P. C. Gilmore and R. E.
 * Gomory 1961, "A linear programming approach to the cutting-stock problem", Operations Research 9(6)). Sets that weigh too much are
 * looked for and added one by one; the linear program is kept solved by the dual simplex method on a dense dictionary (V. Chvatal 1983,
 * "Linear Programming"). In the end the weights are whole numbers and no set weighs too much, so rounding cannot make the bound wrong. */
#include "search-private.h"

#include <math.h>
#include <stdlib.h>

#define MOST_ROUNDS 300
#define MOST_PIVOTS 20000
#define MOST_LOOKS 400000 /* sets looked at for one weighing */
#define TINY 1e-9

/* rows: basic = b - a x; value: z0 - d x. Variables 0 .. n-1 are the weights, higher ones what is left free of a set's room. */
typedef struct
{
  guint n, m, room;
  double *a; /* room x n */
  double *b;
  double *d;
  int *basic;    /* m: variable */
  int *nonbasic; /* n: variable */
  int *row_of;   /* n: row of a weight, or -1 - its column */
  int next;
} Dictionary;

static void
dictionary_init (Dictionary *dict, guint n)
{
  dict->n = dict->m = n;
  dict->room = 4 * n + 16;
  dict->a = g_new0 (double, (gsize)dict->room *n);
  dict->b = g_new (double, dict->room);
  dict->d = g_new (double, n);
  dict->basic = g_new (int, dict->room);
  dict->nonbasic = g_new (int, n);
  dict->row_of = g_new (int, n);
  dict->next = 2 * n;
  for (guint e = 0; e < n; e++) /* weight e = 1 - what is left free of the set of e alone */
    {
      dict->a[(gsize)e * n + e] = 1;
      dict->b[e] = 1;
      dict->d[e] = 1 + 1e-6 * (e * 37 % 101); /* set apart a little, against going round in circles */
      dict->basic[e] = e;
      dict->nonbasic[e] = n + e;
      dict->row_of[e] = e;
    }
}

static void
dictionary_clear (Dictionary *dict)
{
  g_free (dict->a);
  g_free (dict->b);
  g_free (dict->d);
  g_free (dict->basic);
  g_free (dict->nonbasic);
  g_free (dict->row_of);
}

static void
note_place (Dictionary *dict, int variable, int place)
{
  if (variable < (int)dict->n)
    dict->row_of[variable] = place;
}

/* Forgets rows of sets that have room to spare. */
static void
drop_slack_rows (Dictionary *dict)
{
  guint kept = 0;

  for (guint r = 0; r < dict->m; r++)
    {
      if (dict->basic[r] >= (int)dict->n && dict->b[r] > 1e-6)
        continue;
      if (kept != r)
        {
          memcpy (dict->a + (gsize)kept * dict->n, dict->a + (gsize)r * dict->n, dict->n * sizeof (double));
          dict->b[kept] = dict->b[r];
          dict->basic[kept] = dict->basic[r];
          note_place (dict, dict->basic[kept], kept);
        }
      kept++;
    }
  dict->m = kept;
}

static void
dictionary_add (Dictionary *dict, const guint *set, guint n_set)
{
  double *row;

  if (dict->m == dict->room)
    {
      dict->room *= 2;
      dict->a = g_renew (double, dict->a, (gsize)dict->room * dict->n);
      dict->b = g_renew (double, dict->b, dict->room);
      dict->basic = g_renew (int, dict->basic, dict->room);
    }
  row = dict->a + (gsize)dict->m * dict->n;
  memset (row, 0, dict->n * sizeof (double));
  dict->b[dict->m] = 1;
  for (guint k = 0; k < n_set; k++)
    {
      int place = dict->row_of[set[k]];
      const double *from = dict->a + (gsize)MAX (place, 0) * dict->n;

      if (place < 0)
        {
          row[-1 - place] += 1;
          continue;
        }
      dict->b[dict->m] -= dict->b[place];
      for (guint c = 0; c < dict->n; c++)
        row[c] -= from[c];
    }
  dict->basic[dict->m++] = dict->next++;
}

static void
pivot (Dictionary *dict, guint r, guint c)
{
  guint n = dict->n;
  double *row = dict->a + (gsize)r * n, p = row[c], step;
  int leaving = dict->basic[r];

  for (guint j = 0; j < n; j++)
    row[j] /= p;
  row[c] = 1 / p;
  dict->b[r] /= p;
  for (guint i = 0; i < dict->m; i++)
    {
      double *other = dict->a + (gsize)i * n, f = other[c];

      if (i == r || f == 0)
        continue;
      other[c] = 0;
      for (guint j = 0; j < n; j++)
        other[j] -= f * row[j];
      dict->b[i] -= f * dict->b[r];
    }
  step = dict->d[c];
  dict->d[c] = 0;
  for (guint j = 0; j < n; j++)
    dict->d[j] = MAX (0, dict->d[j] - step * row[j]);
  dict->basic[r] = dict->nonbasic[c];
  dict->nonbasic[c] = leaving;
  note_place (dict, dict->basic[r], r);
  note_place (dict, leaving, -1 - (int)c);
}

/* Until no room is overfull. FALSE when it does not come to an end. */
static gboolean
dictionary_solve (Dictionary *dict, HwSearch *search)
{
  for (guint round = 0; round < MOST_PIVOTS; round++)
    {
      guint r = 0, c = G_MAXUINT;
      double least = G_MAXDOUBLE;
      const double *row;

      if (hw_search_time_is_up (search))
        return FALSE;
      for (guint i = 1; i < dict->m; i++)
        if (dict->b[i] < dict->b[r])
          r = i;
      if (dict->b[r] > -TINY)
        return TRUE;
      row = dict->a + (gsize)r * dict->n;
      for (guint j = 0; j < dict->n; j++)
        if (row[j] < -TINY && dict->d[j] < least * -row[j])
          {
            least = dict->d[j] / -row[j];
            c = j;
          }
      if (c == G_MAXUINT)
        return FALSE;
      pivot (dict, r, c);
    }
  return FALSE;
}

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
read_weights (Weighing *weighing, const Dictionary *dict)
{
  for (guint k = 0; k < weighing->n; k++)
    {
      guint item = weighing->items[k];
      int place = dict->row_of[weighing->column[item]];
      double y = place >= 0 ? dict->b[place] : 0;

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

/* Adds every too heavy set it finds, one for each item at most; *found says how many. FALSE when it cannot look at all of them. */
static gboolean
add_heavy_sets (Weighing *weighing, Dictionary *dict, guint64 over, guint *found)
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
      for (guint l = 0; l < weighing->n_set; l++)
        weighing->set[l] = weighing->column[weighing->set[l]];
      dictionary_add (dict, weighing->set, weighing->n_set);
      (*found)++;
    }
  return TRUE;
}

/* TRUE when no set that may share is too heavy at the end. */
static gboolean
weigh (Weighing *weighing)
{
  Dictionary dict;
  guint64 over = HW_WEIGHT_ONE + weighing->n; /* what rounding may add */
  gboolean good = FALSE;

  dictionary_init (&dict, weighing->n);
  for (guint round = 0; round < MOST_ROUNDS; round++)
    {
      guint found;

      read_weights (weighing, &dict);
      if (!add_heavy_sets (weighing, &dict, over, &found))
        break;
      good = found == 0;
      if (good || !dictionary_solve (&dict, weighing->search))
        break;
      if (dict.m > 3 * dict.n)
        drop_slack_rows (&dict);
    }
  dictionary_clear (&dict);
  for (guint k = 0; k < weighing->n; k++)
    {
      guint item = weighing->items[k];

      weighing->weight[item] = (guint)((guint64)weighing->weight[item] * HW_WEIGHT_ONE / over);
    }
  return good;
}

static gboolean
weigh_items (HwSearch *search, const guint64 *set, guint *weight)
{
  guint n = hw_mask_count (set, search->words), k = 0;
  g_autofree guint *items = g_new (guint, n + 1);
  g_autofree guint *column = g_new (guint, search->n);
  g_autofree guint *found = g_new (guint, search->n);
  Weighing weighing
      = { .search = search, .n = n, .items = items, .column = column, .weight = weight, .set = found };

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

void
hw_search_weigh (HwSearch *search, const guint64 *part)
{
  g_autofree guint *weight = g_new (guint, search->n);
  g_autofree guint64 *set = g_memdup2 (part, search->words * sizeof (guint64));
  guint64 now = 0, fresh = 0;
  gboolean good = weigh_items (search, set, weight);

  for (guint layers = 4; !good && layers > 0; layers--)
    {
      thin_out (search, part, layers, set);
      good = weigh_items (search, set, weight);
    }
  if (!good)
    return;
  for (HW_MASK_EACH (i, part, search->words))
    {
      now += search->weight[i];
      fresh += weight[i];
    }
  if (fresh <= now)
    return;
  for (HW_MASK_EACH (i, part, search->words))
    search->weight[i] = weight[i];
  search->weighed = TRUE;
}

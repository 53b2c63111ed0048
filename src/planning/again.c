/* After an edit the last plan is mended rather than made anew: motifs that no longer fit their hooping or their place in the order are taken
 * out, those that were changed first, and put into the nearest hooping that takes them, or into one of their own. */
#include "again.h"

typedef struct
{
  const HwPlan *last;
  const HwHeldFast *held;
  HwSetFit *fit;
  HwAgain *again;
  gboolean *changed; /* n_items: its motif is new or lies otherwise than in the last plan */
  guint words;
} Mending;

#define NOWHERE G_MAXUINT

static gboolean
is_pin (const Mending *mending, guint item)
{
  return mending->held->pin_of[mending->held->first_of[item]] != G_MAXUINT;
}

static const guint64 *
before (const Mending *mending, guint item)
{
  return HW_MASK_ROW (mending->held->items_before, item, mending->words);
}

/* Where each motif stood in the last plan. */
static void
look_up_last (Mending *mending)
{
  const HwHeldFast *held = mending->held;
  g_autoptr (GHashTable) index_of = g_hash_table_new (g_str_hash, g_str_equal);
  const HwSnapshot *then = mending->last->snapshot;
  g_autofree guint *hooping = g_new (guint, then->motifs->len + 1);
  g_autofree guint *rank = g_new (guint, then->motifs->len + 1);
  guint place = 0;

  for (guint i = then->motifs->len; i-- > 0;)
    {
      g_hash_table_insert (index_of, hw_snapshot_motif (then, i)->id, GUINT_TO_POINTER (i + 1));
      hooping[i] = rank[i] = NOWHERE;
    }
  for (guint h = 0; h < mending->last->n_hoopings; h++)
    for (guint k = 0; k < mending->last->hoopings[h].n_motifs; k++)
      {
        hooping[mending->last->hoopings[h].motifs[k]] = h;
        rank[mending->last->hoopings[h].motifs[k]] = place++;
      }
  mending->again->n_blocks = mending->last->n_hoopings;
  for (guint k = 0; k < held->n; k++)
    {
      const HwMotif *now = hw_snapshot_motif (held->snapshot, held->motif[k]);
      guint i = GPOINTER_TO_UINT (g_hash_table_lookup (index_of, now->id)), item = held->item_of[k];
      const HwMotif *old = i > 0 ? hw_snapshot_motif (then, i - 1) : NULL;

      mending->again->rank[k] = i > 0 ? rank[i - 1] : NOWHERE;
      if (held->first_of[item] == k)
        mending->again->block_of[item] = i > 0 ? hooping[i - 1] : NOWHERE;
      mending->changed[item] |= old == NULL || old->outline != now->outline
                                || !hw_placement_equal (&old->placement, &now->placement);
    }
}

/* Whether the items of a hooping take one more. */
static gboolean
joins (const Mending *mending, const GArray *items, guint item)
{
  const HwHeldFast *held = mending->held;
  g_autofree guint *set = NULL;

  if (items->len == 0)
    return TRUE;
  if (is_pin (mending, item) || is_pin (mending, g_array_index (items, guint, 0)))
    return FALSE;
  set = g_new (guint, items->len + 1);
  for (guint k = 0; k < items->len; k++)
    set[k] = held->motif[held->first_of[g_array_index (items, guint, k)]];
  set[items->len] = held->motif[held->first_of[item]];
  return hw_held_lets_join (held, set, items->len + 1) && hw_set_fit_ask (mending->fit, set, items->len + 1);
}

/* Goes through the items of one hooping: pins and unchanged motifs first; what no longer fits is taken out. */
static void
sift_block (Mending *mending, GArray *items)
{
  guint *block_of = mending->again->block_of;
  g_autoptr (GArray) kept = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint round = 0; round < 3; round++)
    for (guint k = 0; k < items->len; k++)
      {
        guint item = g_array_index (items, guint, k);
        guint turn = is_pin (mending, item) ? 0 : mending->changed[item] ? 2 : 1;

        if (turn != round)
          continue;
        if (joins (mending, kept, item))
          g_array_append_val (kept, item);
        else
          block_of[item] = NOWHERE;
      }
}

/* The items of each hooping. Returns: (transfer full) (element-type GArray) */
static GPtrArray *
list_blocks (const Mending *mending)
{
  GPtrArray *blocks = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);

  for (guint b = 0; b < mending->again->n_blocks; b++)
    g_ptr_array_add (blocks, g_array_new (FALSE, FALSE, sizeof (guint)));
  for (guint k = 0; k < mending->held->n_items; k++)
    if (mending->again->block_of[k] != NOWHERE)
      g_array_append_val (g_ptr_array_index (blocks, mending->again->block_of[k]), k);
  return blocks;
}

static void
sift_all (Mending *mending)
{
  guint *block_of = mending->again->block_of;
  g_autoptr (GPtrArray) blocks = list_blocks (mending);

  for (guint b = 0; b < blocks->len; b++)
    sift_block (mending, g_ptr_array_index (blocks, b));
  for (guint j = 0; j < mending->held->n_items; j++)
    for (HW_MASK_EACH (i, before (mending, j), mending->words))
      if (block_of[i] != NOWHERE && block_of[j] != NOWHERE && block_of[i] > block_of[j])
        block_of[mending->changed[i] && !mending->changed[j] ? i : j] = NOWHERE;
}

/* The hoopings the item may go to: first and last. */
static void
find_room (const Mending *mending, guint item, int *first, int *last)
{
  const guint *block_of = mending->again->block_of;

  *first = 0;
  *last = (int)mending->again->n_blocks - 1;
  for (guint i = 0; i < mending->held->n_items; i++)
    {
      if (block_of[i] == NOWHERE)
        continue;
      if (hw_mask_has (before (mending, item), i))
        *first = MAX (*first, (int)block_of[i]);
      if (hw_mask_has (before (mending, i), item))
        *last = MIN (*last, (int)block_of[i]);
    }
}

/* A hooping of its own, right after those of all it waits for. FALSE when one that waits for it comes earlier. */
static gboolean
open_block (Mending *mending, GPtrArray *blocks, guint item)
{
  HwAgain *again = mending->again;
  guint at = 0;

  for (guint i = 0; i < mending->held->n_items; i++)
    if (again->block_of[i] != NOWHERE && hw_mask_has (before (mending, item), i))
      at = MAX (at, again->block_of[i] + 1);
  for (guint i = 0; i < mending->held->n_items; i++)
    if (again->block_of[i] != NOWHERE && hw_mask_has (before (mending, i), item) && again->block_of[i] < at)
      return FALSE;
  for (guint i = 0; i < mending->held->n_items; i++)
    if (again->block_of[i] != NOWHERE && again->block_of[i] >= at)
      again->block_of[i]++;
  again->block_of[item] = at;
  again->n_blocks++;
  g_ptr_array_insert (blocks, at, g_array_new (FALSE, FALSE, sizeof (guint)));
  g_array_append_val (g_ptr_array_index (blocks, at), item);
  return TRUE;
}

static gboolean
put_back (Mending *mending, GPtrArray *blocks, guint item)
{
  int first, last;

  find_room (mending, item, &first, &last);
  for (int b = first; b <= last; b++)
    if (((GArray *)g_ptr_array_index (blocks, b))->len > 0
        && joins (mending, g_ptr_array_index (blocks, b), item))
      {
        mending->again->block_of[item] = b;
        g_array_append_val (g_ptr_array_index (blocks, b), item);
        return TRUE;
      }
  return open_block (mending, blocks, item);
}

/* Numbers the hoopings without gaps. */
static void
close_gaps (HwAgain *again, guint n_items)
{
  g_autofree guint *number = g_new0 (guint, again->n_blocks + 1);
  guint n = 0;

  for (guint k = 0; k < n_items; k++)
    number[again->block_of[k]] = 1;
  for (guint b = 0; b < again->n_blocks; b++)
    {
      gboolean used = number[b] != 0;

      number[b] = n;
      n += used;
    }
  for (guint k = 0; k < n_items; k++)
    again->block_of[k] = number[again->block_of[k]];
  again->n_blocks = n;
}

/* Puts every item that is nowhere back, each after those it waits for. */
static gboolean
put_all_back (Mending *mending)
{
  HwAgain *again = mending->again;
  g_autoptr (GPtrArray) blocks = list_blocks (mending);
  g_autofree guint64 *rest = g_new0 (guint64, mending->words);

  for (guint k = 0; k < mending->held->n_items; k++)
    if (again->block_of[k] == NOWHERE)
      hw_mask_add (rest, k);
  while (!hw_mask_is_empty (rest, mending->words))
    for (HW_MASK_EACH (k, rest, mending->words))
      {
        if (hw_mask_meets (before (mending, k), rest, mending->words))
          continue;
        if (!put_back (mending, blocks, k))
          return FALSE;
        hw_mask_remove (rest, k);
      }
  close_gaps (again, mending->held->n_items);
  return TRUE;
}

HwAgain *
hw_again_new (const HwPlan *last, const HwHeldFast *held, HwSetFit *fit)
{
  HwAgain *again = g_new0 (HwAgain, 1);
  g_autofree gboolean *changed = g_new0 (gboolean, held->n_items + 1);
  Mending mending = { last, held, fit, again, changed, HW_MASK_WORDS (held->n_items) };

  again->block_of = g_new (guint, held->n_items + 1);
  again->rank = g_new (guint, held->n + 1);
  look_up_last (&mending);
  sift_all (&mending);
  again->works = put_all_back (&mending);
  return again;
}

void
hw_again_free (HwAgain *again)
{
  g_free (again->block_of);
  g_free (again->rank);
  g_free (again);
}

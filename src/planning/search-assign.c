/* The other exact search: for a number of hoopings, each item is given to one of them until all are placed or none is left for some item. Items
 * that never share begin the hoopings, so that these can be told apart; after every choice what no longer can join a hooping is struck out,
 * an item with one hooping left is placed at once, and the item with fewest left is next (forward checking with the smallest domain first:
 * R. M. Haralick and G. L. Elliott 1980, "Increasing tree search efficiency for constraint satisfaction problems", Artificial Intelligence
 * 14(3)). It is strong where many small items share few hoopings, which is where there are too many sets for search-solve.c. */
#include "search-private.h"

#define MOST_HOOPINGS 32

/* What changes from choice to choice, copied for each. Hoopings are bits. */
typedef struct
{
  guint32 *may;          /* n: hoopings an item may still join */
  guint32 *after_these;  /* n: hoopings of items that come before it */
  guint32 *before_these; /* n: hoopings of items that come after it */
  guint64 *rest;         /* words: items not placed yet */
  guint *placed;         /* hoopings x n: the items of each */
  guint n_placed[MOST_HOOPINGS];
  guint32 later[MOST_HOOPINGS]; /* hoopings that must come after it */
} Table;

typedef struct
{
  HwSearch *search;
  guint n, limit;
  gsize steps;
  gboolean cut_off;
  GPtrArray *tables; /* one for each depth */
} Assigning;

static void
table_free (gpointer data)
{
  Table *table = data;

  g_free (table->may);
  g_free (table->after_these);
  g_free (table->before_these);
  g_free (table->rest);
  g_free (table->placed);
  g_free (table);
}

static Table *
table_at (Assigning *assigning, guint depth)
{
  Table *table;

  if (depth < assigning->tables->len)
    return g_ptr_array_index (assigning->tables, depth);
  table = g_new0 (Table, 1);
  table->may = g_new0 (guint32, assigning->n);
  table->after_these = g_new0 (guint32, assigning->n);
  table->before_these = g_new0 (guint32, assigning->n);
  table->rest = g_new0 (guint64, assigning->search->words);
  table->placed = g_new0 (guint, (gsize)assigning->limit * assigning->n);
  g_ptr_array_add (assigning->tables, table);
  return table;
}

static void
table_copy (const Assigning *assigning, Table *to, const Table *from)
{
  const guint n = assigning->n;

  memcpy (to->may, from->may, n * sizeof (guint32));
  memcpy (to->after_these, from->after_these, n * sizeof (guint32));
  memcpy (to->before_these, from->before_these, n * sizeof (guint32));
  memcpy (to->rest, from->rest, assigning->search->words * sizeof (guint64));
  for (guint h = 0; h < assigning->limit; h++)
    memcpy (to->placed + (gsize)h * n, from->placed + (gsize)h * n, from->n_placed[h] * sizeof (guint));
  memcpy (to->n_placed, from->n_placed, sizeof to->n_placed);
  memcpy (to->later, from->later, sizeof to->later);
}

/* Hooping a comes before hooping b from now on. FALSE when it also comes after it. */
static gboolean
put_before (const Assigning *assigning, Table *table, guint a, guint b)
{
  guint32 fresh = table->later[b] | 1u << b;

  if (a == b)
    return TRUE;
  if (fresh >> a & 1)
    return FALSE;
  for (guint h = 0; h < assigning->limit; h++)
    if (h == a || (table->later[h] >> a & 1))
      table->later[h] |= fresh;
  return TRUE;
}

/* The hoopings that would have to come both before and after another one if the item joined them. */
static guint32
out_of_order (const Assigning *assigning, const Table *table, guint item)
{
  guint32 bad = 0;

  for (guint h = 0; h < assigning->limit; h++)
    {
      if (table->later[h] & table->after_these[item])
        bad |= 1u << h;
      if (table->before_these[item] >> h & 1)
        bad |= table->later[h];
    }
  return bad;
}

/* Whether the item gets on with all that is in the hooping. */
static gboolean
joins (const Assigning *assigning, Table *table, guint hooping, guint item)
{
  const HwSearchProblem *problem = &assigning->search->problem;
  guint *placed = table->placed + (gsize)hooping * assigning->n, n = table->n_placed[hooping];

  placed[n] = item;
  return n == 0 || problem->may_share (problem->data, placed, n + 1);
}

/* Places the item and strikes out what that rules out. FALSE when some item has no hooping left. */
static gboolean
place (Assigning *assigning, Table *table, guint item, guint hooping)
{
  HwSearch *search = assigning->search;
  const guint32 bit = 1u << hooping;

  if (!joins (assigning, table, hooping, item))
    return FALSE;
  table->n_placed[hooping]++;
  hw_mask_remove (table->rest, item);
  for (guint h = 0; h < assigning->limit; h++)
    if (((table->after_these[item] >> h & 1) && !put_before (assigning, table, h, hooping))
        || ((table->before_these[item] >> h & 1) && !put_before (assigning, table, hooping, h)))
      return FALSE;
  for (HW_MASK_EACH (other, table->rest, search->words))
    {
      if (hw_mask_has (hw_search_before (search, other), item))
        table->after_these[other] |= bit;
      if (hw_mask_has (hw_search_after (search, other), item))
        table->before_these[other] |= bit;
      table->may[other] &= ~out_of_order (assigning, table, other);
      if ((table->may[other] & bit)
          && (!hw_mask_has (hw_search_share (search, item), other)
              || !joins (assigning, table, hooping, other)))
        table->may[other] &= ~bit;
      if (table->may[other] == 0)
        return FALSE;
    }
  return TRUE;
}

/* The item with fewest hoopings left; among equals the one that gets on with fewest others. */
static guint
choose_next (const Assigning *assigning, const Table *table)
{
  const HwSearch *search = assigning->search;
  guint best = G_MAXUINT, fewest = G_MAXUINT;

  for (guint k = 0; k < search->n; k++)
    {
      guint item = search->lonely[k];
      guint left = hw_mask_has (table->rest, item) ? (guint)__builtin_popcount (table->may[item]) : G_MAXUINT;

      if (left < fewest)
        {
          fewest = left;
          best = item;
        }
    }
  return best;
}

/* TRUE when all is placed; the answer is then in the table of the last depth. */
static gboolean
go_on (Assigning *assigning, guint depth)
{
  Table *table = table_at (assigning, depth), *next;
  guint item = choose_next (assigning, table);
  gboolean opened = FALSE;

  if (item == G_MAXUINT)
    {
      g_ptr_array_set_size (assigning->tables, depth + 1);
      return TRUE;
    }
  if (assigning->steps == 0 || hw_search_should_stop (assigning->search))
    assigning->cut_off = TRUE;
  if (assigning->cut_off)
    return FALSE;
  assigning->steps--;
  next = table_at (assigning, depth + 1);
  for (guint h = 0; h < assigning->limit && !assigning->cut_off; h++)
    {
      if (!(table->may[item] >> h & 1) || (table->n_placed[h] == 0 && opened))
        continue; /* one empty hooping is like another */
      opened |= table->n_placed[h] == 0;
      table_copy (assigning, next, table);
      if (place (assigning, next, item, h) && go_on (assigning, depth + 1))
        return TRUE;
    }
  return FALSE;
}

/* The hoopings in an order that works. */
static void
write_blocks (const Assigning *assigning, const Table *table, GArray *blocks)
{
  guint32 done = 0;

  for (guint k = 0; k < assigning->limit; k++)
    for (guint h = 0; h < assigning->limit; h++)
      {
        guint32 waits = 0;

        for (guint other = 0; other < assigning->limit; other++)
          waits |= table->later[other] >> h & 1 ? 1u << other : 0;
        if ((done >> h & 1) || (waits & ~done))
          continue;
        done |= 1u << h;
        if (table->n_placed[h] > 0)
          {
            guint row = blocks->len;

            g_array_set_size (blocks, row + assigning->search->words);
            hw_mask_clear (&g_array_index (blocks, guint64, row), assigning->search->words);
            for (guint m = 0; m < table->n_placed[h]; m++)
              hw_mask_add (&g_array_index (blocks, guint64, row), table->placed[(gsize)h * assigning->n + m]);
          }
        break;
      }
}

int
hw_search_assign (
    HwSearch *search, const guint64 *part, const guint64 *strangers, guint limit, gsize steps, GArray *blocks)
{
  Assigning assigning = { .search = search, .n = search->n, .limit = limit, .steps = steps };
  guint h = 0;
  gboolean good = TRUE;
  int answer;
  Table *table;

  if (limit > MOST_HOOPINGS || limit == 0)
    return -1;
  if (hw_mask_count (strangers, search->words) > limit)
    return 0;
  search->stopped = FALSE;
  search->step_limit = G_MAXUINT64;
  assigning.tables = g_ptr_array_new_with_free_func (table_free);
  table = table_at (&assigning, 0);
  hw_mask_copy (table->rest, part, search->words);
  for (HW_MASK_EACH (i, part, search->words))
    table->may[i] = limit < 32 ? (1u << limit) - 1 : G_MAXUINT32;
  for (HW_MASK_EACH (i, strangers, search->words))
    good = good && place (&assigning, table, i, h++);
  answer = good && go_on (&assigning, 0) ? 1 : assigning.cut_off ? -1 : 0;
  if (answer == 1)
    write_blocks (&assigning, g_ptr_array_index (assigning.tables, assigning.tables->len - 1), blocks);
  g_ptr_array_unref (assigning.tables);
  return answer;
}

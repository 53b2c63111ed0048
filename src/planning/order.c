/* The overlap order. Where two motifs overlap, the one further back is stitched first; a person may tie others. Pairs are asked about
 * only while the order found so far leaves them open, so a pile of motifs costs no more than a row of them. */
#include "order.h"

#include "../geometry/language.h"
#include "../geometry/hull.h"
#include "../geometry/region.h"

#define MOST_REMEMBERED 400000

struct _HwOverlaps
{
  GHashTable *pairs; /* guint64[2] -> 1 no, 2 yes */
};

static guint
pair_hash (gconstpointer key)
{
  const guint64 *pair = key;
  guint64 mixed = pair[0] * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15) ^ pair[1];

  return (guint)(mixed ^ (mixed >> 32));
}

static gboolean
pair_equal (gconstpointer a, gconstpointer b)
{
  return memcmp (a, b, 2 * sizeof (guint64)) == 0;
}

HwOverlaps *
hw_overlaps_new (void)
{
  HwOverlaps *overlaps = g_new0 (HwOverlaps, 1);

  overlaps->pairs = g_hash_table_new_full (pair_hash, pair_equal, g_free, NULL);
  return overlaps;
}

void
hw_overlaps_free (HwOverlaps *overlaps)
{
  g_hash_table_unref (overlaps->pairs);
  g_free (overlaps);
}

static gboolean
overlap_now (const HwOutline *a, const HwOutline *b)
{
  return !hw_hulls_apart (a->hull, a->n_hull, b->hull, b->n_hull)
         && hw_outline_overlap_area (a, b) > HW_ORDER_COMMON_AREA;
}

gboolean
hw_overlaps_ask (HwOverlaps *overlaps, const HwPlaced *a, const HwPlaced *b)
{
  guint64 key[2] = { MIN (a->serial, b->serial), MAX (a->serial, b->serial) };
  gpointer known;
  gboolean answer;

  if (!hw_box_overlaps (a->outline->box, b->outline->box))
    return FALSE;
  if (overlaps == NULL)
    return overlap_now (a->outline, b->outline);
  known = g_hash_table_lookup (overlaps->pairs, key);
  if (known != NULL)
    return GPOINTER_TO_INT (known) == 2;
  answer = overlap_now (a->outline, b->outline);
  if (g_hash_table_size (overlaps->pairs) >= MOST_REMEMBERED)
    g_hash_table_remove_all (overlaps->pairs);
  g_hash_table_insert (overlaps->pairs, g_memdup2 (key, sizeof key), GINT_TO_POINTER (answer ? 2 : 1));
  return answer;
}

static void
order_step (HwOrder *order, guint i, guint j)
{
  guint pair[2] = { i, j };

  g_array_append_val (order->steps, pair);
}

HwOrder *
hw_order_new (
    const HwPlaced *placed, guint n, const gboolean *begun, HwOverlaps *overlaps, GCancellable *cancellable)
{
  g_autoptr (HwOrder) order = g_new0 (HwOrder, 1);

  order->n = n;
  order->words = HW_MASK_WORDS (n);
  order->before = g_new0 (guint64, (gsize)MAX (n, 1) * order->words);
  order->steps = g_array_new (FALSE, FALSE, sizeof (guint[2]));
  for (guint j = 0; j < n; j++)
    {
      guint64 *row = HW_MASK_ROW (order->before, j, order->words);

      if (g_cancellable_is_cancelled (cancellable))
        return NULL;
      for (guint i = j; i-- > 0;)
        {
          if (begun != NULL && begun[i] && begun[j])
            continue;
          if (!hw_box_overlaps (placed[i].outline->box, placed[j].outline->box) || hw_mask_has (row, i)
              || !hw_overlaps_ask (overlaps, &placed[i], &placed[j]))
            continue;
          hw_mask_join (row, HW_MASK_ROW (order->before, i, order->words), order->words);
          hw_mask_add (row, i);
          order_step (order, i, j);
        }
    }
  return g_steal_pointer (&order);
}

void
hw_order_free (HwOrder *order)
{
  g_free (order->before);
  g_array_unref (order->steps);
  g_free (order);
}

/* The shortest way from one motif to another along the steps, both ends included; breadth first. */
static GArray *
find_way (const HwOrder *order, guint from, guint to)
{
  GArray *way = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree guint *came = g_new (guint, order->n);
  g_autofree guint *queue = g_new (guint, order->n);
  guint head = 0, tail = 0;

  for (guint i = 0; i < order->n; i++)
    came[i] = G_MAXUINT;
  came[to] = to; /* walked backwards, so that the way comes out forwards */
  queue[tail++] = to;
  while (head < tail && came[from] == G_MAXUINT)
    {
      guint at = queue[head++];

      for (guint s = 0; s < order->steps->len; s++)
        {
          const guint *pair = &g_array_index (order->steps, guint, 2 * s);

          if (pair[1] == at && came[pair[0]] == G_MAXUINT)
            {
              came[pair[0]] = at;
              queue[tail++] = pair[0];
            }
        }
    }
  for (guint at = from; came[at] != G_MAXUINT; at = came[at])
    {
      g_array_append_val (way, at);
      if (at == to)
        break;
    }
  return way;
}

gboolean
hw_order_tie (HwOrder *order, guint first, guint second, GArray **loop)
{
  guint64 *from;

  g_return_val_if_fail (first < order->n && second < order->n, FALSE);

  if (loop != NULL)
    *loop = NULL;
  if (first == second || hw_order_has (order, second, first))
    {
      if (loop != NULL)
        {
          *loop = first == second ? g_array_new (FALSE, FALSE, sizeof (guint))
                                  : find_way (order, second, first);
          g_array_prepend_val (*loop, first);
          if (first == second)
            g_array_append_val (*loop, first);
        }
      return FALSE;
    }
  from = HW_MASK_ROW (order->before, first, order->words);
  for (guint j = 0; j < order->n; j++)
    {
      guint64 *row = HW_MASK_ROW (order->before, j, order->words);

      if (j != second && !hw_mask_has (row, second))
        continue;
      hw_mask_join (row, from, order->words);
      hw_mask_add (row, first);
    }
  order_step (order, first, second);
  return TRUE;
}

GArray *
hw_order_ties (const HwSnapshot *snapshot)
{
  GArray *ties = g_array_new (FALSE, FALSE, sizeof (HwTie));

  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      char **before = hw_snapshot_motif (snapshot, i)->before;

      for (guint k = 0; before != NULL && before[k] != NULL; k++)
        {
          int other = hw_snapshot_find_motif (snapshot, before[k]);
          HwTie tie = { i, (guint)other };

          if (other >= 0)
            g_array_append_val (ties, tie);
        }
    }
  return ties;
}

static HwPlaced *
place_all (const HwSnapshot *snapshot)
{
  HwPlaced *placed = g_new0 (HwPlaced, snapshot->motifs->len + 1);

  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);

      placed[i].outline = hw_outline_place (motif->outline, &motif->placement);
      placed[i].serial = i;
    }
  return placed;
}

static void
placed_free (HwPlaced *placed, guint n)
{
  for (guint i = 0; i < n; i++)
    hw_outline_unref (placed[i].outline);
  g_free (placed);
}

guint8 *
hw_order_of_snapshot (const HwSnapshot *snapshot, GArray **loop)
{
  guint n;
  HwPlaced *placed;
  guint8 *before;
  g_autoptr (GArray) ties = NULL;

  g_return_val_if_fail (snapshot != NULL, NULL);

  n = snapshot->motifs->len;
  placed = place_all (snapshot);
  before = g_new0 (guint8, (gsize)MAX (n, 1) * MAX (n, 1));
  for (guint j = 0; j < n; j++)
    for (guint i = 0; i < j; i++)
      before[(gsize)i * n + j] = hw_overlaps_ask (NULL, &placed[i], &placed[j]);
  ties = hw_order_ties (snapshot);
  if (loop != NULL)
    {
      g_autoptr (HwOrder) order = hw_order_new (placed, n, NULL, NULL, NULL);

      *loop = NULL;
      for (guint t = 0; t < ties->len && *loop == NULL; t++)
        hw_order_tie (order, g_array_index (ties, HwTie, t).first, g_array_index (ties, HwTie, t).second,
                      loop);
    }
  for (guint t = 0; t < ties->len; t++)
    before[(gsize)g_array_index (ties, HwTie, t).first * n + g_array_index (ties, HwTie, t).second] = 1;
  placed_free (placed, n);
  return before;
}

char *
hw_order_chain_text (const HwSnapshot *snapshot, const guint *chain, guint n)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i + 1 < n; i++)
    {
      if (i > 0)
        g_string_append (text, _ (", "));
      /* Translators: a step of the stitch order, "Gate before Fig branch" */
      g_string_append_printf (text, _ ("%s before %s"), hw_snapshot_motif (snapshot, chain[i])->name,
                              hw_snapshot_motif (snapshot, chain[i + 1])->name);
    }
  return g_string_free (text, FALSE);
}

char *
hw_order_refuses_tie (const HwSnapshot *snapshot, guint first, guint second)
{
  HwPlaced *placed;
  g_autoptr (HwOrder) order = NULL;
  g_autoptr (GArray) ties = NULL;
  g_autoptr (GArray) loop = NULL;
  g_autofree char *chain = NULL;

  g_return_val_if_fail (snapshot != NULL, NULL);
  g_return_val_if_fail (first < snapshot->motifs->len && second < snapshot->motifs->len, NULL);

  if (first == second)
    return g_strdup_printf (_ ("%s cannot be stitched before itself."),
                            hw_snapshot_motif (snapshot, first)->name);
  placed = place_all (snapshot);
  order = hw_order_new (placed, snapshot->motifs->len, NULL, NULL, NULL);
  placed_free (placed, snapshot->motifs->len);
  ties = hw_order_ties (snapshot);
  for (guint t = 0; t < ties->len; t++)
    hw_order_tie (order, g_array_index (ties, HwTie, t).first, g_array_index (ties, HwTie, t).second, NULL);
  if (hw_order_tie (order, first, second, &loop))
    return NULL;
  chain = hw_order_chain_text (snapshot, &g_array_index (loop, guint, 1), loop->len - 1);
  return g_strdup_printf (_ ("%s cannot be stitched before %s, because the order already goes %s."),
                          hw_snapshot_motif (snapshot, first)->name,
                          hw_snapshot_motif (snapshot, second)->name, chain);
}

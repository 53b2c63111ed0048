/* The order of the parts. What overlaps, ties and pinned hoopings ask comes first: a motif that must be stitched before one of an earlier part
 * joins that part. After that no motif of a later part comes before one of an earlier part, so the order between the parts closes no loop. */
#include "parts-order.h"
#include "../geometry/language.h"

guint *
hw_parts_of_motifs (const HwSnapshot *snapshot)
{
  guint n = snapshot->motifs->len;
  guint *part = g_new (guint, n + 1);
  g_autoptr (GHashTable) index = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = n; i-- > 0;)
    {
      part[i] = HW_NO_PART;
      g_hash_table_insert (index, hw_snapshot_motif (snapshot, i)->id, GUINT_TO_POINTER (i + 1));
    }
  for (guint p = snapshot->parts->len; p-- > 0;)
    {
      const HwPart *record = g_ptr_array_index (snapshot->parts, p);

      for (guint k = 0; record->motifs[k] != NULL; k++)
        {
          guint found = GPOINTER_TO_UINT (g_hash_table_lookup (index, record->motifs[k]));

          if (found > 0)
            part[found - 1] = p;
        }
    }
  return part;
}

gboolean
hw_parts_differ (const HwHeldFast *held, guint a, guint b)
{
  return held->part != NULL && held->part[a] != HW_NO_PART && held->part[b] != HW_NO_PART
         && held->part[a] != held->part[b];
}

/* The part of each item: the earliest of its motifs' and of the items that come after it; none where its own motifs have none. */
static guint *
parts_of_items (const HwHeldFast *held, const guint *named)
{
  const guint n = held->n_items, words = HW_MASK_WORDS (n);
  g_autofree guint *own = g_new (guint, n + 1);
  guint *part = g_new (guint, n + 1);

  for (guint item = 0; item < n; item++)
    own[item] = HW_NO_PART;
  for (guint k = 0; k < held->n; k++)
    own[held->item_of[k]] = MIN (own[held->item_of[k]], named[held->motif[k]]);
  memcpy (part, own, n * sizeof (guint));
  for (guint after = 0; after < n; after++)
    for (HW_MASK_EACH (item, HW_MASK_ROW (held->items_before, after, words), words))
      if (part[item] != HW_NO_PART)
        part[item] = MIN (part[item], own[after]);
  return part;
}

/* Makes every member of an earlier part come before every member of a later one, and what comes before the former before what comes after
 * the latter. part never falls along before. */
static void
add_order (guint64 *before, guint n, const guint *part, guint n_parts)
{
  const guint words = HW_MASK_WORDS (n);
  g_autofree guint64 *earlier = g_new0 (guint64, (gsize)(n_parts + 1) * words); /* for each part */
  g_autofree guint *latest = g_new0 (guint, n + 1); /* part among a member and all before it */

  for (guint j = 0; j < n; j++)
    {
      const guint64 *row = HW_MASK_ROW (before, j, words);

      latest[j] = part[j] != HW_NO_PART ? part[j] : 0;
      for (HW_MASK_EACH (i, row, words))
        if (part[i] != HW_NO_PART)
          latest[j] = MAX (latest[j], part[i]);
      for (guint p = 0; part[j] != HW_NO_PART && p < n_parts; p++)
        if (part[j] < p)
          {
            hw_mask_add (HW_MASK_ROW (earlier, p, words), j);
            hw_mask_join (HW_MASK_ROW (earlier, p, words), row, words);
          }
    }
  for (guint j = 0; j < n; j++)
    hw_mask_join (HW_MASK_ROW (before, j, words), HW_MASK_ROW (earlier, latest[j], words), words);
}

/* The shortest way from motif k (of the planned) along the order, or through a pinned hooping, to a motif whose own part is wanted. */
static GArray *
find_way (const HwHeldFast *held, const guint *named, guint k, guint wanted)
{
  GArray *way = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree guint *came = g_new (guint, held->n + 1);
  g_autofree guint *queue = g_new (guint, held->n + 1);
  guint head = 0, tail = 0, end = G_MAXUINT;

  for (guint i = 0; i < held->n; i++)
    came[i] = G_MAXUINT;
  came[k] = k;
  queue[tail++] = k;
  while (head < tail && end == G_MAXUINT)
    {
      guint at = queue[head++];

      if (named[held->motif[at]] == wanted)
        end = at;
      for (guint i = 0; i < held->n && end == G_MAXUINT; i++)
        if (came[i] == G_MAXUINT && held->pin_of[at] != G_MAXUINT && held->pin_of[i] == held->pin_of[at])
          {
            came[i] = at;
            queue[tail++] = i;
          }
      for (guint s = 0; s < held->order->steps->len && end == G_MAXUINT; s++)
        {
          const guint *pair = &g_array_index (held->order->steps, guint, 2 * s);

          if (pair[0] == at && came[pair[1]] == G_MAXUINT)
            {
              came[pair[1]] = at;
              queue[tail++] = pair[1];
            }
        }
    }
  g_assert (end != G_MAXUINT);
  for (guint at = end;; at = came[at])
    {
      g_array_prepend_val (way, at);
      if (at == k)
        return way;
    }
}

/* The nearest motif of the wanted part that lies over motif k, or G_MAXUINT. */
static guint
lies_behind (const HwHeldFast *held, const guint *named, HwOverlaps *overlaps, guint k, guint wanted)
{
  for (guint j = k + 1; j < held->n; j++)
    if (named[held->motif[j]] == wanted
        && hw_overlaps_ask (overlaps, &held->placed[held->motif[k]], &held->placed[held->motif[j]]))
      return j;
  return G_MAXUINT;
}

static const char *
name_of (const HwHeldFast *held, guint k)
{
  return hw_snapshot_motif (held->snapshot, held->motif[k])->name;
}

/* "Gate before Fig branch, Fig branch beside Quince in a pinned hooping". */
static char *
way_text (const HwHeldFast *held, const GArray *way)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k + 1 < way->len; k++)
    {
      guint from = g_array_index (way, guint, k), to = g_array_index (way, guint, k + 1);
      gboolean pinned = held->pin_of[from] != G_MAXUINT && held->pin_of[from] == held->pin_of[to];

      if (k > 0)
        g_string_append (text, _ (", "));
      g_string_append_printf (text, pinned ? _ ("%s beside %s in a pinned hooping") : _ ("%s before %s"),
                              name_of (held, from), name_of (held, to));
    }
  return g_string_free (text, FALSE);
}

static void
tell (const HwHeldFast *held, const guint *named, HwOverlaps *overlaps, guint k, guint joined, HwPlan *plan)
{
  guint motif = held->motif[k], over = lies_behind (held, named, overlaps, k, joined);
  const char *own = ((const HwPart *)g_ptr_array_index (held->snapshot->parts, named[motif]))->name;
  const char *earlier = ((const HwPart *)g_ptr_array_index (held->snapshot->parts, joined))->name;
  const char *name = name_of (held, k);
  HwProblem *problem;
  char *text;

  if (over != G_MAXUINT)
    text = g_strdup_printf (_ ("%s (part “%s”) lies behind %s, which is in the earlier part “%s”. "
                               "It is stitched with “%s”, so that the order of the overlap holds."),
                            name, own, name_of (held, over), earlier, earlier);
  else
    {
      g_autoptr (GArray) way = find_way (held, named, k, joined);
      g_autofree char *chain = way_text (held, way);

      over = g_array_index (way, guint, way->len - 1);
      text = g_strdup_printf (
          _ ("%s (part “%s”) must not come after %s, which is in the earlier part “%s”: the "
             "order goes %s. It is stitched with “%s”."),
          name, own, name_of (held, over), earlier, chain, earlier);
    }
  problem = hw_plan_add_problem (plan, HW_PROBLEM_PART, (int)motif, FALSE, text);
  problem->other = (int)held->motif[over];
  problem->where = hw_snapshot_motif (held->snapshot, motif)->placement.position;
}

void
hw_parts_hold (HwHeldFast *held, HwOverlaps *overlaps, HwPlan *plan)
{
  const HwSnapshot *snapshot = held->snapshot;
  g_autofree guint *named = NULL;
  g_autofree guint *of_item = NULL;
  g_autofree guint *of_planned = NULL;

  g_return_if_fail (held->part == NULL);

  if (snapshot->parts->len == 0)
    return;
  named = hw_parts_of_motifs (snapshot);
  of_item = parts_of_items (held, named);
  of_planned = g_new (guint, held->n + 1);
  held->part = g_memdup2 (named, (snapshot->motifs->len + 1) * sizeof (guint));
  for (guint k = 0; k < held->n; k++)
    {
      of_planned[k] = held->part[held->motif[k]] = of_item[held->item_of[k]];
      if (named[held->motif[k]] != HW_NO_PART && of_planned[k] < named[held->motif[k]])
        tell (held, named, overlaps, k, of_planned[k], plan);
    }
  if (held->items_before != held->order->before)
    add_order (held->items_before, held->n_items, of_item, snapshot->parts->len);
  add_order (held->order->before, held->n, of_planned, snapshot->parts->len);
}

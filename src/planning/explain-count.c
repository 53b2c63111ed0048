/* Why there are not fewer hoopings. The plan's own sentence says what the proof is; here it is shown pair by pair, in figures anyone can check with a
 * ruler: what two motifs need together and what the nearest hoop takes. Motifs that can never share two by two need a hooping each (a clique of the
 * graph of conflicts), and so does each motif of a chain whose neighbours cannot share. */
#include "explain-private.h"

#include <glib/gi18n.h>

#define MOST_ALL_PAIRS 5 /* motifs up to which every pair is named; above, the nearest pair of each */
#define MOST_LINES 24

/* Two motifs of the proof and what they would bring along. */
typedef struct
{
  guint first, second;
  GArray *set; /* the two and all that must come between */
  GArray *hull;
  gboolean held; /* one of them is in a hooping held fast */
  gboolean apart;
  gboolean fits;
  double miss;
} Pair;

static void
pair_clear (gpointer data)
{
  Pair *pair = data;

  g_array_unref (pair->set);
  g_array_unref (pair->hull);
}

static HwPlaceHold
hold_of (const HwExplaining *ex, guint motif)
{
  guint hooping = ex->hooping_of[motif];

  return hooping == G_MAXUINT ? HW_PLACE_FREE : ex->plan->hoopings[hooping].hold;
}

static Pair
look_at_pair (const HwExplaining *ex, guint first, guint second)
{
  guint motifs[2] = { first, second }, apart[2];
  gboolean turned = hw_explaining_before (ex, second, first);
  Pair pair = { .first = turned ? second : first, .second = turned ? first : second };

  pair.set = hw_explaining_between (ex, motifs, 2);
  g_array_prepend_val (pair.set, pair.first);
  g_array_append_val (pair.set, pair.second);
  pair.hull = hw_explaining_hull (ex, (const guint *)pair.set->data, pair.set->len);
  pair.held = hold_of (ex, first) != HW_PLACE_FREE || hold_of (ex, second) != HW_PLACE_FREE;
  pair.apart = hw_explaining_apart (ex, (const guint *)pair.set->data, pair.set->len, apart);
  pair.fits = hw_explaining_fits (ex, pair.hull);
  pair.miss = pair.fits ? 0 : hw_explaining_miss (ex, pair.hull);
  return pair;
}

static gboolean
can_share (const Pair *pair)
{
  return pair->fits && !pair->held && !pair->apart;
}

static void
add_held_line (GString *text, const HwExplaining *ex, const Pair *pair)
{
  guint held = hold_of (ex, pair->first) != HW_PLACE_FREE ? pair->first : pair->second;
  guint other = held == pair->first ? pair->second : pair->first;

  g_string_append_printf (text, _ ("• %s is in hooping %u, which is held fast without %s.\n"),
                          hw_explaining_name (ex, held), ex->hooping_of[held] + 1,
                          hw_explaining_name (ex, other));
}

static void
add_pair (GString *text, const HwExplaining *ex, const Pair *pair)
{
  const guint *set = (const guint *)pair->set->data;
  g_autofree char *names = hw_explaining_names (ex, set, pair->set->len), *order = NULL, *needs = NULL;
  guint apart[2];

  if (pair->held)
    {
      add_held_line (text, ex, pair);
      return;
    }
  if (hw_explaining_apart (ex, set, pair->set->len, apart) && pair->set->len == 2)
    {
      g_string_append_printf (text, _ ("• %s are to be kept apart.\n"), names);
      return;
    }
  needs = hw_explaining_needs_text (ex, pair->hull);
  if (pair->set->len == 2)
    {
      g_string_append_printf (text, _ ("• %s %s.\n"), names, needs);
      return;
    }
  order = hw_explaining_order_text (ex, pair->first, pair->second);
  g_string_append_printf (text, _ ("• %s could only share with what must come between (%s)"),
                          hw_explaining_name (ex, pair->first), order);
  if (pair->apart)
    {
      g_autofree char *both = hw_explaining_names (ex, apart, 2);

      g_string_append_printf (text, _ (", but %s are to be kept apart.\n"), both);
    }
  else
    g_string_append_printf (text, _ ("; %s %s.\n"), names, needs);
}

/* All pairs of the proof's motifs. Returns: (transfer full) (element-type Pair): NULL when some pair may share after all, so that this is not the
 * proof. */
static GArray *
find_pairs (const HwExplaining *ex)
{
  g_autoptr (GArray) pairs = g_array_new (FALSE, FALSE, sizeof (Pair));
  const HwPlan *plan = ex->plan;

  g_array_set_clear_func (pairs, pair_clear);
  for (guint j = 1; j < plan->n_proof_motifs; j++)
    for (guint i = 0; i < j; i++)
      {
        Pair pair = look_at_pair (ex, plan->proof_motifs[i], plan->proof_motifs[j]);

        g_array_append_val (pairs, pair);
        if (can_share (&pair))
          return NULL;
      }
  return g_steal_pointer (&pairs);
}

/* Of each motif the pair that comes nearest to sharing, each pair once. */
static void
add_nearest_pairs (GString *text, const HwExplaining *ex, const GArray *pairs)
{
  g_autoptr (GHashTable) told = g_hash_table_new (NULL, NULL);
  guint lines = 0;

  for (guint k = 0; k < ex->plan->n_proof_motifs && lines < MOST_LINES; k++)
    {
      const Pair *nearest = NULL;

      for (guint p = 0; p < pairs->len; p++)
        {
          const Pair *pair = &g_array_index (pairs, Pair, p);

          if ((pair->first == ex->plan->proof_motifs[k] || pair->second == ex->plan->proof_motifs[k])
              && (nearest == NULL || pair->miss < nearest->miss))
            nearest = pair;
        }
      if (nearest == NULL || !g_hash_table_add (told, (gpointer)nearest))
        continue;
      add_pair (text, ex, nearest);
      lines++;
    }
  g_string_append (text, _ ("• Of each motif this is the pair that comes nearest; all others need more.\n"));
}

static void
add_pairs (GString *text, const HwExplaining *ex)
{
  g_autoptr (GArray) pairs = NULL;

  if (ex->plan->n_proof_motifs < 2 || ex->plan->n_proof_motifs > ex->plan->lower_bound)
    return;
  pairs = find_pairs (ex);
  if (pairs == NULL)
    return;
  if (ex->plan->n_proof_motifs > MOST_ALL_PAIRS)
    {
      add_nearest_pairs (text, ex, pairs);
      return;
    }
  for (guint p = 0; p < pairs->len; p++)
    add_pair (text, ex, &g_array_index (pairs, Pair, p));
}

static void
add_sureness (GString *text, const HwPlan *plan)
{
  guint n = plan->n_hoopings, over = n > plan->lower_bound ? n - plan->lower_bound : 0;

  g_string_append_printf (text, ngettext ("%u hooping", "%u hoopings", n), n);
  if (plan->status == HW_PLAN_OPTIMAL)
    g_string_append (text, _ (", proven fewest.\n"));
  else if (over > 0)
    g_string_append_printf (
        text, ngettext (", at most %u more than the fewest.\n", ", at most %u more than the fewest.\n", over),
        over);
  else
    g_string_append (text, _ (".\n"));
  if (plan->status == HW_PLAN_UNPLANNABLE)
    g_string_append (text, _ ("They do not stitch the whole scene.\n"));
  if (plan->snapshot->wishes.best == HW_BEST_LEAST_TIME)
    g_string_append (text,
                     _ ("You asked for the least time; that may take a hooping more than the fewest.\n"));
}

static void
add_held (GString *text, const HwPlan *plan)
{
  guint pinned = 0;

  for (guint h = 0; h < plan->n_hoopings; h++)
    pinned += plan->hoopings[h].hold == HW_PLACE_PINNED;
  if (pinned > 0)
    g_string_append_printf (text,
                            ngettext ("%u of them is pinned and counts as it is.\n",
                                      "%u of them are pinned and count as they are.\n", pinned),
                            pinned);
}

void
hw_explain_add_count (GString *text, const HwExplaining *ex)
{
  const HwPlan *plan = ex->plan;

  if (plan->n_hoopings == 0)
    {
      g_string_append (text, plan->snapshot->motifs->len == 0
                                 ? _ ("There are no motifs yet, so nothing needs a hooping.\n")
                                 : _ ("Nothing here can be stitched yet.\n"));
      return;
    }
  add_sureness (text, plan);
  if (plan->proof != NULL)
    g_string_append_printf (text, "%s\n", plan->proof);
  add_pairs (text, ex);
  add_held (text, plan);
}

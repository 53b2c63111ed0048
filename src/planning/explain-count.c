/* Why there are not fewer hoopings. The plan's own sentence says what the proof is; here it is shown pair by pair, in figures anyone can check with a
 * ruler: what two motifs need together and what the nearest hoop takes. Motifs that can never share two by two need a hooping each (a clique of the
 * graph of conflicts), and so does each motif of a chain whose neighbours cannot share. */
#include "explain-private.h"

#include <math.h>

#include "../geometry/language.h"

#define MOST_ALL_PAIRS 5 /* motifs up to which every pair is named; above, the nearest pair of each */
#define MOST_LINES 24

/* Two motifs of the proof and what they would bring along. */
typedef struct
{
  guint first, second;
  GArray *set;   /* the two and all that must come between */
  GArray *hull;  /* both are NULL while many pairs are kept */
  gboolean held; /* one of them is in a hooping held fast */
  gboolean apart;
  gboolean fits;
  double miss;
} Pair;

static void
pair_clear (Pair *pair)
{
  g_clear_pointer (&pair->set, g_array_unref);
  g_clear_pointer (&pair->hull, g_array_unref);
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
add_whole_pair (GString *text, const HwExplaining *ex, const Pair *pair)
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
      g_autofree char *why = hw_explaining_apart_text (ex, set);

      g_string_append_printf (text, "• %s.\n", why);
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
      g_autofree char *why = hw_explaining_apart_text (ex, apart);

      /* Translators: why two motifs cannot share follows: "Gate and Quince are to be kept apart" */
      g_string_append_printf (text, _ (", but %s.\n"), why);
    }
  else
    g_string_append_printf (text, _ ("; %s %s.\n"), names, needs);
}

static void
add_pair (GString *text, const HwExplaining *ex, const Pair *pair)
{
  Pair whole = look_at_pair (ex, pair->first, pair->second);

  add_whole_pair (text, ex, &whole);
  pair_clear (&whole);
}

/* All pairs of the proof's motifs. Returns: (transfer full) (element-type Pair): NULL when some pair may share after all, so that this is not the
 * proof. */
static GArray *
find_pairs (const HwExplaining *ex)
{
  g_autoptr (GArray) pairs = g_array_new (FALSE, FALSE, sizeof (Pair));
  const HwPlan *plan = ex->plan;

  for (guint j = 1; j < plan->n_proof_motifs; j++)
    for (guint i = 0; i < j; i++)
      {
        Pair pair = look_at_pair (ex, plan->proof_motifs[i], plan->proof_motifs[j]);

        pair_clear (&pair);
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
  g_string_append (text,
                   _ ("(Of each motif only the pair that comes nearest is named; all others need more.)\n"));
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

/* "48 min", "2 h 24" */
static char *
minutes_text (double minutes)
{
  guint whole = (guint)lround (CLAMP (minutes, 0, 1e8));

  if (whole < 60)
    return g_strdup_printf (_ ("%u min"), whole);
  return g_strdup_printf (_ ("%u h %02u"), whole / 60, whole % 60);
}

char *
hw_explain_time (const HwPlan *plan)
{
  g_return_val_if_fail (plan != NULL, NULL);

  const HwMachine *machine = &plan->snapshot->machine;
  guint n = plan->n_hoopings, changes = plan->thread_changes;
  double setting = n * machine->minutes_per_hooping, changing = changes * machine->minutes_per_change;
  g_autofree char *setting_time = minutes_text (setting), *changing_time = minutes_text (changing);
  g_autofree char *stitching_time = minutes_text (plan->minutes - setting - changing);
  g_autofree char *set = g_strdup_printf (
      ngettext ("Setting %u hooping takes %s", "Setting %u hoopings takes %s", n), n, setting_time);
  g_autofree char *change = g_strdup_printf (
      ngettext ("%u thread change %s", "%u thread changes %s", changes), changes, changing_time);

  /* Translators: "Setting 6 hoopings takes 48 min, 96 thread changes 2 h 24, stitching 4 h 03." */
  return g_strdup_printf (_ ("%s, %s, stitching %s."), set, change, stitching_time);
}

/* Stitching takes the same time in every plan; what plans differ in is how often a hoop is set and thread is changed. */
static void
add_least_time (GString *text, const HwPlan *plan)
{
  guint n = plan->n_hoopings, over = (guint)ceil (MIN (plan->minutes - plan->minutes_bound, 1e8));
  g_autofree char *time = minutes_text (plan->minutes), *parts = hw_explain_time (plan);

  g_string_append_printf (text, ngettext ("%u hooping, %s", "%u hoopings, %s", n), n, time);
  if (plan->least_time_proven)
    g_string_append (text, _ (", proven least time.\n"));
  else
    g_string_append_printf (text,
                            ngettext (", at most %u minute over the least time.\n",
                                      ", at most %u minutes over the least time.\n", over),
                            over);
  g_string_append_printf (text, "%s\n", parts);
  g_string_append (
      text,
      _ ("Stitching takes as long in every plan: time is saved only on hoopings and thread changes.\n"));
  if (plan->least_time_proven)
    g_string_append (text, _ ("No other plan spends less on both together.\n"));
  else
    {
      g_autofree char *least = minutes_text (plan->minutes_bound);

      g_string_append_printf (
          text, _ ("No plan can take less than %s; one between the two may still be found.\n"), least);
    }
  if (n > plan->lower_bound)
    g_string_append (text, _ ("It may take a hooping more than the fewest, where that saves more thread "
                              "changes than it costs.\n"));
  else
    g_string_append (text, ngettext ("Fewer hoopings cannot be: the one is needed.\n",
                                     "Fewer hoopings cannot be either.\n", n));
}

static void
add_sureness (GString *text, const HwPlan *plan)
{
  guint n = plan->n_hoopings, over = n > plan->lower_bound ? n - plan->lower_bound : 0;

  if (plan->snapshot->wishes.best == HW_BEST_LEAST_TIME && plan->status != HW_PLAN_UNPLANNABLE)
    {
      add_least_time (text, plan);
      return;
    }
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
  /* Where a plan of the least time has more hoopings than the bound, the bound's reason is not its own. */
  if (plan->snapshot->wishes.best != HW_BEST_LEAST_TIME || plan->n_hoopings <= plan->lower_bound)
    {
      if (plan->proof != NULL)
        g_string_append_printf (text, "%s\n", plan->proof);
      add_pairs (text, ex);
    }
  add_held (text, plan);
}

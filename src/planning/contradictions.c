/* Wishes that cannot all be kept: two motifs pinned together and kept apart, a motif in two pinned hoopings, ties and pins that go round a
 * loop. A contradicting set is made as small as can be by leaving out one wish after another (deletion filtering: J. W. Chinneck and E. W.
 * Dravnieks 1991, "Locating minimal infeasible constraint sets in linear programs", ORSA Journal on Computing 3(2)). The fewest wishes are
 * left out that meet all contradictions found so far, until none is found any more (implicit hitting sets: R. Reiter 1987, "A theory of
 * diagnosis from first principles", Artificial Intelligence 32(1)). */
#include "contradictions-private.h"

#define MOST_ROUNDS 400
#define MOST_LOOKS 20000    /* at sets of wishes to leave out */
#define MOST_WALKED 3000000 /* steps looked at for the loop with fewest wishes; then any loop does */

static void
contradiction_free (gpointer data)
{
  HwContradiction *contradiction = data;

  g_array_unref (contradiction->wishes);
  g_array_unref (contradiction->way);
  g_free (contradiction);
}

const HwHeld *
hw_settling_pin (const HwSettling *s, guint p)
{
  return g_ptr_array_index (s->odds->pins, p);
}

HwTie
hw_settling_tie (const HwSettling *s, guint wish)
{
  HwTie tie = g_array_index (s->odds->ties, HwTie, wish - s->n_pins);

  return (HwTie){ s->odds->planned[tie.first], s->odds->planned[tie.second] };
}

/* Which pin holds each motif. Two wishes and the motif when a motif is in two pins or a pin holds two motifs that are kept apart. */
static gboolean
pins_clash (HwSettling *s, guint wishes[2], int together[2])
{
  const guint words = HW_MASK_WORDS (s->odds->snapshot->motifs->len);

  for (guint k = 0; k < s->n; k++)
    s->pin_of[k] = G_MAXUINT;
  for (guint p = 0; p < s->n_pins; p++)
    for (guint k = 0; k < hw_settling_pin (s, p)->motifs->len && s->active[p]; k++)
      {
        guint motif = g_array_index (hw_settling_pin (s, p)->motifs, guint, k),
              *pin = &s->pin_of[s->odds->planned[motif]];

        wishes[0] = p;
        wishes[1] = *pin != G_MAXUINT ? *pin : p;
        together[0] = together[1] = (int)motif;
        if (*pin != G_MAXUINT)
          return TRUE;
        *pin = p;
        for (guint l = 0; l < k && s->odds->apart != NULL; l++)
          {
            together[1] = g_array_index (hw_settling_pin (s, p)->motifs, int, l);
            if (hw_mask_has (HW_MASK_ROW (s->odds->apart, motif, words), (guint)together[1]))
              return TRUE;
          }
      }
  return FALSE;
}

/* A step from one hooping to a later one: by overlap (wish G_MAXUINT) or by a tie. */
typedef struct
{
  guint from, to, wish;
} Step;

static GArray *
list_steps (const HwSettling *s)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (Step));

  for (guint k = 0; k < s->odds->order->steps->len; k++)
    {
      const guint *pair = &g_array_index (s->odds->order->steps, guint, 2 * k);
      Step step = { pair[0], pair[1], G_MAXUINT };

      if (s->pin_of[step.from] == G_MAXUINT || s->pin_of[step.from] != s->pin_of[step.to])
        g_array_append_val (steps, step);
    }
  for (guint wish = s->n_pins; wish < s->n_wishes; wish++)
    if (s->active[wish])
      {
        HwTie tie = hw_settling_tie (s, wish);
        Step step = { tie.first, tie.second, wish };

        if (step.from == step.to || s->pin_of[step.from] == G_MAXUINT
            || s->pin_of[step.from] != s->pin_of[step.to])
          g_array_append_val (steps, step);
      }
  return steps;
}

static guint
hooping_of (const HwSettling *s, guint k)
{
  return s->pin_of[k] != G_MAXUINT ? s->n + s->pin_of[k] : k;
}

/* Whether the steps go round a loop: hoopings that wait for nothing are taken away until none is left. */
static gboolean
goes_round (const HwSettling *s, const GArray *steps)
{
  const guint n = s->n + s->n_pins;
  g_autofree guint *waits = g_new0 (guint, n + 1);
  g_autofree guint *first = g_new0 (guint, n + 2);
  g_autofree guint *next = g_new (guint, steps->len + 1);
  g_autofree guint *ready = g_new (guint, n + 1);
  guint n_ready = 0;

  for (guint k = 0; k < steps->len; k++)
    {
      first[hooping_of (s, g_array_index (steps, Step, k).from) + 1]++;
      waits[hooping_of (s, g_array_index (steps, Step, k).to)]++;
    }
  for (guint k = 0; k < n; k++)
    first[k + 1] += first[k];
  for (guint k = 0; k < steps->len; k++)
    next[--first[hooping_of (s, g_array_index (steps, Step, k).from) + 1]]
        = hooping_of (s, g_array_index (steps, Step, k).to);
  for (guint k = 0; k < n; k++) /* first[k + 1] is now where k's own begin */
    if (waits[k] == 0)
      ready[n_ready++] = k;
  for (guint at = 0; at < n_ready; at++)
    for (guint e = first[ready[at] + 1]; e < (ready[at] + 1 < n ? first[ready[at] + 2] : steps->len); e++)
      if (--waits[next[e]] == 0)
        ready[n_ready++] = next[e];
  return n_ready < n;
}

/* The way from one motif to another that uses fewest wishes: steps by overlap cost nothing, ties and passing through a pin 1 each. Walked in
 * rounds of equal cost. came: the motif before each. */
static guint
find_way (HwSettling *s, const GArray *steps, guint from, guint to, guint *cost, guint *came)
{
  gboolean more = TRUE;

  for (guint k = 0; k < s->n; k++)
    cost[k] = G_MAXUINT;
  cost[from] = 0;
  came[from] = from;
  while (more)
    {
      more = FALSE;
      s->walked += steps->len;
      for (guint e = 0; e < steps->len; e++)
        {
          const Step *step = &g_array_index (steps, Step, e);
          guint there
              = cost[step->from] != G_MAXUINT ? cost[step->from] + (step->wish != G_MAXUINT) : G_MAXUINT;

          if (there >= cost[step->to])
            continue;
          cost[step->to] = there;
          came[step->to] = step->from;
          more = TRUE;
        }
      for (guint p = 0; p < s->n_pins; p++)
        {
          const GArray *motifs = hw_settling_pin (s, p)->motifs;
          guint least = G_MAXUINT, door = 0;

          for (guint k = 0; k < motifs->len && s->active[p]; k++)
            {
              guint m = s->odds->planned[g_array_index (motifs, guint, k)];

              if (cost[m] < least)
                {
                  least = cost[m];
                  door = m;
                }
            }
          for (guint k = 0; k < motifs->len && least != G_MAXUINT; k++)
            {
              guint m = s->odds->planned[g_array_index (motifs, guint, k)];

              if (cost[m] != G_MAXUINT && cost[m] <= least + 1)
                continue;
              cost[m] = least + 1;
              came[m] = door;
              more = TRUE;
            }
        }
    }
  return cost[to];
}

/* The loop with fewest wishes, first motif to first motif again. */
static GArray *
find_loop (HwSettling *s, const GArray *steps)
{
  g_autofree guint *cost = g_new (guint, s->n + 1);
  g_autofree guint *came = g_new (guint, s->n + 1);
  GArray *way = g_array_new (FALSE, FALSE, sizeof (guint));
  guint fewest = G_MAXUINT;

  for (guint e = 0; e < steps->len && fewest > 1; e++)
    {
      Step step = g_array_index (steps, Step, e);
      guint n;

      if (fewest != G_MAXUINT && s->walked > MOST_WALKED)
        break;

      if (step.wish == G_MAXUINT && s->pin_of[step.from] == G_MAXUINT)
        continue; /* a loop has a tie or passes through a pin */
      n = find_way (s, steps, step.to, step.from, cost, came);
      if (n == G_MAXUINT || n + (step.wish != G_MAXUINT) >= fewest)
        continue;
      fewest = n + (step.wish != G_MAXUINT);
      g_array_set_size (way, 0);
      for (guint at = step.from;; at = came[at])
        {
          g_array_prepend_val (way, at);
          if (at == step.to)
            break;
        }
      g_array_prepend_val (way, step.from);
    }
  return way;
}

/* The wish that leads from one motif of a loop to the next, or G_MAXUINT for an overlap. */
static guint
wish_between (const HwSettling *s, const GArray *steps, guint from, guint to)
{
  guint wish = s->pin_of[from] != G_MAXUINT && s->pin_of[from] == s->pin_of[to] && from != to
                   ? s->pin_of[from]
                   : G_MAXUINT;

  for (guint e = 0; e < steps->len; e++)
    {
      const Step *step = &g_array_index (steps, Step, e);

      if (step->from == from && step->to == to)
        {
          if (step->wish == G_MAXUINT)
            return G_MAXUINT;
          wish = step->wish;
        }
    }
  return wish;
}

static gboolean
contradict (HwSettling *s)
{
  guint wishes[2];
  int together[2];
  g_autoptr (GArray) steps = NULL;

  if (pins_clash (s, wishes, together))
    return TRUE;
  steps = list_steps (s);
  return goes_round (s, steps);
}

static void
add_wish (GArray *wishes, guint wish)
{
  for (guint k = 0; k < wishes->len; k++)
    if (g_array_index (wishes, guint, k) == wish)
      return;
  g_array_append_val (wishes, wish);
}

/* Some contradiction among the active wishes, or NULL. */
static HwContradiction *
look (HwSettling *s)
{
  HwContradiction *found = g_new0 (HwContradiction, 1);
  guint clash[2];

  found->wishes = g_array_new (FALSE, FALSE, sizeof (guint));
  found->way = g_array_new (FALSE, FALSE, sizeof (guint));
  if (pins_clash (s, clash, found->together))
    {
      add_wish (found->wishes, clash[0]);
      add_wish (found->wishes, clash[1]);
      return found;
    }
  else
    {
      g_autoptr (GArray) steps = list_steps (s);

      found->together[0] = found->together[1] = -1;
      if (goes_round (s, steps))
        {
          g_array_unref (found->way);
          found->way = find_loop (s, steps);
        }
      for (guint k = 0; k + 1 < found->way->len; k++)
        {
          guint wish = wish_between (s, steps, g_array_index (found->way, guint, k),
                                     g_array_index (found->way, guint, k + 1));

          if (wish != G_MAXUINT)
            add_wish (found->wishes, wish);
        }
    }
  if (found->wishes->len > 0)
    return found;
  contradiction_free (found);
  return NULL;
}

/* Pins rather than ties, the later first. */
static int
compare_readiness (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const HwSettling *s = data;
  guint a = *(const guint *)pa, b = *(const guint *)pb;

  if ((a < s->n_pins) != (b < s->n_pins))
    return a < s->n_pins ? -1 : 1;
  return a > b ? -1 : a < b;
}

/* The contradiction with every wish taken out that it does not need. */
static HwContradiction *
make_smallest (HwSettling *s, HwContradiction *found)
{
  HwContradiction *smallest;

  for (guint wish = 0; wish < s->n_wishes; wish++)
    s->active[wish] = FALSE;
  for (guint k = 0; k < found->wishes->len; k++)
    s->active[g_array_index (found->wishes, guint, k)] = TRUE;
  for (guint k = 0; k < found->wishes->len; k++)
    {
      guint wish = g_array_index (found->wishes, guint, k);

      s->active[wish] = FALSE;
      s->active[wish] = !contradict (s);
    }
  smallest = look (s);
  if (smallest == NULL)
    smallest = g_steal_pointer (&found);
  g_clear_pointer (&found, contradiction_free);
  g_array_sort_with_data (smallest->wishes, compare_readiness, s);
  return smallest;
}

/* Whether leaving out `most` more wishes meets every contradiction from the k-th on. */
static gboolean
meet_all (HwSettling *s, guint most)
{
  const HwContradiction *unmet = NULL;

  for (guint k = 0; k < s->found->len && unmet == NULL; k++)
    {
      const HwContradiction *one = g_ptr_array_index (s->found, k);
      gboolean met = FALSE;

      for (guint w = 0; w < one->wishes->len; w++)
        met |= s->out[g_array_index (one->wishes, guint, w)];
      if (!met)
        unmet = one;
    }
  if (unmet == NULL)
    return TRUE;
  if (most == 0 || ++s->looks > MOST_LOOKS)
    return FALSE;
  for (guint w = 0; w < unmet->wishes->len; w++)
    {
      guint wish = g_array_index (unmet->wishes, guint, w);

      s->out[wish] = TRUE;
      if (meet_all (s, most - 1))
        return TRUE;
      s->out[wish] = FALSE;
    }
  return FALSE;
}

static void
choose_out (HwSettling *s)
{
  memset (s->out, 0, s->n_wishes * sizeof (gboolean));
  s->looks = 0;
  for (guint most = 1; most <= s->n_wishes && s->looks <= MOST_LOOKS; most++)
    if (meet_all (s, most))
      return;
  for (guint k = 0; k < s->found->len; k++) /* too many to find the fewest: one of each */
    s->out[g_array_index (((HwContradiction *)g_ptr_array_index (s->found, k))->wishes, guint, 0)] = TRUE;
}

void
hw_contradictions_settle (const HwWishesAtOdds *odds, gboolean *pin_out, gboolean *tie_out, HwPlan *plan)
{
  const guint n_wishes = odds->pins->len + odds->ties->len;
  g_autofree gboolean *active = g_new (gboolean, n_wishes + 1);
  g_autofree gboolean *out = g_new0 (gboolean, n_wishes + 1);
  g_autofree guint *pin_of = g_new (guint, odds->order->n + 1);
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func (contradiction_free);
  HwSettling s = { odds, odds->order->n, odds->pins->len, n_wishes, active, pin_of, found, out, 0, 0 };

  if (n_wishes == 0)
    return;
  for (guint round = 0;; round++)
    {
      HwContradiction *one;

      for (guint wish = 0; wish < n_wishes; wish++)
        active[wish] = !out[wish];
      one = look (&s);
      if (one == NULL)
        break;
      one = make_smallest (&s, one);
      g_ptr_array_add (found, one);
      if (round < MOST_ROUNDS)
        choose_out (&s);
      else
        out[g_array_index (one->wishes, guint, 0)] = TRUE;
    }
  for (guint wish = 0; wish < n_wishes; wish++)
    {
      if (out[wish] && wish < odds->pins->len)
        pin_out[wish] = TRUE;
      else if (out[wish] && tie_out != NULL)
        tie_out[wish - odds->pins->len] = TRUE;
      if (out[wish] && plan != NULL && (wish < odds->pins->len || tie_out != NULL))
        hw_settling_tell (&s, wish, plan);
    }
}

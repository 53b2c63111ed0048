/* Why a hooping comes where it comes among the others, and why it did not join one of them. Two hoopings could be one only if a field takes them
 * together with all that must be stitched between them. */
#include <math.h>

#include "explain-private.h"
#include "../geometry/language.h"

#define MOST_NEAR 8   /* hoopings looked at, the nearest */
#define MOST_GUESTS 3 /* motifs of other hoopings that would also fit */

static const HwHooping *
hooping_at (const HwExplaining *ex, guint hooping)
{
  return &ex->plan->hoopings[hooping];
}

/* A pair of motifs, one of each hooping, that forces a before b; the one with the shortest reason. */
static gboolean
forcing_pair (const HwExplaining *ex, guint a, guint b, guint pair[2])
{
  const HwHooping *first = hooping_at (ex, a), *second = hooping_at (ex, b);
  gboolean found = FALSE;

  for (guint i = 0; i < first->n_motifs; i++)
    for (guint j = 0; j < second->n_motifs; j++)
      {
        guint x = first->motifs[i], y = second->motifs[j];

        if (!hw_explaining_before (ex, x, y))
          continue;
        if (!found)
          {
            pair[0] = x;
            pair[1] = y;
            found = TRUE;
          }
        if (x < y && hw_overlaps_ask (NULL, &ex->placed[x], &ex->placed[y]))
          {
            pair[0] = x;
            pair[1] = y;
            return TRUE;
          }
      }
  return found;
}

static void
add_why_after (GString *text, const HwExplaining *ex, guint hooping)
{
  guint pair[2], first = 0;
  g_autofree char *order = NULL;

  while (hooping_at (ex, first)->hold == HW_PLACE_FROZEN)
    first++;
  for (guint before = hooping; before-- > first;)
    if (forcing_pair (ex, before, hooping, pair))
      {
        order = hw_explaining_order_text (ex, pair[0], pair[1]);
        g_string_append_printf (text, _ ("Place: after hooping %u, because %s."), before + 1, order);
        if (before + 1 < hooping)
          g_string_append_printf (text, _ (" Hooping %u need not come before it.\n"), hooping);
        else
          g_string_append (text, "\n");
        return;
      }
  g_string_append (text, hooping == first
                             ? _ ("Place: first, for nothing has to be stitched before it.\n")
                             : _ ("Place: nothing has to be stitched before it; it could come earlier.\n"));
}

typedef struct
{
  guint hooping;
  double distance;
} Near;

static int
compare_near (gconstpointer pa, gconstpointer pb)
{
  const Near *a = pa, *b = pb;

  if (a->distance != b->distance)
    return a->distance < b->distance ? -1 : 1;
  return a->hooping < b->hooping ? -1 : 1;
}

static HwBox
box_of (const HwExplaining *ex, guint hooping)
{
  HwBox box = HW_BOX_EMPTY;

  for (guint k = 0; k < hooping_at (ex, hooping)->n_motifs; k++)
    box = hw_box_union (box, ex->placed[hooping_at (ex, hooping)->motifs[k]].outline->box);
  return box;
}

/* The free hoopings nearest to the hooping, by the size of what the two would have to take in. Returns: (transfer full) (element-type Near) */
static GArray *
find_near (const HwExplaining *ex, guint hooping)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Near));
  HwBox own = box_of (ex, hooping);

  for (guint h = 0; h < ex->plan->n_hoopings; h++)
    {
      HwBox both = hw_box_union (own, box_of (ex, h));
      Near other = { h, hypot (both.x1 - both.x0, both.y1 - both.y0) };

      if (h != hooping && hooping_at (ex, h)->hold == HW_PLACE_FREE)
        g_array_append_val (found, other);
    }
  g_array_sort (found, compare_near);
  if (found->len > MOST_NEAR)
    g_array_set_size (found, MOST_NEAR);
  return found;
}

/* The motifs of both hoopings. Returns: (transfer full) (element-type guint) */
static GArray *
both_of (const HwExplaining *ex, guint a, guint b)
{
  GArray *both = g_array_new (FALSE, FALSE, sizeof (guint));

  g_array_append_vals (both, hooping_at (ex, a)->motifs, hooping_at (ex, a)->n_motifs);
  g_array_append_vals (both, hooping_at (ex, b)->motifs, hooping_at (ex, b)->n_motifs);
  return both;
}

/* A hooping that has to come after the first and before the second, by way of others too; or -1. */
static int
hooping_between (const HwExplaining *ex, guint first, guint second)
{
  g_autofree gboolean *after = g_new0 (gboolean, ex->plan->n_hoopings + 1);
  guint pair[2];

  for (guint h = first + 1; h < second; h++)
    for (guint from = first; from < h && !after[h]; from++)
      after[h] = (from == first || after[from]) && forcing_pair (ex, from, h, pair);
  for (guint h = second; h-- > first + 1;)
    if (after[h] && forcing_pair (ex, h, second, pair))
      return (int)h;
  return -1;
}

static void
add_not_joined (GString *text, const HwExplaining *ex, guint hooping, guint other)
{
  g_autoptr (GArray) both = both_of (ex, hooping, other), between = NULL, hull = NULL;
  g_autofree char *names = NULL, *needs = NULL;
  guint first = MIN (hooping, other), second = MAX (hooping, other), apart[2];
  int middle;

  if (hw_explaining_apart (ex, (const guint *)both->data, both->len, apart))
    {
      names = hw_explaining_apart_text (ex, apart);
      g_string_append_printf (text, _ ("Could not be one with hooping %u: %s.\n"), other + 1, names);
      return;
    }
  hull = hw_explaining_hull (ex, (const guint *)both->data, both->len);
  if (!hw_explaining_fits (ex, hull))
    {
      needs = hw_explaining_needs_text (ex, hull);
      g_string_append_printf (text, _ ("Could not be one with hooping %u: the two %s.\n"), other + 1, needs);
      return;
    }
  between = hw_explaining_between (ex, (const guint *)both->data, both->len);
  if (between->len > 0)
    {
      names = hw_explaining_names (ex, (const guint *)between->data, between->len);
      g_string_append_printf (text,
                              ngettext ("Could not be one with hooping %u: %s has to come between.\n",
                                        "Could not be one with hooping %u: %s have to come between.\n",
                                        between->len),
                              other + 1, names);
      return;
    }
  middle = hooping_between (ex, first, second);
  if (middle >= 0)
    g_string_append_printf (text, _ ("Could not be one with hooping %u: hooping %d has to come between.\n"),
                            other + 1, middle + 1);
  else
    g_string_append_printf (
        text, _ ("With hooping %u it would fit in one field; this plan keeps the two apart.\n"), other + 1);
}

/* The nearest neighbour by what is missing. */
static void
add_nearest (GString *text, const HwExplaining *ex, guint hooping, const GArray *near_ones)
{
  double least = INFINITY;
  int nearest = -1;

  for (guint k = 0; k < near_ones->len; k++)
    {
      guint other = g_array_index (near_ones, Near, k).hooping;
      g_autoptr (GArray) both = both_of (ex, hooping, other);
      g_autoptr (GArray) hull = hw_explaining_hull (ex, (const guint *)both->data, both->len);
      double miss = hw_explaining_miss (ex, hull);

      if (miss < least)
        {
          least = miss;
          nearest = (int)other;
        }
    }
  if (nearest >= 0)
    add_not_joined (text, ex, hooping, (guint)nearest);
}

/* Whether the motif of another hooping could be stitched in this one with all the others as they are. */
static gboolean
could_come_here (const HwExplaining *ex, guint motif, guint hooping)
{
  const HwHooping *here = hooping_at (ex, hooping);
  g_autofree guint *set = g_new (guint, here->n_motifs + 1);
  g_autoptr (GArray) hull = NULL;
  guint apart[2];

  memcpy (set, here->motifs, here->n_motifs * sizeof (guint));
  set[here->n_motifs] = motif;
  for (guint k = 0; k < ex->order->n; k++)
    {
      guint other = ex->motif[k];

      if ((hw_explaining_before (ex, other, motif) && ex->hooping_of[other] > hooping)
          || (hw_explaining_before (ex, motif, other) && ex->hooping_of[other] < hooping))
        return FALSE;
    }
  if (hw_explaining_apart (ex, set, here->n_motifs + 1, apart))
    return FALSE;
  hull = hw_explaining_hull (ex, set, here->n_motifs + 1);
  return hw_explaining_fits (ex, hull);
}

static void
add_guests (GString *text, const HwExplaining *ex, guint hooping, const GArray *near_ones)
{
  guint guests[MOST_GUESTS], n = 0;
  g_autofree char *names = NULL;

  for (guint k = 0; k < near_ones->len; k++)
    {
      const HwHooping *other = hooping_at (ex, g_array_index (near_ones, Near, k).hooping);

      for (guint m = 0; other->n_motifs > 1 && m < other->n_motifs && n < MOST_GUESTS; m++)
        if (could_come_here (ex, other->motifs[m], hooping))
          guests[n++] = other->motifs[m];
    }
  if (n == 0)
    return;
  names = hw_explaining_names (ex, guests, n);
  g_string_append_printf (text,
                          ngettext ("%s would fit here too, but that saves no hooping.\n",
                                    "%s would each fit here too, but that saves no hooping.\n", n),
                          names);
}

void
hw_explain_add_neighbours (GString *text, const HwExplaining *ex, guint hooping)
{
  g_autoptr (GArray) near_ones = NULL;

  if (hooping_at (ex, hooping)->hold == HW_PLACE_FROZEN)
    return;
  add_why_after (text, ex, hooping);
  if (hooping_at (ex, hooping)->hold != HW_PLACE_FREE)
    return;
  near_ones = find_near (ex, hooping);
  add_nearest (text, ex, hooping, near_ones);
  add_guests (text, ex, hooping, near_ones);
}

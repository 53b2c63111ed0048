/* Sorting a scene out before the search. Stitched hoopings come first and are left alone; motifs no hoop can take are named and set aside; pins
 * are kept where they can be. */
#include "held-private.h"

#include <stdlib.h>

#include "parts-order.h"
#include "problems.h"
#include "turns.h"
#include "../geometry/language.h"

static void
one_held_free (gpointer data)
{
  HwHeld *one = data;

  g_array_unref (one->motifs);
  g_clear_pointer (&one->steps, g_array_unref);
  g_free (one);
}

static int
find_motif (const HwHeldFast *held, const char *id)
{
  return GPOINTER_TO_INT (g_hash_table_lookup (held->index_of, id)) - 1;
}

/* The motifs a pin names that are in the scene and not stitched yet, each once. */
static HwHeld *
read_pin (const HwHeldFast *held, const HwPin *pin, const gboolean *stitched)
{
  HwHeld *one = g_new0 (HwHeld, 1);

  one->pin = pin;
  one->motifs = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint k = 0; pin->motifs != NULL && pin->motifs[k] != NULL; k++)
    {
      int motif = find_motif (held, pin->motifs[k]);
      gboolean again = FALSE;

      for (guint l = 0; l < one->motifs->len; l++)
        again |= g_array_index (one->motifs, int, l) == motif;
      if (motif >= 0 && !stitched[motif] && !again)
        g_array_append_val (one->motifs, motif);
    }
  return one;
}

static void
read_turns (const HwHeldFast *held, HwHeld *one)
{
  one->steps = hw_turns_read (held->snapshot, one->pin, (const guint *)(const void *)one->motifs->data,
                              one->motifs->len);
}

static void
take_frozen (HwHeldFast *held, HwPlan *plan)
{
  const HwSnapshot *snapshot = held->snapshot;

  for (guint i = 0; i < snapshot->frozen->len && snapshot->hoops->len > 0; i++)
    {
      HwHeld *one = read_pin (held, g_ptr_array_index (snapshot->frozen, i), held->out);
      int hoop = one->pin->hoop != NULL ? hw_snapshot_find_hoop (snapshot, one->pin->hoop) : -1;

      for (guint k = 0; k < one->motifs->len; k++)
        held->out[g_array_index (one->motifs, guint, k)] = TRUE;
      if (one->motifs->len == 0)
        {
          one_held_free (one);
          continue;
        }
      if (hoop < 0)
        hw_plan_add_problem (
            plan, HW_PROBLEM_PIN, g_array_index (one->motifs, guint, 0), FALSE,
            g_strdup_printf (_ ("Stitched hooping %u was made with a hoop that is no longer in the scene."),
                             held->frozen->len + 1));
      one->hoop = MAX (hoop, 0);
      read_turns (held, one);
      g_ptr_array_add (held->frozen, one);
    }
}

/* The items after which every item comes right behind all it waits for; fewer than all when the pins make a loop. */
static guint
sort_items (const HwHeldFast *held, const guint *first_step, const guint *steps, guint *waits, guint *sorted)
{
  guint n = 0;

  for (guint k = 0; k < held->n_items; k++)
    if (waits[k] == 0)
      sorted[n++] = k;
  for (guint at = 0; at < n; at++)
    for (guint s = first_step[sorted[at]]; s < first_step[sorted[at] + 1]; s++)
      if (--waits[steps[s]] == 0)
        sorted[n++] = steps[s];
  return n;
}

/* Makes the order over items; FALSE when the pins make a loop. */
static gboolean
join_items (HwHeldFast *held)
{
  guint n = held->n_items, words = HW_MASK_WORDS (n), n_steps = held->order->steps->len, sorted_n;
  const guint *pairs = (const guint *)held->order->steps->data;
  g_autofree guint *first_step = g_new0 (guint, n + 2);
  g_autofree guint *steps = g_new (guint, n_steps + 1);
  g_autofree guint *waits = g_new0 (guint, n + 1);
  g_autofree guint *sorted = g_new (guint, n + 1);

  for (guint s = 0; s < n_steps; s++)
    if (held->item_of[pairs[2 * s]] != held->item_of[pairs[2 * s + 1]])
      first_step[held->item_of[pairs[2 * s]] + 2]++;
  for (guint k = 2; k < n + 2; k++)
    first_step[k] += first_step[k - 1];
  for (guint s = 0; s < n_steps; s++)
    if (held->item_of[pairs[2 * s]] != held->item_of[pairs[2 * s + 1]])
      {
        steps[first_step[held->item_of[pairs[2 * s]] + 1]++] = held->item_of[pairs[2 * s + 1]];
        waits[held->item_of[pairs[2 * s + 1]]]++;
      }
  sorted_n = sort_items (held, first_step, steps, waits, sorted);

  g_free (held->items_before);
  held->items_before = g_new0 (guint64, (gsize)MAX (n, 1) * words);
  for (guint at = 0; at < sorted_n; at++)
    for (guint s = first_step[sorted[at]]; s < first_step[sorted[at] + 1]; s++)
      {
        guint64 *row = HW_MASK_ROW (held->items_before, steps[s], words);

        hw_mask_join (row, HW_MASK_ROW (held->items_before, sorted[at], words), words);
        hw_mask_add (row, sorted[at]);
      }
  return sorted_n == n;
}

typedef struct
{
  int strip;
  double x;
  guint k;
} Stand;

static int
compare_stands (const void *pa, const void *pb)
{
  const Stand *a = pa, *b = pb;

  if (a->strip != b->strip)
    return a->strip < b->strip ? -1 : 1;
  if (a->x != b->x)
    return a->x < b->x ? -1 : 1;
  return a->k < b->k ? -1 : 1;
}

/* Very many motifs are numbered strip by strip over the cloth, so that neighbours in number are neighbours on the cloth. */
static void
walk_in_strips (HwHeldFast *held)
{
  g_autofree Stand *stands = g_new (Stand, held->n + 1);
  double high = 0;

  for (guint i = 0; i < held->snapshot->hoops->len; i++)
    high = MAX (high, MIN (hw_snapshot_hoop (held->snapshot, i)->field_height,
                           hw_snapshot_hoop (held->snapshot, i)->field_width));
  for (guint k = 0; k < held->n; k++)
    {
      HwBox box = held->placed[held->motif[k]].outline->box;

      stands[k] = (Stand){ (int)CLAMP ((box.y0 + box.y1) / 2 / MAX (high, 1), -1e6, 1e6),
                           (box.x0 + box.x1) / 2, k };
    }
  qsort (stands, held->n, sizeof *stands, compare_stands);
  for (guint k = 0; k < held->n; k++)
    held->walk[k] = stands[k].k;
}

/* Numbers the items: each pin one, each free motif one. */
static void
number_items (HwHeldFast *held)
{
  g_autofree guint *item_of_pin = g_new (guint, held->pins->len + 1);

  for (guint p = 0; p < held->pins->len; p++)
    item_of_pin[p] = G_MAXUINT;
  held->n_items = 0;
  for (guint w = 0; w < held->n; w++)
    {
      guint k = held->walk[w], pin = held->pin_of[k];

      if (pin != G_MAXUINT && item_of_pin[pin] != G_MAXUINT)
        {
          held->item_of[k] = item_of_pin[pin];
          continue;
        }
      if (pin != G_MAXUINT)
        item_of_pin[pin] = held->n_items;
      held->first_of[held->n_items] = k;
      held->item_of[k] = held->n_items++;
    }
}

/* Whether the motifs lie in the pinned hoop where the pin says. */
static gboolean
lies_in_pin (const HwHeldFast *held, HwSetFit *fit, const HwHeld *one)
{
  HwHoopChoice choice
      = { .hoop = one->hoop, .pose = { .centre = one->pin->centre, .angle = one->pin->angle } };
  g_autoptr (GArray) liked = g_array_new (FALSE, FALSE, sizeof (double));
  guint n_hull;
  const HwPoint *hull = hw_set_fit_hull (fit, (const guint *)one->motifs->data, one->motifs->len, &n_hull);

  return hw_hoop_suits (held->snapshot, hull, n_hull, liked, &choice);
}

char *
hw_held_names (const HwSnapshot *snapshot, const GArray *motifs)
{
  const char *names[2] = { NULL, NULL };
  guint others = motifs->len > 2 ? motifs->len - 2 : 0;

  for (guint k = 0; k < MIN (motifs->len, 2); k++)
    names[k] = hw_snapshot_motif (snapshot, g_array_index (motifs, guint, k))->name;
  if (motifs->len < 2)
    return g_strdup (names[0]);
  if (others == 0)
    return g_strdup_printf (_ ("%s and %s"), names[0], names[1]);
  return g_strdup_printf (ngettext ("%s, %s and %u other", "%s, %s and %u others", others), names[0],
                          names[1], others);
}

/* Why a pin cannot be kept, whatever the others; NULL when it can. */
static char *
refuse_pin (const HwHeldFast *held, HwSetFit *fit, HwHeld *one)
{
  g_autofree char *names = hw_held_names (held->snapshot, one->motifs);
  int hoop = one->pin->hoop != NULL ? hw_snapshot_find_hoop (held->snapshot, one->pin->hoop) : -1;
  HwHoopChoice choice;
  guint n_hull;
  const HwPoint *hull;

  one->hoop = MAX (hoop, 0);
  if (one->pin->keep == HW_KEEP_ALL)
    {
      if (hoop < 0)
        return g_strdup_printf (_ ("The pinned hooping with %s names a hoop that is no longer in the scene."),
                                names);
      if (!lies_in_pin (held, fit, one))
        return g_strdup_printf (
            _ ("The pinned hooping with %s no longer takes all its motifs where it is pinned."), names);
      return NULL;
    }
  if (!hw_set_fit_ask (fit, (const guint *)one->motifs->data, one->motifs->len))
    return g_strdup_printf (
        _ ("The motifs of the hooping with %s, which are to be kept together, fit no hoop in use."), names);
  hull = hw_set_fit_hull (fit, (const guint *)one->motifs->data, one->motifs->len, &n_hull);
  if (one->pin->keep == HW_KEEP_GRAIN && !hw_hoop_choose_along_grain (held->snapshot, hull, n_hull, &choice))
    return g_strdup_printf (_ ("The hooping with %s cannot lie along the grain: no hoop in use takes its "
                               "motifs at 0 or 90 degrees."),
                            names);
  return NULL;
}

/* The pins that can be kept each by itself; the others are named. Returns: (transfer full) (element-type HwHeld) */
static GPtrArray *
read_pins (const HwHeldFast *held, HwPlan *plan, HwSetFit *fit)
{
  GPtrArray *pins = g_ptr_array_new_with_free_func (one_held_free);

  for (guint p = 0; p < held->snapshot->pins->len; p++)
    {
      HwHeld *one = read_pin (held, g_ptr_array_index (held->snapshot->pins, p), held->out);
      char *trouble = one->motifs->len > 0 ? refuse_pin (held, fit, one) : NULL;

      if (hw_held_is_begun (one))
        read_turns (held, one);
      if (trouble != NULL)
        hw_plan_add_problem (plan, HW_PROBLEM_PIN, g_array_index (one->motifs, int, 0), FALSE, trouble);
      if (trouble == NULL && one->motifs->len > 0)
        g_ptr_array_add (pins, one);
      else
        one_held_free (one);
    }
  return pins;
}

static void
take_pins (HwHeldFast *held, const GPtrArray *pins, const guint *planned)
{
  for (guint p = 0; p < pins->len; p++)
    {
      const GArray *motifs = ((const HwHeld *)g_ptr_array_index (pins, p))->motifs;

      for (guint k = 0; k < motifs->len; k++)
        held->pin_of[planned[g_array_index (motifs, guint, k)]] = p;
    }
  number_items (held);
  if (held->pins->len > 0 || held->n > HW_HELD_WALK)
    {
      gboolean good = join_items (held);

      g_assert (good);
      return;
    }
  held->items_before = held->order->before;
}

static void
read_apart (HwHeldFast *held)
{
  const HwSnapshot *snapshot = held->snapshot;
  const guint words = HW_MASK_WORDS (snapshot->motifs->len);

  if (snapshot->apart == NULL || snapshot->apart->len == 0)
    return;
  held->apart = g_new0 (guint64, (gsize)MAX (snapshot->motifs->len, 1) * words);
  for (guint k = 0; k < snapshot->apart->len; k++)
    {
      const HwApart *pair = g_ptr_array_index (snapshot->apart, k);
      int a = find_motif (held, pair->first), b = find_motif (held, pair->second);

      if (a < 0 || b < 0 || a == b)
        continue;
      hw_mask_add (HW_MASK_ROW (held->apart, a, words), (guint)b);
      hw_mask_add (HW_MASK_ROW (held->apart, b, words), (guint)a);
    }
}

gboolean
hw_held_are_apart (const HwHeldFast *held, guint a, guint b)
{
  return held->apart != NULL
         && hw_mask_has (HW_MASK_ROW (held->apart, a, HW_MASK_WORDS (held->snapshot->motifs->len)), b);
}

gboolean
hw_held_lets_join (const HwHeldFast *held, const guint *set, guint n)
{
  if (held->apart == NULL && held->part == NULL)
    return TRUE;
  for (guint k = 0; k + 1 < n; k++)
    if (hw_held_are_apart (held, set[n - 1], set[k]) || hw_parts_differ (held, set[n - 1], set[k]))
      return FALSE;
  return TRUE;
}

static gboolean
has_hoop_in_use (const HwSnapshot *snapshot)
{
  for (guint i = 0; i < snapshot->hoops->len; i++)
    if (!hw_snapshot_hoop (snapshot, i)->set_aside)
      return TRUE;
  return FALSE;
}

static void
leave_out (HwHeldFast *held, HwPlan *plan, const guint *planned, HwUnit unit)
{
  gboolean any = has_hoop_in_use (held->snapshot);

  for (guint i = 0; i < held->snapshot->motifs->len; i++)
    if (!held->out[i] && planned[i] == G_MAXUINT)
      {
        held->out[i] = TRUE;
        if (any)
          hw_problems_add_oversize (plan, i, held->placed[i].outline, unit);
      }
}

HwHeldFast *
hw_held_new (HwPlan *plan,
             const HwPlaced *placed,
             HwSetFit *fit,
             HwOverlaps *overlaps,
             HwUnit unit,
             GCancellable *cancellable)
{
  g_autoptr (HwHeldFast) held = g_new0 (HwHeldFast, 1);
  const HwSnapshot *snapshot = plan->snapshot;
  guint n = snapshot->motifs->len;
  g_autofree gboolean *fits = g_new0 (gboolean, n + 1);
  g_autofree guint *planned = g_new (guint, n + 1);

  held->snapshot = snapshot;
  held->placed = placed;
  held->index_of = g_hash_table_new (g_str_hash, g_str_equal);
  held->frozen = g_ptr_array_new_with_free_func (one_held_free);
  held->out = g_new0 (gboolean, n + 1);
  held->motif = g_new (guint, n + 1);
  held->pin_of = g_new (guint, n + 1);
  held->walk = g_new (guint, n + 1);
  held->item_of = g_new (guint, n + 1);
  held->first_of = g_new (guint, n + 1);
  for (guint i = n; i-- > 0;) /* the first of equal ids counts */
    g_hash_table_insert (held->index_of, hw_snapshot_motif (snapshot, i)->id, GUINT_TO_POINTER (i + 1));
  read_apart (held);
  take_frozen (held, plan);
  for (guint i = 0; i < n; i++)
    fits[i] = !held->out[i] && snapshot->hoops->len > 0 && hw_set_fit_ask (fit, &i, 1);
  held->pins = read_pins (held, plan, fit);
  if (!hw_held_settle (held, plan, fits, held->pins, planned, overlaps, cancellable))
    return NULL;
  leave_out (held, plan, planned, unit);
  if (held->n > HW_HELD_WALK)
    walk_in_strips (held);
  take_pins (held, held->pins, planned);
  hw_parts_hold (held, overlaps, plan);
  return g_steal_pointer (&held);
}

void
hw_held_free (HwHeldFast *held)
{
  if (held->order == NULL || held->items_before != held->order->before)
    g_free (held->items_before);
  g_clear_pointer (&held->order, hw_order_free);
  g_hash_table_unref (held->index_of);
  g_ptr_array_unref (held->frozen);
  g_clear_pointer (&held->pins, g_ptr_array_unref);
  g_free (held->out);
  g_free (held->apart);
  g_free (held->part);
  g_free (held->motif);
  g_free (held->pin_of);
  g_free (held->walk);
  g_free (held->item_of);
  g_free (held->first_of);
  g_free (held);
}

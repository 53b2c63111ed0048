/* Sorting a scene out before the search. Stitched hoopings come first and are left alone; motifs no hoop can take are named and set aside;
 * the order of the others is found; ties that contradict it are left out; pins are kept where they can be. */
#include "held.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "problems.h"

static void
one_held_free (gpointer data)
{
  HwHeld *one = data;

  g_array_unref (one->motifs);
  g_free (one);
}

static int
find_motif (const HwHeldFast *held, const char *id)
{
  return GPOINTER_TO_INT (g_hash_table_lookup (held->index_of, id)) - 1;
}

typedef enum
{
  MOTIF_FREE,
  MOTIF_STITCHED, /* a pin may name it: it is passed over */
  MOTIF_OUT,      /* no hoop takes it */
  MOTIF_PINNED
} MotifState;

/* The motifs a pin names that are in the scene and not stitched yet. *lost: one of them is not free. */
static HwHeld *
read_pin (const HwHeldFast *held, const HwPin *pin, const MotifState *states, gboolean *lost)
{
  HwHeld *one = g_new0 (HwHeld, 1);

  one->pin = pin;
  one->motifs = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint k = 0; pin->motifs != NULL && pin->motifs[k] != NULL; k++)
    {
      int motif = find_motif (held, pin->motifs[k]);
      guint index = (guint)motif;

      if (motif < 0 || states[motif] == MOTIF_STITCHED)
        continue;
      *lost |= states[motif] != MOTIF_FREE;
      g_array_append_val (one->motifs, index);
    }
  return one;
}

static void
take_frozen (HwHeldFast *held, HwPlan *plan, MotifState *states)
{
  const HwSnapshot *snapshot = held->snapshot;

  for (guint i = 0; i < snapshot->frozen->len && snapshot->hoops->len > 0; i++)
    {
      gboolean lost = FALSE;
      HwHeld *one = read_pin (held, g_ptr_array_index (snapshot->frozen, i), states, &lost);
      int hoop = one->pin->hoop != NULL ? hw_snapshot_find_hoop (snapshot, one->pin->hoop) : -1;

      for (guint k = 0; k < one->motifs->len; k++)
        {
          held->out[g_array_index (one->motifs, guint, k)] = TRUE;
          states[g_array_index (one->motifs, guint, k)] = MOTIF_STITCHED;
        }
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
      g_ptr_array_add (held->frozen, one);
    }
}

static void
set_aside_oversize (HwHeldFast *held, HwPlan *plan, HwSetFit *fit, MotifState *states, HwUnit unit)
{
  for (guint i = 0; i < held->snapshot->motifs->len; i++)
    if (!held->out[i] && (held->snapshot->hoops->len == 0 || !hw_set_fit_ask (fit, &i, 1)))
      {
        held->out[i] = TRUE;
        states[i] = MOTIF_OUT;
        if (held->snapshot->hoops->len > 0)
          hw_problems_add_oversize (plan, i, held->placed[i].outline, unit);
      }
}

static gboolean
find_order (HwHeldFast *held, HwPlan *plan, HwOverlaps *overlaps, GCancellable *cancellable)
{
  g_autofree HwPlaced *placed = g_new (HwPlaced, held->n + 1);
  g_autofree guint *planned = g_new (guint, held->snapshot->motifs->len + 1);
  g_autoptr (GArray) ties = hw_order_ties (held->snapshot);

  for (guint i = 0; i < held->snapshot->motifs->len; i++)
    planned[i] = G_MAXUINT;
  for (guint k = 0; k < held->n; k++)
    {
      placed[k] = held->placed[held->motif[k]];
      planned[held->motif[k]] = k;
    }
  held->order = hw_order_new (placed, held->n, overlaps, cancellable);
  if (held->order == NULL)
    return FALSE;
  for (guint t = 0; t < ties->len; t++)
    {
      HwTie tie = g_array_index (ties, HwTie, t);
      g_autoptr (GArray) loop = NULL;

      if (planned[tie.first] == G_MAXUINT || planned[tie.second] == G_MAXUINT
          || hw_order_tie (held->order, planned[tie.first], planned[tie.second], &loop))
        continue;
      for (guint k = 0; k < loop->len; k++)
        g_array_index (loop, guint, k) = held->motif[g_array_index (loop, guint, k)];
      hw_problems_add_loop (plan, loop);
    }
  return TRUE;
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

static void
mark_pinned (HwHeldFast *held, const HwHeld *one, const guint *planned, guint pin)
{
  for (guint k = 0; k < one->motifs->len; k++)
    held->pin_of[planned[g_array_index (one->motifs, guint, k)]] = pin;
}

/* Why the pin cannot be kept, or NULL, having taken it. */
static char *
try_pin (HwHeldFast *held, HwSetFit *fit, HwHeld *one, gboolean lost, const guint *planned)
{
  const char *name = hw_snapshot_motif (held->snapshot, g_array_index (one->motifs, guint, 0))->name;
  int hoop = one->pin->hoop != NULL ? hw_snapshot_find_hoop (held->snapshot, one->pin->hoop) : -1;

  if (hoop < 0)
    return g_strdup_printf (_ ("The pinned hooping with %s names a hoop that is no longer in the scene."),
                            name);
  if (lost)
    return g_strdup_printf (
        _ ("The pinned hooping with %s names a motif that is pinned elsewhere or fits no hoop."), name);
  one->hoop = hoop;
  if (!lies_in_pin (held, fit, one))
    return g_strdup_printf (
        _ ("The pinned hooping with %s no longer takes all its motifs where it is pinned."), name);
  mark_pinned (held, one, planned, held->pins->len);
  g_ptr_array_add (held->pins, one);
  number_items (held);
  if (join_items (held))
    return NULL;
  g_ptr_array_steal_index (held->pins, held->pins->len - 1);
  mark_pinned (held, one, planned, G_MAXUINT);
  return g_strdup_printf (
      _ ("The pinned hooping with %s cannot be stitched at one time: something between its "
         "motifs must be stitched elsewhere."),
      name);
}

static void
take_pins (HwHeldFast *held, HwPlan *plan, HwSetFit *fit, MotifState *states)
{
  g_autofree guint *planned = g_new0 (guint, held->snapshot->motifs->len + 1);

  for (guint k = 0; k < held->n; k++)
    planned[held->motif[k]] = k;
  for (guint p = 0; p < held->snapshot->pins->len; p++)
    {
      gboolean lost = FALSE;
      HwHeld *one = read_pin (held, g_ptr_array_index (held->snapshot->pins, p), states, &lost);
      g_autofree char *trouble = NULL;

      if (one->motifs->len > 0)
        trouble = try_pin (held, fit, one, lost, planned);
      if (trouble != NULL)
        hw_plan_add_problem (plan, HW_PROBLEM_PIN, g_array_index (one->motifs, guint, 0), FALSE,
                             g_steal_pointer (&trouble));
      else
        for (guint k = 0; k < one->motifs->len; k++)
          states[g_array_index (one->motifs, guint, k)] = MOTIF_PINNED;
      if (held->pins->len == 0 || g_ptr_array_index (held->pins, held->pins->len - 1) != one)
        one_held_free (one);
    }
  number_items (held);
  if (held->pins->len > 0 || held->n > HW_HELD_WALK)
    {
      join_items (held);
      return;
    }
  g_free (held->items_before);
  held->items_before = held->order->before;
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
  g_autofree MotifState *states = g_new0 (MotifState, n + 1);

  held->snapshot = snapshot;
  held->placed = placed;
  held->index_of = g_hash_table_new (g_str_hash, g_str_equal);
  held->frozen = g_ptr_array_new_with_free_func (one_held_free);
  held->pins = g_ptr_array_new_with_free_func (one_held_free);
  held->out = g_new0 (gboolean, n + 1);
  held->motif = g_new (guint, n + 1);
  held->pin_of = g_new (guint, n + 1);
  held->walk = g_new (guint, n + 1);
  held->item_of = g_new (guint, n + 1);
  held->first_of = g_new (guint, n + 1);
  for (guint i = n; i-- > 0;) /* the first of equal ids counts */
    g_hash_table_insert (held->index_of, hw_snapshot_motif (snapshot, i)->id, GUINT_TO_POINTER (i + 1));
  take_frozen (held, plan, states);
  set_aside_oversize (held, plan, fit, states, unit);
  for (guint i = 0; i < n; i++)
    if (!held->out[i])
      {
        held->motif[held->n] = i;
        held->walk[held->n] = held->n;
        held->pin_of[held->n++] = G_MAXUINT;
      }
  if (held->n > HW_HELD_WALK)
    walk_in_strips (held);
  if (!find_order (held, plan, overlaps, cancellable))
    return NULL;
  take_pins (held, plan, fit, states);
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
  g_ptr_array_unref (held->pins);
  g_free (held->out);
  g_free (held->motif);
  g_free (held->pin_of);
  g_free (held->walk);
  g_free (held->item_of);
  g_free (held->first_of);
  g_free (held);
}

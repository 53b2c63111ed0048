/* Wishes and order together: the order of the planned motifs is found, and ties and pins that contradict it are left out. */
#include "contradictions.h"
#include "held-private.h"
#include "problems.h"

/* The motifs to be planned: those some hoop in use takes, and those that lie in a pinned hooping. */
static void
list_planned (HwHeldFast *held, const gboolean *fits, const GPtrArray *pins, guint *planned)
{
  g_autofree gboolean *carried = g_new0 (gboolean, held->snapshot->motifs->len + 1);

  for (guint p = 0; p < pins->len; p++)
    {
      const GArray *motifs = ((const HwHeld *)g_ptr_array_index (pins, p))->motifs;

      for (guint k = 0; k < motifs->len; k++)
        carried[g_array_index (motifs, guint, k)] = TRUE;
    }
  held->n = 0;
  for (guint i = 0; i < held->snapshot->motifs->len; i++)
    {
      planned[i] = G_MAXUINT;
      if (held->out[i] || !(fits[i] || carried[i]))
        continue;
      planned[i] = held->n;
      held->motif[held->n] = i;
      held->walk[held->n] = held->n;
      held->pin_of[held->n++] = G_MAXUINT;
    }
}

/* Makes the order from overlaps. begun: see hw_order_new(). FALSE when cancelled. */
static gboolean
find_order (HwHeldFast *held, const gboolean *begun, HwOverlaps *overlaps, GCancellable *cancellable)
{
  g_autofree HwPlaced *placed = g_new (HwPlaced, held->n + 1);

  for (guint k = 0; k < held->n; k++)
    placed[k] = held->placed[held->motif[k]];
  g_clear_pointer (&held->order, hw_order_free);
  held->order = hw_order_new (placed, held->n, begun, overlaps, cancellable);
  return held->order != NULL;
}

static GArray *
list_ties (const HwHeldFast *held, const guint *planned)
{
  GArray *ties = hw_order_ties (held->snapshot);

  for (guint t = ties->len; t-- > 0;)
    if (planned[g_array_index (ties, HwTie, t).first] == G_MAXUINT
        || planned[g_array_index (ties, HwTie, t).second] == G_MAXUINT)
      g_array_remove_index (ties, t);
  return ties;
}

/* A pin that is left out although no hoop in use takes one of its motifs: its place among the pins, or -1. */
static int
find_needed (const GPtrArray *pins, const gboolean *pin_out, const gboolean *fits)
{
  for (guint p = 0; p < pins->len; p++)
    {
      const GArray *motifs = ((const HwHeld *)g_ptr_array_index (pins, p))->motifs;

      for (guint k = 0; k < motifs->len && pin_out[p]; k++)
        if (!fits[g_array_index (motifs, guint, k)])
          return (int)p;
    }
  return -1;
}

/* The order of what is in the machine is settled, whatever lies behind what: its motifs come one after the other. FALSE when cancelled. */
static gboolean
keep_begun (HwHeldFast *held,
            const GPtrArray *pins,
            const guint *planned,
            gboolean *begun,
            HwOverlaps *overlaps,
            GCancellable *cancellable)
{
  const HwHeld *one = NULL;

  for (guint p = 0; p < pins->len; p++)
    if (hw_held_is_begun ((const HwHeld *)g_ptr_array_index (pins, p)))
      one = g_ptr_array_index (pins, p);
  if (one == NULL)
    return TRUE;
  for (guint k = 0; k < one->motifs->len; k++)
    begun[planned[g_array_index (one->motifs, guint, k)]] = TRUE;
  if (!find_order (held, begun, overlaps, cancellable))
    return FALSE;
  for (guint k = 1; k < one->motifs->len; k++)
    hw_order_tie (held->order, planned[g_array_index (one->motifs, guint, k - 1)],
                  planned[g_array_index (one->motifs, guint, k)], NULL);
  return TRUE;
}

/* Adds a tie to the order. A loop inside one pinned hooping is only found here. */
static void
take_tie (HwHeldFast *held, const guint *planned, HwTie tie, HwPlan *plan)
{
  g_autoptr (GArray) loop = NULL;

  if (hw_order_tie (held->order, planned[tie.first], planned[tie.second], &loop))
    return;
  for (guint k = 0; k < loop->len; k++)
    g_array_index (loop, guint, k) = held->motif[g_array_index (loop, guint, k)];
  hw_problems_add_loop (plan, loop);
}

static gboolean
within (const gboolean *begun, const guint *planned, HwTie tie)
{
  return begun[planned[tie.first]] && begun[planned[tie.second]];
}

/* Keeps what of ties and pins can be kept. pins is emptied of what cannot. Once more when motifs are lost with a pin, as the order is then
 * another. FALSE when cancelled. */
gboolean
hw_held_settle (HwHeldFast *held,
                HwPlan *plan,
                const gboolean *fits,
                GPtrArray *pins,
                guint *planned,
                HwOverlaps *overlaps,
                GCancellable *cancellable)
{
  for (;;)
    {
      g_autoptr (GArray) ties = NULL;
      g_autofree gboolean *pin_out = g_new0 (gboolean, pins->len + 1);
      g_autofree gboolean *tie_out = NULL, *begun = NULL;
      HwWishesAtOdds odds
          = { .snapshot = held->snapshot, .motif = held->motif, .planned = planned, .pins = pins };
      int needed;

      list_planned (held, fits, pins, planned);
      if (!find_order (held, NULL, overlaps, cancellable))
        return FALSE;
      ties = list_ties (held, planned);
      tie_out = g_new0 (gboolean, ties->len + 1);
      odds.order = held->order;
      odds.ties = ties;
      odds.apart = held->apart;
      hw_contradictions_settle (&odds, pin_out, tie_out, NULL);
      needed = find_needed (pins, pin_out, fits);
      memset (pin_out, 0, pins->len * sizeof (gboolean));
      memset (tie_out, 0, ties->len * sizeof (gboolean));
      hw_contradictions_settle (&odds, pin_out, needed < 0 ? tie_out : NULL, plan);
      for (guint p = pins->len; p-- > 0;)
        if (pin_out[p])
          g_ptr_array_remove_index (pins, p);
      if (needed >= 0)
        continue;
      begun = g_new0 (gboolean, held->n + 1);
      if (!keep_begun (held, pins, planned, begun, overlaps, cancellable))
        return FALSE;
      for (guint t = 0; t < ties->len; t++)
        if (!tie_out[t] && !within (begun, planned, g_array_index (ties, HwTie, t)))
          take_tie (held, planned, g_array_index (ties, HwTie, t), plan);
      return TRUE;
    }
}

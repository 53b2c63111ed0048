/* The planner puts the parts together: what is held fast, the order, the fewest hoopings, the fewest thread changes, a plan. It goes in steps:
 * a first plan at once, a proven or better one when the search is done, then fewer thread changes. The last plan is mended first, so that a
 * small edit leaves what it can as it was; and the plans of a while ago are remembered, so that undo brings back the very plan. */
#include "planner-private.h"
#include "problems.h"
#include "warnings.h"

#define AT_ONCE_US 4000 /* so long the search may go on before the first plan is shown */
#define LEAST_US 50000  /* for fewer thread changes, when the search took all the time */
#define MOST_PROVEN 24  /* motifs up to which the proof may take longer than the time asked for, up to: */
#define PROOF_US 20000000
#define MOST_STATES 200000
#define STATE_BYTES 128 /* of the thread search, with its places in line */
#define MOST_REMEMBERED 200

struct _HwPlanner
{
  HwPlacings *placings;
  HwOverlaps *overlaps;
  HwSetFit *fit;
  HwChoices *choices;
  double turn_step;
  HwDensityMap *density; /* of the last call */
  HwPlan *last;
  GQueue plans; /* Remembered, newest first */
};

typedef struct
{
  HwPlan *plan;
  HwUnit unit;
  double seconds;
  gsize memory;
} Remembered;

HwPlanner *
hw_planner_new (void)
{
  HwPlanner *planner = g_new0 (HwPlanner, 1);

  planner->placings = hw_placings_new ();
  planner->overlaps = hw_overlaps_new ();
  planner->fit = hw_set_fit_new ();
  planner->choices = hw_choices_new ();
  g_queue_init (&planner->plans);
  return planner;
}

static void
remembered_free (gpointer data)
{
  Remembered *remembered = data;

  hw_plan_unref (remembered->plan);
  g_free (remembered);
}

void
hw_planner_free (HwPlanner *planner)
{
  g_return_if_fail (planner != NULL);

  hw_placings_free (planner->placings);
  hw_overlaps_free (planner->overlaps);
  hw_set_fit_free (planner->fit);
  hw_choices_free (planner->choices);
  g_clear_pointer (&planner->density, hw_density_map_unref);
  g_clear_pointer (&planner->last, hw_plan_unref);
  g_queue_clear_full (&planner->plans, remembered_free);
  g_free (planner);
}

static gboolean
same_motifs (const HwSnapshot *a, const HwSnapshot *b)
{
  if (a->motifs->len != b->motifs->len)
    return FALSE;
  for (guint i = 0; i < a->motifs->len; i++)
    {
      const HwMotif *x = hw_snapshot_motif (a, i), *y = hw_snapshot_motif (b, i);

      if (x != y && (x->outline != y->outline || !hw_placement_equal (&x->placement, &y->placement)))
        return FALSE;
    }
  return TRUE;
}

/* The plan made a while ago for a snapshot that was the same but for what no plan depends on, or NULL. */
static HwPlan *
recall (HwPlanner *planner, const HwSnapshot *snapshot, const HwPlanOptions *options)
{
  for (GList *link = planner->plans.head; link != NULL; link = link->next)
    {
      const Remembered *old = link->data;

      if (old->unit == options->unit && old->seconds == options->seconds && old->memory == options->memory
          && same_motifs (old->plan->snapshot, snapshot))
        {
          HwPlan *plan = hw_plan_beside (old->plan, snapshot);

          if (plan != NULL)
            return plan;
        }
    }
  return NULL;
}

static void
remember (HwPlanner *planner, const HwPlan *plan, const HwPlanOptions *options)
{
  Remembered *fresh = g_new0 (Remembered, 1);
  guint most = MOST_REMEMBERED / (1 + plan->snapshot->motifs->len / 100);

  fresh->plan = hw_plan_ref (plan);
  fresh->unit = options->unit;
  fresh->seconds = options->seconds;
  fresh->memory = options->memory;
  g_queue_push_head (&planner->plans, fresh);
  while (planner->plans.length > MAX (most, 2))
    remembered_free (g_queue_pop_tail (&planner->plans));
}

static void
make_last (HwPlanner *planner, const HwPlan *plan)
{
  HwPlan *old = planner->last;

  planner->last = hw_plan_ref (plan);
  g_clear_pointer (&old, hw_plan_unref);
}

/* The sharing question for the search: items of a scene. */
static gboolean
items_may_share (gpointer data, const guint *set, guint n)
{
  const HwPlanning *planning = data;
  const HwHeldFast *held = planning->held;
  guint few[64];
  g_autofree guint *many = n > G_N_ELEMENTS (few) ? g_new (guint, n) : NULL;
  guint *motifs = many != NULL ? many : few;

  if (n == 1)
    return TRUE;
  for (guint k = 0; k < n; k++)
    {
      guint first = held->first_of[set[k]];

      if (held->pin_of[first] != G_MAXUINT)
        return FALSE;
      motifs[k] = held->motif[first];
    }
  return hw_held_lets_join (held, motifs, n) && hw_set_fit_ask (planning->fit, motifs, n);
}

/* The same for free motifs by their number among the planned ones. */
static gboolean
motifs_may_share (gpointer data, const guint *set, guint n)
{
  const HwPlanning *planning = data;
  guint few[64];
  g_autofree guint *many = n > G_N_ELEMENTS (few) ? g_new (guint, n) : NULL;
  guint *motifs = many != NULL ? many : few;

  for (guint k = 0; k < n; k++)
    {
      if (planning->held->pin_of[set[k]] != G_MAXUINT && n > 1)
        return FALSE;
      motifs[k] = planning->held->motif[set[k]];
    }
  return hw_held_lets_join (planning->held, motifs, n) && hw_set_fit_ask (planning->fit, motifs, n);
}

/* The same for block runs, one of each motif. */
static gboolean
runs_may_share (gpointer data, const guint *set, guint n)
{
  const HwPlanning *planning = data;
  g_autofree guint *motifs = g_new (guint, n);

  for (guint k = 0; k < n; k++)
    motifs[k] = g_array_index (planning->runs, HwBlockRun, set[k]).motif;
  return motifs_may_share (data, motifs, n);
}

static void
planning_clear (HwPlanning *planning)
{
  hw_planning_drop_blocks (planning);
  hw_planning_drop_threads (planning);
  g_clear_pointer (&planning->order, hw_thread_order_free);
  g_clear_pointer (&planning->search, hw_search_free);
  g_clear_pointer (&planning->held, hw_held_free);
  g_clear_pointer (&planning->scene, hw_plan_unref);
  g_clear_pointer (&planning->last_hoopings, g_hash_table_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwPlanning, planning_clear)

static gboolean
is_cancelled (const HwPlanning *planning)
{
  return g_cancellable_is_cancelled (planning->cancellable);
}

static void
look_back (HwPlanning *planning)
{
  const HwPlan *last = planning->last;

  planning->last_hoopings = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint h = 0; last != NULL && h < last->n_hoopings; h++)
    for (guint k = 0; k < last->hoopings[h].n_motifs; k++)
      g_hash_table_insert (planning->last_hoopings,
                           hw_snapshot_motif (last->snapshot, last->hoopings[h].motifs[k])->id,
                           GUINT_TO_POINTER (h + 1));
}

gboolean
hw_planning_look (HwPlanning *planning, HwOverlaps *overlaps)
{
  planning->scene = hw_plan_new (planning->snapshot);
  planning->held = hw_held_new (planning->scene, planning->placed, planning->fit, overlaps,
                                planning->options.unit, planning->cancellable);
  if (planning->held == NULL)
    return FALSE;
  hw_problems_add_scene (planning->scene, planning->placings, planning->placed, planning->options.unit);
  hw_problems_add_out_of_order (planning->scene, planning->placed, overlaps);
  hw_problems_add_out_of_turn (planning->scene, planning->held, overlaps);
  return TRUE;
}

/* Sorts out the scene. FALSE when cancelled. */
static gboolean
begin (HwPlanning *planning, HwPlanner *planner)
{
  const HwSnapshot *snapshot = planning->snapshot;

  planning->placed = hw_placings_take (planner->placings, snapshot);
  if (hw_set_fit_begin (planner->fit, snapshot, planning->placed, snapshot->motifs->len)
      || planner->turn_step != snapshot->machine.turn_step)
    hw_choices_forget (planner->choices);
  planner->turn_step = snapshot->machine.turn_step;
  if (!hw_planning_look (planning, planner->overlaps))
    return FALSE;
  look_back (planning);
  return !is_cancelled (planning);
}

static gsize
memory_of (const HwPlanning *planning)
{
  return planning->options.memory > 0 ? planning->options.memory : HW_PLAN_MEMORY;
}

/* A first grouping; the mended last plan when that is as good. FALSE when cancelled. */
static gboolean
begin_search (HwPlanning *planning, HwAgain **again)
{
  const HwHeldFast *held = planning->held;
  HwSearchProblem problem
      = { held->n_items, held->items_before, items_may_share, planning, planning->cancellable };

  planning->search = hw_search_new (&problem);
  if (planning->search == NULL)
    return FALSE;
  hw_search_limit_memory (planning->search, memory_of (planning) / 2);
  if (planning->last != NULL)
    {
      *again = hw_again_new (planning->last, held, planning->fit);
      if ((*again)->works)
        hw_search_offer (planning->search, (*again)->block_of, (*again)->n_blocks);
    }
  return TRUE;
}

/* Puts the motifs into the last plan's order where that works with the grouping. */
static void
order_as_last (HwPlanning *planning, const HwAgain *again)
{
  HwThreadOrder *order = planning->order;
  const guint words = HW_MASK_WORDS (planning->held->n);
  g_autofree guint *sequence = g_memdup2 (order->sequence, (order->n + 1) * sizeof (guint));
  g_autofree guint64 *rest = g_new0 (guint64, words);
  guint changes;

  for (guint b = 0, at = 0; b < order->n_blocks; at = order->ends[b++])
    for (guint i = at + 1; i < order->ends[b]; i++)
      for (guint k = i; k > at && again->rank[sequence[k]] < again->rank[sequence[k - 1]]; k--)
        {
          guint swap = sequence[k];

          sequence[k] = sequence[k - 1];
          sequence[k - 1] = swap;
        }
  for (guint i = 0; i < order->n; i++)
    hw_mask_add (rest, i);
  for (guint i = 0; i < order->n; i++)
    {
      if (hw_mask_meets (HW_MASK_ROW (planning->held->order->before, sequence[i], words), rest, words))
        return;
      hw_mask_remove (rest, sequence[i]);
    }
  changes = hw_thread_order_count (&planning->threads, sequence, order->n);
  if (changes > order->changes)
    return;
  memcpy (order->sequence, sequence, order->n * sizeof (guint));
}

/* From the search's grouping to an order. */
static void
put_in_order (HwPlanning *planning, const HwAgain *again)
{
  const HwHeldFast *held = planning->held;
  const guint *blocks = hw_search_blocks (planning->search);
  g_autofree guint *block_of = g_new (guint, held->n + 1);
  gboolean as_last = again != NULL && again->works && again->n_blocks == hw_search_count (planning->search)
                     && memcmp (again->block_of, blocks, held->n_items * sizeof (guint)) == 0;

  for (guint k = 0; k < held->n; k++)
    block_of[k] = blocks[held->item_of[k]];
  g_clear_pointer (&planning->order, hw_thread_order_free);
  planning->order
      = hw_thread_order_of_grouping (&planning->threads, block_of, hw_search_count (planning->search));
  if (as_last)
    order_as_last (planning, again);
}

/* Shows a plan that may still become better. */
static void
show (HwPlanning *planning, HwPlanner *planner, HwPlanFound found, gpointer data)
{
  g_autoptr (HwPlan) plan = NULL;

  if (found == NULL || is_cancelled (planning))
    return;
  plan = hw_plan_build (planning);
  hw_warnings_keep_dense (plan, planning->last);
  make_last (planner, plan);
  found (plan, data);
}

/* The fewest hoopings, as far as time allows; TRUE in shown when a plan was shown on the way. */
static void
search_on (HwPlanning *planning,
           HwPlanner *planner,
           const HwAgain *again,
           gint64 start,
           HwPlanFound found,
           gpointer data,
           gboolean *shown)
{
  gint64 deadline = start + (gint64)(MIN (planning->options.seconds, 1e6) * G_USEC_PER_SEC);
  gint64 longer = planning->held->n <= MOST_PROVEN ? start + PROOF_US : 0;

  if (hw_search_run (planning->search, MIN (deadline, start + AT_ONCE_US)))
    return;
  put_in_order (planning, again);
  show (planning, planner, found, data);
  *shown = TRUE;
  hw_search_run (planning->search, MAX (deadline, longer));
}

static HwThreadEffort
much_effort (const HwPlanning *planning, gint64 start)
{
  gint64 deadline = start + (gint64)(MIN (planning->options.seconds, 1e6) * G_USEC_PER_SEC);

  return (HwThreadEffort){ 20000, (guint)MIN (MOST_STATES, memory_of (planning) / 8 / STATE_BYTES),
                           MAX (deadline, g_get_monotonic_time () + LEAST_US), planning->cancellable };
}

/* Fewer thread changes: with little effort first, so that a plan can be shown, then in earnest. The second begins where the first began, so
 * that the clock, which only ends the first, does not choose the answer. */
static void
save_changes (HwPlanning *planning,
              HwPlanner *planner,
              const HwAgain *again,
              gint64 start,
              HwPlanFound found,
              gpointer data,
              gboolean shown)
{
  HwThreadEffort little = { 200, 2000, start + 2 * AT_ONCE_US, planning->cancellable };
  HwThreadEffort much;

  hw_thread_order_improve (&planning->threads, planning->order, &little);
  if (planning->order->changes == planning->order->bound)
    return;
  if (!shown || hw_search_bound (planning->search) == hw_search_count (planning->search))
    show (planning, planner, found, data);
  put_in_order (planning, again);
  much = much_effort (planning, start);
  hw_thread_order_improve (&planning->threads, planning->order, &much);
}

/* What hoopings and changes cost at least, by the bounds on their numbers. */
static guint64
least_cost (const HwPlanning *planning, const HwThreadProblem *problem, const HwThreadOrder *order)
{
  guint fewest = hw_search_bound (planning->search);
  guint low = hw_thread_order_low (problem, NULL, problem->start);
  guint64 few = fewest * problem->hooping_cost, more;

  if (order->n_blocks != fewest)
    return few + low * problem->change_cost;
  more = few + problem->hooping_cost + low * problem->change_cost;
  return MIN (few + order->bound * problem->change_cost, more);
}

/* The last plan's hoopings, when they take no more time: so that plans do not change among equals. */
static void
keep_last (HwPlanning *planning, const HwAgain *again)
{
  g_autofree guint *block_of = NULL;
  g_autoptr (HwThreadOrder) last = NULL;

  if (again == NULL || !again->works)
    return;
  block_of = g_new (guint, planning->held->n + 1);
  for (guint k = 0; k < planning->held->n; k++)
    block_of[k] = again->block_of[planning->held->item_of[k]];
  last = hw_thread_order_of_grouping (&planning->threads, block_of, again->n_blocks);
  if (hw_thread_order_cost (&planning->threads, last)
      > hw_thread_order_cost (&planning->threads, planning->order))
    return;
  if (last->n_blocks != planning->order->n_blocks)
    planning->order->bound = last->bound;
  hw_thread_order_assign (planning->order, last);
}

/* Least time: from the fewest hoopings on, by any number of them. */
static void
save_time (HwPlanning *planning, const HwAgain *again, gint64 start)
{
  HwThreadEffort much = much_effort (planning, start);
  HwThreadOrder *order = planning->order;
  guint fewest = order->n_blocks;

  planning->threads.by_time = TRUE;
  order->cost_bound = least_cost (planning, &planning->threads, order);
  if (planning->options.seconds <= 0)
    return;
  keep_last (planning, again);
  hw_thread_order_improve (&planning->threads, order, &much);
  if (order->n_blocks != fewest && order->cost_bound < hw_thread_order_cost (&planning->threads, order))
    order->bound
        = MIN (order->changes, hw_thread_order_low (&planning->threads, NULL, planning->threads.start));
}

/* Blocks mixed within the hoopings, beginning with the motifs one by one. */
static void
mix_blocks (HwPlanning *planning, gint64 start)
{
  HwThreadEffort much = much_effort (planning, start);
  HwThreadOrder *mixed;

  hw_planning_take_blocks (planning, runs_may_share);
  mixed = hw_planning_order_in_blocks (planning, planning->order);
  mixed->cost_bound = least_cost (planning, &planning->blocks, mixed);
  if (planning->options.seconds > 0)
    hw_thread_order_improve (&planning->blocks, mixed, &much);
  hw_thread_order_free (planning->order);
  planning->order = mixed;
  planning->in_blocks = TRUE;
}

/* Search and thread order. FALSE when cancelled. */
static gboolean
plan_hoopings (HwPlanning *planning, HwPlanner *planner, HwPlanFound found, gpointer data)
{
  gint64 start = g_get_monotonic_time ();
  g_autoptr (HwAgain) again = NULL;
  gboolean shown = FALSE;

  if (!begin_search (planning, &again))
    return FALSE;
  hw_planning_take_threads (planning, motifs_may_share);
  if (planning->options.seconds > 0)
    search_on (planning, planner, again, start, found, data, &shown);
  if (is_cancelled (planning))
    return FALSE;
  put_in_order (planning, again);
  if (planning->options.seconds > 0)
    save_changes (planning, planner, again, start, found, data, shown);
  if (planning->snapshot->wishes.best == HW_BEST_LEAST_TIME)
    save_time (planning, again, start);
  if (planning->snapshot->wishes.interleave)
    mix_blocks (planning, start);
  return !is_cancelled (planning);
}

HwPlan *
hw_planner_plan (HwPlanner *planner,
                 const HwSnapshot *snapshot,
                 const HwPlanOptions *options,
                 GCancellable *cancellable,
                 HwPlanFound found,
                 gpointer user_data)
{
  g_auto (HwPlanning) planning = { .snapshot = snapshot, .cancellable = cancellable };
  g_autoptr (HwPlan) before = NULL;
  HwPlan *plan;

  g_return_val_if_fail (planner != NULL && snapshot != NULL, NULL);

  planning.options = options != NULL ? *options : HW_PLAN_OPTIONS_DEFAULT;
  if (g_cancellable_is_cancelled (cancellable))
    return NULL;
  plan = recall (planner, snapshot, &planning.options);
  if (plan != NULL)
    {
      make_last (planner, plan);
      return plan;
    }
  before = planner->last != NULL ? hw_plan_ref (planner->last) : NULL;
  planning.last = before;
  planning.placings = planner->placings;
  planning.fit = planner->fit;
  planning.choices = planner->choices;
  if (!begin (&planning, planner))
    return NULL;
  if (planning.held->n > 0 && !plan_hoopings (&planning, planner, found, user_data))
    return NULL;
  plan = hw_plan_build (&planning);
  hw_warnings_add_dense (plan, &planner->density);
  make_last (planner, plan);
  remember (planner, plan, &planning.options);
  return plan;
}

/* From an order of motifs to a whole plan: each hooping gets its hoop and pose, then marks, counts and sentences are filled in. A hooping the
 * last plan had already stays where it lies as long as that is as good. */
#include <math.h>

#include "frame-press.h"
#include "marks.h"
#include "planner-private.h"
#include "problems.h"
#include "warnings.h"
#include "../geometry/language.h"

#define STAY_MARGIN 1.0 /* mm beside the clearance: with less room, a hoop is set anew */
#define MOST_CHOICES 20000
#define SAME_ANGLE 1e-6

typedef struct
{
  HwSetKey key;
  HwHoopChoice choice;
  gboolean found;
} Chosen;

struct _HwChoices
{
  GHashTable *all; /* Chosen, as a set */
};

static guint
chosen_hash (gconstpointer data)
{
  const Chosen *chosen = data;

  return (guint)(chosen->key.a ^ (chosen->key.b >> 20));
}

static gboolean
chosen_equal (gconstpointer pa, gconstpointer pb)
{
  const Chosen *a = pa, *b = pb;

  return a->key.a == b->key.a && a->key.b == b->key.b;
}

HwChoices *
hw_choices_new (void)
{
  HwChoices *choices = g_new0 (HwChoices, 1);

  choices->all = g_hash_table_new_full (chosen_hash, chosen_equal, g_free, NULL);
  return choices;
}

void
hw_choices_free (HwChoices *choices)
{
  g_hash_table_unref (choices->all);
  g_free (choices);
}

void
hw_choices_forget (HwChoices *choices)
{
  g_hash_table_remove_all (choices->all);
}

/* The best hoop for the set, remembered. */
static const Chosen *
choose (HwPlanning *planning, const guint *motifs, guint n, const GArray *liked, gboolean grain)
{
  Chosen wanted = { .key = hw_set_key (planning->placed, motifs, n) };
  Chosen *chosen = g_hash_table_lookup (planning->choices->all, &wanted);
  const HwPoint *hull;
  guint n_hull;

  if (grain)
    {
      wanted.key.a = ~wanted.key.a; /* another question about the same set */
      chosen = g_hash_table_lookup (planning->choices->all, &wanted);
    }
  if (chosen != NULL)
    return chosen;
  if (g_hash_table_size (planning->choices->all) >= MOST_CHOICES)
    g_hash_table_remove_all (planning->choices->all);
  hull = hw_set_fit_hull (planning->fit, motifs, n, &n_hull);
  wanted.found = grain ? hw_hoop_choose_along_grain (planning->snapshot, hull, n_hull, &wanted.choice)
                       : hw_hoop_choose (planning->snapshot, hull, n_hull, liked, &wanted.choice);
  chosen = g_memdup2 (&wanted, sizeof wanted);
  g_hash_table_add (planning->choices->all, chosen);
  return chosen;
}

/* The hooping of the last plan that stitched the motif, or -1. */
static int
last_hooping_of (const HwPlanning *planning, guint motif)
{
  const char *id = hw_snapshot_motif (planning->snapshot, motif)->id;

  return GPOINTER_TO_INT (g_hash_table_lookup (planning->last_hoopings, id)) - 1;
}

/* The hooping of the last plan with just these motifs, or NULL. */
static const HwHooping *
find_last (const HwPlanning *planning, const guint *motifs, guint n)
{
  int first = planning->last != NULL ? last_hooping_of (planning, motifs[0]) : -1;
  const HwHooping *hooping = first >= 0 ? &planning->last->hoopings[first] : NULL;

  if (hooping == NULL || hooping->n_motifs != n || hooping->hold == HW_PLACE_FROZEN)
    return NULL;
  for (guint k = 1; k < n; k++)
    if (last_hooping_of (planning, motifs[k]) != first)
      return NULL;
  return hooping;
}

static gboolean
is_liked (double angle, const GArray *liked)
{
  for (guint i = 0; i < liked->len; i++)
    if (fabs (remainder (angle - g_array_index (liked, double, i), 90)) < SAME_ANGLE)
      return TRUE;
  return FALSE;
}

/* Leaves the hoop where the last plan had it, when the best choice is no better than that in kind. */
static void
stay (HwPlanning *planning,
      const guint *motifs,
      guint n,
      const GArray *liked,
      gboolean grain,
      HwHoopChoice *choice)
{
  const HwHooping *last = find_last (planning, motifs, n);
  HwHoopChoice same = *choice;
  const HwHoop *hoop = hw_snapshot_hoop (planning->snapshot, choice->hoop);
  const HwPoint *hull;
  guint n_hull;

  if (last == NULL || g_strcmp0 (hw_snapshot_hoop (planning->last->snapshot, last->hoop)->id, hoop->id) != 0)
    return;
  same.pose.centre = last->centre;
  same.pose.angle = last->angle;
  if ((grain || is_liked (choice->pose.angle, liked))
      && fabs (remainder (last->angle - choice->pose.angle, 180)) > SAME_ANGLE)
    return;
  hull = hw_set_fit_hull (planning->fit, motifs, n, &n_hull);
  if (!hw_hoop_suits (planning->snapshot, hull, n_hull, liked, &same) || same.trouble > choice->trouble)
    return;
  if (same.pose.margin < hoop->clearance + STAY_MARGIN && same.pose.margin < choice->pose.margin - SAME_ANGLE)
    return;
  *choice = same;
}

/* On clamped cloth the frame goes beside what the hoopings before have stitched, where it can. */
static void
set_beside (HwPlanning *planning,
            const HwPlan *plan,
            const HwHooping *hooping,
            const GArray *liked,
            gboolean grain,
            HwHoopChoice *choice)
{
  g_autoptr (GPtrArray) stitched = NULL;
  const HwPoint *hull;
  guint n_hull;

  if (planning->snapshot->fabric.hold != HW_HOLD_CLAMPED)
    return;
  stitched = g_ptr_array_new ();
  for (const HwHooping *before = plan->hoopings; before < hooping; before++)
    for (guint k = 0; k < before->n_motifs; k++)
      g_ptr_array_add (stitched, planning->placed[before->motifs[k]].outline);
  hull = hw_set_fit_hull (planning->fit, hooping->motifs, hooping->n_motifs, &n_hull);
  hw_frame_set_beside (planning->snapshot, hull, n_hull, liked, grain, stitched, choice);
}

static void
set_hoop (HwPlanning *planning, const HwPlan *plan, HwHooping *hooping, gboolean grain)
{
  g_autoptr (GArray) liked = hw_liked_angles (planning->snapshot, hooping->motifs, hooping->n_motifs);
  const Chosen *chosen = choose (planning, hooping->motifs, hooping->n_motifs, liked, grain);
  HwHoopChoice choice = chosen->choice;

  if (!chosen->found)
    {
      g_warning ("A set of motifs that fits a hoop has no pose in it");
      return;
    }
  stay (planning, hooping->motifs, hooping->n_motifs, liked, grain, &choice);
  set_beside (planning, plan, hooping, liked, grain, &choice);
  hooping->hoop = choice.hoop;
  hooping->centre = choice.pose.centre;
  hooping->angle = choice.pose.angle;
  hooping->margin = choice.pose.margin;
}

static void
set_held (HwPlanning *planning, HwHooping *hooping, const HwHeld *one, HwPlaceHold hold)
{
  g_autoptr (GArray) liked = g_array_new (FALSE, FALSE, sizeof (double));
  HwHoopChoice choice
      = { .hoop = one->hoop, .pose = { .centre = one->pin->centre, .angle = one->pin->angle } };
  guint n_hull;
  const HwPoint *hull = hw_set_fit_hull (planning->fit, hooping->motifs, hooping->n_motifs, &n_hull);

  hooping->hoop = one->hoop;
  hooping->centre = one->pin->centre;
  hooping->angle = one->pin->angle;
  hooping->hold = hold;
  if (one->steps != NULL)
    {
      g_free (hooping->steps);
      hooping->steps = g_memdup2 (one->steps->data, one->steps->len * sizeof (HwBlockStep));
      hooping->n_steps = one->steps->len;
    }
  if (hw_hoop_suits (planning->snapshot, hull, n_hull, liked, &choice))
    hooping->margin = choice.pose.margin;
}

static void
build_frozen (HwPlanning *planning, HwPlan *plan)
{
  const HwHeldFast *held = planning->held;

  for (guint i = 0; i < held->frozen->len; i++)
    {
      const HwHeld *one = g_ptr_array_index (held->frozen, i);
      HwHooping *hooping = &plan->hoopings[plan->n_hoopings++];

      hooping->n_motifs = one->motifs->len;
      hooping->motifs = g_memdup2 (one->motifs->data, one->motifs->len * sizeof (guint));
      set_held (planning, hooping, one, HW_PLACE_FROZEN);
    }
}

/* The motifs of a part of the order, each where it begins; with every step where blocks are mixed. */
static void
read_motifs (const HwPlanning *planning, HwHooping *hooping, const guint *sequence, guint n)
{
  const HwHeldFast *held = planning->held;
  g_autoptr (GArray) steps = NULL;

  hooping->motifs = g_new (guint, n);
  if (!planning->in_blocks)
    {
      hooping->n_motifs = n;
      for (guint k = 0; k < n; k++)
        hooping->motifs[k] = held->motif[sequence[k]];
      return;
    }
  steps = g_array_new (FALSE, FALSE, sizeof (HwBlockStep));
  for (guint k = 0; k < n; k++)
    {
      const HwBlockRun *run = &g_array_index (planning->runs, HwBlockRun, sequence[k]);
      HwBlockStep step = { held->motif[run->motif], run->first };

      if (run->first == 0)
        hooping->motifs[hooping->n_motifs++] = step.motif;
      for (; step.block < run->first + run->count; step.block++)
        g_array_append_val (steps, step);
    }
  if (hw_planning_is_motif_by_motif (planning, sequence, n))
    return;
  hooping->n_steps = steps->len;
  hooping->steps = (HwBlockStep *)g_array_steal (steps, NULL);
}

static void
build_planned (HwPlanning *planning, HwPlan *plan)
{
  const HwHeldFast *held = planning->held;
  const HwThreadOrder *order = planning->order;

  for (guint b = 0, at = 0; b < order->n_blocks; at = order->ends[b++])
    {
      HwHooping *hooping = &plan->hoopings[plan->n_hoopings++];
      guint first = order->sequence[at], pin;
      const HwHeld *one;

      if (planning->in_blocks)
        first = g_array_index (planning->runs, HwBlockRun, first).motif;
      pin = held->pin_of[first];
      one = pin != G_MAXUINT ? g_ptr_array_index (held->pins, pin) : NULL;
      read_motifs (planning, hooping, order->sequence + at, order->ends[b] - at);
      if (one != NULL && one->pin->keep == HW_KEEP_ALL)
        {
          set_held (planning, hooping, one, HW_PLACE_PINNED);
          continue;
        }
      set_hoop (planning, plan, hooping, one != NULL && one->pin->keep == HW_KEEP_GRAIN);
      hooping->hold = one != NULL ? HW_PLACE_PINNED : HW_PLACE_FREE;
    }
}

/* By how much the plan may be over the least time, by what has been proven and by the bounds on hoopings and changes. */
static void
bound_time (const HwPlanning *planning, HwPlan *plan)
{
  const HwThreadOrder *order = planning->order;
  const HwThreadProblem *problem = planning->in_blocks ? &planning->blocks : &planning->threads;
  guint64 cost = 0, least = 0;

  if (planning->snapshot->wishes.best != HW_BEST_LEAST_TIME)
    return;
  if (order != NULL)
    {
      cost = order->n_blocks * problem->hooping_cost + order->changes * problem->change_cost;
      least = hw_search_bound (planning->search) * problem->hooping_cost
              + hw_thread_order_low (problem, NULL, problem->start) * problem->change_cost;
      least = MIN (cost, MAX (least, order->cost_bound));
    }
  plan->minutes_bound = plan->minutes - (cost - least) / 1000.0;
  plan->least_time_proven = cost == least;
}

void
hw_plan_take_problems (HwPlan *plan, const HwPlan *scene)
{
  for (guint i = 0; i < scene->problems->len; i++)
    {
      const HwProblem *from = g_ptr_array_index (scene->problems, i);
      HwProblem *to = hw_plan_add_problem (plan, from->kind, from->motif, from->grave, g_strdup (from->text));

      to->amount = from->amount;
      to->where = from->where;
      to->other = from->other;
    }
}

HwPlan *
hw_plan_build (HwPlanning *planning)
{
  HwPlan *plan = hw_plan_new (planning->snapshot);
  const HwHeldFast *held = planning->held;
  guint blocks = planning->order != NULL ? planning->order->n_blocks : 0;

  plan->unit = planning->options.unit;
  hw_plan_take_problems (plan, planning->scene);
  plan->hoopings = g_new0 (HwHooping, held->frozen->len + blocks + 1);
  build_frozen (planning, plan);
  if (planning->order != NULL)
    build_planned (planning, plan);
  hw_plan_count (plan);
  plan->thread_changes_bound = plan->thread_changes;
  if (planning->order != NULL)
    plan->thread_changes_bound -= planning->order->changes - planning->order->bound;
  bound_time (planning, plan);
  hw_plan_prove (planning, plan);
  plan->thread_changes_proven = plan->thread_changes_bound == plan->thread_changes;
  hw_marks_choose (plan, HW_MARKS_SIGMA, planning->options.unit);
  hw_warnings_add (plan, planning->placed, planning->options.unit);
  return plan;
}

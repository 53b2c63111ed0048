/* How sure a plan is, and why there cannot be fewer hoopings, in words. */

#include "parts-order.h"
#include "planner-private.h"
#include "../geometry/language.h"

#define MOST_APART_TOLD 4
#define MOST_NAMES 6

/* "Gate, Quince and Fig branch", "Gate, Quince, Fig branch and 3 more". */
static char *
names_text (const HwSnapshot *snapshot, const guint *motifs, guint n)
{
  GString *text = g_string_new (NULL);
  guint named = n <= MOST_NAMES ? n : MOST_NAMES - 1;

  for (guint k = 0; k < named; k++)
    {
      if (k > 0)
        g_string_append (text, k + 1 == n ? _ (" and ") : _ (", "));
      g_string_append (text, hw_snapshot_motif (snapshot, motifs[k])->name);
    }
  if (named < n)
    g_string_append_printf (text, ngettext (" and %u more", " and %u more", n - named), n - named);
  return g_string_free (text, FALSE);
}

static gboolean
has_problem (const HwPlan *plan, HwProblemKind kind)
{
  for (guint i = 0; i < plan->problems->len; i++)
    if (((const HwProblem *)g_ptr_array_index (plan->problems, i))->kind == kind)
      return TRUE;
  return FALSE;
}

/* One hooping for what is neither stitched already nor too large for every hoop. */
static char *
one_does_text (const HwPlan *plan, gboolean stitched)
{
  if (has_problem (plan, HW_PROBLEM_OVERSIZE))
    return g_strdup (stitched ? _ ("One more hooping takes all that a hoop can still take.")
                              : _ ("One hooping takes all that a hoop can take."));
  return g_strdup (stitched ? _ ("One more hooping takes all that is left to stitch.")
                            : _ ("One hooping takes them all."));
}

static char *
tried_text (guint fewer, gboolean stitched)
{
  if (stitched)
    return g_strdup_printf (
        ngettext ("Every way to put what is left to stitch into %u hooping was tried, and none works.",
                  "Every way to put what is left to stitch into %u hoopings was tried, and none works.",
                  fewer),
        fewer);
  return g_strdup_printf (ngettext ("Every way to put the motifs into %u hooping was tried, and none works.",
                                    "Every way to put the motifs into %u hoopings was tried, and none works.",
                                    fewer),
                          fewer);
}

static char *
reason_text (const HwPlan *plan, HwReason reason, guint bound, gboolean stitched)
{
  g_autofree char *names = names_text (plan->snapshot, plan->proof_motifs, plan->n_proof_motifs);

  switch (reason)
    {
    case HW_REASON_TRIVIAL:
      return one_does_text (plan, stitched);
    case HW_REASON_PAIRS:
      if (plan->n_proof_motifs == 2)
        return g_strdup_printf (_ ("%s can never share a hooping."), names);
      return g_strdup_printf (_ ("%s can never share a hooping, two by two."), names);
    case HW_REASON_CHAIN:
      return g_strdup_printf (
          _ ("%s must be stitched one after another, and no two of them can share a hooping."), names);
    case HW_REASON_WEIGHTS:
      return g_strdup_printf (ngettext ("However %2$s are put together, they fill more than %1$u hooping.",
                                        "However %2$s are put together, they fill more than %1$u hoopings.",
                                        bound - 1),
                              bound - 1, names);
    case HW_REASON_TRIED:
      return tried_text (bound - 1, stitched);
    case HW_REASON_NONE:
    default:
      return NULL;
    }
}

/* What is held fast counts besides. */
static void
add_held_text (const HwPlanning *planning, HwPlan *plan)
{
  guint n = planning->held->frozen->len;
  g_autofree char *stitched = NULL;
  char *joined;

  if (n == 0)
    return;
  stitched = g_strdup_printf (
      ngettext ("%u hooping is stitched already.", "%u hoopings are stitched already.", n), n);
  joined = plan->proof != NULL ? g_strdup_printf ("%s %s", plan->proof, stitched) : g_strdup (stitched);
  g_free (plan->proof);
  plan->proof = joined;
}

/* Of the motifs of the proof those a person keeps apart, so that it is clear what the proof rests on; a few stand for all. */
static void
add_apart_text (const HwPlanning *planning, HwPlan *plan)
{
  guint told = 0;

  for (guint k = 0; k < plan->n_proof_motifs; k++)
    for (guint l = 0; l < k && told < MOST_APART_TOLD; l++)
      {
        char *joined;

        if (!hw_held_are_apart (planning->held, plan->proof_motifs[k], plan->proof_motifs[l]))
          continue;
        joined = g_strdup_printf (_ ("%s %s and %s are kept apart."), plan->proof,
                                  hw_snapshot_motif (plan->snapshot, plan->proof_motifs[l])->name,
                                  hw_snapshot_motif (plan->snapshot, plan->proof_motifs[k])->name);
        g_free (plan->proof);
        plan->proof = joined;
        told++;
      }
}

/* Where motifs of several parts are planned, the count rests on the parts. */
static void
add_parts_text (const HwPlanning *planning, HwPlan *plan)
{
  const HwHeldFast *held = planning->held;
  guint first = 0;

  while (held->part != NULL && first < held->n && held->part[held->motif[first]] == HW_NO_PART)
    first++;
  for (guint k = first + 1; k < held->n; k++)
    if (hw_parts_differ (held, held->motif[first], held->motif[k]))
      {
        char *joined = g_strconcat (plan->proof, " ",
                                    _ ("Parts are stitched one after the other and share no hooping."), NULL);

        g_free (plan->proof);
        plan->proof = joined;
        return;
      }
}

static gboolean
has_grave_problem (const HwPlan *plan)
{
  for (guint i = 0; i < plan->problems->len; i++)
    if (((const HwProblem *)g_ptr_array_index (plan->problems, i))->grave)
      return TRUE;
  return FALSE;
}

void
hw_plan_say_proof (const HwPlanning *planning, HwPlan *plan)
{
  guint frozen = planning->held->frozen->len, bound = plan->lower_bound - frozen;
  HwReason reason = (HwReason)plan->reason;

  g_clear_pointer (&plan->proof, g_free);
  if (bound > 0 && (reason != HW_REASON_TRIVIAL || plan->n_hoopings == plan->lower_bound))
    plan->proof = reason_text (plan, reason, bound, frozen > 0);
  if (plan->proof != NULL && (reason == HW_REASON_PAIRS || reason == HW_REASON_CHAIN))
    add_apart_text (planning, plan);
  if (plan->proof != NULL)
    add_parts_text (planning, plan);
  add_held_text (planning, plan);
}

void
hw_plan_prove (HwPlanning *planning, HwPlan *plan)
{
  const HwHeldFast *held = planning->held;
  guint bound = planning->search != NULL ? hw_search_bound (planning->search) : 0;

  plan->lower_bound = held->frozen->len + bound;
  if (has_grave_problem (plan))
    plan->status = HW_PLAN_UNPLANNABLE;
  else
    plan->status = plan->lower_bound == plan->n_hoopings ? HW_PLAN_OPTIMAL : HW_PLAN_FEASIBLE;
  if (bound > 0)
    {
      HwReason reason;
      g_autoptr (GArray) items = hw_search_reason (planning->search, &reason);

      plan->reason = (int)reason;
      plan->n_proof_motifs = items->len;
      plan->proof_motifs = g_new (guint, items->len + 1);
      for (guint k = 0; k < items->len; k++)
        plan->proof_motifs[k] = held->motif[held->first_of[g_array_index (items, guint, k)]];
    }
  hw_plan_say_proof (planning, plan);
}

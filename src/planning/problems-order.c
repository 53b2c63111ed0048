/* Motifs stitched out of their order: what lies further back was to be stitched first (rule 1), and was not. It cannot be planned away any more, only told: the thread of the one
 * stitched later lies on top where they overlap. In the machine the order is settled too, but there it can still be mended. */
#include "problems.h"
#include "../geometry/language.h"

/* Counts on from *n. */
static void
number_motifs (const HwSnapshot *snapshot, const HwPin *pin, guint *at, guint *n)
{
  for (guint i = 0; pin->motifs != NULL && pin->motifs[i] != NULL; i++)
    {
      int motif = hw_snapshot_find_motif (snapshot, pin->motifs[i]);
      if (motif >= 0 && at[motif] == G_MAXUINT)
        at[motif] = (*n)++;
    }
}

static guint *
nowhere (const HwSnapshot *snapshot)
{
  guint *at = g_new (guint, snapshot->motifs->len + 1);

  for (guint i = 0; i < snapshot->motifs->len; i++)
    at[i] = G_MAXUINT;
  return at;
}

/* When each motif was stitched, counted from 0; G_MAXUINT: not yet. */
static guint *
stitched_at (const HwSnapshot *snapshot)
{
  guint *at = nowhere (snapshot), n = 0;

  for (guint k = 0; k < snapshot->frozen->len; k++)
    number_motifs (snapshot, g_ptr_array_index (snapshot->frozen, k), at, &n);
  return at;
}

static HwPoint
middle_of_common_box (HwBox a, HwBox b)
{
  return (HwPoint){ (MAX (a.x0, b.x0) + MIN (a.x1, b.x1)) / 2, (MAX (a.y0, b.y0) + MIN (a.y1, b.y1)) / 2 };
}

static void
tell (HwPlan *plan, guint under, guint over, gboolean both, HwPoint where)
{
  const char *below = hw_snapshot_motif (plan->snapshot, under)->name;
  const char *above = hw_snapshot_motif (plan->snapshot, over)->name;
  char *text
      = both ? g_strdup_printf (
            _ ("%s was stitched before %s, which was to lie under it: where they overlap, %s lies on top."),
            above, below, below)
             : g_strdup_printf (_ ("%s is stitched already, but %s, which was to lie under it, is not: where "
                                   "they overlap, %s will lie on top. "
                                   "Move it aside, or bring it forward in the stitch order if it may."),
                                above, below, below);
  HwProblem *problem = hw_plan_add_problem (plan, HW_PROBLEM_STITCHED_OUT_OF_ORDER, (int)under, FALSE, text);

  problem->other = (int)over;
  problem->where = where;
}

void
hw_problems_add_out_of_order (HwPlan *plan, const HwPlaced *placed, HwOverlaps *overlaps)
{
  const HwSnapshot *snapshot = plan->snapshot;

  g_return_if_fail (placed != NULL || snapshot->motifs->len == 0);

  if (snapshot->frozen->len == 0)
    return;
  g_autofree guint *at = stitched_at (snapshot);
  for (guint over = 1; over < snapshot->motifs->len; over++)
    for (guint under = 0; at[over] != G_MAXUINT && under < over; under++)
      if (at[over] < at[under] && hw_box_overlaps (placed[under].outline->box, placed[over].outline->box)
          && hw_overlaps_ask (overlaps, &placed[under], &placed[over]))
        tell (plan, under, over, at[under] != G_MAXUINT,
              middle_of_common_box (placed[under].outline->box, placed[over].outline->box));
}

/* The pin whose hooping is in the machine and in the plan, or NULL. */
static const HwHeld *
begun_of (const HwHeldFast *held)
{
  for (guint p = 0; p < held->pins->len; p++)
    if (hw_held_is_begun ((const HwHeld *)g_ptr_array_index (held->pins, p)))
      return g_ptr_array_index (held->pins, p);
  return NULL;
}

static void
tell_in_machine (HwPlan *plan, guint under, guint over, HwPoint where)
{
  const char *below = hw_snapshot_motif (plan->snapshot, under)->name;
  const char *above = hw_snapshot_motif (plan->snapshot, over)->name;
  char *text
      = g_strdup_printf (_ ("%s is to be stitched before %s, but the hooping in the machine begins %s before "
                            "%s is done. Lay it aside and begin it again if its order is to change."),
                         below, above, above, below);
  HwProblem *problem = hw_plan_add_problem (plan, HW_PROBLEM_STITCHED_OUT_OF_ORDER, (int)under, FALSE, text);

  problem->other = (int)over;
  problem->where = where;
}

/* Where a motif begins and ends in the order of what is in the machine. */
typedef struct
{
  guint first, last;
} Stretch;

/* One for each of its motifs: places among these, or among its thread blocks where they take turns. Returns: (transfer full) */
static Stretch *
find_stretches (const HwHeld *one)
{
  Stretch *stretches = g_new0 (Stretch, one->motifs->len + 1);

  for (guint k = 0; k < one->motifs->len; k++)
    {
      gboolean begun = FALSE;

      stretches[k] = (Stretch){ k, k };
      for (guint i = 0; one->steps != NULL && i < one->steps->len; i++)
        if (g_array_index (one->steps, HwBlockStep, i).motif == g_array_index (one->motifs, guint, k))
          {
            stretches[k] = (Stretch){ begun ? stretches[k].first : i, i };
            begun = TRUE;
          }
    }
  return stretches;
}

/* Whether a tie or lying further back says that one motif is stitched before another. */
static gboolean
goes_before (const HwHeldFast *held, GArray *ties, HwOverlaps *overlaps, guint under, guint over)
{
  for (guint t = 0; t < ties->len; t++)
    if (g_array_index (ties, HwTie, t).first == under && g_array_index (ties, HwTie, t).second == over)
      return TRUE;
  return under < over && hw_overlaps_ask (overlaps, &held->placed[under], &held->placed[over]);
}

void
hw_problems_add_out_of_turn (HwPlan *plan, const HwHeldFast *held, HwOverlaps *overlaps)
{
  const HwHeld *one = begun_of (held);
  g_autoptr (GArray) ties = NULL;
  g_autofree Stretch *stretches = NULL;

  if (one == NULL)
    return;
  ties = hw_order_ties (plan->snapshot);
  stretches = find_stretches (one);
  for (guint a = 0; a < one->motifs->len; a++)
    for (guint b = 0; b < one->motifs->len; b++)
      {
        guint under = g_array_index (one->motifs, guint, a), over = g_array_index (one->motifs, guint, b);

        if (a != b && stretches[a].last > stretches[b].first
            && goes_before (held, ties, overlaps, under, over))
          tell_in_machine (
              plan, under, over,
              middle_of_common_box (held->placed[under].outline->box, held->placed[over].outline->box));
      }
}

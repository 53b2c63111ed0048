/* Motifs stitched out of their order: what lies further back was to be stitched first (rule 1), and was not. It cannot be planned away any more, only told: the thread of the one
 * stitched later lies on top where they overlap. */
#include "problems.h"
#include "../geometry/language.h"

/* When each motif was stitched, counted from 0; G_MAXUINT: not yet. */
static guint *
stitched_at (const HwSnapshot *snapshot)
{
  guint *at = g_new (guint, snapshot->motifs->len + 1), n = 0;

  for (guint i = 0; i < snapshot->motifs->len; i++)
    at[i] = G_MAXUINT;
  for (guint k = 0; k < snapshot->frozen->len; k++)
    {
      const HwPin *pin = g_ptr_array_index (snapshot->frozen, k);

      for (guint i = 0; pin->motifs != NULL && pin->motifs[i] != NULL; i++)
        {
          int motif = hw_snapshot_find_motif (snapshot, pin->motifs[i]);
          if (motif >= 0 && at[motif] == G_MAXUINT)
            at[motif] = n++;
        }
    }
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

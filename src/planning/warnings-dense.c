/* Stitching stacked too dense: where motifs lie over one another, their stitches add up. Only patches of some size are told of, and only where
 * more than one motif has its part in them; how one motif is made is its maker's business, and the map shows it anyway. */

#include "warnings-private.h"
#include "../geometry/figures.h"
#include "../geometry/language.h"

/* The two motifs that add most at a place, the larger part first. */
static void
find_makers (const HwPlan *plan, const HwDensityMap *map, HwPoint where, guint makers[2])
{
  double shares[2] = { -1, -1 };

  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    {
      double share = hw_density_map_share (map, i, where);

      if (share > shares[0])
        {
          shares[1] = shares[0];
          makers[1] = makers[0];
          shares[0] = share;
          makers[0] = i;
        }
      else if (share > shares[1])
        {
          shares[1] = share;
          makers[1] = i;
        }
    }
}

typedef struct
{
  guint under, over;
  HwDensePatch patch; /* the densest of the pair */
  guint times;
} Stack;

/* One entry for each pair of motifs, in the order in which they are met. */
static void
add_to_stacks (GArray *stacks, const HwPlan *plan, const HwDensityMap *map, const HwDensePatch *patch)
{
  guint makers[2] = { 0, 0 };
  Stack fresh;

  find_makers (plan, map, patch->where, makers);
  fresh = (Stack){ MIN (makers[0], makers[1]), MAX (makers[0], makers[1]), *patch, 1 };
  for (guint k = 0; k < stacks->len; k++)
    {
      Stack *stack = &g_array_index (stacks, Stack, k);

      if (stack->under != fresh.under || stack->over != fresh.over)
        continue;
      if (patch->peak > stack->patch.peak)
        stack->patch = *patch;
      stack->times++;
      return;
    }
  g_array_append_val (stacks, fresh);
}

static char *
stack_text (const HwWarner *warner, const Stack *stack)
{
  g_autofree char *peak = hw_figure_text (stack->patch.peak, 1);
  g_autofree char *limit = hw_figure_text (warner->snapshot->wishes.density_limit, 1);

  return g_strdup_printf (
      ngettext (
          "%2$s over %3$s is stitched too dense in %1$u place: up to %4$s stitches per mm², where %5$s "
          "are enough. Leave out what is covered, or move them apart.",
          "%2$s over %3$s is stitched too dense in %1$u places: up to %4$s stitches per mm², where %5$s "
          "are enough. Leave out what is covered, or move them apart.",
          stack->times),
      stack->times, hw_warner_name (warner, stack->over), hw_warner_name (warner, stack->under), peak, limit);
}

static int
compare_stacks (gconstpointer pa, gconstpointer pb)
{
  const Stack *a = pa, *b = pb;

  if (a->over != b->over)
    return a->over < b->over ? -1 : 1;
  return a->under < b->under ? -1 : a->under > b->under;
}

void
hw_warnings_add_dense (HwPlan *plan, HwDensityMap **kept)
{
  HwWarner warner = { .plan = plan };
  g_autoptr (HwDensityMap) before = NULL;
  g_autoptr (GArray) patches = NULL;
  g_autoptr (GArray) stacks = g_array_new (FALSE, FALSE, sizeof (Stack));

  g_return_if_fail (plan != NULL && kept != NULL);

  warner.snapshot = plan->snapshot;
  before = g_steal_pointer (kept);
  *kept = hw_density_map_new (plan->snapshot, before);
  patches = hw_density_map_patches (*kept, plan->snapshot->wishes.density_limit, TRUE);
  for (guint k = 0; k < patches->len; k++)
    if (g_array_index (patches, HwDensePatch, k).area >= HW_WARNINGS_DENSE_AREA)
      add_to_stacks (stacks, plan, *kept, &g_array_index (patches, HwDensePatch, k));
  g_array_sort (stacks, compare_stacks);
  for (guint k = 0; k < stacks->len; k++)
    {
      const Stack *stack = &g_array_index (stacks, Stack, k);
      HwProblem *problem
          = hw_warner_tell (&warner, HW_PROBLEM_DENSE, stack->over, -1, stack->patch.peak, stack->patch.where,
                            k < HW_WARNINGS_MOST ? stack_text (&warner, stack) : NULL);

      if (problem != NULL)
        problem->other = stack->under;
    }
  hw_warner_rest (&warner, HW_PROBLEM_DENSE,
                  g_strdup_printf (ngettext ("%u more pair of motifs is stacked too dense.",
                                             "%u more pairs of motifs are stacked too dense.",
                                             hw_warner_untold (&warner)),
                                   hw_warner_untold (&warner)));
}

/* Whether the motif of this number is the very same in both scenes. */
static gboolean
is_same (const HwSnapshot *now, const HwSnapshot *then, int motif)
{
  return motif >= 0 && (guint)motif < now->motifs->len
         && hw_snapshot_motif (now, motif) == hw_snapshot_motif (then, motif);
}

void
hw_warnings_keep_dense (HwPlan *plan, const HwPlan *last)
{
  g_return_if_fail (plan != NULL);

  for (guint i = 0; last != NULL && i < last->problems->len; i++)
    {
      const HwProblem *old = g_ptr_array_index (last->problems, i);
      HwProblem *same;

      if (old->kind != HW_PROBLEM_DENSE || !is_same (plan->snapshot, last->snapshot, old->motif)
          || !is_same (plan->snapshot, last->snapshot, old->other))
        continue;
      same = hw_plan_add_problem (plan, HW_PROBLEM_DENSE, old->motif, FALSE, g_strdup (old->text));
      same->other = old->other;
      same->amount = old->amount;
      same->where = old->where;
    }
}

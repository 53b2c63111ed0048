/* The parts checked once more, pair by pair. Shares nothing with the planner: a motif that the plan says had to join an earlier part is followed
 * along overlaps, ties and pinned hoopings until the motif it is said to come before is found. */
#include "parts-verify.h"

#include "../geometry/language.h"
#include "../geometry/region.h"

#define COMMON_AREA 0.01 /* mm^2: rule 1 */

typedef struct
{
  const HwPlan *plan;
  const HwSnapshot *scene;
  guint n;
  int *part;    /* as named, or -1 */
  int *hooping; /* that stitches it; -1: none, or one that is stitched already */
} Parts;

static gboolean
broken (GError **error, char *text)
{
  g_set_error_literal (error, HW_PLAN_ERROR, HW_PLAN_ERROR_BROKEN_RULE, text);
  g_free (text);
  return FALSE;
}

static const char *
name_of (const Parts *parts, guint motif)
{
  return hw_snapshot_motif (parts->scene, motif)->name;
}

/* Whether the rules themselves put motif i before motif j. */
static gboolean
is_before (const Parts *parts, guint i, guint j)
{
  const HwMotif *a = hw_snapshot_motif (parts->scene, i), *b = hw_snapshot_motif (parts->scene, j);
  g_autoptr (HwOutline) under = NULL;
  g_autoptr (HwOutline) over = NULL;

  if (a->before != NULL && g_strv_contains ((const char *const *)a->before, b->id))
    return TRUE;
  if (parts->hooping[i] >= 0 && parts->hooping[i] == parts->hooping[j]
      && parts->plan->hoopings[parts->hooping[i]].hold == HW_PLACE_PINNED)
    return TRUE; /* at one time */
  if (i >= j)
    return FALSE;
  under = hw_outline_place (a->outline, &a->placement);
  over = hw_outline_place (b->outline, &b->placement);
  return hw_box_overlaps (under->box, over->box) && hw_outline_overlap_area (under, over) > COMMON_AREA;
}

static gboolean
leads_to (const Parts *parts, guint from, guint to)
{
  g_autofree gboolean *seen = g_new0 (gboolean, parts->n + 1);
  g_autofree guint *queue = g_new (guint, parts->n + 1);
  guint head = 0, tail = 0;

  seen[from] = TRUE;
  queue[tail++] = from;
  while (head < tail && !seen[to])
    {
      guint at = queue[head++];

      for (guint i = 0; i < parts->n; i++)
        if (!seen[i] && is_before (parts, at, i))
          {
            seen[i] = TRUE;
            queue[tail++] = i;
          }
    }
  return seen[to];
}

static void
read_parts (Parts *parts)
{
  const HwSnapshot *scene = parts->scene;

  for (guint i = 0; i < parts->n; i++)
    parts->part[i] = parts->hooping[i] = -1;
  for (guint p = scene->parts->len; p-- > 0;)
    {
      const HwPart *part = g_ptr_array_index (scene->parts, p);

      for (guint k = 0; part->motifs[k] != NULL; k++)
        {
          int motif = hw_snapshot_find_motif (scene, part->motifs[k]);

          if (motif >= 0)
            parts->part[motif] = (int)p;
        }
    }
  for (guint h = 0; h < parts->plan->n_hoopings; h++)
    for (guint k = 0; k < parts->plan->hoopings[h].n_motifs; k++)
      if (parts->plan->hoopings[h].hold != HW_PLACE_FROZEN)
        parts->hooping[parts->plan->hoopings[h].motifs[k]] = (int)h;
}

/* Moves the motifs that problems speak of to the part they joined, once that is found to be right. */
static gboolean
joined_rightly (Parts *parts, GError **error)
{
  g_autofree int *named = g_memdup2 (parts->part, (parts->n + 1) * sizeof (int));

  for (guint i = 0; i < parts->plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (parts->plan->problems, i);

      if (problem->kind != HW_PROBLEM_PART)
        continue;
      if (problem->motif < 0 || problem->other < 0 || (guint)problem->motif >= parts->n
          || (guint)problem->other >= parts->n || named[problem->other] < 0
          || named[problem->other] >= named[problem->motif]
          || !leads_to (parts, (guint)problem->motif, (guint)problem->other))
        return broken (error, g_strdup_printf (_ ("A motif is said to leave its part, but need not: %s"),
                                               problem->text != NULL ? problem->text : ""));
      parts->part[problem->motif] = MIN (parts->part[problem->motif], named[problem->other]);
    }
  return TRUE;
}

static gboolean
parts_in_order (const Parts *parts, GError **error)
{
  for (guint i = 0; i < parts->n; i++)
    for (guint j = 0; j < parts->n; j++)
      {
        if (parts->part[i] < 0 || parts->part[j] <= parts->part[i] || parts->hooping[i] < 0
            || parts->hooping[j] < 0 || parts->hooping[i] < parts->hooping[j])
          continue;
        if (parts->hooping[i] == parts->hooping[j])
          return broken (error, g_strdup_printf (_ ("%s and %s share a hooping but are in different parts."),
                                                 name_of (parts, i), name_of (parts, j)));
        return broken (error,
                       g_strdup_printf (_ ("%s is in an earlier part than %s, but is stitched after it."),
                                        name_of (parts, i), name_of (parts, j)));
      }
  return TRUE;
}

gboolean
hw_plan_verify_parts (const HwPlan *plan, GError **error)
{
  guint n = plan->snapshot->motifs->len;
  g_autofree int *part = g_new (int, n + 1);
  g_autofree int *hooping = g_new (int, n + 1);
  Parts parts = { .plan = plan, .scene = plan->snapshot, .n = n, .part = part, .hooping = hooping };

  read_parts (&parts);
  return joined_rightly (&parts, error) && parts_in_order (&parts, error);
}

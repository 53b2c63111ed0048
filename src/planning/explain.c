/* A plan explained: the count and its proof, the threads, what cannot be stitched, and every hooping in turn. */
#include "explain-private.h"
#include "../geometry/language.h"

static void
add_threads (GString *text, const HwPlan *plan)
{
  guint n = plan->thread_changes;

  if (plan->n_hoopings == 0)
    return;
  g_string_append_printf (text, ngettext ("%u thread change", "%u thread changes", n), n);
  if (plan->thread_changes_proven)
    g_string_append (text, _ (", proven fewest for so many hoopings"));
  else
    g_string_append_printf (text, _ ("; no plan of so many hoopings has fewer than %u"),
                            plan->thread_changes_bound);
  if (plan->one_by_one_changes > n)
    g_string_append_printf (text, _ ("; stitched one by one it would be %u"), plan->one_by_one_changes);
  g_string_append (text, _ (".\n"));
}

static void
add_problem (GString *text, const HwExplaining *ex, const HwProblem *problem)
{
  g_string_append_printf (text, "\n%s\n", problem->text);
  if (problem->kind == HW_PROBLEM_OVERSIZE && problem->motif >= 0)
    hw_explain_add_oversize (text, ex, (guint)problem->motif);
}

void
hw_explain_add_hooping (GString *text, const HwExplaining *ex, guint hooping)
{
  const HwHooping *record = &ex->plan->hoopings[hooping];
  g_autofree char *names = hw_explaining_names (ex, record->motifs, record->n_motifs);

  g_string_append_printf (text, _ ("Hooping %u: %s\n"), hooping + 1, names);
  hw_explain_add_hoop (text, ex, hooping);
  hw_explain_add_neighbours (text, ex, hooping);
}

char *
hw_explain_plan (const HwPlan *plan, HwUnit unit)
{
  g_autoptr (HwExplaining) ex = NULL;
  GString *text;

  g_return_val_if_fail (plan != NULL, NULL);

  text = g_string_new (NULL);
  ex = hw_explaining_new (plan, unit);
  hw_explain_add_count (text, ex);
  add_threads (text, plan);
  for (guint p = 0; p < plan->problems->len; p++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, p);

      if (problem->grave)
        add_problem (text, ex, problem);
    }
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      g_string_append (text, "\n");
      hw_explain_add_hooping (text, ex, h);
    }
  return g_string_free (text, FALSE);
}

char *
hw_explain_count (const HwPlan *plan, HwUnit unit)
{
  g_autoptr (HwExplaining) ex = NULL;
  GString *text;

  g_return_val_if_fail (plan != NULL, NULL);

  text = g_string_new (NULL);
  ex = hw_explaining_new (plan, unit);
  hw_explain_add_count (text, ex);
  return g_string_free (text, FALSE);
}

char *
hw_explain_threads (const HwPlan *plan)
{
  GString *text;

  g_return_val_if_fail (plan != NULL, NULL);

  text = g_string_new (NULL);
  add_threads (text, plan);
  return g_string_free (text, FALSE);
}

char *
hw_explain_hooping (const HwPlan *plan, guint hooping, HwUnit unit)
{
  g_autoptr (HwExplaining) ex = NULL;
  GString *text;

  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, NULL);

  text = g_string_new (NULL);
  ex = hw_explaining_new (plan, unit);
  hw_explain_add_hooping (text, ex, hooping);
  return g_string_free (text, FALSE);
}

char *
hw_explain_oversize (const HwPlan *plan, guint motif, HwUnit unit)
{
  g_autoptr (HwExplaining) ex = NULL;
  GString *text;

  g_return_val_if_fail (plan != NULL && motif < plan->snapshot->motifs->len, NULL);

  text = g_string_new (NULL);
  ex = hw_explaining_new (plan, unit);
  hw_explain_add_oversize (text, ex, motif);
  return g_string_free (text, FALSE);
}

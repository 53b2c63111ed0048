/* The plan by parts: each hooping counts with one part, so that every part can be printed and stitched on a day of its own. */
#include "parts-hoopings.h"

#include "parts-order.h"
#include "../geometry/language.h"

int *
hw_plan_parts_of_motifs (const HwPlan *plan)
{
  g_autofree guint *named = NULL;
  int *part;

  g_return_val_if_fail (plan != NULL, NULL);

  named = hw_parts_of_motifs (plan->snapshot);
  part = g_new (int, plan->snapshot->motifs->len + 1);
  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    part[i] = named[i] != HW_NO_PART ? (int)named[i] : -1;
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);

      if (problem->kind == HW_PROBLEM_PART)
        part[problem->motif] = (int)named[problem->other];
    }
  return part;
}

int *
hw_plan_parts (const HwPlan *plan)
{
  g_autofree int *part = NULL;
  int *of_hooping, next = -1;

  g_return_val_if_fail (plan != NULL, NULL);

  part = hw_plan_parts_of_motifs (plan);
  of_hooping = g_new (int, plan->n_hoopings + 1);
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      of_hooping[h] = -1;
      for (guint k = 0; k < plan->hoopings[h].n_motifs; k++)
        {
          int own = part[plan->hoopings[h].motifs[k]];

          if (own >= 0 && (of_hooping[h] < 0 || own < of_hooping[h]))
            of_hooping[h] = own;
        }
    }
  for (guint h = 1; h < plan->n_hoopings; h++)
    if (of_hooping[h] < 0)
      of_hooping[h] = of_hooping[h - 1];
  for (guint h = plan->n_hoopings; h-- > 0; next = of_hooping[h])
    if (of_hooping[h] < 0)
      of_hooping[h] = next;
  return of_hooping;
}

char *
hw_plan_part_text (const HwPlan *plan, guint part)
{
  g_autofree int *of_hooping = NULL;
  g_autoptr (GString) numbers = NULL;
  guint n = 0;

  g_return_val_if_fail (plan != NULL, NULL);

  of_hooping = hw_plan_parts (plan);
  numbers = g_string_new (NULL);
  for (guint h = 0, end; h < plan->n_hoopings; h = end + 1)
    {
      end = h;
      if (of_hooping[h] != (int)part)
        continue;
      while (end + 1 < plan->n_hoopings && of_hooping[end + 1] == (int)part)
        end++;
      n += end - h + 1;
      g_string_append (numbers, numbers->len > 0 ? _ (", ") : "");
      if (end == h)
        g_string_append_printf (numbers, "%u", h + 1);
      else
        g_string_append_printf (numbers, _ ("%u to %u"), h + 1, end + 1);
    }
  if (n == 0)
    return g_strdup (_ ("No hooping"));
  /* Translators: the numbers are listed already: "Hooping 4", "Hoopings 1 to 3, 5" */
  return g_strdup_printf (ngettext ("Hooping %s", "Hoopings %s", n), numbers->str);
}

int
hw_snapshot_find_part (const HwSnapshot *snapshot, const char *name)
{
  g_return_val_if_fail (snapshot != NULL && name != NULL, -1);

  for (guint p = 0; p < snapshot->parts->len; p++)
    if (g_str_equal (((const HwPart *)g_ptr_array_index (snapshot->parts, p))->name, name))
      return (int)p;
  return -1;
}

/* What a person is told of a wish that is left out: the smallest set of wishes that contradict, by name. */

#include "contradictions-private.h"
#include "problems.h"
#include "../geometry/language.h"

static const char *
name_of (const HwSettling *s, guint motif)
{
  return hw_snapshot_motif (s->odds->snapshot, motif)->name;
}

static char *
pin_names (const HwSettling *s, guint p)
{
  return hw_held_names (s->odds->snapshot, hw_settling_pin (s, p)->motifs);
}

/* "the pinned hooping with Gate, the tie of Quince before Rose" */
static char *
wishes_text (const HwSettling *s, const HwContradiction *found)
{
  GString *text = g_string_new (NULL);
  guint n = found->wishes->len;

  for (guint k = 0; k < n; k++)
    {
      guint wish = g_array_index (found->wishes, guint, k);

      if (k > 0)
        g_string_append (text, k + 1 == n ? _ (" and ") : _ (", "));
      if (wish < s->n_pins)
        {
          g_autofree char *names = pin_names (s, wish);

          g_string_append_printf (text, _ ("the pinned hooping with %s"), names);
        }
      else
        {
          HwTie tie = hw_settling_tie (s, wish);

          g_string_append_printf (text, _ ("the tie of %s before %s"), name_of (s, s->odds->motif[tie.first]),
                                  name_of (s, s->odds->motif[tie.second]));
        }
    }
  return g_string_free (text, FALSE);
}

/* "Gate before Fig branch, Fig branch before Quince": the steps of the loop, without the ways inside a pin. */
static char *
loop_text (const HwSettling *s, const HwContradiction *found)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k + 1 < found->way->len; k++)
    {
      guint from = g_array_index (found->way, guint, k), to = g_array_index (found->way, guint, k + 1);
      gboolean inside = FALSE;

      for (guint w = 0; w < found->wishes->len && from != to; w++)
        {
          guint wish = g_array_index (found->wishes, guint, w), both = 0;

          for (guint m = 0; wish < s->n_pins && m < hw_settling_pin (s, wish)->motifs->len; m++)
            {
              guint motif = s->odds->planned[g_array_index (hw_settling_pin (s, wish)->motifs, guint, m)];

              both += motif == from || motif == to;
            }
          inside |= both == 2;
        }
      if (inside)
        continue;
      if (text->len > 0)
        g_string_append (text, _ (", "));
      g_string_append_printf (text, _ ("%s before %s"), name_of (s, s->odds->motif[from]),
                              name_of (s, s->odds->motif[to]));
    }
  return g_string_free (text, FALSE);
}

static char *
pin_text (const HwSettling *s, const HwContradiction *found, guint wish)
{
  g_autofree char *loop = NULL, *wishes = NULL, *names = pin_names (s, wish);

  if (found->together[0] >= 0 && found->together[0] != found->together[1])
    return g_strdup_printf (
        _ ("%s and %s are pinned to one hooping and also kept apart: the pinned hooping with %s cannot be "
           "kept."),
        name_of (s, (guint)found->together[1]), name_of (s, (guint)found->together[0]), names);
  if (found->together[0] >= 0)
    return g_strdup_printf (_ ("%s is in two pinned hoopings: the one with %s cannot be kept."),
                            name_of (s, (guint)found->together[0]), names);
  loop = loop_text (s, found);
  if (found->wishes->len == 1)
    return g_strdup_printf (
        _ ("The pinned hooping with %s cannot be stitched at one time: the order goes %s."), names, loop);
  wishes = wishes_text (s, found);
  return g_strdup_printf (
      _ ("The pinned hooping with %s cannot be stitched at one time, because %s contradict "
         "one another: the order goes %s."),
      names, wishes, loop);
}

/* A tie is left out: the way round begins with it. */
static void
tell_tie (const HwSettling *s, const HwContradiction *found, guint wish, HwPlan *plan)
{
  HwTie tie = hw_settling_tie (s, wish);
  g_autoptr (GArray) loop = g_array_new (FALSE, FALSE, sizeof (guint));
  guint n = found->way->len - 1, start = 0;
  gboolean pinned = FALSE;

  for (guint w = 0; w < found->wishes->len; w++)
    pinned |= g_array_index (found->wishes, guint, w) < s->n_pins;
  if (pinned)
    {
      g_autofree char *steps = loop_text (s, found), *wishes = wishes_text (s, found);

      hw_plan_add_problem (
          plan, HW_PROBLEM_ORDER_LOOP, (int)s->odds->motif[tie.first], TRUE,
          g_strdup_printf (_ ("%s is tied before %s, but %s contradict one another: the order goes %s. That "
                              "tie is left out."),
                           name_of (s, s->odds->motif[tie.first]), name_of (s, s->odds->motif[tie.second]),
                           wishes, steps));
      return;
    }
  while (start < n && g_array_index (found->way, guint, start) != tie.first) /* comes but once */
    start++;
  for (guint k = 0; k <= n; k++)
    g_array_append_val (loop, s->odds->motif[g_array_index (found->way, guint, (start + k) % n)]);
  hw_problems_add_loop (plan, loop);
}

void
hw_settling_tell (const HwSettling *s, guint wish, HwPlan *plan)
{
  for (guint k = 0; k < s->found->len; k++)
    {
      const HwContradiction *found = g_ptr_array_index (s->found, k);
      gboolean names = FALSE;

      for (guint w = 0; w < found->wishes->len; w++)
        names |= g_array_index (found->wishes, guint, w) == wish;
      if (!names)
        continue;
      if (wish < s->n_pins)
        hw_plan_add_problem (plan, HW_PROBLEM_PIN, g_array_index (hw_settling_pin (s, wish)->motifs, int, 0),
                             FALSE, pin_text (s, found, wish));
      else
        tell_tie (s, found, wish, plan);
      return;
    }
}

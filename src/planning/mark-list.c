/* The list a person draws from before the stitching starts, hooping by hooping, with a ruler laid along the edge line. A cross that serves
 * several hoopings stands in it once, where it is first needed. */
#include "mark-list.h"

#include <math.h>

#include "../geometry/figures.h"
#include "../geometry/language.h"

#define SAME_PLACE 0.05 /* mm: nobody draws two crosses nearer than that */

static void
listed_mark_free (HwListedMark *mark)
{
  g_free (mark->name);
  g_free (mark);
}

static HwPoint
find_corner (const HwSnapshot *snapshot)
{
  const HwOutline *edge = snapshot->edge_line != NULL ? snapshot->edge_line->outline : NULL;

  return edge != NULL ? (HwPoint){ edge->box.x0, edge->box.y0 } : (HwPoint){ 0, 0 };
}

/* The edge line's top left corner, or where a ruler along its top and one along its left side meet. */
static char *
say_corner (const HwSnapshot *snapshot)
{
  const HwOutline *edge = snapshot->edge_line != NULL ? snapshot->edge_line->outline : NULL;
  HwPoint corner = find_corner (snapshot);

  if (edge == NULL)
    return g_strdup (_ ("Measured from the cloth's top left corner."));
  for (guint r = 0; r < edge->n_rings; r++)
    for (guint i = 0; i < edge->rings[r].n_points; i++)
      if (hw_point_distance (edge->rings[r].points[i], corner) < SAME_PLACE)
        return g_strdup (_ ("Measured from the edge line's top left corner."));
  return g_strdup (_ ("Measured from the point where a ruler along the edge line's top "
                      "and one along its left side meet."));
}

static gboolean
is_held (const HwSnapshot *snapshot, HwPoint at)
{
  for (guint i = 0; snapshot->held_marks != NULL && i < snapshot->held_marks->len; i++)
    {
      const HwHeldMark *held = g_ptr_array_index (snapshot->held_marks, i);

      if (hw_point_distance (held->at, at) < SAME_PLACE)
        return TRUE;
    }
  return FALSE;
}

static HwListedMark *
find_listed (const HwMarkList *list, HwPoint at)
{
  for (guint i = 0; i < list->marks->len; i++)
    {
      HwListedMark *mark = g_ptr_array_index (list->marks, i);

      if (hw_point_distance (mark->at, at) < SAME_PLACE)
        return mark;
    }
  return NULL;
}

static void
add_cross (HwMarkList *list, const HwSnapshot *snapshot, guint hooping, const char *letter, HwPoint at)
{
  HwListedMark *mark = find_listed (list, at);
  g_autofree char *name = letter == NULL
                              /* Translators: the centre cross of the hooping with this number. */
                              ? g_strdup_printf (_ ("%u centre"), hooping + 1)
                              /* Translators: the number of a hooping and the letter of a mark. */
                              : g_strdup_printf (_ ("%u %s"), hooping + 1, letter);

  if (mark != NULL)
    {
      g_autofree char *names = g_steal_pointer (&mark->name);

      /* Translators: names of marks, one after the other. */
      mark->name = g_strdup_printf (_ ("%s, %s"), names, name);
      mark->is_centre |= letter == NULL;
      return;
    }
  mark = g_new0 (HwListedMark, 1);
  mark->name = g_steal_pointer (&name);
  mark->is_centre = letter == NULL;
  mark->is_held = is_held (snapshot, at);
  mark->hooping = hooping;
  mark->at = at;
  mark->right = at.x - list->corner.x;
  mark->down = at.y - list->corner.y;
  g_ptr_array_add (list->marks, mark);
}

HwMarkList *
hw_mark_list_new (const HwPlan *plan)
{
  HwMarkList *list;

  g_return_val_if_fail (plan != NULL, NULL);

  list = g_new0 (HwMarkList, 1);
  list->marks = g_ptr_array_new_with_free_func ((GDestroyNotify)listed_mark_free);
  list->corner = find_corner (plan->snapshot);
  list->from = say_corner (plan->snapshot);
  for (guint k = 0; k < plan->n_hoopings; k++)
    {
      const HwHooping *hooping = &plan->hoopings[k];

      if (hooping->hold == HW_PLACE_FROZEN)
        continue;
      add_cross (list, plan->snapshot, k, NULL, hooping->centre);
      for (guint i = 0; i < hooping->n_marks; i++)
        add_cross (list, plan->snapshot, k, hooping->marks[i].letter, hooping->marks[i].at);
    }
  return list;
}

void
hw_mark_list_free (HwMarkList *list)
{
  if (list == NULL)
    return;
  g_ptr_array_unref (list->marks);
  g_free (list->from);
  g_free (list);
}

char *
hw_listed_mark_text (const HwListedMark *mark, HwUnit unit)
{
  g_autofree char *across = NULL, *along = NULL;

  g_return_val_if_fail (mark != NULL, NULL);

  across = hw_length_text (fabs (mark->right), unit);
  along = hw_length_text (fabs (mark->down), unit);
  if (mark->right < 0 && mark->down < 0)
    return g_strdup_printf (_ ("%s left, %s up"), across, along);
  if (mark->right < 0)
    return g_strdup_printf (_ ("%s left, %s down"), across, along);
  if (mark->down < 0)
    return g_strdup_printf (_ ("%s right, %s up"), across, along);
  return g_strdup_printf (_ ("%s right, %s down"), across, along);
}

char *
hw_mark_place_text (const HwSnapshot *snapshot, HwPoint at, HwUnit unit)
{
  HwListedMark mark = { .at = at };
  HwPoint corner;

  g_return_val_if_fail (snapshot != NULL, NULL);

  corner = find_corner (snapshot);
  mark.right = at.x - corner.x;
  mark.down = at.y - corner.y;
  return hw_listed_mark_text (&mark, unit);
}

char *
hw_mark_list_text (const HwMarkList *list, HwUnit unit)
{
  GString *text;

  g_return_val_if_fail (list != NULL, NULL);

  text = g_string_new (list->from);
  g_string_append_c (text, '\n');
  g_string_append_printf (text, "%s\t%s\t%s\n", _ ("Mark"),
                          unit == HW_UNIT_MM ? _ ("Right (mm)") : _ ("Right (in)"),
                          unit == HW_UNIT_MM ? _ ("Down (mm)") : _ ("Down (in)"));
  for (guint i = 0; i < list->marks->len; i++)
    {
      const HwListedMark *mark = g_ptr_array_index (list->marks, i);
      g_autofree char *right = hw_length_figure (mark->right, unit);
      g_autofree char *down = hw_length_figure (mark->down, unit);

      g_string_append_printf (text, "%s\t%s\t%s\n", mark->name, right, down);
    }
  return g_string_free (text, FALSE);
}

char *
hw_mark_error_text (double mm, HwUnit unit)
{
  g_autofree char *figure = NULL;

  if (!isfinite (mm))
    return g_strdup (_ ("not known"));
  figure = unit == HW_UNIT_INCH ? hw_figure_text (mm / HW_MM_PER_INCH, 3) : hw_figure_text (mm, 2);
  return unit == HW_UNIT_INCH ? g_strdup_printf (_ ("%s in"), figure) : g_strdup_printf (_ ("%s mm"), figure);
}

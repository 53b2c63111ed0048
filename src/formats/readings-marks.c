/* What was read and measured, brought together with the plan: hoopings by their number, marks by their letter. */

#include "../geometry/one-line.h"
#include "readings-json.h"
#include "../geometry/language.h"

static void
refuse (const HwMeasured *measured, GError **error, const char *format, ...) G_GNUC_PRINTF (3, 4);

static void
refuse (const HwMeasured *measured, GError **error, const char *format, ...)
{
  g_autofree char *text = NULL;
  g_autofree char *line = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  line = hw_one_line (text);
  g_set_error_literal (error, HW_MEASURED_ERROR, HW_MEASURED_ERROR_MARK, line);
  if (measured->name != NULL)
    g_prefix_error (error, "%s: ", measured->name);
}

gboolean
hw_measured_names_marks (const HwMeasured *measured)
{
  g_return_val_if_fail (measured != NULL, FALSE);

  for (guint i = 0; i < measured->n_distances; i++)
    {
      if (measured->distances[i].hooping > 0)
        return TRUE;
    }
  return measured->n_readings > 0;
}

/* where: the path of the thing that names the hooping, for the sentence. */
static const HwHooping *
find_hooping (const HwMeasured *measured, const HwPlan *plan, guint number, const char *where, GError **error)
{
  if (number >= 1 && number <= plan->n_hoopings)
    return &plan->hoopings[number - 1];
  if (plan->n_hoopings == 0)
    refuse (measured, error, _ ("%s: the plan has no hooping, found %u."), where, number);
  else
    refuse (measured, error,
            ngettext ("%s: the plan has %u hooping, found %u.", "%s: the plan has %u hoopings, found %u.",
                      plan->n_hoopings),
            where, plan->n_hoopings, number);
  return NULL;
}

const HwHooping *
hw_measured_hooping (const HwMeasured *measured, const HwPlan *plan, GError **error)
{
  g_return_val_if_fail (measured != NULL && plan != NULL, NULL);

  return find_hooping (measured, plan, measured->hooping, "hooping", error);
}

/* "A, B and C". */
static char *
letters (const HwHooping *hooping)
{
  GString *text = g_string_new (hooping->marks[0].letter);

  for (guint i = 1; i < hooping->n_marks; i++)
    g_string_append_printf (text, i + 1 < hooping->n_marks ? ", %s" : _ (" and %s"),
                            hooping->marks[i].letter);
  return g_string_free (text, FALSE);
}

static const HwMark *
find_mark (const HwMeasured *measured,
           const HwHooping *hooping,
           guint number,
           const char *mark,
           const char *where,
           GError **error)
{
  g_autofree char *list = NULL;

  for (guint i = 0; i < hooping->n_marks; i++)
    {
      if (g_str_equal (hooping->marks[i].letter, mark))
        return &hooping->marks[i];
    }
  if (hooping->n_marks == 0)
    {
      refuse (measured, error, _ ("%s: hooping %u has no marks, found \"%s\"."), where, number, mark);
      return NULL;
    }
  list = letters (hooping);
  refuse (measured, error,
          ngettext ("%s: hooping %u has the mark %s, found \"%s\".",
                    "%s: hooping %u has the marks %s, found \"%s\".", hooping->n_marks),
          where, number, list, mark);
  return NULL;
}

HwPoint
hw_hooping_axes (const HwHooping *hooping, HwPoint p)
{
  g_return_val_if_fail (hooping != NULL, p);

  return hw_point_turn ((HwPoint){ p.x - hooping->centre.x, p.y - hooping->centre.y }, -hooping->angle);
}

HwReading *
hw_measured_readings (const HwMeasured *measured, const HwHooping *hooping, GError **error)
{
  g_autofree HwReading *readings = NULL;

  g_return_val_if_fail (measured != NULL && hooping != NULL, NULL);

  readings = g_new0 (HwReading, measured->n_readings + 1);
  for (guint i = 0; i < measured->n_readings; i++)
    {
      const HwGivenReading *given = &measured->readings[i];
      g_autofree char *where = g_strdup_printf ("readings[%u].mark", i);
      const HwMark *mark = find_mark (measured, hooping, measured->hooping, given->mark, where, error);

      if (mark == NULL)
        return NULL;
      g_strlcpy (readings[i].letter, mark->letter, sizeof readings[i].letter);
      readings[i].design = hw_hooping_axes (hooping, mark->at);
      readings[i].at = given->at;
      readings[i].left_out = given->left_out;
    }
  return g_steal_pointer (&readings);
}

static gboolean
find_end (const HwMeasured *measured,
          const HwPlan *plan,
          guint distance,
          const char *key,
          const HwGivenEnd *end,
          HwPoint *place,
          GError **error)
{
  guint number = measured->distances[distance].hooping;
  g_autofree char *of_hooping = g_strdup_printf ("distances[%u].hooping", distance);
  g_autofree char *where = g_strdup_printf ("distances[%u].%s", distance, key);
  const HwHooping *hooping;
  const HwMark *mark;

  *place = end->place;
  if (end->mark == NULL)
    return TRUE;
  hooping
      = find_hooping (measured, plan, number, number == measured->hooping ? "hooping" : of_hooping, error);
  mark = hooping != NULL ? find_mark (measured, hooping, number, end->mark, where, error) : NULL;
  if (mark == NULL)
    return FALSE;
  *place = mark->at;
  return TRUE;
}

HwDistance *
hw_measured_distances (const HwMeasured *measured, const HwPlan *plan, GError **error)
{
  g_autofree HwDistance *distances = NULL;

  g_return_val_if_fail (measured != NULL, NULL);
  g_return_val_if_fail (plan != NULL || !hw_measured_names_marks (measured), NULL);

  distances = g_new0 (HwDistance, measured->n_distances + 1);
  for (guint i = 0; i < measured->n_distances; i++)
    {
      const HwGivenDistance *given = &measured->distances[i];

      distances[i].measured = given->mm;
      if (!find_end (measured, plan, i, "from", &given->from, &distances[i].from, error)
          || !find_end (measured, plan, i, "to", &given->to, &distances[i].to, error))
        return NULL;
    }
  return g_steal_pointer (&distances);
}

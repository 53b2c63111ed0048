/* Lengths in tables: millimetres with their unit, or inches with the millimetres in brackets under a title that says so; directions in a
 * column of their own, so that figures stand under figures. */
#include "table-lengths.h"

#include <math.h>

#include "../geometry/language.h"

char *
hw_table_length (double mm, HwUnit unit)
{
  g_autofree char *figure = NULL, *millimetres = NULL;

  if (unit == HW_UNIT_MM)
    return hw_length_text (mm, unit);

  figure = hw_length_figure (mm, unit);
  millimetres = hw_length_figure (mm, HW_UNIT_MM);
  return g_strdup_printf ("%s (%s)", figure, millimetres);
}

char *
hw_table_place (double mm, HwUnit unit, const char *other_way)
{
  g_autofree char *figure = NULL;

  if (mm > -0.05)
    return hw_table_length (MAX (mm, 0), unit);

  figure = hw_length_figure (-mm, unit);
  return g_strdup_printf ("%s %s", figure, other_way);
}

char *
hw_table_length_title (const char *title, HwUnit unit)
{
  return unit == HW_UNIT_MM ? g_strdup (title) : g_strdup_printf (_ ("%s, in (mm)"), title);
}

char *
hw_table_both (double mm, HwUnit unit)
{
  g_autofree char *first = hw_length_figure (mm, unit);
  g_autofree char *second = hw_length_figure (mm, unit == HW_UNIT_MM ? HW_UNIT_INCH : HW_UNIT_MM);

  return g_strdup_printf ("%s (%s)", first, second);
}

char *
hw_table_both_title (const char *title, HwUnit unit)
{
  return g_strdup_printf (unit == HW_UNIT_MM ? _ ("%s, mm (in)") : _ ("%s, in (mm)"), title);
}

double
hw_table_figure_width (HwUnit unit)
{
  return unit == HW_UNIT_INCH ? 21.5 : 17;
}

static void
set_pair (HwCell *cells, const char *length, double value, gboolean along, char **kept)
{
  gboolean nothing = fabs (value) < 0.05;

  *kept = nothing ? g_strdup ("–") : g_strdup (length);
  cells[0] = (HwCell){ .text = *kept };
  cells[1] = (HwCell){ .text = nothing ? _ ("middle")
                               : along ? (value < 0 ? _ ("away") : _ ("towards"))
                                       : (value < 0 ? _ ("left") : _ ("right")) };
}

void
hw_table_pair (HwCell *cells, double value, HwUnit unit, gboolean along, char **kept)
{
  g_autofree char *length = hw_table_length (fabs (value), unit);

  set_pair (cells, length, value, along, kept);
}

void
hw_table_pair_both (HwCell *cells, double value, HwUnit unit, gboolean along, char **kept)
{
  g_autofree char *length = hw_table_both (fabs (value), unit);

  set_pair (cells, length, value, along, kept);
}

double
hw_table_way_width (const HwWriter *writer, gboolean along, double least)
{
  const char *words[]
      = { _ ("middle"), along ? _ ("away") : _ ("left"), along ? _ ("towards") : _ ("right") };
  HwLettering how = { .size = HW_TYPE_TEXT };
  double widest = least;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      double width;

      hw_letter_measure (writer->measure, &how, words[i], &width, NULL);
      widest = MAX (widest, width);
    }
  return widest;
}

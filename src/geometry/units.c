/* Lengths and angles in words: one decimal for millimetres, two for inches. */
#include "units.h"

#include <math.h>
#include <string.h>

#include "figures.h"
#include "language.h"

char *
hw_length_figure (double mm, HwUnit unit)
{
  return unit == HW_UNIT_INCH ? hw_figure_text (mm / HW_MM_PER_INCH, 2) : hw_figure_text (mm, 1);
}

char *
hw_length_text (double mm, HwUnit unit)
{
  g_autofree char *length = hw_length_figure (mm, unit);

  /* Translators: a length in inches, then in millimetres. */
  return unit == HW_UNIT_INCH ? g_strdup_printf (_ ("%s in"), length) : g_strdup_printf (_ ("%s mm"), length);
}

/* A side of a size: whole millimetres without a decimal, for hoops are called by them. */
static char *
side_figure (double mm, HwUnit unit)
{
  if (unit == HW_UNIT_MM && fabs (mm - round (mm)) < 0.05)
    return hw_figure_text (mm, 0);
  return hw_length_figure (mm, unit);
}

char *
hw_size_text (double width_mm, double height_mm, HwUnit unit)
{
  g_autofree char *width = side_figure (width_mm, unit);
  g_autofree char *height = side_figure (height_mm, unit);

  return unit == HW_UNIT_INCH ? g_strdup_printf (_ ("%s × %s in"), width, height)
                              : g_strdup_printf (_ ("%s × %s mm"), width, height);
}

char *
hw_angle_text (double degrees)
{
  g_autofree char *angle
      = fabs (degrees - round (degrees)) < 0.05 ? hw_figure_text (degrees, 0) : hw_figure_text (degrees, 1);

  return g_strdup_printf ("%s°", angle);
}

static const char *
skip_space (const char *text)
{
  while (g_unichar_isspace (g_utf8_get_char (text)))
    text = g_utf8_next_char (text);
  return text;
}

/* Digits with at most one comma or point; no sign, no exponent. NULL when there is no figure. */
static const char *
parse_decimal (const char *text, double *value, gboolean *whole)
{

  gboolean any = FALSE;

  *value = 0;
  *whole = TRUE;
  for (; g_ascii_isdigit (*text); text++, any = TRUE)
    *value = *value * 10 + (*text - '0');
  if (*text == '.' || *text == ',')
    {
      char buffer[32];
      gsize n = 0;

      *whole = FALSE;
      for (text++; g_ascii_isdigit (*text); text++, any = TRUE)
        if (n < sizeof buffer - 3)
          buffer[n++] = *text;
      buffer[n] = '\0';
      if (n > 0)
        *value += g_ascii_strtod (buffer, NULL) * pow (10, -(double)n);
    }
  return any ? text : NULL;
}

/* "1/2" after a whole figure or alone. */
static const char *
parse_fraction (const char *text, double *value)
{
  double over, under;
  gboolean whole;
  const char *rest = parse_decimal (text, &over, &whole);

  if (rest == NULL || !whole || *skip_space (rest) != '/')
    return NULL;
  rest = parse_decimal (skip_space (skip_space (rest) + 1), &under, &whole);
  if (rest == NULL || !whole || under == 0)
    return NULL;
  *value = over / under;
  return rest;
}

/* How many mm the unit named at text has; the unit of the person's choice where none is named. */
static gboolean
parse_unit (const char *text, HwUnit unit, double *factor)
{
  static const struct
  {
    const char *name;
    double mm;
  } names[] = {
    { "mm", 1 },
    { "cm", 10 },
    { "m", 1000 },
    { "in", HW_MM_PER_INCH },
    { "inch", HW_MM_PER_INCH },
    { "inches", HW_MM_PER_INCH },
    { "\"", HW_MM_PER_INCH },
    { "″", HW_MM_PER_INCH },
    { "”", HW_MM_PER_INCH },
  };
  g_autofree char *name = g_strdup (text);

  g_strstrip (name);
  if (*name == '\0')
    {
      *factor = unit == HW_UNIT_INCH ? HW_MM_PER_INCH : 1;
      return TRUE;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_ascii_strcasecmp (name, names[i].name) == 0)
      {
        *factor = names[i].mm;
        return TRUE;
      }
  return FALSE;
}

char *
hw_narrow_text (const char *text)
{
  g_autoptr (GString) narrow = NULL;

  g_return_val_if_fail (text != NULL, NULL);

  if (!g_utf8_validate (text, -1, NULL))
    return g_strdup (text);
  narrow = g_string_new (NULL);
  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      gunichar c = g_utf8_get_char (text);

      if (c >= 0xff01 && c <= 0xff5e) /* in the order of ASCII from its exclamation mark on */
        c -= 0xff01 - '!';
      else if (c == 0x3000)
        c = ' ';
      else if (c == 0x3001)
        c = ',';
      else if (c == 0x3002)
        c = '.';
      else if (c == 0x30fc)
        c = '-';
      g_string_append_unichar (narrow, c);
    }
  return g_string_free (g_steal_pointer (&narrow), FALSE);
}

gboolean
hw_length_parse (const char *text, HwUnit unit, double *mm)
{
  double value, part, factor;
  gboolean whole, minus = FALSE;
  g_autofree char *narrow = NULL;
  const char *rest, *after;

  g_return_val_if_fail (mm != NULL, FALSE);

  if (text == NULL || !g_utf8_validate (text, -1, NULL))
    return FALSE;
  narrow = hw_narrow_text (text);
  text = skip_space (narrow);
  if (*text == '-' || g_str_has_prefix (text, "−"))
    {
      minus = TRUE;
      text = skip_space (g_utf8_next_char (text));
    }
  else if (*text == '+')
    text = skip_space (text + 1);

  rest = parse_fraction (text, &value);
  if (rest == NULL)
    {
      rest = parse_decimal (text, &value, &whole);
      if (rest == NULL)
        return FALSE;
      if (whole && (after = parse_fraction (skip_space (rest), &part)) != NULL)
        {
          value += part;
          rest = after;
        }
    }
  if (!parse_unit (rest, unit, &factor) || !isfinite (value * factor))
    return FALSE;
  *mm = (minus ? -value : value) * factor;
  return TRUE;
}

/* Figures and dates as a language writes them. An entered language may be one the system has no locale for, so it brings its own signs and names
 * among its translations. */
#include "figures.h"

#include <math.h>
#include <string.h>

#include "language.h"

#define GROUP 3 /* digits set apart together */

char *
hw_figure_text (double value, int decimals)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE + 340], format[16]; /* the largest double has 309 digits */
  char *point;

  if (fabs (value) < pow (10, -decimals) / 2)
    value = 0;
  if (hw_language_now () == NULL)
    return g_strdup_printf ("%.*f", decimals, value);

  g_snprintf (format, sizeof format, "%%.%df", CLAMP (decimals, 0, 20));
  g_ascii_formatd (buffer, sizeof buffer, format, value);
  point = strchr (buffer, '.');
  if (point == NULL)
    return g_strdup (buffer);
  *point = '\0';
  /* Translators: the sign between whole and tenths, as in "12.5 mm". */
  return g_strconcat (buffer, C_ ("between whole and tenths", "."), point + 1, NULL);
}

char *
hw_count_text (gulong count)
{
  g_autofree char *digits = NULL;
  GString *text;
  const char *sign;
  gsize n;

  if (hw_language_now () == NULL)
    return g_strdup_printf ("%'lu", count);

  /* Translators: the sign that sets thousands apart, as in "12,400 stitches". */
  sign = C_ ("between thousands", ",");
  digits = g_strdup_printf ("%lu", count);
  n = strlen (digits);
  text = g_string_new (NULL);
  for (gsize i = 0; i < n; i++)
    {
      if (i > 0 && (n - i) % GROUP == 0)
        g_string_append (text, sign);
      g_string_append_c (text, digits[i]);
    }
  return g_string_free (text, FALSE);
}

static const char *
day_name (int day)
{
  const char *names[] = { _ ("Monday"), _ ("Tuesday"),  _ ("Wednesday"), _ ("Thursday"),
                          _ ("Friday"), _ ("Saturday"), _ ("Sunday") };

  return names[day - 1];
}

static const char *
month_name (int month)
{
  const char *names[] = { C_ ("month", "January"), C_ ("month", "February"), C_ ("month", "March"),
                          C_ ("month", "April"),   C_ ("month", "May"),      C_ ("month", "June"),
                          C_ ("month", "July"),    C_ ("month", "August"),   C_ ("month", "September"),
                          C_ ("month", "October"), C_ ("month", "November"), C_ ("month", "December") };

  return names[month - 1];
}

char *
hw_date_text (GDateTime *time, const char *format)
{
  g_autoptr (GString) own = NULL;

  g_return_val_if_fail (time != NULL && format != NULL, NULL);

  own = g_string_new (format);
  if (hw_language_now () != NULL)
    {
      g_string_replace (own, "%A", day_name (g_date_time_get_day_of_week (time)), 0);
      g_string_replace (own, "%B", month_name (g_date_time_get_month (time)), 0);
    }
  return g_date_time_format (time, own->str);
}

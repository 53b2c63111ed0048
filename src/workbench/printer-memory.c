/* Printers that are not true to size: what was measured once on a test sheet is remembered for each by the desktop's name. */
#include "printer-memory.h"

#include <glib/gi18n.h>
#include <math.h>

#include "settings.h"

#define KEY "printer-stretch"
#define LEAST_TOLD 0.05 /* per cent */

/* Settings are files that anybody may write in. */
static gboolean
is_sound (double stretch)
{
  return stretch >= 0.5 && stretch <= 2;
}

/* Returns: (transfer full) (nullable) */
static GVariant *
read_all (void)
{
  GSettings *settings = hw_settings_get ();

  return settings != NULL ? g_settings_get_value (settings, KEY) : NULL;
}

static gboolean
look_up (const char *printer, double *stretch_x, double *stretch_y)
{
  g_autoptr (GVariant) all = read_all ();

  return all != NULL && g_variant_lookup (all, printer, "(dd)", stretch_x, stretch_y) && is_sound (*stretch_x)
         && is_sound (*stretch_y);
}

void
hw_printer_memory_get (const char *printer, double *stretch_x, double *stretch_y)
{
  g_return_if_fail (printer != NULL && stretch_x != NULL && stretch_y != NULL);

  if (!look_up (printer, stretch_x, stretch_y))
    *stretch_x = *stretch_y = 1;
}

gboolean
hw_printer_memory_knows (const char *printer)
{
  double x, y;

  g_return_val_if_fail (printer != NULL, FALSE);
  return look_up (printer, &x, &y);
}

/* stretch_x 0: only takes the old entry away */
static void
replace (const char *printer, double stretch_x, double stretch_y)
{
  GSettings *settings = hw_settings_get ();
  g_autoptr (GVariant) all = read_all ();
  GVariantBuilder builder;
  GVariantIter iter;
  const char *name;
  double x, y;

  if (settings == NULL)
    return;
  g_variant_builder_init (&builder, G_VARIANT_TYPE ("a{s(dd)}"));
  g_variant_iter_init (&iter, all);
  while (g_variant_iter_next (&iter, "{&s(dd)}", &name, &x, &y))
    if (!g_str_equal (name, printer))
      g_variant_builder_add (&builder, "{s(dd)}", name, x, y);
  if (stretch_x > 0)
    g_variant_builder_add (&builder, "{s(dd)}", printer, stretch_x, stretch_y);
  g_settings_set_value (settings, KEY, g_variant_builder_end (&builder));
}

void
hw_printer_memory_set (const char *printer, double stretch_x, double stretch_y)
{
  g_return_if_fail (printer != NULL && is_sound (stretch_x) && is_sound (stretch_y));

  replace (printer, stretch_x, stretch_y);
}

void
hw_printer_memory_forget (const char *printer)
{
  g_return_if_fail (printer != NULL);

  replace (printer, 0, 0);
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return g_utf8_collate (*(const char *const *)a, *(const char *const *)b);
}

GStrv
hw_printer_memory_names (void)
{
  g_autoptr (GVariant) all = read_all ();
  g_autofree char *last = hw_settings_get_text (HW_SETTING_PRINTER);
  GPtrArray *names = g_ptr_array_new ();
  GVariantIter iter;
  const char *name;

  if (all != NULL)
    {
      g_variant_iter_init (&iter, all);
      while (g_variant_iter_next (&iter, "{&s(dd)}", &name, NULL, NULL))
        if (*name != '\0' && !g_str_equal (name, last))
          g_ptr_array_add (names, g_strdup (name));
    }
  if (*last != '\0')
    g_ptr_array_add (names, g_strdup (last));
  g_ptr_array_sort (names, compare_names);
  g_ptr_array_insert (names, 0, g_strdup (""));
  g_ptr_array_add (names, NULL);
  return (GStrv)g_ptr_array_free (names, FALSE);
}

const char *
hw_printer_words (const char *printer)
{
  return *printer != '\0' ? printer : _ ("PDF files");
}

static char *
across_words (double stretch)
{
  double by = 100 * fabs (stretch - 1);

  if (by < LEAST_TOLD)
    return g_strdup (_ ("as it is across"));
  return stretch > 1 ? g_strdup_printf (_ ("%.1f %% longer across"), by)
                     : g_strdup_printf (_ ("%.1f %% shorter across"), by);
}

static char *
down_words (double stretch)
{
  double by = 100 * fabs (stretch - 1);

  if (by < LEAST_TOLD)
    return g_strdup (_ ("as it is down"));
  return stretch > 1 ? g_strdup_printf (_ ("%.1f %% longer down"), by)
                     : g_strdup_printf (_ ("%.1f %% shorter down"), by);
}

char *
hw_printer_memory_sentence (const char *printer)
{
  g_autofree char *across = NULL, *down = NULL;
  double x, y;

  g_return_val_if_fail (printer != NULL, NULL);

  if (!hw_printer_memory_knows (printer))
    return g_strdup_printf (_ ("%s: everything is drawn as it is."), hw_printer_words (printer));
  hw_printer_memory_get (printer, &x, &y);
  across = across_words (x);
  down = down_words (y);
  /* Translators: a printer, then what pages are drawn longer or shorter by in both directions */
  return g_strdup_printf (_ ("%s: everything is drawn %s, %s."), hw_printer_words (printer), across, down);
}

/* One setting holds all printers: name -> (sheet, settings). Settings are texts of the desktop's own, carried from one print dialog to the next unread. */
#include "printer-setup.h"

#include "settings.h"

#define KEY "printer-setups"
#define TYPE "a{s(sa{ss})}"
#define MOST 40 /* printers; nobody has more */

/* Returns: (transfer full) (nullable): "(sa{ss})" */
static GVariant *
look_up (const char *printer)
{
  GSettings *settings = hw_settings_get ();
  g_autoptr (GVariant) all = settings != NULL ? g_settings_get_value (settings, KEY) : NULL;

  return all != NULL ? g_variant_lookup_value (all, printer, G_VARIANT_TYPE ("(sa{ss})")) : NULL;
}

static gboolean
is_of_one_job (const char *key)
{
  static const char *const keys[]
      = { GTK_PRINT_SETTINGS_PRINTER,     GTK_PRINT_SETTINGS_N_COPIES,        GTK_PRINT_SETTINGS_PRINT_PAGES,
          GTK_PRINT_SETTINGS_PAGE_RANGES, GTK_PRINT_SETTINGS_PAGE_SET,        GTK_PRINT_SETTINGS_OUTPUT_URI,
          GTK_PRINT_SETTINGS_SCALE,       GTK_PRINT_SETTINGS_OUTPUT_BASENAME, GTK_PRINT_SETTINGS_NUMBER_UP,
          GTK_PRINT_SETTINGS_OUTPUT_DIR,  GTK_PRINT_SETTINGS_ORIENTATION,     GTK_PRINT_SETTINGS_PAPER_FORMAT,
          GTK_PRINT_SETTINGS_PAPER_WIDTH, GTK_PRINT_SETTINGS_PAPER_HEIGHT };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (g_str_equal (key, keys[i]))
      return TRUE;
  return FALSE;
}

static void
add_cb (const char *key, const char *value, gpointer builder)
{
  if (value != NULL && !is_of_one_job (key) && g_utf8_validate (value, -1, NULL))
    g_variant_builder_add (builder, "{ss}", key, value);
}

void
hw_printer_setup_keep (const char *printer, const char *sheet, GtkPrintSettings *settings)
{
  g_return_if_fail (printer != NULL && sheet != NULL);
  g_return_if_fail (GTK_IS_PRINT_SETTINGS (settings));

  GSettings *kept = hw_settings_get ();
  g_autoptr (GVariant) before = kept != NULL ? g_settings_get_value (kept, KEY) : NULL;
  GVariantBuilder all, set;
  GVariantIter iter;
  const char *name, *its_sheet;
  GVariant *its_settings;
  guint n = 1;

  if (kept == NULL || !g_utf8_validate (printer, -1, NULL))
    return;
  g_variant_builder_init (&set, G_VARIANT_TYPE ("a{ss}"));
  gtk_print_settings_foreach (settings, add_cb, &set);
  g_variant_builder_init (&all, G_VARIANT_TYPE (TYPE));
  g_variant_builder_add (&all, "{s(sa{ss})}", printer, sheet, &set);
  g_variant_iter_init (&iter, before);
  while (g_variant_iter_next (&iter, "{&s(&s@a{ss})}", &name, &its_sheet, &its_settings))
    {
      if (!g_str_equal (name, printer) && n++ < MOST)
        g_variant_builder_add (&all, "{s(s@a{ss})}", name, its_sheet, its_settings);
      g_variant_unref (its_settings);
    }
  g_settings_set_value (kept, KEY, g_variant_builder_end (&all));
}

void
hw_printer_setup_apply (const char *printer, GtkPrintSettings *settings)
{
  g_return_if_fail (printer != NULL);
  g_return_if_fail (GTK_IS_PRINT_SETTINGS (settings));

  g_autoptr (GVariant) kept = look_up (printer);
  g_autoptr (GVariant) set = kept != NULL ? g_variant_get_child_value (kept, 1) : NULL;
  GVariantIter iter;
  const char *key, *value;

  if (set == NULL)
    return;
  g_variant_iter_init (&iter, set);
  while (g_variant_iter_next (&iter, "{&s&s}", &key, &value))
    if (!is_of_one_job (key))
      gtk_print_settings_set (settings, key, value);
}

char *
hw_printer_setup_sheet (const char *printer)
{
  g_autoptr (GVariant) kept = NULL;
  char *sheet = NULL;

  g_return_val_if_fail (printer != NULL, NULL);

  kept = look_up (printer);
  if (kept != NULL)
    g_variant_get (kept, "(sa{ss})", &sheet, NULL);
  return sheet;
}

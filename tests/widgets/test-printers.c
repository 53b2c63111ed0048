/* What is kept of each printer: how it was set and on which sheet, and by how much its pages are drawn longer; not what belonged to one job. */
#include "hands.h"
#include "workbench/printer-memory.h"
#include "workbench/printer-setup.h"

static GtkPrintSettings *
applied (const char *printer)
{
  GtkPrintSettings *settings = gtk_print_settings_new ();

  hw_printer_setup_apply (printer, settings);
  return settings;
}

static void
keep (const char *printer, const char *sheet, const char *key, const char *value)
{
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();

  gtk_print_settings_set (settings, key, value);
  hw_printer_setup_keep (printer, sheet, settings);
}

static void
a_printer_is_set_as_it_was (void)
{
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();
  g_autofree char *none = hw_printer_setup_sheet ("Barn printer");

  g_assert_null (none);
  g_autoptr (GtkPrintSettings) untouched = applied ("Barn printer");
  g_assert_false (gtk_print_settings_has_key (untouched, "tray"));
  gtk_print_settings_set (settings, "tray", "lower");
  gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_QUALITY, "high");
  gtk_print_settings_set_n_copies (settings, 7);
  gtk_print_settings_set_scale (settings, 50);
  gtk_print_settings_set (settings, "broken", "\xff\xfe");
  hw_printer_setup_keep ("Barn printer", "A4", settings);
  g_autoptr (GtkPrintSettings) again = applied ("Barn printer");
  g_assert_cmpstr (gtk_print_settings_get (again, "tray"), ==, "lower");
  g_assert_cmpstr (gtk_print_settings_get (again, GTK_PRINT_SETTINGS_QUALITY), ==, "high");
  /* What would spoil the true size, or belonged to the one job, is not carried on. */
  g_assert_false (gtk_print_settings_has_key (again, GTK_PRINT_SETTINGS_SCALE));
  g_assert_false (gtk_print_settings_has_key (again, GTK_PRINT_SETTINGS_N_COPIES));
  g_assert_false (gtk_print_settings_has_key (again, "broken"));
  g_autofree char *sheet = hw_printer_setup_sheet ("Barn printer");
  g_assert_cmpstr (sheet, ==, "A4");
}

static void
each_printer_has_its_own (void)
{
  keep ("", "A5", "tray", "none");
  keep ("Quay printer", "A3", "tray", "upper");
  keep ("Quay printer", "A4", "tray", "middle");
  keep ("\xff", "A4", "tray", "nowhere"); /* no name that could be kept */
  g_autofree char *file = hw_printer_setup_sheet (""), *quay = hw_printer_setup_sheet ("Quay printer");
  g_assert_cmpstr (file, ==, "A5");
  g_assert_cmpstr (quay, ==, "A4");
  g_autoptr (GtkPrintSettings) settings = applied ("Quay printer");
  g_assert_cmpstr (gtk_print_settings_get (settings, "tray"), ==, "middle");
}

/* Nobody has so many printers: those set longest ago are forgotten. */
static void
the_oldest_of_very_many_is_forgotten (void)
{
  keep ("First of all", "A4", "tray", "upper");
  for (guint i = 0; i < 45; i++)
    {
      g_autofree char *name = g_strdup_printf ("Printer %u", i);

      keep (name, "A4", "tray", "upper");
    }
  g_autofree char *first = hw_printer_setup_sheet ("First of all");
  g_autofree char *last = hw_printer_setup_sheet ("Printer 44");
  g_autofree char *within = hw_printer_setup_sheet ("Printer 10");
  g_assert_null (first);
  g_assert_cmpstr (last, ==, "A4");
  g_assert_cmpstr (within, ==, "A4");
}

static void
what_a_printer_draws_longer_is_remembered (void)
{
  double x = 0, y = 0;

  g_assert_false (hw_printer_memory_knows ("Barn printer"));
  hw_printer_memory_get ("Barn printer", &x, &y);
  g_assert_cmpfloat (x, ==, 1);
  g_assert_cmpfloat (y, ==, 1);
  hw_printer_memory_set ("Barn printer", 1.017, 0.992);
  hw_printer_memory_set ("Quay printer", 1, 1.005);
  g_assert_true (hw_printer_memory_knows ("Barn printer"));
  hw_printer_memory_get ("Barn printer", &x, &y);
  g_assert_cmpfloat_with_epsilon (x, 1.017, 1e-9);
  g_assert_cmpfloat_with_epsilon (y, 0.992, 1e-9);
  g_auto (GStrv) names = hw_printer_memory_names ();
  g_assert_cmpstr (names[0], ==, "");
  g_assert_true (g_strv_contains ((const char *const *)names, "Barn printer"));
  g_assert_true (g_strv_contains ((const char *const *)names, "Quay printer"));
  g_assert_cmpstr (hw_printer_words ("Barn printer"), ==, "Barn printer");
  g_assert_cmpstr (hw_printer_words (""), ==, "PDF files");
  g_autofree char *said = hw_printer_memory_sentence ("Barn printer");
  g_assert_nonnull (strstr (said, "Barn printer"));
  g_assert_nonnull (strstr (said, "1.7"));
  g_assert_nonnull (strstr (said, "0.8"));
  hw_printer_memory_forget ("Barn printer");
  g_assert_false (hw_printer_memory_knows ("Barn printer"));
  g_assert_true (hw_printer_memory_knows ("Quay printer"));
  hw_printer_memory_forget ("Barn printer"); /* once more does no harm */
  hw_printer_memory_get ("Barn printer", &x, &y);
  g_assert_cmpfloat (x, ==, 1);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add_func ("/printers/" #test, test)
  ADD (a_printer_is_set_as_it_was);
  ADD (each_printer_has_its_own);
  ADD (the_oldest_of_very_many_is_forgotten);
  ADD (what_a_printer_draws_longer_is_remembered);
  return g_test_run ();
}

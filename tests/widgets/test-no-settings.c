/* Where the program's settings are not installed it works all the same, with what it begins with, and only remembers nothing. */
#include "dialog-fixture.h"
#include "window-fixture.h"
#include "workbench/own-hoops.h"
#include "workbench/paper-dialog-private.h"
#include "workbench/paper-dialog.h"
#include "workbench/printer-memory.h"
#include "workbench/printer-setup.h"
#include "workbench/settings.h"

static void
nothing_is_remembered (void)
{
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();
  double x, y;

  g_assert_null (hw_settings_get ());
  hw_settings_set_unit (HW_UNIT_INCH);
  g_assert_cmpint (hw_settings_get_unit (), ==, HW_UNIT_MM);
  hw_settings_set_text (HW_SETTING_PRINTER, "Barn printer");
  g_autofree char *printer = hw_settings_get_text (HW_SETTING_PRINTER);
  g_assert_cmpstr (printer, ==, "");
  hw_settings_set_place (HW_SETTING_PAPER_KIND, 2);
  g_assert_cmpuint (hw_settings_get_place (HW_SETTING_PAPER_KIND), ==, 0);
  hw_settings_set_flag (HW_SETTING_PAPER_NESTED, TRUE);
  g_assert_false (hw_settings_get_flag (HW_SETTING_PAPER_NESTED, FALSE));
  g_assert_true (hw_settings_get_flag (HW_SETTING_PAPER_NESTED, TRUE));
  hw_printer_memory_set ("Barn printer", 1.01, 1.02);
  g_assert_false (hw_printer_memory_knows ("Barn printer"));
  hw_printer_memory_get ("Barn printer", &x, &y);
  g_assert_true (x == 1 && y == 1);
  hw_printer_memory_forget ("Barn printer");
  g_auto (GStrv) names = hw_printer_memory_names ();
  g_assert_cmpuint (g_strv_length (names), ==, 1);
  gtk_print_settings_set (settings, "tray", "lower");
  hw_printer_setup_keep ("Barn printer", "A4", settings);
  g_autofree char *sheet = hw_printer_setup_sheet ("Barn printer");
  g_assert_null (sheet);
  g_autoptr (GPtrArray) hoops = hw_own_hoops_get ();
  hw_own_hoops_set (hoops);
  g_assert_cmpuint (hoops->len, ==, 0);
}

/* The whole window, its size and the folds of its pane too. */
static void
the_window_works (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "orchard.hoopscene");

  hw_bench_select_only (room->bench, "m1");
  hw_bench_nudge (room->bench, 5, 0);
  g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  room_do (room, "start-page", NULL);
  g_assert_true (hw_window_is_at_start (room->window));
  hw_window_leave_start (room->window);
  hw_bench_set_unit (room->bench, HW_UNIT_INCH);
  hands_settle ();
  hw_window_set_pane_open (room->window, FALSE);
  gtk_window_close (GTK_WINDOW (room->window));
  hands_settle ();
  g_assert_null (gtk_application_get_windows (room->application));
  room->window = NULL;
}

static void
paper_is_laid_out (Desk *desk, gconstpointer data)
{
  HwPaperDialog *paper;

  desk_open (desk, hw_paper_dialog_show, "On paper");
  paper = hw_paper_dialog_of (desk->dialog);
  room_until (gtk_widget_is_sensitive (paper->save) && !paper->laying);
  g_assert_cmpint (hw_paper_dialog_options (paper, "").kind, ==, HW_PAPER_TEMPLATES);
  gtk_window_destroy (desk->dialog);
  hands_settle ();
}

int
main (int argc, char **argv)
{
  g_setenv ("GSETTINGS_SCHEMA_DIR", "/nowhere", TRUE);
  g_setenv ("XDG_DATA_DIRS", "/usr/share", TRUE);
  if (!hands_ready (&argc, &argv))
    return 0;
  g_test_add_func ("/no-settings/nothing_is_remembered", nothing_is_remembered);
  g_test_add ("/no-settings/the_window_works", Room, NULL, room_set_up, the_window_works, room_tear_down);
  g_test_add ("/no-settings/paper_is_laid_out", Desk, NULL, desk_set_up, paper_is_laid_out, desk_tear_down);
  return g_test_run ();
}

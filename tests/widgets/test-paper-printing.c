/* Paper that goes to a printer: at true size and where one says; what was measured of a printer makes its pages true, and what was chosen is chosen the next time. */
#include <glib/gstdio.h>

#include "../folders.h"
#include "dialog-fixture.h"
#include "paper/sheet-size.h"
#include "paper/test-sheet.h"
#include "window-fixture.h"
#include "workbench/paper-dialog-private.h"
#include "workbench/paper-dialog.h"
#include "workbench/printer-memory.h"
#include "workbench/printer-setup.h"
#include "workbench/section.h"
#include "workbench/settings.h"

#define TITLE "On paper"
#define BARN "Barn printer"

typedef struct
{
  Desk desk;
  HwPaperDialog *paper;
  gpointer alive;
  char *folder;
} Fixture;

static gboolean
is_ready (Fixture *f)
{
  return gtk_widget_is_sensitive (f->paper->save) && !f->paper->laying;
}

static void
open (Fixture *f)
{
  desk_open (&f->desk, hw_paper_dialog_show, TITLE);
  f->paper = hw_paper_dialog_of (f->desk.dialog);
  f->alive = f->desk.dialog;
  g_object_add_weak_pointer (G_OBJECT (f->desk.dialog), &f->alive);
  room_until (is_ready (f));
}

static void
close_it (Fixture *f)
{
  if (f->alive != NULL && hands_window (TITLE) != NULL)
    gtk_window_destroy (f->desk.dialog);
  room_until (f->alive == NULL);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  desk_set_up (&f->desk, NULL);
  f->folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  hw_settings_set_text (HW_SETTING_LAST_FOLDER, f->folder);
  hw_settings_set_text (HW_SETTING_PRINTER, "");
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  close_it (f);
  desk_tear_down (&f->desk, NULL);
  folder_remove (f->folder);
  g_free (f->folder);
}

static gboolean
says (Fixture *f, const char *beginning)
{
  return gtk_widget_get_visible (f->paper->trouble)
         && g_str_has_prefix (gtk_label_get_text (GTK_LABEL (f->paper->trouble)), beginning);
}

static GtkWidget *
print_question (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (g_str_equal (G_OBJECT_TYPE_NAME (window), "GtkPrintUnixDialog") && gtk_widget_get_visible (window))
        return window;
    }
  return NULL;
}

/* The printer that is a file is chosen, once the desktop has found it. */
static gboolean
file_is_chosen (GtkWidget *question)
{
  GtkWidget *list = room_first (question, GTK_TYPE_COLUMN_VIEW);
  GtkSelectionModel *printers = gtk_column_view_get_model (GTK_COLUMN_VIEW (list));

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (printers)); i++)
    {
      g_autoptr (GObject) printer = g_list_model_get_item (G_LIST_MODEL (printers), i);
      g_autofree char *name = NULL;

      g_object_get (printer, "name", &name, NULL);
      if (g_strcmp0 (name, "Print to File") == 0)
        return gtk_selection_model_select_item (printers, i, TRUE);
    }
  return FALSE;
}

/* The desktop's question is answered: into a file. */
static void
print_into_a_file (void)
{
  room_until (print_question () != NULL);
  GtkWidget *question = print_question ();
  GtkWidget *go = gtk_dialog_get_widget_for_response (GTK_DIALOG (question), GTK_RESPONSE_OK);
  room_until (file_is_chosen (question));
  room_until (gtk_widget_is_sensitive (go));
  gtk_dialog_response (GTK_DIALOG (question), GTK_RESPONSE_OK);
  hands_settle ();
}

/* The one PDF in the folder, or NULL. Returns: (transfer full) */
static char *
printed (Fixture *f)
{
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".pdf"))
      return g_build_filename (f->folder, name, NULL);
  return NULL;
}

static void
pages_go_where_the_desktop_puts_them (Fixture *f, gconstpointer data)
{
  open (f);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Paper size")),
                              1);
  room_until (is_ready (f));
  const char *sheet = hw_paper_dialog_options (f->paper, "").sheet->name;
  g_signal_emit_by_name (f->paper->print, "clicked");
  print_into_a_file ();
  room_until (f->paper->operation == NULL && f->paper->writing == NULL);
  g_autofree char *path = printed (f), *bytes = NULL;
  gsize n;
  g_assert_nonnull (path);
  g_assert_true (g_file_get_contents (path, &bytes, &n, NULL));
  g_assert_true (g_str_has_prefix (bytes, "%PDF-"));
  g_assert_false (gtk_widget_has_css_class (f->paper->trouble, "trouble")
                  && gtk_widget_get_visible (f->paper->trouble));
  g_autofree char *kept = hw_printer_setup_sheet ("");
  g_assert_cmpstr (kept, ==, sheet);
  g_assert_true (is_ready (f));
}

/* The test sheet is measured next; that is said where the lengths are typed. */
static void
after_the_test_sheet_one_measures (Fixture *f, gconstpointer data)
{
  open (f);
  g_signal_emit_by_name (f->paper->truth, "print-test");
  print_into_a_file ();
  room_until (f->paper->operation == NULL && f->paper->writing == NULL);
  g_autofree char *path = printed (f);
  g_assert_nonnull (path);
  hw_section_set_open (HW_SECTION (gtk_widget_get_ancestor (GTK_WIDGET (f->paper->truth), HW_TYPE_SECTION)),
                       TRUE);
  hands_says (f->paper->truth, "Print the saved test sheet at 100 %");
}

/* Closed while pages go out, the dialog says no more, and the pages come all the same. */
static void
closed_while_pages_go_out (Fixture *f, gconstpointer data)
{
  open (f);
  g_signal_emit_by_name (f->paper->print, "clicked");
  print_into_a_file ();
  gtk_window_destroy (f->desk.dialog);
  room_until (f->alive == NULL);
  char *path = NULL;
  room_until ((path = printed (f)) != NULL);
  g_free (path);
}

/* Which of the printers is chosen in the list: "" is a file. */
static void
choose_printer (Fixture *f, const char *name)
{
  g_auto (GStrv) names = hw_printer_memory_names ();

  for (guint i = 0; names[i] != NULL; i++)
    if (g_str_equal (names[i], name))
      {
        gtk_drop_down_set_selected (
            GTK_DROP_DOWN (hands_find (f->paper->truth, GTK_TYPE_DROP_DOWN, "Printer")), i);
        hands_settle ();
        return;
      }
  g_error ("no printer is called “%s”", name);
}

/* What the ruler said makes the printer's pages true, until that is forgotten; what is no length is asked about. */
static void
what_the_ruler_said_makes_pages_true (Fixture *f, gconstpointer data)
{
  GtkWidget *across, *down;
  double lengths[2], x, y;

  hw_printer_memory_set (BARN, 1, 1.01); /* it is known, and gets other figures */
  open (f);
  hw_section_set_open (HW_SECTION (gtk_widget_get_ancestor (GTK_WIDGET (f->paper->truth), HW_TYPE_SECTION)),
                       TRUE);
  across = hands_find (f->paper->truth, GTK_TYPE_ENTRY, "Measured across");
  down = hands_find (f->paper->truth, GTK_TYPE_ENTRY, "Measured down");
  choose_printer (f, BARN);
  room_until (is_ready (f));
  g_assert_true (gtk_widget_get_visible (f->paper->applied));
  GtkWidget *remember = hands_find (f->paper->truth, GTK_TYPE_BUTTON, "Remember these lengths");
  g_assert_false (gtk_widget_is_sensitive (remember));
  hands_type (across, "wide");
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (f->desk.dialog)), down)
                 || gtk_root_get_focus (GTK_ROOT (f->desk.dialog)) == down);
  hands_type (down, "100");
  hands_says (f->paper->truth, "Please type what the ruler said, such as 179.5 mm.");
  hw_test_sheet_lengths (hw_paper_dialog_options (f->paper, "").sheet, HW_UNIT_MM, &lengths[0], &lengths[1]);
  g_autofree char *far_off = g_strdup_printf ("%.1f", lengths[0] * 3);
  hands_type (across, far_off);
  g_autofree char *still = hands_sentence (f->paper->truth, "Please type what");
  g_assert_null (still); /* another sentence: no printer is that far off */
  hw_printer_memory_get (BARN, &x, &y);
  g_assert_cmpfloat_with_epsilon (y, 1.01, 1e-9);
  g_autofree char *longer = g_strdup_printf ("%.2f", lengths[0] * 1.02);
  g_autofree char *shorter = g_strdup_printf ("%.2f", lengths[1] * 0.99);
  gtk_editable_set_text (GTK_EDITABLE (down), shorter);
  hands_type (across, longer);
  hw_printer_memory_get (BARN, &x, &y);
  g_assert_cmpfloat_with_epsilon (x, 1 / 1.02, 2e-3);
  g_assert_cmpfloat_with_epsilon (y, 1 / 0.99, 2e-3);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (across)), ==, "");
  room_until (is_ready (f));
  /* In inches the ruler is asked in inches. */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Lengths in")),
                              2);
  room_until (is_ready (f));
  gtk_editable_set_text (GTK_EDITABLE (down), "none");
  hands_type (across, "none");
  hands_says (f->paper->truth, "Please type what the ruler said, such as 7 1/2 in.");
  hands_click (f->paper->truth, "Forget what was measured");
  g_assert_false (hw_printer_memory_knows (BARN));
  room_until (is_ready (f));
  g_assert_false (gtk_widget_get_visible (f->paper->applied));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Lengths in")),
                              0);
}

/* A printer's own sheet is chosen with it. */
static void
a_printers_sheet_comes_with_it (Fixture *f, gconstpointer data)
{
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();

  hw_printer_memory_set (BARN, 1.004, 1);
  hw_printer_setup_keep (BARN, "A3", settings);
  open (f);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Paper size")),
                              0);
  room_until (is_ready (f));
  choose_printer (f, BARN);
  room_until (is_ready (f));
  g_assert_cmpstr (hw_paper_dialog_options (f->paper, BARN).sheet->name, ==, "A3");
  g_assert_cmpfloat_with_epsilon (hw_paper_dialog_options (f->paper, BARN).stretch_x, 1.004, 1e-9);
  hw_printer_memory_forget (BARN);
}

static void
kind (Fixture *f, const char *name)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (f->desk.dialog, GTK_TYPE_CHECK_BUTTON, name)),
                               TRUE);
  room_until (is_ready (f));
}

/* Laid out for one printer and sent to another, the pages are laid out for that. */
static void
pages_are_true_for_the_printer_they_go_to (Fixture *f, gconstpointer data)
{
  g_autofree char *bytes = NULL, *again = NULL;
  gsize n, n_again;

  hw_printer_memory_set (BARN, 1.1, 1.1);
  open (f);
  kind (f, "Layout");
  g_signal_emit_by_name (f->paper->print, "clicked");
  print_into_a_file ();
  room_until (f->paper->operation == NULL && f->paper->writing == NULL);
  g_autofree char *path = printed (f);
  g_assert_true (g_file_get_contents (path, &bytes, &n, NULL));
  g_remove (path);
  choose_printer (f, BARN);
  room_until (is_ready (f));
  g_signal_emit_by_name (f->paper->print, "clicked");
  print_into_a_file ();
  room_until (f->paper->operation == NULL && f->paper->writing == NULL);
  g_assert_cmpstr (hw_printer_truth_get_printer (f->paper->truth), ==, "");
  g_assert_true (g_file_get_contents (path, &again, &n_again, NULL));
  g_assert_cmpuint (ABS ((int)n - (int)n_again), <, 64); /* the same pages, but for the day and a name */
  hw_printer_memory_forget (BARN);
}

/* What was chosen is chosen the next time; each paper has the choices that matter to it. */
static void
what_was_chosen_is_chosen_again (Fixture *f, gconstpointer data)
{
  GtkWidget *looks;

  open (f);
  kind (f, "Bench sheet");
  g_assert_cmpint (hw_paper_dialog_options (f->paper, "").kind, ==, HW_PAPER_BENCH_SHEET);
  looks = hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Templates show");
  g_assert_false (gtk_widget_is_sensitive (looks));
  kind (f, "Templates of whole hoopings");
  g_assert_true (gtk_widget_is_sensitive (looks));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (looks), 2);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Lengths in")),
                              2);
  gtk_drop_down_set_selected (
      GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Language of the paper")), 1);
  room_until (is_ready (f));
  HwPaperOptions chosen = hw_paper_dialog_options (f->paper, "");
  g_assert_nonnull (chosen.language);
  g_autofree char *language = g_strdup (chosen.language);
  close_it (f);
  open (f);
  HwPaperOptions again = hw_paper_dialog_options (f->paper, "");
  g_assert_cmpint (again.kind, ==, HW_PAPER_HOOPING_TEMPLATES);
  g_assert_cmpint (again.look, ==, 2);
  g_assert_cmpint (again.unit, ==, HW_UNIT_INCH);
  g_assert_cmpstr (again.language, ==, language);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Lengths in")),
                              1);
  room_until (is_ready (f));
  close_it (f);
  open (f);
  g_assert_cmpint (hw_paper_dialog_options (f->paper, "").unit, ==, HW_UNIT_MM);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Lengths in")),
                              0);
  gtk_drop_down_set_selected (
      GTK_DROP_DOWN (hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "Language of the paper")), 0);
  room_until (is_ready (f));
  kind (f, "Templates");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (f->desk.dialog, GTK_TYPE_CHECK_BUTTON,
                                                             "Several small ones share a sheet")),
                               TRUE);
  room_until (is_ready (f));
  g_assert_true (hw_paper_dialog_options (f->paper, "").nested);
}

/* A scene in parts may be printed part by part, and the file says which; a part that goes leaves the whole. */
static void
a_part_is_printed_by_itself (Fixture *f, gconstpointer data)
{
  hw_bench_select_only (f->desk.bench, "m3");
  g_assert_true (hw_bench_put_in_part (f->desk.bench, "East"));
  open (f);
  GtkWidget *part = hands_find (f->desk.dialog, GTK_TYPE_DROP_DOWN, "What of the plan");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (part), 1);
  room_until (is_ready (f));
  g_assert_cmpuint (hw_paper_dialog_options (f->paper, "").part, ==, 1);
  g_signal_emit_by_name (f->paper->save, "clicked");
  hands_settle ();
  g_autofree char *name = gtk_file_chooser_get_current_name (room_chooser ());
  g_assert_true (g_str_has_suffix (name, ", East.pdf"));
  room_pick (NULL);
  hw_bench_undo (f->desk.bench);
  room_until (hw_paper_dialog_options (f->paper, "").part == 0 && is_ready (f));
  g_assert_false (says (f, "Saved"));
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/paper-printing/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (pages_go_where_the_desktop_puts_them);
  ADD (after_the_test_sheet_one_measures);
  ADD (closed_while_pages_go_out);
  ADD (what_the_ruler_said_makes_pages_true);
  ADD (a_printers_sheet_comes_with_it);
  ADD (pages_are_true_for_the_printer_they_go_to);
  ADD (what_was_chosen_is_chosen_again);
  ADD (a_part_is_printed_by_itself);
  return g_test_run ();
}

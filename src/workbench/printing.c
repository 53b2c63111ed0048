/* From laid-out pages to the desktop's printers: the pages are drawn by the same code as the PDF, in millimetres from the sheet's corner,
 * and never scaled to the printer's liking. */
#include "printing.h"

#include <glib/gi18n.h>

#include "../formats/file-name.h"
#include "printer-memory.h"
#include "printer-setup.h"
#include "settings.h"

typedef struct
{
  HwPrintJob *job;
  HwPlan *plan;
  HwPaperOptions options; /* its language is owned */
  char *language;
  const HwPrintingTold *told;
  guint printed;
} Printing;

static void
printing_free (gpointer data)
{
  Printing *printing = data;

  hw_print_job_free (printing->job);
  g_clear_pointer (&printing->plan, hw_plan_unref);
  g_free (printing->language);
  g_free (printing);
}

/* The desktop's name of a sheet (PWG 5101.1), so that a printer knows its tray. */
static GtkPaperSize *
paper_size_for (const HwSheetSize *sheet)
{
  static const char *const names[][2] = { { "A4", "iso_a4" },
                                          { "A3", "iso_a3" },
                                          { "Letter", "na_letter" },
                                          { "Legal", "na_legal" },
                                          { "Tabloid", "na_ledger" } };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_str_equal (names[i][0], sheet->name))
      return gtk_paper_size_new (names[i][1]);
  return gtk_paper_size_new_custom (sheet->name, sheet->name, sheet->width, sheet->height, GTK_UNIT_MM);
}

static GtkPageSetup *
page_setup_for (const Printing *printing, double width, double height)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  g_autoptr (GtkPaperSize) paper = paper_size_for (printing->options.sheet);

  gtk_page_setup_set_paper_size (setup, paper);
  gtk_page_setup_set_orientation (setup, width > height ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                        : GTK_PAGE_ORIENTATION_PORTRAIT);
  gtk_page_setup_set_top_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_bottom_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_left_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_right_margin (setup, 0, GTK_UNIT_MM);
  return setup;
}

/* The printer the person chose; "" when the pages go into a file. */
static const char *
chosen_printer (GtkPrintOperation *operation)
{
  GtkPrintSettings *settings = gtk_print_operation_get_print_settings (operation);
  const char *printer = settings != NULL ? gtk_print_settings_get_printer (settings) : NULL;

  if (printer == NULL || gtk_print_settings_get (settings, GTK_PRINT_SETTINGS_OUTPUT_URI) != NULL)
    return "";
  return printer;
}

static GtkWindow *
parent_of (GtkPrintOperation *operation)
{
  return g_object_get_data (G_OBJECT (operation), "parent");
}

/* Another printer than the one the pages were laid out for may draw them longer or shorter in another way. */
static gboolean
lay_out_for (Printing *printing, const char *printer, GError **error)
{
  HwPaperOptions options = printing->options;
  HwPrintJob *job;

  if (options.kind == HW_PAPER_TEST_SHEET)
    return TRUE;
  hw_printer_memory_get (printer, &options.stretch_x, &options.stretch_y);
  if (options.stretch_x == printing->options.stretch_x && options.stretch_y == printing->options.stretch_y)
    return TRUE;
  job = hw_print_job_new (printing->plan, &options, error);
  if (job == NULL)
    return FALSE;
  hw_print_job_free (printing->job);
  printing->job = job;
  printing->options = options;
  return TRUE;
}

static void
begin_cb (GtkPrintOperation *operation, GtkPrintContext *context, Printing *printing)
{
  const char *printer = chosen_printer (operation);
  g_autoptr (GError) error = NULL;

  if (!lay_out_for (printing, printer, &error))
    {
      if (parent_of (operation) != NULL)
        printing->told->ended (parent_of (operation), error->message);
      gtk_print_operation_cancel (operation);
      return;
    }
  gtk_print_operation_set_n_pages (operation, (int)hw_print_job_n_pages (printing->job));
  if (parent_of (operation) != NULL)
    printing->told->chosen (parent_of (operation), printer);
}

static void
request_setup_cb (
    GtkPrintOperation *operation, GtkPrintContext *context, int page, GtkPageSetup *setup, Printing *printing)
{
  double width, height;

  hw_print_job_page_size (printing->job, (guint)page, &width, &height);
  gtk_page_setup_set_orientation (setup, width > height ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                        : GTK_PAGE_ORIENTATION_PORTRAIT);
}

static void
draw_page_cb (GtkPrintOperation *operation, GtkPrintContext *context, int page, Printing *printing)
{
  cairo_t *cr = gtk_print_context_get_cairo_context (context);

  hw_print_job_draw_page (printing->job, (guint)page, cr);
  if (parent_of (operation) != NULL)
    printing->told->printed (parent_of (operation), ++printing->printed,
                             hw_print_job_n_pages (printing->job));
}

static void
done_cb (GtkPrintOperation *operation, GtkPrintOperationResult result, Printing *printing)
{
  g_autoptr (GError) error = NULL;
  const char *trouble = NULL;

  if (result == GTK_PRINT_OPERATION_RESULT_APPLY)
    hw_printer_setup_keep (chosen_printer (operation), printing->options.sheet->name,
                           gtk_print_operation_get_print_settings (operation));
  if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
    {
      gtk_print_operation_get_error (operation, &error);
      trouble = error != NULL ? error->message : _ ("The printer did not take the pages.");
    }
  if (parent_of (operation) != NULL)
    printing->told->ended (parent_of (operation), trouble);
}

static Printing *
printing_new (const HwPlan *plan, const HwPaperOptions *options, HwPrintJob *job, const HwPrintingTold *told)
{
  Printing *printing = g_new0 (Printing, 1);

  printing->job = job;
  printing->plan = plan != NULL ? hw_plan_ref (plan) : NULL;
  printing->options = *options;
  printing->language = g_strdup (options->language);
  printing->options.language = printing->language;
  printing->told = told;
  return printing;
}

/* Pages that are printed into a file go beside the scene, under the paper's name, unless the person says otherwise. */
static void
offer_file (GtkPrintSettings *settings, const char *title)
{
  g_autofree char *name = hw_file_name_of (title);
  g_autofree char *folder = hw_settings_get_text (HW_SETTING_LAST_FOLDER);

  gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_BASENAME, name);
  if (*folder != '\0' && g_file_test (folder, G_FILE_TEST_IS_DIR))
    gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_DIR, folder);
}

static GtkPrintOperation *
operation_new (Printing *printing, const char *printer)
{
  GtkPrintOperation *operation = gtk_print_operation_new ();
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();
  g_autofree char *title = hw_print_job_title (printing->job);
  double width, height;

  hw_print_job_page_size (printing->job, 0, &width, &height);
  g_autoptr (GtkPageSetup) setup = page_setup_for (printing, width, height);
  hw_printer_setup_apply (printer, settings);
  gtk_print_settings_set_scale (settings, 100);
  if (*printer != '\0')
    gtk_print_settings_set_printer (settings, printer);
  offer_file (settings, title);
  gtk_print_operation_set_print_settings (operation, settings);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_n_pages (operation, (int)hw_print_job_n_pages (printing->job));
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_allow_async (operation, TRUE);
  g_object_set_data_full (G_OBJECT (operation), "printing", printing, printing_free);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin_cb), printing);
  g_signal_connect (operation, "request-page-setup", G_CALLBACK (request_setup_cb), printing);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page_cb), printing);
  g_signal_connect (operation, "done", G_CALLBACK (done_cb), printing);
  return operation;
}

/* The dialog may be closed while pages still go to the printer. */
static void
parent_gone_cb (GtkWidget *parent, GtkPrintOperation *operation)
{
  g_object_set_data (G_OBJECT (operation), "parent", NULL);
}

GtkPrintOperation *
hw_printing_run (GtkWindow *parent,
                 const HwPlan *plan,
                 const HwPaperOptions *options,
                 HwPrintJob *job,
                 const char *printer,
                 const HwPrintingTold *told)
{
  g_autoptr (GError) error = NULL;
  GtkPrintOperation *operation;

  g_return_val_if_fail (GTK_IS_WINDOW (parent), NULL);
  g_return_val_if_fail (options != NULL && job != NULL && printer != NULL && told != NULL, NULL);

  operation = operation_new (printing_new (plan, options, job, told), printer);
  g_object_set_data (G_OBJECT (operation), "parent", parent);
  g_signal_connect_object (parent, "destroy", G_CALLBACK (parent_gone_cb), operation, 0);
  if (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, &error)
      == GTK_PRINT_OPERATION_RESULT_ERROR)
    told->ended (parent, error->message);
  return operation;
}

/* From laid-out pages to the desktop's printers: the pages are drawn by the same code as the PDF, in millimetres from the sheet's corner,
 * and never scaled to the printer's liking. */
#include "printing.h"

#include <glib/gi18n.h>

typedef struct
{
  HwPrintJob *job;
  const HwSheetSize *sheet;
  HwPrintingFailed failed;
} Printing;

static void
printing_free (gpointer data)
{
  Printing *printing = data;

  hw_print_job_free (printing->job);
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
  g_autoptr (GtkPaperSize) paper = paper_size_for (printing->sheet);

  gtk_page_setup_set_paper_size (setup, paper);
  gtk_page_setup_set_orientation (setup, width > height ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                        : GTK_PAGE_ORIENTATION_PORTRAIT);
  gtk_page_setup_set_top_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_bottom_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_left_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_right_margin (setup, 0, GTK_UNIT_MM);
  return setup;
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
}

static void
done_cb (GtkPrintOperation *operation, GtkPrintOperationResult result, GtkWindow *parent)
{
  Printing *printing = g_object_get_data (G_OBJECT (operation), "printing");
  g_autoptr (GError) error = NULL;

  if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
    {
      gtk_print_operation_get_error (operation, &error);
      printing->failed (parent, error != NULL ? error->message : _ ("The printer did not take the pages."));
    }
}

void
hw_printing_run (
    GtkWindow *parent, HwPrintJob *job, const HwSheetSize *sheet, const char *title, HwPrintingFailed failed)
{
  g_return_if_fail (GTK_IS_WINDOW (parent));
  g_return_if_fail (job != NULL && sheet != NULL);

  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();
  Printing *printing = g_new0 (Printing, 1);
  double width, height;

  printing->job = job;
  printing->sheet = sheet;
  printing->failed = failed;
  g_object_set_data_full (G_OBJECT (operation), "printing", printing, printing_free);

  hw_print_job_page_size (job, 0, &width, &height);
  g_autoptr (GtkPageSetup) setup = page_setup_for (printing, width, height);
  gtk_print_settings_set_scale (settings, 100);
  gtk_print_operation_set_print_settings (operation, settings);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_job_name (operation, title);
  gtk_print_operation_set_n_pages (operation, (int)hw_print_job_n_pages (job));
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_MM);
  gtk_print_operation_set_allow_async (operation, TRUE);
  g_signal_connect (operation, "request-page-setup", G_CALLBACK (request_setup_cb), printing);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw_page_cb), printing);
  g_signal_connect_object (operation, "done", G_CALLBACK (done_cb), parent, 0);

  g_autoptr (GError) error = NULL;
  if (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, &error)
      == GTK_PRINT_OPERATION_RESULT_ERROR)
    failed (parent, error->message);
}

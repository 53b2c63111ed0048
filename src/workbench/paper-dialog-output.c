/* The paper dialog's pages on their way out: into a PDF, written on a thread that counts its pages, or to the printer, laid out on a thread and handed over
 * page by page. */
#include "paper-dialog-private.h"

#include <glib/gi18n.h>

#include "../formats/file-name.h"
#include "printing.h"
#include "settings.h"

#define TICK 100 /* ms between looks at how far writing is */

/* The test sheet is drawn as it is, whatever is known of the printer. */
static HwPaperOptions
test_options (HwPaperDialog *paper)
{
  HwPaperOptions options = hw_paper_dialog_options (paper, "");

  options.kind = HW_PAPER_TEST_SHEET;
  options.stretch_x = options.stretch_y = 1;
  return options;
}

/* --- Into a file */

static gboolean
tick_cb (gpointer data)
{
  HwPaperDialog *paper = data;

  hw_busy_row_set_done (paper->busy, (guint)g_atomic_int_get ((gint *)&paper->progress.n_written),
                        (guint)g_atomic_int_get ((gint *)&paper->progress.n_pages));
  return G_SOURCE_CONTINUE;
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GtkWindow) dialog = user_data;
  HwPaperDialog *paper = hw_paper_dialog_of (dialog);
  g_autoptr (GError) error = NULL;
  gboolean written = hw_paper_write_finish (result, &error);
  g_autofree char *name = g_path_get_basename (paper->path);
  g_autofree char *sentence
      = g_strdup_printf (_ ("Saved as “%s”. Print it at true size: 100 %%, no fitting to the page."), name);

  g_clear_handle_id (&paper->tick, g_source_remove);
  g_clear_object (&paper->writing);
  if (paper->closed)
    return;
  hw_paper_dialog_follow_work (paper);
  if (written && paper->testing)
    hw_printer_truth_use_printer (paper->truth, "", TRUE);
  if (written)
    hw_paper_dialog_tell (paper, sentence, FALSE);
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    hw_paper_dialog_tell (paper, _ ("Stopped; nothing was saved."), FALSE);
  else
    hw_paper_dialog_tell (paper, error->message, TRUE);
}

static void
write_pdf (HwPaperDialog *paper, const char *path)
{
  HwPaperOptions options = paper->testing ? test_options (paper) : hw_paper_dialog_options (paper, "");
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *words = g_strdup_printf (_ ("“%s” is written…"), name);

  g_free (paper->path);
  paper->path = g_strdup (path);
  paper->writing = g_cancellable_new ();
  hw_paper_dialog_tell (paper, NULL, FALSE);
  hw_paper_dialog_follow_work (paper);
  hw_busy_row_begin (paper->busy, words);
  paper->tick = g_timeout_add (TICK, tick_cb, paper);
  hw_paper_write_async (paper->shown, &options, path, &paper->progress, paper->writing, written_cb,
                        hw_paper_dialog_hold (paper));
}

static void
save_response_cb (GtkNativeDialog *chooser, int response, GtkWindow *dialog)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  HwPaperDialog *paper = hw_paper_dialog_of (dialog);

  gtk_native_dialog_hide (chooser);
  if (response == GTK_RESPONSE_ACCEPT && path != NULL && paper->shown != NULL && paper->writing == NULL)
    write_pdf (paper, path);
  g_object_unref (chooser);
}

/* Returns: (transfer full) */
static char *
name_for_file (HwPaperDialog *paper)
{
  HwPaperOptions options = hw_paper_dialog_options (paper, "");
  const GPtrArray *parts = paper->shown->snapshot->parts;
  const char *scene
      = paper->shown->snapshot->name != NULL ? paper->shown->snapshot->name : _ ("Unnamed scene");
  const char *kind = hw_paper_kind_words (options.kind);
  g_autofree char *name = NULL;

  if (paper->testing)
    name = g_strdup_printf ("%s, %s.pdf", hw_paper_kind_words (HW_PAPER_TEST_SHEET), options.sheet->name);
  else if (options.part > 0)
    name = g_strdup_printf ("%s, %s, %s.pdf", scene, kind,
                            ((const HwPart *)parts->pdata[options.part - 1])->name);
  else
    name = g_strdup_printf ("%s, %s.pdf", scene, kind);
  return hw_file_name_of (name);
}

static void
ask_where (HwPaperDialog *paper)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (_ ("Save as PDF"), paper->dialog,
                                                               GTK_FILE_CHOOSER_ACTION_SAVE, NULL, NULL);
  g_autofree char *name = name_for_file (paper);
  g_autofree char *last = hw_settings_get_text (HW_SETTING_LAST_FOLDER);

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  if (*last != '\0' && g_file_test (last, G_FILE_TEST_IS_DIR))
    {
      g_autoptr (GFile) folder = g_file_new_for_path (last);
      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), folder, NULL);
    }
  g_signal_connect_object (chooser, "response", G_CALLBACK (save_response_cb), paper->dialog, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

/* --- To the printer */

static void
chosen_told (GtkWindow *dialog, const char *printer)
{
  HwPaperDialog *paper = hw_paper_dialog_of (dialog);

  hw_printer_truth_use_printer (paper->truth, printer, paper->testing);
}

static void
printed_told (GtkWindow *dialog, guint n, guint of)
{
  HwPaperDialog *paper = hw_paper_dialog_of (dialog);
  g_autofree char *words = g_strdup_printf (_ ("Page %u of %u goes to the printer…"), n, of);

  hw_busy_row_begin (paper->busy, words);
  hw_busy_row_set_done (paper->busy, n, of);
}

static void
ended_told (GtkWindow *dialog, const char *trouble)
{
  HwPaperDialog *paper = hw_paper_dialog_of (dialog);

  g_clear_object (&paper->operation);
  if (trouble != NULL)
    hw_paper_dialog_tell (paper, trouble, TRUE);
  hw_paper_dialog_follow_work (paper);
}

static void
laid_out_to_print_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  static const HwPrintingTold told = { chosen_told, printed_told, ended_told };
  g_autoptr (GtkWindow) dialog = user_data;
  HwPaperDialog *paper = hw_paper_dialog_of (dialog);
  g_autoptr (GError) error = NULL;
  HwPrintJob *job = hw_paper_lay_out_finish (result, &error);
  const char *printer;
  HwPaperOptions options;
  GtkPrintOperation *operation;

  g_clear_object (&paper->writing);
  if (paper->closed || paper->shown == NULL)
    g_clear_pointer (&job, hw_print_job_free);
  if (paper->closed)
    return;
  hw_paper_dialog_follow_work (paper);
  if (job == NULL)
    {
      if (error != NULL && !g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
        hw_paper_dialog_tell (paper, error->message, TRUE);
      return;
    }
  printer = hw_printer_truth_get_printer (paper->truth);
  options = paper->testing ? test_options (paper) : hw_paper_dialog_options (paper, printer);
  operation = hw_printing_run (dialog, paper->shown, &options, job, printer, &told);
  if (!gtk_print_operation_is_finished (operation))
    paper->operation = operation;
  else
    g_object_unref (operation);
  hw_paper_dialog_follow_work (paper);
}

static void
print (HwPaperDialog *paper)
{
  HwPaperOptions options = paper->testing
                               ? test_options (paper)
                               : hw_paper_dialog_options (paper, hw_printer_truth_get_printer (paper->truth));

  hw_paper_dialog_tell (paper, NULL, FALSE);
  paper->writing = g_cancellable_new ();
  hw_paper_dialog_follow_work (paper);
  hw_busy_row_begin (paper->busy, _ ("The pages are laid out…"));
  hw_paper_lay_out_async (paper->shown, &options, paper->writing, laid_out_to_print_cb,
                          hw_paper_dialog_hold (paper));
}

void
hw_paper_dialog_put_out (HwPaperDialog *paper, gboolean testing, gboolean to_printer)
{
  if (paper->shown == NULL || paper->writing != NULL || paper->operation != NULL)
    return;
  paper->testing = testing;
  if (to_printer)
    print (paper);
  else
    ask_where (paper);
}

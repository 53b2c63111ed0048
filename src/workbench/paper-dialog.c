/* The dialog that puts the plan on paper: what to print, on which sheets, with a look at every page before; then the printer, or a PDF. Pages are laid
 * out and written on a thread; what takes longer than half a second shows how far it is and can be stopped. */
#include "paper-dialog.h"

#include <glib/gi18n.h>

#include "busy-row.h"
#include "dialog.h"
#include "page-preview.h"
#include "paper-choices.h"
#include "paper-work.h"
#include "printer-memory.h"
#include "printer-truth.h"
#include "printing.h"
#include "section.h"
#include "settings.h"

#define TICK 100 /* ms between looks at how far writing is */

typedef struct
{
  HwBench *bench;
  GtkWindow *dialog;
  HwPaperChoices *choices;
  HwPrinterTruth *truth;
  HwPagePreview *preview;
  HwBusyRow *busy;
  GtkWidget *trouble;
  GtkWidget *print;
  GtkWidget *save;
  HwPlan *shown; /* the plan in the preview */

  gboolean laying; /* a thread lays out */
  gboolean again;  /* what it lays out is out of date already */
  gboolean stopped;
  GCancellable *writing;        /* while a PDF is written or pages are laid out for the printer */
  HwPaperProgress progress;     /* of writing */
  char *path;                   /* of what is written */
  guint tick;                   /* source */
  GtkPrintOperation *operation; /* while pages go to the printer */
  gboolean testing;             /* what goes to the printer is the test sheet */
  gboolean closed;
} Paper;

static void
lay_out (Paper *paper);

static void
paper_free (gpointer data)
{
  Paper *paper = data;

  g_clear_pointer (&paper->shown, hw_plan_unref);
  g_clear_object (&paper->writing);
  g_clear_object (&paper->operation);
  g_free (paper->path);
  g_object_unref (paper->bench);
  g_free (paper);
}

/* What a callback that comes later is given: the dialog's data live as long as the dialog does. */
static gpointer
hold (Paper *paper)
{
  return g_object_ref (paper->dialog);
}

static Paper *
paper_of (gpointer dialog)
{
  return g_object_get_data (G_OBJECT (dialog), "paper");
}

static void
tell (Paper *paper, const char *sentence, gboolean is_trouble)
{
  gtk_label_set_label (GTK_LABEL (paper->trouble), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (paper->trouble, sentence != NULL);
  if (is_trouble)
    gtk_widget_add_css_class (paper->trouble, "trouble");
  else
    gtk_widget_remove_css_class (paper->trouble, "trouble");
}

static void
follow_work (Paper *paper)
{
  gboolean idle = paper->writing == NULL && paper->operation == NULL;
  gboolean ready
      = idle && paper->shown != NULL && (paper->laying || hw_page_preview_has_job (paper->preview));

  gtk_widget_set_sensitive (paper->print, ready);
  gtk_widget_set_sensitive (paper->save, ready);
  if (idle && !paper->laying)
    hw_busy_row_end (paper->busy);
}

/* What is chosen, for a printer ("": PDF files). */
static HwPaperOptions
options_for (Paper *paper, const char *printer)
{
  HwPaperOptions options;

  hw_paper_choices_read (paper->choices, hw_bench_get_unit (paper->bench), &options);
  options.part = MIN (options.part, paper->shown->snapshot->parts->len);
  hw_printer_memory_get (printer, &options.stretch_x, &options.stretch_y);
  return options;
}

/* The test sheet is drawn as it is, whatever is known of the printer. */
static HwPaperOptions
test_options (Paper *paper)
{
  HwPaperOptions options = options_for (paper, "");

  options.kind = HW_PAPER_TEST_SHEET;
  options.stretch_x = options.stretch_y = 1;
  return options;
}

/* --- The preview */

static void
laid_out_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GtkWindow) dialog = user_data;
  Paper *paper = paper_of (dialog);
  g_autoptr (GError) error = NULL;
  HwPrintJob *job = hw_paper_lay_out_finish (result, &error);

  paper->laying = FALSE;
  if (paper->closed || paper->stopped || paper->again)
    g_clear_pointer (&job, hw_print_job_free);
  if (paper->closed)
    return;
  if (paper->again)
    {
      lay_out (paper);
      return;
    }
  hw_page_preview_take_job (paper->preview, job);
  if (error != NULL && !paper->stopped)
    tell (paper, error->message, TRUE);
  follow_work (paper);
}

static void
lay_out (Paper *paper)
{
  HwPaperOptions options;

  paper->again = paper->laying;
  paper->stopped = FALSE;
  if (paper->laying)
    return;
  options = options_for (paper, hw_printer_truth_get_printer (paper->truth));
  paper->laying = TRUE;
  if (paper->writing == NULL && paper->operation == NULL)
    hw_busy_row_begin (paper->busy, _ ("The pages are laid out…"));
  hw_paper_lay_out_async (paper->shown, &options, NULL, laid_out_cb, hold (paper));
}

static void
update (Paper *paper)
{
  const HwPlan *plan = hw_bench_get_plan (paper->bench);
  HwPaperOptions options;

  g_clear_pointer (&paper->shown, hw_plan_unref);
  tell (paper, NULL, FALSE);
  if (plan == NULL)
    {
      tell (paper, _ ("The plan is not ready yet."), FALSE);
      hw_page_preview_take_job (paper->preview, NULL);
      follow_work (paper);
      return;
    }
  paper->shown = hw_plan_ref (plan);
  hw_paper_choices_offer_parts (paper->choices, plan->snapshot);
  hw_paper_choices_read (paper->choices, hw_bench_get_unit (paper->bench), &options);
  hw_printer_truth_set_sheet (paper->truth, options.sheet, options.unit);
  lay_out (paper);
  follow_work (paper);
}

static void
plan_changed_cb (HwBench *bench, GtkWindow *dialog)
{
  update (paper_of (dialog));
}

/* --- Into a file */

static gboolean
tick_cb (gpointer data)
{
  Paper *paper = data;

  hw_busy_row_set_done (paper->busy, (guint)g_atomic_int_get ((gint *)&paper->progress.n_written),
                        (guint)g_atomic_int_get ((gint *)&paper->progress.n_pages));
  return G_SOURCE_CONTINUE;
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GtkWindow) dialog = user_data;
  Paper *paper = paper_of (dialog);
  g_autoptr (GError) error = NULL;
  gboolean written = hw_paper_write_finish (result, &error);
  g_autofree char *name = g_path_get_basename (paper->path);
  g_autofree char *sentence
      = g_strdup_printf (_ ("Saved as “%s”. Print it at true size: 100 %%, no fitting to the page."), name);

  g_clear_handle_id (&paper->tick, g_source_remove);
  g_clear_object (&paper->writing);
  if (paper->closed)
    return;
  follow_work (paper);
  if (written && paper->testing)
    hw_printer_truth_use_printer (paper->truth, "", TRUE);
  if (written)
    tell (paper, sentence, FALSE);
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    tell (paper, _ ("Stopped; nothing was saved."), FALSE);
  else
    tell (paper, error->message, TRUE);
}

static void
write_pdf (Paper *paper, const char *path)
{
  HwPaperOptions options = paper->testing ? test_options (paper) : options_for (paper, "");
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *words = g_strdup_printf (_ ("“%s” is written…"), name);

  g_free (paper->path);
  paper->path = g_strdup (path);
  paper->writing = g_cancellable_new ();
  tell (paper, NULL, FALSE);
  follow_work (paper);
  hw_busy_row_begin (paper->busy, words);
  paper->tick = g_timeout_add (TICK, tick_cb, paper);
  hw_paper_write_async (paper->shown, &options, path, &paper->progress, paper->writing, written_cb,
                        hold (paper));
}

static void
save_response_cb (GtkNativeDialog *chooser, int response, GtkWindow *dialog)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  Paper *paper = paper_of (dialog);

  gtk_native_dialog_hide (chooser);
  if (response == GTK_RESPONSE_ACCEPT && path != NULL && paper->shown != NULL && paper->writing == NULL)
    write_pdf (paper, path);
  g_object_unref (chooser);
}

/* Returns: (transfer full) */
static char *
name_for_file (Paper *paper)
{
  HwPaperOptions options = options_for (paper, "");
  const GPtrArray *parts = paper->shown->snapshot->parts;
  const char *scene
      = paper->shown->snapshot->name != NULL ? paper->shown->snapshot->name : _ ("Unnamed scene");
  const char *kind = hw_paper_kind_words (options.kind);
  char *name;

  if (paper->testing)
    name = g_strdup_printf ("%s, %s.pdf", hw_paper_kind_words (HW_PAPER_TEST_SHEET), options.sheet->name);
  else if (options.part > 0)
    name = g_strdup_printf ("%s, %s, %s.pdf", scene, kind,
                            ((const HwPart *)parts->pdata[options.part - 1])->name);
  else
    name = g_strdup_printf ("%s, %s.pdf", scene, kind);
  return g_strdelimit (name, "/\\", '-');
}

static void
ask_where (Paper *paper)
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
  Paper *paper = paper_of (dialog);

  hw_printer_truth_use_printer (paper->truth, printer, paper->testing);
}

static void
printed_told (GtkWindow *dialog, guint n, guint of)
{
  Paper *paper = paper_of (dialog);
  g_autofree char *words = g_strdup_printf (_ ("Page %u of %u goes to the printer…"), n, of);

  hw_busy_row_begin (paper->busy, words);
  hw_busy_row_set_done (paper->busy, n, of);
}

static void
ended_told (GtkWindow *dialog, const char *trouble)
{
  Paper *paper = paper_of (dialog);

  g_clear_object (&paper->operation);
  if (trouble != NULL)
    tell (paper, trouble, TRUE);
  follow_work (paper);
}

static void
laid_out_to_print_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  static const HwPrintingTold told = { chosen_told, printed_told, ended_told };
  g_autoptr (GtkWindow) dialog = user_data;
  Paper *paper = paper_of (dialog);
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
  follow_work (paper);
  if (job == NULL)
    {
      if (error != NULL && !g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
        tell (paper, error->message, TRUE);
      return;
    }
  printer = hw_printer_truth_get_printer (paper->truth);
  options = paper->testing ? test_options (paper) : options_for (paper, printer);
  operation = hw_printing_run (dialog, paper->shown, &options, job, printer, &told);
  if (!gtk_print_operation_is_finished (operation))
    paper->operation = operation;
  else
    g_object_unref (operation);
  follow_work (paper);
}

static void
print (Paper *paper)
{
  HwPaperOptions options = paper->testing ? test_options (paper)
                                          : options_for (paper, hw_printer_truth_get_printer (paper->truth));

  tell (paper, NULL, FALSE);
  paper->writing = g_cancellable_new ();
  follow_work (paper);
  hw_busy_row_begin (paper->busy, _ ("The pages are laid out…"));
  hw_paper_lay_out_async (paper->shown, &options, paper->writing, laid_out_to_print_cb, hold (paper));
}

/* --- What the person does */

static void
ask (Paper *paper, gboolean testing, gboolean to_printer)
{
  if (paper->shown == NULL || paper->writing != NULL || paper->operation != NULL)
    return;
  paper->testing = testing;
  if (to_printer)
    print (paper);
  else
    ask_where (paper);
}

static void
print_cb (Paper *paper)
{
  ask (paper, FALSE, TRUE);
}

static void
save_cb (Paper *paper)
{
  ask (paper, FALSE, FALSE);
}

static void
print_test_cb (Paper *paper)
{
  ask (paper, TRUE, TRUE);
}

static void
save_test_cb (Paper *paper)
{
  ask (paper, TRUE, FALSE);
}

static void
stop_cb (Paper *paper)
{
  if (paper->operation != NULL)
    gtk_print_operation_cancel (paper->operation);
  else if (paper->writing != NULL)
    g_cancellable_cancel (paper->writing);
  else
    {
      paper->stopped = TRUE;
      paper->again = FALSE;
      hw_busy_row_end (paper->busy);
      tell (paper, _ ("Stopped. Choose a paper, and its pages are laid out again."), FALSE);
    }
}

static void
closed_cb (GtkWidget *dialog, Paper *paper)
{
  paper->closed = TRUE;
  if (paper->writing != NULL)
    g_cancellable_cancel (paper->writing);
  g_clear_handle_id (&paper->tick, g_source_remove);
}

/* --- The dialog */

static gboolean
scroll_down_cb (gpointer scrolled)
{
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (scrolled);

  gtk_adjustment_set_value (adjustment, gtk_adjustment_get_upper (adjustment));
  return G_SOURCE_REMOVE;
}

/* What was unfolded below the edge comes into view, once it has its place. */
static void
unfolded_cb (HwSection *section, GParamSpec *pspec, GtkScrolledWindow *scrolled)
{
  if (hw_section_get_open (section))
    g_timeout_add_full (G_PRIORITY_DEFAULT_IDLE, 50, scroll_down_cb, g_object_ref (scrolled), g_object_unref);
}

static GtkWidget *
make_choices (Paper *paper)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  GtkWidget *truth;

  paper->choices = HW_PAPER_CHOICES (hw_paper_choices_new ());
  paper->truth = HW_PRINTER_TRUTH (hw_printer_truth_new ());
  truth = hw_section_new (_ ("Is your printer true to size?"), GTK_WIDGET (paper->truth));
  hw_section_set_open (HW_SECTION (truth), FALSE);
  paper->trouble = hw_dialog_words (NULL);
  gtk_widget_set_visible (paper->trouble, FALSE);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (paper->choices));
  gtk_box_append (GTK_BOX (box), truth);
  gtk_widget_set_margin_end (box, 14);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), box);
  gtk_widget_set_size_request (scrolled, 370, -1);
  g_signal_connect_object (truth, "notify::open", G_CALLBACK (unfolded_cb), scrolled, 0);
  return scrolled;
}

static GtkWidget *
make_foot (Paper *paper)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *foot = hw_dialog_foot ();

  paper->busy = HW_BUSY_ROW (hw_busy_row_new ());
  paper->save = gtk_button_new_with_label (_ ("Save as PDF…"));
  paper->print = gtk_button_new_with_label (_ ("Print…"));
  gtk_widget_add_css_class (paper->print, "suggested-action");
  gtk_box_append (GTK_BOX (foot), paper->save);
  gtk_box_append (GTK_BOX (foot), paper->print);
  gtk_widget_set_valign (foot, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (left), paper->trouble);
  gtk_box_append (GTK_BOX (left), GTK_WIDGET (paper->busy));
  gtk_widget_set_hexpand (left, TRUE);
  gtk_widget_set_valign (left, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), left);
  gtk_box_append (GTK_BOX (row), foot);
  return row;
}

static void
listen (Paper *paper)
{
  g_signal_connect_swapped (paper->choices, "changed", G_CALLBACK (update), paper);
  g_signal_connect_swapped (paper->truth, "changed", G_CALLBACK (update), paper);
  g_signal_connect_swapped (paper->truth, "print-test", G_CALLBACK (print_test_cb), paper);
  g_signal_connect_swapped (paper->truth, "save-test", G_CALLBACK (save_test_cb), paper);
  g_signal_connect_swapped (paper->save, "clicked", G_CALLBACK (save_cb), paper);
  g_signal_connect_swapped (paper->print, "clicked", G_CALLBACK (print_cb), paper);
  g_signal_connect_swapped (paper->busy, "stop", G_CALLBACK (stop_cb), paper);
  g_signal_connect (paper->dialog, "destroy", G_CALLBACK (closed_cb), paper);
  g_signal_connect_object (paper->bench, "plan-changed", G_CALLBACK (plan_changed_cb), paper->dialog, 0);
}

void
hw_paper_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Paper *paper = g_new0 (Paper, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);

  paper->bench = g_object_ref (bench);
  paper->preview = HW_PAGE_PREVIEW (hw_page_preview_new ());
  gtk_box_append (GTK_BOX (columns), make_choices (paper));
  gtk_box_append (GTK_BOX (columns), GTK_WIDGET (paper->preview));
  gtk_widget_set_vexpand (columns, TRUE);
  gtk_box_append (GTK_BOX (content), columns);
  gtk_box_append (GTK_BOX (content), make_foot (paper));

  paper->dialog = hw_dialog_new (parent, _ ("On paper"), content, 900, 690);
  g_object_set_data_full (G_OBJECT (paper->dialog), "paper", paper, paper_free);
  listen (paper);
  update (paper);
  gtk_window_present (paper->dialog);
}

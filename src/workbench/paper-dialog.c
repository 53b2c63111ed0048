/* The dialog that puts the plan on paper: what to print, on which sheets, with a look at every page before; then the printer, or a PDF. Pages are laid
 * out and written on a thread; what takes longer than half a second shows how far it is and can be stopped. */
#include "paper-dialog.h"
#include "paper-dialog-private.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"
#include "printer-memory.h"
#include "printer-setup.h"
#include "section.h"

#define FOCUS_ROOM 4 /* the ring around what has the keyboard would be cut off */

static void
lay_out (HwPaperDialog *paper);

static void
paper_free (gpointer data)
{
  HwPaperDialog *paper = data;

  g_clear_pointer (&paper->shown, hw_plan_unref);
  g_clear_object (&paper->writing);
  g_clear_object (&paper->operation);
  g_free (paper->path);
  g_free (paper->printer);
  g_object_unref (paper->bench);
  g_free (paper);
}

gpointer
hw_paper_dialog_hold (HwPaperDialog *paper)
{
  return g_object_ref (paper->dialog);
}

HwPaperDialog *
hw_paper_dialog_of (gpointer dialog)
{
  return g_object_get_data (G_OBJECT (dialog), "paper");
}

void
hw_paper_dialog_tell (HwPaperDialog *paper, const char *sentence, gboolean is_trouble)
{
  gtk_label_set_label (GTK_LABEL (paper->trouble), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (paper->trouble, sentence != NULL);
  if (is_trouble)
    gtk_widget_add_css_class (paper->trouble, "trouble");
  else
    gtk_widget_remove_css_class (paper->trouble, "trouble");
}

void
hw_paper_dialog_follow_work (HwPaperDialog *paper)
{
  gboolean idle = paper->writing == NULL && paper->operation == NULL;
  gboolean ready
      = idle && paper->shown != NULL && (paper->laying || hw_page_preview_has_job (paper->preview));

  gtk_widget_set_sensitive (paper->print, ready);
  gtk_widget_set_sensitive (paper->save, ready);
  if (idle && !paper->laying)
    hw_busy_row_end (paper->busy);
}

HwPaperOptions
hw_paper_dialog_options (HwPaperDialog *paper, const char *printer)
{
  HwPaperOptions options;

  hw_paper_choices_read (paper->choices, hw_bench_get_unit (paper->bench), &options);
  options.part = MIN (options.part, paper->shown->snapshot->parts->len);
  hw_printer_memory_get (printer, &options.stretch_x, &options.stretch_y);
  return options;
}

/* --- The preview */

static void
laid_out_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GtkWindow) dialog = user_data;
  HwPaperDialog *paper = hw_paper_dialog_of (dialog);
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
    hw_paper_dialog_tell (paper, error->message, TRUE);
  hw_paper_dialog_follow_work (paper);
}

static void
lay_out (HwPaperDialog *paper)
{
  HwPaperOptions options;

  paper->again = paper->laying;
  paper->stopped = FALSE;
  if (paper->laying)
    return;
  options = hw_paper_dialog_options (paper, hw_printer_truth_get_printer (paper->truth));
  paper->laying = TRUE;
  if (paper->writing == NULL && paper->operation == NULL)
    hw_busy_row_begin (paper->busy, _ ("The pages are laid out…"));
  hw_paper_lay_out_async (paper->shown, &options, NULL, laid_out_cb, hw_paper_dialog_hold (paper));
}

static void
show_applied (HwPaperDialog *paper)
{
  const char *printer = hw_printer_truth_get_printer (paper->truth);
  g_autofree char *sentence = hw_printer_memory_sentence (printer);

  gtk_label_set_label (GTK_LABEL (paper->applied), sentence);
  gtk_widget_set_visible (paper->applied, hw_printer_memory_knows (printer));
}

static void
update (HwPaperDialog *paper)
{
  const char *why;
  const HwPlan *plan = hw_bench_get_ready_plan (paper->bench, &why);
  HwPaperOptions options;

  g_clear_pointer (&paper->shown, hw_plan_unref);
  hw_paper_dialog_tell (paper, NULL, FALSE);
  show_applied (paper);
  if (plan == NULL)
    {
      hw_paper_dialog_tell (paper, why, FALSE);
      hw_page_preview_take_job (paper->preview, NULL);
      hw_paper_dialog_follow_work (paper);
      return;
    }
  paper->shown = hw_plan_ref (plan);
  hw_paper_choices_offer_parts (paper->choices, plan->snapshot);
  hw_paper_choices_read (paper->choices, hw_bench_get_unit (paper->bench), &options);
  hw_help_mark (paper->dialog, options.kind == HW_PAPER_BENCH_SHEET || options.kind == HW_PAPER_DAY_LOG
                                   ? "bench-sheet"
                                   : "templates");
  hw_printer_truth_set_sheet (paper->truth, options.sheet, options.unit);
  lay_out (paper);
  hw_paper_dialog_follow_work (paper);
}

/* Another printer may hold other sheets: those it printed on last are chosen with it. Not for one that is chosen as pages go to it: they are laid out. */
static void
truth_cb (HwPaperDialog *paper)
{
  const char *printer = hw_printer_truth_get_printer (paper->truth);
  g_autofree char *sheet = NULL;

  if (paper->operation == NULL && g_strcmp0 (printer, paper->printer) != 0)
    sheet = hw_printer_setup_sheet (printer);
  g_free (paper->printer);
  paper->printer = g_strdup (printer);
  if (sheet != NULL)
    hw_paper_choices_use_sheet (paper->choices, sheet);
  update (paper);
}

static void
plan_changed_cb (HwBench *bench, GtkWindow *dialog)
{
  update (hw_paper_dialog_of (dialog));
}

/* --- What the person does */

static void
print_cb (HwPaperDialog *paper)
{
  hw_paper_dialog_put_out (paper, FALSE, TRUE);
}

static void
save_cb (HwPaperDialog *paper)
{
  hw_paper_dialog_put_out (paper, FALSE, FALSE);
}

static void
print_test_cb (HwPaperDialog *paper)
{
  hw_paper_dialog_put_out (paper, TRUE, TRUE);
}

static void
save_test_cb (HwPaperDialog *paper)
{
  hw_paper_dialog_put_out (paper, TRUE, FALSE);
}

static void
stop_cb (HwPaperDialog *paper)
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
      hw_paper_dialog_tell (paper, _ ("Stopped. Choose a paper, and its pages are laid out again."), FALSE);
    }
}

static void
closed_cb (GtkWidget *dialog, HwPaperDialog *paper)
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
make_choices (HwPaperDialog *paper)
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
  gtk_widget_set_margin_start (box, FOCUS_ROOM);
  gtk_widget_set_margin_top (box, FOCUS_ROOM);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), box);
  gtk_widget_set_size_request (scrolled, 370, -1);
  g_signal_connect_object (truth, "notify::open", G_CALLBACK (unfolded_cb), scrolled, 0);
  return scrolled;
}

static GtkWidget *
make_foot (HwPaperDialog *paper)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *foot = hw_dialog_foot ();

  paper->busy = HW_BUSY_ROW (hw_busy_row_new ());
  paper->applied = hw_dialog_words (NULL);
  gtk_widget_add_css_class (paper->applied, "quiet");
  paper->save = gtk_button_new_with_label (_ ("Save as PDF…"));
  paper->print = gtk_button_new_with_label (_ ("Print…"));
  gtk_widget_add_css_class (paper->print, "suggested-action");
  gtk_box_append (GTK_BOX (foot), paper->save);
  gtk_box_append (GTK_BOX (foot), paper->print);
  gtk_widget_set_valign (foot, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (left), paper->applied);
  gtk_box_append (GTK_BOX (left), paper->trouble);
  gtk_box_append (GTK_BOX (left), GTK_WIDGET (paper->busy));
  gtk_widget_set_hexpand (left, TRUE);
  gtk_widget_set_valign (left, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), left);
  gtk_box_append (GTK_BOX (row), foot);
  return row;
}

static void
listen (HwPaperDialog *paper)
{
  g_signal_connect_swapped (paper->choices, "changed", G_CALLBACK (update), paper);
  g_signal_connect_swapped (paper->truth, "changed", G_CALLBACK (truth_cb), paper);
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

  HwPaperDialog *paper = g_new0 (HwPaperDialog, 1);
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
  hw_help_mark (paper->dialog, "templates");
  g_object_set_data_full (G_OBJECT (paper->dialog), "paper", paper, paper_free);
  paper->printer = g_strdup (hw_printer_truth_get_printer (paper->truth));
  listen (paper);
  update (paper);
  gtk_window_present (paper->dialog);
}

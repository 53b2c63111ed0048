/* From laid-out pages to the desktop's printers. */
#pragma once

#include <gtk/gtk.h>

#include "../paper/print-job.h"

G_BEGIN_DECLS

/* What the dialog that prints is told, while it is there. */
typedef struct
{
  void (*chosen) (GtkWindow *parent, const char *printer); /* "": into a file */
  void (*printed) (GtkWindow *parent, guint n_pages, guint of);
  void (*ended) (GtkWindow *parent,
                 const char *trouble); /* trouble: a sentence, or NULL when all is well or it was given up */
} HwPrintingTold;

/* Shows the desktop's print dialog with `printer` chosen and prints at true size. Takes over job, which is laid out for that printer; for another one that is
 * not true in the same way the plan is laid out again, unless the paper is the test sheet. Returns: (transfer full): to be given up by
 * gtk_print_operation_cancel() */
GtkPrintOperation *
hw_printing_run (GtkWindow *parent,
                 const HwPlan *plan,
                 const HwPaperOptions *options,
                 HwPrintJob *job,
                 const char *printer,
                 const HwPrintingTold *told);

G_END_DECLS

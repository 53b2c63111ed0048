/* The inside of the paper dialog, shared by its files. */
#pragma once

#include "bench.h"
#include "busy-row.h"
#include "page-preview.h"
#include "paper-choices.h"
#include "paper-work.h"
#include "printer-truth.h"

G_BEGIN_DECLS

typedef struct
{
  HwBench *bench;
  GtkWindow *dialog;
  HwPaperChoices *choices;
  HwPrinterTruth *truth;
  HwPagePreview *preview;
  HwBusyRow *busy;
  GtkWidget *applied; /* what the printer's pages are drawn longer by, where they are */
  GtkWidget *trouble;
  GtkWidget *print;
  GtkWidget *save;
  HwPlan *shown; /* the plan in the preview */

  gboolean laying; /* a thread lays out */
  gboolean again;  /* what it lays out is out of date already */
  gboolean stopped;
  GCancellable *writing;        /* while a PDF is written or pages are laid out for the printer */
  HwPaperProgress progress;     /* of writing */
  char *printer;                /* whose sheet was taken */
  char *path;                   /* of what is written */
  guint tick;                   /* source */
  GtkPrintOperation *operation; /* while pages go to the printer */
  gboolean testing;             /* what goes to the printer is the test sheet */
  gboolean closed;
} HwPaperDialog;

/* What a callback that comes later is given: the dialog's data live as long as the dialog does. Returns: (transfer full): the window */
gpointer
hw_paper_dialog_hold (HwPaperDialog *paper);
HwPaperDialog *
hw_paper_dialog_of (gpointer window);

/* Says something at the foot; NULL: nothing. */
void
hw_paper_dialog_tell (HwPaperDialog *paper, const char *sentence, gboolean is_trouble);
/* Buttons and the busy row follow what is being done. */
void
hw_paper_dialog_follow_work (HwPaperDialog *paper);
/* What is chosen, for a printer ("": PDF files). */
HwPaperOptions
hw_paper_dialog_options (HwPaperDialog *paper, const char *printer);

/* paper-dialog-output.c: the chosen paper, or the test sheet, goes to the printer or into a file that is asked for. */
void
hw_paper_dialog_put_out (HwPaperDialog *paper, gboolean testing, gboolean to_printer);

G_END_DECLS

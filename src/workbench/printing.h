/* From laid-out pages to the desktop's printers. */
#pragma once

#include <gtk/gtk.h>

#include "../paper/print-job.h"

G_BEGIN_DECLS

/* Called when the desktop could not print; sentence says why. */
typedef void (*HwPrintingFailed) (GtkWindow *parent, const char *sentence);

/* Shows the desktop's print dialog and prints at true size. Takes over job. failed is called later, if at all. */
void
hw_printing_run (
    GtkWindow *parent, HwPrintJob *job, const HwSheetSize *sheet, const char *title, HwPrintingFailed failed);

G_END_DECLS

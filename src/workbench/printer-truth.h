/* Whether a printer is true to size: a test sheet is printed, its lines are measured, and what was measured is remembered for that printer. */
#pragma once

#include <gtk/gtk.h>

#include "../paper/print-job.h"

G_BEGIN_DECLS

#define HW_TYPE_PRINTER_TRUTH (hw_printer_truth_get_type ())
G_DECLARE_FINAL_TYPE (HwPrinterTruth, hw_printer_truth, HW, PRINTER_TRUTH, GtkBox)

/* Signals "changed": another printer was chosen, or what is known of it changed; "print-test" and "save-test": the test sheet is asked for, on the
 * printer or as a PDF. */
GtkWidget *
hw_printer_truth_new (void);

/* The sheet and unit of the paper as it is chosen now: how long the test sheet's lines are hangs on them. */
void
hw_printer_truth_set_sheet (HwPrinterTruth *truth, const HwSheetSize *sheet, HwUnit unit);

/* The chosen printer by the desktop's name; "": PDF files. (transfer none) */
const char *
hw_printer_truth_get_printer (HwPrinterTruth *truth);
/* Chooses a printer, which is remembered as the one used last. tested: its test sheet is on its way. */
void
hw_printer_truth_use_printer (HwPrinterTruth *truth, const char *printer, gboolean tested);

G_END_DECLS

/* How each printer was set in the desktop's print dialog: tray, quality, both sides and whatever else it offers, and the sheet it printed on. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Keeps how the printer was set; a printer goes by the desktop's name, "" stands for printing into a file. sheet: the name of the sheet (HwSheetSize). What belongs to one
 * job alone (copies, which pages, the file's name) and what would spoil the true size (scale, several pages on a sheet) is left out. */
void
hw_printer_setup_keep (const char *printer, const char *sheet, GtkPrintSettings *settings);
/* Adds what is kept to settings; nothing when nothing is. */
void
hw_printer_setup_apply (const char *printer, GtkPrintSettings *settings);
/* The sheet it printed on last. Returns: (transfer full) (nullable) */
char *
hw_printer_setup_sheet (const char *printer);

G_END_DECLS

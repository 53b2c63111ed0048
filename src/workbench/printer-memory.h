/* What is known of each printer that is not true to size. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What pages are drawn longer by for a printer, across and down; 1 where nothing is known. A printer goes by the desktop's name; "" stands for PDF
 * files. */
void
hw_printer_memory_get (const char *printer, double *stretch_x, double *stretch_y);
gboolean
hw_printer_memory_knows (const char *printer);
void
hw_printer_memory_set (const char *printer, double stretch_x, double stretch_y);
void
hw_printer_memory_forget (const char *printer);

/* The printers something is known of and the one used last, by name, "" first. Returns: (transfer full) */
GStrv
hw_printer_memory_names (void);

/* "PDF files" or the printer's name. (transfer none) */
const char *
hw_printer_words (const char *printer);

/* "Kitchen printer: everything is drawn 1.7 % longer across, 0.8 % shorter down." Returns: (transfer full) */
char *
hw_printer_memory_sentence (const char *printer);

G_END_DECLS

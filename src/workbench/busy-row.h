/* What is being done, how far it is, and a button to stop it: seen only when it takes longer than half a second. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_BUSY_ROW (hw_busy_row_get_type ())
G_DECLARE_FINAL_TYPE (HwBusyRow, hw_busy_row, HW, BUSY_ROW, GtkBox)

/* Signal "stop": the person asked for it to end. */
GtkWidget *
hw_busy_row_new (void);
/* Something begins, or something else is done now. */
void
hw_busy_row_begin (HwBusyRow *row, const char *words);
/* done of n; without it nobody knows how far it is. */
void
hw_busy_row_set_done (HwBusyRow *row, guint done, guint n);
void
hw_busy_row_end (HwBusyRow *row);

G_END_DECLS

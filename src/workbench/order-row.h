/* One row of the stitch order: number, picture, name, the bead of its hooping. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_ORDER_ROW (hw_order_row_get_type ())
G_DECLARE_FINAL_TYPE (HwOrderRow, hw_order_row, HW, ORDER_ROW, GtkBox)

/* Rows can be dragged onto one another; the bench is told where the motif goes. */
GtkWidget *
hw_order_row_new (HwBench *bench);
/* motif NULL: the row is not in use. place is counted from 0. */
void
hw_order_row_show (HwOrderRow *row, HwSceneMotif *motif, guint place);
/* Shows the hooping of the newest plan. */
void
hw_order_row_show_plan (HwOrderRow *row);
HwSceneMotif *
hw_order_row_get_motif (HwOrderRow *row);

G_END_DECLS

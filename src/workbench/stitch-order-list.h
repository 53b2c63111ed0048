/* The stitch order: all motifs back to front, as they are stitched where they overlap. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_STITCH_ORDER_LIST (hw_stitch_order_list_get_type ())
G_DECLARE_FINAL_TYPE (HwStitchOrderList, hw_stitch_order_list, HW, STITCH_ORDER_LIST, GtkBox)

GtkWidget *
hw_stitch_order_list_new (HwBench *bench);

G_END_DECLS

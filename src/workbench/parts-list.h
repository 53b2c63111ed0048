/* The parts of the scene in the order they are stitched. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_PARTS_LIST (hw_parts_list_get_type ())
G_DECLARE_FINAL_TYPE (HwPartsList, hw_parts_list, HW, PARTS_LIST, GtkBox)

GtkWidget *
hw_parts_list_new (HwBench *bench);

G_END_DECLS

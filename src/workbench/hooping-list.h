/* The hoopings of the plan, in order, as numbered cards. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_HOOPING_LIST (hw_hooping_list_get_type ())
G_DECLARE_FINAL_TYPE (HwHoopingList, hw_hooping_list, HW, HOOPING_LIST, GtkBox)

GtkWidget *
hw_hooping_list_new (HwBench *bench);

G_END_DECLS

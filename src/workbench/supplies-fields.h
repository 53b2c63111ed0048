/* Fields for what the workroom uses up: how thick, how wide, how fine, how much is wound. Each change is one step of the history. */
#pragma once

#include "bench.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_SUPPLIES_FIELDS (hw_supplies_fields_get_type ())
G_DECLARE_FINAL_TYPE (HwSuppliesFields, hw_supplies_fields, HW, SUPPLIES_FIELDS, GtkBox)

GtkWidget *
hw_supplies_fields_new (HwBench *bench);

G_END_DECLS

/* The cloth's fields: width, height, colour, how it is held. Used by the side pane and the dialogs. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_FABRIC_FIELDS (hw_fabric_fields_get_type ())
G_DECLARE_FINAL_TYPE (HwFabricFields, hw_fabric_fields, HW, FABRIC_FIELDS, GtkBox)

/* Signal "edited" (): the person changed something; read it with _get(). bench tells the unit only. */
GtkWidget *
hw_fabric_fields_new (HwBench *bench);
void
hw_fabric_fields_set (HwFabricFields *fields, const HwFabric *fabric);
/* Writes width, height, colour and hold; leaves the rest of *fabric alone. */
void
hw_fabric_fields_get (HwFabricFields *fields, HwFabric *fabric);

G_END_DECLS

/* The points of a line, typed one by one. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_POINTS_FIELD (hw_points_field_get_type ())
G_DECLARE_FINAL_TYPE (HwPointsField, hw_points_field, HW, POINTS_FIELD, GtkBox)

/* Signal "edited" (). */
GtkWidget *
hw_points_field_new (HwBench *bench);
void
hw_points_field_set (HwPointsField *field, const HwPoint *points, guint n_points);
/* Returns: (transfer full) (element-type HwPoint) */
GArray *
hw_points_field_get (HwPointsField *field);

G_END_DECLS

/* The edge line's fields: shape, place and size, corner, points, margin. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_EDGE_FIELDS (hw_edge_fields_get_type ())
G_DECLARE_FINAL_TYPE (HwEdgeFields, hw_edge_fields, HW, EDGE_FIELDS, GtkBox)

/* Signal "edited" (): the person changed something; read it with _get(). bench tells the unit only. */
GtkWidget *
hw_edge_fields_new (HwBench *bench);
void
hw_edge_fields_set (HwEdgeFields *fields, const HwEdgeLine *edge);
/* The edge line as the fields say. Returns: (transfer full) (nullable): NULL when the points make no clear line; then the fields
 * themselves say why. */
HwEdgeLine *
hw_edge_fields_get (HwEdgeFields *fields);

const char *
hw_edge_shape_words (HwEdgeShape shape);

G_END_DECLS

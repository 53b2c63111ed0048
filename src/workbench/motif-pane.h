/* The facts of the selected motif, or what several have in common, to read and to change. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_MOTIF_PANE (hw_motif_pane_get_type ())
G_DECLARE_FINAL_TYPE (HwMotifPane, hw_motif_pane, HW, MOTIF_PANE, GtkBox)

GtkWidget *
hw_motif_pane_new (HwBench *bench);

G_END_DECLS

/* The side pane: the facts of what is selected, the stitch order, the hoopings, what to look at. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_SIDE_PANE (hw_side_pane_get_type ())
G_DECLARE_FINAL_TYPE (HwSidePane, hw_side_pane, HW, SIDE_PANE, GtkBox)

/* Signal "show-place" (double x, double y): a place on the cloth, mm, the person asked to see. */
GtkWidget *
hw_side_pane_new (HwBench *bench);
/* Unfolds the problems and puts the keyboard there. */
void
hw_side_pane_show_problems (HwSidePane *pane);
/* The same for the parts of the scene. */
void
hw_side_pane_show_parts (HwSidePane *pane);

G_END_DECLS

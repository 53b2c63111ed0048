/* What a person has decided about the selected motifs, and what can be decided about several. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_DECISIONS_LIST (hw_decisions_list_get_type ())
G_DECLARE_FINAL_TYPE (HwDecisionsList, hw_decisions_list, HW, DECISIONS_LIST, GtkBox)

/* Follows the selection of the bench; whole: stands for the scene, and shows what is held while nothing is selected. Its buttons are actions of the window. */
GtkWidget *
hw_decisions_list_new (HwBench *bench, gboolean whole);

G_END_DECLS

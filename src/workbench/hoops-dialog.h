/* The dialog for the hoops a person owns. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* Changes are planned at once, each a step of the history. */
void
hw_hoops_dialog_show (GtkWindow *parent, HwBench *bench);

/* A hoop with sensible measures to start from. Returns: (transfer full) */
HwHoop *
hw_hoop_to_start_from (HwScene *scene, double field_width, double field_height);

G_END_DECLS

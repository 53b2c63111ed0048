/* The marks to draw before the stitching starts, and what can be done to each from the keyboard. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* A window beside the table, which stays usable: the list follows the plan. */
void
hw_mark_list_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

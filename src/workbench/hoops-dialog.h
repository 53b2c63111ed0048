/* The dialog for the hoops a person owns. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* Changes are planned at once, each a step of the history. */
void
hw_hoops_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

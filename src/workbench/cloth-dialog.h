/* The dialog for the cloth and its edge line. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* Changes are seen on the table at once, each a step of the history. */
void
hw_cloth_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

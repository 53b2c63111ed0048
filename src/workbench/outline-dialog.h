/* The outline of one motif, drawn by hand over its artwork. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* Nothing for a motif that must stay as it is. */
void
hw_outline_dialog_show (GtkWindow *parent, HwBench *bench, const char *motif_id);

G_END_DECLS

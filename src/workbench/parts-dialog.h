/* The dialog that puts the selected motifs into a part. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* Nothing happens while nothing is selected. */
void
hw_parts_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

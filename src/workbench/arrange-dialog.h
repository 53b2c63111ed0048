/* Asks for the figures of a row, a round or a tuck; what comes of them is seen on the cloth while they are typed. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* Hangs a slip with the fields at the right side of the table. Does nothing when the selection does not allow it. */
void
hw_arrange_dialog_show (GtkWidget *table, HwBench *bench, HwArrangeKind kind);

G_END_DECLS

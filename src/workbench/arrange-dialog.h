/* Asks for the figures of a row, a round or a tuck; what comes of them is seen on the cloth while they are typed. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* Does nothing when the selection does not allow it. */
void
hw_arrange_dialog_show (GtkWindow *parent, HwBench *bench, HwArrangeKind kind);

G_END_DECLS

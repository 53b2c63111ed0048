/* What the cloth drew in, and what it is expected to. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

void
hw_draw_in_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

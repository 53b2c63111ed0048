/* A hooping was stitched elsewhere than planned: where it really landed. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* frozen: among the stitched hoopings, from 0. */
void
hw_landed_dialog_show (GtkWindow *parent, HwBench *bench, guint frozen);

G_END_DECLS

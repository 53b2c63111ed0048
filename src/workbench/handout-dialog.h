/* The dialog that puts what is taken along into a folder. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

void
hw_handout_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

/* The states the scene's file had before it was saved over, to bring one of them back. */
#pragma once

#include "bench.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The bench's scene must have a file. */
void
hw_earlier_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

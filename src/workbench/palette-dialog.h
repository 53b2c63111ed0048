/* Threads at hand: each thread of the scene beside the nearest ones the person has, and what must be bought. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

void
hw_palette_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

/* The window in which a photo of the cloth is put square. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

void
hw_photo_square_dialog_show (GtkWindow *parent, HwBench *bench, guint index);

G_END_DECLS

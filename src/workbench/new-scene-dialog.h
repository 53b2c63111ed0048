/* The dialog that starts a new scene. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* The bench's scene is replaced when the person says so; unsaved work must have been spoken of before. */
void
hw_new_scene_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS

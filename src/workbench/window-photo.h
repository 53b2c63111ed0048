/* The window and the photos of the cloth. */
#pragma once

#include "window.h"

G_BEGIN_DECLS

/* Tries the file in the background, then asks how the photo is to be kept; what is no photo is told in the window. */
void
hw_window_add_photo (HwWindow *window, GFile *file);
/* By its name. */
gboolean
hw_window_is_photo_file (GFile *file);
/* Actions, and photos dropped on the table. */
void
hw_window_add_photo_actions (HwWindow *window);

G_END_DECLS

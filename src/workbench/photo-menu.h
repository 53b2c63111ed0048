/* A button that offers the photos of the scene, and any other. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* folder: where the photo's path starts, or NULL. */
typedef void (*HwPhotoPicked) (const HwPhoto *photo, const char *folder, gpointer owner);

/* picked is called as long as owner lives. */
GtkWidget *
hw_photo_menu_button_new (HwBench *bench, const char *label, HwPhotoPicked picked, GObject *owner);

G_END_DECLS

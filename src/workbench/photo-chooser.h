/* The dialog in which a photo's file is chosen. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef void (*HwPhotoChosen) (GFile *file, gpointer owner);

/* Asks for a JPEG or PNG over parent, beginning among the person's pictures, else in folder (may be NULL). chosen is called when there is one; owner is kept
 * alive until then. */
void
hw_photo_choose (
    GtkWindow *parent, const char *title, const char *folder, HwPhotoChosen chosen, GObject *owner);

G_END_DECLS

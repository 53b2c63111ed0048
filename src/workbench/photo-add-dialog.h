/* A photo of the cloth is added: what it is called, when it was taken, and where it is kept. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* Called once the photo is on the bench. */
typedef void (*HwPhotoAdded) (GtkWindow *parent, guint index);

/* bytes: the file's, tried already. */
void
hw_photo_add_dialog_show (
    GtkWindow *parent, HwBench *bench, const char *file, GBytes *bytes, HwPhotoAdded added);
/* The same fields for a photo that is there. */
void
hw_photo_rename_dialog_show (GtkWindow *parent, HwBench *bench, guint index);

G_END_DECLS

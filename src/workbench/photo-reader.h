/* The window in which drawn marks are read in a photo: handles on known points, the crosses looked for, shown, and handed on when the person approves. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* n readings the person approved of; owner is alive. */
typedef void (*HwPhotoRead) (const HwReading *readings, guint n, gpointer owner);

/* A photo of the hooped cloth: marks (letter, design in hoop axes) are read in hoop axes, by known points of the hoop. */
void
hw_photo_reader_show_hooped (GtkWindow *parent,
                             HwBench *bench,
                             const HwPhoto *photo,
                             const HwHoop *hoop,
                             const HwReading *marks,
                             guint n,
                             HwPhotoRead read,
                             GObject *owner);
/* A photo of the cloth with a sheet of paper laid beside the marks (design in fabric mm): they are read in the sheet's own axes, which do not draw in. folder: where the
 * photo's path starts, or NULL. */
void
hw_photo_reader_show_beside_sheet (GtkWindow *parent,
                                   HwBench *bench,
                                   const HwPhoto *photo,
                                   const char *folder,
                                   const HwReading *marks,
                                   guint n,
                                   HwPhotoRead read,
                                   GObject *owner);

G_END_DECLS

/* A photograph's file: read for the scene, or copied beside it. */
#pragma once

#include <gio/gio.h>

#include "../formats/picture-load.h"
#include "../scene/photo.h"

G_BEGIN_DECLS

/* The bytes of a photo that may be opened at all. Returns: (transfer full) (nullable) */
GBytes *
hw_photo_file_read (const char *path, GError **error);
/* The photo's bytes: the scene's own, or read from its file; folder: where its path starts, or NULL. Returns: (transfer full) (nullable) */
GBytes *
hw_photo_bytes (const HwPhoto *photo, const char *folder, GError **error);
/* The decoded photo. Long work. Returns: (transfer full) (nullable) */
HwPicture *
hw_photo_load (const HwPhoto *photo, const char *folder, GError **error);
/* Sees to it that the photo lies in the folder: copied there under a free name, unless it does already, or lies below it. Returns: (transfer full)
 * (nullable): its path from the folder; copied: whether a file was made */
char *
hw_photo_file_put_beside (
    const char *path, GBytes *bytes, const char *folder, gboolean *copied, GError **error);
/* A photo that no scene keeps yet, of the file there; nothing is read. NULL when it cannot be read directly. Returns: (transfer full) (nullable) */
HwPhoto *
hw_photo_of_file (GFile *file);
/* The day the photo was taken, "2026-11-25", as the camera noted; else the day the file was last changed, or NULL. bytes: the file's. Returns: (transfer full) */
char *
hw_photo_file_day (const char *path, GBytes *bytes);
/* "cloth-day-2.jpg" becomes "Cloth day 2". Returns: (transfer full) */
char *
hw_photo_file_name (const char *path);

G_END_DECLS

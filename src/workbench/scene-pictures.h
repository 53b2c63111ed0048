/* Small pictures of saved scenes, for the start page. They are painted once and kept in the person's cache folder until the scene's file is another one. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* A PNG of the scene's cloth with its motifs, its longer side of so many pixels: the one that is kept, else painted now. A scene whose artwork alone
 * has changed keeps its picture until it is saved again. folder: where pictures are kept; NULL: "~/.cache/hoopwright/scenes". May be called on any
 * thread. Returns: (transfer full) (nullable): its path, or NULL with one clear sentence in error */
char *
hw_scene_picture_file (const char *folder, const char *scene, guint longer_side, GError **error);

G_END_DECLS

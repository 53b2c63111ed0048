/* A small picture of a scene, as file managers and lists of scenes show it: the cloth with its motifs, no plan. */
#pragma once

#include <cairo.h>
#include <gio/gio.h>

#include "../scene/snapshot.h"

G_BEGIN_DECLS

#define HW_SCENE_THUMB_MOST 4096 /* pixels */

/* The whole cloth, its longer side of so many pixels (1 to HW_SCENE_THUMB_MOST), opaque. May be called on any thread. Returns: (transfer full): an
 * image surface, in an error status when memory is short */
cairo_surface_t *
hw_scene_thumb (const HwSnapshot *scene, guint longer_side);

/* The same as a PNG file, whole or not at all; the name may end in anything, because those who ask for small pictures choose names of their own. Errors are
 * of the domain G_FILE_ERROR, sentences that name the file. */
gboolean
hw_scene_thumb_save (const HwSnapshot *scene, guint longer_side, const char *path, GError **error);

G_END_DECLS

/* Scene files (.hoopscene): JSON in, snapshot out, and back. Stable key order, unknown keys kept, saved atomically. */
#pragma once

#include <gio/gio.h>

#include "../scene/snapshot.h"

G_BEGIN_DECLS

#define HW_SCENE_FILE_ERROR (hw_scene_file_error_quark ())
typedef enum
{
  HW_SCENE_FILE_ERROR_READ,    /* the file cannot be read */
  HW_SCENE_FILE_ERROR_SYNTAX,  /* not JSON: line and column are named */
  HW_SCENE_FILE_ERROR_CONTENT, /* a key is missing or wrong: its path, what was expected, what was found */
  HW_SCENE_FILE_ERROR_TOO_LARGE,
  HW_SCENE_FILE_ERROR_WRITE
} HwSceneFileError;
GQuark
hw_scene_file_error_quark (void);

/* Reads a scene and the artwork its motifs name, relative to the file. Artwork that cannot be read does not fail the call: the
 * motif carries artwork_trouble. Returns: (transfer full) (nullable): NULL with one clear sentence in error */
HwSnapshot *
hw_scene_file_load (const char *path, GError **error);

/* The same from memory; folder is where artwork paths start, or NULL to load none. */
HwSnapshot *
hw_scene_file_parse (const char *text, gssize length, const char *folder, GError **error);

/* The same two, but no artwork is read: motifs that name some await it (HwMotif.artwork_awaited), to be given it by an HwArtworkShelf. */
HwSnapshot *
hw_scene_file_load_awaiting (const char *path, GError **error);
HwSnapshot *
hw_scene_file_parse_awaiting (const char *text, gssize length, GError **error);

/* Writes beside, syncs, renames: the old file stays whole until the new one is. Paths of artwork and photos are made relative to path when
 * old_folder (where they were relative to so far, or NULL if the same) differs. */
gboolean
hw_scene_file_save (const HwSnapshot *snapshot, const char *path, const char *old_folder, GError **error);

/* Returns: (transfer full): the file's text, ending in a newline */
char *
hw_scene_file_text (const HwSnapshot *snapshot);

G_END_DECLS

/* Files that a scene names. A scene may come from anybody, so what it names is read only where the person put it beside the scene or chose it. */
#pragma once

#include <glib.h>

#include "../scene/snapshot.h"

G_BEGIN_DECLS

#define HW_NAMED_FILE_ERROR (hw_named_file_error_quark ())
typedef enum
{
  HW_NAMED_FILE_ERROR_ELSEWHERE, /* it lies outside the scene's folder, and the person has not chosen it */
  HW_NAMED_FILE_ERROR_MISSING,   /* there is no such file */
  HW_NAMED_FILE_ERROR_NO_FILE    /* a folder, a device, a pipe: nothing that holds artwork */
} HwNamedFileError;
GQuark
hw_named_file_error_quark (void);

/* Where a file that a scene names lies in truth, links resolved; only regular files. folder: the scene's, in or below which it must lie unless it was chosen;
 * NULL: the scene was never in a file, so the person herself chose all it names. What lies elsewhere is not even looked at.
 * Any thread may ask. Returns: (transfer full) (nullable): NULL with a sentence that begins with the file's name. */
char *
hw_named_file_find (const char *named, const char *folder, GError **error);

/* The person chose this file: from now on scenes in any folder may name it. Kept among the program's state, by its true place.
 * Files that are not there are passed over. Any thread may call it. */
void
hw_named_file_choose (const char *named, const char *folder);

/* The files a scene names elsewhere that were not chosen, each once, as the scene names them. Returns: (transfer full) (element-type utf8) */
GPtrArray *
hw_named_files_elsewhere (const HwSnapshot *snapshot, const char *folder);

/* A scene is saved in another folder, or for the first time: what it may read from the old one (NULL: none) it may read from the new one as well. */
void
hw_named_files_take_along (const HwSnapshot *snapshot, const char *old_folder, const char *new_folder);

G_END_DECLS

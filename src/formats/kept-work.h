/* Unsaved work, kept beside the person's own files: each running window keeps its scene in a file of its own in a folder of the program's, and
 * lets go of it when the scene is saved. What a later start finds there, with nobody at it, was left by a program that ended before its time. */
#pragma once

#include <gio/gio.h>

#include "../scene/snapshot.h"

G_BEGIN_DECLS

/* Where one window keeps its work. While it lives, nobody else takes the work for left behind. */
typedef struct _HwWorkPlace HwWorkPlace;

/* folder is made when it is not there; NULL: the program's own in the person's state folder (XDG Base Directory Specification).
 * Returns: (transfer full) (nullable): NULL with a sentence in error when nothing can be kept there */
HwWorkPlace *
hw_work_place_new (const char *folder, GError **error);
/* Leaves what is kept where it is; then it can be found. */
void
hw_work_place_free (HwWorkPlace *place);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwWorkPlace, hw_work_place_free)

/* Keeps the scene in place of what was kept before. path: where it is saved, or NULL; artwork_folder: where its artwork paths start, or NULL.
 * now: seconds since 1970. May be called on any thread, by one at a time. */
gboolean
hw_work_place_keep (HwWorkPlace *place,
                    const HwSnapshot *snapshot,
                    const char *path,
                    const char *artwork_folder,
                    gint64 now,
                    GError **error);
/* Keeps nothing any more. */
void
hw_work_place_clear (HwWorkPlace *place);

/* Work somebody left behind. */
typedef struct
{
  char *file;
  char *name;     /* of the scene */
  char *path;     /* where it is saved, or NULL */
  char *folder;   /* where its artwork paths start, or NULL */
  gint64 kept;    /* seconds since 1970 */
  gboolean newer; /* than the saved file, or there is none */
} HwLeftWork;

/* Newest first. Files that are no such work are passed over. folder as above. Returns: (transfer full) (element-type HwLeftWork) */
GPtrArray *
hw_left_work_list (const char *folder);
/* Its scene, whose motifs await their artwork. Returns: (transfer full) (nullable): NULL with one clear sentence in error */
HwSnapshot *
hw_left_work_read (const HwLeftWork *work, GError **error);
void
hw_left_work_remove (const HwLeftWork *work);

/* "~/.local/state/hoopwright". Returns: (transfer full) */
char *
hw_state_folder (void);

G_END_DECLS

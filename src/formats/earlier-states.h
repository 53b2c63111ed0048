/* Earlier states of a scene file: what it held before it was saved over, the last ten of them, in a folder of the program's. */
#pragma once

#include <gio/gio.h>

#include "../scene/snapshot.h"

G_BEGIN_DECLS

typedef struct
{
  char *file;
  gint64 saved; /* seconds since 1970: when the scene file came to hold it */
} HwEarlierState;

/* Keeps what path holds now, because it is about to be saved over; nothing when it is not there or is what was kept last. spacing: seconds
 * within which it takes the place of the one kept before, so that many quick saves do not push out a day's work; 0: always one more.
 * folder NULL: the program's own. A state that cannot be kept fails nothing but itself. */
gboolean
hw_earlier_state_keep (const char *folder, const char *path, gint64 spacing, GError **error);

/* Those of the scene file at path, newest first. Returns: (transfer full) (element-type HwEarlierState) */
GPtrArray *
hw_earlier_states_list (const char *folder, const char *path);
/* The scene as it was, whose motifs await their artwork, to be looked for from where path lies. Returns: (transfer full) (nullable): NULL with one clear sentence in error */
HwSnapshot *
hw_earlier_state_read (const HwEarlierState *state, const char *path, GError **error);

G_END_DECLS

/* Keeps unsaved work every few seconds, so that a crash or a power cut takes no more than that. */
#pragma once

#include "bench.h"

G_BEGIN_DECLS

typedef struct _HwWorkKeeper HwWorkKeeper;

/* Watches the bench as long as it lives. folder: see kept-work.h; seconds: between an edit and its keeping. trouble is called, on the main
 * context, with a sentence when nothing can be kept, and not again before something was (NULL: nobody is told). Returns: (transfer full) */
typedef void (*HwWorkKeeperTrouble) (const char *sentence, gpointer user_data);
HwWorkKeeper *
hw_work_keeper_new (
    HwBench *bench, const char *folder, double seconds, HwWorkKeeperTrouble trouble, gpointer user_data);
/* Keeps what is not saved at once, and waits until it is kept. FALSE when it could not be. */
gboolean
hw_work_keeper_keep_now (HwWorkKeeper *keeper);
/* given_up: the unsaved work was saved or let go of by the person; nothing of it stays. */
void
hw_work_keeper_free (HwWorkKeeper *keeper, gboolean given_up);

G_END_DECLS

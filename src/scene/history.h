/* The history of a scene: named steps between snapshots, undone and redone. */
#pragma once

#include "snapshot.h"

G_BEGIN_DECLS

typedef struct _HwHistory HwHistory;

HwHistory *
hw_history_new (const HwSnapshot *start);
void
hw_history_free (HwHistory *history);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHistory, hw_history_free)

/* Records that the step `name` led to `after`. What could be redone is dropped. Nothing happens when after equals the present state.
 * merge: join with the step before if it has the same name and is younger than 800 ms. now_us: monotonic time. */
void
hw_history_push (
    HwHistory *history, const char *name, const HwSnapshot *after, gboolean merge, gint64 now_us);
/* The state to restore, or NULL when there is none. (transfer none) */
const HwSnapshot *
hw_history_undo (HwHistory *history);
const HwSnapshot *
hw_history_redo (HwHistory *history);
const char *
hw_history_undo_name (const HwHistory *history); /* or NULL */
const char *
hw_history_redo_name (const HwHistory *history);
/* Puts what `replaced` gives (transfer full) in the place of each state: the same work, with what came to it from elsewhere. No step. */
void
hw_history_replace (HwHistory *history,
                    HwSnapshot *(*replaced) (const HwSnapshot *state, gpointer user_data),
                    gpointer user_data);
/* Whether the present state is the one last marked as saved. */
void
hw_history_mark_saved (HwHistory *history);
/* No state of it is saved, as with work that was left behind. */
void
hw_history_mark_unsaved (HwHistory *history);
gboolean
hw_history_is_saved (const HwHistory *history);

G_END_DECLS

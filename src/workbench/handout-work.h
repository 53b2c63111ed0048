/* Files that are taken along, written together into one folder away from the window: needle lists, tables, a picture. */
#pragma once

#include <gio/gio.h>

#include "../drawing/plan-picture.h"
#include "../formats/lists-csv.h"

G_BEGIN_DECLS

typedef struct _HwHandout HwHandout;

/* Nothing yet, into a folder that exists. */
HwHandout *
hw_handout_new (const HwPlan *plan, const char *folder);
void
hw_handout_free (HwHandout *handout);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHandout, hw_handout_free)

/* ending: "csv" or "svg". */
void
hw_handout_add_needles (HwHandout *handout, guint hooping, const char *ending);
void
hw_handout_add_list (HwHandout *handout, HwListKind kind);
/* ending: "png" or "svg". */
void
hw_handout_add_picture (HwHandout *handout, const HwPlanPictureOptions *options, const char *ending);

guint
hw_handout_n_files (const HwHandout *handout);
/* The names of those that are in the folder already. Returns: (transfer full) (element-type utf8) */
GPtrArray *
hw_handout_there_already (const HwHandout *handout);

typedef struct
{
  guint n_written;
  GPtrArray *troubles; /* sentences, owned */
} HwHandoutResult;
void
hw_handout_result_free (HwHandoutResult *result);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHandoutResult, hw_handout_result_free)

/* Writes them one after the other on a thread of its own, over what is there; one that cannot be written keeps none of the others back. Takes over
 * handout. n_done is counted up as they are done, and must live until the callback. */
void
hw_handout_write_async (HwHandout *handout,
                        guint *n_done,
                        GCancellable *cancellable,
                        GAsyncReadyCallback callback,
                        gpointer user_data);
/* Never fails: when it was stopped, the result tells what was written by then. Returns: (transfer full) */
HwHandoutResult *
hw_handout_write_finish (GAsyncResult *result);

/* "The Walled Garden, Hooping 3.csv": fit for a file. Returns: (transfer full) */
char *
hw_handout_needles_name (const HwPlan *plan, guint hooping, const char *ending);
/* "Hoopings", "Threads", "Marks", "What to buy". */
const char *
hw_handout_list_words (HwListKind kind);

G_END_DECLS

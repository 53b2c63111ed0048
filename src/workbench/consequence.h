/* What comes of an edit before it is made: the changed scene is planned beside the bench, and the two plans are set side by side in a sentence. */
#pragma once

#include "bench.h"

G_BEGIN_DECLS

/* The scene with two hoopings of a plan of it made one (their motifs are kept together; pairs of them are no longer kept apart), or with
 * motifs taken out of a hooping (the others are kept together, by themselves; those taken out are free). NULL when there is nothing to join or to
 * split: a hooping that is stitched, no motif taken out, or all. Returns: (transfer full) (nullable) */
HwSnapshot *
hw_consequence_joined (HwBench *bench, const HwPlan *plan, guint first, guint second);
HwSnapshot *
hw_consequence_split (HwBench *bench, const HwPlan *plan, guint hooping, const char *const *taken_out);

/* The scene with a hooping of a plan of it kept along the grain. NULL for a stitched one. Returns: (transfer full) (nullable) */
HwSnapshot *
hw_consequence_along_grain (HwBench *bench, const HwPlan *plan, guint hooping);

typedef struct
{
  gboolean possible;   /* the plan can do it */
  HwSnapshot *instead; /* what can be had in its place, which text then speaks of; or NULL */
  char *text; /* "6 hoopings become 7, 3 thread changes less, 12 minutes more." or why it cannot be done */
} HwConsequence;

void
hw_consequence_free (HwConsequence *consequence);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwConsequence, hw_consequence_free)

/* Sets a plan beside the one before it. kept_together: ids that were to share a hooping. */
HwConsequence *
hw_consequence_new (const HwPlan *before, const HwPlan *after, const char *const *kept_together);

/* Plans the changed scene on a thread of its own, for a few seconds at most. The callback comes on the caller's main context. */
void
hw_consequence_weigh_async (HwBench *bench,
                            const HwPlan *before,
                            const HwSnapshot *changed,
                            const char *const *kept_together,
                            GCancellable *cancellable,
                            GAsyncReadyCallback callback,
                            gpointer user_data);
/* Returns: (transfer full) (nullable): NULL with G_IO_ERROR_CANCELLED when cancelled */
HwConsequence *
hw_consequence_weigh_finish (GAsyncResult *result, GError **error);

G_END_DECLS

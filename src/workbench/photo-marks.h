/* Drawn crosses looked for in a photograph that is roughly square already. */
#pragma once

#include <gio/gio.h>

#include "../registration/mark-finder.h"
#include "photo-squaring.h"

G_BEGIN_DECLS

typedef struct
{
  guint place;       /* index among the known places */
  HwPoint mm;        /* where it should lie */
  HwFoundMark found; /* where it is in the photo */
  double off;        /* mm from where it should lie, by the rough squaring */
  double sigma;      /* mm per axis that it is likely found off by, the squaring apart */
} HwSeenMark;

#define HW_MARKS_AROUND 8.0 /* mm that a mark drawn on cloth lying free is looked for around its place */

/* Looks for the marks among places, each within `around` mm of where it should be. Long work. Returns: (transfer full) (element-type HwSeenMark): surest first */
GArray *
hw_photo_look_for_marks (const HwPicture *picture,
                         const HwHomography *h,
                         const GPtrArray *places,
                         double around,
                         GCancellable *cancellable);
/* The same in the background, on behalf of source. */
void
hw_photo_look_for_marks_async (HwPicture *picture,
                               const HwHomography *h,
                               GPtrArray *places,
                               double around,
                               GObject *source,
                               GCancellable *cancellable,
                               GAsyncReadyCallback looked);
/* NULL when it was cancelled, or its source is no longer of use. places: where they were looked for, may be NULL. Returns: (transfer full) (nullable)
 * (element-type HwSeenMark) */
GArray *
hw_photo_look_for_marks_finish (GAsyncResult *result, GPtrArray **places);
/* "sure", "rather sure", "not sure" (static) */
const char *
hw_seen_mark_words (const HwSeenMark *mark);
/* Whether it is believable enough to be offered as chosen. */
gboolean
hw_seen_mark_is_sure (const HwSeenMark *mark);

G_END_DECLS

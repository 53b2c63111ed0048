/* All that is drawn on the cloth before the stitching starts: the centre cross and the marks of every hooping that is not stitched yet, measured
 * with a ruler from the edge line's top left corner. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* A cross to draw. */
typedef struct
{
  char *name; /* "3 centre", "3 E"; one that serves several hoopings bears all its names: "1 B, 2 B" */
  gboolean is_centre; /* of (one of) its hoopings, not a mark */
  gboolean is_held;   /* the person put it there, or drew it already */
  guint
      hooping; /* index of the first hooping it serves: the list is in this order, each hooping's centre first */
  HwPoint at;         /* fabric mm */
  double right, down; /* mm from the corner; negative: to the left of it, above it */
} HwListedMark;

typedef struct
{
  HwPoint corner;   /* fabric mm, what is measured from */
  char *from;       /* one sentence that says what is measured from */
  GPtrArray *marks; /* HwListedMark, owned */
} HwMarkList;

/* Returns: (transfer full). A plan without hoopings left to stitch gives an empty list. */
HwMarkList *
hw_mark_list_new (const HwPlan *plan);
void
hw_mark_list_free (HwMarkList *list);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwMarkList, hw_mark_list_free)

/* "60.0 mm right, 12.5 mm down"; "3.0 mm left, 12.5 mm up" where it lies on the other side of the corner. Returns: (transfer full) */
char *
hw_listed_mark_text (const HwListedMark *mark, HwUnit unit);

/* The same for any place of the cloth, fabric mm. Returns: (transfer full) */
char *
hw_mark_place_text (const HwSnapshot *snapshot, HwPoint at, HwUnit unit);

/* The list as plain text: the sentence, a heading, then a line for each mark: name, right and down, parted by tabs. Returns: (transfer full) */
char *
hw_mark_list_text (const HwMarkList *list, HwUnit unit);

/* An error to be expected: "0.42 mm", "0.017 in"; "not known" where it has no end. Returns: (transfer full) */
char *
hw_mark_error_text (double mm, HwUnit unit);

G_END_DECLS

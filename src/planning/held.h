/* What is held fast in a scene: hoopings stitched already, hoopings pinned by the person, and motifs that cannot be planned. What remains is
 * put into the words of the search. */
#pragma once

#include "hoop-choice.h"
#include "placings.h"
#include "plan.h"
#include "search.h"
#include "set-fit.h"

G_BEGIN_DECLS

#define HW_HELD_WALK HW_SEARCH_MOST_PAIRS /* more motifs than this are numbered by where they lie */

/* A held hooping; its motifs are indices into the snapshot. Where only the motifs are kept, the hoop means nothing. */
typedef struct
{
  const HwPin *pin;
  guint hoop;
  GArray *motifs; /* guint; of one in the machine, and of one that is stitched, in stitch order */
  GArray *steps;  /* HwBlockStep: its thread blocks where such a hooping's motifs take turns; or NULL */
} HwHeld;

/* Whether a pinned hooping is in the machine: its order is settled. */
#define hw_held_is_begun(one) ((one)->pin->work != NULL)

typedef struct
{
  const HwSnapshot *snapshot;
  const HwPlaced *placed;
  GHashTable *index_of; /* id -> index + 1 */
  GPtrArray *frozen;    /* HwHeld */
  GPtrArray *pins;      /* HwHeld */
  gboolean *out;        /* per motif: frozen, or no hoop takes it */
  guint64 *
      apart; /* per motif of the snapshot a row: the motifs it is kept apart from; NULL when there are none */
  guint *
      part; /* per motif of the snapshot: the part it is stitched with, or HW_NO_PART; NULL when the scene is not divided */

  /* The motifs that are planned, back to front. */
  guint n;
  guint *motif;   /* n: index into the snapshot */
  guint *pin_of;  /* n: index into pins, or G_MAXUINT */
  guint *walk;    /* n: the planned motifs in the order in which items are numbered */
  HwOrder *order; /* over the n */

  /* The items of the search: a pin as a whole, or one motif. */
  guint n_items;
  guint *item_of;        /* n */
  guint *first_of;       /* n_items: a motif of it (of the n) */
  guint64 *items_before; /* n_items rows; the order's own rows when there is no pin */
} HwHeldFast;

/* Sorts the scene out and tells the plan what is wrong with it. NULL when cancelled. */
HwHeldFast *
hw_held_new (HwPlan *plan,
             const HwPlaced *placed,
             HwSetFit *fit,
             HwOverlaps *overlaps,
             HwUnit unit,
             GCancellable *cancellable);
void
hw_held_free (HwHeldFast *held);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHeldFast, hw_held_free)

/* Whom a pin holds, in words: "Gate", "Gate and Quince", "Gate, Quince and 3 others". motifs: indices into the snapshot, at least one. Returns:
 * (transfer full) */
char *
hw_held_names (const HwSnapshot *snapshot, const GArray *motifs);

/* Whether the last motif of the set (indices into the snapshot) may join the others as far as the person's wishes go. */
gboolean
hw_held_lets_join (const HwHeldFast *held, const guint *set, guint n);

/* Whether the two motifs (indices into the snapshot) are kept apart. */
gboolean
hw_held_are_apart (const HwHeldFast *held, guint a, guint b);

G_END_DECLS

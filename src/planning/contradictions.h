/* Wishes of a person that cannot all be kept: pinned hoopings, ties, motifs kept apart. Private to this room. */
#pragma once

#include "held.h"

G_BEGIN_DECLS

typedef struct
{
  const HwSnapshot *snapshot;
  const HwOrder *order;  /* of the planned motifs, from overlaps alone */
  const guint *motif;    /* order->n: index into the snapshot */
  const guint *planned;  /* per motif of the snapshot: its number in the order, or G_MAXUINT */
  const GPtrArray *pins; /* HwHeld, each possible by itself; motifs are indices into the snapshot */
  const GArray *ties;    /* HwTie, both motifs planned; indices into the snapshot */
  const guint64 *apart;  /* see HwHeldFast */
} HwWishesAtOdds;

/* Marks the fewest pins and ties (arrays of as many gboolean, all FALSE beforehand) to leave out so that the rest can be kept; of equal
 * choices pins rather than ties, later rather than earlier ones. Adds to plan, when that is not NULL, for each one left out a sentence with
 * the smallest set of wishes that contradict. tie_out may be NULL: ties are then passed over. */
void
hw_contradictions_settle (const HwWishesAtOdds *odds, gboolean *pin_out, gboolean *tie_out, HwPlan *plan);

G_END_DECLS

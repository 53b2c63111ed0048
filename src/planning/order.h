/* The stitch order of a scene, for the files of this room: which motif must come before which. */
#pragma once

#include <gio/gio.h>

#include "mask.h"
#include "planner.h"

G_BEGIN_DECLS

#define HW_ORDER_COMMON_AREA 0.01 /* mm^2: rule 1 */

/* A motif as it lies on the cloth. Equal serials mean the same outline in the same place. */
typedef struct
{
  HwOutline *outline;
  guint64 serial;
} HwPlaced;

/* Remembers which pairs overlap from one plan to the next. */
typedef struct _HwOverlaps HwOverlaps;
HwOverlaps *
hw_overlaps_new (void);
void
hw_overlaps_free (HwOverlaps *overlaps);
/* Whether two placed motifs have a common area over HW_ORDER_COMMON_AREA. overlaps may be NULL. */
gboolean
hw_overlaps_ask (HwOverlaps *overlaps, const HwPlaced *a, const HwPlaced *b);

typedef struct
{
  guint n, words;
  guint64 *before; /* n rows: bit i of row j: i is stitched before j, directly or through others */
  GArray *steps;   /* of guint[2]: pairs that were found to bind, enough to reach every pair of before */
} HwOrder;

/* A tie of the person's own, first -> second. */
typedef struct
{
  guint first, second;
} HwTie;

/* The order of n placed motifs, back to front, without ties. begun (n, or NULL): those of the hooping in the machine, which do not bind one another.
 * NULL when cancelled. */
HwOrder *
hw_order_new (
    const HwPlaced *placed, guint n, const gboolean *begun, HwOverlaps *overlaps, GCancellable *cancellable);
void
hw_order_free (HwOrder *order);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwOrder, hw_order_free)

/* Adds a tie unless it would close a loop; FALSE then, and *loop (may be NULL) receives the way round: first, second, ..., first. */
gboolean
hw_order_tie (HwOrder *order, guint first, guint second, GArray **loop);

#define hw_order_has(order, i, j) hw_mask_has (HW_MASK_ROW ((order)->before, (j), (order)->words), (i))

/* All ties of a snapshot, in list order, those naming no motif left out. Returns: (element-type HwTie) (transfer full) */
GArray *
hw_order_ties (const HwSnapshot *snapshot);

/* "Gate before Fig branch, Fig branch before Quince" along a row of motifs. Returns: (transfer full) */
char *
hw_order_chain_text (const HwSnapshot *snapshot, const guint *chain, guint n);

G_END_DECLS

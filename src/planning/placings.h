/* The motifs of a scene as they lie on the cloth, kept from one plan to the next. */
#pragma once

#include "order.h"

G_BEGIN_DECLS

typedef struct _HwPlacings HwPlacings;
HwPlacings *
hw_placings_new (void);
void
hw_placings_free (HwPlacings *placings);

/* Places all motifs of the snapshot. The row is valid until the next call. (transfer none) */
const HwPlaced *
hw_placings_take (HwPlacings *placings, const HwSnapshot *snapshot);

/* How far motif i of the last snapshot passes the edge line (less its margin when `with_margin`), and where; remembered. */
double
hw_placings_passes_edge (
    HwPlacings *placings, guint i, const HwEdgeLine *edge, gboolean with_margin, HwPoint *where);

G_END_DECLS

/* Where motifs in the hand come to rest, and the thin rules that show why. */
#pragma once

#include <cairo.h>

#include "../geometry/snap.h"
#include "../geometry/units.h"
#include "bench.h"
#include "canvas-view.h"

G_BEGIN_DECLS

/* Edge line and margin, centre lines, and all motifs but those in the hand (HwSceneMotif). Returns: (transfer full) */
HwSnapField *
hw_guides_field_new (HwBench *bench, GPtrArray *in_hand);
/* The rules, and on equal gaps their length. area: the pixels in which they are seen. */
void
hw_guides_draw (cairo_t *cr, const HwSnapGuide *guides, guint n, const HwView *view, HwUnit unit, HwBox area);

G_END_DECLS

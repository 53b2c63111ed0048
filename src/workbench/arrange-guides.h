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
/* The pixels that a rule may touch. */
HwBox
hw_guide_bounds (const HwSnapGuide *guide, const HwView *view);
/* A rule, and on an equal gap its length. */
void
hw_guide_draw (cairo_t *cr, const HwSnapGuide *guide, const HwView *view, HwUnit unit);

G_END_DECLS

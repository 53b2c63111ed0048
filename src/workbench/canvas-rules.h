/* What breaks a rule, shown where it breaks it: the part of a motif past the edge line, a motif no hoop takes, and lightly the
 * motifs it overlaps. What lies still is kept apart from what is in the air, so that a drag does not draw it anew. */
#pragma once

#include <cairo.h>

#include "../geometry/units.h"
#include "../scene/snapshot.h"
#include "canvas-view.h"

G_BEGIN_DECLS

typedef struct _HwRules HwRules;

/* Which motifs are to be looked at, and which are spoken of. */
typedef enum
{
  HW_LOOK_NOT = 0,
  HW_LOOK_STILL = 1 << 0, /* it lies still */
  HW_LOOK_AIR = 1 << 1,   /* it is being dragged */
} HwLook;

HwRules *
hw_rules_new (void);
void
hw_rules_free (HwRules *rules);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwRules, hw_rules_free)

/* Looks at the scene anew; motifs whose outline is the same as before keep their verdict. placed: the outlines of all the snapshot's motifs as
 * they lie; look: an HwLook for each of them. partners: also find which others those in the air overlap.
 * Returns: TRUE when what lies still has another verdict than before */
gboolean
hw_rules_look (HwRules *rules,
               const HwSnapshot *snapshot,
               HwOutline *const *placed,
               const guint8 *look,
               gboolean partners,
               HwUnit unit);
/* True when nothing of that kind breaks a rule or is overlapped. */
gboolean
hw_rules_are_kept (const HwRules *rules, HwLook what);

/* Bounds of what hw_rules_draw() paints, pixels. */
HwBox
hw_rules_bounds (const HwRules *rules, HwLook what, const HwView *view);
void
hw_rules_draw (cairo_t *cr, const HwRules *rules, HwLook what, const HwView *view);

/* The words about the motifs in the air and those named in `told` (a byte for each of the snapshot's motifs); what lies still has its bare
 * sign already. area: the pixels within which they stay; avoid: what they should not cover (HwPoint, pixels). */
HwBox
hw_rules_words_bounds (
    const HwRules *rules, const guint8 *told, const HwView *view, HwBox area, const GArray *avoid);
void
hw_rules_draw_words (cairo_t *cr,
                     const HwRules *rules,
                     const guint8 *told,
                     const HwView *view,
                     HwBox area,
                     const GArray *avoid);

G_END_DECLS

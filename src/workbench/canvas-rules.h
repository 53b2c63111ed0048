/* What breaks a rule, shown where it breaks it: the part of a motif past the edge line, a motif no hoop takes, and lightly the
 * motifs it overlaps. */
#pragma once

#include <cairo.h>

#include "../geometry/units.h"
#include "../scene/snapshot.h"
#include "canvas-view.h"

G_BEGIN_DECLS

typedef struct _HwRules HwRules;

HwRules *
hw_rules_new (void);
void
hw_rules_free (HwRules *rules);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwRules, hw_rules_free)

/* Forgets what it found and looks at the scene anew. motifs: indices into the snapshot of the motifs to be looked at; placed: the outlines
 * of all the snapshot's motifs as they lie. partners: also find which others they overlap. */
void
hw_rules_look (HwRules *rules,
               const HwSnapshot *snapshot,
               const HwOutline *const *placed,
               const guint *motifs,
               guint n_motifs,
               gboolean partners,
               HwUnit unit);
void
hw_rules_clear (HwRules *rules);
gboolean
hw_rules_are_kept (const HwRules *rules);

/* Bounds of what hw_rules_draw() paints, pixels. */
HwBox
hw_rules_bounds (const HwRules *rules, const HwView *view);
void
hw_rules_draw (cairo_t *cr, const HwRules *rules, const HwView *view);
/* The slips with a sign and words. area: the pixels within which they stay; avoid: what they should not
 * cover (HwPoint, pixels). */
HwBox
hw_rules_words_bounds (const HwRules *rules, const HwView *view, HwBox area, const GArray *avoid);
void
hw_rules_draw_words (cairo_t *cr, const HwRules *rules, const HwView *view, HwBox area, const GArray *avoid);

G_END_DECLS

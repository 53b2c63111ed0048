/* Signs on the cloth: a small quiet one at each place the plan has something to say of, a strong one where the scene cannot be stitched whole. What
 * would lie over one another at the present zoom shares a sign. The words come on demand. Broken rules that a shape shows (canvas-rules.h)
 * are left out here. */
#pragma once

#include <cairo.h>

#include "../planning/plan.h"
#include "canvas-view.h"

G_BEGIN_DECLS

typedef struct _HwSigns HwSigns;

HwSigns *
hw_signs_new (void);
void
hw_signs_free (HwSigns *signs);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSigns, hw_signs_free)

/* Takes over what the plan (NULL: nothing) says. stage: -1, or the hooping whose own problems alone are shown beside those of none.
 * Returns: TRUE when the signs are others than before */
gboolean
hw_signs_learn (HwSigns *signs, const HwPlan *plan, int stage);
/* Gathers what lies close together at this view. To be called before what follows, whenever the view or the problems changed. */
void
hw_signs_place (HwSigns *signs, const HwView *view);

guint
hw_signs_count (const HwSigns *signs);
/* Where a sign stands, pixels; how many problems it stands for. */
HwPoint
hw_signs_at (const HwSigns *signs, guint sign);
guint
hw_signs_size (const HwSigns *signs, guint sign);
gboolean
hw_signs_is_grave (const HwSigns *signs, guint sign);
/* The sign under a pixel, or -1. */
int
hw_signs_under (const HwSigns *signs, HwPoint pixel);
/* The sign that stands for a problem at just this place, mm, or -1. */
int
hw_signs_of_place (const HwSigns *signs, HwPoint where);
/* What a sign has to say: some sentences, a line each. Returns: (transfer full) */
char *
hw_signs_text (const HwSigns *signs, guint sign);

/* Draws the signs that lie in area (pixels). hovered: the one to draw strongly, or -1. */
void
hw_signs_draw (cairo_t *cr, const HwSigns *signs, HwBox area, int hovered);
/* The words of a sign on a slip beside it: within area, not over `avoid` (HwPoint, pixels) nor over the motifs that are spoken of (HwBox, pixels; may
 * be NULL) if that can be. */
HwBox
hw_signs_words_bounds (
    const HwSigns *signs, guint sign, HwBox area, const GArray *avoid, const GArray *spoken_of);
void
hw_signs_draw_words (
    cairo_t *cr, const HwSigns *signs, guint sign, HwBox area, const GArray *avoid, const GArray *spoken_of);

G_END_DECLS

/* Ghosts: the other hoops and turns that would take the same motifs as well, as thin dashed frames that can be taken with a click. */
#pragma once

#include <cairo.h>

#include "../planning/sharing.h"
#include "../planning/plan.h"
#include "canvas-view.h"

G_BEGIN_DECLS

typedef struct
{
  HwHoop *hoop;
  HwCandidate candidate;
  int hooping;        /* of the plan: the one it would replace */
  char *label;        /* hoop name and turn */
  double label_width; /* px, with the space around it */
} HwGhost;

/* The candidates for the motifs (indices into the plan's snapshot) but the pose of the hooping they have (-1: none).
 * None for a frozen hooping. Returns: (transfer full) (element-type HwGhost) */
GArray *
hw_ghosts_find (const HwPlan *plan, const guint *motifs, guint n_motifs, int hooping);

/* Whether two such lists show the same; either may be NULL, which is as good as none. */
gboolean
hw_ghosts_same (const GArray *a, const GArray *b);

/* The lines. hovered: the index of the one to draw strongly, or -1. */
void
hw_ghosts_draw (cairo_t *cr, const GArray *ghosts, const HwView *view, int hovered);
/* The labels. area: the pixels they stay within; avoid: what they should not cover (HwPoint, pixels). */
void
hw_ghosts_draw_labels (
    cairo_t *cr, const GArray *ghosts, const HwView *view, HwBox area, const GArray *avoid, int hovered);

/* The ghost whose label, or (unless labels_only) whose line, lies under the pixel; or -1. */
int
hw_ghosts_hit (const GArray *ghosts,
               const HwView *view,
               HwBox area,
               const GArray *avoid,
               HwPoint pixel,
               gboolean labels_only);

G_END_DECLS

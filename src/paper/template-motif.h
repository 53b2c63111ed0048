/* Private to this room: a motif as every template shows it, in its own axes at its size on the cloth. */
#pragma once

#include "page.h"
#include "template-artwork.h"

G_BEGIN_DECLS

#define HW_TEMPLATE_BEYOND 4.0 /* mm the axis lines pass the outline, to meet lines drawn on the cloth */
#define HW_TEMPLATE_TOP 5.5    /* and at the top, where the arrow is */

typedef struct
{
  guint number;     /* its order number */
  HwMotif *motif;   /* mirrored once more on a template for the back */
  HwOutline *shape; /* scaled and mirrored, unturned; the motif's centre is the origin */
  HwTemplateLook look;
  double pixels_per_mm;
  HwArtwork artwork; /* painted when first shown */
  gboolean painted;
} HwTemplateMotif;

/* Of a motif of the job's plan, in the job's look. Returns: (transfer full) */
HwTemplateMotif *
hw_template_motif_new (const HwPrintJob *job, guint index, double pixels_per_mm);
void
hw_template_motif_free (HwTemplateMotif *motif);

/* How fine the artwork of the job's motifs may be. */
double
hw_template_fineness (const HwPrintJob *job);

/* The room the drawing takes: outline, cross mark, axis lines with the arrow at the top. */
HwBox
hw_template_motif_extent (const HwTemplateMotif *motif);

/* Everything, in the motif's axes: artwork or stitches, outline, axis lines, cross mark, order number. */
void
hw_template_motif_draw (cairo_t *cr, HwTemplateMotif *motif);

/* It will soon be drawn, with nothing below it. */
void
hw_template_motif_foresee (const HwTemplateMotif *motif);

/* Its body alone: what lies inside the outline, and the outline. alone: nothing lies below it. */
void
hw_template_motif_draw_body (cairo_t *cr, HwTemplateMotif *motif, gboolean alone);

/* An outline with each of its points moved. Returns: (transfer full) */
typedef HwPoint (*HwPointMove) (HwPoint p, gconstpointer user_data);
HwOutline *
hw_outline_move_points (const HwOutline *outline, HwPointMove move, gconstpointer user_data);

/* Gives up the painted artwork until it is shown again. */
void
hw_template_motif_forget (HwTemplateMotif *motif);

/* A template's cross mark through (0, 0): bold arms that leave the middle to two fine lines, so that the needle finds the very point, and an
 * arrow to the top. */
void
hw_draw_template_cross (cairo_t *cr, double arm, double weight);

/* The axis lines through (0, 0): dashed over the box, firm beyond it, with an arrow and the word for the top. */
void
hw_draw_template_axes (cairo_t *cr, HwBox box);

G_END_DECLS

/* Private to this room: what a hooping's template shows, in hoop axes. */
#pragma once

#include "template-motif.h"

G_BEGIN_DECLS

/* One of its motifs. */
typedef struct
{
  HwTemplateMotif *motif;
  HwPoint at;  /* hoop axes, mm; mirrored on a template for the back, as all that follows */
  double turn; /* degrees clockwise */
} HwHoopedMotif;

typedef struct
{
  const HwPrintJob *job;
  guint hooping;
  const HwHoop *hoop;
  HwHoopedMotif *motifs; /* in stitch order */
  guint n_motifs;
  GPtrArray *stitched;  /* HwOutline: what earlier hoopings leave in the field */
  HwOutline *edge_line; /* or NULL */
} HwHoopingTemplate;

/* The job must outlive it. Returns: (transfer full) */
HwHoopingTemplate *
hw_hooping_template_new (const HwPrintJob *job, guint hooping, double pixels_per_mm);
void
hw_hooping_template_free (HwHoopingTemplate *template);

/* The room the drawing takes: the field with the ends of the axis lines. */
HwBox
hw_hooping_template_extent (const HwHoopingTemplate *template);

/* Where a point of the cloth is on it. */
HwPoint
hw_hooping_template_point (const HwHoopingTemplate *template, HwPoint p);

/* Draws what shows in the window, both in hoop axes. */
void
hw_hooping_template_draw (cairo_t *cr, const HwHoopingTemplate *template, HwBox window);

/* Field and outlines, for the map of the tiles. HwTilingSketch. */
void
hw_hooping_template_sketch (cairo_t *cr, double hairline, gpointer template);

G_END_DECLS

/* On a stage of the course, motifs that are not stitched yet lie on the cloth as their paper templates: translucent paper cut along the outline, the artwork pale on it,
 * and the cross mark with its arrow to the top. Those of the hooping about to be stitched are stronger. */

#include "../drawing/cloth-drawing.h"
#include "canvas-private.h"

#define CROSS_MOST 13.0 /* px */
#define PALE_LATER 0.34
#define PALE_NEXT 0.85

HwTemplateShown
hw_canvas_template_of (HwCanvas *canvas, guint index)
{
  int stage = hw_bench_get_stage (canvas->bench);
  int hooping;

  if (stage < 0)
    return HW_TEMPLATE_SHOWN_NOT;
  hooping = hw_canvas_hooping_of (canvas, index);
  if (hooping >= 0 && hooping < stage)
    return HW_TEMPLATE_SHOWN_NOT;
  return hooping == stage ? HW_TEMPLATE_SHOWN_NEXT : HW_TEMPLATE_SHOWN_LATER;
}

double
hw_canvas_template_alpha (HwTemplateShown shown)
{
  return shown == HW_TEMPLATE_SHOWN_NOT ? 1 : shown == HW_TEMPLATE_SHOWN_NEXT ? PALE_NEXT : PALE_LATER;
}

static void
path (HwCanvas *canvas, cairo_t *cr, guint index)
{
  cairo_save (cr);
  cairo_translate (cr, canvas->view.x, canvas->view.y);
  cairo_scale (cr, canvas->view.zoom, canvas->view.zoom);
  hw_path_outline (cr, hw_scene_motif_get_placed (hw_canvas_motif (canvas, index)));
  cairo_restore (cr);
}

void
hw_canvas_draw_template_paper (HwCanvas *canvas, cairo_t *cr, guint index, HwTemplateShown shown)
{
  path (canvas, cr, index);
  cairo_set_source_rgba (cr, 1, 0.995, 0.98, shown == HW_TEMPLATE_SHOWN_NEXT ? 0.72 : 0.55);
  cairo_fill (cr);
}

void
hw_canvas_draw_template_lines (HwCanvas *canvas, cairo_t *cr, guint index, HwTemplateShown shown)
{
  const HwMotif *motif = hw_canvas_record (canvas, index);
  HwBox box = motif->outline->box;
  double least = MIN (box.x1 - box.x0, box.y1 - box.y0) * motif->placement.scale * canvas->view.zoom;
  double ink = shown == HW_TEMPLATE_SHOWN_NEXT ? 0.95 : 0.5;
  HwPoint at = hw_view_to_pixels (&canvas->view, motif->placement.position);

  path (canvas, cr, index);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgba (cr, 0.14, 0.15, 0.2, ink);
  cairo_set_line_width (cr, shown == HW_TEMPLATE_SHOWN_NEXT ? 1.6 : 1);
  cairo_stroke (cr);
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_rotate (cr, motif->placement.angle * G_PI / 180);
  hw_draw_cross_mark (cr, MIN (CROSS_MOST, least / 3), shown == HW_TEMPLATE_SHOWN_NEXT ? 1.4 : 1);
  cairo_restore (cr);
}

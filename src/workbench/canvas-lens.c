/* A round lens over the cloth: held with the key L it lies at the pointer; while a mark is pulled with Shift it lies at the mark, and the mark follows the hand at a fifth of its
 * pace. Lines in it stay thin, so that the middle of a cross can be seen. */

#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "canvas-marks.h"

#define RADIUS 96.0 /* px */
#define TIMES 4.0

static gboolean
lens_at (HwCanvas *canvas, HwPoint *at)
{
  if (canvas->drag.pull == HW_PULL_MARK && canvas->drag.fine)
    {
      *at = hw_view_to_pixels (&canvas->view, canvas->drag.mark_at);
      return TRUE;
    }
  *at = canvas->pointer;
  return canvas->lens_held && canvas->pointer_inside && !hw_canvas_is_dragging (canvas);
}

static void
draw_marks (HwCanvas *canvas, cairo_t *cr, const HwView *view)
{
  g_autoptr (GArray) marks = hw_canvas_marks (canvas);

  for (guint i = 0; i < marks->len; i++)
    {
      const HwCanvasMark *mark = &g_array_index (marks, HwCanvasMark, i);
      HwPoint at = hw_view_to_pixels (view, mark->at);

      cairo_set_source_rgb (cr, 0.12, 0.13, 0.18);
      hw_draw_mark (cr, at, mark->letter, 22, 1.2, 17);
    }
}

void
hw_canvas_draw_lens (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  HwView near = canvas->view;
  HwPoint at;
  graphene_rect_t bounds;
  cairo_t *cr;

  if (canvas->sheet == NULL || !lens_at (canvas, &at))
    return;
  hw_view_zoom_at (&near, TIMES, at);
  bounds = GRAPHENE_RECT_INIT ((float)floor (at.x - RADIUS - 4), (float)floor (at.y - RADIUS - 4),
                               (float)(2 * RADIUS + 9), (float)(2 * RADIUS + 9));
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_arc (cr, at.x, at.y, RADIUS, 0, 2 * G_PI);
  cairo_save (cr);
  cairo_clip_preserve (cr);
  cairo_new_path (cr);
  cairo_save (cr);
  cairo_translate (cr, near.x, near.y);
  cairo_scale (cr, near.zoom / canvas->sheet_view.zoom, near.zoom / canvas->sheet_view.zoom);
  cairo_translate (cr, -canvas->sheet_view.x, -canvas->sheet_view.y);
  cairo_set_source_surface (cr, canvas->sheet, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_BILINEAR);
  cairo_paint (cr);
  cairo_restore (cr);
  draw_marks (canvas, cr, &near);
  cairo_restore (cr);
  cairo_new_path (cr);
  cairo_arc (cr, at.x, at.y, RADIUS, 0, 2 * G_PI);
  cairo_set_source_rgba (cr, 1, 0.99, 0.96, 0.95);
  cairo_set_line_width (cr, 5);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

void
hw_canvas_hold_lens (HwCanvas *canvas, gboolean held)
{
  if (canvas->lens_held == held)
    return;
  canvas->lens_held = held;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_LENS));
}

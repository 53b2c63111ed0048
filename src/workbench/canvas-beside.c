/* Two states of the scene at once: the one worked on is drawn whole, and of the other (how it lay before the scene followed the cloth, or how it would lie
 * then) only what differs, as dashed lines with a fine line from place to place. */
#include "../drawing/cloth-drawing.h"
#include "canvas-private.h"

#define LINE 1.6 /* px */
#define HALO 3.6
#define LEAST_WAY 0.05 /* mm: less is no move */

static void
stroke (cairo_t *cr)
{
  static const double dashes[] = { 6, 4 };

  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_source_rgba (cr, 1, 0.99, 0.96, 0.75);
  cairo_set_line_width (cr, HALO);
  cairo_stroke_preserve (cr);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  cairo_set_line_width (cr, LINE);
  cairo_stroke (cr);
}

/* Adds an outline on the cloth to the path, which stays in pixels. */
static void
path_on_cloth (HwCanvas *canvas, cairo_t *cr, const HwOutline *outline)
{
  cairo_save (cr);
  cairo_translate (cr, canvas->view.x, canvas->view.y);
  cairo_scale (cr, canvas->view.zoom, canvas->view.zoom);
  hw_path_outline (cr, outline);
  cairo_restore (cr);
}

static void
draw_motif (HwCanvas *canvas, cairo_t *cr, const HwMotif *other)
{
  HwSceneMotif *here = hw_scene_find_motif (hw_bench_get_scene (canvas->bench), other->id);
  HwPoint from, to;

  if (here == NULL)
    return;
  from = hw_scene_motif_get_record (here)->placement.position;
  to = other->placement.position;
  if (hw_point_distance (from, to) < LEAST_WAY)
    return;
  g_autoptr (HwOutline) placed = hw_outline_place (other->outline, &other->placement);
  path_on_cloth (canvas, cr, placed);
  stroke (cr);
  from = hw_view_to_pixels (&canvas->view, from);
  to = hw_view_to_pixels (&canvas->view, to);
  cairo_move_to (cr, from.x, from.y);
  cairo_line_to (cr, to.x, to.y);
  stroke (cr);
}

void
hw_canvas_draw_beside (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  const HwSnapshot *other = hw_bench_get_beside (canvas->bench);
  HwScene *scene = hw_bench_get_scene (canvas->bench);
  GtkWidget *widget = GTK_WIDGET (canvas);
  cairo_t *cr;

  if (other == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget),
                                                                 (float)gtk_widget_get_height (widget)));
  if (!hw_outline_equal (other->edge_line->outline, hw_scene_get_edge_line (scene)->outline))
    {
      path_on_cloth (canvas, cr, other->edge_line->outline);
      stroke (cr);
    }
  for (guint i = 0; i < other->motifs->len; i++)
    draw_motif (canvas, cr, hw_snapshot_motif (other, i));
  cairo_destroy (cr);
}

/* Motifs pointed out because something said elsewhere speaks of them: a ring of ink on a light halo along the outline, and the place in the stitch order
 * on a dark tag. Each is a node of its own that is kept while the motif lies still. */

#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "canvas-private.h"

#define HALO 8.0 /* px */
#define RING 3.0

typedef struct
{
  HwOutline *placed;
  guint index;
  GskRenderNode *node;
} Ring;

static void
ring_free (gpointer data)
{
  Ring *ring = data;

  hw_outline_unref (ring->placed);
  gsk_render_node_unref (ring->node);
  g_free (ring);
}

GPtrArray *
hw_canvas_rings_new (void)
{
  return g_ptr_array_new_with_free_func (ring_free);
}

static GskRenderNode *
draw_ring (HwCanvas *canvas, const HwOutline *placed, guint index)
{
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  HwBox box = hw_view_box_to_pixels (&canvas->view, placed->box);
  double around = HALO + 16; /* the tag reaches out farther than the halo */
  graphene_rect_t bounds = GRAPHENE_RECT_INIT ((float)floor (box.x0 - around), (float)floor (box.y0 - around),
                                               (float)ceil (box.x1 - box.x0 + 2 * around + 1),
                                               (float)ceil (box.y1 - box.y0 + 2 * around + 1));
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);

  cairo_save (cr);
  cairo_translate (cr, canvas->view.x, canvas->view.y);
  cairo_scale (cr, canvas->view.zoom, canvas->view.zoom);
  hw_path_outline (cr, placed);
  cairo_restore (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgba (cr, 1, 0.99, 0.96, 0.85);
  cairo_set_line_width (cr, HALO);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0.10, 0.11, 0.16);
  cairo_set_line_width (cr, RING);
  cairo_stroke (cr);
  hw_canvas_draw_tag (canvas, cr, index, TRUE);
  cairo_destroy (cr);
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

static Ring *
ring_for (HwCanvas *canvas, guint index)
{
  HwOutline *placed = (HwOutline *)hw_scene_motif_get_placed (hw_canvas_motif (canvas, index));
  Ring *ring;

  for (guint i = 0; i < canvas->rings->len; i++)
    {
      ring = g_ptr_array_index (canvas->rings, i);
      if (ring->placed == placed && ring->index == index)
        return g_ptr_array_steal_index_fast (canvas->rings, i);
    }
  ring = g_new0 (Ring, 1);
  ring->placed = hw_outline_ref (placed);
  ring->index = index;
  ring->node = draw_ring (canvas, placed, index);
  return ring;
}

GskRenderNode *
hw_canvas_draw_pointed (HwCanvas *canvas)
{
  g_autoptr (GtkSnapshot) snapshot = NULL;
  GPtrArray *now;

  if (canvas->n_pointed == 0)
    {
      g_ptr_array_set_size (canvas->rings, 0);
      return NULL;
    }
  now = hw_canvas_rings_new ();
  snapshot = gtk_snapshot_new ();
  for (guint i = 0; i < canvas->cast->len; i++)
    if (hw_canvas_is_pointed_out (canvas, i))
      {
        Ring *ring = ring_for (canvas, i);

        g_ptr_array_add (now, ring);
        gtk_snapshot_append_node (snapshot, ring->node);
      }
  g_ptr_array_unref (canvas->rings);
  canvas->rings = now;
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

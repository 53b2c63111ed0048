/* A few motifs in the hand. The still picture stays as it was before they were taken up: over it lie the place they were taken from, drawn without
 * them, and the place where they are now, drawn whole and in the stitch order. So neither the start of a drag nor a new plan meanwhile makes the
 * window paint more than has changed. */
#include <math.h>

#include "canvas-private.h"

#define MOST_LIFTED 0.25 /* of the table; more is cut in two layers instead */

gboolean
hw_canvas_is_lifted (HwCanvas *canvas)
{
  return canvas->lifted && hw_canvas_is_dragging (canvas);
}

/* Pixels that the motifs in the hand show on, their numbers included, as far as the table goes. */
static HwBox
hand_box (HwCanvas *canvas)
{
  HwBox area = hw_canvas_area (canvas), box = HW_BOX_EMPTY;

  for (guint i = 0; i < canvas->cast->len; i++)
    if (hw_canvas_is_moving (canvas, i))
      box = hw_box_union (box, hw_canvas_motif_reach (canvas, i));
  return (HwBox){ MAX (floor (box.x0), 0), MAX (floor (box.y0), 0), MIN (ceil (box.x1), area.x1),
                  MIN (ceil (box.y1), area.y1) };
}

static gboolean
is_small (HwCanvas *canvas, HwBox box)
{
  HwBox area = hw_canvas_area (canvas);

  return hw_box_is_empty (box) || (box.x1 - box.x0) * (box.y1 - box.y0) <= MOST_LIFTED * area.x1 * area.y1;
}

void
hw_canvas_lift (HwCanvas *canvas)
{
  HwBox box = hand_box (canvas);
  HwPoint a = hw_view_to_cloth (&canvas->view, (HwPoint){ box.x0, box.y0 });
  HwPoint b = hw_view_to_cloth (&canvas->view, (HwPoint){ box.x1, box.y1 });

  canvas->lifted = is_small (canvas, box) && !hw_canvas_is_coloured (canvas);
  canvas->gap = (HwBox){ a.x, a.y, b.x, b.y };
  g_clear_pointer (&canvas->gap_node, gsk_render_node_unref);
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_MOVING) | HW_BIT (HW_LAYER_SELECTION));
  if (!canvas->lifted || canvas->sheet == NULL)
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL));
}

void
hw_canvas_lift_no_more (HwCanvas *canvas)
{
  if (!canvas->lifted || is_small (canvas, hand_box (canvas)))
    return;
  canvas->lifted = FALSE;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL) | HW_BIT (HW_LAYER_MOVING));
}

/* A piece of the table as an opaque picture: composed here, it reaches the window in one piece. */
static void
append_piece (HwCanvas *canvas, GtkSnapshot *snapshot, HwBox box, gboolean air)
{
  graphene_rect_t bounds;
  cairo_surface_t *piece;
  int width, height;
  cairo_t *cr;

  if (hw_box_is_empty (box) || box.x1 - box.x0 < 1 || box.y1 - box.y0 < 1)
    return;
  width = (int)(box.x1 - box.x0);
  height = (int)(box.y1 - box.y0);
  bounds = GRAPHENE_RECT_INIT ((float)box.x0, (float)box.y0, (float)width, (float)height);
  piece = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width * canvas->device, height * canvas->device);
  cairo_surface_set_device_scale (piece, canvas->device, canvas->device);
  cr = cairo_create (piece);
  cairo_translate (cr, -box.x0, -box.y0);
  hw_canvas_draw_part (canvas, cr, box, air);
  cairo_destroy (cr);
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_set_source_surface (cr, piece, box.x0, box.y0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (piece);
}

/* The gap is drawn once for a view, so that what lies still there is not painted in every frame. */
static GskRenderNode *
gap_node (HwCanvas *canvas)
{
  g_autoptr (GtkSnapshot) snapshot = NULL;
  HwBox area = hw_canvas_area (canvas), box;

  if (canvas->gap_node != NULL && memcmp (&canvas->gap_view, &canvas->view, sizeof (HwView)) == 0)
    return canvas->gap_node;
  g_clear_pointer (&canvas->gap_node, gsk_render_node_unref);
  canvas->gap_view = canvas->view;
  box = hw_view_box_to_pixels (&canvas->view, canvas->gap);
  box = (HwBox){ MAX (floor (box.x0 - 1), 0), MAX (floor (box.y0 - 1), 0), MIN (ceil (box.x1 + 1), area.x1),
                 MIN (ceil (box.y1 + 1), area.y1) };
  snapshot = gtk_snapshot_new ();
  append_piece (canvas, snapshot, box, FALSE);
  canvas->gap_node = gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
  return canvas->gap_node;
}

GskRenderNode *
hw_canvas_draw_lifted (HwCanvas *canvas)
{
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  GskRenderNode *gap = gap_node (canvas);

  if (gap != NULL)
    gtk_snapshot_append_node (snapshot, gap);
  append_piece (canvas, snapshot, hand_box (canvas), TRUE);
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

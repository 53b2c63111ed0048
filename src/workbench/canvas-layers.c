/* The picture on the table: cloth, edge line and motifs. What lies still is composed once into a surface and kept. While much of the table
 * is in the hand it is cut in two, what lies under the moving motifs and what lies over them, so that a motif is seen passing
 * behind what is stitched after it; of a few motifs canvas-lifted.c draws just the places. */

#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "canvas-private.h"
#include "text-size.h"

#define SHADOW_REACH 18
#define SHADOW_DROP 3
#define TAG_WIDTH 20.0 /* px */
#define TAG_HEIGHT 17.0
#define TAG_LETTERS 12.0
#define TAG_CLEAR 1.35   /* times as large in high contrast */
#define PALE_OTHERS 0.35 /* motifs of the hoopings not chosen */
#define PALE_BESIDE 0.5  /* motifs beside those pointed out */

typedef struct
{
  cairo_surface_t *surface;
  cairo_t *cr;
} Sheet;

static Sheet
sheet_new (HwCanvas *canvas, gboolean opaque)
{
  HwBox area = hw_canvas_area (canvas);
  int width = MAX ((int)area.x1, 1), height = MAX ((int)area.y1, 1);
  Sheet sheet;

  sheet.surface = cairo_image_surface_create (opaque ? CAIRO_FORMAT_RGB24 : CAIRO_FORMAT_ARGB32,
                                              width * canvas->device, height * canvas->device);
  cairo_surface_set_device_scale (sheet.surface, canvas->device, canvas->device);
  sheet.cr = cairo_create (sheet.surface);
  return sheet;
}

/* The finished sheet as a node. Takes the sheet over. */
static void
sheet_append (Sheet *sheet, HwCanvas *canvas, GtkSnapshot *snapshot)
{
  HwBox area = hw_canvas_area (canvas);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)area.x1, (float)area.y1);
  cairo_t *cr;

  g_clear_pointer (&sheet->cr, cairo_destroy);
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_set_source_surface (cr, sheet->surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (sheet->surface);
}

static void
draw_shadow (cairo_t *cr, HwBox box, gboolean dark)
{
  cairo_save (cr);
  cairo_set_line_width (cr, 1);
  for (int i = -SHADOW_DROP; i < SHADOW_REACH; i++)
    {
      double part = 1 - (double)MAX (i, 0) / SHADOW_REACH;
      double r = MAX (i + 3, 1);
      double x0 = floor (box.x0) - i + 0.5, y0 = floor (box.y0) - i + SHADOW_DROP + 0.5;
      double x1 = ceil (box.x1) + i - 0.5, y1 = ceil (box.y1) + i + SHADOW_DROP - 0.5;

      cairo_new_sub_path (cr);
      cairo_arc (cr, x1 - r, y0 + r, r, -G_PI / 2, 0);
      cairo_arc (cr, x1 - r, y1 - r, r, 0, G_PI / 2);
      cairo_arc (cr, x0 + r, y1 - r, r, G_PI / 2, G_PI);
      cairo_arc (cr, x0 + r, y0 + r, r, G_PI, 1.5 * G_PI);
      cairo_close_path (cr);
      cairo_set_source_rgba (cr, 0, 0, 0, (dark ? 0.34 : 0.17) * part * part);
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}

/* In high contrast the cloth is told from the table by a line. */
static void
draw_rim (cairo_t *cr, HwBox box, gboolean dark)
{
  cairo_rectangle (cr, floor (box.x0) - 2, floor (box.y0) - 2, ceil (box.x1) - floor (box.x0) + 4,
                   ceil (box.y1) - floor (box.y0) + 4);
  cairo_set_source_rgb (cr, dark, dark, dark);
  cairo_fill (cr);
}

static void
draw_table (HwCanvas *canvas, cairo_t *cr)
{
  HwScene *scene = hw_bench_get_scene (canvas->bench);
  const HwFabric *fabric = hw_scene_get_fabric (scene);
  const HwEdgeLine *edge = hw_scene_get_edge_line (scene);
  const HwView *view = &canvas->view;

  if (canvas->clear)
    cairo_set_source_rgb (cr, canvas->dark ? 0 : 1, canvas->dark ? 0 : 1, canvas->dark ? 0 : 1);
  else if (canvas->dark)
    cairo_set_source_rgb (cr, 0x2b / 255.0, 0x2a / 255.0, 0x28 / 255.0);
  else
    cairo_set_source_rgb (cr, 0xde / 255.0, 0xdb / 255.0, 0xd5 / 255.0);
  cairo_paint (cr);
  if (canvas->clear)
    draw_rim (cr, hw_view_box_to_pixels (view, hw_canvas_cloth_box (canvas)), canvas->dark);
  else
    draw_shadow (cr, hw_view_box_to_pixels (view, hw_canvas_cloth_box (canvas)), canvas->dark);
  cairo_save (cr);
  cairo_translate (cr, view->x, view->y);
  cairo_scale (cr, view->zoom, view->zoom);
  hw_draw_cloth (cr, fabric, 1 / view->zoom);
  hw_canvas_draw_photo (canvas, cr);
  if (edge != NULL)
    hw_draw_edge_line (cr, edge, fabric, (canvas->clear ? 2 : 1) / view->zoom);
  cairo_restore (cr);
}

static double
alpha_by_hooping (HwCanvas *canvas, guint index)
{
  int stage = hw_bench_get_stage (canvas->bench);
  int chosen = hw_bench_get_chosen_hooping (canvas->bench);
  int hooping;

  if (stage >= 0)
    return hw_canvas_template_alpha (hw_canvas_template_of (canvas, index));
  if (chosen < 0)
    return 1;
  hooping = hw_canvas_hooping_of (canvas, index);
  return hooping == chosen || hw_canvas_is_selected (canvas, index) ? 1 : PALE_OTHERS;
}

static double
motif_alpha (HwCanvas *canvas, guint index)
{
  double alpha = alpha_by_hooping (canvas, index)
                 * hw_canvas_photo_alpha (canvas, hw_canvas_record (canvas, index)->id);

  if (canvas->n_pointed > 0)
    return hw_canvas_is_pointed_out (canvas, index) ? 1 : MIN (alpha, PALE_BESIDE);
  return alpha;
}

static double
tag_scale (HwCanvas *canvas)
{
  return hw_text_size (canvas->clear ? TAG_CLEAR : 1);
}

/* A small paper tag, so that the place in the stitch order is not taken for the number of a hooping, which is a disc. Letters are slow
 * to set; the tag of each number is drawn once. */
static cairo_surface_t *
order_tag (HwCanvas *canvas, guint number, gboolean strong)
{
  gpointer key = GUINT_TO_POINTER (2 * number + strong);
  cairo_surface_t *tag = g_hash_table_lookup (canvas->tags, key);
  HwLettering how = { .size = number > 99 ? TAG_LETTERS - 2 : TAG_LETTERS,
                      .bold = canvas->clear,
                      .align = HW_LETTER_CENTRE };
  double scale = tag_scale (canvas);
  g_autofree char *text = NULL;
  double height, r = 4;
  cairo_t *cr;

  if (tag != NULL)
    return tag;
  text = g_strdup_printf ("%u", number);
  tag = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int)ceil (TAG_WIDTH * scale) * canvas->device,
                                    (int)ceil (TAG_HEIGHT * scale) * canvas->device);
  cairo_surface_set_device_scale (tag, canvas->device, canvas->device);
  cr = cairo_create (tag);
  cairo_scale (cr, scale, scale);
  cairo_arc (cr, TAG_WIDTH - r - 0.5, r + 0.5, r, -G_PI / 2, 0);
  cairo_arc (cr, TAG_WIDTH - r - 0.5, TAG_HEIGHT - r - 0.5, r, 0, G_PI / 2);
  cairo_arc (cr, r + 0.5, TAG_HEIGHT - r - 0.5, r, G_PI / 2, G_PI);
  cairo_arc (cr, r + 0.5, r + 0.5, r, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
  if (strong)
    cairo_set_source_rgb (cr, 0.10, 0.11, 0.16);
  else
    cairo_set_source_rgba (cr, 1, 0.995, 0.98, canvas->clear ? 1 : 0.9);
  cairo_fill_preserve (cr);
  if (strong)
    cairo_set_source_rgb (cr, 1, 0.99, 0.96);
  else
    cairo_set_source_rgba (cr, 0.16, 0.15, 0.13, canvas->clear ? 1 : 0.45);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  if (!strong)
    cairo_set_source_rgb (cr, 0.16, 0.15, 0.13);
  hw_letter_measure (cr, &how, text, NULL, &height);
  hw_letter (cr, TAG_WIDTH / 2, (TAG_HEIGHT - height) / 2, &how, text);
  cairo_destroy (cr);
  g_hash_table_insert (canvas->tags, key, tag);
  return tag;
}

void
hw_canvas_forget_tags (HwCanvas *canvas)
{
  g_hash_table_remove_all (canvas->tags);
}

/* Where a motif's number hangs: on the point of its outline farthest up and to the left, clear of what it shows. */
static HwPoint
number_at (HwCanvas *canvas, guint index)
{
  const HwOutline *placed = hw_scene_motif_get_placed (hw_canvas_motif (canvas, index));
  HwPoint best = placed->hull[0];

  for (guint i = 1; i < placed->n_hull; i++)
    if (placed->hull[i].x + placed->hull[i].y < best.x + best.y)
      best = placed->hull[i];
  return hw_view_to_pixels (&canvas->view, best);
}

void
hw_canvas_draw_tag (HwCanvas *canvas, cairo_t *cr, guint index, gboolean strong)
{
  cairo_surface_t *tag = order_tag (canvas, index + 1, strong);
  HwPoint at = number_at (canvas, index);

  cairo_set_source_surface (cr, tag, round (at.x - TAG_WIDTH * tag_scale (canvas) / 2),
                            round (at.y - TAG_HEIGHT * tag_scale (canvas) / 2));
  cairo_paint_with_alpha (cr, motif_alpha (canvas, index) < 1 ? 0.5 : 1);
}

static void
draw_number (HwCanvas *canvas, cairo_t *cr, guint index)
{
  if (canvas->show_order)
    hw_canvas_draw_tag (canvas, cr, index, FALSE);
}

void
hw_canvas_draw_tags (HwCanvas *canvas, cairo_t *cr)
{
  for (guint i = 0; i < canvas->cast->len; i++)
    if (!hw_canvas_is_moving (canvas, i))
      draw_number (canvas, cr, i);
}

static void
draw_motif (HwCanvas *canvas, cairo_t *cr, guint index)
{
  HwTemplateShown shown = hw_canvas_template_of (canvas, index);

  if (shown != HW_TEMPLATE_SHOWN_NOT)
    hw_canvas_draw_template_paper (canvas, cr, index, shown);
  hw_motif_pictures_draw (canvas->pictures, cr, hw_canvas_record (canvas, index), &canvas->view,
                          canvas->device, motif_alpha (canvas, index));
  if (shown != HW_TEMPLATE_SHOWN_NOT)
    hw_canvas_draw_template_lines (canvas, cr, index, shown);
}

static HwBox
motif_bounds (HwCanvas *canvas, guint index)
{
  HwBox box = hw_motif_pictures_bounds (canvas->pictures, hw_canvas_record (canvas, index), &canvas->view);

  return (HwBox){ floor (box.x0), floor (box.y0), ceil (box.x1), ceil (box.y1) };
}

static gboolean
is_in_sight (HwCanvas *canvas, guint index, HwBox sight)
{
  return hw_box_overlaps (motif_bounds (canvas, index), sight);
}

static HwBox
tag_box (HwCanvas *canvas, guint index)
{
  HwPoint at = number_at (canvas, index);

  double w = TAG_WIDTH * tag_scale (canvas), h = TAG_HEIGHT * tag_scale (canvas);

  return (HwBox){ at.x - w, at.y - h, at.x + w, at.y + h };
}

HwBox
hw_canvas_motif_reach (HwCanvas *canvas, guint index)
{
  return hw_box_union (motif_bounds (canvas, index), tag_box (canvas, index));
}

/* Motifs from (included) up to `to` (not included), those in the air too or left out. */
static void
draw_motifs (HwCanvas *canvas, cairo_t *cr, guint from, guint to, HwBox sight, gboolean air)
{
  for (guint i = from; i < to; i++)
    if ((air || !hw_canvas_is_moving (canvas, i)) && is_in_sight (canvas, i, sight))
      draw_motif (canvas, cr, i);
  for (guint i = from; !hw_canvas_is_coloured (canvas) && i < to; i++)
    if ((air || !hw_canvas_is_moving (canvas, i)) && hw_box_overlaps (tag_box (canvas, i), sight))
      draw_number (canvas, cr, i);
}

/* The run of motifs in the air: first and one past the last; both n when none is. */
static void
moving_run (HwCanvas *canvas, guint *first, guint *end)
{
  guint n = canvas->cast->len;

  *first = n;
  *end = n;
  if (!hw_canvas_is_dragging (canvas))
    return;
  for (guint i = 0; i < n; i++)
    if (hw_canvas_is_moving (canvas, i))
      {
        *first = MIN (*first, i);
        *end = i + 1;
      }
}

void
hw_canvas_draw_part (HwCanvas *canvas, cairo_t *cr, HwBox strip, gboolean air)
{
  cairo_save (cr);
  cairo_rectangle (cr, strip.x0, strip.y0, strip.x1 - strip.x0, strip.y1 - strip.y0);
  cairo_clip (cr);
  draw_table (canvas, cr);
  draw_motifs (canvas, cr, 0, canvas->cast->len, strip, air);
  cairo_restore (cr);
}

/* Where motifs are lifted the still picture is whole. Else two nodes: what lies under the moving motifs, and (kept beside it) what lies over them. Both stay the same nodes
 * during a drag, so that GTK paints only where something moves. */
GskRenderNode *
hw_canvas_draw_still (HwCanvas *canvas)
{
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  HwBox area = hw_canvas_area (canvas);
  guint first, end;
  Sheet sheet;

  moving_run (canvas, &first, &end);
  if (hw_canvas_is_lifted (canvas))
    {
      end = first = canvas->cast->len;
      g_clear_pointer (&canvas->gap_node, gsk_render_node_unref);
      canvas->stale |= HW_BIT (HW_LAYER_MOVING);
    }
  if (first == canvas->cast->len)
    {
      sheet = (Sheet){ cairo_surface_reference (hw_sheet_draw (canvas)), NULL };
      sheet_append (&sheet, canvas, snapshot);
    }
  else
    {
      hw_sheet_forget (canvas);
      sheet = sheet_new (canvas, TRUE);
      draw_table (canvas, sheet.cr);
      draw_motifs (canvas, sheet.cr, 0, first, area, FALSE);
      sheet_append (&sheet, canvas, snapshot);
    }

  g_clear_pointer (&canvas->over, gsk_render_node_unref);
  if (end < canvas->cast->len)
    {
      g_autoptr (GtkSnapshot) over = gtk_snapshot_new ();

      sheet = sheet_new (canvas, FALSE);
      draw_motifs (canvas, sheet.cr, end, canvas->cast->len, area, FALSE);
      sheet_append (&sheet, canvas, over);
      canvas->over = gtk_snapshot_free_to_node (g_steal_pointer (&over));
    }
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

static void
append_motif (HwCanvas *canvas, GtkSnapshot *snapshot, guint index)
{
  HwBox box = hw_canvas_motif_reach (canvas, index);
  graphene_rect_t bounds;
  cairo_t *cr;

  bounds = GRAPHENE_RECT_INIT ((float)floor (box.x0), (float)floor (box.y0),
                               (float)ceil (box.x1 - box.x0 + 1), (float)ceil (box.y1 - box.y0 + 1));
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  draw_motif (canvas, cr, index);
  draw_number (canvas, cr, index);
  cairo_destroy (cr);
}

GskRenderNode *
hw_canvas_draw_moving (HwCanvas *canvas)
{
  g_autoptr (GtkSnapshot) snapshot = NULL;
  guint first, end;

  if (hw_canvas_is_lifted (canvas))
    return hw_canvas_draw_lifted (canvas);
  moving_run (canvas, &first, &end);
  if (first == end)
    return NULL;
  snapshot = gtk_snapshot_new ();
  for (guint i = first; i < end; i++)
    if (is_in_sight (canvas, i, hw_canvas_area (canvas)))
      append_motif (canvas, snapshot, i);
  if (canvas->over != NULL)
    gtk_snapshot_append_node (snapshot, canvas->over);
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

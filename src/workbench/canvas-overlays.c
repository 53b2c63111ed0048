/* What is drawn over the cloth: ghosts, broken rules, the frame about the selection, the slip with position and size, the rulers.
 * All in pixels. */

#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "canvas-private.h"
#include "ruler.h"
#include "text-size.h"

#define SLIP_HEIGHT 32.0
#define SLIP_LETTERS 13.5
#define SLIP_GAP 14.0

static cairo_t *
append (GtkSnapshot *snapshot, HwBox box)
{
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT ((float)floor (box.x0), (float)floor (box.y0), (float)ceil (box.x1 - box.x0 + 1),
                            (float)ceil (box.y1 - box.y0 + 1));

  return gtk_snapshot_append_cairo (snapshot, &bounds);
}

static void
path_placed (HwCanvas *canvas, cairo_t *cr, guint index)
{
  cairo_save (cr);
  cairo_translate (cr, canvas->view.x, canvas->view.y);
  cairo_scale (cr, canvas->view.zoom, canvas->view.zoom);
  hw_path_outline (cr, hw_scene_motif_get_placed (hw_canvas_motif (canvas, index)));
  cairo_restore (cr);
}

static HwBox
placed_bounds (HwCanvas *canvas, guint index)
{
  HwBox box = hw_view_box_to_pixels (&canvas->view,
                                     hw_scene_motif_get_placed (hw_canvas_motif (canvas, index))->box);

  return (HwBox){ box.x0 - 4, box.y0 - 4, box.x1 + 4, box.y1 + 4 };
}

static void
draw_motif_line (HwCanvas *canvas, GtkSnapshot *snapshot, guint index, double strength)
{
  cairo_t *cr = append (snapshot, placed_bounds (canvas, index));

  path_placed (canvas, cr, index);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgba (cr, 1, 1, 1, canvas->clear ? 1 : 0.75 * strength);
  cairo_set_line_width (cr, canvas->clear ? 6 : 3);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgba (cr, 0.14, 0.15, 0.2, canvas->clear ? 1 : strength);
  cairo_set_line_width (cr, canvas->clear ? 2.5 : 1.1);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
draw_band (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  const HwDrag *drag = &canvas->drag;
  HwPoint ends[2] = { hw_view_to_pixels (&canvas->view, drag->hold), drag->to };
  HwBox box = hw_box_of_points (ends, 2);
  const double dash[] = { 4, 3 };
  cairo_t *cr = append (snapshot, (HwBox){ box.x0 - 2, box.y0 - 2, box.x1 + 2, box.y1 + 2 });

  cairo_rectangle (cr, floor (box.x0) + 0.5, floor (box.y0) + 0.5, ceil (box.x1 - box.x0),
                   ceil (box.y1 - box.y0));
  cairo_set_source_rgba (cr, 0.18, 0.40, 0.56, 0.10);
  cairo_fill_preserve (cr);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.7);
  cairo_set_line_width (cr, 2.5);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0.18, 0.40, 0.56);
  cairo_set_line_width (cr, 1);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
draw_selection (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  HwHandleFrame frame;
  gboolean fixed;
  guint n = 0;

  for (guint i = 0; i < canvas->cast->len; i++)
    n += hw_canvas_is_selected (canvas, i);
  if (canvas->drag.pull == HW_PULL_NONE && canvas->hover_motif >= 0
      && canvas->hover_motif < (int)canvas->cast->len
      && !hw_canvas_is_selected (canvas, (guint)canvas->hover_motif))
    draw_motif_line (canvas, snapshot, (guint)canvas->hover_motif, 0.55);
  for (guint i = 0; n > 1 && i < canvas->cast->len; i++)
    if (hw_canvas_is_selected (canvas, i))
      draw_motif_line (canvas, snapshot, i, 1);
  if (hw_canvas_selection_frame (canvas, &frame, &fixed))
    {
      HwHandles handles;
      cairo_t *cr;

      hw_handles_place (&handles, &frame, &canvas->view, hw_canvas_area (canvas));
      cr = append (snapshot, hw_handles_bounds (&handles));
      hw_handles_draw (cr, &handles,
                       hw_canvas_is_dragging (canvas) ? canvas->drag.handle : canvas->hover_handle, fixed,
                       canvas->clear);
      cairo_destroy (cr);
    }
  if (canvas->drag.pull == HW_PULL_BAND)
    draw_band (canvas, snapshot);
}

/* Each rule on a piece of its own: one as large as the table would cost more than all else in a frame of a drag. */
static void
draw_guide (HwCanvas *canvas, GtkSnapshot *snapshot, const HwSnapGuide *guide)
{
  HwBox area = hw_canvas_area (canvas), box = hw_guide_bounds (guide, &canvas->view);
  cairo_t *cr;

  box = (HwBox){ MAX (box.x0, area.x0), MAX (box.y0, area.y0), MIN (box.x1, area.x1), MIN (box.y1, area.y1) };
  if (hw_box_is_empty (box))
    return;
  cr = append (snapshot, box);
  hw_guide_draw (cr, guide, &canvas->view, hw_bench_get_unit (canvas->bench));
  cairo_destroy (cr);
}

static void
draw_guides (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  const HwDrag *drag = &canvas->drag;

  if (drag->pull != HW_PULL_MOVE)
    return;
  for (guint i = 0; i < drag->n_guides; i++)
    if (drag->guides[i].kind != HW_SNAP_GAP)
      draw_guide (canvas, snapshot, &drag->guides[i]);
  for (guint i = 0; i < drag->n_guides; i++)
    if (drag->guides[i].kind == HW_SNAP_GAP)
      draw_guide (canvas, snapshot, &drag->guides[i]);
}

void
hw_canvas_draw_slip (HwCanvas *canvas, GtkSnapshot *snapshot, const char *text, HwPoint at)
{
  HwLettering how = { .size = hw_text_size (SLIP_LETTERS) };
  HwBox area = hw_canvas_area (canvas);
  double width, height, r = hw_text_size (SLIP_HEIGHT) / 2, x, y;
  cairo_surface_t *scratch;
  cairo_t *cr;

  scratch = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cr = cairo_create (scratch);
  hw_letter_measure (cr, &how, text, &width, &height);
  cairo_destroy (cr);
  cairo_surface_destroy (scratch);

  /* A name may be longer than the table is wide. */
  double room = area.x1 - area.x0 - 2 * SLIP_GAP - 30;
  if (width > room && room > 0)
    {
      how.width = width = room;
      how.ellipsize = TRUE;
    }
  width += 30;
  x = MAX (MIN (at.x, area.x1 - width - SLIP_GAP), area.x0 + SLIP_GAP);
  y = MAX (MIN (at.y, area.y1 - hw_text_size (SLIP_HEIGHT) - SLIP_GAP), area.y0 + SLIP_GAP);
  cr = append (snapshot, (HwBox){ x - 4, y - 4, x + width + 4, y + hw_text_size (SLIP_HEIGHT) + 5 });
  for (int i = 0; i < 2; i++)
    {
      double drop = i == 0 ? 1.5 : 0;

      cairo_new_sub_path (cr);
      cairo_arc (cr, x + width - r, y + r + drop, r, -G_PI / 2, G_PI / 2);
      cairo_arc (cr, x + r, y + r + drop, r, G_PI / 2, 1.5 * G_PI);
      cairo_close_path (cr);
      if (i == 0)
        cairo_set_source_rgba (cr, 0, 0, 0, 0.22);
      else if (canvas->dark)
        cairo_set_source_rgba (cr, 0.21, 0.205, 0.195, 0.97);
      else
        cairo_set_source_rgba (cr, 0.995, 0.99, 0.98, 0.97);
      cairo_fill (cr);
    }
  if (canvas->dark)
    cairo_set_source_rgb (cr, 0.93, 0.925, 0.91);
  else
    cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  hw_letter (cr, x + 15, y + (hw_text_size (SLIP_HEIGHT) - height) / 2, &how, text);
  cairo_destroy (cr);
}

static void
draw_readout (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  g_autofree char *text = hw_canvas_readout (canvas);
  HwBox area = hw_canvas_area (canvas);

  if (text != NULL)
    hw_canvas_draw_slip (canvas, snapshot, text, (HwPoint){ area.x0, area.y1 });
}

static void
draw_rulers (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  HwBox area = hw_canvas_area (canvas);
  int width = (int)area.x1, height = (int)area.y1;
  cairo_t *cr;

  /* Two nodes with tight bounds, so that a repaint elsewhere does not set all the figures again. */
  for (int i = 0; i < 2; i++)
    {
      cr = append (snapshot, i == 0 ? (HwBox){ 0, 0, width - 1, HW_RULER_BREADTH - 1 }
                                    : (HwBox){ 0, HW_RULER_BREADTH, HW_RULER_BREADTH - 1, height - 1 });
      hw_rulers_draw (cr, &canvas->view, hw_bench_get_unit (canvas->bench), width, height, canvas->dark);
      cairo_destroy (cr);
    }
}

static void
draw_focus_ring (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  HwBox area = hw_canvas_area (canvas);
  GskRoundedRect ring;
  const float width = canvas->clear ? 4 : 2.5f;
  const float widths[4] = { width, width, width, width };
  GdkRGBA colour = { 0.18f, 0.40f, 0.56f, 1 };

  if (canvas->clear)
    colour = canvas->dark ? (GdkRGBA){ 1, 1, 1, 1 } : (GdkRGBA){ 0, 0, 0, 1 };
  else if (canvas->dark)
    colour = (GdkRGBA){ 0.45f, 0.66f, 0.82f, 1 };
  gsk_rounded_rect_init_from_rect (&ring,
                                   &GRAPHENE_RECT_INIT ((float)area.x0, (float)area.y0,
                                                        (float)(area.x1 - area.x0),
                                                        (float)(area.y1 - area.y0)),
                                   0);
  gtk_snapshot_append_border (snapshot, &ring, widths, (const GdkRGBA[4]){ colour, colour, colour, colour });
}

static void
draw_ruler_marks (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  HwBox area = hw_canvas_area (canvas);
  int width = (int)area.x1, height = (int)area.y1;
  const HwPoint *pointer = canvas->pointer_inside ? &canvas->pointer : NULL;
  HwBox extent = hw_canvas_selection_box (canvas);

  for (int i = 0; i < 2; i++)
    {
      cairo_t *cr
          = append (snapshot, i == 0 ? (HwBox){ 0, 0, width - 1, HW_RULER_BREADTH - 1 }
                                     : (HwBox){ 0, HW_RULER_BREADTH, HW_RULER_BREADTH - 1, height - 1 });
      hw_rulers_draw_marks (cr, &canvas->view, extent, pointer, width, height, canvas->dark);
      cairo_destroy (cr);
    }
  if (gtk_widget_get_state_flags (GTK_WIDGET (canvas)) & GTK_STATE_FLAG_FOCUS_VISIBLE)
    draw_focus_ring (canvas, snapshot);
}

static gboolean
has_ghosts (HwCanvas *canvas)
{
  /* Their many dashes are slow to draw, and a pan draws them in every frame. */
  return canvas->ghosts != NULL && canvas->ghosts->len > 0 && !hw_canvas_is_dragging (canvas)
         && canvas->drag.pull != HW_PULL_MARK && canvas->drag.pull != HW_PULL_PAN;
}

static void
draw_ghosts (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  cairo_t *cr;

  if (!has_ghosts (canvas))
    return;
  cr = append (snapshot, hw_canvas_area (canvas));
  hw_ghosts_draw (cr, canvas->ghosts, &canvas->view, canvas->hover_ghost);
  cairo_destroy (cr);
}

static void
draw_rules (HwCanvas *canvas, GtkSnapshot *snapshot, HwLook what)
{
  cairo_t *cr;

  if (hw_rules_are_kept (canvas->rules, what))
    return;
  cr = append (snapshot, hw_rules_bounds (canvas->rules, what, &canvas->view));
  hw_rules_draw (cr, canvas->rules, what, &canvas->view);
  cairo_destroy (cr);
}

static void
draw_signs (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  cairo_t *cr;

  hw_signs_place (canvas->signs, &canvas->view);
  for (guint i = 0; i < hw_signs_count (canvas->signs); i++)
    {
      HwPoint at = hw_signs_at (canvas->signs, i);
      HwBox box = { at.x - 20, at.y - 20, at.x + 20, at.y + 20 };

      if (!hw_box_overlaps (box, hw_canvas_area (canvas)))
        continue;
      /* A node each, so that a new place repaints that place. */
      cr = append (snapshot, box);
      hw_signs_draw (cr, canvas->signs, box, canvas->hover_sign);
      cairo_destroy (cr);
    }
}

/* A byte for each motif: whether its broken rules are told in words. */
static guint8 *
told_motifs (HwCanvas *canvas)
{
  guint8 *told = g_new0 (guint8, canvas->cast->len + 1);

  for (guint i = 0; i < canvas->cast->len; i++)
    told[i] = (int)i == canvas->hover_motif || hw_canvas_is_selected (canvas, i);
  return told;
}

/* Where the motifs lie that are selected or pointed out. Returns: (transfer full) (element-type HwBox): pixels */
static GArray *
spoken_of_boxes (HwCanvas *canvas)
{
  GArray *boxes = g_array_new (FALSE, FALSE, sizeof (HwBox));

  for (guint i = 0; i < canvas->cast->len; i++)
    if (hw_canvas_is_selected (canvas, i) || hw_canvas_is_pointed_out (canvas, i))
      {
        HwBox box = hw_view_box_to_pixels (&canvas->view,
                                           hw_scene_motif_get_placed (hw_canvas_motif (canvas, i))->box);

        g_array_append_val (boxes, box);
      }
  return boxes;
}

/* Labels and slips stand over the lines of the selection. */
static void
draw_words (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  HwBox area = hw_canvas_area (canvas);
  g_autoptr (GArray) avoid = hw_canvas_avoid (canvas);
  g_autoptr (GArray) spoken_of = NULL;
  g_autofree guint8 *told = told_motifs (canvas);
  HwBox bounds = hw_rules_words_bounds (canvas->rules, told, &canvas->view, area, avoid);
  int sign = canvas->hover_sign >= 0 ? canvas->hover_sign : hw_signs_of_place (canvas->signs, canvas->told);
  cairo_t *cr;

  if (has_ghosts (canvas))
    {
      cr = append (snapshot, area);
      hw_ghosts_draw_labels (cr, canvas->ghosts, &canvas->view, area, avoid, canvas->hover_ghost);
      cairo_destroy (cr);
    }
  if (!hw_box_is_empty (bounds))
    {
      cr = append (snapshot, bounds);
      hw_rules_draw_words (cr, canvas->rules, told, &canvas->view, area, avoid);
      cairo_destroy (cr);
    }
  if (sign < 0 || sign >= (int)hw_signs_count (canvas->signs) || hw_canvas_is_dragging (canvas))
    return;
  spoken_of = spoken_of_boxes (canvas);
  cr = append (snapshot, hw_signs_words_bounds (canvas->signs, (guint)sign, hw_canvas_open_area (canvas),
                                                avoid, spoken_of));
  hw_signs_draw_words (cr, canvas->signs, (guint)sign, hw_canvas_open_area (canvas), avoid, spoken_of);
  cairo_destroy (cr);
}

GskRenderNode *
hw_canvas_draw_overlay (HwCanvas *canvas, HwLayer layer)
{
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();

  switch (layer)
    {
    case HW_LAYER_BESIDE:
      hw_canvas_draw_beside (canvas, snapshot);
      break;
    case HW_LAYER_GHOSTS:
      draw_ghosts (canvas, snapshot);
      break;
    case HW_LAYER_FAULTS:
      draw_rules (canvas, snapshot, HW_LOOK_STILL);
      break;
    case HW_LAYER_RULES:
      draw_rules (canvas, snapshot, HW_LOOK_AIR);
      break;
    case HW_LAYER_SIGNS:
      draw_signs (canvas, snapshot);
      break;
    case HW_LAYER_SELECTION:
      draw_selection (canvas, snapshot);
      break;
    case HW_LAYER_GUIDES:
      draw_guides (canvas, snapshot);
      break;
    case HW_LAYER_MARKS:
      hw_canvas_draw_marks (canvas, snapshot);
      break;
    case HW_LAYER_WORDS:
      draw_words (canvas, snapshot);
      break;
    case HW_LAYER_READOUT:
      draw_readout (canvas, snapshot);
      break;
    case HW_LAYER_FIGURES:
      hw_canvas_draw_figures (canvas, snapshot);
      break;
    case HW_LAYER_LENS:
      hw_canvas_draw_lens (canvas, snapshot);
      break;
    case HW_LAYER_RULERS:
      draw_rulers (canvas, snapshot);
      break;
    case HW_LAYER_RULER_MARKS:
      draw_ruler_marks (canvas, snapshot);
      break;
    default:
      g_assert_not_reached ();
    }
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

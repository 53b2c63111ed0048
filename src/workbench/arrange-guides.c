/* Where motifs in the hand come to rest, and the thin rules that show why: whole lines for the edge line and the centres, a line from motif to
 * motif for sides and middles, and a measured line with its figure for each of the equal gaps. */
#include "arrange-guides.h"

#include <math.h>

#include "../drawing/lettering.h"
#include "text-size.h"

#define SLIP_HEIGHT 22.0
#define SLIP_LETTERS 12.0
#define BEYOND 10.0     /* px that a rule goes past what it joins */
#define TICK 5.0        /* px */
#define SLIP_REACH 90.0 /* px that the slip with the length of a gap may reach out */

HwSnapField *
hw_guides_field_new (HwBench *bench, GPtrArray *in_hand)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  HwSnapField *field = hw_snap_field_new ();
  HwScene *scene = hw_bench_get_scene (bench);
  GListModel *motifs = hw_scene_get_motifs (scene);
  const HwFabric *cloth = hw_scene_get_fabric (scene);
  HwBox edge = hw_bench_edge_box (bench, FALSE), inside = hw_bench_edge_box (bench, TRUE);

  hw_snap_field_add_line (field, TRUE, edge.x0, edge.y0, edge.y1, HW_SNAP_EDGE);
  hw_snap_field_add_line (field, TRUE, edge.x1, edge.y0, edge.y1, HW_SNAP_EDGE);
  hw_snap_field_add_line (field, FALSE, edge.y0, edge.x0, edge.x1, HW_SNAP_EDGE);
  hw_snap_field_add_line (field, FALSE, edge.y1, edge.x0, edge.x1, HW_SNAP_EDGE);
  hw_snap_field_add_line (field, TRUE, inside.x0, inside.y0, inside.y1, HW_SNAP_MARGIN);
  hw_snap_field_add_line (field, TRUE, inside.x1, inside.y0, inside.y1, HW_SNAP_MARGIN);
  hw_snap_field_add_line (field, FALSE, inside.y0, inside.x0, inside.x1, HW_SNAP_MARGIN);
  hw_snap_field_add_line (field, FALSE, inside.y1, inside.x0, inside.x1, HW_SNAP_MARGIN);
  hw_snap_field_add_line (field, TRUE, (edge.x0 + edge.x1) / 2, edge.y0, edge.y1, HW_SNAP_CENTRE);
  hw_snap_field_add_line (field, FALSE, (edge.y0 + edge.y1) / 2, edge.x0, edge.x1, HW_SNAP_CENTRE);
  hw_snap_field_add_line (field, TRUE, cloth->width / 2, 0, cloth->height, HW_SNAP_CENTRE);
  hw_snap_field_add_line (field, FALSE, cloth->height / 2, 0, cloth->width, HW_SNAP_CENTRE);
  for (guint i = 0; i < g_list_model_get_n_items (motifs); i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);

      if (!g_ptr_array_find (in_hand, motif, NULL))
        hw_snap_field_add_box (field, hw_scene_motif_get_placed (motif)->box);
    }
  return field;
}

static void
stroke_ink (cairo_t *cr, double width)
{
  cairo_set_source_rgba (cr, 1, 1, 1, 0.75);
  cairo_set_line_width (cr, width + 2);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0.18, 0.40, 0.56);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

/* On whole pixels, so that a thin rule is sharp. */
static double
sharp (double pixel)
{
  return floor (pixel) + 0.5;
}

static void
draw_line (cairo_t *cr, const HwSnapGuide *guide, const HwView *view)
{
  const double dash[] = { 6, 3 };
  HwPoint a = hw_view_to_pixels (view, guide->from), b = hw_view_to_pixels (view, guide->to);
  gboolean upright = guide->from.x == guide->to.x;

  if (upright)
    {
      cairo_move_to (cr, sharp (a.x), a.y - BEYOND);
      cairo_line_to (cr, sharp (a.x), b.y + BEYOND);
    }
  else
    {
      cairo_move_to (cr, a.x - BEYOND, sharp (a.y));
      cairo_line_to (cr, b.x + BEYOND, sharp (a.y));
    }
  /* Centre lines and middles are dashed, as they are drawn on cloth. */
  cairo_set_dash (cr, dash, guide->kind == HW_SNAP_CENTRE || guide->kind == HW_SNAP_MIDDLE ? 2 : 0, 0);
  stroke_ink (cr, 1);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_slip (cairo_t *cr, HwPoint at, gboolean level, const char *text)
{
  HwLettering how = { .size = hw_text_size (SLIP_LETTERS) };
  double width, height, x, y;

  hw_letter_measure (cr, &how, text, &width, &height);
  x = level ? at.x - width / 2 - 7 : at.x + 8;
  y = level ? at.y + 8 : at.y - hw_text_size (SLIP_HEIGHT) / 2;
  cairo_rectangle (cr, floor (x), floor (y), ceil (width + 14), hw_text_size (SLIP_HEIGHT));
  cairo_set_source_rgba (cr, 0.995, 0.99, 0.98, 0.95);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.18, 0.40, 0.56);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  hw_letter (cr, floor (x) + 7, floor (y) + (hw_text_size (SLIP_HEIGHT) - height) / 2, &how, text);
}

static void
draw_gap (cairo_t *cr, const HwSnapGuide *guide, const HwView *view, HwUnit unit)
{
  HwPoint a = hw_view_to_pixels (view, guide->from), b = hw_view_to_pixels (view, guide->to);
  gboolean level = guide->from.y == guide->to.y;
  g_autofree char *length = hw_length_text (guide->gap, unit);

  if (level)
    a.y = b.y = sharp (a.y);
  else
    a.x = b.x = sharp (a.x);
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
  for (int i = 0; i < 2; i++)
    {
      HwPoint end = i == 0 ? a : b;

      cairo_move_to (cr, end.x - (level ? 0 : TICK), end.y - (level ? TICK : 0));
      cairo_line_to (cr, end.x + (level ? 0 : TICK), end.y + (level ? TICK : 0));
    }
  stroke_ink (cr, 1.25);
  draw_slip (cr, (HwPoint){ (a.x + b.x) / 2, (a.y + b.y) / 2 }, level, length);
}

HwBox
hw_guide_bounds (const HwSnapGuide *guide, const HwView *view)
{
  HwPoint ends[] = { hw_view_to_pixels (view, guide->from), hw_view_to_pixels (view, guide->to) };
  HwBox box = hw_box_of_points (ends, 2);
  double around = guide->kind == HW_SNAP_GAP ? SLIP_REACH : BEYOND + 2;

  return (HwBox){ box.x0 - around, box.y0 - around, box.x1 + around, box.y1 + around };
}

void
hw_guide_draw (cairo_t *cr, const HwSnapGuide *guide, const HwView *view, HwUnit unit)
{
  if (guide->kind == HW_SNAP_GAP)
    draw_gap (cr, guide, view, unit);
  else
    draw_line (cr, guide, view);
}

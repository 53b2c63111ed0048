/* How a broken rule looks: what lies past the edge line filled in madder, what no hoop takes outlined in it, a sign, and on demand a slip
 * with words. What is overlapped is only outlined, in ink: to overlap is no fault. */

#include "canvas-rules-private.h"

#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "text-size.h"

#define SLIP_HEIGHT 28.0 /* px */

static void
set_madder (cairo_t *cr, double alpha)
{
  cairo_set_source_rgba (cr, 0xb5 / 255.0, 0x48 / 255.0, 0x3a / 255.0, alpha);
}

static void
path_in_pixels (cairo_t *cr, const HwOutline *outline, const HwView *view)
{
  cairo_save (cr);
  cairo_translate (cr, view->x, view->y);
  cairo_scale (cr, view->zoom, view->zoom);
  hw_path_outline (cr, outline);
  cairo_restore (cr);
}

static void
draw_shape (cairo_t *cr, const Breach *breach, const HwView *view)
{
  path_in_pixels (cr, breach->shape, view);
  if (breach->past)
    {
      cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
      set_madder (cr, 0.55);
      cairo_fill_preserve (cr);
    }
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.6);
  cairo_set_line_width (cr, 4.5);
  cairo_stroke_preserve (cr);
  set_madder (cr, 1);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
}

/* Where the words of a breach stand, pixels: above it, or on another side when something is in the way; always on the table. */
static HwBox
words_box (const Breach *breach, const HwView *view, HwBox area, const GArray *avoid)
{
  HwPoint at = hw_view_to_pixels (view, breach->at);
  double w = breach->words_width + 42, h = hw_text_size (SLIP_HEIGHT);
  const HwPoint corners[4] = { { at.x - w / 2, at.y - h - 14 },
                               { at.x - w / 2, at.y + 14 },
                               { at.x + 18, at.y - h / 2 },
                               { at.x - w - 18, at.y - h / 2 } };
  HwBox box = { 0 };

  for (int i = 0; i < 4; i++)
    {
      double x = CLAMP (corners[i].x, area.x0 + 6, MAX (area.x0 + 6, area.x1 - w - 6));
      double y = CLAMP (corners[i].y, area.y0 + 6, MAX (area.y0 + 6, area.y1 - h - 6));

      box = (HwBox){ x, y, x + w, y + h };
      if (!hw_view_covers (box, avoid))
        break;
    }
  return box;
}

/* Where a bare sign stands: on the breach. */
static HwBox
sign_box (const Breach *breach, const HwView *view)
{
  HwPoint at = hw_view_to_pixels (view, breach->at);

  return (HwBox){ at.x - hw_text_size (SLIP_HEIGHT) / 2, at.y - hw_text_size (SLIP_HEIGHT) / 2,
                  at.x + hw_text_size (SLIP_HEIGHT) / 2, at.y + hw_text_size (SLIP_HEIGHT) / 2 };
}

static HwBox
grown (HwBox box, double by)
{
  return (HwBox){ box.x0 - by, box.y0 - by, box.x1 + by, box.y1 + by };
}

/* A triangle with a stroke in it, and the words, on a paper-coloured slip. */
static void
draw_sign (cairo_t *cr, const Breach *breach, gboolean words, HwBox box)
{
  HwLettering how = { .size = hw_text_size (HW_SLIP_LETTERS), .bold = TRUE };
  double x = box.x0, y = box.y0, w = box.x1 - box.x0, h = box.y1 - box.y0;
  double middle = words ? x + 17 : x + w / 2;

  cairo_new_sub_path (cr);
  cairo_arc (cr, x + w - 6, y + 6, 6, -G_PI / 2, 0);
  cairo_arc (cr, x + w - 6, y + h - 6, 6, 0, G_PI / 2);
  cairo_arc (cr, x + 6, y + h - 6, 6, G_PI / 2, G_PI);
  cairo_arc (cr, x + 6, y + 6, 6, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
  cairo_set_source_rgba (cr, 1, 0.985, 0.97, 0.96);
  cairo_fill_preserve (cr);
  set_madder (cr, 1);
  cairo_set_line_width (cr, 1.25);
  cairo_stroke (cr);

  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_move_to (cr, middle, y + 6.5);
  cairo_line_to (cr, middle + 9, y + 21);
  cairo_line_to (cr, middle - 9, y + 21);
  cairo_close_path (cr);
  cairo_fill_preserve (cr);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, 2.2);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_move_to (cr, middle, y + 11.5);
  cairo_line_to (cr, middle, y + 15);
  cairo_move_to (cr, middle, y + 19);
  cairo_line_to (cr, middle, y + 19);
  cairo_stroke (cr);
  if (!words)
    return;
  cairo_set_source_rgb (cr, 0.55, 0.19, 0.14);
  hw_letter (cr, x + 33, y + (h - breach->words_height) / 2, &how, breach->words);
}

HwBox
hw_rules_bounds (const HwRules *rules, HwLook what, const HwView *view)
{
  HwBox bounds = HW_BOX_EMPTY;
  GHashTableIter iter;
  Verdict *verdict;

  for (guint i = 0; what & HW_LOOK_AIR && i < rules->partners->len; i++)
    {
      const HwOutline *partner = g_ptr_array_index (rules->partners, i);
      bounds = hw_box_union (bounds, hw_view_box_to_pixels (view, partner->box));
    }
  g_hash_table_iter_init (&iter, rules->verdicts);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&verdict))
    for (guint i = 0; verdict->look & what && i < verdict->n_breaches; i++)
      {
        bounds = hw_box_union (bounds, hw_view_box_to_pixels (view, verdict->breaches[i].shape->box));
        bounds = hw_box_union (bounds, sign_box (&verdict->breaches[i], view));
      }
  return grown (bounds, 4);
}

void
hw_rules_draw (cairo_t *cr, const HwRules *rules, HwLook what, const HwView *view)
{
  GHashTableIter iter;
  Verdict *verdict;

  for (guint i = 0; what & HW_LOOK_AIR && i < rules->partners->len; i++)
    {
      path_in_pixels (cr, g_ptr_array_index (rules->partners, i), view);
      cairo_set_source_rgba (cr, 1, 1, 1, 0.55);
      cairo_set_line_width (cr, 3);
      cairo_stroke_preserve (cr);
      cairo_set_source_rgba (cr, 0.14, 0.15, 0.2, 0.55);
      cairo_set_line_width (cr, 1);
      cairo_stroke (cr);
    }
  g_hash_table_iter_init (&iter, rules->verdicts);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&verdict))
    for (guint i = 0; verdict->look & what && i < verdict->n_breaches; i++)
      {
        draw_shape (cr, &verdict->breaches[i], view);
        if (what & HW_LOOK_STILL)
          draw_sign (cr, &verdict->breaches[i], FALSE, sign_box (&verdict->breaches[i], view));
      }
}

static gboolean
is_told (const Verdict *verdict, const guint8 *told)
{
  return verdict->look & HW_LOOK_AIR || told[verdict->motif] != 0;
}

HwBox
hw_rules_words_bounds (
    const HwRules *rules, const guint8 *told, const HwView *view, HwBox area, const GArray *avoid)
{
  HwBox bounds = HW_BOX_EMPTY;
  GHashTableIter iter;
  Verdict *verdict;

  g_hash_table_iter_init (&iter, rules->verdicts);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&verdict))
    for (guint i = 0; is_told (verdict, told) && i < verdict->n_breaches; i++)
      bounds = hw_box_union (bounds, words_box (&verdict->breaches[i], view, area, avoid));
  return hw_box_is_empty (bounds) ? bounds : grown (bounds, 2);
}

void
hw_rules_draw_words (cairo_t *cr,
                     const HwRules *rules,
                     const guint8 *told,
                     const HwView *view,
                     HwBox area,
                     const GArray *avoid)
{
  GHashTableIter iter;
  Verdict *verdict;

  g_hash_table_iter_init (&iter, rules->verdicts);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&verdict))
    for (guint i = 0; is_told (verdict, told) && i < verdict->n_breaches; i++)
      draw_sign (cr, &verdict->breaches[i], TRUE, words_box (&verdict->breaches[i], view, area, avoid));
}

/* A hooping as it lies on the cloth: the field with its dye and hatch, the frame around it as a thin dashed
 * line, the number in a disc at the field's top edge and the arrow that shows how the hoop lies. */
#include "cloth-drawing.h"

#include <math.h>

#include "lettering.h"

#define FIELD_ALPHA 0.14
#define HATCH_ALPHA 0.30
#define DISC_PX 11

static void
set_dye (cairo_t *cr, HwColour colour, double alpha)
{
  cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, alpha);
}

static void
draw_field (cairo_t *cr, const HwHoop *hoop, const HwDye *dye, HwFootprintStrength strength, double px)
{
  double w = hoop->field_width, h = hoop->field_height;

  cairo_rectangle (cr, -w / 2, -h / 2, w, h);
  if (strength == HW_FOOTPRINT_FULL)
    {
      set_dye (cr, dye->colour, FIELD_ALPHA);
      cairo_fill_preserve (cr);
      hw_dye_hatch_path (cr, dye->hatch, dye->colour, HATCH_ALPHA, 9 * px, 1.1 * px);
      cairo_rectangle (cr, -w / 2, -h / 2, w, h);
    }
  set_dye (cr, dye->colour, strength == HW_FOOTPRINT_FULL ? 1.0 : 0.75);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_set_line_width (cr, (strength == HW_FOOTPRINT_FULL ? 2.0 : 1.2) * px);
  cairo_stroke (cr);
}

static void
draw_frame (cairo_t *cr, const HwHoop *hoop, const HwDye *dye, double px)
{
  double w = hoop->frame_width, h = hoop->frame_height, dash[] = { 5 * px, 4 * px };
  double r = fmin (fmin (w, h) / 2, fmin (w, h) * 0.06);

  if (w < hoop->field_width || h < hoop->field_height)
    return;
  cairo_new_sub_path (cr);
  cairo_arc (cr, w / 2 - r, -h / 2 + r, r, -G_PI / 2, 0);
  cairo_arc (cr, w / 2 - r, h / 2 - r, r, 0, G_PI / 2);
  cairo_arc (cr, -w / 2 + r, h / 2 - r, r, G_PI / 2, G_PI);
  cairo_arc (cr, -w / 2 + r, -h / 2 + r, r, G_PI, G_PI * 1.5);
  cairo_close_path (cr);
  cairo_save (cr);
  cairo_set_dash (cr, dash, G_N_ELEMENTS (dash), 0);
  cairo_set_line_width (cr, px);
  set_dye (cr, dye->colour, 0.8);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* The arrow stands on the field's top side, beside the disc, and points away over it. */
static void
draw_arrow (cairo_t *cr, const HwHoop *hoop, const HwDye *dye, double px)
{
  double top = -hoop->field_height / 2;

  cairo_move_to (cr, 0, top - (DISC_PX + 13) * px);
  cairo_line_to (cr, 7 * px, top - (DISC_PX + 2) * px);
  cairo_line_to (cr, -7 * px, top - (DISC_PX + 2) * px);
  cairo_close_path (cr);
  set_dye (cr, dye->colour, 1);
  cairo_fill (cr);
}

/* The number stays upright however the hoop is turned, so that it can be read from where one stands. */
static void
draw_disc (cairo_t *cr, HwPoint at, const HwDye *dye, guint number, HwFootprintStrength strength, double px)
{
  HwLettering how = { .size = 13 * px, .bold = TRUE, .align = HW_LETTER_CENTRE };
  g_autofree char *text = g_strdup_printf ("%u", number);
  gboolean full = strength == HW_FOOTPRINT_FULL;
  double height;

  if (number > 99)
    how.size = 10 * px;
  cairo_arc (cr, at.x, at.y, DISC_PX * px, 0, 2 * G_PI);
  if (full)
    set_dye (cr, dye->colour, 1);
  else
    cairo_set_source_rgba (cr, 1, 0.995, 0.98, 0.92);
  cairo_fill_preserve (cr);
  if (full)
    cairo_set_source_rgb (cr, 1, 1, 1);
  else
    set_dye (cr, dye->colour, 1);
  cairo_set_line_width (cr, 1.5 * px);
  cairo_stroke (cr);
  if (full)
    cairo_set_source_rgb (cr, 1, 1, 1);
  else
    cairo_set_source_rgb (cr, 0.16, 0.15, 0.13);
  hw_letter_measure (cr, &how, text, NULL, &height);
  hw_letter (cr, at.x, at.y - height / 2, &how, text);
}

void
hw_draw_footprint (cairo_t *cr,
                   const HwHoop *hoop,
                   HwPoint centre,
                   double angle,
                   guint number,
                   HwFootprintStrength strength,
                   double px)
{
  const HwDye *dye;
  HwPoint top;

  g_return_if_fail (cr != NULL && hoop != NULL && px > 0);
  g_return_if_fail (number >= 1);

  dye = hw_dye (number - 1);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_translate (cr, centre.x, centre.y);
  cairo_rotate (cr, angle * (G_PI / 180));
  draw_field (cr, hoop, dye, strength, px);
  if (strength == HW_FOOTPRINT_FULL)
    draw_frame (cr, hoop, dye, px);
  draw_arrow (cr, hoop, dye, px);
  cairo_restore (cr);
  top = hw_point_turn ((HwPoint){ 0, -hoop->field_height / 2 }, angle);
  cairo_save (cr);
  draw_disc (cr, (HwPoint){ centre.x + top.x, centre.y + top.y }, dye, number, strength, px);
  cairo_restore (cr);
}

/* How a sign looks: a small paper slip with an open triangle in ink, or a filled one in madder where it is grave; two slips when it stands for
 * several. Its words are set on a wider slip beside it. */

#include "canvas-signs.h"

#include "../drawing/lettering.h"
#include "text-size.h"

#define HALF 11.0       /* px: of a quiet sign */
#define HALF_GRAVE 14.0 /* of a grave one */
#define WORDS_WIDTH 300.0
#define WORDS_LETTERS 13.0
#define PADDING 11.0
#define GAP 8.0      /* from sign to words */
#define HANDLES 20.0 /* from what they speak of: its handles stand about it */

static void
set_ink (cairo_t *cr, gboolean grave, double alpha)
{
  if (grave)
    cairo_set_source_rgba (cr, 0xb5 / 255.0, 0x48 / 255.0, 0x3a / 255.0, alpha);
  else
    cairo_set_source_rgba (cr, 0.24, 0.21, 0.17, alpha);
}

static void
path_slip (cairo_t *cr, HwBox box, double r)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, box.x1 - r, box.y0 + r, r, -G_PI / 2, 0);
  cairo_arc (cr, box.x1 - r, box.y1 - r, r, 0, G_PI / 2);
  cairo_arc (cr, box.x0 + r, box.y1 - r, r, G_PI / 2, G_PI);
  cairo_arc (cr, box.x0 + r, box.y0 + r, r, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
}

static void
draw_slip (cairo_t *cr, HwBox box, gboolean grave, gboolean strong)
{
  path_slip (cr, box, 5);
  cairo_set_source_rgba (cr, 1, 0.99, 0.975, 0.95);
  cairo_fill_preserve (cr);
  set_ink (cr, grave, strong || grave ? 1 : 0.65);
  cairo_set_line_width (cr, strong ? 1.75 : 1.1);
  cairo_stroke (cr);
}

static HwBox
box_about (HwPoint at, double half)
{
  return (HwBox){ at.x - half, at.y - half, at.x + half, at.y + half };
}

static void
draw_triangle (cairo_t *cr, HwPoint at, double half, gboolean grave)
{
  double h = half * 0.55;

  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_move_to (cr, at.x, at.y - h);
  cairo_line_to (cr, at.x + h * 1.1, at.y + h * 0.85);
  cairo_line_to (cr, at.x - h * 1.1, at.y + h * 0.85);
  cairo_close_path (cr);
  set_ink (cr, grave, 1);
  if (grave)
    cairo_fill_preserve (cr);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);
  if (grave)
    cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, 1.4);
  cairo_move_to (cr, at.x, at.y - h * 0.25);
  cairo_line_to (cr, at.x, at.y + h * 0.15);
  cairo_move_to (cr, at.x, at.y + h * 0.5);
  cairo_line_to (cr, at.x, at.y + h * 0.5);
  cairo_stroke (cr);
}

static double
half_of (const HwSigns *signs, guint sign)
{
  return hw_signs_is_grave (signs, sign) ? HALF_GRAVE : HALF;
}

void
hw_signs_draw (cairo_t *cr, const HwSigns *signs, HwBox area, int hovered)
{
  for (guint i = 0; i < hw_signs_count (signs); i++)
    {
      HwPoint at = hw_signs_at (signs, i);
      double half = half_of (signs, i);
      gboolean grave = hw_signs_is_grave (signs, i);
      HwBox box = box_about (at, half);

      if (!hw_box_overlaps (box_about (at, half + 5), area))
        continue;
      if (hw_signs_size (signs, i) > 1)
        draw_slip (cr, box_about ((HwPoint){ at.x + 3.5, at.y - 3.5 }, half), grave, FALSE);
      draw_slip (cr, box, grave, (int)i == hovered);
      draw_triangle (cr, at, half, grave);
    }
}

static HwLettering
lettering (void)
{
  return (HwLettering){ .size = hw_text_size (WORDS_LETTERS), .width = hw_text_size (WORDS_WIDTH) };
}

static void
measure (const char *text, double *width, double *height)
{
  HwLettering how = lettering ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cr = cairo_create (surface);

  hw_letter_measure (cr, &how, text, width, height);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static double
common_area (HwBox a, HwBox b)
{
  return MAX (MIN (a.x1, b.x1) - MAX (a.x0, b.x0), 0) * MAX (MIN (a.y1, b.y1) - MAX (a.y0, b.y0), 0);
}

/* How much of what should be seen the words would cover, px^2. */
static double
covered (HwBox box, HwBox sign, const GArray *avoid, const GArray *spoken_of)
{
  double area = (box.x1 - box.x0) * (box.y1 - box.y0);
  double sum = hw_box_overlaps (box, sign) ? 4 * area : 0;

  if (hw_view_covers (box, avoid))
    sum += area / 4;
  for (guint i = 0; spoken_of != NULL && i < spoken_of->len; i++)
    sum += common_area (box, g_array_index (spoken_of, HwBox, i));
  return sum;
}

#define N_PLACES 8

/* Above the sign, below, to its right, to its left; and the same about all that the words speak of. */
static void
list_places (HwPoint at, double away, double w, double h, const GArray *spoken_of, HwPoint places[N_PLACES])
{
  HwBox all = box_about (at, away - GAP);

  for (guint i = 0; spoken_of != NULL && i < spoken_of->len; i++)
    all = hw_box_union (all, g_array_index (spoken_of, HwBox, i));
  places[0] = (HwPoint){ at.x - w / 2, at.y - h - away };
  places[1] = (HwPoint){ at.x - w / 2, at.y + away };
  places[2] = (HwPoint){ at.x + away, at.y - h / 2 };
  places[3] = (HwPoint){ at.x - w - away, at.y - h / 2 };
  places[4] = (HwPoint){ at.x - w / 2, all.y0 - HANDLES - h };
  places[5] = (HwPoint){ at.x - w / 2, all.y1 + HANDLES };
  places[6] = (HwPoint){ all.x1 + HANDLES, at.y - h / 2 };
  places[7] = (HwPoint){ all.x0 - HANDLES - w, at.y - h / 2 };
}

/* The first place where nothing is in the way, else the one where least is; always on the table. */
static HwBox
words_box (const HwSigns *signs,
           guint sign,
           const char *text,
           HwBox area,
           const GArray *avoid,
           const GArray *spoken_of)
{
  HwPoint at = hw_signs_at (signs, sign), places[N_PLACES];
  double away = half_of (signs, sign) + GAP, w, h, least = G_MAXDOUBLE;
  HwBox best = { 0 };

  measure (text, &w, &h);
  w = MIN (w, hw_text_size (WORDS_WIDTH)) + 2 * PADDING;
  h += 2 * PADDING - 4;
  list_places (at, away, w, h, spoken_of, places);
  for (guint i = 0; i < N_PLACES && least > 0; i++)
    {
      double x = CLAMP (places[i].x, area.x0 + 6, MAX (area.x0 + 6, area.x1 - w - 6));
      double y = CLAMP (places[i].y, area.y0 + 6, MAX (area.y0 + 6, area.y1 - h - 6));
      HwBox box = { x, y, x + w, y + h };
      double cover = covered (box, box_about (at, away - GAP), avoid, spoken_of);

      if (cover < least)
        {
          least = cover;
          best = box;
        }
    }
  return best;
}

HwBox
hw_signs_words_bounds (
    const HwSigns *signs, guint sign, HwBox area, const GArray *avoid, const GArray *spoken_of)
{
  g_autofree char *text = hw_signs_text (signs, sign);
  HwBox box = words_box (signs, sign, text, area, avoid, spoken_of);

  return (HwBox){ box.x0 - 2, box.y0 - 2, box.x1 + 2, box.y1 + 2 };
}

void
hw_signs_draw_words (
    cairo_t *cr, const HwSigns *signs, guint sign, HwBox area, const GArray *avoid, const GArray *spoken_of)
{
  g_autofree char *text = hw_signs_text (signs, sign);
  HwBox box = words_box (signs, sign, text, area, avoid, spoken_of);
  gboolean grave = hw_signs_is_grave (signs, sign);
  HwLettering how = lettering ();

  draw_slip (cr, box, grave, FALSE);
  if (grave)
    cairo_set_source_rgb (cr, 0.55, 0.19, 0.14);
  else
    cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  hw_letter (cr, box.x0 + PADDING, box.y0 + PADDING - 2, &how, text);
}

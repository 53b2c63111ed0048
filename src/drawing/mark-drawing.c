/* The small signs drawn over the cloth: cross marks with their arrow to the top, marks as a pen leaves them
 * on cloth, and order numbers. */
#include "cloth-drawing.h"

#include "lettering.h"

void
hw_draw_cross_mark (cairo_t *cr, double half_length, double line_width)
{
  double head;

  g_return_if_fail (cr != NULL && half_length > 0 && line_width > 0);

  head = MAX (half_length * 0.16, line_width * 2.2);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_width (cr, line_width);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_move_to (cr, -half_length, 0);
  cairo_line_to (cr, half_length, 0);
  cairo_move_to (cr, 0, half_length);
  cairo_line_to (cr, 0, -half_length + head);
  cairo_stroke (cr);
  cairo_move_to (cr, 0, -half_length - head * 0.6);
  cairo_line_to (cr, head * 0.75, -half_length + head * 1.2);
  cairo_line_to (cr, 0, -half_length + head * 0.85);
  cairo_line_to (cr, -head * 0.75, -half_length + head * 1.2);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

void
hw_draw_mark (
    cairo_t *cr, HwPoint at, const char *letter, double half_length, double line_width, double letter_size)
{
  g_return_if_fail (cr != NULL && half_length > 0 && line_width > 0);

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_width (cr, line_width);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_move_to (cr, at.x - half_length, at.y);
  cairo_line_to (cr, at.x + half_length, at.y);
  cairo_move_to (cr, at.x, at.y - half_length);
  cairo_line_to (cr, at.x, at.y + half_length);
  cairo_stroke (cr);
  if (letter != NULL && letter_size > 0)
    {
      HwLettering how = { .size = letter_size, .bold = TRUE };

      hw_letter (cr, at.x + half_length * 0.35, at.y - half_length * 0.2 - letter_size * 1.15, &how, letter);
    }
  cairo_restore (cr);
}

/* A number in the middle of a disc: ink on paper colour, or the other way round on a coloured disc. */
static void
draw_number (cairo_t *cr, HwPoint at, guint number, double size)
{
  HwLettering how = { .size = size, .bold = TRUE, .align = HW_LETTER_CENTRE };
  g_autofree char *text = g_strdup_printf ("%u", number);
  double height;

  hw_letter_measure (cr, &how, text, NULL, &height);
  hw_letter (cr, at.x, at.y - height / 2, &how, text);
}

void
hw_draw_order_number (cairo_t *cr, HwPoint at, guint number, double radius)
{
  g_return_if_fail (cr != NULL && radius > 0);

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_arc (cr, at.x, at.y, radius, 0, 2 * G_PI);
  cairo_set_source_rgba (cr, 1, 0.995, 0.98, 0.92);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.16, 0.15, 0.13);
  cairo_set_line_width (cr, radius * 0.12);
  cairo_stroke (cr);
  draw_number (cr, at, number, radius * (number > 99 ? 0.85 : 1.15));
  cairo_restore (cr);
}

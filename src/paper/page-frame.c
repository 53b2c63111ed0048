/* The foot of every sheet: a bar to lay a ruler against, since a template printed at 97 % spoils a cloth,
 * and the words that keep a pile of paper in order. Also the few small signs all sheets share. */
#include "page-frame.h"

#include <math.h>

#include "../drawing/dye.h"
#include "../geometry/language.h"

#define BAR_HEIGHT 1.1
#define END_LINE 0.2
#define CHIP_TINT 0.2
#define CHIP_HATCH 1.3 /* mm between its lines */

void
hw_line (cairo_t *cr,
         double x,
         double y,
         double width,
         double size,
         gboolean bold,
         HwLetterAlign align,
         const char *text)
{
  HwLettering how = { .size = size, .bold = bold, .align = align };

  if (width > 0)
    {
      double natural = 0;

      /* Only what is too long is shortened: aligned columns then need no box around short words. */
      hw_letter_measure (cr, &how, text, &natural, NULL);
      if (natural > width)
        {
          how.width = width;
          how.ellipsize = TRUE;
          if (align == HW_LETTER_RIGHT)
            x -= width;
          else if (align == HW_LETTER_CENTRE)
            x -= width / 2;
          how.align = HW_LETTER_LEFT;
        }
    }

  hw_letter (cr, x, y, &how, text);
}

/* One bar of n alternating boxes; the last one is closed by a line inside the length, so that the bar is
 * exactly as long as it says. */
static void
draw_bar (cairo_t *cr, double x, double y, double box, guint n)
{
  double length = box * n;

  hw_ink (cr);
  for (guint i = 0; i < n; i += 2)
    {
      cairo_rectangle (cr, x + i * box, y, box, BAR_HEIGHT);
      cairo_fill (cr);
    }
  cairo_rectangle (cr, x, y, length, END_LINE);
  cairo_fill (cr);
  cairo_rectangle (cr, x, y + BAR_HEIGHT - END_LINE, length, END_LINE);
  cairo_fill (cr);
  cairo_rectangle (cr, x + length - END_LINE, y, END_LINE, BAR_HEIGHT);
  cairo_fill (cr);
}

static void
draw_figures (cairo_t *cr, double x, double y, double step, guint every, guint n, const char *unit)
{
  for (guint i = 0; i <= n; i++)
    {
      g_autofree char *text = NULL;

      if (i == n)
        text = g_strdup_printf ("%u %s", i * every, unit);
      else
        text = g_strdup_printf ("%u", i * every);
      hw_line (cr, x + i * step, y, 0, HW_TYPE_SMALL, FALSE,
               i == 0   ? HW_LETTER_LEFT
               : i == n ? HW_LETTER_RIGHT
                        : HW_LETTER_CENTRE,
               text);
    }
}

void
hw_draw_check_bar (cairo_t *cr, double x, double y, double width)
{
  gboolean half = width < 4 * HW_MM_PER_INCH;
  guint tens = half ? 5 : 10, inches = half ? 2 : 4;

  hw_ink (cr);
  draw_figures (cr, x, y, 10.0 * tens / 2, half ? 25 : 50, 2, "mm");
  draw_bar (cr, x, y + 4.2, 10, tens);
  draw_bar (cr, x, y + 4.2 + BAR_HEIGHT + 0.6, HW_MM_PER_INCH, inches);
  hw_ink (cr);
  draw_figures (cr, x, y + 7.6, HW_MM_PER_INCH, 1, inches, "in");
  if (half)
    hw_line (cr, x, y + 11, 0, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT,
             _ ("This sheet is too narrow for a bar of 100 mm."));
}

void
hw_page_footer (const HwPrintJob *job,
                const HwPage *page,
                cairo_t *cr,
                double margin,
                double bottom,
                double keep_free,
                const char *what)
{
  double top = page->height - bottom - HW_FOOTER_HEIGHT;
  double right = page->width - margin - keep_free;
  double width = right - margin;
  double bar = MIN (4 * HW_MM_PER_INCH, width);
  double words = width - bar - 6;
  const char *scene = job->plan->snapshot->name;
  g_autofree char *number = NULL;

  hw_ink_grid (cr);
  cairo_set_line_width (cr, HW_HAIRLINE);
  cairo_move_to (cr, margin, top);
  cairo_line_to (cr, page->width - margin, top);
  cairo_stroke (cr);

  hw_draw_check_bar (cr, margin, top + 1.6, width);
  if (words < 20)
    return;

  /* TRANSLATORS: the kind of paper, then its page */
  number = g_strdup_printf (_ ("%s · page %u of %u"), job->what, page->number + 1, job->pages->len);
  hw_ink (cr);
  hw_line (cr, right, top + 1.6, words, HW_TYPE_SMALL, TRUE, HW_LETTER_RIGHT,
           scene != NULL ? scene : _ ("Unnamed scene"));
  hw_line (cr, right, top + 5.4, words, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, what);
  hw_ink_pale (cr);
  hw_line (cr, right, top + 9.2, words, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, number);
}

void
hw_draw_ring_number (cairo_t *cr, double x, double y, double radius, double size, guint number)
{
  g_autofree char *text = g_strdup_printf ("%u", number);
  HwLettering how = { .size = size, .bold = TRUE, .align = HW_LETTER_CENTRE };
  double width = 0, height = 0;

  hw_letter_measure (cr, &how, text, &width, &height);
  if (width > 1.6 * radius)
    {
      how.size *= 1.6 * radius / width;
      hw_letter_measure (cr, &how, text, &width, &height);
    }

  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, radius, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  hw_ink (cr);
  cairo_set_line_width (cr, MAX (0.25, radius * 0.06));
  cairo_stroke (cr);
  hw_letter (cr, x, y - height / 2, &how, text);
}

void
hw_draw_swatch (cairo_t *cr, double x, double y, double width, double height, HwColour colour)
{
  cairo_rectangle (cr, x, y, width, height);
  cairo_set_source_rgb (cr, colour.red, colour.green, colour.blue);
  cairo_fill_preserve (cr);
  hw_ink (cr);
  cairo_set_line_width (cr, HW_HAIRLINE);
  cairo_stroke (cr);
}

void
hw_draw_tick_box (cairo_t *cr, double x, double y, double size)
{
  cairo_rectangle (cr, x, y, size, size);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.25);
  cairo_stroke (cr);
}

void
hw_draw_ticked_box (cairo_t *cr, double x, double y, double size)
{
  hw_draw_tick_box (cr, x, y, size);
  cairo_move_to (cr, x + 0.2 * size, y + 0.5 * size);
  cairo_line_to (cr, x + 0.45 * size, y + 0.8 * size);
  cairo_line_to (cr, x + 1.05 * size, y - 0.1 * size);
  cairo_set_line_width (cr, 0.45);
  cairo_stroke (cr);
}

void
hw_draw_hooping_chip (cairo_t *cr, double x, double y, double width, double height, guint hooping)
{
  const HwDye *dye = hw_dye (hooping);

  cairo_rectangle (cr, x, y, width, height);
  cairo_set_source_rgba (cr, dye->colour.red, dye->colour.green, dye->colour.blue, CHIP_TINT);
  cairo_fill_preserve (cr);
  hw_dye_hatch_path (cr, dye->hatch, dye->colour, 1, CHIP_HATCH, 0.25);
  cairo_rectangle (cr, x, y, width, height);
  hw_ink (cr);
  cairo_set_line_width (cr, HW_HAIRLINE);
  cairo_stroke (cr);
}

void
hw_draw_rule (cairo_t *cr, double x, double y, double width, double thickness)
{
  hw_ink (cr);
  cairo_set_line_width (cr, thickness);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + width, y);
  cairo_stroke (cr);
}

void
hw_draw_grid_line (cairo_t *cr, double x, double y, double width)
{
  hw_ink_grid (cr);
  cairo_set_line_width (cr, HW_HAIRLINE);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + width, y);
  cairo_stroke (cr);
}

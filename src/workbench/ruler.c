/* The rulers. Millimetres are divided by ones, twos and fives, inches by halves down to sixteenths, as on a tape measure;
 * the nought stands at the cloth's top left corner. */

#include "ruler.h"

#include <math.h>

#include "../drawing/lettering.h"
#include "text-size.h"

#define LABEL_APART 56.0 /* px */
#define TICK_APART 5.0   /* px */
#define FIGURE_SIZE 11.5
#define MOST_FIGURE 14.5 /* between the ticks there is no more room */

static const HwRulerSteps mm_steps[] = {
  { 1, 1, 2, 0 },    { 1, 2, 2, 0 },     { 1, 5, 5, 0 },    { 1, 10, 10, 5 },
  { 1, 20, 4, 2 },   { 1, 50, 10, 5 },   { 1, 100, 10, 5 }, { 1, 200, 4, 2 },
  { 1, 500, 10, 5 }, { 1, 1000, 10, 5 }, { 1, 2000, 4, 2 },
};

static const HwRulerSteps inch_steps[] = {
  { HW_MM_PER_INCH, 0.125, 2, 0 }, { HW_MM_PER_INCH, 0.25, 4, 2 }, { HW_MM_PER_INCH, 0.5, 8, 4 },
  { HW_MM_PER_INCH, 1, 16, 4 },    { HW_MM_PER_INCH, 1, 8, 4 },    { HW_MM_PER_INCH, 2, 8, 4 },
  { HW_MM_PER_INCH, 5, 10, 2 },    { HW_MM_PER_INCH, 10, 10, 5 },  { HW_MM_PER_INCH, 20, 4, 2 },
  { HW_MM_PER_INCH, 50, 10, 5 },   { HW_MM_PER_INCH, 100, 10, 5 },
};

HwRulerSteps
hw_ruler_steps (double zoom, HwUnit unit)
{
  const HwRulerSteps *steps = unit == HW_UNIT_INCH ? inch_steps : mm_steps;
  gsize n = unit == HW_UNIT_INCH ? G_N_ELEMENTS (inch_steps) : G_N_ELEMENTS (mm_steps);

  for (gsize i = 0; i < n; i++)
    {
      double apart = steps[i].label * steps[i].unit_mm * zoom;
      if (apart >= LABEL_APART && apart / steps[i].parts >= TICK_APART)
        return steps[i];
    }
  return steps[n - 1];
}

static void
set_ink (cairo_t *cr, gboolean dark, double alpha)
{
  double shade = dark ? 0.88 : 0.2;

  cairo_set_source_rgba (cr, shade, shade, shade * (dark ? 0.98 : 1), alpha);
}

static void
set_ground (cairo_t *cr, gboolean dark)
{
  if (dark)
    cairo_set_source_rgb (cr, 0.21, 0.205, 0.195);
  else
    cairo_set_source_rgb (cr, 0.945, 0.935, 0.915);
}

static void
draw_figure (cairo_t *cr, double value, double along, gboolean upright)
{
  HwLettering how = { .size = MIN (hw_text_size (FIGURE_SIZE), MOST_FIGURE) };
  g_autofree char *text = g_strdup_printf ("%g", fabs (value) < 1e-9 ? 0 : value);
  double width;

  if (value < 0)
    {
      g_autofree char *minus = g_strdup_printf ("\342\210\222%g", -value);
      g_free (text);
      text = g_steal_pointer (&minus);
    }
  if (!upright)
    {
      hw_letter (cr, along + 4, 1, &how, text);
      return;
    }
  hw_letter_measure (cr, &how, text, &width, NULL);
  cairo_save (cr);
  cairo_translate (cr, 1, along + 4 + width);
  cairo_rotate (cr, -G_PI / 2);
  hw_letter (cr, 0, 0, &how, text);
  cairo_restore (cr);
}

/* One ruler from pixel `from` to `to`; shift: the pixel of its nought. */
static void
draw_one (cairo_t *cr,
          const HwRulerSteps *steps,
          double zoom,
          double shift,
          double from,
          double to,
          gboolean upright)
{
  double tick = steps->label / steps->parts * steps->unit_mm * zoom;
  gint64 first = (gint64)floor ((from - shift) / tick);
  gint64 last = (gint64)ceil ((to - shift) / tick);

  first -= steps->parts;
  cairo_set_line_width (cr, 1);
  for (gint64 i = first; i <= last; i++)
    {
      double along = floor (shift + (double)i * tick) + 0.5;
      gboolean labelled = i % steps->parts == 0;
      double length = labelled ? 12 : steps->half_part > 0 && i % steps->half_part == 0 ? 7.5 : 4.5;

      cairo_move_to (cr, upright ? HW_RULER_BREADTH - length : along,
                     upright ? along : HW_RULER_BREADTH - length);
      cairo_line_to (cr, upright ? HW_RULER_BREADTH : along, upright ? along : HW_RULER_BREADTH);
      cairo_stroke (cr);
      if (labelled)
        draw_figure (cr, (double)i / steps->parts * steps->label, along, upright);
    }
}

void
hw_rulers_draw (cairo_t *cr, const HwView *view, HwUnit unit, int width, int height, gboolean dark)
{
  HwRulerSteps steps = hw_ruler_steps (view->zoom, unit);
  HwLettering how = { .size = 10.5, .align = HW_LETTER_CENTRE };

  set_ground (cr, dark);
  cairo_rectangle (cr, 0, 0, width, HW_RULER_BREADTH);
  cairo_rectangle (cr, 0, 0, HW_RULER_BREADTH, height);
  cairo_fill (cr);

  cairo_save (cr);
  cairo_rectangle (cr, HW_RULER_BREADTH, 0, width, HW_RULER_BREADTH);
  cairo_clip (cr);
  set_ink (cr, dark, 0.85);
  draw_one (cr, &steps, view->zoom, view->x, HW_RULER_BREADTH, width, FALSE);
  cairo_restore (cr);

  cairo_save (cr);
  cairo_rectangle (cr, 0, HW_RULER_BREADTH, HW_RULER_BREADTH, height);
  cairo_clip (cr);
  set_ink (cr, dark, 0.85);
  draw_one (cr, &steps, view->zoom, view->y, HW_RULER_BREADTH, height, TRUE);
  cairo_restore (cr);

  set_ink (cr, dark, 0.75);
  hw_letter (cr, HW_RULER_BREADTH / 2.0, 6, &how, unit == HW_UNIT_INCH ? "in" : "mm");
  set_ink (cr, dark, 0.25);
  cairo_set_line_width (cr, 1);
  cairo_move_to (cr, 0, HW_RULER_BREADTH - 0.5);
  cairo_line_to (cr, width, HW_RULER_BREADTH - 0.5);
  cairo_move_to (cr, HW_RULER_BREADTH - 0.5, 0);
  cairo_line_to (cr, HW_RULER_BREADTH - 0.5, height);
  cairo_stroke (cr);
}

void
hw_rulers_draw_marks (cairo_t *cr,
                      const HwView *view,
                      HwBox extent,
                      const HwPoint *pointer,
                      int width,
                      int height,
                      gboolean dark)
{
  const double edge = HW_RULER_BREADTH;

  if (!hw_box_is_empty (extent))
    {
      HwBox box = hw_view_box_to_pixels (view, extent);
      double x0 = CLAMP (box.x0, edge, width), x1 = CLAMP (box.x1, edge, width);
      double y0 = CLAMP (box.y0, edge, height), y1 = CLAMP (box.y1, edge, height);

      cairo_rectangle (cr, x0, 0, x1 - x0, edge - 1);
      cairo_rectangle (cr, 0, y0, edge - 1, y1 - y0);
      cairo_set_source_rgba (cr, dark ? 0.45 : 0.18, dark ? 0.66 : 0.40, dark ? 0.82 : 0.56, 0.26);
      cairo_fill (cr);
    }
  if (pointer == NULL || pointer->x < edge || pointer->y < edge)
    return;
  cairo_move_to (cr, pointer->x, edge);
  cairo_rel_line_to (cr, -5, -8);
  cairo_rel_line_to (cr, 10, 0);
  cairo_close_path (cr);
  cairo_move_to (cr, edge, pointer->y);
  cairo_rel_line_to (cr, -8, -5);
  cairo_rel_line_to (cr, 0, 10);
  cairo_close_path (cr);
  set_ink (cr, dark, 1);
  cairo_fill (cr);
}

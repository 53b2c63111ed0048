/* A patch of a thread's colour, wound as on a card, so that neighbouring shades are judged as thread and not as paint. */
#include "palette-swatch.h"

#define TURN 4.0 /* px of one turn of the thread */

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  const HwColour *colour = user_data;

  cairo_rectangle (cr, 0, 0, width, height);
  cairo_clip (cr);
  cairo_set_source_rgb (cr, colour->red, colour->green, colour->blue);
  cairo_paint (cr);
  for (double y = 0; y < height; y += TURN)
    {
      cairo_rectangle (cr, 0, y, width, 1);
      cairo_set_source_rgba (cr, 1, 1, 1, 0.16);
      cairo_fill (cr);
      cairo_rectangle (cr, 0, y + TURN - 1, width, 1);
      cairo_set_source_rgba (cr, 0, 0, 0, 0.14);
      cairo_fill (cr);
    }
}

GtkWidget *
hw_palette_swatch_new (HwColour colour, int side)
{
  GtkWidget *area = gtk_drawing_area_new ();

  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), side);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), side);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw, g_memdup2 (&colour, sizeof colour), g_free);
  gtk_widget_set_valign (area, GTK_ALIGN_CENTER);
  gtk_widget_set_overflow (area, GTK_OVERFLOW_HIDDEN);
  gtk_widget_add_css_class (area, "palette-swatch");
  return area;
}

/* A motif's artwork drawn pale as vectors, for templates: thin enough that cross mark and outline read over
 * it, true enough that the motif can be laid against what is stitched already. */
#include "thread-painting.h"

#include "cloth-drawing.h"

#define LINE_MM 0.18

static void
set_pale (cairo_t *cr, HwColour colour, double paleness)
{
  HwColour pale = hw_colour_mix (colour, (HwColour){ 1, 1, 1 }, paleness);

  cairo_set_source_rgb (cr, pale.red, pale.green, pale.blue);
}

static void
draw_needles_pale (cairo_t *cr, const HwMotif *motif, double paleness)
{
  const HwNeedleList *needles = motif->needles;
  gboolean placed = FALSE, open = FALSE;

  cairo_set_line_width (cr, LINE_MM);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_BEVEL);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *p = &needles->points[i];

      if (p->action == HW_NEEDLE_STITCH && placed)
        {
          cairo_line_to (cr, p->x, p->y);
          open = TRUE;
        }
      else if (p->action == HW_NEEDLE_STITCH || p->action == HW_NEEDLE_JUMP)
        {
          cairo_move_to (cr, p->x, p->y);
          placed = TRUE;
        }
      if (open && (i + 1 == needles->n_points || needles->points[i + 1].thread != p->thread))
        {
          double x, y;

          cairo_get_current_point (cr, &x, &y);
          set_pale (cr, hw_motif_thread_colour (motif, p->thread), paleness);
          cairo_stroke (cr);
          cairo_move_to (cr, x, y);
          open = FALSE;
        }
    }
  cairo_new_path (cr);
}

void
hw_thread_draw_pale (cairo_t *cr, const HwMotif *motif, double paleness)
{
  g_return_if_fail (cr != NULL && motif != NULL);
  g_return_if_fail (paleness >= 0 && paleness <= 1);

  cairo_save (cr);
  cairo_new_path (cr);
  if (motif->needles != NULL && motif->needles->n_stitches > 0)
    draw_needles_pale (cr, motif, paleness);
  else if (motif->outline != NULL)
    {
      cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
      hw_path_outline (cr, motif->outline);
      set_pale (cr, hw_motif_thread_colour (motif, 0), paleness);
      cairo_fill (cr);
    }
  cairo_restore (cr);
}

/* Stitches on a template are lines to lay against thread that is already there, in the colours of their threads but never so pale that they
 * are lost on white paper or in a photocopy. The stitches of a row are drawn as one line, which looks the same and makes a file of a fifth
 * of the size. */
#include "template-stitches.h"

#include <math.h>

#include "../drawing/thread-painting.h"

#define LINE 0.1
#define STRAIGHT 0.03        /* mm: what lies nearer to a line lies on it */
#define LIGHTEST 0.30        /* luminance; about mid grey: lighter threads are darkened to it */
#define POINTS_A_STROKE 4000 /* some printers cannot hold longer paths */

typedef struct
{
  cairo_t *cr;
  const HwPlacement *placement; /* unturned, at the origin */
  HwPoint from, to;             /* of the straight piece not drawn yet */
  HwPoint along;                /* its first stitch's direction, of length 1 */
  gboolean open;
  guint points; /* of the path */
} HwStitchPen;

static void
pen_flush (HwStitchPen *pen)
{
  if (pen->open)
    {
      HwPoint a = hw_placement_apply (pen->placement, pen->from);
      HwPoint b = hw_placement_apply (pen->placement, pen->to);

      if (!cairo_has_current_point (pen->cr))
        cairo_move_to (pen->cr, a.x, a.y);
      cairo_line_to (pen->cr, b.x, b.y);
      pen->points++;
    }
  pen->open = FALSE;
}

static void
pen_stroke (HwStitchPen *pen)
{
  pen_flush (pen);
  cairo_stroke (pen->cr);
  pen->points = 0;
}

static void
pen_open (HwStitchPen *pen, HwPoint p)
{
  double dx = p.x - pen->to.x, dy = p.y - pen->to.y, length = hypot (dx, dy);

  pen->from = pen->to;
  pen->to = p;
  pen->along = length > 0 ? (HwPoint){ dx / length, dy / length } : (HwPoint){ 0, 0 };
  pen->open = TRUE;
}

/* Whether p goes straight on from the piece that is open. */
static gboolean
goes_on (const HwStitchPen *pen, HwPoint p)
{
  double px = p.x - pen->from.x, py = p.y - pen->from.y;
  double forward = (p.x - pen->to.x) * pen->along.x + (p.y - pen->to.y) * pen->along.y;

  return forward > 0 && fabs (pen->along.x * py - pen->along.y * px) < STRAIGHT;
}

static void
pen_stitch (HwStitchPen *pen, HwPoint p)
{
  if (pen->open && goes_on (pen, p))
    {
      pen->to = p;
      return;
    }

  pen_flush (pen);
  if (pen->points >= POINTS_A_STROKE)
    pen_stroke (pen);
  pen_open (pen, p);
}

static void
pen_jump (HwStitchPen *pen, HwPoint p)
{
  HwPoint at = hw_placement_apply (pen->placement, p);

  pen_flush (pen);
  cairo_move_to (pen->cr, at.x, at.y);
  pen->to = p;
}

static void
set_ink (cairo_t *cr, HwColour colour)
{
  double luminance = hw_colour_luminance (colour);

  if (luminance > LIGHTEST)
    colour = hw_colour_mix (colour, (HwColour){ 0, 0, 0 }, 1 - sqrt (LIGHTEST / luminance));
  cairo_set_source_rgb (cr, colour.red, colour.green, colour.blue);
}

void
hw_draw_template_stitches (cairo_t *cr, const HwMotif *motif)
{
  const HwNeedleList *needles = motif->needles;
  HwPlacement unturned = { .scale = motif->placement.scale, .mirrored = motif->placement.mirrored };
  HwStitchPen pen = { .cr = cr, .placement = &unturned };
  int thread = -1;
  gboolean placed = FALSE;

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_width (cr, LINE);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_BEVEL);
  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *at = &needles->points[i];
      HwPoint p = { at->x, at->y };

      if (at->action != HW_NEEDLE_STITCH && at->action != HW_NEEDLE_JUMP)
        continue;
      if (at->thread != thread)
        {
          pen_stroke (&pen);
          pen_jump (&pen, placed ? pen.to : p);
          thread = at->thread;
          set_ink (cr, hw_motif_thread_colour (motif, at->thread));
        }
      if (at->action == HW_NEEDLE_STITCH && placed)
        pen_stitch (&pen, p);
      else
        pen_jump (&pen, p);
      placed = TRUE;
    }
  pen_stroke (&pen);
  cairo_restore (cr);
}

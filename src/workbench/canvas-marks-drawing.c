/* What the marks of the chosen hooping leave open: at each of its motifs an ellipse of the errors to be expected, drawn so that a ring of always the
 * same size stands for what the person tolerates, with the figure under it. Marks the person holds wear a ring; one in the hand is told with its place,
 * and with the reason where it cannot serve. All in pixels. */
#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "../planning/mark-list.h"
#include "../planning/marks.h"
#include "../registration/mark-error.h"
#include "canvas-marks.h"
#include "text-size.h"

#define RING 20.0        /* px: the tolerance */
#define LARGEST 60.0     /* px: an ellipse is cut off here */
#define FIGURE 14.0      /* px: letters of a figure */
#define FIGURE_HELD 19.0 /* the same while a mark is in the hand */
#define WORDS 14.0
#define WORDS_WIDTH 320.0
#define PADDING 9.0
#define HELD_RING 9.0
#define HALF 9.0 /* of a mark's lines */

typedef enum
{
  INK_WITHIN,
  INK_OVER,
  INK_PLAIN
} Ink;

static void
set_ink (cairo_t *cr, Ink ink, double alpha)
{
  if (ink == INK_OVER)
    cairo_set_source_rgba (cr, 0.62, 0.20, 0.15, alpha);
  else if (ink == INK_WITHIN)
    cairo_set_source_rgba (cr, 0.08, 0.38, 0.34, alpha);
  else
    cairo_set_source_rgba (cr, 0.14, 0.15, 0.2, alpha);
}

static cairo_t *
append (GtkSnapshot *snapshot, HwBox box)
{
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT ((float)floor (box.x0), (float)floor (box.y0), (float)ceil (box.x1 - box.x0 + 1),
                            (float)ceil (box.y1 - box.y0 + 1));

  return gtk_snapshot_append_cairo (snapshot, &bounds);
}

static HwBox
about (HwPoint at, double reach)
{
  return (HwBox){ at.x - reach, at.y - reach, at.x + reach, at.y + reach };
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
measure (const HwLettering *how, const char *text, double *width, double *height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cr = cairo_create (surface);

  hw_letter_measure (cr, how, text, width, height);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

/* What a slip of that size covers beside a place: under it, over it, to its right or left, wherever first nothing is covered; kept on the table. */
static HwBox
slip_box (HwCanvas *canvas, const GArray *taken, HwPoint at, double away, double width, double height)
{
  HwBox area = hw_canvas_area (canvas), first = { 0 };
  const HwPoint corners[] = { { at.x - width / 2, at.y + away },
                              { at.x - width / 2, at.y - away - height },
                              { at.x + away, at.y - height / 2 },
                              { at.x - away - width, at.y - height / 2 } };

  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      gboolean clear = TRUE;
      HwBox box;

      box.x0 = CLAMP (corners[i].x, area.x0 + 4, MAX (area.x0 + 4, area.x1 - width - 4));
      box.y0 = CLAMP (corners[i].y, area.y0 + 4, MAX (area.y0 + 4, area.y1 - height - 4));
      box.x1 = box.x0 + width;
      box.y1 = box.y0 + height;
      for (guint k = 0; k < taken->len && clear; k++)
        clear = !hw_box_overlaps (box, g_array_index (taken, HwBox, k));
      if (clear)
        return box;
      if (i == 0)
        first = box;
    }
  return first;
}

/* Words on a paper slip beside a place. */
static void
draw_slip (HwCanvas *canvas,
           GtkSnapshot *snapshot,
           GArray *taken,
           HwPoint at,
           double away,
           HwLettering how,
           Ink ink,
           const char *text)
{
  double width, height;
  HwBox box;
  cairo_t *cr;

  measure (&how, text, &width, &height);
  box = slip_box (canvas, taken, at, away, width + 2 * PADDING, height + PADDING);
  g_array_append_val (taken, box);
  cr = append (snapshot, (HwBox){ box.x0 - 2, box.y0 - 2, box.x1 + 2, box.y1 + 2 });
  path_slip (cr, box, 5);
  cairo_set_source_rgba (cr, 1, 0.99, 0.975, 0.94);
  cairo_fill_preserve (cr);
  set_ink (cr, ink, ink == INK_OVER ? 1 : 0.45);
  cairo_set_line_width (cr, ink == INK_OVER ? 1.75 : 1);
  cairo_stroke (cr);
  set_ink (cr, ink, 1);
  hw_letter (cr, box.x0 + PADDING, box.y0 + PADDING / 2, &how, text);
  cairo_destroy (cr);
}

/* The ellipse of the errors: its half axes are root mean squares times the root of two, so that a round one has the predicted error as its
 * radius. */
static void
draw_ellipse (cairo_t *cr, HwPoint at, const HwMarkSpread *spread, double tolerance, Ink ink)
{
  const double dash[] = { 3, 3 };
  double along = MIN (LARGEST, RING * G_SQRT2 * spread->along / tolerance);
  double across = MIN (LARGEST, RING * G_SQRT2 * spread->across / tolerance);

  cairo_arc (cr, at.x, at.y, RING, 0, 2 * G_PI);
  cairo_set_source_rgba (cr, 1, 0.99, 0.975, 0.4);
  cairo_fill_preserve (cr);
  set_ink (cr, INK_PLAIN, 0.75);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_set_line_width (cr, 1.2);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_rotate (cr, spread->angle * G_PI / 180);
  cairo_scale (cr, MAX (along, 1), MAX (across, 1));
  cairo_arc (cr, 0, 0, 1, 0, 2 * G_PI);
  cairo_restore (cr);
  set_ink (cr, ink, ink == INK_OVER ? 0.30 : 0.22);
  cairo_fill_preserve (cr);
  set_ink (cr, ink, 1);
  cairo_set_line_width (cr, ink == INK_OVER ? 3 : 1.6);
  cairo_stroke (cr);
}

static void
draw_error (HwCanvas *canvas,
            GtkSnapshot *snapshot,
            GArray *taken,
            const HwMotif *motif,
            const GArray *marks,
            double tolerance)
{
  HwPoint at = hw_view_to_pixels (&canvas->view, motif->placement.position);
  const HwPoint *places = (const HwPoint *)marks->data;
  HwMarkSpread spread = hw_mark_spread (places, marks->len, HW_MARKS_SIGMA, motif->placement.position);
  double error = hw_mark_error (places, marks->len, HW_MARKS_SIGMA, motif->placement.position), below = RING;
  gboolean known = marks->len >= 2 && isfinite (error);
  Ink ink = known && error <= tolerance ? INK_WITHIN : INK_OVER;
  g_autofree char *figure = hw_mark_error_text (known ? error : INFINITY, hw_bench_get_unit (canvas->bench));
  /* Translators: an error that is larger than tolerated, such as "0.84 mm, too much". */
  g_autofree char *text
      = ink == INK_OVER && known ? g_strdup_printf (_ ("! %s, too much"), figure) : g_strdup (figure);
  HwLettering how
      = { .size = canvas->drag.pull == HW_PULL_MARK ? hw_text_size (FIGURE_HELD) : hw_text_size (FIGURE),
          .bold = TRUE };

  if (!hw_box_overlaps (about (at, 200), hw_canvas_area (canvas)))
    return;
  if (known)
    {
      cairo_t *cr = append (snapshot, about (at, LARGEST + 4));

      draw_ellipse (cr, at, &spread, tolerance, ink);
      cairo_destroy (cr);
      below = MAX (RING, MIN (LARGEST, RING * G_SQRT2 * spread.across / tolerance));
    }
  draw_slip (canvas, snapshot, taken, at, below + 5, how, ink, text);
}

static void
draw_held_ring (HwCanvas *canvas, GtkSnapshot *snapshot, const HwCanvasMark *mark, gboolean hovered)
{
  HwPoint at = hw_view_to_pixels (&canvas->view, mark->at);
  cairo_t *cr = append (snapshot, about (at, 24));

  if (hovered)
    {
      cairo_arc (cr, at.x, at.y, 14, 0, 2 * G_PI);
      cairo_set_source_rgba (cr, 1, 1, 1, 0.55);
      cairo_fill_preserve (cr);
      set_ink (cr, INK_PLAIN, 0.9);
      cairo_set_line_width (cr, 1.5);
      cairo_stroke (cr);
    }
  if (!mark->serves)
    {
      set_ink (cr, INK_OVER, 1);
      hw_draw_mark (cr, at, "!", HALF, 1.8, 15);
    }
  else if (mark->held)
    {
      cairo_arc (cr, at.x, at.y, HELD_RING, 0, 2 * G_PI);
      set_ink (cr, INK_PLAIN, 1);
      cairo_set_line_width (cr, 1.6);
      cairo_stroke (cr);
    }
  cairo_destroy (cr);
}

/* What a mark under the pointer is. */
static char *
say_mark (HwCanvas *canvas, const HwCanvasMark *mark)
{
  int hooping = hw_canvas_marked_hooping (canvas);

  if (!hw_bench_may_change_marks (canvas->bench, (guint)hooping))
    return g_strdup_printf (_ ("Mark %s stays: the hooping is stitched, or its marks are read."),
                            mark->letter);
  if (!mark->serves)
    return g_strdup (_ ("This mark cannot serve. Pull it to another place, or let it go."));
  if (mark->held)
    return g_strdup_printf (_ ("Mark %s, held here. Pull it to move it."), mark->letter);
  return g_strdup_printf (_ ("Mark %s, chosen by the plan. Pull it to hold it elsewhere."), mark->letter);
}

/* The mark in the hand: where it is, and why it cannot serve there if so. */
static void
draw_pulled (HwCanvas *canvas, GtkSnapshot *snapshot, GArray *taken, const HwPlan *plan, guint hooping)
{
  const HwDrag *drag = &canvas->drag;
  HwUnit unit = hw_bench_get_unit (canvas->bench);
  HwPoint at = hw_view_to_pixels (&canvas->view, drag->mark_at);
  g_autofree char *why = hw_marks_why_not (plan, hooping, drag->mark_at, unit);
  g_autofree char *place = hw_mark_place_text (plan->snapshot, drag->mark_at, unit);
  g_autofree char *text = why != NULL
                              ? g_strdup_printf (_ ("%s\nIt cannot serve here because %s."), place, why)
                              : g_strdup (place);
  Ink ink = why != NULL ? INK_OVER : INK_PLAIN;
  HwLettering how = { .size = hw_text_size (WORDS) };
  cairo_t *cr = append (snapshot, about (at, 40));
  double width, height;

  cairo_arc (cr, at.x, at.y, 14, 0, 2 * G_PI);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.6);
  cairo_fill_preserve (cr);
  set_ink (cr, ink, 1);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
  hw_draw_mark (cr, at, why != NULL ? "!" : NULL, HALF, 1.8, 16);
  cairo_destroy (cr);
  measure (&how, text, &width, &height);
  if (width > hw_text_size (WORDS_WIDTH))
    how.width = hw_text_size (WORDS_WIDTH);
  draw_slip (canvas, snapshot, taken, at, 22, how, ink, text);
}

void
hw_canvas_draw_marks (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  int hooping = hw_canvas_marked_hooping (canvas);
  gboolean pulled = canvas->drag.pull == HW_PULL_MARK;
  double tolerance;

  if (hooping < 0 || hw_canvas_is_dragging (canvas) || canvas->drag.pull == HW_PULL_PAN)
    return;
  g_autoptr (GArray) marks = hw_canvas_marks (canvas);
  g_autoptr (GArray) serving = hw_canvas_serving_marks (canvas);
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (HwBox));
  const HwHooping *of = &plan->hoopings[hooping];

  /* Nothing is told on top of a mark or of another motif's ring. */
  for (guint i = 0; i < marks->len; i++)
    {
      HwBox cross = about (hw_view_to_pixels (&canvas->view, g_array_index (marks, HwCanvasMark, i).at), 11);

      g_array_append_val (taken, cross);
    }
  if (pulled)
    {
      HwBox hand = about (hw_view_to_pixels (&canvas->view, canvas->drag.mark_at), 20);

      g_array_append_val (taken, hand);
    }
  for (guint i = 0; i < of->n_motifs; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (plan->snapshot, of->motifs[i]);
      HwBox ring = about (hw_view_to_pixels (&canvas->view, motif->placement.position), RING);

      g_array_append_val (taken, ring);
    }
  tolerance = MAX (hw_scene_get_wishes (hw_bench_get_scene (canvas->bench))->tolerance, 0.05);
  for (guint i = 0; i < of->n_motifs; i++)
    draw_error (canvas, snapshot, taken, hw_snapshot_motif (plan->snapshot, of->motifs[i]), serving,
                tolerance);
  for (guint i = 0; i < marks->len; i++)
    draw_held_ring (canvas, snapshot, &g_array_index (marks, HwCanvasMark, i), (int)i == canvas->hover_mark);
  if (pulled)
    draw_pulled (canvas, snapshot, taken, plan, (guint)hooping);
  else if (canvas->hover_mark >= 0 && canvas->hover_mark < (int)marks->len)
    {
      const HwCanvasMark *mark = &g_array_index (marks, HwCanvasMark, canvas->hover_mark);
      HwPoint at = hw_view_to_pixels (&canvas->view, mark->at);
      g_autofree char *text = say_mark (canvas, mark);

      draw_slip (canvas, snapshot, taken, at, 22, (HwLettering){ .size = hw_text_size (WORDS) },
                 mark->serves ? INK_PLAIN : INK_OVER, text);
    }
}

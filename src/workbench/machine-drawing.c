/* The picture of a hooping in the machine: upright as the person sees it standing there, whatever way the hoop lies on the cloth. Until the templates are off
 * they are shown as the paper that lies there; then threads turn from pale to full as they are stitched. What the step speaks of is
 * drawn strongest. */
#include "machine-drawing.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "../drawing/thread-painting.h"
#include "../paper/steps.h"

#define ROUND 16.0 /* mm, of the ring's corners */
#define TO_COME 0.42
#define MOST_PIXELS 4.0e6 /* of one motif */

typedef struct
{
  cairo_t *cr;
  const HwMachineWork *work;
  const HwHooping *hooping;
  const HwHoop *hoop;
  HwWorkStep step;
  double scale; /* px for each mm */
  double px;    /* one px in mm */
  int device_scale;
} Drawing;

static const HwColour ink = { 0.13, 0.14, 0.19 };
static const HwColour madder = { 0.71, 0.28, 0.23 };
static const HwColour woad = { 0.18, 0.40, 0.56 };

static void
set_colour (cairo_t *cr, HwColour colour, double alpha)
{
  cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, alpha);
}

static void
frame_size (const HwHoop *hoop, double *half_width, double *half_height)
{
  *half_width = MAX (hoop->frame_width, hoop->field_width) / 2;
  *half_height = MAX (hoop->frame_height, hoop->field_height) / 2;
}

static void
path_rounded (cairo_t *cr, double w, double h, double r)
{
  r = MIN (r, MIN (w, h) / 2);
  cairo_new_sub_path (cr);
  cairo_arc (cr, w - r, -h + r, r, -G_PI / 2, 0);
  cairo_arc (cr, w - r, h - r, r, 0, G_PI / 2);
  cairo_arc (cr, -w + r, h - r, r, G_PI / 2, G_PI);
  cairo_arc (cr, -w + r, -h + r, r, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
}

static void
paint_motif (const Drawing *d, guint motif, double alpha)
{
  HwMotifInHoop place = hw_motif_in_hoop (d->work->plan, d->work->hooping, motif);
  g_autoptr (HwMotif) upright = hw_motif_copy (hw_snapshot_motif (d->work->snapshot, motif));
  HwThreadPicture picture = { 0 };
  HwBox box = upright->outline->box;
  double area = (box.x1 - box.x0) * (box.y1 - box.y0) * upright->placement.scale * upright->placement.scale;
  double pixels = MIN (d->scale * d->device_scale, sqrt (MOST_PIXELS / MAX (area, 1)));

  upright->placement.angle = place.turn;
  if (!hw_thread_picture_paint (&picture, upright, pixels, 1))
    return;
  cairo_save (d->cr);
  cairo_translate (d->cr, place.shift.x, place.shift.y);
  cairo_scale (d->cr, 1 / pixels, 1 / pixels);
  cairo_set_source_surface (d->cr, picture.surface, picture.x, picture.y);
  cairo_paint_with_alpha (d->cr, alpha);
  cairo_restore (d->cr);
  hw_thread_picture_clear (&picture);
}

static HwOutline *
outline_in_hoop (const Drawing *d, guint motif)
{
  const HwMotif *record = hw_snapshot_motif (d->work->snapshot, motif);
  HwMotifInHoop place = hw_motif_in_hoop (d->work->plan, d->work->hooping, motif);
  HwPlacement placement = record->placement;

  placement.position = place.shift;
  placement.angle = place.turn;
  return hw_outline_place (record->outline, &placement);
}

static void
draw_cloth (const Drawing *d)
{
  const HwSnapshot *snapshot = d->work->snapshot;

  cairo_save (d->cr);
  cairo_rotate (d->cr, -d->hooping->angle * G_PI / 180);
  cairo_translate (d->cr, -d->hooping->centre.x, -d->hooping->centre.y);
  hw_draw_cloth (d->cr, &snapshot->fabric, d->px);
  if (snapshot->edge_line != NULL)
    hw_draw_edge_line (d->cr, snapshot->edge_line, &snapshot->fabric, d->px);
  cairo_restore (d->cr);
}

static void
draw_stitched_before (const Drawing *d)
{
  double w, h;

  frame_size (d->hoop, &w, &h);
  HwBox frame = { -w, -h, w, h };
  for (guint k = 0; k < d->work->hooping; k++)
    for (guint i = 0; i < d->work->plan->hoopings[k].n_motifs; i++)
      {
        guint motif = d->work->plan->hoopings[k].motifs[i];
        g_autoptr (HwOutline) outline = outline_in_hoop (d, motif);

        if (hw_box_overlaps (outline->box, frame))
          paint_motif (d, motif, 1);
      }
}

static gboolean
templates_are_on (HwWorkStep step)
{
  return step >= HW_WORK_STICK && step <= HW_WORK_TEMPLATE_OFF;
}

/* A template: paper with the pale motif and its cross mark. */
static void
draw_template (const Drawing *d, guint motif)
{
  HwMotifInHoop place = hw_motif_in_hoop (d->work->plan, d->work->hooping, motif);
  g_autoptr (HwOutline) outline = outline_in_hoop (d, motif);
  gboolean off = d->step == HW_WORK_TEMPLATE_OFF;

  hw_path_outline (d->cr, outline);
  cairo_set_fill_rule (d->cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_source_rgba (d->cr, 1, 1, 1, 0.93);
  cairo_fill (d->cr);
  paint_motif (d, motif, 0.35);
  hw_path_outline (d->cr, outline);
  set_colour (d->cr, off ? madder : ink, off ? 1 : 0.75);
  cairo_set_line_width (d->cr, (off ? 4 : 1.5) * d->px);
  cairo_stroke (d->cr);
  cairo_save (d->cr);
  cairo_translate (d->cr, place.shift.x, place.shift.y);
  cairo_rotate (d->cr, place.turn * G_PI / 180);
  set_colour (d->cr, ink, 0.85);
  hw_draw_cross_mark (d->cr, 14 * d->px, 1.4 * d->px);
  cairo_restore (d->cr);
}

/* How many of a motif's thread blocks are stitched. */
static guint
blocks_done (const Drawing *d, guint motif)
{
  guint n = 0, done = d->step > HW_WORK_STITCH ? d->work->steps->len : d->work->pin->work->threads_done;

  for (guint i = 0; i < MIN (done, d->work->steps->len); i++)
    if (g_array_index (d->work->steps, HwBlockStep, i).motif == motif)
      n++;
  return n;
}

static int
motif_at_hand (const Drawing *d)
{
  guint at = d->work->pin->work->threads_done;

  if (d->step != HW_WORK_STITCH || at >= d->work->steps->len)
    return -1;
  return (int)g_array_index (d->work->steps, HwBlockStep, at).motif;
}

static void
draw_motifs (const Drawing *d)
{
  int at_hand = motif_at_hand (d);

  for (guint i = 0; i < d->hooping->n_motifs; i++)
    {
      guint motif = d->hooping->motifs[i];
      guint all = hw_snapshot_motif (d->work->snapshot, motif)->n_threads;
      double part = all > 0 ? (double)blocks_done (d, motif) / all : 0;

      if (templates_are_on (d->step))
        {
          draw_template (d, motif);
          continue;
        }
      paint_motif (d, motif, TO_COME + (1 - TO_COME) * part);
      if ((int)motif == at_hand)
        {
          g_autoptr (HwOutline) outline = outline_in_hoop (d, motif);

          hw_path_outline (d->cr, outline);
          set_colour (d->cr, woad, 1);
          cairo_set_line_width (d->cr, 3 * d->px);
          cairo_stroke (d->cr);
        }
    }
}

static void
draw_ring (const Drawing *d, gboolean dark)
{
  double w, h, fw = d->hoop->field_width / 2, fh = d->hoop->field_height / 2;
  cairo_t *cr = d->cr;

  frame_size (d->hoop, &w, &h);
  path_rounded (cr, w, h, ROUND);
  path_rounded (cr, fw, fh, ROUND / 3);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_source_rgba (cr, 0.62, 0.53, 0.37, dark ? 0.72 : 0.60);
  cairo_fill (cr);
  path_rounded (cr, w, h, ROUND);
  set_colour (cr, ink, 0.85);
  cairo_set_line_width (cr, 2 * d->px);
  cairo_stroke (cr);
  path_rounded (cr, fw, fh, ROUND / 3);
  cairo_set_line_width (cr, 1.2 * d->px);
  cairo_stroke (cr);

  double across = (w + fw) / 2, along = (h + fh) / 2;
  gboolean strong = d->step == HW_WORK_STICK;
  set_colour (cr, strong ? madder : ink, 1);
  cairo_set_line_width (cr, (strong ? 5 : 3) * d->px);
  cairo_move_to (cr, -across, 0);
  cairo_line_to (cr, -fw, 0);
  cairo_move_to (cr, fw, 0);
  cairo_line_to (cr, across, 0);
  cairo_move_to (cr, 0, -along);
  cairo_line_to (cr, 0, -fh);
  cairo_move_to (cr, 0, fh);
  cairo_line_to (cr, 0, along);
  cairo_stroke (cr);
}

/* A letter on a light disc, to be read at arm's length over any thread. */
static void
draw_letter (const Drawing *d, HwPoint at, const char *letter, double size, HwColour colour)
{
  HwLettering how = { .size = size, .bold = TRUE, .align = HW_LETTER_CENTRE };
  double height, radius = size * 0.72;

  cairo_new_path (d->cr);
  cairo_arc (d->cr, at.x, at.y, radius, 0, 2 * G_PI);
  cairo_set_source_rgba (d->cr, 1, 0.995, 0.98, 0.95);
  cairo_fill_preserve (d->cr);
  set_colour (d->cr, colour, 1);
  cairo_set_line_width (d->cr, 1.6 * d->px);
  cairo_stroke (d->cr);
  hw_letter_measure (d->cr, &how, letter, NULL, &height);
  hw_letter (d->cr, at.x, at.y - height / 2, &how, letter);
}

static void
draw_mark (const Drawing *d, guint mark, gboolean spoken_of, double letter_size)
{
  HwPoint at = hw_machine_work_mark (d->work, mark);
  gboolean read = hw_work_get_reading (d->work->pin->work, d->work->pin->marks[mark].letter) != NULL;
  HwColour colour = spoken_of ? madder : ink;
  double half = (spoken_of ? 22 : 13) * d->px;
  double out = half + letter_size * d->px * 0.2;

  if (spoken_of)
    {
      cairo_new_path (d->cr);
      cairo_arc (d->cr, at.x, at.y, half * 1.25, 0, 2 * G_PI);
      set_colour (d->cr, madder, 0.16);
      cairo_fill (d->cr);
    }
  /* A light line under the dark one, so that it shows on any thread. */
  cairo_set_source_rgba (d->cr, 1, 1, 1, 0.8);
  hw_draw_mark (d->cr, at, NULL, half, (spoken_of ? 7 : 5) * d->px, 0);
  set_colour (d->cr, colour, 1);
  hw_draw_mark (d->cr, at, NULL, half, (spoken_of ? 3.5 : 2.2) * d->px, 0);
  /* The letter towards the hoop's middle side that has room. */
  HwPoint beside = { at.x + (at.x > 0 ? -out : out), at.y + (at.y > 0 ? -out : out) };
  draw_letter (d, beside, d->work->pin->marks[mark].letter, letter_size * d->px * (spoken_of ? 1.25 : 1),
               d->step == HW_WORK_READ && read && !spoken_of ? woad : colour);
}

static void
draw_marks (const Drawing *d, const char *spoken_of, double letter_size)
{
  gboolean centre = d->step == HW_WORK_CENTRE || d->step == HW_WORK_MARK || d->step == HW_WORK_STICK;

  if (d->step >= HW_WORK_TEMPLATE_OFF && d->step <= HW_WORK_STITCH)
    return;
  cairo_set_source_rgba (d->cr, 1, 1, 1, 0.7);
  hw_draw_cross_mark (d->cr, (centre ? 46 : 24) * d->px, (centre ? 6 : 4) * d->px);
  set_colour (d->cr, d->step == HW_WORK_CENTRE ? madder : ink, 1);
  hw_draw_cross_mark (d->cr, (centre ? 46 : 24) * d->px, (centre ? 3 : 1.6) * d->px);
  if (d->step == HW_WORK_HOOP || d->step == HW_WORK_CENTRE)
    return;
  for (guint m = 0; m < d->work->pin->n_marks; m++)
    {
      gboolean this = d->step == HW_WORK_MARK || g_strcmp0 (spoken_of, d->work->pin->marks[m].letter) == 0;
      if (!this || d->step == HW_WORK_MARK)
        draw_mark (d, m, d->step == HW_WORK_MARK, letter_size);
    }
  for (guint m = 0; d->step == HW_WORK_READ && m < d->work->pin->n_marks; m++)
    if (g_strcmp0 (spoken_of, d->work->pin->marks[m].letter) == 0)
      draw_mark (d, m, TRUE, letter_size);
}

/* Before the cloth is on, the hoop holds bare stabiliser. */
static void
draw_stabiliser (const Drawing *d)
{
  double w = d->hoop->field_width / 2, h = d->hoop->field_height / 2;

  cairo_rectangle (d->cr, -w, -h, 2 * w, 2 * h);
  cairo_set_source_rgb (d->cr, 0.965, 0.96, 0.945);
  cairo_fill_preserve (d->cr);
  hw_dye_hatch_path (d->cr, HW_HATCH_CROSS_45, (HwColour){ 0.6, 0.58, 0.54 }, 0.28, 9 * d->px, d->px);
}

static void
draw_sides (cairo_t *cr, double width, double height, double frame_height, double size, gboolean dark)
{
  HwLettering how = { .size = size, .align = HW_LETTER_CENTRE };
  double middle = height / 2, gap = size * 0.35;

  set_colour (cr, dark ? (HwColour){ 0.93, 0.92, 0.9 } : ink, 0.85);
  hw_letter (cr, width / 2, middle - frame_height / 2 - gap - size * 1.25, &how,
             _ ("top of the hoop, away from you"));
  hw_letter (cr, width / 2, middle + frame_height / 2 + gap, &how, _ ("towards you"));
}

void
hw_machine_draw (cairo_t *cr,
                 const HwMachineWork *work,
                 const char *mark,
                 double width,
                 double height,
                 double letter_size,
                 int device_scale,
                 gboolean dark)
{
  double w, h, words = letter_size * 1.9;

  g_return_if_fail (cr != NULL && work != NULL);

  Drawing d = { .cr = cr,
                .work = work,
                .hooping = hw_machine_work_hooping (work),
                .hoop = hw_machine_work_hoop (work),
                .step = work->pin->work->step,
                .device_scale = device_scale };
  frame_size (d.hoop, &w, &h);
  d.scale = MIN ((width - 8) / (2 * w), (height - 2 * words) / (2 * h));
  if (!(d.scale > 0.02))
    return;
  d.px = 1 / d.scale;

  cairo_save (cr);
  cairo_translate (cr, width / 2, height / 2);
  cairo_scale (cr, d.scale, d.scale);
  cairo_save (cr);
  path_rounded (cr, w, h, ROUND);
  cairo_clip (cr);
  if (d.step == HW_WORK_HOOP)
    draw_stabiliser (&d);
  else
    {
      draw_cloth (&d);
      draw_stitched_before (&d);
      draw_motifs (&d);
    }
  cairo_restore (cr);
  if (d.step != HW_WORK_MARK)
    draw_ring (&d, dark);
  else
    {
      path_rounded (cr, w, h, ROUND);
      set_colour (cr, ink, 0.4);
      cairo_set_line_width (cr, 1.2 * d.px);
      cairo_stroke (cr);
    }
  draw_marks (&d, mark, letter_size);
  cairo_restore (cr);
  draw_sides (cr, width, height, 2 * h * d.scale, letter_size, dark);
}

static gboolean
is_stitched (const HwPlan *plan, guint motif)
{
  int hooping = hw_plan_hooping_of (plan, motif);

  return hooping >= 0 && plan->hoopings[hooping].hold == HW_PLACE_FROZEN;
}

static void
paint_on_cloth (cairo_t *cr, const HwMotif *motif, double pixels, double alpha)
{
  HwThreadPicture picture = { 0 };

  if (!hw_thread_picture_paint (&picture, motif, pixels, 1))
    return;
  cairo_save (cr);
  cairo_translate (cr, motif->placement.position.x, motif->placement.position.y);
  cairo_scale (cr, 1 / pixels, 1 / pixels);
  cairo_set_source_surface (cr, picture.surface, picture.x, picture.y);
  cairo_paint_with_alpha (cr, alpha);
  cairo_restore (cr);
  hw_thread_picture_clear (&picture);
}

void
hw_machine_draw_whole (
    cairo_t *cr, const HwPlan *plan, int next, double width, double height, int device_scale)
{
  g_return_if_fail (cr != NULL && plan != NULL);

  const HwSnapshot *snapshot = plan->snapshot;
  double scale = MIN ((width - 8) / snapshot->fabric.width, (height - 8) / snapshot->fabric.height);

  if (!(scale > 0.02))
    return;
  cairo_save (cr);
  cairo_translate (cr, (width - scale * snapshot->fabric.width) / 2,
                   (height - scale * snapshot->fabric.height) / 2);
  cairo_scale (cr, scale, scale);
  hw_draw_cloth (cr, &snapshot->fabric, 1 / scale);
  if (snapshot->edge_line != NULL)
    hw_draw_edge_line (cr, snapshot->edge_line, &snapshot->fabric, 1 / scale);
  for (guint m = 0; m < snapshot->motifs->len; m++)
    paint_on_cloth (cr, hw_snapshot_motif (snapshot, m), scale * device_scale,
                    is_stitched (plan, m) ? 1 : TO_COME * 0.7);
  if (next >= 0 && next < (int)plan->n_hoopings)
    {
      const HwHooping *h = &plan->hoopings[next];

      hw_draw_footprint (cr, hw_snapshot_hoop (snapshot, h->hoop), h->centre, h->angle, (guint)next + 1,
                         HW_FOOTPRINT_FULL, 1 / scale);
    }
  cairo_restore (cr);
}

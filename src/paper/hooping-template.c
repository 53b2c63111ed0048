/* The template of a whole hooping, in hoop axes at true size: laid on the hooped cloth, its axis lines on the marks of the ring, it shows
 * where each motif will come to lie; laid on the cloth before, every mark is pricked through it at once. What earlier hoopings have stitched
 * is hatched, so that the paper can be shifted until it lies on the thread. */
#include "hooping-template.h"

#include <math.h>

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "page-frame.h"
#include "plate.h"
#include "steps.h"

#define MOTIF_ARM 8.0
#define MOTIF_WEIGHT 0.6
#define CENTRE_ARM 15.0
#define CENTRE_WEIGHT 1.2
#define TARGET 2.4 /* radius of a mark's ring */
#define REACH 34.0 /* how far a sign and its words reach around its place at most */
#define HATCH 3.0  /* mm from line to line over what is stitched */
#define SAME 0.5   /* mm: a motif's cross nearer than this to the hoop's is the same */

HwPoint
hw_hooping_template_point (const HwHoopingTemplate *template, HwPoint p)
{
  HwPoint at = hw_point_in_hoop (&template->job->plan->hoopings[template->hooping], p);

  if (template->job->options.mirrored)
    at.x = -at.x;
  return at;
}

static HwPoint
point_in_hoop (HwPoint p, gconstpointer template)
{
  return hw_hooping_template_point (template, p);
}

static HwBox
field_box (const HwHoop *hoop)
{
  return (HwBox){ -hoop->field_width / 2, -hoop->field_height / 2, hoop->field_width / 2,
                  hoop->field_height / 2 };
}

HwBox
hw_hooping_template_extent (const HwHoopingTemplate *template)
{
  HwBox box = field_box (template->hoop);

  return (HwBox){ box.x0 - HW_TEMPLATE_BEYOND - 1, box.y0 - HW_TEMPLATE_TOP - 1,
                  box.x1 + HW_TEMPLATE_BEYOND + 1, box.y1 + HW_TEMPLATE_BEYOND + 1 };
}

static void
take_stitched (HwHoopingTemplate *template)
{
  const HwPlan *plan = template->job->plan;
  HwBox field = field_box (template->hoop);

  for (guint k = 0; k < template->hooping; k++)
    for (guint i = 0; i < plan->hoopings[k].n_motifs; i++)
      {
        const HwMotif *motif = hw_snapshot_motif (plan->snapshot, plan->hoopings[k].motifs[i]);
        g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);
        g_autoptr (HwOutline) seen = hw_outline_move_points (placed, point_in_hoop, template);

        if (hw_box_overlaps (seen->box, field))
          g_ptr_array_add (template->stitched, g_steal_pointer (&seen));
      }
}

HwHoopingTemplate *
hw_hooping_template_new (const HwPrintJob *job, guint hooping, double pixels_per_mm)
{
  const HwPlan *plan = job->plan;
  const HwHooping *h = &plan->hoopings[hooping];
  HwHoopingTemplate *template = g_new0 (HwHoopingTemplate, 1);
  double side = job->options.mirrored ? -1 : 1;

  template->job = job;
  template->hooping = hooping;
  template->hoop = hw_snapshot_hoop (plan->snapshot, h->hoop);
  template->n_motifs = h->n_motifs;
  template->motifs = g_new0 (HwHoopedMotif, h->n_motifs);
  for (guint i = 0; i < h->n_motifs; i++)
    {
      HwMotifInHoop place = hw_motif_in_hoop (plan, hooping, h->motifs[i]);

      template->motifs[i].motif = hw_template_motif_new (job, h->motifs[i], pixels_per_mm);
      template->motifs[i].at = (HwPoint){ side * place.shift.x, place.shift.y };
      template->motifs[i].turn = side *place.turn;
    }
  template->stitched = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
  take_stitched (template);
  if (plan->snapshot->edge_line != NULL && plan->snapshot->edge_line->outline != NULL)
    template->edge_line
        = hw_outline_move_points (plan->snapshot->edge_line->outline, point_in_hoop, template);

  return template;
}

void
hw_hooping_template_free (HwHoopingTemplate *template)
{
  for (guint i = 0; i < template->n_motifs; i++)
    hw_template_motif_free (template->motifs[i].motif);
  g_free (template->motifs);
  g_ptr_array_unref (template->stitched);
  g_clear_pointer (&template->edge_line, hw_outline_unref);
  g_free (template);
}

static void
path_cloth (cairo_t *cr, const HwHoopingTemplate *template)
{
  const HwFabric *fabric = &template->job->plan->snapshot->fabric;
  HwPoint corners[4]
      = { { 0, 0 }, { fabric->width, 0 }, { fabric->width, fabric->height }, { 0, fabric->height } };

  for (guint k = 0; k < 4; k++)
    {
      HwPoint p = hw_hooping_template_point (template, corners[k]);

      cairo_line_to (cr, p.x, p.y);
    }
  cairo_close_path (cr);
}

/* What lies around, within the field: earlier stitching, the edge line, the cloth's own edge. */
static void
draw_surroundings (cairo_t *cr, const HwHoopingTemplate *template, HwBox window)
{
  static const double dots[] = { 0.6, 1.0 }, dashes[] = { 6, 2 };
  HwBox field = field_box (template->hoop);

  cairo_save (cr);
  cairo_rectangle (cr, field.x0, field.y0, field.x1 - field.x0, field.y1 - field.y0);
  cairo_clip (cr);
  for (guint i = 0; i < template->stitched->len; i++)
    {
      const HwOutline *outline = g_ptr_array_index (template->stitched, i);

      if (!hw_box_overlaps (outline->box, window))
        continue;
      hw_path_outline (cr, outline);
      cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
      hw_dye_hatch_path (cr, HW_HATCH_45, (HwColour){ 0.45, 0.43, 0.40 }, 0.7, HATCH, 0.12);
      hw_path_outline (cr, outline);
      hw_ink_pale (cr);
      cairo_set_line_width (cr, 0.25);
      cairo_set_dash (cr, dots, G_N_ELEMENTS (dots), 0);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
    }
  if (template->edge_line != NULL)
    {
      hw_path_outline (cr, template->edge_line);
      hw_ink (cr);
      cairo_set_line_width (cr, 0.3);
      cairo_stroke (cr);
    }
  path_cloth (cr, template);
  hw_ink_pale (cr);
  cairo_set_line_width (cr, 0.25);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static gboolean
shows (const HwHoopedMotif *hooped, HwBox window)
{
  HwPlacement lies = { hooped->at, hooped->turn, 1, FALSE };
  g_autoptr (HwOutline) placed = hw_outline_place (hooped->motif->shape, &lies);

  return hw_box_overlaps (placed->box, window);
}

static void
draw_bodies (cairo_t *cr, const HwHoopingTemplate *template, HwBox window)
{
  for (guint i = 0; i < template->n_motifs; i++)
    {
      const HwHoopedMotif *hooped = &template->motifs[i];

      if (!shows (hooped, window))
        continue;
      cairo_save (cr);
      cairo_translate (cr, hooped->at.x, hooped->at.y);
      cairo_rotate (cr, hooped->turn * G_PI / 180);
      hw_template_motif_draw_body (cr, hooped->motif, FALSE);
      cairo_restore (cr);
    }
}

static void
draw_motif_signs (cairo_t *cr, const HwHoopedMotif *hooped)
{
  HwPoint beside = hw_point_turn ((HwPoint){ 6.6, 6.6 }, hooped->turn);

  cairo_save (cr);
  cairo_translate (cr, hooped->at.x, hooped->at.y);
  if (hypot (hooped->at.x, hooped->at.y) > SAME || fabs (hooped->turn) > 0.05)
    {
      cairo_rotate (cr, hooped->turn * G_PI / 180);
      hw_draw_template_cross (cr, MOTIF_ARM, MOTIF_WEIGHT);
      cairo_rotate (cr, -hooped->turn * G_PI / 180);
    }
  hw_draw_ring_number (cr, beside.x, beside.y, 3.4, 4.0, hooped->motif->number);
  hw_draw_plate (cr, beside.x + 4.4, beside.y - 1.8, 0, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT,
                 hooped->motif->motif->name);
  cairo_restore (cr);
}

/* A target whose very middle is left open for the point that pricks through. */
static void
draw_target (cairo_t *cr, HwPoint at, const char *letter)
{
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_new_path (cr);
  cairo_arc (cr, 0, 0, TARGET + 0.5, 0, 2 * G_PI);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.8);
  cairo_fill (cr);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.35);
  cairo_arc (cr, 0, 0, TARGET, 0, 2 * G_PI);
  cairo_stroke (cr);
  cairo_set_line_width (cr, 0.2);
  for (guint k = 0; k < 4; k++)
    {
      cairo_move_to (cr, 0.45, 0);
      cairo_line_to (cr, TARGET + 2.6, 0);
      cairo_rotate (cr, G_PI / 2);
    }
  cairo_stroke (cr);
  hw_draw_plate (cr, TARGET + 0.4, -TARGET - 4.4, 0, 4.4, TRUE, HW_LETTER_LEFT, letter);
  cairo_restore (cr);
}

static void
draw_centre (cairo_t *cr)
{
  cairo_new_path (cr);
  cairo_arc (cr, 0, 0, 4.4, 0, 2 * G_PI);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.25);
  cairo_stroke (cr);
  hw_draw_template_cross (cr, CENTRE_ARM, CENTRE_WEIGHT);
}

static HwBox
around (HwPoint p, double far)
{
  return (HwBox){ p.x - far, p.y - far, p.x + far, p.y + far };
}

void
hw_hooping_template_draw (cairo_t *cr, const HwHoopingTemplate *template, HwBox window)
{
  const HwHooping *h = &template->job->plan->hoopings[template->hooping];
  HwBox field = field_box (template->hoop);

  draw_surroundings (cr, template, window);
  draw_bodies (cr, template, window);

  cairo_rectangle (cr, field.x0, field.y0, field.x1 - field.x0, field.y1 - field.y0);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.5);
  cairo_stroke (cr);
  hw_draw_template_axes (cr, field);
  hw_ink_pale (cr);
  hw_line (cr, field.x1, field.y1 + 0.5, 0, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, _ ("edge of the field"));

  draw_centre (cr);
  for (guint i = 0; i < template->n_motifs; i++)
    if (hw_box_overlaps (around (template->motifs[i].at, REACH), window))
      draw_motif_signs (cr, &template->motifs[i]);
  for (guint m = 0; m < h->n_marks; m++)
    {
      HwPoint at = hw_hooping_template_point (template, h->marks[m].at);

      if (hw_box_overlaps (around (at, REACH), window))
        draw_target (cr, at, h->marks[m].letter);
    }
}

void
hw_hooping_template_sketch (cairo_t *cr, double hairline, gpointer user_data)
{
  const HwHoopingTemplate *template = user_data;
  HwBox field = field_box (template->hoop);

  hw_ink_pale (cr);
  cairo_set_line_width (cr, hairline);
  cairo_rectangle (cr, field.x0, field.y0, field.x1 - field.x0, field.y1 - field.y0);
  for (guint i = 0; i < template->n_motifs; i++)
    {
      const HwHoopedMotif *hooped = &template->motifs[i];
      HwPlacement lies = { hooped->at, hooped->turn, 1, FALSE };
      g_autoptr (HwOutline) placed = hw_outline_place (hooped->motif->shape, &lies);

      hw_path_outline (cr, placed);
    }
  cairo_stroke (cr);
}

/* The two pictures of the bench sheet: the scene with its hoopings, and one hoop as it stands on the
 * machine, its top away from the person, whatever way it lies on the cloth. */
#include "hoop-picture.h"

#include <math.h>

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "page-frame.h"
#include "steps.h"
#include "artwork-ahead.h"

#define PRINT_PIXELS 7.0     /* of a picture, for each mm of paper: about 180 to the inch */
#define CLOTH_TINT 0.55      /* how far the cloth's colour is thinned */
#define PIXELS_AT_MOST 3.0e6 /* of all hoops together, and of the whole scene */
#define FRAME_ROUND 5.0
#define DISC 2.3

static double
fineness (double scale, double area)
{
  return MIN (PRINT_PIXELS * scale, sqrt (PIXELS_AT_MOST / MAX (area, 1)));
}

static double
motif_area (const HwPlan *plan, const guint *motifs, guint n)
{
  double area = 0;

  for (guint i = 0; i < n; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (plan->snapshot, motifs != NULL ? motifs[i] : i);
      HwBox box = motif->outline->box;
      double scale = motif->placement.scale;

      area += (box.x1 - box.x0) * (box.y1 - box.y0) * scale * scale;
    }

  return area;
}

/* Everything here is in hoop axes, mm; hair is a hairline of the page in it. */
static void
path_frame (cairo_t *cr, const HwHoop *hoop)
{
  double w = MAX (hoop->frame_width, hoop->field_width) / 2;
  double h = MAX (hoop->frame_height, hoop->field_height) / 2;
  double r = MIN (FRAME_ROUND * 3, MIN (w, h) / 2);

  cairo_new_sub_path (cr);
  cairo_arc (cr, w - r, -h + r, r, -G_PI / 2, 0);
  cairo_arc (cr, w - r, h - r, r, 0, G_PI / 2);
  cairo_arc (cr, -w + r, h - r, r, G_PI / 2, G_PI);
  cairo_arc (cr, -w + r, -h + r, r, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
}

static void
draw_ring (cairo_t *cr, const HwHoop *hoop, double hair)
{
  double w = hoop->field_width / 2, h = hoop->field_height / 2;
  double across = (MAX (hoop->frame_width, hoop->field_width) / 2 + w) / 2;
  double along = (MAX (hoop->frame_height, hoop->field_height) / 2 + h) / 2;

  path_frame (cr, hoop);
  hw_ink (cr);
  cairo_set_line_width (cr, 1.6 * hair);
  cairo_stroke (cr);

  cairo_rectangle (cr, -w, -h, 2 * w, 2 * h);
  cairo_set_line_width (cr, hair);
  cairo_stroke (cr);

  /* The marks at the middle of the ring's sides. */
  cairo_set_line_width (cr, 2 * hair);
  cairo_move_to (cr, -across, 0);
  cairo_line_to (cr, -w, 0);
  cairo_move_to (cr, w, 0);
  cairo_line_to (cr, across, 0);
  cairo_move_to (cr, 0, -along);
  cairo_line_to (cr, 0, -h);
  cairo_move_to (cr, 0, h);
  cairo_line_to (cr, 0, along);
  cairo_stroke (cr);
}

static HwOutline *
outline_in_hoop (const HwPlan *plan, guint hooping, guint motif)
{
  const HwMotif *record = hw_snapshot_motif (plan->snapshot, motif);
  HwMotifInHoop place = hw_motif_in_hoop (plan, hooping, motif);
  HwPlacement placement = record->placement;

  placement.position = place.shift;
  placement.angle = place.turn;
  return hw_outline_place (record->outline, &placement);
}

/* What earlier hoopings have stitched, and the edge line and cloth's edge where they pass: what she sees
 * around. */
static void
draw_surroundings (cairo_t *cr, const HwPlan *plan, guint hooping, double hair)
{
  const HwHooping *h = &plan->hoopings[hooping];
  const HwSnapshot *snapshot = plan->snapshot;
  const HwHoop *hoop = hw_snapshot_hoop (snapshot, h->hoop);
  double across = MAX (hoop->frame_width, hoop->field_width) / 2;
  double along = MAX (hoop->frame_height, hoop->field_height) / 2;
  HwBox frame = { -across, -along, across, along };
  double dashes[] = { 6 * hair, 4 * hair };

  hw_ink_grid (cr);
  cairo_set_line_width (cr, hair);
  for (guint k = 0; k < hooping; k++)
    for (guint i = 0; i < plan->hoopings[k].n_motifs; i++)
      {
        g_autoptr (HwOutline) outline = outline_in_hoop (plan, hooping, plan->hoopings[k].motifs[i]);

        if (!hw_box_overlaps (outline->box, frame))
          continue;

        hw_path_outline (cr, outline);
        cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
        hw_dye_hatch_path (cr, HW_HATCH_45, (HwColour){ 0.6, 0.58, 0.55 }, 0.6, 9 * hair, hair);
        hw_path_outline (cr, outline);
        hw_ink_grid (cr);
        cairo_stroke (cr);
      }

  cairo_save (cr);
  cairo_rotate (cr, -h->angle * G_PI / 180);
  cairo_translate (cr, -h->centre.x, -h->centre.y);
  hw_ink_pale (cr);
  if (snapshot->edge_line != NULL)
    {
      hw_path_outline (cr, snapshot->edge_line->outline);
      cairo_set_line_width (cr, 1.2 * hair);
      cairo_stroke (cr);
    }
  cairo_rectangle (cr, 0, 0, snapshot->fabric.width, snapshot->fabric.height);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* The artwork of one of a hooping's motifs, drawn so many times smaller. */
static HwArtworkWish
wish_of (const HwPlan *plan, guint hooping, guint i, double scale)
{
  const HwHooping *h = &plan->hoopings[hooping];

  return (HwArtworkWish){ hw_snapshot_motif (plan->snapshot, h->motifs[i]),
                          hw_motif_in_hoop (plan, hooping, h->motifs[i]).turn, 0.45, HW_ARTWORK_CUT,
                          fineness (scale, motif_area (plan, h->motifs, h->n_motifs) * plan->n_hoopings) };
}

/* The next hooping's page probably shows it in the same size. */
static void
foresee (const HwPlan *plan, guint hooping, double scale)
{
  for (guint k = hooping; k < MIN (hooping + 2, plan->n_hoopings); k++)
    for (guint i = 0; i < plan->hoopings[k].n_motifs; i++)
      {
        HwArtworkWish wish = wish_of (plan, k, i, scale);

        hw_artwork_foresee (&wish);
      }
}

static void
draw_motifs (cairo_t *cr, const HwPlan *plan, guint hooping, double scale)
{
  const HwHooping *h = &plan->hoopings[hooping];
  double hair = HW_HAIRLINE / scale;

  foresee (plan, hooping, scale);
  for (guint i = 0; i < h->n_motifs; i++)
    {
      HwMotifInHoop place = hw_motif_in_hoop (plan, hooping, h->motifs[i]);
      g_autoptr (HwOutline) outline = outline_in_hoop (plan, hooping, h->motifs[i]);
      HwArtworkWish wish = wish_of (plan, hooping, i, scale);

      cairo_save (cr);
      cairo_translate (cr, place.shift.x, place.shift.y);
      hw_draw_artwork (cr, &wish);
      cairo_restore (cr);
      hw_path_outline (cr, outline);
      hw_ink (cr);
      cairo_set_line_width (cr, 1.3 * hair);
      cairo_stroke (cr);
    }
  for (guint i = 0; i < h->n_motifs; i++)
    {
      HwMotifInHoop place = hw_motif_in_hoop (plan, hooping, h->motifs[i]);

      cairo_save (cr);
      cairo_translate (cr, place.shift.x, place.shift.y);
      cairo_rotate (cr, place.turn * G_PI / 180);
      hw_ink (cr);
      hw_draw_cross_mark (cr, 3.2 / scale, 0.3 / scale);
      cairo_rotate (cr, -place.turn * G_PI / 180);
      hw_draw_ring_number (cr, 2.7 / scale, 2.7 / scale, 2.0 / scale, 2.8 / scale,
                           hw_order_number (h->motifs[i]));
      cairo_restore (cr);
    }
}

static void
draw_marks (cairo_t *cr, const HwHooping *h, double scale)
{
  hw_ink (cr);
  hw_draw_cross_mark (cr, 6.5 / scale, 0.15 / scale);
  for (guint m = 0; m < h->n_marks; m++)
    {
      hw_ink (cr);
      hw_draw_mark (cr, hw_point_in_hoop (h, h->marks[m].at), h->marks[m].letter, 2.2 / scale, 0.3 / scale,
                    HW_TYPE_SMALL / scale);
    }
}

void
hw_draw_hoop_picture (cairo_t *cr, const HwPlan *plan, guint hooping, HwBox box)
{
  const HwHooping *h = &plan->hoopings[hooping];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, h->hoop);
  double words = HW_TYPE_SMALL * 1.25 + 0.8;
  double width = box.x1 - box.x0, height = box.y1 - box.y0 - 2 * words;
  double frame_width = MAX (hoop->frame_width, hoop->field_width);
  double frame_height = MAX (hoop->frame_height, hoop->field_height);
  double scale = MIN (width / frame_width, height / frame_height);
  double middle = (box.x0 + box.x1) / 2, centre_y = (box.y0 + box.y1) / 2;

  cairo_save (cr);
  cairo_translate (cr, middle, centre_y);
  cairo_scale (cr, scale, scale);
  cairo_save (cr);
  path_frame (cr, hoop);
  cairo_clip (cr);
  draw_surroundings (cr, plan, hooping, HW_HAIRLINE / scale);
  draw_motifs (cr, plan, hooping, scale);
  cairo_restore (cr);
  draw_ring (cr, hoop, HW_HAIRLINE / scale);
  draw_marks (cr, h, scale);
  cairo_restore (cr);

  hw_ink_pale (cr);
  hw_line (cr, middle, centre_y - frame_height * scale / 2 - words, width, HW_TYPE_SMALL, FALSE,
           HW_LETTER_CENTRE, _ ("top of the hoop, away from you"));
  hw_line (cr, middle, centre_y + frame_height * scale / 2 + 0.8, width, HW_TYPE_SMALL, FALSE,
           HW_LETTER_CENTRE, _ ("towards you"));
}

/* The cloth and any footprint that reaches past it. */
static HwBox
picture_extent (const HwPlan *plan)
{
  const HwFabric *fabric = &plan->snapshot->fabric;
  HwBox extent = { 0, 0, fabric->width, fabric->height };

  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      const HwHooping *h = &plan->hoopings[i];
      const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, h->hoop);
      double w = MAX (hoop->frame_width, hoop->field_width) / 2;
      double l = MAX (hoop->frame_height, hoop->field_height) / 2;
      HwPoint corners[4] = { { -w, -l }, { w, -l }, { w, l }, { -w, l } };

      for (guint k = 0; k < 4; k++)
        {
          HwPoint p = hw_point_turn (corners[k], h->angle);

          corners[k] = (HwPoint){ p.x + h->centre.x, p.y + h->centre.y };
        }
      extent = hw_box_union (extent, hw_box_of_points (corners, 4));
    }

  return extent;
}

void
hw_plan_picture_size (
    const HwPlan *plan, double width, double height, double *used_width, double *used_height)
{
  HwBox extent = picture_extent (plan);
  double scale = MIN (width / (extent.x1 - extent.x0), height / (extent.y1 - extent.y0));

  *used_width = scale * (extent.x1 - extent.x0);
  *used_height = scale * (extent.y1 - extent.y0);
}

/* Once more over everything: a later footprint may cover an earlier one's number. */
static void
draw_hooping_disc (cairo_t *cr, const HwPlan *plan, guint index, double scale)
{
  const HwHooping *h = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, h->hoop);
  HwPoint top = hw_point_turn ((HwPoint){ 0, -hoop->field_height / 2 }, h->angle);
  HwColour colour = hw_dye (index)->colour;
  HwLettering how = { .size = 2.8 / scale, .bold = TRUE, .align = HW_LETTER_CENTRE };
  g_autofree char *text = g_strdup_printf ("%u", index + 1);
  double x = h->centre.x + top.x, y = h->centre.y + top.y, height = 0;

  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, DISC / scale, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, colour.red, colour.green, colour.blue);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, 0.3 / scale);
  cairo_stroke (cr);
  hw_letter_measure (cr, &how, text, NULL, &height);
  hw_letter (cr, x, y - height / 2, &how, text);
}

static HwArtworkWish
wish_on_cloth (const HwSnapshot *snapshot, guint motif, double pixels)
{
  const HwMotif *record = hw_snapshot_motif (snapshot, motif);

  return (HwArtworkWish){ record, record->placement.angle, 0.4, HW_ARTWORK_SOFT, pixels };
}

void
hw_draw_plan_picture (cairo_t *cr, const HwPlan *plan, HwBox box)
{
  const HwSnapshot *snapshot = plan->snapshot;
  HwBox extent = picture_extent (plan);
  double scale
      = MIN ((box.x1 - box.x0) / (extent.x1 - extent.x0), (box.y1 - box.y0) / (extent.y1 - extent.y0));
  double pixels = fineness (scale, motif_area (plan, NULL, snapshot->motifs->len));
  HwFabric cloth = snapshot->fabric;

  cloth.colour = hw_colour_mix (cloth.colour, (HwColour){ 1, 1, 1 }, CLOTH_TINT);
  cloth.unknown = NULL;

  cairo_save (cr);
  cairo_translate (cr, (box.x0 + box.x1) / 2 - scale * (extent.x0 + extent.x1) / 2,
                   (box.y0 + box.y1) / 2 - scale * (extent.y0 + extent.y1) / 2);
  cairo_scale (cr, scale, scale);
  hw_draw_cloth (cr, &cloth, 0.2 / scale);
  if (snapshot->edge_line != NULL)
    hw_draw_edge_line (cr, snapshot->edge_line, &cloth, 0.2 / scale);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      HwArtworkWish wish = wish_on_cloth (snapshot, i, pixels);

      hw_artwork_foresee (&wish);
    }
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);
      HwArtworkWish wish = wish_on_cloth (snapshot, i, pixels);

      cairo_save (cr);
      cairo_translate (cr, motif->placement.position.x, motif->placement.position.y);
      hw_draw_artwork (cr, &wish);
      cairo_restore (cr);
    }
  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      const HwHooping *h = &plan->hoopings[i];

      hw_draw_footprint (cr, hw_snapshot_hoop (snapshot, h->hoop), h->centre, h->angle, i + 1,
                         HW_FOOTPRINT_FULL, 0.2 / scale);
    }
  for (guint i = 0; i < plan->n_hoopings; i++)
    draw_hooping_disc (cr, plan, i, scale);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      HwPoint at = hw_snapshot_motif (snapshot, i)->placement.position;

      hw_draw_ring_number (cr, at.x, at.y, 2.0 / scale, 2.6 / scale, hw_order_number (i));
    }
  cairo_restore (cr);
}

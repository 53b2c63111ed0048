/* A motif on a template. Translucent paper with it is laid on the cloth and shifted until the axis lines lie on those drawn there; then the
 * needle is brought to the cross mark, which is therefore the boldest thing on the page. Bold arms would hide the point they mark: the
 * middle is left to fine lines. For the back of the cloth the motif is mirrored, never its words. */
#include "template-motif.h"

#include "artwork-ahead.h"

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "page-frame.h"
#include "template-stitches.h"

#define PALENESS 0.62
#define OUTLINE 0.35
#define MOST_ARM 14.0
#define LEAST_ARM 4.0
#define ROOM_FOR_NUMBER 34.0 /* a motif narrower than this has its number in the head alone */

HwTemplateMotif *
hw_template_motif_new (const HwPrintJob *job, guint index, double pixels_per_mm)
{
  const HwMotif *motif = hw_snapshot_motif (job->plan->snapshot, index);
  HwTemplateMotif *shown = g_new0 (HwTemplateMotif, 1);
  HwPlacement unturned;

  shown->number = hw_order_number (index);
  shown->look = job->options.look;
  shown->pixels_per_mm = pixels_per_mm;
  if (job->options.mirrored)
    {
      shown->motif = hw_motif_copy (motif);
      shown->motif->placement.mirrored = !motif->placement.mirrored;
    }
  else
    shown->motif = hw_motif_ref (motif);
  unturned = (HwPlacement){ .scale = motif->placement.scale, .mirrored = shown->motif->placement.mirrored };
  shown->shape = hw_outline_place (motif->outline, &unturned);

  return shown;
}

void
hw_template_motif_free (HwTemplateMotif *motif)
{
  hw_template_motif_forget (motif);
  hw_outline_unref (motif->shape);
  hw_motif_unref (motif->motif);
  g_free (motif);
}

void
hw_template_motif_forget (HwTemplateMotif *motif)
{
  hw_artwork_clear (&motif->artwork);
  motif->painted = FALSE;
}

HwOutline *
hw_outline_move_points (const HwOutline *outline, HwPointMove move, gconstpointer user_data)
{
  g_autofree HwRing *rings = g_new0 (HwRing, outline->n_rings);
  HwOutline *moved;

  for (guint r = 0; r < outline->n_rings; r++)
    {
      rings[r].n_points = outline->rings[r].n_points;
      rings[r].points = g_new (HwPoint, rings[r].n_points);
      for (guint i = 0; i < rings[r].n_points; i++)
        rings[r].points[i] = move (outline->rings[r].points[i], user_data);
    }
  moved = hw_outline_new (rings, outline->n_rings);
  for (guint r = 0; r < outline->n_rings; r++)
    g_free (rings[r].points);

  return moved;
}

double
hw_template_fineness (const HwPrintJob *job)
{
  const GPtrArray *motifs = job->plan->snapshot->motifs;

  return hw_artwork_fineness ((const HwMotif *const *)motifs->pdata, motifs->len);
}

static double
small_side (const HwTemplateMotif *motif)
{
  HwBox box = motif->shape->box;

  return MIN (box.x1 - box.x0, box.y1 - box.y0);
}

static double
cross_arm (const HwTemplateMotif *motif)
{
  return CLAMP (small_side (motif) * 0.32, LEAST_ARM, MOST_ARM);
}

/* What the axis lines run across: the outline, and the cross mark where that lies outside it. */
static HwBox
axes_box (const HwTemplateMotif *motif)
{
  double arm = cross_arm (motif);

  return hw_box_union (motif->shape->box, (HwBox){ -arm, -arm, arm, arm });
}

HwBox
hw_template_motif_extent (const HwTemplateMotif *motif)
{
  HwBox box = axes_box (motif);

  return (HwBox){ box.x0 - HW_TEMPLATE_BEYOND - 0.5, box.y0 - HW_TEMPLATE_TOP - 0.5,
                  box.x1 + HW_TEMPLATE_BEYOND + 0.5, box.y1 + HW_TEMPLATE_BEYOND + 0.5 };
}

/* A straight bar from one distance from the middle to another, four times round. */
static void
path_arms (cairo_t *cr, double from, double to, double top)
{
  cairo_move_to (cr, -to, 0);
  cairo_line_to (cr, -from, 0);
  cairo_move_to (cr, from, 0);
  cairo_line_to (cr, to, 0);
  cairo_move_to (cr, 0, to);
  cairo_line_to (cr, 0, from);
  cairo_move_to (cr, 0, -from);
  cairo_line_to (cr, 0, -top);
}

static void
path_arrow (cairo_t *cr, double tip, double width, double length)
{
  cairo_move_to (cr, 0, tip);
  cairo_line_to (cr, width / 2, tip + length);
  cairo_line_to (cr, 0, tip + length * 0.78);
  cairo_line_to (cr, -width / 2, tip + length);
  cairo_close_path (cr);
}

void
hw_draw_template_cross (cairo_t *cr, double arm, double weight)
{
  double open = MIN (2.4, arm * 0.22), head = MAX (weight * 3.4, arm * 0.26);

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  path_arms (cr, open, arm, arm - head * 0.5);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, weight + 0.8);
  cairo_stroke (cr);

  hw_ink (cr);
  path_arms (cr, open, arm, arm - head * 0.5);
  cairo_set_line_width (cr, weight);
  cairo_stroke (cr);
  path_arms (cr, 0, open, open);
  cairo_set_line_width (cr, 0.2);
  cairo_stroke (cr);
  path_arrow (cr, -arm - head * 0.35, head * 0.85, head);
  cairo_fill (cr);
  cairo_restore (cr);
}

/* Each from the middle outwards, so that the dashes of both lines cross in a full stroke. */
static void
path_axes (cairo_t *cr, HwBox box, double from_x0, double from_y0, double from_x1, double from_y1)
{
  cairo_move_to (cr, from_x0, 0);
  cairo_line_to (cr, box.x0, 0);
  cairo_move_to (cr, from_x1, 0);
  cairo_line_to (cr, box.x1, 0);
  cairo_move_to (cr, 0, from_y0);
  cairo_line_to (cr, 0, box.y0);
  cairo_move_to (cr, 0, from_y1);
  cairo_line_to (cr, 0, box.y1);
}

void
hw_draw_template_axes (cairo_t *cr, HwBox box)
{
  static const double dashes[] = { 5, 1.2, 0.7, 1.2 };
  HwBox beyond = { box.x0 - HW_TEMPLATE_BEYOND, box.y0 - HW_TEMPLATE_TOP, box.x1 + HW_TEMPLATE_BEYOND,
                   box.y1 + HW_TEMPLATE_BEYOND };

  cairo_save (cr);
  cairo_new_path (cr);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.18);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  path_axes (cr, box, 0, 0, 0, 0);
  cairo_stroke (cr);

  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_width (cr, 0.35);
  path_axes (cr, beyond, box.x0, box.y0, box.x1, box.y1);
  cairo_stroke (cr);
  path_arrow (cr, beyond.y0 - 0.2, 2.2, 2.8);
  cairo_fill (cr);
  /* Translators: at the arrow that points to the top of a motif or a hoop, on paper */
  hw_line (cr, 1.8, beyond.y0 - 0.2, 0, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, _ ("top"));
  cairo_restore (cr);
}

static gboolean
stitches_shown (const HwTemplateMotif *motif)
{
  return motif->look == HW_TEMPLATE_STITCHES && motif->motif->needles != NULL
         && motif->motif->needles->n_stitches > 0;
}

static HwArtworkWish
wish_of (const HwTemplateMotif *motif, gboolean alone)
{
  return (HwArtworkWish){ motif->motif, 0, PALENESS, alone ? HW_ARTWORK_ALONE : HW_ARTWORK_CUT,
                          motif->pixels_per_mm };
}

static gboolean
shows_artwork (const HwTemplateMotif *motif)
{
  return motif->look != HW_TEMPLATE_OUTLINE && !stitches_shown (motif);
}

void
hw_template_motif_foresee (const HwTemplateMotif *motif)
{
  HwArtworkWish wish = wish_of (motif, TRUE);

  if (!motif->painted && shows_artwork (motif))
    hw_artwork_foresee (&wish);
}

static void
draw_artwork (cairo_t *cr, HwTemplateMotif *motif, gboolean alone)
{
  HwArtworkWish wish = wish_of (motif, alone);

  if (!motif->painted)
    hw_artwork_paint (&motif->artwork, &wish);
  motif->painted = TRUE;
  hw_artwork_draw (&motif->artwork, cr);
}

void
hw_template_motif_draw_body (cairo_t *cr, HwTemplateMotif *motif, gboolean alone)
{
  cairo_save (cr);
  cairo_new_path (cr);
  if (!alone)
    {
      hw_path_outline (cr, motif->shape);
      cairo_set_source_rgba (cr, 1, 1, 1, 0.7);
      cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
      cairo_fill (cr);
    }
  if (stitches_shown (motif))
    hw_draw_template_stitches (cr, motif->motif);
  else if (shows_artwork (motif))
    draw_artwork (cr, motif, alone);

  hw_path_outline (cr, motif->shape);
  hw_ink (cr);
  cairo_set_line_width (cr, OUTLINE);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
  cairo_restore (cr);
}

void
hw_template_motif_draw (cairo_t *cr, HwTemplateMotif *motif)
{
  double arm = cross_arm (motif);

  hw_template_motif_draw_body (cr, motif, TRUE);
  hw_draw_template_axes (cr, axes_box (motif));
  if (small_side (motif) > ROOM_FOR_NUMBER)
    hw_draw_ring_number (cr, arm * 0.62, arm * 0.62, 3.2, 3.6, motif->number);
  hw_draw_template_cross (cr, arm, arm > 9 ? 1.2 : 0.9);
}

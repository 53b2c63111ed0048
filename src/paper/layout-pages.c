/* The layout: the whole cloth at true size in tiles, with the edge line, every motif's outline and cross
 * mark, the centre of each hooping and its marks. Joined, it is laid under or over the cloth and everything
 * is pricked through. */
#include "page.h"

#include <string.h>

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "page-frame.h"
#include "template-artwork.h"
#include "tiling.h"
#include "words.h"

#define GAP 4.0
#define INDEX_WIDTH 24.0
#define PALENESS 0.68
#define FINEST 3.5 /* pixels per mm: the pictures are kept for all tiles, with what lies under them showing */
#define SIGNS 30.0 /* how far a sign and its words reach around its place at most */

typedef struct
{
  HwTiling tiling;
  GPtrArray *placed;  /* HwOutline of each motif on the cloth */
  HwArtwork *artwork; /* of each motif, pale, painted when first shown */
  gboolean *painted;
  double pixels_per_mm;
  HwFabric paper; /* the cloth's measures in paper white: lines over it are drawn dark */
} HwLayout;

static void
layout_free (gpointer data)
{
  HwLayout *layout = data;

  for (guint i = 0; i < layout->placed->len; i++)
    hw_artwork_clear (&layout->artwork[i]);
  g_free (layout->artwork);
  g_free (layout->painted);
  g_ptr_array_unref (layout->placed);
  g_free (layout);
}

static void
draw_cloth_edge (cairo_t *cr, const HwFabric *fabric)
{
  static const double dashes[] = { 6, 2 };

  hw_ink_pale (cr);
  cairo_set_line_width (cr, 0.25);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_rectangle (cr, 0, 0, fabric->width, fabric->height);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_artwork (cairo_t *cr, const HwMotif *motif, HwLayout *layout, guint index)
{
  if (!layout->painted[index])
    hw_artwork_paint (&layout->artwork[index], motif, motif->placement.angle, PALENESS, HW_ARTWORK_CUT,
                      layout->pixels_per_mm);
  layout->painted[index] = TRUE;
  cairo_save (cr);
  cairo_translate (cr, motif->placement.position.x, motif->placement.position.y);
  hw_artwork_draw (&layout->artwork[index], cr);
  cairo_restore (cr);
}

static void
draw_motif (cairo_t *cr, const HwSnapshot *snapshot, HwLayout *layout, guint index)
{
  const HwOutline *placed = g_ptr_array_index (layout->placed, index);
  const HwMotif *motif = hw_snapshot_motif (snapshot, index);
  HwPoint at = motif->placement.position;
  HwPoint beside = hw_point_turn ((HwPoint){ 7.5, 7.5 }, motif->placement.angle);

  cairo_new_path (cr);
  hw_path_outline (cr, placed);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.65);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_fill (cr);
  draw_artwork (cr, motif, layout, index);
  hw_path_outline (cr, placed);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.35);
  cairo_stroke (cr);

  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_rotate (cr, motif->placement.angle * G_PI / 180);
  hw_ink (cr);
  hw_draw_cross_mark (cr, 9, 0.6);
  cairo_restore (cr);
  hw_draw_ring_number (cr, at.x + beside.x, at.y + beside.y, 4, 4.4, hw_order_number (index));
  hw_ink_pale (cr);
  hw_line (cr, at.x, at.y + 14, MAX (20, (placed->box.x1 - placed->box.x0) * 0.8), HW_TYPE_SMALL, FALSE,
           HW_LETTER_CENTRE, motif->name);
}

/* A hooping's centre: a fine cross as long as the marks on a hoop's ring are apart from it, with its own
 * arrow and number. */
static void
draw_hooping_centre (cairo_t *cr, const HwHooping *hooping, guint number)
{
  g_autofree char *text = g_strdup_printf (_ ("hooping %u"), number);

  cairo_save (cr);
  cairo_translate (cr, hooping->centre.x, hooping->centre.y);
  cairo_rotate (cr, hooping->angle * G_PI / 180);
  hw_ink (cr);
  hw_draw_cross_mark (cr, 16, 0.25);
  cairo_arc (cr, 0, 0, 2, 0, 2 * G_PI);
  cairo_set_line_width (cr, 0.25);
  cairo_stroke (cr);
  hw_line (cr, 3.2, -15, 0, HW_TYPE_SMALL, TRUE, HW_LETTER_LEFT, text);
  cairo_restore (cr);
}

/* Marks shared by neighbouring hoopings are drawn once. */
static gboolean
drawn_before (const HwPrintJob *job, guint hooping, guint mark)
{
  const HwPlan *plan = job->plan;
  const HwMark *here = &plan->hoopings[hooping].marks[mark];

  for (guint h = 0; h <= hooping; h++)
    for (guint m = 0; m < (h == hooping ? mark : plan->hoopings[h].n_marks); m++)
      {
        const HwMark *there = &plan->hoopings[h].marks[m];

        if (hw_print_job_takes_hooping (job, h) && strcmp (here->letter, there->letter) == 0
            && hw_point_distance (here->at, there->at) < 0.05)
          return TRUE;
      }

  return FALSE;
}

static HwBox
around (HwPoint p, double mm)
{
  return (HwBox){ p.x - mm, p.y - mm, p.x + mm, p.y + mm };
}

/* Only what the window shows: a large cloth has many tiles and each would otherwise hold everything. */
static void
draw_content (const HwPrintJob *job, HwLayout *layout, HwBox window, cairo_t *cr)
{
  const HwPlan *plan = job->plan;
  const HwSnapshot *snapshot = plan->snapshot;

  draw_cloth_edge (cr, &snapshot->fabric);
  if (snapshot->edge_line != NULL)
    hw_draw_edge_line (cr, snapshot->edge_line, &layout->paper, 0.3);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwOutline *placed = g_ptr_array_index (layout->placed, i);
      HwPoint at = hw_snapshot_motif (snapshot, i)->placement.position;

      if (hw_box_overlaps (hw_box_union (placed->box, around (at, SIGNS)), window)
          && hw_print_job_takes_motif (job, i))
        draw_motif (cr, snapshot, layout, i);
    }
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      if (!hw_print_job_takes_hooping (job, h))
        continue;
      if (hw_box_overlaps (around (plan->hoopings[h].centre, SIGNS), window))
        draw_hooping_centre (cr, &plan->hoopings[h], h + 1);
      for (guint m = 0; m < plan->hoopings[h].n_marks; m++)
        if (hw_box_overlaps (around (plan->hoopings[h].marks[m].at, SIGNS), window)
            && !drawn_before (job, h, m))
          {
            const HwMark *mark = &plan->hoopings[h].marks[m];

            hw_ink (cr);
            hw_draw_mark (cr, mark->at, mark->letter, 5, 0.3, HW_TYPE_TEXT);
          }
    }
}

typedef struct
{
  const HwSnapshot *snapshot;
  const HwLayout *layout;
} HwSketch;

static void
sketch_scene (cairo_t *cr, double hairline, gpointer user_data)
{
  const HwSketch *sketch = user_data;

  hw_ink_pale (cr);
  cairo_set_line_width (cr, hairline);
  if (sketch->snapshot->edge_line != NULL)
    hw_path_outline (cr, sketch->snapshot->edge_line->outline);
  for (guint i = 0; i < sketch->layout->placed->len; i++)
    hw_path_outline (cr, g_ptr_array_index (sketch->layout->placed, i));
  cairo_stroke (cr);
}

static void
draw_layout_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  HwLayout *layout = page->data;
  const HwTiling *tiling = &layout->tiling;
  double margin = job->options.sheet_margin;
  guint column = page->part % tiling->columns, row = page->part / tiling->columns;
  HwBox window = hw_tiling_window (tiling, column, row);
  HwSketch sketch = { job->plan->snapshot, layout };
  g_autofree char *tile = hw_tile_name (column, row);
  g_autofree char *what = NULL;
  double foot = page->height - margin;

  cairo_save (cr);
  cairo_rectangle (cr, margin, margin, tiling->width, tiling->height);
  cairo_clip (cr);
  cairo_translate (cr, margin - window.x0, margin - window.y0);
  draw_content (job, layout, window, cr);
  hw_tiling_draw_joins (tiling, cr, column, row);
  cairo_restore (cr);

  what = g_strdup_printf (_ ("The whole cloth at true size, part %s of %u × %u"), tile, tiling->columns,
                          tiling->rows);
  hw_page_footer (job, page, cr, margin, margin, INDEX_WIDTH + 3, what);
  hw_tiling_draw_index (tiling, cr, column, row,
                        (HwBox){ page->width - margin - INDEX_WIDTH, foot - HW_FOOTER_HEIGHT + 1.6,
                                 page->width - margin, foot },
                        sketch_scene, &sketch);
}

static gboolean
lay_out (const HwPrintJob *job, HwTiling *tiling, double *width, double *height, GError **error)
{
  const HwFabric *fabric = &job->plan->snapshot->fabric;
  HwBox extent = { -1, -1, fabric->width + 1, fabric->height + 1 };

  if (!hw_tiling_fit_sheet (tiling, extent, &job->sheet, job->options.sheet_margin, GAP + HW_FOOTER_HEIGHT,
                            job->options.tile_overlap, width, height))
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET,
                   _ ("A sheet of %.0f × %.0f mm is too small for the layout; please choose a larger one."),
                   job->sheet.width, job->sheet.height);
      return FALSE;
    }
  if (hw_tiling_count (tiling) > HW_MOST_PAGES)
    {
      g_set_error (
          error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES,
          _ ("The whole cloth at true size would be more than %d sheets; please check the cloth's size."),
          HW_MOST_PAGES);
      return FALSE;
    }

  /* From the corner on, as it is measured. */
  tiling->x0 = extent.x0;
  tiling->y0 = extent.y0;
  return TRUE;
}

gboolean
hw_layout_pages_add (HwPrintJob *job, GError **error)
{
  const HwSnapshot *snapshot = job->plan->snapshot;
  HwLayout *layout;
  HwTiling tiling;
  double width, height;

  if (!lay_out (job, &tiling, &width, &height, error))
    return FALSE;

  layout = g_new0 (HwLayout, 1);
  layout->tiling = tiling;
  layout->artwork = g_new0 (HwArtwork, snapshot->motifs->len);
  layout->painted = g_new0 (gboolean, snapshot->motifs->len);
  layout->pixels_per_mm = MIN (
      FINEST,
      0.75 * hw_artwork_fineness ((const HwMotif *const *)snapshot->motifs->pdata, snapshot->motifs->len));
  layout->paper = snapshot->fabric;
  layout->paper.colour = (HwColour){ 1, 1, 1 };
  layout->paper.unknown = NULL;
  layout->placed = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);

      g_ptr_array_add (layout->placed, hw_outline_place (motif->outline, &motif->placement));
    }

  for (guint part = 0; part < hw_tiling_count (&tiling); part++)
    {
      HwPage *page = hw_print_job_add_page (job, width, height);

      page->part = part;
      page->draw = draw_layout_page;
      page->data = layout;
      if (part == 0)
        {
          page->name = g_strdup (_ ("Layout"));
          page->free_data = layout_free;
        }
    }

  return TRUE;
}

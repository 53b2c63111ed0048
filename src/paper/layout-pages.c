/* The layout: the whole cloth at true size in tiles, with the edge line, every motif's outline and cross
 * mark, the centre of each hooping and its marks. Joined, it is laid under or over the cloth and everything
 * is pricked through. Where it takes several sheets a picture of how they go together comes first. */
#include "page.h"

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "layout-index.h"
#include "page-frame.h"
#include "plate.h"
#include "template-head.h"

#define INDEX_WIDTH 24.0
#define SIGNS 30.0 /* how far a sign and its words reach around its place at most */

static void
layout_free (gpointer data)
{
  hw_layout_free (data);
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
draw_motif (cairo_t *cr, const HwLayout *layout, guint index)
{
  HwTemplateMotif *shown = layout->motifs[index];
  HwPlacement lies = hw_snapshot_motif (layout->job->plan->snapshot, index)->placement;
  HwPoint at = hw_layout_point (layout, lies.position);
  double turn = layout->job->options.mirrored ? -lies.angle : lies.angle;
  HwPoint beside = hw_point_turn ((HwPoint){ 7.5, 7.5 }, turn);
  HwBox box = layout->placed[index]->box;

  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_rotate (cr, turn * G_PI / 180);
  hw_template_motif_draw_body (cr, shown, FALSE);
  hw_draw_template_cross (cr, HW_LAYOUT_MOTIF_ARM, 0.9);
  cairo_restore (cr);
  hw_draw_ring_number (cr, at.x + beside.x, at.y + beside.y, 4, 4.4, shown->number);
  hw_draw_plate (cr, at.x, at.y + 14, MAX (20, (box.x1 - box.x0) * 0.8), HW_TYPE_SMALL, FALSE,
                 HW_LETTER_CENTRE, shown->motif->name);
}

/* A hooping's centre: a fine cross as long as the marks on a hoop's ring are apart from it, with its own
 * arrow and number. */
static void
draw_hooping_centre (cairo_t *cr, HwPoint at, double turn, guint number)
{
  g_autofree char *text = g_strdup_printf (_ ("hooping %u"), number);

  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_rotate (cr, turn * G_PI / 180);
  hw_ink (cr);
  hw_draw_cross_mark (cr, HW_LAYOUT_CENTRE_ARM, 0.25);
  cairo_arc (cr, 0, 0, 2, 0, 2 * G_PI);
  cairo_set_line_width (cr, 0.25);
  cairo_stroke (cr);
  hw_draw_plate (cr, 3.2, -15, 0, HW_TYPE_SMALL, TRUE, HW_LETTER_LEFT, text);
  cairo_restore (cr);
}

static HwBox
around (HwPoint p, double mm)
{
  return (HwBox){ p.x - mm, p.y - mm, p.x + mm, p.y + mm };
}

static void
draw_hooping (cairo_t *cr, const HwLayout *layout, guint index, HwBox window)
{
  const HwHooping *h = &layout->job->plan->hoopings[index];
  HwPoint centre = hw_layout_point (layout, h->centre);

  if (hw_box_overlaps (around (centre, SIGNS), window))
    draw_hooping_centre (cr, centre, layout->job->options.mirrored ? -h->angle : h->angle, index + 1);
  for (guint m = 0; m < h->n_marks; m++)
    {
      HwPoint at = hw_layout_point (layout, h->marks[m].at);

      if (!hw_box_overlaps (around (at, SIGNS), window) || hw_layout_drawn_before (layout, index, m))
        continue;
      hw_ink (cr);
      hw_draw_mark (cr, at, h->marks[m].letter, HW_LAYOUT_MARK_ARM, 0.3, HW_TYPE_TEXT);
    }
}

/* Only what the window shows: a large cloth has many tiles and each would otherwise hold everything. */
static void
draw_content (cairo_t *cr, const HwLayout *layout, HwBox window)
{
  const HwPrintJob *job = layout->job;
  const HwSnapshot *snapshot = job->plan->snapshot;
  HwFabric paper = snapshot->fabric; /* in paper white: lines over it are drawn dark */

  paper.colour = (HwColour){ 1, 1, 1 };
  draw_cloth_edge (cr, &snapshot->fabric);
  if (layout->edge_line != NULL)
    hw_draw_edge_line (cr, layout->edge_line, &paper, 0.3);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      HwPoint at = hw_layout_point (layout, hw_snapshot_motif (snapshot, i)->placement.position);

      if (layout->motifs[i] != NULL
          && hw_box_overlaps (hw_box_union (layout->placed[i]->box, around (at, SIGNS)), window))
        draw_motif (cr, layout, i);
    }
  for (guint h = 0; h < job->plan->n_hoopings; h++)
    if (hw_print_job_takes_hooping (job, h))
      draw_hooping (cr, layout, h, window);
}

static void
draw_layout_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  const HwLayout *layout = page->data;
  const HwTiling *tiling = &layout->tiling;
  double margin = job->options.sheet_margin, foot = page->height - margin;
  guint column = page->part % tiling->columns, row = page->part / tiling->columns;
  HwBox window = hw_tiling_window (tiling, column, row);
  gboolean tiled = hw_tiling_count (tiling) > 1;
  g_autofree char *tile = hw_tile_name (column, row);
  g_autofree char *what = NULL;

  cairo_save (cr);
  cairo_rectangle (cr, margin, margin, tiling->width, tiling->height);
  cairo_clip (cr);
  cairo_translate (cr, margin - window.x0, margin - window.y0);
  draw_content (cr, layout, window);
  hw_tiling_draw_joins (tiling, cr, column, row);
  cairo_restore (cr);

  if (job->options.mirrored)
    what = g_strdup_printf (_ ("Part %s of %u × %u, for the back of the cloth: mirrored"), tile,
                            tiling->columns, tiling->rows);
  else
    what = g_strdup_printf (_ ("The whole cloth at true size, part %s of %u × %u"), tile, tiling->columns,
                            tiling->rows);
  hw_page_footer (job, page, cr, margin, margin, tiled ? INDEX_WIDTH + 3 : 0, what);
  if (tiled)
    hw_tiling_draw_index (tiling, cr, column, row,
                          (HwBox){ page->width - margin - INDEX_WIDTH, foot - HW_FOOTER_HEIGHT + 1.6,
                                   page->width - margin, foot },
                          hw_layout_sketch, page->data);
}

gboolean
hw_layout_pages_add (HwPrintJob *job, GError **error)
{
  HwLayout *layout = hw_layout_new (job, error);
  HwPage *first = NULL;

  if (layout == NULL)
    return FALSE;

  if (hw_tiling_count (&layout->tiling) > 1)
    {
      double narrow = MIN (job->sheet.width, job->sheet.height);
      double wide = MAX (job->sheet.width, job->sheet.height);
      gboolean lying = hw_layout_index_lies (layout);

      first = hw_print_job_add_page (job, lying ? wide : narrow, lying ? narrow : wide);
      first->draw = hw_layout_index_draw;
      first->data = layout;
    }
  for (guint part = 0; part < hw_tiling_count (&layout->tiling); part++)
    {
      HwPage *page;

      if (layout->left_out[part])
        continue;
      page = hw_print_job_add_page (job, layout->width, layout->height);
      page->part = part;
      page->draw = draw_layout_page;
      page->data = layout;
      first = first != NULL ? first : page;
    }
  first->name = g_strdup (_ ("Layout"));
  first->free_data = layout_free;

  return TRUE;
}

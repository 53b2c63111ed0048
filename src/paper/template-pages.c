/* Templates: each motif at its true size in its own axes, so that its arrow points to the sheet's top
 * whatever its turn on the cloth. Cut out, laid on the cloth and pinned, the cross mark is what the needle
 * is brought to; it is therefore the boldest thing on the page. */
#include "page.h"

#include <math.h>

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "page-frame.h"
#include "template-artwork.h"
#include "tiling.h"
#include "words.h"

#define PALENESS 0.62
#define GAP 4.0        /* white between head, window and foot */
#define BEYOND 3.0     /* how far the axis lines pass the outline, to meet lines drawn on the cloth */
#define CROSS_ARM 13.0 /* at most */
#define CROSS_LINE 0.75
#define RING 8.0 /* radius of the order number's ring in the head */
#define THREAD_ROW 4.2
#define MOST_THREADS 16
#define INDEX_WIDTH 24.0

/* One motif's template: its outline as printed and how it falls on sheets. */
typedef struct
{
  HwOutline *shape; /* scaled and mirrored, unturned; the motif's centre is the origin */
  HwTiling tiling;
  double width, height; /* of the sheet, turned as suits best */
  double head;          /* height of the head */
  double pixels_per_mm;
} HwTemplate;

static void
template_free (gpointer data)
{
  HwTemplate *template = data;

  hw_outline_unref (template->shape);
  g_free (template);
}

static const HwMotif *
motif_of (const HwPrintJob *job, const HwPage *page)
{
  return hw_snapshot_motif (job->plan->snapshot, page->subject);
}

static guint
thread_columns (const HwMotif *motif)
{
  return motif->n_threads > 5 ? 2 : 1;
}

/* Two columns are narrower: the motif's own words need their room. */
static double
thread_width (const HwMotif *motif)
{
  return thread_columns (motif) > 1 ? 42 : 52;
}

static guint
thread_rows (const HwMotif *motif)
{
  guint shown = MIN (motif->n_threads, MOST_THREADS), columns = thread_columns (motif);

  return (shown + columns - 1) / columns;
}

static double
head_height (const HwMotif *motif)
{
  return MAX (2 * RING + 5, thread_rows (motif) * THREAD_ROW);
}

/* What its hooping and its turn are, or that there is none. */
static char *
hooping_words (const HwPrintJob *job, guint index)
{
  const HwMotif *motif = hw_snapshot_motif (job->plan->snapshot, index);
  int hooping = hw_plan_hooping_of (job->plan, index);
  g_autofree char *turn = hw_words_turned (motif->placement.angle);
  g_autofree char *lies
      = motif->placement.mirrored ? g_strdup_printf (_ ("mirrored, %s"), turn) : g_strdup (turn);

  if (hooping < 0)
    return g_strdup_printf (_ ("No hooping takes it yet · %s"), lies);

  return g_strdup_printf (_ ("Hooping %d · %s"), hooping + 1, lies);
}

static char *
size_words (const HwPrintJob *job, const HwMotif *motif, const HwTemplate *template)
{
  HwBox box = template->shape->box;
  g_autofree char *size = hw_words_size (box.x1 - box.x0, box.y1 - box.y0, job->options.unit);
  g_autofree char *percent = hw_words_percent (motif->placement.scale);

  return g_strdup_printf (_ ("%s · at %s"), size, percent);
}

static void
draw_threads (cairo_t *cr, double right, double top, const HwMotif *motif)
{
  guint columns = thread_columns (motif), rows = thread_rows (motif);
  double width = thread_width (motif);
  guint shown = MIN (motif->n_threads, MOST_THREADS);

  for (guint i = 0; i < shown; i++)
    {
      const HwThreadBlock *block = &motif->threads[i];
      double x = right - (columns - i / rows) * (width + 4) + 4;
      double y = top + (i % rows) * THREAD_ROW;
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      g_autofree char *stitches = hw_words_count (block->stitches);

      if (i == MOST_THREADS - 1 && motif->n_threads > MOST_THREADS)
        {
          g_autofree char *more
              = g_strdup_printf (_ ("and %u more, on the bench sheet"), motif->n_threads - i);

          hw_ink_pale (cr);
          hw_line (cr, x + 12, y, width - 12, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, more);
          break;
        }
      hw_ink_pale (cr);
      hw_line (cr, x + 3.6, y, 0, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, number);
      hw_draw_swatch (cr, x + 5, y + 0.6, 5.4, 2.4, block->colour);
      hw_ink (cr);
      hw_line (cr, x + 12, y, width - 24, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, block->name);
      hw_line (cr, x + width, y, 11, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, stitches);
    }
}

static void
draw_head (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  const HwTemplate *template = page->data;
  const HwMotif *motif = motif_of (job, page);
  double margin = job->options.sheet_margin;
  double right = page->width - margin, x = margin + 2 * RING + 5;
  double threads = motif->n_threads > 0 ? thread_columns (motif) * (thread_width (motif) + 4) : 0;
  double width = right - threads - x - 4;
  g_autofree char *hooping = hooping_words (job, page->subject);
  g_autofree char *size = size_words (job, motif, template);

  hw_draw_ring_number (cr, margin + RING, margin + RING + 0.3, RING - 0.3, 7.5,
                       hw_order_number (page->subject));
  hw_ink (cr);
  hw_line (cr, x, margin - 0.8, width, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT, motif->name);
  hw_line (cr, x, margin + 7.2, width, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT, size);
  hw_line (cr, x, margin + 12.2, width, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT, hooping);
  hw_ink_pale (cr);
  hw_line (cr, x, margin + 17.4, width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT,
           _ ("Take this template off before the first stitch."));
  draw_threads (cr, right, margin, motif);
}

/* The axis lines through the cross mark, out to the outline's edge and a little beyond, where they can be
 * laid on lines drawn on the cloth. */
static void
draw_axes (cairo_t *cr, HwBox box)
{
  static const double dashes[] = { 4, 1.2, 0.6, 1.2 };

  hw_ink_pale (cr);
  cairo_set_line_width (cr, 0.18);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, MIN (box.x0, 0), 0);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, MAX (box.x1, 0), 0);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, 0, MIN (box.y0, 0));
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, 0, MAX (box.y1, 0));
  cairo_stroke (cr);

  cairo_set_dash (cr, NULL, 0, 0);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.3);
  cairo_move_to (cr, box.x0, 0);
  cairo_line_to (cr, box.x0 - BEYOND, 0);
  cairo_move_to (cr, box.x1, 0);
  cairo_line_to (cr, box.x1 + BEYOND, 0);
  cairo_move_to (cr, 0, box.y0);
  cairo_line_to (cr, 0, box.y0 - BEYOND);
  cairo_move_to (cr, 0, box.y1);
  cairo_line_to (cr, 0, box.y1 + BEYOND);
  cairo_stroke (cr);
}

/* In the motif's axes, mm. */
static void
draw_motif (cairo_t *cr, const HwMotif *motif, const HwTemplate *template, guint number)
{
  HwBox box = template->shape->box;
  double small_side = MIN (box.x1 - box.x0, box.y1 - box.y0);
  double arm = CLAMP (small_side * 0.3, 4, CROSS_ARM);

  hw_draw_artwork (cr, motif, 0, PALENESS, HW_ARTWORK_ALONE, template->pixels_per_mm);

  hw_path_outline (cr, template->shape);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.35);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);

  draw_axes (cr, box);
  if (small_side > 34)
    hw_draw_ring_number (cr, arm * 0.62, arm * 0.62, 3.2, 3.6, number);
  hw_ink (cr);
  hw_draw_cross_mark (cr, arm, CROSS_LINE);
}

static void
sketch_motif (cairo_t *cr, double hairline, gpointer user_data)
{
  hw_path_outline (cr, user_data);
  hw_ink_pale (cr);
  cairo_set_line_width (cr, hairline);
  cairo_stroke (cr);
}

static void
draw_template_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  const HwTemplate *template = page->data;
  const HwTiling *tiling = &template->tiling;
  const HwMotif *motif = motif_of (job, page);
  double margin = job->options.sheet_margin;
  double top = margin + template->head + GAP;
  guint column = page->part % tiling->columns, row = page->part / tiling->columns;
  HwBox window = hw_tiling_window (tiling, column, row);
  gboolean tiled = hw_tiling_count (tiling) > 1;
  g_autofree char *what = NULL;

  cairo_save (cr);
  cairo_rectangle (cr, margin, top, tiling->width, tiling->height);
  cairo_clip (cr);
  cairo_translate (cr, margin - window.x0, top - window.y0);
  draw_motif (cr, motif, template, hw_order_number (page->subject));
  if (tiled)
    hw_tiling_draw_joins (tiling, cr, column, row);
  cairo_restore (cr);

  draw_head (job, page, cr);

  if (tiled)
    {
      g_autofree char *tile = hw_tile_name (column, row);
      double foot = page->height - margin;

      hw_tiling_draw_index (tiling, cr, column, row,
                            (HwBox){ page->width - margin - INDEX_WIDTH, foot - HW_FOOTER_HEIGHT + 1.6,
                                     page->width - margin, foot },
                            sketch_motif, template->shape);
      what = g_strdup_printf (_ ("%s, part %s of %u × %u"), motif->name, tile, tiling->columns, tiling->rows);
    }
  else
    what = g_strdup_printf (_ ("%s, template %u of %u"), motif->name, hw_order_number (page->subject),
                            job->plan->snapshot->motifs->len);
  hw_page_footer (job, page, cr, margin, margin, tiled ? INDEX_WIDTH + 3 : 0, what);
}

static gboolean
lay_out (const HwPrintJob *job, HwTemplate *template, GError **error)
{
  HwBox box = template->shape->box;
  HwBox extent = {
    MIN (box.x0, 0) - BEYOND - 1,
    MIN (box.y0, 0) - BEYOND - 1,
    MAX (box.x1, 0) + BEYOND + 1,
    MAX (box.y1, 0) + BEYOND + 1,
  };

  if (!hw_tiling_fit_sheet (&template->tiling, extent, &job->sheet, job->options.sheet_margin,
                            template->head + 2 * GAP + HW_FOOTER_HEIGHT, job->options.tile_overlap,
                            &template->width, &template->height))
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET,
                   _ ("A sheet of %.0f × %.0f mm is too small for a template; please choose a larger one."),
                   job->sheet.width, job->sheet.height);
      return FALSE;
    }

  /* The needle goes to the cross mark: no join may run near it. */
  hw_tiling_keep_clear (&template->tiling, (HwPoint){ 0, 0 });
  return TRUE;
}

static gboolean
add_template (HwPrintJob *job, guint index, double pixels_per_mm, GError **error)
{
  const HwMotif *motif = hw_snapshot_motif (job->plan->snapshot, index);
  HwPlacement unturned = { .scale = motif->placement.scale, .mirrored = motif->placement.mirrored };
  HwTemplate *template = g_new0 (HwTemplate, 1);
  guint64 tiles;

  template->shape = hw_outline_place (motif->outline, &unturned);
  template->head = head_height (motif);
  template->pixels_per_mm = pixels_per_mm;
  if (!lay_out (job, template, error))
    {
      template_free (template);
      return FALSE;
    }

  tiles = hw_tiling_count (&template->tiling);
  if (job->pages->len + tiles > HW_MOST_PAGES)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES,
                   _ ("With the template of %s this would be more than %d sheets; please check its size."),
                   motif->name, HW_MOST_PAGES);
      template_free (template);
      return FALSE;
    }

  for (guint part = 0; part < tiles; part++)
    {
      HwPage *page = hw_print_job_add_page (job, template->width, template->height);

      page->subject = index;
      page->part = part;
      page->draw = draw_template_page;
      page->data = template;
      if (part == 0)
        {
          page->name = g_strdup_printf ("%u  %s", hw_order_number (index), motif->name);
          page->free_data = template_free;
        }
    }

  return TRUE;
}

gboolean
hw_template_pages_add (HwPrintJob *job, GError **error)
{
  const HwSnapshot *snapshot = job->plan->snapshot;
  double pixels_per_mm
      = hw_artwork_fineness ((const HwMotif *const *)snapshot->motifs->pdata, snapshot->motifs->len);

  if (snapshot->motifs->len == 0)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_NOTHING,
                   _ ("The scene has no motifs yet, so there is no template to print."));
      return FALSE;
    }

  for (guint i = 0; i < snapshot->motifs->len; i++)
    if (hw_print_job_takes_motif (job, i) && !add_template (job, i, pixels_per_mm, error))
      return FALSE;

  return TRUE;
}

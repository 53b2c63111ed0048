/* Templates: each motif at its true size in its own axes, so that its arrow points to the sheet's top
 * whatever its turn on the cloth. Cut out, laid on the cloth and pinned, the cross mark is what the needle
 * is brought to. Each has a sheet of its own, or several where it is larger; on request small ones share. */
#include "template-pages.h"

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "nest-pages.h"
#include "page-frame.h"
#include "template-head.h"
#include "tiling.h"

#define GAP 4.0 /* white between head, window and foot */
#define INDEX_WIDTH 24.0
#define PAGES_AHEAD 6

/* One motif's template and how it falls on sheets. */
typedef struct
{
  HwTemplateMotif *motif;
  HwTiling tiling;
  double width, height; /* of the sheet, turned as suits best */
  double head;          /* height of the head */
} HwTemplate;

static void
template_free (gpointer data)
{
  HwTemplate *template = data;

  hw_template_motif_free (template->motif);
  g_free (template);
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
draw_template_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr);

/* The templates of the next pages can be painted while this one is written. */
static void
foresee_next (const HwPrintJob *job, const HwPage *page)
{
  for (guint n = page->number + 1; n < MIN (page->number + 1 + PAGES_AHEAD, job->pages->len); n++)
    {
      const HwPage *next = g_ptr_array_index (job->pages, n);

      if (next->draw == draw_template_page)
        hw_template_motif_foresee (((const HwTemplate *)next->data)->motif);
    }
}

static void
draw_template_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  const HwTemplate *template = page->data;
  const HwTiling *tiling = &template->tiling;
  const char *name = template->motif->motif->name;
  double margin = job->options.sheet_margin;
  double top = margin + template->head + GAP;
  guint column = page->part % tiling->columns, row = page->part / tiling->columns;
  HwBox window = hw_tiling_window (tiling, column, row);
  gboolean tiled = hw_tiling_count (tiling) > 1;
  g_autofree char *what = NULL;

  foresee_next (job, page);
  cairo_save (cr);
  cairo_rectangle (cr, margin, top, tiling->width, tiling->height);
  cairo_clip (cr);
  cairo_translate (cr, margin - window.x0, top - window.y0);
  hw_template_motif_draw (cr, template->motif);
  if (tiled)
    hw_tiling_draw_joins (tiling, cr, column, row);
  else
    hw_template_motif_forget (template->motif);
  cairo_restore (cr);

  hw_template_head_draw (job, page, cr, template->motif);

  if (tiled)
    {
      g_autofree char *tile = hw_tile_name (column, row);
      double foot = page->height - margin;

      hw_tiling_draw_index (tiling, cr, column, row,
                            (HwBox){ page->width - margin - INDEX_WIDTH, foot - HW_FOOTER_HEIGHT + 1.6,
                                     page->width - margin, foot },
                            sketch_motif, template->motif->shape);
      what = g_strdup_printf (_ ("%s, part %s of %u × %u"), name, tile, tiling->columns, tiling->rows);
    }
  else
    what = g_strdup_printf (_ ("%s, template %u of %u"), name, template->motif->number,
                            job->plan->snapshot->motifs->len);
  hw_page_footer (job, page, cr, margin, margin, tiled ? INDEX_WIDTH + 3 : 0, what);
}

static gboolean
lay_out (const HwPrintJob *job, HwTemplate *template, GError **error)
{
  HwBox extent = hw_template_motif_extent (template->motif);

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

/* Returns: (transfer full) (nullable): NULL and an error when the sheet is too small */
static HwTemplate *
template_new (const HwPrintJob *job, guint index, double pixels_per_mm, GError **error)
{
  HwTemplate *template = g_new0 (HwTemplate, 1);

  template->motif = hw_template_motif_new (job, index, pixels_per_mm);
  template->head = hw_template_head_height (job, index);
  if (!lay_out (job, template, error))
    {
      template_free (template);
      return NULL;
    }

  return template;
}

static gboolean
add_template (HwPrintJob *job, guint index, double pixels_per_mm, GError **error)
{
  HwTemplate *template = template_new (job, index, pixels_per_mm, error);
  guint64 tiles;

  if (template == NULL)
    return FALSE;

  tiles = hw_tiling_count (&template->tiling);
  if (job->pages->len + tiles > HW_MOST_PAGES)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES,
                   _ ("With the template of %s this would be more than %d sheets; please check its size."),
                   template->motif->motif->name, HW_MOST_PAGES);
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
          page->name = g_strdup_printf ("%u  %s", hw_order_number (index), template->motif->motif->name);
          page->free_data = template_free;
        }
    }

  return TRUE;
}

guint64
hw_template_sheets (const HwPrintJob *job, guint index)
{
  HwTemplate *template = template_new (job, index, 1, NULL);
  guint64 sheets;

  if (template == NULL)
    return G_MAXUINT64;
  sheets = hw_tiling_count (&template->tiling);
  template_free (template);
  return sheets;
}

gboolean
hw_template_pages_add (HwPrintJob *job, GError **error)
{
  const HwSnapshot *snapshot = job->plan->snapshot;
  double pixels_per_mm = hw_template_fineness (job);
  g_autoptr (HwNestPages) nested = NULL;

  if (snapshot->motifs->len == 0)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_NOTHING,
                   _ ("The scene has no motifs yet, so there is no template to print."));
      return FALSE;
    }

  if (job->options.nested)
    nested = hw_nest_pages_new (job, pixels_per_mm);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    if (nested != NULL && hw_nest_pages_takes (nested, i))
      hw_nest_pages_add (nested, job, i);
    else if (hw_print_job_takes_motif (job, i) && !add_template (job, i, pixels_per_mm, error))
      return FALSE;

  return TRUE;
}

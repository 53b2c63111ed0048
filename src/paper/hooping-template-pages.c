/* The sheets of the hoopings' templates: one each where the field fits the paper, else tiles to be joined. */
#include "page.h"

#include "../geometry/language.h"
#include "hooping-template-head.h"
#include "page-frame.h"
#include "tiling.h"

#define GAP 4.0
#define INDEX_WIDTH 24.0

typedef struct
{
  HwHoopingTemplate *template;
  HwTiling tiling;
  double width, height; /* of the sheet */
  double head;
} HwHoopingSheets;

static void
sheets_free (gpointer data)
{
  HwHoopingSheets *sheets = data;

  hw_hooping_template_free (sheets->template);
  g_free (sheets);
}

static void
draw_hooping_sheet (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  const HwHoopingSheets *sheets = page->data;
  const HwTiling *tiling = &sheets->tiling;
  double margin = job->options.sheet_margin, top = margin + sheets->head + GAP;
  guint column = page->part % tiling->columns, row = page->part / tiling->columns;
  HwBox window = hw_tiling_window (tiling, column, row);
  gboolean tiled = hw_tiling_count (tiling) > 1;
  g_autofree char *what = NULL;

  cairo_save (cr);
  cairo_rectangle (cr, margin, top, tiling->width, tiling->height);
  cairo_clip (cr);
  cairo_translate (cr, margin - window.x0, top - window.y0);
  hw_hooping_template_draw (cr, sheets->template, window);
  if (tiled)
    hw_tiling_draw_joins (tiling, cr, column, row);
  cairo_restore (cr);

  hw_hooping_template_head_draw (sheets->template, page, cr);
  if (tiled)
    {
      g_autofree char *tile = hw_tile_name (column, row);
      double foot = page->height - margin;

      hw_tiling_draw_index (tiling, cr, column, row,
                            (HwBox){ page->width - margin - INDEX_WIDTH, foot - HW_FOOTER_HEIGHT + 1.6,
                                     page->width - margin, foot },
                            hw_hooping_template_sketch, sheets->template);
      what = g_strdup_printf (_ ("Hooping %u, part %s of %u × %u"), page->subject + 1, tile, tiling->columns,
                              tiling->rows);
    }
  else
    what = g_strdup_printf (_ ("Hooping %u of %u at true size"), page->subject + 1, job->plan->n_hoopings);
  hw_page_footer (job, page, cr, margin, margin, tiled ? INDEX_WIDTH + 3 : 0, what);
}

static gboolean
lay_out (const HwPrintJob *job, HwHoopingSheets *sheets, GError **error)
{
  if (!hw_tiling_fit_sheet (&sheets->tiling, hw_hooping_template_extent (sheets->template), &job->sheet,
                            job->options.sheet_margin, sheets->head + 2 * GAP + HW_FOOTER_HEIGHT,
                            job->options.tile_overlap, &sheets->width, &sheets->height))
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET,
                   _ ("A sheet of %.0f × %.0f mm is too small for a template; please choose a larger one."),
                   job->sheet.width, job->sheet.height);
      return FALSE;
    }
  if (job->pages->len + hw_tiling_count (&sheets->tiling) > HW_MOST_PAGES)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES,
                   _ ("With hooping %u this would be more than %d sheets; please check its hoop's size."),
                   sheets->template->hooping + 1, HW_MOST_PAGES);
      return FALSE;
    }

  hw_tiling_keep_clear (&sheets->tiling, (HwPoint){ 0, 0 });
  return TRUE;
}

static gboolean
add_hooping (HwPrintJob *job, guint hooping, double pixels_per_mm, GError **error)
{
  HwHoopingSheets *sheets = g_new0 (HwHoopingSheets, 1);

  sheets->template = hw_hooping_template_new (job, hooping, pixels_per_mm);
  sheets->head = hw_hooping_template_head_height (sheets->template);
  if (!lay_out (job, sheets, error))
    {
      sheets_free (sheets);
      return FALSE;
    }

  for (guint part = 0; part < hw_tiling_count (&sheets->tiling); part++)
    {
      HwPage *page = hw_print_job_add_page (job, sheets->width, sheets->height);

      page->subject = hooping;
      page->part = part;
      page->draw = draw_hooping_sheet;
      page->data = sheets;
      if (part == 0)
        {
          page->name = g_strdup_printf (_ ("Hooping %u"), hooping + 1);
          page->free_data = sheets_free;
        }
    }

  return TRUE;
}

gboolean
hw_hooping_template_pages_add (HwPrintJob *job, GError **error)
{
  double pixels_per_mm = hw_template_fineness (job);

  if (job->plan->n_hoopings == 0)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_NOTHING,
                   _ ("There is nothing to hoop yet, so there is no template of a hooping to print."));
      return FALSE;
    }

  for (guint h = 0; h < job->plan->n_hoopings; h++)
    if (hw_print_job_takes_hooping (job, h) && !add_hooping (job, h, pixels_per_mm, error))
      return FALSE;

  return TRUE;
}

/* The sheets of the hoopings' templates: one each where the field fits the paper, else tiles to be joined. */
#include "page.h"

#include "../geometry/language.h"
#include "hooping-page.h"
#include "hooping-template.h"
#include "page-frame.h"
#include "template-head.h"
#include "tiling.h"
#include "words.h"

#define GAP 4.0
#define INDEX_WIDTH 24.0
#define TITLES 12.6 /* height of the title and the line below it */
#define LINE 4.6    /* from line to line in the small type */
#define ROW 5.0     /* of the list of motifs */
#define LIST_WIDTH 56.0

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

static guint
list_columns (guint n_motifs)
{
  return n_motifs > 4 ? 2 : 1;
}

static guint
list_rows (guint n_motifs)
{
  guint columns = list_columns (n_motifs);

  return (n_motifs + columns - 1) / columns;
}

static double
head_height (const HwPrintJob *job, guint n_motifs)
{
  return MAX (TITLES, list_rows (n_motifs) * ROW) + (job->options.mirrored ? 3 : 2) * LINE;
}

/* Its motifs with their numbers, sizes on the cloth and how much they are scaled. */
static void
draw_list (const HwPrintJob *job, cairo_t *cr, double right, double top, const HwHoopingTemplate *template)
{
  guint columns = list_columns (template->n_motifs), rows = list_rows (template->n_motifs);

  for (guint i = 0; i < template->n_motifs; i++)
    {
      const HwTemplateMotif *motif = template->motifs[i].motif;
      double x = right - (columns - i / rows) * (LIST_WIDTH + 3) + 3, y = top + (i % rows) * ROW;
      g_autofree char *percent = hw_words_percent (motif->motif->placement.scale);

      hw_draw_ring_number (cr, x + 2.1, y + 1.8, 2.1, 2.8, motif->number);
      hw_ink (cr);
      hw_line (cr, x + 5.6, y, LIST_WIDTH - 18, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, motif->motif->name);
      hw_ink_pale (cr);
      hw_line (cr, x + LIST_WIDTH, y, 12, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, percent);
    }
}

/* Where the hoop's centre is on the cloth. */
static char *
centre_words (const HwPrintJob *job, HwPoint centre)
{
  HwPoint corner = hw_measuring_corner (job->plan->snapshot);
  g_autofree char *place
      = hw_words_place ((HwPoint){ centre.x - corner.x, centre.y - corner.y }, job->options.unit);

  return g_strdup_printf (_ ("Its centre on the cloth, %s: %s"),
                          hw_measuring_corner_words (job->plan->snapshot), place);
}

static char *
hoop_words (const HwPrintJob *job, const HwHoopingTemplate *template)
{
  double angle = job->plan->hoopings[template->hooping].angle;
  g_autofree char *field
      = hw_words_size (template->hoop->field_width, template->hoop->field_height, job->options.unit);
  g_autofree char *turn = hw_words_turned (job->options.mirrored ? -angle : angle);

  return g_strdup_printf (_ ("Hoop %s · field %s · %s"), template->hoop->name, field, turn);
}

static void
draw_head (
    const HwPrintJob *job, const HwPage *page, cairo_t *cr, const HwHoopingTemplate *template, double height)
{
  double margin = job->options.sheet_margin, right = page->width - margin, whole = right - margin;
  double list = template->n_motifs > 0 ? list_columns (template->n_motifs) * (LIST_WIDTH + 3) : 0;
  double y = margin + height - (job->options.mirrored ? 3 : 2) * LINE;
  g_autofree char *title = g_strdup_printf (_ ("Hooping %u"), template->hooping + 1);
  g_autofree char *hoop = hoop_words (job, template);
  g_autofree char *centre = centre_words (job, job->plan->hoopings[template->hooping].centre);

  hw_ink (cr);
  hw_template_title (cr, margin, margin - 0.8, whole - list, title);
  hw_line (cr, margin, margin + 7.2, whole - list, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT, hoop);
  hw_line (cr, margin, y, whole, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, centre);
  hw_ink_pale (cr);
  hw_line (
      cr, margin, y + LINE, whole, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT,
      _ ("Prick through at the crosses and the targets. Take this template off before the first stitch."));
  hw_ink (cr);
  if (job->options.mirrored)
    hw_line (cr, margin, y + 2 * LINE, whole, HW_TYPE_SMALL, TRUE, HW_LETTER_LEFT, hw_template_back_words ());
  draw_list (job, cr, right, margin, template);
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

  draw_head (job, page, cr, sheets->template, sheets->head);
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
  sheets->head = head_height (job, sheets->template->n_motifs);
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

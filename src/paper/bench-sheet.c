/* The bench sheet: what hangs beside the machine. First the cover with the picture, then what is needed, then the marks to draw, then a page for
 * each hooping. */
#include "../geometry/language.h"
#include "cover.h"
#include "hooping-page.h"
#include "mark-page.h"
#include "motif-list.h"
#include "needs-page.h"
#include "page-frame.h"

static void
draw_cover (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  hw_writer_draw (job, 0, hw_cover_write, page->part, cr);
  hw_page_footer (job, page, cr, hw_writer_margin (job), hw_writer_foot (job), 0, _ ("The whole plan"));
}

static gboolean
has_motif (const HwPrintJob *job)
{
  for (guint i = 0; i < job->plan->snapshot->motifs->len; i++)
    if (hw_print_job_takes_motif (job, i))
      return TRUE;

  return FALSE;
}

/* HwWriterMatter: the motifs begin below what is needed, so that both fill their sheets. */
static void
write_needs (HwWriter *writer, guint subject)
{
  hw_needs_page_write (writer, subject);
  if (has_motif (writer->job))
    hw_motif_list_write (writer, subject);
}

static void
draw_needs (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  hw_writer_draw (job, 0, write_needs, page->part, cr);
  hw_page_footer (job, page, cr, hw_writer_margin (job), hw_writer_foot (job), 0,
                  _ ("What is needed, and the motifs"));
}

static void
draw_mark_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  hw_writer_draw (job, 0, hw_mark_page_write, page->part, cr);
  hw_page_footer (job, page, cr, hw_writer_margin (job), hw_writer_foot (job), 0, _ ("Marks to draw"));
}

static void
draw_hooping_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  const HwHooping *h = &job->plan->hoopings[page->subject];
  g_autofree char *what
      = g_strdup_printf (_ ("Hooping %u of %u · %s"), page->subject + 1, job->plan->n_hoopings,
                         hw_snapshot_hoop (job->plan->snapshot, h->hoop)->name);

  hw_writer_draw (job, page->subject, hw_hooping_page_write, page->part, cr);
  hw_page_footer (job, page, cr, hw_writer_margin (job), hw_writer_foot (job), 0, what);
}

/* A part of the sheet, in its order. */
typedef struct
{
  HwWriterMatter matter;
  void (*draw) (const HwPrintJob *job, const HwPage *page, cairo_t *cr);
  guint subject;
  const char *name; /* in the table of contents */
} SheetPart;

static gboolean
add_part (HwPrintJob *job, const SheetPart *part, GError **error)
{
  guint n = hw_writer_count (job, part->subject, part->matter);

  if (job->pages->len + n > HW_MOST_PAGES)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES,
                   _ ("The bench sheet would be more than %d pages; please plan the scene in parts."),
                   HW_MOST_PAGES);
      return FALSE;
    }

  for (guint k = 0; k < n; k++)
    {
      HwPage *page = hw_print_job_add_page (job, job->sheet.width, job->sheet.height);

      page->subject = part->subject;
      page->part = k;
      page->draw = part->draw;
      if (k == 0)
        page->name = g_strdup (part->name);
    }

  return TRUE;
}

static gboolean
add_hoopings (HwPrintJob *job, GError **error)
{
  for (guint h = 0; h < job->plan->n_hoopings; h++)
    {
      SheetPart part = { hw_hooping_page_write, draw_hooping_page, h, NULL };
      g_autofree char *name = NULL;

      if (!hw_print_job_takes_hooping (job, h))
        continue;
      name = g_strdup_printf (_ ("Hooping %u"), h + 1);
      part.name = name;
      if (!add_part (job, &part, error))
        return FALSE;
    }

  return TRUE;
}

static gboolean
check_sheet (const HwPrintJob *job, GError **error)
{
  double margin = hw_writer_margin (job);

  if (job->sheet.width - 2 * margin >= 150 && job->sheet.height - 2 * margin >= 180)
    return TRUE;

  g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET,
               _ ("A sheet of %.0f × %.0f mm is too small for the bench sheet; A4 or Letter will do."),
               job->sheet.width, job->sheet.height);
  return FALSE;
}

gboolean
hw_bench_sheet_add (HwPrintJob *job, GError **error)
{
  const SheetPart cover = { hw_cover_write, draw_cover, 0, _ ("The whole plan") };
  const SheetPart needs = { write_needs, draw_needs, 0, _ ("What is needed, and the motifs") };
  const SheetPart marks = { hw_mark_page_write, draw_mark_page, 0, _ ("Marks to draw before you start") };

  if (!check_sheet (job, error))
    return FALSE;
  job->supplies = hw_supplies_new (job->plan, job->options.part);
  return add_part (job, &cover, error) && add_part (job, &needs, error)
         && (!hw_mark_page_needed (job) || add_part (job, &marks, error)) && add_hoopings (job, error);
}

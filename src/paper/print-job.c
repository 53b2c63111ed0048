/* A print job is a plan laid out as a list of pages. Laying out happens once, when the job is made; drawing
 * a page needs nothing but a cairo context, so the same page goes to a PDF, to the printer or to a picture. */
#include "page.h"

#include "../geometry/language.h"
#include "../planning/parts-hoopings.h"

G_DEFINE_QUARK (hw_paper_error_quark, hw_paper_error)

static void
page_free (gpointer data)
{
  HwPage *page = data;

  if (page->free_data != NULL)
    page->free_data (page->data);
  g_free (page->name);
  g_free (page);
}

HwPage *
hw_print_job_add_page (HwPrintJob *job, double width, double height)
{
  HwPage *page = g_new0 (HwPage, 1);

  page->width = width;
  page->height = height;
  page->number = job->pages->len;
  g_ptr_array_add (job->pages, page);

  return page;
}

static void
name_job (HwPrintJob *job, const char *kind)
{
  const HwPart *part = hw_print_job_part (job);

  /* Translators: what is printed, and for which part of the scene */
  job->what = part != NULL ? g_strdup_printf (_ ("%s for “%s”"), kind, part->name) : g_strdup (kind);
}

static gboolean
add_pages (HwPrintJob *job, GError **error)
{
  switch (job->options.kind)
    {
    case HW_PAPER_TEMPLATES:
      name_job (job, _ ("Templates"));
      job->prefix = 'T';
      return hw_template_pages_add (job, error);
    case HW_PAPER_LAYOUT:
      name_job (job, _ ("Layout"));
      job->prefix = 'L';
      return hw_layout_pages_add (job, error);
    case HW_PAPER_BENCH_SHEET:
      name_job (job, _ ("Bench sheet"));
      job->prefix = 'S';
      return hw_bench_sheet_add (job, error);
    case HW_PAPER_DAY_LOG:
      name_job (job, _ ("Log of the days"));
      job->prefix = 'D';
      return hw_day_log_add (job, error);
    default:
      g_assert_not_reached ();
    }
}

const HwPart *
hw_print_job_part (const HwPrintJob *job)
{
  return job->options.part > 0 ? g_ptr_array_index (job->plan->snapshot->parts, job->options.part - 1) : NULL;
}

gboolean
hw_print_job_takes_hooping (const HwPrintJob *job, guint hooping)
{
  return job->options.part == 0 || job->part_of[hooping] == (int)job->options.part - 1;
}

gboolean
hw_print_job_takes_motif (const HwPrintJob *job, guint motif)
{
  int hooping = hw_plan_hooping_of (job->plan, motif);

  if (hooping >= 0)
    return hw_print_job_takes_hooping (job, (guint)hooping);
  return job->options.part == 0
         || hw_part_names (hw_print_job_part (job), hw_snapshot_motif (job->plan->snapshot, motif)->id);
}

static gboolean
has_hooping (const HwPrintJob *job)
{
  for (guint h = 0; h < job->plan->n_hoopings; h++)
    if (hw_print_job_takes_hooping (job, h))
      return TRUE;
  return job->options.part == 0;
}

HwPrintJob *
hw_print_job_new (const HwPlan *plan, const HwPaperOptions *options, GError **error)
{
  g_autoptr (HwPrintJob) job = NULL;

  g_return_val_if_fail (plan != NULL && options != NULL && options->sheet != NULL, NULL);
  g_return_val_if_fail (options->part <= plan->snapshot->parts->len, NULL);

  job = g_new0 (HwPrintJob, 1);
  job->plan = hw_plan_ref (plan);
  job->options = *options;
  if (options->kind == HW_PAPER_DAY_LOG) /* days go across parts */
    job->options.part = 0;
  job->sheet_name = g_strdup (options->sheet->name != NULL ? options->sheet->name : _ ("own size"));
  job->sheet = *options->sheet;
  job->sheet.name = job->sheet_name;
  job->options.sheet = &job->sheet;
  job->options.sheet_margin = MAX (options->sheet_margin, 0);
  job->options.tile_overlap = MAX (options->tile_overlap, 0);
  job->pages = g_ptr_array_new_with_free_func (page_free);

  job->heights = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  job->part_of = hw_plan_parts (plan);
  if (!has_hooping (job))
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_NOTHING,
                   _ ("No hooping stitches the part “%s”, so there is nothing to print for it."),
                   hw_print_job_part (job)->name);
      return NULL;
    }
  if (!add_pages (job, error))
    return NULL;

  g_assert (job->pages->len > 0);
  return g_steal_pointer (&job);
}

void
hw_print_job_free (HwPrintJob *job)
{
  if (job == NULL)
    return;

  g_ptr_array_unref (job->pages);
  g_hash_table_unref (job->heights);
  hw_plan_unref (job->plan);
  g_free (job->sheet_name);
  g_free (job->part_of);
  g_free (job->what);
  g_free (job);
}

guint
hw_print_job_n_pages (const HwPrintJob *job)
{
  g_return_val_if_fail (job != NULL, 0);

  return job->pages->len;
}

void
hw_print_job_page_size (const HwPrintJob *job, guint page, double *width, double *height)
{
  const HwPage *p;

  g_return_if_fail (job != NULL && page < job->pages->len);

  p = g_ptr_array_index (job->pages, page);
  if (width != NULL)
    *width = p->width;
  if (height != NULL)
    *height = p->height;
}

void
hw_print_job_draw_page (const HwPrintJob *job, guint page, cairo_t *cr)
{
  const HwPage *p;

  g_return_if_fail (job != NULL && page < job->pages->len && cr != NULL);

  p = g_ptr_array_index (job->pages, page);
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, p->width, p->height);
  cairo_clip (cr);
  p->draw (job, p, cr);
  cairo_restore (cr);
}

void
hw_ink (cairo_t *cr)
{
  cairo_set_source_rgb (cr, 0.10, 0.09, 0.08);
}

void
hw_ink_pale (cairo_t *cr)
{
  cairo_set_source_rgb (cr, 0.42, 0.40, 0.38);
}

void
hw_ink_grid (cairo_t *cr)
{
  cairo_set_source_rgb (cr, 0.70, 0.68, 0.65);
}

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

const char *
hw_paper_kind_words (HwPaperKind kind)
{
  switch (kind)
    {
    case HW_PAPER_TEMPLATES:
      return _ ("Templates");
    case HW_PAPER_LAYOUT:
      return _ ("Layout");
    case HW_PAPER_BENCH_SHEET:
      return _ ("Bench sheet");
    case HW_PAPER_DAY_LOG:
      return _ ("Log of the days");
    case HW_PAPER_HOOPING_TEMPLATES:
      return _ ("Templates of whole hoopings");
    case HW_PAPER_TEST_SHEET:
      return _ ("Test sheet");
    default:
      g_return_val_if_reached ("");
    }
}

static gboolean
add_pages (HwPrintJob *job, GError **error)
{
  static const struct
  {
    char prefix;
    gboolean (*add) (HwPrintJob *job, GError **error);
  } kinds[] = {
    [HW_PAPER_TEMPLATES] = { 'T', hw_template_pages_add },
    [HW_PAPER_LAYOUT] = { 'L', hw_layout_pages_add },
    [HW_PAPER_BENCH_SHEET] = { 'S', hw_bench_sheet_add },
    [HW_PAPER_DAY_LOG] = { 'D', hw_day_log_add },
    [HW_PAPER_HOOPING_TEMPLATES] = { 'H', hw_hooping_template_pages_add },
    [HW_PAPER_TEST_SHEET] = { 'P', hw_test_sheet_add },
  };
  HwPaperKind kind = job->options.kind;

  g_assert (kind < G_N_ELEMENTS (kinds));
  name_job (job, hw_paper_kind_words (kind));
  job->prefix = kinds[kind].prefix;
  return kinds[kind].add (job, error);
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

/* A test sheet is about the printer, so it speaks of no scene. */
static HwPlan *
test_plan (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();

  g_free (snapshot->name);
  snapshot->name = g_strdup (_ ("Is this printer true to size?"));
  return hw_plan_new (snapshot);
}

static void
choose_sheet (HwPrintJob *job, const HwPaperOptions *options)
{
  job->options.sheet_margin = MAX (options->sheet_margin, 0);
  job->options.tile_overlap = MAX (options->tile_overlap, 0);
  job->stretch.x = options->stretch_x > 0 ? options->stretch_x : 1;
  job->stretch.y = options->stretch_y > 0 ? options->stretch_y : 1;
  job->sheet_name = g_strdup (options->sheet->name != NULL ? options->sheet->name : _ ("own size"));
  job->paper = *options->sheet;
  job->paper.name = job->sheet_name;
  job->sheet = hw_paper_stretch_room (job->stretch, &job->paper, job->options.sheet_margin);
  job->options.sheet = &job->sheet;
}

static HwPrintJob *
print_job_new (const HwPlan *plan, const HwPaperOptions *options, const HwLanguage *language, GError **error)
{
  g_autoptr (HwPrintJob) job = g_new0 (HwPrintJob, 1);

  job->plan = options->kind == HW_PAPER_TEST_SHEET ? test_plan () : hw_plan_said_again (plan, options->unit);
  job->options = *options;
  job->options.language = NULL;
  job->language = language;
  if (options->kind == HW_PAPER_DAY_LOG || options->kind == HW_PAPER_TEST_SHEET) /* go across parts */
    job->options.part = 0;
  choose_sheet (job, options);
  job->pages = g_ptr_array_new_with_free_func (page_free);
  job->heights = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  job->part_of = hw_plan_parts (job->plan);
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

HwPrintJob *
hw_print_job_new (const HwPlan *plan, const HwPaperOptions *options, GError **error)
{
  const HwLanguage *language, *before;
  HwPrintJob *job;

  g_return_val_if_fail (options != NULL && options->sheet != NULL, NULL);
  g_return_val_if_fail (plan != NULL || options->kind == HW_PAPER_TEST_SHEET, NULL);
  g_return_val_if_fail (plan == NULL || options->part <= plan->snapshot->parts->len, NULL);

  if (options->language == NULL)
    return print_job_new (plan, options, NULL, error);
  language = hw_language_open (options->language, error);
  if (language == NULL)
    return NULL;
  before = hw_language_enter (language);
  job = print_job_new (plan, options, language, NULL);
  hw_language_leave (before);
  /* What is wrong is said on the screen, so in its language. */
  return job != NULL ? job : print_job_new (plan, options, NULL, error);
}

/* Returns: what to go back to by speak_as_before() */
static const HwLanguage *
speak (const HwPrintJob *job)
{
  return job->language != NULL ? hw_language_enter (job->language) : NULL;
}

static void
speak_as_before (const HwPrintJob *job, const HwLanguage *before)
{
  if (job->language != NULL)
    hw_language_leave (before);
}

void
hw_print_job_free (HwPrintJob *job)
{
  if (job == NULL)
    return;

  g_clear_pointer (&job->pages, g_ptr_array_unref);
  g_clear_pointer (&job->heights, g_hash_table_unref);
  g_clear_pointer (&job->supplies, hw_supplies_unref);
  hw_plan_unref (job->plan);
  g_free (job->sheet_name);
  g_free (job->part_of);
  g_free (job->what);
  g_free (job);
}

char *
hw_print_job_title (const HwPrintJob *job)
{
  const HwLanguage *before;
  const char *name;
  char *title;

  g_return_val_if_fail (job != NULL, NULL);

  if (job->options.kind == HW_PAPER_TEST_SHEET)
    return g_strdup_printf ("%s, %s", job->what, job->sheet_name);
  before = speak (job);
  name = job->plan->snapshot->name;
  title = g_strdup_printf ("%s, %s", name != NULL ? name : _ ("Unnamed scene"), job->what);
  speak_as_before (job, before);
  return title;
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
  hw_paper_stretch_page_size (&job->paper, &job->sheet, p->width, p->height, width, height);
}

void
hw_print_job_draw_page (const HwPrintJob *job, guint page, cairo_t *cr)
{
  const HwLanguage *before;
  const HwPage *p;

  g_return_if_fail (job != NULL && page < job->pages->len && cr != NULL);

  p = g_ptr_array_index (job->pages, page);
  before = speak (job);
  cairo_save (cr);
  hw_paper_stretch_apply (job->stretch, &job->paper, &job->sheet, p->width, p->height, cr);
  cairo_rectangle (cr, 0, 0, p->width, p->height);
  cairo_clip (cr);
  p->draw (job, p, cr);
  cairo_restore (cr);
  speak_as_before (job, before);
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

/* The bench sheet: what hangs beside the machine. First the whole plan on a page (picture, hoopings,
 * threads, motifs with where they come from), then the marks to draw, then a page for each hooping. */
#include <math.h>

#include "../geometry/language.h"
#include "../planning/parts-hoopings.h"
#include "hoop-picture.h"
#include "hooping-page.h"
#include "mark-page.h"
#include "page-frame.h"
#include "steps.h"
#include "words.h"

#define PICTURE_HEIGHT 112.0

/* Which hoopings stitch which part of a divided scene; and for which one the sheet is. */
static void
write_parts (HwWriter *writer)
{
  const HwPrintJob *job = writer->job;
  const GPtrArray *parts = job->plan->snapshot->parts;

  for (guint p = 0; p < parts->len; p++)
    {
      const HwPart *part = g_ptr_array_index (parts, p);
      g_autofree char *hoopings = hw_plan_part_text (job->plan, p);
      /* Translators: a part of the scene and its hoopings: "Part “Upper”: Hoopings 1 to 3." */
      g_autofree char *text = g_strdup_printf (_ ("Part “%s”: %s."), part->name, hoopings);
      g_autofree char *only = g_strdup_printf (_ ("%s This sheet is for this part only."), text);

      hw_writer_paragraph (writer, HW_TYPE_TEXT, job->options.part == p + 1,
                           job->options.part == p + 1 ? only : text);
    }
}

static void
write_title (HwWriter *writer)
{
  const HwPlan *plan = writer->job->plan;
  const char *name = plan->snapshot->name != NULL ? plan->snapshot->name : _ ("Unnamed scene");
  g_autofree char *sentence = hw_plan_sentence (plan);
  double y = hw_writer_take (writer, 8.4);
  cairo_t *cr = hw_writer_cr (writer);

  if (cr != NULL)
    {
      hw_ink (cr);
      hw_line (cr, writer->x, y - 1.2, writer->width, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT, name);
    }
  hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, sentence);
  if (plan->proof != NULL)
    hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, plan->proof);
  write_parts (writer);
}

static void
write_picture (HwWriter *writer)
{
  const HwPlan *plan = writer->job->plan;
  double width, height, y, left;
  cairo_t *cr;

  hw_writer_skip (writer, 4);
  hw_plan_picture_size (plan, writer->width, PICTURE_HEIGHT, &width, &height);
  y = hw_writer_take (writer, height + 6);
  left = writer->x + (writer->width - width) / 2;
  cr = hw_writer_cr (writer);
  if (cr == NULL)
    return;

  hw_draw_plan_picture (cr, plan, (HwBox){ left, y, left + width, y + height });
  hw_ink_pale (cr);
  hw_line (
      cr, writer->x + writer->width / 2, y + height + 1.6, writer->width, HW_TYPE_SMALL, FALSE,
      HW_LETTER_CENTRE,
      _ ("Full discs number the hoopings in order, an arrow on top of each; open rings number the motifs."));
}

/* "1 Fig branch, 3 Quince" */
static char *
motif_names (const HwPlan *plan, const HwHooping *hooping)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < hooping->n_motifs; i++)
    g_string_append_printf (text, "%s%u %s", i > 0 ? ", " : "", hw_order_number (hooping->motifs[i]),
                            hw_snapshot_motif (plan->snapshot, hooping->motifs[i])->name);

  return g_string_free (text, FALSE);
}

static void
write_hoopings (HwWriter *writer)
{
  const HwPlan *plan = writer->job->plan;
  HwColumn columns[] = {
    { NULL, 6, HW_LETTER_RIGHT },
    { _ ("Hoop"), 34, HW_LETTER_LEFT },
    { _ ("Motifs in stitching order"), 0, HW_LETTER_LEFT },
    { _ ("Changes"), 14, HW_LETTER_RIGHT },
    { _ ("Stitches"), 18, HW_LETTER_RIGHT },
    { _ ("Time"), 18, HW_LETTER_RIGHT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };

  hw_writer_heading (writer, _ ("Hoopings"), 12);
  if (plan->n_hoopings == 0)
    hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, _ ("There is nothing to hoop yet."));
  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      const HwHooping *h = &plan->hoopings[i];

      if (!hw_print_job_takes_hooping (writer->job, i))
        continue;
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      g_autofree char *motifs = motif_names (plan, h);
      g_autofree char *changes = hw_words_count (h->thread_changes);
      g_autofree char *stitches = hw_words_count (h->stitches);
      g_autofree char *minutes = hw_words_minutes (h->minutes);
      HwCell cells[] = {
        { .text = number },
        { .text = hw_snapshot_hoop (plan->snapshot, h->hoop)->name },
        { .text = motifs, .wrap = TRUE },
        { .text = changes },
        { .text = stitches },
        { .text = minutes },
      };

      hw_table_row (&table, cells);
    }
}

typedef struct
{
  const HwThreadBlock *block; /* the first in this thread */
  guint64 stitches;
} HwThreadSum;

static void
add_thread (GArray *sums, const HwThreadBlock *block)
{
  HwThreadSum sum = { block, block->stitches };

  for (guint k = 0; k < sums->len; k++)
    if (hw_thread_same (g_array_index (sums, HwThreadSum, k).block, block))
      {
        g_array_index (sums, HwThreadSum, k).stitches += block->stitches;
        return;
      }
  g_array_append_val (sums, sum);
}

/* Threads in the order they are first needed, with all their stitches. */
static GArray *
sum_threads (const HwPrintJob *job)
{
  const HwPlan *plan = job->plan;
  GArray *sums = g_array_new (FALSE, FALSE, sizeof (HwThreadSum));

  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      g_autoptr (GArray) steps = hw_plan_steps (plan, h);

      for (guint i = 0; i < steps->len && hw_print_job_takes_hooping (job, h); i++)
        add_thread (sums, hw_step_block (plan, &g_array_index (steps, HwBlockStep, i)));
    }

  return sums;
}

/* Two threads in a row, read down the left half first. */
static void
write_threads (HwWriter *writer)
{
  g_autoptr (GArray) sums = sum_threads (writer->job);
  guint rows = (sums->len + 1) / 2;
  HwColumn columns[] = {
    { NULL, 8, HW_LETTER_LEFT },
    { _ ("Thread"), 0, HW_LETTER_LEFT },
    { _ ("Stitches"), 18, HW_LETTER_RIGHT },
    { NULL, 4, HW_LETTER_LEFT },
    { NULL, 8, HW_LETTER_LEFT },
    { sums->len > 1 ? _ ("Thread") : NULL, 0, HW_LETTER_LEFT },
    { sums->len > 1 ? _ ("Stitches") : NULL, 18, HW_LETTER_RIGHT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };

  if (sums->len == 0)
    return;

  hw_writer_heading (writer, _ ("Threads, in the order they are first needed"), 12);
  for (guint row = 0; row < rows; row++)
    {
      HwCell cells[G_N_ELEMENTS (columns)] = { 0 };
      g_autofree char *first = NULL, *second = NULL;

      for (guint half = 0; half < 2; half++)
        {
          guint k = row + half * rows;
          char **kept = half == 0 ? &first : &second;
          const HwThreadSum *sum;

          if (k >= sums->len)
            continue;
          sum = &g_array_index (sums, HwThreadSum, k);
          *kept = hw_words_count ((guint)MIN (sum->stitches, G_MAXUINT));
          cells[4 * half] = (HwCell){ .swatch = &sum->block->colour };
          cells[4 * half + 1] = (HwCell){ .text = sum->block->name };
          cells[4 * half + 2] = (HwCell){ .text = *kept };
        }
      hw_table_row (&table, cells);
    }
}

static void
write_motifs (HwWriter *writer)
{
  const HwPlan *plan = writer->job->plan;
  const HwSnapshot *snapshot = plan->snapshot;
  HwUnit unit = writer->job->options.unit;
  HwColumn columns[] = {
    { NULL, 5, HW_LETTER_LEFT },
    { _ ("Motif"), 40, HW_LETTER_LEFT },
    { _ ("Size on the cloth"), unit == HW_UNIT_INCH ? 42 : 32, HW_LETTER_LEFT },
    { NULL, 14, HW_LETTER_RIGHT },
    { C_ ("narrow column", "Hooping"), 14, HW_LETTER_RIGHT },
    { _ ("Origin and licence"), 0, HW_LETTER_LEFT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };

  hw_writer_heading (writer, _ ("Motifs, back to front"), 12);
  if (snapshot->motifs->len == 0)
    hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, _ ("The scene has no motifs yet."));
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);
      HwBox box = motif->outline->box;
      double scale = motif->placement.scale;
      int hooping = hw_plan_hooping_of (plan, i);

      if (!hw_print_job_takes_motif (writer->job, i))
        continue;
      g_autofree char *number = g_strdup_printf ("%u", hw_order_number (i));
      g_autofree char *size = hw_words_size ((box.x1 - box.x0) * scale, (box.y1 - box.y0) * scale, unit);
      g_autofree char *percent = hw_words_percent (scale);
      g_autofree char *in = hooping >= 0 ? g_strdup_printf ("%d", hooping + 1) : g_strdup (_ ("none"));
      HwCell cells[] = {
        { .text = number, .ring = TRUE },
        { .text = motif->name },
        { .text = size, .small = unit == HW_UNIT_INCH },
        { .text = percent },
        { .text = in },
        { .text = motif->note, .wrap = TRUE, .small = TRUE },
      };

      hw_table_row (&table, cells);
    }
}

static void
write_problems (HwWriter *writer)
{
  const HwPlan *plan = writer->job->plan;
  HwColumn columns[] = { { NULL, 5, HW_LETTER_LEFT }, { NULL, 0, HW_LETTER_LEFT } };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };

  if (plan->problems == NULL || plan->problems->len == 0)
    return;

  hw_writer_heading (writer, _ ("To look at first"), 6);
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);
      HwCell cells[] = { { .tick = TRUE }, { .text = problem->text, .wrap = TRUE } };

      hw_table_row (&table, cells);
    }
}

/* HwWriterMatter */
static void
write_overview (HwWriter *writer, guint subject)
{
  const char *name = writer->job->plan->snapshot->name;
  g_autofree char *running = g_strdup_printf (_ ("%s, continued"), name != NULL ? name : _ ("Unnamed scene"));

  writer->running = running;
  write_title (writer);
  write_picture (writer);
  write_problems (writer);
  write_hoopings (writer);
  write_threads (writer);
  write_motifs (writer);
  writer->running = NULL;
}

static void
draw_overview_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  hw_writer_draw (job, 0, write_overview, page->part, cr);
  hw_page_footer (job, page, cr, hw_writer_margin (job), hw_writer_foot (job), 0, _ ("The whole plan"));
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

/* Takes name over. */
static gboolean
add_pages (HwPrintJob *job,
           guint subject,
           guint n,
           char *name,
           void (*draw) (const HwPrintJob *, const HwPage *, cairo_t *),
           GError **error)
{
  if (job->pages->len + n > HW_MOST_PAGES)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES,
                   _ ("The bench sheet would be more than %d pages; please plan the scene in parts."),
                   HW_MOST_PAGES);
      g_free (name);
      return FALSE;
    }

  for (guint part = 0; part < n; part++)
    {
      HwPage *page = hw_print_job_add_page (job, job->sheet.width, job->sheet.height);

      page->subject = subject;
      page->part = part;
      page->draw = draw;
      if (part == 0)
        page->name = name;
    }

  return TRUE;
}

gboolean
hw_bench_sheet_add (HwPrintJob *job, GError **error)
{
  const HwPlan *plan = job->plan;
  double margin = hw_writer_margin (job);

  if (job->sheet.width - 2 * margin < 150 || job->sheet.height - 2 * margin < 180)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET,
                   _ ("A sheet of %.0f × %.0f mm is too small for the bench sheet; A4 or Letter will do."),
                   job->sheet.width, job->sheet.height);
      return FALSE;
    }

  if (!add_pages (job, 0, hw_writer_count (job, 0, write_overview), g_strdup (_ ("The whole plan")),
                  draw_overview_page, error))
    return FALSE;
  if (hw_mark_page_needed (job)
      && !add_pages (job, 0, hw_writer_count (job, 0, hw_mark_page_write),
                     g_strdup (_ ("Marks to draw before you start")), draw_mark_page, error))
    return FALSE;
  for (guint h = 0; h < plan->n_hoopings; h++)
    if (hw_print_job_takes_hooping (job, h)
        && !add_pages (job, h, hw_writer_count (job, h, hw_hooping_page_write),
                       g_strdup_printf (_ ("Hooping %u"), h + 1), draw_hooping_page, error))
      return FALSE;

  return TRUE;
}

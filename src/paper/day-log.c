/* The log of the days, to keep with the finished cloth: first what happened, day by day, as it was written down at the machine; then,
 * hooping by hooping, the readings and what was entered. A long log is written in sections that each begin a page, so that one page can be
 * drawn without writing all before it. */
#include "day-log.h"

#include "page-frame.h"
#include "readings-table.h"
#include "words.h"
#include "writer.h"
#include "../geometry/figures.h"
#include "../geometry/language.h"

#define SECTION_LINES 250   /* a section ends with the day that brings it to so many */
#define SECTION_AT_MOST 600 /* or within a longer day */
#define SECTION_HOOPINGS 25
#define WORD_WRAP_FROM 40 /* letters that fit a line of the log in any case */

static char *
format_time (gint64 at, const char *format)
{
  g_autoptr (GDateTime) time = at != 0 ? g_date_time_new_from_unix_local (at) : NULL;

  return time != NULL ? hw_date_text (time, format) : g_strdup ("");
}

char *
hw_day_text (gint64 at)
{
  /* Translators: a date as g_date_time_format() takes it: "Wednesday, 25 November 2026". */
  return format_time (at, _ ("%A, %-d %B %Y"));
}

char *
hw_clock_text (gint64 at)
{
  return format_time (at, "%H:%M");
}

static const HwLogLine *
get_line (const HwPlan *plan, guint i)
{
  return g_ptr_array_index (plan->snapshot->log, i);
}

static guint
n_lines (const HwPlan *plan)
{
  return plan->snapshot->log != NULL ? plan->snapshot->log->len : 0;
}

static gboolean
same_day (gint64 a, gint64 b)
{
  g_autofree char *first = format_time (a, "%Y-%j"), *second = format_time (b, "%Y-%j");

  return g_str_equal (first, second);
}

/* "Hoopings stitched: 3 of 5. Hooping 4 is in the machine." */
static char *
how_far (const HwPlan *plan)
{
  GString *text = g_string_new (NULL);
  guint stitched = 0;

  for (guint i = 0; i < plan->n_hoopings; i++)
    stitched += plan->hoopings[i].hold == HW_PLACE_FROZEN;
  g_string_append_printf (text, _ ("Hoopings stitched: %u of %u."), stitched, plan->n_hoopings);
  for (guint i = 0; i < plan->n_hoopings; i++)
    if (plan->hoopings[i].hold != HW_PLACE_FROZEN && hw_work_of_hooping (plan, i) != NULL)
      g_string_append_printf (text, _ (" Hooping %u is in the machine."), i + 1);

  return g_string_free (text, FALSE);
}

static void
write_title (HwWriter *writer)
{
  const HwPlan *plan = writer->job->plan;
  g_autofree char *far = how_far (plan);
  double y = hw_writer_take (writer, 8.4);
  cairo_t *cr = hw_writer_cr (writer);

  if (cr != NULL)
    {
      hw_ink (cr);
      hw_line (cr, writer->x, y - 1.2, writer->width, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT,
               _ ("Log of the days"));
    }
  if (plan->n_hoopings > 0)
    hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, far);
  if (n_lines (plan) == 0)
    hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, _ ("Nothing is written in the log yet."));
}

/* The number of the hooping a line speaks of; empty where it speaks of none, or of one that is no more. */
static char *
hooping_of (const HwPlan *plan, const HwLogLine *line)
{
  int motif = line->motif != NULL ? hw_snapshot_find_motif (plan->snapshot, line->motif) : -1;
  int hooping = motif >= 0 ? hw_plan_hooping_of (plan, (guint)motif) : -1;

  return hooping >= 0 ? g_strdup_printf ("%d", hooping + 1) : g_strdup ("");
}

static void
write_line (HwTable *table, const HwLogLine *line)
{
  g_autofree char *clock = hw_clock_text (line->at);
  g_autofree char *hooping = hooping_of (table->writer->job->plan, line);
  HwCell cells[] = {
    { .text = clock },
    { .text = hooping },
    { .text = line->text, .wrap = g_utf8_strlen (line->text, -1) > WORD_WRAP_FROM },
  };

  hw_table_row (table, cells);
}

static void
write_days (HwWriter *writer, guint first, guint end)
{
  const HwPlan *plan = writer->job->plan;
  const HwColumn columns[] = {
    { C_ ("of day", "Time"), 12, HW_LETTER_LEFT },
    { C_ ("narrow column", "Hooping"), 14, HW_LETTER_RIGHT },
    { _ ("What happened"), 0, HW_LETTER_LEFT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };

  for (guint i = first; i < end; i++)
    {
      const HwLogLine *line = get_line (plan, i);

      if (i == first || !same_day (get_line (plan, i - 1)->at, line->at))
        {
          g_autofree char *day = hw_day_text (line->at);

          hw_writer_heading (writer, *day != '\0' ? day : _ ("On a day not known"), 12);
          table.begun = FALSE;
        }
      write_line (&table, line);
    }
}

/* "Begun Wednesday, 25 November 2026 at 17:05; stitched at 18:30." */
static char *
when_words (const HwWork *work)
{
  g_autofree char *day = hw_day_text (work->begun), *clock = hw_clock_text (work->begun);
  g_autofree char *end_day = hw_day_text (work->ended), *end_clock = hw_clock_text (work->ended);

  if (*day == '\0' && *end_day == '\0')
    return NULL;
  if (*end_day == '\0')
    return g_strdup_printf (_ ("Begun %s at %s."), day, clock);
  if (*day == '\0')
    return g_strdup_printf (_ ("Stitched %s at %s."), end_day, end_clock);
  if (g_str_equal (day, end_day))
    return g_strdup_printf (_ ("Begun %s at %s, stitched at %s."), day, clock, end_clock);

  return g_strdup_printf (_ ("Begun %s at %s, stitched %s at %s."), day, clock, end_day, end_clock);
}

static const char *
step_words (HwWorkStep step)
{
  static const char *const words[HW_N_WORK_STEPS]
      = { N_ ("Marks"),      N_ ("Hooping"),  N_ ("Laying the cloth"), N_ ("Centre"),    N_ ("Readings"),
          N_ ("Correction"), N_ ("Template"), N_ ("Stitching"),        N_ ("Afterwards") };

  return _ (words[step]);
}

static void
write_notes (HwWriter *writer, const HwWork *work)
{
  for (guint step = 0; step < HW_N_WORK_STEPS; step++)
    if (work->notes[step] != NULL)
      {
        g_autofree char *note
            = g_strdup_printf (_ ("%s: %s"), step_words ((HwWorkStep)step), work->notes[step]);

        hw_writer_skip (writer, 0.8);
        hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, note);
      }
}

static void
write_hooping (HwWriter *writer, guint index, const HwWork *work)
{
  const HwPlan *plan = writer->job->plan;
  const HwHooping *h = &plan->hoopings[index];
  g_autoptr (GString) motifs = g_string_new (NULL);
  g_autofree char *when = when_words (work);
  g_autofree char *heading = g_strdup_printf (
      h->hold == HW_PLACE_FROZEN ? _ ("Hooping %u · %s") : _ ("Hooping %u · %s · in the machine"), index + 1,
      hw_snapshot_hoop (plan->snapshot, h->hoop)->name);

  for (guint i = 0; i < h->n_motifs; i++)
    g_string_append_printf (motifs, "%s%u %s", i > 0 ? _ (", ") : "", hw_order_number (h->motifs[i]),
                            hw_snapshot_motif (plan->snapshot, h->motifs[i])->name);
  hw_writer_heading (writer, heading, 24);
  hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, motifs->str);
  if (when != NULL)
    hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, when);
  hw_writer_skip (writer, 1.2);
  hw_readings_write (writer, index, work, FALSE);
  write_notes (writer, work);
}

static void
write_hoopings (HwWriter *writer, guint first, guint end)
{
  const HwPlan *plan = writer->job->plan;
  gboolean begun = FALSE;

  for (guint i = first; i < end; i++)
    {
      const HwWork *work = hw_work_of_hooping (plan, i);

      if (work == NULL)
        continue;
      if (!begun)
        {
          hw_writer_skip (writer, 6);
          hw_writer_need (writer, 50);
          hw_writer_paragraph (writer, HW_TYPE_TITLE, FALSE, _ ("Readings and corrections"));
          begun = TRUE;
        }
      write_hooping (writer, i, work);
    }
}

/* Where the section that begins with a line ends. */
static guint
section_end (const HwPlan *plan, guint first)
{
  guint n = n_lines (plan);

  for (guint i = first + 1; i < n; i++)
    if (i - first >= SECTION_AT_MOST
        || (i - first >= SECTION_LINES && !same_day (get_line (plan, i - 1)->at, get_line (plan, i)->at)))
      return i;

  return n;
}

/* HwWriterMatter; subject: the first line of the section, or, past all lines, how far past them its first hooping is. The first hoopings
 * follow the last lines directly, so that a short log is one sheet. */
static void
write_section (HwWriter *writer, guint subject)
{
  const HwPlan *plan = writer->job->plan;
  guint n = n_lines (plan), end;

  writer->running = _ ("Log of the days, continued");
  if (subject > 0 && subject >= n)
    write_hoopings (writer, subject - n, MIN (subject - n + SECTION_HOOPINGS, plan->n_hoopings));
  else
    {
      end = section_end (plan, subject);
      if (subject == 0)
        write_title (writer);
      write_days (writer, subject, end);
      if (end == n)
        write_hoopings (writer, 0, MIN (SECTION_HOOPINGS, plan->n_hoopings));
    }
  writer->running = NULL;
}

static void
draw_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  hw_writer_draw (job, page->subject, write_section, page->part, cr);
  hw_page_footer (job, page, cr, hw_writer_margin (job), hw_writer_foot (job), 0,
                  _ ("What happened at the machine"));
}

static gboolean
add_section (HwPrintJob *job, guint subject, GError **error)
{
  guint n = hw_writer_count (job, subject, write_section);
  const HwPlan *plan = job->plan;

  if (job->pages->len + n > HW_MOST_PAGES)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES,
                   _ ("The log of the days would be more than %d pages, which nobody would print."),
                   HW_MOST_PAGES);
      return FALSE;
    }
  for (guint part = 0; part < n; part++)
    {
      HwPage *page = hw_print_job_add_page (job, job->sheet.width, job->sheet.height);

      page->subject = subject;
      page->part = part;
      page->draw = draw_page;
      if (part == 0)
        page->name
            = subject < n_lines (plan) ? hw_day_text (get_line (plan, subject)->at) : g_strdup (job->what);
    }

  return TRUE;
}

gboolean
hw_day_log_add (HwPrintJob *job, GError **error)
{
  guint n = n_lines (job->plan), first = 0;
  double margin = hw_writer_margin (job);

  if (job->sheet.width - 2 * margin < 150 || job->sheet.height - 2 * margin < 180)
    {
      g_set_error (
          error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET,
          _ ("A sheet of %.0f × %.0f mm is too small for the log of the days; A4 or Letter will do."),
          job->sheet.width, job->sheet.height);
      return FALSE;
    }

  do
    {
      if (!add_section (job, first, error))
        return FALSE;
      first = section_end (job->plan, first);
    }
  while (first < n);
  for (guint h = SECTION_HOOPINGS; h < job->plan->n_hoopings; h += SECTION_HOOPINGS)
    if (!add_section (job, n + h, error))
      return FALSE;

  return TRUE;
}

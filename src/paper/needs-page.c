/* What is needed, to be bought and laid ready before the first hooping: first the few figures and the threads that are looked for in a shop, then the
 * hoops. What is stitched already needs nothing more. */
#include "needs-page.h"

#include "needs-words.h"
#include "page-frame.h"
#include "thread-words.h"
#include "words.h"

#define TITLE 10.0
#define FACT_COLUMNS 3
#define FACT_ABOVE 2.0
#define FACT_BELOW 4.0
#define FACT_LABEL 4.4
#define FACT_VALUE 8.0
#define THREAD_COLUMNS 3
#define THREAD_CELLS 4 /* swatch, name, length, and white before the next */
#define THREAD_GAP 2.0

/* Returns how high it is. */
static double
set_need (const HwWriter *writer, const HwNeed *need, double x, double y, double width, gboolean draw)
{
  HwLettering how = { .size = HW_TYPE_SMALL, .width = width };
  double reason
      = need->reason != NULL ? hw_writer_measure (writer, width, HW_TYPE_SMALL, FALSE, need->reason) : 0;

  if (draw)
    {
      hw_draw_rule (writer->cr, x, y, width, 0.3);
      hw_ink_pale (writer->cr);
      hw_line (writer->cr, x, y + 1, width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, need->label);
      hw_ink (writer->cr);
      hw_line (writer->cr, x, y + FACT_LABEL, width, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT, need->value);
      if (need->reason != NULL)
        hw_letter (writer->cr, x, y + FACT_LABEL + FACT_VALUE, &how, need->reason);
    }

  return FACT_LABEL + FACT_VALUE + reason;
}

static void
write_row (HwWriter *writer, const HwNeed *needs)
{
  double width = (writer->width - (FACT_COLUMNS - 1) * HW_GUTTER) / FACT_COLUMNS, height = 0, y;

  for (guint c = 0; c < FACT_COLUMNS; c++)
    height = MAX (height, set_need (writer, &needs[c], 0, 0, width, FALSE));
  hw_writer_skip (writer, FACT_ABOVE);
  y = hw_writer_take (writer, height);
  for (guint c = 0; c < FACT_COLUMNS; c++)
    {
      if (hw_writer_cr (writer) != NULL)
        set_need (writer, &needs[c], writer->x + c * (width + HW_GUTTER), y, width, TRUE);
    }
  hw_writer_skip (writer, FACT_BELOW);
}

static void
write_facts (HwWriter *writer)
{
  HwNeed *needs = hw_needs_new (writer->job->supplies, writer->job->options.unit);

  for (guint first = 0; first < HW_N_NEEDS; first += FACT_COLUMNS)
    write_row (writer, &needs[first]);
  hw_needs_free (needs);
}

static void
write_hooping (HwTable *table, const HwPrintJob *job, const HwHoopingSupplies *taken)
{
  HwUnit unit = job->options.unit;
  gboolean small = unit == HW_UNIT_INCH;
  const HwHoop *hoop = hw_snapshot_hoop (job->plan->snapshot, job->plan->hoopings[taken->hooping].hoop);
  g_autofree char *number = g_strdup_printf ("%u", taken->hooping + 1);
  g_autofree char *piece = hw_needs_piece_text (taken, unit);
  g_autofree char *needle = hw_words_thread (taken->needle_metres, unit);
  g_autofree char *bobbin = hw_words_thread (taken->bobbin_metres, unit);
  g_autofree char *change = hw_needs_bobbin_text (taken);
  g_autofree char *minutes = hw_words_minutes (taken->minutes);
  HwCell cells[] = {
    { .text = number, .bold = TRUE },
    { .text = hoop->name, .wrap = TRUE },
    { .text = piece, .small = small },
    { .text = needle, .small = small },
    { .text = bobbin, .small = small },
    { .text = change, .wrap = TRUE },
    { .text = minutes },
  };

  hw_table_row (table, cells);
}

static void
write_hoopings (HwWriter *writer)
{
  const HwSupplies *supplies = writer->job->supplies;
  gboolean inch = writer->job->options.unit == HW_UNIT_INCH;
  HwColumn columns[] = {
    { NULL, 6, HW_LETTER_LEFT },
    { _ ("Hoop"), 0, HW_LETTER_LEFT },
    { _ ("Stabiliser"), 31, HW_LETTER_LEFT },
    { _ ("Needle"), inch ? 23 : 17, HW_LETTER_RIGHT },
    { _ ("Bobbin"), inch ? 23 : 17, HW_LETTER_RIGHT },
    { _ ("Bobbin in the machine"), 38, HW_LETTER_LEFT },
    { _ ("Time"), 19, HW_LETTER_RIGHT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };

  if (supplies->n_hoopings == 0)
    return;
  hw_writer_heading (writer, _ ("What each hooping takes"), 12);
  for (guint h = 0; h < supplies->n_hoopings; h++)
    write_hooping (&table, writer->job, &supplies->hoopings[h]);
}

/* "1, 2, 4": the hoopings to come that use the hoop; NULL when none does. */
static char *
hoopings_of_hoop (const HwPrintJob *job, guint hoop)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < job->plan->n_hoopings; i++)
    if (hw_supplies_of_hooping (job->supplies, i) != NULL && job->plan->hoopings[i].hoop == hoop)
      g_string_append_printf (text, "%s%u", text->len > 0 ? _ (", ") : "", i + 1);

  return text->len > 0 ? g_strdup (text->str) : NULL;
}

static void
write_hoops (HwWriter *writer)
{
  const HwSnapshot *snapshot = writer->job->plan->snapshot;
  HwUnit unit = writer->job->options.unit;
  HwColumn columns[] = {
    { _ ("Hoop"), 44, HW_LETTER_LEFT },
    { _ ("Sewing field"), 42, HW_LETTER_LEFT },
    { _ ("Outside"), 42, HW_LETTER_LEFT },
    { _ ("For the hoopings"), 0, HW_LETTER_LEFT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };

  for (guint i = 0; i < snapshot->hoops->len; i++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (snapshot, i);
      g_autofree char *hoopings = hoopings_of_hoop (writer->job, i);
      g_autofree char *field = hw_words_size (hoop->field_width, hoop->field_height, unit);
      g_autofree char *frame = hw_words_size (hoop->frame_width, hoop->frame_height, unit);
      HwCell cells[] = {
        { .text = hoop->name, .wrap = TRUE },
        { .text = field, .small = unit == HW_UNIT_INCH },
        { .text = frame, .small = unit == HW_UNIT_INCH },
        { .text = hoopings, .wrap = TRUE },
      };

      if (hoopings == NULL)
        continue;
      if (!table.begun)
        hw_writer_heading (writer, _ ("Hoops"), 12);
      hw_table_row (&table, cells);
    }
}

/* Several threads in a row, read down one column after the other. */
static void
write_threads (HwWriter *writer)
{
  const GPtrArray *threads = writer->job->supplies->threads;
  HwUnit unit = writer->job->options.unit;
  guint n = MIN (THREAD_COLUMNS, MAX (threads->len, 1)), rows = (threads->len + n - 1) / n;
  HwColumn columns[THREAD_COLUMNS * THREAD_CELLS];
  HwTable table = { writer, columns, n * THREAD_CELLS - 1, .gap = THREAD_GAP };

  if (threads->len == 0)
    return;

  for (guint c = 0; c < n; c++)
    {
      columns[c * THREAD_CELLS] = (HwColumn){ NULL, 8, HW_LETTER_LEFT };
      columns[c * THREAD_CELLS + 1] = (HwColumn){ _ ("Thread"), 0, HW_LETTER_LEFT };
      columns[c * THREAD_CELLS + 2]
          = (HwColumn){ _ ("Length"), unit == HW_UNIT_INCH ? 21 : 16, HW_LETTER_RIGHT };
      columns[c * THREAD_CELLS + 3] = (HwColumn){ NULL, HW_GUTTER - 2 * THREAD_GAP, HW_LETTER_LEFT };
    }
  hw_writer_heading (writer, _ ("Threads, in the order they are first needed"), 12);
  for (guint row = 0; row < rows; row++)
    {
      HwCell cells[G_N_ELEMENTS (columns)] = { 0 };
      g_auto (GStrv) kept = g_new0 (char *, THREAD_COLUMNS + 1);

      for (guint c = 0; c < n && row + c * rows < threads->len; c++)
        {
          const HwThreadUse *use = threads->pdata[row + c * rows];

          kept[c] = hw_words_thread (use->metres, unit);
          cells[c * THREAD_CELLS] = (HwCell){ .swatch = &use->colour };
          cells[c * THREAD_CELLS + 1] = (HwCell){ .text = use->name, .wrap = TRUE };
          cells[c * THREAD_CELLS + 2] = (HwCell){ .text = kept[c], .small = unit == HW_UNIT_INCH };
        }
      hw_table_row (&table, cells);
    }
  hw_writer_skip (writer, FACT_ABOVE);
  hw_writer_paragraph (writer, HW_TYPE_SMALL, FALSE, writer->job->supplies->assumptions);
}

static void
write_title (HwWriter *writer)
{
  double y = hw_writer_take (writer, TITLE);

  if (hw_writer_cr (writer) == NULL)
    return;

  hw_ink (writer->cr);
  hw_line (writer->cr, writer->x, y, writer->width, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT,
           _ ("What is needed"));
}

void
hw_needs_page_write (HwWriter *writer, guint subject)
{
  writer->running = _ ("What is needed, continued");
  write_title (writer);
  write_facts (writer);
  write_threads (writer);
  write_hoopings (writer);
  write_hoops (writer);
  writer->running = NULL;
}

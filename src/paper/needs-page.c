/* What is needed, to be bought and laid ready before the first hooping: first the few figures and the threads that are looked for in a shop, then the
 * hoops. What is stitched already needs nothing more. */
#include "needs-page.h"

#include "page-frame.h"
#include "thread-sums.h"
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

/* A figure to be seen from across the table, with what it is and why. */
typedef struct
{
  const char *label;
  char *value;
  char *reason; /* or NULL */
} Fact;

static HwUnit
other_unit (HwUnit unit)
{
  return unit == HW_UNIT_MM ? HW_UNIT_INCH : HW_UNIT_MM;
}

static Fact
cloth_fact (const HwPrintJob *job)
{
  const HwFabric *fabric = &job->plan->snapshot->fabric;
  HwUnit unit = job->options.unit;
  g_autofree char *other = hw_size_text (fabric->width, fabric->height, other_unit (unit));

  return (Fact){
    _ ("Cloth"),
    hw_size_text (fabric->width, fabric->height, unit),
    g_strdup_printf (fabric->hold == HW_HOLD_CLAMPED
                         ? _ ("%s\nHeld in the ring itself, so every frame lies on it.")
                         : _ ("%s\nFloated: stuck on hooped stabiliser."),
                     other),
  };
}

static Fact
thread_fact (const HwPrintJob *job, const HwThreadSums *sums)
{
  guint n = sums->threads->len;
  g_autofree char *colours = g_strdup_printf (ngettext ("In %u colour.", "In %u colours.", n), n);

  return (Fact){
    _ ("Needle thread, about"),
    hw_words_thread (sums->metres, job->options.unit),
    g_strdup_printf ("%s\n%s", colours, hw_thread_sums_basis ()),
  };
}

static Fact
time_fact (const HwPrintJob *job)
{
  guint64 stitches = 0;
  guint changes = 0;
  double minutes = 0;

  for (guint i = 0; i < job->plan->n_hoopings; i++)
    if (hw_hooping_is_to_come (job, i))
      {
        stitches += job->plan->hoopings[i].stitches;
        changes += job->plan->hoopings[i].thread_changes;
        minutes += job->plan->hoopings[i].minutes;
      }

  g_autofree char *count = hw_words_count ((guint)MIN (stitches, G_MAXUINT));
  return (Fact){
    _ ("Time, without the drawing of the marks"),
    hw_words_minutes (minutes),
    g_strdup_printf (
        ngettext ("For %s stitches and %u thread change.", "For %s stitches and %u thread changes.", changes),
        count, changes),
  };
}

/* Returns how high it is. */
static double
set_fact (const HwWriter *writer, const Fact *fact, double x, double y, double width, gboolean draw)
{
  HwLettering how = { .size = HW_TYPE_SMALL, .width = width };
  double reason
      = fact->reason != NULL ? hw_writer_measure (writer, width, HW_TYPE_SMALL, FALSE, fact->reason) : 0;

  if (draw)
    {
      hw_draw_rule (writer->cr, x, y, width, 0.3);
      hw_ink_pale (writer->cr);
      hw_line (writer->cr, x, y + 1, width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, fact->label);
      hw_ink (writer->cr);
      hw_line (writer->cr, x, y + FACT_LABEL, width, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT, fact->value);
      if (fact->reason != NULL)
        hw_letter (writer->cr, x, y + FACT_LABEL + FACT_VALUE, &how, fact->reason);
    }

  return FACT_LABEL + FACT_VALUE + reason;
}

static void
write_facts (HwWriter *writer, const HwThreadSums *sums)
{
  double width = (writer->width - (FACT_COLUMNS - 1) * HW_GUTTER) / FACT_COLUMNS, height = 0, y;
  Fact facts[] = { cloth_fact (writer->job), thread_fact (writer->job, sums), time_fact (writer->job) };

  for (guint c = 0; c < G_N_ELEMENTS (facts); c++)
    height = MAX (height, set_fact (writer, &facts[c], 0, 0, width, FALSE));
  hw_writer_skip (writer, FACT_ABOVE);
  y = hw_writer_take (writer, height);
  for (guint c = 0; c < G_N_ELEMENTS (facts); c++)
    {
      if (hw_writer_cr (writer) != NULL)
        set_fact (writer, &facts[c], writer->x + c * (width + HW_GUTTER), y, width, TRUE);
      g_free (facts[c].value);
      g_free (facts[c].reason);
    }
  hw_writer_skip (writer, FACT_BELOW);
}

/* "1, 2, 4": the hoopings to come that use the hoop; NULL when none does. */
static char *
hoopings_of_hoop (const HwPrintJob *job, guint hoop)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < job->plan->n_hoopings; i++)
    if (hw_hooping_is_to_come (job, i) && job->plan->hoopings[i].hoop == hoop)
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
write_threads (HwWriter *writer, const HwThreadSums *sums)
{
  const GArray *threads = sums->threads;
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
          const HwThreadSum *sum = &g_array_index (threads, HwThreadSum, row + c * rows);

          kept[c] = hw_words_thread (sum->metres, unit);
          cells[c * THREAD_CELLS] = (HwCell){ .swatch = &sum->block->colour };
          cells[c * THREAD_CELLS + 1] = (HwCell){ .text = sum->block->name, .wrap = TRUE };
          cells[c * THREAD_CELLS + 2] = (HwCell){ .text = kept[c], .small = unit == HW_UNIT_INCH };
        }
      hw_table_row (&table, cells);
    }
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
  g_autoptr (HwThreadSums) sums = hw_thread_sums_new (writer->job);

  writer->running = _ ("What is needed, continued");
  write_title (writer);
  write_facts (writer, sums);
  write_threads (writer, sums);
  write_hoops (writer);
  writer->running = NULL;
}

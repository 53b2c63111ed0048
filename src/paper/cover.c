/* The first page of the bench sheet: what the cloth is to become, as large as the page allows, with its hoopings numbered on it, and the list of
 * them. */
#include "cover.h"

#include "hoop-picture.h"
#include "page-frame.h"
#include "words.h"
#include "../geometry/language.h"
#include "../planning/parts-hoopings.h"

#define PICTURE_LEAST 64.0 /* lower than that and the list of hoopings goes on the next page */
#define PICTURE_ABOVE 5.0
#define CAPTION 6.0
#define TITLE_BELOW 2.0

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

  hw_writer_paragraph (writer, HW_TYPE_TITLE, TRUE, name);
  hw_writer_skip (writer, TITLE_BELOW);
  hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, sentence);
  if (plan->proof != NULL)
    hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, plan->proof);
  write_parts (writer);
}

static void
write_picture (HwWriter *writer, double room)
{
  const HwPlan *plan = writer->job->plan;
  double width, height, y, left;
  cairo_t *cr;

  hw_writer_skip (writer, PICTURE_ABOVE);
  hw_plan_picture_size (plan, writer->width, room, &width, &height);
  y = hw_writer_take (writer, height + CAPTION);
  left = writer->x + (writer->width - width) / 2;
  cr = hw_writer_cr (writer);
  if (cr == NULL)
    return;

  hw_draw_plan_picture (cr, plan, (HwBox){ left, y, left + width, y + height });
  hw_ink_pale (cr);
  hw_line (cr, writer->x, y + height + 1.8, writer->width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT,
           _ ("Full discs number the hoopings in order, an arrow at the top of each; open rings number the "
              "motifs."));
}

/* "1 Fig branch, 3 Quince" */
static char *
motif_names (const HwPlan *plan, const HwHooping *hooping)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < hooping->n_motifs; i++)
    g_string_append_printf (text, "%s%u %s", i > 0 ? _ (", ") : "", hw_order_number (hooping->motifs[i]),
                            hw_snapshot_motif (plan->snapshot, hooping->motifs[i])->name);

  return g_string_free (text, FALSE);
}

static void
write_total (HwTable *table)
{
  const HwPrintJob *job = table->writer->job;
  guint64 stitches = 0;
  guint changes = 0;
  double minutes = 0;

  for (guint i = 0; i < job->plan->n_hoopings; i++)
    if (hw_print_job_takes_hooping (job, i))
      {
        stitches += job->plan->hoopings[i].stitches;
        changes += job->plan->hoopings[i].thread_changes;
        minutes += job->plan->hoopings[i].minutes;
      }

  g_autofree char *changes_text = hw_words_count (changes);
  g_autofree char *stitches_text = hw_words_count ((guint)MIN (stitches, G_MAXUINT));
  g_autofree char *time = hw_words_minutes (minutes);
  HwCell cells[] = {
    { NULL },
    { NULL },
    { .text = _ ("In all"), .bold = TRUE },
    { NULL },
    { .text = changes_text, .bold = TRUE },
    { .text = stitches_text, .bold = TRUE },
    { .text = time, .bold = TRUE },
  };

  hw_table_row (table, cells);
}

/* Wide enough for hours and minutes in words, as in "10 h 35", which some languages say at length. */
static double
time_column (const HwWriter *writer)
{
  HwLettering how = { .size = HW_TYPE_TEXT, .bold = TRUE };
  g_autofree char *long_day = hw_words_minutes (10 * 60 + 35);
  double width;

  hw_letter_measure (writer->measure, &how, long_day, &width, NULL);
  return MAX (width, 16);
}

static void
write_hoopings (HwWriter *writer)
{
  const HwPlan *plan = writer->job->plan;
  HwColumn columns[] = {
    { NULL, 9, HW_LETTER_LEFT },
    { NULL, 5, HW_LETTER_RIGHT },
    { _ ("Hoop"), 33, HW_LETTER_LEFT },
    { _ ("Motifs in stitching order"), 0, HW_LETTER_LEFT },
    { _ ("Changes"), 14, HW_LETTER_RIGHT },
    { _ ("Stitches"), 16, HW_LETTER_RIGHT },
    { _ ("Time"), time_column (writer), HW_LETTER_RIGHT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };

  hw_writer_heading (writer, _ ("Hoopings"), 12);
  if (plan->n_hoopings == 0)
    {
      hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, _ ("There is nothing to hoop yet."));
      return;
    }
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
        { .chip = &i },
        { .text = number, .bold = TRUE },
        { .text = hw_snapshot_hoop (plan->snapshot, h->hoop)->name, .wrap = TRUE },
        { .text = motifs, .wrap = TRUE },
        { .text = changes },
        { .text = stitches },
        { .text = minutes },
      };

      hw_table_row (&table, cells);
    }
  write_total (&table);
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

/* HwWriterPart */
static void
write_problem_part (HwWriter *writer, guint subject, gpointer unused)
{
  write_problems (writer);
}

static void
write_hooping_part (HwWriter *writer, guint subject, gpointer unused)
{
  write_hoopings (writer);
}

/* As high as the picture has to be, mm: a wide scene is no higher over the whole width. */
static double
least_picture (const HwWriter *writer)
{
  double width, height;

  hw_plan_picture_size (writer->job->plan, writer->width, G_MAXDOUBLE / 4, &width, &height);

  return MIN (height, PICTURE_LEAST);
}

void
hw_cover_write (HwWriter *writer, guint subject)
{
  const char *name = writer->job->plan->snapshot->name;
  g_autofree char *running = g_strdup_printf (_ ("%s, continued"), name != NULL ? name : _ ("Unnamed scene"));
  double room, problems, hoopings;
  gboolean together;

  writer->running = running;
  write_title (writer);
  room = writer->bottom - writer->y - PICTURE_ABOVE - CAPTION;
  problems = hw_writer_height (writer, writer->width, 0, write_problem_part, NULL);
  hoopings = hw_writer_height (writer, writer->width, 0, write_hooping_part, NULL);
  together = room - problems - hoopings >= least_picture (writer);
  if (together)
    room -= problems + hoopings;
  else if (room - problems >= least_picture (writer))
    room -= problems;
  write_picture (writer, room);
  write_problems (writer);
  /* A list that would be divided begins a page of its own, unless it were divided there too. */
  if (!together && hoopings <= writer->bottom - writer->top - HW_RUNNING_HEIGHT)
    hw_writer_need (writer, G_MAXDOUBLE);
  write_hoopings (writer);
  writer->running = NULL;
}

/* The work of one hooping: its steps in a column to tick off and, beside them, the threads in order and the
 * cautions. */
#include "hooping-work.h"

#include "page-frame.h"
#include "steps.h"
#include "words.h"
#include "../geometry/language.h"

#define COLUMN_GAP 7.0
#define THREADS_WIDTH 56.0
#define LINE 4.6
#define STEP_INDENT 6.4
#define ITEM_WIDTH 12.0

static const char *
step_part (HwStepKind kind)
{
  if (kind <= HW_STEP_PRESS)
    return _ ("At the table");
  if (kind <= HW_STEP_TEMPLATE_OFF)
    return _ ("At the machine");
  if (kind <= HW_STEP_STITCH)
    return _ ("Stitching");

  return _ ("Afterwards");
}

/* Returns where in the column its line ends. */
static double
write_step (HwWriter *writer, const HwStep *step)
{
  double text_width = writer->width - STEP_INDENT - (step->strong ? 2 : 0);
  double text = hw_writer_measure (writer, text_width, HW_TYPE_TEXT, step->strong, step->text);
  double room = step->strong ? 3.0 : 0;
  double y = hw_writer_take (writer, text + 0.7 + room);
  HwLettering how = { .size = HW_TYPE_TEXT, .bold = step->strong };
  double end = 0;
  cairo_t *cr = hw_writer_cr (writer);

  hw_letter_measure (writer->measure, &how, step->text, &end, NULL);
  end += STEP_INDENT + 3;
  how.width = text_width;
  if (cr == NULL)
    return end;

  if (step->strong)
    {
      cairo_rectangle (cr, writer->x, y + 0.2, writer->width, text + room - 0.7);
      hw_ink (cr);
      cairo_set_line_width (cr, 0.7);
      cairo_stroke (cr);
    }
  hw_draw_tick_box (cr, writer->x + (step->strong ? 1.2 : 0.1), y + room / 2 + 0.25, 3.2);
  hw_ink (cr);
  hw_letter (cr, writer->x + STEP_INDENT + (step->strong ? 1 : 0), y + room / 2, &how, step->text);

  return end;
}

/* A motif to tick, by the number in its ring: after the lead on the same line, and on further lines as need
 * be. *at is where in the column it goes. */
static void
write_item (HwWriter *writer, guint number, double *at)
{
  cairo_t *cr;

  if (*at + ITEM_WIDTH > writer->width)
    {
      hw_writer_take (writer, LINE + 0.7);
      *at = STEP_INDENT;
    }
  cr = hw_writer_cr (writer);
  if (cr != NULL)
    {
      double x = writer->x + *at, y = writer->y - LINE - 0.5;

      hw_draw_tick_box (cr, x, y + 0.25, 3.2);
      hw_draw_ring_number (cr, x + 6.6, y + 1.85, 2.1, HW_TYPE_SMALL, number);
    }
  *at += ITEM_WIDTH;
}

static void
write_steps_part (HwWriter *writer, const char *part, gboolean first)
{
  double y;

  if (!first)
    hw_writer_skip (writer, 1.6);
  hw_writer_need (writer, 5 + 10);
  y = hw_writer_take (writer, 4.9);
  if (hw_writer_cr (writer) == NULL)
    return;

  hw_ink (writer->cr);
  hw_line (writer->cr, writer->x, y, writer->width, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT, part);
}

/* How many motifs are to be ticked after a lead. */
static guint
items_after (const GPtrArray *steps, guint lead)
{
  guint n = 0;

  while (lead + 1 + n < steps->len && ((const HwStep *)g_ptr_array_index (steps, lead + 1 + n))->motif >= 0)
    n++;

  return n;
}

static void
write_steps (HwWriter *writer, guint index)
{
  g_autoptr (GPtrArray) steps = hw_steps_new (writer->job->plan, index);
  const char *part = NULL;
  double at = 0;

  for (guint i = 0; i < steps->len; i++)
    {
      const HwStep *step = g_ptr_array_index (steps, i);

      if (part != step_part (step->kind))
        {
          part = step_part (step->kind);
          write_steps_part (writer, part, i == 0);
        }
      if (step->motif >= 0)
        write_item (writer, hw_order_number ((guint)step->motif), &at);
      else
        {
          guint items = items_after (steps, i);

          hw_writer_need (writer, items > 0 ? 2 * LINE : 0);
          at = write_step (writer, step);
          /* All on the lead's line, or all below it. */
          if (at + items * ITEM_WIDTH > writer->width)
            at = writer->width;
        }
    }
}

/* The thread in the needle when the hooping begins, or NULL. */
static const HwThreadBlock *
thread_before (const HwPlan *plan, guint index)
{
  for (guint h = index; h-- > 0;)
    {
      g_autoptr (GArray) steps = hw_plan_steps (plan, h);

      if (steps->len > 0)
        return hw_step_block (plan, &g_array_index (steps, HwBlockStep, steps->len - 1));
    }

  return NULL;
}

static void
write_thread_row (HwWriter *writer, const HwThreadBlock *block, guint number)
{
  g_autofree char *text = number > 0 ? g_strdup_printf ("%u", number) : g_strdup ("·");
  g_autofree char *stitches = hw_words_count (block->stitches);
  double y = hw_writer_take (writer, LINE);
  cairo_t *cr = hw_writer_cr (writer);

  if (cr == NULL)
    return;

  hw_ink_pale (cr);
  hw_line (cr, writer->x + 4.6, y, 0, HW_TYPE_TEXT, FALSE, HW_LETTER_RIGHT, text);
  hw_draw_swatch (cr, writer->x + 6.6, y + 0.5, 7, 2.9, block->colour);
  hw_ink (cr);
  hw_line (cr, writer->x + 15.6, y, writer->width - 15.6 - 15, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT,
           block->name);
  hw_line (cr, writer->x + writer->width, y, 14, HW_TYPE_TEXT, FALSE, HW_LETTER_RIGHT, stitches);
}

/* The motif the rows below it belong to. */
static void
write_threads_of (HwWriter *writer, guint motif, gboolean first)
{
  g_autofree char *name = g_strdup_printf ("%u %s", hw_order_number (motif),
                                           hw_snapshot_motif (writer->job->plan->snapshot, motif)->name);
  double y;

  if (!first)
    hw_writer_skip (writer, 1);
  hw_writer_need (writer, 4 + LINE);
  y = hw_writer_take (writer, 4);
  if (hw_writer_cr (writer) == NULL)
    return;

  hw_ink_pale (writer->cr);
  hw_line (writer->cr, writer->x, y, writer->width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, name);
}

static void
write_threads (HwWriter *writer, guint index)
{
  const HwPlan *plan = writer->job->plan;
  g_autoptr (GArray) steps = hw_plan_steps (plan, index);
  const HwThreadBlock *before = thread_before (plan, index);
  guint number = 0;
  gboolean stays = FALSE;
  double y = hw_writer_take (writer, 4.9);

  if (hw_writer_cr (writer) != NULL)
    {
      hw_ink (writer->cr);
      hw_line (writer->cr, writer->x, y, writer->width, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT,
               _ ("Threads in order"));
    }

  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);
      const HwThreadBlock *block = hw_step_block (plan, step);
      gboolean same = before != NULL && hw_thread_same (before, block);

      if (i == 0 || step->motif != g_array_index (steps, HwBlockStep, i - 1).motif)
        write_threads_of (writer, step->motif, i == 0);
      stays |= same;
      write_thread_row (writer, block, same ? 0 : ++number);
      before = block;
    }

  if (stays)
    {
      hw_writer_skip (writer, 1);
      hw_writer_paragraph (writer, HW_TYPE_SMALL, FALSE, _ ("· this thread is in the needle already"));
    }
}

void
hw_framed_write (HwWriter *writer, const char *title, const char *const *sentences)
{
  double inside = writer->width - 6, height = 8.6, y;
  HwLettering how = { .size = HW_TYPE_SMALL, .width = inside };
  cairo_t *cr;

  for (guint i = 0; sentences[i] != NULL; i++)
    height += hw_writer_measure (writer, inside, HW_TYPE_SMALL, FALSE, sentences[i]) + 1.1;

  hw_writer_skip (writer, 5);
  y = hw_writer_take (writer, height);
  cr = hw_writer_cr (writer);
  if (cr == NULL)
    return;

  cairo_rectangle (cr, writer->x, y, writer->width, height);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.3);
  cairo_stroke (cr);
  hw_line (cr, writer->x + 3, y + 2, inside, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT, title);
  y += 7.4;
  for (guint i = 0; sentences[i] != NULL; i++)
    y += hw_letter (cr, writer->x + 3, y, &how, sentences[i]) + 1.1;
}

void
hw_hooping_work_write (HwWriter *writer, guint index)
{
  g_autofree const char **cautions = hw_cautions_new ();
  double x = writer->x, width = writer->width, start_y = writer->y, left_y;
  guint start_page = writer->page, left_page;

  writer->width = width - THREADS_WIDTH - COLUMN_GAP;
  write_steps (writer, index);
  left_page = writer->page;
  left_y = writer->y;

  writer->page = start_page;
  writer->y = start_y;
  writer->x = x + width - THREADS_WIDTH;
  writer->width = THREADS_WIDTH;
  write_threads (writer, index);
  hw_framed_write (writer, _ ("Take care"), cautions);

  if (left_page > writer->page || (left_page == writer->page && left_y > writer->y))
    {
      writer->page = left_page;
      writer->y = left_y;
    }
  writer->x = x;
  writer->width = width;
}

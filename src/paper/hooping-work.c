/* The work of one hooping: its steps in a column to tick off, beside or below them the threads in order and what the hooping takes, and the
 * cautions at the foot of the page. */
#include "hooping-work.h"

#include "hooping-needs.h"
#include "page-frame.h"
#include "steps.h"
#include "thread-list.h"
#include "words.h"
#include "../geometry/language.h"

#define LINE 4.5
#define STEP_GAP 0.25
#define PART 4.8
#define PART_GAP 1.2
#define STEP_INDENT 5.8
#define ITEM_WIDTH 10.6
#define BOX 3.2
#define NEEDS_ABOVE 2.4
#define BELOW_COLUMNS 3
#define BELOW_GAP 4.0
#define SENTENCE_GAP 1.6
#define CAUTION_TITLE 22.0 /* wide */
#define CAUTION_ABOVE 2.6
#define CAUTION_RULE 1.4

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

/* A stitched hooping's steps are done. */
static void
draw_box (const HwWriter *writer, gboolean done, double x, double y)
{
  if (done)
    hw_draw_ticked_box (writer->cr, x, y, BOX);
  else
    hw_draw_tick_box (writer->cr, x, y, BOX);
}

/* Returns where in the column its line ends. */
static double
write_step (HwWriter *writer, const HwStep *step, gboolean done)
{
  double text_width = writer->width - STEP_INDENT - (step->strong ? 2 : 0);
  double text = hw_writer_measure (writer, text_width, HW_TYPE_TEXT, step->strong, step->text);
  double room = step->strong ? 3.0 : 0;
  double y = hw_writer_take (writer, text + STEP_GAP + room);
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
      cairo_rectangle (cr, writer->x, y + 0.2, writer->width, text + room - 0.6);
      hw_ink (cr);
      cairo_set_line_width (cr, 0.7);
      cairo_stroke (cr);
    }
  draw_box (writer, done, writer->x + (step->strong ? 1.2 : 0.1), y + room / 2 + 0.5);
  hw_ink (cr);
  hw_letter (cr, writer->x + STEP_INDENT + (step->strong ? 1 : 0), y + room / 2, &how, step->text);

  return end;
}

/* A motif to tick, by the number in its ring: after the lead on the same line, and on further lines as need
 * be. *at is where in the column it goes. */
static void
write_item (HwWriter *writer, guint number, gboolean done, double *at)
{
  cairo_t *cr;

  if (*at + ITEM_WIDTH > writer->width)
    {
      hw_writer_take (writer, LINE + STEP_GAP);
      *at = STEP_INDENT;
    }
  cr = hw_writer_cr (writer);
  if (cr != NULL)
    {
      double x = writer->x + *at, y = writer->y - LINE - STEP_GAP;

      draw_box (writer, done, x, y + 0.5);
      hw_draw_ring_number (cr, x + 6.3, y + 2.1, 2.1, HW_TYPE_SMALL, number);
    }
  *at += ITEM_WIDTH;
}

static void
write_steps_part (HwWriter *writer, const char *part, gboolean first)
{
  double y;

  if (!first)
    hw_writer_skip (writer, PART_GAP);
  hw_writer_need (writer, PART + 2 * LINE);
  y = hw_writer_take (writer, PART);
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
  g_autoptr (GPtrArray) steps = hw_steps_new (writer->job->plan, index, writer->job->supplies);
  gboolean done = writer->job->plan->hoopings[index].hold == HW_PLACE_FROZEN;
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
        write_item (writer, hw_order_number ((guint)step->motif), done, &at);
      else
        {
          guint items = items_after (steps, i);

          hw_writer_need (writer, items > 0 ? 2 * (LINE + STEP_GAP) : 0);
          at = write_step (writer, step, done);
          /* All on the lead's line, or all below it. */
          if (at + items * ITEM_WIDTH > writer->width)
            at = writer->width;
        }
    }
}

void
hw_framed_write (HwWriter *writer, const char *title, const char *const *sentences)
{
  double inside = writer->width - 6, height = 8.6, y;
  HwLettering how = { .size = HW_TYPE_SMALL, .width = inside };
  cairo_t *cr;

  for (guint i = 0; sentences[i] != NULL; i++)
    height += hw_writer_measure (writer, inside, HW_TYPE_SMALL, FALSE, sentences[i]) + SENTENCE_GAP;

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
    y += hw_letter (cr, writer->x + 3, y, &how, sentences[i]) + SENTENCE_GAP;
}

static void
write_beside (HwWriter *writer, guint index, const HwWorkLayout *layout)
{
  if (layout->thread_columns > 0)
    {
      hw_thread_list_write (writer, index, layout->thread_columns);
      hw_writer_skip (writer, NEEDS_ABOVE);
    }
  hw_hooping_needs_write (writer, index);
}

/* Narrow ones only where they save a page; the page without end has room for wide ones. */
static guint
columns_below (const HwWriter *writer, guint index)
{
  double room = hw_writer_bottom (writer->job) - writer->y;

  return hw_thread_list_height (writer, index, writer->width, BELOW_COLUMNS) <= room ? BELOW_COLUMNS
                                                                                     : BELOW_COLUMNS + 1;
}

void
hw_hooping_work_write (HwWriter *writer, guint index, const HwWorkLayout *layout)
{
  double x = writer->x, width = writer->width, start_y = writer->y, left_y;
  guint start_page = writer->page, left_page;

  writer->width = layout->steps_width;
  write_steps (writer, index);
  left_page = writer->page;
  left_y = writer->y;

  writer->page = start_page;
  writer->y = start_y;
  writer->x = x + layout->steps_width + HW_GUTTER;
  writer->width = width - layout->steps_width - HW_GUTTER;
  write_beside (writer, index, layout);

  if (left_page > writer->page || (left_page == writer->page && left_y > writer->y))
    {
      writer->page = left_page;
      writer->y = left_y;
    }
  writer->x = x;
  writer->width = width;
  if (layout->thread_columns == 0)
    {
      hw_writer_skip (writer, BELOW_GAP);
      hw_thread_list_write (writer, index, columns_below (writer, index));
    }
}

/* HwWriterPart */
static void
write_work (HwWriter *writer, guint index, gpointer layout)
{
  hw_hooping_work_write (writer, index, layout);
}

double
hw_hooping_work_height (const HwWriter *writer, guint index, const HwWorkLayout *layout)
{
  return hw_writer_height (writer, writer->width, index, write_work, (gpointer)layout);
}

/* The sentences from first up to end in one paragraph. Returns: (transfer full) */
static char *
join_cautions (const char *const *cautions, guint first, guint end)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = first; i < end; i++)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", cautions[i]);

  return g_strdup (text->str);
}

/* Two paragraphs beside each other, the title hanging before them. Returns their height; draws where there is something to draw on. */
static double
set_cautions (const HwWriter *writer, double y, cairo_t *cr)
{
  g_autofree const char **cautions = hw_cautions_new ();
  guint n = g_strv_length ((char **)cautions);
  double width = (writer->width - CAUTION_TITLE - HW_GUTTER) / 2, height = 0;
  HwLettering how = { .size = HW_TYPE_SMALL, .width = width };

  for (guint c = 0; c < 2; c++)
    {
      g_autofree char *text = join_cautions (cautions, c * (n / 2), c == 0 ? n / 2 : n);

      height = MAX (height, hw_writer_measure (writer, width, HW_TYPE_SMALL, FALSE, text));
      if (cr != NULL)
        hw_letter (cr, writer->x + CAUTION_TITLE + c * (width + HW_GUTTER), y, &how, text);
    }

  return height;
}

double
hw_cautions_height (const HwWriter *writer)
{
  return CAUTION_ABOVE + CAUTION_RULE + set_cautions (writer, 0, NULL);
}

void
hw_cautions_write (HwWriter *writer)
{
  double height = hw_cautions_height (writer), y;

  hw_writer_need (writer, height);
  y = MAX (writer->y, writer->bottom - height) + CAUTION_ABOVE;
  writer->y = writer->bottom;
  if (hw_writer_cr (writer) == NULL)
    return;

  hw_draw_rule (writer->cr, writer->x, y, writer->width, 0.3);
  y += CAUTION_RULE;
  hw_line (writer->cr, writer->x, y - 0.6, CAUTION_TITLE - 2, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT,
           _ ("Take care"));
  set_cautions (writer, y, writer->cr);
}

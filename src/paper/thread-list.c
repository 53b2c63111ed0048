/* The threads of a hooping in the order they go through the needle, each with its swatch, its stitches and the minutes they take: what is laid
 * out in a row before the first stitch. The rows stand under the motif they belong to, where motifs take turns each time it is taken up, and a
 * long list stands in columns of even height. */
#include "thread-list.h"

#include <math.h>

#include "page-frame.h"
#include "steps.h"
#include "words.h"
#include "../geometry/language.h"

#define TITLE 5.0
#define HEAD 4.0
#define LINE 4.15
#define NAME_LINE 3.8
#define NAME_GAP 1.0
#define NOTE_GAP 1.0
#define WIDE 52.0 /* of a column that has room for the number of stitches */
#define EVEN_STEP 0.5
#define MOST_COLUMNS 4

/* A thread, or the motif that the threads below it belong to. */
typedef struct
{
  guint motif;
  const HwThreadBlock *block; /* NULL: the motif */
  guint number;               /* in the row laid out; 0: in the needle already */
} ThreadRow;

/* The rows of one column of one page; those of a motif that is divided begin with its name again. */
typedef struct
{
  guint first, end;
} ThreadColumn;

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

/* (element-type ThreadRow) */
static GArray *
list_rows (const HwPlan *plan, guint index, gboolean *stays)
{
  g_autoptr (GArray) steps = hw_plan_steps (plan, index);
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (ThreadRow));
  const HwThreadBlock *before = thread_before (plan, index);
  guint number = 0;

  *stays = FALSE;
  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);
      ThreadRow row = { step->motif, NULL, 0 };

      if (i == 0 || step->motif != g_array_index (steps, HwBlockStep, i - 1).motif)
        g_array_append_val (rows, row);
      row.block = hw_step_block (plan, step);
      if (before != NULL && hw_thread_same (before, row.block))
        *stays = TRUE;
      else
        row.number = ++number;
      g_array_append_val (rows, row);
      before = row.block;
    }

  return rows;
}

static const ThreadRow *
get_row (const GArray *rows, guint i)
{
  return &g_array_index (rows, ThreadRow, i);
}

/* The rows from one on that a column of this height takes, at least one thread. */
static ThreadColumn
fill_column (const GArray *rows, guint first, double height)
{
  ThreadColumn column = { first, first };
  double used = HEAD + (get_row (rows, first)->block != NULL ? NAME_LINE : 0);
  gboolean any = FALSE;

  for (guint i = first; i < rows->len; i++)
    {
      gboolean name = get_row (rows, i)->block == NULL;

      /* A name is never the last of its column. */
      used += name ? NAME_LINE + (i > first ? NAME_GAP : 0) : LINE;
      if (any && used + (name ? LINE : 0) > height)
        break;
      any |= !name;
      column.end = i + 1;
    }

  return column;
}

static double
column_height (const GArray *rows, ThreadColumn column)
{
  double height = HEAD + (get_row (rows, column.first)->block != NULL ? NAME_LINE : 0);

  for (guint i = column.first; i < column.end; i++)
    height += get_row (rows, i)->block != NULL ? LINE : NAME_LINE + (i > column.first ? NAME_GAP : 0);

  return height;
}

/* Fills columns of this height; returns the first row that has no room. */
static guint
fill_columns (const GArray *rows, guint first, double height, guint n, ThreadColumn *columns)
{
  for (guint c = 0; c < n; c++)
    {
      columns[c] = first < rows->len ? fill_column (rows, first, height) : (ThreadColumn){ first, first };
      first = columns[c].end;
    }

  return first;
}

/* The lowest columns that take all from a row on, or those of the height there is. Returns their height. */
static double
lay_columns (const GArray *rows, guint first, double room, guint n, ThreadColumn *columns, guint *next)
{
  double height = MIN (room, (double)(rows->len - first) * LINE / n), tallest = 0;

  while ((*next = fill_columns (rows, first, height, n, columns)) < rows->len && height < room)
    height = MIN (room, height + EVEN_STEP);
  for (guint c = 0; c < n; c++)
    if (columns[c].end > columns[c].first)
      tallest = MAX (tallest, column_height (rows, columns[c]));

  return tallest;
}

static double
note_height (const HwWriter *writer, double width, gboolean stays)
{
  return stays ? NOTE_GAP
                     + hw_writer_measure (writer, width, HW_TYPE_SMALL, FALSE,
                                          _ ("· this thread is in the needle already"))
               : 0;
}

double
hw_thread_list_height (const HwWriter *writer, guint index, double width, guint n)
{
  ThreadColumn columns[MOST_COLUMNS];
  gboolean stays;
  g_autoptr (GArray) rows = list_rows (writer->job->plan, index, &stays);
  guint next;

  g_assert (n > 0 && n <= MOST_COLUMNS);
  if (rows->len == 0)
    return TITLE;

  return TITLE + lay_columns (rows, 0, G_MAXDOUBLE / 4, n, columns, &next)
         + note_height (writer, width, stays);
}

static double
draw_name (const HwWriter *writer, guint motif, double x, double y, double width)
{
  g_autofree char *name = g_strdup_printf ("%u %s", hw_order_number (motif),
                                           hw_snapshot_motif (writer->job->plan->snapshot, motif)->name);

  hw_ink_pale (writer->cr);
  hw_line (writer->cr, x, y + 0.3, width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, name);

  return NAME_LINE;
}

static void
draw_thread (const HwWriter *writer, const ThreadRow *row, double x, double y, double width)
{
  double pace = writer->job->plan->snapshot->machine.stitches_per_minute;
  double minutes = pace > 0 ? row->block->stitches / pace : 0;
  gboolean wide = width >= WIDE;
  g_autofree char *number = row->number > 0 ? g_strdup_printf ("%u", row->number) : g_strdup ("·");
  g_autofree char *stitches = hw_words_count (row->block->stitches);
  g_autofree char *time = hw_words_count ((guint)MAX (1, round (minutes)));
  double right = wide ? 22 : 7;
  cairo_t *cr = writer->cr;

  hw_ink_pale (cr);
  hw_line (cr, x + 4.6, y, 0, HW_TYPE_TEXT, FALSE, HW_LETTER_RIGHT, number);
  hw_draw_swatch (cr, x + 6.2, y + 0.5, 6, 2.9, row->block->colour);
  hw_ink (cr);
  hw_line (cr, x + 13.8, y, width - 13.8 - right, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT, row->block->name);
  if (wide)
    hw_line (cr, x + width - 8.5, y, 13, HW_TYPE_TEXT, FALSE, HW_LETTER_RIGHT, stitches);
  hw_line (cr, x + width, y, 6.5, HW_TYPE_TEXT, FALSE, HW_LETTER_RIGHT, time);
}

static void
draw_head (const HwWriter *writer, double x, double y, double width)
{
  cairo_t *cr = writer->cr;

  hw_ink_pale (cr);
  if (width >= WIDE)
    hw_line (cr, x + width - 8.5, y, 18, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, _ ("Stitches"));
  hw_line (cr, x + width, y, 8, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, _ ("min"));
  hw_draw_rule (cr, x, y + HEAD - 0.3, width, HW_HAIRLINE);
}

static void
draw_column (
    const HwWriter *writer, const GArray *rows, ThreadColumn column, double x, double y, double width)
{
  if (column.end == column.first)
    return;

  draw_head (writer, x, y, width);
  y += HEAD;
  if (get_row (rows, column.first)->block != NULL)
    y += draw_name (writer, get_row (rows, column.first)->motif, x, y, width);
  for (guint i = column.first; i < column.end; i++)
    {
      const ThreadRow *row = get_row (rows, i);

      if (row->block == NULL)
        y += (i > column.first ? NAME_GAP : 0)
             + draw_name (writer, row->motif, x, y + (i > column.first ? NAME_GAP : 0), width);
      else
        {
          draw_thread (writer, row, x, y, width);
          y += LINE;
        }
    }
}

static void
write_title (HwWriter *writer)
{
  double y;

  hw_writer_need (writer, TITLE + HEAD + NAME_LINE + LINE);
  y = hw_writer_take (writer, TITLE);
  if (hw_writer_cr (writer) == NULL)
    return;

  hw_ink (writer->cr);
  hw_line (writer->cr, writer->x, y, writer->width, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT,
           _ ("Threads in order"));
}

void
hw_thread_list_write (HwWriter *writer, guint index, guint n)
{
  ThreadColumn columns[MOST_COLUMNS];
  gboolean stays;
  g_autoptr (GArray) rows = list_rows (writer->job->plan, index, &stays);
  double width = (writer->width - (n - 1) * HW_GUTTER) / n, y;
  guint first = 0, next;

  g_assert (n > 0 && n <= MOST_COLUMNS);
  write_title (writer);
  while (first < rows->len)
    {
      hw_writer_need (writer, HEAD + NAME_LINE + LINE);
      y = hw_writer_take (writer, lay_columns (rows, first, writer->bottom - writer->y, n, columns, &next));
      for (guint c = 0; c < n && hw_writer_cr (writer) != NULL; c++)
        draw_column (writer, rows, columns[c], writer->x + c * (width + HW_GUTTER), y, width);
      first = next;
      if (first < rows->len)
        hw_writer_need (writer, G_MAXDOUBLE / 4);
    }
  if (stays)
    {
      hw_writer_skip (writer, NOTE_GAP);
      hw_writer_paragraph (writer, HW_TYPE_SMALL, FALSE, _ ("· this thread is in the needle already"));
    }
}

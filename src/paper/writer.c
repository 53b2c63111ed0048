/* Running matter on paper. Pages are written from the top by code that draws as it goes; a page that lies
 * before or after the wanted one is written without drawing, so that what stands where never depends on
 * which page is asked for. */
#include "writer.h"

#include "page-frame.h"
#include "../geometry/language.h"

#define LEADING 1.25 /* a line's height in em, at least */
#define CELL_GAP 3.0 /* white between columns */
#define TABLE_HEAD 4.4
#define FOOT_ABOVE 3.0 /* white over the footer */
#define ENDLESS 1e6
#define HAIR 0.01 /* sums of heights that differ by less are alike */

double
hw_writer_margin (const HwPrintJob *job)
{
  return MAX (job->options.sheet_margin, 18);
}

double
hw_writer_foot (const HwPrintJob *job)
{
  return MAX (job->options.sheet_margin, 12);
}

double
hw_writer_bottom (const HwPrintJob *job)
{
  return job->sheet.height - hw_writer_foot (job) - HW_FOOTER_HEIGHT - FOOT_ABOVE;
}

static void
writer_begin (HwWriter *writer, const HwPrintJob *job, guint target, cairo_t *cr, cairo_t *measure)
{
  double margin = hw_writer_margin (job);

  *writer = (HwWriter){
    .job = job,
    .cr = cr,
    .measure = measure,
    .target = target,
    .top = margin - 4,
    .bottom = hw_writer_bottom (job),
    .x = margin,
    .width = job->sheet.width - 2 * margin,
  };
  writer->y = writer->top;
}

static guint
writer_run (const HwPrintJob *job, guint subject, HwWriterMatter matter, guint target, cairo_t *cr)
{
  cairo_surface_t *nowhere = cairo_recording_surface_create (CAIRO_CONTENT_ALPHA, NULL);
  cairo_t *measure = cairo_create (nowhere);
  HwWriter writer;

  writer_begin (&writer, job, target, cr, measure);
  matter (&writer, subject);
  cairo_destroy (measure);
  cairo_surface_destroy (nowhere);

  return writer.last_page + 1;
}

guint
hw_writer_count (const HwPrintJob *job, guint subject, HwWriterMatter matter)
{
  return writer_run (job, subject, matter, 0, NULL);
}

void
hw_writer_draw (const HwPrintJob *job, guint subject, HwWriterMatter matter, guint page, cairo_t *cr)
{
  writer_run (job, subject, matter, page, cr);
}

cairo_t *
hw_writer_cr (const HwWriter *writer)
{
  return writer->page == writer->target ? writer->cr : NULL;
}

static void
next_page (HwWriter *writer)
{
  writer->page++;
  writer->last_page = MAX (writer->last_page, writer->page);
  writer->y = writer->top;
  if (writer->running == NULL)
    return;

  /* Columns side by side come to the same page one after the other. */
  if (hw_writer_cr (writer) != NULL && !writer->running_drawn)
    {
      hw_ink (writer->cr);
      hw_line (writer->cr, hw_writer_margin (writer->job), writer->top,
               writer->job->sheet.width - 2 * hw_writer_margin (writer->job), HW_TYPE_TEXT, TRUE,
               HW_LETTER_LEFT, writer->running);
      writer->running_drawn = TRUE;
    }
  writer->y += HW_RUNNING_HEIGHT;
}

/* Whether nothing stands on the page yet. */
static gboolean
at_top (const HwWriter *writer)
{
  return writer->y <= writer->top + (writer->page > 0 && writer->running != NULL ? HW_RUNNING_HEIGHT : 0);
}

void
hw_writer_need (HwWriter *writer, double height)
{
  if (writer->y + height > writer->bottom + HAIR && !at_top (writer))
    next_page (writer);
}

double
hw_writer_take (HwWriter *writer, double height)
{
  double y;

  hw_writer_need (writer, height);
  y = writer->y;
  writer->y += height;

  return y;
}

void
hw_writer_skip (HwWriter *writer, double height)
{
  if (!at_top (writer))
    writer->y += height;
}

double
hw_writer_height (const HwWriter *writer, double width, guint subject, HwWriterPart write, gpointer user_data)
{
  HwWriter trial = *writer;
  double start = writer->y;

  trial.cr = NULL;
  trial.top = start - 1; /* below other matter */
  trial.bottom = ENDLESS;
  trial.width = width;
  write (&trial, subject, user_data);

  return trial.y - start;
}

void
hw_writer_heading (HwWriter *writer, const char *text, double with)
{
  double y;
  cairo_t *cr;

  hw_writer_skip (writer, 4.5);
  hw_writer_need (writer, 6.2 + with);
  y = hw_writer_take (writer, 6.2);
  cr = hw_writer_cr (writer);
  if (cr == NULL)
    return;

  hw_ink (cr);
  hw_line (cr, writer->x, y, writer->width, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT, text);
}

double
hw_writer_measure (const HwWriter *writer, double width, double size, gboolean bold, const char *text)
{
  HwLettering how = { .size = size, .bold = bold, .width = width };
  g_autofree char *key = g_strdup_printf ("%g %g %d %s", width, size, bold, text);
  const double *known = g_hash_table_lookup (writer->job->heights, key);
  double height = 0;

  if (known != NULL)
    return *known;

  hw_letter_measure (writer->measure, &how, text, NULL, &height);
  height = MAX (height, size * LEADING);
  g_hash_table_insert (writer->job->heights, g_steal_pointer (&key), g_memdup2 (&height, sizeof height));

  return height;
}

void
hw_writer_paragraph (HwWriter *writer, double size, gboolean bold, const char *text)
{
  HwLettering how = { .size = size, .bold = bold, .width = writer->width };
  double height = hw_writer_measure (writer, writer->width, size, bold, text);
  double y = hw_writer_take (writer, MIN (height, writer->bottom - writer->top - HW_RUNNING_HEIGHT));
  cairo_t *cr = hw_writer_cr (writer);

  if (cr == NULL)
    return;

  hw_ink (cr);
  cairo_save (cr);
  cairo_rectangle (cr, writer->x - 1, writer->top - 1, writer->width + 2, writer->bottom - writer->top + 2);
  cairo_clip (cr);
  hw_letter (cr, writer->x, y, &how, text);
  cairo_restore (cr);
}

static double
table_gap (const HwTable *table)
{
  return table->gap > 0 ? table->gap : CELL_GAP;
}

/* Left edges and widths of the columns within the writer's column. */
static void
table_measures (const HwTable *table, double *x, double *width)
{
  double fixed = 0, at = table->writer->x;
  guint open = 0;

  for (guint i = 0; i < table->n_columns; i++)
    {
      fixed += table->columns[i].width;
      open += table->columns[i].width <= 0;
    }
  fixed += table_gap (table) * (table->n_columns - 1);
  for (guint i = 0; i < table->n_columns; i++)
    {
      width[i] = table->columns[i].width > 0 ? table->columns[i].width
                                             : MAX (5, (table->writer->width - fixed) / open);
      x[i] = at;
      at += width[i] + table_gap (table);
    }
}

static double
aligned (double x, double width, HwLetterAlign align)
{
  return align == HW_LETTER_LEFT ? x : align == HW_LETTER_RIGHT ? x + width : x + width / 2;
}

static void
table_title (const HwTable *table, cairo_t *cr, guint column, const double *x, const double *width, double y)
{
  const HwColumn *c = &table->columns[column];
  HwLetterAlign align = c->title_left ? HW_LETTER_LEFT : c->align;
  double room = width[column];

  if (c->title == NULL)
    return;

  for (guint i = column + 1; c->title_left && i < table->n_columns && table->columns[i].title == NULL; i++)
    room = x[i] + width[i] - x[column];
  hw_ink_pale (cr);
  hw_line (cr, aligned (x[column], room, align), y, room, HW_TYPE_SMALL, FALSE, align, c->title);
}

static void
table_head (HwTable *table, const double *x, const double *width)
{
  HwWriter *writer = table->writer;
  gboolean any = FALSE;
  double y;
  cairo_t *cr;

  for (guint i = 0; i < table->n_columns; i++)
    any |= table->columns[i].title != NULL;

  y = hw_writer_take (writer, any ? TABLE_HEAD : 0.1);
  cr = hw_writer_cr (writer);
  table->begun = TRUE;
  if (cr == NULL)
    return;

  for (guint i = 0; i < table->n_columns; i++)
    table_title (table, cr, i, x, width, y);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.3);
  cairo_move_to (cr, writer->x, writer->y);
  cairo_line_to (cr, writer->x + writer->width, writer->y);
  cairo_stroke (cr);
}

static double
cell_height (const HwTable *table, const HwCell *cell, double width)
{
  double size = cell->small ? HW_TYPE_SMALL : HW_TYPE_TEXT;
  double height;

  if (cell->text == NULL || !cell->wrap)
    return HW_TABLE_ROW;

  height = hw_writer_measure (table->writer, width, size, cell->bold, cell->text);

  return height < 1.5 * size ? HW_TABLE_ROW : height + (cell->small ? 2.2 : 1.4);
}

static void
draw_cell (cairo_t *cr, const HwCell *cell, double x, double y, double width, HwLetterAlign align)
{
  double size = cell->small ? HW_TYPE_SMALL : HW_TYPE_TEXT;
  /* Small and plain type stand on one line. */
  double down = cell->small ? 1.25 : 0.65;

  if (cell->swatch != NULL)
    hw_draw_swatch (cr, x, y + 1.2, MIN (width, 8), 3, *cell->swatch);
  else if (cell->chip != NULL)
    hw_draw_hooping_chip (cr, x, y + 0.9, width, HW_TABLE_ROW - 1.8, *cell->chip);
  else if (cell->tick)
    hw_draw_tick_box (cr, aligned (x, width - 3.2, align), y + 1.1, 3.2);
  else if (cell->ring && cell->text != NULL)
    hw_draw_ring_number (cr, x + 2.3, y + 2.7, 2.2, HW_TYPE_SMALL,
                         (guint)g_ascii_strtoull (cell->text, NULL, 10));
  else if (cell->blank)
    {
      hw_ink_grid (cr);
      cairo_set_line_width (cr, HW_HAIRLINE);
      cairo_rectangle (cr, x, y + 0.7, width, HW_TABLE_ROW - 1.4);
      cairo_stroke (cr);
    }
  else if (cell->text != NULL && cell->wrap)
    {
      HwLettering how = { .size = size, .bold = cell->bold, .width = width, .align = align };

      hw_ink (cr);
      hw_letter (cr, aligned (x, width, align), y + down, &how, cell->text);
    }
  else if (cell->text != NULL)
    {
      hw_ink (cr);
      hw_line (cr, aligned (x, width, align), y + down, width, size, cell->bold, align, cell->text);
    }
}

void
hw_table_row (HwTable *table, const HwCell *cells)
{
  HwWriter *writer = table->writer;
  double x[HW_TABLE_MOST_COLUMNS], width[HW_TABLE_MOST_COLUMNS];
  double height = HW_TABLE_ROW, y;
  guint page = writer->page;
  cairo_t *cr;

  g_assert (table->n_columns <= HW_TABLE_MOST_COLUMNS);

  table_measures (table, x, width);
  for (guint i = 0; i < table->n_columns; i++)
    height = MAX (height, cell_height (table, &cells[i], width[i]));
  height = MIN (height, writer->bottom - writer->top - TABLE_HEAD - HW_RUNNING_HEIGHT);

  hw_writer_need (writer, height + (table->begun ? 0 : TABLE_HEAD));
  if (!table->begun || writer->page != page)
    table_head (table, x, width);
  y = hw_writer_take (writer, height);
  cr = hw_writer_cr (writer);
  if (cr == NULL)
    return;

  for (guint i = 0; i < table->n_columns; i++)
    draw_cell (cr, &cells[i], x[i], y, width[i], table->columns[i].align);
  hw_draw_grid_line (cr, writer->x, writer->y, writer->width);
}

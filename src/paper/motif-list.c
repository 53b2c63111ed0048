/* The motifs, back to front, as they are numbered everywhere, like the list of pictures in a book: how large each lies on
 * the cloth, which hooping stitches it, and where it comes from and what its licence allows, as the person noted it. */
#include "motif-list.h"

#include <math.h>

#include "page-frame.h"
#include "template-artwork.h"
#include "words.h"
#include "../geometry/language.h"

#define TITLE_ABOVE 7.0
#define TITLE 10.0
#define COLUMNS 3
#define PICTURE_LEAST 24.0
#define PICTURE_MOST 60.0
#define PICTURE_STEP 1.0
#define NAME_ABOVE 1.6
#define NAME_BELOW 1.2
#define NAME_INDENT 6.4
#define ROW_GAP 6.0
#define PICTURES_AT_MOST 60 /* more of them are read more easily as a table */
#define PRINT_PIXELS 7.0    /* for each mm of paper */

/* What stands below a picture. */
static char *
motif_facts (const HwPrintJob *job, guint index)
{
  const HwMotif *motif = hw_snapshot_motif (job->plan->snapshot, index);
  HwBox box = motif->outline->box;
  double scale = motif->placement.scale;
  int hooping = hw_plan_hooping_of (job->plan, index);
  g_autofree char *size
      = hw_words_size ((box.x1 - box.x0) * scale, (box.y1 - box.y0) * scale, job->options.unit);
  g_autofree char *percent = hw_words_percent (scale);
  g_autofree char *in = hooping >= 0 ? g_strdup_printf (_ ("Hooping %d"), hooping + 1)
                                     : g_strdup (_ ("No hooping takes it yet"));

  return g_strdup_printf ("%s\n%s · %s", size, percent, in);
}

static double
column_width (const HwWriter *writer)
{
  return (writer->width - (COLUMNS - 1) * HW_GUTTER) / COLUMNS;
}

static double
words_height (const HwWriter *writer, guint index)
{
  const HwMotif *motif = hw_snapshot_motif (writer->job->plan->snapshot, index);
  g_autofree char *facts = motif_facts (writer->job, index);
  double width = column_width (writer);
  double height = NAME_ABOVE + NAME_BELOW
                  + hw_writer_measure (writer, width - NAME_INDENT, HW_TYPE_TEXT, TRUE, motif->name)
                  + hw_writer_measure (writer, width, HW_TYPE_SMALL, FALSE, facts);

  if (motif->note != NULL)
    height += 0.8 + hw_writer_measure (writer, width, HW_TYPE_SMALL, FALSE, motif->note);

  return height;
}

/* Of the row that begins with the nth motif, below its pictures. */
static double
row_words_height (const HwWriter *writer, const GArray *motifs, guint n)
{
  double height = 0;

  for (guint k = n; k < MIN (n + COLUMNS, motifs->len); k++)
    height = MAX (height, words_height (writer, g_array_index (motifs, guint, k)));

  return height;
}

static void
draw_motif (const HwWriter *writer, guint index, double x, double y, double picture)
{
  const HwMotif *motif = hw_snapshot_motif (writer->job->plan->snapshot, index);
  HwBox box = motif->outline->box;
  double scale = motif->placement.scale, width = column_width (writer);
  double shrink
      = MIN (width / MAX ((box.x1 - box.x0) * scale, 1), picture / MAX ((box.y1 - box.y0) * scale, 1));
  g_autofree char *facts = motif_facts (writer->job, index);
  HwLettering how = { .size = HW_TYPE_SMALL, .width = width };
  cairo_t *cr = writer->cr;

  shrink = MIN (shrink, 1);
  cairo_save (cr);
  cairo_translate (cr, x + width / 2, y + picture / 2);
  cairo_scale (cr, shrink, shrink);
  cairo_translate (cr, (motif->placement.mirrored ? 1 : -1) * (box.x0 + box.x1) / 2 * scale,
                   -(box.y0 + box.y1) / 2 * scale);
  hw_draw_artwork (cr, &(HwArtworkWish){ motif, 0, 0, HW_ARTWORK_CUT, PRINT_PIXELS * shrink });
  cairo_restore (cr);

  y += picture + NAME_ABOVE;
  hw_draw_ring_number (cr, x + 2.4, y + 2.1, 2.2, HW_TYPE_SMALL, hw_order_number (index));
  hw_ink (cr);
  y += hw_letter (cr, x + NAME_INDENT, y,
                  &(HwLettering){ .size = HW_TYPE_TEXT, .bold = TRUE, .width = width - NAME_INDENT },
                  motif->name)
       + NAME_BELOW;
  y += hw_letter (cr, x, y, &how, facts) + 0.8;
  hw_ink_pale (cr);
  if (motif->note != NULL)
    hw_letter (cr, x, y, &how, motif->note);
}

/* On how many pages the rows stand when their pictures are so high. */
static guint
count_pages (const HwWriter *writer, const double *words, guint n_rows, double picture)
{
  double y = writer->y;
  guint pages = 1;

  for (guint r = 0; r < n_rows; r++)
    {
      double height = words[r] + picture;

      if (y + height > writer->bottom && r > 0)
        {
          pages++;
          y = writer->top + HW_RUNNING_HEIGHT;
        }
      y += height + ROW_GAP;
    }

  return pages;
}

static void
write_pictures (HwWriter *writer, const GArray *motifs)
{
  guint n_rows = (motifs->len + COLUMNS - 1) / COLUMNS;
  g_autofree double *words = g_new (double, n_rows);
  double picture = PICTURE_MOST;
  guint least;

  for (guint r = 0; r < n_rows; r++)
    words[r] = row_words_height (writer, motifs, r * COLUMNS);
  /* As large as makes no more pages. */
  least = count_pages (writer, words, n_rows, PICTURE_LEAST);
  while (picture > PICTURE_LEAST && count_pages (writer, words, n_rows, picture) > least)
    picture -= PICTURE_STEP;

  for (guint r = 0; r < n_rows; r++)
    {
      double y = hw_writer_take (writer,
                                 MIN (words[r] + picture, writer->bottom - writer->top - HW_RUNNING_HEIGHT));

      for (guint k = r * COLUMNS; k < MIN ((r + 1) * COLUMNS, motifs->len) && hw_writer_cr (writer) != NULL;
           k++)
        draw_motif (writer, g_array_index (motifs, guint, k),
                    writer->x + (k % COLUMNS) * (column_width (writer) + HW_GUTTER), y, picture);
      hw_writer_skip (writer, ROW_GAP);
    }
}

static void
write_table (HwWriter *writer, const GArray *motifs)
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

  for (guint k = 0; k < motifs->len; k++)
    {
      guint i = g_array_index (motifs, guint, k);
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);
      HwBox box = motif->outline->box;
      double scale = motif->placement.scale;
      int hooping = hw_plan_hooping_of (plan, i);
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

void
hw_motif_list_write (HwWriter *writer, guint subject)
{
  const HwSnapshot *snapshot = writer->job->plan->snapshot;
  g_autoptr (GArray) motifs = g_array_new (FALSE, FALSE, sizeof (guint));
  double y;

  writer->running = _ ("The motifs, continued");
  for (guint i = 0; i < snapshot->motifs->len; i++)
    if (hw_print_job_takes_motif (writer->job, i))
      g_array_append_val (motifs, i);
  hw_writer_skip (writer, TITLE_ABOVE);
  hw_writer_need (writer, TITLE + PICTURE_LEAST + row_words_height (writer, motifs, 0));
  y = hw_writer_take (writer, TITLE);
  if (hw_writer_cr (writer) != NULL)
    {
      hw_ink (writer->cr);
      hw_line (writer->cr, writer->x, y, writer->width, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT,
               _ ("The motifs, back to front"));
    }
  if (motifs->len <= PICTURES_AT_MOST)
    write_pictures (writer, motifs);
  else
    write_table (writer, motifs);
  writer->running = NULL;
}

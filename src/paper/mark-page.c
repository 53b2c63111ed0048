/* What is drawn on the cloth before the stitching starts, measured from one corner so that errors do not add up: a picture to find each
 * cross on, and a table to draw from with a ruler and tick off. The advice is common practice, no source. */
#include "mark-page.h"

#include <math.h>

#include "../geometry/language.h"
#include "../planning/mark-list.h"
#include "hooping-work.h"
#include "mark-picture.h"
#include "page-frame.h"
#include "table-lengths.h"
#include "words.h"

#define PICTURE_HEIGHT 104.0
#define PICTURE_LEAST 60.0 /* rather than begin another page */
#define SAME_CROSS 0.06    /* mm */
#define AROUND_TABLE 22.0  /* the white, the heading and the table's head */

/* Whether a hooping that the job prints needs the cross. */
static gboolean
is_needed (const HwPrintJob *job, const HwListedMark *mark)
{
  for (guint h = 0; h < job->plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &job->plan->hoopings[h];

      if (!hw_print_job_takes_hooping (job, h))
        continue;
      if (hw_point_distance (hooping->centre, mark->at) < SAME_CROSS)
        return TRUE;
      for (guint m = 0; m < hooping->n_marks; m++)
        if (hw_point_distance (hooping->marks[m].at, mark->at) < SAME_CROSS)
          return TRUE;
    }
  return FALSE;
}

static HwMarkList *
list_of (const HwPrintJob *job)
{
  HwMarkList *list = hw_mark_list_new (job->plan);

  for (guint i = list->marks->len; i-- > 0 && job->options.part > 0;)
    if (!is_needed (job, g_ptr_array_index (list->marks, i)))
      g_ptr_array_remove_index (list->marks, i);
  return list;
}

gboolean
hw_mark_page_needed (const HwPrintJob *job)
{
  g_autoptr (HwMarkList) list = list_of (job);

  return list->marks->len > 0;
}

static void
write_title (HwWriter *writer, const HwMarkList *list)
{
  static const char *const advice[] = { N_ ("Draw with a pen that washes away, and try it on a scrap of the "
                                            "same cloth first: on some cloth the lines stay, and an iron "
                                            "can set them for good. The pen's own directions come first."),
                                        N_ ("Lay the cloth flat on a table, pressed and not stretched. "
                                            "Measure every mark from the same corner, never from the mark "
                                            "before it."),
                                        N_ ("Draw thin crosses along the edge line; a centre cross is turned "
                                            "as its hoop lies, with the arrow to the hoop's top. A mark "
                                            "with several names is drawn once and serves them all."),
                                        NULL };
  const char *told[G_N_ELEMENTS (advice)] = { NULL };
  double y = hw_writer_take (writer, 8.4);
  cairo_t *cr = hw_writer_cr (writer);

  if (cr != NULL)
    {
      hw_ink (cr);
      hw_line (cr, writer->x, y - 1.2, writer->width, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT,
               _ ("Marks to draw before you start"));
    }
  hw_writer_paragraph (writer, HW_TYPE_TEXT, FALSE, list->from);
  for (guint i = 0; advice[i] != NULL; i++)
    told[i] = _ (advice[i]);
  hw_framed_write (writer, _ ("Before you draw"), told);
}

static void
write_picture (HwWriter *writer, const HwMarkList *list)
{
  const HwPlan *plan = writer->job->plan;
  double width, height, y, left, spare;
  cairo_t *cr;

  hw_writer_skip (writer, 4);
  spare = writer->bottom - writer->y - AROUND_TABLE - HW_TABLE_ROW * list->marks->len;
  hw_mark_picture_size (plan, writer->width,
                        spare >= PICTURE_LEAST ? MIN (spare, PICTURE_HEIGHT) : PICTURE_HEIGHT, &width,
                        &height);
  y = hw_writer_take (writer, height);
  left = writer->x + (writer->width - width) / 2;
  cr = hw_writer_cr (writer);
  if (cr != NULL)
    hw_draw_mark_picture (cr, plan, list, (HwBox){ left, y, left + width, y + height });
}

/* Of a centre cross how it is turned; of a mark only what is out of the ordinary. */
static char *
what_it_is (const HwPlan *plan, const HwListedMark *mark)
{
  GString *text = g_string_new (NULL);

  for (int i = hw_centre_at (plan, mark->at, -1); mark->is_centre && i >= 0;
       i = hw_centre_at (plan, mark->at, i))
    {
      g_autofree char *turned = hw_words_turned_narrow (plan->hoopings[i].angle);

      g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", turned);
    }
  if (mark->is_held)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", _ ("where you put it"));

  return g_string_free (text, FALSE);
}

static void
write_mark (HwTable *table, const HwListedMark *mark, gboolean first)
{
  const HwPrintJob *job = table->writer->job;
  const HwHooping *h = &job->plan->hoopings[mark->hooping];
  HwUnit unit = job->options.unit;
  g_autofree char *hooping
      = g_strdup_printf ("%u · %s", mark->hooping + 1, hw_snapshot_hoop (job->plan->snapshot, h->hoop)->name);
  g_autofree char *right = hw_table_place (mark->right, unit, _ ("left"));
  g_autofree char *down = hw_table_place (mark->down, unit, _ ("up"));
  g_autofree char *what = what_it_is (job->plan, mark);
  HwCell cells[] = {
    { .text = first ? hooping : NULL },
    { .tick = TRUE },
    { .text = mark->name, .wrap = TRUE },
    { .text = right },
    { .text = down },
    { .text = what, .wrap = TRUE, .small = TRUE },
  };

  hw_table_row (table, cells);
}

static void
write_table (HwWriter *writer, const HwMarkList *list)
{
  HwUnit unit = writer->job->options.unit;
  double figure = unit == HW_UNIT_INCH ? 25 : 19;
  g_autofree char *right = hw_table_length_title (_ ("Right"), unit);
  g_autofree char *down = hw_table_length_title (_ ("Down"), unit);
  HwColumn columns[] = {
    { _ ("Hooping"), 46, HW_LETTER_LEFT }, { NULL, 4, HW_LETTER_LEFT },
    { _ ("Mark"), 26, HW_LETTER_LEFT },    { right, figure, HW_LETTER_RIGHT },
    { down, figure, HW_LETTER_RIGHT },     { NULL, 0, HW_LETTER_LEFT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) };
  guint page = 0;
  int hooping = -1;

  hw_writer_heading (writer, _ ("From the corner to each mark"), 12);
  for (guint i = 0; i < list->marks->len; i++)
    {
      const HwListedMark *mark = g_ptr_array_index (list->marks, i);

      /* The hooping is named once more at the top of a page. */
      hw_writer_need (writer, HW_TABLE_ROW);
      table.begun = table.begun && page == writer->page;
      write_mark (&table, mark, hooping != (int)mark->hooping || page != writer->page);
      hooping = (int)mark->hooping;
      page = writer->page;
    }
}

void
hw_mark_page_write (HwWriter *writer, guint subject)
{
  g_autoptr (HwMarkList) list = list_of (writer->job);

  writer->running = _ ("Marks to draw before you start, continued");
  write_title (writer, list);
  write_picture (writer, list);
  write_table (writer, list);
  writer->running = NULL;
}

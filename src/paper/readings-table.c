/* The readings of a hooping and the correction that was entered, as the person typed them at the machine: beside each other, where the plan
 * has a mark, where the needle stood over it, and the way from one to the other. */
#include "readings-table.h"

#include "../geometry/language.h"
#include "../registration/correction.h"
#include "table-lengths.h"

#define LETTER_WIDTH 14.0 /* the title "Mark" reaches over it */

/* "1.2 mm right, 0.4 mm away from you"; and whether the person left it out. */
static char *
off_words (const HwReading *reading, HwUnit unit)
{
  g_autofree char *way
      = hw_way_text ((HwPoint){ reading->at.x - reading->design.x, reading->at.y - reading->design.y }, unit);

  return reading->left_out ? g_strdup_printf (_ ("%s; left out"), way) : g_steal_pointer (&way);
}

static void
write_reading (HwTable *table, const HwReading *reading, HwUnit unit)
{
  HwCell cells[6] = { 0 };
  g_autofree char *across = NULL, *along = NULL;
  g_autofree char *off = off_words (reading, unit);

  cells[0] = (HwCell){ .text = reading->letter };
  hw_table_pair (&cells[1], reading->at.x, unit, FALSE, &across);
  hw_table_pair (&cells[3], reading->at.y, unit, TRUE, &along);
  cells[5] = (HwCell){ .text = off, .wrap = TRUE };
  hw_table_row (table, cells);
}

static void
write_unread (HwTable *table, const char *letter, gboolean pencil)
{
  HwCell cells[6] = { 0 };

  cells[0] = (HwCell){ .text = letter };
  cells[1] = cells[3] = (HwCell){ .blank = pencil };
  cells[5] = (HwCell){ .text = _ ("not read yet"), .small = TRUE };
  hw_table_row (table, cells);
}

static void
write_entered (HwWriter *writer, const HwWork *work, gboolean stitched)
{
  g_autofree char *text = NULL;

  if (work->corrected)
    {
      g_autofree char *correction = hw_correction_text (&work->correction, writer->job->options.unit);

      text = g_strdup_printf (_ ("Entered at the machine: %s"), correction);
    }
  else if (stitched || work->step > HW_WORK_ENTER)
    text = g_strdup (_ ("No correction was entered at the machine."));
  else
    return;

  hw_writer_skip (writer, 1.5);
  hw_writer_paragraph (writer, HW_TYPE_TEXT, TRUE, text);
}

static gboolean
is_mark_of (const HwHooping *hooping, const char *letter)
{
  for (guint i = 0; i < hooping->n_marks; i++)
    if (g_str_equal (hooping->marks[i].letter, letter))
      return TRUE;

  return FALSE;
}

void
hw_readings_write (HwWriter *writer, guint hooping, const HwWork *work, gboolean pencil)
{
  const HwHooping *h = &writer->job->plan->hoopings[hooping];
  gboolean stitched = h->hold == HW_PLACE_FROZEN;
  HwUnit unit = writer->job->options.unit;
  double figure = hw_table_figure_width (unit);
  g_autofree char *across = hw_table_length_title (_ ("Needle found at: across"), unit);
  g_autofree char *along = hw_table_length_title (_ ("along"), unit);
  HwColumn columns[] = {
    { _ ("Mark"), LETTER_WIDTH, HW_LETTER_LEFT },
    { across, figure, HW_LETTER_RIGHT, TRUE },
    { NULL, hw_table_way_width (writer, FALSE, 16), HW_LETTER_LEFT },
    { along, figure, HW_LETTER_RIGHT, TRUE },
    { NULL, hw_table_way_width (writer, TRUE, 16), HW_LETTER_LEFT },
    { _ ("From the planned place"), 0, HW_LETTER_LEFT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns), .gap = 2 };

  for (guint i = 0; work->n_readings > 0 && i < h->n_marks; i++)
    {
      const HwReading *reading = hw_work_get_reading (work, h->marks[i].letter);

      if (reading != NULL)
        write_reading (&table, reading, unit);
      else if (!stitched)
        write_unread (&table, h->marks[i].letter, pencil);
    }
  for (guint i = 0; i < work->n_readings; i++)
    if (!is_mark_of (h, work->readings[i].letter))
      write_reading (&table, &work->readings[i], unit);
  write_entered (writer, work, stitched);
}

/* What is laid ready for one hooping beside its threads: how much of them all it takes. */
#include "hooping-needs.h"

#include <math.h>

#include "page-frame.h"
#include "thread-words.h"

#define ROW 4.9

static void
write_row (HwWriter *writer, const char *label, const char *value)
{
  double y = hw_writer_take (writer, ROW), taken = 0;
  HwLettering how = { .size = HW_TYPE_TEXT };
  cairo_t *cr = hw_writer_cr (writer);

  if (cr == NULL)
    return;

  hw_letter_measure (cr, &how, value, &taken, NULL);
  hw_draw_grid_line (cr, writer->x, y, writer->width);
  hw_ink (cr);
  hw_line (cr, writer->x, y + 0.4, MAX (10, writer->width - taken - 2), HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT,
           label);
  hw_line (cr, writer->x + writer->width, y + 0.4, writer->width, HW_TYPE_TEXT, FALSE, HW_LETTER_RIGHT,
           value);
}

static void
write_length (HwWriter *writer, const char *label, double metres)
{
  g_autofree char *length = hw_words_thread (metres, writer->job->options.unit);

  if (isfinite (metres))
    write_row (writer, label, length);
}

static void
write_piece (HwWriter *writer, const HwHoopingSupplies *taken)
{
  g_autofree char *size = hw_size_text (taken->piece_width, taken->piece_height, writer->job->options.unit);

  if (taken->sheets > 0)
    write_row (writer, taken->sheets == 1 ? _ ("Stabiliser") : _ ("Stabiliser, each sheet"), size);
}

void
hw_hooping_needs_write (HwWriter *writer, guint hooping)
{
  const HwHoopingSupplies *taken = hw_supplies_of_hooping (writer->job->supplies, hooping);

  if (taken == NULL)
    return;
  write_piece (writer, taken);
  write_length (writer, _ ("Needle thread, about"), taken->needle_metres);
  write_length (writer, _ ("Bobbin thread, about"), taken->bobbin_metres);
}

/* What is laid ready for one hooping beside its threads: how much of them all it takes. */
#include "hooping-needs.h"

#include <math.h>

#include "page-frame.h"
#include "thread-sums.h"
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

void
hw_hooping_needs_write (HwWriter *writer, guint hooping)
{
  const HwPlan *plan = writer->job->plan;
  double metres = hw_thread_metres_of_hooping (plan, hooping);
  g_autofree char *thread = hw_words_thread (metres, writer->job->options.unit);

  if (plan->hoopings[hooping].hold != HW_PLACE_FROZEN && isfinite (metres))
    write_row (writer, _ ("Needle thread, about"), thread);
}

/* The bench and what is read at the machine: where the needle stood over each mark, and the correction that was entered. */
#include "bench.h"

#include <glib/gi18n.h>

#include "bench-private.h"

static const HwMark *
find_mark (const HwPin *pin, const char *letter)
{
  for (guint i = 0; i < pin->n_marks; i++)
    if (g_str_equal (pin->marks[i].letter, letter))
      return &pin->marks[i];
  return NULL;
}

static HwPoint
in_hoop (const HwPin *pin, HwPoint p)
{
  return hw_point_turn ((HwPoint){ p.x - pin->centre.x, p.y - pin->centre.y }, -pin->angle);
}

void
hw_bench_set_reading (HwBench *bench, const char *letter, HwPoint at)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (letter != NULL);

  HwWorkEdit edit;
  const HwPin *pin = hw_bench_get_begun (bench);
  const HwMark *mark = pin != NULL ? find_mark (pin, letter) : NULL;
  g_autofree char *name = g_strdup_printf (_ ("read mark %s"), letter);

  if (mark == NULL || !hw_work_edit_begin (&edit, bench, name))
    return;
  const HwReading *before = hw_work_get_reading (edit.work, letter);
  HwReading reading = { .design = in_hoop (pin, mark->at), .at = at };
  g_strlcpy (reading.letter, letter, sizeof reading.letter);
  reading.left_out = before != NULL && before->left_out;
  hw_work_set_reading (edit.work, &reading);
  hw_work_edit_end (&edit);
}

void
hw_bench_leave_out_reading (HwBench *bench, const char *letter, gboolean left_out)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (letter != NULL);

  HwWorkEdit edit;
  g_autofree char *name = left_out ? g_strdup_printf (_ ("leave mark %s out"), letter)
                                   : g_strdup_printf (_ ("use mark %s again"), letter);
  const HwPin *pin = hw_bench_get_begun (bench);
  const HwReading *before = pin != NULL ? hw_work_get_reading (pin->work, letter) : NULL;

  if (before == NULL || !hw_work_edit_begin (&edit, bench, name))
    return;
  HwReading reading = *hw_work_get_reading (edit.work, letter);
  reading.left_out = left_out != FALSE;
  hw_work_set_reading (edit.work, &reading);
  hw_work_edit_end (&edit);
}

void
hw_bench_set_readings (HwBench *bench, const char *name, const HwReading *readings, guint n)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (name != NULL);
  g_return_if_fail (readings != NULL || n == 0);

  HwWorkEdit edit;

  if (!hw_work_edit_begin (&edit, bench, name))
    return;
  g_clear_pointer (&edit.work->readings, g_free);
  edit.work->n_readings = 0;
  for (guint i = 0; i < n; i++)
    hw_work_set_reading (edit.work, &readings[i]);
  hw_work_edit_end (&edit);
}

void
hw_bench_forget_reading (HwBench *bench, const char *letter)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (letter != NULL);

  const HwPin *pin = hw_bench_get_begun (bench);
  g_autofree char *name = g_strdup_printf (_ ("forget mark %s"), letter);

  if (pin == NULL || hw_work_get_reading (pin->work, letter) == NULL)
    return;
  g_autofree HwReading *kept = g_new0 (HwReading, pin->work->n_readings);
  guint n = 0;
  for (guint i = 0; i < pin->work->n_readings; i++)
    if (!g_str_equal (pin->work->readings[i].letter, letter))
      kept[n++] = pin->work->readings[i];
  hw_bench_set_readings (bench, name, kept, n);
}

void
hw_bench_enter_correction (HwBench *bench, const HwCorrection *correction)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  HwWorkEdit edit;

  if (!hw_work_edit_begin (&edit, bench, _ ("enter the correction")))
    return;
  edit.work->corrected = correction != NULL;
  edit.work->correction = correction != NULL ? *correction : (HwCorrection){ 0 };
  edit.work->step = HW_WORK_TEMPLATE_OFF;
  if (correction != NULL)
    {
      g_autofree char *text = hw_correction_text (correction, bench->unit);
      hw_work_edit_say (&edit, HW_LOG_CORRECTION, text);
    }
  hw_work_edit_end (&edit);
}

void
hw_bench_hoop_again (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  HwWorkEdit edit;

  if (!hw_work_edit_begin (&edit, bench, _ ("hoop again")))
    return;
  g_clear_pointer (&edit.work->readings, g_free);
  edit.work->n_readings = 0;
  edit.work->corrected = FALSE;
  edit.work->correction = (HwCorrection){ 0 };
  edit.work->step = HW_WORK_HOOP;
  hw_work_edit_say (&edit, HW_LOG_NOTE, _ ("Hooped again."));
  hw_work_edit_end (&edit);
}

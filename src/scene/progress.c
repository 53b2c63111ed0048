/* The work at the machine as the scene keeps it: marks held, what the needle showed over them, what was entered, and the log of the days. */
#include "progress.h"

#include <string.h>

const char *const hw_work_step_nicks[]
    = { "mark", "hoop", "stick", "centre", "read", "enter", "template-off", "stitch", "done", NULL };
G_STATIC_ASSERT (G_N_ELEMENTS (hw_work_step_nicks) == HW_N_WORK_STEPS + 1);

const char *const hw_log_nicks[]
    = { "begun",  "readings", "correction", "template-off", "thread", "thread-broke", "note", "stitched",
        "landed", "draw-in",  "laid-aside", "bobbin",       NULL };
G_STATIC_ASSERT (G_N_ELEMENTS (hw_log_nicks) == HW_LOG_BOBBIN + 2);

const char *const hw_reading_by_nicks[] = { "needle", "photo", NULL };

HwHeldMark *
hw_held_mark_new (const char *motif, HwPoint at)
{
  HwHeldMark *mark;

  g_return_val_if_fail (motif != NULL, NULL);

  mark = g_new0 (HwHeldMark, 1);
  g_atomic_ref_count_init (&mark->ref_count);
  mark->motif = g_strdup (motif);
  mark->at = at;
  return mark;
}

HwHeldMark *
hw_held_mark_ref (const HwHeldMark *mark)
{
  HwHeldMark *shared = (HwHeldMark *)mark;

  g_return_val_if_fail (mark != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_held_mark_unref (HwHeldMark *mark)
{
  g_return_if_fail (mark != NULL);

  if (!g_atomic_ref_count_dec (&mark->ref_count))
    return;
  g_free (mark->motif);
  g_clear_pointer (&mark->unknown, hw_unknown_unref);
  g_free (mark);
}

HwWork *
hw_work_new (void)
{
  HwWork *work = g_new0 (HwWork, 1);

  g_atomic_ref_count_init (&work->ref_count);
  return work;
}

HwWork *
hw_work_copy (const HwWork *work)
{
  HwWork *copy;

  g_return_val_if_fail (work != NULL, NULL);

  copy = hw_work_new ();
  copy->step = work->step;
  copy->threads_done = work->threads_done;
  copy->new_bobbin = work->new_bobbin;
  copy->bobbin_at = work->bobbin_at;
  copy->readings = g_memdup2 (work->readings, work->n_readings * sizeof (HwReading));
  copy->n_readings = work->n_readings;
  copy->corrected = work->corrected;
  copy->correction = work->correction;
  for (guint i = 0; i < HW_N_WORK_STEPS; i++)
    copy->notes[i] = g_strdup (work->notes[i]);
  copy->begun = work->begun;
  copy->ended = work->ended;
  copy->unknown = hw_unknown_ref (work->unknown);
  return copy;
}

HwWork *
hw_work_ref (const HwWork *work)
{
  HwWork *shared = (HwWork *)work;

  g_return_val_if_fail (work != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_work_unref (HwWork *work)
{
  g_return_if_fail (work != NULL);

  if (!g_atomic_ref_count_dec (&work->ref_count))
    return;
  g_free (work->readings);
  for (guint i = 0; i < HW_N_WORK_STEPS; i++)
    g_free (work->notes[i]);
  g_clear_pointer (&work->unknown, hw_unknown_unref);
  g_free (work);
}

/* As marks are lettered: A ... Z, then AA and on. */
static int
compare_letters (const char *a, const char *b)
{
  gsize length_a = strlen (a), length_b = strlen (b);

  if (length_a != length_b)
    return length_a < length_b ? -1 : 1;
  return strcmp (a, b);
}

void
hw_work_set_reading (HwWork *work, const HwReading *reading)
{
  HwReading fresh;
  guint at = 0;

  g_return_if_fail (work != NULL);
  g_return_if_fail (reading != NULL && reading->letter[0] != '\0');

  fresh = *reading; /* which may be one of those about to move */
  while (at < work->n_readings && compare_letters (work->readings[at].letter, fresh.letter) < 0)
    at++;
  if (at == work->n_readings || strcmp (work->readings[at].letter, fresh.letter) != 0)
    {
      work->readings = g_renew (HwReading, work->readings, work->n_readings + 1);
      memmove (&work->readings[at + 1], &work->readings[at], (work->n_readings - at) * sizeof (HwReading));
      work->n_readings++;
    }
  work->readings[at] = fresh;
}

const HwReading *
hw_work_get_reading (const HwWork *work, const char *letter)
{
  g_return_val_if_fail (work != NULL, NULL);

  for (guint i = 0; i < work->n_readings; i++)
    {
      if (g_strcmp0 (work->readings[i].letter, letter) == 0)
        return &work->readings[i];
    }
  return NULL;
}

void
hw_work_set_note (HwWork *work, HwWorkStep step, const char *text)
{
  char *old;

  g_return_if_fail (work != NULL);
  g_return_if_fail ((guint)step < HW_N_WORK_STEPS);

  old = work->notes[step];
  work->notes[step] = text != NULL && text[0] != '\0' ? g_strdup (text) : NULL;
  g_free (old);
}

HwLogLine *
hw_log_line_new (gint64 at, HwLogKind kind, const char *motif, const char *text)
{
  HwLogLine *line;

  g_return_val_if_fail ((guint)kind <= HW_LOG_BOBBIN, NULL);

  line = g_new0 (HwLogLine, 1);
  g_atomic_ref_count_init (&line->ref_count);
  line->at = at;
  line->kind = kind;
  line->motif = g_strdup (motif);
  line->text = g_strdup (text != NULL ? text : "");
  return line;
}

HwLogLine *
hw_log_line_ref (const HwLogLine *line)
{
  HwLogLine *shared = (HwLogLine *)line;

  g_return_val_if_fail (line != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_log_line_unref (HwLogLine *line)
{
  g_return_if_fail (line != NULL);

  if (!g_atomic_ref_count_dec (&line->ref_count))
    return;
  g_free (line->motif);
  g_free (line->text);
  g_clear_pointer (&line->unknown, hw_unknown_unref);
  g_free (line);
}

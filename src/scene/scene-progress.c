/* What the person did on the cloth and at the machine: the marks she holds, and the log of the days. */
#include "record-compare.h"
#include "scene-private.h"

GPtrArray *
hw_scene_get_held_marks (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->held_marks;
}

void
hw_scene_set_held_marks (HwScene *self, GPtrArray *marks)
{
  g_autoptr (GPtrArray) old = NULL;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (marks != NULL);

  if (hw_held_marks_difference (self->held_marks, marks) == 0)
    return;
  old = self->held_marks;
  self->held_marks = g_ptr_array_new_full (marks->len, (GDestroyNotify)hw_held_mark_unref);
  for (guint i = 0; i < marks->len; i++)
    g_ptr_array_add (self->held_marks, hw_held_mark_ref (marks->pdata[i]));
  hw_scene_begin_change (self, HW_SCENE_CHANGE_PINS);
  hw_scene_end_change (self);
}

GPtrArray *
hw_scene_get_log (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->log;
}

/* The last lines of a log, each with a reference. Returns: (transfer full) */
static GPtrArray *
last_lines (GPtrArray *log, guint most)
{
  GPtrArray *lines = g_ptr_array_new_full (MIN (log->len, most) + 1, (GDestroyNotify)hw_log_line_unref);

  for (guint i = log->len > most ? log->len - most : 0; i < log->len; i++)
    g_ptr_array_add (lines, hw_log_line_ref (log->pdata[i]));
  return lines;
}

void
hw_scene_add_log_line (HwScene *self, HwLogLine *line)
{
  g_autoptr (GPtrArray) old = NULL;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (line != NULL);

  old = self->log;
  self->log = last_lines (old, HW_MOST_LOG_LINES - 1);
  g_ptr_array_add (self->log, hw_log_line_ref (line));
  hw_scene_begin_change (self, HW_SCENE_CHANGE_WORK);
  hw_scene_end_change (self);
}

void
hw_scene_replace_log (HwScene *self, GPtrArray *log)
{
  g_autoptr (GPtrArray) old = NULL;

  if (hw_log_difference (self->log, log) == 0)
    return;
  old = self->log;
  self->log = last_lines (log, HW_MOST_LOG_LINES);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_WORK);
  hw_scene_end_change (self);
}

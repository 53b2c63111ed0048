/* How far the stitching has come, into the JSON tree of a scene file: marks, the work on each hooping, the log. */
#include "scene-json.h"
#include "scene-writer.h"

#define LAST_SECOND 253402300799 /* 9999-12-31T23:59:59Z */

/* RFC 3339, in UTC. */
static void
set_time (JsonObject *object, const char *key, gint64 seconds)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (CLAMP (seconds, 0, LAST_SECOND));
  g_autofree char *text = g_strdup_printf ("%04d-%02d-%02dT%02d:%02d:%02dZ", g_date_time_get_year (time),
                                           g_date_time_get_month (time), g_date_time_get_day_of_month (time),
                                           g_date_time_get_hour (time), g_date_time_get_minute (time),
                                           g_date_time_get_second (time));

  json_object_set_string_member (object, key, text);
}

static void
set_point (JsonObject *object, const char *key, HwPoint point)
{
  hw_scene_writer_pair (object, key, point.x, point.y);
}

static JsonArray *
write_marks (const HwPin *pin)
{
  JsonArray *list = json_array_sized_new (pin->n_marks);

  for (guint i = 0; i < pin->n_marks; i++)
    {
      JsonObject *object = json_object_new ();

      hw_scene_writer_text (object, "id", pin->marks[i].letter);
      set_point (object, "at", pin->marks[i].at);
      json_array_add_object_element (list, object);
    }
  return list;
}

/* [["m1", 2], ["m2", 1]] */
static JsonArray *
write_turns (const HwPin *pin)
{
  JsonArray *list = json_array_sized_new (pin->n_turns);

  for (guint i = 0; i < pin->n_turns; i++)
    {
      JsonArray *turn = json_array_sized_new (2);

      json_array_add_string_element (turn, pin->motifs[pin->turns[i].motif]);
      json_array_add_int_element (turn, MIN (pin->turns[i].threads, HW_MOST_THREADS_DONE));
      json_array_add_array_element (list, turn);
    }
  return list;
}

static JsonArray *
write_readings (const HwWork *work)
{
  JsonArray *list = json_array_sized_new (work->n_readings);

  for (guint i = 0; i < work->n_readings; i++)
    {
      const HwReading *reading = &work->readings[i];
      JsonObject *object = json_object_new ();

      hw_scene_writer_text (object, "mark", reading->letter);
      set_point (object, "design", reading->design);
      set_point (object, "at", reading->at);
      if (reading->left_out)
        json_object_set_boolean_member (object, "left_out", TRUE);
      if (reading->by_photo)
        hw_scene_writer_text (object, "by", hw_reading_by_nicks[TRUE]);
      json_array_add_object_element (list, object);
    }
  return list;
}

static JsonObject *
write_correction (const HwCorrection *correction)
{
  JsonObject *object = json_object_new ();

  set_point (object, "shift", correction->shift);
  hw_scene_writer_number (object, "turn", correction->turn);
  return object;
}

/* Returns: (transfer full) (nullable): NULL without a note */
static JsonObject *
write_notes (const HwWork *work)
{
  g_autoptr (JsonObject) object = json_object_new ();

  for (guint i = 0; i < HW_N_WORK_STEPS; i++)
    {
      if (work->notes[i] != NULL)
        hw_scene_writer_text (object, hw_work_step_nicks[i], work->notes[i]);
    }
  return json_object_get_size (object) > 0 ? g_steal_pointer (&object) : NULL;
}

static JsonObject *
write_work (const HwWork *work)
{
  static const char *const parts[] = { "readings", "correction", NULL };
  JsonObject *object = json_object_new ();
  JsonObject *notes = write_notes (work);

  hw_scene_writer_text (object, "step", hw_work_step_nicks[work->step]);
  if (work->threads_done > 0)
    json_object_set_int_member (object, "threads_done", MIN (work->threads_done, HW_MOST_THREADS_DONE));
  if (work->new_bobbin)
    json_object_set_int_member (object, "bobbin_at", MIN (work->bobbin_at, HW_MOST_THREADS_DONE));
  if (work->n_readings > 0)
    json_object_set_array_member (object, "readings", write_readings (work));
  if (work->corrected)
    json_object_set_object_member (object, "correction", write_correction (&work->correction));
  if (notes != NULL)
    json_object_set_object_member (object, "notes", notes);
  if (work->begun != 0)
    set_time (object, "begun", work->begun);
  if (work->ended != 0)
    set_time (object, "ended", work->ended);
  hw_scene_writer_unknown_but (object, work->unknown, parts);
  return object;
}

void
hw_scene_writer_pin_work (JsonObject *object, const HwPin *pin)
{
  static const char *const parts[] = { "marks", NULL };

  if (pin->n_turns > 0)
    json_object_set_array_member (object, "turns", write_turns (pin));
  if (pin->n_marks > 0)
    json_object_set_array_member (object, "marks", write_marks (pin));
  if (pin->work != NULL)
    json_object_set_object_member (object, "work", write_work (pin->work));
  hw_scene_writer_unknown_but (object, pin->unknown, parts);
}

JsonArray *
hw_scene_writer_held_marks (GPtrArray *marks)
{
  JsonArray *list = json_array_sized_new (marks->len);

  for (guint i = 0; i < marks->len; i++)
    {
      const HwHeldMark *mark = marks->pdata[i];
      JsonObject *object = json_object_new ();

      hw_scene_writer_text (object, "motif", mark->motif);
      set_point (object, "at", mark->at);
      hw_scene_writer_unknown (object, mark->unknown);
      json_array_add_object_element (list, object);
    }
  return list;
}

JsonArray *
hw_scene_writer_log (GPtrArray *log)
{
  JsonArray *list = json_array_sized_new (log->len);

  for (guint i = 0; i < log->len; i++)
    {
      const HwLogLine *line = log->pdata[i];
      JsonObject *object = json_object_new ();

      set_time (object, "at", line->at);
      hw_scene_writer_text (object, "what", hw_log_nicks[line->kind]);
      if (line->motif != NULL)
        hw_scene_writer_text (object, "motif", line->motif);
      if (line->text[0] != '\0')
        hw_scene_writer_text (object, "text", line->text);
      hw_scene_writer_unknown (object, line->unknown);
      json_array_add_object_element (list, object);
    }
  return list;
}

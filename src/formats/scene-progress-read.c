/* How far the stitching has come, from the JSON tree of a scene file: marks, the work on each hooping, the log. */
#include <string.h>

#include "scene-json.h"
#include "scene-reader.h"
#include "../geometry/language.h"

static const char *const mark_keys[] = { "id", "at", NULL };
static const char *const held_mark_keys[] = { "motif", "at", NULL };
static const char *const reading_keys[] = { "mark", "design", "at", "left_out", "by", NULL };
static const char *const correction_keys[] = { "shift", "turn", NULL };
static const char *const work_keys[]
    = { "step", "threads_done", "bobbin_at", "readings", "correction", "notes", "begun", "ended", NULL };
static const char *const log_keys[] = { "at", "what", "motif", "text", NULL };

/* A member that must hold something. */
static void
expected_member (HwJsonWalk *walk, JsonObject *in, const char *key, const char *expected)
{
  gsize mark = hw_json_walk_enter (walk, key);

  hw_json_walk_expected (walk, expected, json_object_get_member (in, key));
  hw_json_walk_leave (walk, mark);
}

/* A letter that none of taken is; it is added there. Leaves letter empty when there is none. */
static void
read_letter (HwJsonWalk *walk, JsonObject *in, const char *key, GHashTable *taken, char letter[4])
{
  const char *text = hw_json_walk_text (walk, in, key, TRUE, NULL);
  gsize length = text != NULL ? strlen (text) : 0;
  gsize mark;

  if (text == NULL)
    return;
  for (const char *c = text; *c != '\0'; c++)
    {
      if (!g_ascii_isalnum (*c) || length > 3)
        {
          expected_member (walk, in, key, _ ("one to three letters or digits, like \"A\""));
          return;
        }
    }
  mark = hw_json_walk_enter (walk, key);
  if (g_hash_table_add (taken, g_strdup (text)))
    memcpy (letter, text, length + 1);
  else
    hw_json_walk_refuse (walk, _ ("expected each mark once, found \"%s\" again."), text);
  hw_json_walk_leave (walk, mark);
}

/* RFC 3339, in UTC, to the second. Returns: seconds since 1970, 0 when there is none */
static gint64
read_time (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required)
{
  static const char form[] = "0000-00-00T00:00:00Z";
  const char *expected = _ ("a time like \"2026-11-25T17:00:00Z\"");
  JsonNode *node = json_object_get_member (in, key);
  g_autoptr (GDateTime) time = NULL;
  const char *text = NULL;
  gboolean fits;

  if (!required && (node == NULL || JSON_NODE_HOLDS_NULL (node)))
    return 0;
  if (node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING)
    text = json_node_get_string (node);
  fits = text != NULL && strlen (text) == strlen (form);
  for (gsize i = 0; fits && form[i] != '\0'; i++)
    fits = form[i] == '0' ? g_ascii_isdigit (text[i]) : text[i] == form[i];
  if (fits)
    time = g_date_time_new_from_iso8601 (text, NULL);
  if (time != NULL && g_date_time_to_unix (time) >= 0)
    return g_date_time_to_unix (time);
  expected_member (walk, in, key, expected);
  return 0;
}

/* Keeps the keys not known of an item of a list, under the name it goes by. */
static void
keep_item_keys (JsonArray *kept, JsonObject *in, const char *name_key, const char *const *known)
{
  HwUnknown *unknown = hw_json_unknown (in, known);
  JsonObject *members;

  if (unknown == NULL)
    return;
  members = json_object_new ();
  json_object_set_member (members, name_key, json_node_copy (json_object_get_member (in, name_key)));
  for (GList *key = json_object_get_members (unknown->members); key != NULL;
       key = g_list_delete_link (key, key))
    json_object_set_member (members, key->data,
                            json_node_copy (json_object_get_member (unknown->members, key->data)));
  json_array_add_object_element (kept, members);
  hw_unknown_unref (unknown);
}

/* Takes over a member for the keys not known, made when there are none yet. */
static void
keep_part (HwUnknown **unknown, const char *key, JsonNode *part)
{
  if (*unknown == NULL)
    *unknown = hw_unknown_new (json_object_new ());
  json_object_set_member ((*unknown)->members, key, part);
}

static void
keep_list (HwUnknown **unknown, const char *key, JsonArray *list)
{
  if (json_array_get_length (list) > 0)
    keep_part (unknown, key, json_node_init_array (json_node_alloc (), list));
}

static void
keep_object (HwUnknown **unknown, const char *key, HwUnknown *rest)
{
  if (rest != NULL)
    keep_part (unknown, key, json_node_init_object (json_node_alloc (), rest->members));
  hw_unknown_unref (rest);
}

static void
read_marks (HwJsonWalk *walk, JsonObject *pin_in, HwPin *pin)
{
  JsonArray *list = hw_json_walk_list (walk, pin_in, "marks", FALSE, _ ("a list of marks"));
  g_autoptr (JsonArray) kept = json_array_new ();
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "marks");

  if (n > HW_MOST_PIN_MARKS)
    hw_json_walk_refuse (walk, _ ("expected at most %d marks in one hooping, found %u."), HW_MOST_PIN_MARKS,
                         n);
  else if (n > 0)
    pin->marks = g_new0 (HwMark, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);

      if (in != NULL)
        {
          read_letter (walk, in, "id", taken, pin->marks[i].letter);
          pin->marks[i].at = hw_scene_reader_place (walk, in, "at");
          pin->n_marks = i + 1;
          if (walk->error == NULL)
            keep_item_keys (kept, in, "id", mark_keys);
        }
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
  keep_list (&pin->unknown, "marks", kept);
}

/* One turn: ["m1", 2]. FALSE when it is none. */
static gboolean
read_turn (JsonNode *node, const HwPin *pin, HwThreadTurn *turn)
{
  JsonArray *pair = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  JsonNode *motif, *threads;
  gint64 n;

  if (pair == NULL || json_array_get_length (pair) != 2)
    return FALSE;
  motif = json_array_get_element (pair, 0);
  threads = json_array_get_element (pair, 1);
  if (!JSON_NODE_HOLDS_VALUE (motif) || json_node_get_value_type (motif) != G_TYPE_STRING
      || !JSON_NODE_HOLDS_VALUE (threads) || json_node_get_value_type (threads) != G_TYPE_INT64)
    return FALSE;
  n = json_node_get_int (threads);
  if (n < 1 || n > HW_MOST_THREADS_DONE)
    return FALSE;
  turn->threads = (guint)n;
  for (turn->motif = 0; pin->motifs != NULL && pin->motifs[turn->motif] != NULL; turn->motif++)
    if (g_str_equal (pin->motifs[turn->motif], json_node_get_string (motif)))
      return TRUE;
  return FALSE;
}

static void
read_turns (HwJsonWalk *walk, JsonObject *pin_in, HwPin *pin)
{
  JsonArray *list = hw_json_walk_list (walk, pin_in, "turns", FALSE, _ ("a list of turns"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  g_autofree HwThreadTurn *turns = g_new0 (HwThreadTurn, MIN (n, HW_MOST_THREADS_DONE) + 1);
  gsize mark = hw_json_walk_enter (walk, "turns");

  if (n > HW_MOST_THREADS_DONE)
    hw_json_walk_refuse (walk, _ ("expected at most %d turns in one hooping, found %u."),
                         HW_MOST_THREADS_DONE, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);

      if (!read_turn (json_array_get_element (list, i), pin, &turns[i]))
        hw_json_walk_expected (
            walk, _ ("the id of a motif of this hooping and how many of its threads, like [\"m1\", 2]"),
            json_array_get_element (list, i));
      hw_json_walk_leave (walk, item);
    }
  if (walk->error == NULL)
    hw_pin_set_turns (pin, n > 0 ? turns : NULL, n);
  hw_json_walk_leave (walk, mark);
}

static void
read_readings (HwJsonWalk *walk, JsonObject *work_in, HwWork *work)
{
  JsonArray *list = hw_json_walk_list (walk, work_in, "readings", FALSE, _ ("a list of readings"));
  g_autoptr (JsonArray) kept = json_array_new ();
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "readings");

  if (n > HW_MOST_READINGS)
    hw_json_walk_refuse (walk, _ ("expected at most %d readings in one hooping, found %u."), HW_MOST_READINGS,
                         n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);
      HwReading reading = { 0 };

      if (in != NULL)
        {
          read_letter (walk, in, "mark", taken, reading.letter);
          reading.design = hw_scene_reader_place (walk, in, "design");
          reading.at = hw_scene_reader_place (walk, in, "at");
          reading.left_out = hw_json_walk_flag (walk, in, "left_out", FALSE);
          reading.by_photo = hw_json_walk_choice (walk, in, "by", hw_reading_by_nicks, FALSE) == TRUE;
        }
      if (walk->error == NULL)
        {
          hw_work_set_reading (work, &reading);
          keep_item_keys (kept, in, "mark", reading_keys);
        }
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
  keep_list (&work->unknown, "readings", kept);
}

static void
read_correction (HwJsonWalk *walk, JsonObject *work_in, HwWork *work)
{
  JsonObject *in = hw_json_walk_object (walk, work_in, "correction", FALSE);
  gsize mark;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (walk, "correction");
  work->corrected = TRUE;
  work->correction.shift = hw_scene_reader_place (walk, in, "shift");
  work->correction.turn
      = hw_json_walk_number (walk, in, "turn", _ ("an angle in degrees from -36000 to 36000"),
                             -HW_GREATEST_ANGLE, HW_GREATEST_ANGLE, 0);
  hw_json_walk_leave (walk, mark);
  keep_object (&work->unknown, "correction", hw_json_unknown (in, correction_keys));
}

static void
read_notes (HwJsonWalk *walk, JsonObject *work_in, HwWork *work)
{
  JsonObject *in = hw_json_walk_object (walk, work_in, "notes", FALSE);
  gsize mark;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (walk, "notes");
  for (guint i = 0; i < HW_N_WORK_STEPS; i++)
    hw_work_set_note (work, i, hw_json_walk_text (walk, in, hw_work_step_nicks[i], FALSE, NULL));
  hw_json_walk_leave (walk, mark);
  keep_object (&work->unknown, "notes", hw_json_unknown (in, hw_work_step_nicks));
}

/* Returns: (transfer full) */
static HwWork *
read_work (HwJsonWalk *walk, JsonObject *in)
{
  HwWork *work = hw_work_new ();

  work->unknown = hw_json_unknown (in, work_keys);
  work->step = hw_json_walk_choice (walk, in, "step", hw_work_step_nicks, HW_WORK_MARK);
  work->threads_done = hw_json_walk_count (walk, in, "threads_done", HW_MOST_THREADS_DONE, 0);
  work->new_bobbin = json_object_has_member (in, "bobbin_at");
  work->bobbin_at = hw_json_walk_count (walk, in, "bobbin_at", HW_MOST_THREADS_DONE, 0);
  read_readings (walk, in, work);
  read_correction (walk, in, work);
  read_notes (walk, in, work);
  work->begun = read_time (walk, in, "begun", FALSE);
  work->ended = read_time (walk, in, "ended", FALSE);
  return work;
}

void
hw_scene_reader_pin_work (HwSceneReader *reader, JsonObject *pin_in, HwPin *pin)
{
  HwJsonWalk *walk = &reader->walk;
  JsonObject *in;
  gsize mark;

  read_turns (walk, pin_in, pin);
  read_marks (walk, pin_in, pin);
  in = hw_json_walk_object (walk, pin_in, "work", FALSE);
  if (in == NULL)
    return;
  mark = hw_json_walk_enter (walk, "work");
  if (pin->keep != HW_KEEP_ALL)
    hw_json_walk_refuse (walk, _ ("only a hooping that keeps \"all\" can be in the machine."));
  pin->work = read_work (walk, in);
  hw_json_walk_leave (walk, mark);
}

void
hw_scene_reader_held_marks (HwSceneReader *reader, JsonObject *scene, GPtrArray *marks)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, scene, "held_marks", FALSE, _ ("a list of marks"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "held_marks");

  if (n > HW_MOST_HELD_MARKS)
    hw_json_walk_refuse (walk, _ ("expected at most %d marks, found %u."), HW_MOST_HELD_MARKS, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);
      const char *motif = in != NULL ? hw_json_walk_text (walk, in, "motif", FALSE, NULL) : NULL;
      HwPoint at = { 0 };

      if (in != NULL && (motif == NULL || !g_hash_table_contains (reader->motif_ids, motif)))
        expected_member (walk, in, "motif", _ ("the id of a motif in this scene"));
      if (in != NULL)
        at = hw_scene_reader_place (walk, in, "at");
      if (walk->error == NULL)
        {
          HwHeldMark *held = hw_held_mark_new (motif, at);

          held->unknown = hw_json_unknown (in, held_mark_keys);
          g_ptr_array_add (marks, held);
        }
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

/* Returns: (transfer full) */
static HwLogLine *
read_log_line (HwJsonWalk *walk, JsonObject *in)
{
  gint64 at = read_time (walk, in, "at", TRUE);
  int kind = hw_json_walk_choice (walk, in, "what", hw_log_nicks, -1);
  const char *motif = hw_json_walk_text (walk, in, "motif", FALSE, NULL);
  HwLogLine *line;

  if (kind < 0 && walk->error == NULL)
    {
      g_autofree char *list = g_strjoinv ("\", \"", (char **)hw_log_nicks);
      g_autofree char *expected = g_strdup_printf (_ ("one of \"%s\""), list);

      expected_member (walk, in, "what", expected);
    }
  line = hw_log_line_new (at, MAX (kind, 0), motif, hw_json_walk_text (walk, in, "text", FALSE, ""));
  line->unknown = hw_json_unknown (in, log_keys);
  return line;
}

void
hw_scene_reader_log (HwSceneReader *reader, JsonObject *progress, GPtrArray *log)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, progress, "log", FALSE, _ ("a list of what happened"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "log");

  if (n > HW_MOST_LOG_LINES)
    hw_json_walk_refuse (walk, _ ("expected at most %d lines, found %u."), HW_MOST_LOG_LINES, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);

      if (in != NULL)
        g_ptr_array_add (log, read_log_line (walk, in));
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

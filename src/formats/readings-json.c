/* Readings and distances as JSON. The marks are named by their letters; which places those stand for is looked up in the plan afterwards, so that a letter
 * no mark has is told together with those there are. */
#include "readings-json.h"

#include "json-root.h"
#include "json-walk.h"
#include "whole-file.h"
#include "../geometry/language.h"

G_DEFINE_QUARK (hw_measured_error_quark, hw_measured_error)

#define MOST_HOOPINGS 1000000

static const char *const unit_nicks[] = { "mm", "in", NULL };

typedef struct
{
  HwJsonWalk walk;
  HwMeasured *measured;
  HwUnit unit; /* of readings */
} Reader;

void
hw_measured_free (HwMeasured *measured)
{
  if (measured == NULL)
    return;
  for (guint i = 0; i < measured->n_readings; i++)
    g_free (measured->readings[i].mark);
  for (guint i = 0; i < measured->n_distances; i++)
    {
      g_free (measured->distances[i].from.mark);
      g_free (measured->distances[i].to.mark);
    }
  g_free (measured->readings);
  g_free (measured->distances);
  g_free (measured->name);
  g_free (measured);
}

/* The number of a hooping; 0 when none is given and none is required. */
static guint
read_hooping (HwJsonWalk *walk, JsonObject *in, gboolean required)
{
  const char *expected = _ ("the number of a hooping, counted from 1");
  double value = hw_json_walk_number (walk, in, "hooping", expected, 1, MOST_HOOPINGS,
                                      required ? HW_JSON_REQUIRED : 0);

  if (walk->error != NULL)
    return 0;
  if (value != floor (value))
    {
      gsize mark = hw_json_walk_enter (walk, "hooping");

      hw_json_walk_expected (walk, expected, json_object_get_member (in, "hooping"));
      hw_json_walk_leave (walk, mark);
    }
  return (guint)value;
}

static void
read_reading (Reader *reader, JsonObject *in, HwGivenReading *reading)
{
  HwJsonWalk *walk = &reader->walk;
  double mm = reader->unit == HW_UNIT_INCH ? HW_MM_PER_INCH : 1;
  g_autofree char *expected
      = g_strdup_printf (reader->unit == HW_UNIT_INCH
                             ? _ ("two numbers of inches, how far right and how far towards you, up to %.0f")
                             : _ ("two numbers of millimetres, how far right and how far towards you, up to "
                                  "%.0f"),
                         floor (HW_LARGEST_MM / mm));
  double at[2] = { 0, 0 };

  reading->mark = g_strdup (hw_json_walk_text (walk, in, "mark", TRUE, ""));
  hw_json_walk_pair (walk, in, "at", expected, TRUE, -HW_LARGEST_MM / mm, HW_LARGEST_MM / mm, at);
  reading->at = (HwPoint){ at[0] * mm, at[1] * mm };
  reading->left_out = hw_json_walk_flag (walk, in, "left_out", FALSE);
}

static gboolean
is_length_of_list (HwJsonWalk *walk, guint n, const char *none)
{
  if (n == 0)
    hw_json_walk_refuse (walk, "%s", none);
  else if (n > HW_MOST_MEASURED)
    hw_json_walk_refuse (walk, _ ("expected at most %d, found %u."), HW_MOST_MEASURED, n);
  return walk->error == NULL;
}

static void
read_readings (Reader *reader, JsonObject *in)
{
  HwJsonWalk *walk = &reader->walk;
  HwMeasured *measured = reader->measured;
  g_autoptr (GHashTable) read = g_hash_table_new (g_str_hash, g_str_equal);
  JsonArray *list = hw_json_walk_list (walk, in, "readings", TRUE, _ ("a list of readings"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "readings");

  if (list == NULL || !is_length_of_list (walk, n, _ ("expected one reading or more, found none.")))
    n = 0;
  measured->readings = g_new0 (HwGivenReading, n + 1);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *object = hw_json_walk_item_object (walk, list, i);
      HwGivenReading *reading = &measured->readings[i];

      if (object != NULL)
        {
          measured->n_readings = i + 1;
          read_reading (reader, object, reading);
          if (!g_hash_table_add (read, reading->mark))
            hw_json_walk_refuse (walk, _ ("expected one reading of each mark, found mark \"%s\" again."),
                                 reading->mark);
        }
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

static void
read_end (HwJsonWalk *walk, JsonObject *in, const char *key, HwGivenEnd *end)
{
  JsonNode *node = json_object_get_member (in, key);
  double place[2];
  gsize mark;

  if (node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
      && json_node_get_string (node)[0] != '\0')
    end->mark = g_strdup (json_node_get_string (node));
  else if (node != NULL && hw_json_node_pair (node, -HW_LARGEST_MM, HW_LARGEST_MM, place))
    end->place = (HwPoint){ place[0], place[1] };
  else
    {
      mark = hw_json_walk_enter (walk, key);
      hw_json_walk_expected (walk, _ ("the letter of a mark, or a place on the cloth in millimetres"), node);
      hw_json_walk_leave (walk, mark);
    }
}

static gboolean
has (JsonObject *in, const char *key)
{
  JsonNode *node = json_object_get_member (in, key);

  return node != NULL && !JSON_NODE_HOLDS_NULL (node);
}

/* The length under "mm", or under "in". */
static double
read_length (HwJsonWalk *walk, JsonObject *in)
{
  if (has (in, "mm") && has (in, "in"))
    hw_json_walk_refuse (walk, _ ("expected one length, under \"mm\" or under \"in\", found both."));
  if (has (in, "in"))
    return HW_MM_PER_INCH
           * hw_json_walk_number (walk, in, "in", _ ("a length in inches of more than 0, up to 3937"), 1e-6,
                                  3937, HW_JSON_REQUIRED);
  return hw_json_walk_number (walk, in, "mm", _ ("a length in millimetres of more than 0, up to 100000"),
                              1e-6, HW_LARGEST_MM, HW_JSON_REQUIRED);
}

static void
read_distance (HwJsonWalk *walk, JsonObject *in, guint hooping, HwGivenDistance *distance)
{
  guint own;

  read_end (walk, in, "from", &distance->from);
  read_end (walk, in, "to", &distance->to);
  own = read_hooping (walk, in, FALSE);
  if (distance->from.mark != NULL || distance->to.mark != NULL)
    {
      distance->hooping = own > 0 ? own : hooping;
      /* Said neither here nor for all of them. */
      if (distance->hooping == 0)
        read_hooping (walk, in, TRUE);
    }
  distance->mm = read_length (walk, in);
}

static void
read_distances (Reader *reader, JsonObject *in)
{
  HwJsonWalk *walk = &reader->walk;
  HwMeasured *measured = reader->measured;
  JsonArray *list = hw_json_walk_list (walk, in, "distances", TRUE, _ ("a list of distances"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "distances");

  if (list == NULL || !is_length_of_list (walk, n, _ ("expected one distance or more, found none.")))
    n = 0;
  measured->distances = g_new0 (HwGivenDistance, n + 1);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *object = hw_json_walk_item_object (walk, list, i);

      if (object != NULL)
        {
          measured->n_distances = i + 1;
          read_distance (walk, object, measured->hooping, &measured->distances[i]);
        }
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

static void
read_measured (Reader *reader, JsonObject *in, HwMeasuredKind kind)
{
  HwJsonWalk *walk = &reader->walk;
  gboolean distances = kind == HW_MEASURED_EITHER && has (in, "distances");

  if (distances && has (in, "readings"))
    hw_json_walk_refuse (walk, _ ("expected either distances or readings, found both."));
  if (kind == HW_MEASURED_EITHER && !distances && !has (in, "readings"))
    hw_json_walk_refuse (walk, _ ("expected a list of distances, or a hooping and its readings, found "
                                  "neither."));
  reader->measured->hooping = read_hooping (walk, in, !distances);
  reader->measured->sure = hw_json_walk_flag (walk, in, "sure", FALSE);
  reader->unit = (HwUnit)hw_json_walk_choice (walk, in, "unit", unit_nicks, HW_UNIT_MM);
  if (distances)
    read_distances (reader, in);
  else
    read_readings (reader, in);
}

HwMeasured *
hw_measured_parse (const char *text, gssize length, HwMeasuredKind kind, GError **error)
{
  g_autoptr (HwMeasured) measured = NULL;
  g_autoptr (JsonNode) root = NULL;
  Reader reader = { 0 };

  g_return_val_if_fail (text != NULL, NULL);

  root = hw_json_root (text, length, HW_MEASURED_ERROR, HW_MEASURED_ERROR_SYNTAX, HW_MEASURED_ERROR_CONTENT,
                       error);
  if (root == NULL)
    return NULL;
  measured = g_new0 (HwMeasured, 1);
  reader.measured = measured;
  hw_json_walk_init (&reader.walk, HW_MEASURED_ERROR, HW_MEASURED_ERROR_CONTENT);
  if (JSON_NODE_HOLDS_OBJECT (root))
    read_measured (&reader, json_node_get_object (root), kind);
  else
    hw_json_walk_expected (&reader.walk, _ ("keys in braces"), root);
  if (reader.walk.error != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&reader.walk.error));
      g_clear_pointer (&measured, hw_measured_free);
    }
  hw_json_walk_clear (&reader.walk);
  return g_steal_pointer (&measured);
}

HwMeasured *
hw_measured_load (const char *path, HwMeasuredKind kind, GError **error)
{
  g_autofree char *name = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) problem = NULL;
  HwMeasured *measured;
  gsize length;

  g_return_val_if_fail (path != NULL, NULL);

  name = hw_file_shown_name (path);
  text = hw_file_read_whole (path, HW_LARGEST_LIST_FILE, &length, &problem);
  if (text == NULL)
    {
      g_set_error (error, HW_MEASURED_ERROR, HW_MEASURED_ERROR_READ, "%s: %s", name, problem->message);
      return NULL;
    }
  measured = hw_measured_parse (text, (gssize)length, kind, error);
  if (measured == NULL)
    g_prefix_error (error, "%s: ", name);
  else
    measured->name = g_steal_pointer (&name);
  return measured;
}

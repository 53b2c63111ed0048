/* What the person decided about the plan, as a scene file keeps it: hoopings pinned or already stitched, motifs kept apart, wishes. */

#include "scene-json.h"
#include "scene-reader.h"
#include "../geometry/language.h"

#define LEAST_DENSITY 0.1
#define MOST_DENSITY 1000
#define MOST_TOLERANCE 100
#define LEAST_MARKS 2
#define MOST_MARKS_WISHED 4
#define MOST_DRAW_IN 10

const char *const hw_progress_keys[] = { "frozen", "log", NULL };

static const char *const frozen_keys[]
    = { "hoop", "centre", "angle", "motifs", "turns", "marks", "work", NULL };
static const char *const pin_keys[]
    = { "hoop", "centre", "angle", "keep", "motifs", "turns", "marks", "work", NULL };
static const char *const wishes_keys[]
    = { "best", "interleave", "density_limit", "scale_range", "tolerance", "marks", "draw_in", NULL };

/* Where the hooping lies; of that a pin which leaves hoop and pose free may say nothing. */
static void
read_pose (HwSceneReader *reader, JsonObject *in, HwPin *pin)
{
  HwJsonWalk *walk = &reader->walk;
  gboolean required = pin->keep == HW_KEEP_ALL;
  JsonNode *centre = json_object_get_member (in, "centre");
  gsize mark;

  pin->hoop = g_strdup (hw_json_walk_text (walk, in, "hoop", required, NULL));
  mark = hw_json_walk_enter (walk, "hoop");
  if (pin->hoop != NULL && !g_hash_table_contains (reader->hoop_ids, pin->hoop))
    hw_json_walk_expected (walk, _ ("the id of a hoop in this scene"), json_object_get_member (in, "hoop"));
  hw_json_walk_leave (walk, mark);
  if (required || (centre != NULL && !JSON_NODE_HOLDS_NULL (centre)))
    pin->centre = hw_scene_reader_place (walk, in, "centre");
  pin->angle = hw_scene_reader_angle (walk, in);
}

/* taken: motif ids that hoopings of the same list hold already. */
static HwPin *
read_pin (HwSceneReader *reader, JsonObject *in, gboolean frozen, GHashTable *taken)
{
  HwJsonWalk *walk = &reader->walk;
  HwPin *pin = hw_pin_new ();
  gsize mark;

  if (!frozen)
    pin->keep = hw_json_walk_choice (walk, in, "keep", hw_keep_nicks, HW_KEEP_ALL);
  read_pose (reader, in, pin);
  pin->motifs = hw_scene_reader_ids (walk, in, "motifs", TRUE, reader->motif_ids);
  pin->unknown = hw_json_unknown (in, frozen ? frozen_keys : pin_keys);
  hw_scene_reader_pin_work (reader, in, pin);

  mark = hw_json_walk_enter (walk, "motifs");
  for (guint i = 0; pin->motifs != NULL && pin->motifs[i] != NULL; i++)
    {
      if (!g_hash_table_add (taken, g_strdup (pin->motifs[i])))
        hw_json_walk_refuse (walk, _ ("expected each motif in one hooping only, found \"%s\" again."),
                             pin->motifs[i]);
    }
  hw_json_walk_leave (walk, mark);
  return pin;
}

/* Only one hooping can be in the machine. */
static void
note_in_machine (HwJsonWalk *walk, const char *key, guint index, int *in_machine)
{
  gsize mark = hw_json_walk_enter (walk, "work");

  if (*in_machine >= 0)
    hw_json_walk_refuse (walk, _ ("expected one hooping in the machine, found a second one besides %s[%d]."),
                         key, *in_machine);
  *in_machine = (int)index;
  hw_json_walk_leave (walk, mark);
}

static void
read_pins (HwSceneReader *reader, JsonObject *in, const char *key, gboolean frozen, GPtrArray *pins)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, in, key, FALSE, _ ("a list of hoopings"));
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = list != NULL ? json_array_get_length (list) : 0;
  int in_machine = -1;
  gsize mark = hw_json_walk_enter (walk, key);

  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *pin_in = hw_json_walk_item_object (walk, list, i);

      if (pin_in != NULL)
        {
          HwPin *pin = read_pin (reader, pin_in, frozen, taken);

          g_ptr_array_add (pins, pin);
          if (!frozen && pin->work != NULL)
            note_in_machine (walk, key, i, &in_machine);
        }
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

static void
read_progress (HwSceneReader *reader, JsonObject *scene, HwSnapshot *snapshot)
{
  JsonObject *in = hw_json_walk_object (&reader->walk, scene, "progress", FALSE);
  gsize mark;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (&reader->walk, "progress");
  read_pins (reader, in, "frozen", TRUE, snapshot->frozen);
  hw_scene_reader_log (reader, in, snapshot->log);
  hw_json_walk_leave (&reader->walk, mark);
}

/* One id of a pair. Returns: (transfer none) (nullable) */
static const char *
read_apart_id (HwSceneReader *reader, JsonArray *pair, guint at)
{
  JsonNode *node = json_array_get_element (pair, at);
  gboolean text = JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING;
  const char *id = text ? json_node_get_string (node) : NULL;
  gsize mark;

  if (id != NULL && g_hash_table_contains (reader->motif_ids, id))
    return id;
  mark = hw_json_walk_enter_item (&reader->walk, at);
  hw_json_walk_expected (&reader->walk, _ ("the id of a motif in this scene"), node);
  hw_json_walk_leave (&reader->walk, mark);
  return NULL;
}

static void
read_apart_pair (HwSceneReader *reader, JsonNode *node, GPtrArray *pairs)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *pair = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  const char *first, *second;

  if (pair == NULL || json_array_get_length (pair) != 2)
    {
      hw_json_walk_expected (walk, _ ("the ids of two motifs"), node);
      return;
    }
  first = read_apart_id (reader, pair, 0);
  second = read_apart_id (reader, pair, 1);
  if (first == NULL || second == NULL)
    return;
  if (g_str_equal (first, second))
    hw_json_walk_expected (walk, _ ("two different motifs"), node);
  else
    g_ptr_array_add (pairs, hw_apart_new (first, second));
}

static void
read_apart (HwSceneReader *reader, JsonObject *scene, HwSnapshot *snapshot)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, scene, "apart", FALSE, _ ("a list of pairs of motif ids"));
  g_autoptr (GPtrArray) pairs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_apart_unref);
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "apart");

  if (n > HW_MOST_APART)
    hw_json_walk_refuse (walk, _ ("expected at most %d pairs, found %u."), HW_MOST_APART, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);

      read_apart_pair (reader, json_array_get_element (list, i), pairs);
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
  g_ptr_array_unref (snapshot->apart);
  snapshot->apart = hw_apart_fold (pairs);
}

static void
read_scale_range (HwJsonWalk *walk, JsonObject *in, HwWishes *wishes)
{
  const char *expected = _ ("a smallest and a largest scale from 0.001 to 1000");
  double range[2];
  gsize mark;

  if (!hw_json_walk_pair (walk, in, "scale_range", expected, FALSE, HW_SMALLEST_SCALE, HW_LARGEST_SCALE,
                          range))
    return;
  mark = hw_json_walk_enter (walk, "scale_range");
  if (range[0] > range[1])
    hw_json_walk_expected (walk, _ ("the smaller scale first"), json_object_get_member (in, "scale_range"));
  hw_json_walk_leave (walk, mark);
  wishes->scale_low = range[0];
  wishes->scale_high = range[1];
}

static void
read_marks_wished (HwJsonWalk *walk, JsonObject *in, HwWishes *wishes)
{
  const char *expected = _ ("a whole number from 2 to 4");
  double marks
      = hw_json_walk_number (walk, in, "marks", expected, LEAST_MARKS, MOST_MARKS_WISHED, wishes->marks);
  gsize mark = hw_json_walk_enter (walk, "marks");

  if (marks != floor (marks))
    hw_json_walk_expected (walk, expected, json_object_get_member (in, "marks"));
  hw_json_walk_leave (walk, mark);
  wishes->marks = (guint)marks;
  wishes->draw_in = hw_json_walk_number (walk, in, "draw_in", _ ("a percentage from 0 to 10"), 0,
                                         MOST_DRAW_IN, wishes->draw_in);
}

static void
read_wishes (HwSceneReader *reader, JsonObject *scene, HwWishes *wishes)
{
  HwJsonWalk *walk = &reader->walk;
  JsonObject *in = hw_json_walk_object (walk, scene, "wishes", FALSE);
  gsize mark;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (walk, "wishes");
  wishes->best = hw_json_walk_choice (walk, in, "best", hw_best_nicks, HW_BEST_FEWEST);
  wishes->interleave = hw_json_walk_flag (walk, in, "interleave", FALSE);
  wishes->density_limit = hw_json_walk_number (
      walk, in, "density_limit", _ ("a number of stitches per square millimetre from 0.1 to 1000"),
      LEAST_DENSITY, MOST_DENSITY, wishes->density_limit);
  read_scale_range (walk, in, wishes);
  wishes->tolerance = hw_json_walk_number (walk, in, "tolerance", _ ("a length in millimetres from 0 to 100"),
                                           0, MOST_TOLERANCE, wishes->tolerance);
  read_marks_wished (walk, in, wishes);
  wishes->unknown = hw_json_unknown (in, wishes_keys);
  hw_json_walk_leave (walk, mark);
}

void
hw_scene_reader_decisions (HwSceneReader *reader, JsonObject *scene, HwSnapshot *snapshot)
{
  read_pins (reader, scene, "pins", FALSE, snapshot->pins);
  read_apart (reader, scene, snapshot);
  hw_scene_reader_held_marks (reader, scene, snapshot->held_marks);
  read_wishes (reader, scene, &snapshot->wishes);
  read_progress (reader, scene, snapshot);
}

/* From the JSON tree of a scene file to a snapshot: every key checked for its type and bounds, ids for meaning one thing,
 * outlines mended where their meaning is clear. */
#include "scene-json.h"

#include "json-lines.h"
#include "outline-read.h"
#include "scene-file.h"
#include "scene-reader.h"
#include "../geometry/language.h"

#define SMALLEST_MM 0.1
#define DEFAULT_MARGIN 2.0
#define DEFAULT_CLEARANCE 2.0
#define DEFAULT_FRAME_EXTRA 40.0 /* mm over the field, both ways */

const char *const hw_hold_nicks[] = { "floated", "clamped", NULL };
const char *const hw_turn_nicks[] = { "any", "quarter", NULL };
const char *const hw_best_nicks[] = { "fewest", "least-time", NULL };
const char *const hw_keep_nicks[] = { "all", "motifs", "grain", NULL };
const char *const hw_edge_shape_nicks[] = { "polygon", "rectangle", "rounded", "ellipse", NULL };

static const char *const scene_keys[]
    = { "format",     "version", "name",    "fabric",   "edge_line", "hoops",   "motifs", "pins",     "apart",
        "held_marks", "wishes",  "machine", "progress", "photo",     "palette", "parts",  "supplies", NULL };
static const char *const fabric_keys[] = { "width", "height", "colour", "hold", NULL };
static const char *const edge_line_keys[] = { "points", "margin", "shape", "corner_radius", NULL };
static const char *const hoop_keys[]
    = { "id", "name", "field", "frame", "clearance", "turn", "set_aside", NULL };
static const char *const machine_keys[]
    = { "stitches_per_minute", "turn_step", "shift_step", "minutes_per_change", "minutes_per_hooping", NULL };

static double
read_size (HwJsonWalk *walk, JsonObject *in, const char *key)
{
  return hw_json_walk_number (walk, in, key, _ ("a length in millimetres from 0.1 to 100000"), SMALLEST_MM,
                              HW_LARGEST_MM, HW_JSON_REQUIRED);
}

static double
read_gap (HwJsonWalk *walk, JsonObject *in, const char *key, double fallback)
{
  return hw_json_walk_number (walk, in, key, _ ("a length in millimetres from 0 to 100000"), 0, HW_LARGEST_MM,
                              fallback);
}

/* Returns: the version when it is newer than this program's, else 0. */
static guint
read_format (HwJsonWalk *walk, JsonObject *in)
{
  guint newer = 0;
  JsonNode *format = json_object_get_member (in, "format");
  JsonNode *version = json_object_get_member (in, "version");
  gsize mark = hw_json_walk_enter (walk, "format");

  if (format == NULL || !JSON_NODE_HOLDS_VALUE (format)
      || g_strcmp0 (json_node_get_value_type (format) == G_TYPE_STRING ? json_node_get_string (format) : NULL,
                    HW_SCENE_FORMAT)
             != 0)
    hw_json_walk_expected (walk, "\"" HW_SCENE_FORMAT "\"", format);
  hw_json_walk_leave (walk, mark);

  mark = hw_json_walk_enter (walk, "version");
  if (version == NULL || !JSON_NODE_HOLDS_VALUE (version)
      || json_node_get_value_type (version) != G_TYPE_INT64)
    hw_json_walk_expected (walk, "1", version);
  else if (json_node_get_int (version) > HW_SCENE_VERSION)
    newer = (guint)MIN (json_node_get_int (version), G_MAXUINT);
  else if (json_node_get_int (version) != HW_SCENE_VERSION)
    hw_json_walk_expected (walk, "1", version);
  hw_json_walk_leave (walk, mark);
  return newer;
}

static void
read_fabric (HwSceneReader *reader, JsonObject *scene, HwFabric *fabric)
{
  HwJsonWalk *walk = &reader->walk;
  JsonObject *in = hw_json_walk_object (walk, scene, "fabric", TRUE);
  gsize mark;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (walk, "fabric");
  fabric->width = read_size (walk, in, "width");
  fabric->height = read_size (walk, in, "height");
  fabric->colour = hw_json_walk_colour (walk, in, "colour", fabric->colour);
  fabric->hold = hw_json_walk_choice (walk, in, "hold", hw_hold_nicks, HW_HOLD_FLOATED);
  fabric->unknown = hw_json_unknown (in, fabric_keys);
  hw_json_walk_leave (walk, mark);
}

/* Returns: (transfer full) (nullable) */
static HwEdgeLine *
read_edge_line (HwSceneReader *reader, JsonObject *scene)
{
  HwJsonWalk *walk = &reader->walk;
  JsonObject *in = hw_json_walk_object (walk, scene, "edge_line", TRUE);
  HwEdgeLine *edge;
  gsize mark;

  if (in == NULL)
    return NULL;
  mark = hw_json_walk_enter (walk, "edge_line");
  edge = hw_edge_line_new ();
  edge->outline = hw_outline_read_line (walk, in, "points");
  edge->margin = read_gap (walk, in, "margin", DEFAULT_MARGIN);
  edge->shape = hw_json_walk_choice (walk, in, "shape", hw_edge_shape_nicks, HW_EDGE_POLYGON);
  edge->corner_radius = read_gap (walk, in, "corner_radius", 0);
  edge->unknown = hw_json_unknown (in, edge_line_keys);
  hw_json_walk_leave (walk, mark);
  return edge;
}

static void
read_field_and_frame (HwJsonWalk *walk, JsonObject *in, HwHoop *hoop)
{
  double field[2], frame[2];
  gsize mark;

  if (!hw_json_walk_pair (walk, in, "field", _ ("width and height in millimetres from 0.1 to 100000"), TRUE,
                          SMALLEST_MM, HW_LARGEST_MM, field))
    return;
  hoop->field_width = field[0];
  hoop->field_height = field[1];
  frame[0] = field[0] + DEFAULT_FRAME_EXTRA;
  frame[1] = field[1] + DEFAULT_FRAME_EXTRA;
  hw_json_walk_pair (walk, in, "frame", _ ("width and height in millimetres from 0.1 to 100000"), FALSE,
                     SMALLEST_MM, HW_LARGEST_MM, frame);
  hoop->frame_width = frame[0];
  hoop->frame_height = frame[1];

  mark = hw_json_walk_enter (walk, "frame");
  if (frame[0] < field[0] || frame[1] < field[1])
    hw_json_walk_expected (walk, _ ("an outer size not smaller than the field"),
                           json_object_get_member (in, "frame"));
  hw_json_walk_leave (walk, mark);
  hoop->clearance = read_gap (walk, in, "clearance", DEFAULT_CLEARANCE);
  mark = hw_json_walk_enter (walk, "clearance");
  if (2 * hoop->clearance >= MIN (field[0], field[1]))
    {
      if (json_object_has_member (in, "clearance"))
        hw_json_walk_expected (walk, _ ("less than half of the field's shorter side"),
                               json_object_get_member (in, "clearance"));
      else
        hoop->clearance = 0;
    }
  hw_json_walk_leave (walk, mark);
}

/* Returns: (transfer full) (nullable) */
static HwHoop *
read_hoop (HwSceneReader *reader, JsonObject *in)
{
  HwJsonWalk *walk = &reader->walk;
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = hw_scene_reader_id (reader, in, "hoops", reader->hoop_ids);
  read_field_and_frame (walk, in, hoop);
  hoop->name = hw_json_walk_name (walk, in, FALSE, NULL);
  if (hoop->name == NULL)
    {
      g_autofree char *width = hw_json_number_text (hoop->field_width);
      g_autofree char *height = hw_json_number_text (hoop->field_height);

      hoop->name = g_strdup_printf ("%s x %s", width, height);
    }
  hoop->turn = hw_json_walk_choice (walk, in, "turn", hw_turn_nicks, HW_TURN_ANY);
  hoop->set_aside = hw_json_walk_flag (walk, in, "set_aside", FALSE);
  hoop->unknown = hw_json_unknown (in, hoop_keys);
  return hoop;
}

static void
read_hoops (HwSceneReader *reader, JsonObject *scene, GPtrArray *hoops)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, scene, "hoops", TRUE, _ ("a list of hoops"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "hoops");

  if (n > HW_MOST_HOOPS)
    hw_json_walk_refuse (walk, _ ("expected at most %d hoops, found %u."), HW_MOST_HOOPS, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);

      if (in != NULL)
        g_ptr_array_add (hoops, read_hoop (reader, in));
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

static void
read_machine (HwSceneReader *reader, JsonObject *scene, HwMachine *machine)
{
  HwJsonWalk *walk = &reader->walk;
  JsonObject *in = hw_json_walk_object (walk, scene, "machine", FALSE);
  const char *minutes = _ ("a number of minutes from 0 to 1440");
  gsize mark;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (walk, "machine");
  machine->stitches_per_minute
      = hw_json_walk_number (walk, in, "stitches_per_minute", _ ("a number of stitches from 1 to 100000"), 1,
                             100000, machine->stitches_per_minute);
  machine->turn_step = hw_json_walk_number (walk, in, "turn_step", _ ("an angle in degrees from 0 to 90"), 0,
                                            90, machine->turn_step);
  machine->shift_step = hw_json_walk_number (
      walk, in, "shift_step", _ ("a length in millimetres from 0 to 100"), 0, 100, machine->shift_step);
  machine->minutes_per_change
      = hw_json_walk_number (walk, in, "minutes_per_change", minutes, 0, 1440, machine->minutes_per_change);
  machine->minutes_per_hooping
      = hw_json_walk_number (walk, in, "minutes_per_hooping", minutes, 0, 1440, machine->minutes_per_hooping);
  machine->unknown = hw_json_unknown (in, machine_keys);
  hw_json_walk_leave (walk, mark);
}

static void
read_scene (HwSceneReader *reader, JsonObject *in, HwSnapshot *snapshot)
{
  HwJsonWalk *walk = &reader->walk;
  HwEdgeLine *edge;

  snapshot->newer_version = read_format (walk, in);
  g_free (snapshot->name);
  snapshot->name = hw_json_walk_name (walk, in, FALSE, "");
  read_fabric (reader, in, &snapshot->fabric);
  edge = read_edge_line (reader, in);
  if (edge != NULL)
    {
      hw_edge_line_unref (snapshot->edge_line);
      snapshot->edge_line = edge;
    }
  read_hoops (reader, in, snapshot->hoops);
  hw_scene_reader_motifs (reader, in, snapshot->motifs);
  hw_scene_reader_decisions (reader, in, snapshot);
  read_machine (reader, in, &snapshot->machine);
  hw_scene_reader_supplies (reader, in, &snapshot->supplies);
  hw_scene_reader_parts (reader, in, snapshot->parts);
  hw_scene_reader_palette (reader, in, snapshot->palette);
  hw_scene_reader_photos (reader, in, snapshot);
  snapshot->unknown = hw_scene_reader_unknown (in, scene_keys, "progress", hw_progress_keys);
  hw_scene_reader_keep_nested (&snapshot->unknown, in, "photo", hw_photo_stack_keys);
}

/* Of a newer file it is no mistake that it cannot be read. */
static GError *
newer_error (guint version)
{
  g_autofree char *text
      = g_strdup_printf (_ ("expected 1, found %lld: a newer Hoopwright wrote this scene, and it takes a "
                            "newer one to open it."),
                         (long long)version);

  return g_error_new (HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_CONTENT, "version: %s", text);
}

HwSnapshot *
hw_scene_read (JsonNode *root, GError **error)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  g_autoptr (GHashTable) hoop_ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) motif_ids = g_hash_table_new (g_str_hash, g_str_equal);
  HwSceneReader reader = { .hoop_ids = hoop_ids, .motif_ids = motif_ids };

  hw_json_walk_init (&reader.walk, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_CONTENT);
  if (JSON_NODE_HOLDS_OBJECT (root))
    read_scene (&reader, json_node_get_object (root), snapshot);
  else
    hw_json_walk_expected (&reader.walk, _ ("a scene in braces"), root);

  if (reader.walk.error != NULL)
    {
      g_propagate_error (error, snapshot->newer_version > 0 ? newer_error (snapshot->newer_version)
                                                            : g_error_copy (reader.walk.error));
      g_clear_pointer (&snapshot, hw_snapshot_unref);
    }
  hw_json_walk_clear (&reader.walk);
  return g_steal_pointer (&snapshot);
}

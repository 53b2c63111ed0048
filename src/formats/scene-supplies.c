/* What the workroom uses up, as a scene file keeps it under "supplies": thread in tex, lengths in mm, what is wound in metres. Every key is optional. */
#include "../geometry/language.h"
#include "../scene/limits.h"
#include "../scene/record-compare.h"
#include "../scene/yarn-count.h"
#include "scene-reader.h"
#include "scene-writer.h"

static const char *const supplies_keys[] = {
  "fabric_thickness", "stabiliser_thickness", "stabiliser_sheets", "roll_width",  "reach",   "needle_tex",
  "bobbin_tex",       "bobbin_share",         "bobbin_metres",     "bobbin_size", "packing", "needle_hours",
  "needle_stitches",  "beyond_edge",          "beyond_frames",     NULL
};

static void
read_number (HwJsonWalk *walk,
             JsonObject *in,
             const char *key,
             const char *expected,
             double least,
             double most,
             double *number)
{
  *number = hw_json_walk_number (walk, in, key, expected, least, most, *number);
}

static void
read_cloth (HwJsonWalk *walk, JsonObject *in, HwSupplyFacts *facts)
{
  const char *thickness = _ ("a length in millimetres from 0 to 20");
  const char *around = _ ("a length in millimetres from 0 to 1000");

  read_number (walk, in, "fabric_thickness", thickness, 0, HW_LARGEST_THICKNESS, &facts->fabric_thickness);
  read_number (walk, in, "stabiliser_thickness", thickness, 0, HW_LARGEST_THICKNESS,
               &facts->stabiliser_thickness);
  facts->stabiliser_sheets
      = hw_json_walk_count (walk, in, "stabiliser_sheets", HW_MOST_SHEETS, facts->stabiliser_sheets);
  read_number (walk, in, "roll_width", _ ("a length in millimetres from 0.1 to 100000"), HW_SMALLEST_SUPPLY,
               HW_LARGEST_MM, &facts->roll_width);
  read_number (walk, in, "reach", around, 0, HW_LARGEST_REACH, &facts->reach);
  read_number (walk, in, "beyond_edge", around, 0, HW_LARGEST_REACH, &facts->beyond_edge);
  read_number (walk, in, "beyond_frames", around, 0, HW_LARGEST_REACH, &facts->beyond_frames);
}

/* Outer and inner diameter and width, or nothing. */
static void
read_bobbin_size (HwJsonWalk *walk, JsonObject *in, HwSupplyFacts *facts)
{
  const char *expected = _ ("three lengths in millimetres, outer diameter, a smaller inner one, and width");
  JsonArray *list = hw_json_walk_list (walk, in, "bobbin_size", FALSE, expected);
  double size[3] = { 0, 0, 0 };
  gsize mark;

  if (list == NULL)
    return;
  for (guint i = 0; i < MIN (json_array_get_length (list), 3); i++)
    {
      JsonNode *node = json_array_get_element (list, i);
      GType type = JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_INVALID;

      if (type == G_TYPE_INT64 || type == G_TYPE_DOUBLE)
        size[i] = json_node_get_double (node);
    }
  mark = hw_json_walk_enter (walk, "bobbin_size");
  if (json_array_get_length (list) != 3 || size[1] < HW_SMALLEST_SUPPLY
      || size[0] < size[1] + HW_SMALLEST_SUPPLY || size[0] > HW_LARGEST_REACH || size[2] < HW_SMALLEST_SUPPLY
      || size[2] > HW_LARGEST_REACH)
    hw_json_walk_expected (walk, expected, json_object_get_member (in, "bobbin_size"));
  hw_json_walk_leave (walk, mark);
  facts->bobbin_outer = size[0];
  facts->bobbin_inner = size[1];
  facts->bobbin_width = size[2];
}

static void
read_thread (HwJsonWalk *walk, JsonObject *in, HwSupplyFacts *facts)
{
  const char *tex = _ ("a number of tex from 1 to 1000");

  read_number (walk, in, "needle_tex", tex, HW_LEAST_TEX, HW_MOST_TEX, &facts->needle_tex);
  read_number (walk, in, "bobbin_tex", tex, HW_LEAST_TEX, HW_MOST_TEX, &facts->bobbin_tex);
  read_number (walk, in, "bobbin_share", _ ("a number from 0.05 to 2"), 0.05, 2, &facts->bobbin_share);
  read_number (walk, in, "bobbin_metres", _ ("a number of metres from 1 to 100000"), 1, HW_MOST_BOBBIN_METRES,
               &facts->bobbin_metres);
  read_bobbin_size (walk, in, facts);
  read_number (walk, in, "packing", _ ("a number from 0.1 to 0.91"), 0.1, HW_MOST_PACKING, &facts->packing);
  read_number (walk, in, "needle_hours", _ ("a number of hours from 0.1 to 10000"), 0.1, HW_MOST_NEEDLE_HOURS,
               &facts->needle_hours);
  read_number (walk, in, "needle_stitches", _ ("a number of stitches from 0 to 1000000000"), 0,
               HW_MOST_NEEDLE_STITCHES, &facts->needle_stitches);
}

void
hw_scene_reader_supplies (HwSceneReader *reader, JsonObject *scene, HwSupplyFacts *facts)
{
  JsonObject *in = hw_json_walk_object (&reader->walk, scene, "supplies", FALSE);
  gsize mark;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (&reader->walk, "supplies");
  read_cloth (&reader->walk, in, facts);
  read_thread (&reader->walk, in, facts);
  facts->unknown = hw_json_unknown (in, supplies_keys);
  hw_json_walk_leave (&reader->walk, mark);
}

static void
write_thread (JsonObject *object, const HwSupplyFacts *facts)
{
  hw_scene_writer_number (object, "needle_tex", facts->needle_tex);
  hw_scene_writer_number (object, "bobbin_tex", facts->bobbin_tex);
  hw_scene_writer_number (object, "bobbin_share", facts->bobbin_share);
  hw_scene_writer_number (object, "bobbin_metres", facts->bobbin_metres);
  if (hw_supply_facts_know_bobbin (facts))
    {
      JsonArray *size = hw_scene_writer_pair_new (facts->bobbin_outer, facts->bobbin_inner);

      json_array_add_double_element (size, facts->bobbin_width);
      json_object_set_array_member (object, "bobbin_size", size);
    }
  hw_scene_writer_number (object, "packing", facts->packing);
  hw_scene_writer_number (object, "needle_hours", facts->needle_hours);
  if (facts->needle_stitches > 0)
    hw_scene_writer_number (object, "needle_stitches", facts->needle_stitches);
}

JsonObject *
hw_scene_writer_supplies (const HwSupplyFacts *facts)
{
  HwSupplyFacts usual;
  JsonObject *object;

  hw_supply_facts_set_defaults (&usual);
  if (hw_supply_facts_difference (facts, &usual) == 0)
    return NULL;
  object = json_object_new ();
  hw_scene_writer_number (object, "fabric_thickness", facts->fabric_thickness);
  hw_scene_writer_number (object, "stabiliser_thickness", facts->stabiliser_thickness);
  json_object_set_int_member (object, "stabiliser_sheets", facts->stabiliser_sheets);
  hw_scene_writer_number (object, "roll_width", facts->roll_width);
  hw_scene_writer_number (object, "reach", facts->reach);
  write_thread (object, facts);
  hw_scene_writer_number (object, "beyond_edge", facts->beyond_edge);
  hw_scene_writer_number (object, "beyond_frames", facts->beyond_frames);
  hw_scene_writer_unknown (object, facts->unknown);
  return object;
}

/* What a plan takes as JSON for other programs. */
#include "supplies-json.h"

#include "json-figures.h"
#include "json-lines.h"

#define METRES_DECIMALS 2
#define MINUTE_DECIMALS 1
#define LENGTH_DECIMALS 1

static void
set_metres (JsonObject *object, double needle, double bobbin)
{
  hw_json_set_number (object, "needle_metres", needle, METRES_DECIMALS);
  hw_json_set_number (object, "bobbin_metres", bobbin, METRES_DECIMALS);
}

static void
set_threads (JsonObject *object, const GPtrArray *threads)
{
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < threads->len; i++)
    {
      const HwThreadUse *use = threads->pdata[i];
      JsonObject *thread = json_object_new ();
      g_autofree char *colour = hw_colour_text (use->colour);

      json_object_set_string_member (thread, "name", use->name);
      json_object_set_string_member (thread, "colour", colour);
      json_object_set_int_member (thread, "stitches", (gint64)use->stitches);
      set_metres (thread, use->metres, use->bobbin_metres);
      json_object_set_boolean_member (thread, "from_stitches", use->counted);
      json_array_add_object_element (list, thread);
    }
  json_object_set_array_member (object, "threads", list);
}

/* A thread block as a plan names it: [motif, place of the block in it counted from 1]. */
static JsonArray *
write_block (const HwSupplies *supplies, const HwBlockStep *block)
{
  JsonArray *pair = json_array_new ();

  json_array_add_string_element (pair, hw_snapshot_motif (supplies->plan->snapshot, block->motif)->id);
  json_array_add_int_element (pair, block->block + 1);
  return pair;
}

static JsonArray *
write_changes (const HwSupplies *supplies, const HwHoopingSupplies *taken)
{
  JsonArray *changes = json_array_new ();

  for (guint i = 0; i < taken->n_changes; i++)
    {
      JsonObject *change = json_object_new ();

      json_object_set_array_member (change, taken->changes[i].within ? "within" : "after",
                                    write_block (supplies, &taken->changes[i].block));
      json_array_add_object_element (changes, change);
    }
  return changes;
}

/* What the bobbin does in the hooping: one in the machine, full ones. */
static JsonObject *
write_bobbin (const HwSupplies *supplies, const HwHoopingSupplies *taken)
{
  JsonObject *bobbin = json_object_new ();

  hw_json_set_number (bobbin, "metres_left", taken->bobbin_left, METRES_DECIMALS);
  json_object_set_boolean_member (bobbin, "runs_out", taken->bobbin_runs_out);
  if (taken->bobbin_runs_out)
    {
      json_object_set_array_member (bobbin, "would_end_within",
                                    write_block (supplies, &taken->bobbin_out_at));
      hw_json_set_number (bobbin, "metres_lacking", taken->bobbin_lacking, METRES_DECIMALS);
    }
  json_object_set_array_member (bobbin, "changes", write_changes (supplies, taken));
  return bobbin;
}

static JsonObject *
write_stabiliser (const HwHoopingSupplies *taken)
{
  JsonObject *piece = json_object_new ();

  json_object_set_int_member (piece, "sheets", taken->sheets);
  hw_json_set_number (piece, "width", taken->piece_width, LENGTH_DECIMALS);
  hw_json_set_number (piece, "height", taken->piece_height, LENGTH_DECIMALS);
  return piece;
}

static JsonObject *
write_hooping (const HwSupplies *supplies, const HwHoopingSupplies *taken)
{
  const HwPlan *plan = supplies->plan;
  JsonObject *object = json_object_new ();

  json_object_set_int_member (object, "hooping", taken->hooping + 1);
  json_object_set_string_member (object, "hoop",
                                 hw_snapshot_hoop (plan->snapshot, plan->hoopings[taken->hooping].hoop)->id);
  json_object_set_int_member (object, "stitches", (gint64)taken->stitches);
  json_object_set_int_member (object, "thread_changes", taken->thread_changes);
  hw_json_set_number (object, "minutes", taken->minutes, MINUTE_DECIMALS);
  set_metres (object, taken->needle_metres, taken->bobbin_metres);
  set_threads (object, taken->threads);
  json_object_set_object_member (object, "bobbin", write_bobbin (supplies, taken));
  json_object_set_object_member (object, "stabiliser", write_stabiliser (taken));
  return object;
}

static JsonObject *
write_roll (const HwSupplies *supplies)
{
  JsonObject *roll = json_object_new ();

  hw_json_set_number (roll, "roll_width", supplies->roll_width, LENGTH_DECIMALS);
  hw_json_set_number (roll, "roll_length", supplies->roll_length, LENGTH_DECIMALS);
  json_object_set_int_member (roll, "pieces_too_wide", supplies->pieces_too_wide);
  return roll;
}

static JsonObject *
write_cloth (const HwSupplies *supplies)
{
  JsonObject *cloth = json_object_new ();

  hw_json_set_number (cloth, "width", supplies->cloth_width, LENGTH_DECIMALS);
  hw_json_set_number (cloth, "height", supplies->cloth_height, LENGTH_DECIMALS);
  json_object_set_string_member (cloth, "why", supplies->cloth_reason);
  return cloth;
}

static JsonObject *
write_supplies (const HwSupplies *supplies)
{
  JsonObject *object = json_object_new ();
  JsonArray *hoopings = json_array_new ();

  json_object_set_string_member (object, "format", "hoopwright-supplies");
  json_object_set_int_member (object, "version", 1);
  json_object_set_int_member (object, "stitches", (gint64)supplies->stitches);
  json_object_set_int_member (object, "thread_changes", supplies->thread_changes);
  hw_json_set_number (object, "minutes", supplies->minutes, MINUTE_DECIMALS);
  set_metres (object, supplies->needle_metres, supplies->bobbin_metres);
  hw_json_set_number (object, "bobbin_full", supplies->bobbin_full, METRES_DECIMALS);
  json_object_set_int_member (object, "bobbins", supplies->bobbins);
  json_object_set_int_member (object, "needles", supplies->needles);
  json_object_set_object_member (object, "cloth", write_cloth (supplies));
  json_object_set_object_member (object, "stabiliser", write_roll (supplies));
  set_threads (object, supplies->threads);
  for (guint h = 0; h < supplies->n_hoopings; h++)
    json_array_add_object_element (hoopings, write_hooping (supplies, &supplies->hoopings[h]));
  json_object_set_array_member (object, "hoopings", hoopings);
  json_object_set_string_member (object, "basis", supplies->assumptions);
  return object;
}

/* A hooping, what it takes, and a thread keep to lines of their own. */
static gboolean
opens (guint depth, const char *key)
{
  return (depth == 1 && g_str_equal (key, "threads"))
         || ((depth == 1 || depth == 2) && g_str_equal (key, "hoopings"));
}

char *
hw_supplies_json_text (const HwSupplies *supplies)
{
  g_autoptr (JsonNode) root = NULL;

  g_return_val_if_fail (supplies != NULL, NULL);

  root = json_node_new (JSON_NODE_OBJECT);
  json_node_take_object (root, write_supplies (supplies));
  return hw_json_lines (root, opens);
}

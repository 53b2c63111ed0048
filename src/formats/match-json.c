/* Threads of a scene beside threads at hand, as JSON. A length that is not known is null. */
#include "match-json.h"

#include "json-figures.h"
#include "json-lines.h"

#define DIFFERENCE_DECIMALS 4
#define METRES_DECIMALS 2

static void
set_colour (JsonObject *object, HwColour colour)
{
  g_autofree char *text = hw_colour_text (colour);

  json_object_set_string_member (object, "colour", text);
}

static void
set_number_or_none (JsonObject *object, const char *number)
{
  if (number != NULL)
    json_object_set_string_member (object, "number", number);
}

static JsonObject *
write_nearest (const HwThreadMatch *match, GPtrArray *palette)
{
  const HwPaletteThread *thread = palette->pdata[match->thread];
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "name", thread->name);
  set_number_or_none (object, thread->number);
  set_colour (object, hw_lab_colour (thread->lab));
  hw_json_set_number (object, "delta_e", match->difference, DIFFERENCE_DECIMALS);
  json_object_set_string_member (object, "words", hw_difference_words (match->difference));
  hw_json_set_number (object, "metres_left", thread->metres, METRES_DECIMALS);
  return object;
}

static JsonObject *
write_need (const HwThreadNeed *need, GPtrArray *palette)
{
  JsonObject *object = json_object_new ();
  JsonArray *motifs = json_array_new (), *nearest = json_array_new ();

  json_object_set_string_member (object, "name", need->name);
  set_colour (object, need->colour);
  for (char **id = need->motifs; *id != NULL; id++)
    json_array_add_string_element (motifs, *id);
  json_object_set_array_member (object, "motifs", motifs);
  if (need->counted)
    json_object_set_int_member (object, "stitches", (gint64)need->stitches);
  else
    json_object_set_null_member (object, "stitches");
  hw_json_set_number (object, "metres_needed", need->metres, METRES_DECIMALS);
  for (guint i = 0; i < need->n_nearest; i++)
    json_array_add_object_element (nearest, write_nearest (&need->nearest[i], palette));
  json_object_set_array_member (object, "nearest", nearest);
  return object;
}

static JsonObject *
write_purchase (const HwThreadPurchase *purchase)
{
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "name", purchase->name);
  set_number_or_none (object, purchase->number);
  set_colour (object, purchase->colour);
  hw_json_set_number (object, "metres", purchase->metres, METRES_DECIMALS);
  json_object_set_boolean_member (object, "at_hand", purchase->thread >= 0);
  return object;
}

static gboolean
opens (guint depth, const char *key)
{
  return (depth == 1 && (g_str_equal (key, "threads") || g_str_equal (key, "buy")))
         || (depth == 3 && g_str_equal (key, "nearest"));
}

char *
hw_match_json_text (GPtrArray *needs, GPtrArray *purchases, GPtrArray *palette)
{
  JsonObject *object = json_object_new ();
  JsonArray *threads = json_array_new (), *buy = json_array_new ();
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_OBJECT);

  g_return_val_if_fail (needs != NULL && purchases != NULL && palette != NULL, NULL);

  json_object_set_string_member (object, "format", "hoopwright-match");
  json_object_set_int_member (object, "version", 1);
  for (guint i = 0; i < needs->len; i++)
    json_array_add_object_element (threads, write_need (needs->pdata[i], palette));
  json_object_set_array_member (object, "threads", threads);
  for (guint i = 0; i < purchases->len; i++)
    json_array_add_object_element (buy, write_purchase (purchases->pdata[i]));
  json_object_set_array_member (object, "buy", buy);
  json_node_take_object (root, object);
  return hw_json_lines (root, opens);
}

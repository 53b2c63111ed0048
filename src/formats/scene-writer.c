/* Members that several parts of a scene file have, and the way back of the keys not known. */
#include "scene-writer.h"

void
hw_scene_writer_text (JsonObject *object, const char *key, const char *text)
{
  json_object_set_string_member (object, key, text != NULL ? text : "");
}

void
hw_scene_writer_number (JsonObject *object, const char *key, double value)
{
  json_object_set_double_member (object, key, value);
}

JsonArray *
hw_scene_writer_pair_new (double first, double second)
{
  JsonArray *pair = json_array_sized_new (2);

  json_array_add_double_element (pair, first);
  json_array_add_double_element (pair, second);
  return pair;
}

void
hw_scene_writer_pair (JsonObject *object, const char *key, double first, double second)
{
  json_object_set_array_member (object, key, hw_scene_writer_pair_new (first, second));
}

void
hw_scene_writer_ids (JsonObject *object, const char *key, char **ids)
{
  JsonArray *list = json_array_new ();

  for (char **id = ids; id != NULL && *id != NULL; id++)
    json_array_add_string_element (list, *id);
  json_object_set_array_member (object, key, list);
}

static void
add_members (JsonObject *object, JsonObject *members, const char *const *parts);

/* The text an item of a list has under a key, or NULL. */
static const char *
item_text (JsonNode *item, const char *key)
{
  JsonNode *node = NULL;

  if (JSON_NODE_HOLDS_OBJECT (item))
    node = json_object_get_member (json_node_get_object (item), key);
  return node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
             ? json_node_get_string (node)
             : NULL;
}

/* Puts the members of more's items into the items of list that have the same name; more's others are left out. */
static void
add_to_items (JsonArray *list, JsonArray *more)
{
  g_autoptr (GHashTable) by_name = g_hash_table_new (g_str_hash, g_str_equal);
  const char *key = "id";

  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonNode *item = json_array_get_element (list, i);

      if (i == 0 && item_text (item, key) == NULL)
        key = "mark";
      if (item_text (item, key) != NULL)
        g_hash_table_insert (by_name, (gpointer)item_text (item, key), item);
    }
  for (guint i = 0; i < json_array_get_length (more); i++)
    {
      JsonNode *members = json_array_get_element (more, i);
      const char *name = item_text (members, key);
      JsonNode *item = name != NULL ? g_hash_table_lookup (by_name, name) : NULL;

      if (item != NULL)
        add_members (json_node_get_object (item), json_node_get_object (members), NULL);
    }
}

/* Puts members after those of object; what both have is joined. */
static void
add_members (JsonObject *object, JsonObject *members, const char *const *parts)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;

  json_object_iter_init_ordered (&iter, members);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    {
      JsonNode *known = json_object_get_member (object, key);

      if (known == NULL && (parts == NULL || !g_strv_contains (parts, key)))
        json_object_set_member (object, key, json_node_copy (node));
      else if (known == NULL)
        continue;
      else if (JSON_NODE_HOLDS_OBJECT (known) && JSON_NODE_HOLDS_OBJECT (node))
        add_members (json_node_get_object (known), json_node_get_object (node), NULL);
      else if (JSON_NODE_HOLDS_ARRAY (known) && JSON_NODE_HOLDS_ARRAY (node))
        add_to_items (json_node_get_array (known), json_node_get_array (node));
    }
}

void
hw_scene_writer_unknown_but (JsonObject *object, const HwUnknown *unknown, const char *const *parts)
{
  if (unknown != NULL)
    add_members (object, unknown->members, parts);
}

void
hw_scene_writer_unknown (JsonObject *object, const HwUnknown *unknown)
{
  hw_scene_writer_unknown_but (object, unknown, NULL);
}

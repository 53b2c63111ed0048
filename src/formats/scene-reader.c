/* Fields that several parts of a scene file have: ids and the lists that name them, places, angles, keys not known. */
#include "scene-reader.h"
#include "../geometry/language.h"

double
hw_scene_reader_angle (HwJsonWalk *walk, JsonObject *in)
{
  return hw_json_walk_number (walk, in, "angle", _ ("an angle in degrees from -36000 to 36000"),
                              -HW_GREATEST_ANGLE, HW_GREATEST_ANGLE, 0);
}

HwPoint
hw_scene_reader_place (HwJsonWalk *walk, JsonObject *in, const char *key)
{
  double pair[2] = { 0, 0 };

  hw_json_walk_pair (walk, in, key, _ ("two numbers in millimetres"), TRUE, -HW_LARGEST_MM, HW_LARGEST_MM,
                     pair);
  return (HwPoint){ pair[0], pair[1] };
}

char *
hw_scene_reader_id (HwSceneReader *reader, JsonObject *in, const char *kind, GHashTable *ids)
{
  const char *id = hw_json_walk_text (&reader->walk, in, "id", TRUE, NULL);
  gpointer other;

  if (id == NULL)
    return NULL;
  if (g_hash_table_lookup_extended (ids, id, NULL, &other))
    {
      gsize mark = hw_json_walk_enter (&reader->walk, "id");

      hw_json_walk_refuse (&reader->walk, _ ("expected an id of its own, found \"%s\", which %s[%u] has."),
                           id, kind, GPOINTER_TO_UINT (other));
      hw_json_walk_leave (&reader->walk, mark);
      return NULL;
    }
  g_hash_table_insert (ids, (gpointer)id, GUINT_TO_POINTER (g_hash_table_size (ids)));
  return g_strdup (id);
}

char **
hw_scene_reader_ids (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, GHashTable *ids)
{
  JsonArray *list = hw_json_walk_list (walk, in, key, required, _ ("a list of motif ids"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  gsize mark = hw_json_walk_enter (walk, key);

  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      JsonNode *node = json_array_get_element (list, i);
      gboolean text = JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING;
      gsize item = hw_json_walk_enter_item (walk, i);

      if (text && g_hash_table_contains (ids, json_node_get_string (node)))
        g_strv_builder_add (builder, json_node_get_string (node));
      else
        hw_json_walk_expected (walk, _ ("the id of a motif in this scene"), node);
      hw_json_walk_leave (walk, item);
    }
  if (required && n == 0)
    hw_json_walk_expected (walk, _ ("a list of motif ids"), json_object_get_member (in, key));
  hw_json_walk_leave (walk, mark);
  return n > 0 ? g_strv_builder_end (builder) : NULL;
}

void
hw_scene_reader_keep_nested (HwUnknown **unknown,
                             JsonObject *in,
                             const char *nested,
                             const char *const *nested_known)
{
  JsonNode *node = json_object_get_member (in, nested);
  HwUnknown *rest = NULL;

  if (node != NULL && JSON_NODE_HOLDS_OBJECT (node))
    rest = hw_json_unknown (json_node_get_object (node), nested_known);
  if (rest == NULL)
    return;
  if (*unknown == NULL)
    *unknown = hw_unknown_new (json_object_new ());
  json_object_set_object_member ((*unknown)->members, nested, json_object_ref (rest->members));
  hw_unknown_unref (rest);
}

HwUnknown *
hw_scene_reader_unknown (JsonObject *in,
                         const char *const *known,
                         const char *nested,
                         const char *const *nested_known)
{
  HwUnknown *unknown = hw_json_unknown (in, known);

  hw_scene_reader_keep_nested (&unknown, in, nested, nested_known);
  return unknown;
}

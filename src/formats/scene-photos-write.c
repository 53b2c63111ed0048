/* Photographs of the cloth, threads at hand and the parts of a scene, into the JSON tree of a scene file. */
#include <math.h>

#include "json-walk.h"
#include "scene-writer.h"

static const char *const point_keys[] = { "px", "mm", NULL };
static const char *const photo_parts[] = { "points", NULL };

static gboolean
holds_pair (JsonObject *object, const char *key, HwPoint pair)
{
  JsonArray *list = json_object_get_array_member (object, key);

  return json_array_get_double_element (list, 0) == pair.x
         && json_array_get_double_element (list, 1) == pair.y;
}

/* What the file said of a point besides where it lies. It is the same point while either of its places is. Returns: (nullable) */
static JsonObject *
find_kept (const HwPhoto *photo, const HwPhotoPoint *point)
{
  JsonNode *node = photo->unknown != NULL ? json_object_get_member (photo->unknown->members, "points") : NULL;
  JsonArray *kept = node != NULL ? json_node_get_array (node) : NULL;

  for (guint i = 0; kept != NULL && i < json_array_get_length (kept); i++)
    {
      JsonObject *one = json_array_get_object_element (kept, i);

      if (holds_pair (one, "mm", point->mm) || holds_pair (one, "px", point->px))
        return one;
    }
  return NULL;
}

static void
add_kept (JsonObject *object, JsonObject *kept)
{
  HwUnknown *more = hw_json_unknown (kept, point_keys);

  hw_scene_writer_unknown (object, more);
  hw_unknown_unref (more);
}

static JsonArray *
write_points (const HwPhoto *photo)
{
  JsonArray *list = json_array_sized_new (photo->n_points);

  for (guint i = 0; i < photo->n_points; i++)
    {
      const HwPhotoPoint *point = &photo->points[i];
      JsonObject *object = json_object_new (), *kept = find_kept (photo, point);

      hw_scene_writer_pair (object, "px", point->px.x, point->px.y);
      hw_scene_writer_pair (object, "mm", point->mm.x, point->mm.y);
      if (kept != NULL)
        add_kept (object, kept);
      json_array_add_object_element (list, object);
    }
  return list;
}

static JsonObject *
write_photo (const HwPhoto *photo)
{
  JsonObject *object = json_object_new ();

  hw_scene_writer_text (object, "name", photo->name);
  if (photo->taken != NULL)
    hw_scene_writer_text (object, "taken", photo->taken);
  if (photo->path != NULL)
    hw_scene_writer_text (object, "path", photo->path);
  if (photo->n_points > 0)
    json_object_set_array_member (object, "points", write_points (photo));
  if (photo->bow != 0)
    hw_scene_writer_number (object, "bow", photo->bow);
  if (photo->brightness != 0)
    hw_scene_writer_number (object, "brightness", photo->brightness);
  if (photo->strength != 1)
    hw_scene_writer_number (object, "strength", photo->strength);
  hw_scene_writer_unknown_but (object, photo->unknown, photo_parts);
  /* Last, because it is long. */
  if (photo->path == NULL && photo->bytes != NULL)
    {
      gsize length;
      const guchar *bytes = g_bytes_get_data (photo->bytes, &length);
      g_autofree char *text = g_base64_encode (bytes, length);

      hw_scene_writer_text (object, "data", text);
    }
  return object;
}

JsonObject *
hw_scene_writer_photos (const HwSnapshot *snapshot)
{
  JsonObject *object = json_object_new ();
  JsonArray *stack = json_array_sized_new (snapshot->photos->len);

  json_object_set_int_member (object, "shown", snapshot->photo_shown);
  if (snapshot->photo_fade != 0)
    hw_scene_writer_number (object, "fade", snapshot->photo_fade);
  for (guint i = 0; i < snapshot->photos->len; i++)
    json_array_add_object_element (stack, write_photo (snapshot->photos->pdata[i]));
  json_object_set_array_member (object, "stack", stack);
  return object;
}

JsonArray *
hw_scene_writer_palette (GPtrArray *palette)
{
  JsonArray *list = json_array_sized_new (palette->len);

  for (guint i = 0; i < palette->len; i++)
    {
      const HwPaletteThread *thread = palette->pdata[i];
      JsonObject *object = json_object_new ();
      JsonArray *lab = json_array_sized_new (3);

      hw_scene_writer_text (object, "name", thread->name);
      if (thread->number != NULL)
        hw_scene_writer_text (object, "number", thread->number);
      json_array_add_double_element (lab, thread->lab.l);
      json_array_add_double_element (lab, thread->lab.a);
      json_array_add_double_element (lab, thread->lab.b);
      json_object_set_array_member (object, "lab", lab);
      if (!isnan (thread->metres))
        hw_scene_writer_number (object, "metres", thread->metres);
      hw_scene_writer_unknown (object, thread->unknown);
      json_array_add_object_element (list, object);
    }
  return list;
}

JsonArray *
hw_scene_writer_parts (GPtrArray *parts)
{
  JsonArray *list = json_array_sized_new (parts->len);

  for (guint i = 0; i < parts->len; i++)
    {
      const HwPart *part = parts->pdata[i];
      JsonObject *object = json_object_new ();

      hw_scene_writer_text (object, "name", part->name);
      hw_scene_writer_ids (object, "motifs", part->motifs);
      hw_scene_writer_unknown (object, part->unknown);
      json_array_add_object_element (list, object);
    }
  return list;
}

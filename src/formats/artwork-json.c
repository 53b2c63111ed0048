/* Artwork as JSON: what kind it is, how large, its outline's rings in mm from the middle of the outline's box, its threads. */
#include "artwork-json.h"

#include "../geometry/region.h"
#include "json-figures.h"
#include "json-lines.h"

#define MM_DECIMALS 3 /* a micrometre */

static JsonArray *
place (double x, double y)
{
  JsonArray *array = json_array_new ();

  json_array_add_double_element (array, hw_json_rounded (x, MM_DECIMALS));
  json_array_add_double_element (array, hw_json_rounded (y, MM_DECIMALS));
  return array;
}

static JsonArray *
rings_of (const HwOutline *outline)
{
  JsonArray *rings = json_array_new ();

  for (guint r = 0; r < outline->n_rings; r++)
    {
      JsonArray *ring = json_array_new ();

      for (guint i = 0; i < outline->rings[r].n_points; i++)
        json_array_add_array_element (ring,
                                      place (outline->rings[r].points[i].x, outline->rings[r].points[i].y));
      json_array_add_array_element (rings, ring);
    }
  return rings;
}

static JsonArray *
threads_of (const HwArtwork *artwork)
{
  JsonArray *threads = json_array_new ();

  for (guint i = 0; i < artwork->n_threads; i++)
    {
      JsonObject *thread = json_object_new ();
      g_autofree char *colour = hw_colour_text (artwork->threads[i].colour);

      json_object_set_string_member (thread, "name", artwork->threads[i].name);
      json_object_set_string_member (thread, "colour", colour);
      json_object_set_int_member (thread, "stitches", artwork->threads[i].stitches);
      json_array_add_object_element (threads, thread);
    }
  return threads;
}

char *
hw_artwork_json_text (const HwArtwork *artwork)
{
  g_autoptr (JsonNode) root = NULL;
  JsonObject *object;
  HwBox box;

  g_return_val_if_fail (artwork != NULL, NULL);

  box = artwork->outline->box;
  root = json_node_new (JSON_NODE_OBJECT);
  object = json_object_new ();
  json_node_take_object (root, object);
  json_object_set_string_member (object, "format", "hoopwright-outline");
  json_object_set_int_member (object, "version", 1);
  json_object_set_string_member (object, "kind", hw_artwork_nicks[artwork->kind]);
  hw_json_set_number (object, "width_mm", box.x1 - box.x0, MM_DECIMALS);
  hw_json_set_number (object, "height_mm", box.y1 - box.y0, MM_DECIMALS);
  hw_json_set_number (object, "area_mm2", hw_outline_area (artwork->outline), MM_DECIMALS);
  json_object_set_array_member (object, "page_mm", place (artwork->width, artwork->height));
  json_object_set_array_member (object, "origin_on_page", place (artwork->centre.x, artwork->centre.y));
  json_object_set_int_member (object, "pages", artwork->n_pages);
  json_object_set_boolean_member (object, "size_guessed", artwork->size_guessed);
  json_object_set_array_member (object, "threads", threads_of (artwork));
  json_object_set_array_member (object, "rings", rings_of (artwork->outline));
  return hw_json_lines (root, NULL);
}

/* From a snapshot to the JSON tree of a scene file. Keys stand in the order a person would tell them; optional ones only
 * when they say something; keys this version does not know follow the known ones. */
#include "scene-json.h"

#include "../scene/record-compare.h"
#include "scene-writer.h"

static void
set_colour (JsonObject *object, const char *key, HwColour colour)
{
  g_autofree char *text = hw_colour_text (colour);

  json_object_set_string_member (object, key, text);
}

static JsonArray *
write_points (const HwRing *ring)
{
  JsonArray *points = json_array_sized_new (ring->n_points);

  for (guint i = 0; i < ring->n_points; i++)
    json_array_add_array_element (points, hw_scene_writer_pair_new (ring->points[i].x, ring->points[i].y));
  return points;
}

static JsonObject *
write_fabric (const HwFabric *fabric)
{
  JsonObject *object = json_object_new ();

  hw_scene_writer_number (object, "width", fabric->width);
  hw_scene_writer_number (object, "height", fabric->height);
  set_colour (object, "colour", fabric->colour);
  hw_scene_writer_text (object, "hold", hw_hold_nicks[fabric->hold]);
  hw_scene_writer_unknown (object, fabric->unknown);
  return object;
}

static JsonObject *
write_edge_line (const HwEdgeLine *edge)
{
  JsonObject *object = json_object_new ();

  json_object_set_array_member (object, "points", write_points (&edge->outline->rings[0]));
  hw_scene_writer_number (object, "margin", edge->margin);
  if (edge->shape != HW_EDGE_POLYGON)
    hw_scene_writer_text (object, "shape", hw_edge_shape_nicks[edge->shape]);
  if (edge->corner_radius > 0)
    hw_scene_writer_number (object, "corner_radius", edge->corner_radius);
  hw_scene_writer_unknown (object, edge->unknown);
  return object;
}

static JsonObject *
write_hoop (const HwHoop *hoop)
{
  JsonObject *object = json_object_new ();

  hw_scene_writer_text (object, "id", hoop->id);
  hw_scene_writer_text (object, "name", hoop->name);
  hw_scene_writer_pair (object, "field", hoop->field_width, hoop->field_height);
  hw_scene_writer_pair (object, "frame", hoop->frame_width, hoop->frame_height);
  hw_scene_writer_number (object, "clearance", hoop->clearance);
  hw_scene_writer_text (object, "turn", hw_turn_nicks[hoop->turn]);
  if (hoop->set_aside)
    json_object_set_boolean_member (object, "set_aside", TRUE);
  hw_scene_writer_unknown (object, hoop->unknown);
  return object;
}

static JsonObject *
write_thread (const HwThreadBlock *thread)
{
  JsonObject *object = json_object_new ();

  hw_scene_writer_text (object, "name", thread->name);
  set_colour (object, "colour", thread->colour);
  json_object_set_int_member (object, "stitches", thread->stitches);
  hw_scene_writer_unknown (object, thread->unknown);
  return object;
}

static JsonArray *
write_outline (const HwOutline *outline)
{
  JsonArray *rings = json_array_new ();

  for (guint i = 0; i < outline->n_rings; i++)
    json_array_add_array_element (rings, write_points (&outline->rings[i]));
  return rings;
}

static JsonObject *
write_artwork (const HwMotif *motif)
{
  JsonObject *object = json_object_new ();

  hw_scene_writer_text (object, "path", motif->artwork);
  if (motif->artwork_kind != NULL)
    hw_scene_writer_text (object, "kind", motif->artwork_kind);
  if (motif->artwork_page > 0)
    json_object_set_int_member (object, "page", motif->artwork_page);
  if (motif->artwork_pixels_per_mm > 0)
    hw_scene_writer_number (object, "pixels_per_mm", motif->artwork_pixels_per_mm);
  return object;
}

static JsonObject *
write_motif (const HwMotif *motif)
{
  JsonObject *object = json_object_new ();
  JsonArray *threads = json_array_new ();

  hw_scene_writer_text (object, "id", motif->id);
  hw_scene_writer_text (object, "name", motif->name);
  json_object_set_array_member (object, "outline", write_outline (motif->outline));
  hw_scene_writer_pair (object, "position", motif->placement.position.x, motif->placement.position.y);
  hw_scene_writer_number (object, "angle", motif->placement.angle);
  hw_scene_writer_number (object, "scale", motif->placement.scale);
  json_object_set_boolean_member (object, "mirrored", motif->placement.mirrored);
  for (guint i = 0; i < motif->n_threads; i++)
    json_array_add_object_element (threads, write_thread (&motif->threads[i]));
  json_object_set_array_member (object, "threads", threads);
  if (motif->artwork != NULL)
    json_object_set_object_member (object, "artwork", write_artwork (motif));
  if (motif->before != NULL && motif->before[0] != NULL)
    hw_scene_writer_ids (object, "before", motif->before);
  if (motif->locked)
    json_object_set_boolean_member (object, "locked", TRUE);
  if (motif->note != NULL)
    hw_scene_writer_text (object, "note", motif->note);
  hw_scene_writer_unknown (object, motif->unknown);
  return object;
}

static JsonArray *
write_pins (GPtrArray *pins)
{
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < pins->len; i++)
    {
      const HwPin *pin = pins->pdata[i];
      JsonObject *object = json_object_new ();

      gboolean all = pin->keep == HW_KEEP_ALL;

      if (all || pin->hoop != NULL)
        hw_scene_writer_text (object, "hoop", pin->hoop);
      if (all || pin->centre.x != 0 || pin->centre.y != 0)
        hw_scene_writer_pair (object, "centre", pin->centre.x, pin->centre.y);
      if (all || pin->angle != 0)
        hw_scene_writer_number (object, "angle", pin->angle);
      if (!all)
        hw_scene_writer_text (object, "keep", hw_keep_nicks[pin->keep]);
      hw_scene_writer_ids (object, "motifs", pin->motifs);
      hw_scene_writer_pin_work (object, pin);
      json_array_add_object_element (list, object);
    }
  return list;
}

static JsonArray *
write_apart (GPtrArray *pairs)
{
  JsonArray *list = json_array_sized_new (pairs->len);

  for (guint i = 0; i < pairs->len; i++)
    {
      const HwApart *apart = pairs->pdata[i];
      JsonArray *pair = json_array_sized_new (2);

      json_array_add_string_element (pair, apart->first);
      json_array_add_string_element (pair, apart->second);
      json_array_add_array_element (list, pair);
    }
  return list;
}

static JsonObject *
write_wishes (const HwWishes *wishes)
{
  JsonObject *object = json_object_new ();
  HwWishes usual;

  hw_wishes_set_defaults (&usual);
  hw_scene_writer_text (object, "best", hw_best_nicks[wishes->best]);
  json_object_set_boolean_member (object, "interleave", wishes->interleave);
  hw_scene_writer_number (object, "density_limit", wishes->density_limit);
  hw_scene_writer_pair (object, "scale_range", wishes->scale_low, wishes->scale_high);
  hw_scene_writer_number (object, "tolerance", wishes->tolerance);
  if (wishes->marks != usual.marks)
    json_object_set_int_member (object, "marks", wishes->marks);
  if (wishes->draw_in != usual.draw_in)
    hw_scene_writer_number (object, "draw_in", wishes->draw_in);
  hw_scene_writer_unknown (object, wishes->unknown);
  return object;
}

static gboolean
are_default_wishes (const HwWishes *wishes)
{
  HwWishes defaults;

  hw_wishes_set_defaults (&defaults);
  return hw_wishes_difference (wishes, &defaults) == 0;
}

static JsonObject *
write_machine (const HwMachine *machine)
{
  JsonObject *object = json_object_new ();

  hw_scene_writer_number (object, "stitches_per_minute", machine->stitches_per_minute);
  hw_scene_writer_number (object, "turn_step", machine->turn_step);
  hw_scene_writer_number (object, "shift_step", machine->shift_step);
  hw_scene_writer_number (object, "minutes_per_change", machine->minutes_per_change);
  hw_scene_writer_number (object, "minutes_per_hooping", machine->minutes_per_hooping);
  hw_scene_writer_unknown (object, machine->unknown);
  return object;
}

static gboolean
is_default_machine (const HwMachine *machine)
{
  HwMachine defaults;

  hw_machine_set_defaults (&defaults);
  return hw_machine_difference (machine, &defaults) == 0;
}

static JsonObject *
write_progress (const HwSnapshot *snapshot)
{
  JsonObject *object = json_object_new ();

  if (snapshot->frozen->len > 0)
    json_object_set_array_member (object, "frozen", write_pins (snapshot->frozen));
  if (snapshot->log->len > 0)
    json_object_set_array_member (object, "log", hw_scene_writer_log (snapshot->log));
  return object;
}

JsonNode *
hw_scene_write (const HwSnapshot *snapshot)
{
  JsonObject *object = json_object_new ();
  JsonObject *supplies = hw_scene_writer_supplies (&snapshot->supplies);
  JsonArray *hoops = json_array_new (), *motifs = json_array_new ();
  JsonNode *root = json_node_new (JSON_NODE_OBJECT);

  hw_scene_writer_text (object, "format", HW_SCENE_FORMAT);
  json_object_set_int_member (object, "version", HW_SCENE_VERSION);
  hw_scene_writer_text (object, "name", snapshot->name);
  json_object_set_object_member (object, "fabric", write_fabric (&snapshot->fabric));
  json_object_set_object_member (object, "edge_line", write_edge_line (snapshot->edge_line));
  for (guint i = 0; i < snapshot->hoops->len; i++)
    json_array_add_object_element (hoops, write_hoop (hw_snapshot_hoop (snapshot, i)));
  json_object_set_array_member (object, "hoops", hoops);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    json_array_add_object_element (motifs, write_motif (hw_snapshot_motif (snapshot, i)));
  json_object_set_array_member (object, "motifs", motifs);
  if (snapshot->parts->len > 0)
    json_object_set_array_member (object, "parts", hw_scene_writer_parts (snapshot->parts));
  if (snapshot->pins->len > 0)
    json_object_set_array_member (object, "pins", write_pins (snapshot->pins));
  if (snapshot->apart->len > 0)
    json_object_set_array_member (object, "apart", write_apart (snapshot->apart));
  if (snapshot->held_marks->len > 0)
    json_object_set_array_member (object, "held_marks", hw_scene_writer_held_marks (snapshot->held_marks));
  if (!are_default_wishes (&snapshot->wishes))
    json_object_set_object_member (object, "wishes", write_wishes (&snapshot->wishes));
  if (!is_default_machine (&snapshot->machine))
    json_object_set_object_member (object, "machine", write_machine (&snapshot->machine));
  if (supplies != NULL)
    json_object_set_object_member (object, "supplies", supplies);
  if (snapshot->frozen->len > 0 || snapshot->log->len > 0)
    json_object_set_object_member (object, "progress", write_progress (snapshot));
  if (snapshot->palette->len > 0)
    json_object_set_array_member (object, "palette", hw_scene_writer_palette (snapshot->palette));
  if (snapshot->photos->len > 0)
    json_object_set_object_member (object, "photo", hw_scene_writer_photos (snapshot));
  hw_scene_writer_unknown (object, snapshot->unknown);
  json_node_take_object (root, object);
  return root;
}

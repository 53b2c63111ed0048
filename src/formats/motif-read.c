/* The motifs of a scene file: outline, placement, threads, artwork, ties. */
#include "scene-reader.h"

#include "outline-read.h"
#include "scene-file.h"
#include "../geometry/language.h"

#define MOST_PAGES 100000
#define LEAST_PIXELS_PER_MM 0.01
#define MOST_PIXELS_PER_MM 1000

static const char *const motif_keys[]
    = { "id",      "name",    "outline", "position", "angle", "scale", "mirrored",
        "threads", "artwork", "before",  "locked",   "note",  NULL };
static const char *const thread_keys[] = { "name", "colour", "stitches", NULL };
static const char *const artwork_keys[] = { "path", "kind", "page", "pixels_per_mm", NULL };

static void
read_threads (HwSceneReader *reader, JsonObject *motif_in, HwMotif *motif)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, motif_in, "threads", FALSE, _ ("a list of threads"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "threads");
  guint64 stitches = 0;

  if (n > 0)
    motif->threads = g_new0 (HwThreadBlock, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);
      HwThreadBlock *thread = &motif->threads[i];

      if (in != NULL)
        {
          thread->name = hw_json_walk_name (walk, in, FALSE, "");
          thread->colour = hw_json_walk_colour (walk, in, "colour", (HwColour){ 0.4, 0.4, 0.4 });
          thread->stitches = hw_json_walk_count (walk, in, "stitches", HW_MOST_STITCHES, 0);
          thread->unknown = hw_json_unknown (in, thread_keys);
          motif->n_threads = i + 1;
        }
      hw_json_walk_leave (walk, item);
    }
  for (guint i = 0; i < motif->n_threads; i++)
    stitches += motif->threads[i].stitches;
  if (stitches > HW_MOST_STITCHES)
    hw_json_walk_refuse (walk, _ ("expected at most %u stitches in one motif, found %.0f."), HW_MOST_STITCHES,
                         (double)stitches);
  hw_json_walk_leave (walk, mark);
}

static void
read_artwork (HwSceneReader *reader, JsonObject *motif_in, HwMotif *motif)
{
  HwJsonWalk *walk = &reader->walk;
  JsonObject *in = hw_json_walk_object (walk, motif_in, "artwork", FALSE);
  gsize mark;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (walk, "artwork");
  motif->artwork = g_strdup (hw_json_walk_text (walk, in, "path", TRUE, NULL));
  motif->artwork_kind = g_strdup (hw_json_walk_text (walk, in, "kind", FALSE, NULL));
  motif->artwork_page = hw_json_walk_count (walk, in, "page", MOST_PAGES, 0);
  motif->artwork_pixels_per_mm
      = hw_json_walk_number (walk, in, "pixels_per_mm", _ ("a number of pixels from 0.01 to 1000"),
                             LEAST_PIXELS_PER_MM, MOST_PIXELS_PER_MM, 0);
  motif->artwork_awaited = motif->artwork != NULL;
  hw_json_walk_leave (walk, mark);
}

/* Returns: (transfer full) */
static HwMotif *
read_motif (HwSceneReader *reader, JsonObject *in)
{
  HwJsonWalk *walk = &reader->walk;
  HwMotif *motif = hw_motif_new ();
  const char *note;

  motif->id = hw_scene_reader_id (reader, in, "motifs", reader->motif_ids);
  motif->name = hw_json_walk_name (walk, in, FALSE, motif->id);
  motif->placement.position = hw_scene_reader_place (walk, in, "position");
  motif->placement.angle = hw_scene_reader_angle (walk, in);
  motif->placement.scale = hw_json_walk_number (walk, in, "scale", _ ("a scale from 0.001 to 1000"),
                                                HW_SMALLEST_SCALE, HW_LARGEST_SCALE, 1);
  motif->placement.mirrored = hw_json_walk_flag (walk, in, "mirrored", FALSE);
  motif->locked = hw_json_walk_flag (walk, in, "locked", FALSE);
  note = hw_json_walk_text (walk, in, "note", FALSE, NULL);
  motif->note = note != NULL && note[0] != '\0' ? g_strdup (note) : NULL;
  read_threads (reader, in, motif);
  if (walk->error == NULL)
    motif->outline = hw_outline_read_rings (walk, in, "outline", motif->name, &motif->outline_repaired);
  read_artwork (reader, in, motif);
  motif->unknown = hw_scene_reader_unknown (in, motif_keys, "artwork", artwork_keys);
  return motif;
}

/* Ties can be read only when all ids are known. */
static void
read_ties (HwSceneReader *reader, JsonArray *list, GPtrArray *motifs)
{
  HwJsonWalk *walk = &reader->walk;

  for (guint i = 0; i < motifs->len && walk->error == NULL; i++)
    {
      HwMotif *motif = motifs->pdata[i];
      JsonObject *in = json_array_get_object_element (list, i);
      gsize item = hw_json_walk_enter_item (walk, i);

      motif->before = hw_scene_reader_ids (walk, in, "before", FALSE, reader->motif_ids);
      if (walk->error == NULL && motif->before != NULL
          && g_strv_contains ((const char *const *)motif->before, motif->id))
        hw_json_walk_refuse (walk, _ ("expected the ids of other motifs in \"before\", found its own."));
      hw_json_walk_leave (walk, item);
    }
}

void
hw_scene_reader_motifs (HwSceneReader *reader, JsonObject *scene, GPtrArray *motifs)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, scene, "motifs", TRUE, _ ("a list of motifs"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "motifs");

  if (n > HW_MOST_MOTIFS)
    {
      walk->code = HW_SCENE_FILE_ERROR_TOO_LARGE;
      hw_json_walk_refuse (walk, _ ("expected at most %d motifs in one scene, found %u."), HW_MOST_MOTIFS, n);
    }
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);

      if (in != NULL)
        g_ptr_array_add (motifs, read_motif (reader, in));
      hw_json_walk_leave (walk, item);
    }
  read_ties (reader, list, motifs);
  hw_json_walk_leave (walk, mark);
}

/* Photographs of the cloth, threads at hand and the parts of a scene, from the JSON tree of a scene file. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "scene-json.h"
#include "scene-reader.h"
#include "../geometry/language.h"

#define LARGEST_PX 1e6
#define LARGEST_METRES 1e6
#define MOST_BOW 0.3

const char *const hw_photo_stack_keys[] = { "shown", "fade", "stack", NULL };

static const char *const photo_keys[]
    = { "name", "taken", "path", "data", "points", "bow", "brightness", "strength", NULL };
static const char *const point_keys[] = { "px", "mm", NULL };
static const char *const palette_keys[] = { "name", "number", "lab", "metres", NULL };
static const char *const part_keys[] = { "name", "motifs", NULL };

static void
expected_member (HwJsonWalk *walk, JsonObject *in, const char *key, const char *expected)
{
  gsize mark = hw_json_walk_enter (walk, key);

  hw_json_walk_expected (walk, expected, json_object_get_member (in, key));
  hw_json_walk_leave (walk, mark);
}

/* A day as RFC 3339 writes it. */
static gboolean
is_day (const char *text)
{
  static const char form[] = "0000-00-00";

  if (strlen (text) != strlen (form))
    return FALSE;
  for (gsize i = 0; form[i] != '\0'; i++)
    {
      if (form[i] == '0' ? !g_ascii_isdigit (text[i]) : text[i] != form[i])
        return FALSE;
    }
  return g_date_valid_dmy ((GDateDay)atoi (text + 8), (GDateMonth)atoi (text + 5), (GDateYear)atoi (text));
}

static char *
read_day (HwJsonWalk *walk, JsonObject *in)
{
  const char *text = hw_json_walk_text (walk, in, "taken", FALSE, NULL);

  if (text == NULL || is_day (text))
    return g_strdup (text);
  expected_member (walk, in, "taken", _ ("a day like \"2026-11-25\""));
  return NULL;
}

/* Base 64 by RFC 4648, in one piece: g_base64_decode() itself passes over what is none. Returns: (transfer full) (nullable) */
static GBytes *
read_data (HwJsonWalk *walk, JsonObject *in)
{
  static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  const char *text = hw_json_walk_long_text (walk, in, "data", FALSE, NULL);
  gsize length = text != NULL ? strlen (text) : 0, n;
  guchar *bytes;

  if (text == NULL)
    return NULL;
  n = strspn (text, letters);
  if (length == 0 || length % 4 != 0 || length - n > 2 || strspn (text + n, "=") != length - n)
    {
      expected_member (walk, in, "data", _ ("the photo's file in base 64"));
      return NULL;
    }
  bytes = g_base64_decode (text, &n);
  return g_bytes_new_take (bytes, n);
}

/* Points that say more than this version knows stay whole among the photo's unknown keys: the writer finds there again what each said. */
static void
keep_points (HwPhoto *photo, JsonArray *kept)
{
  if (json_array_get_length (kept) == 0)
    return;
  if (photo->unknown == NULL)
    photo->unknown = hw_unknown_new (json_object_new ());
  json_object_set_array_member (photo->unknown->members, "points", json_array_ref (kept));
}

static void
read_points (HwJsonWalk *walk, JsonObject *photo_in, HwPhoto *photo)
{
  g_autoptr (JsonArray) kept = json_array_new ();
  JsonArray *list = hw_json_walk_list (walk, photo_in, "points", FALSE, _ ("a list of known points"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "points");

  if (n > HW_MOST_PHOTO_POINTS)
    hw_json_walk_refuse (walk, _ ("expected at most %d points, found %u."), HW_MOST_PHOTO_POINTS, n);
  else if (n > 0)
    photo->points = g_new0 (HwPhotoPoint, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);
      HwUnknown *more;
      double px[2] = { 0 };

      if (in != NULL)
        {
          hw_json_walk_pair (walk, in, "px", _ ("two numbers of pixels"), TRUE, -LARGEST_PX, LARGEST_PX, px);
          photo->points[i].px = (HwPoint){ px[0], px[1] };
          photo->points[i].mm = hw_scene_reader_place (walk, in, "mm");
          photo->n_points = i + 1;
          more = hw_json_unknown (in, point_keys);
          if (more != NULL)
            json_array_add_element (kept, json_node_copy (json_array_get_element (list, i)));
          hw_unknown_unref (more);
        }
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
  keep_points (photo, kept);
}

/* Returns: (transfer full) */
static HwPhoto *
read_photo (HwJsonWalk *walk, JsonObject *in)
{
  HwPhoto *photo = hw_photo_new ();
  const char *path = hw_json_walk_text (walk, in, "path", FALSE, NULL);

  photo->unknown = hw_json_unknown (in, photo_keys);
  g_free (photo->name);
  photo->name = hw_json_walk_name (walk, in, FALSE, "");
  photo->taken = read_day (walk, in);
  photo->path = path != NULL && path[0] != '\0' ? g_strdup (path) : NULL;
  photo->bytes = read_data (walk, in);
  if (walk->error == NULL && (photo->path != NULL) == (photo->bytes != NULL))
    hw_json_walk_refuse (walk, photo->path != NULL
                                   ? _ ("expected the photo's \"path\" or its \"data\", found both.")
                                   : _ ("expected the photo's \"path\" or its \"data\", found neither."));
  read_points (walk, in, photo);
  photo->bow = hw_json_walk_number (walk, in, "bow", _ ("a number from -0.3 to 0.3"), -MOST_BOW, MOST_BOW, 0);
  photo->brightness = hw_json_walk_number (walk, in, "brightness", _ ("a number from -1 to 1"), -1, 1, 0);
  photo->strength = hw_json_walk_number (walk, in, "strength", _ ("a number from 0 to 1"), 0, 1, 1);
  return photo;
}

/* Which photo is shown: none is -1; of a stack that does not say, the first. */
static int
read_shown (HwJsonWalk *walk, JsonObject *in, guint n)
{
  g_autofree char *expected = g_strdup_printf (_ ("a whole number from -1 to %d"), (int)n - 1);
  double shown = hw_json_walk_number (walk, in, "shown", expected, -1, (int)n - 1, n > 0 ? 0 : -1);

  if (shown != floor (shown))
    expected_member (walk, in, "shown", expected);
  return (int)shown;
}

void
hw_scene_reader_photos (HwSceneReader *reader, JsonObject *scene, HwSnapshot *snapshot)
{
  HwJsonWalk *walk = &reader->walk;
  JsonObject *in = hw_json_walk_object (walk, scene, "photo", FALSE);
  gsize mark, stack_mark;
  JsonArray *list;
  guint n;

  if (in == NULL)
    return;
  mark = hw_json_walk_enter (walk, "photo");
  list = hw_json_walk_list (walk, in, "stack", FALSE, _ ("a list of photos"));
  n = list != NULL ? json_array_get_length (list) : 0;
  stack_mark = hw_json_walk_enter (walk, "stack");
  if (n > HW_MOST_PHOTOS)
    hw_json_walk_refuse (walk, _ ("expected at most %d photos, found %u."), HW_MOST_PHOTOS, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *photo_in = hw_json_walk_item_object (walk, list, i);

      if (photo_in != NULL)
        g_ptr_array_add (snapshot->photos, read_photo (walk, photo_in));
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, stack_mark);
  snapshot->photo_shown = read_shown (walk, in, n);
  snapshot->photo_fade = hw_json_walk_number (walk, in, "fade", _ ("a number from 0 to 1"), 0, 1, 0);
  hw_json_walk_leave (walk, mark);
}

static gboolean
node_number (JsonNode *node, double most, double *value)
{
  GType type = JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_NONE;

  if (type != G_TYPE_INT64 && type != G_TYPE_DOUBLE)
    return FALSE;
  *value = json_node_get_double (node);
  return fabs (*value) <= most;
}

static HwLab
read_lab (HwJsonWalk *walk, JsonObject *in)
{
  const char *expected = _ ("three numbers of CIELAB");
  JsonArray *list = hw_json_walk_list (walk, in, "lab", TRUE, expected);
  HwLab lab = { 0 };

  if (list != NULL
      && (json_array_get_length (list) != 3 || !node_number (json_array_get_element (list, 0), 100, &lab.l)
          || lab.l < 0 || !node_number (json_array_get_element (list, 1), 200, &lab.a)
          || !node_number (json_array_get_element (list, 2), 200, &lab.b)))
    expected_member (walk, in, "lab", expected);
  return lab;
}

/* Returns: (transfer full) */
static HwPaletteThread *
read_palette_thread (HwJsonWalk *walk, JsonObject *in)
{
  g_autofree char *name = hw_json_walk_name (walk, in, TRUE, NULL);
  const char *number = hw_json_walk_text (walk, in, "number", FALSE, NULL);
  double metres = hw_json_walk_number (walk, in, "metres", _ ("a number of metres from 0 to 1000000"), 0,
                                       LARGEST_METRES, -1);
  HwPaletteThread *thread
      = hw_palette_thread_new (name, number, read_lab (walk, in), metres < 0 ? NAN : metres);

  thread->unknown = hw_json_unknown (in, palette_keys);
  return thread;
}

void
hw_scene_reader_palette (HwSceneReader *reader, JsonObject *scene, GPtrArray *palette)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, scene, "palette", FALSE, _ ("a list of threads"));
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "palette");

  if (n > HW_MOST_PALETTE_THREADS)
    hw_json_walk_refuse (walk, _ ("expected at most %d threads, found %u."), HW_MOST_PALETTE_THREADS, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);

      if (in != NULL)
        g_ptr_array_add (palette, read_palette_thread (walk, in));
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

/* Returns: (transfer full). taken: the motifs that parts before this one have. */
static HwPart *
read_part (HwSceneReader *reader, JsonObject *in, GHashTable *taken)
{
  HwJsonWalk *walk = &reader->walk;
  g_autofree char *name = hw_json_walk_name (walk, in, TRUE, NULL);
  g_auto (GStrv) motifs = hw_scene_reader_ids (walk, in, "motifs", FALSE, reader->motif_ids);
  HwPart *part = hw_part_new (name, (const char *const *)motifs);
  gsize mark = hw_json_walk_enter (walk, "motifs");

  for (char **motif = part->motifs; *motif != NULL; motif++)
    {
      if (!g_hash_table_add (taken, g_strdup (*motif)))
        hw_json_walk_refuse (walk, _ ("expected each motif in one part only, found \"%s\" again."), *motif);
    }
  hw_json_walk_leave (walk, mark);
  part->unknown = hw_json_unknown (in, part_keys);
  return part;
}

void
hw_scene_reader_parts (HwSceneReader *reader, JsonObject *scene, GPtrArray *parts)
{
  HwJsonWalk *walk = &reader->walk;
  JsonArray *list = hw_json_walk_list (walk, scene, "parts", FALSE, _ ("a list of parts"));
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = list != NULL ? json_array_get_length (list) : 0;
  gsize mark = hw_json_walk_enter (walk, "parts");

  if (n > HW_MOST_PARTS)
    hw_json_walk_refuse (walk, _ ("expected at most %d parts, found %u."), HW_MOST_PARTS, n);
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *in = hw_json_walk_item_object (walk, list, i);

      if (in != NULL)
        g_ptr_array_add (parts, read_part (reader, in, taken));
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

/* Scene files: bytes to snapshot and back, with sentences that name the file and the place in it. */
#include "scene-file.h"

#include <stdlib.h>
#include <string.h>

#include "artwork-shelf.h"
#include "json-check.h"
#include "json-lines.h"
#include "named-file.h"
#include "scene-json.h"
#include "scene-room.h"
#include "whole-file.h"
#include "../geometry/language.h"
#include "../scene/scene-limits.h"

G_DEFINE_QUARK (hw_scene_file_error_quark, hw_scene_file_error)

static gboolean
check_json (const char *text, gsize length, GError **error)
{
  static const HwSceneFileError codes[] = {
    [HW_JSON_ERROR_SYNTAX] = HW_SCENE_FILE_ERROR_SYNTAX,
    [HW_JSON_ERROR_TOO_LARGE] = HW_SCENE_FILE_ERROR_TOO_LARGE,
    [HW_JSON_ERROR_NUMBER] = HW_SCENE_FILE_ERROR_CONTENT,
  };
  g_autoptr (GError) problem = NULL;

  if (length > HW_LARGEST_SCENE_FILE)
    {
      g_set_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_TOO_LARGE, _ ("it is larger than %u MB."),
                   (guint)(HW_LARGEST_SCENE_FILE >> 20));
      return FALSE;
    }
  if (hw_json_check (text, length, &problem))
    return TRUE;
  g_set_error_literal (error, HW_SCENE_FILE_ERROR, codes[problem->code], problem->message);
  return FALSE;
}

HwSnapshot *
hw_scene_file_parse_awaiting (const char *text, gssize given_length, GError **error)
{
  static const char mark[] = "\xef\xbb\xbf"; /* a byte order mark says nothing in UTF-8 */
  g_autoptr (JsonParser) parser = NULL;
  g_autoptr (GError) problem = NULL;
  gsize length;

  g_return_val_if_fail (text != NULL, NULL);

  length = given_length < 0 ? strlen (text) : (gsize)given_length;
  if (length >= 3 && memcmp (text, mark, 3) == 0)
    {
      text += 3;
      length -= 3;
    }
  if (!check_json (text, length, error))
    return NULL;
  if (!hw_scene_room_to_read (text, length))
    {
      g_set_error_literal (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_TOO_LARGE,
                           _ ("there is not enough memory for a scene this large."));
      return NULL;
    }
  parser = json_parser_new ();
  if (!json_parser_load_from_data (parser, text, (gssize)length, &problem))
    {
      g_set_error_literal (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_SYNTAX, problem->message);
      return NULL;
    }
  return hw_scene_read (json_parser_get_root (parser), error);
}

/* Nobody else has seen the snapshot yet. */
static void
read_artwork (HwSnapshot *snapshot, const char *folder)
{
  g_autoptr (HwArtworkShelf) shelf = hw_artwork_shelf_new ();
  g_autoptr (GPtrArray) to_read = hw_artwork_shelf_to_read (shelf, folder, snapshot->motifs);

  hw_artwork_shelf_read (shelf, folder, to_read, NULL, NULL);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    hw_artwork_shelf_fill (shelf, folder, snapshot->motifs->pdata[i]);
}

static void
await_none (HwSnapshot *snapshot)
{
  for (guint i = 0; i < snapshot->motifs->len; i++)
    ((HwMotif *)snapshot->motifs->pdata[i])->artwork_awaited = FALSE;
}

HwSnapshot *
hw_scene_file_parse (const char *text, gssize length, const char *folder, GError **error)
{
  HwSnapshot *snapshot = hw_scene_file_parse_awaiting (text, length, error);

  if (snapshot != NULL && folder != NULL)
    read_artwork (snapshot, folder);
  else if (snapshot != NULL)
    await_none (snapshot);
  return snapshot;
}

HwSnapshot *
hw_scene_file_load (const char *path, GError **error)
{
  g_autofree char *folder = NULL;
  HwSnapshot *snapshot;

  g_return_val_if_fail (path != NULL, NULL);

  folder = g_path_get_dirname (path);
  snapshot = hw_scene_file_load_awaiting (path, error);
  if (snapshot != NULL)
    read_artwork (snapshot, folder);
  return snapshot;
}

HwSnapshot *
hw_scene_file_load_awaiting (const char *path, GError **error)
{
  g_autofree char *name = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) problem = NULL;
  HwSnapshot *snapshot;
  gsize length;

  g_return_val_if_fail (path != NULL, NULL);

  name = hw_file_shown_name (path);
  text = hw_file_read_whole (path, HW_LARGEST_SCENE_FILE, &length, &problem);
  if (text == NULL)
    {
      g_set_error (error, HW_SCENE_FILE_ERROR,
                   g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_NOSPC) ? HW_SCENE_FILE_ERROR_TOO_LARGE
                                                                               : HW_SCENE_FILE_ERROR_READ,
                   "%s: %s", name, problem->message);
      return NULL;
    }
  snapshot = hw_scene_file_parse_awaiting (text, (gssize)length, error);
  if (snapshot == NULL)
    g_prefix_error (error, "%s: ", name);
  return snapshot;
}

/* Each hoop, motif, thread and hooping begins a line of its own, so that a change of one shows as a change of its lines. */
static gboolean
opens (guint depth, const char *key)
{
  static const char *const lists[]
      = { "hoops", "motifs", "pins", "held_marks", "progress", "parts", "palette", "photo", NULL };

  return (depth == 1 && g_strv_contains (lists, key)) || (depth == 2 && g_str_equal (key, "motifs"))
         || (depth == 3 && g_str_equal (key, "threads")) || (depth == 2 && g_str_equal (key, "frozen"))
         || (depth == 2 && g_str_equal (key, "log")) || (depth == 2 && g_str_equal (key, "stack"));
}

char *
hw_scene_file_text (const HwSnapshot *snapshot)
{
  g_autoptr (JsonNode) root = NULL;

  g_return_val_if_fail (snapshot != NULL, NULL);

  root = hw_scene_write (snapshot);
  return hw_json_lines (root, opens);
}

/* The way from a folder to a file, both absolute. Returns: (transfer full) */
static char *
relative_path (const char *folder, const char *file)
{
  g_auto (GStrv) from = g_strsplit (folder, G_DIR_SEPARATOR_S, -1);
  g_auto (GStrv) to = g_strsplit (file, G_DIR_SEPARATOR_S, -1);
  g_autoptr (GString) path = g_string_new (NULL);
  guint common = 0;

  while (from[common] != NULL && to[common] != NULL && to[common + 1] != NULL
         && g_str_equal (from[common], to[common]))
    common++;
  for (char **step = from + common; *step != NULL; step++)
    {
      if (**step != '\0')
        g_string_append (path, "../");
    }
  for (char **step = to + common; *step != NULL; step++)
    g_string_append_printf (path, "%s%s", step == to + common ? "" : G_DIR_SEPARATOR_S, *step);
  return g_string_free (g_steal_pointer (&path), FALSE);
}

/* The folder with its links resolved, so that ".." leads where it seems to. Returns: (transfer full) */
static char *
true_folder (const char *folder)
{
  char *resolved = realpath (folder, NULL);
  char *result = resolved != NULL ? g_strdup (resolved) : g_canonicalize_filename (folder, NULL);

  free (resolved);
  return result;
}

/* The way to the same file from another folder; NULL: it needs no other words. Returns: (transfer full) (nullable) */
static char *
moved_path (const char *path, const char *from, const char *to)
{
  g_autofree char *file = NULL;

  if (path == NULL || g_path_is_absolute (path))
    return NULL;
  file = g_canonicalize_filename (path, from);
  return relative_path (to, file);
}

static void
move_photos (HwSnapshot *moved, const char *from, const char *to)
{
  for (guint i = 0; i < moved->photos->len; i++)
    {
      const HwPhoto *photo = moved->photos->pdata[i];
      char *path = moved_path (photo->path, from, to);
      HwPhoto *changed;

      if (path == NULL)
        continue;
      changed = hw_photo_copy (photo);
      g_free (changed->path);
      changed->path = path;
      hw_photo_unref (moved->photos->pdata[i]);
      moved->photos->pdata[i] = changed;
    }
}

/* The snapshot with the paths of artwork and photos that start in new_folder instead of old_folder. Returns: (transfer full) */
static HwSnapshot *
move_paths (const HwSnapshot *snapshot, const char *old_folder, const char *new_folder)
{
  HwSnapshot *moved = hw_snapshot_copy (snapshot);
  g_autofree char *from = true_folder (old_folder);
  g_autofree char *to = true_folder (new_folder);

  if (g_str_equal (from, to))
    return moved;
  move_photos (moved, from, to);
  for (guint i = 0; i < moved->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (moved, i);
      char *path = moved_path (motif->artwork, from, to);
      HwMotif *changed;

      if (path == NULL)
        continue;
      changed = hw_motif_copy (motif);
      g_free (changed->artwork);
      changed->artwork = path;
      hw_motif_unref (moved->motifs->pdata[i]);
      moved->motifs->pdata[i] = changed;
    }
  return moved;
}

gboolean
hw_scene_file_save (const HwSnapshot *snapshot, const char *path, const char *old_folder, GError **error)
{
  g_autofree char *folder = NULL;
  g_autofree char *text = NULL;
  g_autofree char *name = NULL;
  g_autofree char *too_much = NULL;
  g_autoptr (HwSnapshot) moved = NULL;
  g_autoptr (GError) problem = NULL;

  g_return_val_if_fail (snapshot != NULL && path != NULL, FALSE);

  name = hw_file_shown_name (path);
  if (snapshot->newer_version > 0)
    {
      g_set_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_WRITE,
                   _ ("%s was not saved: a newer Hoopwright wrote this scene, and this one only reads it."),
                   name);
      return FALSE;
    }
  if (!hw_scene_room_to_write (snapshot))
    {
      g_set_error (
          error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_WRITE,
          _ ("%s was not saved: there is not enough memory left. Close other programs, then save again."),
          name);
      return FALSE;
    }
  too_much = hw_scene_too_much (snapshot);
  if (too_much != NULL)
    {
      g_set_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_TOO_LARGE, _ ("%s was not saved: %s"),
                   name, too_much);
      return FALSE;
    }
  folder = g_path_get_dirname (path);
  moved = old_folder != NULL ? move_paths (snapshot, old_folder, folder) : hw_snapshot_ref (snapshot);
  text = hw_scene_file_text (moved);
  if (strlen (text) > HW_LARGEST_SCENE_FILE)
    {
      g_set_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_TOO_LARGE,
                   _ ("%s was not saved: it would be larger than %u MB; keep some photos beside the scene "
                      "instead of in it."),
                   name, (guint)(HW_LARGEST_SCENE_FILE >> 20));
      return FALSE;
    }
  if (!hw_file_replace_whole (path, text, strlen (text), &problem))
    {
      g_set_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_WRITE, _ ("%s was not saved: %s"), name,
                   problem->message);
      return FALSE;
    }
  if (old_folder != NULL)
    hw_named_files_take_along (snapshot, old_folder, folder);
  return TRUE;
}

/* Earlier states of a scene file. Each scene has a folder named after a digest of its path; a state is a copy of the file, named after the
 * second at which it was saved, so that the names sort by age. */
#include "earlier-states.h"

#include <glib/gstdio.h>
#include <string.h>

#include "../geometry/language.h"
#include "kept-work.h"
#include "scene-file.h"
#include "whole-file.h"

#define SUFFIX ".hoopscene"
#define NAME_DIGITS 12 /* of the seconds, so that names sort */
/* Seconds: a file that much older than the state kept before it tells of a clock that was set back. */
#define QUICK 60

static char *
folder_of (const char *folder, const char *path)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);
  g_autofree char *digest = g_compute_checksum_for_string (G_CHECKSUM_SHA256, whole, -1);
  g_autofree char *state = hw_state_folder ();

  digest[16] = '\0';
  return folder != NULL ? g_build_filename (folder, digest, NULL)
                        : g_build_filename (state, "earlier", digest, NULL);
}

static void
earlier_state_free (gpointer data)
{
  HwEarlierState *state = data;

  g_free (state->file);
  g_free (state);
}

/* The seconds a file is named after; FALSE when it is not one of ours. */
static gboolean
read_name (const char *name, gint64 *saved)
{
  char *end;

  if (strlen (name) != NAME_DIGITS + strlen (SUFFIX) || !g_str_has_suffix (name, SUFFIX))
    return FALSE;
  *saved = g_ascii_strtoll (name, &end, 10);
  return end == name + NAME_DIGITS;
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  const HwEarlierState *first = *(HwEarlierState *const *)a, *second = *(HwEarlierState *const *)b;

  return (first->saved < second->saved) - (first->saved > second->saved);
}

GPtrArray *
hw_earlier_states_list (const char *folder, const char *path)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (earlier_state_free);
  g_autofree char *where = NULL;
  g_autoptr (GDir) dir = NULL;
  const char *name;

  g_return_val_if_fail (path != NULL, list);

  where = folder_of (folder, path);
  dir = g_dir_open (where, 0, NULL);
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      HwEarlierState *state;
      gint64 saved;

      if (!read_name (name, &saved))
        continue;
      state = g_new0 (HwEarlierState, 1);
      state->file = g_build_filename (where, name, NULL);
      state->saved = saved;
      g_ptr_array_add (list, state);
    }
  g_ptr_array_sort (list, newest_first);
  return list;
}

static gboolean
holds (const char *file, const char *text, gsize length)
{
  g_autofree char *old = NULL;
  gsize old_length;

  old = hw_file_read_whole (file, HW_LARGEST_SCENE_FILE, &old_length, NULL);
  return old != NULL && old_length == length && memcmp (old, text, length) == 0;
}

/* Drops what is too many, and the newest when the one after it comes within the spacing. */
static void
make_room (GPtrArray *list, gint64 saved, gint64 spacing)
{
  const HwEarlierState *newest = list->len > 0 ? g_ptr_array_index (list, 0) : NULL;
  const HwEarlierState *second = list->len > 1 ? g_ptr_array_index (list, 1) : NULL;
  guint stay = HW_MOST_EARLIER_STATES - 1;

  /* Seen from the one before it, so that a row of quick saves does not keep replacing itself for ever. */
  if (spacing > 0 && newest != NULL && second != NULL && newest->saved - second->saved < spacing
      && saved - newest->saved < spacing)
    {
      g_unlink (newest->file);
      stay++;
    }
  for (guint i = stay; i < list->len; i++)
    g_unlink (((const HwEarlierState *)g_ptr_array_index (list, i))->file);
}

/* A clock that was set back must not turn the order round. Nor can it be told then how far apart two states are, so they count as far enough for both
 * to be kept. */
static gint64
after_the_newest (gint64 saved, gint64 newest, gint64 spacing)
{
  return MAX (saved, newest + (newest - saved > QUICK ? MAX (spacing, 1) : 1));
}

gboolean
hw_earlier_state_keep (const char *folder, const char *path, gint64 spacing, GError **error)
{
  g_autoptr (GPtrArray) list = NULL;
  g_autofree char *where = NULL;
  g_autofree char *text = NULL;
  g_autofree char *file = NULL;
  GStatBuf info;
  gsize length;
  gint64 saved;

  g_return_val_if_fail (path != NULL, FALSE);

  if (g_stat (path, &info) != 0
      || (text = hw_file_read_whole (path, HW_LARGEST_SCENE_FILE, &length, NULL)) == NULL)
    return TRUE;
  list = hw_earlier_states_list (folder, path);
  if (list->len > 0 && holds (((const HwEarlierState *)g_ptr_array_index (list, 0))->file, text, length))
    return TRUE;
  where = folder_of (folder, path);
  if (g_mkdir_with_parents (where, 0700) != 0)
    {
      g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_FAILED, _ ("Earlier states cannot be kept in %s."),
                   where);
      return FALSE;
    }
  saved = MAX ((gint64)info.st_mtime, 0);
  if (list->len > 0)
    saved = after_the_newest (saved, ((const HwEarlierState *)g_ptr_array_index (list, 0))->saved, spacing);
  file = g_strdup_printf ("%s/%0*" G_GINT64_FORMAT "%s", where, NAME_DIGITS, saved, SUFFIX);
  if (!hw_file_replace_whole (file, text, length, error))
    return FALSE;
  make_room (list, saved,
             spacing); /* only now: a full disk must not cost an old state without keeping a new one */
  return TRUE;
}

HwSnapshot *
hw_earlier_state_read (const HwEarlierState *state, const char *path, GError **error)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) problem = NULL;
  HwSnapshot *snapshot = NULL;
  gsize length;

  g_return_val_if_fail (state != NULL && path != NULL, NULL);

  text = hw_file_read_whole (state->file, HW_LARGEST_SCENE_FILE, &length, &problem);
  if (text != NULL)
    snapshot = hw_scene_file_parse_awaiting (text, (gssize)length, &problem);
  if (snapshot == NULL)
    g_set_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_READ,
                 _ ("The earlier state cannot be read: %s"), problem->message);
  return snapshot;
}

/* The file is a key file with a group for each scene, named by a digest of its path because a group's name may not hold every letter of a path. Whatever
 * stands in it that is not sound counts as not there: the scene is then shown whole, as on its first day. */
#include "session.h"

#include <errno.h>
#include <math.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../formats/kept-work.h"
#include "../formats/whole-file.h"

#define FILE_NAME "session.ini"
#define PROGRAM "session"
#define LEAST_ZOOM 0.01 /* pixels per mm; the table has narrower limits of its own */
#define MOST_ZOOM 1000.0
#define FARTHEST 1e6 /* mm */

static char *
file_path (const char *folder)
{
  g_autofree char *state = hw_state_folder ();

  return g_build_filename (folder != NULL ? folder : state, FILE_NAME, NULL);
}

/* Whether the file, and the link that may lead to it, is the person's own, or nothing is there: what another user put into a folder that is open to
 * others is neither believed nor written through. */
static gboolean
is_own (const char *path)
{
  struct stat named, file;

  if (lstat (path, &named) != 0)
    return errno == ENOENT;
  return named.st_uid == geteuid () && stat (path, &file) == 0 && S_ISREG (file.st_mode)
         && file.st_uid == geteuid ();
}

#define LARGEST ((gsize)4 << 20)

/* known (nullable): FALSE when there is a file that cannot be read now or is not the person's own, and so must not be written over. Returns: (transfer full): empty when there is
 * none yet or it cannot be read */
static GKeyFile *
load (const char *folder, gboolean *known)
{
  g_autofree char *path = file_path (folder);
  g_autoptr (GError) error = NULL;
  GKeyFile *file = g_key_file_new ();
  gsize length;
  gboolean own = is_own (path);
  g_autofree char *text = own ? hw_file_read_whole (path, LARGEST, &length, &error) : NULL;

  if (known != NULL)
    *known = text != NULL || g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT)
             || g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC);
  if (text != NULL && g_key_file_load_from_data (file, text, length, G_KEY_FILE_NONE, NULL))
    return file;
  g_key_file_unref (file);
  return g_key_file_new ();
}

static void
save (const char *folder, GKeyFile *file)
{
  g_autofree char *path = file_path (folder);
  g_autofree char *place = g_path_get_dirname (path);
  g_autoptr (GError) error = NULL;
  gsize length;
  g_autofree char *text = g_key_file_to_data (file, &length, NULL);

  g_mkdir_with_parents (place, 0700);
  if (!hw_file_replace_whole (path, text, length, &error))
    g_info ("%s", error->message);
}

static char *
group_of (const char *scene)
{
  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, scene, -1);
}

/* After all that are there: a clock that was set back must not make the scene just left the one left longest ago. */
static gint64
left_now (GKeyFile *file)
{
  g_auto (GStrv) groups = g_key_file_get_groups (file, NULL);
  gint64 left = g_get_real_time ();

  for (char **group = groups; *group != NULL; group++)
    {
      gint64 at = g_key_file_get_int64 (file, *group, "left", NULL);

      if (at >= left && at < G_MAXINT64)
        left = at + 1;
    }
  return left;
}

/* Scenes left longest ago go. */
static void
make_room (GKeyFile *file)
{
  for (;;)
    {
      gsize n;
      g_auto (GStrv) groups = g_key_file_get_groups (file, &n);
      const char *oldest = NULL;
      gint64 left = G_MAXINT64;
      guint scenes = 0;

      for (gsize i = 0; i < n; i++)
        {
          gint64 at = g_key_file_get_int64 (file, groups[i], "left", NULL);

          if (g_str_equal (groups[i], PROGRAM))
            continue;
          scenes++;
          if (at < left)
            {
              left = at;
              oldest = groups[i];
            }
        }
      if (scenes <= HW_SESSION_MOST || oldest == NULL)
        return;
      g_key_file_remove_group (file, oldest, NULL);
    }
}

static gboolean
number (GKeyFile *file, const char *group, const char *key, double least, double most, double *value)
{
  g_autoptr (GError) error = NULL;

  *value = g_key_file_get_double (file, group, key, &error);
  return error == NULL && isfinite (*value) && *value >= least && *value <= most;
}

static gboolean
flag (GKeyFile *file, const char *group, const char *key, gboolean otherwise)
{
  g_autoptr (GError) error = NULL;
  gboolean value = g_key_file_get_boolean (file, group, key, &error);

  return error == NULL ? value : otherwise;
}

gboolean
hw_session_read (const char *folder, const char *scene, HwSceneSeen *seen)
{
  g_return_val_if_fail (scene != NULL && seen != NULL, FALSE);

  g_autoptr (GKeyFile) file = load (folder, NULL);
  g_autofree char *group = group_of (scene);
  HwSceneSeen read = { .whole = flag (file, group, "whole", FALSE) };

  if (!g_key_file_has_group (file, group))
    return FALSE;
  if (!read.whole
      && (!number (file, group, "x", -FARTHEST, FARTHEST, &read.centre.x)
          || !number (file, group, "y", -FARTHEST, FARTHEST, &read.centre.y)
          || !number (file, group, "zoom", LEAST_ZOOM, MOST_ZOOM, &read.zoom)))
    return FALSE;
  read.at_machine = flag (file, group, "at-machine", FALSE);
  read.hoopings = flag (file, group, "hoopings", TRUE);
  read.marks = flag (file, group, "marks", TRUE);
  read.order = flag (file, group, "order", TRUE);
  read.density = flag (file, group, "density", FALSE);
  *seen = read;
  return TRUE;
}

void
hw_session_write (const char *folder, const char *scene, const HwSceneSeen *seen)
{
  g_return_if_fail (scene != NULL && seen != NULL);

  gboolean known;
  g_autoptr (GKeyFile) file = load (folder, &known);
  g_autofree char *group = group_of (scene), *shown = g_filename_display_name (scene);

  g_key_file_remove_group (file, group, NULL);
  g_key_file_set_string (file, group, "scene", shown);
  g_key_file_set_int64 (file, group, "left", left_now (file));
  g_key_file_set_boolean (file, group, "whole", seen->whole);
  if (!seen->whole)
    {
      g_key_file_set_double (file, group, "x", seen->centre.x);
      g_key_file_set_double (file, group, "y", seen->centre.y);
      g_key_file_set_double (file, group, "zoom", seen->zoom);
    }
  g_key_file_set_boolean (file, group, "at-machine", seen->at_machine);
  g_key_file_set_boolean (file, group, "hoopings", seen->hoopings);
  g_key_file_set_boolean (file, group, "marks", seen->marks);
  g_key_file_set_boolean (file, group, "order", seen->order);
  g_key_file_set_boolean (file, group, "density", seen->density);
  make_room (file);
  if (known)
    save (folder, file);
}

char *
hw_session_last_scene (const char *folder)
{
  g_autoptr (GKeyFile) file = load (folder, NULL);
  g_autofree char *uri = g_key_file_get_string (file, PROGRAM, "last-scene", NULL);
  g_autofree char *scene = uri != NULL ? g_filename_from_uri (uri, NULL, NULL) : NULL;

  if (scene == NULL || !g_file_test (scene, G_FILE_TEST_IS_REGULAR))
    return NULL;
  return g_steal_pointer (&scene);
}

/* As an address, because a path need not be UTF-8 and a key file must. */
void
hw_session_set_last_scene (const char *folder, const char *scene)
{
  gboolean known;
  g_autoptr (GKeyFile) file = load (folder, &known);
  g_autofree char *uri = scene != NULL ? g_filename_to_uri (scene, NULL, NULL) : NULL;

  if (uri != NULL)
    g_key_file_set_string (file, PROGRAM, "last-scene", uri);
  else
    g_key_file_remove_group (file, PROGRAM, NULL);
  if (known)
    save (folder, file);
}

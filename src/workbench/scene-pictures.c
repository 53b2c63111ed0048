/* A picture's name is a digest of the scene's path, its file's time and size, and the picture's own size: a scene that was saved again is another
 * picture, and nothing has to be compared. The pictures looked at longest ago make room. */
#include "scene-pictures.h"

#include <glib/gstdio.h>
#include <sys/stat.h>
#include <utime.h>

#include "../drawing/scene-thumb.h"
#include "../formats/scene-file.h"
#include "../geometry/language.h"

#define PAINTED_AS "1" /* another number when pictures come to look different */
#define MOST_KEPT 24
#define ENDING ".png"

/* Returns: (transfer full) (nullable): NULL when there is no such file */
static char *
picture_name (const char *scene, guint longer_side)
{
  g_autoptr (GChecksum) digest = g_checksum_new (G_CHECKSUM_SHA256);
  struct stat facts;

  if (stat (scene, &facts) != 0)
    return NULL;
  g_autofree char *key = g_strdup_printf (PAINTED_AS "|%s|%" G_GINT64_FORMAT ".%09ld|%" G_GINT64_FORMAT "|%u",
                                          scene, (gint64)facts.st_mtim.tv_sec, facts.st_mtim.tv_nsec,
                                          (gint64)facts.st_size, longer_side);
  g_checksum_update (digest, (const guchar *)key, -1);
  return g_strconcat (g_checksum_get_string (digest), ENDING, NULL);
}

typedef struct
{
  char *path;
  gint64 looked_at;
} Kept;

static void
kept_free (gpointer data)
{
  Kept *kept = data;

  g_free (kept->path);
  g_free (kept);
}

static int
newer_first (gconstpointer a, gconstpointer b)
{
  const Kept *ka = *(Kept *const *)a, *kb = *(Kept *const *)b;

  return (ka->looked_at < kb->looked_at) - (ka->looked_at > kb->looked_at);
}

/* That of `wanted` stays, though a clock that was set back makes it the oldest. */
static void
make_room (const char *folder, const char *wanted)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (kept_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      struct stat facts;
      Kept *kept;

      if (!g_str_has_suffix (name, ENDING))
        continue;
      kept = g_new0 (Kept, 1);
      kept->path = g_build_filename (folder, name, NULL);
      kept->looked_at = stat (kept->path, &facts) == 0 ? (gint64)facts.st_mtime : 0;
      if (g_str_equal (kept->path, wanted))
        kept->looked_at = G_MAXINT64;
      g_ptr_array_add (all, kept);
    }
  g_ptr_array_sort (all, newer_first);
  for (guint i = MOST_KEPT; i < all->len; i++)
    g_unlink (((Kept *)all->pdata[i])->path);
}

char *
hw_scene_picture_file (const char *folder, const char *scene, guint longer_side, GError **error)
{
  g_return_val_if_fail (scene != NULL && longer_side > 0, NULL);

  g_autofree char *own
      = folder == NULL ? g_build_filename (g_get_user_cache_dir (), "hoopwright", "scenes", NULL) : NULL;
  const char *where = folder != NULL ? folder : own;
  g_autofree char *name = picture_name (scene, longer_side);
  g_autofree char *path = name != NULL ? g_build_filename (where, name, NULL) : NULL;

  if (path != NULL && utime (path, NULL) == 0) /* looked at now */
    return g_steal_pointer (&path);

  g_autoptr (HwSnapshot) read = hw_scene_file_load (scene, error);
  if (read == NULL)
    return NULL;
  if (path == NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, _ ("%s is not there any more."), scene);
      return NULL;
    }
  g_mkdir_with_parents (where, 0700);
  if (!hw_scene_thumb_save (read, longer_side, path, error))
    return NULL;
  make_room (where, path);
  return g_steal_pointer (&path);
}

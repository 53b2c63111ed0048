/* Where a photograph is kept: in the scene's own file, or as a file beside it that the scene names by its path. */
#include "photo-file.h"

#include <glib/gi18n.h>
#include <string.h>
#include <sys/stat.h>

#include "../formats/named-file.h"
#include "../formats/whole-file.h"
#include "../geometry/one-line.h"
#include "../scene/limits.h"

#define MOST_NAMES 10000

static gboolean
is_regular (const char *path)
{
  struct stat info;

  return stat (path, &info) == 0 && S_ISREG (info.st_mode);
}

GBytes *
hw_photo_file_read (const char *path, GError **error)
{
  g_return_val_if_fail (path != NULL, NULL);

  g_autofree char *name = hw_file_shown_name (path);
  g_autoptr (GError) trouble = NULL;
  gsize length;
  char *bytes;

  if (!is_regular (path))
    {
      g_set_error (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_READ,
                   _ ("%s: there is no such file to read; choose the photo again."), name);
      return NULL;
    }
  bytes = hw_file_read_whole (path, HW_LARGEST_PICTURE_FILE, &length, &trouble);
  if (bytes != NULL)
    return g_bytes_new_take (bytes, length);
  if (g_error_matches (trouble, G_FILE_ERROR, G_FILE_ERROR_NOSPC))
    g_set_error (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_TOO_LARGE,
                 _ ("%s: the file is over 512 MB; save the photo smaller and open that."), name);
  else
    g_set_error (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_READ, _ ("%s could not be read: %s"), name,
                 trouble->message);
  return NULL;
}

GBytes *
hw_photo_bytes (const HwPhoto *photo, const char *folder, GError **error)
{
  g_return_val_if_fail (photo != NULL, NULL);

  g_autoptr (GError) trouble = NULL;
  g_autofree char *path = NULL;

  if (photo->bytes != NULL)
    return g_bytes_ref (photo->bytes);
  path = hw_named_file_find (photo->path != NULL ? photo->path : "", folder, &trouble);
  if (path == NULL && g_error_matches (trouble, HW_NAMED_FILE_ERROR, HW_NAMED_FILE_ERROR_MISSING))
    path = g_canonicalize_filename (photo->path, folder); /* what is gone is told in the reader's own words */
  if (path != NULL)
    return hw_photo_file_read (path, error);
  g_set_error_literal (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_READ, trouble->message);
  return NULL;
}

HwPicture *
hw_photo_load (const HwPhoto *photo, const char *folder, GError **error)
{
  g_return_val_if_fail (photo != NULL, NULL);

  g_autoptr (GBytes) bytes = hw_photo_bytes (photo, folder, error);

  return bytes != NULL ? hw_picture_load_bytes (bytes, photo->name, error) : NULL;
}

static gboolean
holds (GFile *file, GBytes *bytes)
{
  g_autofree char *path = g_file_get_path (file);
  gsize length, wanted;
  const void *data = g_bytes_get_data (bytes, &wanted);
  g_autofree char *there = hw_file_read_whole (path, wanted, &length, NULL);

  return there != NULL && length == wanted && memcmp (there, data, length) == 0;
}

/* name.jpg, name-2.jpg, name-3.jpg ... */
static char *
numbered (const char *name, guint number)
{
  const char *dot = strrchr (name, '.');
  g_autofree char *stem
      = dot != NULL && dot != name ? g_strndup (name, (gsize)(dot - name)) : g_strdup (name);

  if (number < 2)
    return g_strdup (name);
  return g_strdup_printf ("%s-%u%s", stem, number, dot != NULL && dot != name ? dot : "");
}

static gboolean
write_new (GFile *file, GBytes *bytes, GError **error)
{
  g_autofree char *path = g_file_get_path (file);
  gsize length;
  const void *data = g_bytes_get_data (bytes, &length);

  return hw_file_create_whole (path, data, length, error);
}

char *
hw_photo_file_put_beside (
    const char *path, GBytes *bytes, const char *folder, gboolean *copied, GError **error)
{
  g_return_val_if_fail (path != NULL && bytes != NULL && folder != NULL && copied != NULL, NULL);

  g_autoptr (GFile) base = g_file_new_for_path (folder);
  g_autoptr (GFile) from = g_file_new_for_path (path);
  g_autofree char *name = g_path_get_basename (path);
  g_autoptr (GError) trouble = NULL;
  char *below = g_file_get_relative_path (base, from);

  *copied = FALSE;
  if (below != NULL)
    return below;
  for (guint i = 1; i < MOST_NAMES; i++)
    {
      g_autofree char *tried = numbered (name, i);
      g_autoptr (GFile) to = g_file_get_child (base, tried);

      if (g_file_query_exists (to, NULL))
        {
          if (holds (to, bytes))
            return g_steal_pointer (&tried);
          continue;
        }
      *copied = write_new (to, bytes, &trouble);
      if (*copied)
        return g_steal_pointer (&tried);
      break;
    }
  g_set_error (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_READ,
               _ ("%s could not be copied beside the scene: %s Keep it in the scene instead."), name,
               trouble != NULL ? trouble->message : _ ("the names are all taken."));
  return NULL;
}

HwPhoto *
hw_photo_of_file (GFile *file)
{
  g_return_val_if_fail (G_IS_FILE (file), NULL);

  g_autofree char *path = g_file_get_path (file);
  HwPhoto *photo;

  if (path == NULL)
    return NULL;
  photo = hw_photo_new ();
  g_free (photo->name);
  photo->name = hw_photo_file_name (path);
  photo->path = g_steal_pointer (&path);
  return photo;
}

char *
hw_photo_file_day (const char *path, GBytes *bytes)
{
  g_return_val_if_fail (path != NULL && bytes != NULL, NULL);

  g_autofree char *noted = hw_picture_day (bytes);
  if (noted != NULL)
    return g_steal_pointer (&noted);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_TIME_MODIFIED, 0, NULL, NULL);
  g_autoptr (GDateTime) changed = info != NULL ? g_file_info_get_modification_date_time (info) : NULL;
  g_autoptr (GDateTime) here = changed != NULL ? g_date_time_to_local (changed) : NULL;

  return here != NULL ? g_date_time_format (here, "%Y-%m-%d") : NULL;
}

char *
hw_photo_file_name (const char *path)
{
  g_return_val_if_fail (path != NULL, NULL);

  g_autofree char *name = g_path_get_basename (path);
  char *dot = strrchr (name, '.');

  if (dot != NULL && dot != name)
    *dot = '\0';
  g_strdelimit (name, "-_", ' ');
  if (!g_utf8_validate (name, -1, NULL) || *name == '\0')
    return g_strdup (_ ("Photo"));
  g_autofree char *first = g_utf8_substring (name, 0, 1);
  g_autofree char *upper = g_utf8_strup (first, -1);
  g_autofree char *whole = g_strconcat (upper, g_utf8_next_char (name), NULL);
  return hw_one_line_name (whole);
}

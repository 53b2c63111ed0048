/* Files read whole and replaced whole. The order of replacing is the usual one: write a new file in the same folder, sync it, rename it over
 * the old one, sync the folder (POSIX rename() is atomic; without the syncs a power cut may leave an empty file). */
#include "whole-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../geometry/language.h"

#define MOST_LINKS 40

char *
hw_file_shown_name (const char *path)
{
  return g_filename_display_basename (path);
}

gboolean
hw_file_ends_in (const char *path, const char *ending)
{
  gsize length = strlen (path), tail = strlen (ending);

  return length > tail && g_ascii_strcasecmp (path + length - tail, ending) == 0;
}

static void
set_error (GError **error, int number, const char *what)
{
  g_set_error (error, G_FILE_ERROR, g_file_error_from_errno (number), "%s (%s).", what, g_strerror (number));
}

static gboolean
open_to_read (const char *path, int *file, GError **error)
{
  struct stat info;

  /* Without waiting: a pipe nobody writes to is an empty file, not a program that hangs. */
  *file = g_open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK, 0);
  if (*file < 0)
    {
      if (errno == ENOENT || errno == ENOTDIR)
        g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_NOENT, _ ("there is no such file."));
      else if (errno == EACCES)
        g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_ACCES, _ ("you are not allowed to read it."));
      else
        set_error (error, errno, _ ("it cannot be read"));
      return FALSE;
    }
  if (fstat (*file, &info) != 0)
    {
      set_error (error, errno, _ ("it cannot be read"));
      close (*file);
      return FALSE;
    }
  if (S_ISDIR (info.st_mode))
    {
      g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_ISDIR, _ ("this is a folder, not a file."));
      close (*file);
      return FALSE;
    }
  if (S_ISCHR (info.st_mode) || S_ISBLK (info.st_mode))
    {
      g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_NXIO, _ ("this is a device, not a file."));
      close (*file);
      return FALSE;
    }
  fcntl (*file, F_SETFL, fcntl (*file, F_GETFL) & ~O_NONBLOCK);
  return TRUE;
}

char *
hw_file_read_whole (const char *path, gsize most, gsize *length, GError **error)
{
  g_autoptr (GByteArray) bytes = NULL;
  gsize step = 1 << 16;
  int file;

  g_return_val_if_fail (path != NULL && length != NULL, NULL);

  if (!open_to_read (path, &file, error))
    return NULL;
  bytes = g_byte_array_new ();
  for (;;)
    {
      guint had = bytes->len;
      gssize got;

      g_byte_array_set_size (bytes, (guint)(had + step));
      do
        got = read (file, bytes->data + had, step);
      while (got < 0 && errno == EINTR);
      if (got < 0)
        {
          set_error (error, errno, _ ("it cannot be read"));
          close (file);
          return NULL;
        }
      g_byte_array_set_size (bytes, had + (guint)got);
      if (got == 0)
        break;
      if (bytes->len > most)
        {
          g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC, _ ("it is larger than %u MB."),
                       (guint)(most >> 20));
          close (file);
          return NULL;
        }
      step = MIN (step * 2, 1 << 24);
    }
  close (file);
  *length = bytes->len;
  g_byte_array_append (bytes, (const guint8 *)"", 1);
  return (char *)g_byte_array_free (g_steal_pointer (&bytes), FALSE);
}

/* The file a chain of links names, whether it exists or not. */
static char *
follow_links (const char *path)
{
  char *target = g_strdup (path);

  for (int i = 0; i < MOST_LINKS; i++)
    {
      g_autofree char *link = g_file_read_link (target, NULL);
      g_autofree char *folder = NULL;

      if (link == NULL)
        break;
      folder = g_path_get_dirname (target);
      g_free (target);
      target = g_path_is_absolute (link) ? g_strdup (link) : g_build_filename (folder, link, NULL);
    }
  return target;
}

static gboolean
write_all (int file, const char *text, gsize length)
{
  while (length > 0)
    {
      gssize done = write (file, text, length);

      if (done < 0 && errno == EINTR)
        continue;
      if (done < 0)
        return FALSE;
      text += done;
      length -= (gsize)done;
    }
  return TRUE;
}

/* Best effort: a folder on some file systems cannot be synced, and the file is in place already. */
static void
sync_folder (const char *folder)
{
  int handle = g_open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);

  if (handle < 0)
    return;
  fsync (handle);
  close (handle);
}

/* Writes and syncs the new file and gives it the old one's permissions and, where allowed, owner. */
static gboolean
fill (int file, const char *text, gsize length, const struct stat *old)
{
  gboolean good = write_all (file, text, length);

  if (good && old != NULL)
    {
      if (fchown (file, old->st_uid, old->st_gid) != 0)
        errno = 0; /* another person's file in a shared folder: it becomes ours */
      good = fchmod (file, old->st_mode & 07777) == 0;
    }
  return good && fsync (file) == 0;
}

/* A file put in the place of a device or a pipe would take it from everybody else. */
static gboolean
is_file (const struct stat *info, GError **error)
{
  if (S_ISREG (info->st_mode))
    return TRUE;
  if (S_ISDIR (info->st_mode))
    g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_ISDIR, _ ("this is a folder, not a file."));
  else if (S_ISCHR (info->st_mode) || S_ISBLK (info->st_mode))
    g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_NXIO, _ ("this is a device, not a file."));
  else
    g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_NXIO, _ ("this is a pipe, not a file."));
  return FALSE;
}

gboolean
hw_file_replace_whole (const char *path, const char *text, gsize length, GError **error)
{
  g_autofree char *target = NULL;
  g_autofree char *folder = NULL;
  g_autofree char *beside = NULL;
  struct stat old;
  gboolean exists, good;
  int file, number;

  g_return_val_if_fail (path != NULL && text != NULL, FALSE);

  target = follow_links (path);
  folder = g_path_get_dirname (target);
  exists = stat (target, &old) == 0;
  if (exists && !is_file (&old, error))
    return FALSE;
  if (exists && access (target, W_OK) != 0)
    {
      set_error (error, errno, _ ("it is protected from writing"));
      return FALSE;
    }

  beside = g_strdup_printf ("%s.XXXXXX", target);
  file = g_mkstemp_full (beside, O_RDWR | O_CLOEXEC, 0666);
  if (file < 0)
    {
      set_error (error, errno, _ ("nothing can be written in its folder"));
      return FALSE;
    }
  good = fill (file, text, length, exists ? &old : NULL);
  number = errno;
  if (close (file) != 0 && good)
    {
      good = FALSE;
      number = errno;
    }
  if (good && g_rename (beside, target) != 0)
    {
      good = FALSE;
      number = errno;
    }
  if (!good)
    {
      g_unlink (beside);
      set_error (error, number, _ ("writing failed, and what was there before is untouched"));
      return FALSE;
    }
  sync_folder (folder);
  return TRUE;
}

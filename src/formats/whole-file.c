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
#define LONGEST_SHOWN 160 /* letters of a name in a sentence */
#define LAST_SHOWN 40     /* of them from its end */
#define BESIDE ".hoopwright-"
#define TEMPLATE "XXXXXX"
#define LEFT_OVER_AFTER 3600 /* seconds */
#define GATHERED ((gsize)1 << 16)

struct _HwWholeFile
{
  char *target, *folder;
  char *beside; /* NULL: there is no such file any more */
  struct stat old;
  gboolean exists; /* there was something at the target */
  int handle;
  GByteArray *gathered; /* not written yet */
  int number;           /* errno of the first thing that failed, or 0 */
};

char *
hw_file_shown_name (const char *path)
{
  char *name = g_filename_display_basename (path);
  glong length = g_utf8_strlen (name, -1);

  if (length <= LONGEST_SHOWN)
    return name;
  g_autofree char *whole = name;
  g_autofree char *first = g_utf8_substring (whole, 0, LONGEST_SHOWN - LAST_SHOWN);
  g_autofree char *last = g_utf8_substring (whole, length - LAST_SHOWN, length);
  return g_strconcat (first, "…", last, NULL);
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

static void
set_too_large (GError **error, gsize most)
{
  g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC, _ ("it is larger than %u MB."), (guint)(most >> 20));
}

/* A file that says itself that it is larger than `most` is not even begun with. */
static gboolean
open_to_read (const char *path, gsize most, int *file, GError **error)
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
  if (S_ISREG (info.st_mode) && (guint64)info.st_size > most)
    {
      set_too_large (error, most);
      close (*file);
      return FALSE;
    }
  fcntl (*file, F_SETFL, fcntl (*file, F_GETFL) & ~O_NONBLOCK);
  return TRUE;
}

/* A block that need not be had: a large file must not take the open scene down with it. FALSE with errno set. */
static gboolean
make_room (char **bytes, gsize size)
{
  char *larger = g_try_realloc (*bytes, size);

  if (larger == NULL)
    {
      errno = ENOMEM;
      return FALSE;
    }
  *bytes = larger;
  return TRUE;
}

/* All of an open file; one byte more than `most` is enough to know that it is too large. FALSE with errno set. */
static gboolean
read_all (int file, gsize most, char **bytes, gsize *length)
{
  gsize room = 0;

  for (;;)
    {
      gssize got;

      if (*length + 1 >= room)
        {
          room = room == 0 ? 1 << 16 : MIN (room * 2, most + 2);
          if (!make_room (bytes, room))
            return FALSE;
        }
      do
        got = read (file, *bytes + *length, room - *length - 1);
      while (got < 0 && errno == EINTR);
      if (got < 0)
        return FALSE;
      *length += (gsize)got;
      if (got == 0 || *length > most)
        break;
    }
  (*bytes)[*length] = '\0';
  return TRUE;
}

char *
hw_file_read_whole (const char *path, gsize most, gsize *length, GError **error)
{
  g_autofree char *bytes = NULL;
  gsize got = 0;
  gboolean good;
  int file, number;

  g_return_val_if_fail (path != NULL && length != NULL, NULL);

  if (!open_to_read (path, most, &file, error))
    return NULL;
  good = read_all (file, most, &bytes, &got);
  number = errno;
  close (file);
  if (!good && number == ENOMEM)
    g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_NOMEM,
                         _ ("there is not enough memory for a file this large."));
  else if (!good)
    set_error (error, number, _ ("it cannot be read"));
  if (!good)
    return NULL;
  if (got > most)
    {
      set_too_large (error, most);
      return NULL;
    }
  *length = got;
  return g_steal_pointer (&bytes);
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

/* Files that a killed program left unfinished. No writing lasts as long as they must be old. */
static void
sweep (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = NULL;
      struct stat info;

      if (!g_str_has_prefix (name, BESIDE) || strlen (name) != strlen (BESIDE TEMPLATE))
        continue;
      path = g_build_filename (folder, name, NULL);
      if (lstat (path, &info) == 0 && S_ISREG (info.st_mode)
          && info.st_mtime < g_get_real_time () / G_USEC_PER_SEC - LEFT_OVER_AFTER)
        g_unlink (path);
    }
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

/* What there is to write over, which may be nothing. */
static gboolean
look_at_target (HwWholeFile *whole, GError **error)
{
  whole->exists = stat (whole->target, &whole->old) == 0;
  if (!whole->exists && errno != ENOENT && errno != ENOTDIR)
    {
      set_error (error, errno, _ ("nothing can be written in its folder"));
      return FALSE;
    }
  if (whole->exists && !is_file (&whole->old, error))
    return FALSE;
  if (whole->exists && access (whole->target, W_OK) != 0)
    {
      set_error (error, errno, _ ("it is protected from writing"));
      return FALSE;
    }
  return TRUE;
}

/* The name beside says nothing of the file's own, which may be as long as names can be. */
HwWholeFile *
hw_whole_file_begin (const char *path, GError **error)
{
  g_autoptr (HwWholeFile) whole = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  whole = g_new0 (HwWholeFile, 1);
  whole->handle = -1;
  whole->gathered = g_byte_array_new ();
  whole->target = follow_links (path);
  whole->folder = g_path_get_dirname (whole->target);
  if (!look_at_target (whole, error))
    return NULL;
  whole->beside = g_build_filename (whole->folder, BESIDE TEMPLATE, NULL);
  whole->handle = g_mkstemp_full (whole->beside, O_RDWR | O_CLOEXEC, whole->exists ? 0600 : 0666);
  if (whole->handle < 0)
    {
      set_error (error, errno, _ ("nothing can be written in its folder"));
      g_clear_pointer (&whole->beside, g_free);
      return NULL;
    }
  return g_steal_pointer (&whole);
}

static gboolean
write_out (HwWholeFile *whole, const guint8 *next, gsize length)
{
  while (length > 0 && whole->number == 0)
    {
      gssize done = write (whole->handle, next, length);

      if (done < 0 && errno == EINTR)
        continue;
      if (done <= 0)
        {
          whole->number = done < 0 ? errno : ENOSPC;
          break;
        }
      next += done;
      length -= (gsize)done;
    }
  return whole->number == 0;
}

static gboolean
write_gathered (HwWholeFile *whole)
{
  gboolean good = write_out (whole, whole->gathered->data, whole->gathered->len);

  g_byte_array_set_size (whole->gathered, 0);
  return good;
}

/* A print comes in thousands of pieces of a few bytes: they are gathered first. */
gboolean
hw_whole_file_write (HwWholeFile *whole, const void *bytes, gsize length)
{
  g_return_val_if_fail (whole != NULL && (bytes != NULL || length == 0), FALSE);

  if (whole->gathered->len + length > GATHERED && !write_gathered (whole))
    return FALSE;
  if (length > GATHERED)
    return write_out (whole, bytes, length);
  g_byte_array_append (whole->gathered, bytes, (guint)length);
  return whole->number == 0;
}

/* The old one's permissions and, where allowed, owner. Where a file system knows neither, the file stays the person's alone. */
static void
take_after (HwWholeFile *whole)
{
  if (!whole->exists)
    return;
  if (fchown (whole->handle, whole->old.st_uid, whole->old.st_gid) != 0)
    errno = 0; /* another person's file in a shared folder: it becomes ours */
  if (fchmod (whole->handle, whole->old.st_mode & 07777) != 0)
    errno = 0;
}

/* On the disk, closed, and still beside its place. FALSE with the number set. */
static gboolean
settle (HwWholeFile *whole)
{
  int synced;

  if (!write_gathered (whole))
    return FALSE;
  take_after (whole);
  do
    synced = fsync (whole->handle);
  while (synced != 0 && errno == EINTR);
  if (synced != 0 && errno != EINVAL) /* EINVAL: a file system that has nothing to sync */
    whole->number = errno;
  /* Linux closes even when it says that it was interrupted. */
  if (close (whole->handle) != 0 && errno != EINTR && whole->number == 0)
    whole->number = errno;
  whole->handle = -1;
  return whole->number == 0;
}

static gboolean
finish (HwWholeFile *whole, gboolean in_place, GError **error)
{
  if (!in_place)
    {
      set_error (error, whole->number, _ ("writing failed, and what was there before is untouched"));
      return FALSE;
    }
  g_clear_pointer (&whole->beside, g_free);
  sync_folder (whole->folder);
  sweep (whole->folder);
  return TRUE;
}

static gboolean
put_in_place (HwWholeFile *whole)
{
  if (g_rename (whole->beside, whole->target) == 0)
    return TRUE;
  whole->number = errno;
  return FALSE;
}

gboolean
hw_whole_file_end (HwWholeFile *whole, GError **error)
{
  g_return_val_if_fail (whole != NULL && whole->handle >= 0, FALSE);

  return finish (whole, settle (whole) && put_in_place (whole), error);
}

void
hw_whole_file_free (HwWholeFile *whole)
{
  if (whole == NULL)
    return;
  if (whole->handle >= 0)
    close (whole->handle);
  if (whole->beside != NULL)
    g_unlink (whole->beside);
  g_byte_array_unref (whole->gathered);
  g_free (whole->target);
  g_free (whole->folder);
  g_free (whole->beside);
  g_free (whole);
}

gboolean
hw_file_replace_whole (const char *path, const char *text, gsize length, GError **error)
{
  g_autoptr (HwWholeFile) whole = NULL;

  g_return_val_if_fail (path != NULL && text != NULL, FALSE);

  whole = hw_whole_file_begin (path, error);
  if (whole == NULL)
    return FALSE;
  hw_whole_file_write (whole, text, length);
  return hw_whole_file_end (whole, error);
}

/* A second name takes no other's place; where a file system knows none, a look before the rename must do. */
static gboolean
put_beside_others (HwWholeFile *whole)
{
  if (link (whole->beside, whole->target) == 0)
    {
      g_unlink (whole->beside);
      return TRUE;
    }
  whole->number = errno;
  if (whole->number == EEXIST)
    return FALSE;
  if (access (whole->target, F_OK) == 0)
    {
      whole->number = EEXIST;
      return FALSE;
    }
  return put_in_place (whole);
}

gboolean
hw_file_create_whole (const char *path, const void *bytes, gsize length, GError **error)
{
  g_autoptr (HwWholeFile) whole = NULL;

  g_return_val_if_fail (path != NULL && (bytes != NULL || length == 0), FALSE);

  whole = hw_whole_file_begin (path, error);
  if (whole == NULL)
    return FALSE;
  hw_whole_file_write (whole, bytes, length);
  return finish (whole, settle (whole) && put_beside_others (whole), error);
}

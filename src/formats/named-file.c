/* Files that a scene names. First the path is judged as it is written, so that nothing elsewhere is touched (a folder may be a network's, mounted when
 * it is looked at); then where its links lead. The files a person chose elsewhere are kept one a line, as addresses, newest last. */
#include "named-file.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "../geometry/language.h"
#include "../geometry/one-line.h"
#include "../scene/limits.h"
#include "file-stamp.h"
#include "whole-file.h"

G_DEFINE_QUARK (hw_named_file_error_quark, hw_named_file_error)

static GMutex lock; /* over the two below */
static GPtrArray *chosen;
static HwFileStamp chosen_stamp;
static gboolean chosen_unread; /* there is a list that could not be read just now: it is not written over */

static char *
list_path (void)
{
  return g_build_filename (g_get_user_state_dir (), "hoopwright", "chosen-files", NULL);
}

/* The lock is held. Another window may have added to the list. */
static void
read_chosen (void)
{
  g_autofree char *path = list_path ();
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  g_autoptr (GError) error = NULL;
  const HwFileStamp now = hw_file_stamp_of (path);
  gsize length;

  if (chosen != NULL && !chosen_unread && hw_file_stamp_equal (&now, &chosen_stamp))
    return;
  g_clear_pointer (&chosen, g_ptr_array_unref);
  chosen = g_ptr_array_new_with_free_func (g_free);
  chosen_stamp = now;
  text = hw_file_read_whole (path, HW_LARGEST_CHOSEN_LIST, &length, &error);
  chosen_unread = text == NULL && !g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT)
                  && !g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC);
  lines = g_strsplit (text != NULL ? text : "", "\n", -1);
  for (char **line = lines; *line != NULL; line++)
    {
      char *file = **line != '\0' ? g_filename_from_uri (*line, NULL, NULL) : NULL;

      if (file != NULL)
        g_ptr_array_add (chosen, file);
    }
}

/* The lock is held. A list that cannot be kept lasts as long as the program runs. */
static void
write_chosen (void)
{
  g_autofree char *path = list_path ();
  g_autofree char *folder = g_path_get_dirname (path);
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  if (chosen_unread)
    return;
  for (guint i = 0; i < chosen->len; i++)
    {
      g_autofree char *uri = g_filename_to_uri (chosen->pdata[i], NULL, NULL);

      if (uri != NULL)
        g_string_append_printf (text, "%s\n", uri);
    }
  if (g_mkdir_with_parents (folder, 0700) != 0 || !hw_file_replace_whole (path, text->str, text->len, &error))
    g_info ("%s", error != NULL ? error->message : g_strerror (errno));
  chosen_stamp = hw_file_stamp_of (path);
}

static gboolean
is_chosen (const char *file)
{
  gboolean found;

  g_mutex_lock (&lock);
  read_chosen ();
  found = g_ptr_array_find_with_equal_func (chosen, file, g_str_equal, NULL);
  g_mutex_unlock (&lock);
  return found;
}

/* Returns: (transfer full) (nullable): NULL when nothing is there */
static char *
true_path (const char *path)
{
  char *resolved = realpath (path, NULL);
  char *copy = g_strdup (resolved);

  free (resolved);
  return copy;
}

static gboolean
is_below (const char *file, const char *folder)
{
  gsize length = folder != NULL ? strlen (folder) : 0;

  while (length > 0 && folder[length - 1] == '/')
    length--;
  return folder != NULL && strncmp (file, folder, length) == 0 && file[length] == '/';
}

static char *
fail (GError **error, HwNamedFileError code, const char *named, const char *what)
{
  g_autofree char *name = hw_file_shown_name (named);
  g_autofree char *text = g_strdup_printf ("%s: %s", name, what);
  g_autofree char *line = hw_one_line (text);

  g_set_error_literal (error, HW_NAMED_FILE_ERROR, code, line);
  return NULL;
}

static char *
fail_elsewhere (GError **error, const char *named)
{
  return fail (error, HW_NAMED_FILE_ERROR_ELSEWHERE, named,
               _ ("it lies outside the scene's folder, so it is not read; put it beside the scene, or open "
                  "the scene in the window and allow it there."));
}

static char *
check_kind (char *found, const char *named, GError **error)
{
  struct stat info;

  if (stat (found, &info) == 0 && S_ISREG (info.st_mode))
    return found;
  g_free (found);
  return fail (error, HW_NAMED_FILE_ERROR_NO_FILE, named,
               _ ("this is no file that could be read; choose the artwork or the photo again."));
}

char *
hw_named_file_find (const char *named, const char *folder, GError **error)
{
  g_autofree char *home = NULL, *true_home = NULL, *whole = NULL, *found = NULL;

  g_return_val_if_fail (named != NULL, NULL);

  home = folder != NULL ? g_canonicalize_filename (folder, NULL) : NULL;
  true_home = home != NULL ? true_path (home) : NULL;
  whole = g_canonicalize_filename (named, home);
  if (home != NULL && !is_below (whole, home) && !is_below (whole, true_home) && !is_chosen (whole))
    return fail_elsewhere (error, named);
  found = true_path (whole);
  if (found == NULL)
    return fail (error, HW_NAMED_FILE_ERROR_MISSING, named, _ ("there is no such file."));
  if (home != NULL && !is_below (found, true_home) && !is_chosen (found))
    return fail_elsewhere (error, named);
  return check_kind (g_steal_pointer (&found), named, error);
}

/* Both the way it is named and the place it leads to: a name must not come to lead elsewhere later. The lock is held. */
static gboolean
add_chosen (const char *file)
{
  if (g_ptr_array_find_with_equal_func (chosen, file, g_str_equal, NULL))
    return FALSE;
  g_ptr_array_add (chosen, g_strdup (file));
  if (chosen->len > HW_MOST_CHOSEN_FILES)
    g_ptr_array_remove_range (chosen, 0, chosen->len - HW_MOST_CHOSEN_FILES);
  return TRUE;
}

void
hw_named_file_choose (const char *named, const char *folder)
{
  g_autofree char *home = NULL, *whole = NULL, *found = NULL;
  gboolean changed;

  g_return_if_fail (named != NULL);

  home = folder != NULL ? g_canonicalize_filename (folder, NULL) : NULL;
  whole = g_canonicalize_filename (named, home);
  found = true_path (whole);
  if (found == NULL)
    return;
  g_mutex_lock (&lock);
  read_chosen ();
  changed = add_chosen (whole);
  changed = add_chosen (found) || changed;
  if (changed)
    write_chosen ();
  g_mutex_unlock (&lock);
}

static gboolean
is_elsewhere (const char *named, const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *found = hw_named_file_find (named, folder, &error);

  return g_error_matches (error, HW_NAMED_FILE_ERROR, HW_NAMED_FILE_ERROR_ELSEWHERE);
}

static void
add_elsewhere (GPtrArray *files, const char *named, const char *folder)
{
  if (named != NULL && is_elsewhere (named, folder)
      && !g_ptr_array_find_with_equal_func (files, named, g_str_equal, NULL))
    g_ptr_array_add (files, g_strdup (named));
}

GPtrArray *
hw_named_files_elsewhere (const HwSnapshot *snapshot, const char *folder)
{
  GPtrArray *files = g_ptr_array_new_with_free_func (g_free);

  g_return_val_if_fail (snapshot != NULL, files);

  for (guint i = 0; i < snapshot->motifs->len; i++)
    add_elsewhere (files, hw_snapshot_motif (snapshot, i)->artwork, folder);
  for (guint i = 0; i < snapshot->photos->len; i++)
    add_elsewhere (files, ((const HwPhoto *)snapshot->photos->pdata[i])->path, folder);
  return files;
}

static void
take_along (const char *named, const char *old_folder, const char *new_folder)
{
  g_autofree char *found = named != NULL ? hw_named_file_find (named, old_folder, NULL) : NULL;

  if (found != NULL && is_elsewhere (found, new_folder))
    hw_named_file_choose (named, old_folder);
}

void
hw_named_files_take_along (const HwSnapshot *snapshot, const char *old_folder, const char *new_folder)
{
  g_return_if_fail (snapshot != NULL && new_folder != NULL);

  for (guint i = 0; i < snapshot->motifs->len; i++)
    take_along (hw_snapshot_motif (snapshot, i)->artwork, old_folder, new_folder);
  for (guint i = 0; i < snapshot->photos->len; i++)
    take_along (((const HwPhoto *)snapshot->photos->pdata[i])->path, old_folder, new_folder);
}

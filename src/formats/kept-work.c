/* Unsaved work. A file of it is one line of JSON that tells where the scene belongs, then the scene file's own text; it is replaced whole, so
 * that it is never half written. A lock beside it, which the system takes away with the process that holds it (flock(2)), tells work that is
 * in hand from work that was left behind. */
#include "kept-work.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../geometry/language.h"
#include "../geometry/one-line.h"
#include "json-root.h"
#include "scene-file.h"
#include "scene-room.h"
#include "whole-file.h"

#define FORMAT "hoopwright-kept-work"
#define WORK_SUFFIX ".hoopwork"
#define LOCK_SUFFIX ".lock"
#define MOST_BYTES ((gsize)80 << 20) /* a scene and the line before it */
#define MOST_HEAD (1 << 16)

struct _HwWorkPlace
{
  char *file, *lock;
  int lock_handle;
};

char *
hw_state_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "hoopwright", NULL);
}

static char *
folder_of (const char *folder)
{
  g_autofree char *state = hw_state_folder ();

  return folder != NULL ? g_strdup (folder) : g_build_filename (state, "unsaved", NULL);
}

/* Whether the path still leads to the file behind the handle: who looks for left work may have taken the lock away between the two steps. */
static gboolean
leads_to (const char *path, int handle)
{
  struct stat named, held;

  return lstat (path, &named) == 0 && fstat (handle, &held) == 0 && named.st_ino == held.st_ino
         && named.st_dev == held.st_dev;
}

/* TRUE when nobody else holds it; then this process does, until the handle is closed. wait: until it is free. FALSE with errno set. */
static gboolean
take_lock (const char *path, gboolean wait, int *handle)
{
  for (;;)
    {
      int number;

      *handle = g_open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
      if (*handle < 0)
        return FALSE;
      if (flock (*handle, wait ? LOCK_EX : LOCK_EX | LOCK_NB) != 0)
        number = errno;
      else if (leads_to (path, *handle))
        return TRUE;
      else
        number = EINTR;
      close (*handle);
      *handle = -1;
      errno = number;
      if (number != EINTR)
        return FALSE;
    }
}

HwWorkPlace *
hw_work_place_new (const char *folder, GError **error)
{
  g_autoptr (HwWorkPlace) place = g_new0 (HwWorkPlace, 1);
  g_autofree char *where = folder_of (folder);
  g_autofree char *id = g_uuid_string_random ();
  g_autofree char *base = g_build_filename (where, id, NULL);

  place->lock_handle = -1;
  place->file = g_strconcat (base, WORK_SUFFIX, NULL);
  place->lock = g_strconcat (base, LOCK_SUFFIX, NULL);
  if (g_mkdir_with_parents (where, 0700) != 0 || !take_lock (place->lock, TRUE, &place->lock_handle))
    {
      int number = errno;

      g_set_error (error, G_FILE_ERROR, g_file_error_from_errno (number),
                   _ ("Unsaved work cannot be kept in %s (%s): please save often."), where,
                   g_strerror (number));
      return NULL;
    }
  return g_steal_pointer (&place);
}

void
hw_work_place_free (HwWorkPlace *place)
{
  if (place == NULL)
    return;
  if (place->lock_handle >= 0)
    {
      g_unlink (place->lock);
      close (place->lock_handle);
    }
  g_free (place->file);
  g_free (place->lock);
  g_free (place);
}

static char *
head_text (const HwSnapshot *snapshot, const char *path, const char *folder, gint64 now)
{
  g_autoptr (JsonNode) node = json_node_new (JSON_NODE_OBJECT);
  JsonObject *head = json_object_new ();

  json_object_set_string_member (head, "format", FORMAT);
  json_object_set_int_member (head, "version", 1);
  json_object_set_string_member (head, "name", snapshot->name != NULL ? snapshot->name : "");
  if (path != NULL)
    json_object_set_string_member (head, "path", path);
  if (folder != NULL)
    json_object_set_string_member (head, "folder", folder);
  json_object_set_int_member (head, "kept", now);
  json_node_take_object (node, head);
  return json_to_string (node, FALSE);
}

gboolean
hw_work_place_keep (HwWorkPlace *place,
                    const HwSnapshot *snapshot,
                    const char *path,
                    const char *artwork_folder,
                    gint64 now,
                    GError **error)
{
  g_autofree char *head = NULL;
  g_autofree char *scene = NULL;
  g_autofree char *text = NULL;

  g_return_val_if_fail (place != NULL && snapshot != NULL, FALSE);

  if (!hw_scene_room_to_write (snapshot))
    {
      g_set_error_literal (
          error, G_FILE_ERROR, G_FILE_ERROR_NOMEM,
          _ ("Unsaved work is not kept just now: there is not enough memory left. Close other "
             "programs, and save."));
      return FALSE;
    }
  head = head_text (snapshot, path, artwork_folder, now);
  scene = hw_scene_file_text (snapshot);
  text = g_strconcat (head, "\n", scene, NULL);
  return hw_file_replace_whole (place->file, text, strlen (text), error);
}

void
hw_work_place_clear (HwWorkPlace *place)
{
  g_return_if_fail (place != NULL);
  g_unlink (place->file);
}

static void
left_work_free (gpointer data)
{
  HwLeftWork *work = data;

  g_free (work->file);
  g_free (work->name);
  g_free (work->path);
  g_free (work->folder);
  g_free (work);
}

static const char *
text_of (JsonObject *object, const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  return node != NULL && json_node_get_value_type (node) == G_TYPE_STRING ? json_node_get_string (node)
                                                                          : NULL;
}

static gint64
whole_of (JsonObject *object, const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  return node != NULL && json_node_get_value_type (node) == G_TYPE_INT64 ? json_node_get_int (node) : 0;
}

/* Work says where it is saved, so only what this person's program wrote is taken for work. */
static gboolean
is_own (int handle)
{
  struct stat info;

  return fstat (handle, &info) == 0 && S_ISREG (info.st_mode) && info.st_uid == geteuid ();
}

/* The first line alone. Returns: (transfer full) (nullable) */
static JsonNode *
read_head (const char *file)
{
  g_autofree char *start = g_malloc (MOST_HEAD + 1);
  int handle = g_open (file, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK, 0);
  gssize got;
  char *end;

  if (handle < 0)
    return NULL;
  if (!is_own (handle))
    {
      close (handle);
      return NULL;
    }
  got = read (handle, start, MOST_HEAD);
  close (handle);
  if (got <= 0)
    return NULL;
  start[got] = '\0';
  end = strchr (start, '\n');
  if (end == NULL)
    return NULL;
  return hw_json_root (start, end - start, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_SYNTAX,
                       HW_SCENE_FILE_ERROR_CONTENT, NULL);
}

static gboolean
is_newer (const HwLeftWork *work)
{
  GStatBuf info;

  return work->path == NULL || g_stat (work->path, &info) != 0 || info.st_mtime <= work->kept;
}

/* Returns: (transfer full) (nullable): NULL when it is no work of ours */
static HwLeftWork *
left_work_new (const char *file)
{
  g_autoptr (JsonNode) root = read_head (file);
  JsonObject *head;
  HwLeftWork *work;
  const char *name;

  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    return NULL;
  head = json_node_get_object (root);
  if (g_strcmp0 (text_of (head, "format"), FORMAT) != 0 || whole_of (head, "version") != 1)
    return NULL;
  work = g_new0 (HwLeftWork, 1);
  work->file = g_strdup (file);
  name = text_of (head, "name");
  work->name = name != NULL ? hw_one_line_name (name) : NULL;
  work->path = g_strdup (text_of (head, "path"));
  work->folder = g_strdup (text_of (head, "folder"));
  work->kept = whole_of (head, "kept");
  work->newer = is_newer (work);
  return work;
}

/* Whether nobody is at it: suffix is that of the work or of its lock. A lock that is left over goes. */
static gboolean
is_left (const char *file, const char *suffix)
{
  g_autofree char *base = g_strndup (file, strlen (file) - strlen (suffix));
  g_autofree char *lock = g_strconcat (base, LOCK_SUFFIX, NULL);
  int handle;

  if (!take_lock (lock, FALSE, &handle))
    return FALSE;
  g_unlink (lock);
  close (handle);
  return TRUE;
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  const HwLeftWork *first = *(HwLeftWork *const *)a, *second = *(HwLeftWork *const *)b;

  return first->kept != second->kept ? (first->kept < second->kept ? 1 : -1)
                                     : strcmp (first->file, second->file);
}

GPtrArray *
hw_left_work_list (const char *folder)
{
  g_autofree char *where = folder_of (folder);
  g_autoptr (GDir) dir = g_dir_open (where, 0, NULL);
  GPtrArray *list = g_ptr_array_new_with_free_func (left_work_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (where, name, NULL);
      HwLeftWork *work;

      if (g_str_has_suffix (name, LOCK_SUFFIX)) /* of a program that was killed before it kept anything */
        is_left (file, LOCK_SUFFIX);
      if (!g_str_has_suffix (name, WORK_SUFFIX) || !is_left (file, WORK_SUFFIX))
        continue;
      work = left_work_new (file);
      if (work != NULL)
        g_ptr_array_add (list, work);
    }
  g_ptr_array_sort (list, newest_first);
  return list;
}

HwSnapshot *
hw_left_work_read (const HwLeftWork *work, GError **error)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) problem = NULL;
  HwSnapshot *snapshot = NULL;
  const char *scene;
  gsize length;

  g_return_val_if_fail (work != NULL, NULL);

  text = hw_file_read_whole (work->file, MOST_BYTES, &length, &problem);
  scene = text != NULL ? memchr (text, '\n', length) : NULL;
  if (scene != NULL)
    snapshot
        = hw_scene_file_parse_awaiting (scene + 1, (gssize)(length - (gsize)(scene + 1 - text)), &problem);
  if (snapshot == NULL)
    g_set_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_READ,
                 _ ("The unsaved work on “%s” cannot be read: %s"), work->name != NULL ? work->name : "",
                 problem != NULL ? problem->message : _ ("it is not whole."));
  return snapshot;
}

void
hw_left_work_remove (const HwLeftWork *work)
{
  g_return_if_fail (work != NULL);
  g_unlink (work->file);
}

/* Copies of photos beside a scene. A photo may be added and undone again, and redone, so its copy stays as long as the work is open; but a folder
 * is not left with photos that no scene ever named. Nothing can be lost: a copy goes only while the file it was made from still holds the same. */
#include "photo-copies.h"

#include <gio/gio.h>

#include "photo-file.h"

struct _HwPhotoCopies
{
  GHashTable *originals; /* path of the original, by path of the copy */
};

HwPhotoCopies *
hw_photo_copies_new (void)
{
  HwPhotoCopies *copies = g_new0 (HwPhotoCopies, 1);

  copies->originals = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  return copies;
}

void
hw_photo_copies_free (HwPhotoCopies *copies)
{
  g_return_if_fail (copies != NULL);

  g_hash_table_unref (copies->originals);
  g_free (copies);
}

void
hw_photo_copies_add (HwPhotoCopies *copies, const char *original, const char *copy)
{
  g_return_if_fail (copies != NULL);
  g_return_if_fail (original != NULL && copy != NULL);

  g_hash_table_insert (copies->originals, g_strdup (copy), g_strdup (original));
}

void
hw_photo_copies_keep (HwPhotoCopies *copies, const char *copy)
{
  g_return_if_fail (copies != NULL);
  g_return_if_fail (copy != NULL);

  g_hash_table_remove (copies->originals, copy);
}

/* Returns: (transfer full) (nullable) */
static GBytes *
contents (GFile *file)
{
  g_autofree char *path = g_file_get_path (file);

  return path != NULL ? hw_photo_file_read (path, NULL) : NULL;
}

static gboolean
remove_copy (gpointer copy, gpointer original, gpointer user_data)
{
  g_autoptr (GFile) made = g_file_new_for_path (copy), from = g_file_new_for_path (original);
  g_autoptr (GBytes) here = contents (made), there = contents (from);

  if (here != NULL && there != NULL && !g_file_equal (made, from) && g_bytes_equal (here, there))
    g_file_delete (made, NULL, NULL);
  return TRUE;
}

void
hw_photo_copies_let_go (HwPhotoCopies *copies)
{
  g_return_if_fail (copies != NULL);

  g_hash_table_foreach_remove (copies->originals, remove_copy, NULL);
}

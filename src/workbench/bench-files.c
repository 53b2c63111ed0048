/* The bench and the files its scene names, which other programs and people may change, take away and put back while it is open. They are looked at away from
 * the window, since a folder may be slow. What was read stays until something better is there, and the names in the scene stay in any case. */
#include "../drawing/at-work.h"
#include "bench.h"

#include <glib/gi18n.h>
#include <string.h>

#include "../formats/named-file.h"
#include "bench-private.h"

/* A photo's file, as it was found. */
typedef struct
{
  char *named;
  HwFileStamp stamp;
  char *trouble; /* NULL: it is there */
} PhotoFile;

/* One look. It belongs to its task; the bench only knows it as long as it is wanted. */
struct _HwFilesLook
{
  HwBench *bench; /* NULL: nobody wants it any more */
  HwArtworkShelf *shelf;
  char *folder;
  HwSnapshot *scene;
  GPtrArray *sentences, *folders, *photos;
  gboolean renewed;
};

static void
photo_file_free (gpointer data)
{
  PhotoFile *file = data;

  g_free (file->named);
  g_free (file->trouble);
  g_free (file);
}

static void
look_free (gpointer data)
{
  HwFilesLook *look = data;

  hw_artwork_shelf_unref (look->shelf);
  hw_snapshot_unref (look->scene);
  g_ptr_array_unref (look->sentences);
  g_ptr_array_unref (look->folders);
  g_ptr_array_unref (look->photos);
  g_free (look->folder);
  g_free (look);
}

/* --- On a thread of its own */

static void
add_folder (HwFilesLook *look, const char *named)
{
  g_autofree char *home = look->folder != NULL ? g_canonicalize_filename (look->folder, NULL) : NULL;
  g_autofree char *whole = g_canonicalize_filename (named, home);
  char *folder = g_path_get_dirname (whole);

  if (g_ptr_array_find_with_equal_func (look->folders, folder, g_str_equal, NULL))
    g_free (folder);
  else
    g_ptr_array_add (look->folders, folder);
}

/* A folder elsewhere is not watched for the sake of a file that is not read. */
static gboolean
may_be_looked_at (HwFilesLook *look, const char *named, char **found, GError **error)
{
  if (named == NULL || (look->folder == NULL && !g_path_is_absolute (named)))
    return FALSE;
  *found = hw_named_file_find (named, look->folder, error);
  return *found != NULL || !g_error_matches (*error, HW_NAMED_FILE_ERROR, HW_NAMED_FILE_ERROR_ELSEWHERE);
}

static void
look_at_photo (HwFilesLook *look, const char *named)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *found = NULL;
  PhotoFile *file;

  if (!may_be_looked_at (look, named, &found, &error))
    return;
  add_folder (look, named);
  file = g_new0 (PhotoFile, 1);
  file->named = g_strdup (named);
  file->stamp = hw_file_stamp_of (found);
  file->trouble = found == NULL ? g_strdup (error->message) : NULL;
  g_ptr_array_add (look->photos, file);
}

static void
look_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  HwFilesLook *look = data;
  g_autoptr (GHashTable) done = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < look->scene->motifs->len; i++)
    {
      const char *named = hw_snapshot_motif (look->scene, i)->artwork;
      g_autoptr (GError) error = NULL;
      g_autofree char *found = NULL;

      if (named != NULL && g_hash_table_add (done, (gpointer)named)
          && may_be_looked_at (look, named, &found, &error))
        add_folder (look, named);
    }
  look->renewed
      = hw_artwork_shelf_look_again (look->shelf, look->folder, look->scene->motifs, look->sentences);
  for (guint i = 0; i < look->scene->photos->len; i++)
    look_at_photo (look, ((const HwPhoto *)look->scene->photos->pdata[i])->path);
  g_task_return_boolean (task, TRUE);
}

/* --- In the window's */

/* Returns: (transfer full) (nullable) */
static char *
one_sentence (GPtrArray *sentences)
{
  const char *first;

  if (sentences->len == 0)
    return NULL;
  first = sentences->pdata[0];
  if (sentences->len == 1)
    return g_strdup_printf (
        _ ("%s What was read of it stays on the table; put the file back, and it is read again."), first);
  /* Translators: %s is a whole sentence about the first file. */
  return g_strdup_printf (ngettext ("%s Nor can %u other file be read. What was read of them stays on the "
                                    "table; put them back, and they are read again.",
                                    "%s Nor can %u other files be read. What was read of them stays on the "
                                    "table; put them back, and they are read again.",
                                    sentences->len - 1),
                          first, sentences->len - 1);
}

/* A photo that never was there is spoken of where it should be shown. TRUE: there is another one at its place. */
static gboolean
take_photo (HwFilesLook *look, const PhotoFile *file)
{
  GHashTable *seen = look->bench->photos_seen;
  const HwFileStamp *before = g_hash_table_lookup (seen, file->named);

  if (file->trouble != NULL)
    {
      static const HwFileStamp nothing;

      if (before != NULL && !hw_file_stamp_equal (before, &nothing))
        g_ptr_array_add (look->sentences, g_strdup (file->trouble));
      else
        g_hash_table_insert (seen, g_strdup (file->named), g_memdup2 (&nothing, sizeof nothing));
      return FALSE;
    }
  gboolean other = before != NULL && !hw_file_stamp_equal (before, &file->stamp);
  g_hash_table_insert (seen, g_strdup (file->named), g_memdup2 (&file->stamp, sizeof file->stamp));
  return other;
}

static void
looked_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwFilesLook *look = g_task_get_task_data (G_TASK (result));
  HwBench *bench = look->bench;
  gboolean photos = FALSE;

  if (bench == NULL)
    return;
  bench->look = NULL;
  for (guint i = 0; i < look->photos->len; i++)
    photos = take_photo (look, look->photos->pdata[i]) || photos;
  g_free (bench->lost_files);
  bench->lost_files = one_sentence (look->sentences);
  g_clear_pointer (&bench->file_folders, g_ptr_array_unref);
  bench->file_folders = g_ptr_array_ref (look->folders);
  if (look->renewed)
    hw_bench_give_artwork_anew (bench);
  g_signal_emit_by_name (bench, "files-looked-at", photos);
  if (bench->look_again)
    hw_bench_look_at_files (bench);
}

void
hw_bench_look_at_files (HwBench *bench)
{
  g_autoptr (GTask) task = NULL;
  HwFilesLook *look;

  g_return_if_fail (HW_IS_BENCH (bench));

  bench->look_again = bench->look != NULL;
  if (bench->look_again)
    return;
  look = g_new0 (HwFilesLook, 1);
  look->bench = bench;
  look->shelf = hw_artwork_shelf_ref (bench->shelf);
  look->folder = g_strdup (bench->folder);
  look->scene = hw_scene_snapshot (bench->scene);
  look->sentences = g_ptr_array_new_with_free_func (g_free);
  look->folders = g_ptr_array_new_with_free_func (g_free);
  look->photos = g_ptr_array_new_with_free_func (photo_file_free);
  bench->look = look;

  task = g_task_new (NULL, NULL, looked_cb, NULL);
  g_task_set_task_data (task, look, look_free);
  hw_at_work_run (task, look_thread);
}

void
hw_bench_forget_files (HwBench *bench)
{
  if (bench->look != NULL)
    bench->look->bench = NULL;
  bench->look = NULL;
  bench->look_again = FALSE;
  g_clear_pointer (&bench->lost_files, g_free);
  g_clear_pointer (&bench->photos_seen, g_hash_table_unref);
  bench->photos_seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_clear_pointer (&bench->file_folders, g_ptr_array_unref);
  bench->file_folders = g_ptr_array_new_with_free_func (g_free);
}

const char *
hw_bench_get_lost_files (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  return bench->lost_files;
}

GPtrArray *
hw_bench_get_file_folders (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  return bench->file_folders;
}

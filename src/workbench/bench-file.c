/* The bench and its file: a scene is opened, started afresh and saved. Artwork paths in a scene are relative to the folder it came
 * from; the bench remembers that folder, so that saving elsewhere keeps them true. */
#include "bench.h"

#include <glib/gi18n.h>
#include <sys/stat.h>

#include "../formats/named-file.h"
#include "../formats/scene-file.h"
#include "../formats/whole-file.h"
#include "bench-private.h"
#include "motif-import.h"

gboolean
hw_bench_file_was_changed (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  const HwFileStamp now = hw_file_stamp_of (bench->path);

  return bench->path != NULL && !hw_file_stamp_equal (&now, &bench->stamp);
}

/* Photos beside a scene stay there once a file names them. */
static void
keep_photos (HwBench *bench, const HwSnapshot *snapshot, const char *folder)
{
  for (guint i = 0; folder != NULL && i < snapshot->photos->len; i++)
    {
      const HwPhoto *photo = snapshot->photos->pdata[i];
      g_autofree char *path = photo->path != NULL ? g_canonicalize_filename (photo->path, folder) : NULL;

      if (path != NULL)
        hw_photo_copies_keep (bench->copies, path);
    }
}

/* The scene becomes the snapshot's; nothing of the work before is kept. */
static void
renew (HwBench *bench, const HwSnapshot *snapshot, const char *path, const char *folder)
{
  hw_bench_cancel_edit (bench);
  hw_bench_stop_reading (bench);
  hw_bench_forget_files (bench);
  g_hash_table_remove_all (bench->selected);
  hw_bench_forget_plan (bench);
  keep_photos (bench, snapshot, folder);
  hw_photo_copies_let_go (bench->copies);

  bench->renewing = TRUE;
  hw_scene_restore (bench->scene, snapshot);
  bench->renewing = FALSE;

  g_autoptr (HwSnapshot) start = hw_scene_snapshot (bench->scene);
  g_clear_pointer (&bench->history, hw_history_free);
  bench->history = hw_history_new (start);
  hw_history_mark_saved (bench->history);
  g_free (bench->folder);
  bench->folder = g_strdup (folder);
  hw_artwork_shelf_check (bench->shelf);
  hw_bench_read_artwork (bench);

  bench->newer_version = 0;
  g_clear_pointer (&bench->newer_path, g_free);
  bench->stamp = hw_file_stamp_of (path);
  hw_bench_set_path (bench, path);
  hw_bench_notify_history (bench);
  hw_bench_emit_selection_changed (bench);
  hw_plan_runner_begin_anew (bench->runner);
  hw_bench_ask_for_plan (bench);
}

static gboolean
open_file (HwBench *bench, const char *path, gboolean copy, GError **error)
{
  g_autofree char *whole = g_canonicalize_filename (path, NULL);
  g_autofree char *folder = g_path_get_dirname (whole);
  g_autoptr (HwSnapshot) snapshot = hw_scene_file_load_awaiting (whole, error);
  guint version;

  if (snapshot == NULL)
    return FALSE;
  version = snapshot->newer_version;
  snapshot->newer_version = 0; /* what is on the table is this program's from here on */
  renew (bench, snapshot, copy || version > 0 ? NULL : whole, folder);
  bench->newer_version = version;
  bench->newer_path = version > 0 ? g_strdup (whole) : NULL;
  return TRUE;
}

guint
hw_bench_get_newer_version (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), 0);

  return bench->newer_version;
}

gboolean
hw_bench_open (HwBench *bench, const char *path, GError **error)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (path != NULL, FALSE);
  return open_file (bench, path, FALSE, error);
}

gboolean
hw_bench_open_copy (HwBench *bench, const char *path, GError **error)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (path != NULL, FALSE);
  return open_file (bench, path, TRUE, error);
}

void
hw_bench_start_new (HwBench *bench, const HwSnapshot *snapshot)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (snapshot != NULL);
  renew (bench, snapshot, NULL, NULL);
}

void
hw_bench_take_up (HwBench *bench, const HwSnapshot *snapshot, const char *path, const char *folder)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (snapshot != NULL);
  renew (bench, snapshot, path, folder);
  hw_history_mark_unsaved (bench->history);
  hw_bench_notify_history (bench);
}

/* Artwork that was added while the scene had no folder, named from the one it gets. Returns: (transfer full) */
static HwSnapshot *
with_artwork_from (const HwSnapshot *snapshot, const char *folder)
{
  HwSnapshot *changed = hw_snapshot_copy (snapshot);

  for (guint i = 0; i < changed->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (changed, i);
      HwMotif *copy;

      if (motif->artwork == NULL || !g_path_is_absolute (motif->artwork))
        continue;
      copy = hw_motif_copy (motif);
      g_free (copy->artwork);
      copy->artwork = hw_motif_artwork_from (motif->artwork, folder);
      hw_motif_unref (changed->motifs->pdata[i]);
      changed->motifs->pdata[i] = copy;
    }
  return changed;
}

/* Whether both paths lead to one file, by whatever links. */
static gboolean
same_file (const char *a, const char *b)
{
  struct stat first, second;

  return stat (a, &first) == 0 && stat (b, &second) == 0 && first.st_dev == second.st_dev
         && first.st_ino == second.st_ino;
}

static gboolean
may_save_to (HwBench *bench, const char *path, GError **error)
{
  g_autofree char *name = hw_file_shown_name (path);

  if (bench->newer_path == NULL || !same_file (bench->newer_path, path))
    return TRUE;
  g_set_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_WRITE,
               _ ("%s was written by a newer Hoopwright and stays as it is; save under another name."), name);
  return FALSE;
}

gboolean
hw_bench_save (HwBench *bench, const char *path, GError **error)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (path != NULL || bench->path != NULL, FALSE);

  g_autofree char *whole = g_canonicalize_filename (path != NULL ? path : bench->path, NULL);
  g_autofree char *folder = g_path_get_dirname (whole);
  const char *old_folder = g_strcmp0 (folder, bench->folder) != 0 ? bench->folder : NULL;

  if (!may_save_to (bench, whole, error))
    return FALSE;
  hw_bench_end_edit (bench);
  g_autoptr (HwSnapshot) live = hw_scene_snapshot (bench->scene);
  g_autoptr (HwSnapshot) snapshot
      = old_folder == NULL ? with_artwork_from (live, folder) : hw_snapshot_ref (live);
  if (!hw_scene_file_save (snapshot, whole, old_folder, error))
    return FALSE;

  if (bench->folder == NULL)
    hw_named_files_take_along (live, NULL, folder);
  keep_photos (bench, live, bench->folder != NULL ? bench->folder : folder);
  hw_history_mark_saved (bench->history);
  bench->stamp = hw_file_stamp_of (whole);
  hw_bench_set_path (bench, whole);
  if (bench->folder == NULL)
    bench->folder = g_strdup (folder);
  hw_bench_notify_history (bench);
  return TRUE;
}

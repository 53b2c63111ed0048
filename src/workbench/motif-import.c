/* A motif made from a file of artwork: its name from the file's; outline, threads and picture from what the file holds, which the person then
 * changes. */
#include "motif-import.h"

#include <glib/gi18n.h>
#include <string.h>

#include "../drawing/at-work.h"
#include "../geometry/one-line.h"

/* "fig-branch.csv" becomes "Fig branch". */
static char *
name_of_file (const char *path)
{
  g_autofree char *name = g_path_get_basename (path);
  char *dot = strrchr (name, '.');

  if (dot != NULL && dot != name)
    *dot = '\0';
  g_strdelimit (name, "-_", ' ');
  if (!g_utf8_validate (name, -1, NULL) || *name == '\0')
    return g_strdup (_ ("Motif"));
  g_autofree char *first = g_utf8_substring (name, 0, 1);
  g_autofree char *upper = g_utf8_strup (first, -1);
  g_autofree char *whole = g_strconcat (upper, g_utf8_next_char (name), NULL);
  return hw_one_line_name (whole);
}

/* Whether two records show the same page of the same file at the same size. */
static gboolean
same_file (const HwMotif *a, const HwMotif *b)
{
  return g_strcmp0 (a->artwork, b->artwork) == 0 && g_strcmp0 (a->artwork_kind, b->artwork_kind) == 0
         && a->artwork_page == b->artwork_page && a->artwork_pixels_per_mm == b->artwork_pixels_per_mm;
}

static gboolean
same_picture (const HwPicture *a, const HwPicture *b)
{
  return a != NULL && b != NULL && a->width == b->width && a->height == b->height && a->stride == b->stride
         && memcmp (a->pixels, b->pixels, a->stride * a->height) == 0;
}

gboolean
hw_motif_share_artwork (HwMotif *motif, const HwMotif *other)
{
  g_return_val_if_fail (motif != NULL && other != NULL, FALSE);

  if (motif->artwork == NULL || !same_file (motif, other))
    return FALSE;
  if (motif->needles != NULL && other->needles != NULL
      && hw_needle_list_equal (motif->needles, other->needles))
    {
      hw_needle_list_unref (motif->needles);
      motif->needles = hw_needle_list_ref (other->needles);
    }
  else if (same_picture (motif->picture, other->picture))
    {
      hw_picture_unref (motif->picture);
      motif->picture = hw_picture_ref (other->picture);
    }
  else
    return FALSE;
  if (hw_outline_equal (motif->outline, other->outline))
    {
      hw_outline_unref (motif->outline);
      motif->outline = hw_outline_ref (other->outline);
    }
  return TRUE;
}

char *
hw_motif_artwork_from (const char *path, const char *folder)
{
  g_return_val_if_fail (path != NULL, NULL);

  if (folder != NULL)
    {
      g_autoptr (GFile) base = g_file_new_for_path (folder);
      g_autoptr (GFile) file = g_file_new_for_path (path);
      char *relative = g_file_get_relative_path (base, file);

      if (relative != NULL)
        return relative;
    }
  return g_canonicalize_filename (path, NULL);
}

static gboolean
is_raster (const HwArtwork *artwork)
{
  return artwork->kind == HW_ARTWORK_PNG || artwork->kind == HW_ARTWORK_JPEG;
}

static HwMotif *
motif_of (const HwArtwork *artwork, const char *path, const HwArtworkWishes *wishes)
{
  g_autofree char *name = name_of_file (path);
  HwMotif *motif = hw_motif_new ();

  motif->name = g_steal_pointer (&name);
  motif->outline = hw_outline_ref (artwork->outline);
  motif->placement.scale = 1;
  motif->artwork = g_canonicalize_filename (path, NULL);
  motif->artwork_kind = g_strdup (hw_artwork_nicks[artwork->kind]);
  motif->artwork_page = artwork->kind == HW_ARTWORK_PDF ? wishes->page : 0;
  motif->artwork_pixels_per_mm = is_raster (artwork) ? wishes->pixels_per_mm : 0;
  hw_motif_set_threads (motif, artwork->threads, artwork->n_threads);
  if (artwork->needles != NULL)
    motif->needles = hw_needle_list_ref (artwork->needles);
  motif->picture = hw_artwork_picture (artwork);
  motif->picture_pixels_per_mm = motif->picture != NULL ? artwork->pixels_per_mm : 0;
  return motif;
}

HwMotifFile *
hw_motif_file_new (const char *path)
{
  g_return_val_if_fail (path != NULL, NULL);

  HwMotifFile *file = g_new0 (HwMotifFile, 1);
  file->path = g_canonicalize_filename (path, NULL);
  return file;
}

void
hw_motif_file_free (HwMotifFile *file)
{
  g_return_if_fail (file != NULL);

  g_free (file->path);
  g_clear_pointer (&file->motif, hw_motif_unref);
  g_free (file->trouble);
  g_free (file);
}

void
hw_motif_file_read (HwMotifFile *file)
{
  g_return_if_fail (file != NULL);

  g_autoptr (GError) error = NULL;
  g_autoptr (HwArtwork) artwork = hw_artwork_load (file->path, &file->wishes, &error);

  g_clear_pointer (&file->motif, hw_motif_unref);
  g_clear_pointer (&file->trouble, g_free);
  if (artwork == NULL)
    {
      file->trouble = g_strdup (error->message);
      return;
    }
  file->kind = artwork->kind;
  file->n_pages = artwork->n_pages;
  file->asks_size = artwork->size_guessed && is_raster (artwork) && file->wishes.pixels_per_mm == 0;
  file->asks_page = artwork->n_pages > 1 && file->wishes.page == 0;
  file->motif = motif_of (artwork, file->path, &file->wishes);
}

static void
read_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GPtrArray *files = data;

  for (guint i = 0; i < files->len && !g_cancellable_is_cancelled (cancellable); i++)
    hw_motif_file_read (g_ptr_array_index (files, i));
  g_task_return_boolean (task, TRUE);
}

void
hw_motif_files_read_async (GPtrArray *files,
                           GCancellable *cancellable,
                           GAsyncReadyCallback done,
                           gpointer user_data)
{
  g_return_if_fail (files != NULL);

  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, user_data);
  g_task_set_task_data (task, g_ptr_array_ref (files), (GDestroyNotify)g_ptr_array_unref);
  hw_at_work_run (task, read_thread);
}

HwMotif *
hw_motif_from_file (const char *path, const char *folder, GError **error)
{
  static const HwArtworkWishes none = { 0 };

  g_return_val_if_fail (path != NULL, NULL);

  g_autoptr (HwArtwork) artwork = hw_artwork_load (path, NULL, error);
  if (artwork == NULL)
    return NULL;
  HwMotif *motif = motif_of (artwork, path, &none);
  g_free (motif->artwork);
  motif->artwork = hw_motif_artwork_from (path, folder);
  return motif;
}

gboolean
hw_motif_import (HwBench *bench, const char *path, GError **error)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (path != NULL, FALSE);

  g_autoptr (GPtrArray) motifs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);
  HwMotif *motif = hw_motif_from_file (path, hw_bench_get_folder (bench), error);
  if (motif == NULL)
    return FALSE;
  g_ptr_array_add (motifs, motif);
  hw_bench_add_motifs (bench, motifs, NULL);
  return TRUE;
}

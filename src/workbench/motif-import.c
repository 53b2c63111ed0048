/* A motif made from a file of artwork: its name from the file's; outline, threads and picture from what the file holds, which the person then
 * changes. */
#include "motif-import.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <string.h>

#include "../formats/artwork.h"

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
  return g_strconcat (upper, g_utf8_next_char (name), NULL);
}

static char *
path_from (const char *path, const char *folder)
{
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

HwMotif *
hw_motif_from_file (const char *path, const char *folder, GError **error)
{
  g_return_val_if_fail (path != NULL, NULL);

  g_autoptr (HwArtwork) artwork = hw_artwork_load (path, NULL, error);
  if (artwork == NULL)
    return NULL;

  g_autofree char *name = name_of_file (path);
  HwMotif *motif = hw_motif_new ();
  motif->name = g_steal_pointer (&name);
  motif->outline = hw_outline_ref (artwork->outline);
  motif->placement.scale = 1;
  motif->artwork = path_from (path, folder);
  motif->artwork_kind = g_strdup (hw_artwork_nicks[artwork->kind]);
  hw_motif_set_threads (motif, artwork->threads, artwork->n_threads);
  if (artwork->needles != NULL)
    motif->needles = hw_needle_list_ref (artwork->needles);
  motif->picture = hw_artwork_picture (artwork);
  motif->picture_pixels_per_mm = artwork->pixels_per_mm;
  return motif;
}

gboolean
hw_motif_import (HwBench *bench, const char *path, GError **error)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (path != NULL, FALSE);

  const HwFabric *fabric = hw_scene_get_fabric (hw_bench_get_scene (bench));
  g_autoptr (HwMotif) motif = hw_motif_from_file (path, hw_bench_get_folder (bench), error);
  if (motif == NULL)
    return FALSE;
  motif->placement.position = (HwPoint){ fabric->width / 2, fabric->height / 2 };
  hw_bench_add_motif (bench, motif);
  return TRUE;
}

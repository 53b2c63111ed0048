/* A motif made from a needle list: its name from the file's, its outline from what is stitched, its thread blocks from the threads the
 * list names. A list tells no colours; threads get natural ones to begin with, which the person then changes. */
#include "motif-import.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <string.h>

#include "../drawing/dye.h"
#include "../formats/needle-csv.h"
#include "stitched-area.h"

G_DEFINE_QUARK (hw_motif_import_error_quark, hw_motif_import_error)

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

static HwColour
colour_of_thread (const char *name, guint index)
{
  HwColour colour;

  if (hw_colour_parse (name, &colour))
    return colour;
  return hw_dye (index)->colour;
}

/* One block for each run of a thread, in stitching order. */
static void
set_threads (HwMotif *motif, const HwNeedleList *needles)
{
  g_autoptr (GArray) blocks = g_array_new (FALSE, TRUE, sizeof (HwThreadBlock));
  int current = -1;

  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *p = &needles->points[i];

      if (p->action != HW_NEEDLE_STITCH)
        continue;
      if (p->thread != current)
        {
          HwThreadBlock block = {
            .name = needles->threads[p->thread],
            .colour = colour_of_thread (needles->threads[p->thread], p->thread),
          };
          g_array_append_val (blocks, block);
          current = p->thread;
        }
      g_array_index (blocks, HwThreadBlock, blocks->len - 1).stitches++;
    }
  hw_motif_set_threads (motif, (const HwThreadBlock *)(gpointer)blocks->data, blocks->len);
}

HwMotif *
hw_motif_from_needles (const char *path, const char *folder, GError **error)
{
  g_return_val_if_fail (path != NULL, NULL);

  g_autoptr (HwNeedleList) needles = hw_needle_csv_load (path, error);
  if (needles == NULL)
    return NULL;

  g_autofree char *name = name_of_file (path);
  g_autoptr (HwOutline) outline = hw_stitched_area (needles);
  if (outline == NULL)
    {
      g_set_error (error, HW_MOTIF_IMPORT_ERROR, HW_MOTIF_IMPORT_ERROR_NO_AREA,
                   _ ("“%s” holds no stitches that cover an area, so no motif can be made of it."), name);
      return NULL;
    }

  HwMotif *motif = hw_motif_new ();
  motif->name = g_steal_pointer (&name);
  motif->outline = g_steal_pointer (&outline);
  motif->placement.scale = 1;
  motif->artwork = path_from (path, folder);
  motif->artwork_kind = g_strdup ("needles");
  set_threads (motif, needles);
  motif->needles = g_steal_pointer (&needles);
  return motif;
}

gboolean
hw_motif_import (HwBench *bench, const char *path, GError **error)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (path != NULL, FALSE);

  const HwFabric *fabric = hw_scene_get_fabric (hw_bench_get_scene (bench));
  g_autoptr (HwMotif) motif = hw_motif_from_needles (path, hw_bench_get_folder (bench), error);
  if (motif == NULL)
    return FALSE;
  motif->placement.position = (HwPoint){ fabric->width / 2, fabric->height / 2 };
  hw_bench_add_motif (bench, motif);
  return TRUE;
}

/* The bench and its photographs of the cloth: a stack with days, of which one is shown under the motifs. */
#include "bench.h"

#include <glib/gi18n.h>

#include "../geometry/one-line.h"
#include "bench-private.h"
#include "photo-file.h"

static const HwPhoto *
photo_at (HwBench *bench, guint index)
{
  GPtrArray *photos = hw_scene_get_photos (bench->scene);

  return index < photos->len ? g_ptr_array_index (photos, index) : NULL;
}

/* The scene's list, to be changed. Returns: (transfer full) */
static GPtrArray *
list_of (HwBench *bench)
{
  GPtrArray *photos = hw_scene_get_photos (bench->scene);
  GPtrArray *copy = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_photo_unref);

  for (guint i = 0; i < photos->len; i++)
    g_ptr_array_add (copy, hw_photo_ref (g_ptr_array_index (photos, i)));
  return copy;
}

static void
take_list (HwBench *bench, const char *name, gboolean merge, GPtrArray *photos, int shown)
{
  hw_bench_begin_edit (bench, name, merge);
  hw_scene_set_photos (bench->scene, photos, shown, hw_scene_get_photo_fade (bench->scene));
  hw_bench_end_edit (bench);
}

/* Takes over changed. */
static void
replace (HwBench *bench, const char *name, gboolean merge, guint index, HwPhoto *changed)
{
  g_autoptr (GPtrArray) photos = list_of (bench);

  hw_photo_unref (photos->pdata[index]);
  photos->pdata[index] = changed;
  take_list (bench, name, merge, photos, hw_scene_get_photo_shown (bench->scene));
}

static gboolean
is_day (const char *day)
{
  g_autoptr (GDateTime) read = NULL;
  g_autofree char *whole = g_strdup_printf ("%sT12:00:00Z", day != NULL ? day : "");

  read = g_date_time_new_from_iso8601 (whole, NULL);
  return read != NULL;
}

/* Returns: (transfer full) (nullable): the photo's path from the scene's folder */
static char *
put_beside (HwBench *bench, const char *file, GBytes *bytes, GError **error)
{
  gboolean copied;
  g_autofree char *path = hw_photo_file_put_beside (file, bytes, bench->folder, &copied, error);

  if (path != NULL && copied)
    {
      g_autofree char *original = g_canonicalize_filename (file, NULL);
      g_autofree char *copy = g_canonicalize_filename (path, bench->folder);

      hw_photo_copies_add (bench->copies, original, copy);
    }
  return g_steal_pointer (&path);
}

gboolean
hw_bench_add_photo (HwBench *bench,
                    const char *file,
                    GBytes *bytes,
                    const char *name,
                    const char *taken,
                    gboolean beside,
                    GError **error)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (file != NULL && bytes != NULL && name != NULL, FALSE);
  g_return_val_if_fail (!beside || bench->path != NULL, FALSE);

  g_autoptr (HwPhoto) photo = hw_photo_new ();
  g_autoptr (GPtrArray) photos = list_of (bench);
  g_autofree char *step = g_strdup_printf (_ ("add the photo %s"), name);

  g_free (photo->name);
  photo->name = hw_one_line_name (name);
  photo->taken = is_day (taken) ? g_strdup (taken) : NULL;
  if (beside)
    {
      photo->path = put_beside (bench, file, bytes, error);
      if (photo->path == NULL)
        return FALSE;
    }
  else
    photo->bytes = g_bytes_ref (bytes);
  g_ptr_array_add (photos, g_steal_pointer (&photo));
  take_list (bench, step, FALSE, photos, (int)photos->len - 1);
  return TRUE;
}

void
hw_bench_delete_photo (HwBench *bench, guint index)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwPhoto *photo = photo_at (bench, index);
  g_autoptr (GPtrArray) photos = list_of (bench);
  int shown = hw_scene_get_photo_shown (bench->scene);

  if (photo == NULL)
    return;
  g_autofree char *step = g_strdup_printf (_ ("take the photo %s away"), photo->name);
  g_ptr_array_remove_index (photos, index);
  if (shown == (int)index)
    shown = -1;
  else if (shown > (int)index)
    shown--;
  take_list (bench, step, FALSE, photos, shown);
}

void
hw_bench_rename_photo (HwBench *bench, guint index, const char *name, const char *taken)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (name != NULL);

  const HwPhoto *photo = photo_at (bench, index);

  if (photo == NULL)
    return;
  HwPhoto *changed = hw_photo_copy (photo);
  g_free (changed->name);
  changed->name = hw_one_line_name (name);
  g_free (changed->taken);
  changed->taken = is_day (taken) ? g_strdup (taken) : NULL;
  replace (bench, _ ("rename the photo"), FALSE, index, changed);
}

void
hw_bench_show_photo (HwBench *bench, int index)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwPhoto *photo = index >= 0 ? photo_at (bench, (guint)index) : NULL;
  g_autofree char *step = photo != NULL ? g_strdup_printf (_ ("show the photo %s"), photo->name)
                                        : g_strdup (_ ("show no photo"));

  hw_bench_begin_edit (bench, step, FALSE);
  hw_scene_show_photo (bench->scene, photo != NULL ? index : -1);
  hw_bench_end_edit (bench);
}

void
hw_bench_square_photo (HwBench *bench, guint index, const HwPhotoPoint *points, guint n, double bow)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (points != NULL || n == 0);

  const HwPhoto *photo = photo_at (bench, index);

  if (photo == NULL)
    return;
  g_autofree char *step = g_strdup_printf (_ ("put the photo %s square"), photo->name);
  g_autoptr (GPtrArray) photos = list_of (bench);
  HwPhoto *changed = hw_photo_copy (photo);
  g_free (changed->points);
  changed->points = g_memdup2 (points, n * sizeof *points);
  changed->n_points = n;
  changed->bow = bow;
  hw_photo_unref (photos->pdata[index]);
  photos->pdata[index] = changed;
  take_list (bench, step, FALSE, photos, (int)index);
}

void
hw_bench_set_photo_look (HwBench *bench, guint index, double brightness, double strength)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwPhoto *photo = photo_at (bench, index);

  if (photo == NULL)
    return;
  HwPhoto *changed = hw_photo_copy (photo);
  changed->brightness = CLAMP (brightness, -1, 1);
  changed->strength = CLAMP (strength, 0, 1);
  replace (bench, _ ("change how the photo shows"), TRUE, index, changed);
}

void
hw_bench_set_photo_fade (HwBench *bench, double fade)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  hw_bench_begin_edit (bench, _ ("fade the motifs"), TRUE);
  hw_scene_set_photo_fade (bench->scene, CLAMP (fade, 0, 1));
  hw_bench_end_edit (bench);
}

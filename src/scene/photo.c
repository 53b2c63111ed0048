/* Photographs of the cloth: making, copying, comparing and letting go of the records. */
#include "photo.h"

HwPhoto *
hw_photo_new (void)
{
  HwPhoto *photo = g_new0 (HwPhoto, 1);

  g_atomic_ref_count_init (&photo->ref_count);
  photo->name = g_strdup ("");
  photo->strength = 1;
  return photo;
}

HwPhoto *
hw_photo_copy (const HwPhoto *photo)
{
  HwPhoto *copy;

  g_return_val_if_fail (photo != NULL, NULL);

  copy = g_new0 (HwPhoto, 1);
  g_atomic_ref_count_init (&copy->ref_count);
  copy->name = g_strdup (photo->name);
  copy->taken = g_strdup (photo->taken);
  copy->path = g_strdup (photo->path);
  copy->bytes = photo->bytes != NULL ? g_bytes_ref (photo->bytes) : NULL;
  copy->points = g_memdup2 (photo->points, photo->n_points * sizeof (HwPhotoPoint));
  copy->n_points = photo->n_points;
  copy->bow = photo->bow;
  copy->brightness = photo->brightness;
  copy->strength = photo->strength;
  copy->unknown = hw_unknown_ref (photo->unknown);
  return copy;
}

HwPhoto *
hw_photo_ref (const HwPhoto *photo)
{
  HwPhoto *shared = (HwPhoto *)photo;

  g_return_val_if_fail (photo != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_photo_unref (HwPhoto *photo)
{
  g_return_if_fail (photo != NULL);

  if (!g_atomic_ref_count_dec (&photo->ref_count))
    return;
  g_free (photo->name);
  g_free (photo->taken);
  g_free (photo->path);
  g_clear_pointer (&photo->bytes, g_bytes_unref);
  g_free (photo->points);
  g_clear_pointer (&photo->unknown, hw_unknown_unref);
  g_free (photo);
}

static gboolean
points_equal (const HwPhoto *a, const HwPhoto *b)
{
  if (a->n_points != b->n_points)
    return FALSE;
  for (guint i = 0; i < a->n_points; i++)
    {
      const HwPhotoPoint *p = &a->points[i], *q = &b->points[i];

      if (p->px.x != q->px.x || p->px.y != q->px.y || p->mm.x != q->mm.x || p->mm.y != q->mm.y)
        return FALSE;
    }
  return TRUE;
}

static gboolean
bytes_equal (GBytes *a, GBytes *b)
{
  return a == b || (a != NULL && b != NULL && g_bytes_equal (a, b));
}

gboolean
hw_photo_equal (const HwPhoto *a, const HwPhoto *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a == b
         || (g_strcmp0 (a->name, b->name) == 0 && g_strcmp0 (a->taken, b->taken) == 0
             && g_strcmp0 (a->path, b->path) == 0 && a->bow == b->bow && a->brightness == b->brightness
             && a->strength == b->strength && points_equal (a, b) && hw_unknown_equal (a->unknown, b->unknown)
             && bytes_equal (a->bytes, b->bytes));
}

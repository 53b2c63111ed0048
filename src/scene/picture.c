/* A raster picture in memory, shared by reference: photographs of the cloth may be large, and are never copied for a snapshot. */
#include "picture.h"

HwPicture *
hw_picture_new (guint width, guint height, gsize stride, guint8 *pixels)
{
  HwPicture *picture;

  g_return_val_if_fail (width > 0 && height > 0, NULL);
  g_return_val_if_fail (stride >= (gsize)width * 4, NULL);
  g_return_val_if_fail (pixels != NULL, NULL);

  picture = g_new0 (HwPicture, 1);
  g_atomic_ref_count_init (&picture->ref_count);
  picture->width = width;
  picture->height = height;
  picture->stride = stride;
  picture->pixels = pixels;
  return picture;
}

HwPicture *
hw_picture_ref (const HwPicture *picture)
{
  HwPicture *shared = (HwPicture *)picture;

  g_return_val_if_fail (picture != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_picture_unref (HwPicture *picture)
{
  g_return_if_fail (picture != NULL);

  if (!g_atomic_ref_count_dec (&picture->ref_count))
    return;
  g_free (picture->pixels);
  g_free (picture);
}

/* Luma of ITU-R BT.709 in whole numbers that add up to 65536, the picture laid over white. */
guint8
hw_picture_grey (const HwPicture *picture, guint x, guint y)
{
  const guint8 *p;
  guint luma;

  g_return_val_if_fail (picture != NULL, 0);
  g_return_val_if_fail (x < picture->width && y < picture->height, 0);

  p = picture->pixels + y * picture->stride + (gsize)x * 4;
  luma = (13933 * p[0] + 46871 * p[1] + 4732 * p[2] + 32768) >> 16;
  return (guint8)((luma * p[3] + 255 * (255u - p[3]) + 127) / 255);
}

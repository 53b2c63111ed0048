/* A picture at several sizes (a pyramid of means over two by two pixels, after Williams 1983, "Pyramidal parametrics"). Drawn from the size
 * just above what the screen shows, every pixel of the screen needs four of the picture's. */
#include "photo-levels.h"

#include <math.h>

#define SMALLEST 64 /* px: no smaller size is kept */

struct _HwPhotoLevels
{
  gatomicrefcount ref_count;
  GPtrArray *surfaces;  /* cairo_surface_t, largest first */
  double width, height; /* of the picture, px */
  double first;         /* picture pixels along a side of a pixel of the first */
};

static guint8
times (guint8 value, guint8 opacity)
{
  return (guint8)((value * opacity + 127) / 255);
}

static void
copy_row (const guint8 *from, guint32 *to, guint n)
{
  for (guint x = 0; x < n; x++, from += 4)
    to[x] = (guint32)from[3] << 24 | (guint32)times (from[0], from[3]) << 16
            | (guint32)times (from[1], from[3]) << 8 | times (from[2], from[3]);
}

static cairo_surface_t *
surface_new (guint width, guint height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int)width, (int)height);

  if (cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS)
    return surface;
  cairo_surface_destroy (surface);
  return NULL;
}

static guint32 *
row_of (cairo_surface_t *surface, guint y)
{
  return (guint32 *)(void *)(cairo_image_surface_get_data (surface)
                             + (gsize)y * (gsize)cairo_image_surface_get_stride (surface));
}

/* The mean of four pixels, part by part, two parts at a time. */
static guint32
mean (guint32 a, guint32 b, guint32 c, guint32 d)
{
  guint32 low = (a & 0xff00ff) + (b & 0xff00ff) + (c & 0xff00ff) + (d & 0xff00ff) + 0x20002;
  guint32 high
      = (a >> 8 & 0xff00ff) + (b >> 8 & 0xff00ff) + (c >> 8 & 0xff00ff) + (d >> 8 & 0xff00ff) + 0x20002;

  return (low >> 2 & 0xff00ff) | (high >> 2 & 0xff00ff) << 8;
}

static void
halve_rows (const guint32 *upper, const guint32 *lower, guint32 *to, guint width)
{
  for (guint x = 0; x < (width + 1) / 2; x++)
    {
      guint left = 2 * x, right = MIN (2 * x + 1, width - 1);

      to[x] = mean (upper[left], upper[right], lower[left], lower[right]);
    }
}

static cairo_surface_t *
first_surface (const HwPicture *picture)
{
  cairo_surface_t *surface = surface_new (picture->width, picture->height);

  for (guint y = 0; surface != NULL && y < picture->height; y++)
    copy_row (picture->pixels + y * picture->stride, row_of (surface, y), picture->width);
  return surface;
}

/* The picture at half its size, without its whole size in between. */
static cairo_surface_t *
halved_surface (const HwPicture *picture)
{
  cairo_surface_t *surface = surface_new ((picture->width + 1) / 2, (picture->height + 1) / 2);
  g_autofree guint32 *upper = g_new (guint32, picture->width), *lower = g_new (guint32, picture->width);

  for (guint y = 0; surface != NULL && y < (picture->height + 1) / 2; y++)
    {
      copy_row (picture->pixels + 2 * y * picture->stride, upper, picture->width);
      copy_row (picture->pixels + MIN (2 * y + 1, picture->height - 1) * picture->stride, lower,
                picture->width);
      halve_rows (upper, lower, row_of (surface, y), picture->width);
    }
  return surface;
}

static cairo_surface_t *
half_of (cairo_surface_t *larger)
{
  guint width = (guint)cairo_image_surface_get_width (larger);
  guint height = (guint)cairo_image_surface_get_height (larger);
  cairo_surface_t *surface = surface_new ((width + 1) / 2, (height + 1) / 2);

  for (guint y = 0; surface != NULL && y < (height + 1) / 2; y++)
    halve_rows (row_of (larger, 2 * y), row_of (larger, MIN (2 * y + 1, height - 1)), row_of (surface, y),
                width);
  return surface;
}

static gboolean
is_larger (cairo_surface_t *surface, double pixels)
{
  return (double)cairo_image_surface_get_width (surface) * cairo_image_surface_get_height (surface) > pixels;
}

HwPhotoLevels *
hw_photo_levels_new (const HwPicture *picture, double most_pixels)
{
  g_return_val_if_fail (picture != NULL, NULL);

  HwPhotoLevels *levels = g_new0 (HwPhotoLevels, 1);
  gboolean whole = (double)picture->width * picture->height <= most_pixels;
  cairo_surface_t *surface = whole ? first_surface (picture) : halved_surface (picture);

  g_atomic_ref_count_init (&levels->ref_count);
  levels->surfaces = g_ptr_array_new_with_free_func ((GDestroyNotify)cairo_surface_destroy);
  levels->width = picture->width;
  levels->height = picture->height;
  levels->first = whole ? 1 : 2;
  while (surface != NULL && is_larger (surface, most_pixels))
    {
      cairo_surface_t *half = half_of (surface);

      cairo_surface_destroy (surface);
      surface = half;
      levels->first *= 2;
    }
  while (surface != NULL)
    {
      cairo_surface_mark_dirty (surface);
      g_ptr_array_add (levels->surfaces, surface);
      surface = is_larger (surface, SMALLEST * SMALLEST) ? half_of (surface) : NULL;
    }
  if (levels->surfaces->len > 0)
    return levels;
  hw_photo_levels_unref (levels);
  return NULL;
}

HwPhotoLevels *
hw_photo_levels_ref (HwPhotoLevels *levels)
{
  g_return_val_if_fail (levels != NULL, NULL);
  g_atomic_ref_count_inc (&levels->ref_count);
  return levels;
}

void
hw_photo_levels_unref (HwPhotoLevels *levels)
{
  g_return_if_fail (levels != NULL);

  if (!g_atomic_ref_count_dec (&levels->ref_count))
    return;
  g_ptr_array_unref (levels->surfaces);
  g_free (levels);
}

/* Device pixels that one pixel of the picture takes. */
static double
device_scale (cairo_t *cr, double scale)
{
  double dx = scale, dy = 0, sx = 1, sy = 1;

  cairo_user_to_device_distance (cr, &dx, &dy);
  cairo_surface_get_device_scale (cairo_get_target (cr), &sx, &sy);
  return hypot (dx, dy) * sx;
}

void
hw_photo_levels_paint (HwPhotoLevels *levels, cairo_t *cr, double x, double y, double width, double height)
{
  g_return_if_fail (levels != NULL && cr != NULL);

  double shown = device_scale (cr, width / levels->width) * levels->first, pixel = levels->first;
  guint level = 0;

  while (level + 1 < levels->surfaces->len && shown <= 0.55)
    {
      shown *= 2;
      pixel *= 2;
      level++;
    }
  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_clip (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, width / levels->width * pixel, height / levels->height * pixel);
  cairo_set_source_surface (cr, g_ptr_array_index (levels->surfaces, level), 0, 0);
  cairo_pattern_set_extend (cairo_get_source (cr), CAIRO_EXTEND_PAD);
  cairo_pattern_set_filter (cairo_get_source (cr), shown > 3 ? CAIRO_FILTER_NEAREST : CAIRO_FILTER_BILINEAR);
  cairo_paint (cr);
  cairo_restore (cr);
}

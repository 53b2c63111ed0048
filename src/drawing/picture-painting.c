/* Artwork that came as a drawing or a scan: its picture turned, sized and mirrored as the motif lies. A scan has far more pixels than are shown: it
 * is first made coarser by whole pixels, so that thin lines stay, then laid down. */
#include "picture-painting.h"

#include <math.h>

#define MOST_PIXELS 64000000.0
#define MOST_SIDE 32767.0
#define MOST_SAMPLES 4 /* of a cell's side: of very fine scans not every pixel is looked at */

/* The mean of k x k pixels, premultiplied. */
static guint32
cell (const HwPicture *picture, guint x, guint y, guint k)
{
  guint step = MAX (k / MOST_SAMPLES, 1), n = 0;
  guint64 sum[4] = { 0 };

  for (guint j = y * k; j < MIN ((y + 1) * k, picture->height); j += step)
    for (guint i = x * k; i < MIN ((x + 1) * k, picture->width); i += step, n++)
      {
        const guint8 *p = picture->pixels + j * picture->stride + (gsize)i * 4;

        for (guint c = 0; c < 3; c++)
          sum[c] += (guint)p[c] * p[3];
        sum[3] += p[3];
      }
  for (guint c = 0; c < 3; c++)
    sum[c] = (sum[c] + n * 255 / 2) / (n * 255);
  return (guint32)((sum[3] + n / 2) / n << 24 | sum[0] << 16 | sum[1] << 8 | sum[2]);
}

/* Returns: (transfer full) (nullable) */
static cairo_surface_t *
coarser (const HwPicture *picture, guint k)
{
  guint width = (picture->width + k - 1) / k, height = (picture->height + k - 1) / k;
  cairo_surface_t *surface;
  guint8 *data;

  if (width > MOST_SIDE || height > MOST_SIDE)
    return NULL;
  surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int)width, (int)height);
  data = cairo_image_surface_get_data (surface);
  if (data == NULL)
    {
      cairo_surface_destroy (surface);
      return NULL;
    }
  for (guint y = 0; y < height; y++)
    {
      guint32 *row = (guint32 *)(gpointer)(data + (gsize)y * cairo_image_surface_get_stride (surface));

      for (guint x = 0; x < width; x++)
        row[x] = cell (picture, x, y, k);
    }
  cairo_surface_mark_dirty (surface);
  return surface;
}

/* From the picture's pixels to pixels around the motif's position. */
static cairo_matrix_t
matrix_of (const HwMotif *motif, double pixels_per_mm)
{
  const HwPlacement *placement = &motif->placement;
  double f = placement->scale * pixels_per_mm / motif->picture_pixels_per_mm;
  cairo_matrix_t matrix;

  cairo_matrix_init_rotate (&matrix, placement->angle * G_PI / 180);
  cairo_matrix_scale (&matrix, placement->mirrored ? -f : f, f);
  cairo_matrix_translate (&matrix, -(double)motif->picture->width / 2, -(double)motif->picture->height / 2);
  return matrix;
}

static HwBox
box_of (const HwMotif *motif, const cairo_matrix_t *matrix)
{
  HwBox box = HW_BOX_EMPTY;

  for (int i = 0; i < 4; i++)
    {
      double x = i % 2 * (double)motif->picture->width, y = i / 2 * (double)motif->picture->height;

      cairo_matrix_transform_point (matrix, &x, &y);
      box = (HwBox){ MIN (box.x0, x), MIN (box.y0, y), MAX (box.x1, x), MAX (box.y1, y) };
    }
  return box;
}

gboolean
hw_picture_paint (HwThreadPicture *painted, const HwMotif *motif, double pixels_per_mm)
{
  cairo_matrix_t matrix = matrix_of (motif, pixels_per_mm);
  HwBox box = box_of (motif, &matrix);
  double shown = pixels_per_mm * motif->placement.scale, width, height;
  guint k = (guint)CLAMP (motif->picture_pixels_per_mm / shown, 1, 4096);
  cairo_surface_t *from;
  cairo_t *cr;

  *painted = (HwThreadPicture){ NULL, floor (box.x0) - 1, floor (box.y0) - 1 };
  width = ceil (box.x1) + 1 - painted->x;
  height = ceil (box.y1) + 1 - painted->y;
  if (!(width <= MOST_SIDE && height <= MOST_SIDE && width * height <= MOST_PIXELS))
    return FALSE;
  from = coarser (motif->picture, k);
  if (from == NULL)
    return FALSE;
  painted->surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int)width, (int)height);
  cr = cairo_create (painted->surface);
  cairo_translate (cr, -painted->x, -painted->y);
  cairo_transform (cr, &matrix);
  cairo_scale (cr, k, k);
  cairo_set_source_surface (cr, from, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_GOOD);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (from);
  if (cairo_surface_status (painted->surface) == CAIRO_STATUS_SUCCESS)
    return TRUE;
  hw_thread_picture_clear (painted);
  return FALSE;
}

/* Scans and pictures as a page: their size from the person's word, else from the resolution they name, else from 96 pixels to the inch. Pictures of more pixels than
 * tracing needs are made coarser by whole pixels; pictures whose pixels are not square are made square. */
#include "artwork-private.h"

#include <math.h>

#include "../geometry/language.h"
#include "../geometry/units.h"
#include "picture-load.h"

#define MOST_PIXELS 20e6
#define GUESSED_DPI 96.0
#define LOWEST_DPI 20.0 /* below this and above the next a file's word is no resolution of a scanner */
#define HIGHEST_DPI 20000.0
#define NOT_SQUARE 0.005

static gboolean
is_dpi (double dpi)
{
  return dpi >= LOWEST_DPI && dpi <= HIGHEST_DPI;
}

/* k x k pixels of the picture at column x, row y of the surface, premultiplied. */
static guint32
mean_pixel (const HwPicture *picture, guint x, guint y, guint k)
{
  guint64 sum[4] = { 0 };
  guint n = 0;

  for (guint j = y * k; j < MIN ((y + 1) * k, picture->height); j++)
    {
      const guint8 *p = picture->pixels + j * picture->stride + (gsize)x * k * 4;

      for (guint i = x * k; i < MIN ((x + 1) * k, picture->width); i++, p += 4, n++)
        {
          for (guint c = 0; c < 3; c++)
            sum[c] += (guint)p[c] * p[3];
          sum[3] += p[3];
        }
    }
  for (guint c = 0; c < 3; c++)
    sum[c] = (sum[c] + n * 255 / 2) / (n * 255);
  return (guint32)((sum[3] + n / 2) / n << 24 | sum[0] << 16 | sum[1] << 8 | sum[2]);
}

static cairo_surface_t *
surface_of (const HwPicture *picture, guint k)
{
  int width = (int)((picture->width + k - 1) / k), height = (int)((picture->height + k - 1) / k);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  guint8 *data = cairo_image_surface_get_data (surface);

  if (data == NULL)
    return surface;
  for (int y = 0; y < height; y++)
    {
      guint32 *row = (guint32 *)(gpointer)(data + (gsize)y * cairo_image_surface_get_stride (surface));

      for (int x = 0; x < width; x++)
        row[x] = mean_pixel (picture, x, y, k);
    }
  cairo_surface_mark_dirty (surface);
  return surface;
}

/* The same with as many pixels to the mm down as across. */
static cairo_surface_t *
squared (cairo_surface_t *from, double across, double down)
{
  double scale = MIN (across, down);
  int width = cairo_image_surface_get_width (from), height = cairo_image_surface_get_height (from);
  cairo_surface_t *to
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, MAX (1, (int)lround (width * scale / across)),
                                    MAX (1, (int)lround (height * scale / down)));
  cairo_t *cr = cairo_create (to);

  cairo_scale (cr, scale / across, scale / down);
  cairo_set_source_surface (cr, from, 0, 0);
  cairo_pattern_set_extend (cairo_get_source (cr), CAIRO_EXTEND_PAD);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_paint (cr);
  cairo_destroy (cr);
  return to;
}

static HwArtworkError
code_of (const GError *problem)
{
  if (g_error_matches (problem, HW_PICTURE_ERROR, HW_PICTURE_ERROR_TOO_LARGE))
    return HW_ARTWORK_ERROR_TOO_LARGE;
  if (g_error_matches (problem, HW_PICTURE_ERROR, HW_PICTURE_ERROR_READ))
    return HW_ARTWORK_ERROR_READ;
  return HW_ARTWORK_ERROR_FORMAT;
}

gboolean
hw_artwork_draw_picture (
    GBytes *bytes, const char *name, double pixels_per_mm, HwArtworkPage *page, GError **error)
{
  g_autoptr (GError) problem = NULL;
  g_autoptr (HwPicture) picture = hw_picture_load_bytes (bytes, name, &problem);
  double across = pixels_per_mm, down = pixels_per_mm;
  guint k;

  if (picture == NULL)
    {
      g_set_error_literal (error, HW_ARTWORK_ERROR, code_of (problem), problem->message);
      return FALSE;
    }
  if (!(across > 0))
    {
      page->size_guessed = !is_dpi (picture->dpi_x) || !is_dpi (picture->dpi_y);
      across = (page->size_guessed ? GUESSED_DPI : picture->dpi_x) / HW_MM_PER_INCH;
      down = (page->size_guessed ? GUESSED_DPI : picture->dpi_y) / HW_MM_PER_INCH;
    }
  page->n_pages = 1;
  page->width = picture->width / across;
  page->height = picture->height / down;
  k = (guint)ceil (MAX (sqrt ((double)picture->width * picture->height / MOST_PIXELS),
                        MAX (picture->width, picture->height) / 30000.0));
  page->surface = surface_of (picture, MAX (k, 1));
  page->pixels_per_mm = MIN (across, down) / MAX (k, 1);
  if (fabs (across / down - 1) > NOT_SQUARE)
    {
      cairo_surface_t *square = squared (page->surface, across, down);

      cairo_surface_destroy (page->surface);
      page->surface = square;
    }
  if (cairo_surface_status (page->surface) == CAIRO_STATUS_SUCCESS)
    return TRUE;
  hw_artwork_fail (error, HW_ARTWORK_ERROR_TOO_LARGE, name,
                   _ ("there is not enough memory for a picture this large."));
  return FALSE;
}

HwPicture *
hw_artwork_picture (const HwArtwork *artwork)
{
  guint width, height;
  gsize stride;
  const guint8 *data;
  guint8 *pixels, *to;

  g_return_val_if_fail (artwork != NULL, NULL);

  if (artwork->picture == NULL)
    return NULL;
  width = cairo_image_surface_get_width (artwork->picture);
  height = cairo_image_surface_get_height (artwork->picture);
  stride = cairo_image_surface_get_stride (artwork->picture);
  data = cairo_image_surface_get_data (artwork->picture);
  to = pixels = g_malloc0_n ((gsize)width * height, 4);
  for (guint y = 0; y < height; y++)
    {
      const guint32 *row = (const guint32 *)(gconstpointer)(data + y * stride);

      for (guint x = 0; x < width; x++, to += 4)
        {
          guint opacity = row[x] >> 24;

          to[3] = (guint8)opacity;
          for (guint c = 0; c < 3 && opacity > 0; c++)
            to[c] = (guint8)MIN (255, ((row[x] >> (16 - 8 * c) & 0xff) * 255 + opacity / 2) / opacity);
        }
    }
  return hw_picture_new (width, height, (gsize)width * 4, pixels);
}

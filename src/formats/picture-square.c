/* A photograph put square: every pixel of the new picture is looked up in the photo. Where the photo is finer than the new picture, all of what a pixel covers is
 * averaged; where it is coarser, the four pixels around a point are mixed (bilinear interpolation). Colours are weighed by their opacity. */
#include <math.h>

#include "picture-load.h"
#include "../geometry/language.h"
#include "../scene/limits.h"

#define MM_PER_INCH 25.4
#define MOST_SAMPLES 32 /* along each side of a pixel */

typedef struct
{
  double x, y;
  gboolean there;
} Corner;

typedef struct
{
  const HwPicture *photo;
  double x, y, step; /* mm: top left, and the side of a pixel */
  guint width;
  HwPictureWay way;
  gpointer data;
  Corner *above, *below; /* corners of one row of pixels, in photo pixels */
} Squaring;

static void
find_corners (const Squaring *squaring, guint row, Corner *corners)
{
  for (guint i = 0; i <= squaring->width; i++)
    {
      Corner *corner = &corners[i];

      corner->there = squaring->way (squaring->x + i * squaring->step, squaring->y + row * squaring->step,
                                     &corner->x, &corner->y, squaring->data)
                      && isfinite (corner->x) && isfinite (corner->y);
    }
}

/* Adds the photo's colour at a place, times its opacity, to sum; outside the photo there is none. */
static void
add_sample (const HwPicture *photo, double x, double y, double sum[4])
{
  double left, top, across, down;
  const guint8 *upper, *lower;
  guint x0, y0, x1, y1;

  if (!(x >= 0 && y >= 0 && x < photo->width && y < photo->height))
    return;
  x = CLAMP (x - 0.5, 0, photo->width - 1.0);
  y = CLAMP (y - 0.5, 0, photo->height - 1.0);
  left = floor (x);
  top = floor (y);
  across = x - left;
  down = y - top;
  x0 = (guint)left;
  y0 = (guint)top;
  x1 = MIN (x0 + 1, photo->width - 1);
  y1 = MIN (y0 + 1, photo->height - 1);
  upper = photo->pixels + y0 * photo->stride;
  lower = photo->pixels + y1 * photo->stride;
  {
    const guint8 *const corners[] = { upper + 4 * x0, upper + 4 * x1, lower + 4 * x0, lower + 4 * x1 };
    const double shares[]
        = { (1 - across) * (1 - down), across * (1 - down), (1 - across) * down, across * down };

    for (guint i = 0; i < 4; i++)
      {
        double weight = shares[i] * corners[i][3];

        sum[0] += weight * corners[i][0];
        sum[1] += weight * corners[i][1];
        sum[2] += weight * corners[i][2];
        sum[3] += weight;
      }
  }
}

static guint
samples_for (const Corner *a, const Corner *b, const Corner *c, const Corner *d)
{
  double across = MAX (hypot (b->x - a->x, b->y - a->y), hypot (d->x - c->x, d->y - c->y));
  double down = MAX (hypot (c->x - a->x, c->y - a->y), hypot (d->x - b->x, d->y - b->y));

  return (guint)CLAMP (ceil (MAX (across, down) - 1e-9), 1, MOST_SAMPLES);
}

/* a b over c d: the pixel's corners in the photo. Samples lie evenly between them. */
static void
fill_pixel (
    const HwPicture *photo, const Corner *a, const Corner *b, const Corner *c, const Corner *d, guint8 *pixel)
{
  double sum[4] = { 0 };
  guint n;

  if (!a->there || !b->there || !c->there || !d->there)
    return;
  n = samples_for (a, b, c, d);
  for (guint i = 0; i < n; i++)
    {
      double v = (i + 0.5) / n;
      double x0 = a->x + v * (c->x - a->x), y0 = a->y + v * (c->y - a->y);
      double x1 = b->x + v * (d->x - b->x), y1 = b->y + v * (d->y - b->y);

      for (guint k = 0; k < n; k++)
        {
          double u = (k + 0.5) / n;

          add_sample (photo, x0 + u * (x1 - x0), y0 + u * (y1 - y0), sum);
        }
    }
  if (sum[3] <= 0)
    return;
  for (guint part = 0; part < 3; part++)
    pixel[part] = (guint8)lround (sum[part] / sum[3]);
  pixel[3] = (guint8)lround (sum[3] / ((double)n * n));
}

static void
fill_rows (Squaring *squaring, HwPicture *picture)
{
  find_corners (squaring, 0, squaring->above);
  for (guint y = 0; y < picture->height; y++)
    {
      Corner *above;
      guint8 *row = picture->pixels + y * picture->stride;

      find_corners (squaring, y + 1, squaring->below);
      for (guint x = 0; x < picture->width; x++)
        fill_pixel (squaring->photo, &squaring->above[x], &squaring->above[x + 1], &squaring->below[x],
                    &squaring->below[x + 1], row + 4 * (gsize)x);
      above = squaring->above;
      squaring->above = squaring->below;
      squaring->below = above;
    }
}

HwPicture *
hw_picture_squared (const HwPicture *photo,
                    double x,
                    double y,
                    double width,
                    double height,
                    double dpi,
                    HwPictureWay way,
                    gpointer data,
                    GError **error)
{
  double across, down;
  Squaring squaring;
  HwPicture *picture;
  guint8 *pixels = NULL;

  g_return_val_if_fail (photo != NULL && way != NULL, NULL);
  g_return_val_if_fail (isfinite (x) && isfinite (y), NULL);
  g_return_val_if_fail (width > 0 && height > 0 && dpi > 0, NULL);

  across = MAX (round (width * dpi / MM_PER_INCH), 1);
  down = MAX (round (height * dpi / MM_PER_INCH), 1);
  if (across <= HW_LARGEST_PICTURE_SIDE && down <= HW_LARGEST_PICTURE_SIDE
      && across * down <= HW_MOST_PICTURE_PIXELS)
    pixels = g_try_malloc0_n ((gsize)across * (gsize)down, 4);
  if (pixels == NULL)
    {
      g_set_error (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_TOO_LARGE,
                   _ ("A picture of %.0f × %.0f pixels would be too large; take fewer dots per inch."),
                   across, down);
      return NULL;
    }
  picture = hw_picture_new ((guint)across, (guint)down, (gsize)across * 4, pixels);
  picture->dpi_x = picture->dpi_y = dpi;
  squaring = (Squaring){ photo, x, y, MM_PER_INCH / dpi, picture->width, way, data, NULL, NULL };
  squaring.above = g_new0 (Corner, picture->width + 1);
  squaring.below = g_new0 (Corner, picture->width + 1);
  fill_rows (&squaring, picture);
  g_free (squaring.above);
  g_free (squaring.below);
  return picture;
}

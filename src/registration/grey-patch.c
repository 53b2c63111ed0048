/* Grey values of a piece of a photograph: coarser where its lines are many pixels wide, so that work goes with what is to be seen and not with the camera's megapixels. */
#include "grey-patch.h"

#include <math.h>

gboolean
hw_grey_patch_take (
    HwGreyPatch *patch, const HwPicture *picture, double x0, double y0, double x1, double y1, guint coarse)
{
  guint left, top, right, bottom;

  g_assert (patch != NULL && picture != NULL && coarse > 0);

  *patch = (HwGreyPatch){ 0 };
  left = (guint)floor (CLAMP (x0, 0, picture->width));
  top = (guint)floor (CLAMP (y0, 0, picture->height));
  right = (guint)ceil (CLAMP (x1, 0, picture->width));
  bottom = (guint)ceil (CLAMP (y1, 0, picture->height));
  if (right < left + coarse || bottom < top + coarse)
    return FALSE;
  *patch = (HwGreyPatch){
    .width = (right - left) / coarse, .height = (bottom - top) / coarse, .x = left, .y = top, .coarse = coarse
  };
  patch->grey = g_new0 (float, (gsize)patch->width * patch->height);
  for (guint y = 0; y < patch->height * coarse; y++)
    {
      float *row = patch->grey + (gsize)(y / coarse) * patch->width;

      for (guint x = 0; x < patch->width * coarse; x++)
        row[x / coarse] += hw_picture_grey (picture, left + x, top + y);
    }
  for (gsize i = 0; i < (gsize)patch->width * patch->height; i++)
    patch->grey[i] /= (float)(coarse * coarse);
  return TRUE;
}

void
hw_grey_patch_clear (HwGreyPatch *patch)
{
  g_clear_pointer (&patch->grey, g_free);
}

/* One line of n values, step apart. */
static void
smooth_line (float *line, gsize step, int n, const float *weights, int reach, float *copy)
{
  for (int i = 0; i < n; i++)
    copy[i] = line[(gsize)i * step];
  for (int i = 0; i < n; i++)
    {
      float sum = 0;

      for (int k = -reach; k <= reach; k++)
        sum += weights[k + reach] * copy[CLAMP (i + k, 0, n - 1)];
      line[(gsize)i * step] = sum;
    }
}

void
hw_grey_patch_smooth (HwGreyPatch *patch, double sigma)
{
  int reach = (int)ceil (3 * sigma), width = (int)patch->width, height = (int)patch->height;
  g_autofree float *weights = g_new (float, 2 * reach + 1);
  g_autofree float *copy = g_new (float, MAX (width, height));
  float sum = 0;

  for (int k = -reach; k <= reach; k++)
    sum += weights[k + reach] = (float)exp (-k * k / (2 * sigma * sigma));
  for (int k = 0; k <= 2 * reach; k++)
    weights[k] /= sum;
  for (int y = 0; y < height; y++)
    smooth_line (patch->grey + (gsize)y * patch->width, 1, width, weights, reach, copy);
  for (int x = 0; x < width; x++)
    smooth_line (patch->grey + x, patch->width, height, weights, reach, copy);
}

double
hw_grey_patch_at (const HwGreyPatch *patch, double x, double y)
{
  double left, top, across, down;
  guint x0, y0, x1, y1;
  const float *upper, *lower;

  x = CLAMP (x - 0.5, 0, patch->width - 1.0);
  y = CLAMP (y - 0.5, 0, patch->height - 1.0);
  left = floor (x);
  top = floor (y);
  across = x - left;
  down = y - top;
  x0 = (guint)left;
  y0 = (guint)top;
  x1 = MIN (x0 + 1, patch->width - 1);
  y1 = MIN (y0 + 1, patch->height - 1);
  upper = patch->grey + (gsize)y0 * patch->width;
  lower = patch->grey + (gsize)y1 * patch->width;
  return (1 - down) * ((1 - across) * upper[x0] + across * upper[x1])
         + down * ((1 - across) * lower[x0] + across * lower[x1]);
}

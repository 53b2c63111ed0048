/* A picture made up by the test, pixel by pixel. */
#pragma once

#include <math.h>

#include "scene/picture.h"

typedef double (*Light) (const void *what, double x, double y);

/* A picture whose pixels are what `light` says of their middles. */
static inline HwPicture *
picture_of (guint width, guint height, Light light, const void *what)
{
  guint8 *bytes = g_malloc0 ((gsize)width * height * 4);

  for (guint y = 0; y < height; y++)
    for (guint x = 0; x < width; x++)
      for (guint c = 0; c < 4; c++)
        bytes[((gsize)y * width + x) * 4 + c]
            = c == 3 ? 255 : (guint8)lround (CLAMP (light (what, x + 0.5, y + 0.5), 0, 255));
  return hw_picture_new (width, height, width * 4, bytes);
}

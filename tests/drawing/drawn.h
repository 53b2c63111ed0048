/* Pixels for the drawing tests. */
#pragma once

#include <cairo.h>
#include <glib.h>

/* Parts of one pixel, 0 to 255, premultiplied; outside the surface all are 0. */
typedef struct
{
  int red, green, blue, alpha;
} Drawn;

static inline Drawn
drawn_at (cairo_surface_t *surface, int x, int y)
{
  const guchar *data = cairo_image_surface_get_data (surface);
  guint32 word;

  if (x < 0 || y < 0 || x >= cairo_image_surface_get_width (surface)
      || y >= cairo_image_surface_get_height (surface))
    return (Drawn){ 0, 0, 0, 0 };
  word = *(const guint32 *)(const void *)(data + y * cairo_image_surface_get_stride (surface) + x * 4);
  return (Drawn){ word >> 16 & 0xff, word >> 8 & 0xff, word & 0xff, word >> 24 };
}

static inline int
drawn_light (Drawn pixel)
{
  return pixel.red + pixel.green + pixel.blue;
}

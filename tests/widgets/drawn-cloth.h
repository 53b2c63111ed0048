/* A photo of marked cloth, drawn by the test as it would be seen from straight above: pen crosses of ten millimetres on linen, and a sheet of white paper when wanted. */
#pragma once

#include <cairo.h>
#include <glib.h>

#include "geometry/point.h"

typedef struct
{
  double scale;   /* px a mm takes */
  HwPoint origin; /* px of 0, 0 mm */
  int width, height;
  HwPoint crosses[8]; /* mm */
  guint n_crosses;
  HwPoint sheet;                 /* mm: its upper left corner */
  double sheet_wide, sheet_high; /* mm; 0: none lies there */
} DrawnCloth;

static inline HwPoint
drawn_px (const DrawnCloth *cloth, HwPoint mm)
{
  return (HwPoint){ cloth->origin.x + cloth->scale * mm.x, cloth->origin.y + cloth->scale * mm.y };
}

static inline void
drawn_line (cairo_t *cr, const DrawnCloth *cloth, HwPoint from, HwPoint to)
{
  HwPoint a = drawn_px (cloth, from), b = drawn_px (cloth, to);

  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
  cairo_stroke (cr);
}

/* Writes it as a PNG. */
static inline void
drawn_save (const DrawnCloth *cloth, const char *path)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, cloth->width, cloth->height);
  cairo_t *cr = cairo_create (surface);
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);

  cairo_set_source_rgb (cr, 0.56, 0.53, 0.47);
  cairo_paint (cr);
  if (cloth->sheet_wide > 0)
    {
      HwPoint at = drawn_px (cloth, cloth->sheet);

      cairo_set_source_rgb (cr, 0.96, 0.96, 0.95);
      cairo_rectangle (cr, at.x, at.y, cloth->scale * cloth->sheet_wide, cloth->scale * cloth->sheet_high);
      cairo_fill (cr);
    }
  cairo_set_source_rgb (cr, 0.2, 0.22, 0.4);
  cairo_set_line_width (cr, 0.6 * cloth->scale);
  for (guint i = 0; i < cloth->n_crosses; i++)
    {
      HwPoint at = cloth->crosses[i];

      drawn_line (cr, cloth, (HwPoint){ at.x - 5, at.y }, (HwPoint){ at.x + 5, at.y });
      drawn_line (cr, cloth, (HwPoint){ at.x, at.y - 5 }, (HwPoint){ at.x, at.y + 5 });
    }
  cairo_surface_flush (surface);
  for (int y = 0; y < cloth->height; y++) /* the grain of the picture */
    {
      guint8 *row = cairo_image_surface_get_data (surface)
                    + (gsize)y * (gsize)cairo_image_surface_get_stride (surface);

      for (int x = 0; x < cloth->width; x++)
        {
          int more = g_rand_int_range (rand, -2, 3);

          for (int part = 0; part < 3; part++)
            row[4 * x + part] = (guint8)CLAMP (row[4 * x + part] + more, 0, 255);
        }
    }
  cairo_surface_mark_dirty (surface);
  g_assert_cmpint (cairo_surface_write_to_png (surface, path), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

/* Files of artwork made on the spot, and how they are loaded or refused. */
#pragma once

#include <cairo-pdf.h>
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "../folders.h"
#include "formats/artwork.h"
#include "geometry/region.h"

typedef struct
{
  char *folder;
  char *path;
} Desk;

static inline void
desk_set_up (Desk *desk, gconstpointer data)
{
  desk->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
}

static inline void
desk_tear_down (Desk *desk, gconstpointer data)
{
  folder_remove (desk->folder);
  g_free (desk->folder);
  g_free (desk->path);
}

static inline void
put (Desk *desk, const char *name, const char *data, gssize length)
{
  g_free (desk->path);
  desk->path = g_build_filename (desk->folder, name, NULL);
  g_assert_true (g_file_set_contents (desk->path, data, length, NULL));
}

static inline HwArtwork *
load (Desk *desk, const HwArtworkWishes *wishes)
{
  g_autoptr (GError) error = NULL;
  HwArtwork *artwork = hw_artwork_load (desk->path, wishes, &error);

  g_assert_no_error (error);
  g_assert_nonnull (artwork);
  g_assert_true (hw_outline_is_simple (artwork->outline));
  g_assert_cmpfloat_with_epsilon (artwork->outline->box.x0, -artwork->outline->box.x1, 1e-9);
  g_assert_cmpfloat_with_epsilon (artwork->outline->box.y0, -artwork->outline->box.y1, 1e-9);
  return artwork;
}

static inline void
assert_refused (Desk *desk, const HwArtworkWishes *wishes, HwArtworkError code)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwArtwork) artwork = hw_artwork_load (desk->path, wishes, &error);
  g_autofree char *name = g_path_get_basename (desk->path);

  g_assert_null (artwork);
  g_assert_error (error, HW_ARTWORK_ERROR, (int)code);
  g_assert_true (g_str_has_prefix (error->message, name));
  g_assert_true (g_str_has_suffix (error->message, "."));
  g_assert_null (strchr (error->message, '\n'));
}

/* A drawing made with cairo, saved as a PNG or JPEG of 300 pixels to the inch. */
#define SCALE (300 / 25.4)

static inline cairo_t *
paper_new (double width, double height, const char *colour)
{
  HwColour paper;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int)round (width * SCALE),
                                                         (int)round (height * SCALE));
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  cairo_scale (cr, SCALE, SCALE);
  if (colour != NULL)
    {
      g_assert_true (hw_colour_parse (colour, &paper));
      cairo_set_source_rgb (cr, paper.red, paper.green, paper.blue);
      cairo_paint (cr);
    }
  return cr;
}

static inline void
ink (cairo_t *cr, const char *colour)
{
  HwColour c;

  g_assert_true (hw_colour_parse (colour, &c));
  cairo_set_source_rgb (cr, c.red, c.green, c.blue);
}

static inline void
disc (cairo_t *cr, const char *colour, double x, double y, double radius)
{
  ink (cr, colour);
  cairo_arc (cr, x, y, radius, 0, 2 * G_PI);
  cairo_fill (cr);
}

static inline void
box (cairo_t *cr, const char *colour, double x, double y, double width, double height)
{
  ink (cr, colour);
  cairo_rectangle (cr, x, y, width, height);
  cairo_fill (cr);
}

/* As PNG or JPEG by the name's ending; dpi NULL: the file says nothing. Takes over cr. */
static inline void
save (Desk *desk, cairo_t *cr, const char *name, const char *dpi)
{
  cairo_surface_t *surface = cairo_get_target (cr);
  int width = cairo_image_surface_get_width (surface), height = cairo_image_surface_get_height (surface);
  gboolean jpeg = g_str_has_suffix (name, ".jpg");
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, !jpeg, 8, width, height);
  g_autoptr (GError) error = NULL;

  cairo_surface_flush (surface);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        const guint8 *from = cairo_image_surface_get_data (surface)
                             + (gsize)y * cairo_image_surface_get_stride (surface) + (gsize)x * 4;
        guint32 pixel = *(const guint32 *)(gconstpointer)from, opacity = pixel >> 24;
        guint8 *to = gdk_pixbuf_get_pixels (pixbuf) + (gsize)y * gdk_pixbuf_get_rowstride (pixbuf)
                     + (gsize)x * (jpeg ? 3 : 4);

        for (guint c = 0; c < 3; c++)
          to[c] = opacity > 0 ? (guint8)((pixel >> (16 - 8 * c) & 0xff) * 255 / opacity) : 0;
        if (!jpeg)
          to[3] = (guint8)opacity;
      }
  put (desk, name, "", 0);
  gdk_pixbuf_save (pixbuf, desk->path, jpeg ? "jpeg" : "png", &error, dpi != NULL ? "x-dpi" : NULL, dpi,
                   "y-dpi", dpi, NULL);
  g_assert_no_error (error);
  cairo_destroy (cr);
}

static inline void
assert_area (const HwArtwork *artwork, double exact)
{
  g_assert_cmpfloat (fabs (hw_outline_area (artwork->outline) / exact - 1), <, 0.01);
}

static inline cairo_status_t
gather (void *text, const unsigned char *data, unsigned int length)
{
  g_string_append_len (text, (const char *)data, length);
  return CAIRO_STATUS_SUCCESS;
}

static inline GString *
two_page_pdf (void)
{
  GString *text = g_string_new (NULL);
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (gather, text, 288, 432);
  cairo_t *cr = cairo_create (surface);

  cairo_rectangle (cr, 72, 72, 144, 72);
  cairo_fill (cr);
  cairo_show_page (cr);
  cairo_arc (cr, 144, 200, 72, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_show_page (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return text;
}

#define ADD(path, data, test) g_test_add (path, Desk, data, desk_set_up, test, desk_tear_down)

/* Photographs and scans. The file's headers are read first: what is no picture, not all there or too large is refused before anything is decoded; then gdk-pixbuf
 * decodes it, and one pass over its pixels makes them upright, by the turns that EXIF (CIPA DC-008, table of tag 0x0112) numbers 1 to 8. */
#include "picture-load.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <math.h>

#include "../geometry/one-line.h"
#include "picture-notes.h"
#include "whole-file.h"
#include "../geometry/language.h"
#include "../scene/limits.h"

G_DEFINE_QUARK (hw_picture_error_quark, hw_picture_error)

#define SMALLEST_SIDE 2u
#define STEP ((gsize)1 << 20) /* bytes handed on at a time */
#define TILE 32u              /* pixels: both sides of a turn stay in the cache */

static void
fail (GError **error, HwPictureError code, const char *name, const char *format, ...) G_GNUC_PRINTF (4, 5);

static void
fail (GError **error, HwPictureError code, const char *name, const char *format, ...)
{
  g_autofree char *what = NULL;
  g_autofree char *text = NULL;
  g_autofree char *line = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  text = g_strdup_printf ("%s: %s", name, what);
  line = hw_one_line (text);
  g_set_error_literal (error, HW_PICTURE_ERROR, code, line);
}

static gboolean
is_too_large (double width, double height)
{
  return width > HW_LARGEST_PICTURE_SIDE || height > HW_LARGEST_PICTURE_SIDE
         || width * height > HW_MOST_PICTURE_PIXELS;
}

static gboolean
check_notes (const HwPictureNotes *notes, const char *name, GError **error)
{
  if (notes->kind == HW_PICTURE_OTHER)
    fail (error, HW_PICTURE_ERROR_FORMAT, name,
          _ ("this is neither a JPEG nor a PNG picture; save it as one of these and open that."));
  else if (is_too_large (notes->width, notes->height))
    fail (error, HW_PICTURE_ERROR_TOO_LARGE, name,
          _ ("a picture of %u × %u pixels is too large; up to 200 megapixels can be opened, and 60000 pixels "
             "along a side."),
          notes->width, notes->height);
  else if (!notes->whole)
    fail (error, HW_PICTURE_ERROR_FORMAT, name,
          _ ("the picture is broken off or damaged; copy it again from where it came from."));
  else if (notes->width == 0 || notes->height == 0)
    fail (error, HW_PICTURE_ERROR_FORMAT, name, _ ("the picture does not say how large it is."));
  else if (notes->width < SMALLEST_SIDE || notes->height < SMALLEST_SIDE)
    fail (error, HW_PICTURE_ERROR_FORMAT, name, _ ("a picture of %u × %u pixels shows nothing."),
          notes->width, notes->height);
  else
    return TRUE;
  return FALSE;
}

/* A file whose headers contradict each other could still ask for more room than was agreed to: no size, no room. */
static void
size_cb (GdkPixbufLoader *loader, int width, int height, const HwPictureNotes *notes)
{
  if (is_too_large (width, height) || (guint)width != notes->width || (guint)height != notes->height)
    gdk_pixbuf_loader_set_size (loader, 0, 0);
}

/* Returns: (transfer full) (nullable) */
static GdkPixbuf *
decode (GBytes *bytes, const HwPictureNotes *notes, GError **error)
{
  g_autoptr (GdkPixbufLoader) loader
      = gdk_pixbuf_loader_new_with_type (notes->kind == HW_PICTURE_PNG ? "png" : "jpeg", error);
  gsize length, at = 0;
  const guchar *data = g_bytes_get_data (bytes, &length);
  gboolean going = TRUE;
  GdkPixbuf *pixbuf;

  if (loader == NULL)
    return NULL;
  g_signal_connect (loader, "size-prepared", G_CALLBACK (size_cb), (gpointer)notes);
  for (; at < length && going; at += STEP)
    going = gdk_pixbuf_loader_write (loader, data + at, MIN (STEP, length - at), error);
  if (!going)
    {
      gdk_pixbuf_loader_close (loader, NULL);
      return NULL;
    }
  if (!gdk_pixbuf_loader_close (loader, error))
    return NULL;
  pixbuf = gdk_pixbuf_loader_get_pixbuf (loader);
  return pixbuf != NULL ? g_object_ref (pixbuf) : NULL;
}

/* Where the pixel at x, y of the upright picture stands in the stored one: first + x across + y down, in bytes. */
typedef struct
{
  const guint8 *first;
  gssize across, down;
} Walk;

static Walk
make_walk (const guint8 *pixels, guint width, guint height, gssize pixel, gssize row, guint orientation)
{
  const guint8 *right = pixels + (gssize)(width - 1) * pixel;
  gssize below = (gssize)(height - 1) * row;
  const Walk walks[] = {
    { pixels, pixel, row },          { right, -pixel, row }, { right + below, -pixel, -row },
    { pixels + below, pixel, -row }, { pixels, row, pixel }, { pixels + below, -row, pixel },
    { right + below, -row, -pixel }, { right, row, -pixel },
  };

  return walks[orientation - 1];
}

static void
copy_tile (const Walk *walk, gboolean opaque, HwPicture *to, guint x0, guint y0)
{
  for (guint y = y0; y < MIN (y0 + TILE, to->height); y++)
    {
      const guint8 *from = walk->first + (gssize)x0 * walk->across + (gssize)y * walk->down;
      guint8 *p = to->pixels + y * to->stride + (gsize)x0 * 4;

      for (guint x = x0; x < MIN (x0 + TILE, to->width); x++, p += 4, from += walk->across)
        {
          p[0] = from[0];
          p[1] = from[1];
          p[2] = from[2];
          p[3] = opaque ? 255 : from[3];
        }
    }
}

/* Returns: (transfer full) (nullable): NULL when there is not enough memory */
static HwPicture *
make_upright (const GdkPixbuf *pixbuf, const HwPictureNotes *notes)
{
  guint width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);
  gboolean opaque = !gdk_pixbuf_get_has_alpha (pixbuf), turned = notes->orientation >= 5;
  guint across = turned ? height : width, down = turned ? width : height;
  guint8 *pixels = g_try_malloc_n ((gsize)across * down, 4);
  HwPicture *picture;
  Walk walk;

  if (pixels == NULL)
    return NULL;
  picture = hw_picture_new (across, down, (gsize)across * 4, pixels);
  walk = make_walk (gdk_pixbuf_read_pixels (pixbuf), width, height, gdk_pixbuf_get_n_channels (pixbuf),
                    gdk_pixbuf_get_rowstride (pixbuf), notes->orientation);
  for (guint y = 0; y < down; y += TILE)
    {
      for (guint x = 0; x < across; x += TILE)
        copy_tile (&walk, opaque, picture, x, y);
    }
  picture->dpi_x = turned ? notes->dpi_y : notes->dpi_x;
  picture->dpi_y = turned ? notes->dpi_x : notes->dpi_y;
  return picture;
}

HwPicture *
hw_picture_load_bytes (GBytes *bytes, const char *name, GError **error)
{
  HwPictureNotes notes;
  g_autoptr (GdkPixbuf) pixbuf = NULL;
  g_autoptr (GError) problem = NULL;
  HwPicture *picture;
  const guint8 *data;
  gsize length;

  g_return_val_if_fail (bytes != NULL && name != NULL, NULL);

  data = g_bytes_get_data (bytes, &length);
  hw_picture_notes_read (data, length, &notes);
  if (!check_notes (&notes, name, error))
    return NULL;
  pixbuf = decode (bytes, &notes, &problem);
  if (pixbuf == NULL || gdk_pixbuf_get_width (pixbuf) < 1 || gdk_pixbuf_get_bits_per_sample (pixbuf) != 8
      || gdk_pixbuf_get_n_channels (pixbuf) < 3)
    {
      fail (error, HW_PICTURE_ERROR_FORMAT, name,
            _ ("the picture is broken off or damaged; copy it again from where it came from."));
      return NULL;
    }
  picture = make_upright (pixbuf, &notes);
  if (picture == NULL)
    fail (error, HW_PICTURE_ERROR_TOO_LARGE, name,
          _ ("there is not enough memory for a picture this large."));
  return picture;
}

HwPicture *
hw_picture_load (const char *path, GError **error)
{
  g_autofree char *name = NULL;
  g_autoptr (GError) problem = NULL;
  g_autoptr (GBytes) bytes = NULL;
  gsize length;
  char *text;

  g_return_val_if_fail (path != NULL, NULL);

  name = hw_file_shown_name (path);
  text = hw_file_read_whole (path, HW_LARGEST_PICTURE_FILE, &length, &problem);
  if (text == NULL)
    {
      gboolean large = g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_NOSPC);

      fail (error, large ? HW_PICTURE_ERROR_TOO_LARGE : HW_PICTURE_ERROR_READ, name, "%s", problem->message);
      return NULL;
    }
  bytes = g_bytes_new_take (text, length);
  return hw_picture_load_bytes (bytes, name, error);
}

char *
hw_picture_day (GBytes *bytes)
{
  HwPictureNotes notes;
  const guint8 *data;
  gsize length;

  g_return_val_if_fail (bytes != NULL, NULL);

  data = g_bytes_get_data (bytes, &length);
  hw_picture_notes_read (data, length, &notes);
  return *notes.day != '\0' ? g_strdup (notes.day) : NULL;
}

/* Resolution as the program's own pictures keep it: dots per inch in whole numbers, which is what gdk-pixbuf writes. */
static gboolean
encode_png (GdkPixbuf *pixbuf, const HwPicture *picture, char **png, gsize *length, GError **error)
{
  g_autofree char *x = g_strdup_printf ("%ld", lround (picture->dpi_x));
  g_autofree char *y = g_strdup_printf ("%ld", lround (picture->dpi_y));

  if (picture->dpi_x < 1 || picture->dpi_y < 1)
    return gdk_pixbuf_save_to_buffer (pixbuf, png, length, "png", error, NULL);
  return gdk_pixbuf_save_to_buffer (pixbuf, png, length, "png", error, "x-dpi", x, "y-dpi", y, NULL);
}

gboolean
hw_picture_save_png (const HwPicture *picture, const char *path, GError **error)
{
  g_autoptr (GdkPixbuf) pixbuf = NULL;
  g_autoptr (GError) problem = NULL;
  g_autofree char *png = NULL;
  g_autofree char *name = NULL;
  gsize length;

  g_return_val_if_fail (picture != NULL && path != NULL, FALSE);

  pixbuf = gdk_pixbuf_new_from_data (picture->pixels, GDK_COLORSPACE_RGB, TRUE, 8, (int)picture->width,
                                     (int)picture->height, (int)picture->stride, NULL, NULL);
  if (encode_png (pixbuf, picture, &png, &length, &problem)
      && hw_file_replace_whole (path, png, length, &problem))
    return TRUE;
  name = hw_file_shown_name (path);
  fail (error, HW_PICTURE_ERROR_READ, name, _ ("it was not saved: %s"), problem->message);
  return FALSE;
}

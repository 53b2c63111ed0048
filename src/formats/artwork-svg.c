/* SVG drawings at true size. Lengths are those of CSS: 1 px = 1/96 inch (CSS Values and Units 3, section 6.2), and a drawing that gives a viewBox alone has
 * user units of that size (SVG 1.1, section 7.10). The drawing is read from memory and told no folder, so librsvg lets it name nothing outside
 * itself; librsvg has no scripts. */
#include "artwork-private.h"

#include <librsvg/rsvg.h>
#include <math.h>

#include "../geometry/language.h"
#include "../geometry/units.h"
#include "../scene/limits.h"

#define PX_PER_INCH 96.0
#define FONT_PX 16.0 /* of em: what CSS's "medium" is by common practice */
#define STEP ((gsize)64 << 10)

/* A compressed drawing (SVG 1.1, section 1.2: gzip) unpacked, so that its size is known before it is read. */
static GBytes *
unpacked (GBytes *bytes, const char *name, GError **error)
{
  g_autoptr (GInputStream) packed = g_memory_input_stream_new_from_bytes (bytes);
  g_autoptr (GConverter) way = G_CONVERTER (g_zlib_decompressor_new (G_ZLIB_COMPRESSOR_FORMAT_GZIP));
  g_autoptr (GInputStream) stream = g_converter_input_stream_new (packed, way);
  g_autoptr (GByteArray) text = g_byte_array_new ();
  g_autofree guint8 *part = g_malloc (STEP);
  gssize n;

  while ((n = g_input_stream_read (stream, part, STEP, NULL, NULL)) > 0)
    {
      g_byte_array_append (text, part, (guint)n);
      if (text->len > HW_LARGEST_DRAWING_TEXT)
        {
          hw_artwork_fail (error, HW_ARTWORK_ERROR_TOO_LARGE, name,
                           _ ("the drawing holds more than 64 MB of text; that is too large."));
          return NULL;
        }
    }
  if (n == 0)
    return g_byte_array_free_to_bytes (g_steal_pointer (&text));
  hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name, _ ("the drawing is broken off or damaged."));
  return NULL;
}

static GBytes *
plain_text (GBytes *bytes, const char *name, GError **error)
{
  gsize length;
  const guint8 *data = g_bytes_get_data (bytes, &length);

  if (length > 2 && data[0] == 0x1f && data[1] == 0x8b)
    return unpacked (bytes, name, error);
  if (length <= HW_LARGEST_DRAWING_TEXT)
    return g_bytes_ref (bytes);
  hw_artwork_fail (error, HW_ARTWORK_ERROR_TOO_LARGE, name,
                   _ ("the drawing holds more than 64 MB of text; that is too large."));
  return NULL;
}

/* In px; NAN for a share of a page that nobody knows. */
static double
pixels (RsvgLength length)
{
  switch (length.unit)
    {
    case RSVG_UNIT_PX:
      return length.length;
    case RSVG_UNIT_EM:
      return length.length * FONT_PX;
    case RSVG_UNIT_EX:
      return length.length * FONT_PX / 2;
    case RSVG_UNIT_IN:
      return length.length * PX_PER_INCH;
    case RSVG_UNIT_CM:
      return length.length * PX_PER_INCH / 2.54;
    case RSVG_UNIT_MM:
      return length.length * PX_PER_INCH / HW_MM_PER_INCH;
    case RSVG_UNIT_PT:
      return length.length * PX_PER_INCH / 72;
    case RSVG_UNIT_PC:
      return length.length * PX_PER_INCH / 6;
    case RSVG_UNIT_PERCENT:
    default:
      return NAN;
    }
}

/* What is drawn, from the origin: all that is left to go by without any size. */
static gboolean
drawn_size (RsvgHandle *handle, double *width, double *height)
{
  RsvgRectangle any = { 0, 0, 1000, 1000 }, ink = { 0 }, logical;

  if (!rsvg_handle_get_geometry_for_layer (handle, NULL, &any, &ink, &logical, NULL))
    return FALSE;
  *width = ink.x + ink.width;
  *height = ink.y + ink.height;
  return *width > 0 && *height > 0;
}

static gboolean
find_size (RsvgHandle *handle, HwArtworkPage *page)
{
  gboolean has_width, has_height, has_box;
  RsvgLength across, down;
  RsvgRectangle box;
  double width, height;

  rsvg_handle_get_intrinsic_dimensions (handle, &has_width, &across, &has_height, &down, &has_box, &box);
  width = has_width ? pixels (across) : NAN;
  height = has_height ? pixels (down) : NAN;
  has_box = has_box && box.width > 0 && box.height > 0;
  page->size_guessed = isnan (width) && isnan (height);
  if (page->size_guessed && has_box)
    {
      width = box.width;
      height = box.height;
    }
  else if (page->size_guessed)
    {
      if (!drawn_size (handle, &width, &height))
        return FALSE;
    }
  else if (isnan (width))
    width = has_box ? height * box.width / box.height : height;
  else if (isnan (height))
    height = has_box ? width * box.height / box.width : width;
  page->width = width * HW_MM_PER_INCH / PX_PER_INCH;
  page->height = height * HW_MM_PER_INCH / PX_PER_INCH;
  return page->width > 0 && page->height > 0;
}

static gboolean
draw_handle (RsvgHandle *handle, const char *name, HwArtworkPage *page, GError **error)
{
  RsvgRectangle whole;
  gboolean drawn;
  cairo_t *cr;

  rsvg_handle_set_dpi (handle, PX_PER_INCH);
  if (!find_size (handle, page))
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_SIZE, name,
                       _ ("the drawing has no size and draws nothing; give it a width and a height."));
      return FALSE;
    }
  page->n_pages = 1;
  cr = hw_artwork_page_begin (page, name, error);
  if (cr == NULL)
    return FALSE;
  cairo_scale (cr, HW_MM_PER_INCH / PX_PER_INCH, HW_MM_PER_INCH / PX_PER_INCH);
  whole = (RsvgRectangle){ 0, 0, page->width * PX_PER_INCH / HW_MM_PER_INCH,
                           page->height * PX_PER_INCH / HW_MM_PER_INCH };
  drawn = rsvg_handle_render_document (handle, cr, &whole, NULL);
  cairo_destroy (cr);
  if (!drawn)
    hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name,
                     _ ("the drawing is too entangled to be drawn; save it as a PNG picture and open that."));
  return drawn;
}

gboolean
hw_artwork_draw_svg (GBytes *bytes, const char *name, HwArtworkPage *page, GError **error)
{
  g_autoptr (GBytes) text = plain_text (bytes, name, error);
  RsvgHandle *handle;
  gboolean drawn;
  gsize length;
  const guint8 *data;

  if (text == NULL)
    return FALSE;
  data = g_bytes_get_data (text, &length);
  handle = rsvg_handle_new_from_data (data, length, NULL);
  if (handle == NULL)
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name,
                       _ ("this is no SVG drawing, or a damaged one; save it again as plain SVG."));
      return FALSE;
    }
  drawn = draw_handle (handle, name, page, error);
  g_object_unref (handle);
  return drawn;
}

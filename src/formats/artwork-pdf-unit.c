/* How long a unit of a PDF's pages is. It is 1/72 inch unless a page's own dictionary holds a UserUnit, which counts units of that many (ISO 32000-1, table 30). The library
 * that draws the pages passes over that number, so it is read from the file's text here: from its plain objects, and from the packed streams of objects (7.5.7). */
#include "artwork-private.h"

#include <string.h>

#include "../geometry/language.h"

#define MOST_UNPACKED (32u << 20) /* bytes of one stream of objects */
#define MOST_UNIT 75000.0         /* more makes a page of a point wider than any cloth */

typedef struct
{
  guint n;     /* pages that told a unit */
  double unit; /* of the first */
  gboolean doubtful;
} Told;

static gboolean
is_blank (char c)
{
  return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\f' || c == '\0';
}

/* A number of a dictionary: digits and a point, no exponent (7.3.3), and no reference to a number elsewhere. */
static gboolean
read_number (const char *at, const char *end, double *value)
{
  char digits[32];
  gsize n = 0;

  while (at < end && is_blank (*at))
    at++;
  while (at < end && n + 1 < sizeof digits && (g_ascii_isdigit (*at) || *at == '.' || *at == '+'))
    digits[n++] = *at++;
  digits[n] = '\0';
  while (at < end && is_blank (*at))
    at++;
  if (n == 0 || at == end || strchr ("/>%", *at) == NULL)
    return FALSE;
  *value = g_ascii_strtod (digits, NULL);
  return *value > 0 && *value <= MOST_UNIT;
}

static void
gather_units (const char *text, gsize length, Told *told)
{
  static const char key[] = "/UserUnit";
  const char *end = text + length, *at = text;

  while ((at = memmem (at, (gsize)(end - at), key, sizeof key - 1)) != NULL)
    {
      double unit = 1;

      at += sizeof key - 1;
      if (at < end && g_ascii_isalnum (*at))
        continue; /* the beginning of another word */
      if (!read_number (at, end, &unit) || (told->n > 0 && unit != told->unit))
        told->doubtful = TRUE;
      if (told->n++ == 0)
        told->unit = unit;
    }
}

/* Returns: (transfer full): what could be unpacked of the bytes at `at` */
static GByteArray *
unpack (const char *at, const char *end)
{
  g_autoptr (GZlibDecompressor) zlib = g_zlib_decompressor_new (G_ZLIB_COMPRESSOR_FORMAT_ZLIB);
  GByteArray *out = g_byte_array_new ();
  GConverterResult result = G_CONVERTER_CONVERTED;
  guint8 piece[16384];

  while (result == G_CONVERTER_CONVERTED && at < end && out->len < MOST_UNPACKED)
    {
      gsize read = 0, written = 0;

      result = g_converter_convert (G_CONVERTER (zlib), at, (gsize)(end - at), piece, sizeof piece,
                                    G_CONVERTER_NO_FLAGS, &read, &written, NULL);
      if (result == G_CONVERTER_ERROR || (read == 0 && written == 0))
        break;
      g_byte_array_append (out, piece, (guint)written);
      at += read;
    }
  return out;
}

static void
gather_packed_units (const char *text, gsize length, Told *told)
{
  const char *end = text + length, *at = text;

  while ((at = memmem (at, (gsize)(end - at), "/ObjStm", 7)) != NULL)
    {
      const char *data = memmem (at, (gsize)(end - at), "stream", 6);
      g_autoptr (GByteArray) objects = NULL;

      at += 7;
      if (data == NULL)
        return;
      data += 6;
      data += data < end && *data == '\r';
      data += data < end && *data == '\n';
      objects = unpack (data, end);
      if (objects->len > 0)
        gather_units ((const char *)objects->data, objects->len, told);
    }
}

gboolean
hw_artwork_pdf_unit (GBytes *bytes, const char *name, guint n_pages, double *unit, GError **error)
{
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);
  Told told = { .unit = 1 };

  gather_units (text, length, &told);
  gather_packed_units (text, length, &told);
  *unit = told.unit;
  if (!told.doubtful && (told.unit == 1 || told.n >= n_pages))
    return TRUE;
  hw_artwork_fail (error, HW_ARTWORK_ERROR_SIZE, name,
                   _ ("the pages of this PDF are measured in different units, so the true size of one cannot "
                      "be told; save the page as a PDF of its own and open that."));
  return FALSE;
}

/* What a picture file says of itself. JPEG by ITU-T T.81 annex B and JFIF (ISO/IEC 10918-5), PNG by its W3C recommendation (ISO/IEC 15948), the camera's notes by
 * EXIF (CIPA DC-008), which is TIFF inside. Only headers are looked at. */
#include "picture-notes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define CM_PER_INCH 2.54
#define M_PER_INCH 0.0254
#define LARGEST_DPI 1e5 /* more is no resolution, but a mistake */

typedef struct
{
  const guint8 *at;
  gsize length;
  gboolean little; /* byte order */
} Bytes;

static guint32
number (const Bytes *bytes, gsize at, guint size)
{
  guint32 value = 0;

  if (at > bytes->length || size > bytes->length - at)
    return 0;
  for (guint i = 0; i < size; i++)
    value = value << 8 | bytes->at[at + (bytes->little ? size - 1 - i : i)];
  return value;
}

static double
ratio (const Bytes *bytes, gsize at)
{
  double below = number (bytes, at + 4, 4);

  return below > 0 ? number (bytes, at, 4) / below : 0;
}

static void
set_resolution (HwPictureNotes *notes, double x, double y, double inch)
{
  x *= inch;
  y *= inch;
  if (x >= 1 && y >= 1 && x <= LARGEST_DPI && y <= LARGEST_DPI)
    {
      notes->dpi_x = x;
      notes->dpi_y = y;
    }
}

/* The day of "2026:11:25 10:20:30", the text of an entry. A clock that was never set leaves zeros or spaces. */
static void
read_day (const Bytes *tiff, gsize entry, char *day)
{
  gsize at = number (tiff, entry + 8, 4);
  char text[11] = "";
  int year, month, date;

  if (number (tiff, entry + 2, 2) != 2 || at > tiff->length || tiff->length - at < sizeof text - 1)
    return;
  memcpy (text, tiff->at + at, sizeof text - 1);
  if (sscanf (text, "%4d:%2d:%2d", &year, &month, &date) != 3 || year < 1 || month < 1 || date < 1
      || !g_date_valid_dmy ((GDateDay)date, (GDateMonth)month, (GDateYear)year))
    return;
  g_snprintf (day, sizeof text, "%04d-%02d-%02d", year, month, date);
}

/* A directory's first entry, of 12 bytes as all the others. n: how many of them the bytes hold, at most. */
static gsize
open_directory (const Bytes *tiff, gsize at, guint *n)
{
  *n = number (tiff, at, 2);
  if (at > tiff->length || tiff->length - at < 2)
    *n = 0;
  else
    *n = (guint)MIN (*n, (tiff->length - at - 2) / 12);
  return at + 2;
}

/* The camera's own directory holds the moment the shutter was pressed (0x9003). */
static void
read_camera (const Bytes *tiff, gsize directory, HwPictureNotes *notes)
{
  guint n;
  gsize entry = open_directory (tiff, directory, &n);

  for (; n > 0; n--, entry += 12)
    if (number (tiff, entry, 2) == 0x9003)
      read_day (tiff, entry, notes->day);
}

/* The TIFF in a camera's notes: its first directory holds orientation, resolution, when the file was last changed (0x0132), and where the camera's own
 * directory is (0x8769). */
static void
read_tiff (const guint8 *at, gsize length, HwPictureNotes *notes)
{
  Bytes tiff = { at, length, length >= 2 && at[0] == 'I' };
  double x = 0, y = 0;
  guint unit = 2, n;
  gsize entry, camera = 0;

  if (length < 8 || (memcmp (at, "II", 2) != 0 && memcmp (at, "MM", 2) != 0) || number (&tiff, 2, 2) != 42)
    return;
  entry = open_directory (&tiff, number (&tiff, 4, 4), &n);
  for (; n > 0; n--, entry += 12)
    {
      guint tag = number (&tiff, entry, 2), type = number (&tiff, entry + 2, 2);
      guint value = number (&tiff, entry + 8, type == 4 ? 4 : 2);

      if (tag == 0x0112 && value >= 1 && value <= 8)
        notes->orientation = value;
      else if (tag == 0x011a && type == 5)
        x = ratio (&tiff, number (&tiff, entry + 8, 4));
      else if (tag == 0x011b && type == 5)
        y = ratio (&tiff, number (&tiff, entry + 8, 4));
      else if (tag == 0x0128)
        unit = value;
      else if (tag == 0x0132)
        read_day (&tiff, entry, notes->day);
      else if (tag == 0x8769)
        camera = value;
    }
  if (camera > 0)
    read_camera (&tiff, camera, notes);
  if (notes->dpi_x == 0 && (unit == 2 || unit == 3))
    set_resolution (notes, x, y, unit == 3 ? CM_PER_INCH : 1);
}

static void
read_jfif (const Bytes *segment, HwPictureNotes *notes)
{
  guint unit;

  if (segment->length < 12 || memcmp (segment->at, "JFIF", 5) != 0)
    return;
  unit = segment->at[7];
  if (unit == 1 || unit == 2)
    set_resolution (notes, number (segment, 8, 2), number (segment, 10, 2), unit == 2 ? CM_PER_INCH : 1);
}

static gboolean
is_frame_header (guint8 marker)
{
  return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
}

static void
read_segment (guint8 marker, const Bytes *segment, HwPictureNotes *notes)
{
  if (marker == 0xe0)
    read_jfif (segment, notes);
  else if (marker == 0xe1 && segment->length > 6 && memcmp (segment->at, "Exif\0", 6) == 0)
    read_tiff (segment->at + 6, segment->length - 6, notes);
  else if (is_frame_header (marker) && notes->width == 0)
    {
      notes->height = number (segment, 1, 2);
      notes->width = number (segment, 3, 2);
    }
}

/* Past the coded data, which hides no marker but restarts and stuffed zeros. */
static gsize
skip_coded (const Bytes *jpeg, gsize at)
{
  while (at + 1 < jpeg->length)
    {
      const guint8 *found = memchr (jpeg->at + at, 0xff, jpeg->length - at - 1);

      if (found == NULL)
        break;
      at = (gsize)(found - jpeg->at);
      if (found[1] != 0 && found[1] != 0xff && !(found[1] >= 0xd0 && found[1] <= 0xd7))
        return at;
      at += found[1] == 0xff ? 1 : 2;
    }
  return jpeg->length;
}

static void
read_jpeg (const Bytes *jpeg, HwPictureNotes *notes)
{
  gsize at = 2;

  while (at + 1 < jpeg->length)
    {
      guint8 marker = jpeg->at[at + 1];
      Bytes segment = { NULL };
      gsize length;

      if (jpeg->at[at] != 0xff)
        return;
      if (marker == 0xff) /* a fill byte */
        {
          at++;
          continue;
        }
      notes->whole = marker == 0xd9;
      if (notes->whole)
        return;
      at += 2;
      length = number (jpeg, at, 2);
      if (length < 2 || length > jpeg->length - at)
        return;
      segment = (Bytes){ jpeg->at + at + 2, length - 2, FALSE };
      read_segment (marker, &segment, notes);
      at += length;
      if (marker == 0xda)
        at = skip_coded (jpeg, at);
    }
}

static void
read_png (const Bytes *png, HwPictureNotes *notes)
{
  gsize at = 8;

  while (png->length - at >= 12)
    {
      gsize length = number (png, at, 4);
      const guint8 *type = png->at + at + 4;

      if (length > png->length - at - 12)
        return;
      at += 8;
      if (memcmp (type, "IHDR", 4) == 0 && length >= 8)
        {
          notes->width = number (png, at, 4);
          notes->height = number (png, at + 4, 4);
        }
      else if (memcmp (type, "pHYs", 4) == 0 && length >= 9 && png->at[at + 8] == 1)
        set_resolution (notes, number (png, at, 4), number (png, at + 4, 4), M_PER_INCH);
      else if (memcmp (type, "eXIf", 4) == 0)
        read_tiff (png->at + at, length, notes);
      notes->whole = memcmp (type, "IEND", 4) == 0;
      if (notes->whole)
        return;
      at += length + 4;
    }
}

void
hw_picture_notes_read (const guint8 *at, gsize length, HwPictureNotes *notes)
{
  static const guint8 jpeg[] = { 0xff, 0xd8, 0xff };
  static const guint8 png[] = { 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n' };
  const Bytes bytes = { at, length, FALSE };

  g_return_if_fail (at != NULL || length == 0);
  g_return_if_fail (notes != NULL);

  *notes = (HwPictureNotes){ .kind = HW_PICTURE_OTHER, .orientation = 1 };
  if (length >= sizeof jpeg && memcmp (at, jpeg, sizeof jpeg) == 0)
    {
      notes->kind = HW_PICTURE_JPEG;
      read_jpeg (&bytes, notes);
    }
  else if (length >= sizeof png && memcmp (at, png, sizeof png) == 0)
    {
      notes->kind = HW_PICTURE_PNG;
      read_png (&bytes, notes);
    }
}

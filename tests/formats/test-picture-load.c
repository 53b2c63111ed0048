/* Photographs and scans: both kinds, all eight turns, resolution, and every way in which a file can be wrong. */
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "formats/picture-load.h"

enum
{
  WIDE = 48,
  HIGH = 32,
  BLOCK = 16
};

/* The colours of a 3 x 2 board of blocks of 16 pixels. */
static const guint8 board[2][3][3] = { { { 200, 20, 20 }, { 20, 200, 20 }, { 20, 20, 200 } },
                                       { { 200, 200, 20 }, { 20, 200, 200 }, { 230, 230, 230 } } };

static GdkPixbuf *
make_board (void)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, WIDE, HIGH);

  for (guint y = 0; y < HIGH; y++)
    {
      for (guint x = 0; x < WIDE; x++)
        memcpy (gdk_pixbuf_get_pixels (pixbuf) + y * gdk_pixbuf_get_rowstride (pixbuf) + x * 3,
                board[y / BLOCK][x / BLOCK], 3);
    }
  return pixbuf;
}

static GByteArray *
encode (GdkPixbuf *pixbuf, const char *kind)
{
  GByteArray *array = g_byte_array_new ();
  g_autofree char *bytes = NULL;
  gsize length;

  if (g_str_equal (kind, "jpeg"))
    g_assert_true (gdk_pixbuf_save_to_buffer (pixbuf, &bytes, &length, kind, NULL, "quality", "98", NULL));
  else
    g_assert_true (gdk_pixbuf_save_to_buffer (pixbuf, &bytes, &length, kind, NULL, NULL));
  return g_byte_array_append (array, (guint8 *)bytes, (guint)length);
}

static GByteArray *
encode_board (const char *kind)
{
  g_autoptr (GdkPixbuf) pixbuf = make_board ();

  return encode (pixbuf, kind);
}

static void
put (GByteArray *to, guint32 value, guint size, gboolean little)
{
  for (guint i = 0; i < size; i++)
    {
      guint8 byte = (guint8)(value >> 8 * (little ? i : size - 1 - i));

      g_byte_array_append (to, &byte, 1);
    }
}

/* TIFF 6.0 as EXIF uses it: byte order, 42, one directory with orientation (0x0112) and, where dpi is given, resolution (0x011a, 0x011b, 0x0128). */
static GByteArray *
make_tiff (guint orientation, guint dpi, gboolean little)
{
  GByteArray *tiff = g_byte_array_new ();
  guint n = dpi > 0 ? 4 : 1, after = 8 + 2 + 12 * n + 4;

  g_byte_array_append (tiff, (const guint8 *)(little ? "II" : "MM"), 2);
  put (tiff, 42, 2, little);
  put (tiff, 8, 4, little);
  put (tiff, n, 2, little);
  put (tiff, 0x0112, 2, little);
  put (tiff, 3, 2, little);
  put (tiff, 1, 4, little);
  put (tiff, orientation, 2, little);
  put (tiff, 0, 2, little);
  for (guint i = 0; dpi > 0 && i < 2; i++)
    {
      put (tiff, 0x011a + i, 2, little);
      put (tiff, 5, 2, little);
      put (tiff, 1, 4, little);
      put (tiff, after + 8 * i, 4, little);
    }
  if (dpi > 0)
    {
      put (tiff, 0x0128, 2, little);
      put (tiff, 3, 2, little);
      put (tiff, 1, 4, little);
      put (tiff, 2, 2, little);
      put (tiff, 0, 2, little);
    }
  put (tiff, 0, 4, little);
  for (guint i = 0; dpi > 0 && i < 2; i++)
    {
      put (tiff, dpi * (i + 1) * 10, 4, little);
      put (tiff, 10, 4, little);
    }
  return tiff;
}

static void
insert (GByteArray *into, guint at, const guint8 *bytes, guint length)
{
  g_autoptr (GByteArray) tail = g_byte_array_new ();

  g_byte_array_append (tail, into->data + at, into->len - at);
  g_byte_array_set_size (into, at);
  g_byte_array_append (into, bytes, length);
  g_byte_array_append (into, tail->data, tail->len);
}

static void
insert_exif (GByteArray *jpeg, GByteArray *tiff)
{
  g_autoptr (GByteArray) segment = g_byte_array_new ();

  put (segment, 0xffe1, 2, FALSE);
  put (segment, tiff->len + 8, 2, FALSE);
  g_byte_array_append (segment, (const guint8 *)"Exif\0", 6);
  g_byte_array_append (segment, tiff->data, tiff->len);
  insert (jpeg, 2, segment->data, segment->len);
}

static HwPicture *
load (GByteArray *file, GError **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new (file->data, file->len);

  return hw_picture_load_bytes (bytes, "cloth.jpg", error);
}

/* The middle of a block of the picture as shown has the colour of a block of the board. */
static void
assert_block (const HwPicture *picture, guint column, guint row, guint board_column, guint board_row)
{
  const guint8 *p
      = picture->pixels + (row * BLOCK + BLOCK / 2) * picture->stride + (column * BLOCK + BLOCK / 2) * 4;

  for (guint i = 0; i < 3; i++)
    g_assert_cmpint (ABS ((int)p[i] - (int)board[board_row][board_column][i]), <=, 8);
  g_assert_cmpuint (p[3], ==, 255);
}

/* CIPA DC-008, tag 0x0112: where the 0th row and the 0th column of the stored picture stand as seen. */
static const struct
{
  const char *row, *column;
} turns[] = { { "top", "left" }, { "top", "right" }, { "bottom", "right" }, { "bottom", "left" },
              { "left", "top" }, { "right", "top" }, { "right", "bottom" }, { "left", "bottom" } };

static void
assert_turned (const HwPicture *picture, guint orientation)
{
  const char *row = turns[orientation - 1].row, *column = turns[orientation - 1].column;
  gboolean lies = g_str_equal (row, "left") || g_str_equal (row, "right");

  g_assert_cmpuint (picture->width, ==, lies ? HIGH : WIDE);
  g_assert_cmpuint (picture->height, ==, lies ? WIDE : HIGH);
  for (guint r = 0; r < 2; r++)
    {
      for (guint c = 0; c < 3; c++)
        {
          guint along_row = g_str_equal (row, "top") || g_str_equal (row, "left") ? r : 1 - r;
          guint along_column = g_str_equal (column, "top") || g_str_equal (column, "left") ? c : 2 - c;

          assert_block (picture, lies ? along_row : along_column, lies ? along_column : along_row, c, r);
        }
    }
}

static void
test_all_turns (void)
{
  for (guint orientation = 1; orientation <= 8; orientation++)
    {
      for (guint little = 0; little < 2; little++)
        {
          g_autoptr (GByteArray) jpeg = encode_board ("jpeg");
          g_autoptr (GByteArray) tiff = make_tiff (orientation, 0, little);
          g_autoptr (HwPicture) picture = NULL;
          g_autoptr (GError) error = NULL;

          insert_exif (jpeg, tiff);
          picture = load (jpeg, &error);
          g_assert_no_error (error);
          assert_turned (picture, orientation);
        }
    }
}

static void
test_turns_there_are_none_of (void)
{
  static const guint numbers[] = { 0, 9, 4000 };

  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autoptr (GByteArray) jpeg = encode_board ("jpeg");
      g_autoptr (GByteArray) tiff = make_tiff (numbers[i], 0, FALSE);
      g_autoptr (HwPicture) picture = NULL;

      insert_exif (jpeg, tiff);
      picture = load (jpeg, NULL);
      assert_turned (picture, 1);
    }
}

/* gdk-pixbuf reads the number of the turn by itself and turns by its own code. */
static void
test_turns_as_another_library_does (void)
{
  for (guint orientation = 1; orientation <= 8; orientation++)
    {
      g_autoptr (GByteArray) jpeg = encode_board ("jpeg");
      g_autoptr (GByteArray) tiff = make_tiff (orientation, 0, TRUE);
      g_autoptr (GdkPixbufLoader) loader = gdk_pixbuf_loader_new ();
      g_autoptr (GdkPixbuf) theirs = NULL;
      g_autoptr (HwPicture) ours = NULL;

      insert_exif (jpeg, tiff);
      g_assert_true (gdk_pixbuf_loader_write (loader, jpeg->data, jpeg->len, NULL));
      g_assert_true (gdk_pixbuf_loader_close (loader, NULL));
      theirs = gdk_pixbuf_apply_embedded_orientation (gdk_pixbuf_loader_get_pixbuf (loader));
      ours = load (jpeg, NULL);
      g_assert_cmpint (gdk_pixbuf_get_width (theirs), ==, (int)ours->width);
      g_assert_cmpint (gdk_pixbuf_get_height (theirs), ==, (int)ours->height);
      for (guint y = 0; y < ours->height; y++)
        {
          for (guint x = 0; x < ours->width; x++)
            g_assert_cmpint (
                memcmp (ours->pixels + y * ours->stride + 4 * x,
                        gdk_pixbuf_read_pixels (theirs) + y * gdk_pixbuf_get_rowstride (theirs) + 3 * x, 3),
                ==, 0);
        }
    }
}

static void
test_resolution_of_exif (void)
{
  for (guint orientation = 1; orientation <= 8; orientation++)
    {
      g_autoptr (GByteArray) jpeg = encode_board ("jpeg");
      g_autoptr (GByteArray) tiff = make_tiff (orientation, 300, orientation % 2);
      g_autoptr (HwPicture) picture = NULL;

      jpeg->data[13] = 0; /* JFIF says nothing of a unit */
      insert_exif (jpeg, tiff);
      picture = load (jpeg, NULL);
      g_assert_cmpfloat (picture->dpi_x, ==, orientation >= 5 ? 600 : 300);
      g_assert_cmpfloat (picture->dpi_y, ==, orientation >= 5 ? 300 : 600);
    }
}

/* JFIF (ISO/IEC 10918-5): unit 1 is dots an inch, 2 dots a centimetre, 0 none. */
static void
test_resolution_of_jfif (void)
{
  static const double expected[] = { 0, 118, 118 * 2.54 };

  for (guint unit = 0; unit < 3; unit++)
    {
      g_autoptr (GByteArray) jpeg = encode_board ("jpeg");
      g_autoptr (HwPicture) picture = NULL;

      g_assert_cmpmem (jpeg->data + 6, 5, "JFIF", 5);
      jpeg->data[13] = (guint8)unit;
      jpeg->data[14] = jpeg->data[16] = 0;
      jpeg->data[15] = jpeg->data[17] = 118;
      picture = load (jpeg, NULL);
      g_assert_cmpfloat_with_epsilon (picture->dpi_x, expected[unit], 1e-9);
      g_assert_cmpfloat_with_epsilon (picture->dpi_y, expected[unit], 1e-9);
    }
}

/* PNG keeps pixels a metre (pHYs); 300 an inch are 11811 of them. */
static void
test_resolution_of_png (void)
{
  g_autoptr (GdkPixbuf) pixbuf = make_board ();
  g_autofree char *bytes = NULL;
  g_autoptr (GByteArray) file = g_byte_array_new ();
  g_autoptr (GByteArray) silent = encode_board ("png");
  g_autoptr (HwPicture) picture = NULL, quiet = load (silent, NULL);
  gsize length;

  g_assert_true (
      gdk_pixbuf_save_to_buffer (pixbuf, &bytes, &length, "png", NULL, "x-dpi", "300", "y-dpi", "300", NULL));
  g_byte_array_append (file, (guint8 *)bytes, (guint)length);
  picture = load (file, NULL);
  g_assert_cmpfloat_with_epsilon (picture->dpi_x, 300, 0.01);
  g_assert_cmpfloat_with_epsilon (picture->dpi_y, 300, 0.01);
  assert_turned (picture, 1);
  g_assert_cmpfloat (quiet->dpi_x, ==, 0);
}

static void
test_opacity_is_kept (void)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, TRUE, 8, 4, 3);
  g_autoptr (GByteArray) png = NULL;
  g_autoptr (HwPicture) picture = NULL;

  gdk_pixbuf_fill (pixbuf, 0x11223380);
  png = encode (pixbuf, "png");
  picture = load (png, NULL);
  g_assert_cmpmem (picture->pixels, 4, "\x11\x22\x33\x80", 4);
}

static void
assert_refused (GByteArray *file, HwPictureError code, const char *words)
{
  g_autoptr (GError) error = NULL;
  HwPicture *picture = load (file, &error);

  g_assert_null (picture);
  g_assert_error (error, HW_PICTURE_ERROR, (int)code);
  g_assert_true (g_str_has_prefix (error->message, "cloth.jpg: "));
  g_assert_null (strchr (error->message, '\n'));
  if (words != NULL && strstr (error->message, words) == NULL)
    g_error ("expected \"%s\" in: %s", words, error->message);
}

/* Cut anywhere, such a file is refused and nothing worse. */
static void
test_cut_files (void)
{
  static const char *const kinds[] = { "jpeg", "png" };

  for (guint k = 0; k < 2; k++)
    {
      g_autoptr (GByteArray) whole = encode_board (kinds[k]);

      for (guint length = 0; length < whole->len; length++)
        {
          g_autoptr (GByteArray) cut = g_byte_array_new ();

          g_byte_array_append (cut, whole->data, length);
          assert_refused (cut, HW_PICTURE_ERROR_FORMAT, NULL);
        }
    }
}

/* With bytes thrown over it is refused, or shows a picture of the size it says. */
static void
test_damaged_files (void)
{
  static const char *const kinds[] = { "jpeg", "png" };

  for (guint k = 0; k < 2; k++)
    {
      g_autoptr (GByteArray) whole = encode_board (kinds[k]);

      for (guint i = 0; i < 400; i++)
        {
          g_autoptr (GByteArray) damaged = g_byte_array_new ();
          g_autoptr (HwPicture) picture = NULL;
          g_autoptr (GError) error = NULL;

          g_byte_array_append (damaged, whole->data, whole->len);
          for (int n = g_test_rand_int_range (1, 6); n > 0; n--)
            damaged->data[g_test_rand_int_range (0, (int)whole->len)]
                = (guint8)g_test_rand_int_range (0, 256);
          picture = load (damaged, &error);
          g_assert_true ((picture == NULL) == (error != NULL));
          if (picture != NULL)
            g_assert_cmpuint (picture->stride, >=, (gsize)picture->width * 4);
        }
    }
}

static void
test_what_is_no_picture (void)
{
  static const char *const texts[]
      = { "", "GIF89a", "<svg xmlns='http://www.w3.org/2000/svg'/>", "\xff\xd8", "BM" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GByteArray) file = g_byte_array_new ();

      g_byte_array_append (file, (const guint8 *)texts[i], (guint)strlen (texts[i]));
      assert_refused (file, HW_PICTURE_ERROR_FORMAT, "neither a JPEG nor a PNG");
    }
}

static void
test_one_pixel (void)
{
  static const char *const kinds[] = { "jpeg", "png" };

  for (guint k = 0; k < 2; k++)
    {
      g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 1, 1);
      g_autoptr (GByteArray) file = NULL;

      gdk_pixbuf_fill (pixbuf, 0);
      file = encode (pixbuf, kinds[k]);
      assert_refused (file, HW_PICTURE_ERROR_FORMAT, "1 × 1");
    }
}

static guint
frame_header (const GByteArray *jpeg)
{
  for (guint i = 2; i + 1 < jpeg->len; i++)
    {
      if (jpeg->data[i] == 0xff && jpeg->data[i + 1] == 0xc0)
        return i + 5;
    }
  g_assert_not_reached ();
}

/* Headers that promise 60,000 pixels each way: nothing of that size is ever asked for. */
static void
test_far_too_large (void)
{
  g_autoptr (GByteArray) jpeg = encode_board ("jpeg"), png = encode_board ("png");
  guint at = frame_header (jpeg);

  jpeg->data[at] = jpeg->data[at + 2] = 60000 >> 8;
  jpeg->data[at + 1] = jpeg->data[at + 3] = 60000 & 0xff;
  assert_refused (jpeg, HW_PICTURE_ERROR_TOO_LARGE, "60000 × 60000");
  png->data[16] = png->data[17] = png->data[20] = png->data[21] = 0;
  png->data[18] = png->data[22] = 60000 >> 8;
  png->data[19] = png->data[23] = 60000 & 0xff;
  assert_refused (png, HW_PICTURE_ERROR_TOO_LARGE, "60000 × 60000");
  png->data[16] = 0x7f;
  assert_refused (png, HW_PICTURE_ERROR_TOO_LARGE, NULL);
}

/* A second frame header that says more than the first. */
static void
test_headers_that_disagree (void)
{
  g_autoptr (GByteArray) jpeg = encode_board ("jpeg");
  g_autoptr (GByteArray) second = g_byte_array_new ();
  g_autoptr (HwPicture) picture = NULL;
  g_autoptr (GError) error = NULL;
  guint at = frame_header (jpeg) - 5;

  g_byte_array_append (second, jpeg->data + at, 19);
  second->data[5] = second->data[7] = 0xea;
  insert (jpeg, at + 19, second->data, second->len);
  picture = load (jpeg, &error);
  g_assert_true (picture == NULL || (picture->width == WIDE && picture->height == HIGH));
}

static void
test_files_by_path (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "cloth.png", NULL);
  g_autofree char *away = g_build_filename (folder, "away.jpg", NULL);
  g_autoptr (GByteArray) jpeg = encode_board ("jpeg");
  g_autoptr (HwPicture) picture = NULL, missing = NULL, again = NULL;
  g_autoptr (GError) error = NULL;

  /* The content decides, not the name. */
  g_assert_true (g_file_set_contents (path, (char *)jpeg->data, jpeg->len, NULL));
  picture = hw_picture_load (path, &error);
  g_assert_no_error (error);
  assert_turned (picture, 1);
  missing = hw_picture_load (away, &error);
  g_assert_null (missing);
  g_assert_error (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_READ);
  g_assert_true (g_str_has_prefix (error->message, "away.jpg: "));
  g_clear_error (&error);

  picture->dpi_x = picture->dpi_y = 254;
  g_assert_true (hw_picture_save_png (picture, path, &error));
  again = hw_picture_load (path, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (again->pixels, again->stride * again->height, picture->pixels,
                   picture->stride * picture->height);
  g_assert_cmpfloat_with_epsilon (again->dpi_x, 254, 0.02);
  g_assert_false (hw_picture_save_png (picture, folder, &error));
  g_assert_nonnull (error);
  g_remove (path);
  g_rmdir (folder);
}

static gboolean
scaled_way (double x, double y, double *px, double *py, gpointer data)
{
  double scale = *(double *)data;

  *px = x * scale;
  *py = y * scale;
  return TRUE;
}

static HwPicture *
make_plain (guint width, guint height)
{
  guint8 *pixels = g_malloc ((gsize)width * height * 4);

  for (guint y = 0; y < height; y++)
    {
      for (guint x = 0; x < width; x++)
        {
          guint8 *p = pixels + 4 * ((gsize)y * width + x);

          p[0] = (guint8)(x * 4);
          p[1] = (guint8)(y * 4);
          p[2] = (x + y) % 2 ? 255 : 0;
          p[3] = 255;
        }
    }
  return hw_picture_new (width, height, (gsize)width * 4, pixels);
}

/* One pixel to one pixel: nothing changes. */
static void
test_squared_one_to_one (void)
{
  g_autoptr (HwPicture) photo = make_plain (40, 30);
  g_autoptr (HwPicture) squared = NULL;
  double scale = 1;

  squared = hw_picture_squared (photo, 0, 0, 40, 30, 25.4, scaled_way, &scale, NULL);
  g_assert_cmpuint (squared->width, ==, 40);
  g_assert_cmpuint (squared->height, ==, 30);
  g_assert_cmpmem (squared->pixels, squared->stride * 30, photo->pixels, photo->stride * 30);
  g_assert_cmpfloat (squared->dpi_x, ==, 25.4);
}

/* Eight to one: a pixel is the average of the 64 it covers, so that a fine chequer is even grey. */
static void
test_squared_shrinks_by_averaging (void)
{
  g_autoptr (HwPicture) photo = make_plain (64, 64);
  g_autoptr (HwPicture) squared = NULL;
  double scale = 8;

  squared = hw_picture_squared (photo, 0, 0, 8, 8, 25.4, scaled_way, &scale, NULL);
  for (guint y = 0; y < 8; y++)
    {
      for (guint x = 0; x < 8; x++)
        {
          const guint8 *p = squared->pixels + y * squared->stride + 4 * x;

          g_assert_cmpint (ABS ((int)p[0] - (int)(x * 32 + 14)), <=, 1);
          g_assert_cmpint (ABS ((int)p[1] - (int)(y * 32 + 14)), <=, 1);
          g_assert_cmpint (ABS ((int)p[2] - 127), <=, 1);
        }
    }
}

/* Outside the photo nothing shows; the way may also say that there is nothing. */
static gboolean
beyond_way (double x, double y, double *px, double *py, gpointer data)
{
  *px = x;
  *py = y;
  return x < 20.5;
}

static void
test_squared_outside (void)
{
  g_autoptr (HwPicture) photo = make_plain (40, 30);
  g_autoptr (HwPicture) squared = hw_picture_squared (photo, -10, -10, 50, 60, 25.4, beyond_way, NULL, NULL);

  for (guint y = 0; y < squared->height; y++)
    {
      for (guint x = 0; x < squared->width; x++)
        {
          gboolean shows = x >= 10 && x < 30 && y >= 10 && y < 40;

          g_assert_cmpuint (squared->pixels[y * squared->stride + 4 * x + 3], ==, shows ? 255 : 0);
        }
    }
}

static void
test_squared_too_large (void)
{
  g_autoptr (HwPicture) photo = make_plain (4, 3);
  g_autoptr (GError) error = NULL;
  double scale = 1;

  g_assert_null (hw_picture_squared (photo, 0, 0, 1000, 1000, 1200, scaled_way, &scale, &error));
  g_assert_error (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_TOO_LARGE);
}

/* What a phone makes today: told, and never slower than a person would mind. */
static void
test_twenty_megapixels (void)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 5200, 3900);
  g_autoptr (GByteArray) jpeg = NULL;
  g_autoptr (GByteArray) tiff = make_tiff (6, 0, TRUE);
  g_autoptr (HwPicture) picture = NULL, squared = NULL;
  double scale = 5;
  gint64 start;

  for (guint y = 0; y < 3900; y++)
    {
      guint8 *p = gdk_pixbuf_get_pixels (pixbuf) + y * gdk_pixbuf_get_rowstride (pixbuf);

      for (guint x = 0; x < 5200 * 3; x++)
        p[x] = (guint8)(128 + 60 * sin (x * 0.01) * cos (y * 0.013) + (x * 7 + y * 13) % 11);
    }
  jpeg = encode (pixbuf, "jpeg");
  insert_exif (jpeg, tiff);
  start = g_get_monotonic_time ();
  picture = load (jpeg, NULL);
  g_test_message ("read and turned in %.2f s", (double)(g_get_monotonic_time () - start) / 1e6);
  g_assert_cmpuint (picture->width, ==, 3900);
  g_assert_cmpfloat ((double)(g_get_monotonic_time () - start) / 1e6, <, 20);
  start = g_get_monotonic_time ();
  squared = hw_picture_squared (picture, 0, 0, 700, 540, 150, scaled_way, &scale, NULL);
  g_test_message ("squared in %.2f s", (double)(g_get_monotonic_time () - start) / 1e6);
  g_assert_nonnull (squared);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/picture-load/all-turns", test_all_turns);
  g_test_add_func ("/picture-load/turns-there-are-none-of", test_turns_there_are_none_of);
  g_test_add_func ("/picture-load/turns-as-another-library-does", test_turns_as_another_library_does);
  g_test_add_func ("/picture-load/resolution-of-exif", test_resolution_of_exif);
  g_test_add_func ("/picture-load/resolution-of-jfif", test_resolution_of_jfif);
  g_test_add_func ("/picture-load/resolution-of-png", test_resolution_of_png);
  g_test_add_func ("/picture-load/opacity-is-kept", test_opacity_is_kept);
  g_test_add_func ("/picture-load/cut-files", test_cut_files);
  g_test_add_func ("/picture-load/damaged-files", test_damaged_files);
  g_test_add_func ("/picture-load/what-is-no-picture", test_what_is_no_picture);
  g_test_add_func ("/picture-load/one-pixel", test_one_pixel);
  g_test_add_func ("/picture-load/far-too-large", test_far_too_large);
  g_test_add_func ("/picture-load/headers-that-disagree", test_headers_that_disagree);
  g_test_add_func ("/picture-load/files-by-path", test_files_by_path);
  g_test_add_func ("/picture-load/squared-one-to-one", test_squared_one_to_one);
  g_test_add_func ("/picture-load/squared-shrinks-by-averaging", test_squared_shrinks_by_averaging);
  g_test_add_func ("/picture-load/squared-outside", test_squared_outside);
  g_test_add_func ("/picture-load/squared-too-large", test_squared_too_large);
  g_test_add_func ("/picture-load/twenty-megapixels", test_twenty_megapixels);
  return g_test_run ();
}

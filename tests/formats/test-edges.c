/* Where files say little, or odd things: notes of pictures, units of pages, sizes of drawings, names, and figures that JSON cannot hold. */
#include "artwork-desk.h"

#include "formats/artwork-private.h"
#include "formats/artwork-shelf.h"
#include "formats/file-name.h"
#include "formats/json-check.h"
#include "formats/picture-load.h"
#include "formats/picture-notes.h"
#include "formats/stitched-area.h"

/* --- What a picture says of itself */

static void
put_number (GByteArray *to, guint64 value, guint size)
{
  for (guint i = size; i-- > 0;)
    {
      guint8 byte = (guint8)(value >> 8 * i);

      g_byte_array_append (to, &byte, 1);
    }
}

/* A TIFF (CIPA DC-008) whose first directory has entries of 12 bytes, and after it a ratio and a day. */
typedef struct
{
  guint tag, type, value; /* value: of a short; of a ratio or a text it is told by where it lies */
} Entry;

#define RATIO_AT(n) (8 + 2 + 12 * (n) + 4)
#define DAY_AT(n) (RATIO_AT (n) + 8)

static GByteArray *
make_tiff (const Entry *entries, guint n, guint over, guint under, const char *day)
{
  GByteArray *tiff = g_byte_array_new ();

  g_byte_array_append (tiff, (const guint8 *)"MM", 2);
  put_number (tiff, 42, 2);
  put_number (tiff, 8, 4);
  put_number (tiff, n, 2);
  for (guint i = 0; i < n; i++)
    {
      gboolean is_short = entries[i].type == 3;

      put_number (tiff, entries[i].tag, 2);
      put_number (tiff, entries[i].type, 2);
      put_number (tiff, 1, 4);
      put_number (tiff, entries[i].value, is_short ? 2 : 4);
      if (is_short)
        put_number (tiff, 0, 2);
    }
  put_number (tiff, 0, 4);
  put_number (tiff, over, 4);
  put_number (tiff, under, 4);
  g_byte_array_append (tiff, (const guint8 *)day, (guint)strlen (day));
  return tiff;
}

static void
put_segment (GByteArray *jpeg, guint marker, const char *name, const guint8 *bytes, guint length)
{
  guint head = (guint)strlen (name) + (g_str_equal (name, "Exif") ? 2 : g_str_equal (name, "JFIF") ? 1 : 0);

  put_number (jpeg, marker, 2);
  put_number (jpeg, 2 + head + length, 2);
  g_byte_array_append (jpeg, (const guint8 *)name, (guint)strlen (name));
  put_number (jpeg, 0, head - (guint)strlen (name));
  g_byte_array_append (jpeg, bytes, length);
}

static HwPictureNotes
notes_of (const GByteArray *bytes)
{
  HwPictureNotes notes;

  hw_picture_notes_read (bytes->data, bytes->len, &notes);
  return notes;
}

static HwPictureNotes
notes_of_tiff (GByteArray *tiff)
{
  g_autoptr (GByteArray) jpeg = g_byte_array_new ();

  put_number (jpeg, 0xffd8, 2);
  put_segment (jpeg, 0xffe1, "Exif", tiff->data, tiff->len);
  put_number (jpeg, 0xffd9, 2);
  g_byte_array_unref (tiff);
  return notes_of (jpeg);
}

/* EXIF: ResolutionUnit 2 is the inch, 3 the centimetre; any other tells no size. */
static void
the_unit_of_a_resolution_counts (void)
{
  static const struct
  {
    guint x_type, y_type, unit, over, under;
    double dpi;
  } cases[] = { { 5, 5, 2, 300, 1, 300 }, { 5, 5, 3, 100, 1, 254 },  { 5, 5, 1, 300, 1, 0 },
                { 5, 5, 2, 300, 0, 0 },   { 3, 5, 2, 300, 1, 0 },    { 5, 3, 2, 300, 1, 0 },
                { 5, 5, 2, 1, 7, 0 },     { 5, 5, 2, 4000000, 2, 0 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Entry entries[] = { { 0x011a, cases[i].x_type, RATIO_AT (3) },
                                { 0x011b, cases[i].y_type, RATIO_AT (3) },
                                { 0x0128, 3, cases[i].unit } };
      HwPictureNotes notes
          = notes_of_tiff (make_tiff (entries, 3, cases[i].over, cases[i].under, "2026:05:04 10:20:30"));

      g_assert_cmpfloat_with_epsilon (notes.dpi_x, cases[i].dpi, 1e-9);
      g_assert_cmpfloat_with_epsilon (notes.dpi_y, cases[i].dpi, 1e-9);
    }
}

static void
a_day_that_is_none_is_left_out (void)
{
  static const struct
  {
    const char *written, *day;
    guint type, at;
  } cases[] = {
    { "2026:05:04 10:20:30", "2026-05-04", 2, DAY_AT (1) },
    { "2026:05:04 10:20:30", "", 3, DAY_AT (1) },
    { "2026:00:04 10:20:30", "", 2, DAY_AT (1) },
    { "2026:05:00 10:20:30", "", 2, DAY_AT (1) },
    { "2026:13:04 10:20:30", "", 2, DAY_AT (1) },
    { "2026:05", "", 2, DAY_AT (1) },
    { "2026:05:04 10:20:30", "", 2, 90000 },
    { "to-morrow, perhaps", "", 2, DAY_AT (1) },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Entry entry = { 0x0132, cases[i].type, cases[i].at };
      HwPictureNotes notes = notes_of_tiff (make_tiff (&entry, 1, 1, 1, cases[i].written));

      g_assert_cmpstr (notes.day, ==, cases[i].day);
    }
}

static void
notes_that_are_no_tiff_tell_nothing (void)
{
  const Entry turned = { 0x0112, 3, 6 };

  for (guint spoiled = 0; spoiled <= 3; spoiled++)
    {
      GByteArray *tiff = make_tiff (&turned, 1, 1, 1, "");

      if (spoiled == 1)
        tiff->data[0] = 'L';
      else if (spoiled == 2)
        tiff->data[3] = 43;
      else if (spoiled == 3)
        g_byte_array_set_size (tiff, 7);
      g_assert_cmpuint (notes_of_tiff (tiff).orientation, ==, spoiled == 0 ? 6 : 1);
    }
}

/* ITU-T T.81: SOF markers are C0 to CF but for DHT, JPG and DAC; coded data hides stuffed zeros, restarts and fill bytes. */
static void
the_frame_of_a_jpeg_is_found (void)
{
  static const guint8 jfif[] = { 1, 1, 1, 0, 150, 0, 150, 0, 0 }, frame[] = { 8, 0, 30, 0, 40 };
  static const guint8 coded[] = {
    1, 2, 0xff, 0, 3, 0xff, 0xd0, 4, 0xff, 0xd7, 5, 0xff, 0xff, 0xd8 + 1
  }; /* the end, after a fill byte */

  for (guint marker = 0xffc0; marker <= 0xffd2; marker++)
    {
      gboolean is_frame = marker <= 0xffcf && marker != 0xffc4 && marker != 0xffc8 && marker != 0xffcc;
      g_autoptr (GByteArray) jpeg = g_byte_array_new ();
      HwPictureNotes notes;

      put_number (jpeg, 0xffd8, 2);
      put_segment (jpeg, 0xffe0, "JFIF", jfif, sizeof jfif);
      put_segment (jpeg, 0xffe0, "JFIF", jfif, 3); /* too short to say anything */
      put_segment (jpeg, 0xffe0, "OTHERWISE", jfif, sizeof jfif);
      put_segment (jpeg, 0xffe1, "", jfif, 4);
      put_segment (jpeg, marker, "", frame, sizeof frame);
      put_segment (jpeg, 0xffda, "", frame, 3);
      g_byte_array_append (jpeg, coded, sizeof coded);
      notes = notes_of (jpeg);
      g_assert_cmpuint (notes.width, ==, is_frame ? 40 : 0);
      g_assert_cmpuint (notes.height, ==, is_frame ? 30 : 0);
      g_assert_cmpfloat (notes.dpi_x, ==, 150);
      g_assert_true (notes.whole);
    }
}

/* PNG, third edition (W3C 2025): eXIf holds the camera's notes. */
static void
a_png_may_hold_a_cameras_notes (void)
{
  static const guint8 begin[] = { 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n' };
  const Entry turned = { 0x0112, 3, 8 };
  g_autoptr (GByteArray) tiff = make_tiff (&turned, 1, 1, 1, ""), png = g_byte_array_new ();
  HwPictureNotes notes;

  g_byte_array_append (png, begin, sizeof begin);
  put_number (png, tiff->len, 4);
  g_byte_array_append (png, (const guint8 *)"eXIf", 4);
  g_byte_array_append (png, tiff->data, tiff->len);
  put_number (png, 0, 8);
  g_byte_array_append (png, (const guint8 *)"IEND", 4);
  put_number (png, 0, 4);
  notes = notes_of (png);
  g_assert_cmpuint (notes.orientation, ==, 8);
  g_assert_true (notes.whole);
}

/* --- The unit of a PDF's pages, ISO 32000-1, 14.11.2 */

static void
assert_unit (const char *text, gsize length, guint n_pages, double unit)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, length);
  g_autoptr (GError) error = NULL;
  double found;

  g_assert_cmpint (hw_artwork_pdf_unit (bytes, "sail.pdf", n_pages, &found, &error), ==, unit > 0);
  if (unit > 0)
    g_assert_cmpfloat (found, ==, unit);
  else
    g_assert_error (error, HW_ARTWORK_ERROR, HW_ARTWORK_ERROR_SIZE);
}

static void
the_unit_of_a_page_is_read (void)
{
  static const struct
  {
    const char *text;
    guint n_pages;
    double unit; /* 0: doubtful */
  } cases[] = { { "/Type /Page /UserUnit 2 /Parent", 1, 2 },
                { "/UserUnit\t2\n>>", 1, 2 },
                { "/UserUnit\r\f+1.5\t%", 1, 1.5 },
                { "/UserUnits 3 /UserUnit 2/", 1, 2 },
                { "/UserUnit 2/ /UserUnit 2/", 2, 2 },
                { "/UserUnit 2/ /UserUnit 3/", 2, 0 },
                { "/UserUnit 2/", 2, 0 },
                { "/UserUnit 1/", 2, 1 },
                { "/UserUnit 2", 1, 0 },
                { "/UserUnit", 1, 0 },
                { "/UserUnit ", 1, 0 },
                { "/UserUnit x/", 1, 0 },
                { "/UserUnit 0/", 1, 0 },
                { "/UserUnit 80000/", 1, 0 },
                { "/UserUnit 7 0 R", 1, 0 },
                { "/UserUnit 0000000000000000000000000000000000000002/", 1, 0 },
                { "/ObjStm and nothing more", 1, 1 },
                { "/ObjStm stream", 1, 1 },
                { "/ObjStm stream\r", 1, 1 },
                { "/ObjStm stream\nwhat is not packed: /UserUnit 4/", 1, 4 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_unit (cases[i].text, strlen (cases[i].text), cases[i].n_pages, cases[i].unit);
  assert_unit ("/UserUnit\0002\0/", 13, 1, 2);
}

static GByteArray *
packed (const char *text, gsize length, GZlibCompressorFormat format)
{
  g_autoptr (GConverter) zlib = G_CONVERTER (g_zlib_compressor_new (format, 9));
  g_autoptr (GInputStream) plain = g_memory_input_stream_new_from_data (text, (gssize)length, NULL);
  g_autoptr (GInputStream) stream = g_converter_input_stream_new (plain, zlib);
  GByteArray *bytes = g_byte_array_new ();
  guint8 part[4096];
  gssize n;

  while ((n = g_input_stream_read (stream, part, sizeof part, NULL, NULL)) > 0)
    g_byte_array_append (bytes, part, (guint)n);
  g_assert_cmpint (n, ==, 0);
  return bytes;
}

static void
the_unit_of_a_packed_page_is_read (void)
{
  static const char *const begins[] = { "/ObjStm stream\r\n", "/ObjStm stream\n", "/ObjStm stream" };
  g_autoptr (GString) objects = g_string_new ("<< /Type /Page /UserUnit 2.5 >>");
  g_autoptr (GByteArray) flat = NULL;

  for (guint i = 0; i < 40000; i++)
    g_string_append_printf (objects, " %u", i * 7919 % 10007);
  flat = packed (objects->str, objects->len, G_ZLIB_COMPRESSOR_FORMAT_ZLIB);
  for (guint i = 0; i < G_N_ELEMENTS (begins); i++)
    {
      g_autoptr (GString) text = g_string_new (begins[i]);

      g_string_append_len (text, (const char *)flat->data, flat->len);
      assert_unit (text->str, text->len, 1, 2.5);
      g_string_append (text, "\nendstream /UserUnit 3/");
      assert_unit (text->str, text->len, 2, 0);
      /* broken off: as far as it goes */
      assert_unit (text->str, strlen (begins[i]) + flat->len / 2, 1, 2.5);
    }
}

/* --- Sizes of drawings: CSS Values 3, 6.1 and 6.2; em and ex of a drawing without a font are of common practice, no source */

static void
a_drawing_tells_its_size (Desk *desk, gconstpointer data)
{
  static const struct
  {
    const char *head;
    double width, height; /* mm */
  } cases[] = { { "width='10em' height='20ex'", 160 * 25.4 / 96, 160 * 25.4 / 96 },
                { "width='40mm' height='3cm'", 40, 30 },
                { "width='72pt' height='6pc'", 25.4, 25.4 },
                { "width='2in' height='96px'", 50.8, 25.4 },
                { "width='40mm' height='100%' viewBox='0 0 200 100'", 40, 20 },
                { "width='40mm' height='100%'", 40, 40 },
                { "width='100%' height='40mm' viewBox='0 0 200 100'", 80, 40 },
                { "width='100%' height='40mm'", 40, 40 },
                { "viewBox='0 0 192 96'", 50.8, 25.4 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "<svg xmlns='http://www.w3.org/2000/svg' %s><rect width='80' height='60' fill='#804020'/></svg>",
          cases[i].head);
      g_autoptr (HwArtwork) artwork = NULL;

      put (desk, "shed.svg", text, -1);
      artwork = load (desk, NULL);
      g_assert_cmpfloat_with_epsilon (artwork->width, cases[i].width, 1e-6);
      g_assert_cmpfloat_with_epsilon (artwork->height, cases[i].height, 1e-6);
    }
  put (desk, "bare.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>", -1);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_SIZE);
  put (desk, "above.svg",
       "<svg xmlns='http://www.w3.org/2000/svg'><rect x='5' y='-50' width='40' height='20'/></svg>", -1);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_SIZE);
  put (desk, "flat.svg",
       "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='0'><rect width='9' height='9'/></svg>",
       -1);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_SIZE);
}

static void
a_packed_drawing_is_a_drawing (Desk *desk, gconstpointer data)
{
  static const char plain[] = "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='30mm'>"
                              "<rect width='80' height='60' fill='#804020'/></svg>";
  g_autoptr (GByteArray) bytes = packed (plain, strlen (plain), G_ZLIB_COMPRESSOR_FORMAT_GZIP);
  g_autoptr (GError) broken = NULL;
  g_autofree char *spaces = g_strnfill (65u << 20, ' ');
  g_autoptr (GByteArray) swollen = packed (spaces, 65u << 20, G_ZLIB_COMPRESSOR_FORMAT_GZIP);
  g_autoptr (HwArtwork) artwork = NULL;

  put (desk, "shed.svgz", (const char *)bytes->data, bytes->len);
  artwork = load (desk, NULL);
  g_assert_cmpfloat_with_epsilon (artwork->width, 40, 1e-6);
  g_assert_cmpfloat_with_epsilon (hw_outline_area (artwork->outline), 80 * 60 * pow (25.4 / 96, 2), 5);
  put (desk, "broken.svgz", (const char *)bytes->data, bytes->len / 2);
  g_assert_null (hw_artwork_load (desk->path, NULL, &broken));
  g_assert_cmpstr (broken->message, ==, "broken.svgz: the drawing is broken off or damaged.");
  put (desk, "swollen.svgz", (const char *)swollen->data, swollen->len);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_TOO_LARGE);
}

/* --- Names, and JSON */

static void
assert_name (const char *words, const char *wanted)
{
  g_autofree char *name = hw_file_name_of (words);

  g_assert_cmpstr (name, ==, wanted);
}

/* Unicode 15: U+200E and F, U+202A to E and U+2066 to 9 turn the direction; U+2028 and 9 end a line; U+0378 is no character. */
static void
names_of_files_are_plain (void)
{
  g_autofree char *a = g_strnfill (300, 'a'), *long_name = NULL, *long_ending = NULL, *odd = NULL;
  g_autofree char *kept = NULL, *cut = NULL, *whole = NULL;

  assert_name ("quay\u200e\u200f\u202a\u202e\u2066\u2069.pdf", "quay.pdf");
  assert_name ("quay\u2029\u2028\u0378"
               "\xc2\x85"
               "/\\.pdf",
               "quay------.pdf");
  assert_name ("qu\u00e4y\u2013\u2070\u200d.pdf", "qu\u00e4y\u2013\u2070\u200d.pdf");
  long_name = g_strconcat (a, ".pdf", NULL);
  kept = hw_file_name_of (long_name);
  g_assert_cmpuint (strlen (kept), ==, HW_LONGEST_FILE_NAME);
  g_assert_true (g_str_has_suffix (kept, "a.pdf"));
  long_ending = g_strconcat ("x.", a, NULL);
  cut = hw_file_name_of (long_ending);
  g_assert_cmpuint (strlen (cut), ==, HW_LONGEST_FILE_NAME);
  whole = hw_file_name_of (a);
  g_assert_true (strlen (whole) == HW_LONGEST_FILE_NAME && strspn (whole, "a") == HW_LONGEST_FILE_NAME);
}

/* RFC 8259, 7 and 8.2: characters beyond the first plane are two escapes, the halves D800 to DBFF and DC00 to DFFF. */
static void
json_escapes_are_whole (void)
{
  static const struct
  {
    const char *text;
    gsize length;
    gboolean good;
  } cases[] = { { "\"\\ue000\"", 8, TRUE },
                { "\"\\ud7ff\"", 8, TRUE },
                { "\"\\udbff\\udfff\"", 14, TRUE },
                { "\"\\ud800\\u0041\"", 14, FALSE },
                { "\"\\ud800\\ue000\"", 14, FALSE },
                { "\"\\ud800\\uzzzz\"", 14, FALSE },
                { "\"\\udfff\"", 8, FALSE },
                { "\"\\\0\"", 4, FALSE },
                { "\"\\", 2, FALSE },
                { "1 \0", 3, FALSE },
                { "1 \t\r\n", 5, TRUE } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (hw_json_check (cases[i].text, cases[i].length, NULL), ==, cases[i].good);
}

static void
a_number_too_large_is_quoted_in_part (void)
{
  g_autoptr (GError) short_one = NULL, long_one = NULL;
  g_autofree char *digits = g_strnfill (60, '7'), *text = g_strconcat ("{\"a\":[", digits, "]}", NULL);

  g_assert_false (hw_json_check ("1e999", 5, &short_one));
  g_assert_error (short_one, HW_JSON_ERROR, HW_JSON_ERROR_NUMBER);
  g_assert_nonnull (strstr (short_one->message, "1e999"));
  g_assert_false (hw_json_check (text, strlen (text), &long_one));
  g_assert_error (long_one, HW_JSON_ERROR, HW_JSON_ERROR_NUMBER);
  g_assert_true (g_str_has_prefix (long_one->message, "a[0]: "));
  g_assert_nonnull (strstr (long_one->message, "7777…"));
  g_assert_null (strstr (long_one->message, digits));
}

/* --- What little a needle list covers */

static HwOutline *
area_of (double length, double height, HwNeedleAction action)
{
  const HwNeedlePoint points[] = { { .x = 0, .y = 0, .action = action },
                                   { .x = (float)length, .y = (float)height, .action = action },
                                   { .x = (float)length / 2, .y = (float)height / 2, .action = action } };
  char *threads[] = { (char *)"moss", NULL };
  g_autoptr (HwNeedleList) list
      = hw_needle_list_new (g_memdup2 (points, sizeof points), G_N_ELEMENTS (points), g_strdupv (threads));

  return hw_stitched_area (list);
}

static void
a_line_of_stitches_covers_a_strip (void)
{
  const double ends[][2] = { { 30, 0 }, { 0, 30 }, { 900, 0 } };

  g_assert_null (area_of (0, 0, HW_NEEDLE_STITCH));
  g_assert_null (area_of (30, 20, HW_NEEDLE_JUMP));
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      g_autoptr (HwOutline) area = area_of (ends[i][0], ends[i][1], HW_NEEDLE_STITCH);
      double along = ends[i][0] + ends[i][1], across;

      g_assert_nonnull (area);
      across = hw_outline_area (area) / along;
      g_assert_cmpfloat (across, >, 0.5);
      g_assert_cmpfloat (across, <, along> 400 ? 5 : 3);
      g_assert_cmpfloat (MAX (area->box.x1 - area->box.x0, area->box.y1 - area->box.y0), >=, along);
    }
}

/* --- Motifs that name nothing that could be read */

static void
what_names_no_artwork_is_passed_over (Desk *desk, gconstpointer data)
{
  static const char rows[] = "x_mm,y_mm,action,thread\n0,0,stitch,moss\n4,0,stitch,moss\n4,4,stitch,moss\n";
  g_autoptr (HwArtworkShelf) shelf = hw_artwork_shelf_new ();
  g_autoptr (GPtrArray) motifs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);
  g_autoptr (GPtrArray) sentences = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) to_read = NULL;
  HwMotif *relative = hw_motif_new (), *none = hw_motif_new (), *lace = hw_motif_new (),
          *gone = hw_motif_new ();
  HwMotif *brought = hw_motif_new ();

  put (desk, "leaf.csv", rows, -1);
  relative->artwork = g_strdup ("leaf.csv");
  lace->artwork = g_strdup (desk->path);
  lace->artwork_kind = g_strdup ("lace");
  gone->artwork = g_build_filename (desk->folder, "gone.csv", NULL);
  brought->artwork = g_strdup (desk->path);
  for (HwMotif *const *motif = (HwMotif *const[]){ relative, none, lace, gone, NULL }; *motif != NULL;
       motif++)
    {
      (*motif)->artwork_awaited = TRUE;
      g_ptr_array_add (motifs, *motif);
    }
  /* Without a folder a name that is not whole leads nowhere, and is not complained of. */
  hw_artwork_shelf_fill (shelf, NULL, relative);
  g_assert_true (!relative->artwork_awaited && relative->needles == NULL
                 && relative->artwork_trouble == NULL);
  hw_artwork_shelf_fill (shelf, desk->folder, none);
  g_assert_true (!none->artwork_awaited && none->artwork_trouble == NULL);
  hw_artwork_shelf_fill (shelf, NULL, lace);
  g_assert_nonnull (strstr (lace->artwork_trouble, "\"lace\""));
  none->artwork_awaited = TRUE;
  to_read = hw_artwork_shelf_to_read (shelf, NULL, motifs);
  g_assert_cmpuint (to_read->len, ==, 1); /* gone */
  hw_artwork_shelf_fill (shelf, NULL, gone);
  g_assert_cmpstr (gone->artwork_trouble, ==, "gone.csv: there is no such file.");

  /* A file that is still not there is nothing new, but for whom it was there. */
  g_assert_false (hw_artwork_shelf_has_other (shelf, NULL, relative));
  g_assert_false (hw_artwork_shelf_has_other (shelf, NULL, none));
  g_assert_false (hw_artwork_shelf_has_other (shelf, NULL, lace));
  g_assert_false (hw_artwork_shelf_has_other (shelf, NULL, gone));
  g_free (gone->artwork_trouble);
  gone->artwork_trouble = g_strdup ("gone.csv: it was another trouble.");
  g_assert_true (hw_artwork_shelf_has_other (shelf, NULL, gone));

  gone->needles = hw_needle_list_new (g_new0 (HwNeedlePoint, 1), 1, g_new0 (char *, 1));
  g_assert_false (hw_artwork_shelf_has_other (shelf, NULL, gone));
  g_clear_pointer (&gone->needles, hw_needle_list_unref);
  gone->picture = hw_picture_new (1, 1, 4, g_malloc0 (4));
  g_assert_false (hw_artwork_shelf_has_other (shelf, NULL, gone));

  /* What was brought in shows what it was made of; only that its file is gone is told. */
  brought->needles = hw_needle_list_new (g_new0 (HwNeedlePoint, 1), 1, g_new0 (char *, 1));
  relative->needles = hw_needle_list_new (g_new0 (HwNeedlePoint, 1), 1, g_new0 (char *, 1));
  g_ptr_array_add (motifs, brought);
  g_assert_false (hw_artwork_shelf_look_again (shelf, NULL, motifs, sentences));
  g_assert_cmpuint (sentences->len, ==, 0);
  g_assert_false (hw_artwork_shelf_has_other (shelf, NULL, brought));
  g_assert_cmpint (g_unlink (desk->path), ==, 0);
  g_assert_false (hw_artwork_shelf_look_again (shelf, NULL, motifs, sentences));
  g_assert_cmpuint (sentences->len, ==, 1);
  g_assert_cmpstr (sentences->pdata[0], ==, "leaf.csv: there is no such file.");
  g_clear_pointer (&brought->needles, hw_needle_list_unref);
  brought->picture = hw_picture_new (1, 1, 4, g_malloc0 (4));
  g_assert_false (hw_artwork_shelf_look_again (shelf, NULL, motifs, sentences));
  g_assert_cmpuint (sentences->len, ==, 2);
  /* From another folder it may not even be looked for. */
  g_ptr_array_set_size (sentences, 0);
  g_clear_pointer (&relative->needles, hw_needle_list_unref);
  g_assert_false (hw_artwork_shelf_look_again (shelf, "/var/empty", motifs, sentences));
  g_assert_cmpuint (sentences->len, ==, 0);
}

#define ADD_PLAIN(name, test) g_test_add_func ("/formats/edges/" name, test)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD_PLAIN ("the-unit-of-a-resolution-counts", the_unit_of_a_resolution_counts);
  ADD_PLAIN ("a-day-that-is-none-is-left-out", a_day_that_is_none_is_left_out);
  ADD_PLAIN ("notes-that-are-no-tiff-tell-nothing", notes_that_are_no_tiff_tell_nothing);
  ADD_PLAIN ("the-frame-of-a-jpeg-is-found", the_frame_of_a_jpeg_is_found);
  ADD_PLAIN ("a-png-may-hold-a-cameras-notes", a_png_may_hold_a_cameras_notes);
  ADD_PLAIN ("the-unit-of-a-page-is-read", the_unit_of_a_page_is_read);
  ADD_PLAIN ("the-unit-of-a-packed-page-is-read", the_unit_of_a_packed_page_is_read);
  ADD ("/formats/edges/a-drawing-tells-its-size", NULL, a_drawing_tells_its_size);
  ADD ("/formats/edges/a-packed-drawing-is-a-drawing", NULL, a_packed_drawing_is_a_drawing);
  ADD_PLAIN ("names-of-files-are-plain", names_of_files_are_plain);
  ADD_PLAIN ("json-escapes-are-whole", json_escapes_are_whole);
  ADD_PLAIN ("a-number-too-large-is-quoted-in-part", a_number_too_large_is_quoted_in_part);
  ADD_PLAIN ("a-line-of-stitches-covers-a-strip", a_line_of_stitches_covers_a_strip);
  ADD ("/formats/edges/what-names-no-artwork-is-passed-over", NULL, what_names_no_artwork_is_passed_over);
  return g_test_run ();
}

/* Artwork that is broken, hostile or not what its name says: a sentence or an outline, nothing fetched, no crash, in bounded time. */
#include <sys/resource.h>

#include "../rounds.h"
#include "artwork-desk.h"
#include "formats/needle-csv.h"

static char *
trap (guint port, const char *red, const char *other, const char *doctype, const char *entities)
{
  return g_strdup_printf (
      "<?xml version='1.0'?><?xml-stylesheet href='http://127.0.0.1:%u/a.css' type='text/css'?>"
      "%s"
      "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' "
      "xmlns:xi='http://www.w3.org/2001/XInclude' width='100mm' height='100mm' viewBox='0 0 100 100'>"
      "<style>@import url('http://127.0.0.1:%u/b.css'); @import url('file://%s');</style>"
      "<script>document.documentElement.setAttribute('width', '500mm')</script>"
      "<image x='50' y='50' width='40' height='40' xlink:href='file://%s'/>"
      "<image x='50' y='5' width='40' height='40' href='red.png'/>"
      "<image x='5' y='50' width='40' height='40' href='http://127.0.0.1:%u/p.png'/>"
      "<use href='%s#a'/><use xlink:href='file://%s#a'/><xi:include href='file://%s'/>%s"
      "<rect x='5' y='5' width='10' height='10' fill='#1d4a34' onload='while(1){}'/></svg>",
      port, doctype, port, other, red, port, other, other, other, entities);
}

/* A listener that nobody may call, and files that nobody may read. The drawing's own square is 10 x 10 mm. */
static void
test_drawing_fetches_nothing (Desk *desk, gconstpointer data)
{
  g_autoptr (GSocket) socket
      = g_socket_new (G_SOCKET_FAMILY_IPV4, G_SOCKET_TYPE_STREAM, G_SOCKET_PROTOCOL_DEFAULT, NULL);
  g_autoptr (GSocketAddress) any = g_inet_socket_address_new_from_string ("127.0.0.1", 0);
  g_autoptr (GSocketAddress) bound = NULL;
  guint port;
  cairo_t *cr = paper_new (20, 20, "#ff0000");
  g_autofree char *red = NULL;
  g_autofree char *other = NULL;
  g_autoptr (GSocket) caller
      = g_socket_new (G_SOCKET_FAMILY_IPV4, G_SOCKET_TYPE_STREAM, G_SOCKET_PROTOCOL_DEFAULT, NULL);

  g_assert_true (g_socket_bind (socket, any, TRUE, NULL) && g_socket_listen (socket, NULL));
  bound = g_socket_get_local_address (socket, NULL);
  port = g_inet_socket_address_get_port (G_INET_SOCKET_ADDRESS (bound));
  save (desk, cr, "red.png", "300");
  red = g_steal_pointer (&desk->path);
  put (desk, "other.svg",
       "<svg xmlns='http://www.w3.org/2000/svg'><g id='a'><rect width='90' height='90'/></g></svg>", -1);
  other = g_steal_pointer (&desk->path);
  for (guint entities = 0; entities < 2; entities++)
    {
      g_autofree char *declared = g_strdup_printf (
          "<!DOCTYPE svg [<!ENTITY far SYSTEM 'file://%s'><!ENTITY net SYSTEM 'http://127.0.0.1:%u/e'>]>",
          other, port);
      g_autofree char *text = trap (port, red, other, entities ? declared : "", entities ? "&far;&net;" : "");
      g_autoptr (HwArtwork) artwork = NULL;

      put (desk, "trap.svg", text, -1);
      artwork = hw_artwork_load (desk->path, NULL, NULL);
      g_assert_true (artwork != NULL || entities); /* entities from elsewhere make it no drawing */
      if (artwork != NULL)
        {
          assert_area (artwork, 100);
          g_assert_cmpfloat_with_epsilon (artwork->width, 100, 1e-6);
        }
    }
  g_assert_false (g_socket_condition_check (socket, G_IO_IN) & G_IO_IN);
  /* Had anybody called, it would be seen. */
  g_assert_true (g_socket_connect (caller, bound, NULL, NULL));
  g_assert_true (g_socket_condition_timed_wait (socket, G_IO_IN, 5 * G_USEC_PER_SEC, NULL, NULL));
}

/* Headers of a PNG that claims a size, and nothing more. */
static void
put_png_header (Desk *desk, guint32 width, guint32 height)
{
  guint8 head[33] = "\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR";

  for (guint i = 0; i < 4; i++)
    {
      head[16 + i] = (guint8)(width >> (24 - 8 * i));
      head[20 + i] = (guint8)(height >> (24 - 8 * i));
    }
  head[24] = 8;
  head[25] = 6;
  put (desk, "wall.png", (const char *)head, sizeof head);
}

/* The same of a JPEG: its frame's header (ITU-T T.81, B.2.2) and the mark that ends it. */
static void
put_jpeg_header (Desk *desk, guint16 width, guint16 height)
{
  guint8 head[]
      = { 0xff, 0xd8, 0xff, 0xc0, 0, 17, 8, 0, 0, 0, 0, 3, 1, 0x22, 0, 2, 0x11, 1, 3, 0x11, 1, 0xff, 0xd9 };

  head[7] = (guint8)(height >> 8);
  head[8] = (guint8)height;
  head[9] = (guint8)(width >> 8);
  head[10] = (guint8)width;
  put (desk, "wall.jpg", (const char *)head, sizeof head);
}

/* kB that the program ever held at once. */
static long
most_memory (void)
{
  struct rusage usage;

  g_assert_cmpint (getrusage (RUSAGE_SELF, &usage), ==, 0);
  return usage.ru_maxrss;
}

/* 60000 x 60000 pixels would take 14 GB. */
static void
test_huge_pictures_take_no_memory (Desk *desk, gconstpointer data)
{
  long before;

  put_png_header (desk, 400, 400);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_FORMAT);
  before = most_memory ();
  put_png_header (desk, 60000, 60000);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_TOO_LARGE);
  put_jpeg_header (desk, 60000, 60000);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_TOO_LARGE);
  g_test_message ("%ld kB before, %ld kB after", before, most_memory ());
  g_assert_cmpint (most_memory () - before, <, 16 << 10);
}

/* A picture that came half over the wire, cut off at every kilobyte. */
static void
test_cut_off_pictures (Desk *desk, gconstpointer name)
{
  cairo_t *cr = paper_new (20, 15, "#ffffff");
  g_autofree char *bytes = NULL;
  gsize length;

  for (guint i = 0; i < 900; i++)
    {
      cairo_set_source_rgb (cr, g_test_rand_double (), g_test_rand_double (), g_test_rand_double ());
      cairo_rectangle (cr, 3 + 14 * g_test_rand_double (), 3 + 9 * g_test_rand_double (), 0.3, 0.3);
      cairo_fill (cr);
    }
  save (desk, cr, name, "300");
  hw_artwork_unref (load (desk, NULL));
  g_assert_true (g_file_get_contents (desk->path, &bytes, &length, NULL));
  g_assert_cmpuint (length, >, 10 << 10);
  for (gsize kept = 1024; kept < length; kept += 1024)
    {
      put (desk, name, bytes, (gssize)kept);
      assert_refused (desk, NULL, HW_ARTWORK_ERROR_FORMAT);
    }
}

/* Needle lists as an office program may save them: told by the byte that is no UTF-8 (RFC 3629). */
static void
test_lists_in_other_encodings (Desk *desk, gconstpointer encoding)
{
  static const char list[]
      = "x_mm,y_mm,action,thread\n0,0,stitch,Moosgr\xc3\xbcn\n9,0,stitch,Moosgr\xc3\xbcn\n"
        "9,9,stitch,Moosgr\xc3\xbcn\n0,9,end,Moosgr\xc3\xbcn\n";
  g_autoptr (HwArtwork) whole = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  gsize length;

  put (desk, "moss.csv", list, -1);
  whole = hw_artwork_load (desk->path, NULL, NULL);
  g_assert_nonnull (whole);
  text = g_convert (list, -1, encoding, "UTF-8", NULL, &length, NULL);
  g_assert_nonnull (text);
  put (desk, "moss.csv", text, (gssize)length);
  g_assert_null (hw_artwork_load (desk->path, NULL, &error));
  g_assert_error (error, HW_NEEDLE_CSV_ERROR, HW_NEEDLE_CSV_ERROR_READ);
  g_assert_true (g_str_has_prefix (error->message, "moss.csv: line "));
  g_assert_nonnull (strstr (error->message, "expected text in UTF-8, found the byte"));
}

static void
test_bad_files_are_refused_in_a_sentence (Desk *desk, gconstpointer data)
{
  static const struct
  {
    const char *name, *text;
    HwArtworkError code;
  } bad[] = {
    { "empty.svg", "", HW_ARTWORK_ERROR_FORMAT },
    { "words.txt", "Dear neighbour, the pears are ripe.", HW_ARTWORK_ERROR_FORMAT },
    { "half.svg", "<svg xmlns='http://www.w3.org/2000/svg'><rect width='9'", HW_ARTWORK_ERROR_FORMAT },
    { "packed.svgz", "\x1f\x8b\x08 and then nothing", HW_ARTWORK_ERROR_FORMAT },
    { "nothing.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='9mm' height='9mm'/>",
      HW_ARTWORK_ERROR_NO_AREA },
    { "sizeless.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>", HW_ARTWORK_ERROR_SIZE },
    { "flat.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='0' height='9'/>", HW_ARTWORK_ERROR_SIZE },
    { "wide.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='1e9mm' height='1mm'/>",
      HW_ARTWORK_ERROR_TOO_LARGE },
    { "high.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='1' height='1e20in'/>",
      HW_ARTWORK_ERROR_TOO_LARGE },
    { "short.jpg", "\xff\xd8\xff\xe0", HW_ARTWORK_ERROR_FORMAT },
    { "not.pdf", "%PDF-1.7\nhello", HW_ARTWORK_ERROR_FORMAT },
  };
  HwArtworkWishes mad = { .pixels_per_mm = 1e9 };
  cairo_t *cr = paper_new (20, 20, "#d8cbb0");

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      put (desk, bad[i].name, bad[i].text, -1);
      assert_refused (desk, NULL, bad[i].code);
    }
  put_png_header (desk, 60001, 60001);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_TOO_LARGE);
  put_png_header (desk, 60000, 60000);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_TOO_LARGE);
  put_png_header (desk, 400, 400);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_FORMAT);
  save (desk, cr, "plain.png", "300");
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_NO_AREA);
  assert_refused (desk, &mad, HW_ARTWORK_ERROR_SIZE);
  save (desk, paper_new (1 / SCALE, 1 / SCALE, "#000000"), "dot.png", "300");
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_FORMAT);
  save (desk, paper_new (1 / SCALE, 1 / SCALE, "#000000"), "dot.jpg", "300");
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_FORMAT);
  g_unlink (desk->path);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_READ);
}

/* A drawing that would hold thousands of millions of squares. */
static void
test_entangled_drawing_ends (Desk *desk, gconstpointer data)
{
  GString *text = g_string_new ("<svg xmlns='http://www.w3.org/2000/svg' width='50mm' height='50mm'><defs>"
                                "<rect id='u0' width='9' height='9'/>");
  g_autoptr (GError) error = NULL;
  g_autoptr (HwArtwork) artwork = NULL;

  for (guint i = 1; i < 12; i++)
    {
      g_string_append_printf (text, "<g id='u%u'>", i);
      for (guint k = 0; k < 10; k++)
        g_string_append_printf (text, "<use href='#u%u' x='%u'/>", i - 1, k);
      g_string_append (text, "</g>");
    }
  g_string_append (text, "</defs><use href='#u11'/></svg>");
  put (desk, "maze.svg", text->str, (gssize)text->len);
  g_string_free (text, TRUE);
  g_test_timer_start ();
  artwork = hw_artwork_load (desk->path, NULL, &error);
  g_test_message ("%.1f s", g_test_timer_elapsed ());
  g_assert_cmpfloat (g_test_timer_last (), <, 60.0 * rounds_one_in ());
  g_assert_true (artwork != NULL || error != NULL);
}

/* Bytes changed, cut off and doubled at random: an answer or a sentence, never a crash. */
static void
test_damaged_files (Desk *desk, gconstpointer data)
{
  static const char drawing[]
      = "<svg xmlns='http://www.w3.org/2000/svg' width='30mm' height='30mm' viewBox='0 0 30 30'>"
        "<circle cx='15' cy='15' r='9'/><path d='M1 1 L9 1 L5 8 Z' fill='#aa2233'/></svg>";
  g_autoptr (GString) pdf = two_page_pdf ();
  g_autofree char *png = NULL;
  gsize n_png, lengths[3];
  cairo_t *cr = paper_new (20, 20, "#ffffff");

  disc (cr, "#1d4a34", 10, 10, 6);
  save (desk, cr, "fig.png", "300");
  g_assert_true (g_file_get_contents (desk->path, &png, &n_png, NULL));
  const char *texts[] = { drawing, pdf->str, png };
  lengths[0] = sizeof drawing - 1;
  lengths[1] = pdf->len;
  lengths[2] = n_png;
  for (guint n = 0; n < 150; n++)
    {
      g_autofree char *bytes = g_memdup2 (texts[n % 3], lengths[n % 3]);
      gsize length = lengths[n % 3];
      g_autoptr (GError) error = NULL;
      g_autoptr (HwArtwork) artwork = NULL;

      for (int k = g_test_rand_int_range (0, 5); k >= 0; k--)
        bytes[g_test_rand_int_range (0, (int)length)] = (char)g_test_rand_int_range (0, 256);
      if (g_test_rand_int_range (0, 4) == 0)
        length = (gsize)g_test_rand_int_range (1, (int)length);
      put (desk, "damaged", bytes, (gssize)length);
      artwork = hw_artwork_load (desk->path, NULL, &error);
      g_assert_true ((artwork != NULL) != (error != NULL));
      g_assert_true (artwork == NULL || hw_outline_is_simple (artwork->outline));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/artwork-refusals/drawing-fetches-nothing", NULL, test_drawing_fetches_nothing);
  ADD ("/artwork-refusals/bad-files-are-refused-in-a-sentence", NULL,
       test_bad_files_are_refused_in_a_sentence);
  ADD ("/artwork-refusals/huge-pictures-take-no-memory", NULL, test_huge_pictures_take_no_memory);
  ADD ("/artwork-refusals/cut-off-png", "wire.png", test_cut_off_pictures);
  ADD ("/artwork-refusals/cut-off-jpeg", "wire.jpg", test_cut_off_pictures);
  ADD ("/artwork-refusals/list-in-utf-16", "UTF-16", test_lists_in_other_encodings);
  ADD ("/artwork-refusals/list-in-utf-16be", "UTF-16BE", test_lists_in_other_encodings);
  ADD ("/artwork-refusals/list-in-latin-1", "ISO-8859-1", test_lists_in_other_encodings);
  ADD ("/artwork-refusals/entangled-drawing-ends", NULL, test_entangled_drawing_ends);
  ADD ("/artwork-refusals/damaged-files", NULL, test_damaged_files);
  return g_test_run ();
}

/* Artwork from files: ground, holes and specks, colours, places, and every kind of bad file. True sizes are checked against their standards in
 * tests/outside. */
#include "formats/artwork.h"

#include <cairo-pdf.h>
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "geometry/region.h"

typedef struct
{
  char *folder;
  char *path;
} Desk;

static void
desk_set_up (Desk *desk, gconstpointer data)
{
  desk->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
}

static void
desk_tear_down (Desk *desk, gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (desk->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (desk->folder, name, NULL);

      g_unlink (path);
    }
  g_assert_cmpint (g_rmdir (desk->folder), ==, 0);
  g_free (desk->folder);
  g_free (desk->path);
}

static void
put (Desk *desk, const char *name, const char *data, gssize length)
{
  g_free (desk->path);
  desk->path = g_build_filename (desk->folder, name, NULL);
  g_assert_true (g_file_set_contents (desk->path, data, length, NULL));
}

static HwArtwork *
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

static void
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

static cairo_t *
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

static void
ink (cairo_t *cr, const char *colour)
{
  HwColour c;

  g_assert_true (hw_colour_parse (colour, &c));
  cairo_set_source_rgb (cr, c.red, c.green, c.blue);
}

static void
disc (cairo_t *cr, const char *colour, double x, double y, double radius)
{
  ink (cr, colour);
  cairo_arc (cr, x, y, radius, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
box (cairo_t *cr, const char *colour, double x, double y, double width, double height)
{
  ink (cr, colour);
  cairo_rectangle (cr, x, y, width, height);
  cairo_fill (cr);
}

/* As PNG or JPEG by the name's ending; dpi NULL: the file says nothing. Takes over cr. */
static void
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

static void
assert_area (const HwArtwork *artwork, double exact)
{
  g_assert_cmpfloat (fabs (hw_outline_area (artwork->outline) / exact - 1), <, 0.01);
}

static void
test_scan_on_paper (Desk *desk, gconstpointer name)
{
  cairo_t *cr = paper_new (80, 60, "#f4efe2");
  g_autoptr (HwArtwork) artwork = NULL;

  disc (cr, "#1d4a34", 35, 30, 20);
  disc (cr, "#f4efe2", 35, 30, 8);     /* paper shows through: a hole */
  disc (cr, "#f4efe2", 20, 30, 0.45);  /* a speck of it: not */
  box (cr, "#e4601e", 60, 10, 10, 20); /* beside it */
  disc (cr, "#1d4a34", 75, 55, 0.4);   /* dust */
  save (desk, cr, name, "300");
  artwork = load (desk, NULL);
  assert_area (artwork, G_PI * (400 - 64) + 200);
  g_assert_cmpuint (artwork->outline->n_rings, ==, 3);
  g_assert_cmpfloat_with_epsilon (artwork->width, 80, 0.05);
  g_assert_cmpfloat_with_epsilon (artwork->height, 60, 0.05);
  g_assert_cmpfloat_with_epsilon (artwork->centre.x, (15 + 70) / 2.0, 0.1);
  g_assert_cmpfloat_with_epsilon (artwork->centre.y, 30, 0.1);
  g_assert_false (artwork->size_guessed);
  g_assert_cmpuint (artwork->n_pages, ==, 1);
  g_assert_cmpuint (artwork->n_threads, ==, 2);
  g_assert_cmpstr (artwork->threads[0].name, ==, "pine green");
  g_assert_cmpstr (artwork->threads[1].name, ==, "rowan orange");
}

static guint32
picture_pixel (const HwArtwork *artwork, double x, double y)
{
  int width = cairo_image_surface_get_width (artwork->picture);
  int height = cairo_image_surface_get_height (artwork->picture);
  int column = (int)floor (width / 2.0 + x * artwork->pixels_per_mm);
  int row = (int)floor (height / 2.0 + y * artwork->pixels_per_mm);

  g_assert_true (column >= 0 && row >= 0 && column < width && row < height);
  return *(const guint32 *)(gconstpointer)(cairo_image_surface_get_data (artwork->picture)
                                           + (gsize)row * cairo_image_surface_get_stride (artwork->picture)
                                           + (gsize)column * 4);
}

static void
test_picture_lies_under_its_outline (Desk *desk, gconstpointer data)
{
  cairo_t *cr = paper_new (80, 60, "#ffffff");
  g_autoptr (HwArtwork) artwork = NULL;
  g_autoptr (HwPicture) picture = NULL;

  box (cr, "#204080", 10.03, 5.04, 30, 41);
  box (cr, "#ffffff", 20, 20, 6, 6);
  save (desk, cr, "quay.png", "300");
  artwork = load (desk, NULL);
  g_assert_cmphex (picture_pixel (artwork, -14.7, -20.2), ==, 0xff204080);
  g_assert_cmphex (picture_pixel (artwork, 14.7, 20.2), ==, 0xff204080);
  g_assert_cmphex (picture_pixel (artwork, 23 - 25.03, 23 - 25.54), ==, 0); /* the hole */
  g_assert_cmphex (picture_pixel (artwork, 15.1, 0), ==, 0);
  picture = hw_artwork_picture (artwork);
  g_assert_cmpuint (picture->width, ==, (guint)cairo_image_surface_get_width (artwork->picture));
  g_assert_cmphex (picture->pixels[picture->height / 2 * picture->stride + picture->width / 4 * 4 + 2], ==,
                   0x80);
}

static void
test_clear_ground_goes_before_paper (Desk *desk, gconstpointer data)
{
  cairo_t *cr = paper_new (60, 60, NULL);
  g_autoptr (HwArtwork) artwork = NULL;

  disc (cr, "#ffffff", 30, 30, 20);
  disc (cr, "#ffffff", 30, 30, 5);
  save (desk, cr, "moon.png", "300");
  artwork = load (desk, NULL);
  assert_area (artwork, G_PI * 400);
  g_assert_cmpstr (artwork->threads[0].name, ==, "chalk white");
}

static void
test_paper_is_kept_on_wish (Desk *desk, gconstpointer data)
{
  HwArtworkWishes wishes = { .transparent_only = TRUE };
  cairo_t *cr = paper_new (60, 40, "#d8cbb0");
  g_autoptr (HwArtwork) artwork = NULL;

  disc (cr, "#1d4a34", 30, 20, 10);
  save (desk, cr, "patch.png", "300");
  artwork = load (desk, &wishes);
  assert_area (artwork, 60 * 40);
}

static void
test_person_says_how_fine_it_is (Desk *desk, gconstpointer data)
{
  HwArtworkWishes wishes = { .pixels_per_mm = SCALE / 2 };
  cairo_t *cr = paper_new (60, 40, "#ffffff");
  g_autoptr (HwArtwork) said = NULL;
  g_autoptr (HwArtwork) unsaid = NULL;

  box (cr, "#1d4a34", 10, 10, 30, 20);
  save (desk, cr, "bed.png", NULL);
  said = load (desk, &wishes);
  assert_area (said, 4 * 600);
  g_assert_false (said->size_guessed);
  unsaid = load (desk, NULL);
  g_assert_true (unsaid->size_guessed);
  assert_area (unsaid, 600 * pow (300.0 / 96, 2));
}

static void
test_blurred_edge_is_found_in_its_middle (Desk *desk, gconstpointer data)
{
  cairo_t *cr = paper_new (60, 60, "#f0ead8");
  g_autoptr (HwArtwork) artwork = NULL;

  for (guint i = 0; i <= 8; i++) /* a fringe of 0.2 mm */
    {
      cairo_set_source_rgba (cr, 0.1, 0.2, 0.4, i < 8 ? 0.2 : 1);
      cairo_arc (cr, 30, 30, 20.1 - i * 0.025, 0, 2 * G_PI);
      cairo_fill (cr);
    }
  save (desk, cr, "pond.jpg", "300");
  artwork = load (desk, NULL);
  assert_area (artwork, G_PI * 400);
}

static void
test_many_colours_become_twelve_threads_at_most (Desk *desk, gconstpointer data)
{
  cairo_t *cr = paper_new (100, 100, "#ffffff");
  g_autoptr (HwArtwork) artwork = NULL;
  guint64 seen = 0;

  for (guint i = 0; i < 36; i++)
    {
      g_autofree char *colour
          = g_strdup_printf ("#%02x%02x%02x", i % 3 * 100 + 10, i / 3 % 4 * 70 + 10, i / 12 * 100);

      box (cr, colour, 5 + i % 6 * 15, 5 + i / 6 * 15, 15 - 0.2 * (i % 5), 15);
    }
  save (desk, cr, "patchwork.png", "300");
  artwork = load (desk, NULL);
  g_assert_cmpuint (artwork->n_threads, >=, 8);
  g_assert_cmpuint (artwork->n_threads, <=, 12);
  for (guint i = 0; i < artwork->n_threads; i++)
    for (guint k = 0; k < i; k++)
      {
        g_assert_cmpstr (artwork->threads[i].name, !=, artwork->threads[k].name);
        seen++;
      }
  g_assert_cmpuint (seen, >, 0);
}

static void
test_shades_of_one_thread_are_joined (Desk *desk, gconstpointer data)
{
  cairo_t *cr = paper_new (60, 60, "#ffffff");
  g_autoptr (HwArtwork) artwork = NULL;

  box (cr, "#54682c", 5, 5, 30, 50);
  box (cr, "#586c30", 35, 5, 10, 50);
  box (cr, "#dc2420", 45, 5, 10, 50);
  save (desk, cr, "hedge.png", "300");
  artwork = load (desk, NULL);
  g_assert_cmpuint (artwork->n_threads, ==, 2);
  g_assert_cmpstr (artwork->threads[0].name, ==, "moss green");
  g_assert_cmpstr (artwork->threads[1].name, ==, "poppy red");
}

/* The content says what a file is, whatever its name. */
static void
test_content_tells_the_kind (Desk *desk, gconstpointer data)
{
  static const char list[] = "x_mm,y_mm,action,thread\n0,0,stitch,moss\n10,0,stitch,moss\n10,8,stitch,moss\n"
                             "0,8,stitch,oak\n";
  g_autoptr (HwArtwork) needles = NULL;
  g_autoptr (HwArtwork) drawing = NULL;

  put (desk, "gate.png", list, -1);
  needles = hw_artwork_load (desk->path, NULL, NULL);
  g_assert_nonnull (needles);
  g_assert_cmpint (needles->kind, ==, HW_ARTWORK_NEEDLES);
  g_assert_cmpstr (hw_artwork_nicks[needles->kind], ==, "needles");
  g_assert_nonnull (needles->needles);
  g_assert_null (needles->picture);
  g_assert_cmpuint (needles->n_threads, ==, 2);
  g_assert_cmpuint (needles->threads[0].stitches, ==, 3);
  g_assert_true (hw_outline_contains (needles->outline, (HwPoint){ 10, 4 })); /* in the list's own mm */
  put (desk, "gate.csv",
       "<?xml version='1.0'?>\n<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='40mm' viewBox='0 "
       "0 4 4'>"
       "<rect x='1' y='1' width='2' height='2'/></svg>",
       -1);
  drawing = load (desk, NULL);
  g_assert_cmpint (drawing->kind, ==, HW_ARTWORK_SVG);
  assert_area (drawing, 400);
}

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

static cairo_status_t
gather (void *text, const unsigned char *data, unsigned int length)
{
  g_string_append_len (text, (const char *)data, length);
  return CAIRO_STATUS_SUCCESS;
}

static GString *
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

static void
test_pages_of_a_pdf (Desk *desk, gconstpointer data)
{
  g_autoptr (GString) pdf = two_page_pdf ();
  HwArtworkWishes second = { .page = 2 }, third = { .page = 3 };
  g_autoptr (HwArtwork) one = NULL;
  g_autoptr (HwArtwork) two = NULL;

  put (desk, "gates.pdf", pdf->str, (gssize)pdf->len);
  one = load (desk, NULL);
  assert_area (one, 2 * 25.4 * 25.4);
  g_assert_cmpuint (one->n_pages, ==, 2);
  two = load (desk, &second);
  assert_area (two, G_PI * 25.4 * 25.4);
  assert_refused (desk, &third, HW_ARTWORK_ERROR_PAGE);
  put (desk, "torn.pdf", pdf->str, 300);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_FORMAT);
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
  g_unlink (desk->path);
  assert_refused (desk, NULL, HW_ARTWORK_ERROR_READ);
}

static void
test_large_pages_are_drawn_as_fine_as_memory_allows (Desk *desk, gconstpointer data)
{
  static const struct
  {
    double side, finest;
  } pages[] = { { 100, 300 / 25.4 }, { 400, 10 }, { 2000, 2 } };

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autoptr (HwArtwork) artwork = NULL;
      g_autofree char *text = g_strdup_printf (
          "<svg xmlns='http://www.w3.org/2000/svg' width='%gmm' height='%gmm' viewBox='0 0 4 4'>"
          "<rect x='1' y='1' width='2' height='2'/></svg>",
          pages[i].side, pages[i].side);

      put (desk, "cloth.svg", text, -1);
      artwork = load (desk, NULL);
      g_assert_cmpfloat_with_epsilon (artwork->pixels_per_mm, pages[i].finest, 1e-9);
      assert_area (artwork, pages[i].side * pages[i].side / 4);
    }
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
  g_assert_cmpfloat (g_test_timer_last (), <, 60);
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

#define ADD(path, data, test) g_test_add (path, Desk, data, desk_set_up, test, desk_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/artwork/scan-on-paper", "scan.png", test_scan_on_paper);
  ADD ("/artwork/scan-on-paper-as-jpeg", "scan.jpg", test_scan_on_paper);
  ADD ("/artwork/picture-lies-under-its-outline", NULL, test_picture_lies_under_its_outline);
  ADD ("/artwork/clear-ground-goes-before-paper", NULL, test_clear_ground_goes_before_paper);
  ADD ("/artwork/paper-is-kept-on-wish", NULL, test_paper_is_kept_on_wish);
  ADD ("/artwork/person-says-how-fine-it-is", NULL, test_person_says_how_fine_it_is);
  ADD ("/artwork/blurred-edge-is-found-in-its-middle", NULL, test_blurred_edge_is_found_in_its_middle);
  ADD ("/artwork/many-colours-become-twelve-threads-at-most", NULL,
       test_many_colours_become_twelve_threads_at_most);
  ADD ("/artwork/shades-of-one-thread-are-joined", NULL, test_shades_of_one_thread_are_joined);
  ADD ("/artwork/content-tells-the-kind", NULL, test_content_tells_the_kind);
  ADD ("/artwork/drawing-fetches-nothing", NULL, test_drawing_fetches_nothing);
  ADD ("/artwork/pages-of-a-pdf", NULL, test_pages_of_a_pdf);
  ADD ("/artwork/bad-files-are-refused-in-a-sentence", NULL, test_bad_files_are_refused_in_a_sentence);
  ADD ("/artwork/large-pages-are-drawn-as-fine-as-memory-allows", NULL,
       test_large_pages_are_drawn_as_fine_as_memory_allows);
  ADD ("/artwork/entangled-drawing-ends", NULL, test_entangled_drawing_ends);
  ADD ("/artwork/damaged-files", NULL, test_damaged_files);
  return g_test_run ();
}

/* Artwork from files: ground, holes and specks, colours, places. True sizes are checked against their standards in tests/outside. */
#include "artwork-desk.h"

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

/* How much of the light is left at x, y (0 to 1 across the page). */
typedef double (*Light) (double x, double y);

static double
light_falls_off (double x, double y)
{
  return 1 - 0.3 * x - 0.12 * y;
}

static double
shadow_at_one_side (double x, double y)
{
  return 1 - 0.45 * x * x;
}

static double
lamp_in_a_corner (double x, double y)
{
  return 1 - 0.25 * (x * x + y * y);
}

static double
soft_shadow_across (double x, double y)
{
  return 1 - 0.25 / (1 + exp (-14 * (x + 0.3 * y - 0.6)));
}

static void
shade (cairo_t *cr, Light light)
{
  cairo_surface_t *surface = cairo_get_target (cr);
  int width = cairo_image_surface_get_width (surface), height = cairo_image_surface_get_height (surface);

  cairo_surface_flush (surface);
  for (int y = 0; y < height; y++)
    {
      guint8 *row
          = cairo_image_surface_get_data (surface) + (gsize)y * cairo_image_surface_get_stride (surface);

      for (int x = 0; x < width; x++)
        for (guint c = 0; c < 3; c++)
          row[4 * x + c] = (guint8)(row[4 * x + c] * light ((double)x / width, (double)y / height) + 0.5);
    }
  cairo_surface_mark_dirty (surface);
}

/* Pale thread and dark, a hole, and one edge of the page that is part covered. */
static void
test_scan_in_uneven_light (Desk *desk, gconstpointer data)
{
  static const Light lights[] = { light_falls_off, shadow_at_one_side, lamp_in_a_corner, soft_shadow_across };

  for (guint i = 0; i < G_N_ELEMENTS (lights); i++)
    {
      cairo_t *cr = paper_new (80, 60, "#f4efe2");
      g_autoptr (HwArtwork) artwork = NULL;

      disc (cr, "#1d4a34", 35, 30, 20);
      disc (cr, "#f4efe2", 35, 30, 8);
      box (cr, "#e0b060", 62, 10, 10, 20);
      box (cr, "#204080", 62, 50, 12, 10);
      shade (cr, lights[i]);
      save (desk, cr, "dusk.png", "300");
      artwork = load (desk, NULL);
      assert_area (artwork, G_PI * (400 - 64) + 200 + 120);
      g_assert_cmpuint (artwork->outline->n_rings, ==, 4);
      g_assert_cmpuint (artwork->n_threads, ==, 3);
    }
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
  disc (cr, "#204080", 22, 22, 0.3); /* dust */
  save (desk, cr, "quay.png", "300");
  artwork = load (desk, NULL);
  g_assert_cmphex (picture_pixel (artwork, -14.7, -20.2), ==, 0xff204080);
  g_assert_cmphex (picture_pixel (artwork, 14.7, 20.2), ==, 0xff204080);
  g_assert_cmphex (picture_pixel (artwork, 23 - 25.03, 23 - 25.54), ==, 0); /* the hole */
  g_assert_cmphex (picture_pixel (artwork, 22 - 25.03, 22 - 25.54), ==, 0);
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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/artwork/scan-on-paper", "scan.png", test_scan_on_paper);
  ADD ("/artwork/scan-on-paper-as-jpeg", "scan.jpg", test_scan_on_paper);
  ADD ("/artwork/scan-in-uneven-light", NULL, test_scan_in_uneven_light);
  ADD ("/artwork/picture-lies-under-its-outline", NULL, test_picture_lies_under_its_outline);
  ADD ("/artwork/clear-ground-goes-before-paper", NULL, test_clear_ground_goes_before_paper);
  ADD ("/artwork/paper-is-kept-on-wish", NULL, test_paper_is_kept_on_wish);
  ADD ("/artwork/person-says-how-fine-it-is", NULL, test_person_says_how_fine_it_is);
  ADD ("/artwork/blurred-edge-is-found-in-its-middle", NULL, test_blurred_edge_is_found_in_its_middle);
  ADD ("/artwork/many-colours-become-twelve-threads-at-most", NULL,
       test_many_colours_become_twelve_threads_at_most);
  ADD ("/artwork/shades-of-one-thread-are-joined", NULL, test_shades_of_one_thread_are_joined);
  ADD ("/artwork/content-tells-the-kind", NULL, test_content_tells_the_kind);
  ADD ("/artwork/pages-of-a-pdf", NULL, test_pages_of_a_pdf);
  ADD ("/artwork/large-pages-are-drawn-as-fine-as-memory-allows", NULL,
       test_large_pages_are_drawn_as_fine_as_memory_allows);
  return g_test_run ();
}

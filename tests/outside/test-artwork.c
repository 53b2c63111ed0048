/* Artwork by standards and by a second road.
 * Lengths: CSS Values and Units Module Level 3, section 6.2 (1 in = 2.54 cm = 96 px, 1 pc = 1/6 in, 1 pt = 1/72 in); SVG 1.1 (Second Edition), sections 7.8
 * (preserveAspectRatio) and 7.10 (units); ISO 32000-1:2008, 8.3.2.3 (1/72 inch) and table 30 (MediaBox, CropBox, Rotate); ISO 216 (A4 is 210 x 297 mm).
 * Passwords: PDFs locked by qpdf (qpdf 11, https://qpdf.readthedocs.io). Contours: scikit-image 0.19 (skimage.measure.find_contours, marching squares by its own
 * code) and Shapely 1.8. */
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "formats/artwork.h"
#include "geometry/region.h"
#include "python-road.h"

static HwArtwork *
load_text (const char *ending, const char *text, GError **error)
{
  g_autofree char *path = NULL;
  g_autofree char *form = g_strconcat ("artwork-XXXXXX", ending, NULL);
  int file = g_file_open_tmp (form, &path, NULL);
  HwArtwork *artwork;

  g_assert_cmpint (file, >=, 0);
  g_close (file, NULL);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  artwork = hw_artwork_load (path, NULL, error);
  g_unlink (path);
  return artwork;
}

static void
test_css_lengths (void)
{
  static const struct
  {
    const char *width, *height;
    double mm_across, mm_down;
  } sizes[] = {
    { "96", "192px", 25.4, 50.8 },           { "2in", "1in", 50.8, 25.4 },  { "5cm", "8cm", 50, 80 },
    { "72pt", "144pt", 25.4, 50.8 },         { "6pc", "12pc", 25.4, 50.8 }, { "33.5mm", "20mm", 33.5, 20 },
    { "210mm", "297mm", 210, 297 } /* A4 */, { "1e2mm", "+30mm", 100, 30 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *text = g_strdup_printf (
          "<svg xmlns='http://www.w3.org/2000/svg' width='%s' height='%s' viewBox='0 0 8 8' "
          "preserveAspectRatio='none'><rect x='2' y='2' width='4' height='4'/></svg>",
          sizes[i].width, sizes[i].height);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwArtwork) artwork = load_text (".svg", text, &error);

      g_assert_no_error (error);
      g_assert_cmpfloat_with_epsilon (artwork->width, sizes[i].mm_across, 1e-4);
      g_assert_cmpfloat_with_epsilon (artwork->height, sizes[i].mm_down, 1e-4);
      g_assert_false (artwork->size_guessed);
      g_assert_cmpfloat_with_epsilon (artwork->outline->box.x1, sizes[i].mm_across / 4, 0.05);
      g_assert_cmpfloat_with_epsilon (artwork->outline->box.y1, sizes[i].mm_down / 4, 0.05);
    }
}

/* Without width and height a user unit is a px; the file's word for that is no true size. */
static void
test_user_units (void)
{
  static const char *const drawings[] = {
    "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 192 288'><rect x='48' y='48' width='96' "
    "height='192'/></svg>",
    "<svg xmlns='http://www.w3.org/2000/svg' width='100%' height='100%' viewBox='0 0 192 288'>"
    "<rect x='48' y='48' width='96' height='192'/></svg>",
    "<svg xmlns='http://www.w3.org/2000/svg'><rect x='48' y='48' width='96' height='192'/></svg>",
  };

  for (guint i = 0; i < G_N_ELEMENTS (drawings); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HwArtwork) artwork = load_text (".svg", drawings[i], &error);

      g_assert_no_error (error);
      g_assert_true (artwork->size_guessed);
      g_assert_cmpfloat_with_epsilon (artwork->outline->box.x1, 12.7, 0.05);
      g_assert_cmpfloat_with_epsilon (artwork->outline->box.y1, 25.4, 0.05);
    }
}

static void
test_aspect_is_kept (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwArtwork) artwork
      = load_text (".svg",
                   "<svg xmlns='http://www.w3.org/2000/svg' width='80mm' height='40mm' viewBox='0 0 1 1'>"
                   "<circle cx='0.5' cy='0.5' r='0.5'/></svg>",
                   &error);

  g_assert_no_error (error);
  g_assert_cmpfloat (fabs (hw_outline_area (artwork->outline) / (G_PI * 400) - 1), <, 0.01);
  g_assert_cmpfloat_with_epsilon (artwork->centre.x, 40, 0.05);
  g_assert_cmpfloat_with_epsilon (artwork->centre.y, 20, 0.05);
}

/* One page with the given entries and a filled rectangle of 144 x 72 units at (108, 200). */
static char *
pdf_text (const char *entries)
{
  g_autoptr (GString) text = g_string_new ("%PDF-1.6\n");
  gsize at[5];

  at[1] = text->len;
  g_string_append (text, "1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n");
  at[2] = text->len;
  g_string_append (text, "2 0 obj\n<</Type/Pages/Kids[3 0 R]/Count 1>>\nendobj\n");
  at[3] = text->len;
  g_string_append_printf (
      text, "3 0 obj\n<</Type/Page/Parent 2 0 R/Contents 4 0 R/Resources<<>>%s>>\nendobj\n", entries);
  at[4] = text->len;
  g_string_append (text, "4 0 obj\n<</Length 21>>\nstream\n108 200 144 72 re f \n\nendstream\nendobj\n");
  g_string_append_printf (text, "xref\n0 5\n0000000000 65535 f \n");
  gsize end = text->len - strlen ("xref\n0 5\n0000000000 65535 f \n");
  for (guint i = 1; i < 5; i++)
    g_string_append_printf (text, "%010" G_GSIZE_FORMAT " 00000 n \n", at[i]);
  g_string_append_printf (text, "trailer\n<</Size 5/Root 1 0 R>>\nstartxref\n%" G_GSIZE_FORMAT "\n%%%%EOF\n",
                          end);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
test_pdf_units (void)
{
  static const struct
  {
    const char *entries;
    double width, height, x, y, across,
        down; /* mm: page, the rectangle's middle from its top left, the rectangle */
  } pages[] = {
    { "/MediaBox[0 0 288 432]", 101.6, 152.4, 63.5, 69.144444, 50.8, 25.4 },
    { "/MediaBox[0 0 595.275591 841.889764]", 210, 297, 63.5, 213.744444, 50.8, 25.4 },
    { "/MediaBox[0 0 288 432]/Rotate 90", 152.4, 101.6, 83.255556, 63.5, 25.4, 50.8 },
    { "/MediaBox[0 0 288 432]/CropBox[72 144 288 432]", 76.2, 101.6, 38.1, 69.144444, 50.8, 25.4 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autofree char *text = pdf_text (pages[i].entries);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwArtwork) artwork = load_text (".pdf", text, &error);

      g_assert_no_error (error);
      g_assert_cmpfloat_with_epsilon (artwork->width, pages[i].width, 1e-4);
      g_assert_cmpfloat_with_epsilon (artwork->height, pages[i].height, 1e-4);
      g_assert_cmpfloat_with_epsilon (artwork->centre.x, pages[i].x, 0.05);
      g_assert_cmpfloat_with_epsilon (artwork->centre.y, pages[i].y, 0.05);
      g_assert_cmpfloat_with_epsilon (artwork->outline->box.x1 * 2, pages[i].across, 0.05);
      g_assert_cmpfloat_with_epsilon (artwork->outline->box.y1 * 2, pages[i].down, 0.05);
    }
}

/* Locked with a password, and locked only against changes, which anybody may read. */
static void
test_pdf_passwords (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *plain = g_build_filename (folder, "plain.pdf", NULL);
  g_autofree char *locked = g_build_filename (folder, "locked.pdf", NULL);
  g_autofree char *text = pdf_text ("/MediaBox[0 0 288 432]");

  g_assert_true (g_file_set_contents (plain, text, -1, NULL));
  for (guint open = 0; open < 2; open++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HwArtwork) artwork = NULL;
      g_autoptr (GSubprocess) qpdf
          = g_subprocess_new (G_SUBPROCESS_FLAGS_NONE, &error, "qpdf", "--encrypt", open ? "" : "quince",
                              "medlar", "256", "--", plain, locked, NULL);

      g_assert_no_error (error);
      g_assert_true (g_subprocess_wait_check (qpdf, NULL, &error));
      artwork = hw_artwork_load (locked, NULL, &error);
      g_assert_true ((artwork != NULL) == open);
      if (!open)
        g_assert_error (error, HW_ARTWORK_ERROR, HW_ARTWORK_ERROR_PASSWORD);
    }
  g_unlink (plain);
  g_unlink (locked);
  g_rmdir (folder);
}

#define N_MASKS 60
#define SIDE 48

/* Soft hills, some sinking into hollows. */
static void
random_mask (guint8 *mask)
{
  double hills[7][4];

  for (guint k = 0; k < G_N_ELEMENTS (hills); k++)
    {
      hills[k][0] = g_test_rand_double_range (0, SIDE);
      hills[k][1] = g_test_rand_double_range (0, SIDE);
      hills[k][2] = g_test_rand_double_range (20, 120);
      hills[k][3] = g_test_rand_double_range (-250, 450);
    }
  for (guint y = 0; y < SIDE; y++)
    for (guint x = 0; x < SIDE; x++)
      {
        double sum = 0;

        for (guint k = 0; k < G_N_ELEMENTS (hills); k++)
          sum += hills[k][3] * exp (-(pow (x - hills[k][0], 2) + pow (y - hills[k][1], 2)) / hills[k][2]);
        mask[y * SIDE + x] = (guint8)lround (CLAMP (sum, 0, 255));
      }
}

/* Lines: the mask, then the outline's rings. Answers: area of the contours by the even-odd rule, how far outline and contours lie apart at
 * most, the length of the contours, and whether both must agree on the rings: where opaque pixels touch at corners only, scikit-image
 * never joins them, and a ring about as large as a speck may be dropped by one alone. */
static const char *const script
    = "import sys\n"
      "import numpy\n"
      "from skimage.measure import find_contours\n"
      "from shapely.geometry import LinearRing, MultiLineString, Polygon\n"
      "side = 48\n"
      "for line in sys.stdin:\n"
      "    numbers = iter([float(word) for word in line.split()])\n"
      "    mask = numpy.array([next(numbers) for _ in range(side * side)]).reshape(side, side)\n"
      "    rings = []\n"
      "    for _ in range(int(next(numbers))):\n"
      "        n = int(next(numbers))\n"
      "        rings.append(LinearRing([(next(numbers), next(numbers)) for _ in range(n)]))\n"
      "    found = find_contours(numpy.pad(mask, 1), 127.5)\n"
      "    theirs = [LinearRing([(x - 0.5, y - 0.5) for y, x in ring]) for ring in found if len(ring) > 3]\n"
      "    plain = not any(3 < Polygon(ring).area < 5 for ring in theirs)\n"
      "    opaque = numpy.pad(mask, 1) > 127.5\n"
      "    a, b, c, d = opaque[:-1, :-1], opaque[:-1, 1:], opaque[1:, :-1], opaque[1:, 1:]\n"
      "    plain = plain and not ((a == d) & (b == c) & (a != b)).any()\n"
      "    theirs = [ring for ring in theirs if Polygon(ring).area >= 4]\n"
      "    area = Polygon()\n"
      "    for ring in theirs:\n"
      "        area = area.symmetric_difference(Polygon(ring))\n"
      "    far = MultiLineString(rings).hausdorff_distance(MultiLineString(theirs)) if rings and theirs else "
      "0.0\n"
      "    print(len(theirs), *(repr(float(x)) for x in (area.area, far, area.length, plain)))\n";

static void
test_contours_against_scikit_image (void)
{
  g_autoptr (GString) input = g_string_new (NULL);
  g_autoptr (GPtrArray) outlines = g_ptr_array_new ();
  g_auto (GStrv) lines = NULL;
  guint drawn = 0, many = 0;

  for (guint n = 0; n < N_MASKS; n++)
    {
      guint8 mask[SIDE * SIDE];
      HwOutline *outline;

      random_mask (mask);
      outline = hw_trace_mask (mask, SIDE, SIDE, SIDE, 1, 0.1, 4);
      g_ptr_array_add (outlines, outline);
      for (guint i = 0; i < SIDE * SIDE; i++)
        append_number (input, mask[i]);
      append_number (input, outline != NULL ? outline->n_rings : 0);
      for (guint r = 0; outline != NULL && r < outline->n_rings; r++)
        {
          append_number (input, outline->rings[r].n_points);
          for (guint i = 0; i < outline->rings[r].n_points; i++)
            {
              append_number (input, outline->rings[r].points[i].x);
              append_number (input, outline->rings[r].points[i].y);
            }
        }
      g_string_append_c (input, '\n');
    }
  lines = python_road (script, input->str);
  g_assert_cmpuint (g_strv_length (lines), ==, N_MASKS);
  for (guint n = 0; n < N_MASKS; n++)
    {
      HwOutline *outline = g_ptr_array_index (outlines, n);
      double theirs[5];

      g_assert_cmpuint (read_numbers (lines[n], theirs, 5), ==, 5);
      if (theirs[4] > 0)
        g_assert_cmpuint (outline != NULL ? outline->n_rings : 0, ==, (guint)theirs[0]);
      if (outline == NULL || !(theirs[4] > 0))
        {
          g_clear_pointer (&outline, hw_outline_unref);
          continue;
        }
      g_assert_cmpfloat (fabs (hw_outline_area (outline) - theirs[1]), <, 0.25 * theirs[3]);
      g_assert_cmpfloat (theirs[2], <, 0.4); /* pixels: simplification takes 0.3, walking 0.02 */
      many += outline->n_rings > 1;
      drawn++;
      hw_outline_unref (outline);
    }
  g_assert_cmpuint (many, >, N_MASKS / 10);
  g_assert_cmpuint (drawn, >, N_MASKS / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/artwork/css-lengths", test_css_lengths);
  g_test_add_func ("/outside/artwork/user-units", test_user_units);
  g_test_add_func ("/outside/artwork/aspect-is-kept", test_aspect_is_kept);
  g_test_add_func ("/outside/artwork/pdf-units", test_pdf_units);
  g_test_add_func ("/outside/artwork/pdf-passwords", test_pdf_passwords);
  g_test_add_func ("/outside/artwork/contours-against-scikit-image", test_contours_against_scikit_image);
  return g_test_run ();
}

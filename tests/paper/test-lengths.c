/* What is printed is as long as it says: read back from the PDF by poppler to 0.1 mm. */
#include <math.h>

#include "garden.h"
#include "printed.h"

#define TOLERANCE 0.1 /* mm */

static const char *const sheets[] = { "A4", "Letter", "A3", "Tabloid", "Legal" };

/* The check bar stands at the foot of every sheet: 100 mm above 4 inches. */
static void
assert_check_bar (PopplerDocument *document, double margin, double foot)
{
  double width, height, from, to;
  int n = poppler_document_get_n_pages (document);

  for (int i = 0; i < n; i++)
    {
      g_autoptr (PopplerPage) page = poppler_document_get_page (document, i);
      cairo_surface_t *strip;

      poppler_page_get_size (page, &width, &height);
      height *= 25.4 / 72;
      strip = printed_strip (document, i, margin - 5, height - foot - 14, 112, 14);
      g_assert_true (dark_extent (strip, 1.6 + 4.2 + 0.1, 128, &from, &to));
      g_assert_cmpfloat_with_epsilon (to - from, 100, TOLERANCE);
      g_assert_cmpfloat_with_epsilon (from, 5, TOLERANCE);
      g_assert_true (dark_extent (strip, 1.6 + 4.2 + 1.1 + 0.6 + 0.1, 128, &from, &to));
      g_assert_cmpfloat_with_epsilon (to - from, 4 * 25.4, TOLERANCE);
      cairo_surface_destroy (strip);
    }
}

static void
test_check_bars (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();

  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    {
      g_autoptr (PopplerDocument) templates = printed (plan, HW_PAPER_TEMPLATES, sheets[s], HW_UNIT_MM, NULL);
      g_autoptr (PopplerDocument) layout = printed (plan, HW_PAPER_LAYOUT, sheets[s], HW_UNIT_MM, NULL);
      g_autoptr (PopplerDocument) sheet = printed (plan, HW_PAPER_BENCH_SHEET, sheets[s], HW_UNIT_INCH, NULL);

      assert_check_bar (templates, 10, 10);
      assert_check_bar (layout, 10, 10);
      assert_check_bar (sheet, 18, 12);
    }
}

/* Upright or lying, each page is the sheet of the standard. */
static void
test_pages_are_the_sheet (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();

  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    {
      const HwSheetSize *size = hw_sheet_size_find (sheets[s]);
      g_autoptr (PopplerDocument) layout = printed (plan, HW_PAPER_LAYOUT, sheets[s], HW_UNIT_MM, NULL);

      for (int i = 0; i < poppler_document_get_n_pages (layout); i++)
        {
          g_autoptr (PopplerPage) page = poppler_document_get_page (layout, i);
          double width, height;

          poppler_page_get_size (page, &width, &height);
          g_assert_cmpfloat_with_epsilon (MIN (width, height) * 25.4 / 72, size->width, TOLERANCE);
          g_assert_cmpfloat_with_epsilon (MAX (width, height) * 25.4 / 72, size->height, TOLERANCE);
        }
    }
}

/* A plan of one plain rectangle: its outline as printed is as wide and as high as motif times scale,
 * whatever its turn on the cloth. The strip is read away from the axis lines. */
static void
assert_outline (double width, double height, double scale, const char *sheet)
{
  g_autoptr (HwPlan) bare = garden_plan_bare ();
  HwMotif *motif = hw_motif_new ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (PopplerDocument) document = NULL;
  g_autoptr (PopplerPage) page = NULL;
  cairo_surface_t *strip;
  double page_width, page_height, from, to, middle = 0;
  guint lines = 0;

  motif->id = g_strdup ("m1");
  motif->name = g_strdup ("Garden bed");
  motif->outline = hw_outline_new_rectangle (width, height);
  motif->placement = (HwPlacement){ { 200, 150 }, 33, scale, TRUE };
  g_ptr_array_add (bare->snapshot->motifs, motif);
  plan = hw_plan_new (bare->snapshot);
  document = printed (plan, HW_PAPER_TEMPLATES, sheet, HW_UNIT_MM, NULL);
  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 1);

  page = poppler_document_get_page (document, 0);
  poppler_page_get_size (page, &page_width, &page_height);
  page_width *= 25.4 / 72;
  page_height *= 25.4 / 72;
  strip = printed_strip (document, 0, 0, 0, page_width, page_height);

  /* Rows where the dark reaches over the whole width are the outline's: the sides, and top and bottom as lines. */
  for (int row = 40 * PIXELS_PER_MM; row < (int)((page_height - 30) * PIXELS_PER_MM); row++)
    if (dark_extent (strip, (row + 0.5) / PIXELS_PER_MM, 100, &from, &to) && to - from > width * scale * 0.9)
      {
        middle += (row + 0.5) / PIXELS_PER_MM;
        lines++;
      }
  g_assert_cmpuint (lines, >, 0);
  middle /= lines;
  /* From middle to middle of the outline's line, 0.35 mm wide; read a quarter above the middle, off the axis line. */
  g_assert_true (dark_extent (strip, middle - height * scale / 4, 100, &from, &to));
  g_assert_cmpfloat_with_epsilon (to - from - 0.35, width * scale, TOLERANCE);
  g_assert_cmpfloat_with_epsilon ((double)lines / PIXELS_PER_MM - 0.35, height * scale, TOLERANCE);
  cairo_surface_destroy (strip);
}

static void
test_outlines_are_true_to_size (void)
{
  assert_outline (80, 50, 1, "A4");
  assert_outline (80, 50, 1.137, "Letter");
  assert_outline (120, 90, 0.913, "A3");
  assert_outline (100, 140, 1, "Tabloid");
}

/* On the layout the motifs lie as on the cloth, and for the back just so long. */
static void
assert_on_layout (double width, double height, const char *sheet, gboolean mirrored)
{
  g_autoptr (HwPlan) bare = garden_plan_bare ();
  HwMotif *motif = hw_motif_new ();
  HwPaperOptions options = {
    .kind = HW_PAPER_LAYOUT, .sheet = hw_sheet_size_find (sheet), .sheet_margin = 10, .mirrored = mirrored
  };
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (PopplerDocument) document = NULL;
  cairo_surface_t *strip;
  double from, to;

  motif->id = g_strdup ("m1");
  motif->name = g_strdup ("Garden bed");
  motif->outline = hw_outline_new_rectangle (width, height);
  motif->placement = (HwPlacement){ { 70, 60 }, 0, 1, FALSE };
  g_clear_pointer (&bare->snapshot->edge_line, hw_edge_line_unref);
  bare->snapshot->fabric.width = bare->snapshot->fabric.height = 150;
  g_ptr_array_add (bare->snapshot->motifs, motif);
  plan = hw_plan_new (bare->snapshot);
  document = printed_with (plan, &options, NULL);
  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 1);

  /* The cloth's corner is 1 mm in from the margin; its own edge is a dashed line that the strip leaves out. */
  strip = printed_strip (document, 0, 13, 13, 144, 144);
  g_assert_true (dark_extent (strip, 60 - height / 3 - 2, 100, &from, &to));
  g_assert_cmpfloat_with_epsilon (to - from - 0.35, width, TOLERANCE);
  g_assert_cmpfloat_with_epsilon ((from + to) / 2 + 2, mirrored ? 150 - 70 : 70, TOLERANCE);
  cairo_surface_destroy (strip);
}

static void
test_the_layout_is_true_to_size (void)
{
  for (guint s = 0; s < 4; s++)
    for (int mirrored = 0; mirrored < 2; mirrored++)
      assert_on_layout (100 - 7 * s, 60, sheets[s], mirrored);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lengths/check-bars-measure-true", test_check_bars);
  g_test_add_func ("/lengths/pages-are-the-sheet", test_pages_are_the_sheet);
  g_test_add_func ("/lengths/outlines-are-true-to-size", test_outlines_are_true_to_size);
  g_test_add_func ("/lengths/the-layout-is-true-to-size", test_the_layout_is_true_to_size);

  return g_test_run ();
}

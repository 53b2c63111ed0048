/* A printer that is not true: the test sheet measures as it says, and what is drawn longer or shorter is so by the factor, on every
 * sheet, with nothing cut off. Read back from the PDF by poppler. */
#include <math.h>
#include <string.h>

#include "../../src/paper/test-sheet.h"
#include "garden.h"
#include "printed.h"

#define TOLERANCE 0.1 /* mm */
#define MARGIN 10.0

static const char *const sheets[] = { "A4", "Letter", "A3", "Tabloid" };

static HwPaperOptions
options_for (HwPaperKind kind, const char *sheet, double stretch_x, double stretch_y)
{
  return (HwPaperOptions){ .kind = kind,
                           .sheet = hw_sheet_size_find (sheet),
                           .sheet_margin = MARGIN,
                           .tile_overlap = 10,
                           .stretch_x = stretch_x,
                           .stretch_y = stretch_y };
}

static void
page_size (PopplerDocument *document, int number, double *width, double *height)
{
  g_autoptr (PopplerPage) page = poppler_document_get_page (document, number);

  poppler_page_get_size (page, width, height);
  *width *= 25.4 / 72;
  *height *= 25.4 / 72;
}

static gboolean
is_dark (cairo_surface_t *strip, int x, int y)
{
  const guint32 *row = (const guint32 *)(const void *)(cairo_image_surface_get_data (strip)
                                                       + (gsize)y * cairo_image_surface_get_stride (strip));

  return ((row[x] >> 8) & 255) < 128;
}

/* The longest unbroken dark run of a row or column, mm. */
static double
dark_run (cairo_surface_t *strip, gboolean along_x, int at)
{
  int n = along_x ? cairo_image_surface_get_width (strip) : cairo_image_surface_get_height (strip);
  int longest = 0, run = 0;

  for (int i = 0; i < n; i++)
    {
      run = is_dark (strip, along_x ? i : at, along_x ? at : i) ? run + 1 : 0;
      longest = MAX (longest, run);
    }
  return (double)longest / PIXELS_PER_MM;
}

/* The check bar at the foot of a page, the 100 mm one: its upper rule is the first unbroken line from above that is nearly as long. */
static double
bar_length (PopplerDocument *document, int number)
{
  double width, height, found = 0;
  cairo_surface_t *strip;

  page_size (document, number, &width, &height);
  strip = printed_strip (document, number, 5, height - 22, 130, 15);
  for (int y = 0; y < cairo_image_surface_get_height (strip) && found < 85; y++)
    found = dark_run (strip, TRUE, y);
  cairo_surface_destroy (strip);
  return found;
}

/* Both lines of a test sheet, from end line to end line. */
static void
read_lines (PopplerDocument *document, double *across, double *down)
{
  double width, height, from = 0, to = 0;
  cairo_surface_t *strip;
  int first = -1, last = -1, x = (int)(3 * PIXELS_PER_MM);

  page_size (document, 0, &width, &height);
  /* Half way down the ends of the line across: below its line, above the foot. */
  strip = printed_strip (document, 0, 0, height - 33, width, 2);
  g_assert_true (dark_extent (strip, 1, 160, &from, &to));
  *across = to - from - 0.15;
  cairo_surface_destroy (strip);

  /* Left of the line down, in from the end of its end lines. */
  strip = printed_strip (document, 0, 9.5, 0, 4, height - 40);
  for (int y = 0; y < cairo_image_surface_get_height (strip); y++)
    if (is_dark (strip, x, y))
      {
        first = first < 0 ? y : first;
        last = y;
      }
  g_assert_cmpint (first, >=, 0);
  *down = (double)(last + 1 - first) / PIXELS_PER_MM - 0.15;
  cairo_surface_destroy (strip);
}

static void
test_the_test_sheet_measures_as_it_says (void)
{
  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    for (int unit = HW_UNIT_MM; unit <= HW_UNIT_INCH; unit++)
      {
        HwPaperOptions options = options_for (HW_PAPER_TEST_SHEET, sheets[s], 0, 0);
        g_autoptr (PopplerDocument) document = NULL;
        g_autofree char *text = NULL, *says_across = NULL, *says_down = NULL;
        double across, down, named_across, named_down;

        options.unit = (HwUnit)unit;
        g_assert_true (hw_test_sheet_lengths (options.sheet, options.unit, &named_across, &named_down));
        document = printed_with (NULL, &options, NULL);
        read_lines (document, &across, &down);
        g_assert_cmpfloat_with_epsilon (across, named_across, TOLERANCE);
        g_assert_cmpfloat_with_epsilon (down, named_down, TOLERANCE);

        says_across = g_strdup_printf (unit == HW_UNIT_INCH ? "across, %.2f in" : "across, %.1f mm",
                                       unit == HW_UNIT_INCH ? named_across / 25.4 : named_across);
        says_down = g_strdup_printf (unit == HW_UNIT_INCH ? "down, %.2f in" : "down, %.1f mm",
                                     unit == HW_UNIT_INCH ? named_down / 25.4 : named_down);
        text = printed_text (document, 0);
        g_assert_nonnull (strstr (text, says_across));
        g_assert_nonnull (strstr (text, says_down));
        g_assert_cmpfloat_with_epsilon (bar_length (document, 0), 100, TOLERANCE);
      }
}

static void
test_lines_are_as_long_as_a_ruler_can_read (void)
{
  double across, down;

  g_assert_true (hw_test_sheet_lengths (hw_sheet_size_find ("A4"), HW_UNIT_MM, &across, &down));
  g_assert_cmpfloat (across, ==, 180);
  g_assert_cmpfloat (down, ==, 240);
  g_assert_true (hw_test_sheet_lengths (hw_sheet_size_find ("Letter"), HW_UNIT_INCH, &across, &down));
  g_assert_cmpfloat_with_epsilon (across, 7.5 * 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (down, 8.5 * 25.4, 1e-9);
}

/* Every kind of paper, upright and turned: a printer that draws the corrected bar gives 100 mm. */
static void
assert_bars (const HwPlan *plan, HwPaperKind kind, const char *sheet, double stretch_x, double stretch_y)
{
  HwPaperOptions options = options_for (kind, sheet, stretch_x, stretch_y);
  g_autoptr (PopplerDocument) document = printed_with (plan, &options, NULL);
  int last = poppler_document_get_n_pages (document) - 1;

  for (int i = g_str_equal (sheet, "A4") ? 0 : last; i <= last; i += MAX (last, 1))
    {
      double width, height;

      page_size (document, i, &width, &height);
      g_assert_cmpfloat_with_epsilon (MIN (width, height), options.sheet->width, 0.01);
      g_assert_cmpfloat_with_epsilon (MAX (width, height), options.sheet->height, 0.01);
      g_assert_cmpfloat_with_epsilon (bar_length (document, i),
                                      100 * (width > height ? stretch_y : stretch_x), TOLERANCE);
    }
}

static void
test_every_kind_has_a_bar_that_is_stretched (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();

  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    for (int kind = HW_PAPER_TEMPLATES; kind <= HW_PAPER_TEST_SHEET; kind++)
      assert_bars (plan, (HwPaperKind)kind, sheets[s], s % 2 == 0 ? 1.024 : 0.981,
                   s % 2 == 0 ? 0.987 : 1.013);
}

/* The outline of a rectangle, alone on its template: the longest dark run of a row and of a column. */
static void
assert_outline (double width, double height, const char *sheet, double stretch_x, double stretch_y)
{
  g_autoptr (HwPlan) bare = garden_plan_bare ();
  HwMotif *motif = hw_motif_new ();
  HwPaperOptions options = options_for (HW_PAPER_TEMPLATES, sheet, stretch_x, stretch_y);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (PopplerDocument) document = NULL;
  double page_width, page_height, across = 0, down = 0, line = 0.35;
  gboolean turned;
  cairo_surface_t *strip;

  motif->id = g_strdup ("m1");
  motif->name = g_strdup ("Garden bed");
  motif->outline = hw_outline_new_rectangle (width, height);
  motif->placement = (HwPlacement){ { 200, 150 }, 0, 1, FALSE };
  g_ptr_array_add (bare->snapshot->motifs, motif);
  plan = hw_plan_new (bare->snapshot);
  document = printed_with (plan, &options, NULL);
  page_size (document, 0, &page_width, &page_height);
  turned = page_width > page_height;
  strip = printed_strip (document, 0, 0, 0, page_width, page_height - 30);
  for (int y = 0; y < cairo_image_surface_get_height (strip); y += 2)
    across = fmax (across, dark_run (strip, TRUE, y));
  for (int x = 0; x < cairo_image_surface_get_width (strip); x += 2)
    down = fmax (down, dark_run (strip, FALSE, x));
  cairo_surface_destroy (strip);

  g_assert_cmpfloat_with_epsilon (across, (width + line) * (turned ? stretch_y : stretch_x), TOLERANCE);
  g_assert_cmpfloat_with_epsilon (down, (height + line) * (turned ? stretch_x : stretch_y), TOLERANCE);
}

static void
test_outlines_are_stretched_both_ways (void)
{
  assert_outline (120, 90, "A4", 1.031, 0.972);
  assert_outline (220, 90, "A4", 0.985, 1.019); /* lies on a turned sheet */
  assert_outline (90, 140, "Letter", 0.96, 1.04);
  assert_outline (150, 200, "A3", 1.011, 1.006);
  assert_outline (200, 120, "Tabloid", 1.05, 0.95);
}

/* Made as much longer as is ever allowed, all letters stay within the margins. */
static void
test_nothing_is_cut_off (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  const double mm = 72 / 25.4, slack = 1.4;

  for (int kind = HW_PAPER_TEMPLATES; kind <= HW_PAPER_TEST_SHEET; kind++)
    {
      HwPaperOptions options = options_for ((HwPaperKind)kind, "A4", 1.11, 1.11);
      g_autoptr (PopplerDocument) document = NULL;

      if (kind == HW_PAPER_LAYOUT) /* a window on the cloth, that cuts words */
        continue;
      document = printed_with (plan, &options, NULL);
      for (int i = 0; i < poppler_document_get_n_pages (document); i++)
        {
          g_autoptr (PopplerPage) page = poppler_document_get_page (document, i);
          g_autofree PopplerRectangle *boxes = NULL;
          double width, height;
          guint n = 0;

          poppler_page_get_size (page, &width, &height);
          poppler_page_get_text_layout (page, &boxes, &n);
          g_assert_cmpuint (n, >, 20);
          for (guint k = 0; k < n; k++)
            {
              g_assert_cmpfloat (boxes[k].x1, >=, (MARGIN - slack) * mm);
              g_assert_cmpfloat (boxes[k].y1, >=, (MARGIN - slack - 1) * mm);
              g_assert_cmpfloat (boxes[k].x2, <=, width - (MARGIN - slack) * mm);
              g_assert_cmpfloat (boxes[k].y2, <=, height - (MARGIN - slack) * mm);
            }
        }
    }
}

/* The whole round: a printer that makes paper too short across and too long down is measured, and then what it prints is true. */
static void
test_a_measured_printer_comes_out_true (void)
{
  const HwSheetSize *a4 = hw_sheet_size_find ("A4");
  const double printer_x = 0.978, printer_y = 1.0145;
  HwPaperOptions options = options_for (HW_PAPER_TEST_SHEET, "A4", 0, 0);
  g_autoptr (PopplerDocument) uncorrected = printed_with (NULL, &options, NULL);
  g_autoptr (PopplerDocument) corrected = NULL;
  g_autoptr (GError) error = NULL;
  double across, down;

  read_lines (uncorrected, &across, &down);
  g_assert_true (hw_test_sheet_stretch (a4, HW_UNIT_MM, across * printer_x, down * printer_y,
                                        &options.stretch_x, &options.stretch_y, &error));
  g_assert_no_error (error);
  corrected = printed_with (NULL, &options, NULL);
  g_assert_cmpfloat_with_epsilon (bar_length (corrected, 0) * printer_x, 100, TOLERANCE);
}

static void
assert_refused (double across, double down, const char *sentence)
{
  g_autoptr (GError) error = NULL;
  double x = 0, y = 0;

  g_assert_false (
      hw_test_sheet_stretch (hw_sheet_size_find ("A4"), HW_UNIT_MM, across, down, &x, &y, &error));
  g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_MEASURED);
  g_assert_nonnull (strstr (error->message, sentence));
  g_assert_cmpfloat (x, ==, 0);
  g_assert_cmpfloat (y, ==, 0);
}

static void
test_more_than_a_tenth_off_is_refused (void)
{
  const HwSheetSize small = { "card", 100, 148 };
  g_autoptr (GError) error = NULL;
  double x, y;

  g_assert_true (hw_test_sheet_stretch (hw_sheet_size_find ("A4"), HW_UNIT_MM, 162, 264, &x, &y, NULL));
  g_assert_cmpfloat_with_epsilon (x, 1 / 0.9, 1e-9);
  g_assert_cmpfloat_with_epsilon (y, 1 / 1.1, 1e-9);
  assert_refused (161.5, 240,
                  "The line across is 180.0 mm long on this sheet, so 161.5 mm is more than a tenth off");
  assert_refused (180, 264.5, "The line down is 240.0 mm long");
  assert_refused (7.1, 9.4, "across"); /* inches typed for millimetres */
  g_assert_true (hw_test_sheet_stretch (&small, HW_UNIT_MM, 70, 90, &x, &y, NULL));
  g_assert_false (
      hw_test_sheet_stretch (&(HwSheetSize){ "label", 60, 90 }, HW_UNIT_MM, 30, 30, &x, &y, &error));
  g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/true-size/the-test-sheet-measures-as-it-says", test_the_test_sheet_measures_as_it_says);
  g_test_add_func ("/true-size/lines-are-as-long-as-a-ruler-can-read",
                   test_lines_are_as_long_as_a_ruler_can_read);
  g_test_add_func ("/true-size/every-kind-has-a-bar-that-is-stretched",
                   test_every_kind_has_a_bar_that_is_stretched);
  g_test_add_func ("/true-size/outlines-are-stretched-both-ways", test_outlines_are_stretched_both_ways);
  g_test_add_func ("/true-size/nothing-is-cut-off", test_nothing_is_cut_off);
  g_test_add_func ("/true-size/a-measured-printer-comes-out-true", test_a_measured_printer_comes_out_true);
  g_test_add_func ("/true-size/more-than-a-tenth-off-is-refused", test_more_than_a_tenth_off_is_refused);

  return g_test_run ();
}

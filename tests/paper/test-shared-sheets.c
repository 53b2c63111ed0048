/* Small templates that share sheets: each once, on nothing else, true to size, and named when it is cut out. */
#include <string.h>

#include "../../src/paper/nest-pages.h"
#include "garden.h"
#include "printed.h"

#define MARGIN 10.0
#define FOOT 14.0
#define TOLERANCE 0.1 /* mm */
#define LINE 0.35     /* an outline's width */

static const char *const sheets[] = { "A4", "Letter", "A3", "Tabloid" };

static HwPaperOptions
options_for (HwPaperKind kind, const char *sheet)
{
  return (HwPaperOptions){
    .kind = kind, .sheet = hw_sheet_size_find (sheet), .sheet_margin = MARGIN, .tile_overlap = 10
  };
}

static HwPrintJob *
make_job (const HwPlan *plan, const HwPaperOptions *options)
{
  g_autoptr (GError) error = NULL;
  HwPrintJob *job = hw_print_job_new (plan, options, &error);

  g_assert_no_error (error);
  return job;
}

static void
assert_says (PopplerDocument *document, int page, const char *words)
{
  g_autofree char *text = printed_text (document, page);

  if (strstr (text, words) == NULL)
    g_error ("page %d does not say \"%s\": %s", page + 1, words, text);
}

static HwPlan *
assorted_plan (guint n)
{
  HwPlan *plan = garden_plan_large (n, 30);

  for (guint i = 0; i < n; i++)
    ((HwMotif *)g_ptr_array_index (plan->snapshot->motifs, i))->placement.scale
        = g_test_rand_int_range (0, 8) == 0 ? g_test_rand_double_range (1.5, 5)
                                            : g_test_rand_double_range (0.15, 1.4);
  return plan;
}

static void
assert_pieces (const HwPrintJob *job, const HwPage *page, guint *printed_times)
{
  guint n;
  const HwNestedPiece *pieces = hw_nest_page_pieces (page, &n);

  if (pieces == NULL)
    {
      if (page->part == 0)
        printed_times[page->subject]++;
      return;
    }
  for (guint i = 0; i < n; i++)
    {
      HwBox a = pieces[i].box;

      printed_times[pieces[i].motif]++;
      g_assert_cmpfloat (a.x0, >=, MARGIN - 1e-6);
      g_assert_cmpfloat (a.y0, >=, MARGIN - 1e-6);
      g_assert_cmpfloat (a.x1, <=, page->width - MARGIN + 1e-6);
      g_assert_cmpfloat (a.y1, <=, page->height - MARGIN - FOOT + 1e-6);
      for (guint k = 0; k < i; k++)
        {
          HwBox b = pieces[k].box;

          g_assert_true (a.x1 <= b.x0 + 1e-6 || b.x1 <= a.x0 + 1e-6 || a.y1 <= b.y0 + 1e-6
                         || b.y1 <= a.y0 + 1e-6);
        }
    }
}

/* Each motif once, nothing on anything else, all within the margins, and never more sheets. */
static void
test_shared_sheets (void)
{
  for (guint round = 0; round < 24; round++)
    {
      guint n = (guint)g_test_rand_int_range (1, 24);
      g_autoptr (HwPlan) plan = assorted_plan (n);
      HwPaperOptions options = options_for (HW_PAPER_TEMPLATES, sheets[round % 4]);
      g_autoptr (HwPrintJob) alone = make_job (plan, &options);
      g_autoptr (HwPrintJob) shared = NULL;
      g_autofree guint *times = g_new0 (guint, n);

      options.nested = TRUE;
      options.mirrored = round % 3 == 0;
      options.unit = round % 2 == 0 ? HW_UNIT_MM : HW_UNIT_INCH;
      shared = make_job (plan, &options);
      g_assert_cmpuint (hw_print_job_n_pages (shared), <=, hw_print_job_n_pages (alone));
      for (guint p = 0; p < shared->pages->len; p++)
        assert_pieces (shared, g_ptr_array_index (shared->pages, p), times);
      for (guint i = 0; i < n; i++)
        g_assert_cmpuint (times[i], ==, 1);
    }
}

static void
test_what_is_cut_out_says_what_it_is (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPaperOptions options = options_for (HW_PAPER_TEMPLATES, "A3");
  g_autoptr (PopplerDocument) document = NULL;
  g_autoptr (PopplerDocument) back = NULL;

  options.nested = TRUE;
  document = printed_with (plan, &options, NULL);
  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 1);
  for (guint i = 0; i < 5; i++)
    assert_says (document, 0, hw_snapshot_motif (plan->snapshot, i)->name);
  assert_says (document, 0, "45 × 36 mm · at 90 %");
  assert_says (document, 0, "Hooping 1 · mirrored, turned 30° clockwise");
  assert_says (document, 0, "top");
  assert_says (document, 0, "Templates 1, 2, 3, 4, 5: cut along the dashed lines");

  options.mirrored = TRUE;
  back = printed_with (plan, &options, NULL);
  assert_says (back, 0, "For the back: mirrored.");
  assert_says (back, 0, "turned 30° anticlockwise");
}

static void
test_only_a_part_is_nested (void)
{
  g_autoptr (HwPlan) plan = assorted_plan (6);
  HwPaperOptions options = options_for (HW_PAPER_TEMPLATES, "A3");
  const char *const lower[] = { "m1", "m4", NULL };
  g_autoptr (HwPrintJob) job = NULL;
  g_autofree guint *times = g_new0 (guint, 6);

  g_ptr_array_add (plan->snapshot->parts, hw_part_new ("Lower wall", lower));
  options.nested = TRUE;
  options.part = 1;
  job = make_job (plan, &options);
  for (guint p = 0; p < job->pages->len; p++)
    assert_pieces (job, g_ptr_array_index (job->pages, p), times);
  for (guint i = 0; i < 6; i++)
    g_assert_cmpuint (times[i], ==, hw_print_job_takes_motif (job, i) ? 1 : 0);
}

/* Rows of a strip in which the dark reaches at least so wide: from the first to the last, mm. */
static gboolean
wide_rows (cairo_surface_t *strip, double wide, double *first, double *last)
{
  double from, to;
  gboolean found = FALSE;

  for (int row = 0; row < cairo_image_surface_get_height (strip); row++)
    if (dark_extent (strip, (row + 0.5) / PIXELS_PER_MM, 100, &from, &to) && to - from >= wide)
      {
        *first = found ? *first : (double)row / PIXELS_PER_MM;
        *last = (row + 1.0) / PIXELS_PER_MM;
        found = TRUE;
      }

  return found;
}

/* Two beds on one sheet, the second too long for its width unless it is turned. */
static HwPlan *
beds_plan (double width, double height)
{
  g_autoptr (HwPlan) bare = garden_plan_bare ();

  for (guint i = 0; i < 2; i++)
    {
      HwMotif *motif = hw_motif_new ();

      motif->id = g_strdup_printf ("m%u", i + 1);
      motif->name = g_strdup ("Bed");
      motif->outline = hw_outline_new_rectangle (width, height);
      motif->placement = (HwPlacement){ { 200, 150 }, 33, 1, FALSE };
      g_ptr_array_add (bare->snapshot->motifs, motif);
    }

  return hw_plan_new (bare->snapshot);
}

/* Read inside the cut line, below the words (or right of them, where the piece is turned). */
static void
assert_bed (PopplerDocument *document, int page, const HwNestedPiece *piece, double width, double height)
{
  const double words = 18, cut = 1;
  double left = piece->box.x0 + (piece->turned ? words : cut),
         top = piece->box.y0 + (piece->turned ? cut : words);
  cairo_surface_t *strip
      = printed_strip (document, page, left, top, piece->box.x1 - cut - left, piece->box.y1 - cut - top);
  double across = piece->turned ? height : width, down = piece->turned ? width : height;
  double first = 0, last = 0, from, to;

  g_assert_true (wide_rows (strip, across - 1, &first, &last));
  g_assert_cmpfloat_with_epsilon (last - first - LINE, down, TOLERANCE);
  g_assert_true (dark_extent (strip, first + down * 0.25, 100, &from, &to));
  g_assert_cmpfloat_with_epsilon (to - from - LINE, across, TOLERANCE);
  cairo_surface_destroy (strip);
}

static void
test_shared_templates_are_true_to_size (void)
{
  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    {
      const HwSheetSize *sheet = hw_sheet_size_find (sheets[s]);
      double width = sheet->width * 0.62, height = sheet->width * 0.31;
      g_autoptr (HwPlan) plan = beds_plan (width, height);
      HwPaperOptions options = options_for (HW_PAPER_TEMPLATES, sheets[s]);
      g_autoptr (HwPrintJob) job = NULL;
      g_autoptr (PopplerDocument) document = NULL;
      const HwNestedPiece *pieces;
      guint n = 0;

      options.nested = TRUE;
      job = make_job (plan, &options);
      document = printed_with (plan, &options, NULL);
      g_assert_cmpuint (job->pages->len, ==, 1);
      pieces = hw_nest_page_pieces (g_ptr_array_index (job->pages, 0), &n);
      g_assert_cmpuint (n, ==, 2);
      for (guint i = 0; i < n; i++)
        assert_bed (document, 0, &pieces[i], width, height);
    }
}

static void
test_a_stamp_is_refused (void)
{
  const HwSheetSize stamp = { "stamp", 40, 50 };
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPaperOptions options
      = { .kind = HW_PAPER_TEMPLATES, .sheet = &stamp, .sheet_margin = 10, .nested = TRUE };
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_print_job_new (plan, &options, &error));
  g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shared-sheets/each-motif-once-and-never-more-sheets", test_shared_sheets);
  g_test_add_func ("/shared-sheets/what-is-cut-out-says-what-it-is", test_what_is_cut_out_says_what_it_is);
  g_test_add_func ("/shared-sheets/only-a-part", test_only_a_part_is_nested);
  g_test_add_func ("/shared-sheets/true-to-size", test_shared_templates_are_true_to_size);
  g_test_add_func ("/shared-sheets/a-stamp-is-refused", test_a_stamp_is_refused);

  return g_test_run ();
}

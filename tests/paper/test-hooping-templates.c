/* The template of a whole hooping: its motifs and marks lie as in the hoop, true to size. */
#include <string.h>

#include "../../src/paper/hooping-template.h"
#include "garden.h"
#include "printed.h"

#define MARGIN 10.0
#define FOOT 14.0
#define TOLERANCE 0.1 /* mm */
#define FIELD_LINE 0.5

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

static void
test_a_hooping_has_its_template (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPaperOptions options = options_for (HW_PAPER_HOOPING_TEMPLATES, "A3");
  g_autoptr (PopplerDocument) document = printed_with (plan, &options, NULL);
  g_autoptr (PopplerDocument) small = NULL;

  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 2);
  assert_says (document, 0, "Hooping 1");
  assert_says (document, 0, "Hoop 200 × 300 · field 200 × 300 mm · turned 12.5° clockwise");
  assert_says (document, 0, "100.0 mm right, 115.0 mm down");
  for (guint i = 0; i < 3; i++)
    assert_says (document, 0, hw_snapshot_motif (plan->snapshot, i)->name);
  assert_says (document, 0, "110 %");
  assert_says (document, 0, "Prick through");
  assert_says (document, 0, "before the first stitch");
  assert_says (document, 1, "Sundial");

  options.sheet = hw_sheet_size_find ("A4");
  small = printed_with (plan, &options, NULL);
  g_assert_cmpint (poppler_document_get_n_pages (small), >, 2);
  assert_says (small, 0, "part A1 of");
}

/* Where a template says a motif lies is where the hooping stitches it. */
static void
test_motifs_lie_as_in_the_hoop (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPaperOptions options = options_for (HW_PAPER_HOOPING_TEMPLATES, "A3");

  for (guint back = 0; back < 2; back++)
    {
      g_autoptr (HwPrintJob) job = NULL;
      HwHoopingTemplate *template;

      options.mirrored = back;
      job = make_job (plan, &options);
      template = hw_hooping_template_new (job, 0, 1);
      for (guint i = 0; i < template->n_motifs; i++)
        {
          const HwHoopedMotif *hooped = &template->motifs[i];
          const HwMotif *motif = hw_snapshot_motif (plan->snapshot, plan->hoopings[0].motifs[i]);
          HwPoint own = motif->outline->rings[0].points[7];
          HwPoint seen = hw_hooping_template_point (template, hw_placement_apply (&motif->placement, own));
          HwPoint turned = hw_point_turn (hooped->motif->shape->rings[0].points[7], hooped->turn);

          g_assert_cmpfloat_with_epsilon (seen.x, hooped->at.x + turned.x, 1e-9);
          g_assert_cmpfloat_with_epsilon (seen.y, hooped->at.y + turned.y, 1e-9);
        }
      hw_hooping_template_free (template);
    }
}

static void
test_no_hooping_no_template (void)
{
  g_autoptr (HwPlan) plan = garden_plan_bare ();
  HwPaperOptions options = options_for (HW_PAPER_HOOPING_TEMPLATES, "A4");
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_print_job_new (plan, &options, &error));
  g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_NOTHING);
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

/* The field's place on its sheet, from its lines; its size is asserted. */
static HwPoint
read_field (PopplerDocument *document, const HwPrintJob *job, double width, double height)
{
  const HwPage *page = g_ptr_array_index (job->pages, 0);
  double from, to, first = 0, last = 0, top = MARGIN + 24;
  cairo_surface_t *strip
      = printed_strip (document, 0, 0, top, page->width, page->height - top - MARGIN - FOOT - 1);

  g_assert_true (wide_rows (strip, width - 1, &first, &last));
  g_assert_cmpfloat_with_epsilon (last - first - FIELD_LINE, height, TOLERANCE);
  /* Near the field's top no motif, mark nor axis line reaches beyond its sides. */
  g_assert_true (dark_extent (strip, first + 6, 100, &from, &to));
  g_assert_cmpfloat_with_epsilon (to - from - FIELD_LINE, width, TOLERANCE);
  cairo_surface_destroy (strip);

  return (HwPoint){ (from + to) / 2, top + (first + last) / 2 };
}

/* The arms of a target, left and right of the point to prick through and above and below it. */
static void
assert_target (PopplerDocument *document, HwPoint at)
{
  cairo_surface_t *strip = printed_strip (document, 0, at.x - 8, at.y - 0.5, 16, 1);
  double from, to, first = 0, last = 0;

  g_assert_true (dark_extent (strip, 0.5, 128, &from, &to));
  g_assert_cmpfloat_with_epsilon ((from + to) / 2, 8, TOLERANCE);
  g_assert_cmpfloat_with_epsilon (to - from, 10, TOLERANCE);
  cairo_surface_destroy (strip);

  strip = printed_strip (document, 0, at.x - 0.15, at.y, 0.3, 8);
  for (double y = 0; y < 8; y += 0.05)
    if (dark_extent (strip, y, 128, &from, &to))
      {
        first = first > 0 ? first : y;
        last = y + 0.05;
      }
  g_assert_cmpfloat_with_epsilon (last, 5, TOLERANCE);
  g_assert_cmpfloat (first, >, 0.3); /* open in the middle */
  cairo_surface_destroy (strip);
}

/* Sundial's hooping with two marks that lie in its field. */
static HwPlan *
sundial_plan (void)
{
  HwPlan *plan = garden_plan ();
  HwHooping *h = &plan->hoopings[1];

  h->n_marks = 2;
  h->marks[0] = (HwMark){ "C", { 330, 90 } };
  h->marks[1] = (HwMark){ "D", { 250.4, 232.3 } };
  return plan;
}

static void
test_field_and_marks_are_true (void)
{
  static const char *const sheets[] = { "A4", "Letter", "A3", "Tabloid" };
  static const char *const wall[] = { "m1", "m2", "m3", NULL }, *const dial[] = { "m4", NULL };
  g_autoptr (HwPlan) plan = sundial_plan ();
  const HwHooping *h = &plan->hoopings[1];

  g_ptr_array_add (plan->snapshot->parts, hw_part_new ("Wall", wall));
  g_ptr_array_add (plan->snapshot->parts, hw_part_new ("Dial", dial));
  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    for (int back = 0; back < 2; back++)
      {
        HwPaperOptions options = options_for (HW_PAPER_HOOPING_TEMPLATES, sheets[s]);
        g_autoptr (HwPrintJob) job = NULL;
        g_autoptr (PopplerDocument) document = NULL;
        HwPoint centre;

        options.mirrored = back;
        options.part = 2;
        job = make_job (plan, &options);
        document = printed_with (plan, &options, NULL);
        g_assert_cmpuint (job->pages->len, ==, 1);
        centre = read_field (document, job, 130, 180);
        for (guint m = 0; m < h->n_marks; m++)
          {
            double u = h->marks[m].at.x - h->centre.x, v = h->marks[m].at.y - h->centre.y;

            assert_target (document, (HwPoint){ centre.x + (back ? -u : u), centre.y + v });
          }
      }
}

/* Heads and feet stay on the paper; what lies in the window may be cut by it. */
static void
test_heads_and_feet_stay_within_the_margins (void)
{
  const char *const sheets[] = { "A4", "Letter", "Tabloid" };
  g_autoptr (HwPlan) plan = garden_plan ();
  const double mm = 72 / 25.4;

  for (guint i = 0; i < 3; i++)
    {
      HwMotif *motif = g_ptr_array_index (plan->snapshot->motifs, i);

      g_free (motif->name);
      motif->name = g_strdup ("The oldest climbing rose of all, over the gate and half along the wall");
    }
  for (guint round = 0; round < 6; round++)
    {
      HwPaperOptions options = options_for (HW_PAPER_HOOPING_TEMPLATES, sheets[round % 3]);
      g_autoptr (PopplerDocument) document = NULL;

      options.mirrored = round % 2 == 0;
      options.unit = round < 3 ? HW_UNIT_INCH : HW_UNIT_MM;
      document = printed_with (plan, &options, NULL);
      for (int i = 0; i < poppler_document_get_n_pages (document); i++)
        {
          g_autoptr (PopplerPage) page = poppler_document_get_page (document, i);
          g_autofree PopplerRectangle *boxes = NULL;
          double width, height;
          guint n = 0;

          poppler_page_get_size (page, &width, &height);
          poppler_page_get_text_layout (page, &boxes, &n);
          for (guint k = 0; k < n; k++)
            if (boxes[k].y2 < (MARGIN + 20) * mm || boxes[k].y1 > height - (MARGIN + FOOT) * mm)
              {
                g_assert_cmpfloat (boxes[k].x1, >=, (MARGIN - 1.2) * mm);
                g_assert_cmpfloat (boxes[k].x2, <=, width - (MARGIN - 1.2) * mm);
              }
        }
    }
}

static void
test_a_stamp_is_refused (void)
{
  const HwSheetSize stamp = { "stamp", 40, 50 };
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPaperOptions options = { .kind = HW_PAPER_HOOPING_TEMPLATES, .sheet = &stamp, .sheet_margin = 10 };
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_print_job_new (plan, &options, &error));
  g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hooping-templates/a-hooping-has-its-template", test_a_hooping_has_its_template);
  g_test_add_func ("/hooping-templates/motifs-lie-as-in-the-hoop", test_motifs_lie_as_in_the_hoop);
  g_test_add_func ("/hooping-templates/field-and-marks-are-true", test_field_and_marks_are_true);
  g_test_add_func ("/hooping-templates/heads-and-feet-stay-within-the-margins",
                   test_heads_and_feet_stay_within_the_margins);
  g_test_add_func ("/hooping-templates/no-hooping-no-template", test_no_hooping_no_template);
  g_test_add_func ("/hooping-templates/a-stamp-is-refused", test_a_stamp_is_refused);

  return g_test_run ();
}

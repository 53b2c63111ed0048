/* What is on the pages, and that nothing runs off them. */
#include <math.h>
#include <string.h>

#include "garden.h"
#include "printed.h"

/* Every letter lies on the paper a printer can reach. A layout is a window on the cloth: words on the cloth
 * may be cut by it, so there only the foot is looked at. */
static void
assert_within_margins (PopplerDocument *document, double margin, gboolean only_foot)
{
  for (int i = 0; i < poppler_document_get_n_pages (document); i++)
    {
      g_autoptr (PopplerPage) page = poppler_document_get_page (document, i);
      g_autofree PopplerRectangle *boxes = NULL;
      double width, height, slack = 1.2, mm = 72 / 25.4;
      guint n = 0;

      poppler_page_get_size (page, &width, &height);
      poppler_page_get_text_layout (page, &boxes, &n);
      g_assert_cmpuint (n, >, 20);
      for (guint k = 0; k < n; k++)
        {
          if (only_foot && boxes[k].y1 < height - (margin + 14) * mm)
            continue;
          g_assert_cmpfloat (boxes[k].x1, >=, (margin - slack) * mm);
          g_assert_cmpfloat (boxes[k].y1, >=, (margin - slack - 1) * mm);
          g_assert_cmpfloat (boxes[k].x2, <=, width - (margin - slack) * mm);
          g_assert_cmpfloat (boxes[k].y2, <=, height - (margin - slack) * mm);
        }
    }
}

static void
assert_says (PopplerDocument *document, int page, const char *words)
{
  g_autofree char *text = printed_text (document, page);

  if (strstr (text, words) == NULL)
    g_error ("page %d does not say \"%s\": %s", page + 1, words, text);
}

static void
rename_motif (HwPlan *plan, guint index, const char *name)
{
  HwMotif *motif = hw_motif_copy (hw_snapshot_motif (plan->snapshot, index));

  g_free (motif->name);
  motif->name = g_strdup (name);
  hw_motif_unref (g_ptr_array_index (plan->snapshot->motifs, index));
  plan->snapshot->motifs->pdata[index] = motif;
}

static void
test_each_motif_has_its_template (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_TEMPLATES, "A4", HW_UNIT_MM, NULL);

  for (int i = 0; i < 5; i++)
    assert_says (document, i, hw_snapshot_motif (plan->snapshot, (guint)i)->name);
  assert_says (document, 1, "45 × 36 mm");
  assert_says (document, 1, "90 %");
  assert_says (document, 1, "mirrored");
  assert_says (document, 1, "Hooping 1");
  assert_says (document, 3, "Hooping 2");
  assert_says (document, 0, "Take this template off before the first stitch");
}

static void
test_a_wide_template_is_tiled (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_TEMPLATES, "A4", HW_UNIT_MM, NULL);

  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 6);
  assert_says (document, 4, "part A1 of 2 × 1");
  assert_says (document, 4, "B1 goes on here");
  assert_says (document, 5, "part B1 of 2 × 1");
  assert_says (document, 5, "cut here, lay on A1");
  assert_says (document, 4, "A1 · B1");
  assert_says (document, 5, "A1 · B1");
  assert_says (document, 4, "No hooping takes it yet");
}

/* The page that bears the heading and says the words. */
static int
find_page (PopplerDocument *document, const char *heading, const char *words)
{
  for (int i = 0; i < poppler_document_get_n_pages (document); i++)
    {
      g_autofree char *text = printed_text (document, i);

      if (g_str_has_prefix (text, heading) && strstr (text, words) != NULL)
        return i;
    }
  g_error ("no page \"%s\" says \"%s\"", heading, words);
}

static void
test_bench_sheet_tells_the_whole_plan (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  int first = find_page (document, "Hooping 1", "TAKE ALL TEMPLATES OFF.");
  int second = find_page (document, "Hooping 2", "TAKE THE TEMPLATE OFF.");

  assert_says (document, 0, "The Walled Garden");
  assert_says (document, 0, "14.0 mm too long");
  find_page (document, "", "may be stitched and shared freely");
  g_assert_cmpint (second, ==, first + 1);
  assert_says (document, first, "100.0 mm right, 115.0 mm down");
  assert_says (document, first, "turned 12.5° clockwise");
  assert_says (document, first, "Keep fingers");
  assert_says (document, second, "108.0 mm right, 130.0 mm up");
  assert_says (document, second, "4.5 mm");
}

static void
test_inches_with_millimetres_beside (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "Letter", HW_UNIT_INCH, NULL);

  find_page (document, "Hooping 2", "9.92 in (252.0 mm) right");
}

static void
test_nothing_leaves_the_margins (void)
{
  const char *const sheets[] = { "A4", "Letter", "A3" };
  g_autoptr (HwPlan) plan = garden_plan_stitched ();

  for (guint i = 0; i < 5; i++)
    rename_motif (
        plan, i,
        "The oldest climbing rose of all, over the gate and half along the wall behind the quince, as it "
        "stood in the summer the well ran dry, drawn from the upper window");
  g_free (plan->snapshot->name);
  plan->snapshot->name = g_strdup ("A walled garden with everything in it that ever grew there, and much "
                                   "that was only wished for, in one cloth");

  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    for (int kind = HW_PAPER_TEMPLATES; kind <= HW_PAPER_DAY_LOG; kind++)
      for (int unit = HW_UNIT_MM; unit <= HW_UNIT_INCH; unit++)
        {
          g_autoptr (PopplerDocument) document
              = printed (plan, (HwPaperKind)kind, sheets[s], (HwUnit)unit, NULL);

          assert_within_margins (document, 10, kind == HW_PAPER_LAYOUT);
        }
}

/* Hoopings of many motifs, many threads and long notes go on to further pages. */
static void
test_much_goes_on_to_further_pages (void)
{
  g_autoptr (HwPlan) plan = garden_plan_large (40, 200);
  HwHooping *first = &plan->hoopings[0];
  g_autoptr (PopplerDocument) document = NULL;
  g_autoptr (GString) all = g_string_new (NULL);

  first->motifs = g_renew (guint, first->motifs, 40);
  first->predicted_error = g_renew (double, first->predicted_error, 40);
  for (guint i = 0; i < 40; i++)
    {
      first->motifs[i] = i;
      first->predicted_error[i] = 0.5;
    }
  first->n_motifs = 40;
  for (guint i = 0; i < 40; i++)
    ((HwMotif *)g_ptr_array_index (plan->snapshot->motifs, i))->note = g_strdup_printf (
        "Note %u: %s", i,
        "drawn for this garden, free to stitch, to change and to pass on as long as this note "
        "goes with it, wherever it is stitched and whoever stitches it.");
  document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);

  assert_within_margins (document, 10, FALSE);
  for (int page = 0; page < poppler_document_get_n_pages (document); page++)
    {
      g_autofree char *text = printed_text (document, page);

      g_string_append (all, text);
    }
  for (guint i = 0; i < 40; i++)
    {
      g_autofree char *note = g_strdup_printf ("Note %u:", i);

      g_assert_nonnull (strstr (all->str, note));
    }
}

/* Below the heading in the column each of the words is found after the one before it. */
static void
assert_in_order (PopplerDocument *document,
                 int page,
                 double x,
                 double width,
                 const char *heading,
                 const char *const *words)
{
  g_autofree char *text = printed_column (document, page, x, width);
  const char *at = strstr (text, heading);

  if (at == NULL)
    g_error ("page %d does not say \"%s\": %s", page + 1, heading, text);
  for (guint i = 0; words[i] != NULL; i++)
    {
      const char *found = strstr (at, words[i]);

      if (found == NULL)
        g_error ("page %d does not say \"%s\" in its turn: %s", page + 1, words[i], text);
      at = found + strlen (words[i]);
    }
}

/* Where the threads of a hooping stand, beside its steps. */
#define THREADS_FROM 100
#define THREADS_WIDTH 95

static void
test_threads_are_listed_as_they_are_stitched (void)
{
  static const char *const turns[]
      = { "1 Fig branch", "moss",  "2 Quince",     "moss",   "brick", "3 Climbing rose",
          "brick",        "slate", "1 Fig branch", "quince", NULL };
  static const char *const after[] = { "4 Sundial", "·", "quince", "1", "chalk", NULL };
  g_autoptr (HwPlan) plan = garden_plan_in_turns ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  int first = find_page (document, "Hooping 1", "motifs take turns");

  g_assert_cmpuint (plan->hoopings[0].thread_changes, ==, 3); /* moss, brick, slate, quince */
  assert_in_order (document, first, THREADS_FROM, THREADS_WIDTH, "Threads in order", turns);
  assert_in_order (document, first + 1, THREADS_FROM, THREADS_WIDTH, "Threads in order", after);
}

/* The same motifs one after the other. */
static void
test_threads_are_listed_motif_by_motif (void)
{
  static const char *const apart[] = { "1 Fig branch",    "moss",  "quince", "2 Quince", "moss", "brick",
                                       "3 Climbing rose", "brick", "slate",  NULL };
  g_autoptr (HwPlan) plan = garden_plan_in_turns ();
  g_autoptr (PopplerDocument) document = NULL;

  g_clear_pointer (&plan->hoopings[0].steps, g_free);
  plan->hoopings[0].n_steps = 0;
  hw_plan_count (plan);
  document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);

  assert_in_order (document, find_page (document, "Hooping 1", "Stitch in this order:"), THREADS_FROM,
                   THREADS_WIDTH, "Threads in order", apart);
}

static void
test_bare_cloth (void)
{
  g_autoptr (HwPlan) plan = garden_plan_bare ();
  HwPaperOptions options = { HW_PAPER_TEMPLATES, hw_sheet_size_find ("A4"), HW_UNIT_MM, 10, 10 };
  g_autoptr (GError) error = NULL;
  g_autoptr (PopplerDocument) sheet = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autoptr (PopplerDocument) layout = printed (plan, HW_PAPER_LAYOUT, "A4", HW_UNIT_MM, NULL);

  assert_says (sheet, 0, "There is nothing to hoop yet.");
  g_assert_cmpint (poppler_document_get_n_pages (layout), >, 1);
  g_assert_null (hw_print_job_new (plan, &options, &error));
  g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_NOTHING);
}

static void
test_too_small_a_sheet_is_refused (void)
{
  const HwSheetSize stamp = { "stamp", 40, 50 };
  g_autoptr (HwPlan) plan = garden_plan ();

  for (int kind = HW_PAPER_TEMPLATES; kind <= HW_PAPER_DAY_LOG; kind++)
    {
      HwPaperOptions options = { (HwPaperKind)kind, &stamp, HW_UNIT_MM, 10, 10 };
      g_autoptr (GError) error = NULL;

      g_assert_null (hw_print_job_new (plan, &options, &error));
      g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET);
    }
}

/* On a sheet narrower than 4 inches between its margins the bar is shorter, and says so. */
static void
test_a_narrow_sheet_says_so (void)
{
  const HwSheetSize strip = { "strip", 110, 300 };
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPaperOptions options = { HW_PAPER_LAYOUT, &strip, HW_UNIT_MM, 10, 10 };
  g_autoptr (GError) error = NULL;
  g_autoptr (HwPrintJob) job = hw_print_job_new (plan, &options, &error);
  double width, height;

  g_assert_no_error (error);
  hw_print_job_page_size (job, 0, &width, &height);
  g_assert_cmpfloat (MIN (width, height), ==, 110);
}

static void
test_a_field_sized_cloth_is_refused (void)
{
  g_autoptr (HwPlan) plan = garden_plan_bare ();
  HwPaperOptions options = { HW_PAPER_LAYOUT, hw_sheet_size_find ("A4"), HW_UNIT_MM, 10, 10 };
  g_autoptr (GError) error = NULL;

  plan->snapshot->fabric.width = 1e6;
  plan->snapshot->fabric.height = 1e6;
  hw_edge_line_unref (plan->snapshot->edge_line);
  plan->snapshot->edge_line
      = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 30, 30, 1e6 - 30, 1e6 - 30 }, 0, 2);
  g_assert_null (hw_print_job_new (plan, &options, &error));
  g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pages/each-motif-has-its-template", test_each_motif_has_its_template);
  g_test_add_func ("/pages/a-wide-template-is-tiled", test_a_wide_template_is_tiled);
  g_test_add_func ("/pages/bench-sheet-tells-the-whole-plan", test_bench_sheet_tells_the_whole_plan);
  g_test_add_func ("/pages/inches-with-millimetres-beside", test_inches_with_millimetres_beside);
  g_test_add_func ("/pages/nothing-leaves-the-margins", test_nothing_leaves_the_margins);
  g_test_add_func ("/pages/much-goes-on-to-further-pages", test_much_goes_on_to_further_pages);
  g_test_add_func ("/pages/threads-are-listed-as-they-are-stitched",
                   test_threads_are_listed_as_they_are_stitched);
  g_test_add_func ("/pages/threads-are-listed-motif-by-motif", test_threads_are_listed_motif_by_motif);
  g_test_add_func ("/pages/bare-cloth", test_bare_cloth);
  g_test_add_func ("/pages/too-small-a-sheet-is-refused", test_too_small_a_sheet_is_refused);
  g_test_add_func ("/pages/a-narrow-sheet-says-so", test_a_narrow_sheet_says_so);
  g_test_add_func ("/pages/a-field-sized-cloth-is-refused", test_a_field_sized_cloth_is_refused);

  return g_test_run ();
}

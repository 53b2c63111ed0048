/* The PDF as a file: sound, named, small, and never half written. */
#include <glib/gstdio.h>
#include <string.h>

#include "../../src/paper/template-artwork.h"
#include "garden.h"
#include "printed.h"

static void
remove_print (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  g_unlink (path);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static HwPrintJob *
templates_job (const HwPlan *plan)
{
  HwPaperOptions options = { HW_PAPER_TEMPLATES, hw_sheet_size_find ("A4"), HW_UNIT_MM, 10, 10 };
  g_autoptr (GError) error = NULL;
  HwPrintJob *job = hw_print_job_new (plan, &options, &error);

  g_assert_no_error (error);
  return job;
}

/* qpdf is an independent reader of ISO 32000 files. */
static void
test_an_independent_reader_finds_it_sound (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();

  for (int kind = HW_PAPER_TEMPLATES; kind <= HW_PAPER_BENCH_SHEET; kind++)
    {
      g_autofree char *path = NULL;
      g_autoptr (PopplerDocument) document = printed (plan, (HwPaperKind)kind, "A4", HW_UNIT_MM, &path);
      const char *argv[] = { "qpdf", "--check", path, NULL };
      g_autoptr (GError) error = NULL;
      g_autofree char *out = NULL, *err = NULL;
      int status = -1;

      g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, &err, &status, &error);
      g_assert_no_error (error);
      g_test_message ("%s%s", out, err);
      g_assert_true (g_spawn_check_wait_status (status, &error));
      remove_print (path);
    }
}

static void
test_title_labels_and_contents (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_TEMPLATES, "A4", HW_UNIT_MM, NULL);
  g_autoptr (PopplerPage) page = poppler_document_get_page (document, 2);
  g_autofree char *title = poppler_document_get_title (document);
  g_autofree char *label = poppler_page_get_label (page);
  PopplerIndexIter *contents = poppler_index_iter_new (document);
  guint n = 0;

  g_assert_cmpstr (title, ==, "A garden in print");
  g_assert_cmpstr (label, ==, "T3");
  g_assert_nonnull (contents);
  do
    n++;
  while (poppler_index_iter_next (contents));
  poppler_index_iter_free (contents);
  g_assert_cmpuint (n, ==, 5);
}

static void
test_several_jobs_in_one_file (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPaperOptions options = { HW_PAPER_BENCH_SHEET, hw_sheet_size_find ("A4"), HW_UNIT_MM, 10, 10 };
  HwPrintJob *jobs[2] = { templates_job (plan), hw_print_job_new (plan, &options, NULL) };
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "both.pdf", NULL);
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (PopplerDocument) document = NULL;

  g_assert_true (hw_print_jobs_write_pdf (jobs, 2, "Both", path, NULL, &error));
  document = poppler_document_new_from_file (uri, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (poppler_document_get_n_pages (document), ==,
                   (int)(hw_print_job_n_pages (jobs[0]) + hw_print_job_n_pages (jobs[1])));
  hw_print_job_free (jobs[0]);
  hw_print_job_free (jobs[1]);
  remove_print (path);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;

  return n;
}

static void
test_given_up_leaves_the_old_file_whole (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPrintJob *job = templates_job (plan);
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "old.pdf", NULL), *text = NULL;
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (path, "the old print", -1, NULL));
  g_cancellable_cancel (cancellable);
  g_assert_false (hw_print_jobs_write_pdf (&job, 1, "t", path, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "the old print");
  g_assert_cmpuint (count_files (folder), ==, 1);
  hw_print_job_free (job);
  remove_print (path);
}

static void
assert_refused (const char *path)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPrintJob *job = templates_job (plan);
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_print_jobs_write_pdf (&job, 1, "t", path, NULL, &error));
  g_assert_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_WRITE);
  g_assert_nonnull (strstr (error->message, path));
  hw_print_job_free (job);
}

static void
test_places_that_cannot_be_written (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "no", "such", "place.pdf", NULL);

  assert_refused (folder);
  assert_refused (nowhere);
  assert_refused ("/dev/null");
  g_rmdir (folder);
}

static void
test_a_link_stays_a_link (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPrintJob *job = templates_job (plan);
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *real = g_build_filename (folder, "real.pdf", NULL);
  g_autofree char *link = g_build_filename (folder, "link.pdf", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (link);

  g_assert_true (g_file_set_contents (real, "old", -1, NULL));
  g_assert_true (g_file_make_symbolic_link (file, "real.pdf", NULL, &error));
  g_assert_true (hw_print_jobs_write_pdf (&job, 1, "t", link, NULL, &error));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_get_contents (real, &text, NULL, NULL));
  g_assert_true (g_str_has_prefix (text, "%PDF"));
  hw_print_job_free (job);
  g_unlink (link);
  remove_print (real);
}

/* Pictures of thread, not strokes: a set of templates stays small enough to mail. */
static void
test_many_stitches_make_a_small_file (void)
{
  g_autoptr (HwPlan) plan = garden_plan_large (40, 20000);
  g_autofree char *path = NULL;
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_TEMPLATES, "A4", HW_UNIT_MM, &path);
  GStatBuf info;

  g_assert_cmpint (g_stat (path, &info), ==, 0);
  g_assert_cmpint (info.st_size, <, 8 * 1000 * 1000);
  remove_print (path);
}

/* However many motifs there are, their pictures together stay within what a printer takes. */
static void
test_pictures_share_a_budget (void)
{
  g_autoptr (HwPlan) few = garden_plan_large (3, 10), many = garden_plan_large (300, 10);
  double fine = hw_artwork_fineness ((const HwMotif *const *)few->snapshot->motifs->pdata, 3);
  double coarse = hw_artwork_fineness ((const HwMotif *const *)many->snapshot->motifs->pdata, 300);

  /* About 130 to the inch, and at 300 motifs of 100 x 83 mm still under 15 million pixels in all. */
  g_assert_cmpfloat (fine * 25.4, >=, 120);
  g_assert_cmpfloat (coarse, <, fine);
  g_assert_cmpfloat (300 * 100 * 83 * coarse * coarse, <, 1.5e7);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pdf/an-independent-reader-finds-it-sound", test_an_independent_reader_finds_it_sound);
  g_test_add_func ("/pdf/title-labels-and-contents", test_title_labels_and_contents);
  g_test_add_func ("/pdf/several-jobs-in-one-file", test_several_jobs_in_one_file);
  g_test_add_func ("/pdf/given-up-leaves-the-old-file-whole", test_given_up_leaves_the_old_file_whole);
  g_test_add_func ("/pdf/places-that-cannot-be-written", test_places_that_cannot_be_written);
  g_test_add_func ("/pdf/a-link-stays-a-link", test_a_link_stays_a_link);
  g_test_add_func ("/pdf/pictures-share-a-budget", test_pictures_share_a_budget);
  g_test_add_func ("/pdf/many-stitches-make-a-small-file", test_many_stitches_make_a_small_file);

  return g_test_run ();
}

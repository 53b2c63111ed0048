/* The bench sheet: its parts in order, a hooping to a sheet, figures that are those of the plan and of its supplies, and what is told apart without
 * colour. */
#include <math.h>
#include <string.h>

#include "../../src/formats/scene-file.h"
#include "../../src/paper/hooping-page.h"
#include "../../src/paper/page-frame.h"
#include "../../src/paper/steps.h"
#include "../../src/paper/thread-words.h"
#include "../../src/planning/planner.h"
#include "../../src/scene/lockstitch.h"
#include "garden.h"
#include "printed.h"

/* The page that begins with the heading, or -1. */
static int
find_page (PopplerDocument *document, const char *heading)
{
  for (int i = 0; i < poppler_document_get_n_pages (document); i++)
    {
      g_autofree char *text = printed_text (document, i);

      if (g_str_has_prefix (text, heading))
        return i;
    }

  return -1;
}

/* A page as an eye reads it, without white. Returns: (transfer full) */
static char *
page_text (PopplerDocument *document, int page)
{
  g_autofree char *text = printed_column (document, page, 0, 1000);
  g_auto (GStrv) parts = g_strsplit_set (text, " \n", -1);

  return g_strjoinv ("", parts);
}

static void
assert_says (const char *text, const char *words)
{
  g_auto (GStrv) parts = g_strsplit (words, " ", -1);
  g_autofree char *sought = g_strjoinv ("", parts);

  if (strstr (text, sought) == NULL)
    g_error ("\"%s\" is not said: %s", words, text);
}

static void
test_the_parts_are_in_order (void)
{
  static const char *const parts[] = { "The whole plan",
                                       "What is needed, and the motifs",
                                       "Marks to draw before you start",
                                       "Hooping 1",
                                       "Hooping 2",
                                       NULL };
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autoptr (PopplerPage) third = poppler_document_get_page (document, 2);
  g_autofree char *label = poppler_page_get_label (third);
  g_autofree char *title = poppler_document_get_title (document);
  PopplerIndexIter *contents = poppler_index_iter_new (document);
  int page = -1;

  g_assert_nonnull (contents);
  for (guint i = 0; parts[i] != NULL; i++)
    {
      PopplerAction *action = poppler_index_iter_get_action (contents);

      g_assert_cmpstr (action->any.title, ==, parts[i]);
      g_assert_cmpint (action->goto_dest.dest->page_num - 1, >, page);
      page = action->goto_dest.dest->page_num - 1;
      poppler_action_free (action);
      g_assert_true (poppler_index_iter_next (contents) || parts[i + 1] == NULL);
    }
  poppler_index_iter_free (contents);
  g_assert_cmpstr (label, ==, "S3");
  g_assert_cmpstr (title, ==, "A garden in print");
}

/* Figures in the plan's own words beside each other on the cover. */
static void
test_the_cover_sums_the_plan (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = page_text (document, 0);
  guint stitches = 0, changes = 0;

  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      const HwHooping *h = &plan->hoopings[i];
      g_autofree char *row = g_strdup_printf ("%u%u", h->thread_changes, h->stitches);

      assert_says (text, row);
      stitches += h->stitches;
      changes += h->thread_changes;
    }
  g_autofree char *sum = g_strdup_printf ("In all%u%u", changes, stitches);
  assert_says (text, sum);
  assert_says (text, "1 Fig branch, 2 Quince, 3 Climbing rose");
}

/* 12.5 degrees clockwise, worked by hand: the fig lies at (-20, -55) from the centre on the cloth, so at
 * u = -20 cos 12.5 - 55 sin 12.5 = -31.43 and v = 20 sin 12.5 - 55 cos 12.5 = -49.37 in the hoop; 1.24 and 1.94 in. */
static void
test_each_motif_has_its_shift_and_turn_in_both_units (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) metric = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = page_text (metric, find_page (metric, "Hooping 1"));

  assert_says (text, "1 Fig branch 31.4 (1.24) left 49.4 (1.94) away 12.5° anticlockwise 0.4 mm");
  assert_says (text, "Across, mm (in)");

  g_autoptr (PopplerDocument) inches = printed (plan, HW_PAPER_BENCH_SHEET, "Letter", HW_UNIT_INCH, NULL);
  g_autofree char *other = page_text (inches, find_page (inches, "Hooping 1"));
  assert_says (other, "1 Fig branch 1.24 (31.4) left 1.94 (49.4) away 12.5° anticlockwise");
  assert_says (other, "Across, in (mm)");
}

/* Every motif of every hooping in the words of hw_motif_in_hoop(). */
static void
test_figures_are_those_of_the_plan (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);

  for (guint k = 0; k < plan->n_hoopings; k++)
    {
      const HwHooping *h = &plan->hoopings[k];
      g_autofree char *heading = g_strdup_printf ("Hooping %u", k + 1);
      g_autofree char *text = page_text (document, find_page (document, heading));

      for (guint i = 0; i < h->n_motifs; i++)
        {
          HwMotifInHoop place = hw_motif_in_hoop (plan, k, h->motifs[i]);
          g_autofree char *across
              = g_strdup_printf ("%.1f (%.2f) %s", fabs (place.shift.x), fabs (place.shift.x) / 25.4,
                                 place.shift.x < 0 ? "left" : "right");

          if (fabs (place.shift.x) >= 0.05)
            assert_says (text, across);
        }
      for (guint m = 0; m < h->n_marks; m++)
        {
          HwPoint at = hw_point_in_hoop (h, h->marks[m].at);
          g_autofree char *words = g_strdup_printf ("%.1f mm %s", fabs (at.y), at.y < 0 ? "away" : "towards");

          assert_says (text, words);
        }
    }
}

/* What a thread of the plan's hoopings from the first on takes, block by block. */
static double
thread_from (const HwPlan *plan, guint first, const char *name)
{
  double metres = 0;

  for (guint h = first; h < plan->n_hoopings; h++)
    for (guint i = 0; i < plan->hoopings[h].n_motifs; i++)
      {
        const HwMotif *motif = hw_snapshot_motif (plan->snapshot, plan->hoopings[h].motifs[i]);
        g_autofree HwThreadLength *lengths = hw_motif_thread_lengths (motif, &plan->snapshot->supplies);

        for (guint t = 0; t < motif->n_threads; t++)
          if (name == NULL || g_str_equal (motif->threads[t].name, name))
            metres += lengths[t].needle;
      }
  return metres;
}

/* Each thread's length is that of all its stitches in hoopings that are not stitched. */
static void
test_threads_needed_are_those_still_to_be_stitched (void)
{
  static const char *const both[] = { "moss", "dark moss", "quince", "chalk" };
  g_autoptr (HwPlan) plan = garden_plan ();

  for (guint stitched = 0; stitched < 2; stitched++)
    {
      g_autoptr (PopplerDocument) document = NULL;
      g_autofree char *text = NULL, *sum = g_strdup_printf ("%.0f m", thread_from (plan, stitched, NULL));

      plan->hoopings[0].hold = stitched ? HW_PLACE_FROZEN : HW_PLACE_FREE;
      document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
      text = page_text (document, find_page (document, "What is needed"));
      for (guint i = 0; i < G_N_ELEMENTS (both); i++)
        {
          double length = thread_from (plan, stitched, both[i]);
          g_autofree char *row = g_strdup_printf (length < 10 ? "%s%.1f m" : "%s%.0f m", both[i], length);

          if (length > 0)
            assert_says (text, row);
          else
            g_assert_null (strstr (text, row));
        }
      assert_says (text, sum);
      g_assert_cmpint (strstr (text, "200×3002") != NULL, ==,
                       !stitched); /* the hoop of the first hooping alone */
    }
}

/* 240 x 360 mm of frame and 20 mm beyond it on each side; the edge line's 360 x 260 mm and 50 mm beyond it. */
static void
test_cloth_and_stabiliser_are_told (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = NULL;

  plan->snapshot->wishes.draw_in = 0;
  plan->snapshot->supplies.stabiliser_sheets = 2;
  document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *needed = page_text (document, find_page (document, "What is needed"));
  g_autofree char *hooping = page_text (document, find_page (document, "Hooping 1"));
  assert_says (needed, "460 × 360 mm");
  assert_says (needed, "2 of 280 × 400 mm");
  assert_says (needed, "4 pieces");
  assert_says (hooping, "Stabiliser, each sheet280 × 400 mm");
}

/* 100 m are 109.36 yards (a yard is 0.9144 m exactly, international yard and pound agreement of 1959). */
static void
test_thread_in_yards (void)
{
  g_autofree char *metric = hw_words_thread (100, HW_UNIT_MM), *yards = hw_words_thread (100, HW_UNIT_INCH);
  g_autofree char *little = hw_words_thread (4.24, HW_UNIT_MM), *unknown = hw_words_thread (NAN, HW_UNIT_MM);

  g_assert_cmpstr (metric, ==, "100 m");
  g_assert_cmpstr (yards, ==, "109 yd (100 m)");
  g_assert_cmpstr (little, ==, "4.2 m");
  g_assert_cmpstr (unknown, ==, "not known");
}

/* Stitches by the machine's pace: 2100 of them at 600 a minute are 3.5 minutes, told as 4. */
static void
test_each_thread_has_its_minutes (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = page_text (document, find_page (document, "Hooping 1"));
  const HwMotif *fig = hw_snapshot_motif (plan->snapshot, 0);
  g_autofree char *row = g_strdup_printf ("%s%u4", fig->threads[0].name, fig->threads[0].stitches);

  g_assert_cmpuint (fig->threads[0].stitches, ==, 2100);
  g_assert_cmpfloat (plan->snapshot->machine.stitches_per_minute, ==, 600);
  assert_says (text, row);
}

static HwPlan *
plan_demo (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", "demo", name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) scene = hw_scene_file_load (path, &error);
  HwPlanOptions options = { .seconds = 0.2, .unit = HW_UNIT_MM };
  HwPlanner *planner = hw_planner_new ();
  HwPlan *plan;

  g_assert_no_error (error);
  plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
  hw_planner_free (planner);

  return plan;
}

/* As many sheets from the first hooping on, to the end, as there are hoopings. */
static guint
count_hooping_sheets (const HwPrintJob *job)
{
  guint first = 0;

  while (first < job->pages->len)
    {
      const HwPage *page = g_ptr_array_index (job->pages, first);

      if (g_strcmp0 (page->name, "Hooping 1") == 0)
        break;
      first++;
    }

  return job->pages->len - first;
}

static void
test_each_demo_hooping_takes_one_sheet (void)
{
  static const char *const demos[] = { "walled-garden.hoopscene", "orchard-frieze.hoopscene" };
  static const char *const sheets[] = { "A4", "Letter" };

  for (guint d = 0; d < G_N_ELEMENTS (demos); d++)
    {
      g_autoptr (HwPlan) plan = plan_demo (demos[d]);

      for (guint s = 0; s < 2 * G_N_ELEMENTS (sheets); s++)
        {
          HwPaperOptions options
              = { HW_PAPER_BENCH_SHEET, hw_sheet_size_find (sheets[s / 2]), (HwUnit)(s % 2), 10, 10 };
          g_autoptr (GError) error = NULL;
          g_autoptr (HwPrintJob) job = hw_print_job_new (plan, &options, &error);

          g_assert_no_error (error);
          g_assert_cmpuint (count_hooping_sheets (job), ==, plan->n_hoopings);
        }
    }
}

/* One hooping of n motifs of two threads each. */
static HwPlan *
plan_one_hooping (guint n)
{
  HwPlan *plan = garden_plan_large (n, 300);
  HwHooping *first = &plan->hoopings[0];

  first->motifs = g_renew (guint, first->motifs, n);
  first->predicted_error = g_renew (double, first->predicted_error, n);
  for (guint i = 0; i < n; i++)
    {
      first->motifs[i] = i;
      first->predicted_error[i] = 0.5;
    }
  first->n_motifs = n;
  for (guint i = 1; i < plan->n_hoopings; i++)
    {
      g_free (plan->hoopings[i].motifs);
      g_free (plan->hoopings[i].predicted_error);
    }
  plan->n_hoopings = 1;
  hw_plan_count (plan);

  return plan;
}

/* A long hooping takes two sheets, and its threads in columns lose none: each motif's name and every number of the row. */
static void
test_a_long_hooping_is_a_spread (void)
{
  g_autoptr (HwPlan) plan = plan_one_hooping (16);
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "Letter", HW_UNIT_MM, NULL);
  int first = find_page (document, "Hooping 1 ");
  g_autofree char *work = printed_text (document, first + 1);

  g_assert_true (g_str_has_prefix (work, "Hooping 1, continued"));
  g_assert_cmpint (poppler_document_get_n_pages (document), ==, first + 2);
  for (guint i = 0; i < 16; i++)
    {
      g_autofree char *name = g_strdup_printf ("%u Espalier %u", i + 1, i + 1);

      g_assert_nonnull (strstr (work, name));
    }
  g_assert_nonnull (strstr (work, "Take care"));
}

/* As a copier sees it. */
static cairo_surface_t *
draw_grey (void (*draw) (cairo_t *cr, guint which), guint which)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 140, 60);
  cairo_t *cr = cairo_create (surface);
  guint32 *pixels;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, 10, 10);
  draw (cr, which);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  pixels = (guint32 *)(void *)cairo_image_surface_get_data (surface);
  for (guint i = 0; i < 140 * 60; i++)
    {
      /* ITU-R BT.601: 0.299, 0.587, 0.114 */
      guint grey
          = (299 * ((pixels[i] >> 16) & 255) + 587 * ((pixels[i] >> 8) & 255) + 114 * (pixels[i] & 255))
            / 1000;

      pixels[i] = grey;
    }

  return surface;
}

static void
draw_chip (cairo_t *cr, guint which)
{
  hw_draw_hooping_chip (cr, 1, 1, 12, 4, which);
}

static void
draw_pale_swatch (cairo_t *cr, guint which)
{
  hw_draw_swatch (cr, 1, 1, 7, 3, (HwColour){ 1, 1, 1 });
}

/* Eight hoopings in a row have eight chips that a photocopy keeps apart: at least a tenth of their points differ clearly. */
static void
test_hoopings_are_told_apart_in_grey (void)
{
  cairo_surface_t *chips[8];

  for (guint i = 0; i < 8; i++)
    chips[i] = draw_grey (draw_chip, i);
  for (guint i = 0; i < 8; i++)
    for (guint k = i + 1; k < 8; k++)
      {
        const guint32 *a = (const guint32 *)(const void *)cairo_image_surface_get_data (chips[i]);
        const guint32 *b = (const guint32 *)(const void *)cairo_image_surface_get_data (chips[k]);
        guint differing = 0;

        for (guint p = 0; p < 140 * 60; p++)
          differing += ABS ((int)a[p] - (int)b[p]) > 25;
        g_assert_cmpuint (differing, >, 120 * 40 / 10);
      }
  for (guint i = 0; i < 8; i++)
    cairo_surface_destroy (chips[i]);
}

/* A white thread's swatch still shows on white paper, as a dark frame of its size. */
static void
test_pale_threads_are_framed (void)
{
  cairo_surface_t *surface = draw_grey (draw_pale_swatch, 0);
  const guint32 *pixels = (const guint32 *)(const void *)cairo_image_surface_get_data (surface);
  guint dark = 0;

  for (guint x = 0; x < 140; x++)
    dark += pixels[25 * 140 + x] < 140;
  g_assert_cmpuint (dark, >=, 2);
  g_assert_cmpuint (dark, <=, 8);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench-sheet/the-parts-are-in-order", test_the_parts_are_in_order);
  g_test_add_func ("/bench-sheet/the-cover-sums-the-plan", test_the_cover_sums_the_plan);
  g_test_add_func ("/bench-sheet/shift-and-turn-in-both-units",
                   test_each_motif_has_its_shift_and_turn_in_both_units);
  g_test_add_func ("/bench-sheet/figures-are-those-of-the-plan", test_figures_are_those_of_the_plan);
  g_test_add_func ("/bench-sheet/threads-needed-are-those-still-to-be-stitched",
                   test_threads_needed_are_those_still_to_be_stitched);
  g_test_add_func ("/bench-sheet/cloth-and-stabiliser-are-told", test_cloth_and_stabiliser_are_told);
  g_test_add_func ("/bench-sheet/thread-in-yards", test_thread_in_yards);
  g_test_add_func ("/bench-sheet/each-thread-has-its-minutes", test_each_thread_has_its_minutes);
  g_test_add_func ("/bench-sheet/each-demo-hooping-takes-one-sheet", test_each_demo_hooping_takes_one_sheet);
  g_test_add_func ("/bench-sheet/a-long-hooping-is-a-spread", test_a_long_hooping_is_a_spread);
  g_test_add_func ("/bench-sheet/hoopings-are-told-apart-in-grey", test_hoopings_are_told_apart_in_grey);
  g_test_add_func ("/bench-sheet/pale-threads-are-framed", test_pale_threads_are_framed);

  return g_test_run ();
}

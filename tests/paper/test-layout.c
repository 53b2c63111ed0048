/* The layout shows everything there is and prints no sheet of bare cloth. */
#include <string.h>

#include "../../src/paper/layout.h"
#include "garden.h"
#include "printed.h"

static HwPaperOptions
layout_options (const char *sheet)
{
  return (HwPaperOptions){
    .kind = HW_PAPER_LAYOUT, .sheet = hw_sheet_size_find (sheet), .sheet_margin = 10, .tile_overlap = 10
  };
}

static HwPrintJob *
layout_job (const HwPlan *plan, const char *sheet, gboolean mirrored)
{
  HwPaperOptions options = layout_options (sheet);
  g_autoptr (GError) error = NULL;
  HwPrintJob *job;

  options.mirrored = mirrored;
  job = hw_print_job_new (plan, &options, &error);
  g_assert_no_error (error);
  return job;
}

static const HwLayout *
layout_of (const HwPrintJob *job)
{
  return ((const HwPage *)g_ptr_array_index (job->pages, 0))->data;
}

/* Whether a printed sheet shows p, on its own side of the joins. */
static gboolean
printed_at (const HwLayout *layout, HwPoint p)
{
  const HwTiling *t = &layout->tiling;

  for (guint c = 0; c < t->columns; c++)
    for (guint r = 0; r < t->rows; r++)
      {
        HwBox cell = hw_tiling_cell (t, c, r);

        if (p.x >= cell.x0 && p.x <= cell.x1 && p.y >= cell.y0 && p.y <= cell.y1)
          return !hw_tiling_leaves_out (t, c, r);
      }

  return FALSE;
}

/* Motifs strewn over a large cloth without an edge line. */
static HwPlan *
strewn_plan (guint n)
{
  HwPlan *plan = garden_plan_large (n, 30);
  HwSnapshot *snapshot = plan->snapshot;

  g_clear_pointer (&snapshot->edge_line, hw_edge_line_unref);
  snapshot->fabric.width = g_test_rand_double_range (700, 2500);
  snapshot->fabric.height = g_test_rand_double_range (700, 2500);
  for (guint i = 0; i < n; i++)
    {
      HwMotif *motif = g_ptr_array_index (snapshot->motifs, i);

      motif->placement.scale = g_test_rand_double_range (0.2, 2);
      motif->placement.position = (HwPoint){ g_test_rand_double_range (100, snapshot->fabric.width - 100),
                                             g_test_rand_double_range (100, snapshot->fabric.height - 100) };
      plan->hoopings[i].centre = motif->placement.position;
    }

  return plan;
}

static void
test_everything_is_on_a_printed_sheet (void)
{
  guint left_out = 0;

  for (guint round = 0; round < 40; round++)
    {
      guint n = (guint)g_test_rand_int_range (1, 7);
      g_autoptr (HwPlan) plan = strewn_plan (n);
      g_autoptr (HwPrintJob) job = layout_job (plan, "A4", round % 2 == 1);
      const HwLayout *layout = layout_of (job);
      gboolean several = hw_tiling_count (&layout->tiling) > 1;

      for (guint i = 0; i < n; i++)
        {
          const HwOutline *placed = layout->placed[i];

          for (guint k = 0; k < placed->rings[0].n_points; k++)
            g_assert_true (printed_at (layout, placed->rings[0].points[k]));
          for (guint k = 0; k < 60; k++)
            {
              HwPoint p = { g_test_rand_double_range (placed->box.x0, placed->box.x1),
                            g_test_rand_double_range (placed->box.y0, placed->box.y1) };

              g_assert_true (!hw_outline_contains (placed, p) || printed_at (layout, p));
            }
        }
      for (guint h = 0; h < plan->n_hoopings; h++)
        for (guint m = 0; m < plan->hoopings[h].n_marks; m++)
          g_assert_true (printed_at (layout, hw_layout_point (layout, plan->hoopings[h].marks[m].at)));
      g_assert_cmpuint (hw_print_job_n_pages (job), ==,
                        hw_tiling_count (&layout->tiling) - layout->n_left_out + (several ? 1 : 0));
      left_out += layout->n_left_out;
    }
  g_assert_cmpuint (left_out, >, 0);
}

/* Two motifs in far corners: what lies between is bare. */
static HwPlan *
corners_plan (void)
{
  HwPlan *plan = garden_plan_large (2, 30);
  HwSnapshot *snapshot = plan->snapshot;

  g_clear_pointer (&snapshot->edge_line, hw_edge_line_unref);
  snapshot->fabric.width = 1000;
  snapshot->fabric.height = 760;
  for (guint i = 0; i < 2; i++)
    {
      HwPoint at = i == 0 ? (HwPoint){ 80, 80 } : (HwPoint){ 920, 680 };

      ((HwMotif *)g_ptr_array_index (snapshot->motifs, i))->placement.position = at;
      plan->hoopings[i].centre = at;
    }

  return plan;
}

static void
test_bare_sheets_are_left_out_and_named (void)
{
  g_autoptr (HwPlan) plan = corners_plan ();
  HwPaperOptions options = layout_options ("A4");
  g_autoptr (PopplerDocument) document = printed_with (plan, &options, NULL);
  g_autofree char *index = printed_text (document, 0), *first = printed_text (document, 1);

  /* The index, and a sheet for each motif, of the 20 that cover the cloth. */
  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 3);
  g_assert_nonnull (strstr (index, "on 2 sheets"));
  g_assert_nonnull (strstr (index, "nothing but bare cloth on them: "));
  g_assert_nonnull (strstr (index, "B1, "));
  g_assert_null (strstr (index, ": A1, "));
  g_assert_nonnull (strstr (first, "part A1 of"));
  /* Nothing goes on where the neighbour is not printed. */
  g_assert_null (strstr (first, "goes on here"));
}

/* Unless nothing would be left. */
static void
test_bare_cloth_is_printed_whole (void)
{
  g_autoptr (HwPlan) plan = garden_plan_bare ();
  g_autoptr (HwPrintJob) job = NULL;

  g_clear_pointer (&plan->snapshot->edge_line, hw_edge_line_unref);
  job = layout_job (plan, "A4", FALSE);
  g_assert_cmpuint (layout_of (job)->n_left_out, ==, 0);
  g_assert_cmpuint (hw_print_job_n_pages (job), ==, 1 + hw_tiling_count (&layout_of (job)->tiling));
}

/* An edge line runs around cloth that is bare within. */
static void
test_an_edge_line_is_something (void)
{
  g_autoptr (HwPlan) plan = garden_plan_bare ();
  HwSnapshot *snapshot = plan->snapshot;
  g_autoptr (HwPrintJob) job = NULL;
  const HwLayout *layout;

  snapshot->fabric.width = snapshot->fabric.height = 1200;
  hw_edge_line_unref (snapshot->edge_line);
  snapshot->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 30, 30, 1170, 1170 }, 0, 2);
  job = layout_job (plan, "A4", FALSE);
  layout = layout_of (job);
  g_assert_cmpuint (layout->n_left_out, >, 0);
  for (double at = 30; at <= 1170; at += 3)
    {
      g_assert_true (printed_at (layout, (HwPoint){ at, 30 }));
      g_assert_true (printed_at (layout, (HwPoint){ 1170, at }));
    }
  g_assert_false (printed_at (layout, (HwPoint){ 600, 600 }));
}

/* As it is measured: from the cloth's corner, unless that costs sheets. */
static void
test_sheets_are_laid_from_the_corner (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (HwPrintJob) job = layout_job (plan, "A4", FALSE);

  g_assert_cmpfloat (layout_of (job)->tiling.x0, ==, -1);
  g_assert_cmpfloat (layout_of (job)->tiling.y0, ==, -1);
}

static void
test_a_small_cloth_needs_no_index (void)
{
  g_autoptr (HwPlan) plan = garden_plan_bare ();
  g_autoptr (HwPrintJob) job = NULL;

  plan->snapshot->fabric.width = 150;
  plan->snapshot->fabric.height = 180;
  g_clear_pointer (&plan->snapshot->edge_line, hw_edge_line_unref);
  job = layout_job (plan, "A4", FALSE);
  g_assert_cmpuint (hw_print_job_n_pages (job), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/layout/everything-is-on-a-printed-sheet", test_everything_is_on_a_printed_sheet);
  g_test_add_func ("/layout/bare-sheets-are-left-out-and-named", test_bare_sheets_are_left_out_and_named);
  g_test_add_func ("/layout/bare-cloth-is-printed-whole", test_bare_cloth_is_printed_whole);
  g_test_add_func ("/layout/an-edge-line-is-something", test_an_edge_line_is_something);
  g_test_add_func ("/layout/sheets-are-laid-from-the-corner", test_sheets_are_laid_from_the_corner);
  g_test_add_func ("/layout/a-small-cloth-needs-no-index", test_a_small_cloth_needs_no_index);

  return g_test_run ();
}

/* The demo scenes keep what a scene promises: needle lists and thread blocks agree, outlines enclose their stitches,
 * everything lies inside the edge line and in some hoop. */
#include <math.h>

#include "formats/scene-file.h"
#include "geometry/region.h"
#include "planning/planner.h"
#include "planning/sharing.h"

typedef struct
{
  const char *file;
  guint motifs, least_overlaps;
} Demo;

static const Demo garden = { "walled-garden.hoopscene", 11, 8 },
                  frieze = { "orchard-frieze.hoopscene", 24, 6 };

static HwSnapshot *
load (const Demo *demo)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", "demo", demo->file, NULL);
  g_autoptr (GError) error = NULL;
  HwSnapshot *snapshot = hw_scene_file_load (path, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (snapshot->motifs->len, ==, demo->motifs);
  g_assert_cmpuint (snapshot->hoops->len, >=, 3);
  g_assert_nonnull (snapshot->edge_line);
  return snapshot;
}

static void
thread_blocks_count_the_stitches_of_the_list (const HwMotif *motif)
{
  const HwNeedleList *needles = motif->needles;
  guint block = 0, count = 0;

  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *p = &needles->points[i];

      if (p->action == HW_NEEDLE_COLOUR)
        {
          g_assert_cmpuint (count, ==, motif->threads[block].stitches);
          block++;
          count = 0;
        }
      g_assert_cmpuint (block, <, motif->n_threads);
      g_assert_cmpstr (needles->threads[p->thread], ==, motif->threads[block].name);
      count += p->action == HW_NEEDLE_STITCH;
    }
  g_assert_cmpuint (count, ==, motif->threads[block].stitches);
  g_assert_cmpuint (block + 1, ==, motif->n_threads);
  g_assert_cmpint (needles->points[needles->n_points - 1].action, ==, HW_NEEDLE_END);
}

static void
needle_lists_agree_with_their_motifs (gconstpointer data)
{
  g_autoptr (HwSnapshot) snapshot = load (data);

  for (guint m = 0; m < snapshot->motifs->len; m++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, m);

      g_assert_null (motif->artwork_trouble);
      g_assert_nonnull (motif->needles);
      thread_blocks_count_the_stitches_of_the_list (motif);
      g_assert_cmpuint (hw_motif_stitches (motif), ==, motif->needles->n_stitches);
      g_assert_cmpuint (motif->needles->n_stitches, >=, 1500);
      g_assert_nonnull (motif->note);
    }
}

static void
outlines_enclose_their_stitches (gconstpointer data)
{
  g_autoptr (HwSnapshot) snapshot = load (data);

  for (guint m = 0; m < snapshot->motifs->len; m++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, m);
      const HwBox *box = &motif->outline->box;
      guint n = 0;

      g_assert_false (motif->outline_repaired);
      g_assert_true (hw_outline_is_simple (motif->outline));
      for (guint r = 0; r < motif->outline->n_rings; r++)
        n += motif->outline->rings[r].n_points;
      g_assert_cmpuint (n, >=, 20);
      g_assert_cmpuint (n, <=, 120);
      g_assert_cmpfloat_with_epsilon (box->x0 + box->x1, 0, 0.02);
      g_assert_cmpfloat_with_epsilon (box->y0 + box->y1, 0, 0.02);
      for (guint i = 0; i < motif->needles->n_points; i++)
        if (motif->needles->points[i].action == HW_NEEDLE_STITCH)
          g_assert_true (hw_outline_contains (
              motif->outline, (HwPoint){ motif->needles->points[i].x, motif->needles->points[i].y }));
    }
}

/* Stitches of 0.3 to 7 mm can be sewn and lie well: common practice, no source. */
static void
stitches_can_be_sewn (gconstpointer data)
{
  g_autoptr (HwSnapshot) snapshot = load (data);

  for (guint m = 0; m < snapshot->motifs->len; m++)
    {
      const HwNeedleList *needles = hw_snapshot_motif (snapshot, m)->needles;

      for (guint i = 1; i < needles->n_points; i++)
        if (needles->points[i].action == HW_NEEDLE_STITCH)
          {
            double length = hypot (needles->points[i].x - needles->points[i - 1].x,
                                   needles->points[i].y - needles->points[i - 1].y);

            g_assert_cmpfloat (length, >=, 0.28);
            g_assert_cmpfloat (length, <=, 7.03);
          }
    }
}

static void
motifs_lie_inside_the_edge_line_and_fit_a_hoop (gconstpointer data)
{
  g_autoptr (HwSnapshot) snapshot = load (data);
  g_autoptr (HwOutline) free_area
      = hw_outline_grow (snapshot->edge_line->outline, -snapshot->edge_line->margin);

  for (guint m = 0; m < snapshot->motifs->len; m++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, m);
      g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);
      gboolean fits = FALSE;

      g_assert_cmpfloat (hw_outline_passes (placed, free_area, NULL), ==, 0);
      for (guint h = 0; h < snapshot->hoops->len; h++)
        fits = fits
               || hw_sharing_fits (placed->hull, placed->n_hull, hw_snapshot_hoop (snapshot, h),
                                   &snapshot->fabric);
      g_assert_true (fits);
    }
}

static void
motifs_overlap_so_that_order_matters (gconstpointer data)
{
  const Demo *demo = data;
  g_autoptr (HwSnapshot) snapshot = load (demo);
  guint overlaps = 0;

  for (guint a = 0; a < snapshot->motifs->len; a++)
    for (guint b = a + 1; b < snapshot->motifs->len; b++)
      {
        const HwMotif *back = hw_snapshot_motif (snapshot, a), *front = hw_snapshot_motif (snapshot, b);
        g_autoptr (HwOutline) under = hw_outline_place (back->outline, &back->placement);
        g_autoptr (HwOutline) over = hw_outline_place (front->outline, &front->placement);

        overlaps += hw_outline_overlap_area (under, over) > 0.01;
      }
  g_test_message ("%s: %u overlaps", demo->file, overlaps);
  g_assert_cmpuint (overlaps, >=, demo->least_overlaps);
}

/* A thread of the same name is the same spool wherever it is used, so that changes of it can be saved. */
static void
a_thread_name_has_one_colour (gconstpointer data)
{
  g_autoptr (HwSnapshot) snapshot = load (data);
  g_autoptr (GHashTable) colours = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint m = 0; m < snapshot->motifs->len; m++)
    for (guint t = 0; t < hw_snapshot_motif (snapshot, m)->n_threads; t++)
      {
        HwThreadBlock *block = &hw_snapshot_motif (snapshot, m)->threads[t];
        HwThreadBlock *known = g_hash_table_lookup (colours, block->name);

        if (known == NULL)
          g_hash_table_insert (colours, block->name, block);
        else
          g_assert_true (hw_thread_same (known, block));
      }
}

static void
demo_is_planned_with_proof_and_without_a_problem (gconstpointer data)
{
  g_autoptr (HwSnapshot) snapshot = load (data);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwPlan) plan = NULL;
  HwPlanOptions options = HW_PLAN_OPTIONS_DEFAULT;

  options.seconds = 30;
  plan = hw_planner_plan (planner, snapshot, &options, NULL, NULL, NULL);
  g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
  g_assert_cmpuint (plan->problems->len, ==, 0);
  g_assert_cmpuint (plan->n_hoopings, >=, 5);
  g_assert_cmpuint (plan->n_hoopings, <=, 8);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func)                                                                                      \
  g_test_add_data_func ("/drawing/demo/garden/" path, &garden, func);                                        \
  g_test_add_data_func ("/drawing/demo/frieze/" path, &frieze, func)
  ADD ("needle-lists-agree-with-their-motifs", needle_lists_agree_with_their_motifs);
  ADD ("outlines-enclose-their-stitches", outlines_enclose_their_stitches);
  ADD ("stitches-can-be-sewn", stitches_can_be_sewn);
  ADD ("motifs-lie-inside-the-edge-line-and-fit-a-hoop", motifs_lie_inside_the_edge_line_and_fit_a_hoop);
  ADD ("motifs-overlap-so-that-order-matters", motifs_overlap_so_that_order_matters);
  ADD ("a-thread-name-has-one-colour", a_thread_name_has_one_colour);
  ADD ("demo-is-planned-with-proof-and-without-a-problem", demo_is_planned_with_proof_and_without_a_problem);
  return g_test_run ();
}

/* Arranging that cannot be: each refusal is a sentence and leaves no edit; and the odd cases of rows and tucks that can. */
#include "bench-fixture.h"

static const char *const all[] = { "m1", "m2", "m3", NULL }, *const pair[] = { "m1", "m2", NULL };

static void
assert_refused (HwBench *bench, const HwArrangement *arrangement, const char *sentence)
{
  g_autofree char *refusal = NULL, *step = NULL;

  g_assert_false (hw_bench_arrange (bench, arrangement, &refusal));
  g_assert_cmpstr (refusal, ==, sentence);
  g_assert_false (hw_bench_is_editing (bench));
  g_object_get (bench, "undo-name", &step, NULL);
  g_assert_null (step);
  g_assert_false (hw_bench_arrange (bench, arrangement, NULL));
}

static void
without_enough_motifs_it_says_what_is_missing (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  double direction, gap;

  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_COPIES, .count = 3 }, "Select a motif first.");
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_AROUND, .count = 3 }, "Select a motif first.");
  hw_bench_select_only (bench, "m1");
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_ROW },
                  "A row needs two motifs that may be moved.");
  g_assert_false (hw_bench_row_now (bench, &direction, &gap));
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_COPIES, .count = 1 },
                  "Between 2 and 200 of them can be laid.");
}

static void
a_tuck_needs_two_that_are_there (void)
{
  static const char held[] = "This motif is held where it is: it is locked, or stitched already.";
  g_autoptr (HwBench) bench = bench_with_orchard ();
  double depth;

  hw_bench_select_ids (bench, pair);
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_TUCK }, held);
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_TUCK, .motif = "m1" }, held);
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_TUCK, .motif = "m77", .neighbour = "m1" },
                  held);
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_TUCK, .motif = "m1", .neighbour = "m77" },
                  held);
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_TUCK, .motif = "m1", .neighbour = "m1" }, held);
  g_assert_false (hw_bench_tuck_depth (bench, "m1", "m77", &depth));
  g_assert_false (hw_bench_tuck_depth (bench, "m77", "m1", &depth));
  g_assert_false (hw_bench_tuck_depth (bench, "m1", "m1", &depth));
}

/* With their middles on one another there is no line between them to slide along. */
static void
one_on_the_other_cannot_be_tucked (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwScene *scene = hw_bench_get_scene (bench);
  HwPlacement same = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m1"))->placement;
  double depth;

  hw_scene_motif_set_placement (hw_scene_find_motif (scene, "m2"), &same);
  hw_bench_select_ids (bench, pair);
  assert_refused (bench, &(HwArrangement){ .kind = HW_ARRANGE_TUCK, .motif = "m1", .neighbour = "m2" },
                  "These two cannot meet along the line between their middles.");
  g_assert_false (hw_bench_tuck_depth (bench, "m1", "m2", &depth));
}

/* Of one motif the neighbour is the one nearest to it, of several that it touches the one whose middle is nearest; alone it has none. */
static void
a_neighbour_is_the_nearest (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwScene *scene = hw_bench_get_scene (bench);
  HwPlacement near = { .position = { 105, 110 }, .scale = 1 },
              touching = { .position = { 130, 100 }, .scale = 1 };
  const HwMotif *motif, *neighbour;

  hw_bench_select_only (bench, "m3");
  g_assert_true (hw_bench_tuck_pair (bench, &motif, &neighbour));
  g_assert_cmpstr (motif->id, ==, "m3");
  g_assert_cmpstr (neighbour->id, ==, "m2");
  hw_scene_motif_set_placement (hw_scene_find_motif (scene, "m2"), &touching);
  hw_scene_motif_set_placement (hw_scene_find_motif (scene, "m3"), &near);
  hw_bench_select_only (bench, "m1");
  g_assert_true (hw_bench_tuck_pair (bench, &motif, &neighbour));
  g_assert_cmpstr (neighbour->id, ==, "m3");
  hw_bench_select_ids (bench, all);
  g_assert_false (hw_bench_tuck_pair (bench, &motif, &neighbour));
  hw_bench_select_only (bench, "m2");
  hw_bench_delete (bench);
  hw_bench_select_only (bench, "m3");
  hw_bench_delete (bench);
  hw_bench_select_only (bench, "m1");
  g_assert_false (hw_bench_tuck_pair (bench, &motif, &neighbour));
}

/* Three that stand under each other, 50 and 70 mm apart and 40 mm high: 10 and 30 mm of room, 20 on the mean, downwards. */
static void
a_row_that_stands_is_told_downwards (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwScene *scene = hw_bench_get_scene (bench);
  double direction, gap;

  for (guint i = 0; i < 3; i++)
    {
      static const double down[] = { 100, 150, 220 };
      HwPlacement placement = { .position = { 200, down[i] }, .scale = 1 };

      hw_scene_motif_set_placement (hw_scene_find_motif (scene, all[i]), &placement);
    }
  hw_bench_select_ids (bench, all);
  g_assert_true (hw_bench_row_now (bench, &direction, &gap));
  g_assert_cmpfloat_with_epsilon (direction, 90, 1e-9);
  g_assert_cmpfloat_with_epsilon (gap, 20, 1e-9);
}

/* The step bears the number of motifs where there are several, and what reaches beside them counts as theirs. */
static void
several_are_laid_together (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *row = NULL, *copies = NULL, *round = NULL;

  hw_bench_select_ids (bench, pair);
  g_assert_true (hw_bench_arrange (
      bench, &(HwArrangement){ .kind = HW_ARRANGE_COPIES, .count = 2, .gap = 5, .direction = 90 }, NULL));
  g_object_get (bench, "undo-name", &copies, NULL);
  g_assert_cmpstr (copies, ==, "copy 2 motifs in a row");
  g_assert_cmpuint (hw_bench_get_n_selected (bench), ==, 4);
  hw_bench_undo (bench);
  hw_bench_select_ids (bench, pair);
  g_assert_true (hw_bench_arrange (
      bench,
      &(HwArrangement){ .kind = HW_ARRANGE_AROUND, .count = 3, .centre = { 125, 300 }, .turned = FALSE },
      NULL));
  g_object_get (bench, "undo-name", &round, NULL);
  g_assert_cmpstr (round, ==, "copy 2 motifs around a centre");
  g_assert_cmpuint (hw_bench_get_n_selected (bench), ==, 6);
  hw_bench_undo (bench);
  hw_bench_select_ids (bench, all);
  g_assert_true (hw_bench_arrange (bench, &(HwArrangement){ .kind = HW_ARRANGE_ROW, .gap = 0 }, NULL));
  g_object_get (bench, "undo-name", &row, NULL);
  g_assert_cmpstr (row, ==, "put 3 motifs in a row");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/arrange-refusals/" #test, test)
  ADD (without_enough_motifs_it_says_what_is_missing);
  ADD (a_tuck_needs_two_that_are_there);
  ADD (one_on_the_other_cannot_be_tucked);
  ADD (a_neighbour_is_the_nearest);
  ADD (a_row_that_stands_is_told_downwards);
  ADD (several_are_laid_together);
  return g_test_run ();
}

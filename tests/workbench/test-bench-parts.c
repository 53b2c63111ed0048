/* Parts on a bench: motifs are put into parts, parts are renamed, moved and taken apart, each one step that undo takes back; and the plan follows. */
#include "bench-fixture.h"

#include "planning/parts-hoopings.h"

static const HwPart *
part_of (HwBench *bench, guint part)
{
  GPtrArray *parts = hw_scene_get_parts (hw_bench_get_scene (bench));

  g_assert_cmpuint (part, <, parts->len);
  return parts->pdata[part];
}

static guint
n_parts (HwBench *bench)
{
  return hw_scene_get_parts (hw_bench_get_scene (bench))->len;
}

static void
assert_part (HwBench *bench, guint part, const char *name, const char *motifs)
{
  g_autofree char *joined = g_strjoinv (" ", part_of (bench, part)->motifs);

  g_assert_cmpstr (part_of (bench, part)->name, ==, name);
  g_assert_cmpstr (joined, ==, motifs);
}

static void
assert_undo_name (HwBench *bench, const char *name)
{
  g_autofree char *undo = NULL;

  g_object_get (bench, "undo-name", &undo, NULL);
  g_assert_cmpstr (undo, ==, name);
}

static const char *
id_of (HwBench *bench, guint i)
{
  g_autoptr (HwSceneMotif) motif
      = g_list_model_get_item (hw_scene_get_motifs (hw_bench_get_scene (bench)), i);

  return hw_scene_motif_get_record (motif)->id;
}

static void
the_selection_goes_into_a_part_and_back (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *pear = g_strdup (id_of (bench, 0)), *plum = g_strdup (id_of (bench, 1));
  g_autofree char *both = g_strjoin (" ", pear, plum, NULL);
  const char *ids[] = { pear, plum, NULL };

  hw_bench_select_only (bench, NULL);
  g_assert_false (hw_bench_put_in_part (bench, "Upper"));
  hw_bench_select_ids (bench, ids);
  g_assert_false (hw_bench_put_in_part (bench, "  "));
  g_assert_cmpuint (n_parts (bench), ==, 0);
  g_assert_true (hw_bench_put_in_part (bench, " Upper "));
  assert_part (bench, 0, "Upper", both);
  assert_undo_name (bench, "put 2 motifs into “Upper”");
  g_assert_cmpint (hw_bench_part_of_selection (bench), ==, 0);
  hw_bench_select_only (bench, pear);
  g_assert_true (hw_bench_put_in_part (bench, "Lower"));
  assert_part (bench, 0, "Upper", plum);
  assert_part (bench, 1, "Lower", pear);
  hw_bench_select_ids (bench, ids);
  g_assert_cmpint (hw_bench_part_of_selection (bench), ==, -1);
  g_assert_true (hw_bench_some_in_parts (bench));
  hw_bench_take_out_of_parts (bench);
  g_assert_false (hw_bench_some_in_parts (bench));
  assert_part (bench, 1, "Lower", "");
  for (guint step = 0; step < 3; step++)
    hw_bench_undo (bench);
  g_assert_cmpuint (n_parts (bench), ==, 0);
}

static void
a_copy_joins_the_part_of_its_original (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *pear = g_strdup (id_of (bench, 0)), *plum = g_strdup (id_of (bench, 1));
  const char *ids[] = { pear, plum, NULL };

  hw_bench_select_only (bench, pear);
  hw_bench_put_in_part (bench, "Upper");
  hw_bench_select_ids (bench, ids);
  hw_bench_duplicate (bench);
  /* The copy of the pear lies over the pear, that of the plum over the plum, which is in no part. */
  g_autofree char *joined = g_strjoin (" ", pear, id_of (bench, 1), NULL);
  assert_part (bench, 0, "Upper", joined);
  assert_undo_name (bench, "duplicate 2 motifs");
  hw_bench_undo (bench);
  assert_part (bench, 0, "Upper", pear);
}

static void
parts_are_renamed_moved_and_taken_apart (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *pear = g_strdup (id_of (bench, 0)), *plum = g_strdup (id_of (bench, 1));
  g_autofree char *fresh = hw_bench_free_part_name (bench);

  g_assert_cmpstr (fresh, ==, "Part 1");
  hw_bench_select_only (bench, pear);
  hw_bench_put_in_part (bench, "Upper");
  hw_bench_select_only (bench, plum);
  hw_bench_put_in_part (bench, "Lower");
  g_assert_false (hw_bench_rename_part (bench, 0, "Lower"));
  g_assert_false (hw_bench_rename_part (bench, 0, ""));
  g_assert_false (hw_bench_rename_part (bench, 7, "Sky"));
  g_assert_true (hw_bench_rename_part (bench, 0, "Sky"));
  assert_undo_name (bench, "rename “Upper” to “Sky”");
  hw_bench_move_part (bench, 0, 5);
  assert_part (bench, 0, "Lower", plum);
  assert_part (bench, 1, "Sky", pear);
  assert_undo_name (bench, "stitch “Sky” later");
  hw_bench_drop_part (bench, 0);
  assert_part (bench, 0, "Sky", pear);
  g_assert_cmpuint (n_parts (bench), ==, 1);
  hw_bench_undo (bench);
  assert_part (bench, 0, "Lower", plum);
}

/* Pear and Plum share a hooping until they are in parts of their own. */
static void
the_plan_follows_the_parts (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const HwPlan *plan;

  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->n_hoopings, ==, 2);
  hw_bench_select_only (bench, id_of (bench, 1));
  hw_bench_put_in_part (bench, "First");
  hw_bench_select_only (bench, id_of (bench, 0));
  hw_bench_put_in_part (bench, "Second");
  wait_for_plan (bench);
  plan = hw_bench_get_plan (bench);
  g_assert_cmpuint (plan->n_hoopings, ==, 3);
  g_assert_cmpint (hw_plan_hooping_of (plan, 1), <, hw_plan_hooping_of (plan, 0));
  hw_bench_move_part (bench, 1, 0);
  wait_for_plan (bench);
  plan = hw_bench_get_plan (bench);
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), <, hw_plan_hooping_of (plan, 1));
  hw_bench_drop_part (bench, 0);
  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->n_hoopings, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench-parts/put", the_selection_goes_into_a_part_and_back);
  g_test_add_func ("/bench-parts/copy-joins-the-part-of-its-original", a_copy_joins_the_part_of_its_original);
  g_test_add_func ("/bench-parts/change", parts_are_renamed_moved_and_taken_apart);
  g_test_add_func ("/bench-parts/plan", the_plan_follows_the_parts);
  return g_test_run ();
}

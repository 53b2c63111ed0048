/* The bench: edits, history, plan, selection, pins and file belong together, with no screen. */
#include "bench-fixture.h"

#include <glib/gstdio.h>

#include "workbench/hooping-words.h"

static HwPlacement
placement_of (HwBench *bench, const char *id)
{
  HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (bench), id);

  g_assert_nonnull (motif);
  return hw_scene_motif_get_record (motif)->placement;
}

static void
place (HwBench *bench, const char *id, double x, double y)
{
  HwPlacement placement = placement_of (bench, id);

  placement.position = (HwPoint){ x, y };
  hw_scene_motif_set_placement (hw_scene_find_motif (hw_bench_get_scene (bench), id), &placement);
}

static guint
n_hoopings (HwBench *bench)
{
  wait_for_plan (bench);
  return hw_bench_get_plan (bench)->n_hoopings;
}

static void
assert_steps (HwBench *bench, const char *undo, const char *redo)
{
  g_autofree char *undo_name = NULL;
  g_autofree char *redo_name = NULL;

  g_object_get (bench, "undo-name", &undo_name, "redo-name", &redo_name, NULL);
  g_assert_cmpstr (undo_name, ==, undo);
  g_assert_cmpstr (redo_name, ==, redo);
}

static gboolean
is_modified (HwBench *bench)
{
  gboolean modified;

  g_object_get (bench, "modified", &modified, NULL);
  return modified;
}

static char *
order_of (HwBench *bench)
{
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (bench));
  GString *order = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (motifs); i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);
      g_string_append_printf (order, "%s ", hw_scene_motif_get_record (motif)->name);
    }
  return g_string_free (order, FALSE);
}

static void
assert_order (HwBench *bench, const char *expected)
{
  g_autofree char *order = order_of (bench);

  g_assert_cmpstr (order, ==, expected);
}

static void
test_drag_changes_plan_and_undo_brings_both_back (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  hw_bench_begin_edit (bench, "move Plum", FALSE);
  for (double x = 150; x <= 350; x += 20)
    place (bench, "m2", x, 100);
  hw_bench_end_edit (bench);
  g_assert_cmpuint (n_hoopings (bench), ==, 3);
  assert_steps (bench, "move Plum", NULL);
  g_assert_true (is_modified (bench));

  hw_bench_undo (bench);
  g_assert_cmpfloat (placement_of (bench, "m2").position.x, ==, 150);
  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  assert_steps (bench, NULL, "move Plum");
  g_assert_false (is_modified (bench));

  hw_bench_redo (bench);
  g_assert_cmpfloat (placement_of (bench, "m2").position.x, ==, 350);
  g_assert_cmpuint (n_hoopings (bench), ==, 3);
}

static void
test_cancelled_edit_leaves_no_step (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  hw_bench_begin_edit (bench, "move Plum", FALSE);
  place (bench, "m2", 300, 300);
  hw_bench_cancel_edit (bench);
  g_assert_cmpfloat (placement_of (bench, "m2").position.x, ==, 150);
  assert_steps (bench, NULL, NULL);

  hw_bench_begin_edit (bench, "move Plum", FALSE);
  hw_bench_end_edit (bench);
  assert_steps (bench, NULL, NULL);
}

static void
test_nudges_become_one_step (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  hw_bench_select_only (bench, "m1");
  for (guint i = 0; i < 6; i++)
    hw_bench_nudge (bench, 0.5, 0);
  g_assert_cmpfloat_with_epsilon (placement_of (bench, "m1").position.x, 103, 1e-9);
  assert_steps (bench, "move Pear", NULL);
  hw_bench_undo (bench);
  g_assert_cmpfloat (placement_of (bench, "m1").position.x, ==, 100);
  assert_steps (bench, NULL, "move Pear");
}

static void
test_locked_motifs_are_left_alone (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  hw_bench_select_only (bench, "m1");
  hw_bench_set_locked (bench, TRUE);
  assert_steps (bench, "lock Pear", NULL);
  hw_bench_select_all (bench);
  hw_bench_nudge (bench, 5, 0);
  assert_steps (bench, "move 2 motifs", NULL);
  hw_bench_mirror (bench);
  hw_bench_delete (bench);
  g_assert_cmpfloat (placement_of (bench, "m1").position.x, ==, 100);
  g_assert_false (placement_of (bench, "m1").mirrored);
  assert_order (bench, "Pear ");
}

static void
test_order_moves_a_group_together (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *const two[] = { "m1", "m2", NULL };

  hw_bench_select_ids (bench, two);
  hw_bench_bring_forward (bench);
  assert_order (bench, "Quince Pear Plum ");
  hw_bench_bring_forward (bench);
  assert_order (bench, "Quince Pear Plum ");
  hw_bench_send_back (bench);
  assert_order (bench, "Pear Plum Quince ");
  hw_bench_move_in_order (bench, "m1", 99);
  assert_order (bench, "Plum Quince Pear ");
  hw_bench_undo (bench);
  assert_order (bench, "Pear Plum Quince ");
}

static void
test_duplicate_is_seen_and_named (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  hw_bench_select_only (bench, "m1");
  hw_bench_duplicate (bench);
  assert_order (bench, "Pear Pear 2 Plum Quince ");
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  g_assert_cmpuint (selection->len, ==, 1);
  const HwMotif *copy = hw_scene_motif_get_record (g_ptr_array_index (selection, 0));
  g_assert_cmpstr (copy->name, ==, "Pear 2");
  g_assert_cmpfloat (copy->placement.position.x, ==, 108);
  g_assert_cmpfloat (copy->placement.position.y, ==, 108);

  hw_bench_duplicate (bench);
  assert_order (bench, "Pear Pear 2 Pear 3 Plum Quince ");
  hw_bench_undo (bench);
  hw_bench_undo (bench);
  assert_order (bench, "Pear Plum Quince ");
  g_assert_cmpuint (hw_bench_get_n_selected (bench), ==, 0);
}

/* The hooping of the plan that stitches the motif. */
static const HwHooping *
hooping_of (HwBench *bench, const char *id)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  int index = hw_plan_hooping_of (plan, (guint)hw_snapshot_find_motif (plan->snapshot, id));

  g_assert_cmpint (index, >=, 0);
  return &plan->hoopings[index];
}

static void
test_taken_candidate_is_kept_until_let_go (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const guint quince[] = { 2 };

  wait_for_plan (bench);
  hw_bench_take_candidate (bench, quince, 1, 0, (HwPoint){ 552, 104 }, 30);
  assert_steps (bench, "hold Quince in the hoop 130 x 180", NULL);
  wait_for_plan (bench);
  const HwHooping *held = hooping_of (bench, "m3");
  g_assert_cmpint (held->hold, ==, HW_PLACE_PINNED);
  g_assert_cmpfloat (held->centre.x, ==, 552);
  g_assert_cmpfloat (held->angle, ==, 30);

  /* Another candidate for the same motif takes the place of the first. */
  hw_bench_take_candidate (bench, quince, 1, 0, (HwPoint){ 550, 100 }, 0);
  g_assert_cmpuint (hw_scene_get_pins (hw_bench_get_scene (bench))->len, ==, 1);
  wait_for_plan (bench);

  held = hooping_of (bench, "m3");
  hw_bench_unpin (bench, (guint)(held - hw_bench_get_plan (bench)->hoopings));
  g_assert_cmpuint (hw_scene_get_pins (hw_bench_get_scene (bench))->len, ==, 0);
  wait_for_plan (bench);
  g_assert_cmpint (hooping_of (bench, "m3")->hold, ==, HW_PLACE_FREE);
}

static void
test_delete_takes_pins_and_ties_along (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwScene *scene = hw_bench_get_scene (bench);
  const guint both[] = { 0, 1 };

  HwSceneMotif *quince = hw_scene_find_motif (scene, "m3");
  g_autoptr (HwMotif) tied = hw_motif_copy (hw_scene_motif_get_record (quince));
  tied->before = g_strsplit ("m1 m2", " ", -1);
  hw_scene_motif_set_record (quince, tied);
  wait_for_plan (bench);
  hw_bench_take_candidate (bench, both, 2, 0, (HwPoint){ 125, 100 }, 0);

  hw_bench_select_only (bench, "m1");
  hw_bench_delete (bench);
  GPtrArray *pins = hw_scene_get_pins (scene);
  g_assert_cmpuint (pins->len, ==, 1);
  g_assert_cmpstr (((HwPin *)g_ptr_array_index (pins, 0))->motifs[0], ==, "m2");
  g_assert_null (((HwPin *)g_ptr_array_index (pins, 0))->motifs[1]);
  g_assert_cmpstr (hw_scene_motif_get_record (quince)->before[0], ==, "m2");
  g_assert_null (hw_scene_motif_get_record (quince)->before[1]);

  hw_bench_select_only (bench, "m2");
  hw_bench_delete (bench);
  g_assert_cmpuint (hw_scene_get_pins (scene)->len, ==, 0);
  g_assert_null (hw_scene_motif_get_record (quince)->before);
  hw_bench_undo (bench);
  hw_bench_undo (bench);
  assert_order (bench, "Pear Plum Quince ");
  g_assert_cmpuint (hw_scene_get_pins (scene)->len, ==, 1);
}

static void
test_chosen_hooping_keeps_its_meaning (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  wait_for_plan (bench);
  const HwPlan *plan = hw_bench_get_plan (bench);
  int with_quince = (int)(hooping_of (bench, "m3") - plan->hoopings);
  hw_bench_choose_hooping (bench, with_quince);
  hw_bench_set_stage (bench, (int)plan->n_hoopings);

  /* Plum leaves Pear: three hoopings now. */
  hw_bench_begin_edit (bench, "move Plum", FALSE);
  place (bench, "m2", 340, 100);
  hw_bench_end_edit (bench);
  g_assert_cmpuint (n_hoopings (bench), ==, 3);
  plan = hw_bench_get_plan (bench);
  g_assert_true (&plan->hoopings[hw_bench_get_chosen_hooping (bench)] == hooping_of (bench, "m3"));
  g_assert_cmpint (hw_bench_get_stage (bench), ==, 3);

  hw_bench_select_only (bench, "m3");
  hw_bench_delete (bench);
  wait_for_plan (bench);
  g_assert_cmpint (hw_bench_get_chosen_hooping (bench), ==, -1);
  g_assert_cmpint (hw_bench_get_stage (bench), ==, 2);
}

static void
test_choices_outside_the_plan_are_none (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  wait_for_plan (bench);
  hw_bench_choose_hooping (bench, 7);
  g_assert_cmpint (hw_bench_get_chosen_hooping (bench), ==, -1);
  hw_bench_set_stage (bench, 7);
  g_assert_cmpint (hw_bench_get_stage (bench), ==, 2);
  hw_bench_select_only (bench, "no such motif");
  g_assert_cmpuint (hw_bench_get_n_selected (bench), ==, 0);
}

static void
test_saved_scene_opens_again (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwBench) other = hw_bench_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("bench-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "orchard.hoopscene", NULL);

  hw_bench_select_only (bench, "m1");
  hw_bench_nudge (bench, 5, 0);
  g_assert_true (is_modified (bench));
  g_assert_true (hw_bench_save (bench, path, &error));
  g_assert_no_error (error);
  g_assert_false (is_modified (bench));
  g_assert_cmpstr (hw_bench_get_path (bench), ==, path);

  hw_bench_undo (bench);
  g_assert_true (is_modified (bench));
  hw_bench_redo (bench);
  g_assert_false (is_modified (bench));

  g_assert_true (hw_bench_open (other, path, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (placement_of (other, "m1").position.x, ==, 105);
  assert_steps (other, NULL, NULL);
  g_assert_true (hw_bench_open_copy (other, path, &error));
  g_assert_null (hw_bench_get_path (other));
  g_unlink (path);
  g_rmdir (folder);
}

static void
test_unreadable_scene_leaves_the_bench_as_it_was (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  int file = g_file_open_tmp ("broken-XXXXXX.hoopscene", &path, NULL);

  g_close (file, NULL);
  g_assert_true (g_file_set_contents (path, "{\"format\": \"hoopwright-sc", -1, NULL));
  g_assert_false (hw_bench_open (bench, path, &error));
  g_assert_nonnull (error);
  g_assert_cmpuint (strlen (error->message), >, 20);
  assert_order (bench, "Pear Plum Quince ");
  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  g_unlink (path);
}

static void
test_hooping_in_words (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  wait_for_plan (bench);
  const HwPlan *plan = hw_bench_get_plan (bench);
  guint near = (guint)(hooping_of (bench, "m1") - plan->hoopings);
  g_autofree char *motifs = hw_hooping_motifs_text (plan, near);
  g_autofree char *hour = hw_minutes_text (65.4);
  g_autofree char *minutes = hw_minutes_text (12.2);

  g_assert_cmpstr (motifs, ==, "Pear, Plum");
  g_assert_cmpstr (hw_hooping_hoop_name (plan, near), ==, "130 x 180");
  g_assert_cmpstr (hour, ==, "1 h 05");
  g_assert_cmpstr (minutes, ==, "12 min");
}

/* A card that named thousands of motifs would take seconds to set in lines. */
static void
test_a_hooping_of_very_many_names_the_first (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  wait_for_plan (bench);
  guint first[61] = { 0 };
  HwHooping hooping = { .motifs = first };
  HwPlan plan = { .snapshot = hw_bench_get_plan (bench)->snapshot, .hoopings = &hooping, .n_hoopings = 1 };
  const char *name = hw_snapshot_motif (plan.snapshot, 0)->name;

  for (hooping.n_motifs = 60; hooping.n_motifs <= 61; hooping.n_motifs++)
    {
      g_autofree char *said = hw_hooping_motifs_text (&plan, 0);
      g_auto (GStrv) names = g_strsplit (said, name, -1);

      g_assert_cmpuint (g_strv_length (names) - 1, ==, hooping.n_motifs == 60 ? 60 : 59);
      g_assert_cmpint (g_str_has_suffix (said, " and 2 more"), ==, hooping.n_motifs == 61);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/bench/drag-changes-plan-and-undo-brings-both-back",
                   test_drag_changes_plan_and_undo_brings_both_back);
  g_test_add_func ("/bench/cancelled-edit-leaves-no-step", test_cancelled_edit_leaves_no_step);
  g_test_add_func ("/bench/nudges-become-one-step", test_nudges_become_one_step);
  g_test_add_func ("/bench/locked-motifs-are-left-alone", test_locked_motifs_are_left_alone);
  g_test_add_func ("/bench/order-moves-a-group-together", test_order_moves_a_group_together);
  g_test_add_func ("/bench/duplicate-is-seen-and-named", test_duplicate_is_seen_and_named);
  g_test_add_func ("/bench/taken-candidate-is-kept-until-let-go", test_taken_candidate_is_kept_until_let_go);
  g_test_add_func ("/bench/delete-takes-pins-and-ties-along", test_delete_takes_pins_and_ties_along);
  g_test_add_func ("/bench/chosen-hooping-keeps-its-meaning", test_chosen_hooping_keeps_its_meaning);
  g_test_add_func ("/bench/choices-outside-the-plan-are-none", test_choices_outside_the_plan_are_none);
  g_test_add_func ("/bench/saved-scene-opens-again", test_saved_scene_opens_again);
  g_test_add_func ("/bench/unreadable-scene-leaves-the-bench-as-it-was",
                   test_unreadable_scene_leaves_the_bench_as_it_was);
  g_test_add_func ("/bench/hooping-in-words", test_hooping_in_words);
  g_test_add_func ("/bench/a-hooping-of-very-many-names-the-first",
                   test_a_hooping_of_very_many_names_the_first);
  return g_test_run ();
}

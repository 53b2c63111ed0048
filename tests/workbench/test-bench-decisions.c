/* What a person decides about the plan: each decision changes it, is one step of the history, and what it would lead to can be told before. */
#include "bench-fixture.h"

#include "workbench/consequence.h"

static guint
n_hoopings (HwBench *bench)
{
  wait_for_plan (bench);
  return hw_bench_get_plan (bench)->n_hoopings;
}

static int
hooping_of (HwBench *bench, const char *id)
{
  wait_for_plan (bench);
  const HwPlan *plan = hw_bench_get_plan (bench);
  return hw_plan_hooping_of (plan, (guint)hw_snapshot_find_motif (plan->snapshot, id));
}

static void
assert_undo_name (HwBench *bench, const char *expected)
{
  g_autofree char *name = NULL;

  g_object_get (bench, "undo-name", &name, NULL);
  g_assert_cmpstr (name, ==, expected);
}

static void
select_pair (HwBench *bench, const char *first, const char *second)
{
  const char *ids[] = { first, second, NULL };

  hw_bench_select_ids (bench, ids);
}

static void
test_kept_apart_and_let_share (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  select_pair (bench, "m1", "m2");
  g_assert_false (hw_bench_some_apart (bench));
  hw_bench_keep_apart (bench);
  g_assert_true (hw_bench_all_apart (bench));
  g_assert_cmpuint (n_hoopings (bench), ==, 3);
  assert_undo_name (bench, "keep Pear and Plum apart");

  hw_bench_let_share (bench);
  g_assert_false (hw_bench_some_apart (bench));
  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  hw_bench_undo (bench);
  g_assert_cmpuint (n_hoopings (bench), ==, 3);
  hw_bench_let_share_pair (bench, "m2", "m1");
  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  hw_bench_undo (bench);
  hw_bench_undo (bench);
  g_assert_false (hw_bench_are_apart (bench, "m1", "m2"));
  assert_undo_name (bench, NULL);
}

static void
test_only_some_of_three_are_apart (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  select_pair (bench, "m1", "m2");
  hw_bench_keep_apart (bench);
  hw_bench_select_all (bench);
  g_assert_true (hw_bench_some_apart (bench));
  g_assert_false (hw_bench_all_apart (bench));
}

static void
test_tie_orders_and_a_loop_is_refused_by_name (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *refusal = NULL;

  g_assert_cmpint (hooping_of (bench, "m3"), >=, 0);
  g_assert_true (hw_bench_tie (bench, "m3", "m1", NULL));
  g_assert_true (hw_bench_is_tied (bench, "m3", "m1"));
  g_assert_cmpint (hooping_of (bench, "m3"), <, hooping_of (bench, "m1"));
  assert_undo_name (bench, "stitch Quince before Pear");

  g_assert_false (hw_bench_tie (bench, "m1", "m3", &refusal));
  g_assert_nonnull (strstr (refusal, "Pear"));
  g_assert_nonnull (strstr (refusal, "Quince"));
  g_assert_false (hw_bench_is_tied (bench, "m1", "m3"));
  assert_undo_name (bench, "stitch Quince before Pear");

  hw_bench_untie (bench, "m3", "m1");
  g_assert_false (hw_bench_is_tied (bench, "m3", "m1"));
  g_assert_true (hw_bench_tie (bench, "m1", "m3", NULL));
  g_assert_cmpint (hooping_of (bench, "m1"), <, hooping_of (bench, "m3"));
}

static void
test_wishes_and_pace_are_steps (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwScene *scene = hw_bench_get_scene (bench);
  double before;

  hw_bench_set_best (bench, HW_BEST_LEAST_TIME);
  g_assert_cmpint (hw_scene_get_wishes (scene)->best, ==, HW_BEST_LEAST_TIME);
  hw_bench_set_interleave (bench, TRUE);
  g_assert_true (hw_scene_get_wishes (scene)->interleave);
  hw_bench_undo (bench);
  g_assert_false (hw_scene_get_wishes (scene)->interleave);
  g_assert_cmpint (hw_scene_get_wishes (scene)->best, ==, HW_BEST_LEAST_TIME);
  hw_bench_undo (bench);
  g_assert_cmpint (hw_scene_get_wishes (scene)->best, ==, HW_BEST_FEWEST);

  wait_for_plan (bench);
  before = hw_bench_get_plan (bench)->minutes;
  hw_bench_set_pace (bench, hw_scene_get_machine (scene)->minutes_per_hooping + 10, 1.5, 600);
  wait_for_plan (bench);
  g_assert_cmpfloat_with_epsilon (hw_bench_get_plan (bench)->minutes, before + 20, 1e-6);
}

static void
test_least_marks_are_a_step (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->hoopings[0].n_marks, ==, 2);
  hw_bench_set_least_marks (bench, 4);
  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->hoopings[0].n_marks, ==, 4);
  assert_undo_name (bench, "change how many marks a hooping has");
  hw_bench_undo (bench);
  g_assert_cmpuint (hw_scene_get_wishes (hw_bench_get_scene (bench))->marks, ==, 2);
}

static void
test_hoop_set_aside_is_not_used (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hw_scene_get_hoops (hw_bench_get_scene (bench)), 0);

  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  hw_bench_set_hoop_aside (bench, hoop, TRUE);
  g_assert_cmpuint (n_hoopings (bench), ==, 0);
  assert_undo_name (bench, "set the hoop 130 x 180 aside");
  hw_bench_undo (bench);
  g_assert_cmpuint (n_hoopings (bench), ==, 2);
}

static void
test_hooping_is_held_and_let_go (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const HwKeep keeps[] = { HW_KEEP_ALL, HW_KEEP_MOTIFS, HW_KEEP_GRAIN };

  for (guint i = 0; i < G_N_ELEMENTS (keeps); i++)
    {
      guint hooping = (guint)hooping_of (bench, "m1");

      g_assert_null (hw_bench_pin_of (bench, hooping));
      hw_bench_keep_hooping (bench, hooping, keeps[i]);
      hooping = (guint)hooping_of (bench, "m1");
      g_assert_nonnull (hw_bench_pin_of (bench, hooping));
      g_assert_cmpint (hw_bench_pin_of (bench, hooping)->keep, ==, keeps[i]);
      g_assert_cmpint (hw_bench_get_plan (bench)->hoopings[hooping].hold, ==, HW_PLACE_PINNED);
      g_assert_cmpint (hooping_of (bench, "m2"), ==, hooping);
      hw_bench_unpin (bench, hooping);
    }
  g_assert_null (hw_bench_pin_of (bench, (guint)hooping_of (bench, "m1")));
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  *(HwConsequence **)data = hw_consequence_weigh_finish (result, NULL);
}

static HwConsequence *
weigh (HwBench *bench, const HwSnapshot *changed, const char *const *together)
{
  HwConsequence *consequence = NULL;

  hw_consequence_weigh_async (bench, hw_bench_get_plan (bench), changed, together, NULL, done_cb,
                              &consequence);
  while (consequence == NULL)
    g_main_context_iteration (NULL, TRUE);
  return consequence;
}

static void
test_split_is_told_then_taken (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *out[] = { "m2", NULL }, *none[] = { NULL }, *all[] = { "m1", "m2", NULL };
  guint hooping = (guint)hooping_of (bench, "m1");
  g_autoptr (HwSnapshot) changed = hw_consequence_split (bench, hw_bench_get_plan (bench), hooping, out);
  g_autoptr (HwConsequence) told = NULL;

  g_assert_null (hw_consequence_split (bench, hw_bench_get_plan (bench), hooping, none));
  g_assert_null (hw_consequence_split (bench, hw_bench_get_plan (bench), hooping, all));
  told = weigh (bench, changed, NULL);
  g_assert_true (told->possible);
  g_assert_cmpstr (told->text, ==, "2 hoopings become 3, as many thread changes, 8 minutes more.");
  g_assert_cmpuint (n_hoopings (bench), ==, 2);

  hw_bench_take_snapshot (bench, "split hooping 1", changed);
  g_assert_cmpuint (n_hoopings (bench), ==, 3);
  hw_bench_undo (bench);
  g_assert_cmpuint (n_hoopings (bench), ==, 2);
}

static void
test_join_is_told_then_taken (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *together[] = { "m1", "m2", NULL };
  g_autoptr (HwSnapshot) changed = NULL;
  g_autoptr (HwConsequence) told = NULL;

  select_pair (bench, "m1", "m2");
  hw_bench_keep_apart (bench);
  g_assert_cmpuint (n_hoopings (bench), ==, 3);
  changed = hw_consequence_joined (bench, hw_bench_get_plan (bench), (guint)hooping_of (bench, "m1"),
                                   (guint)hooping_of (bench, "m2"));
  told = weigh (bench, changed, together);
  g_assert_true (told->possible);
  g_assert_cmpstr (told->text, ==, "3 hoopings become 2, as many thread changes, 8 minutes less.");
  hw_bench_take_snapshot (bench, "join hoopings", changed);
  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  g_assert_false (hw_bench_are_apart (bench, "m1", "m2"));
}

static void
test_join_that_cannot_be_says_why (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *together[] = { "m1", "m2", "m3", NULL };
  guint first = (guint)hooping_of (bench, "m1"), second = (guint)hooping_of (bench, "m3");
  g_autoptr (HwSnapshot) changed = hw_consequence_joined (bench, hw_bench_get_plan (bench), first, second);
  g_autoptr (HwConsequence) told = weigh (bench, changed, together);

  g_assert_false (told->possible);
  g_assert_nonnull (strstr (told->text, "fit no hoop"));
  g_assert_null (hw_consequence_joined (bench, hw_bench_get_plan (bench), first, first));
}

/* Pear and Plum lie askew: their hoop, too, or two hoops along the grain. */
static HwBench *
bench_with_askew_pair (void)
{
  HwBench *bench = bench_with_orchard ();
  HwSceneMotif *plum = hw_scene_find_motif (hw_bench_get_scene (bench), "m2");
  HwSceneMotif *pear = hw_scene_find_motif (hw_bench_get_scene (bench), "m1");
  g_autoptr (HwMotif) moved = hw_motif_copy (hw_scene_motif_get_record (plum));

  moved->placement.position = hw_scene_motif_get_record (pear)->placement.position;
  moved->placement.position.x += 95;
  moved->placement.position.y += 95;
  hw_scene_motif_set_record (plum, moved);
  return bench;
}

static void
test_grain_is_told_then_taken (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *together[] = { "m1", "m2", NULL };
  guint hooping = (guint)hooping_of (bench, "m1");
  g_autoptr (HwSnapshot) changed = hw_consequence_along_grain (bench, hw_bench_get_plan (bench), hooping);
  g_autoptr (HwConsequence) told = weigh (bench, changed, together);

  g_assert_true (told->possible);
  g_assert_null (told->instead);
  g_assert_cmpstr (told->text, ==, "Still 2 hoopings, as many thread changes, as much time.");
  hw_bench_take_snapshot (bench, "keep hooping 1 along the grain", changed);
  g_assert_cmpint (hooping_of (bench, "m1"), ==, hooping_of (bench, "m2"));
  g_assert_true (hw_bench_is_pin_kept (bench, hw_scene_get_pins (hw_bench_get_scene (bench))->pdata[0]));
}

static void
test_grain_that_needs_two_hoopings_offers_them (void)
{
  g_autoptr (HwBench) bench = bench_with_askew_pair ();
  const char *together[] = { "m1", "m2", NULL };
  guint hooping = (guint)hooping_of (bench, "m1");
  g_autoptr (HwSnapshot) changed = NULL;
  g_autoptr (HwConsequence) told = NULL;
  GPtrArray *pins;

  g_assert_cmpuint (n_hoopings (bench), ==, 2);
  g_assert_cmpint (hooping_of (bench, "m2"), ==, (int)hooping);
  changed = hw_consequence_along_grain (bench, hw_bench_get_plan (bench), hooping);
  told = weigh (bench, changed, together);
  g_assert_false (told->possible);
  g_assert_nonnull (told->instead);
  g_assert_nonnull (strstr (told->text, "cannot lie along the grain"));
  g_assert_nonnull (strstr (told->text, "It takes 2 hoopings along the grain: 2 hoopings become 3, as many "
                                        "thread changes, 8 minutes more."));
  hw_bench_take_snapshot (bench, "keep hooping 1 along the grain", told->instead);
  g_assert_cmpuint (n_hoopings (bench), ==, 3);
  pins = hw_scene_get_pins (hw_bench_get_scene (bench));
  g_assert_cmpuint (pins->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    g_assert_true (hw_bench_is_pin_kept (bench, pins->pdata[i]));
  hw_bench_undo (bench);
  g_assert_cmpuint (n_hoopings (bench), ==, 2);
}

static void
test_grain_that_a_motif_alone_cannot_have_says_so (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwSceneMotif *quince = hw_scene_find_motif (hw_bench_get_scene (bench), "m3");
  g_autoptr (HwMotif) long_one = hw_motif_copy (hw_scene_motif_get_record (quince));
  const char *together[] = { "m3", NULL };
  g_autoptr (HwSnapshot) changed = NULL;
  g_autoptr (HwConsequence) told = NULL;

  g_clear_pointer (&long_one->outline, hw_outline_unref);
  long_one->outline = hw_outline_new_rectangle (160, 90);
  long_one->placement.angle = 45;
  hw_scene_motif_set_record (quince, long_one);
  hooping_of (bench, "m3");
  changed = hw_consequence_along_grain (bench, hw_bench_get_plan (bench), (guint)hooping_of (bench, "m3"));
  told = weigh (bench, changed, together);
  g_assert_false (told->possible);
  g_assert_null (told->instead);
  g_assert_cmpstr (told->text, ==, "Along the grain no hoop in use takes Quince even by itself.");
}

/* As a file may hold it: the wish is there though the plan cannot follow it. */
static void
test_wish_that_is_not_kept_can_be_taken_back (void)
{
  for (guint way = 0; way < 3; way++)
    {
      g_autoptr (HwBench) bench = bench_with_askew_pair ();
      HwScene *scene = hw_bench_get_scene (bench);
      guint hooping = (guint)hooping_of (bench, "m1");
      const HwPin *pin, *behind = NULL;
      const HwPlan *plan;
      g_autofree char *text = NULL;

      g_assert_false (hw_bench_has_pin (bench, hooping));
      hw_bench_keep_hooping (bench, hooping, HW_KEEP_GRAIN);
      hooping = (guint)hooping_of (bench, "m1");
      pin = hw_scene_get_pins (scene)->pdata[0];
      g_assert_false (hw_bench_is_pin_kept (bench, pin));
      text = hw_bench_pin_text (bench, pin);
      g_assert_cmpstr (text, ==, "Held: Pear and Plum share a hooping, along the grain – not kept");
      plan = hw_bench_get_plan (bench);
      for (guint i = 0; i < plan->problems->len; i++)
        if (behind == NULL)
          behind = hw_bench_pin_behind (bench, plan->problems->pdata[i]);
      g_assert_true (behind == pin);
      g_assert_true (hw_bench_has_pin (bench, hooping));
      if (way == 0)
        hw_bench_unpin (bench, hooping);
      else
        hw_bench_let_pin_go (bench, way == 1 ? pin : behind);
      g_assert_cmpuint (hw_scene_get_pins (scene)->len, ==, 0);
      assert_undo_name (bench, "let 2 motifs go");
      hw_bench_undo (bench);
      g_assert_cmpuint (hw_scene_get_pins (scene)->len, ==, 1);
    }
}

static void
test_pins_are_told_in_words (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  static const char *const expected[]
      = { "Held as it is: the hooping of Quince", "Held: Quince has a hooping of its own",
          "Held: Quince has a hooping of its own, along the grain" };

  for (guint keep = 0; keep < G_N_ELEMENTS (expected); keep++)
    {
      g_autofree char *text = NULL;

      hw_bench_keep_hooping (bench, (guint)hooping_of (bench, "m3"), (HwKeep)keep);
      wait_for_plan (bench);
      text = hw_bench_pin_text (bench, hw_scene_get_pins (hw_bench_get_scene (bench))->pdata[0]);
      g_assert_cmpstr (text, ==, expected[keep]);
    }
}

static void
count_cb (HwBench *bench, gpointer n)
{
  (*(guint *)n)++;
}

static void
test_motifs_are_pointed_out (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const char *ids[] = { "m1", "m3", NULL };
  guint n = 0;

  g_signal_connect (bench, "pointed-out-changed", G_CALLBACK (count_cb), &n);
  hw_bench_point_out (bench, ids);
  hw_bench_point_out (bench, ids);
  g_assert_cmpuint (n, ==, 1);
  g_assert_true (hw_bench_is_pointed_out (bench, "m3"));
  g_assert_false (hw_bench_is_pointed_out (bench, "m2"));
  g_assert_cmpuint (hw_bench_get_n_selected (bench), ==, 0);
  hw_bench_point_out (bench, NULL);
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpuint (hw_bench_get_n_pointed_out (bench), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench-decisions/kept apart and let share", test_kept_apart_and_let_share);
  g_test_add_func ("/bench-decisions/only some of three are apart", test_only_some_of_three_are_apart);
  g_test_add_func ("/bench-decisions/a tie orders, a loop is refused by name",
                   test_tie_orders_and_a_loop_is_refused_by_name);
  g_test_add_func ("/bench-decisions/wishes and pace are steps", test_wishes_and_pace_are_steps);
  g_test_add_func ("/bench-decisions/a hoop set aside is not used", test_hoop_set_aside_is_not_used);
  g_test_add_func ("/bench-decisions/the least marks are a step", test_least_marks_are_a_step);
  g_test_add_func ("/bench-decisions/a hooping is held and let go", test_hooping_is_held_and_let_go);
  g_test_add_func ("/bench-decisions/a split is told, then taken", test_split_is_told_then_taken);
  g_test_add_func ("/bench-decisions/a join is told, then taken", test_join_is_told_then_taken);
  g_test_add_func ("/bench-decisions/a join that cannot be says why", test_join_that_cannot_be_says_why);
  g_test_add_func ("/bench-decisions/the grain is told, then taken", test_grain_is_told_then_taken);
  g_test_add_func ("/bench-decisions/the grain that needs two hoopings offers them",
                   test_grain_that_needs_two_hoopings_offers_them);
  g_test_add_func ("/bench-decisions/the grain that a motif alone cannot have says so",
                   test_grain_that_a_motif_alone_cannot_have_says_so);
  g_test_add_func ("/bench-decisions/a wish that is not kept can be taken back",
                   test_wish_that_is_not_kept_can_be_taken_back);
  g_test_add_func ("/bench-decisions/pins are told in words", test_pins_are_told_in_words);
  g_test_add_func ("/bench-decisions/motifs are pointed out", test_motifs_are_pointed_out);
  return g_test_run ();
}

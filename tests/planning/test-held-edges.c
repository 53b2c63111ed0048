/* Wishes that name what is not there, contradict one another or themselves, or are needed although they cannot be kept: the plan says so, and is
 * right all the same. */
#include "little-scenes.h"

#include "../../src/planning/order.h"

static HwSnapshot *
garden (void)
{
  HwSnapshot *scene = little_scene (800, 600);

  little_hoop (scene, 104, 104, 2, HW_TURN_ANY);
  return scene;
}

static guint
count_problems (const HwPlan *plan, HwProblemKind kind)
{
  guint n = 0;

  for (guint i = 0; i < plan->problems->len; i++)
    n += ((HwProblem *)plan->problems->pdata[i])->kind == kind;
  return n;
}

static void
tie (HwSnapshot *scene, guint motif, const char *before)
{
  ((HwMotif *)hw_snapshot_motif (scene, motif))->before = g_strsplit (before, " ", -1);
}

static void
a_tie_to_itself_is_left_out_and_told (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GArray) loop = NULL;
  g_autofree guint8 *before = NULL;

  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  tie (scene, 1, "m2");
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_ORDER_LOOP), ==, 1);
  g_assert_cmpstr (find_problem (plan, HW_PROBLEM_ORDER_LOOP)->text, ==,
                   "Quince is tied before itself. That tie is left out.");
  g_assert_cmpint (find_problem (plan, HW_PROBLEM_ORDER_LOOP)->motif, ==, 1);
  before = hw_order_of_snapshot (scene, &loop);
  g_assert_cmpuint (loop->len, ==, 2);
  g_assert_cmpuint (g_array_index (loop, guint, 0), ==, 1);
  g_assert_cmpuint (g_array_index (loop, guint, 1), ==, 1);
}

static void
the_first_loop_of_a_scene_is_told (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (GArray) loop = NULL;
  g_autofree guint8 *before = NULL, *without = NULL;

  for (guint i = 0; i < 4; i++)
    little_motif (scene, "Gate", 40, 40, 100 + 60 * i, 100);
  tie (scene, 0, "m2");
  tie (scene, 1, "m1");
  tie (scene, 2, "m4");
  tie (scene, 3, "m3");
  before = hw_order_of_snapshot (scene, &loop);
  g_assert_cmpuint (loop->len, ==, 3);
  g_assert_cmpuint (g_array_index (loop, guint, 0), ==, 1);
  g_assert_cmpuint (g_array_index (loop, guint, 1), ==, 0);
  g_assert_cmpuint (g_array_index (loop, guint, 2), ==, 1);
  without = hw_order_of_snapshot (scene, NULL);
  g_assert_cmpmem (before, 16, without, 16);
}

/* No hoop takes Ladder: neither what it was to come before nor what was to come before it waits for it. */
static void
ties_to_what_cannot_be_stitched_ask_for_nothing (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;

  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Ladder", 300, 40, 100, 300);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  tie (scene, 0, "m2");
  tie (scene, 1, "m3 m1");
  plan = plan_verified (scene);
  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_ORDER_LOOP), ==, 0);
}

/* Pear fits only the hoop that is set aside, in which it is pinned together with Plum and Quince; but each of these is pinned by itself as well. Two
 * pins are kept rather than one, and Pear is lost with it. */
static void
a_pin_that_is_needed_but_cannot_be_kept_is_told (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;

  little_hoop (scene, 304, 304, 2, HW_TURN_ANY)->set_aside = TRUE;
  little_motif (scene, "Pear", 200, 40, 300, 300);
  little_motif (scene, "Plum", 40, 40, 250, 360);
  little_motif (scene, "Quince", 40, 40, 350, 360);
  tie (scene, 0, "m2");
  tie (scene, 1, "m3");
  g_ptr_array_add (scene->pins, little_pin ("h2", 300, 330, "m1 m2 m3"));
  g_ptr_array_add (scene->pins, little_pin ("h1", 250, 360, "m2"));
  g_ptr_array_add (scene->pins, little_pin ("h1", 350, 360, "m3"));
  plan = plan_verified (scene);
  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), ==, -1);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_PIN), ==, 1);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_OVERSIZE), ==, 1);
  assert_says (find_problem (plan, HW_PROBLEM_PIN)->text, "Pear");
  assert_says (find_problem (plan, HW_PROBLEM_OVERSIZE)->text,
               " The 304 × 304 mm hoop, which is set aside, would take it.");
}

/* Gate under Quince, which is tied before Rose; Trellis under Quince too, and Fern over Rose. Gate is pinned to one hooping with Rose, Trellis with
 * Fern: without the tie both can be. */
static void
a_tie_is_left_out_for_two_pins (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwPin *gate = little_pin ("h1", 100, 130, "m1 m3"), *trellis = little_pin ("h1", 120, 135, "m2 m5");
  const HwProblem *loop;

  little_motif (scene, "Gate", 20, 20, 100, 100);
  little_motif (scene, "Trellis", 20, 20, 130, 100);
  little_motif (scene, "Rose", 20, 20, 100, 160);
  little_motif (scene, "Quince", 40, 30, 115, 120);
  little_motif (scene, "Fern", 20, 20, 115, 165);
  tie (scene, 3, "m3");
  gate->keep = trellis->keep = HW_KEEP_MOTIFS;
  g_ptr_array_add (scene->pins, gate);
  g_ptr_array_add (scene->pins, trellis);
  plan = plan_verified (scene);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_PIN), ==, 0);
  loop = find_problem (plan, HW_PROBLEM_ORDER_LOOP);
  g_assert_nonnull (loop);
  g_assert_cmpint (loop->motif, ==, 3);
  g_assert_true (loop->grave);
  assert_says (loop->text, "Quince is tied before Rose, but ");
  assert_says (loop->text, " contradict one another: the order goes ");
  assert_says (loop->text, ". That tie is left out.");
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), ==, hw_plan_hooping_of (plan, 2));
  g_assert_cmpint (hw_plan_hooping_of (plan, 1), ==, hw_plan_hooping_of (plan, 4));
}

/* Gate and Quince cannot be pinned to one hooping, since Trellis comes between; that Gate is pinned with Rose as well has no part in it and is kept. */
static void
a_pin_that_cannot_be_kept_costs_no_other (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwPin *around = little_pin ("h1", 100, 100, "m1 m3"), *beside = little_pin ("h1", 100, 100, "m1 m4");

  little_motif (scene, "Gate", 30, 30, 80, 100);
  little_motif (scene, "Trellis", 30, 30, 100, 100);
  little_motif (scene, "Quince", 30, 30, 120, 100);
  little_motif (scene, "Rose", 20, 20, 80, 140);
  around->keep = beside->keep = HW_KEEP_MOTIFS;
  g_ptr_array_add (scene->pins, around);
  g_ptr_array_add (scene->pins, beside);
  plan = plan_verified (scene);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_PIN), ==, 1);
  assert_says (
      find_problem (plan, HW_PROBLEM_PIN)->text,
      "The pinned hooping with Gate and Quince cannot be stitched at one time: the order goes Gate before "
      "Trellis, Trellis before Quince.");
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), ==, hw_plan_hooping_of (plan, 3));
}

static void
pairs_kept_apart_of_what_is_not_there_ask_for_nothing (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;

  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "gone"));
  g_ptr_array_add (scene->apart, hw_apart_new ("gone", "m2"));
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "m1"));
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
  g_ptr_array_add (scene->apart, hw_apart_new ("m2", "m1"));
  g_autoptr (HwPlan) apart = plan_verified (scene);
  g_assert_cmpuint (apart->n_hoopings, ==, 2);
  g_ptr_array_unref (g_steal_pointer (&scene->apart)); /* a scene need not have a list at all */
  g_autoptr (HwPlan) without = plan_verified (scene);
  g_assert_cmpuint (without->n_hoopings, ==, 1);
  scene->apart = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_apart_unref);
}

/* Stitched hoopings whose hoop is gone or was never written down are kept and told of; what is stitched is so once, and names of motifs that are
 * gone mean nothing. */
static void
stitched_hoopings_are_read_with_care (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwPin *bare = little_pin (NULL, 0, 0, "m1");

  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  little_motif (scene, "Rose", 40, 40, 300, 100);
  g_strfreev (bare->motifs);
  bare->motifs = NULL;
  g_ptr_array_add (scene->frozen, bare); /* nothing is named: there is no such hooping */
  g_ptr_array_add (scene->frozen, little_pin (NULL, 100, 100, "m1 gone m1"));
  g_ptr_array_add (scene->frozen, little_pin ("h9", 150, 100, "m1 m2"));
  g_ptr_array_add (scene->frozen,
                   little_pin ("h1", 150, 100, "m2")); /* stitched before: nothing is left of it */
  g_ptr_array_add (scene->pins, little_pin ("h1", 150, 100, "m1 m2"));
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 3);
  g_assert_cmpuint (plan->hoopings[0].n_motifs, ==, 1);
  g_assert_cmpuint (plan->hoopings[1].n_motifs, ==, 1);
  g_assert_cmpuint (plan->hoopings[1].motifs[0], ==, 1);
  g_assert_cmpint (plan->hoopings[1].hold, ==, HW_PLACE_FROZEN);
  g_assert_cmpint (plan->hoopings[2].hold, ==, HW_PLACE_FREE);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_PIN), ==, 2);
  assert_says (find_problem (plan, HW_PROBLEM_PIN)->text,
               "Stitched hooping 1 was made with a hoop that is no longer in the scene.");
}

static void
pins_that_name_nothing_or_no_hoop_are_told_or_passed_over (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwPin *bare = little_pin ("h1", 0, 0, "m1"), *hoopless = little_pin (NULL, 150, 100, "m2");

  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  g_strfreev (bare->motifs);
  bare->motifs = NULL;
  g_ptr_array_add (scene->pins, bare);
  g_ptr_array_add (scene->pins, hoopless);
  plan = plan_verified (scene);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_PIN), ==, 1);
  assert_says (find_problem (plan, HW_PROBLEM_PIN)->text,
               "The pinned hooping with Quince names a hoop that is no longer in the scene.");
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
}

static void
without_hoops_nothing_counts_as_stitched (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwPlan) plan = NULL;

  little_motif (scene, "Gate", 40, 40, 100, 100);
  g_ptr_array_add (scene->frozen, little_pin ("h1", 100, 100, "m1"));
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 0);
  g_assert_cmpuint (count_problems (plan, HW_PROBLEM_NO_HOOP), ==, 1);
  g_assert_true (find_problem (plan, HW_PROBLEM_NO_HOOP)->grave);
}

static void
a_hoop_without_a_usable_field_is_told (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;

  little_motif (scene, "Gate", 200, 40, 300, 300);
  ((HwHoop *)hw_snapshot_hoop (scene, 0))->clearance = 60;
  little_hoop (scene, 400, 300, 2, HW_TURN_ANY)->set_aside = TRUE;
  little_hoop (scene, 300, 300, 2, HW_TURN_ANY)->set_aside = TRUE;
  little_hoop (scene, 300, 400, 2, HW_TURN_ANY)->set_aside = TRUE;
  plan = plan_verified (scene);
  g_assert_cmpstr (find_problem (plan, HW_PROBLEM_OVERSIZE)->text, ==,
                   "Gate fits no hoop: none of them has a usable field. The 300 × 300 mm hoop, which is set "
                   "aside, would take it.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/held-edges/tie-to-itself", a_tie_to_itself_is_left_out_and_told);
  g_test_add_func ("/planning/held-edges/first-loop", the_first_loop_of_a_scene_is_told);
  g_test_add_func ("/planning/held-edges/ties", ties_to_what_cannot_be_stitched_ask_for_nothing);
  g_test_add_func ("/planning/held-edges/needed-pin", a_pin_that_is_needed_but_cannot_be_kept_is_told);
  g_test_add_func ("/planning/held-edges/tie-for-pins", a_tie_is_left_out_for_two_pins);
  g_test_add_func ("/planning/held-edges/apart", pairs_kept_apart_of_what_is_not_there_ask_for_nothing);
  g_test_add_func ("/planning/held-edges/stitched", stitched_hoopings_are_read_with_care);
  g_test_add_func ("/planning/held-edges/pins", pins_that_name_nothing_or_no_hoop_are_told_or_passed_over);
  g_test_add_func ("/planning/held-edges/no-hoop", without_hoops_nothing_counts_as_stitched);
  g_test_add_func ("/planning/held-edges/no-field", a_hoop_without_a_usable_field_is_told);
  g_test_add_func ("/planning/held-edges/costs-no-other", a_pin_that_cannot_be_kept_costs_no_other);
  return g_test_run ();
}

/* The check of a plan: what is stitched already, what is pinned, what is wished for. */
#include "plans-by-hand.h"

static void
what_is_stitched_already_comes_first_and_as_it_was (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);
  HwHooping *first = &plan->hoopings[0], *second = &plan->hoopings[1];

  second->hold = HW_PLACE_FROZEN;
  assert_wrong (plan, "A hooping already stitched comes after one that is not.");
  first->hold = HW_PLACE_FROZEN;
  assert_right (plan);
  second->hold = HW_PLACE_FREE;
  assert_right (plan);
  first->centre.x = 300; /* as it was hooped then, whatever the motifs have done since */
  first->hoop = 7;
  assert_right (plan);
  first->hoop = 0;
  first->hold = HW_PLACE_FREE;
  assert_wrong (plan, "Gate passes the field of hooping 1.");
  first->centre.x = 125;
  first->hold = HW_PLACE_FROZEN;
  /* Its motifs may be gone from the scene. */
  first->n_motifs = 0;
  assert_wrong (plan, "Gate is never stitched.");
  problem_of (plan, HW_PROBLEM_OVERSIZE, 0, TRUE);
  problem_of (plan, HW_PROBLEM_OVERSIZE, 1, TRUE);
  assert_right (plan);
}

/* Quince is pinned alone at 30 degrees; Gate and Rose are free. */
static HwPlan *
plan_with_a_pin (HwSnapshot **scene, HwPin **pin)
{
  HwPlan *plan;

  *scene = garden ();
  little_hoop (*scene, 104, 104, 2, HW_TURN_ANY);
  little_motif (*scene, "Gate", 40, 40, 100, 100);
  little_motif (*scene, "Quince", 40, 40, 150, 100);
  little_motif (*scene, "Rose", 40, 40, 400, 100);
  *pin = little_pin ("h1", 151, 102, "m2");
  (*pin)->angle = 30;
  g_ptr_array_add ((*scene)->pins, *pin);
  plan = hw_plan_new (*scene);
  hoop_up (plan, 100, 100, "0");
  hoop_up (plan, 151, 102, "1");
  hoop_up (plan, 400, 100, "2");
  plan->hoopings[1].hold = HW_PLACE_PINNED;
  plan->hoopings[1].angle = 30;
  assert_right (plan);
  return plan;
}

static void
a_pinned_hooping_lies_as_its_pin_says (void)
{
  const char *elsewhere = "Hooping 2 is not where its pin says.";
  g_autoptr (HwSnapshot) scene = NULL;
  HwPin *pin;
  g_autoptr (HwPlan) plan = plan_with_a_pin (&scene, &pin);
  HwHooping *hooping = &plan->hoopings[1];

  hooping->centre.x += 0.001;
  assert_wrong (plan, elsewhere);
  pin->keep = HW_KEEP_MOTIFS;
  assert_right (plan);
  pin->keep = HW_KEEP_ALL;
  hooping->centre.x -= 0.001;
  hooping->centre.y -= 0.001;
  assert_wrong (plan, elsewhere);
  hooping->centre.y += 0.001;
  hooping->angle = 31;
  assert_wrong (plan, elsewhere);
  pin->keep = HW_KEEP_MOTIFS;
  assert_right (plan);
  pin->keep = HW_KEEP_ALL;
  hooping->angle = 30;
  hooping->hoop = 1;
  assert_wrong (plan, elsewhere);
  pin->keep = HW_KEEP_MOTIFS;
  assert_right (plan);
  hooping->hoop = 0;
  /* Along the grain: any quarter, and nothing else. */
  pin->keep = HW_KEEP_GRAIN;
  assert_wrong (plan, elsewhere);
  hooping->angle = -90;
  assert_right (plan);
  hooping->angle = 0.001;
  assert_wrong (plan, elsewhere);
  hooping->angle = 0;
  assert_right (plan);
  hooping->hold = HW_PLACE_FREE;
  assert_wrong (plan, "Pinned hooping 1 is neither kept nor answered.");
  hooping->hold = HW_PLACE_PINNED;
  g_ptr_array_set_size (scene->pins, 0);
  assert_wrong (plan, elsewhere);
}

static void
a_pin_keeps_its_motifs_together_and_others_out (void)
{
  const char *elsewhere = "Hooping 2 is not where its pin says.";
  g_autoptr (HwSnapshot) scene = NULL;
  HwPin *pin;
  g_autoptr (HwPlan) plan = plan_with_a_pin (&scene, &pin);

  pin->keep = HW_KEEP_MOTIFS;
  g_strfreev (pin->motifs);
  pin->motifs = g_strsplit ("m2 m1", " ", -1); /* Gate belongs to it, but has a hooping of its own */
  assert_wrong (plan, elsewhere);
  g_strfreev (pin->motifs);
  pin->motifs = g_strsplit ("m3", " ", -1);
  assert_wrong (plan, elsewhere);
  g_strfreev (pin->motifs);
  pin->motifs = g_strsplit ("gone m2", " ", -1); /* what the scene lacks asks for nothing */
  assert_right (plan);
  g_strfreev (pin->motifs);
  pin->motifs = NULL; /* names nothing, so it cannot be what keeps Quince there */
  assert_wrong (plan, elsewhere);
  plan->hoopings[1].hold = HW_PLACE_FREE;
  assert_right (plan); /* and nothing need keep it */
  plan->hoopings[1].hold = HW_PLACE_PINNED;
  pin->motifs = g_strsplit ("m2 m1", " ", -1);
  plan->hoopings[0].hold = HW_PLACE_FROZEN; /* Gate is stitched: the pin is for what is left of it */
  assert_right (plan);
  plan->hoopings[0].hold = HW_PLACE_FREE;
  problem_of (plan, HW_PROBLEM_OVERSIZE, 0, TRUE);
  swap (plan, 0, 2);
  plan->n_hoopings = 2; /* Gate is pinned and nowhere stitched */
  assert_wrong (plan, elsewhere);
  plan->n_hoopings = 3;
}

/* A further motif in a pinned hooping is not what the person pinned. */
static void
a_pinned_hooping_takes_nobody_in (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  plan->hoopings[0].hold = HW_PLACE_PINNED;
  g_ptr_array_add (scene->pins, little_pin ("h1", 125, 100, "m1 m2"));
  assert_right (plan);
  g_ptr_array_set_size (scene->pins, 0);
  g_ptr_array_add (scene->pins, little_pin ("h1", 125, 100, "m1"));
  assert_wrong (plan, "Hooping 1 is not where its pin says.");
}

static void
a_pin_is_kept_or_answered (void)
{
  const char *neither = "Pinned hooping 1 is neither kept nor answered.";
  g_autoptr (HwSnapshot) scene = NULL;
  HwPin *pin;
  g_autoptr (HwPlan) plan = plan_with_a_pin (&scene, &pin);
  HwProblem *problem;

  plan->hoopings[1].hold = HW_PLACE_FREE;
  assert_wrong (plan, neither);
  problem = problem_of (plan, HW_PROBLEM_PIN, 0, FALSE);
  assert_wrong (plan, neither);
  problem->motif = 1;
  assert_right (plan);
  problem->kind = HW_PROBLEM_MARKS;
  assert_wrong (plan, neither);
  swap (plan, 0, 1);
  plan->hoopings[0].hold = HW_PLACE_FROZEN; /* stitched already: nothing is left of the pin */
  assert_right (plan);
  plan->hoopings[0].hold = HW_PLACE_FREE;
  g_strfreev (pin->motifs);
  pin->motifs = g_strsplit ("gone", " ", -1);
  assert_right (plan);
  /* A second one with the same question is told by its own number. */
  g_ptr_array_add (scene->pins, little_pin ("h1", 400, 100, "m3"));
  assert_wrong (plan, "Pinned hooping 2 is neither kept nor answered.");
  plan->hoopings[2].hold = HW_PLACE_PINNED;
  assert_right (plan);
}

static void
without_a_hoop_no_pin_can_be_kept (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwPlan) plan = NULL;

  little_motif (scene, "Gate", 40, 40, 100, 100);
  g_ptr_array_add (scene->pins, little_pin ("h1", 100, 100, "m1"));
  plan = hw_plan_new (scene);
  assert_right (plan);
  little_hoop (scene, 104, 104, 2, HW_TURN_ANY)->set_aside = TRUE;
  assert_wrong (plan, "Pinned hooping 1 is neither kept nor answered.");
}

static void
motifs_kept_apart_do_not_share (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  g_ptr_array_add (scene->apart, hw_apart_new ("m3", "m1"));
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "gone"));
  g_ptr_array_add (scene->apart, hw_apart_new ("gone", "m1"));
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "m1"));
  assert_right (plan);
  g_ptr_array_add (scene->apart, hw_apart_new ("m2", "m1"));
  assert_wrong (plan, "Quince and Gate share a hooping but are kept apart.");
  plan->hoopings[0].hold = HW_PLACE_FROZEN;
  assert_right (plan);
  plan->hoopings[0].hold = HW_PLACE_FREE;
  swap (plan, 0, 1);
  plan->n_hoopings = 1; /* neither is stitched: that is no hooping they share */
  problem_of (plan, HW_PROBLEM_OVERSIZE, 0, TRUE);
  problem_of (plan, HW_PROBLEM_OVERSIZE, 1, TRUE);
  assert_right (plan);
  plan->n_hoopings = 2;
}

static void
a_hoop_set_aside_is_used_where_it_is_pinned (void)
{
  const char *aside = "Hooping 2 uses a hoop that is set aside.";
  g_autoptr (HwSnapshot) scene = NULL;
  HwPin *pin;
  g_autoptr (HwPlan) plan = plan_with_a_pin (&scene, &pin);
  HwHooping *hooping = &plan->hoopings[1];

  ((HwHoop *)hw_snapshot_hoop (scene, 1))->set_aside = TRUE;
  assert_right (plan);
  g_free (pin->hoop);
  pin->hoop = g_strdup ("h2");
  hooping->hoop = 1;
  assert_right (plan); /* pinned in it, whole */
  pin->keep = HW_KEEP_MOTIFS;
  assert_wrong (plan, aside); /* only the motifs are pinned */
  g_ptr_array_set_size (scene->pins, 0);
  hooping->hold = HW_PLACE_FREE;
  assert_wrong (plan, aside);
  swap (plan, 0, 1);
  plan->hoopings[0].hold = HW_PLACE_FROZEN; /* it was stitched in it */
  assert_right (plan);
}

/* Gate's hooping is in the machine; one without motifs is not. */
static void
an_empty_hooping_has_no_work_begun (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  HwPin *pin = little_pin ("h1", 100, 100, "m1");

  little_motif (scene, "Gate", 40, 40, 100, 100);
  pin->work = hw_work_new ();
  g_ptr_array_add (scene->pins, pin);
  hoop_up (plan, 100, 100, "0");
  hoop_up (plan, 300, 100, "");
  g_assert_nonnull (hw_work_of_hooping (plan, 0));
  g_assert_null (hw_work_of_hooping (plan, 1));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/plan-verify-held/stitched", what_is_stitched_already_comes_first_and_as_it_was);
  g_test_add_func ("/planning/plan-verify-held/pose-of-pin", a_pinned_hooping_lies_as_its_pin_says);
  g_test_add_func ("/planning/plan-verify-held/motifs-of-pin",
                   a_pin_keeps_its_motifs_together_and_others_out);
  g_test_add_func ("/planning/plan-verify-held/alone-in-pin", a_pinned_hooping_takes_nobody_in);
  g_test_add_func ("/planning/plan-verify-held/pin-answered", a_pin_is_kept_or_answered);
  g_test_add_func ("/planning/plan-verify-held/pin-without-hoop", without_a_hoop_no_pin_can_be_kept);
  g_test_add_func ("/planning/plan-verify-held/apart", motifs_kept_apart_do_not_share);
  g_test_add_func ("/planning/plan-verify-held/set-aside", a_hoop_set_aside_is_used_where_it_is_pinned);
  g_test_add_func ("/planning/plan-verify-held/empty", an_empty_hooping_has_no_work_begun);
  return g_test_run ();
}

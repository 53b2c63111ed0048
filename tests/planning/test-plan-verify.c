/* The check of a plan: motifs, fields, order, counts. */
#include "plans-by-hand.h"

#include <math.h>

static void
a_motif_left_out_or_stitched_twice_is_told (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);
  HwHooping *second = &plan->hoopings[1];

  second->n_motifs = 0;
  assert_wrong (plan, "Hooping 2 has no motif.");
  second->n_motifs = 1;
  second->motifs[0] = 3;
  assert_wrong (plan, "Hooping 2 names a motif the scene lacks.");
  second->motifs[0] = G_MAXUINT;
  assert_wrong (plan, "Hooping 2 names a motif the scene lacks.");
  second->motifs[0] = 1;
  assert_wrong (plan, "Quince is stitched twice.");
  second->motifs[0] = 2;
  plan->hoopings[0].motifs[1] = 0;
  assert_wrong (plan, "Gate is stitched twice.");
  plan->hoopings[0].motifs[1] = 1;
  plan->n_hoopings = 1;
  assert_wrong (plan, "Rose is never stitched.");
  plan->n_hoopings = 2;
  assert_right (plan);
}

static void
only_a_grave_problem_of_its_size_excuses_a_motif (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);
  HwProblem *problem;

  plan->n_hoopings = 1;
  problem = problem_of (plan, HW_PROBLEM_OVERSIZE, 2, TRUE);
  assert_right (plan);
  problem->grave = FALSE;
  assert_wrong (plan, "Rose is never stitched.");
  problem->grave = TRUE;
  problem->motif = 1;
  assert_wrong (plan, "Rose is never stitched.");
  problem->motif = -1;
  assert_wrong (plan, "Rose is never stitched.");
  problem->motif = 2;
  problem->kind = HW_PROBLEM_OUTSIDE_CLOTH;
  assert_wrong (plan, "Rose is never stitched.");
  plan->n_hoopings = 2;
  assert_right (plan);
}

static void
without_a_hoop_in_use_nothing_need_be_stitched (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwPlan) plan = NULL;

  little_motif (scene, "Gate", 40, 40, 100, 100);
  plan = hw_plan_new (scene);
  assert_right (plan);
  little_hoop (scene, 104, 104, 2, HW_TURN_ANY)->set_aside = TRUE;
  assert_right (plan);
  little_hoop (scene, 50, 50, 2, HW_TURN_ANY);
  assert_wrong (plan, "Gate is never stitched.");
}

static void
a_motif_that_passes_the_field_is_told (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwHooping *hooping;
  /* From the pose in which the motif, 100 mm square, just fits. */
  static const HwPoint beyond[] = { { 0.001, 0 }, { -0.001, 0 }, { 0, 0.001 }, { 0, -0.001 } };

  little_motif (scene, "Gate", 100, 100, 200, 200);
  plan = hw_plan_new (scene);
  hooping = hoop_up (plan, 200, 200, "0");
  assert_right (plan);
  for (guint i = 0; i < G_N_ELEMENTS (beyond); i++)
    {
      hooping->centre = (HwPoint){ 200 + beyond[i].x, 200 + beyond[i].y };
      assert_wrong (plan, "Gate passes the field of hooping 1.");
      /* What rounding does is let through. */
      hooping->centre = (HwPoint){ 200 + 1e-4 * beyond[i].x, 200 + 1e-4 * beyond[i].y };
      assert_right (plan);
    }
  hooping->centre = (HwPoint){ 200, 200 };
  hooping->angle = 0.001;
  assert_wrong (plan, "Gate passes the field of hooping 1.");
  hooping->angle = 90;
  assert_right (plan);
  hooping->centre.x = NAN;
  assert_wrong (plan, "Gate passes the field of hooping 1.");
  hooping->centre.x = 200;
  hooping->angle = INFINITY;
  assert_wrong (plan, "Gate passes the field of hooping 1.");
  hooping->angle = 0;
  hooping->hoop = 1;
  assert_wrong (plan, "Hooping 1 names a hoop the scene lacks.");
  hooping->hoop = 0;
  assert_right (plan);
}

/* Each side of the field keeps its clearance, every ring of a motif counts, and an angle turns the way it does for motifs. */
static void
the_field_is_measured_as_it_lies (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwPoint near[] = { { -10, -10 }, { 10, -10 }, { 10, 10 } }, far[] = { { 40, 0 }, { 50, 0 }, { 50, 8 } };
  HwRing rings[] = { { near, 3 }, { far, 3 } };
  HwMotif *leaf, *petals;
  HwHooping *hooping;

  little_hoop (scene, 120, 40, 5, HW_TURN_ANY); /* room for 110 x 30 */
  leaf = little_motif (scene, "Leaf", 110, 30, 200, 200);
  leaf->placement.angle = 30;
  petals = little_motif (scene, "Petals", 10, 10, 400, 200);
  hw_outline_unref (petals->outline);
  petals->outline = hw_outline_new (rings, 2);
  plan = hw_plan_new (scene);
  hooping = hoop_up (plan, 200, 200, "0");
  hooping->hoop = 1;
  hooping->angle = 30;
  hoop_up (plan, 400, 200, "1");
  hooping = plan->hoopings;
  assert_right (plan);
  hooping->angle = 210;
  assert_right (plan);
  hooping->angle = -30;
  assert_wrong (plan, "Leaf passes the field of hooping 1.");
  hooping->angle = 30;
  plan->hoopings[1].centre.x = 399.9;
  assert_wrong (plan, "Petals passes the field of hooping 2.");
  plan->hoopings[1].centre.x = 400;
  ((HwHoop *)hw_snapshot_hoop (scene, 1))->clearance = 5.001;
  assert_wrong (plan, "Leaf passes the field of hooping 1.");
}

static void
a_hoop_for_quarter_turns_is_used_at_no_other_angle (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwHooping *hooping;

  little_motif (scene, "Gate", 20, 20, 200, 200);
  plan = hw_plan_new (scene);
  hooping = hoop_up (plan, 200, 200, "0");
  hooping->angle = 45;
  assert_right (plan);
  ((HwHoop *)hw_snapshot_hoop (scene, 0))->turn = HW_TURN_QUARTER;
  assert_wrong (plan, "Hooping 1 is turned to an angle its hoop is not used at.");
  for (int quarter = -4; quarter <= 4; quarter++)
    {
      hooping->angle = 90 * quarter;
      assert_right (plan);
      hooping->angle = 90 * quarter + 1e-5;
      assert_wrong (plan, "Hooping 1 is turned to an angle its hoop is not used at.");
      hooping->angle = 90 * quarter - 1e-5;
      assert_wrong (plan, "Hooping 1 is turned to an angle its hoop is not used at.");
    }
  hooping->angle = NAN;
  assert_wrong (plan, "Hooping 1 is turned to an angle its hoop is not used at.");
}

/* The frame is 144 wide and 164 high. */
static void
a_clamped_frame_that_leaves_the_cloth_is_told (void)
{
  static const HwPoint off[] = { { 71.999, 300 }, { 728.001, 300 }, { 400, 81.999 }, { 400, 518.001 } },
                       on[] = { { 72, 300 }, { 728, 300 }, { 400, 82 }, { 400, 518 } };
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwMotif *motif = little_motif (scene, "Gate", 20, 20, 0, 0);
  HwHooping *hooping;

  plan = hw_plan_new (scene);
  hooping = hoop_up (plan, 0, 0, "0");
  for (guint i = 0; i < G_N_ELEMENTS (off); i++)
    {
      scene->fabric.hold = HW_HOLD_CLAMPED;
      motif->placement.position = hooping->centre = on[i];
      assert_right (plan);
      motif->placement.position = hooping->centre = off[i];
      assert_wrong (plan, "The frame of hooping 1 leaves the cloth.");
      hooping->hold = HW_PLACE_FROZEN;
      assert_right (plan);
      hooping->hold = HW_PLACE_FREE;
      scene->fabric.hold = HW_HOLD_FLOATED;
      assert_right (plan);
    }
  scene->fabric.hold = HW_HOLD_CLAMPED;
  /* Turned by an eighth the frame is 217.79 mm wide: (144 + 164) times the sine of 45 degrees. */
  hooping->angle = 45;
  motif->placement.position = hooping->centre = (HwPoint){ 108.9, 300 };
  assert_right (plan);
  motif->placement.position = hooping->centre = (HwPoint){ 108.8, 300 };
  assert_wrong (plan, "The frame of hooping 1 leaves the cloth.");
  /* 20 degrees either way are the same at the left, but not which corner reaches out. */
  for (int way = -1; way <= 1; way += 2)
    {
      hooping->angle = 20 * way;
      motif->placement.position = hooping->centre
          = (HwPoint){ 95.8, 300 }; /* 72 cos 20 + 82 sin 20 = 95.70 */
      assert_right (plan);
      motif->placement.position = hooping->centre = (HwPoint){ 95.6, 300 };
      assert_wrong (plan, "The frame of hooping 1 leaves the cloth.");
    }
}

/* Gate under Quince under Rose, each in a hooping of its own, and Thrift aside. */
static HwPlan *
plan_of_a_chain (HwSnapshot **scene)
{
  HwPlan *plan;

  *scene = garden ();
  little_motif (*scene, "Gate", 80, 80, 100, 100);
  little_motif (*scene, "Quince", 80, 80, 170, 100);
  little_motif (*scene, "Rose", 80, 80, 240, 100);
  little_motif (*scene, "Thrift", 80, 80, 500, 100);
  plan = hw_plan_new (*scene);
  hoop_up (plan, 100, 100, "0");
  hoop_up (plan, 170, 100, "1");
  hoop_up (plan, 240, 100, "2");
  hoop_up (plan, 500, 100, "3");
  assert_right (plan);
  return plan;
}

static void
what_lies_over_comes_after (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_a_chain (&scene);
  HwMotif *quince = (HwMotif *)hw_snapshot_motif (scene, 1);

  swap (plan, 0, 3); /* Thrift, Quince, Rose, Gate */
  assert_wrong (plan, "Gate must be stitched before Quince, but comes after it.");
  swap (plan, 0, 3);
  swap (plan, 1, 2);
  assert_wrong (plan, "Quince must be stitched before Rose, but comes after it.");
  quince->placement.position.x = 160; /* it touches Rose, and has nothing in common with it */
  plan->hoopings[2].centre.x = 160;
  assert_right (plan);
  plan->hoopings[2].centre.x = quince->placement.position.x = 160.0001; /* 0.008 mm^2: rounding */
  assert_right (plan);
  quince->placement.position.x = 160.01; /* 0.8 mm^2 */
  plan->hoopings[2].centre.x = 160.01;
  assert_wrong (plan, "Quince must be stitched before Rose, but comes after it.");
  plan->hoopings[1].hold = HW_PLACE_FROZEN; /* Rose is stitched already; so is what is right of it by then */
  swap (plan, 0, 1);
  assert_right (plan);
  swap (plan, 0, 1);
  plan->hoopings[1].hold = HW_PLACE_FREE;
  swap (plan, 1, 2);
  assert_right (plan);
}

/* Boxes that meet are not yet an overlap. */
static void
only_outlines_count_for_the_order (void)
{
  HwPoint low[] = { { -40, -40 }, { 39, -40 }, { -40, 39 } },
          high[] = { { 40, 40 }, { -39, 40 }, { 40, -39 } };
  HwRing lower = { low, 3 }, upper = { high, 3 };
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwMotif *first = little_motif (scene, "Gate", 80, 80, 200, 200),
          *second = little_motif (scene, "Quince", 80, 80, 200, 200);

  plan = hw_plan_new (scene);
  hoop_up (plan, 200, 200, "1 0");
  assert_wrong (plan, "Gate must be stitched before Quince, but comes after it.");
  hw_outline_unref (first->outline);
  hw_outline_unref (second->outline);
  first->outline = hw_outline_new (&lower, 1);
  second->outline = hw_outline_new (&upper, 1);
  assert_right (plan);
  plan->n_hoopings = 0;
  problem_of (plan, HW_PROBLEM_OVERSIZE, 0, TRUE);
  problem_of (plan, HW_PROBLEM_OVERSIZE, 1, TRUE);
  assert_right (plan);
  plan->n_hoopings = 1;
}

/* A motif that is not stitched has no place in the order. */
static void
what_is_not_stitched_waits_for_nothing (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) whole = plan_of_a_chain (&scene);
  g_autoptr (HwPlan) plan = hw_plan_new (scene);

  hoop_up (plan, 170, 100, "1"); /* over Gate and under Rose */
  for (guint i = 0; i < 4; i++)
    if (i != 1)
      problem_of (plan, HW_PROBLEM_OVERSIZE, (int)i, TRUE);
  assert_right (plan);
  ((HwMotif *)hw_snapshot_motif (scene, 0))->before = g_strsplit ("m2 m4", " ", -1);
  ((HwMotif *)hw_snapshot_motif (scene, 1))->before = g_strsplit ("m4", " ", -1);
  assert_right (plan);
}

static void
a_tie_is_kept_unless_a_loop_leaves_it_out (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);
  HwMotif *rose = (HwMotif *)hw_snapshot_motif (scene, 2);
  HwProblem *loop;

  rose->before = g_strsplit ("gone m2", " ", -1);
  assert_wrong (plan, "Rose must be stitched before Quince, but comes after it.");
  loop = problem_of (plan, HW_PROBLEM_ORDER_LOOP, 1, FALSE);
  assert_wrong (plan, "Rose must be stitched before Quince, but comes after it.");
  loop->motif = 2;
  assert_right (plan);
  loop->kind = HW_PROBLEM_PIN;
  assert_wrong (plan, "Rose must be stitched before Quince, but comes after it.");
  swap (plan, 0, 1);
  assert_right (plan);
  /* Within one hooping as well. */
  rose->placement.position = (HwPoint){ 100, 60 };
  plan->hoopings[0].centre = (HwPoint){ 100, 60 };
  g_strfreev (rose->before);
  rose->before = NULL;
  ((HwMotif *)hw_snapshot_motif (scene, 1))->before = g_strsplit ("m1", " ", -1);
  assert_wrong (plan, "Quince must be stitched before Gate, but comes after it.");
  plan->hoopings[1].motifs[0] = 1;
  plan->hoopings[1].motifs[1] = 0;
  assert_right (plan);
}

/* Moss and rust in Gate, rust in Quince, rust, moss and sky in Rose. */
static HwPlan *
plan_with_threads (HwSnapshot **scene)
{
  static const HwThreadBlock moss = { (char *)"moss", { 0.1, 0.5, 0.1 }, 100, NULL },
                             rust = { (char *)"rust", { 0.6, 0.2, 0.1 }, 100, NULL },
                             sky = { (char *)"sky", { 0.1, 0.2, 0.9 }, 100, NULL };
  HwThreadBlock gate[] = { moss, rust }, rose[] = { rust, moss, sky };
  HwPlan *plan = plan_of_three (scene);

  hw_motif_set_threads ((HwMotif *)hw_snapshot_motif (*scene, 0), gate, 2);
  hw_motif_set_threads ((HwMotif *)hw_snapshot_motif (*scene, 1), &rust, 1);
  hw_motif_set_threads ((HwMotif *)hw_snapshot_motif (*scene, 2), rose, 3);
  plan->thread_changes = 3; /* to rust in Gate, to moss and to sky in Rose */
  assert_right (plan);
  return plan;
}

static void
thread_changes_are_counted_again (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_with_threads (&scene);

  plan->thread_changes = 2;
  assert_wrong (plan, "The plan says 2 thread changes and has 3.");
  plan->thread_changes = 4;
  assert_wrong (plan, "The plan says 4 thread changes and has 3.");
  swap (plan, 0, 1); /* from sky to moss as well */
  assert_right (plan);
}

static void
a_bound_is_no_more_than_there_is (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  plan->status = HW_PLAN_FEASIBLE;
  plan->lower_bound = 2;
  assert_right (plan);
  plan->lower_bound = 3;
  assert_wrong (plan, "The plan has fewer hoopings than it says are needed.");
  plan->lower_bound = 1;
  assert_right (plan);
  plan->status = HW_PLAN_OPTIMAL;
  assert_wrong (plan, "The plan is called proven without a proof.");
  plan->lower_bound = 2;
  assert_right (plan);
}

static void
set_steps (HwHooping *hooping, const char *steps)
{
  g_free (hooping->steps);
  hooping->n_steps = (guint)strlen (steps) / 3; /* "00 10": block 0 of motif 0, block 0 of motif 1 */
  hooping->steps = g_new0 (HwBlockStep, hooping->n_steps + 1);
  for (guint k = 0; k < hooping->n_steps; k++)
    hooping->steps[k] = (HwBlockStep){ (guint)(steps[3 * k] - '0'), (guint)(steps[3 * k + 1] - '0') };
}

static void
blocks_that_are_mixed_are_each_there_once_and_in_order (void)
{
  const char *left_out = "Hooping 1 leaves out thread blocks or repeats them.";
  const char *mixed_up = "Hooping 1 mixes up the blocks of a motif.";
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_with_threads (&scene);
  HwHooping *hooping = &plan->hoopings[0];

  set_steps (hooping, "00 01 10 ");
  assert_right (plan);
  set_steps (hooping, "10 00 01 ");
  plan->thread_changes = 4; /* rust, moss, rust, then rust, moss, sky */
  assert_right (plan);
  set_steps (hooping, "00 10 01 ");
  plan->thread_changes = 3;
  assert_right (plan);
  set_steps (hooping, "00 01 ");
  assert_wrong (plan, left_out);
  set_steps (hooping, "00 01 10 10 ");
  assert_wrong (plan, left_out);
  set_steps (hooping, "00 01 01 ");
  assert_wrong (plan, mixed_up);
  set_steps (hooping, "01 00 10 ");
  assert_wrong (plan, mixed_up);
  set_steps (hooping, "00 01 20 "); /* Rose is in the other hooping */
  assert_wrong (plan, mixed_up);
  set_steps (hooping, "00 01 30 "); /* there is no such motif */
  assert_wrong (plan, mixed_up);
  set_steps (hooping, "10 00 11 "); /* Quince has one block only */
  assert_wrong (plan, mixed_up);
  set_steps (hooping, "00 01 02 "); /* and Gate two */
  assert_wrong (plan, mixed_up);
}

static void
blocks_that_are_mixed_wait_for_what_lies_under_them (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_with_threads (&scene);
  HwHooping *hooping = &plan->hoopings[0];
  HwMotif *gate = (HwMotif *)hw_snapshot_motif (scene, 0), *quince = (HwMotif *)hw_snapshot_motif (scene, 1);

  set_steps (hooping, "00 10 01 ");
  assert_right (plan);
  quince->placement.position.x = 140; /* it touches Gate */
  assert_right (plan);
  quince->placement.position.x = 139;
  assert_wrong (plan, "Gate must be stitched before Quince, but comes after it.");
  set_steps (hooping, "00 01 10 ");
  assert_right (plan);
  quince->placement.position.x = 150;
  gate->before = g_strsplit ("gone m2", " ", -1);
  assert_right (plan);
  set_steps (hooping, "00 10 01 ");
  assert_wrong (plan, "Gate must be stitched before Quince, but comes after it.");
  problem_of (plan, HW_PROBLEM_ORDER_LOOP, 0, FALSE);
  assert_right (plan);
  g_ptr_array_set_size (plan->problems, 0);
  g_strfreev (gate->before);
  gate->before
      = g_strsplit ("m3", " ", -1); /* a tie to a motif of another hooping says nothing in this one */
  assert_right (plan);
}

/* What the planner gives the check accepts, with what it is asked for. */
static void
plans_of_the_planner_are_right (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) made_by_hand = plan_with_threads (&scene);
  g_autoptr (HwPlan) plan = NULL;

  plan = little_plan (scene);
  assert_right (plan);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/plan-verify/once", a_motif_left_out_or_stitched_twice_is_told);
  g_test_add_func ("/planning/plan-verify/excused", only_a_grave_problem_of_its_size_excuses_a_motif);
  g_test_add_func ("/planning/plan-verify/no-hoop", without_a_hoop_in_use_nothing_need_be_stitched);
  g_test_add_func ("/planning/plan-verify/field", a_motif_that_passes_the_field_is_told);
  g_test_add_func ("/planning/plan-verify/field-as-it-lies", the_field_is_measured_as_it_lies);
  g_test_add_func ("/planning/plan-verify/quarter", a_hoop_for_quarter_turns_is_used_at_no_other_angle);
  g_test_add_func ("/planning/plan-verify/clamped", a_clamped_frame_that_leaves_the_cloth_is_told);
  g_test_add_func ("/planning/plan-verify/over", what_lies_over_comes_after);
  g_test_add_func ("/planning/plan-verify/outlines", only_outlines_count_for_the_order);
  g_test_add_func ("/planning/plan-verify/not-stitched", what_is_not_stitched_waits_for_nothing);
  g_test_add_func ("/planning/plan-verify/ties", a_tie_is_kept_unless_a_loop_leaves_it_out);
  g_test_add_func ("/planning/plan-verify/changes", thread_changes_are_counted_again);
  g_test_add_func ("/planning/plan-verify/bound", a_bound_is_no_more_than_there_is);
  g_test_add_func ("/planning/plan-verify/blocks", blocks_that_are_mixed_are_each_there_once_and_in_order);
  g_test_add_func ("/planning/plan-verify/blocks-wait", blocks_that_are_mixed_wait_for_what_lies_under_them);
  g_test_add_func ("/planning/plan-verify/planner", plans_of_the_planner_are_right);
  return g_test_run ();
}

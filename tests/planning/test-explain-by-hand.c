/* Plans explained that the planner would not make: put together by hand, they show what is said where a plan is not known to be the best, where a hoop
 * is kept for no reason of its own, and what stands between two hoopings. */
#include "../../src/planning/explain.h"
#include "plans-by-hand.h"

static char *
said_of_hooping (const HwPlan *plan, guint hooping)
{
  return hw_explain_hooping (plan, hooping, HW_UNIT_MM);
}

#define assert_of(call, part)                                                                                \
  {                                                                                                          \
    g_autofree char *said_ = (call);                                                                         \
    assert_says (said_, part);                                                                               \
  }
#define assert_not_of(call, part)                                                                            \
  {                                                                                                          \
    g_autofree char *said_ = (call);                                                                         \
    assert_does_not_say (said_, part);                                                                       \
  }

static void
how_sure_the_count_is (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  plan->lower_bound = 1;
  assert_of (hw_explain_count (plan, HW_UNIT_MM), "2 hoopings, at most 1 more than the fewest.\n");
  plan->status = HW_PLAN_UNPLANNABLE;
  assert_of (hw_explain_count (plan, HW_UNIT_MM),
             "at most 1 more than the fewest.\nThey do not stitch the whole scene.\n");
  plan->lower_bound = 2;
  assert_of (hw_explain_count (plan, HW_UNIT_MM), "2 hoopings.\nThey do not stitch the whole scene.\n");
  scene->wishes.best = HW_BEST_LEAST_TIME; /* and time says nothing of half a scene */
  assert_of (hw_explain_count (plan, HW_UNIT_MM), "2 hoopings.\nThey do not stitch the whole scene.\n");
  plan->n_hoopings = 0;
  assert_of (hw_explain_count (plan, HW_UNIT_MM), "Nothing here can be stitched yet.\n");
  assert_not_of (hw_explain_plan (plan, HW_UNIT_MM), "thread change");
  plan->n_hoopings = 2;
}

static void
how_sure_the_time_is (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  scene->wishes.best = HW_BEST_LEAST_TIME;
  scene->machine.minutes_per_hooping = 8;
  plan->minutes = 80;
  plan->minutes_bound = 61.5;
  plan->lower_bound = 1;
  plan->proof = g_strdup ("Gate and Rose never share.");
  assert_of (hw_explain_count (plan, HW_UNIT_MM),
             "2 hoopings, 1 h 20, at most 19 minutes over the least time.\n");
  assert_of (hw_explain_count (plan, HW_UNIT_MM),
             "Setting 2 hoopings takes 16 min, 0 thread changes 0 min, stitching 1 h 04.\n");
  assert_of (hw_explain_count (plan, HW_UNIT_MM),
             "No plan can take less than 1 h 02; one between the two may still be found.\n");
  assert_of (hw_explain_count (plan, HW_UNIT_MM), "It may take a hooping more than the fewest");
  assert_not_of (hw_explain_count (plan, HW_UNIT_MM),
                 "Gate and Rose never share."); /* the proof is of the fewest, not of these */
  plan->lower_bound = 2;
  assert_of (hw_explain_count (plan, HW_UNIT_MM),
             "Fewer hoopings cannot be either.\nGate and Rose never share.\n");
  plan->minutes_bound = 79.5;
  assert_of (hw_explain_count (plan, HW_UNIT_MM), "at most 1 minute over the least time.\n");
}

static void
how_sure_the_thread_changes_are (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  plan->thread_changes = 4;
  plan->thread_changes_bound = 3;
  plan->one_by_one_changes = 4;
  assert_of (hw_explain_threads (plan), "4 thread changes; no plan of so many hoopings has fewer than 3.\n");
  plan->one_by_one_changes = 9;
  assert_of (
      hw_explain_threads (plan),
      "4 thread changes; no plan of so many hoopings has fewer than 3; stitched one by one it would be 9.\n");
  plan->thread_changes_proven = TRUE;
  assert_of (hw_explain_threads (plan),
             "4 thread changes, proven fewest for so many hoopings; stitched one by one it would be 9.\n");
}

/* The pairs of a proof: apart with something between, held without the other, not stitched at all, and no usable field. */
static void
pairs_of_a_proof_say_why (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  HwHoop *hoop = (HwHoop *)hw_snapshot_hoop (scene, 0);
  guint *motifs = plan->proof_motifs = g_new (guint, 2);

  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Trellis", 40, 40, 130, 100);
  little_motif (scene, "Quince", 40, 40, 160, 100);
  little_motif (scene, "Rose", 40, 40, 500, 100);
  hoop_up (plan, 100, 100, "0");
  hoop_up (plan, 130, 100, "1");
  hoop_up (plan, 160, 100, "2");
  hoop_up (plan, 500, 100, "3");
  plan->n_proof_motifs = plan->lower_bound = 2;
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "m3"));
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "gone"));
  g_ptr_array_add (scene->apart, hw_apart_new ("gone", "m1"));
  motifs[0] = 0;
  motifs[1] = 2;
  assert_of (hw_explain_count (plan, HW_UNIT_MM),
             "• Gate could only share with what must come between (the order goes Gate before Trellis, "
             "Trellis before Quince), but "
             "Gate and Quince are to be kept apart.\n");
  motifs[1] = 3;
  plan->hoopings[0].hold = HW_PLACE_PINNED;
  assert_of (hw_explain_count (plan, HW_UNIT_MM),
             "• Gate is in hooping 1, which is held fast without Rose.\n");
  plan->hoopings[0].hold = HW_PLACE_FREE;
  plan->hoopings[3].hold = HW_PLACE_PINNED;
  assert_of (hw_explain_count (plan, HW_UNIT_MM),
             "• Rose is in hooping 4, which is held fast without Gate.\n");
  plan->n_hoopings = 3;
  assert_of (hw_explain_count (plan, HW_UNIT_MM), "• Gate and Rose need ");
  plan->n_hoopings = 4;
  plan->hoopings[3].hold = HW_PLACE_FREE;
  hoop->clearance = 60;
  assert_of (hw_explain_count (plan, HW_UNIT_MM), "• Gate and Rose have no hoop with a usable field.\n");
}

/* Ties that name what is not stitched, or that the plan does not keep, are no reason for anything. */
static void
ties_that_are_not_kept_are_no_reason (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  ((HwMotif *)hw_snapshot_motif (scene, 2))->before = g_strsplit ("m1", " ", -1);
  assert_not_of (said_of_hooping (plan, 1), "tied");
  ((HwMotif *)hw_snapshot_motif (scene, 0))->before = g_strsplit ("m3", " ", -1);
  assert_of (said_of_hooping (plan, 1), "Place: after hooping 1, because Gate is tied before Rose.");
  plan->hoopings[0].hold = HW_PLACE_FROZEN;
  assert_not_of (said_of_hooping (plan, 1), "tied");
  plan->n_hoopings = 1;
  assert_not_of (said_of_hooping (plan, 0), "tied");
  plan->n_hoopings = 2;
  plan->hoopings[0].n_motifs = 0; /* all it held is gone from the scene: there is nothing to say of it */
  assert_not_of (said_of_hooping (plan, 0), "hoop");
}

static void
two_that_would_be_one_are_said_to_be (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);

  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  hoop_up (plan, 100, 100, "0");
  hoop_up (plan, 150, 100, "1");
  assert_of (said_of_hooping (plan, 0),
             "With hooping 2 it would fit in one field; this plan keeps the two apart.\n");
  assert_of (said_of_hooping (plan, 0), "Place: first, for nothing has to be stitched before it.\n");
  assert_of (said_of_hooping (plan, 1),
             "With hooping 1 it would fit in one field; this plan keeps the two apart.\n");
  assert_of (said_of_hooping (plan, 1),
             "Place: nothing has to be stitched before it; it could come earlier.\n");
  plan->hoopings[0].hold = HW_PLACE_FROZEN;
  assert_of (said_of_hooping (plan, 1), "Place: first, for nothing has to be stitched before it.\n");
  assert_not_of (said_of_hooping (plan, 1), "in one field");
  assert_not_of (said_of_hooping (plan, 0), "Place:");
}

/* Foot lies over Dial, Fern over Fuchsia: neither Foot nor Fern alone comes between Dial and Fuchsia, but the hooping with both does. */
static void
a_hooping_can_come_between_as_a_whole (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);

  little_motif (scene, "Dial", 30, 30, 100, 100);
  little_motif (scene, "Foot", 20, 20, 100, 120);
  little_motif (scene, "Fern", 20, 20, 160, 120);
  little_motif (scene, "Fuchsia", 30, 30, 160, 100);
  hoop_up (plan, 130, 100, "0");
  hoop_up (plan, 130, 120, "1 2");
  hoop_up (plan, 130, 100, "3");
  assert_right (plan);
  assert_of (said_of_hooping (plan, 2), "Could not be one with hooping 1: hooping 2 has to come between.\n");
  assert_of (said_of_hooping (plan, 0), "Could not be one with hooping 3: hooping 2 has to come between.\n");
  /* By way of a further hooping: Foot and Fern each in their own, tied by a third motif. */
  little_motif (scene, "Moss", 10, 10, 100, 205);
  little_motif (scene, "Mint", 10, 10, 160, 205);
  plan->hoopings[1].n_motifs = 0;
  plan->n_hoopings = 1;
  g_free (plan->hoopings[1].motifs);
  g_free (plan->hoopings[2].motifs);
  hoop_up (plan, 100, 160, "1 4");
  hoop_up (plan, 160, 160, "5 2");
  hoop_up (plan, 130, 100, "3");
  ((HwMotif *)hw_snapshot_motif (scene, 4))->before = g_strsplit ("m6", " ", -1);
  assert_right (plan);
  assert_of (said_of_hooping (plan, 3), "Could not be one with hooping 1: hooping 3 has to come between.\n");
}

/* Of the neighbours only so many are looked at, the nearest first; among equals the earlier. */
static void
the_nearest_neighbour_is_named (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);

  scene->fabric.width = 4000;
  little_motif (scene, "Middle", 40, 40, 2000, 100);
  hoop_up (plan, 2000, 100, "0");
  for (guint i = 1; i <= 40; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i);
      double x = 2000 + (i % 2 == 0 ? 1 : -1) * 70.0 * (21 - (i + 1) / 2);

      little_motif (scene, number, 40, 40, x, 100);
      hoop_up (plan, x, 100, number);
    }
  /* 39 and 40 lie 70 mm to the left and right. */
  assert_of (said_of_hooping (plan, 0), "Could not be one with hooping 40: the two need ");
}

static void
guests_are_those_that_may_come (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);

  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  little_motif (scene, "Rose", 40, 40, 200, 100);
  hoop_up (plan, 100, 100, "0");
  hoop_up (plan, 175, 100, "1 2");
  assert_of (said_of_hooping (plan, 0), "Quince would fit here too, but that saves no hooping.\n");
  g_ptr_array_add (scene->apart, hw_apart_new ("m2", "m1"));
  assert_not_of (said_of_hooping (plan, 0), "would fit here too");
  g_ptr_array_set_size (scene->apart, 0);
  ((HwMotif *)hw_snapshot_motif (scene, 2))->before = g_strsplit ("m2", " ", -1);
  plan->hoopings[1].motifs[0] = 2;
  plan->hoopings[1].motifs[1] = 1;
  assert_not_of (said_of_hooping (plan, 0),
                 "would fit here too"); /* Rose comes before Quince, and later than this */
}

static void
smaller_hoops_are_said_why_not (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  HwHoop *small = little_hoop (scene, 60, 60, 2, HW_TURN_ANY);
  HwHoop *tiny = NULL;

  little_motif (scene, "Gate", 50, 50, 100, 100);
  hoop_up (plan, 100, 100, "0");
  assert_of (said_of_hooping (plan, 0),
             "The smaller 60 × 60 mm hoop would do too, but only at an angle that suits the motifs less.\n");
  small->clearance = 30;
  assert_of (said_of_hooping (plan, 0), "The smaller 60 × 60 mm hoop cannot be set here.\n");
  small->clearance = 2;
  small->frame_width = small->frame_height = 500;
  scene->fabric.hold = HW_HOLD_CLAMPED;
  assert_of (said_of_hooping (plan, 0), "The smaller 60 × 60 mm hoop cannot be set here.\n");
  scene->fabric.hold = HW_HOLD_FLOATED;
  tiny = little_hoop (scene, 20, 20, 2, HW_TURN_ANY);
  assert_of (said_of_hooping (plan, 0), "The smaller 60 × 60 mm hoop would do too");
  small->set_aside = TRUE;
  assert_of (said_of_hooping (plan, 0),
             "The smaller 20 × 20 mm hoop does not take it: it needs 50 × 50 mm and the clearance.\n");
  assert_of (said_of_hooping (plan, 0), "The smaller 60 × 60 mm hoop would do too, but it is set aside.\n");
  tiny->set_aside = TRUE; /* too small to be worth a word */
  little_hoop (scene, 70, 70, 2, HW_TURN_ANY)->set_aside = TRUE;
  little_hoop (scene, 58, 58, 2, HW_TURN_ANY)->set_aside = TRUE;
  little_hoop (scene, 300, 300, 2, HW_TURN_ANY)->set_aside = TRUE;
  assert_of (said_of_hooping (plan, 0), "Hoop: 104 × 104 mm, the only one in use.\nThe smaller 58 × 58 mm "
                                        "hoop would do too, but it is set aside.\n");
  little_hoop (scene, 300, 300, 2, HW_TURN_ANY);
  assert_of (said_of_hooping (plan, 0), "Hoop: 104 × 104 mm, the smallest in use.\n");
}

static void
what_a_pin_keeps_is_told (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  HwPin *other = little_pin ("h1", 100, 100, "m2"), *pin = little_pin ("h1", 100, 100, "m1");

  little_motif (scene, "Gate", 50, 50, 100, 100);
  hoop_up (plan, 100, 100, "0")->hold = HW_PLACE_PINNED;
  assert_of (said_of_hooping (plan, 0),
             "It is pinned, with its motifs, in the 104 × 104 mm hoop where it lies.\n");
  g_strfreev (other->motifs);
  other->motifs = NULL;
  g_ptr_array_add (scene->pins, other);
  g_ptr_array_add (scene->pins, pin);
  assert_of (said_of_hooping (plan, 0),
             "It is pinned, with its motifs, in the 104 × 104 mm hoop where it lies.\n");
  pin->keep = HW_KEEP_MOTIFS;
  assert_of (said_of_hooping (plan, 0),
             "Its motifs are pinned to one hooping by themselves.\nHoop: 104 × 104 mm");
  pin->keep = HW_KEEP_GRAIN;
  assert_of (said_of_hooping (plan, 0),
             "Its motifs are pinned to one hooping by themselves, along the grain.\n");
  assert_not_of (said_of_hooping (plan, 0), "Room:");
  plan->hoopings[0].margin = 7;
  assert_of (said_of_hooping (plan, 0),
             "Room: 7.0 mm stay free on the tightest side; 2.0 mm is asked for.\n");
}

/* Ladder, 0.3 degrees askew, has most room in a square field at 45.3 degrees. */
static void
angles_have_reasons (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  HwMotif *ladder = little_motif (scene, "Ladder", 100, 10, 200, 200);
  HwHooping *hooping;

  little_hoop (scene, 90, 90, 0, HW_TURN_ANY);
  ladder->placement.angle = 0.3;
  hooping = hoop_up (plan, 200, 200, "0");
  scene->machine.turn_step = 0;
  hooping->angle = 45.3;
  assert_of (said_of_hooping (plan, 0), "Angle: turned 45.3° clockwise, where most room is left.");
  hooping->angle = 40;
  assert_of (said_of_hooping (plan, 0),
             "Angle: turned 40° clockwise, where it lay before; there is room enough.");
  scene->machine.turn_step = 1;
  assert_of (said_of_hooping (plan, 0), "where it lay before");
  hooping->angle = 40.3;
  assert_of (said_of_hooping (plan, 0), ", so that Ladder is turned by whole steps of 1° at the machine.");
  hooping->angle = 90.3;
  assert_of (said_of_hooping (plan, 0), ", so that Ladder lies a quarter turned at the machine.");
  ladder->placement.angle = 0;
  hooping->angle = 90;
  assert_of (said_of_hooping (plan, 0),
             "Angle: across the cloth, turned by 90°, so that Ladder lies a quarter turned at the machine.");
  hooping->angle = 0;
  assert_of (said_of_hooping (plan, 0),
             "Angle: straight along the cloth, so that Ladder lies unturned at the machine.");
  ladder->placement.scale = 2; /* it fits no more at all */
  assert_of (said_of_hooping (plan, 0), "so that Ladder lies unturned at the machine.\n");
}

static HwPlan *
plan_of_oversize (HwSnapshot *scene)
{
  HwPlan *plan = hw_plan_new (scene);

  hw_plan_add_problem (plan, HW_PROBLEM_OVERSIZE, 0, TRUE, g_strdup ("It is too large."));
  return plan;
}

static void
what_would_make_a_motif_fit_is_told (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (40000, 40000);
  HwHoop *hoop = little_hoop (scene, 90, 90, 0, HW_TURN_QUARTER);
  HwMotif *ladder = little_motif (scene, "Ladder", 117.2792, 10, 20000, 20000);
  g_autoptr (HwPlan) plan = plan_of_oversize (scene);

  /* It fits within a hair of 45 degrees only: (117.2792 + 10) times the sine of 45 degrees is 89.99998. */
  assert_of (hw_explain_oversize (plan, 0, HW_UNIT_MM), "• Turned 45° ");
  ladder->placement.angle = 0.123456;
  assert_of (hw_explain_oversize (plan, 0, HW_UNIT_MM),
             "• Turned 44.9° clockwise on the cloth, Ladder fits.\n");
  ladder->placement.angle = -0.123456;
  assert_of (hw_explain_oversize (plan, 0, HW_UNIT_MM),
             "• Turned 44.9° anticlockwise on the cloth, Ladder fits.\n");
  scene->fabric.hold = HW_HOLD_CLAMPED;
  assert_not_of (hw_explain_oversize (plan, 0, HW_UNIT_MM), "Turned");
  scene->fabric.hold = HW_HOLD_FLOATED;
  hoop->turn = HW_TURN_ANY;
  assert_not_of (hw_explain_oversize (plan, 0, HW_UNIT_MM), "Turned");
  assert_of (hw_explain_plan (plan, HW_UNIT_MM), "• A hoop with a field of ");
  ladder->placement.scale = 200; /* to less than a hundredth: nobody would */
  assert_not_of (hw_explain_oversize (plan, 0, HW_UNIT_MM), "of its size here");
  assert_of (hw_explain_oversize (plan, 0, HW_UNIT_MM),
             "• No common hoop takes Ladder as it is; it would have to be parted.\n");
  ladder->placement.scale = 2;
  assert_of (hw_explain_oversize (plan, 0, HW_UNIT_MM), " of its size here, Ladder fits.\n");
  scene->wishes.scale_low = 1.5; /* the design stands no such */
  assert_of (hw_explain_oversize (plan, 0, HW_UNIT_MM),
             " of its design; below 150 % it needs new stitches.\n");
  /* A grave problem of the scene as a whole is only told. */
  ((HwProblem *)g_ptr_array_index (plan->problems, 0))->motif = -1;
  assert_of (hw_explain_plan (plan, HW_UNIT_MM), "\nIt is too large.\n");
  assert_not_of (hw_explain_plan (plan, HW_UNIT_MM), "•");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/explain-by-hand/count", how_sure_the_count_is);
  g_test_add_func ("/explain-by-hand/time", how_sure_the_time_is);
  g_test_add_func ("/explain-by-hand/threads", how_sure_the_thread_changes_are);
  g_test_add_func ("/explain-by-hand/pairs", pairs_of_a_proof_say_why);
  g_test_add_func ("/explain-by-hand/ties", ties_that_are_not_kept_are_no_reason);
  g_test_add_func ("/explain-by-hand/would-be-one", two_that_would_be_one_are_said_to_be);
  g_test_add_func ("/explain-by-hand/between", a_hooping_can_come_between_as_a_whole);
  g_test_add_func ("/explain-by-hand/nearest", the_nearest_neighbour_is_named);
  g_test_add_func ("/explain-by-hand/guests", guests_are_those_that_may_come);
  g_test_add_func ("/explain-by-hand/smaller", smaller_hoops_are_said_why_not);
  g_test_add_func ("/explain-by-hand/pin", what_a_pin_keeps_is_told);
  g_test_add_func ("/explain-by-hand/angles", angles_have_reasons);
  g_test_add_func ("/explain-by-hand/oversize", what_would_make_a_motif_fit_is_told);
  return g_test_run ();
}

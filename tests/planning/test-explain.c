/* Plans explained: what the sentences say of scenes whose answer is plain to see, and that they never contradict the plan. */
#include "../../src/planning/explain.h"
#include "little-scenes.h"
#include "random-scenes.h"

/* Two squares ten apart, under a hoop that is too short for both. */
static HwSnapshot *
gate_and_quince (void)
{
  HwSnapshot *scene = little_scene (400, 300);

  little_hoop (scene, 100, 100, 2, HW_TURN_QUARTER);
  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 160, 100);
  return scene;
}

static void
count_names_the_pair_and_its_size (void)
{
  g_autoptr (HwSnapshot) scene = gate_and_quince ();
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autofree char *text = hw_explain_count (plan, HW_UNIT_MM);

  assert_says (text, "2 hoopings, proven fewest.");
  assert_says (text,
               "Gate and Quince need 110 × 50 mm together; the 100 × 100 mm hoop takes 96 × 96 mm, 14.0 mm "
               "too little.");
}

/* 2 hoopings of 8 minutes, 1 thread change of 1.5 and 1000 stitches, 500 a minute. */
static void
least_time_is_explained_by_where_time_goes (void)
{
  g_autoptr (HwSnapshot) scene = gate_and_quince ();
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL, *time = NULL;
  HwThreadBlock moss = { .name = "moss", .colour = { 0, 0.5, 0 }, .stitches = 500 };
  HwThreadBlock rust = { .name = "rust", .colour = { 0.5, 0, 0 }, .stitches = 500 };

  hw_motif_set_threads (g_ptr_array_index (scene->motifs, 0), &moss, 1);
  hw_motif_set_threads (g_ptr_array_index (scene->motifs, 1), &rust, 1);
  scene->wishes.best = HW_BEST_LEAST_TIME;
  scene->machine.minutes_per_hooping = 8;
  scene->machine.minutes_per_change = 1.5;
  scene->machine.stitches_per_minute = 500;
  plan = little_plan (scene);
  text = hw_explain_count (plan, HW_UNIT_MM);
  time = hw_explain_time (plan);
  g_assert_cmpstr (time, ==, "Setting 2 hoopings takes 16 min, 1 thread change 2 min, stitching 2 min.");
  assert_says (text, time);
  assert_says (text, "2 hoopings, 20 min, proven least time.");
  assert_says (text, "No other plan spends less on both together.");
  assert_does_not_say (text, "proven fewest");
}

/* Six motifs so far apart that each needs a hooping: what is said of all the pairs left out is no reason itself. */
static void
remark_on_the_pairs_is_no_bullet (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (2000, 400);
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;

  little_hoop (scene, 100, 100, 2, HW_TURN_QUARTER);
  for (guint i = 0; i < 6; i++)
    {
      g_autofree char *name = g_strdup_printf ("Buoy %u", i + 1);
      little_motif (scene, name, 50, 50, 100 + 300 * i, 100);
    }
  plan = little_plan (scene);
  text = hw_explain_count (plan, HW_UNIT_MM);
  assert_says (text, "\n• Buoy 1 and Buoy 2 need ");
  assert_says (text, "\n(Of each motif only the pair that comes nearest is named; all others need more.)\n");
}

/* Thirty of them: no more pairs are named than can be read. */
static void
no_more_than_two_dozen_pairs_are_named (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (9200, 400);
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;
  guint lines = 0;

  little_hoop (scene, 100, 100, 2, HW_TURN_QUARTER);
  for (guint i = 0; i < 30; i++)
    little_motif (scene, "Buoy", 50, 50, 100 + 300 * i, 100);
  plan = little_plan (scene);
  text = hw_explain_count (plan, HW_UNIT_MM);
  for (const char *at = text; (at = strstr (at, "\n• Buoy and Buoy need ")) != NULL; at++)
    lines++;
  g_assert_cmpuint (lines, ==, 24);
}

static void
lengths_are_in_the_unit_asked_for (void)
{
  g_autoptr (HwSnapshot) scene = gate_and_quince ();
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autofree char *text = hw_explain_plan (plan, HW_UNIT_INCH);

  assert_says (text, "4.33 × 1.97 in");
  assert_does_not_say (text, " mm");
}

static void
wish_to_keep_apart_is_the_reason (void)
{
  g_autoptr (HwSnapshot) scene = gate_and_quince ();
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL, *hooping = NULL;

  little_hoop (scene, 200, 200, 2, HW_TURN_ANY);
  g_ptr_array_add (scene->apart, hw_apart_new ("m2", "m1"));
  plan = little_plan (scene);
  text = hw_explain_count (plan, HW_UNIT_MM);
  hooping = hw_explain_hooping (plan, 0, HW_UNIT_MM);
  assert_says (text, "Gate and Quince are to be kept apart.");
  assert_says (hooping, "Could not be one with hooping 2: ");
  assert_says (hooping, " are to be kept apart.");
}

/* Gate and Quince would share, but the trellis over one and under the other cannot come along. */
static void
what_lies_between_is_named (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (400, 400);
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL, *last = NULL;

  little_hoop (scene, 100, 100, 0, HW_TURN_QUARTER);
  little_hoop (scene, 70, 210, 0, HW_TURN_QUARTER);
  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Trellis", 60, 200, 125, 180);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  plan = little_plan (scene);
  text = hw_explain_count (plan, HW_UNIT_MM);
  last = hw_explain_hooping (plan, 2, HW_UNIT_MM);
  g_assert_cmpuint (plan->n_hoopings, ==, 3);
  assert_says (
      text, "Gate could only share with what must come between (the order goes Gate before Trellis, Trellis "
            "before Quince); Gate, Trellis and Quince need ");
  assert_says (last, "Place: after hooping 2, because Quince lies over Trellis.");
  assert_says (last, "Could not be one with hooping 1: Trellis has to come between.");
}

/* The same with a shed that is stitched already, so that it has no place in the order any more. */
static void
what_lies_between_is_named_beside_stitched_motifs (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (600, 600);
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;

  little_hoop (scene, 100, 100, 0, HW_TURN_QUARTER);
  little_hoop (scene, 70, 210, 0, HW_TURN_QUARTER);
  little_motif (scene, "Shed", 40, 40, 450, 450);
  little_motif (scene, "Gate", 40, 40, 100, 100);
  little_motif (scene, "Trellis", 60, 200, 125, 180);
  little_motif (scene, "Quince", 40, 40, 150, 100);
  g_ptr_array_add (scene->frozen, little_pin ("h1", 450, 450, "m1"));
  plan = little_plan (scene);
  text = hw_explain_count (plan, HW_UNIT_MM);
  assert_says (text, "(the order goes Gate before Trellis, Trellis before Quince)");
}

static void
tie_is_told_from_overlap (void)
{
  g_autoptr (HwSnapshot) scene = gate_and_quince ();
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;

  ((HwMotif *)scene->motifs->pdata[1])->before = g_strsplit ("m1", " ", -1);
  plan = little_plan (scene);
  text = hw_explain_hooping (plan, 1, HW_UNIT_MM);
  assert_says (text, "Hooping 2: Gate\n");
  assert_says (text, "Place: after hooping 1, because Quince is tied before Gate.");
}

static void
hoop_and_angle_have_reasons (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (400, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;
  HwMotif *fig;

  little_hoop (scene, 130, 180, 2, HW_TURN_ANY);
  little_hoop (scene, 200, 300, 2, HW_TURN_ANY);
  little_hoop (scene, 100, 100, 2, HW_TURN_ANY);
  fig = little_motif (scene, "Fig branch", 110, 170, 200, 150);
  fig->placement.angle = 12;
  plan = little_plan (scene);
  text = hw_explain_hooping (plan, 0, HW_UNIT_MM);
  assert_says (text, "Hoop: 130 × 180 mm, the smallest that takes it well.");
  assert_says (text, "The smaller 100 × 100 mm hoop does not take it: it needs ");
  assert_says (text, "Angle: turned 12° clockwise, so that Fig branch lies unturned at the machine.");
  assert_says (text, "Room: 5.0 mm stay free on the tightest side; 2.0 mm is asked for.");
  assert_says (text, "Place: first, for nothing has to be stitched before it.");
}

/* A strip of 100 in a square of 90 lies only near the diagonal: 100 cos t + 10 sin t = 90 at t = 32.1 degrees. */
static void
angles_that_fit_are_told (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (400, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;

  little_hoop (scene, 90, 90, 0, HW_TURN_ANY);
  little_motif (scene, "Ladder", 100, 10, 200, 150);
  plan = little_plan (scene);
  text = hw_explain_hooping (plan, 0, HW_UNIT_MM);
  assert_says (text, "Hoop: 90 × 90 mm, the only one in use.");
  assert_says (text, "Angles that fit: 32.1° to 57.9°, -57.9° to -32.1°.");
  assert_says (text, "so that Ladder is turned by whole steps of 1° at the machine.");
}

static void
hoop_set_aside_is_mentioned (void)
{
  g_autoptr (HwSnapshot) scene = gate_and_quince ();
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;

  little_hoop (scene, 200, 300, 2, HW_TURN_ANY);
  ((HwHoop *)scene->hoops->pdata[0])->set_aside = TRUE;
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "m2"));
  plan = little_plan (scene);
  text = hw_explain_plan (plan, HW_UNIT_MM);
  assert_says (
      text, "Hoop: 200 × 300 mm, the only one in use.\nThe smaller 100 × 100 mm hoop would do too, but it is "
            "set aside.");
}

static void
what_is_held_is_told (void)
{
  g_autoptr (HwSnapshot) scene = gate_and_quince ();
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;
  HwPin *grain;

  little_motif (scene, "Well", 30, 30, 160, 200);
  g_ptr_array_add (scene->frozen, little_pin ("h1", 100, 100, "m1"));
  g_ptr_array_add (scene->pins, little_pin ("h1", 160, 100, "m2"));
  grain = little_pin (NULL, 0, 0, "m3");
  grain->keep = HW_KEEP_GRAIN;
  g_ptr_array_add (scene->pins, grain);
  plan = little_plan (scene);
  text = hw_explain_plan (plan, HW_UNIT_MM);
  assert_says (text,
               "Hooping 1: Gate\nIt is stitched already, in the 100 × 100 mm hoop, and stays as it is.");
  assert_says (text, "It is pinned, with its motifs, in the 100 × 100 mm hoop where it lies.");
  assert_says (text, "along the grain as you asked.");
  assert_says (text, "2 of them are pinned");
}

/* 110 cos t + 20 sin t = 100 at t = 36.87 degrees. */
static void
oversize_motif_hears_what_would_do (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (400, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL, *alone = NULL;

  little_hoop (scene, 100, 100, 0, HW_TURN_QUARTER);
  little_motif (scene, "Ladder", 110, 20, 200, 150);
  plan = little_plan (scene);
  text = hw_explain_plan (plan, HW_UNIT_MM);
  alone = hw_explain_oversize (plan, 0, HW_UNIT_MM);
  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  assert_says (text, "Ladder does not fit the 100 × 100 mm hoop");
  assert_says (text, alone);
  assert_says (alone, "• Turned 36.9° ");
  assert_says (alone, "• At 90 % of its size here, Ladder fits.");
  assert_says (alone, "• A hoop with a field of 130 × 180 mm takes Ladder as it is.");
}

static void
empty_scene_is_explained (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (400, 300);
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autofree char *text = hw_explain_plan (plan, HW_UNIT_MM);

  g_assert_cmpstr (text, ==, "There are no motifs yet, so nothing needs a hooping.\n");
}

/* "Hooping 3 need not come before it": then the two can change places. */
static guint
try_changing_places (HwPlan *plan, guint hooping, const char *text)
{
  g_autofree char *said = g_strdup_printf ("Hooping %u need not come before it.", hooping);
  g_autoptr (GError) error = NULL;
  HwHooping swap;

  if (hooping == 0 || strstr (text, said) == NULL)
    return 0;
  for (guint turn = 0; turn < 2; turn++)
    {
      swap = plan->hoopings[hooping];
      plan->hoopings[hooping] = plan->hoopings[hooping - 1];
      plan->hoopings[hooping - 1] = swap;
      hw_plan_count (plan);
      if (turn == 0)
        hw_plan_verify (plan, &error);
    }
  g_assert_no_error (error);
  return 1;
}

/* A plan of fewest hoopings has no two that could simply be one; and every hooping is told of once. */
static void
explanation_never_contradicts_the_plan (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  guint joined = 0, swapped = 0;

  for (guint round = 0; round < 200; round++)
    {
      guint n = g_rand_int_range (rand, 1, 16);
      g_autoptr (HwSnapshot) scene
          = scene_random (rand, round % SCENE_KINDS, n, scene_between (rand, 0.8, 2.5));
      g_autoptr (HwPlan) plan = NULL;
      g_autofree char *text = NULL;

      scene->fabric.hold = round % 7 == 0 ? HW_HOLD_CLAMPED : HW_HOLD_FLOATED;
      plan = little_plan (scene);
      text = hw_explain_plan (plan, HW_UNIT_MM);
      for (guint h = 0; h < plan->n_hoopings; h++)
        {
          g_autofree char *alone = hw_explain_hooping (plan, h, HW_UNIT_MM);

          assert_says (text, alone);
          swapped += try_changing_places (plan, h, alone);
        }
      if (plan->status == HW_PLAN_OPTIMAL)
        assert_does_not_say (text, "it would fit in one field");
      joined += strstr (text, "Could not be one with") != NULL;
    }
  g_assert_cmpuint (joined, >, 40);
  g_assert_cmpuint (swapped, >, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/explain/count-names-the-pair-and-its-size", count_names_the_pair_and_its_size);
  g_test_add_func ("/explain/least-time-is-explained-by-where-time-goes",
                   least_time_is_explained_by_where_time_goes);
  g_test_add_func ("/explain/remark-on-the-pairs-is-no-bullet", remark_on_the_pairs_is_no_bullet);
  g_test_add_func ("/explain/no-more-than-two-dozen-pairs-are-named", no_more_than_two_dozen_pairs_are_named);
  g_test_add_func ("/explain/lengths-are-in-the-unit-asked-for", lengths_are_in_the_unit_asked_for);
  g_test_add_func ("/explain/wish-to-keep-apart-is-the-reason", wish_to_keep_apart_is_the_reason);
  g_test_add_func ("/explain/what-lies-between-is-named", what_lies_between_is_named);
  g_test_add_func ("/explain/what-lies-between-is-named-beside-stitched-motifs",
                   what_lies_between_is_named_beside_stitched_motifs);
  g_test_add_func ("/explain/tie-is-told-from-overlap", tie_is_told_from_overlap);
  g_test_add_func ("/explain/hoop-and-angle-have-reasons", hoop_and_angle_have_reasons);
  g_test_add_func ("/explain/angles-that-fit-are-told", angles_that_fit_are_told);
  g_test_add_func ("/explain/hoop-set-aside-is-mentioned", hoop_set_aside_is_mentioned);
  g_test_add_func ("/explain/what-is-held-is-told", what_is_held_is_told);
  g_test_add_func ("/explain/oversize-motif-hears-what-would-do", oversize_motif_hears_what_would_do);
  g_test_add_func ("/explain/empty-scene-is-explained", empty_scene_is_explained);
  g_test_add_func ("/explain/explanation-never-contradicts-the-plan", explanation_never_contradicts_the_plan);
  return g_test_run ();
}

/* Pinned and stitched hoopings in the plan. */
#include "random-scenes.h"

static HwSnapshot *
four_in_a_row (void)
{
  HwSnapshot *scene = hw_snapshot_new ();
  static const char *const names[] = { "Gate", "Fig branch", "Quince", "Rose" };

  scene_add_hoop (scene, "small", 100, 100, HW_TURN_QUARTER);
  scene_add_hoop (scene, "large", 130, 180, HW_TURN_ANY);
  for (guint i = 0; i < 4; i++)
    {
      scene_add_motif (scene, hw_outline_new_rectangle (40, 40),
                       (HwPlacement){ { 100 + i * 60.0, 200 }, 0, 1, FALSE });
      g_free (((HwMotif *)scene->motifs->pdata[i])->name);
      ((HwMotif *)scene->motifs->pdata[i])->name = g_strdup (names[i]);
    }
  return scene;
}

static HwPin *
pin (const char *hoop, double x, double y, double angle, const char *motifs)
{
  HwPin *record = hw_pin_new ();

  record->hoop = g_strdup (hoop);
  record->centre = (HwPoint){ x, y };
  record->angle = angle;
  record->motifs = g_strsplit (motifs, " ", -1);
  return record;
}

static HwPlan *
plan_well (const HwSnapshot *scene)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlan *plan = hw_planner_plan (planner, scene, NULL, NULL, NULL, NULL);
  g_autoptr (GError) error = NULL;

  hw_plan_verify (plan, &error);
  g_assert_no_error (error);
  return plan;
}

static const HwProblem *
find_problem (const HwPlan *plan, HwProblemKind kind)
{
  for (guint i = 0; i < plan->problems->len; i++)
    if (((HwProblem *)g_ptr_array_index (plan->problems, i))->kind == kind)
      return g_ptr_array_index (plan->problems, i);
  return NULL;
}

static void
without_pins_two_hoopings_do (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = plan_well (scene);

  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
}

static void
pin_keeps_hoop_pose_and_motifs (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;
  const HwHooping *hooping;

  g_ptr_array_add (scene->pins, pin ("large", 221, 203, 90, "m2 m3"));
  plan = plan_well (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 3); /* m1 and m4 lie too far apart */
  g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
  hooping = &plan->hoopings[hw_plan_hooping_of (plan, 1)];
  g_assert_cmpint (hooping->hold, ==, HW_PLACE_PINNED);
  g_assert_cmpuint (hooping->hoop, ==, 1);
  g_assert_cmpuint (hooping->n_motifs, ==, 2);
  g_assert_cmpfloat (hooping->centre.x, ==, 221);
  g_assert_cmpfloat (hooping->angle, ==, 90);
  g_assert_null (find_problem (plan, HW_PROBLEM_PIN));
}

static void
pin_that_lost_its_motif_is_dropped (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;

  g_ptr_array_add (scene->pins, pin ("small", 400, 400, 0, "m2 m3"));
  plan = plan_well (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
  g_assert_cmpstr (
      find_problem (plan, HW_PROBLEM_PIN)->text, ==,
      "The pinned hooping with Fig branch and Quince no longer takes all its motifs where it is pinned.");
}

static void
pin_of_a_missing_hoop_is_dropped (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;

  g_ptr_array_add (scene->pins, pin ("gone", 220, 200, 0, "m2 m3"));
  g_ptr_array_add (scene->pins, pin ("large", 220, 200, 90, "nobody"));
  plan = plan_well (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_nonnull (find_problem (plan, HW_PROBLEM_PIN));
}

static void
pin_at_an_angle_its_hoop_lacks_is_dropped (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;

  g_ptr_array_add (scene->pins, pin ("small", 100, 200, 30, "m1"));
  plan = plan_well (scene);
  g_assert_nonnull (find_problem (plan, HW_PROBLEM_PIN));
}

/* Gate and Quince pinned together, Fig branch between them in the order but pinned elsewhere. */
static void
pin_against_the_order_is_dropped (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;

  for (guint i = 0; i < 4; i++)
    ((HwMotif *)scene->motifs->pdata[i])->placement.position.x = 200 + i * 30.0;
  g_ptr_array_add (scene->pins, pin ("large", 230, 200, 90, "m1 m3"));
  g_ptr_array_add (scene->pins, pin ("large", 230, 200, 90, "m2 m4"));
  plan = plan_well (scene);
  g_assert_nonnull (find_problem (plan, HW_PROBLEM_PIN));
  g_assert_nonnull (strstr (find_problem (plan, HW_PROBLEM_PIN)->text, "cannot be stitched at one time"));
}

static void
motif_pinned_twice_stays_with_the_first (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;

  g_ptr_array_add (scene->pins, pin ("large", 130, 200, 90, "m1 m2"));
  g_ptr_array_add (scene->pins, pin ("large", 190, 200, 90, "m2 m3"));
  plan = plan_well (scene);
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), ==, hw_plan_hooping_of (plan, 1));
  g_assert_nonnull (find_problem (plan, HW_PROBLEM_PIN));
}

static void
stitched_hoopings_come_first_and_stay (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;

  g_ptr_array_add (scene->frozen, pin ("small", 333, 444, 12, "m4 m2"));
  g_ptr_array_add (scene->frozen, pin ("large", 1, 2, 3, "nobody"));
  g_ptr_array_add (scene->frozen, pin ("gone", 100, 200, 0, "m1"));
  plan = plan_well (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 3);
  g_assert_cmpint (plan->hoopings[0].hold, ==, HW_PLACE_FROZEN);
  g_assert_cmpint (plan->hoopings[1].hold, ==, HW_PLACE_FROZEN);
  g_assert_cmpint (plan->hoopings[2].hold, ==, HW_PLACE_FREE);
  g_assert_cmpuint (plan->hoopings[0].motifs[0], ==, 3);
  g_assert_cmpuint (plan->hoopings[0].motifs[1], ==, 1);
  g_assert_cmpfloat (plan->hoopings[0].angle, ==, 12);
  g_assert_cmpfloat (plan->hoopings[0].centre.x, ==, 333);
  g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
  g_assert_nonnull (strstr (plan->proof, "2 hoopings are stitched already."));
  g_assert_cmpstr (plan->proof, ==,
                   "One more hooping takes all that is left to stitch. 2 hoopings are stitched already.");
}

static HwMotif *
make_too_large (HwSnapshot *scene, guint motif)
{
  HwMotif *large = scene->motifs->pdata[motif];

  hw_outline_unref (large->outline);
  large->outline = hw_outline_new_rectangle (400, 300);
  large->placement.position = (HwPoint){ 350, 420 };
  return large;
}

/* What the sentence says of one hooping agrees with their number, and with what no hoop takes. */
static void
one_hooping_besides_the_stitched_is_one_more (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwSnapshot) fresh = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwPlan) first = NULL;

  g_ptr_array_add (scene->frozen, pin ("small", 100, 200, 0, "m1"));
  make_too_large (scene, 3);
  plan = plan_well (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  g_assert_cmpstr (plan->proof, ==,
                   "One more hooping takes all that a hoop can still take. 1 hooping is stitched already.");
  make_too_large (fresh, 0);
  g_ptr_array_remove_index (fresh->motifs, 3);
  first = plan_well (fresh);
  g_assert_cmpuint (first->n_hoopings, ==, 1);
  g_assert_cmpstr (first->proof, ==, "One hooping takes all that a hoop can take.");
}

static void
pin_passes_over_what_is_stitched (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;

  g_ptr_array_add (scene->frozen, pin ("small", 160, 200, 0, "m2"));
  g_ptr_array_add (scene->pins, pin ("large", 221, 203, 90, "m2 m3"));
  plan = plan_well (scene);
  g_assert_null (find_problem (plan, HW_PROBLEM_PIN));
  g_assert_cmpint (plan->hoopings[hw_plan_hooping_of (plan, 2)].hold, ==, HW_PLACE_PINNED);
  g_assert_cmpint (hw_plan_hooping_of (plan, 1), ==, 0);
}

static void
all_stitched_is_a_plan_too (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();
  g_autoptr (HwPlan) plan = NULL;

  g_ptr_array_add (scene->frozen, pin ("large", 130, 200, 90, "m1 m2"));
  g_ptr_array_add (scene->frozen, pin ("large", 250, 200, 90, "m3 m4"));
  plan = plan_well (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
}

/* Pins on random scenes: whatever is pinned, the rest is planned and the second opinion agrees. */
static void
random_pins_are_kept_or_named (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());

  for (guint round = 0; round < 150; round++)
    {
      g_autoptr (HwSnapshot) scene = scene_random (rand, round % SCENE_KINDS, 12, 1.6);
      g_autoptr (HwPlan) free_plan = plan_well (scene);
      g_autoptr (HwSnapshot) pinned = hw_snapshot_copy (scene);
      g_autoptr (HwPlan) plan = NULL;

      for (guint h = 0; h < free_plan->n_hoopings; h++)
        {
          const HwHooping *hooping = &free_plan->hoopings[h];
          HwPin *record = hw_pin_new ();

          record->hoop = g_strdup (hw_snapshot_hoop (scene, hooping->hoop)->id);
          record->centre = hooping->centre;
          record->angle = hooping->angle;
          record->motifs = g_new0 (char *, hooping->n_motifs + 1);
          for (guint k = 0; k < hooping->n_motifs; k++)
            record->motifs[k] = g_strdup (hw_snapshot_motif (scene, hooping->motifs[k])->id);
          if (g_rand_int_range (rand, 0, 3) > 0)
            g_ptr_array_add (g_rand_int_range (rand, 0, 3) == 0 ? pinned->frozen : pinned->pins, record);
          else
            hw_pin_unref (record);
        }
      plan = plan_well (pinned);
      g_assert_null (
          find_problem (plan, HW_PROBLEM_PIN)); /* they come from a plan, so they can be kept together */
      g_assert_cmpuint (plan->n_hoopings, <=, free_plan->n_hoopings);
      if (pinned->frozen->len == 0) /* what is stitched no longer binds the order of the rest */
        g_assert_cmpuint (plan->n_hoopings, ==, free_plan->n_hoopings);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/held/without-pins-two-hoopings-do", without_pins_two_hoopings_do);
  g_test_add_func ("/held/pin-keeps-hoop-pose-and-motifs", pin_keeps_hoop_pose_and_motifs);
  g_test_add_func ("/held/pin-that-lost-its-motif-is-dropped", pin_that_lost_its_motif_is_dropped);
  g_test_add_func ("/held/pin-of-a-missing-hoop-is-dropped", pin_of_a_missing_hoop_is_dropped);
  g_test_add_func ("/held/pin-at-an-angle-its-hoop-lacks-is-dropped",
                   pin_at_an_angle_its_hoop_lacks_is_dropped);
  g_test_add_func ("/held/pin-against-the-order-is-dropped", pin_against_the_order_is_dropped);
  g_test_add_func ("/held/motif-pinned-twice-stays-with-the-first", motif_pinned_twice_stays_with_the_first);
  g_test_add_func ("/held/stitched-hoopings-come-first-and-stay", stitched_hoopings_come_first_and_stay);
  g_test_add_func ("/held/one-hooping-besides-the-stitched-is-one-more",
                   one_hooping_besides_the_stitched_is_one_more);
  g_test_add_func ("/held/pin-passes-over-what-is-stitched", pin_passes_over_what_is_stitched);
  g_test_add_func ("/held/all-stitched-is-a-plan-too", all_stitched_is_a_plan_too);
  g_test_add_func ("/held/random-pins-are-kept-or-named", random_pins_are_kept_or_named);
  return g_test_run ();
}

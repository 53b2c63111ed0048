/* Advice taken is a plan made: every piece gives what it says. */
#include "../../src/planning/advice.h"
#include "../../src/planning/explain.h"
#include "little-scenes.h"
#include "random-scenes.h"

#define PLENTY 60.0 /* seconds: so that a busy machine does not choose the answer */

static GPtrArray *
find (const HwPlan *plan)
{
  return hw_advice_find_within (plan, HW_UNIT_MM, PLENTY, NULL);
}

static const HwAdvice *
advice_at (GPtrArray *found, guint i)
{
  g_assert_cmpuint (i, <, found->len);
  return g_ptr_array_index (found, i);
}

static guint
count_kind (GPtrArray *found, HwAdviceKind kind)
{
  guint n = 0;

  for (guint i = 0; i < found->len; i++)
    n += advice_at (found, i)->kind == kind;
  return n;
}

/* The plan after taking the advice; checked against what was promised. */
static HwPlan *
take (const HwPlan *plan, const HwAdvice *advice)
{
  g_autoptr (HwSnapshot) changed = hw_advice_apply (plan, advice);
  g_autoptr (GError) error = NULL;
  HwPlan *then = little_plan (changed);

  hw_plan_verify (then, &error);
  g_assert_no_error (error);
  if (advice->proven_then && then->status == HW_PLAN_OPTIMAL)
    g_assert_cmpuint (then->n_hoopings, ==, advice->hoopings_then);
  else
    g_assert_cmpuint (then->n_hoopings, <=, advice->hoopings_then);
  return then;
}

/* Two squares of 50 with a gap of 4 under a field of 100. */
static HwSnapshot *
four_too_far (void)
{
  HwSnapshot *scene = little_scene (400, 300);

  little_hoop (scene, 100, 100, 0, HW_TURN_QUARTER);
  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 154, 100);
  return scene;
}

static void
move_of_four_saves_a_hooping (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autoptr (GPtrArray) found = find (plan);
  g_autoptr (HwPlan) then = take (plan, advice_at (found, 1));

  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpuint (count_kind (found, HW_ADVICE_MOVE), ==, 2);
  g_assert_cmpstr (advice_at (found, 0)->text, ==,
                   "If Gate moved 4.0 mm right, one hooping less: 1 in place of 2.");
  g_assert_cmpstr (advice_at (found, 1)->text, ==,
                   "If Quince moved 4.0 mm left, one hooping less: 1 in place of 2.");
  g_assert_cmpfloat_with_epsilon (advice_at (found, 1)->shift.x, -4, 1e-9);
  g_assert_cmpfloat (advice_at (found, 1)->shift.y, ==, 0);
  g_assert_cmpuint (then->n_hoopings, ==, 1);
}

/* Pear lies with Quince, out of Gate's reach, but could as well lie with Rose: Gate need only come to Quince, which may not be moved. */
static void
move_to_one_of_a_hooping_is_found (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (600, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;
  gboolean said = FALSE;

  little_hoop (scene, 100, 100, 0, HW_TURN_QUARTER);
  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 154, 100)->locked = TRUE;
  little_motif (scene, "Pear", 10, 10, 210, 100);
  little_motif (scene, "Rose", 50, 50, 270, 100);
  plan = little_plan (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 3);
  g_assert_cmpint (hw_plan_hooping_of (plan, 2), ==, hw_plan_hooping_of (plan, 1));
  found = find (plan);
  for (guint i = 0; i < found->len; i++)
    said |= g_str_equal (advice_at (found, i)->text,
                         "If Gate moved 4.0 mm right, one hooping less: 2 in place of 3.");
  g_assert_true (said);
}

static void
move_may_go_both_ways (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (HwPlan) then = NULL;

  ((HwMotif *)scene->motifs->pdata[1])->placement.position.y = 153;
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpstr (advice_at (found, 1)->text, ==,
                   "If Quince moved 4.0 mm left and 3.0 mm up, one hooping less: 1 in place of 2.");
  then = take (plan, advice_at (found, 1));
  g_assert_cmpuint (then->n_hoopings, ==, 1);
}

/* Turned by 30 degrees with its motifs, the hoop lacks the same four along the slant. */
static void
move_is_found_at_any_angle (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (500, 500);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (HwPlan) then = NULL;
  HwPoint way = hw_point_turn ((HwPoint){ 55, 0 }, 30);

  little_hoop (scene, 50.5, 101, 0, HW_TURN_ANY);
  little_motif (scene, "Gate", 50, 50, 200, 200)->placement.angle = 30;
  little_motif (scene, "Quince", 50, 50, 200 + way.x, 200 + way.y)->placement.angle = 30;
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpint (advice_at (found, 0)->kind, ==, HW_ADVICE_MOVE);
  g_assert_cmpfloat (hypot (advice_at (found, 0)->shift.x, advice_at (found, 0)->shift.y), <, 5);
  g_assert_cmpfloat (hypot (advice_at (found, 0)->shift.x, advice_at (found, 0)->shift.y), >, 3.5);
  then = take (plan, advice_at (found, 0));
  g_assert_cmpuint (then->n_hoopings, ==, 1);
}

static void
move_is_spoken_in_inches (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (HwPlan) then = NULL;

  ((HwHoop *)scene->hoops->pdata[0])->field_width = 101;
  ((HwMotif *)scene->motifs->pdata[1])->placement.position.x = 155;
  plan = little_plan (scene);
  found = hw_advice_find_within (plan, HW_UNIT_INCH, PLENTY, NULL);
  g_assert_cmpstr (advice_at (found, 0)->text, ==,
                   "If Gate moved 0.16 in right, one hooping less: 1 in place of 2.");
  g_assert_cmpfloat_with_epsilon (advice_at (found, 0)->shift.x, 0.16 * 25.4, 1e-9);
  then = take (plan, advice_at (found, 0));
  g_assert_cmpuint (then->n_hoopings, ==, 1);
}

static void
locked_and_held_motifs_stay (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (HwPlan) pinned = NULL;
  g_autoptr (GPtrArray) then = NULL;

  ((HwMotif *)scene->motifs->pdata[0])->locked = TRUE;
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpuint (count_kind (found, HW_ADVICE_MOVE), ==, 1);
  g_assert_cmpint (advice_at (found, 0)->motif, ==, 1);
  g_ptr_array_add (scene->pins, little_pin ("h1", 154, 100, "m2"));
  pinned = little_plan (scene);
  then = find (pinned);
  g_assert_cmpuint (count_kind (then, HW_ADVICE_MOVE), ==, 0);
}

/* A spike of the edge line stands in the gap, so neither may come nearer. */
static void
move_stays_inside_the_edge_line (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  HwPoint points[] = { { 50, 50 },  { 126, 50 }, { 126, 90 },  { 128, 90 },
                       { 128, 50 }, { 250, 50 }, { 250, 200 }, { 50, 200 } };
  HwRing ring = { points, G_N_ELEMENTS (points) };
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;

  scene->edge_line = hw_edge_line_new ();
  scene->edge_line->outline = hw_outline_new (&ring, 1);
  plan = little_plan (scene);
  g_assert_cmpuint (plan->problems->len, ==, 0);
  found = find (plan);
  g_assert_cmpuint (count_kind (found, HW_ADVICE_MOVE), ==, 0);
}

static void
move_does_not_cover_another_motif (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;

  little_motif (scene, "Rose", 3, 30, 127, 100);
  plan = little_plan (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  found = find (plan);
  g_assert_cmpuint (count_kind (found, HW_ADVICE_MOVE), ==, 0);
}

/* A twig of 0.2 by 10 mm: covering 2 square millimetres of it is harmless, and told. */
static void
touch_by_a_hair_is_told (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;

  little_motif (scene, "Twig", 0.2, 10, 127, 100);
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpstr (
      advice_at (found, 0)->text, ==,
      "If Gate moved 4.0 mm right, one hooping less: 1 in place of 2. It would then overlap Twig by a "
      "hair.");
  hw_plan_unref (take (plan, advice_at (found, 0)));
}

/* Five squares in a row, 130 apart: two side by side need 170, three need 300, four 430. */
static void
larger_hoops_are_counted_right (void)
{
  static const struct
  {
    double width, height;
    guint hoopings;
  } expected[] = { { 200, 360, 2 }, { 350, 360, 2 }, { 130, 180, 3 }, { 150, 240, 3 },
                   { 160, 260, 3 }, { 180, 300, 3 }, { 200, 300, 3 } };
  static const char *const names[] = { "Plum", "Pear", "Apple", "Medlar", "Cherry" };
  g_autoptr (HwSnapshot) scene = little_scene (900, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;

  little_hoop (scene, 100, 100, 2, HW_TURN_QUARTER);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    little_motif (scene, names[i], 40, 40, 100 + 130 * i, 150);
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpuint (found->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < found->len; i++)
    {
      const HwAdvice *advice = advice_at (found, i);
      g_autoptr (HwPlan) then = take (plan, advice);

      g_assert_cmpint (advice->kind, ==, HW_ADVICE_HOOP);
      g_assert_cmpfloat (advice->field_width, ==, expected[i].width);
      g_assert_cmpfloat (advice->field_height, ==, expected[i].height);
      g_assert_cmpuint (advice->hoopings_then, ==, expected[i].hoopings);
      g_assert_cmpuint (then->snapshot->hoops->len, ==, 2);
      g_assert_cmpstr (hw_snapshot_hoop (then->snapshot, 1)->id, ==, "h2");
    }
  g_assert_cmpstr (advice_at (found, 4)->text, ==, "With a 160 × 260 mm hoop: 3 hoopings in place of 5.");
}

/* Where least time is wished for, what counts is minutes: 6 for setting each hooping, and nothing else here. */
static void
least_time_speaks_of_minutes_saved (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = NULL, then = NULL;
  g_autoptr (GPtrArray) found = NULL;

  scene->wishes.best = HW_BEST_LEAST_TIME;
  scene->machine.minutes_per_hooping = 6;
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpuint (count_kind (found, HW_ADVICE_MOVE), ==, 2);
  g_assert_cmpstr (advice_at (found, 1)->text, ==,
                   "If Quince moved 4.0 mm left, 6 minutes less: about 6 minutes in place of about 12 "
                   "minutes.");
  g_assert_cmpstr (advice_at (found, 2)->text, ==,
                   "With a 130 × 180 mm hoop, 6 minutes less: about 6 minutes in place of about 12 minutes.");
  then = take (plan, advice_at (found, 1));
  g_assert_cmpfloat_with_epsilon (then->minutes, advice_at (found, 1)->minutes_then, 1e-9);
  g_assert_cmpfloat_with_epsilon (then->minutes, 6, 1e-9);
}

static void
move_without_gain_in_time_is_not_advised (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;

  scene->wishes.best = HW_BEST_LEAST_TIME;
  scene->machine.minutes_per_hooping = 0.5; /* a hooping less spares less than a minute */
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpuint (found->len, ==, 0);
}

static void
hoop_already_owned_is_not_advised (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (900, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;

  little_hoop (scene, 360, 350, 2, HW_TURN_ANY);
  little_motif (scene, "Plum", 40, 40, 100, 150);
  little_motif (scene, "Pear", 40, 40, 800, 150);
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpuint (found->len, ==, 0);
}

static void
one_hooping_needs_no_advice (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (400, 300);
  g_autoptr (HwSnapshot) bare = little_scene (400, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwPlan) empty = little_plan (bare);
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GPtrArray) none = find (empty);

  little_hoop (scene, 100, 100, 2, HW_TURN_ANY);
  little_motif (scene, "Plum", 40, 40, 100, 150);
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpuint (found->len, ==, 0);
  g_assert_cmpuint (none->len, ==, 0);
}

static void
oversize_motif_gets_a_scale_and_a_hoop (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (400, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (HwPlan) smaller = NULL;
  g_autoptr (HwPlan) with = NULL;

  little_hoop (scene, 100, 100, 0, HW_TURN_QUARTER);
  little_motif (scene, "Ladder", 110, 80, 200, 150)->placement.scale = 1.05;
  plan = little_plan (scene);
  found = find (plan);
  g_assert_cmpint (advice_at (found, 0)->kind, ==, HW_ADVICE_SCALE);
  g_assert_cmpfloat_with_epsilon (advice_at (found, 0)->scale, 0.86 * 1.05, 1e-12); /* 100 / 115.5 = 0.8658 */
  g_assert_cmpstr (advice_at (found, 0)->text, ==, "At 86 % of its size here, Ladder fits.");
  smaller = take (plan, advice_at (found, 0));
  g_assert_cmpint (smaller->status, ==, HW_PLAN_OPTIMAL);
  g_assert_cmpstr (advice_at (found, 1)->text, ==,
                   "With a 130 × 180 mm hoop the whole scene can be stitched, in 1 hooping.");
  with = take (plan, advice_at (found, 1));
  g_assert_cmpint (with->status, ==, HW_PLAN_OPTIMAL);
}

/* A long motif askew before a hoop that is turned by quarters only: the advice says how the explanation says it, and taken, it fits. */
static void
oversize_motif_askew_is_turned (void)
{
  for (guint mirrored = 0; mirrored < 2; mirrored++)
    {
      g_autoptr (HwSnapshot) scene = little_scene (400, 300);
      g_autoptr (HwPlan) plan = NULL;
      g_autoptr (GPtrArray) found = NULL;
      g_autoptr (HwPlan) turned = NULL;
      g_autofree char *why = NULL;
      HwMotif *ladder;

      little_hoop (scene, 130, 180, 2, HW_TURN_QUARTER);
      ladder = little_motif (scene, "Ladder", 170, 80, 200, 150);
      ladder->placement.angle = 40;
      ladder->placement.mirrored = mirrored != 0;
      plan = little_plan (scene);
      g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
      found = find (plan);
      g_assert_cmpint (advice_at (found, 0)->kind, ==, HW_ADVICE_TURN);
      why = hw_explain_oversize (plan, 0, HW_UNIT_MM);
      assert_says (advice_at (found, 0)->text, "° anticlockwise on the cloth, Ladder fits.");
      assert_says (why, advice_at (found, 0)->text);
      turned = take (plan, advice_at (found, 0));
      g_assert_cmpint (turned->status, ==, HW_PLAN_OPTIMAL);
      ladder = turned->snapshot->motifs->pdata[0];
      g_assert_cmpfloat (ladder->placement.angle, <, 6);
      g_assert_cmpfloat (ladder->placement.angle, >, 2); /* no further than need be */
      g_assert_cmpfloat (ladder->placement.scale, ==, 1);
    }
}

static void
scale_beyond_the_range_says_so (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (400, 300);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GPtrArray) found = NULL;

  little_hoop (scene, 100, 100, 0, HW_TURN_QUARTER);
  little_motif (scene, "Ladder", 200, 80, 200, 150);
  plan = little_plan (scene);
  found = find (plan);
  assert_says (advice_at (found, 0)->text,
               "At 50 % of its size here, Ladder fits, but then it needs new stitches");
}

static void
assert_same_advice (GPtrArray *a, GPtrArray *b)
{
  g_assert_cmpuint (a->len, ==, b->len);
  for (guint i = 0; i < a->len; i++)
    g_assert_cmpstr (advice_at (a, i)->text, ==, advice_at (b, i)->text);
}

static void
advice_taken_gives_what_it_says (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  guint moves = 0, hoops = 0;

  for (guint round = 0; round < 60; round++)
    {
      guint n = g_rand_int_range (rand, 2, 16);
      g_autoptr (HwSnapshot) scene
          = scene_random (rand, round % SCENE_KINDS, n, scene_between (rand, 0.8, 2.5));
      g_autoptr (HwPlan) plan = little_plan (scene);
      g_autoptr (GPtrArray) found = find (plan);
      g_autoptr (GPtrArray) again = find (plan);

      assert_same_advice (found, again);
      g_assert_cmpuint (count_kind (found, HW_ADVICE_MOVE), <=, 3);
      for (guint i = 0; i < found->len; i++)
        {
          const HwAdvice *advice = advice_at (found, i);
          g_autoptr (HwPlan) then = take (plan, advice);

          if (advice->kind != HW_ADVICE_SCALE && plan->status != HW_PLAN_UNPLANNABLE)
            g_assert_cmpuint (then->n_hoopings, <, plan->n_hoopings);
          if (advice->kind == HW_ADVICE_MOVE)
            g_assert_cmpfloat (hypot (advice->shift.x, advice->shift.y), <=, 15);
        }
      moves += count_kind (found, HW_ADVICE_MOVE);
      hoops += count_kind (found, HW_ADVICE_HOOP);
    }
  g_assert_cmpuint (moves, >, 2);
  g_assert_cmpuint (hoops, >, 10);
}

static void
found_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  *(GAsyncResult **)data = g_object_ref (result);
}

static void
thread_finds_the_same (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autoptr (GPtrArray) expected = find (plan);
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GError) error = NULL;

  hw_advice_find_async (plan, HW_UNIT_MM, NULL, found_cb, &result);
  while (result == NULL)
    g_main_context_iteration (NULL, TRUE);
  found = hw_advice_find_finish (result, &error);
  g_assert_no_error (error);
  assert_same_advice (found, expected);
}

static void
cancelled_search_finds_nothing (void)
{
  g_autoptr (HwSnapshot) scene = four_too_far ();
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_null (hw_advice_find (plan, HW_UNIT_MM, cancellable));
  hw_advice_find_async (plan, HW_UNIT_MM, cancellable, found_cb, &result);
  while (result == NULL)
    g_main_context_iteration (NULL, TRUE);
  g_assert_null (hw_advice_find_finish (result, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

/* A large scene: whatever is found, the time set is about kept. */
static void
time_is_kept (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 200, 1.2);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwPlan) plan
      = hw_planner_plan (planner, scene, &(HwPlanOptions){ .seconds = 0.5 }, NULL, NULL, NULL);
  gint64 start = g_get_monotonic_time ();
  g_autoptr (GPtrArray) found = hw_advice_find_within (plan, HW_UNIT_MM, 0.5, NULL);

  g_assert_nonnull (found);
  g_assert_cmpint (g_get_monotonic_time () - start, <, 3 * G_USEC_PER_SEC);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/advice/move-of-four-saves-a-hooping", move_of_four_saves_a_hooping);
  g_test_add_func ("/advice/move-may-go-both-ways", move_may_go_both_ways);
  g_test_add_func ("/advice/move-is-found-at-any-angle", move_is_found_at_any_angle);
  g_test_add_func ("/advice/move-is-spoken-in-inches", move_is_spoken_in_inches);
  g_test_add_func ("/advice/locked-and-held-motifs-stay", locked_and_held_motifs_stay);
  g_test_add_func ("/advice/move-stays-inside-the-edge-line", move_stays_inside_the_edge_line);
  g_test_add_func ("/advice/move-does-not-cover-another-motif", move_does_not_cover_another_motif);
  g_test_add_func ("/advice/touch-by-a-hair-is-told", touch_by_a_hair_is_told);
  g_test_add_func ("/advice/larger-hoops-are-counted-right", larger_hoops_are_counted_right);
  g_test_add_func ("/advice/least-time-speaks-of-minutes-saved", least_time_speaks_of_minutes_saved);
  g_test_add_func ("/advice/move-without-gain-in-time-is-not-advised",
                   move_without_gain_in_time_is_not_advised);
  g_test_add_func ("/advice/hoop-already-owned-is-not-advised", hoop_already_owned_is_not_advised);
  g_test_add_func ("/advice/one-hooping-needs-no-advice", one_hooping_needs_no_advice);
  g_test_add_func ("/advice/oversize-motif-gets-a-scale-and-a-hoop", oversize_motif_gets_a_scale_and_a_hoop);
  g_test_add_func ("/advice/oversize-motif-askew-is-turned", oversize_motif_askew_is_turned);
  g_test_add_func ("/advice/scale-beyond-the-range-says-so", scale_beyond_the_range_says_so);
  g_test_add_func ("/advice/advice-taken-gives-what-it-says", advice_taken_gives_what_it_says);
  g_test_add_func ("/advice/thread-finds-the-same", thread_finds_the_same);
  g_test_add_func ("/advice/cancelled-search-finds-nothing", cancelled_search_finds_nothing);
  g_test_add_func ("/advice/time-is-kept", time_is_kept);
  g_test_add_func ("/advice/move-to-one-of-a-hooping-is-found", move_to_one_of_a_hooping_is_found);
  return g_test_run ();
}

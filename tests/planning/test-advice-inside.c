/* What a try of advice accepts and refuses, and how it says what it gains. */
#include "plans-by-hand.h"

#include <math.h>

#include "../../src/planning/advice-private.h"
#include "../../src/planning/advice.h"

/* A plan of so many hoopings that take so long; only its counts matter. */
static HwPlan *
plan_of_counts (const HwSnapshot *scene, guint hoopings, double minutes)
{
  HwPlan *plan = hw_plan_new (scene);

  plan->hoopings = g_new0 (HwHooping, hoopings);
  plan->n_hoopings = hoopings;
  plan->minutes = minutes;
  return plan;
}

static void
assert_gain (const HwSnapshot *scene,
             guint before,
             double minutes_before,
             guint then,
             double minutes_then,
             const char *wanted)
{
  g_autoptr (HwPlan) plan = plan_of_counts (scene, before, minutes_before);
  g_autoptr (HwPlan) better = plan_of_counts (scene, then, minutes_then);
  HwAdvising advising = { .plan = plan };
  g_autofree char *text = hw_advising_gain_text (&advising, better);

  g_assert_cmpstr (text, ==, wanted);
}

static void
gains_are_said_in_hoopings_or_in_time (void)
{
  g_autoptr (HwSnapshot) scene = garden ();

  assert_gain (scene, 5, 80, 4, 68, "one hooping less: 4 in place of 5");
  assert_gain (scene, 5, 80, 3, 68, "2 hoopings less: 3 in place of 5");
  scene->wishes.best = HW_BEST_LEAST_TIME;
  assert_gain (scene, 5, 80, 4, 68, "12 minutes less: about 1 h 08 in place of about 1 h 20");
  assert_gain (scene, 5, 80, 4, 79, "1 minute less: about 1 h 19 in place of about 1 h 20");
  assert_gain (scene, 5, 401, 4, 399, "2 minutes less"); /* both are about 6 h 40 */
}

static HwWorth
at_most (guint hoopings, double minutes)
{
  return (HwWorth){ hoopings, minutes };
}

static gboolean
is_accepted (HwAdvising *advising, const HwSnapshot *scene, HwWorth most)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwPlan) then = NULL;

  advising->deadline = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  then = hw_advising_try (advising, planner, scene, most);
  return then != NULL;
}

/* Gate and Quince share no hooping. */
static HwSnapshot *
two_apart (void)
{
  HwSnapshot *scene = garden ();

  little_motif (scene, "Gate", 60, 60, 100, 100);
  little_motif (scene, "Quince", 60, 60, 300, 100);
  return scene;
}

static void
a_try_is_worth_what_it_may_take_at_most (void)
{
  g_autoptr (HwSnapshot) scene = two_apart ();
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  HwAdvising advising = { .plan = plan };

  g_assert_true (is_accepted (&advising, scene, HW_WORTH_ANY));
  g_assert_true (is_accepted (&advising, scene, at_most (2, INFINITY)));
  g_assert_false (is_accepted (&advising, scene, at_most (1, INFINITY)));
  g_assert_true (is_accepted (&advising, scene, at_most (2, plan->minutes)));
  g_assert_false (is_accepted (&advising, scene, at_most (2, plan->minutes - 1)));
  scene->wishes.best = HW_BEST_LEAST_TIME; /* then the bound of the time says so early */
  g_assert_false (is_accepted (&advising, scene, at_most (2, plan->minutes - 1)));
  g_assert_true (is_accepted (&advising, scene, at_most (2, plan->minutes)));
  advising.cancellable = cancellable;
  g_assert_true (is_accepted (&advising, scene, HW_WORTH_ANY));
  g_cancellable_cancel (cancellable);
  g_assert_false (is_accepted (&advising, scene, HW_WORTH_ANY));
}

/* The scene with a motif so far to the side. */
static HwSnapshot *
scene_moved_by (const HwSnapshot *scene, guint motif, double dx)
{
  HwSnapshot *moved = hw_snapshot_copy (scene);
  HwMotif *copy = hw_motif_copy (hw_snapshot_motif (scene, motif));

  copy->placement.position.x += dx;
  hw_motif_unref (moved->motifs->pdata[motif]);
  moved->motifs->pdata[motif] = copy;
  return moved;
}

static void
a_try_may_bring_no_new_trouble (void)
{
  g_autoptr (HwSnapshot) scene = two_apart ();
  g_autoptr (HwSnapshot) off = NULL, farther = NULL, back = NULL, large = NULL, pinned = NULL;
  g_autoptr (HwPlan) plan = little_plan (scene), off_plan = NULL, large_plan = NULL, pinned_plan = NULL;
  HwAdvising advising = { .plan = plan }, from_off = { 0 }, from_large = { 0 }, from_pinned = { 0 };
  HwPin *lost = little_pin ("h1", 500, 500, "m1");

  off = scene_moved_by (scene, 0, -80);
  farther = scene_moved_by (scene, 0, -90);
  back = scene_moved_by (scene, 0, -79.99);
  g_assert_false (is_accepted (&advising, off, HW_WORTH_ANY));
  off_plan = little_plan (off);
  from_off.plan = off_plan;
  g_assert_true (is_accepted (&from_off, off, HW_WORTH_ANY)); /* not worse than it is */
  g_assert_true (is_accepted (&from_off, back, HW_WORTH_ANY));
  g_assert_false (is_accepted (&from_off, farther, HW_WORTH_ANY));
  large = hw_snapshot_copy (scene);
  little_motif (large, "Ladder", 300, 10, 300, 300);
  g_assert_false (is_accepted (&advising, large, HW_WORTH_ANY)); /* Ladder fits no hoop */
  large_plan = little_plan (large);
  from_large.plan = large_plan;
  g_assert_true (is_accepted (&from_large, large, HW_WORTH_ANY));
  g_assert_true (hw_advising_is_oversize (large_plan, 2));
  g_assert_false (hw_advising_is_oversize (large_plan, 1));
  pinned = hw_snapshot_copy (scene);
  g_ptr_array_add (pinned->pins, lost); /* it does not lie there */
  g_assert_false (is_accepted (&advising, pinned, HW_WORTH_ANY));
  pinned_plan = little_plan (pinned);
  from_pinned.plan = pinned_plan;
  g_assert_true (is_accepted (&from_pinned, pinned, HW_WORTH_ANY));
}

static HwSnapshot *
four_in_a_row (void)
{
  HwSnapshot *scene = garden ();
  HwThreadBlock moss = { .name = (char *)"moss", .stitches = 500 };

  for (guint i = 0; i < 4; i++)
    hw_motif_set_threads (little_motif (scene, "Pear", 60, 60, 100 + 75 * i, 100), &moss, 1);
  return scene;
}

/* The hoops that save most come first, by what counts. */
static void
hoops_are_told_the_best_first (void)
{
  for (HwBest best = HW_BEST_FEWEST; best <= HW_BEST_LEAST_TIME; best++)
    {
      g_autoptr (HwSnapshot) scene = four_in_a_row ();
      g_autoptr (HwPlan) plan = NULL;
      g_autoptr (GPtrArray) found = NULL, same = NULL;
      g_autoptr (GCancellable) cancellable = g_cancellable_new ();
      const HwAdvice *before = NULL;
      guint n = 0;

      scene->wishes.best = best;
      plan = little_plan (scene);
      found = hw_advice_find_within (plan, HW_UNIT_MM, 60, NULL);
      for (guint i = 0; i < found->len; i++)
        {
          const HwAdvice *advice = found->pdata[i];

          if (advice->kind != HW_ADVICE_HOOP)
            continue;
          if (before != NULL && best == HW_BEST_FEWEST)
            g_assert_cmpuint (before->hoopings_then, <=, advice->hoopings_then);
          else if (before != NULL)
            g_assert_cmpfloat (before->minutes_then, <=, advice->minutes_then);
          before = advice;
          n++;
        }
      g_assert_cmpuint (n, >, 0);
      same = hw_advice_find_within (plan, HW_UNIT_MM, 60,
                                    cancellable); /* that it could be cancelled changes nothing */
      g_assert_cmpuint (same->len, ==, found->len);
      for (guint i = 0; i < found->len; i++)
        g_assert_cmpstr (((HwAdvice *)same->pdata[i])->text, ==, ((HwAdvice *)found->pdata[i])->text);
      g_cancellable_cancel (cancellable);
      g_assert_null (hw_advice_find_within (plan, HW_UNIT_MM, 60, cancellable));
    }
}

static GArray *
turned_about (const HwPoint *points, guint n, double degrees)
{
  GArray *turned = g_array_new (FALSE, FALSE, sizeof (HwPoint));

  for (guint i = 0; i < n; i++)
    {
      HwPoint p = hw_point_turn (points[i], degrees);

      g_array_append_val (turned, p);
    }
  return turned;
}

/* In a square hoop a shift turns with the motifs: to each side of the cloth it is as short. */
static void
shifts_turn_with_the_motifs (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  guint found = 0;

  little_hoop (scene, 100, 100, 0, HW_TURN_ANY);
  for (guint round = 0; round < 60; round++)
    {
      HwPoint away = { g_test_rand_double_range (40, 120), g_test_rand_double_range (-20, 20) };
      HwPoint resting[] = { { -30, -10 }, { 0, -30 }, { 30, 0 }, { 0, 30 } }, moving[] = {
        { away.x - 30, away.y }, { away.x, away.y - 20 }, { away.x + 25, away.y }, { away.x, away.y + 20 }
      };
      HwPoint first = { 0, 0 };
      gboolean can = FALSE;

      for (guint quarter = 0; quarter < 4; quarter++)
        {
          g_autoptr (GArray) rest = turned_about (resting, 4, 90 * quarter),
                             move = turned_about (moving, 4, 90 * quarter);
          HwPoint shift = { 0, 0 }, wanted;
          gboolean here = hw_advice_shift (scene, rest, move, 40, HW_UNIT_MM, &shift);

          if (quarter == 0)
            {
              first = shift;
              can = here;
            }
          wanted = hw_point_turn (first, 90 * quarter);
          g_assert_true (here == can);
          g_assert_cmpfloat_with_epsilon (shift.x, wanted.x, 1e-6);
          g_assert_cmpfloat_with_epsilon (shift.y, wanted.y, 1e-6);
        }
      found += can;
    }
  g_assert_cmpuint (found, >, 10);
}

/* Straight along the cloth is easier to do than the shortest way, and costs little more. */
static void
a_shift_goes_straight_along_the_cloth (void)
{
  const double aside[] = { 5, 10, 15, 20, 25, 30 };

  for (guint i = 0; i < G_N_ELEMENTS (aside); i++)
    {
      g_autoptr (HwSnapshot) scene = little_scene (800, 600);
      const HwPoint square[] = { { -20, -20 }, { 20, -20 }, { 20, 20 }, { -20, 20 } };
      g_autoptr (GArray) rest = turned_about (square, 4, 0), move = turned_about (square, 4, 0);
      HwPoint shift = { 0, 0 };

      little_hoop (scene, 100, 100, 0, HW_TURN_ANY);
      for (guint k = 0; k < 4; k++)
        {
          g_array_index (move, HwPoint, k).x += 85;
          g_array_index (move, HwPoint, k).y += aside[i];
        }
      g_assert_true (hw_advice_shift (scene, rest, move, 40, HW_UNIT_MM, &shift));
      g_assert_cmpfloat (shift.x, <, 0);
      g_assert_cmpfloat (shift.y, ==, 0);
    }
}

static guint
count_kind (const HwSnapshot *scene, double seconds, HwAdviceKind kind)
{
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autoptr (GPtrArray) found = hw_advice_find_within (plan, HW_UNIT_MM, seconds, NULL);
  guint n = 0;

  for (guint i = 0; i < found->len; i++)
    n += ((HwAdvice *)found->pdata[i])->kind == kind;
  return n;
}

/* A motif that is locked is neither turned nor made smaller, and one that would have to be next to nothing is not made so. */
static void
what_is_locked_or_hopeless_is_left_alone (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (40000, 40000);
  HwMotif *ladder;

  little_hoop (scene, 104, 104, 2, HW_TURN_QUARTER);
  ladder = little_motif (scene, "Ladder", 110, 20, 20000, 20000);
  g_assert_cmpuint (count_kind (scene, 60, HW_ADVICE_TURN), ==, 1);
  g_assert_cmpuint (count_kind (scene, 60, HW_ADVICE_SCALE), ==, 1);
  ladder->locked = TRUE;
  g_assert_cmpuint (count_kind (scene, 60, HW_ADVICE_TURN), ==, 0);
  g_assert_cmpuint (count_kind (scene, 60, HW_ADVICE_SCALE), ==, 0);
  ladder->locked = FALSE;
  ladder->placement.scale = 200;
  g_assert_cmpuint (count_kind (scene, 60, HW_ADVICE_SCALE), ==, 0);
  ladder->placement.scale = 1;
  ((HwHoop *)hw_snapshot_hoop (scene, 0))->clearance = 60; /* no field at all */
  g_assert_cmpuint (count_kind (scene, 60, HW_ADVICE_TURN), ==, 0);
  g_assert_cmpuint (count_kind (scene, 60, HW_ADVICE_SCALE), ==, 0);
}

static void
without_time_there_is_no_move (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row ();

  g_assert_cmpuint (count_kind (scene, 0, HW_ADVICE_MOVE), ==, 0);
  g_assert_cmpuint (count_kind (scene, -5, HW_ADVICE_MOVE), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/advice-inside/gains", gains_are_said_in_hoopings_or_in_time);
  g_test_add_func ("/advice-inside/worth", a_try_is_worth_what_it_may_take_at_most);
  g_test_add_func ("/advice-inside/trouble", a_try_may_bring_no_new_trouble);
  g_test_add_func ("/advice-inside/hoops", hoops_are_told_the_best_first);
  g_test_add_func ("/advice-inside/shifts", shifts_turn_with_the_motifs);
  g_test_add_func ("/advice-inside/locked", what_is_locked_or_hopeless_is_left_alone);
  g_test_add_func ("/advice-inside/no-time", without_time_there_is_no_move);
  g_test_add_func ("/advice-inside/straight", a_shift_goes_straight_along_the_cloth);
  return g_test_run ();
}

/* The machine's steps that leave the smallest worst error, against every step of a generous window. */
#include "registration/correction-private.h"

#include "readings.h"

static double
worst_with (const HwCorrectionTask *task, const HwRigidFit *exact, HwCorrection steps)
{
  double worst = 0;

  for (guint i = 0; i < task->n_targets; i++)
    {
      HwPoint to = hw_point_turn (task->targets[i], exact->turn);
      HwPoint p = hw_correction_apply (&steps, task->targets[i]);

      worst = MAX (worst, hypot (to.x + exact->shift.x - p.x, to.y + exact->shift.y - p.y));
    }
  return worst;
}

static gboolean
comes_first (double error, HwCorrection a, double best_error, HwCorrection best)
{
  double less_turn = fabs (best.turn) - fabs (a.turn);
  double less_shift = hypot (best.shift.x, best.shift.y) - hypot (a.shift.x, a.shift.y);

  if (fabs (error - best_error) > 1e-9)
    return error < best_error;
  return less_turn > 1e-9 || (less_turn > -1e-9 && less_shift > 1e-9);
}

/* Every turn within `turns` steps of the exact one, every shift within `shifts` steps of the one that suits the targets' mean there. */
static HwCorrection
by_looking_at_all (
    const HwCorrectionTask *task, const HwRigidFit *exact, int turns, int shifts, double *error)
{
  HwCorrection best = { { 0, 0 }, 0 };
  double best_error = INFINITY;

  for (int t = -turns; t <= turns; t++)
    {
      double turn = task->turn_step > 0 ? (round (exact->turn / task->turn_step) + t) * task->turn_step : 0;
      HwPoint mean = { 0, 0 };

      for (guint i = 0; i < task->n_targets; i++)
        {
          HwPoint to = hw_point_turn (task->targets[i], exact->turn);
          HwPoint from = hw_point_turn (task->targets[i], turn);

          mean.x += (to.x + exact->shift.x - from.x) / task->n_targets;
          mean.y += (to.y + exact->shift.y - from.y) / task->n_targets;
        }
      for (int u = -shifts; u <= shifts; u++)
        for (int v = -shifts; v <= shifts; v++)
          {
            HwCorrection steps = { { (round (mean.x / task->shift_step) + u) * task->shift_step,
                                     (round (mean.y / task->shift_step) + v) * task->shift_step },
                                   turn };
            double worst = worst_with (task, exact, steps);

            if (comes_first (worst, steps, best_error, best))
              {
                best = steps;
                best_error = worst;
              }
          }
    }
  *error = best_error;
  return best;
}

/* Of the motifs' middles two lie at least 30 mm apart, so that they tell the turn. */
static guint
scatter_targets (HwPoint *targets, guint most)
{
  guint n = g_test_rand_int_range (2, most + 1);

  do
    for (guint i = 0; i < n; i++)
      targets[i] = point_between (-90, 90);
  while (hw_point_distance (targets[0], targets[1]) < 30);
  return n;
}

static void
assert_best (const HwCorrectionTask *task, const HwRigidFit *exact, int turns, int shifts)
{
  double error;
  HwCorrection chosen = hw_correction_steps (exact, task);
  HwCorrection all = by_looking_at_all (task, exact, turns, shifts, &error);

  g_assert_cmpfloat_with_epsilon (worst_with (task, exact, chosen), error, 1e-8);
  /* Two different choices of one error are possible by chance, yet then neither is better. */
  if (hypot (chosen.shift.x - all.shift.x, chosen.shift.y - all.shift.y) > 1e-9
      || fabs (chosen.turn - all.turn) > 1e-9)
    {
      g_assert_cmpfloat_with_epsilon (fabs (chosen.turn), fabs (all.turn), 1e-9);
      g_assert_cmpfloat_with_epsilon (hypot (chosen.shift.x, chosen.shift.y),
                                      hypot (all.shift.x, all.shift.y), 1e-9);
    }
}

static void
test_no_step_of_a_wide_window_is_better (void)
{
  static const double shift_steps[] = { 0.1, 0.1, 0.25, 0.5, 1 }, turn_steps[] = { 1, 1, 0.5, 0.1, 2.5 };

  for (guint i = 0; i < 400; i++)
    {
      HwPoint targets[6];
      HwCorrectionTask task = { .shift_step = shift_steps[i % 5],
                                .turn_step = turn_steps[i % 5],
                                .targets = targets,
                                .n_targets = scatter_targets (targets, 6) };
      HwRigidFit exact = { between (-9, 9), point_between (-9, 9), 0 };

      /* A turn is worth no more than a shift step at the nearest two targets. */
      assert_best (&task, &exact, 2 + (int)ceil (task.shift_step / 15 * 180 / G_PI / task.turn_step), 14);
    }
}

/* Where the turn asked for falls midway between two steps both are as good for targets alike on both sides, and the smaller one is taken. */
static void
test_of_equal_steps_the_smallest (void)
{
  HwPoint targets[] = { { -50, 0 }, { 50, 0 }, { 0, 50 }, { 0, -50 } };
  HwCorrectionTask task = { .shift_step = 0.1, .turn_step = 1, .targets = targets, .n_targets = 4 };
  HwCorrection up = hw_correction_steps (&(HwRigidFit){ 2.5, { 0, 0 }, 0 }, &task);
  HwCorrection down = hw_correction_steps (&(HwRigidFit){ -2.5, { 0, 0 }, 0 }, &task);
  HwCorrection alone;

  g_assert_cmpfloat (up.turn, ==, 2);
  g_assert_cmpfloat (up.shift.x, ==, 0);
  g_assert_cmpfloat (down.turn, ==, -2);
  g_assert_cmpfloat (down.shift.x, ==, 0);
  task.n_targets = 1;
  alone = hw_correction_steps (&(HwRigidFit){ 0.5, { -0.35, 0.05 }, 0 }, &task);
  g_assert_cmpfloat (alone.turn, ==, 0);
}

/* A single motif has the turn taken that is nearest, and of two as near the smaller, whatever dust the sums leave. */
static void
test_midway_between_two_turns (void)
{
  static const double turns[][2]
      = { { 1.25, 1 }, { -1.25, -1 }, { 1.25 - 2e-11, 1 }, { 1.25 + 2e-11, 1 }, { -1.25 + 2e-11, -1 },
          { 0.25, 0 }, { -0.25, 0 },  { 1.2, 1 },          { 1.3, 1.5 } };
  HwPoint target = { -50, 0 };
  HwCorrectionTask task = { .shift_step = 0.1, .turn_step = 0.5, .targets = &target, .n_targets = 1 };

  for (guint i = 0; i < G_N_ELEMENTS (turns); i++)
    g_assert_cmpfloat (hw_correction_steps (&(HwRigidFit){ turns[i][0], { 0, 0 }, 0 }, &task).turn, ==,
                       turns[i][1]);
}

/* Midway between the steps of the shift, whichever of the four is looked at last. */
static void
test_midway_between_two_shifts (void)
{
  HwPoint target = { -50, 0 };
  HwCorrectionTask task = { .shift_step = 0.1, .turn_step = 0, .targets = &target, .n_targets = 1 };

  for (int u = -1; u <= 1; u += 2)
    for (int v = -1; v <= 1; v += 2)
      {
        HwCorrection chosen = hw_correction_steps (&(HwRigidFit){ 0, { u * 0.35, v * 0.05 }, 0 }, &task);

        g_assert_cmpfloat_with_epsilon (chosen.shift.x, u * 0.3, 1e-12);
        g_assert_cmpfloat_with_epsilon (chosen.shift.y, 0, 1e-12);
      }
}

/* Rounding each number alone is worse for motifs far from the hoop's middle. */
static void
test_better_than_each_rounded_alone (void)
{
  guint better = 0;

  for (guint i = 0; i < 500; i++)
    {
      HwPoint targets[] = { { 50, between (40, 80) }, { 60, between (-10, 30) } };
      HwCorrectionTask task = { .shift_step = 0.1, .turn_step = 1, .targets = targets, .n_targets = 2 };
      HwRigidFit exact = { between (-5, 5), point_between (-5, 5), 0 };
      HwCorrection alone
          = { { round (exact.shift.x * 10) / 10, round (exact.shift.y * 10) / 10 }, round (exact.turn) };
      double rounded = worst_with (&task, &exact, alone);
      double chosen = worst_with (&task, &exact, hw_correction_steps (&exact, &task));

      g_assert_cmpfloat (chosen, <=, rounded + 1e-12);
      better += chosen < rounded / 2;
    }
  g_assert_cmpuint (better, >, 300);
}

/* One motif, or several about one middle: the turn is not spent on hundredths of a millimetre there. */
static void
test_one_motif_keeps_the_turn_nearest (void)
{
  for (guint i = 0; i < 500; i++)
    {
      HwPoint targets[] = { point_between (-90, 90), { 0, 0 } };
      HwCorrectionTask task = { .shift_step = 0.1, .turn_step = 1, .targets = targets, .n_targets = 2 };
      HwRigidFit exact = { between (-9, 9), point_between (-9, 9), 0 };
      HwCorrection chosen;

      targets[1] = (HwPoint){ targets[0].x + between (-4, 4), targets[0].y + between (-4, 4) };
      chosen = hw_correction_steps (&exact, &task);
      g_assert_cmpfloat (fabs (chosen.turn - exact.turn), <=, 0.5 + 1e-9);
      task.n_targets = 1;
      chosen = hw_correction_steps (&exact, &task);
      g_assert_cmpfloat (fabs (chosen.turn - exact.turn), <=, 0.5 + 1e-9);
      /* No place is farther from a grid point than half a diagonal. */
      g_assert_cmpfloat (worst_with (&task, &exact, chosen), <=, 0.1 / G_SQRT2 + 1e-9);
    }
}

static void
test_steps_of_every_size (void)
{
  HwPoint targets[] = { { -50, -20 }, { 40, 30 }, { 10, 60 } };
  static const double steps[] = { 0, 1e-9, 1e-4, 0.001, 0.01, 10, 90 };

  for (guint s = 0; s < G_N_ELEMENTS (steps); s++)
    for (guint t = 0; t < G_N_ELEMENTS (steps); t++)
      {
        HwCorrectionTask task
            = { .shift_step = steps[s], .turn_step = steps[t], .targets = targets, .n_targets = 3 };
        HwRigidFit exact = { -3.37, { 1.234, -4.321 }, 0 };
        HwCorrection chosen = hw_correction_steps (&exact, &task);

        g_assert_true (isfinite (chosen.turn) && isfinite (chosen.shift.x) && isfinite (chosen.shift.y));
        if (steps[t] == 0)
          g_assert_cmpfloat (chosen.turn, ==, 0);
        else if (steps[t] <= 0.01 && steps[s] <= 0.01)
          g_assert_cmpfloat (worst_with (&task, &exact, chosen), <, 0.02);
      }
}

/* Numbers as a person would type them. */
static void
test_steps_are_written_clean (void)
{
  HwPoint targets[] = { { -50, -20 }, { 40, 30 } };
  HwCorrectionTask task = { .shift_step = 0.1, .turn_step = 0.1, .targets = targets, .n_targets = 2 };
  HwCorrection chosen = hw_correction_steps (&(HwRigidFit){ 0.3, { 0.3, -0.7 }, 0 }, &task);

  g_assert_cmpfloat (chosen.turn, ==, 0.3);
  g_assert_cmpfloat (chosen.shift.x, ==, 0.3);
  g_assert_cmpfloat (chosen.shift.y, ==, -0.7);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/correction-steps/no-step-of-a-wide-window-is-better",
                   test_no_step_of_a_wide_window_is_better);
  g_test_add_func ("/registration/correction-steps/of-equal-steps-the-smallest",
                   test_of_equal_steps_the_smallest);
  g_test_add_func ("/registration/correction-steps/midway-between-two-turns", test_midway_between_two_turns);
  g_test_add_func ("/registration/correction-steps/midway-between-two-shifts",
                   test_midway_between_two_shifts);
  g_test_add_func ("/registration/correction-steps/better-than-each-rounded-alone",
                   test_better_than_each_rounded_alone);
  g_test_add_func ("/registration/correction-steps/one-motif-keeps-the-turn-nearest",
                   test_one_motif_keeps_the_turn_nearest);
  g_test_add_func ("/registration/correction-steps/steps-of-every-size", test_steps_of_every_size);
  g_test_add_func ("/registration/correction-steps/steps-are-written-clean", test_steps_are_written_clean);
  return g_test_run ();
}

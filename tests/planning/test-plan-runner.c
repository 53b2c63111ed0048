/* The runner: the newest question wins, answers come on the main context and in order. */
#include "random-scenes.h"

#include "../../src/planning/plan-runner.h"

typedef struct
{
  GMainLoop *loop;
  const HwSnapshot *newest;
  guint plans, last_plans, wrong, after_last;
  GThread *thread;
} Watch;

static void
planned_cb (HwPlanRunner *runner, gpointer data, gboolean last, Watch *watch)
{
  const HwPlan *plan = data;

  g_assert_true (g_thread_self () == watch->thread);
  g_assert_true (hw_plan_verify (plan, NULL));
  watch->plans++;
  watch->wrong += !hw_snapshot_equal (plan->snapshot, watch->newest);
  watch->after_last += watch->last_plans > 0;
  watch->last_plans += last;
  g_assert_cmpint (hw_plan_runner_is_busy (runner), ==, !last);
  if (last)
    g_main_loop_quit (watch->loop);
}

static void
newest_question_wins (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_autoptr (GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autoptr (HwPlanRunner) runner = hw_plan_runner_new ();
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 60, 1.5);
  Watch watch = { .loop = loop, .thread = g_thread_self () };
  const HwPlanOptions options = { .seconds = 0.3, .unit = HW_UNIT_MM };

  g_signal_connect (runner, "planned", G_CALLBACK (planned_cb), &watch);
  g_assert_false (hw_plan_runner_is_busy (runner));
  for (guint k = 0; k < 30; k++)
    {
      HwSnapshot *next = scene_moved (scene, k, 3, 0);

      hw_snapshot_unref (scene);
      scene = next;
      watch.newest = scene;
      hw_plan_runner_ask (runner, scene, &options);
      g_assert_true (hw_plan_runner_is_busy (runner));
      g_usleep (k % 3 * 4000);
      while (g_main_context_iteration (NULL, FALSE))
        ;
    }
  g_main_loop_run (loop);
  g_assert_cmpuint (watch.last_plans, ==, 1);
  g_assert_cmpuint (watch.wrong, ==, 0);
  g_assert_cmpuint (watch.after_last, ==, 0);
  g_assert_cmpuint (watch.plans, >=, 1);
}

static void
runner_may_go_while_it_works (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6);
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 150, 1.5);
  gint64 start = g_get_monotonic_time ();

  for (guint k = 0; k < 3; k++)
    {
      HwPlanRunner *runner = hw_plan_runner_new ();

      hw_plan_runner_ask (runner, scene, &(HwPlanOptions){ .seconds = 30 });
      g_usleep (k * 15000);
      g_object_unref (runner);
      while (g_main_context_iteration (NULL, FALSE))
        ;
    }
  g_assert_cmpint (g_get_monotonic_time () - start, <, 10 * G_USEC_PER_SEC);
}

static void
busy_cb (GObject *object, GParamSpec *pspec, gpointer data)
{
  guint *notes = data;

  (*notes)++;
}

static void
busy_is_told (void)
{
  g_autoptr (GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autoptr (HwPlanRunner) runner = hw_plan_runner_new ();
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  Watch watch = { .loop = loop, .thread = g_thread_self (), .newest = scene };
  guint notes = 0;

  g_signal_connect (runner, "planned", G_CALLBACK (planned_cb), &watch);
  g_signal_connect (runner, "notify::busy", G_CALLBACK (busy_cb), &notes);
  hw_plan_runner_ask (runner, scene, NULL);
  g_main_loop_run (loop);
  g_assert_cmpuint (notes, ==, 2);
}

static void
keep_cb (HwPlanRunner *runner, gpointer data, gboolean last, HwPlan **kept)
{
  g_clear_pointer (kept, hw_plan_unref);
  *kept = hw_plan_ref (data);
}

static void
plan_of (HwPlanRunner *runner, const HwSnapshot *scene, const HwPlanOptions *options)
{
  hw_plan_runner_ask (runner, scene, options);
  while (hw_plan_runner_is_busy (runner))
    g_main_context_iteration (NULL, TRUE);
}

static void
another_scene_is_planned_as_by_a_new_planner (void)
{
  g_autoptr (HwPlanRunner) runner = hw_plan_runner_new ();
  g_autoptr (HwPlan) kept = NULL;
  const HwPlanOptions options = { .seconds = 0.3, .unit = HW_UNIT_MM };

  g_signal_connect (runner, "planned", G_CALLBACK (keep_cb), &kept);
  for (guint32 seed = 1; seed <= 12; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HwSnapshot) before = hw_snapshot_new ();
      g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_OBLIQUE, 12, 1.5);
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      g_autoptr (HwPlan) plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);

      hw_plan_runner_begin_anew (runner);
      plan_of (runner, before, &options);
      hw_plan_runner_begin_anew (runner);
      plan_of (runner, scene, &options);
      g_assert_cmpuint (kept->n_hoopings, ==, plan->n_hoopings);
      for (guint h = 0; h < plan->n_hoopings; h++)
        g_assert_cmpmem (kept->hoopings[h].motifs, kept->hoopings[h].n_motifs * sizeof (guint),
                         plan->hoopings[h].motifs, plan->hoopings[h].n_motifs * sizeof (guint));
    }
}

/* An answer that lies ready but was not fetched yet when the next question is asked, or when the runner goes, is nobody's any more. */
static void
answers_that_lie_ready_too_late_are_not_told (void)
{
  g_autoptr (GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autoptr (HwSnapshot) first = hw_snapshot_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (HwSnapshot) second = scene_random (rand, SCENE_WALL, 3, 1.5);
  HwPlanRunner *runner = hw_plan_runner_new (), *idle = hw_plan_runner_new ();
  Watch watch = { .loop = loop, .thread = g_thread_self (), .newest = second };
  gboolean busy = TRUE;

  g_signal_connect (runner, "planned", G_CALLBACK (planned_cb), &watch);
  g_object_get (runner, "busy", &busy, NULL);
  g_assert_false (busy);
  hw_plan_runner_ask (runner, first, NULL);
  g_object_get (runner, "busy", &busy, NULL);
  g_assert_true (busy);
  g_usleep (G_USEC_PER_SEC / 4); /* an empty scene is planned long before */
  hw_plan_runner_ask (runner, second, NULL);
  g_main_loop_run (loop);
  g_assert_cmpuint (watch.wrong, ==, 0);
  g_assert_cmpuint (watch.last_plans, ==, 1);
  watch.plans = 0;
  hw_plan_runner_ask (runner, first, NULL);
  g_usleep (G_USEC_PER_SEC / 4);
  g_object_unref (runner);
  g_object_unref (idle); /* and one that was never asked anything goes too */
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_cmpuint (watch.plans, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan-runner/newest-question-wins", newest_question_wins);
  g_test_add_func ("/plan-runner/runner-may-go-while-it-works", runner_may_go_while_it_works);
  g_test_add_func ("/plan-runner/busy-is-told", busy_is_told);
  g_test_add_func ("/plan-runner/too-late", answers_that_lie_ready_too_late_are_not_told);
  g_test_add_func ("/plan-runner/another-scene-is-planned-as-by-a-new-planner",
                   another_scene_is_planned_as_by_a_new_planner);
  return g_test_run ();
}

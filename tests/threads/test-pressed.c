/* The planner's thread under pressure: asked, asked again while it works, begun anew, dropped at any moment, some thousand times. */
#include "../planning/random-scenes.h"

#include "../../src/planning/plan-runner.h"

#define QUESTIONS 3000

typedef struct
{
  GMainLoop *loop;
  HwPlan *kept; /* read long after the runner has gone on */
  guint plans, answered;
} Desk;

static void
planned_cb (HwPlanRunner *runner, gpointer data, gboolean last, Desk *desk)
{
  const HwPlan *plan = data;

  g_assert_true (hw_plan_verify (plan, NULL));
  g_clear_pointer (&desk->kept, hw_plan_unref);
  desk->kept = hw_plan_ref (plan);
  desk->plans++;
  desk->answered += last;
  if (last)
    g_main_loop_quit (desk->loop);
}

static HwPlanRunner *
runner_for (Desk *desk)
{
  HwPlanRunner *runner = hw_plan_runner_new ();

  g_signal_connect (runner, "planned", G_CALLBACK (planned_cb), desk);
  return runner;
}

static void
turn_of_the_loop (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static void
test_asked_and_dropped (void)
{
  const HwPlanOptions options = { .seconds = 0.02, .unit = HW_UNIT_MM };
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  g_autoptr (GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 12, 1.5);
  Desk desk = { .loop = loop };
  g_autoptr (HwPlanRunner) runner = runner_for (&desk);

  for (guint k = 0; k < QUESTIONS; k++)
    {
      HwSnapshot *next = scene_moved (scene, k % 12, g_rand_double_range (rand, -2, 2), 0);

      hw_snapshot_unref (scene);
      scene = next;
      if (k % 40 == 39)
        hw_plan_runner_begin_anew (runner);
      hw_plan_runner_ask (runner, scene, &options);
      if (g_rand_int_range (rand, 0, 3) == 0)
        g_usleep (g_rand_int_range (rand, 0, 3000));
      if (g_rand_int_range (rand, 0, 8) == 0)
        g_main_loop_run (loop);
      turn_of_the_loop ();
      if (k % 60 == 59)
        {
          g_object_unref (runner);
          turn_of_the_loop ();
          runner = runner_for (&desk);
        }
    }
  desk.answered = 0;
  hw_plan_runner_ask (runner, scene, &options);
  while (desk.answered == 0)
    g_main_loop_run (loop);
  g_assert_true (hw_snapshot_equal (desk.kept->snapshot, scene));
  g_assert_cmpuint (desk.plans, >, 0);
  g_test_message ("%u plans came back of %u questions", desk.plans, QUESTIONS);
  hw_plan_unref (desk.kept);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/threads/pressed/asked-and-dropped", test_asked_and_dropped);
  return g_test_run ();
}

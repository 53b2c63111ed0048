/* The bench's properties say what its functions say, and what is set through one is heard by who listens. */
#include "bench-fixture.h"

static HwBench *
planned_bench (void)
{
  HwBench *bench = bench_with_orchard ();

  wait_for_plan (bench);
  return bench;
}

static void
properties_say_what_functions_say (void)
{
  g_autoptr (HwBench) bench = planned_bench ();
  g_autoptr (HwScene) scene = NULL;
  g_autofree char *path = NULL, *undo = NULL, *redo = NULL;
  gpointer plan = NULL;
  int unit = -1, chosen = 0, stage = 0;
  gboolean modified = FALSE, reading = TRUE, planning = TRUE;

  hw_bench_select_only (bench, "m3");
  hw_bench_nudge (bench, 5, 0);
  hw_bench_mirror (bench);
  hw_bench_undo (bench);
  wait_for_plan (bench);
  g_object_get (bench, "scene", &scene, "plan", &plan, "unit", &unit, "chosen-hooping", &chosen, "stage",
                &stage, "modified", &modified, "path", &path, "undo-name", &undo, "redo-name", &redo,
                "reading", &reading, "planning", &planning, NULL);
  g_assert_true (scene == hw_bench_get_scene (bench));
  g_assert_true (plan == hw_bench_get_plan (bench));
  g_assert_cmpint (unit, ==, (int)hw_bench_get_unit (bench));
  g_assert_cmpint (chosen, ==, hw_bench_get_chosen_hooping (bench));
  g_assert_cmpint (stage, ==, hw_bench_get_stage (bench));
  g_assert_true (modified);
  g_assert_null (path);
  g_assert_cmpstr (undo, ==, "move Quince");
  g_assert_cmpstr (redo, ==, "mirror Quince");
  g_assert_false (reading);
  g_assert_false (planning);
}

static void
count_cb (GObject *object, GParamSpec *pspec, guint *heard)
{
  (*heard)++;
}

static void
what_is_set_is_heard (void)
{
  g_autoptr (HwBench) bench = planned_bench ();
  guint heard[3] = { 0 };

  g_signal_connect (bench, "notify::unit", G_CALLBACK (count_cb), &heard[0]);
  g_signal_connect (bench, "notify::chosen-hooping", G_CALLBACK (count_cb), &heard[1]);
  g_signal_connect (bench, "notify::stage", G_CALLBACK (count_cb), &heard[2]);
  for (guint twice = 0; twice < 2; twice++) /* the second time nothing changes */
    g_object_set (bench, "unit", (int)HW_UNIT_INCH, "chosen-hooping", 1, "stage", 1, NULL);
  g_assert_cmpint (hw_bench_get_unit (bench), ==, HW_UNIT_INCH);
  g_assert_cmpint (hw_bench_get_chosen_hooping (bench), ==, 1);
  g_assert_cmpint (hw_bench_get_stage (bench), ==, 1);
  g_assert_cmpuint (heard[0], ==, 1);
  g_assert_cmpuint (heard[1], ==, 1);
  g_assert_cmpuint (heard[2], ==, 1);
}

/* With two hoopings the cloth is finished at 2; a plan of one leaves nothing beyond it. */
static void
the_stage_goes_no_further_than_the_plan (void)
{
  g_autoptr (HwBench) bench = planned_bench ();

  g_assert_cmpuint (hw_bench_get_plan (bench)->n_hoopings, ==, 2);
  hw_bench_set_stage (bench, 2);
  hw_bench_select_only (bench, "m3");
  hw_bench_delete (bench);
  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->n_hoopings, ==, 1);
  g_assert_cmpint (hw_bench_get_stage (bench), ==, 1); /* finished before, finished now */
}

static gint64
noon (gpointer data)
{
  return 1764072000; /* 2025-11-25 12:00 UTC */
}

static gint64
last_time (HwBench *bench)
{
  GPtrArray *log = hw_scene_get_log (hw_bench_get_scene (bench));

  return ((const HwLogLine *)log->pdata[log->len - 1])->at;
}

static void
without_a_clock_of_its_own_the_computers_is_taken (void)
{
  g_autoptr (HwBench) bench = planned_bench ();
  gint64 before = g_get_real_time () / G_USEC_PER_SEC;

  hw_bench_set_clock (bench, noon, NULL);
  g_assert_true (hw_bench_begin_hooping (bench, 0));
  g_assert_cmpint (last_time (bench), ==, 1764072000);
  hw_bench_set_clock (bench, NULL, NULL);
  hw_bench_lay_aside (bench);
  g_assert_cmpint (last_time (bench), >=, before);
  g_assert_cmpint (last_time (bench), <=, g_get_real_time () / G_USEC_PER_SEC);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/bench-properties/" name, function)
  ADD ("say-what-functions-say", properties_say_what_functions_say);
  ADD ("set-and-heard", what_is_set_is_heard);
  ADD ("the-stage", the_stage_goes_no_further_than_the_plan);
  ADD ("the-clock", without_a_clock_of_its_own_the_computers_is_taken);
  return g_test_run ();
}

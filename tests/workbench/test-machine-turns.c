/* Threads of neighbours that take turns: what is laid out at the machine is the order that the hooping was begun with, in every plan made after it too, and motif
 * by motif where it no longer holds. */
#include "bench-fixture.h"
#include "workbench/machine-work.h"

/* Pear and Plum, each in rust and then in slate. */
static HwBench *
bench_with_turns (gboolean turns)
{
  HwBench *bench = bench_with_orchard ();
  const HwThreadBlock threads[]
      = { { .name = (char *)"rust", .colour = { 0.6, 0.2, 0.1 }, .stitches = 900 },
          { .name = (char *)"slate", .colour = { 0.2, 0.3, 0.4 }, .stitches = 900 } };
  g_autoptr (HwSnapshot) scene = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_autoptr (HwSnapshot) both = hw_snapshot_new ();

  g_ptr_array_add (both->hoops, hw_hoop_copy (g_ptr_array_index (scene->hoops, 0)));
  g_ptr_array_add (both->motifs, orchard_motif ("m1", "Pear", 100, 100));
  g_ptr_array_add (both->motifs, orchard_motif ("m2", "Plum", 150, 100));
  for (guint i = 0; i < 2; i++)
    hw_motif_set_threads (g_ptr_array_index (both->motifs, i), threads, 2);
  hw_bench_start_new (bench, both);
  if (turns)
    hw_bench_set_interleave (bench, TRUE);
  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->n_hoopings, ==, 1);
  g_assert_true (hw_bench_begin_hooping (bench, 0));
  wait_for_plan (bench);
  return bench;
}

/* "rust rust slate slate" */
static char *
laid_out (HwBench *bench)
{
  g_autoptr (HwMachineWork) work = hw_machine_work_new (bench);
  GString *names = g_string_new (NULL);
  const HwThreadBlock *thread;

  g_assert_nonnull (work);
  for (guint i = 0; (thread = hw_machine_work_thread (work, i, NULL)) != NULL; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? " " : "", thread->name);
  return g_string_free (names, FALSE);
}

static void
threads_are_laid_out_in_turns (void)
{
  g_autoptr (HwBench) bench = bench_with_turns (TRUE);
  g_autofree char *order = laid_out (bench);

  g_assert_cmpuint (hw_bench_get_plan (bench)->hoopings[0].n_steps, ==, 4);
  g_assert_cmpstr (order, ==, "rust rust slate slate");
}

static void
without_the_wish_motif_by_motif (void)
{
  g_autoptr (HwBench) bench = bench_with_turns (FALSE);
  g_autofree char *order = laid_out (bench);

  g_assert_cmpstr (order, ==, "rust slate rust slate");
}

/* "Pear rust, Plum rust": what the plan says of the hooping in the machine. */
static char *
planned (HwBench *bench)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  g_autoptr (GArray) steps = hw_plan_steps (plan, (guint)hw_bench_get_begun_hooping (bench));
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);

      g_string_append_printf (names, "%s%s", i > 0 ? " " : "",
                              hw_snapshot_motif (plan->snapshot, step->motif)->threads[step->block].name);
    }
  return g_string_free (names, FALSE);
}

static void
assert_both (HwBench *bench, const char *order)
{
  g_autofree char *at_machine = laid_out (bench);
  g_autofree char *in_plan = planned (bench);

  g_assert_cmpstr (at_machine, ==, order);
  g_assert_cmpstr (in_plan, ==, order);
}

/* Plum in moss and then in Pear's rust. */
static void
thread_plum_anew (HwBench *bench)
{
  HwSceneMotif *plum = hw_scene_find_motif (hw_bench_get_scene (bench), "m2");
  const HwThreadBlock threads[]
      = { { .name = (char *)"moss", .colour = { 0.3, 0.4, 0.2 }, .stitches = 900 },
          { .name = (char *)"rust", .colour = { 0.6, 0.2, 0.1 }, .stitches = 900 } };
  g_autoptr (HwMotif) copy = hw_motif_copy (hw_scene_motif_get_record (plum));

  hw_motif_set_threads (copy, threads, 2);
  hw_bench_begin_edit (bench, "other threads", FALSE);
  hw_scene_motif_set_record (plum, copy);
  g_assert_true (hw_bench_end_edit (bench));
  wait_for_plan (bench);
}

static void
the_wish_taken_back_leaves_the_turns_that_were_begun (void)
{
  g_autoptr (HwBench) bench = bench_with_turns (TRUE);

  hw_bench_set_interleave (bench, FALSE);
  wait_for_plan (bench);
  assert_both (bench, "rust rust slate slate");
}

static void
the_wish_made_later_brings_no_turns (void)
{
  g_autoptr (HwBench) bench = bench_with_turns (FALSE);

  hw_bench_set_interleave (bench, TRUE);
  wait_for_plan (bench);
  assert_both (bench, "rust slate rust slate");
}

/* Plum first would save a change by then; laid aside and begun again it does. */
static void
an_edit_leaves_the_order_and_what_is_done (void)
{
  g_autoptr (HwBench) bench = bench_with_turns (FALSE);
  const HwPin *pin;

  hw_bench_thread_done (bench, 4, "m1", "rust");
  thread_plum_anew (bench);
  assert_both (bench, "rust slate moss rust");
  pin = hw_bench_get_begun (bench);
  g_assert_cmpuint (pin->work->threads_done, ==, 1);
  hw_bench_lay_aside (bench);
  wait_for_plan (bench);
  g_assert_true (hw_bench_begin_hooping (bench, 0));
  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->thread_changes, ==, 2);
  assert_both (bench, "moss rust rust slate");
}

/* Pear goes off the cloth when its rust and Plum's are done: of Plum one of two is. */
static void
a_motif_that_goes_takes_what_it_has_done_along (void)
{
  g_autoptr (HwBench) bench = bench_with_turns (TRUE);

  hw_bench_thread_done (bench, 4, "m1", "rust");
  hw_bench_thread_done (bench, 4, "m2", "rust");
  hw_bench_begin_edit (bench, "take Pear off", FALSE);
  g_assert_true (hw_scene_remove_motif (hw_bench_get_scene (bench),
                                        hw_scene_find_motif (hw_bench_get_scene (bench), "m1")));
  g_assert_true (hw_bench_end_edit (bench));
  wait_for_plan (bench);
  assert_both (bench, "rust slate");
  g_assert_cmpuint (hw_bench_get_begun (bench)->work->threads_done, ==, 1);
  hw_bench_undo (bench);
  wait_for_plan (bench);
  assert_both (bench, "rust rust slate slate");
  g_assert_cmpuint (hw_bench_get_begun (bench)->work->threads_done, ==, 2);
}

/* Stitched, taken back into the machine: still in turns. */
static void
turns_outlast_being_stitched (void)
{
  g_autoptr (HwBench) bench = bench_with_turns (TRUE);

  g_assert_true (hw_bench_stitched (bench));
  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->thread_changes, ==, 1);
  hw_bench_set_interleave (bench, FALSE);
  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->thread_changes, ==, 1);
  g_assert_true (hw_bench_take_back (bench));
  wait_for_plan (bench);
  assert_both (bench, "rust rust slate slate");
}

/* Until the plan is made anew, the order of one that knew more threads is not followed past them. */
static void
a_thread_that_is_gone_ends_the_turns (void)
{
  g_autoptr (HwBench) bench = bench_with_turns (TRUE);
  const HwThreadBlock rust = { .name = (char *)"rust", .colour = { 0.6, 0.2, 0.1 }, .stitches = 900 };
  g_autofree char *order = NULL;

  HwSceneMotif *plum = hw_scene_find_motif (hw_bench_get_scene (bench), "m2");
  g_autoptr (HwMotif) copy = hw_motif_copy (hw_scene_motif_get_record (plum));
  hw_motif_set_threads (copy, &rust, 1);
  hw_bench_begin_edit (bench, "fewer threads", FALSE);
  hw_scene_motif_set_record (plum, copy);
  g_assert_true (hw_bench_end_edit (bench));
  order = laid_out (bench);
  g_assert_cmpstr (order, ==, "rust slate rust");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/machine-turns/threads_are_laid_out_in_turns", threads_are_laid_out_in_turns);
  g_test_add_func ("/machine-turns/without_the_wish_motif_by_motif", without_the_wish_motif_by_motif);
  g_test_add_func ("/machine-turns/the_wish_taken_back",
                   the_wish_taken_back_leaves_the_turns_that_were_begun);
  g_test_add_func ("/machine-turns/the_wish_made_later", the_wish_made_later_brings_no_turns);
  g_test_add_func ("/machine-turns/an_edit", an_edit_leaves_the_order_and_what_is_done);
  g_test_add_func ("/machine-turns/a_motif_that_goes", a_motif_that_goes_takes_what_it_has_done_along);
  g_test_add_func ("/machine-turns/stitched_and_taken_back", turns_outlast_being_stitched);
  g_test_add_func ("/machine-turns/a_thread_that_is_gone_ends_the_turns",
                   a_thread_that_is_gone_ends_the_turns);
  return g_test_run ();
}

/* Threads of neighbours that take turns: what is laid out at the machine is the order that the plan has, and motif by motif where it no longer holds. */
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
  g_test_add_func ("/machine-turns/a_thread_that_is_gone_ends_the_turns",
                   a_thread_that_is_gone_ends_the_turns);
  return g_test_run ();
}

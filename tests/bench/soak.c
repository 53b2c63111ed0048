/* Days of use in minutes: a scene is edited, planned, undone, redone, saved and opened again, over and over, with a hooping begun and laid aside now and
 * then on the first part of the way. Memory and the time of a step are told for each tenth of the way; it ends with 1 when memory still grows or steps get slower.
 *
 * soak [SCENE [STEPS [SEED]]]   (the scene named, or none: a small orchard; 20,000 steps; only memory is judged below 5,000) */
#include <stdlib.h>

#include <glib/gstdio.h>

#include "../../src/workbench/bench.h"
#include "../workbench/bench-fixture.h"
#include "../workbench/tenths.h"

#define WAIT_EVERY 7 /* steps: in between, a plan is overtaken by the next edit */
#define SAVE_EVERY 50
#define REOPEN_EVERY 500
#define LEAST_TIMED 5000

static void
select_one (HwBench *bench, GRand *rand)
{
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (bench));
  g_autoptr (HwSceneMotif) motif = NULL;
  guint n = g_list_model_get_n_items (motifs);

  if (n == 0)
    return;
  motif = g_list_model_get_item (motifs, (guint)g_rand_int_range (rand, 0, (gint)n));
  hw_bench_select_only (bench, hw_scene_motif_get_record (motif)->id);
}

/* A drag: many placements, one step. */
static void
drag (HwBench *bench, GRand *rand)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  HwSceneMotif *motif;
  HwPlacement placement;

  if (selection->len == 0)
    return;
  motif = g_ptr_array_index (selection, 0);
  placement = hw_scene_motif_get_record (motif)->placement;
  hw_bench_begin_edit (bench, "move", FALSE);
  for (guint i = 0; i < 5; i++)
    {
      placement.position.x += g_rand_double_range (rand, -4, 4);
      placement.position.y += g_rand_double_range (rand, -4, 4);
      hw_scene_motif_set_placement (motif, &placement);
      g_main_context_iteration (NULL, FALSE);
    }
  if (g_rand_int_range (rand, 0, 5) == 0)
    hw_bench_cancel_edit (bench);
  else
    hw_bench_end_edit (bench);
}

static guint
count_motifs (HwBench *bench)
{
  return g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (bench)));
}

/* Copies that an undo brought back go again: the scene keeps its size, so that what grows is not the scene. */
static void
keep_size (HwBench *bench, guint most)
{
  while (count_motifs (bench) > most)
    {
      GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (bench));
      g_autoptr (HwSceneMotif) last = g_list_model_get_item (motifs, count_motifs (bench) - 1);

      hw_bench_select_only (bench, hw_scene_motif_get_record (last)->id);
      hw_bench_delete (bench);
    }
}

static void
work_a_little (HwBench *bench)
{
  wait_for_plan (bench);
  if (hw_bench_get_plan (bench)->n_hoopings == 0 || !hw_bench_begin_hooping (bench, 0))
    return;
  hw_bench_go_to_step (bench, HW_WORK_READ);
  hw_bench_note_step (bench, HW_WORK_READ, "A little slack in one corner.");
  hw_bench_lay_aside (bench);
}

static void
step (HwBench *bench, GRand *rand)
{
  switch (g_rand_int_range (rand, 0, 12))
    {
    case 0:
    case 1:
      hw_bench_nudge (bench, g_rand_double_range (rand, -2, 2), g_rand_double_range (rand, -2, 2));
      break;
    case 2:
    case 3:
      drag (bench, rand);
      break;
    case 4:
      hw_bench_bring_forward (bench);
      break;
    case 5:
      hw_bench_send_back (bench);
      break;
    case 6:
      hw_bench_mirror (bench);
      break;
    case 7:
      hw_bench_duplicate (bench);
      break;
    case 8:
    case 9:
      hw_bench_undo (bench);
      break;
    case 10:
      hw_bench_redo (bench);
      break;
    default:
      select_one (bench, rand);
      break;
    }
  while (g_main_context_iteration (NULL, FALSE))
    continue;
}

/* The log of the days is kept for good, so what is written into it grows the scene: it is written to only on the first part of the way. */
static void
save_or_open (HwBench *bench, const char *path, guint done, gboolean works)
{
  g_autoptr (GError) error = NULL;

  if (done % REOPEN_EVERY == 0)
    {
      if (works)
        work_a_little (bench);
      hw_bench_save (bench, path, &error);
      g_assert_no_error (error);
      hw_bench_open (bench, path, &error);
    }
  else if (done % SAVE_EVERY == 0)
    hw_bench_save (bench, path, &error);
  g_assert_no_error (error);
}

static void
run (HwBench *bench, const char *path, guint steps, GRand *rand, Tenths *told)
{
  guint done = 0, most = count_motifs (bench);

  select_one (bench, rand);
  for (guint tenth = 0; tenth < TENTHS; tenth++)
    {
      double began = tenths_cpu_ms ();

      for (guint i = 0; i < steps / TENTHS; i++)
        {
          step (bench, rand);
          keep_size (bench, most);
          done++;
          save_or_open (bench, path, done, tenth < 3);
          if (done % WAIT_EVERY == 0)
            wait_for_plan (bench);
        }
      wait_for_plan (bench);
      tenths_note (told, tenth, began, steps / TENTHS);
    }
}

int
main (int argc, char **argv)
{
  const char *scene = argc > 1 && *argv[1] != '\0' ? argv[1] : NULL;
  guint steps = argc > 2 ? (guint)atoi (argv[2]) : 20000;
  g_autoptr (GRand) rand = g_rand_new_with_seed (argc > 3 ? (guint32)atoi (argv[3]) : 20261126);
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-soak-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "soak.hoopscene", NULL);
  g_autofree char *states = g_build_filename (folder, "state", NULL);
  g_autofree char *remove = g_strdup_printf ("rm -r '%s'", folder);
  g_autoptr (HwBench) bench = NULL;
  g_autoptr (GError) error = NULL;
  Tenths told;
  gboolean good;

  g_assert_nonnull (folder);
  g_assert_cmpuint (steps, >=, TENTHS);
  g_setenv ("XDG_STATE_HOME", states, TRUE);
  bench = scene != NULL ? hw_bench_new () : bench_with_orchard ();
  if (scene != NULL)
    hw_bench_open_copy (bench, scene, &error);
  g_assert_no_error (error);
  g_print ("# %u steps in %s\n", steps, scene != NULL ? scene : "a small orchard");
  run (bench, path, steps, rand, &told);
  good = tenths_judge (&told, steps >= LEAST_TIMED);
  if (system (remove) != 0)
    g_printerr ("%s was left\n", folder);
  return good ? 0 : 1;
}

/* Days of use in minutes: a scene is edited, planned, undone, redone, saved and opened again, over and over, with a hooping begun and laid aside now and
 * then on the first part of the way. Memory and the time of a step are told for each tenth of the way; it ends with 1 when memory still grows or steps get slower.
 *
 * soak [SCENE [STEPS [SEED]]]   (the scene named, or none: a small orchard; 20,000 steps; only memory is judged below 5,000) */
#include <malloc.h>
#include <stdlib.h>
#include <time.h>

#include <glib/gstdio.h>

#include "../../src/workbench/bench.h"
#include "../workbench/bench-fixture.h"

#define TENTHS 10
#define WAIT_EVERY 7 /* steps: in between, a plan is overtaken by the next edit */
#define SAVE_EVERY 50
#define REOPEN_EVERY 500
#define LEAST_TIMED 5000
#define MOST_GROWN 1.05 /* of the bytes in use, from the third tenth on: the history is full by then */
#define MOST_SLOWED 1.5
#define SLACK (2 << 20) /* bytes: what a single plan more or less takes */

static double
cpu_ms (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return now.tv_sec * 1e3 + now.tv_nsec / 1e6;
}

/* Bytes in use, not what the allocator keeps for later. */
static gsize
bytes_in_use (void)
{
  struct mallinfo2 info = mallinfo2 ();

  return info.uordblks + info.hblkhd;
}

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

typedef struct
{
  double ms[TENTHS];
  gsize bytes[TENTHS];
} Told;

static void
run (HwBench *bench, const char *path, guint steps, GRand *rand, Told *told)
{
  guint done = 0, most = count_motifs (bench);

  select_one (bench, rand);
  for (guint tenth = 0; tenth < TENTHS; tenth++)
    {
      double began = cpu_ms ();

      for (guint i = 0; i < steps / TENTHS; i++)
        {
          step (bench, rand);
          keep_size (bench, most);
          done++;
          save_or_open (bench, path, done, tenth < 3);
          if (done % WAIT_EVERY == 0)
            wait_for_plan (bench);
        }
      told->ms[tenth] = (cpu_ms () - began) / (steps / TENTHS);
      wait_for_plan (bench);
      told->bytes[tenth] = bytes_in_use ();
      g_print ("# %3u %%: %6.2f ms of CPU a step, %7.2f MB in use\n", (tenth + 1) * 10, told->ms[tenth],
               (double)told->bytes[tenth] / (1 << 20));
    }
}

static gboolean
judge (const Told *told, guint steps)
{
  gsize early = MAX (told->bytes[2], told->bytes[3]), late = MIN (told->bytes[8], told->bytes[9]);
  double quick = MIN (told->ms[2], told->ms[3]), slow = MIN (told->ms[8], told->ms[9]);
  gboolean flat = (double)late <= (double)early * MOST_GROWN + SLACK;
  gboolean steady = steps < LEAST_TIMED || slow <= quick * MOST_SLOWED;

  g_print ("%sok 1 - memory stays as it is\n", flat ? "" : "not ");
  if (steps >= LEAST_TIMED)
    g_print ("%sok 2 - steps take no longer\n", steady ? "" : "not ");
  g_print ("1..%d\n", steps >= LEAST_TIMED ? 2 : 1);
  return flat && steady;
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
  Told told;
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
  good = judge (&told, steps);
  if (system (remove) != 0)
    g_printerr ("%s was left\n", folder);
  return good ? 0 : 1;
}

/* Small requests that fail are GLib's own affair and always end the program: what is then left of the unsaved work. */
#include "../workbench/bench-fixture.h"
#include "../folders.h"
#include "formats/kept-work.h"
#include "memory-runs.h"
#include "memory.h"
#include "workbench/work-keeper.h"

#include <unistd.h>

static guint
left_at (const MemoryDesk *desk, double *x)
{
  g_autoptr (GPtrArray) left = hw_left_work_list (desk->work);
  g_autoptr (HwSnapshot) scene = NULL;

  if (left->len == 0)
    return 0;
  scene = hw_left_work_read (left->pdata[0], NULL);
  g_assert_nonnull (scene);
  *x = hw_snapshot_motif (scene, 0)->placement.position.x;
  return left->len;
}

static gboolean
is_kept (const MemoryDesk *desk)
{
  g_autoptr (GDir) dir = g_dir_open (desk->work, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".hoopwork"))
      return TRUE;
  return FALSE;
}

static gboolean
over_cb (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
run_for (guint ms)
{
  gboolean over = FALSE;

  g_timeout_add (ms, over_cb, &over);
  while (!over)
    g_main_context_iteration (NULL, TRUE);
}

/* Moves a motif to 110, waits until that is kept, moves it to 120, and is then short of memory for good. */
static void
work_until_the_end (const MemoryDesk *desk, guint request)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwWorkKeeper *keeper = hw_work_keeper_new (bench, desk->work, 0.02, NULL, NULL);

  hw_bench_select_only (bench, "m1");
  hw_bench_nudge (bench, 10, 0);
  while (!is_kept (desk))
    run_for (5);
  run_for (50); /* the thread that wrote has ended */
  hw_bench_nudge (bench, 10, 0);
  memory_arm (MEMORY_FROM_THEN_ON, request, 1);
  run_for (2000);
  hw_work_keeper_free (keeper, FALSE);
  _exit (WENT_WELL);
}

/* However far it comes with what it was about to keep, what was kept before is there. */
static void
an_end_for_want_of_memory_loses_the_last_interval_at_most (void)
{
  static const guint requests[] = { 1, 2, 5, 10, 20, 40, 80, 120, 160, 200, 250, 300, 400, 600, 900 };
  MemoryDesk *desk = memory_desk_new ();
  guint ended = 0, newest = 0;

  for (guint i = 0; i < G_N_ELEMENTS (requests); i++)
    {
      gboolean reached;
      pid_t child;
      double x = 0;

      folder_empty (desk->work);
      child = memory_begin (desk);
      if (child == 0)
        work_until_the_end (desk, requests[i]);
      ended += memory_end_of (desk, child, &reached)
               != WENT_WELL; /* without any memory GLib cannot even say so */
      g_assert_cmpuint (left_at (desk, &x), ==, 1);
      g_assert_true (x == 110 || x == 120);
      newest += x == 120;
    }
  g_assert_cmpuint (ended, >=, 5);
  g_assert_cmpuint (newest, >, 0);
  memory_desk_clear (desk);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/memory/an-end-loses-the-last-interval-at-most",
                   an_end_for_want_of_memory_loses_the_last_interval_at_most);
  return g_test_run ();
}

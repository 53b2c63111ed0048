/* The wall clock is put a day forward or back while somebody works: unsaved work is kept in the same while, and found. */
#include <glib/gstdio.h>

#include "../workbench/bench-fixture.h"
#include "faults.h"
#include "formats/kept-work.h"
#include "workbench/work-keeper.h"

#define DAY (24 * 60 * 60)
#define WAIT_S 0.05
#define AT_MOST_US (20 * G_USEC_PER_SEC) /* of the clock that only runs on; a day is more */

static void
empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_remove (path);
    }
}

static gboolean
is_kept (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".hoopwork"))
      return TRUE;
  return FALSE;
}

static void
wait_until_kept (const char *folder)
{
  gint64 end = g_get_monotonic_time () + AT_MOST_US;

  while (!is_kept (folder))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
}

static void
work_is_kept_whatever_the_clock_says (gconstpointer data)
{
  const int jump = GPOINTER_TO_INT (data);
  g_autofree char *folder = g_dir_make_tmp ("hw-clock-XXXXXX", NULL);
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwWorkKeeper *keeper = hw_work_keeper_new (bench, folder, WAIT_S, NULL, NULL);
  g_autoptr (GPtrArray) left = NULL;
  gint64 now;

  hw_bench_select_all (bench);
  hw_bench_nudge (bench, 5, 0);
  faults_set_clock (jump);
  now = g_get_real_time () / G_USEC_PER_SEC;
  wait_until_kept (folder);
  hw_work_keeper_free (keeper, FALSE);
  faults_set_clock (0);
  g_assert_cmpint (ABS (now - jump - g_get_real_time () / G_USEC_PER_SEC), <, DAY / 2);
  left = hw_left_work_list (folder);
  for (guint i = 0; i < 500 && left->len == 0; i++) /* until the thread that wrote has ended */
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (10000);
      g_ptr_array_unref (left);
      left = hw_left_work_list (folder);
    }
  g_assert_cmpuint (left->len, ==, 1);
  g_assert_cmpint (ABS (((HwLeftWork *)left->pdata[0])->kept - now), <, DAY / 2);
  empty (folder);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/clock/a-day-back", GINT_TO_POINTER (-DAY), work_is_kept_whatever_the_clock_says);
  g_test_add_data_func ("/clock/a-day-forward", GINT_TO_POINTER (DAY), work_is_kept_whatever_the_clock_says);
  return g_test_run ();
}

/* The wall clock is put a day back or a year forward, stands still, or changes to or from summer time while somebody works: unsaved work is kept in the same while and
 * found, the plan comes, the log of the days and the earlier states keep their order, and what was just left or looked at is not what makes room. */
#include <glib/gstdio.h>

#include "../folders.h"
#include "../workbench/bench-fixture.h"
#include "faults.h"
#include <utime.h>

#include "formats/earlier-states.h"
#include "formats/kept-work.h"
#include "formats/scene-file.h"
#include "paper/day-log.h"
#include "workbench/bench-private.h"
#include "workbench/scene-pictures.h"
#include "workbench/session.h"
#include "workbench/work-keeper.h"

#define DAY (24 * 60 * 60)
#define YEAR (365 * DAY)
#define STOPPED G_MAXINT /* in place of a jump */
#define WAIT_S 0.05
#define AT_MOST_US (20 * G_USEC_PER_SEC) /* of the clock that only runs on; a day is more */

static void
set_clock (int jump)
{
  faults_set_clock (jump == STOPPED ? 0 : jump);
  faults_stop_clock (jump == STOPPED);
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
  set_clock (jump);
  now = g_get_real_time () / G_USEC_PER_SEC;
  wait_until_kept (folder);
  hw_work_keeper_free (keeper, FALSE);
  set_clock (0);
  g_assert_cmpint (ABS (now - (jump == STOPPED ? 0 : jump) - g_get_real_time () / G_USEC_PER_SEC), <,
                   DAY / 2);
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
  folder_remove (folder);
}

static void
the_plan_comes_whatever_the_clock_says (gconstpointer data)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  gint64 start = g_get_monotonic_time ();

  hw_bench_select_all (bench);
  hw_bench_nudge (bench, 5, 0);
  set_clock (GPOINTER_TO_INT (data));
  wait_for_plan (bench);
  g_assert_cmpint (g_get_monotonic_time () - start, <, AT_MOST_US);
  set_clock (0);
}

/* Each line says the time the clock showed; their order is that of what happened, in the file too. */
static void
the_log_keeps_its_order_and_its_times (void)
{
  static const int jumps[] = { 0, -DAY, YEAR, STOPPED, 0 };
  g_autofree char *folder = g_dir_make_tmp ("hw-clock-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwSnapshot) saved = NULL;
  gint64 said[G_N_ELEMENTS (jumps)];

  for (guint i = 0; i < G_N_ELEMENTS (jumps); i++)
    {
      g_autofree char *text = g_strdup_printf ("%u", i);

      set_clock (jumps[i]);
      said[i] = g_get_real_time () / G_USEC_PER_SEC;
      hw_bench_begin_edit (bench, "write", FALSE);
      hw_bench_log (bench, HW_LOG_NOTE, "m1", text);
      hw_bench_end_edit (bench);
    }
  g_assert_true (hw_bench_save (bench, path, NULL));
  set_clock (0);
  saved = hw_scene_file_load (path, NULL);
  g_assert_nonnull (saved);
  g_assert_cmpuint (saved->log->len, ==, G_N_ELEMENTS (jumps));
  for (guint i = 0; i < saved->log->len; i++)
    {
      const HwLogLine *line = saved->log->pdata[i];
      g_autofree char *text = g_strdup_printf ("%u", i);

      g_assert_cmpstr (line->text, ==, text);
      g_assert_cmpint (ABS (line->at - said[i]), <=, 1);
    }
  folder_remove (folder);
}

/* In Berlin the clock went from 03:00 back to 02:00 on 25 October 2026, 01:00 UTC, and from 02:00 to 03:00 on 29 March, 01:00 UTC (EU directive 2000/84/EC: last Sundays). */
static void
summer_time_comes_and_goes (void)
{
  static const struct
  {
    gint64 at; /* date -u -d ... +%s */
    const char *clock, *day;
  } times[] = {
    { 1792888200, "02:30", "Sunday, 25 October 2026" }, /* 2026-10-25 00:30 UTC */
    { 1792891800, "02:30", "Sunday, 25 October 2026" }, /* an hour later */
    { 1774745999, "01:59", "Sunday, 29 March 2026" },   /* 2026-03-29 00:59:59 UTC */
    { 1774746000, "03:00", "Sunday, 29 March 2026" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (times); i++)
    {
      g_autofree char *clock = hw_clock_text (times[i].at);
      g_autofree char *day = hw_day_text (times[i].at);

      g_assert_cmpstr (clock, ==, times[i].clock);
      g_assert_cmpstr (day, ==, times[i].day);
    }
}

static void
earlier_states_keep_their_order (void)
{
  static const int jumps[] = { 0, -DAY, YEAR, -DAY, -DAY, 0, YEAR, 0 };
  g_autofree char *folder = g_dir_make_tmp ("hw-clock-XXXXXX", NULL);
  g_autofree char *states = g_build_filename (folder, "earlier", NULL);
  g_autofree char *path = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autoptr (GPtrArray) list = NULL;
  const gint64 now = g_get_real_time () / G_USEC_PER_SEC;

  for (guint i = 0; i < G_N_ELEMENTS (jumps); i++)
    {
      g_autofree char *text = g_strdup_printf ("state %u", i);
      const struct utimbuf then = { now + jumps[i], now + jumps[i] };

      g_assert_true (g_file_set_contents (path, text, -1, NULL));
      g_assert_cmpint (utime (path, &then), ==, 0);
      g_assert_true (hw_earlier_state_keep (states, path, 0, NULL));
    }
  list = hw_earlier_states_list (states, path);
  g_assert_cmpuint (list->len, ==, G_N_ELEMENTS (jumps));
  for (guint i = 0; i < list->len; i++)
    {
      g_autofree char *wanted = g_strdup_printf ("state %u", list->len - 1 - i);
      g_autofree char *text = NULL;

      g_assert_true (g_file_get_contents (((const HwEarlierState *)list->pdata[i])->file, &text, NULL, NULL));
      g_assert_cmpstr (text, ==, wanted);
    }
  folder_remove (folder);
}

static void
where_a_person_was_last_is_known_after_the_clock_went_back (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-clock-XXXXXX", NULL);
  HwSceneSeen seen = { .whole = TRUE };

  set_clock (YEAR);
  for (guint i = 0; i < HW_SESSION_MOST; i++)
    {
      g_autofree char *scene = g_strdup_printf ("/harbour/%u.hoopscene", i);
      hw_session_write (folder, scene, &seen);
    }
  set_clock (0);
  seen.at_machine = TRUE;
  hw_session_write (folder, "/harbour/today.hoopscene", &seen);
  hw_session_write (folder, "/harbour/then.hoopscene", &seen);
  g_assert_true (hw_session_read (folder, "/harbour/today.hoopscene", &seen));
  g_assert_true (seen.at_machine);
  g_assert_true (hw_session_read (folder, "/harbour/then.hoopscene", &seen));
  g_assert_false (hw_session_read (folder, "/harbour/0.hoopscene", &seen));
  folder_remove (folder);
}

static void
a_picture_just_painted_is_there_after_the_clock_went_back (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-clock-XXXXXX", NULL);
  g_autofree char *kept = g_build_filename (folder, "kept", NULL);
  g_autofree char *path = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autofree char *picture = NULL;
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const gint64 later = g_get_real_time () / G_USEC_PER_SEC + YEAR;

  g_assert_cmpint (g_mkdir (kept, 0700), ==, 0);
  for (guint i = 0; i < 30; i++)
    {
      g_autofree char *name = g_strdup_printf ("%s/%u.png", kept, i);
      const struct utimbuf then = { later, later };

      g_assert_true (g_file_set_contents (name, "a picture", -1, NULL));
      g_assert_cmpint (utime (name, &then), ==, 0);
    }
  g_assert_true (hw_bench_save (bench, path, NULL));
  picture = hw_scene_picture_file (kept, path, 60, NULL);
  g_assert_nonnull (picture);
  g_assert_true (g_file_test (picture, G_FILE_TEST_IS_REGULAR));
  folder_remove (folder);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    int jump;
  } jumps[] = {
    { "a-day-back", -DAY }, { "a-day-forward", DAY }, { "a-year-forward", YEAR }, { "stopped", STOPPED }
  };

  g_setenv ("TZ", "Europe/Berlin", TRUE);
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (jumps); i++)
    {
      g_autofree char *kept = g_strconcat ("/clock/work-kept/", jumps[i].name, NULL);
      g_autofree char *plan = g_strconcat ("/clock/planned/", jumps[i].name, NULL);

      g_test_add_data_func (kept, GINT_TO_POINTER (jumps[i].jump), work_is_kept_whatever_the_clock_says);
      g_test_add_data_func (plan, GINT_TO_POINTER (jumps[i].jump), the_plan_comes_whatever_the_clock_says);
    }
  g_test_add_func ("/clock/log", the_log_keeps_its_order_and_its_times);
  g_test_add_func ("/clock/summer-time", summer_time_comes_and_goes);
  g_test_add_func ("/clock/earlier-states", earlier_states_keep_their_order);
  g_test_add_func ("/clock/where-a-person-was", where_a_person_was_last_is_known_after_the_clock_went_back);
  g_test_add_func ("/clock/pictures", a_picture_just_painted_is_there_after_the_clock_went_back);
  return g_test_run ();
}

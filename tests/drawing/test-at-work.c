/* The program's end waits for what other threads draw: what shapes letters is freed by exit() (glibc's atexit(3): functions are called in the reverse order). */
#include "drawing/at-work.h"

#include <stdio.h>
#include <stdlib.h>

#include "drawing/lettering.h"

#define A_WHILE (300 * 1000) /* us */

static gint begun;

static void
draw_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  cairo_surface_t *sheet = cairo_image_surface_create (CAIRO_FORMAT_A8, 100, 30);
  cairo_t *cr = cairo_create (sheet);
  const HwLettering how = { .size = 12 };
  gint64 end = g_get_monotonic_time () + GPOINTER_TO_INT (data);
  guint n = 0;

  g_atomic_int_set (&begun, 1);
  while (g_get_monotonic_time () < end)
    {
      g_autofree char *text = g_strdup_printf ("Pear %u", n++);

      hw_letter (cr, 0, 0, &how, text);
    }
  cairo_destroy (cr);
  cairo_surface_destroy (sheet);
  g_task_return_boolean (task, TRUE);
  puts ("# drawn");
}

static void
start (int for_us)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, NULL, NULL);

  g_task_set_task_data (task, GINT_TO_POINTER (for_us), NULL);
  hw_at_work_run (task, draw_thread);
  while (!g_atomic_int_get (&begun))
    g_thread_yield ();
}

static void
test_what_is_drawn_is_finished (void)
{
  if (g_test_subprocess ())
    {
      hw_at_work_add_end ();
      start (A_WHILE);
      exit (0);
    }
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_passed ();
  g_test_trap_assert_stdout ("*drawn*");
}

/* What is too slow is not waited for: the person waits too. */
static void
test_the_end_comes_all_the_same (void)
{
  gint64 began = g_get_monotonic_time ();

  if (g_test_subprocess ())
    {
      hw_at_work_add_end ();
      g_assert_true (hw_at_work_begin ());
      exit (0);
    }
  g_test_trap_subprocess (NULL, 60 * G_USEC_PER_SEC, 0);
  g_test_trap_assert_passed ();
  g_assert_cmpint (g_get_monotonic_time () - began, >=, 2 * G_USEC_PER_SEC);
}

static void
late (void)
{
  puts (hw_at_work_begin () ? "# begun" : "# not begun");
}

static void
test_nothing_is_begun_at_the_end (void)
{
  if (g_test_subprocess ())
    {
      atexit (late); /* comes after */
      hw_at_work_add_end ();
      g_assert_true (hw_at_work_begin ());
      hw_at_work_end ();
      exit (0);
    }
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_passed ();
  g_test_trap_assert_stdout ("*not begun*");
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_assert_true (g_task_propagate_boolean (G_TASK (result), NULL));
  *(gboolean *)user_data = TRUE;
}

static void
test_a_task_comes_to_its_end (void)
{
  gboolean done = FALSE;
  g_autoptr (GTask) task = g_task_new (NULL, NULL, done_cb, &done);

  hw_at_work_run (task, draw_thread);
  while (!done)
    g_main_context_iteration (NULL, TRUE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/at-work/what-is-drawn-is-finished", test_what_is_drawn_is_finished);
  g_test_add_func ("/at-work/the-end-comes-all-the-same", test_the_end_comes_all_the_same);
  g_test_add_func ("/at-work/nothing-is-begun-at-the-end", test_nothing_is_begun_at_the_end);
  g_test_add_func ("/at-work/a-task-comes-to-its-end", test_a_task_comes_to_its_end);
  return g_test_run ();
}

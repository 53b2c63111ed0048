/* Work on other threads that the program's end waits for. */
#include "at-work.h"

#include <stdlib.h>

#include "lettering.h"

#define PATIENCE (2 * G_USEC_PER_SEC) /* whoever starts the program again meanwhile waits as long */

static GMutex lock;
static GCond rest;
static guint at_work;
static gboolean ending;

static void
wait_for_rest (void)
{
  gint64 end = g_get_monotonic_time () + PATIENCE;

  g_mutex_lock (&lock);
  ending = TRUE;
  while (at_work > 0 && g_cond_wait_until (&rest, &lock, end))
    continue;
  g_mutex_unlock (&lock);
}

/* What was handed to atexit() last is called first: what shapes letters has to have done so before. */
static void
shape_a_letter (void)
{
  static const HwLettering how = { .size = 10 };
  cairo_surface_t *sheet = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cr = cairo_create (sheet);

  hw_letter_measure (cr, &how, "1", NULL, NULL);
  cairo_destroy (cr);
  cairo_surface_destroy (sheet);
}

void
hw_at_work_add_end (void)
{
  shape_a_letter ();
  atexit (wait_for_rest);
}

gboolean
hw_at_work_begin (void)
{
  gboolean begins;

  g_mutex_lock (&lock);
  begins = !ending;
  at_work += begins;
  g_mutex_unlock (&lock);
  return begins;
}

void
hw_at_work_end (void)
{
  g_mutex_lock (&lock);
  at_work--;
  if (at_work == 0)
    g_cond_signal (&rest);
  g_mutex_unlock (&lock);
}

static GQuark
run_quark (void)
{
  return g_quark_from_static_string ("hw-at-work-run");
}

typedef struct
{
  GTaskThreadFunc run;
} Run;

static void
run_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Run *what = g_object_get_qdata (G_OBJECT (task), run_quark ());

  if (!hw_at_work_begin ())
    {
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "The program ends.");
      return;
    }
  what->run (task, source, data, cancellable);
  hw_at_work_end ();
}

void
hw_at_work_run (GTask *task, GTaskThreadFunc run)
{
  Run *what = g_new (Run, 1); /* what points to a function is no gpointer */

  what->run = run;
  g_object_set_qdata_full (G_OBJECT (task), run_quark (), what, g_free);
  g_task_run_in_thread (task, run_thread);
}

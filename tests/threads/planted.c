/* Two threads at one number, in ways that are right and in ways that are not: what the sanitizer must keep apart. planted WAY */
#include <gio/gio.h>
#include <string.h>

#define TIMES 20000

typedef struct
{
  gatomicrefcount ref_count;
  GMutex lock;
  GCond wake;
  gboolean ready;
  int number;
} Shared;

static Shared shared;
/* The main thread has left the call that hands over; the other thread has had its turn. */
static int left, had;

static gpointer
count_bare (gpointer data)
{
  for (int i = 0; i < TIMES; i++)
    shared.number++;
  return NULL;
}

static gpointer
count_locked (gpointer data)
{
  for (int i = 0; i < TIMES; i++)
    {
      g_mutex_lock (&shared.lock);
      shared.number++;
      g_mutex_unlock (&shared.lock);
    }
  return NULL;
}

static void
two_threads (GThreadFunc count)
{
  GThread *one = g_thread_new ("one", count, NULL);
  GThread *two = g_thread_new ("two", count, NULL);

  g_thread_join (one);
  g_thread_join (two);
}

static gpointer
wait_and_count (gpointer data)
{
  g_mutex_lock (&shared.lock);
  while (!shared.ready)
    g_cond_wait (&shared.wake, &shared.lock);
  g_mutex_unlock (&shared.lock);
  shared.number++;
  return NULL;
}

/* Woken by a condition; read again before the other has said that it is done: right only with the join. */
static void
woken (gboolean joined)
{
  GThread *thread = g_thread_new ("waits", wait_and_count, NULL);

  shared.number = 1;
  g_mutex_lock (&shared.lock);
  shared.ready = TRUE;
  g_cond_signal (&shared.wake);
  g_mutex_unlock (&shared.lock);
  if (joined)
    g_thread_join (thread);
  shared.number++;
  if (!joined)
    g_thread_join (thread);
}

/* Says nothing to the sanitizer: a relaxed number hands nothing over. */
static void
wait_for (const int *told)
{
  while (__atomic_load_n (told, __ATOMIC_RELAXED) == 0)
    g_usleep (1000);
}

static void
in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  int *number = data;

  wait_for (&left);
  ++*number;
  __atomic_store_n (&had, 1, __ATOMIC_RELAXED);
  g_task_return_boolean (task, TRUE);
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer loop)
{
  if (g_task_propagate_boolean (G_TASK (result), NULL))
    shared.number++;
  g_main_loop_quit (loop);
}

/* Work in a thread. Meddling touches what it works on, while nobody has handed it back. */
static void
task (gboolean meddle)
{
  g_autoptr (GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  g_autoptr (GTask) work = g_task_new (NULL, NULL, done_cb, loop);

  shared.number = 1;
  g_task_set_task_data (work, &shared.number, NULL);
  g_task_run_in_thread (work, in_thread);
  __atomic_store_n (&left, 1, __ATOMIC_RELAXED);
  if (meddle)
    {
      wait_for (&had);
      shared.number++;
    }
  g_main_loop_run (loop);
}

static gboolean
arrived_cb (gpointer loop)
{
  shared.number++;
  g_main_loop_quit (loop);
  return G_SOURCE_REMOVE;
}

static gpointer
send (gpointer loop)
{
  shared.number = 1;
  g_idle_add (arrived_cb, loop);
  return NULL;
}

static gpointer
send_and_meddle (gpointer loop)
{
  g_idle_add (arrived_cb, loop);
  shared.number = 1;
  return NULL;
}

/* Handed to the main loop from a thread. */
static void
idle (GThreadFunc sending)
{
  g_autoptr (GMainLoop) loop = g_main_loop_new (NULL, FALSE);
  GThread *thread = g_thread_new ("sends", sending, loop);

  g_main_loop_run (loop);
  g_thread_join (thread);
}

static gpointer
drop (gpointer data)
{
  Shared *counted = data;

  counted->number++;
  if (g_atomic_ref_count_dec (&counted->ref_count))
    g_free (counted);
  return NULL;
}

/* Freed by whoever lets go last. */
static void
counted (void)
{
  Shared *both = g_new0 (Shared, 1);
  GThread *thread;
  int seen = both->number;

  g_atomic_ref_count_init (&both->ref_count);
  g_atomic_ref_count_inc (&both->ref_count);
  thread = g_thread_new ("drops", drop, both);
  shared.number = seen;
  if (g_atomic_ref_count_dec (&both->ref_count))
    g_free (both);
  g_thread_join (thread);
}

int
main (int argc, char **argv)
{
  const char *way = argc > 1 ? argv[1] : "";

  if (strcmp (way, "bare") == 0)
    two_threads (count_bare);
  else if (strcmp (way, "locked") == 0)
    two_threads (count_locked);
  else if (strcmp (way, "woken") == 0)
    woken (TRUE);
  else if (strcmp (way, "woken-too-soon") == 0)
    woken (FALSE);
  else if (strcmp (way, "task") == 0)
    task (FALSE);
  else if (strcmp (way, "task-meddled") == 0)
    task (TRUE);
  else if (strcmp (way, "idle") == 0)
    idle (send);
  else if (strcmp (way, "idle-meddled") == 0)
    idle (send_and_meddle);
  else if (strcmp (way, "counted") == 0)
    counted ();
  else
    return 2;
  return 0;
}

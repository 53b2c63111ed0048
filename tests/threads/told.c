/* Tells ThreadSanitizer what GLib's locks and hand-overs do. GLib itself is not built with it and locks by futex, so that all that is handed from
 * one thread to another would look like a race. Loaded before everything else; each function does what it stands for and says so with the
 * sanitizer's own annotations (<sanitizer/tsan_interface.h>). What two threads touch without any of these is still reported: see planted.c. */
#include <cairo.h>
#include <dlfcn.h>
#include <gio/gio.h>
#include <sanitizer/tsan_interface.h>

/* Not there in a helper program that is started with this library before it and was not built with the sanitizer. */
#pragma weak __tsan_acquire
#pragma weak __tsan_release
#pragma weak __tsan_mutex_pre_lock
#pragma weak __tsan_mutex_post_lock
#pragma weak __tsan_mutex_pre_unlock
#pragma weak __tsan_mutex_post_unlock
#pragma weak __tsan_mutex_destroy

/* The function of this name that comes after this library. */
#define REAL(name) ((__typeof__ (&name))real (#name))

#undef g_mutex_trylock

static void *
real (const char *name)
{
  void *found = dlsym (RTLD_NEXT, name);

  if (found == NULL)
    __builtin_trap ();
  return found;
}

static void
take_over (void *from)
{
  if (__tsan_acquire != NULL)
    __tsan_acquire (from);
}

static void
hand_over (void *by)
{
  if (__tsan_release != NULL)
    __tsan_release (by);
}

static void
before_lock (GMutex *mutex, unsigned how)
{
  if (__tsan_mutex_pre_lock != NULL)
    __tsan_mutex_pre_lock (mutex, __tsan_mutex_linker_init | how);
}

static void
after_lock (GMutex *mutex, unsigned how)
{
  if (__tsan_mutex_post_lock != NULL)
    __tsan_mutex_post_lock (mutex, __tsan_mutex_linker_init | how, 0);
}

static void
before_unlock (GMutex *mutex)
{
  if (__tsan_mutex_pre_unlock != NULL)
    __tsan_mutex_pre_unlock (mutex, 0);
}

static void
after_unlock (GMutex *mutex)
{
  if (__tsan_mutex_post_unlock != NULL)
    __tsan_mutex_post_unlock (mutex, 0);
}

/* Locks. What was done before unlocking is seen after locking; the order of locks is watched for deadlocks too. */

void
g_mutex_lock (GMutex *mutex)
{
  before_lock (mutex, 0);
  REAL (g_mutex_lock) (mutex);
  after_lock (mutex, 0);
}

gboolean
g_mutex_trylock (GMutex *mutex)
{
  gboolean locked;

  before_lock (mutex, __tsan_mutex_try_lock);
  locked = REAL (g_mutex_trylock) (mutex);
  after_lock (mutex, __tsan_mutex_try_lock | (locked ? 0 : __tsan_mutex_try_lock_failed));
  return locked;
}

void
g_mutex_unlock (GMutex *mutex)
{
  before_unlock (mutex);
  REAL (g_mutex_unlock) (mutex);
  after_unlock (mutex);
}

void
g_mutex_clear (GMutex *mutex)
{
  if (__tsan_mutex_destroy != NULL)
    __tsan_mutex_destroy (mutex, __tsan_mutex_linker_init);
  REAL (g_mutex_clear) (mutex);
}

void
g_cond_wait (GCond *cond, GMutex *mutex)
{
  before_unlock (mutex);
  after_unlock (mutex);
  REAL (g_cond_wait) (cond, mutex);
  before_lock (mutex, 0);
  after_lock (mutex, 0);
}

gboolean
g_cond_wait_until (GCond *cond, GMutex *mutex, gint64 end)
{
  gboolean told;

  before_unlock (mutex);
  after_unlock (mutex);
  told = REAL (g_cond_wait_until) (cond, mutex, end);
  before_lock (mutex, 0);
  after_lock (mutex, 0);
  return told;
}

/* Counted references: whoever gives one back hands over what it did, and the last one takes it all over before it frees. */
#define COUNTED(answer, name, type)                                                                          \
  answer name (type counted)                                                                                 \
  {                                                                                                          \
    if (counted != NULL)                                                                                     \
      {                                                                                                      \
        hand_over ((void *)counted);                                                                         \
        take_over ((void *)counted);                                                                         \
      }                                                                                                      \
    return REAL (name) (counted);                                                                            \
  }

#undef g_atomic_ref_count_dec
COUNTED (gboolean, g_atomic_ref_count_dec, gatomicrefcount *)
COUNTED (void, g_object_unref, gpointer)
COUNTED (void, g_bytes_unref, GBytes *)
COUNTED (void, g_hash_table_unref, GHashTable *)
COUNTED (void, g_ptr_array_unref, GPtrArray *)
COUNTED (void, g_main_context_unref, GMainContext *)
COUNTED (void, cairo_surface_destroy, cairo_surface_t *)
COUNTED (void, g_atomic_rc_box_release, gpointer)

void
g_atomic_rc_box_release_full (gpointer box, GDestroyNotify clear)
{
  hand_over (box);
  take_over (box);
  REAL (g_atomic_rc_box_release_full) (box, clear);
}

/* Work for a thread, and its answer. */

static GQuark
quark (void)
{
  return g_quark_from_static_string ("told-thread-func");
}

static void
run_task (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GTaskThreadFunc func;

  take_over (task);
  func = (GTaskThreadFunc)(guintptr)g_object_get_qdata (G_OBJECT (task), quark ());
  func (task, source, data, cancellable);
  hand_over (task);
}

void
g_task_run_in_thread (GTask *task, GTaskThreadFunc func)
{
  g_object_set_qdata (G_OBJECT (task), quark (), (gpointer)(guintptr)func);
  hand_over (task);
  REAL (g_task_run_in_thread) (task, run_task);
}

void
g_task_return_pointer (GTask *task, gpointer result, GDestroyNotify clear)
{
  hand_over (task);
  REAL (g_task_return_pointer) (task, result, clear);
}

void
g_task_return_boolean (GTask *task, gboolean result)
{
  hand_over (task);
  REAL (g_task_return_boolean) (task, result);
}

void
g_task_return_error (GTask *task, GError *error)
{
  hand_over (task);
  REAL (g_task_return_error) (task, error);
}

gpointer
g_task_propagate_pointer (GTask *task, GError **error)
{
  take_over (task);
  return REAL (g_task_propagate_pointer) (task, error);
}

gboolean
g_task_propagate_boolean (GTask *task, GError **error)
{
  take_over (task);
  return REAL (g_task_propagate_boolean) (task, error);
}

gpointer
g_task_get_task_data (GTask *task)
{
  take_over (task);
  return REAL (g_task_get_task_data) (task);
}

/* Something to do, handed to a main loop or to a pool. */

typedef struct
{
  GSourceFunc func;
  GFunc pool_func;
  gpointer data;
  GDestroyNotify clear;
} Handed;

static Handed *
handed_new (GSourceFunc func, GFunc pool_func, gpointer data, GDestroyNotify clear)
{
  Handed *handed = g_new0 (Handed, 1);

  *handed = (Handed){ func, pool_func, data, clear };
  hand_over (handed);
  return handed;
}

static gboolean
run_handed (gpointer data)
{
  Handed *handed = data;
  gboolean again;

  take_over (g_main_current_source ());
  take_over (handed);
  again = handed->func (handed->data);
  hand_over (handed);
  return again;
}

static void
clear_handed (gpointer data)
{
  Handed *handed = data;

  take_over (handed);
  if (handed->clear != NULL)
    handed->clear (handed->data);
  g_free (handed);
}

/* Sources of other kinds (a child that ended, a file watched) have callbacks of other shapes, and are left as they are. */
void
g_source_set_callback (GSource *source, GSourceFunc func, gpointer data, GDestroyNotify clear)
{
  if (source->source_funcs == &g_idle_funcs || source->source_funcs == &g_timeout_funcs)
    REAL (g_source_set_callback) (source, run_handed, handed_new (func, NULL, data, clear), clear_handed);
  else
    REAL (g_source_set_callback) (source, func, data, clear);
}

guint
g_source_attach (GSource *source, GMainContext *context)
{
  hand_over (source);
  return REAL (g_source_attach) (source, context);
}

guint
g_idle_add_full (gint priority, GSourceFunc func, gpointer data, GDestroyNotify clear)
{
  GSource *source = g_idle_source_new ();
  guint id;

  g_source_set_priority (source, priority);
  g_source_set_callback (source, func, data, clear);
  id = g_source_attach (source, NULL);
  g_source_unref (source);
  return id;
}

guint
g_idle_add (GSourceFunc func, gpointer data)
{
  return g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, func, data, NULL);
}

static void
run_pooled (gpointer item, gpointer user_data)
{
  const Handed *handed = user_data;

  take_over (item);
  handed->pool_func (item, handed->data);
}

/* The pools live as long as the program. */
GThreadPool *
g_thread_pool_new (GFunc func, gpointer data, gint most, gboolean exclusive, GError **error)
{
  return REAL (g_thread_pool_new) (run_pooled, handed_new (NULL, func, data, NULL), most, exclusive, error);
}

gboolean
g_thread_pool_push (GThreadPool *pool, gpointer item, GError **error)
{
  hand_over (item);
  return REAL (g_thread_pool_push) (pool, item, error);
}

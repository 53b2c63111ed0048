/* Keeps unsaved work. The scene is taken as a snapshot, which costs nothing, and written on a thread of its own, so that a slow disk does not
 * hold up the hand that drags. States are numbered: one that comes late does not take the place of a newer one. */
#include "work-keeper.h"

#include "../formats/kept-work.h"

/* Where states are written, shared with the threads that write. */
typedef struct
{
  gatomicrefcount ref_count;
  GMutex lock;
  HwWorkPlace *place;
  guint64 newest; /* number of the state that is kept, or that there is nothing to keep since */
} Shelf;

struct _HwWorkKeeper
{
  HwBench *bench;
  Shelf *shelf;       /* NULL: nothing can be kept */
  GCancellable *gone; /* cancelled with the keeper: late answers find nobody */
  guint64 number;
  guint wait_ms;
  guint timeout;
  gboolean writing;
  gboolean again; /* edited while a state was being written */
  gboolean told;
  HwWorkKeeperTrouble trouble;
  gpointer user_data;
};

/* A state on its way to the disk. */
typedef struct
{
  Shelf *shelf;
  guint64 number;
  HwSnapshot *snapshot;
  char *path, *folder;
} State;

static Shelf *
shelf_ref (Shelf *shelf)
{
  g_atomic_ref_count_inc (&shelf->ref_count);
  return shelf;
}

static void
shelf_unref (Shelf *shelf)
{
  if (!g_atomic_ref_count_dec (&shelf->ref_count))
    return;
  hw_work_place_free (shelf->place);
  g_mutex_clear (&shelf->lock);
  g_free (shelf);
}

static Shelf *
shelf_new (const char *folder, GError **error)
{
  HwWorkPlace *place = hw_work_place_new (folder, error);
  Shelf *shelf;

  if (place == NULL)
    return NULL;
  shelf = g_new0 (Shelf, 1);
  g_atomic_ref_count_init (&shelf->ref_count);
  g_mutex_init (&shelf->lock);
  shelf->place = place;
  return shelf;
}

static gboolean
shelf_keep (Shelf *shelf, const State *state, GError **error)
{
  gboolean good = TRUE;

  g_mutex_lock (&shelf->lock);
  if (state->number > shelf->newest)
    {
      good = hw_work_place_keep (shelf->place, state->snapshot, state->path, state->folder,
                                 g_get_real_time () / G_USEC_PER_SEC, error);
      if (good)
        shelf->newest = state->number;
    }
  g_mutex_unlock (&shelf->lock);
  return good;
}

static void
shelf_clear (Shelf *shelf, guint64 number)
{
  g_mutex_lock (&shelf->lock);
  hw_work_place_clear (shelf->place);
  shelf->newest = number;
  g_mutex_unlock (&shelf->lock);
}

static void
state_free (gpointer data)
{
  State *state = data;

  shelf_unref (state->shelf);
  hw_snapshot_unref (state->snapshot);
  g_free (state->path);
  g_free (state->folder);
  g_free (state);
}

static State *
state_new (HwWorkKeeper *keeper)
{
  State *state = g_new0 (State, 1);

  state->shelf = shelf_ref (keeper->shelf);
  state->number = ++keeper->number;
  state->snapshot = hw_scene_snapshot (hw_bench_get_scene (keeper->bench));
  state->path = g_strdup (hw_bench_get_path (keeper->bench));
  state->folder = g_strdup (hw_bench_get_folder (keeper->bench));
  return state;
}

static gboolean
is_modified (HwWorkKeeper *keeper)
{
  gboolean modified;

  g_object_get (keeper->bench, "modified", &modified, NULL);
  return modified;
}

static void
tell (HwWorkKeeper *keeper, const char *sentence)
{
  if (keeper->told || keeper->trouble == NULL)
    return;
  keeper->told = TRUE;
  keeper->trouble (sentence, keeper->user_data);
}

static void
begin_waiting (HwWorkKeeper *keeper);

/* On a thread of its own. */
static void
write_state (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  State *state = data;
  GError *error = NULL;

  if (shelf_keep (state->shelf, state, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  HwWorkKeeper *keeper = data;

  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  keeper->writing = FALSE;
  /* A disk that is full now may have room later: what could not be kept is tried again, and told again only after it went well between. */
  if (g_task_propagate_boolean (G_TASK (result), &error))
    keeper->told = FALSE;
  else
    {
      tell (keeper, error->message);
      keeper->again = TRUE;
    }
  if (keeper->again)
    begin_waiting (keeper);
  keeper->again = FALSE;
}

static gboolean
wait_over_cb (gpointer data)
{
  HwWorkKeeper *keeper = data;
  g_autoptr (GTask) task = g_task_new (NULL, keeper->gone, written_cb, keeper);

  keeper->timeout = 0;
  keeper->writing = TRUE;
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, state_new (keeper), state_free);
  g_task_run_in_thread (task, write_state);
  return G_SOURCE_REMOVE;
}

static void
begin_waiting (HwWorkKeeper *keeper)
{
  if (keeper->timeout == 0 && is_modified (keeper))
    keeper->timeout = g_timeout_add (keeper->wait_ms, wait_over_cb, keeper);
}

static void
edited_cb (HwWorkKeeper *keeper)
{
  if (keeper->writing)
    keeper->again = TRUE;
  else
    begin_waiting (keeper);
}

static void
modified_cb (HwWorkKeeper *keeper)
{
  if (is_modified (keeper))
    {
      edited_cb (keeper);
      return;
    }
  g_clear_handle_id (&keeper->timeout, g_source_remove);
  keeper->again = FALSE;
  shelf_clear (keeper->shelf, ++keeper->number);
}

HwWorkKeeper *
hw_work_keeper_new (
    HwBench *bench, const char *folder, double seconds, HwWorkKeeperTrouble trouble, gpointer user_data)
{
  g_autoptr (GError) error = NULL;
  HwWorkKeeper *keeper;

  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  keeper = g_new0 (HwWorkKeeper, 1);
  keeper->bench = g_object_ref (bench);
  keeper->gone = g_cancellable_new ();
  keeper->wait_ms = (guint)(seconds * 1000);
  keeper->trouble = trouble;
  keeper->user_data = user_data;
  keeper->shelf = shelf_new (folder, &error);
  if (keeper->shelf == NULL)
    {
      tell (keeper, error->message);
      return keeper;
    }
  g_signal_connect_swapped (bench, "scene-changed", G_CALLBACK (edited_cb), keeper);
  g_signal_connect_swapped (bench, "notify::modified", G_CALLBACK (modified_cb), keeper);
  begin_waiting (keeper);
  return keeper;
}

gboolean
hw_work_keeper_keep_now (HwWorkKeeper *keeper)
{
  State *state;
  gboolean good;

  g_return_val_if_fail (keeper != NULL, FALSE);

  if (keeper->shelf == NULL || !is_modified (keeper))
    return keeper->shelf != NULL;
  state = state_new (keeper);
  good = shelf_keep (keeper->shelf, state, NULL);
  state_free (state);
  return good;
}

void
hw_work_keeper_free (HwWorkKeeper *keeper, gboolean given_up)
{
  if (keeper == NULL)
    return;
  g_clear_handle_id (&keeper->timeout, g_source_remove);
  g_cancellable_cancel (keeper->gone);
  g_signal_handlers_disconnect_by_data (keeper->bench, keeper);
  if (keeper->shelf != NULL)
    {
      if (given_up)
        shelf_clear (keeper->shelf, G_MAXUINT64);
      shelf_unref (keeper->shelf);
    }
  g_object_unref (keeper->gone);
  g_object_unref (keeper->bench);
  g_free (keeper);
}

/* The window keeps what a person made: unsaved work every few seconds, the states a file had before it was saved over, and a word when another
 * program changes the file under the scene. */
#include "window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "../formats/earlier-states.h"
#include "../formats/kept-work.h"
#include "dialog.h"
#include "earlier-dialog.h"
#include "window-private.h"

#define KEEP_AFTER_SECONDS 3.0
#define BY_ITSELF_SPACING (5 * 60) /* seconds between earlier states when the machine view saves by itself */
#define SETTLE_MS 400              /* another program's saving comes in several steps */

gboolean
hw_window_write (HwWindow *window, const char *path, gboolean by_itself, GError **error)
{
  const char *target = path != NULL ? path : hw_bench_get_path (window->bench);
  g_autoptr (GError) trouble = NULL;

  g_return_val_if_fail (target != NULL, FALSE);

  /* A state that cannot be kept must not keep the new one from being saved. */
  if (!hw_earlier_state_keep (NULL, target, by_itself ? BY_ITSELF_SPACING : 0, &trouble))
    g_info ("%s", trouble->message);
  return hw_bench_save (window->bench, path, error);
}

static char *
when_text (gint64 seconds)
{
  g_autoptr (GDateTime) when = g_date_time_new_from_unix_local (seconds);

  /* Translators: a day and a time, "Wednesday, 25 November, 17:05". */
  return when != NULL ? g_date_time_format (when, _ ("%A, %e %B, %H:%M")) : g_strdup ("?");
}

static void
take_up (HwWindow *window, gpointer user_data)
{
  HwLeftWork *work = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) snapshot = hw_left_work_read (work, &error);

  if (snapshot == NULL)
    {
      hw_window_tell (window, error->message);
      return;
    }
  hw_bench_take_up (window->bench, snapshot, work->path, work->folder);
  hw_window_leave_start (window);
  hw_canvas_zoom_fit (window->canvas);
  /* It is this window's unsaved work from now on. */
  if (hw_work_keeper_keep_now (window->keeper))
    hw_left_work_remove (work);
}

static HwLeftWork *
first_left (HwWindow *window)
{
  return window->left != NULL && window->left->len > 0 ? g_ptr_array_index (window->left, 0) : NULL;
}

static void
next_left (HwWindow *window)
{
  if (window->left != NULL && window->left->len > 0)
    g_ptr_array_remove_index (window->left, 0);
  hw_window_offer_left_work (window);
}

static void
take_up_then_next (HwWindow *window, gpointer user_data)
{
  take_up (window, user_data);
  next_left (window);
}

static void
bring_back_cb (gpointer user_data)
{
  HwWindow *window = user_data;

  hw_window_guard (window, take_up_then_next, first_left (window), NULL);
}

static void
throw_away_cb (gpointer user_data)
{
  HwWindow *window = user_data;

  hw_left_work_remove (first_left (window));
  next_left (window);
}

static void
later_cb (gpointer user_data)
{
  next_left (user_data);
}

void
hw_window_offer_left_work (HwWindow *window)
{
  const HwNoticeAnswer answers[] = {
    { _ ("Throw it away"), throw_away_cb, FALSE },
    { _ ("Ask me later"), later_cb, FALSE },
    { _ ("Bring it back"), bring_back_cb, TRUE },
    { NULL },
  };
  const HwLeftWork *work;

  g_return_if_fail (HW_IS_WINDOW (window));

  if (window->left == NULL)
    window->left = hw_left_work_list (NULL);
  work = first_left (window);
  if (work == NULL)
    return;
  g_autofree char *when = when_text (work->kept);
  g_autofree char *sentence = g_strdup_printf (
      work->newer ? _ ("Work on “%s” was not saved when Hoopwright ended. It was kept on %s.")
                  : _ ("Work on “%s” was not saved when Hoopwright ended. It was kept on %s; the file was "
                       "saved again since."),
      work->name, when);
  hw_notice_bar_ask (HW_NOTICE_BAR (window->left_bar), sentence, answers, window);
}

static void
trouble_cb (const char *sentence, gpointer user_data)
{
  hw_window_tell (user_data, sentence);
}

static void
open_anew (HwWindow *window, gpointer user_data)
{
  g_autoptr (GFile) file = g_file_new_for_path (hw_bench_get_path (window->bench));

  hw_window_open (window, file);
}

static void
open_anew_cb (gpointer user_data)
{
  hw_window_guard (user_data, open_anew, NULL, NULL);
}

static void
save_over_cb (gpointer user_data)
{
  HwWindow *window = user_data;
  g_autoptr (GError) error = NULL;

  if (!hw_window_write (window, NULL, FALSE, &error))
    hw_window_tell (window, error->message);
}

/* Returns: (transfer full) */
static char *
file_name (HwWindow *window)
{
  g_autofree char *name = g_path_get_basename (hw_bench_get_path (window->bench));

  return g_filename_display_name (name);
}

gboolean
hw_window_asks_before_saving_over (HwWindow *window, const char *path)
{
  const HwNoticeAnswer answers[] = {
    { _ ("Go on working"), NULL, FALSE },
    { _ ("Open it anew"), open_anew_cb, FALSE },
    { _ ("Save over it"), save_over_cb, TRUE },
    { NULL },
  };
  const char *own = hw_bench_get_path (window->bench);

  if (own == NULL || (path != NULL && strcmp (path, own) != 0) || !g_file_test (own, G_FILE_TEST_EXISTS)
      || !hw_bench_file_was_changed (window->bench))
    return FALSE;
  g_autofree char *name = file_name (window);
  g_autofree char *sentence = g_strdup_printf (
      _ ("“%s” was changed by another program since it was opened here. Saving over it keeps "
         "what it holds now among the earlier states."),
      name);
  hw_notice_bar_ask (HW_NOTICE_BAR (window->changed_bar), sentence, answers, window);
  return TRUE;
}

/* Another program has saved over the scene, or taken it away. */
static gboolean
settled_cb (gpointer user_data)
{
  HwWindow *window = user_data;
  const HwNoticeAnswer answers[] = {
    { _ ("Keep what is here"), NULL, FALSE },
    { _ ("Open it anew"), open_anew_cb, TRUE },
    { NULL },
  };
  const char *path = hw_bench_get_path (window->bench);

  window->settle = 0;
  /* Who has just been asked about saving over it finds the same answers under the pointer. */
  if (gtk_widget_get_visible (window->changed_bar) || path == NULL
      || !hw_bench_file_was_changed (window->bench))
    return G_SOURCE_REMOVE;
  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return G_SOURCE_REMOVE; /* saving brings it back */
  g_autofree char *name = file_name (window);
  g_autofree char *sentence
      = g_strdup_printf (_ ("“%s” was changed by another program since it was opened here."), name);
  hw_notice_bar_ask (HW_NOTICE_BAR (window->changed_bar), sentence, answers, window);
  return G_SOURCE_REMOVE;
}

static void
file_changed_cb (GFileMonitor *monitor, GFile *file, GFile *other, GFileMonitorEvent event, HwWindow *window)
{
  g_clear_handle_id (&window->settle, g_source_remove);
  window->settle = g_timeout_add (SETTLE_MS, settled_cb, window);
}

static void
path_cb (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  const char *path = hw_bench_get_path (bench);

  g_clear_object (&window->monitor);
  hw_notice_bar_withdraw (HW_NOTICE_BAR (window->changed_bar));
  if (path == NULL)
    return;
  g_autoptr (GFile) file = g_file_new_for_path (path);
  window->monitor = g_file_monitor_file (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);
  if (window->monitor != NULL)
    g_signal_connect_object (window->monitor, "changed", G_CALLBACK (file_changed_cb), window, 0);
}

/* Saved or opened anew: what is here and what is there are one again. */
static void
saved_cb (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  if (!hw_bench_file_was_changed (bench))
    hw_notice_bar_withdraw (HW_NOTICE_BAR (window->changed_bar));
}

static void
earlier_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;

  hw_earlier_dialog_show (GTK_WINDOW (window), window->bench);
}

static void
update_earlier (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), "earlier-states");

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), hw_bench_get_path (bench) != NULL);
}

void
hw_window_add_keeping (HwWindow *window)
{
  static const GActionEntry entries[] = { { "earlier-states", earlier_cb } };

  window->left_bar = hw_notice_bar_new ();
  window->changed_bar = hw_notice_bar_new ();
  gtk_box_prepend (window->bars, window->changed_bar);
  gtk_box_prepend (window->bars, window->left_bar);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  window->keeper = hw_work_keeper_new (window->bench, NULL, KEEP_AFTER_SECONDS, trouble_cb, window);
  g_signal_connect_object (window->bench, "notify::path", G_CALLBACK (path_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::path", G_CALLBACK (update_earlier), window, 0);
  g_signal_connect_object (window->bench, "notify::modified", G_CALLBACK (saved_cb), window, 0);
  update_earlier (window->bench, NULL, window);
}

void
hw_window_end_keeping (HwWindow *window)
{
  g_clear_handle_id (&window->settle, g_source_remove);
  g_clear_object (&window->monitor);
  g_clear_object (&window->opened);
  g_clear_pointer (&window->left, g_ptr_array_unref);
  hw_work_keeper_free (g_steal_pointer (&window->keeper), TRUE);
}

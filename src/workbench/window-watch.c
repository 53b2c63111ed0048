/* The window watches the files that the scene names: artwork that another program saved over is read again, and what is taken away or spoiled is told of once,
 * while the table shows what was read. Where a folder cannot be watched, coming back to the window is reason enough to look. */
#include "window.h"

#include <glib/gi18n.h>

#include "canvas-photo.h"
#include "window-private.h"

#define SETTLE_MS 400 /* another program's saving comes in several steps */
#define MOST_WATCHED 64u

static gboolean
look_cb (gpointer user_data)
{
  HwWindow *window = user_data;

  window->look_wait = 0;
  hw_bench_look_at_files (window->bench);
  return G_SOURCE_REMOVE;
}

static void
look_soon (HwWindow *window)
{
  g_clear_handle_id (&window->look_wait, g_source_remove);
  window->look_wait = g_timeout_add (SETTLE_MS, look_cb, window);
}

static void
folder_changed_cb (
    GFileMonitor *monitor, GFile *file, GFile *other, GFileMonitorEvent event, HwWindow *window)
{
  look_soon (window);
}

static gboolean
is_watched (HwWindow *window, const char *folder)
{
  for (guint i = 0; i < window->watched->len; i++)
    if (g_strcmp0 (g_object_get_data (window->watched->pdata[i], "folder"), folder) == 0)
      return TRUE;
  return FALSE;
}

static void
watch (HwWindow *window, const char *folder)
{
  g_autoptr (GFile) file = g_file_new_for_path (folder);
  GFileMonitor *monitor = g_file_monitor_directory (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL);

  if (monitor == NULL)
    return;
  g_object_set_data_full (G_OBJECT (monitor), "folder", g_strdup (folder), g_free);
  g_signal_connect_object (monitor, "changed", G_CALLBACK (folder_changed_cb), window, 0);
  g_ptr_array_add (window->watched, monitor);
}

/* Only what came or went is touched: a monitor begun anew would miss what happens meanwhile. */
static void
watch_folders (HwWindow *window)
{
  GPtrArray *folders = hw_bench_get_file_folders (window->bench);

  for (guint i = window->watched->len; i-- > 0;)
    {
      const char *folder = g_object_get_data (window->watched->pdata[i], "folder");

      if (!g_ptr_array_find_with_equal_func (folders, folder, g_str_equal, NULL))
        g_ptr_array_remove_index (window->watched, i);
    }
  for (guint i = 0; i < folders->len && window->watched->len < MOST_WATCHED; i++)
    if (!is_watched (window, folders->pdata[i]))
      watch (window, folders->pdata[i]);
}

/* Said once for what is lost, and taken back when it is there again. */
static void
tell_of_lost (HwWindow *window, const char *lost)
{
  const HwNoticeAnswer answers[] = {
    { _ ("Go on working"), NULL, TRUE },
    { NULL },
  };

  if (g_strcmp0 (lost, window->lost) == 0)
    return;
  g_free (window->lost);
  window->lost = g_strdup (lost);
  if (lost != NULL)
    hw_notice_bar_ask (HW_NOTICE_BAR (window->lost_bar), lost, answers, window);
  else
    hw_notice_bar_withdraw (HW_NOTICE_BAR (window->lost_bar));
}

static void
looked_cb (HwBench *bench, gboolean photos, HwWindow *window)
{
  watch_folders (window);
  tell_of_lost (window, hw_bench_get_lost_files (bench));
  if (photos)
    hw_canvas_reread_photo (window->canvas);
}

static void
path_cb (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  tell_of_lost (window, hw_bench_get_lost_files (bench));
  look_soon (window);
}

static void
changed_cb (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  look_soon (window);
}

static void
active_cb (GtkWindow *self, GParamSpec *pspec, gpointer user_data)
{
  if (gtk_window_is_active (self))
    look_soon (HW_WINDOW (self));
}

void
hw_window_add_watching (HwWindow *window)
{
  window->lost_bar = hw_notice_bar_new ();
  gtk_box_prepend (window->bars, window->lost_bar);
  window->watched = g_ptr_array_new_with_free_func (g_object_unref);
  g_signal_connect_object (window->bench, "files-looked-at", G_CALLBACK (looked_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::path", G_CALLBACK (path_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::reading", G_CALLBACK (changed_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::undo-name", G_CALLBACK (changed_cb), window, 0);
  g_signal_connect (window, "notify::is-active", G_CALLBACK (active_cb), NULL);
}

void
hw_window_end_watching (HwWindow *window)
{
  g_clear_handle_id (&window->look_wait, g_source_remove);
  g_clear_pointer (&window->watched, g_ptr_array_unref);
  g_clear_pointer (&window->lost, g_free);
}

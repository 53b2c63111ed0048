/* The window and the photos of the cloth: one is chosen or dropped on the table, tried in the background, added, and put square. */
#include "window-photo.h"

#include <glib/gi18n.h>

#include "../drawing/at-work.h"
#include "photo-add-dialog.h"
#include "photo-chooser.h"
#include "photo-file.h"
#include "photo-square-dialog.h"
#include "settings.h"
#include "window-private.h"

/* A file being tried. */
typedef struct
{
  char *path;
  GBytes *bytes;
} Trial;

static void
trial_free (gpointer data)
{
  Trial *trial = data;

  g_free (trial->path);
  g_clear_pointer (&trial->bytes, g_bytes_unref);
  g_free (trial);
}

static void
trial_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Trial *trial = data;
  g_autofree char *name = g_filename_display_basename (trial->path);
  g_autoptr (HwPicture) picture = NULL;
  GError *error = NULL;

  trial->bytes = hw_photo_file_read (trial->path, &error);
  if (trial->bytes != NULL)
    picture = hw_picture_load_bytes (trial->bytes, name, &error);
  if (picture != NULL)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
put_square (GtkWindow *parent, guint index)
{
  hw_photo_square_dialog_show (parent, HW_WINDOW (parent)->bench, index);
}

static void
tried_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (source);
  Trial *trial = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  if (window->bench == NULL || !gtk_widget_get_mapped (GTK_WIDGET (window)))
    return;
  if (!g_task_propagate_boolean (G_TASK (result), &error))
    {
      hw_window_tell (window, error->message);
      return;
    }
  hw_window_tell (window, NULL);
  hw_photo_add_dialog_show (GTK_WINDOW (window), window->bench, trial->path, trial->bytes, put_square);
}

void
hw_window_add_photo (HwWindow *window, GFile *file)
{
  g_return_if_fail (HW_IS_WINDOW (window));
  g_return_if_fail (G_IS_FILE (file));

  g_autofree char *path = g_file_get_path (file);
  g_autoptr (GTask) task = NULL;
  Trial *trial;

  if (path == NULL)
    {
      hw_window_tell (
          window,
          _ ("This place cannot be read directly. Copy the photo to this computer and open it there."));
      return;
    }
  trial = g_new0 (Trial, 1);
  trial->path = g_steal_pointer (&path);
  task = g_task_new (window, NULL, tried_cb, NULL);
  g_task_set_task_data (task, trial, trial_free);
  hw_at_work_run (task, trial_thread);
}

static void
chosen (GFile *file, gpointer window)
{
  hw_window_add_photo (window, file);
}

static void
add_photo_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;

  hw_photo_choose (GTK_WINDOW (window), _ ("Photo of the cloth"), hw_bench_get_folder (window->bench), chosen,
                   G_OBJECT (window));
}

static int
shown_photo (HwWindow *window)
{
  return hw_scene_get_photo_shown (hw_bench_get_scene (window->bench));
}

static void
square_photo_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  if (shown_photo (user_data) >= 0)
    put_square (GTK_WINDOW (user_data), (guint)shown_photo (user_data));
}

static void
rename_photo_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  if (shown_photo (user_data) >= 0)
    hw_photo_rename_dialog_show (GTK_WINDOW (user_data), HW_WINDOW (user_data)->bench,
                                 (guint)shown_photo (user_data));
}

static void
delete_photo_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;

  if (shown_photo (window) >= 0 && !hw_bench_is_editing (window->bench))
    hw_bench_delete_photo (window->bench, (guint)shown_photo (window));
}

static void
tell_cb (GSimpleAction *action, GVariant *sentence, gpointer user_data)
{
  hw_window_tell (HW_WINDOW (user_data), g_variant_get_string (sentence, NULL));
}

gboolean
hw_window_is_photo_file (GFile *file)
{
  g_return_val_if_fail (G_IS_FILE (file), FALSE);

  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *lower = name != NULL ? g_ascii_strdown (name, -1) : g_strdup ("");

  return g_str_has_suffix (lower, ".jpg") || g_str_has_suffix (lower, ".jpeg")
         || g_str_has_suffix (lower, ".png");
}

void
hw_window_add_photo_actions (HwWindow *window)
{
  static const GActionEntry entries[] = {
    { "add-photo", add_photo_cb },       { "square-photo", square_photo_cb },
    { "rename-photo", rename_photo_cb }, { "delete-photo", delete_photo_cb },
    { "tell-of-photo", tell_cb, "s" },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
}

/* The window and its files: new, open, open again, save. */
#include "window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "../formats/file-name.h"
#include "main-menu.h"
#include "new-scene-dialog.h"
#include "recent-scenes.h"
#include "session.h"
#include "settings.h"
#include "window-import.h"
#include "window-private.h"

#define MOST_RECENT 8
#define SCENE_TYPE "application/x-hoopscene+json"
#define SCENE_SUFFIX ".hoopscene"

static void
remember (HwWindow *window, const char *path)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  char *groups[] = { NULL };
  GtkRecentData data = {
    .mime_type = (char *)SCENE_TYPE,
    .app_name = (char *)g_get_application_name (),
    .app_exec = (char *)"hoopwright %f",
    .groups = groups,
  };

  if (uri != NULL)
    gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
  hw_settings_set_text (HW_SETTING_LAST_FOLDER, folder);
  hw_session_set_last_scene (NULL, path);
}

void
hw_window_fill_recent (HwWindow *window)
{
  GList *scenes = hw_recent_scenes (MOST_RECENT);

  g_menu_remove_all (window->recent_menu);
  for (GList *l = scenes; l != NULL; l = l->next)
    {
      g_autoptr (GMenuItem) item = g_menu_item_new (gtk_recent_info_get_display_name (l->data), NULL);

      g_menu_item_set_action_and_target (item, "win.open-again", "s", gtk_recent_info_get_uri (l->data));
      g_menu_append_item (window->recent_menu, item);
    }
  if (scenes == NULL)
    g_menu_append (window->recent_menu, _ ("Nothing yet"), "win.none");
  g_list_free_full (scenes, (GDestroyNotify)gtk_recent_info_unref);
}

static void
recent_changed_cb (GtkRecentManager *manager, HwWindow *window)
{
  hw_window_fill_recent (window);
}

void
hw_window_open (HwWindow *window, GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_file_get_path (file);

  g_return_if_fail (HW_IS_WINDOW (window));

  if (path == NULL)
    {
      hw_window_tell (
          window,
          _ ("This place cannot be read directly. Copy the scene to this computer and open it there."));
      return;
    }
  hw_window_keep_seen (window);
  if (!hw_bench_open (window->bench, path, &error))
    {
      hw_window_tell (window, error->message);
      return;
    }
  hw_window_tell (window, NULL);
  remember (window, path);
  hw_window_tell_of_opened (window, file);
  hw_window_leave_start (window);
  hw_window_take_up_seen (window);
}

void
hw_window_open_copy (HwWindow *window, const char *path)
{
  g_autoptr (GError) error = NULL;

  g_return_if_fail (HW_IS_WINDOW (window));

  hw_window_keep_seen (window);
  if (!hw_bench_open_copy (window->bench, path, &error))
    {
      hw_window_tell (window, error->message);
      return;
    }
  hw_window_tell (window, NULL);
  hw_window_leave_start (window);
  hw_canvas_zoom_fit (window->canvas);
}

static GtkFileFilter *
filter_for (const char *name, const char *pattern)
{
  GtkFileFilter *filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, pattern);
  return filter;
}

/* Where scenes were last, else among the person's documents. */
static void
start_in_last_folder (GtkFileChooser *chooser)
{
  g_autofree char *last = hw_settings_get_text (HW_SETTING_LAST_FOLDER);
  const char *documents = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);
  const char *path = documents != NULL ? documents : g_get_home_dir ();

  if (*last != '\0' && g_file_test (last, G_FILE_TEST_IS_DIR))
    path = last;
  g_autoptr (GFile) folder = g_file_new_for_path (path);
  gtk_file_chooser_set_current_folder (chooser, folder, NULL);
}

/* What is done with the file a person picks. */
typedef void (*FilePicked) (HwWindow *window, GFile *file);

static void
picked_cb (GtkNativeDialog *dialog, int response, gpointer picked)
{
  HwWindow *window = HW_WINDOW (gtk_native_dialog_get_transient_for (dialog));
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT && file != NULL)
    ((FilePicked)picked) (window, file);
  g_object_unref (dialog);
}

static void
pick_file (HwWindow *window, const char *title, const char *name, const char *pattern, FilePicked picked)
{
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (title, GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_OPEN, NULL, NULL);
  g_autoptr (GtkFileFilter) filter = filter_for (name, pattern);
  g_autoptr (GtkFileFilter) all = filter_for (_ ("All files"), "*");

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), all);
  start_in_last_folder (GTK_FILE_CHOOSER (chooser));
  g_signal_connect (chooser, "response", G_CALLBACK (picked_cb), picked);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static void
pick_scene (HwWindow *window, gpointer user_data)
{
  pick_file (window, _ ("Open a scene"), _ ("Scenes"), "*" SCENE_SUFFIX, hw_window_open_or_add);
}

static void
open_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_window_guard (HW_WINDOW (user_data), pick_scene, NULL, NULL);
}

static void
open_uri (HwWindow *window, gpointer uri)
{
  g_autoptr (GFile) file = g_file_new_for_uri (uri);

  hw_window_open (window, file);
}

static void
open_again_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_window_guard (HW_WINDOW (user_data), open_uri, g_strdup (g_variant_get_string (parameter, NULL)),
                   g_free);
}

/* A save that may be followed by what waited for it. */
typedef struct
{
  HwWindow *window;
  HwWindowNext next;
  gpointer user_data;
  GDestroyNotify destroy;
} Waiting;

static void
waiting_free (Waiting *waiting)
{
  if (waiting->destroy != NULL)
    waiting->destroy (waiting->user_data);
  g_object_unref (waiting->window);
  g_free (waiting);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Waiting, waiting_free)

static void
save_to (const char *path, Waiting *waiting)
{
  g_autoptr (GError) error = NULL;

  if (hw_window_asks_before_saving_over (waiting->window, path))
    return;
  if (!hw_window_write (waiting->window, path, FALSE, &error))
    {
      hw_window_tell (waiting->window, error->message);
      return;
    }
  hw_window_tell (waiting->window, NULL);
  remember (waiting->window, hw_bench_get_path (waiting->window->bench));
  if (waiting->next != NULL)
    waiting->next (waiting->window, waiting->user_data);
}

/* A name without the ending gets it, unless that would hit another file the person was not asked about. */
static char *
with_suffix (const char *path)
{
  g_autofree char *whole = g_strconcat (path, SCENE_SUFFIX, NULL);

  if (g_str_has_suffix (path, SCENE_SUFFIX) || g_file_test (whole, G_FILE_TEST_EXISTS))
    return g_strdup (path);
  return g_steal_pointer (&whole);
}

/* A scene that was never given a name is called as its first file is. */
static void
name_by_file (HwWindow *window, const char *path)
{
  HwScene *scene = hw_bench_get_scene (window->bench);
  g_autofree char *name = NULL;
  g_autofree char *base = g_path_get_basename (path);
  g_autofree char *shown = g_filename_display_name (base);

  g_object_get (scene, "name", &name, NULL);
  if (hw_bench_get_path (window->bench) != NULL || g_strcmp0 (name, _ ("New scene")) != 0
      || hw_bench_is_editing (window->bench))
    return;
  if (g_str_has_suffix (shown, SCENE_SUFFIX) && strlen (shown) > strlen (SCENE_SUFFIX))
    shown[strlen (shown) - strlen (SCENE_SUFFIX)] = '\0';
  hw_bench_begin_edit (window->bench, _ ("rename the scene"), FALSE);
  g_object_set (scene, "name", shown, NULL);
  hw_bench_end_edit (window->bench);
}

static void
save_picked_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  g_autoptr (Waiting) waiting = user_data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    {
      g_autofree char *whole = with_suffix (path);
      name_by_file (waiting->window, whole);
      save_to (whole, waiting);
    }
  g_object_unref (dialog);
}

static char *
name_for_file (HwWindow *window)
{
  g_autofree char *name = NULL;

  g_object_get (hw_bench_get_scene (window->bench), "name", &name, NULL);
  if (name == NULL || *name == '\0')
    return g_strconcat (_ ("scene"), SCENE_SUFFIX, NULL);
  g_autofree char *whole = g_strconcat (name, SCENE_SUFFIX, NULL);
  return hw_file_name_of (whole);
}

/* Takes over waiting. */
static void
save_as (Waiting *waiting)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (
      _ ("Save the scene"), GTK_WINDOW (waiting->window), GTK_FILE_CHOOSER_ACTION_SAVE, NULL, NULL);
  const char *path = hw_bench_get_path (waiting->window->bench);
  g_autofree char *name = path != NULL ? g_path_get_basename (path) : name_for_file (waiting->window);

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  start_in_last_folder (GTK_FILE_CHOOSER (chooser));
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  g_signal_connect (chooser, "response", G_CALLBACK (save_picked_cb), waiting);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static Waiting *
waiting_new (HwWindow *window, HwWindowNext next, gpointer user_data, GDestroyNotify destroy)
{
  Waiting *waiting = g_new0 (Waiting, 1);

  waiting->window = g_object_ref (window);
  waiting->next = next;
  waiting->user_data = user_data;
  waiting->destroy = destroy;
  return waiting;
}

/* Takes over waiting. */
static void
save (Waiting *waiting)
{
  if (hw_bench_get_path (waiting->window->bench) == NULL)
    {
      save_as (waiting);
      return;
    }
  save_to (NULL, waiting);
  waiting_free (waiting);
}

static void
save_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  save (waiting_new (user_data, NULL, NULL, NULL));
}

static void
save_as_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  save_as (waiting_new (user_data, NULL, NULL, NULL));
}

void
hw_window_save (HwWindow *window, HwWindowNext next, gpointer user_data, GDestroyNotify destroy)
{
  save (waiting_new (window, next, user_data, destroy));
}

static void
ask_for_new (HwWindow *window, gpointer user_data)
{
  hw_window_keep_seen (window);
  hw_new_scene_dialog_show (GTK_WINDOW (window), window->bench);
}

static void
new_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_window_guard (HW_WINDOW (user_data), ask_for_new, NULL, NULL);
}

void
hw_window_add_file_actions (HwWindow *window)
{
  static const GActionEntry entries[] = {
    { "new-scene", new_cb }, { "open", open_cb },       { "open-again", open_again_cb, "s" },
    { "save", save_cb },     { "save-as", save_as_cb },
  };
  g_autoptr (GMenuModel) menu = NULL;

  window->recent_menu = g_menu_new ();
  menu = hw_main_menu_new (window->recent_menu);
  gtk_menu_button_set_menu_model (window->menu_button, menu);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", G_CALLBACK (recent_changed_cb),
                           window, 0);
}

/* The whole window, in one process with the test. */
#include "../folders.h"
#include "window-fixture.h"

#include <glib/gstdio.h>

#include "../workbench/bench-fixture.h"

/* One for all tests of a program: its name on the bus is the process's. */
static GtkApplication *
the_application (void)
{
  static GtkApplication *application;
  g_autoptr (GError) error = NULL;

  if (application != NULL)
    return application;
  application
      = g_object_new (GTK_TYPE_APPLICATION, "application-id", "org.hoopwright.Hoopwright.Room", "flags",
                      G_APPLICATION_NON_UNIQUE, "resource-base-path", "/org/hoopwright/Hoopwright", NULL);
  g_application_register (G_APPLICATION (application), NULL, &error);
  g_assert_no_error (error);
  return application;
}

void
room_set_up (Room *room, gconstpointer data)
{
  g_autoptr (HwBench) orchard = bench_with_orchard ();
  g_autoptr (HwSnapshot) scene = hw_scene_snapshot (hw_bench_get_scene (orchard));
  g_autoptr (GError) error = NULL;

  room->folder = g_dir_make_tmp ("hoopwright-XXXXXX", &error);
  g_assert_no_error (error);
  room->application = the_application ();
  room->window = hw_window_new (room->application);
  room->bench = hw_window_get_bench (room->window);
  hw_bench_start_new (room->bench, scene);
  gtk_window_present (GTK_WINDOW (room->window));
  room_until (gtk_widget_get_mapped (GTK_WIDGET (room->window->canvas))
              && gtk_widget_get_width (GTK_WIDGET (room->window->canvas)) > 0);
  wait_for_plan (room->bench);
  hands_settle ();
}

void
room_tear_down (Room *room, gconstpointer data)
{
  if (room->window != NULL)
    hands_close (GTK_WINDOW (room->window));
  hands_settle ();
  folder_remove (room->folder);
  g_free (room->folder);
}

void
room_do (Room *room, const char *action, GVariant *parameter)
{
  g_action_group_activate_action (G_ACTION_GROUP (room->window), action, parameter);
  hands_settle ();
}

gboolean
room_can (Room *room, const char *action)
{
  return g_action_group_get_action_enabled (G_ACTION_GROUP (room->window), action);
}

char *
room_told (Room *room)
{
  if (!gtk_revealer_get_reveal_child (room->window->message_bar))
    return NULL;
  g_auto (GStrv) parts = g_strsplit (gtk_label_get_label (room->window->message), "\302\240", -1);
  return g_strjoinv (" ", parts);
}

void
room_tells (Room *room, const char *beginning)
{
  g_autofree char *told = room_told (room);

  if (told == NULL || !g_str_has_prefix (told, beginning))
    g_error ("the window tells “%s” instead of “%s”", told != NULL ? told : "", beginning);
}

guint
room_n_windows (void)
{
  GListModel *windows = gtk_window_get_toplevels ();
  guint n = 0;

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      n += gtk_widget_get_visible (window);
    }
  return n;
}

GtkWindow *
room_dialog (Room *room)
{
  GListModel *windows = gtk_window_get_toplevels ();
  GtkWindow *found = NULL;

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (gtk_widget_get_visible (GTK_WIDGET (window)) && gtk_window_get_transient_for (window) != NULL)
        found = window;
    }
  return found;
}

GtkFileChooser *
room_chooser (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (GTK_IS_FILE_CHOOSER_DIALOG (window) && gtk_widget_get_visible (window))
        return GTK_FILE_CHOOSER (window);
    }
  return NULL;
}

static gboolean
has_found (GtkFileChooser *chooser, GFile *wanted)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (chooser);

  return file != NULL && g_file_equal (file, wanted);
}

static void
name_file (GtkFileChooser *chooser, GFile *file)
{
  if (gtk_file_chooser_get_action (chooser) == GTK_FILE_CHOOSER_ACTION_SAVE)
    {
      g_autoptr (GFile) folder = g_file_get_parent (file);
      g_autofree char *name = g_file_get_basename (file);

      gtk_file_chooser_set_current_folder (chooser, folder, NULL);
      gtk_file_chooser_set_current_name (chooser, name);
    }
  else
    gtk_file_chooser_set_file (chooser, file, NULL);
}

void
room_pick (const char *path)
{
  GtkFileChooser *chooser = room_chooser ();

  g_assert_nonnull (chooser);
  if (path != NULL)
    {
      g_autoptr (GFile) file = g_file_new_for_path (path);
      guint waits = 0;

      /* When the dialog has read the folder it began with only now, it may forget the file that was named: it is named again each second. */
      room_until (has_found (chooser, file) || (waits++ % 200 == 0 && (name_file (chooser, file), FALSE)));
    }
  gtk_dialog_response (GTK_DIALOG (chooser), path != NULL ? GTK_RESPONSE_ACCEPT : GTK_RESPONSE_CANCEL);
  hands_settle ();
}

char *
room_path (Room *room, const char *name)
{
  return g_build_filename (room->folder, name, NULL);
}

char *
room_write (Room *room, const char *name, const char *contents)
{
  char *path = room_path (room, name);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, contents, -1, &error);
  g_assert_no_error (error);
  return path;
}

guint
room_n_motifs (Room *room)
{
  return g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (room->bench)));
}

GtkWidget *
room_first (gpointer root, GType type)
{
  if (g_type_is_a (G_OBJECT_TYPE (root), type))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = room_first (child, type);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static gboolean
over_cb (gpointer over)
{
  *(gboolean *)over = TRUE;
  return G_SOURCE_REMOVE;
}

void
room_wait (guint ms)
{
  gboolean over = FALSE;

  g_timeout_add (ms, over_cb, &over);
  while (!over)
    g_main_context_iteration (NULL, TRUE);
}

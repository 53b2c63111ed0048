/* The program: it opens windows on scenes and holds what outlives one window. Started without a scene it goes on with the one open last, else it shows the
 * start page. */
#include "application.h"

#include <glib/gi18n.h>

#include "../drawing/at-work.h"
#include "appearance.h"
#include "command-keys.h"
#include "hidden-windows.h"
#include "window-import.h"
#include "window.h"

struct _HwApplication
{
  GtkApplication parent_instance;

  const char *wanted; /* the action that was asked for on the command line */
};

G_DEFINE_FINAL_TYPE (HwApplication, hw_application, GTK_TYPE_APPLICATION)

static void
hw_application_activate (GApplication *application)
{
  HwApplication *self = HW_APPLICATION (application);
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (window == NULL)
    {
      HwWindow *first = hw_window_new (GTK_APPLICATION (application));

      if (!hw_window_open_last (first))
        hw_window_show_start (first);
      hw_window_want_hints (first);
      hw_window_offer_left_work (first);
      window = GTK_WINDOW (first);
    }
  gtk_window_present (window);
  if (self->wanted != NULL)
    g_action_group_activate_action (G_ACTION_GROUP (application), g_steal_pointer (&self->wanted), NULL);
}

/* The desktop's menu of the program asks for these, whether it runs already or not. What is open in front of a window is answered first. */
static GtkWindow *
show_window (HwApplication *application)
{
  GtkWindow *window;

  if (gtk_application_get_active_window (GTK_APPLICATION (application)) == NULL)
    g_application_activate (G_APPLICATION (application));
  window = gtk_application_get_active_window (GTK_APPLICATION (application));
  gtk_window_present (window);
  return window;
}

static void
new_scene_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  GtkWindow *window = show_window (user_data);

  if (HW_IS_WINDOW (window))
    hw_window_show_start (HW_WINDOW (window));
}

static void
open_scene_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  GtkWindow *window = show_window (user_data);

  if (HW_IS_WINDOW (window))
    g_action_group_activate_action (G_ACTION_GROUP (window), "open", NULL);
}

/* The program that runs already is asked, if there is one; else this one will do it once it has a window. */
static int
hw_application_handle_local_options (GApplication *application, GVariantDict *options)
{
  HwApplication *self = HW_APPLICATION (application);
  g_autoptr (GError) error = NULL;

  if (g_variant_dict_contains (options, "new-scene"))
    self->wanted = "new-scene";
  else if (g_variant_dict_contains (options, "open-scene"))
    self->wanted = "open-scene";
  if (self->wanted == NULL)
    return -1;
  if (!g_application_register (application, NULL, &error))
    {
      g_printerr ("hoopwright: %s\n", error->message);
      return 1;
    }
  if (!g_application_get_is_remote (application))
    return -1;
  g_action_group_activate_action (G_ACTION_GROUP (application), self->wanted, NULL);
  return 0;
}

/* Artwork is known by its ending; everything else is tried as a scene. */
static gboolean
is_artwork (GFile *file)
{
  static const char *const endings[] = { ".csv", ".svg", ".png", ".jpg", ".jpeg", ".pdf" };
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *lower = g_ascii_strdown (name != NULL ? name : "", -1);

  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (lower, endings[i]))
      return TRUE;
  return FALSE;
}

#define MOST_AT_ONCE 20 /* scenes: more is a slip of the hand */

/* Each scene gets a window; artwork given with it comes into the last one, else into the one that is open. */
static void
hw_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  g_autoptr (GStrvBuilder) artwork = g_strv_builder_new ();
  g_auto (GStrv) paths = NULL;
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));
  gboolean first = window == NULL;
  int n_scenes = 0;

  for (int i = 0; i < n_files; i++)
    {
      if (is_artwork (files[i]) && g_file_peek_path (files[i]) != NULL)
        {
          g_strv_builder_add (artwork, g_file_peek_path (files[i]));
          continue;
        }
      if (++n_scenes > MOST_AT_ONCE)
        {
          if (HW_IS_WINDOW (window))
            hw_window_tell (HW_WINDOW (window),
                            _ ("More than 20 scenes at once are too many; the others were not opened."));
          break;
        }
      window = GTK_WINDOW (hw_window_new (GTK_APPLICATION (application)));
      gtk_window_present (window);
      hw_window_open (HW_WINDOW (window), files[i]);
      if (i == 0 && first)
        hw_window_offer_left_work (HW_WINDOW (window));
    }
  paths = g_strv_builder_end (artwork);
  if (paths[0] == NULL)
    return;
  while (window != NULL && !HW_IS_WINDOW (window))
    window = gtk_window_get_transient_for (window);
  if (window == NULL)
    window = GTK_WINDOW (hw_window_new (GTK_APPLICATION (application)));
  gtk_window_present (window);
  hw_window_add_motif_files (HW_WINDOW (window), (const char *const *)paths, NULL);
}

/* Windows are asked to close one by one, so that each can speak of its unsaved work. */
static void
quit_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (user_data)));

  for (GList *l = windows; l != NULL; l = l->next)
    gtk_window_close (GTK_WINDOW (l->data));
}

static void
hw_application_startup (GApplication *application)
{
  static const GActionEntry actions[]
      = { { "quit", quit_cb }, { "new-scene", new_scene_cb }, { "open-scene", open_scene_cb } };
  GtkApplication *app = GTK_APPLICATION (application);

  G_APPLICATION_CLASS (hw_application_parent_class)->startup (application);

  hw_at_work_add_end ();
  hw_hidden_windows_answer ();
  gtk_window_set_default_icon_name (HW_APPLICATION_ID);
  hw_appearance_add_style ();
  hw_appearance_follow_desktop ();
  g_action_map_add_action_entries (G_ACTION_MAP (app), actions, G_N_ELEMENTS (actions), app);
  hw_command_keys_for_program (app);
}

static void
hw_application_class_init (HwApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  application_class->startup = hw_application_startup;
  application_class->activate = hw_application_activate;
  application_class->open = hw_application_open;
  application_class->handle_local_options = hw_application_handle_local_options;
}

static void
hw_application_init (HwApplication *application)
{
  static const GOptionEntry options[] = {
    { "new-scene", 0, 0, G_OPTION_ARG_NONE, NULL, N_ ("Open the workbench on a new scene"), NULL },
    { "open-scene", 0, 0, G_OPTION_ARG_NONE, NULL, N_ ("Open the workbench and ask for a scene"), NULL },
    { NULL },
  };

  g_application_add_main_option_entries (G_APPLICATION (application), options);
}

int
hw_application_main (int argc, char **argv)
{
  g_set_prgname ("hoopwright");
  g_set_application_name (_ ("Hoopwright"));

  g_autoptr (GApplication) application
      = g_object_new (HW_TYPE_APPLICATION, "application-id", HW_APPLICATION_ID, "flags",
                      G_APPLICATION_HANDLES_OPEN, "resource-base-path", "/org/hoopwright/Hoopwright", NULL);
  return g_application_run (application, argc, argv);
}

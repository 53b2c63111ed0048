#include "command-keys.h"

#include "command-list.h"

void
hw_command_keys_for_program (GtkApplication *application)
{
  guint n;
  const HwCommand *commands = hw_commands (&n);

  for (guint i = 0; i < n; i++)
    {
      g_auto (GStrv) keys = NULL;

      if (commands[i].keys == NULL || commands[i].reach != HW_KEYS_EVERYWHERE)
        continue;
      keys = g_strsplit (commands[i].keys, " ", -1);
      gtk_application_set_accels_for_action (application, commands[i].action, (const char *const *)keys);
    }
}

static GtkShortcut *
shortcut_new (const char *action, const char *key)
{
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;
  GtkShortcut *shortcut;

  if (!g_action_parse_detailed_name (action, &name, &target, NULL))
    g_return_val_if_reached (NULL);
  shortcut = gtk_shortcut_new (gtk_shortcut_trigger_parse_string (key), gtk_named_action_new (name));
  if (target != NULL)
    gtk_shortcut_set_arguments (shortcut, target);
  return shortcut;
}

void
hw_command_keys_for_window (GtkWidget *window)
{
  guint n;
  const HwCommand *commands = hw_commands (&n);
  GtkEventController *controller = gtk_shortcut_controller_new ();

  for (guint i = 0; i < n; i++)
    {
      g_auto (GStrv) keys = NULL;

      if (commands[i].keys == NULL || commands[i].reach != HW_KEYS_AFTER_FIELD)
        continue;
      keys = g_strsplit (commands[i].keys, " ", -1);
      for (char **key = keys; *key != NULL; key++)
        gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller),
                                              shortcut_new (commands[i].action, *key));
    }
  gtk_widget_add_controller (window, controller);
}

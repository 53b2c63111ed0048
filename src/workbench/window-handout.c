/* What leaves the window as files: the dialog for all of it, and the needle list of the chosen hooping by its menu. */
#include <glib/gi18n.h>

#include "../formats/needle-write.h"
#include "handout-dialog.h"
#include "handout-work.h"
#include "settings.h"
#include "window-private.h"

/* The hooping whose list is to be saved, as long as the person looks for a place. */
typedef struct
{
  HwPlan *plan;
  guint hooping;
} Asked;

static void
asked_free (gpointer data)
{
  Asked *asked = data;

  hw_plan_unref (asked->plan);
  g_free (asked);
}

static int
chosen_hooping (HwWindow *window)
{
  const HwPlan *plan = hw_bench_get_plan (window->bench);
  int chosen = hw_bench_get_chosen_hooping (window->bench);

  return plan != NULL && chosen < (int)plan->n_hoopings ? chosen : -1;
}

static void
save_list (HwWindow *window, const Asked *asked, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHoopingNeedles) needles = hw_hooping_needles_new (asked->plan, asked->hooping, NULL, &error);
  g_autofree char *name = g_filename_display_basename (path);
  g_autofree char *saved = NULL;

  if (needles == NULL || !hw_hooping_needles_save (needles, path, &error))
    {
      hw_window_tell (window, error->message);
      return;
    }
  saved = g_strdup_printf (_ ("The needle list of hooping %u was saved as “%s”."), asked->hooping + 1, name);
  hw_window_tell (window, saved);
}

static void
place_cb (GtkNativeDialog *chooser, int response, HwWindow *window)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  gtk_native_dialog_hide (chooser);
  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    save_list (window, g_object_get_data (G_OBJECT (chooser), "asked"), path);
  g_object_unref (chooser);
}

static void
ask_for_place (HwWindow *window, const HwPlan *plan, guint hooping)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (
      _ ("Save needle list (.csv or .svg)"), GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_SAVE, NULL, NULL);
  g_autofree char *name = hw_handout_needles_name (plan, hooping, "csv");
  const char *beside = hw_bench_get_folder (window->bench);
  Asked *asked = g_new (Asked, 1);

  *asked = (Asked){ hw_plan_ref (plan), hooping };
  g_object_set_data_full (G_OBJECT (chooser), "asked", asked, asked_free);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  if (beside != NULL)
    {
      g_autoptr (GFile) folder = g_file_new_for_path (beside);
      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), folder, NULL);
    }
  g_signal_connect_object (chooser, "response", G_CALLBACK (place_cb), window, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

/* What keeps it from being written is told before anybody looks for a place. */
static void
save_needles_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  const char *why;
  const HwPlan *plan = hw_bench_get_ready_plan (window->bench, &why);
  int chosen = chosen_hooping (window);
  g_autoptr (HwHoopingNeedles) needles = NULL;
  g_autoptr (GError) error = NULL;

  if (chosen < 0)
    return;
  if (plan == NULL)
    {
      hw_window_tell (window, why);
      return;
    }
  needles = hw_hooping_needles_new (plan, (guint)chosen, NULL, &error);
  if (needles == NULL)
    hw_window_tell (window, error->message);
  else
    ask_for_place (window, plan, (guint)chosen);
}

static void
take_along_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_handout_dialog_show (GTK_WINDOW (user_data), HW_WINDOW (user_data)->bench);
}

static const GActionEntry entries[] = {
  { "take-along", take_along_cb },
  { "save-needles", save_needles_cb },
};

void
hw_window_update_handouts (HwWindow *window)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), "save-needles");

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), chosen_hooping (window) >= 0);
}

void
hw_window_add_handouts (HwWindow *window)
{
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
}

/* The question about unsaved work. It is asked before anything lets go of a scene; going on working is always the way out that loses
 * nothing. */
#include "window.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"
#include "window-private.h"

/* What waits for the answer; freed with the dialog. */
typedef struct
{
  HwWindow *window;
  HwWindowNext next;
  gpointer user_data;
  GDestroyNotify destroy;
} Waiting;

static void
waiting_free (gpointer data)
{
  Waiting *waiting = data;

  if (waiting->destroy != NULL)
    waiting->destroy (waiting->user_data);
  g_object_unref (waiting->window);
  g_free (waiting);
}

static void
stay_cb (GtkButton *button, GtkWindow *dialog)
{
  gtk_window_close (dialog);
}

static void
leave_cb (GtkButton *button, GtkWindow *dialog)
{
  Waiting *waiting = g_object_steal_data (G_OBJECT (dialog), "waiting");

  gtk_window_destroy (dialog);
  waiting->next (waiting->window, waiting->user_data);
  waiting_free (waiting);
}

static void
save_cb (GtkButton *button, GtkWindow *dialog)
{
  Waiting *waiting = g_object_steal_data (G_OBJECT (dialog), "waiting");

  gtk_window_destroy (dialog);
  hw_window_save (waiting->window, waiting->next, waiting->user_data, waiting->destroy);
  waiting->destroy = NULL;
  waiting_free (waiting);
}

static GtkWidget *
answer (GtkWidget *foot, const char *label, const char *css_class, GCallback clicked, GtkWindow *dialog)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  if (css_class != NULL)
    gtk_widget_add_css_class (button, css_class);
  g_signal_connect (button, "clicked", clicked, dialog);
  gtk_box_append (GTK_BOX (foot), button);
  return button;
}

static void
ask (Waiting *waiting)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *foot = hw_dialog_foot ();
  g_autofree char *name = NULL;

  g_object_get (hw_bench_get_scene (waiting->window->bench), "name", &name, NULL);
  g_autofree char *question = g_strdup_printf (_ ("Save “%s” first?"), name);
  GtkWidget *heading = hw_dialog_words (question);
  gtk_widget_add_css_class (heading, "dialog-heading");
  gtk_box_append (GTK_BOX (content), heading);
  gtk_box_append (GTK_BOX (content), hw_dialog_words (_ ("There is work in it that is not saved.")));
  gtk_box_append (GTK_BOX (content), foot);

  GtkWindow *dialog = hw_dialog_new (GTK_WINDOW (waiting->window), _ ("Not saved yet"), content, -1, -1);
  hw_help_mark (dialog, "keeping");
  gtk_window_set_resizable (dialog, FALSE);
  g_object_set_data_full (G_OBJECT (dialog), "waiting", waiting, waiting_free);
  answer (foot, _ ("Go on working"), NULL, G_CALLBACK (stay_cb), dialog);
  answer (foot, _ ("Leave without saving"), "destructive-action", G_CALLBACK (leave_cb), dialog);
  GtkWidget *save = answer (foot, _ ("Save"), "suggested-action", G_CALLBACK (save_cb), dialog);
  gtk_window_set_default_widget (dialog, save);
  gtk_window_set_focus (dialog, save);
  gtk_window_present (dialog);
}

void
hw_window_guard (HwWindow *window, HwWindowNext next, gpointer user_data, GDestroyNotify destroy)
{
  gboolean modified;

  hw_bench_end_edit (window->bench);
  g_object_get (window->bench, "modified", &modified, NULL);
  if (!modified)
    {
      next (window, user_data);
      if (destroy != NULL)
        destroy (user_data);
      return;
    }
  Waiting *waiting = g_new0 (Waiting, 1);
  waiting->window = g_object_ref (window);
  waiting->next = next;
  waiting->user_data = user_data;
  waiting->destroy = destroy;
  ask (waiting);
}

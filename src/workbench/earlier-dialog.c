/* Earlier states of the scene. Bringing one back is a step like any other: it can be undone, and the file stays as it is until it is saved. */
#include "earlier-dialog.h"

#include <glib/gi18n.h>

#include "../formats/earlier-states.h"
#include "dialog.h"
#include "help-place.h"

typedef struct
{
  HwBench *bench;
  GPtrArray *states;
  GtkWidget *trouble;
} Earlier;

static void
earlier_free (gpointer data)
{
  Earlier *earlier = data;

  g_object_unref (earlier->bench);
  g_ptr_array_unref (earlier->states);
  g_free (earlier);
}

static void
bring_back_cb (GtkButton *button, GtkWindow *dialog)
{
  Earlier *earlier = g_object_get_data (G_OBJECT (dialog), "earlier");
  guint which = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "state"));
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) snapshot = hw_earlier_state_read (g_ptr_array_index (earlier->states, which),
                                                           hw_bench_get_path (earlier->bench), &error);

  if (snapshot == NULL)
    {
      gtk_label_set_label (GTK_LABEL (earlier->trouble), error->message);
      gtk_widget_set_visible (earlier->trouble, TRUE);
      return;
    }
  hw_bench_begin_edit (earlier->bench, _ ("bring back an earlier state"), FALSE);
  hw_scene_restore (hw_bench_get_scene (earlier->bench), snapshot);
  hw_bench_end_edit (earlier->bench);
  gtk_window_close (dialog);
}

static GtkWidget *
make_row (GtkWindow *dialog, const HwEarlierState *state, guint which)
{
  g_autoptr (GDateTime) when = g_date_time_new_from_unix_local (state->saved);
  g_autofree char *words
      = when != NULL ? g_date_time_format (when, _ ("%A, %e %B %Y, %H:%M")) : g_strdup ("?");
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = gtk_label_new (words);
  GtkWidget *button = gtk_button_new_with_label (_ ("Bring back"));
  g_autofree char *spoken = g_strdup_printf (_ ("Bring back the state of %s"), words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  g_object_set_data (G_OBJECT (button), "state", GUINT_TO_POINTER (which));
  g_signal_connect (button, "clicked", G_CALLBACK (bring_back_cb), dialog);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), button);
  return row;
}

void
hw_earlier_dialog_show (GtkWindow *parent, HwBench *bench)
{
  const char *path = hw_bench_get_path (bench);

  g_return_if_fail (HW_IS_BENCH (bench) && path != NULL);

  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWindow *dialog = hw_dialog_new (parent, _ ("Earlier states"), content, 460, -1);
  Earlier *earlier = g_new0 (Earlier, 1);

  earlier->bench = g_object_ref (bench);
  earlier->states = hw_earlier_states_list (NULL, path);
  earlier->trouble = hw_dialog_words ("");
  g_object_set_data_full (G_OBJECT (dialog), "earlier", earlier, earlier_free);
  gtk_box_append (
      GTK_BOX (content),
      hw_dialog_words (
          earlier->states->len > 0
              ? _ ("What the file held before it was saved over. Bringing a state back can be undone, "
                   "and the file stays as it is until you save.")
              : _ ("Nothing yet. Each time the scene is saved, what the file held before is kept here, "
                   "the last ten times.")));
  for (guint i = 0; i < earlier->states->len; i++)
    gtk_box_append (GTK_BOX (content), make_row (dialog, g_ptr_array_index (earlier->states, i), i));
  gtk_widget_set_visible (earlier->trouble, FALSE);
  gtk_box_append (GTK_BOX (content), earlier->trouble);
  hw_help_mark (dialog, "keeping");
  gtk_window_present (dialog);
}

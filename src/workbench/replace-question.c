/* Going back is the way out that loses nothing, and what the Enter key does. */
#include "replace-question.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"

#define MOST_NAMED 6

void
hw_append_few (GString *text, GPtrArray *sentences, guint most)
{
  g_return_if_fail (text != NULL && sentences != NULL);

  for (guint i = 0; i < MIN (sentences->len, most); i++)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", (const char *)sentences->pdata[i]);
  if (sentences->len <= most)
    return;
  g_string_append_c (text, '\n');
  g_string_append_printf (text, ngettext ("And %u more.", "And %u more.", sentences->len - most),
                          sentences->len - most);
}

static void
go_back_cb (GtkButton *button, GtkWindow *question)
{
  gtk_window_close (question);
}

static void
replace_cb (GtkButton *button, GtkWindow *question)
{
  g_autoptr (GtkWindow) parent = g_object_ref (gtk_window_get_transient_for (question));
  HwReplace replace = (HwReplace)g_object_get_data (G_OBJECT (question), "replace");

  gtk_window_destroy (question);
  replace (parent);
}

void
hw_ask_to_replace (GtkWindow *parent, const char *folder, GPtrArray *names, HwReplace replace)
{
  g_return_if_fail (GTK_IS_WINDOW (parent) && folder != NULL && names != NULL && replace != NULL);

  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18), *foot = hw_dialog_foot ();
  GtkWidget *back = gtk_button_new_with_label (_ ("Go back"));
  GtkWidget *yes = gtk_button_new_with_label (_ ("Replace"));
  g_autofree char *shown = g_filename_display_basename (folder);
  g_autofree char *where = g_strdup_printf (_ ("In the folder “%s” there is already:"), shown);
  g_autofree char *asked
      = g_strdup_printf (ngettext ("Replace %u file?", "Replace %u files?", names->len), names->len);
  g_autoptr (GString) few = g_string_new (NULL);
  GtkWidget *heading = hw_dialog_words (asked);
  GtkWindow *question;

  hw_append_few (few, names, MOST_NAMED);
  gtk_widget_add_css_class (heading, "dialog-heading");
  gtk_widget_add_css_class (yes, "destructive-action");
  gtk_box_append (GTK_BOX (content), heading);
  gtk_box_append (GTK_BOX (content), hw_dialog_words (where));
  gtk_box_append (GTK_BOX (content), hw_dialog_words (few->str));
  gtk_box_append (GTK_BOX (foot), back);
  gtk_box_append (GTK_BOX (foot), yes);
  gtk_box_append (GTK_BOX (content), foot);
  question = hw_dialog_new (parent, _ ("Already there"), content, -1, -1);
  hw_help_mark (question, "take-along");
  gtk_window_set_resizable (question, FALSE);
  g_object_set_data (G_OBJECT (question), "replace", (gpointer)replace);
  g_signal_connect (back, "clicked", G_CALLBACK (go_back_cb), question);
  g_signal_connect (yes, "clicked", G_CALLBACK (replace_cb), question);
  gtk_window_set_focus (question, back);
  gtk_window_present (question);
}

/* The plain frame every dialog of the workbench stands in. */
#include "dialog.h"

#include "help-place.h"
#include "help-window.h"

static gboolean
close_cb (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static gboolean
help_cb (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  hw_help_show (GTK_WINDOW (widget), hw_help_page_at (GTK_WINDOW (widget)));
  return TRUE;
}

/* GTK ends the dialog with the window it stands over. One that is held longer, by what a thread still does for it, would go on pointing at that window (seen
 * with GTK 4.8), and reach for it when it is let go of at last. */
static void
parent_gone_cb (GtkWidget *parent, GtkWindow *dialog)
{
  gtk_window_set_transient_for (dialog, NULL);
}

GtkWindow *
hw_dialog_new (GtkWindow *parent, const char *title, GtkWidget *content, int width, int height)
{
  GtkWindow *dialog = g_object_new (GTK_TYPE_WINDOW, "accessible-role", GTK_ACCESSIBLE_ROLE_DIALOG, NULL);
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_window_set_title (dialog, title);
  gtk_window_set_transient_for (dialog, parent);
  gtk_window_set_modal (dialog, TRUE);
  gtk_window_set_destroy_with_parent (dialog, TRUE);
  if (parent != NULL)
    g_signal_connect_object (parent, "destroy", G_CALLBACK (parent_gone_cb), dialog, G_CONNECT_AFTER);
  gtk_window_set_default_size (dialog, width, height);
  gtk_window_set_titlebar (dialog, gtk_header_bar_new ());
  gtk_window_set_child (dialog, content);
  gtk_widget_add_css_class (GTK_WIDGET (dialog), "workbench");
  gtk_widget_add_css_class (content, "dialog-content");

  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                          gtk_callback_action_new (close_cb, NULL, NULL)));
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_F1, 0),
                                                          gtk_callback_action_new (help_cb, NULL, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (dialog), keys);
  return dialog;
}

GtkWidget *
hw_dialog_foot (void)
{
  GtkWidget *foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_widget_set_halign (foot, GTK_ALIGN_END);
  gtk_widget_add_css_class (foot, "dialog-foot");
  return foot;
}

GtkWidget *
hw_dialog_pair (GtkWidget *first, GtkWidget *second)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_box_set_homogeneous (GTK_BOX (box), TRUE);
  gtk_box_append (GTK_BOX (box), first);
  gtk_box_append (GTK_BOX (box), second);
  return box;
}

void
hw_wrap_words (GtkWidget *label)
{
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  /* Where single letters differ in width GTK 4.8 finds one least width without a height and another with it, and criticises itself. */
  gtk_label_set_width_chars (GTK_LABEL (label), MAX (gtk_label_get_width_chars (GTK_LABEL (label)), 8));
}

GtkWidget *
hw_dialog_words (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  hw_wrap_words (label);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 48);
  return label;
}

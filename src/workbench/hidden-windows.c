/* What a screen reader is told of windows that are not on the screen.
 *
 * GTK (4.8.3, gtk/a11y/gtkatspiroot.c, "GetChildAtIndex") answers the question for the program's window number n with the last window of its list when there
 * is no such number, which happens to every reader that counts the windows just before one of them closes. A window has a path on the accessibility bus only
 * while it is mapped. So when the last window of the list is a hidden one, such as the page of keys that GTK makes with the program's first window, it makes its
 * answer of no path, and g_variant_new() of that ends the program, the person's work with it.
 *
 * Hidden windows are therefore given a path, again each time GTK has taken it away. The one call from outside that makes GTK give one is to change
 * whether a widget may have the keyboard; it is changed and changed back. */
#include "hidden-windows.h"

static void
give_path (GtkWidget *window)
{
  gboolean focusable = gtk_widget_get_focusable (window);

  gtk_widget_set_focusable (window, !focusable);
  gtk_widget_set_focusable (window, focusable);
}

/* GTK takes the path away in its own handler, which runs first. */
static void
unmap_cb (GtkWidget *window, gpointer user_data)
{
  give_path (window);
}

/* A role is set after the window is made and cannot be set once there is a path. Nothing that the bus asks is answered before this: what is ready
 * at a higher priority goes first. */
static gboolean
made_cb (gpointer user_data)
{
  GtkWidget *window = user_data;

  if (!gtk_widget_get_mapped (window))
    give_path (window);
  return G_SOURCE_REMOVE;
}

static void
windows_changed_cb (GListModel *windows, guint position, guint removed, guint added, gpointer user_data)
{
  for (guint i = position; i < position + added; i++)
    {
      GtkWidget *window = g_list_model_get_item (windows, i);

      g_signal_connect (window, "unmap", G_CALLBACK (unmap_cb), NULL);
      g_idle_add_full (G_PRIORITY_HIGH, made_cb, window, g_object_unref);
    }
}

void
hw_hidden_windows_answer (void)
{
  g_signal_connect (gtk_window_get_toplevels (), "items-changed", G_CALLBACK (windows_changed_cb), NULL);
}

/* Widgets carry the name of their page; the nearest one above the focus counts. */
#include "help-place.h"

#define PAGE "guide-page"

void
hw_help_mark (gpointer widget, const char *page)
{
  g_return_if_fail (GTK_IS_WIDGET (widget));

  g_object_set_data (G_OBJECT (widget), PAGE, (gpointer)page);
}

const char *
hw_help_page_at (GtkWindow *window)
{
  g_return_val_if_fail (GTK_IS_WINDOW (window), NULL);

  GtkWidget *place = gtk_window_get_focus (window);

  if (place == NULL)
    place = GTK_WIDGET (window);
  for (; place != NULL; place = gtk_widget_get_parent (place))
    {
      const char *page = g_object_get_data (G_OBJECT (place), PAGE);

      if (page != NULL)
        return page;
    }
  return NULL;
}

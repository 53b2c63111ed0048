/* Which page of the guide belongs to the place a person is at: a view, a section of the side pane, a dialog. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Names the page (a file's name under help/C without its ending, a string that stays) for a widget and what lies in it. widget: any GtkWidget */
void
hw_help_mark (gpointer widget, const char *page);
/* The page of the place where the focus is in the window; of the window itself when nothing there is marked; NULL: no page in particular. */
const char *
hw_help_page_at (GtkWindow *window);

G_END_DECLS

/* The guide. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Opens the guide at a page (a file's name under help/C without its ending; NULL: at its beginning) in the desktop's help reader; without one it is shown
 * in a window of the program. */
void
hw_help_show (GtkWindow *parent, const char *page);

G_END_DECLS

/* The guide. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Opens the guide in the desktop's help reader; without one its pages are shown in a window of the program. */
void
hw_help_show (GtkWindow *parent);

G_END_DECLS

/* What the program is. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

void
hw_about_show (GtkWindow *parent);

G_END_DECLS

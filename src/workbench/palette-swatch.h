/* A patch of a thread's colour. */
#pragma once

#include <gtk/gtk.h>

#include "../scene/colour.h"

G_BEGIN_DECLS

/* side: px. Light falls on it as on thread laid side by side. */
GtkWidget *
hw_palette_swatch_new (HwColour colour, int side);

G_END_DECLS

/* Whether the desktop asks for high contrast. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* TRUE while the theme is one of high contrast: GTK's own Default-hc, light or dark, or any whose name says so. The desktop's switch
 * for high contrast sets such a theme; GTK_THEME, when it is set, stands over it, as it does for GTK. */
gboolean
hw_contrast_is_high (GtkSettings *settings);
/* The same of a theme's name, with or without its variant after a colon; NULL is none. */
gboolean
hw_contrast_theme_is_high (const char *theme);

G_END_DECLS

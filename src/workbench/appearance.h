/* Light or dark, as the desktop is. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Follows the desktop's wish for dark or light windows from now on, where the desktop has one (freedesktop appearance settings, read
 * from the portal). A theme named in GTK_THEME comes first. */
void
hw_appearance_follow_desktop (void);
/* Adds the program's own style sheet to the default display. */
void
hw_appearance_add_style (void);

G_END_DECLS

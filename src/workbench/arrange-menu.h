/* The menu of arranging, the same under the main menu and under a motif. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* Appends its entries. */
void
hw_arrange_menu_fill (GMenu *menu);

G_END_DECLS

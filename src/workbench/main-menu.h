/* The main menu. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* recent: to be filled with the scenes used last. Returns: (transfer full) */
GMenuModel *
hw_main_menu_new (GMenu *recent);
/* One entry for a command of the table, under its name there. */
void
hw_menu_append_command (GMenu *menu, const char *action);
/* A section of them; actions ends with NULL. */
void
hw_menu_append_commands (GMenu *menu, const char *const *actions);

G_END_DECLS

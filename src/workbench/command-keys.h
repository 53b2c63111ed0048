/* The keys of the table of commands, given to the program and to its windows. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Those that also work while something is typed in a field. */
void
hw_command_keys_for_program (GtkApplication *application);
/* Those that a field may use first: Delete, Ctrl+A, Ctrl+Z ... */
void
hw_command_keys_for_window (GtkWidget *window);

G_END_DECLS

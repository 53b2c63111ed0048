/* Hidden windows, as a screen reader finds them. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* From now on no question of a screen reader about the program's windows can end the program. Call it once, before the first window. */
void
hw_hidden_windows_answer (void);

G_END_DECLS

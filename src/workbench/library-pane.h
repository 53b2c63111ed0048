/* A folder of motifs to take from: pictures, searched by name, dragged to the cloth or put there by Enter. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_LIBRARY_PANE (hw_library_pane_get_type ())
G_DECLARE_FINAL_TYPE (HwLibraryPane, hw_library_pane, HW, LIBRARY_PANE, GtkBox)

/* Activates the action "win.add-motif-file" with a path. Looks into the folder when it is first seen, and each time it is seen again. */
GtkWidget *
hw_library_pane_new (void);

G_END_DECLS

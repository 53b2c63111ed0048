/* Hands for the tests of views and dialogs: they find what has a name, press it, and wait until all is drawn. */
#pragma once

#include <gtk/gtk.h>

#include "workbench/bench.h"

G_BEGIN_DECLS

/* For main(): FALSE when there is no display; then it has been said and the tests are skipped. */
gboolean
hands_ready (int *argc, char ***argv);
/* Runs the main loop until nothing is left to do. */
void
hands_settle (void);
/* GTK 4.8 asks for a tooltip half a second after a menu was opened, and criticises itself when menu or window have gone by then. It keeps what it waits for at the display. */
void
hands_forget_tooltip (void);
/* Destroys the window, and waits until all is done that comes of it. */
void
hands_close (GtkWindow *window);
/* Waits for the next frame of the widget's window: motions come with it, and what was changed is laid out and drawn. */
void
hands_frame (GtkWidget *widget);
/* A window of that size around the widget, on the screen. Returns: (transfer none): ended by hands_close() */
GtkWindow *
hands_show (GtkWidget *widget, int width, int height);
/* The window on the screen with that title, or NULL. (transfer none) */
GtkWindow *
hands_window (const char *title);
/* What a screen reader calls so, within the root: its label for others, or what is written on it. A failed check when there is none. (transfer none) */
GtkWidget *
hands_find (gpointer root, GType type, const char *name);
/* The first label in sight within the root that begins so, with plain spaces; or NULL. (transfer full) */
char *
hands_sentence (gpointer root, const char *beginning);
/* Fails where there is none. */
void
hands_says (gpointer root, const char *beginning);
/* Clicks a button. */
void
hands_click (gpointer root, const char *name);
/* Types a text in place of what stands in an entry or a field, and presses Enter. */
void
hands_type (GtkWidget *entry, const char *text);
/* The key is pressed with the widget at hand. Returns: whether it was taken */
gboolean
hands_key (GtkWidget *widget, guint key, GdkModifierType held);
/* The pointer of the display: "move", "press" and "release" (the first button), "menu" (the third), "wheel-up" at a place of the widget. Waits until the widget has heard of it. */
void
hands_pointer (GtkWidget *widget, const char *what, double x, double y);
/* What the widget shows now, 32 bits a pixel. Returns: ended by cairo_surface_destroy() */
cairo_surface_t *
hands_picture (GtkWidget *widget);
/* A row of its pixels, 0xRRGGBB with eight bits above that say nothing. */
const guint32 *
hands_row (cairo_surface_t *picture, int y);
/* How many pixels of what the widget shows now are red rather than anything else. */
guint
hands_reddish (GtkWidget *widget);
/* The controller of that type on the widget itself. (transfer none) */
GtkEventController *
hands_controller (GtkWidget *widget, GType type);

G_END_DECLS

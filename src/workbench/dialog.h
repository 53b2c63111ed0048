/* The plain frame every dialog of the workbench stands in. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A window over parent that Escape closes, around content; F1 opens the guide at the page it is marked with (help-place.h). Returns: (transfer none): not shown yet */
GtkWindow *
hw_dialog_new (GtkWindow *parent, const char *title, GtkWidget *content, int width, int height);
/* An empty row for the buttons at the foot of a dialog. */
GtkWidget *
hw_dialog_foot (void);
/* Two widgets side by side, equally wide. */
GtkWidget *
hw_dialog_pair (GtkWidget *first, GtkWidget *second);
/* Wraps a label between words, and within one that is longer than a line, as a name may be. */
void
hw_wrap_words (GtkWidget *label);
/* A wrapped line of explanation. */
GtkWidget *
hw_dialog_words (const char *text);

G_END_DECLS

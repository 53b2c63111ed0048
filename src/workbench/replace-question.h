/* The question before files that are there already are replaced. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Names the files (element-type utf8), a few of them at least, and the folder they are in. replace is called when the person wants it so, and only then;
 * not once parent is closed. */
typedef void (*HwReplace) (GtkWindow *parent);
void
hw_ask_to_replace (GtkWindow *parent, const char *folder, GPtrArray *names, HwReplace replace);

/* Adds at most so many of the sentences, each on a line, and how many more there are. */
void
hw_append_few (GString *text, GPtrArray *sentences, guint most);

G_END_DECLS

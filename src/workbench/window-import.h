/* The window and the motifs people have as files. */
#pragma once

#include "window.h"

G_BEGIN_DECLS

/* Reads the files on a worker and puts what they hold on the cloth about a point (NULL: its middle), asking where something must be asked. What cannot be
 * read is told; the others come in. paths: NULL-terminated */
void
hw_window_add_motif_files (HwWindow *window, const char *const *paths, const HwPoint *at);
/* A file chosen where a scene was asked for: opens it, or takes in what is artwork by its ending, asking of a picture what it shows. */
void
hw_window_open_or_add (HwWindow *window, GFile *file);
void
hw_window_add_import_actions (HwWindow *window);
/* Brings their state in line with the bench. */
void
hw_window_update_import (HwWindow *window);

G_END_DECLS

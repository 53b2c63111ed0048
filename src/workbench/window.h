/* The window: header, the table with the cloth, the side pane, the plan's sentence and the course. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"
#include "canvas.h"

G_BEGIN_DECLS

#define HW_TYPE_WINDOW (hw_window_get_type ())
G_DECLARE_FINAL_TYPE (HwWindow, hw_window, HW, WINDOW, GtkApplicationWindow)

HwWindow *
hw_window_new (GtkApplication *application);
HwBench *
hw_window_get_bench (HwWindow *window);
HwCanvas *
hw_window_get_canvas (HwWindow *window);

/* Opens a scene in this window. One that cannot be opened is told in the window; the scene there stays. */
void
hw_window_open (HwWindow *window, GFile *file);
/* The same, as a copy that has no file yet. */
void
hw_window_open_copy (HwWindow *window, const char *path);

/* Opens the scene that was open when the last window closed. FALSE when there is none, or it cannot be opened; the window then says why. */
gboolean
hw_window_open_last (HwWindow *window);

/* Shows the start page: a new scene, the scenes used last, two to look around in. The scene there stays. */
void
hw_window_show_start (HwWindow *window);

/* Hints are shown in this window from now on, as they fall due and were not put away. */
void
hw_window_want_hints (HwWindow *window);

/* Asks about unsaved work that an earlier run left behind, one scene after the other. */
void
hw_window_offer_left_work (HwWindow *window);

/* Tells one sentence at the top of the window until it is closed or replaced; NULL takes it away. */
void
hw_window_tell (HwWindow *window, const char *sentence);
/* Opens the side pane with the list of problems unfolded. */
void
hw_window_show_problems (HwWindow *window);

G_END_DECLS

/* The start page: a new scene at the left; at the right the scenes used last, and two to look around in, as pictures. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_START_PAGE (hw_start_page_get_type ())
G_DECLARE_FINAL_TYPE (HwStartPage, hw_start_page, HW, START_PAGE, GtkBox)

/* Signals: "begin" (gpointer: const HwSnapshot *): a new scene, laid out as the person chose. "open" (const char *path, gboolean copy): a scene was chosen;
 * copy: as one without a file yet. "leave" (): back to the scene there is. Uses the window's action "open". */
GtkWidget *
hw_start_page_new (HwBench *bench);
/* Looks again which scenes were used last. back: the name of the scene to go back to, or NULL when there is none. */
void
hw_start_page_refresh (HwStartPage *page, const char *back);
void
hw_start_page_focus (HwStartPage *page);

G_END_DECLS

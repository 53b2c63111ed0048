/* The search for commands: a few letters find what the window can do, and motifs and hoopings by name. */
#pragma once

#include "window.h"

G_BEGIN_DECLS

#define HW_TYPE_COMMAND_SEARCH (hw_command_search_get_type ())
G_DECLARE_FINAL_TYPE (HwCommandSearch, hw_command_search, HW, COMMAND_SEARCH, GtkPopover)

/* window must outlive it: it is a part of it. */
GtkWidget *
hw_command_search_new (HwWindow *window);

G_END_DECLS

/* The scenes that were open last, newest first, as the desktop remembers them. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Those that are still there, at most so many. Returns: (transfer full): GtkRecentInfo; free with g_list_free_full (..., gtk_recent_info_unref) */
GList *
hw_recent_scenes (guint most);

G_END_DECLS

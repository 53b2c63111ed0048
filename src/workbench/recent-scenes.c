/* Scenes among the files the desktop remembers. */
#include "recent-scenes.h"

#define SCENE_SUFFIX ".hoopscene"

static int
newer_first (gconstpointer a, gconstpointer b)
{
  GDateTime *ta = gtk_recent_info_get_modified ((GtkRecentInfo *)a);
  GDateTime *tb = gtk_recent_info_get_modified ((GtkRecentInfo *)b);

  return g_date_time_compare (tb, ta);
}

GList *
hw_recent_scenes (guint most)
{
  GList *all = gtk_recent_manager_get_items (gtk_recent_manager_get_default ()), *scenes = NULL;
  guint n = 0;

  all = g_list_sort (all, newer_first);
  for (GList *l = all; l != NULL && n < most; l = l->next)
    if (g_str_has_suffix (gtk_recent_info_get_uri (l->data), SCENE_SUFFIX)
        && gtk_recent_info_exists (l->data))
      {
        scenes = g_list_prepend (scenes, gtk_recent_info_ref (l->data));
        n++;
      }
  g_list_free_full (all, (GDestroyNotify)gtk_recent_info_unref);
  return g_list_reverse (scenes);
}

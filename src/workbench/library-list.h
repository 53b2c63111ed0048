/* The motifs of one folder: which files there are, and a small picture of each, made on a worker when it is first wanted and kept while the program runs. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_LIBRARY_ITEM (hw_library_item_get_type ())
G_DECLARE_FINAL_TYPE (HwLibraryItem, hw_library_item, HW, LIBRARY_ITEM, GObject)

/* Property "paintable" (GdkPaintable, NULL until it is made), with notify. */
const char *
hw_library_item_get_path (HwLibraryItem *item);
/* As it is shown: the file's name. */
const char *
hw_library_item_get_name (HwLibraryItem *item);
/* Why there is no picture, or NULL. */
const char *
hw_library_item_get_trouble (HwLibraryItem *item);
GdkPaintable *
hw_library_item_get_paintable (HwLibraryItem *item);
/* Has the picture made, unless it is there or under way. */
void
hw_library_item_want (HwLibraryItem *item);

/* Fills store with the motif files of the folder, by name; what is there already and unchanged keeps its picture. FALSE and a sentence when the folder cannot
 * be read; a sentence too when it holds more than are listed. */
gboolean
hw_library_list_folder (GListStore *store, const char *folder, char **trouble);

G_END_DECLS

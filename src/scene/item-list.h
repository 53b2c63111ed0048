/* A list model over an array of objects: what the scene keeps its motifs and hoops in. Quick to walk for snapshots, and a changed order is told
 * as one change, so that views keep their rows. Private to this room. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

#define HW_TYPE_ITEM_LIST (hw_item_list_get_type ())
G_DECLARE_FINAL_TYPE (HwItemList, hw_item_list, HW, ITEM_LIST, GObject)

HwItemList *
hw_item_list_new (GType item_type);
guint
hw_item_list_length (HwItemList *list);
/* (transfer none); at must be below the length */
gpointer
hw_item_list_peek (HwItemList *list, guint at);
/* Index, or -1. */
int
hw_item_list_find (HwItemList *list, gconstpointer item);
void
hw_item_list_insert (HwItemList *list, guint at, gpointer item);
void
hw_item_list_remove (HwItemList *list, guint at);
void
hw_item_list_move (HwItemList *list, guint from, guint to);
/* Brings the list to exactly these items, told as one change of the part that differs. Returns FALSE when nothing does. */
gboolean
hw_item_list_assign (HwItemList *list, GPtrArray *items);

G_END_DECLS

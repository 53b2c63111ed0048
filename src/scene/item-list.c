/* A list model over an array of objects. */
#include "item-list.h"

#include <string.h>

struct _HwItemList
{
  GObject parent_instance;

  GType item_type;
  GPtrArray *items;
};

static GType
hw_item_list_get_item_type (GListModel *model)
{
  return HW_ITEM_LIST (model)->item_type;
}

static guint
hw_item_list_get_n_items (GListModel *model)
{
  return HW_ITEM_LIST (model)->items->len;
}

static gpointer
hw_item_list_get_item (GListModel *model, guint at)
{
  GPtrArray *items = HW_ITEM_LIST (model)->items;

  return at < items->len ? g_object_ref (items->pdata[at]) : NULL;
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = hw_item_list_get_item_type;
  iface->get_n_items = hw_item_list_get_n_items;
  iface->get_item = hw_item_list_get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (HwItemList,
                               hw_item_list,
                               G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

static void
hw_item_list_finalize (GObject *object)
{
  g_ptr_array_unref (HW_ITEM_LIST (object)->items);

  G_OBJECT_CLASS (hw_item_list_parent_class)->finalize (object);
}

static void
hw_item_list_class_init (HwItemListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_item_list_finalize;
}

static void
hw_item_list_init (HwItemList *self)
{
  self->items = g_ptr_array_new_with_free_func (g_object_unref);
}

HwItemList *
hw_item_list_new (GType item_type)
{
  HwItemList *self = g_object_new (HW_TYPE_ITEM_LIST, NULL);

  self->item_type = item_type;
  return self;
}

guint
hw_item_list_length (HwItemList *self)
{
  return self->items->len;
}

gpointer
hw_item_list_peek (HwItemList *self, guint at)
{
  g_assert (at < self->items->len);

  return self->items->pdata[at];
}

int
hw_item_list_find (HwItemList *self, gconstpointer item)
{
  guint at;

  return g_ptr_array_find (self->items, item, &at) ? (int)at : -1;
}

void
hw_item_list_insert (HwItemList *self, guint at, gpointer item)
{
  g_assert (at <= self->items->len);

  g_ptr_array_insert (self->items, (int)at, g_object_ref (item));
  g_list_model_items_changed (G_LIST_MODEL (self), at, 0, 1);
}

void
hw_item_list_remove (HwItemList *self, guint at)
{
  g_assert (at < self->items->len);

  g_ptr_array_remove_index (self->items, at);
  g_list_model_items_changed (G_LIST_MODEL (self), at, 1, 0);
}

void
hw_item_list_move (HwItemList *self, guint from, guint to)
{
  guint first = MIN (from, to), n = MAX (from, to) - first + 1;
  gpointer *pdata = self->items->pdata;
  gpointer moved;

  g_assert (MAX (from, to) < self->items->len);

  moved = pdata[from];
  if (from < to)
    memmove (&pdata[from], &pdata[from + 1], (to - from) * sizeof (gpointer));
  else
    memmove (&pdata[to + 1], &pdata[to], (from - to) * sizeof (gpointer));
  pdata[to] = moved;
  g_list_model_items_changed (G_LIST_MODEL (self), first, n, n);
}

gboolean
hw_item_list_assign (HwItemList *self, GPtrArray *items)
{
  g_autoptr (GPtrArray) old = self->items;
  guint shorter = MIN (old->len, items->len);
  guint head = 0, tail = 0;

  self->items = g_ptr_array_new_full (items->len, g_object_unref);
  for (guint i = 0; i < items->len; i++)
    g_ptr_array_add (self->items, g_object_ref (items->pdata[i]));

  while (head < shorter && old->pdata[head] == items->pdata[head])
    head++;
  while (tail < shorter - head && old->pdata[old->len - 1 - tail] == items->pdata[items->len - 1 - tail])
    tail++;
  if (head + tail == old->len && head + tail == items->len)
    return FALSE;

  g_list_model_items_changed (G_LIST_MODEL (self), head, old->len - head - tail, items->len - head - tail);
  return TRUE;
}

/* A folder of motifs. Pictures are made one after another on one worker, those wanted last first, since they are the ones in sight. */
#include "library-list.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

#include "../drawing/at-work.h"
#include "../drawing/thread-painting.h"
#include "../formats/artwork.h"
#include "../scene/limits.h"

#define SIDE 192.0 /* px of a picture */

struct _HwLibraryItem
{
  GObject parent_instance;

  char *path, *name, *trouble;
  gint64 changed; /* when the file was, and how large it is: another pair is another picture */
  goffset size;
  GdkPaintable *paintable;
  gboolean asked;
};

G_DEFINE_FINAL_TYPE (HwLibraryItem, hw_library_item, G_TYPE_OBJECT)

enum
{
  PROP_0,
  PROP_PAINTABLE,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

/* Items whose picture is wanted, the last one first. One is under way at a time. */
static GQueue waiting = G_QUEUE_INIT;
static gboolean working;

static void
hw_library_item_finalize (GObject *object)
{
  HwLibraryItem *item = HW_LIBRARY_ITEM (object);

  g_free (item->path);
  g_free (item->name);
  g_free (item->trouble);
  g_clear_object (&item->paintable);
  G_OBJECT_CLASS (hw_library_item_parent_class)->finalize (object);
}

static void
hw_library_item_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_PAINTABLE)
    g_value_set_object (value, HW_LIBRARY_ITEM (object)->paintable);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hw_library_item_class_init (HwLibraryItemClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->finalize = hw_library_item_finalize;
  object_class->get_property = hw_library_item_get_property;
  properties[PROP_PAINTABLE] = g_param_spec_object ("paintable", NULL, NULL, GDK_TYPE_PAINTABLE,
                                                    G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
hw_library_item_init (HwLibraryItem *item)
{
}

const char *
hw_library_item_get_path (HwLibraryItem *item)
{
  g_return_val_if_fail (HW_IS_LIBRARY_ITEM (item), NULL);
  return item->path;
}

const char *
hw_library_item_get_name (HwLibraryItem *item)
{
  g_return_val_if_fail (HW_IS_LIBRARY_ITEM (item), NULL);
  return item->name;
}

const char *
hw_library_item_get_trouble (HwLibraryItem *item)
{
  g_return_val_if_fail (HW_IS_LIBRARY_ITEM (item), NULL);
  return item->trouble;
}

GdkPaintable *
hw_library_item_get_paintable (HwLibraryItem *item)
{
  g_return_val_if_fail (HW_IS_LIBRARY_ITEM (item), NULL);
  return item->paintable;
}

/* The motif upright, as a texture whose longer side is SIDE. Returns: (transfer full) (nullable) */
static GdkTexture *
picture_of (const HwArtwork *artwork)
{
  g_autoptr (HwMotif) motif = hw_motif_new ();
  HwBox box = artwork->outline->box;
  HwThreadPicture painted = { NULL };
  GdkTexture *texture;

  motif->outline = hw_outline_ref (artwork->outline);
  motif->placement.scale = 1;
  hw_motif_set_threads (motif, artwork->threads, artwork->n_threads);
  motif->needles = artwork->needles != NULL ? hw_needle_list_ref (artwork->needles) : NULL;
  motif->picture = hw_artwork_picture (artwork);
  motif->picture_pixels_per_mm = artwork->pixels_per_mm;
  if (!hw_thread_picture_paint (&painted, motif, SIDE / MAX (MAX (box.x1 - box.x0, box.y1 - box.y0), 0.1), 1))
    return NULL;

  int height = cairo_image_surface_get_height (painted.surface);
  gsize stride = (gsize)cairo_image_surface_get_stride (painted.surface);
  g_autoptr (GBytes) bytes
      = g_bytes_new (cairo_image_surface_get_data (painted.surface), stride * (gsize)height);
  texture = gdk_memory_texture_new (cairo_image_surface_get_width (painted.surface), height,
                                    GDK_MEMORY_DEFAULT, bytes, stride);
  hw_thread_picture_clear (&painted);
  return texture;
}

static void
picture_thread (GTask *task, gpointer source, gpointer path, GCancellable *cancellable)
{
  GError *error = NULL;
  g_autoptr (HwArtwork) artwork = hw_artwork_load (path, NULL, &error);

  if (artwork == NULL)
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, picture_of (artwork), g_object_unref);
}

static void
work (void);

static void
picture_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwLibraryItem *item = HW_LIBRARY_ITEM (source);
  g_autoptr (GError) error = NULL;
  GdkTexture *texture = g_task_propagate_pointer (G_TASK (result), &error);

  working = FALSE;
  if (texture != NULL)
    item->paintable = GDK_PAINTABLE (texture);
  else
    item->trouble = g_strdup (error != NULL ? error->message : _ ("There is nothing to show."));
  g_object_notify_by_pspec (G_OBJECT (item), properties[PROP_PAINTABLE]);
  work ();
}

static void
work (void)
{
  g_autoptr (HwLibraryItem) item = working ? NULL : g_queue_pop_head (&waiting);

  if (item == NULL)
    return;
  g_autoptr (GTask) task = g_task_new (item, NULL, picture_cb, NULL);
  working = TRUE;
  g_task_set_task_data (task, g_strdup (item->path), g_free);
  hw_at_work_run (task, picture_thread);
}

void
hw_library_item_want (HwLibraryItem *item)
{
  g_return_if_fail (HW_IS_LIBRARY_ITEM (item));

  if (item->asked)
    return;
  item->asked = TRUE;
  g_queue_push_head (&waiting, g_object_ref (item));
  work ();
}

static gboolean
is_motif_file (const char *name)
{
  static const char *const endings[] = { ".csv", ".svg", ".png", ".jpg", ".jpeg", ".pdf" };
  g_autofree char *lower = g_ascii_strdown (name, -1);

  for (guint i = 0; *name != '.' && i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (lower, endings[i]))
      return TRUE;
  return FALSE;
}

/* The item there was for an unchanged file, else a new one. Returns: (transfer full) (nullable) */
static HwLibraryItem *
item_for (GHashTable *known, const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  HwLibraryItem *item = g_hash_table_lookup (known, path);
  GStatBuf facts;

  if (g_stat (path, &facts) != 0 || !S_ISREG (facts.st_mode))
    return NULL;
  if (item != NULL && item->changed == facts.st_mtime && item->size == facts.st_size)
    return g_object_ref (item);
  item = g_object_new (HW_TYPE_LIBRARY_ITEM, NULL);
  item->path = g_steal_pointer (&path);
  item->name = g_filename_display_basename (item->path);
  item->changed = facts.st_mtime;
  item->size = facts.st_size;
  return item;
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return g_utf8_collate ((*(HwLibraryItem *const *)a)->name, (*(HwLibraryItem *const *)b)->name);
}

gboolean
hw_library_list_folder (GListStore *store, const char *folder, char **trouble)
{
  g_return_val_if_fail (G_IS_LIST_STORE (store), FALSE);
  g_return_val_if_fail (folder != NULL && trouble != NULL, FALSE);

  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_object_unref);
  const char *name;

  if (dir == NULL)
    {
      g_autofree char *shown = g_filename_display_basename (folder);

      *trouble = g_strdup_printf (_ ("The folder %s cannot be read. Choose another one."), shown);
      g_list_store_remove_all (store);
      return FALSE;
    }
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (store)); i++)
    {
      HwLibraryItem *item = g_list_model_get_item (G_LIST_MODEL (store), i);

      g_hash_table_insert (known, item->path, item);
    }
  while (items->len <= HW_MOST_LIBRARY_FILES && (name = g_dir_read_name (dir)) != NULL)
    {
      HwLibraryItem *item = is_motif_file (name) ? item_for (known, folder, name) : NULL;

      if (item != NULL)
        g_ptr_array_add (items, item);
    }
  if (items->len > HW_MOST_LIBRARY_FILES)
    {
      g_ptr_array_set_size (items, HW_MOST_LIBRARY_FILES);
      *trouble = g_strdup_printf (
          _ ("The folder holds more than %d motifs, and no more are shown. Divide it into several folders."),
          HW_MOST_LIBRARY_FILES);
    }
  g_ptr_array_sort (items, by_name);
  g_list_store_splice (store, 0, g_list_model_get_n_items (G_LIST_MODEL (store)), items->pdata, items->len);
  return TRUE;
}

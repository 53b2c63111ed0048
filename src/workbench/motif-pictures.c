/* Thread pictures of motifs. Painting 20,000 stitches takes longer than a frame has, blitting their picture does not; so each
 * motif's picture is kept at the zoom and turn it was last wanted at. All bookkeeping is on the main thread; a worker gets a
 * handful of motif records (immutable) and gives surfaces back. While a sharper picture is being painted the one at hand is
 * drawn turned and stretched. */

#include "motif-pictures.h"

#include <gio/gio.h>
#include <math.h>
#include <string.h>

#include "../drawing/at-work.h"
#include "../drawing/cloth-drawing.h"

#define BATCH 6 /* pictures a worker paints before it reports */
#define MOST_WORKERS 2
#define COARSE 6                 /* detail of the first picture */
#define COARSE_FROM 4000         /* stitches: smaller motifs are painted sharp at once */
#define MOST_PIXELS (12.0 * 1e6) /* of one picture; nearer, it is stretched */
#define DEFAULT_LIMIT (256u << 20)
#define MOST_GONE 12 /* pictures of motifs that went: an undo has them at once */

/* What a picture shows: everything that changes its pixels. */
typedef struct
{
  HwMotif *motif;
  double pixels_per_mm;
  guint detail;
} Look;

typedef struct
{
  char *id;
  HwThreadPicture picture; /* surface NULL: none yet */
  Look look;               /* of the picture */
  Look wanted;             /* motif NULL: nothing wanted */
  gboolean in_work;
  gboolean barren; /* nothing to paint for look `wanted` */
  guint page;
  guint number; /* of its own: a motif that went and came back has another entry */
} Entry;

struct _HwMotifPictures
{
  GHashTable *entries; /* id -> Entry */
  GQueue waiting;      /* Entry wanted and not in work, in the order asked */
  guint workers;
  guint page;
  guint made; /* entries, so far */
  gboolean held;
  gsize limit;
  GCancellable *gone;
  HwMotifPictureReady ready;
  gpointer ready_data;
};

typedef struct
{
  char *id;
  guint number; /* of the entry */
  Look look;
  HwThreadPicture picture;
} Order;

static void
look_clear (Look *look)
{
  g_clear_pointer (&look->motif, hw_motif_unref);
}

static void
look_set (Look *look, const HwMotif *motif, double pixels_per_mm, guint detail)
{
  HwMotif *kept = hw_motif_ref (motif);

  look_clear (look);
  *look = (Look){ kept, pixels_per_mm, detail };
}

static gboolean
same_threads (const HwMotif *a, const HwMotif *b)
{
  if (a->n_threads != b->n_threads)
    return FALSE;
  for (guint i = 0; i < a->n_threads; i++)
    if (!hw_thread_same (&a->threads[i], &b->threads[i]))
      return FALSE;
  return TRUE;
}

/* Whether two records differ at most in where they lie. */
static gboolean
same_work (const HwMotif *a, const HwMotif *b)
{
  return a == b
         || (a->needles == b->needles && a->picture == b->picture && a->outline == b->outline
             && a->placement.angle == b->placement.angle && a->placement.scale == b->placement.scale
             && a->placement.mirrored == b->placement.mirrored && same_threads (a, b));
}

static gboolean
look_is (const Look *look, const HwMotif *motif, double pixels_per_mm)
{
  return look->motif != NULL && look->pixels_per_mm == pixels_per_mm && same_work (look->motif, motif);
}

static void
order_free (Order *order)
{
  g_free (order->id);
  look_clear (&order->look);
  hw_thread_picture_clear (&order->picture);
  g_free (order);
}

static void
entry_free (Entry *entry)
{
  g_free (entry->id);
  hw_thread_picture_clear (&entry->picture);
  look_clear (&entry->look);
  look_clear (&entry->wanted);
  g_free (entry);
}

HwMotifPictures *
hw_motif_pictures_new (HwMotifPictureReady ready, gpointer user_data)
{
  HwMotifPictures *pictures = g_new0 (HwMotifPictures, 1);

  pictures->entries = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify)entry_free);
  g_queue_init (&pictures->waiting);
  pictures->limit = DEFAULT_LIMIT;
  pictures->gone = g_cancellable_new ();
  pictures->ready = ready;
  pictures->ready_data = user_data;
  return pictures;
}

void
hw_motif_pictures_free (HwMotifPictures *pictures)
{
  g_cancellable_cancel (pictures->gone);
  g_object_unref (pictures->gone);
  g_queue_clear (&pictures->waiting);
  g_hash_table_unref (pictures->entries);
  g_free (pictures);
}

static void
paint_orders (GTask *task, gpointer source, gpointer data, GCancellable *gone)
{
  GPtrArray *orders = data;

  for (guint i = 0; i < orders->len && !g_cancellable_is_cancelled (gone); i++)
    {
      Order *order = g_ptr_array_index (orders, i);
      hw_thread_picture_paint (&order->picture, order->look.motif, order->look.pixels_per_mm,
                               order->look.detail);
    }
  g_task_return_boolean (task, TRUE);
}

static void
drop_oldest (HwMotifPictures *pictures);
static void
hand_out (HwMotifPictures *pictures);

static void
take_picture (HwMotifPictures *pictures, Order *order)
{
  Entry *entry = g_hash_table_lookup (pictures->entries, order->id);

  if (entry == NULL || entry->number != order->number)
    return;
  entry->in_work = FALSE;
  if (order->picture.surface != NULL)
    {
      hw_thread_picture_clear (&entry->picture);
      look_clear (&entry->look);
      entry->picture = order->picture;
      entry->look = order->look;
      order->picture = (HwThreadPicture){ NULL };
      order->look.motif = NULL;
    }
  else if (look_is (&entry->wanted, order->look.motif, order->look.pixels_per_mm))
    {
      /* Nothing to paint: the outline stands in, and it is not asked for again until the motif changes. */
      entry->barren = TRUE;
      return;
    }
  if (entry->wanted.motif != NULL
      && (!look_is (&entry->look, entry->wanted.motif, entry->wanted.pixels_per_mm)
          || entry->look.detail > 1))
    g_queue_push_tail (&pictures->waiting, entry);
  else
    look_clear (&entry->wanted);
  if (pictures->ready != NULL)
    pictures->ready (order->id, pictures->ready_data);
}

static void
orders_done_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  GTask *task = G_TASK (result);
  GPtrArray *orders = g_task_get_task_data (task);
  HwMotifPictures *pictures = user_data;

  /* After the end of the canvas there is no one to hand pictures to. */
  if (g_cancellable_is_cancelled (g_task_get_cancellable (task)))
    return;
  pictures->workers--;
  for (guint i = 0; i < orders->len; i++)
    take_picture (pictures, g_ptr_array_index (orders, i));
  drop_oldest (pictures);
  hand_out (pictures);
}

static gsize
pixel_bytes (const HwThreadPicture *picture)
{
  if (picture->surface == NULL)
    return 0;
  return (gsize)cairo_image_surface_get_stride (picture->surface)
         * cairo_image_surface_get_height (picture->surface);
}

static void
drop_oldest (HwMotifPictures *pictures)
{
  gsize total = 0;
  GHashTableIter iter;
  Entry *entry;

  g_hash_table_iter_init (&iter, pictures->entries);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&entry))
    total += pixel_bytes (&entry->picture);
  while (total > pictures->limit)
    {
      Entry *oldest = NULL;

      g_hash_table_iter_init (&iter, pictures->entries);
      while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&entry))
        if (entry->page != pictures->page && entry->picture.surface != NULL
            && (oldest == NULL || entry->page < oldest->page))
          oldest = entry;
      if (oldest == NULL)
        return;
      total -= pixel_bytes (&oldest->picture);
      hw_thread_picture_clear (&oldest->picture);
      look_clear (&oldest->look);
    }
}

static gint
last_drawn_first (gconstpointer a, gconstpointer b)
{
  const Entry *one = *(const Entry *const *)a, *other = *(const Entry *const *)b;

  return one->page != other->page ? (one->page < other->page ? 1 : -1) : strcmp (one->id, other->id);
}

void
hw_motif_pictures_motifs_changed (HwMotifPictures *pictures, GPtrArray *motifs)
{
  g_autoptr (GHashTable) present = NULL;
  g_autoptr (GPtrArray) gone = NULL;
  GHashTableIter iter;
  Entry *entry;

  if (g_hash_table_size (pictures->entries) <= motifs->len + MOST_GONE)
    return;
  present = g_hash_table_new (g_str_hash, g_str_equal);
  gone = g_ptr_array_new ();
  for (guint i = 0; i < motifs->len; i++)
    g_hash_table_add (present, hw_scene_motif_get_record (g_ptr_array_index (motifs, i))->id);
  g_hash_table_iter_init (&iter, pictures->entries);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&entry))
    if (!g_hash_table_contains (present, entry->id))
      g_ptr_array_add (gone, entry);
  g_ptr_array_sort (gone, last_drawn_first);
  for (guint i = MOST_GONE; i < gone->len; i++)
    {
      entry = g_ptr_array_index (gone, i);
      g_queue_remove_all (&pictures->waiting, entry);
      g_hash_table_remove (pictures->entries, entry->id);
    }
}

/* The next to paint: one without any picture first. Returns: (transfer none) (nullable) */
static Entry *
next_waiting (HwMotifPictures *pictures)
{
  for (GList *l = pictures->waiting.head; l != NULL; l = l->next)
    {
      Entry *entry = l->data;
      if (entry->picture.surface == NULL)
        {
          g_queue_delete_link (&pictures->waiting, l);
          return entry;
        }
    }
  return g_queue_pop_head (&pictures->waiting);
}

static Order *
order_for (Entry *entry)
{
  Order *order = g_new0 (Order, 1);
  const HwMotif *motif = entry->wanted.motif;
  gboolean coarse
      = entry->picture.surface == NULL && motif->needles != NULL && motif->needles->n_stitches > COARSE_FROM;

  order->id = g_strdup (entry->id);
  order->number = entry->number;
  look_set (&order->look, motif, entry->wanted.pixels_per_mm, coarse ? COARSE : 1);
  entry->in_work = TRUE;
  return order;
}

static void
hand_out (HwMotifPictures *pictures)
{
  while (pictures->workers < MOST_WORKERS && pictures->waiting.length > 0)
    {
      g_autoptr (GPtrArray) orders = g_ptr_array_new_with_free_func ((GDestroyNotify)order_free);
      g_autoptr (GTask) task = NULL;

      for (guint i = 0; i < BATCH && pictures->waiting.length > 0; i++)
        g_ptr_array_add (orders, order_for (next_waiting (pictures)));
      task = g_task_new (NULL, pictures->gone, orders_done_cb, pictures);
      g_task_set_task_data (task, g_steal_pointer (&orders), (GDestroyNotify)g_ptr_array_unref);
      pictures->workers++;
      hw_at_work_run (task, paint_orders);
    }
}

static Entry *
entry_of (HwMotifPictures *pictures, const HwMotif *motif)
{
  Entry *entry = g_hash_table_lookup (pictures->entries, motif->id);

  if (entry == NULL)
    {
      entry = g_new0 (Entry, 1);
      entry->id = g_strdup (motif->id);
      entry->number = ++pictures->made;
      g_hash_table_insert (pictures->entries, entry->id, entry);
    }
  return entry;
}

static HwBox
artwork_box (const HwMotif *motif)
{
  if (motif->needles != NULL && !hw_box_is_empty (motif->needles->box))
    return motif->needles->box;
  if (motif->picture != NULL && motif->picture_pixels_per_mm > 0)
    return (HwBox){ 0, 0, motif->picture->width / motif->picture_pixels_per_mm,
                    motif->picture->height / motif->picture_pixels_per_mm };
  return motif->outline->box;
}

static double
affordable_scale (const HwMotif *motif, double pixels_per_mm)
{
  HwBox box = artwork_box (motif);
  double scale = motif->placement.scale;
  double area
      = (box.x1 - box.x0) * (box.y1 - box.y0) * scale * scale * 2; /* turned, at worst twice its box */
  double most = area > 0 ? sqrt (MOST_PIXELS / area) : pixels_per_mm;

  return MIN (pixels_per_mm, most);
}

static void
ask (HwMotifPictures *pictures, Entry *entry, const HwMotif *motif, double pixels_per_mm)
{
  gboolean was_wanted = entry->wanted.motif != NULL;

  if (look_is (&entry->wanted, motif, pixels_per_mm))
    return;
  look_set (&entry->wanted, motif, pixels_per_mm, 1);
  if (entry->in_work || (was_wanted && !entry->barren))
    return;
  entry->barren = FALSE;
  g_queue_push_tail (&pictures->waiting, entry);
  hand_out (pictures);
}

static void
fill_outline (cairo_t *cr, const HwMotif *motif, const HwView *view, double alpha)
{
  g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);
  HwColour colour = { 0.6, 0.6, 0.6 };
  guint most = 0;

  for (guint i = 0; i < motif->n_threads; i++)
    if (i == 0 || motif->threads[i].stitches > most)
      {
        most = motif->threads[i].stitches;
        colour = motif->threads[i].colour;
      }
  cairo_save (cr);
  cairo_translate (cr, view->x, view->y);
  cairo_scale (cr, view->zoom, view->zoom);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  hw_path_outline (cr, placed);
  cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, 0.55 * alpha);
  cairo_fill (cr);
  cairo_restore (cr);
}

/* Exact picture: whole device pixels, no filter. */
static void
blit (cairo_t *cr, const Entry *entry, HwPoint at, double device, double alpha)
{
  cairo_save (cr);
  cairo_scale (cr, 1 / device, 1 / device);
  cairo_set_source_surface (cr, entry->picture.surface, floor (at.x * device + entry->picture.x + 0.5),
                            floor (at.y * device + entry->picture.y + 0.5));
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint_with_alpha (cr, alpha);
  cairo_restore (cr);
}

/* A picture of another zoom, turn, size or side, brought to the wanted one. */
static void
stretch (cairo_t *cr, const Entry *entry, const HwMotif *motif, const HwView *view, double alpha)
{
  HwPoint at = hw_view_to_pixels (view, motif->placement.position);
  const HwPlacement *was = &entry->look.motif->placement;
  const HwPlacement *now = &motif->placement;
  double factor = now->scale / was->scale * view->zoom / entry->look.pixels_per_mm;

  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_rotate (cr, now->angle * G_PI / 180);
  cairo_scale (cr, now->mirrored != was->mirrored ? -factor : factor, factor);
  cairo_rotate (cr, -was->angle * G_PI / 180);
  cairo_set_source_surface (cr, entry->picture.surface, entry->picture.x, entry->picture.y);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_FAST);
  cairo_paint_with_alpha (cr, alpha);
  cairo_restore (cr);
}

void
hw_motif_pictures_draw (HwMotifPictures *pictures,
                        cairo_t *cr,
                        const HwMotif *motif,
                        const HwView *view,
                        double device,
                        double alpha)
{
  Entry *entry = entry_of (pictures, motif);
  double pixels_per_mm = affordable_scale (motif, view->zoom * device);
  gboolean exact = look_is (&entry->look, motif, pixels_per_mm);

  /* Nothing is made up while the true picture is on its way. */
  if (motif->artwork_awaited)
    {
      fill_outline (cr, motif, view, alpha);
      return;
    }
  entry->page = pictures->page;
  if ((!exact || entry->look.detail > 1) && !pictures->held)
    ask (pictures, entry, motif, pixels_per_mm);
  if (entry->picture.surface == NULL)
    fill_outline (cr, motif, view, alpha);
  else if (exact && pixels_per_mm == view->zoom * device)
    blit (cr, entry, hw_view_to_pixels (view, motif->placement.position), device, alpha);
  else
    stretch (cr, entry, motif, view, alpha);
}

HwBox
hw_motif_pictures_bounds (HwMotifPictures *pictures, const HwMotif *motif, const HwView *view)
{
  const Entry *entry = motif->artwork_awaited ? NULL : g_hash_table_lookup (pictures->entries, motif->id);
  HwPoint at = hw_view_to_pixels (view, motif->placement.position);
  HwBox box = motif->outline->box;
  double reach = hypot (MAX (fabs (box.x0), fabs (box.x1)), MAX (fabs (box.y0), fabs (box.y1)))
                 * motif->placement.scale * view->zoom;

  if (entry != NULL && entry->picture.surface != NULL)
    {
      double w = cairo_image_surface_get_width (entry->picture.surface);
      double h = cairo_image_surface_get_height (entry->picture.surface);
      double x = MAX (fabs (entry->picture.x), fabs (entry->picture.x + w));
      double y = MAX (fabs (entry->picture.y), fabs (entry->picture.y + h));
      double factor = view->zoom / entry->look.pixels_per_mm * motif->placement.scale
                      / entry->look.motif->placement.scale;

      if (look_is (&entry->look, motif, entry->look.pixels_per_mm))
        {
          HwBox exact = { at.x + entry->picture.x * factor, at.y + entry->picture.y * factor,
                          at.x + (entry->picture.x + w) * factor, at.y + (entry->picture.y + h) * factor };
          return (HwBox){ exact.x0 - 2, exact.y0 - 2, exact.x1 + 2, exact.y1 + 2 };
        }
      reach = MAX (reach, hypot (x, y) * factor);
    }
  return (HwBox){ at.x - reach - 2, at.y - reach - 2, at.x + reach + 2, at.y + reach + 2 };
}

void
hw_motif_pictures_hold (HwMotifPictures *pictures, gboolean held)
{
  pictures->held = held;
}

gboolean
hw_motif_pictures_is_busy (HwMotifPictures *pictures)
{
  return pictures->workers > 0 || pictures->waiting.length > 0;
}

void
hw_motif_pictures_set_limit (HwMotifPictures *pictures, gsize bytes)
{
  pictures->limit = bytes;
  drop_oldest (pictures);
}

void
hw_motif_pictures_turn_page (HwMotifPictures *pictures)
{
  pictures->page++;
}

/* How dense the stitching lies, as colour over the cloth. Counting and colouring are done beside the main thread; motifs that lie as before
 * are not counted again; while one count is made the next waits, and only the newest scene is counted then. */

#include <math.h>

#include "../drawing/at-work.h"
#include "../drawing/heat.h"
#include "canvas-private.h"

#define KEY_WIDTH 262.0
#define KEY_HEIGHT 84.0
#define KEY_PADDING 14.0
#define KEY_GAP 14.0
#define KEY_LETTERS 12.5

struct _HwCanvasDensity
{
  GCancellable *gone;
  HwDensityMap *map; /* of the last count */
  HwHeat *heat;
  double limit;
  gboolean in_work, again;
};

typedef struct
{
  HwSnapshot *snapshot;
  HwDensityMap *before, *map;
  HwHeat *heat;
} Count;

static void
count_free (gpointer data)
{
  Count *count = data;

  hw_snapshot_unref (count->snapshot);
  g_clear_pointer (&count->before, hw_density_map_unref);
  g_clear_pointer (&count->map, hw_density_map_unref);
  g_clear_pointer (&count->heat, hw_heat_free);
  g_free (count);
}

HwCanvasDensity *
hw_canvas_density_new (void)
{
  HwCanvasDensity *density = g_new0 (HwCanvasDensity, 1);

  density->gone = g_cancellable_new ();
  return density;
}

/* What is being counted comes back to a density that is gone, and is dropped there. */
void
hw_canvas_density_free (HwCanvasDensity *density)
{
  g_cancellable_cancel (density->gone);
  g_object_unref (density->gone);
  g_clear_pointer (&density->map, hw_density_map_unref);
  g_clear_pointer (&density->heat, hw_heat_free);
  g_free (density);
}

static void
count_stitches (GTask *task, gpointer source, gpointer data, GCancellable *gone)
{
  Count *count = data;

  count->map = hw_density_map_new (count->snapshot, count->before);
  count->heat = hw_heat_new (count->map, count->snapshot->wishes.density_limit);
  g_task_return_boolean (task, TRUE);
}

static void
counted_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  GTask *task = G_TASK (result);
  Count *count = g_task_get_task_data (task);
  HwCanvas *canvas = user_data;
  HwCanvasDensity *density;
  gboolean was_coloured;

  if (g_cancellable_is_cancelled (g_task_get_cancellable (task)))
    return;
  density = canvas->density;
  was_coloured = density->heat != NULL;
  density->in_work = FALSE;
  g_clear_pointer (&density->map, hw_density_map_unref);
  g_clear_pointer (&density->heat, hw_heat_free);
  density->map = g_steal_pointer (&count->map);
  density->heat = g_steal_pointer (&count->heat);
  density->limit = count->snapshot->wishes.density_limit;
  if (!was_coloured)
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL));
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_DENSITY) | HW_BIT (HW_LAYER_KEY));
  if (density->again)
    hw_canvas_refresh_density (canvas);
}

void
hw_canvas_refresh_density (HwCanvas *canvas)
{
  HwCanvasDensity *density = canvas->density;
  g_autoptr (GTask) task = NULL;
  Count *count;

  if (!canvas->show_density || canvas->bench == NULL)
    return;
  density->again = density->in_work;
  if (density->in_work)
    return;
  count = g_new0 (Count, 1);
  count->snapshot = hw_scene_snapshot (hw_bench_get_scene (canvas->bench));
  if (density->map != NULL)
    count->before = hw_density_map_ref (density->map);
  density->in_work = TRUE;
  task = g_task_new (NULL, density->gone, counted_cb, canvas);
  g_task_set_task_data (task, count, count_free);
  hw_at_work_run (task, count_stitches);
}

gboolean
hw_canvas_is_coloured (HwCanvas *canvas)
{
  return canvas->show_density && canvas->density->heat != NULL;
}

/* As one picture, so that what moves over it does not colour it again. */
GskRenderNode *
hw_canvas_draw_density (HwCanvas *canvas)
{
  g_autoptr (GtkSnapshot) snapshot = NULL;
  HwBox area = hw_canvas_area (canvas);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)area.x1, (float)area.y1);
  cairo_surface_t *surface;
  cairo_t *cr;

  if (!hw_canvas_is_coloured (canvas))
    return NULL;
  surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, MAX ((int)area.x1, 1) * canvas->device,
                                        MAX ((int)area.y1, 1) * canvas->device);
  cairo_surface_set_device_scale (surface, canvas->device, canvas->device);
  cr = cairo_create (surface);
  cairo_save (cr);
  cairo_translate (cr, canvas->view.x, canvas->view.y);
  cairo_scale (cr, canvas->view.zoom, canvas->view.zoom);
  hw_heat_draw (cr, canvas->density->heat, 1 / canvas->view.zoom);
  cairo_restore (cr);
  hw_canvas_draw_tags (canvas, cr);
  cairo_destroy (cr);

  snapshot = gtk_snapshot_new ();
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_set_source_surface (cr, surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

/* The key to the colours, in the corner that nothing else takes. */
GskRenderNode *
hw_canvas_draw_key (HwCanvas *canvas)
{
  g_autoptr (GtkSnapshot) snapshot = NULL;
  HwBox area = hw_canvas_area (canvas);
  double w = KEY_WIDTH + 2 * KEY_PADDING, h = KEY_HEIGHT + 2 * KEY_PADDING, r = 10;
  double x = area.x1 - KEY_GAP - w, y = area.y0 + KEY_GAP;
  HwColour ink = canvas->dark ? (HwColour){ 0.93, 0.925, 0.91 } : (HwColour){ 0.14, 0.15, 0.2 };
  graphene_rect_t bounds = GRAPHENE_RECT_INIT ((float)x - 4, (float)y - 4, (float)w + 8, (float)h + 9);
  cairo_t *cr;

  if (!hw_canvas_is_coloured (canvas))
    return NULL;
  snapshot = gtk_snapshot_new ();
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  for (int i = 0; i < 2; i++)
    {
      double drop = i == 0 ? 1.5 : 0;

      cairo_new_sub_path (cr);
      cairo_arc (cr, x + w - r, y + r + drop, r, -G_PI / 2, 0);
      cairo_arc (cr, x + w - r, y + h - r + drop, r, 0, G_PI / 2);
      cairo_arc (cr, x + r, y + h - r + drop, r, G_PI / 2, G_PI);
      cairo_arc (cr, x + r, y + r + drop, r, G_PI, 1.5 * G_PI);
      cairo_close_path (cr);
      if (i == 0)
        cairo_set_source_rgba (cr, 0, 0, 0, 0.22);
      else if (canvas->dark)
        cairo_set_source_rgba (cr, 0.21, 0.205, 0.195, 0.97);
      else
        cairo_set_source_rgba (cr, 0.995, 0.99, 0.98, 0.97);
      cairo_fill (cr);
    }
  hw_heat_draw_key (cr, x + KEY_PADDING, y + KEY_PADDING, KEY_WIDTH, KEY_LETTERS, 1, canvas->density->limit,
                    ink);
  cairo_destroy (cr);
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

/* The still picture as pixels. Drawing two hundred motifs costs more than a frame has, moving pixels does not: while the cloth is panned the picture of before
 * is shifted and drawn anew only along the rim; while it is zoomed the picture of before is stretched, and what it does not show is taken from
 * an earlier one that shows more. When the zoom rests the picture is drawn sharp. */
#include <math.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

#include "canvas-private.h"

#define MOST_STRETCH 2.0      /* either way, of the sheet */
#define MOST_WIDE_STRETCH 4.0 /* of what only fills the rim */
#define LEAST_COVERED 0.5     /* of the window; with less the sheet is drawn anew */
#define REST_MS 140
#define WHOLE 1e-6 /* of a pixel */

typedef struct
{
  HwBox box[4];
  guint n;
} Strips;

static HwBox
window_of (HwCanvas *canvas)
{
  HwBox area = hw_canvas_area (canvas);

  return (HwBox){ 0, 0, MAX (area.x1, 1), MAX (area.y1, 1) };
}

static double
area_of (HwBox box)
{
  return hw_box_is_empty (box) ? 0 : (box.x1 - box.x0) * (box.y1 - box.y0);
}

static HwBox
common (HwBox a, HwBox b)
{
  return (HwBox){ MAX (a.x0, b.x0), MAX (a.y0, b.y0), MIN (a.x1, b.x1), MIN (a.y1, b.y1) };
}

static gboolean
holds (HwBox outer, HwBox inner)
{
  return outer.x0 <= inner.x0 && outer.y0 <= inner.y0 && outer.x1 >= inner.x1 && outer.y1 >= inner.y1;
}

/* What of outer lies beside inner, which lies in it. */
static Strips
beside (HwBox outer, HwBox inner)
{
  const HwBox four[] = { { outer.x0, outer.y0, outer.x1, inner.y0 },
                         { outer.x0, inner.y1, outer.x1, outer.y1 },
                         { outer.x0, inner.y0, inner.x0, inner.y1 },
                         { inner.x1, inner.y0, outer.x1, inner.y1 } };
  Strips strips = { .n = 0 };

  if (hw_box_is_empty (inner))
    return (Strips){ { outer }, 1 };
  for (guint i = 0; i < G_N_ELEMENTS (four); i++)
    if (area_of (four[i]) > 0)
      strips.box[strips.n++] = four[i];
  return strips;
}

/* Pixels of the window that a picture of the view `was` shows in the present view: whole ones, and one less at each side where it is stretched. */
static HwBox
shown_by (HwCanvas *canvas, const HwView *was)
{
  HwBox window = window_of (canvas);
  const HwView *now = &canvas->view;
  double factor = now->zoom / was->zoom, inset = factor == 1 ? 0 : MAX (ceil (factor), 1);
  double x = now->x - was->x * factor, y = now->y - was->y * factor;
  HwBox box
      = { ceil (x - WHOLE) + inset, ceil (y - WHOLE) + inset, floor (x + window.x1 * factor + WHOLE) - inset,
          floor (y + window.y1 * factor + WHOLE) - inset };

  return common (box, window);
}

/* --- Pixels */

#define LARGEST_FRAME (32 << 20) /* bytes; the most that can be told apart */
#define KEPT_FREE (128 << 20)

void
hw_sheet_keep_memory (void)
{
#ifdef __GLIBC__
  mallopt (M_MMAP_THRESHOLD, LARGEST_FRAME);
  mallopt (M_TRIM_THRESHOLD, KEPT_FREE);
#endif
}

static void
retire (HwCanvas *canvas, cairo_surface_t **surface)
{
  if (*surface == NULL)
    return;
  g_clear_pointer (&canvas->spare[1], cairo_surface_destroy);
  canvas->spare[1] = canvas->spare[0];
  canvas->spare[0] = g_steal_pointer (surface);
}

/* Memory that was drawn on before is had quicker than new memory. The last picture may still be on its way to the screen: drawing on it would have it copied
 * first; the one before is not. Returns: (transfer full) */
static cairo_surface_t *
fresh_pixels (HwCanvas *canvas)
{
  HwBox window = window_of (canvas);
  int width = (int)window.x1 * canvas->device, height = (int)window.y1 * canvas->device;
  cairo_surface_t *surface = g_steal_pointer (&canvas->spare[1]);

  if (surface != NULL && cairo_surface_get_reference_count (surface) == 1
      && cairo_image_surface_get_width (surface) == width
      && cairo_image_surface_get_height (surface) == height)
    return surface;
  g_clear_pointer (&surface, cairo_surface_destroy);
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_surface_set_device_scale (surface, canvas->device, canvas->device);
  return surface;
}

/* Brings a picture of another view into the present one, within a box. */
static void
bring (HwCanvas *canvas, cairo_t *cr, cairo_surface_t *picture, const HwView *was, HwBox into)
{
  double factor = canvas->view.zoom / was->zoom;

  if (area_of (into) == 0)
    return;
  cairo_save (cr);
  cairo_rectangle (cr, into.x0, into.y0, into.x1 - into.x0, into.y1 - into.y0);
  cairo_clip (cr);
  cairo_translate (cr, canvas->view.x - was->x * factor, canvas->view.y - was->y * factor);
  cairo_scale (cr, factor, factor);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_set_source_surface (cr, picture, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr),
                            factor == 1 ? CAIRO_FILTER_NEAREST : CAIRO_FILTER_BILINEAR);
  cairo_paint (cr);
  cairo_restore (cr);
}

static void
draw_strips (HwCanvas *canvas, cairo_t *cr, Strips strips)
{
  for (guint i = 0; i < strips.n; i++)
    hw_canvas_draw_part (canvas, cr, strips.box[i], FALSE);
}

/* --- Which picture serves */

static gboolean
is_shift (HwCanvas *canvas)
{
  double dx = (canvas->view.x - canvas->sheet_view.x) * canvas->device;
  double dy = (canvas->view.y - canvas->sheet_view.y) * canvas->device;

  return canvas->view.zoom == canvas->sheet_view.zoom && fabs (dx - rint (dx)) < WHOLE
         && fabs (dy - rint (dy)) < WHOLE;
}

static gboolean
may_stretch (HwCanvas *canvas, cairo_surface_t *picture, const HwView *was, double most)
{
  double factor = canvas->view.zoom / was->zoom;

  return picture != NULL && factor <= most && factor >= 1 / most;
}

/* What the two pictures show together: all that the wide one does, where it shows more. *wide: it does. */
static HwBox
shown_together (HwCanvas *canvas, gboolean *wide)
{
  HwBox near = shown_by (canvas, &canvas->sheet_view);
  HwBox far = near;

  *wide = may_stretch (canvas, canvas->wide, &canvas->wide_view, MOST_WIDE_STRETCH);
  if (*wide)
    far = shown_by (canvas, &canvas->wide_view);
  *wide = *wide && holds (far, near);
  return *wide ? far : near;
}

static gboolean
can_be_stretched (HwCanvas *canvas)
{
  gboolean wide;

  if (!may_stretch (canvas, canvas->sheet, &canvas->sheet_view, MOST_STRETCH))
    {
      if (!may_stretch (canvas, canvas->wide, &canvas->wide_view, MOST_STRETCH))
        return FALSE;
      retire (canvas, &canvas->sheet);
      canvas->sheet = g_steal_pointer (&canvas->wide);
      canvas->sheet_view = canvas->wide_view;
    }
  return area_of (shown_together (canvas, &wide)) >= LEAST_COVERED * area_of (window_of (canvas));
}

/* --- Drawing */

static void
shift (HwCanvas *canvas)
{
  cairo_surface_t *moved = fresh_pixels (canvas);
  cairo_t *cr = cairo_create (moved);
  HwBox kept = shown_by (canvas, &canvas->sheet_view);

  bring (canvas, cr, canvas->sheet, &canvas->sheet_view, kept);
  draw_strips (canvas, cr, beside (window_of (canvas), kept));
  cairo_destroy (cr);
  retire (canvas, &canvas->sheet);
  canvas->sheet = moved;
  canvas->sheet_view = canvas->view;
}

static void
stretch (HwCanvas *canvas)
{
  gboolean wide;
  HwBox near = shown_by (canvas, &canvas->sheet_view), together = shown_together (canvas, &wide);
  Strips rim = beside (together, near);
  cairo_t *cr;

  retire (canvas, &canvas->shown);
  canvas->shown = fresh_pixels (canvas);
  cr = cairo_create (canvas->shown);
  draw_strips (canvas, cr, beside (window_of (canvas), together));
  for (guint i = 0; wide && i < rim.n; i++)
    bring (canvas, cr, canvas->wide, &canvas->wide_view, rim.box[i]);
  bring (canvas, cr, canvas->sheet, &canvas->sheet_view, near);
  cairo_destroy (cr);
}

/* The sheet makes room for a new one; it is kept if that will show less of the cloth. */
static void
put_aside (HwCanvas *canvas)
{
  if (canvas->wide != NULL && canvas->wide_view.zoom >= canvas->view.zoom)
    g_clear_pointer (&canvas->wide, cairo_surface_destroy);
  if (canvas->sheet != NULL && canvas->wide == NULL && canvas->sheet_view.zoom < canvas->view.zoom)
    {
      canvas->wide = g_steal_pointer (&canvas->sheet);
      canvas->wide_view = canvas->sheet_view;
    }
  retire (canvas, &canvas->sheet);
}

static void
draw_anew (HwCanvas *canvas)
{
  cairo_t *cr;

  put_aside (canvas);
  canvas->sheet = fresh_pixels (canvas);
  canvas->sheet_view = canvas->view;
  cr = cairo_create (canvas->sheet);
  hw_canvas_draw_part (canvas, cr, window_of (canvas), FALSE);
  cairo_destroy (cr);
}

cairo_surface_t *
hw_sheet_draw (HwCanvas *canvas)
{
  if (canvas->sheet != NULL && !is_shift (canvas) && can_be_stretched (canvas))
    {
      stretch (canvas);
      return canvas->shown;
    }
  retire (canvas, &canvas->shown);
  if (canvas->sheet == NULL || !is_shift (canvas) || hw_box_is_empty (shown_by (canvas, &canvas->sheet_view)))
    draw_anew (canvas);
  else if (canvas->sheet_view.x != canvas->view.x || canvas->sheet_view.y != canvas->view.y)
    shift (canvas);
  return canvas->sheet;
}

void
hw_sheet_forget (HwCanvas *canvas)
{
  retire (canvas, &canvas->shown);
  retire (canvas, &canvas->sheet);
  g_clear_pointer (&canvas->wide, cairo_surface_destroy);
}

/* --- Rest */

static void
draw_again (HwCanvas *canvas)
{
  put_aside (canvas);
  canvas->stale |= HW_BIT (HW_LAYER_STILL);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

static gboolean
rest_cb (gpointer user_data)
{
  HwCanvas *canvas = user_data;

  canvas->rest = 0;
  hw_motif_pictures_hold (canvas->pictures, FALSE);
  canvas->stale |= HW_BIT (HW_LAYER_MOVING);
  draw_again (canvas);
  return G_SOURCE_REMOVE;
}

void
hw_sheet_zoomed (HwCanvas *canvas)
{
  if (canvas->sheet == NULL)
    return;
  g_clear_handle_id (&canvas->rest, g_source_remove);
  canvas->rest = g_timeout_add (REST_MS, rest_cb, canvas);
  hw_motif_pictures_hold (canvas->pictures, TRUE);
}

void
hw_sheet_can_be_better (HwCanvas *canvas)
{
  /* When the zoom rests it is drawn anyway. */
  if (canvas->rest == 0)
    draw_again (canvas);
}

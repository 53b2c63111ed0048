/* Embroidery as it looks: the needle list of a motif turned into strands, each drawn and lit on its own, in
 * the order they are stitched. Light comes from the top left of the cloth, however the motif lies, so a
 * turned leaf shines differently from one that is not. */
#include "thread-painting.h"

#include <math.h>
#include <string.h>

#include "picture-painting.h"
#include "strand-fill.h"
#include "strand-raster.h"

#define STRAND_MM 0.42 /* about a 40 weight thread lying flat (common practice, no source) */
#define MOST_PIXELS 64000000
#define FINE_FROM 1.5 /* pixels a mm */
#define MOST_FINE 8
#define MOST_FINE_PIXELS 6e6
#define SHORTEST_MM 0.02 /* tie stitches on one spot show nothing */

/* Motif mm to pixels relative to the motif's position. */
typedef struct
{
  double xx, xy, yx, yy;
} Lay;

static Lay
lay_of (const HwPlacement *placement, double pixels_per_mm)
{
  HwPoint x = hw_point_turn ((HwPoint){ placement->mirrored ? -1 : 1, 0 }, placement->angle);
  HwPoint y = hw_point_turn ((HwPoint){ 0, 1 }, placement->angle);
  double f = placement->scale * pixels_per_mm;

  return (Lay){ x.x * f, y.x * f, x.y * f, y.y * f };
}

HwColour
hw_motif_thread_colour (const HwMotif *motif, guint thread)
{
  const HwNeedleList *needles;
  HwColour grey = { 0.5, 0.5, 0.5 };

  g_return_val_if_fail (motif != NULL, grey);

  if (motif->n_threads == 0)
    return grey;
  needles = motif->needles;
  if (needles != NULL && needles->threads != NULL && thread < g_strv_length (needles->threads))
    for (guint t = 0; t < motif->n_threads; t++)
      if (g_strcmp0 (motif->threads[t].name, needles->threads[thread]) == 0)
        return motif->threads[t].colour;
  return motif->threads[thread % motif->n_threads].colour;
}

/* The colour of each thread of a list, looked up once. Returns: (transfer full) */
static HwColour *
thread_colours (const HwMotif *motif, const HwNeedleList *needles, guint *n_colours)
{
  HwColour *colours;

  *n_colours = MAX (needles->threads != NULL ? g_strv_length (needles->threads) : 0, 1);
  colours = g_new (HwColour, *n_colours);
  for (guint t = 0; t < *n_colours; t++)
    colours[t] = hw_motif_thread_colour (motif, t);
  return colours;
}

static HwBox
box_of_needles (const HwNeedleList *needles, const Lay *lay)
{
  HwBox box = HW_BOX_EMPTY;

  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *p = &needles->points[i];
      double x = lay->xx * p->x + lay->xy * p->y, y = lay->yx * p->x + lay->yy * p->y;

      if (p->action != HW_NEEDLE_STITCH && p->action != HW_NEEDLE_JUMP)
        continue;
      box.x0 = MIN (box.x0, x);
      box.x1 = MAX (box.x1, x);
      box.y0 = MIN (box.y0, y);
      box.y1 = MAX (box.y1, y);
    }
  return box;
}

/* Makes the empty picture around a box in pixels; FALSE when it would hold too much, painted so many times finer. */
static gboolean
picture_open (HwThreadPicture *picture, HwBox box, double spread, int times)
{
  double width, height;

  if (!isfinite (box.x0 + box.x1 + box.y0 + box.y1))
    return FALSE;
  picture->x = floor (box.x0 - spread);
  picture->y = floor (box.y0 - spread);
  width = ceil (box.x1 + spread) - picture->x;
  height = ceil (box.y1 + spread) - picture->y;
  if (width * times > 32767 || height * times > 32767 || width * height * times * times > MOST_PIXELS)
    return FALSE;
  picture->surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  if (cairo_surface_status (picture->surface) == CAIRO_STATUS_SUCCESS)
    return TRUE;
  g_clear_pointer (&picture->surface, cairo_surface_destroy);
  return FALSE;
}

/* Gathers strands until the thread is cut, moved or changed, then has them drawn together. FALSE when memory is short. */
static gboolean
paint_strands (const HwThreadPicture *picture,
               const HwMotif *motif,
               const HwNeedleList *needles,
               const Lay *lay,
               double strand_width,
               double shortest,
               guint detail)
{
  g_autoptr (HwStrandRaster) raster = hw_strand_raster_new (picture->surface, strand_width);
  g_autofree HwStrand *run = g_try_new (HwStrand, needles->n_points + 1);
  guint n_colours, n_run = 0, n_stitch = 0;
  g_autofree HwColour *colours = thread_colours (motif, needles, &n_colours);
  float x = 0, y = 0;
  gboolean placed = FALSE;

  if (raster == NULL || run == NULL)
    return FALSE;
  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *p = &needles->points[i];
      float next_x = (float)(lay->xx * p->x + lay->xy * p->y - picture->x);
      float next_y = (float)(lay->yx * p->x + lay->yy * p->y - picture->y);
      gboolean last
          = i + 1 == needles->n_points || p[1].action != HW_NEEDLE_STITCH || p[1].thread != p->thread;

      if (p->action == HW_NEEDLE_STITCH && placed && n_stitch++ % detail == 0
          && (fabsf (next_x - x) > shortest || fabsf (next_y - y) > shortest))
        run[n_run++] = (HwStrand){ x, y, next_x, next_y, i };
      if (last && n_run > 0)
        {
          hw_strand_raster_run (raster, run, n_run, colours[p->thread % n_colours]);
          n_run = 0;
        }
      if (p->action == HW_NEEDLE_STITCH || p->action == HW_NEEDLE_JUMP)
        {
          x = next_x;
          y = next_y;
          placed = TRUE;
        }
    }
  return TRUE;
}

/* How many times finer to paint than to show: below about 1.5 pixels a mm single strands no longer make a clean edge. */
static int
fineness (double pixels_per_mm, HwBox box, guint detail)
{
  double pixels = MAX ((box.x1 - box.x0) * (box.y1 - box.y0), 1);
  int affordable = MAX ((int)sqrt (MOST_FINE_PIXELS / pixels), 1);

  if (pixels_per_mm >= FINE_FROM || detail > 1)
    return 1;
  return CLAMP ((int)ceil (FINE_FROM / pixels_per_mm), 1, MIN (MOST_FINE, affordable));
}

/* Each pixel of the picture becomes the mean of the fine pixels it covers. */
static void
average (cairo_surface_t *fine, cairo_surface_t *picture, int times)
{
  int width = cairo_image_surface_get_width (picture), height = cairo_image_surface_get_height (picture);
  int from_stride = cairo_image_surface_get_stride (fine),
      to_stride = cairo_image_surface_get_stride (picture);
  const guint8 *from = cairo_image_surface_get_data (fine);
  guint8 *to = cairo_image_surface_get_data (picture);
  guint32 parts = times * times;

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width * 4; x++)
      {
        const guint8 *first = from + (gsize)y * times * from_stride + (gsize)(x / 4) * times * 4 + x % 4;
        guint32 sum = parts / 2;

        for (int j = 0; j < times; j++)
          for (int i = 0; i < times; i++)
            sum += first[(gsize)j * from_stride + i * 4];
        to[(gsize)y * to_stride + x] = (guint8)(sum / parts);
      }
}

/* The picture is open; fills it, by way of a finer one where that is wanted. */
static gboolean
picture_fill (HwThreadPicture *picture,
              const HwMotif *motif,
              const HwNeedleList *needles,
              double pixels_per_mm,
              guint detail,
              int times)
{
  HwThreadPicture fine = { picture->surface, picture->x * times, picture->y * times };
  double pixels_per_motif_mm = pixels_per_mm * times * motif->placement.scale;
  double width = STRAND_MM * pixels_per_motif_mm * (detail > 1 ? detail * 0.9 : 1);
  Lay lay = lay_of (&motif->placement, pixels_per_mm * times);
  gboolean done;

  if (times > 1)
    fine.surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32,
                                               cairo_image_surface_get_width (picture->surface) * times,
                                               cairo_image_surface_get_height (picture->surface) * times);
  done = cairo_surface_status (fine.surface) == CAIRO_STATUS_SUCCESS
         && paint_strands (&fine, motif, needles, &lay, width, SHORTEST_MM * pixels_per_motif_mm, detail);
  if (times > 1)
    {
      if (done)
        average (fine.surface, picture->surface, times);
      cairo_surface_destroy (fine.surface);
    }
  cairo_surface_mark_dirty (picture->surface);
  return done;
}

gboolean
hw_thread_picture_paint (HwThreadPicture *picture, const HwMotif *motif, double pixels_per_mm, guint detail)
{
  g_autoptr (HwNeedleList) needles = NULL;
  HwBox box;
  Lay lay;
  int times;

  g_return_val_if_fail (picture != NULL && motif != NULL, FALSE);
  g_return_val_if_fail (pixels_per_mm > 0 && detail >= 1, FALSE);

  *picture = (HwThreadPicture){ 0 };
  if (motif->needles != NULL && motif->needles->n_stitches > 0)
    needles = hw_needle_list_ref (motif->needles);
  else if (motif->picture != NULL && motif->picture_pixels_per_mm > 0)
    return hw_picture_paint (picture, motif, pixels_per_mm);
  else
    needles = hw_strand_fill_outline (motif);
  if (needles == NULL)
    return FALSE;
  lay = lay_of (&motif->placement, pixels_per_mm);
  box = box_of_needles (needles, &lay);
  if (hw_box_is_empty (box))
    return FALSE;
  times = fineness (pixels_per_mm * motif->placement.scale, box, detail);
  if (!picture_open (picture, box, 2 * STRAND_MM * pixels_per_mm * motif->placement.scale * detail + 2,
                     times))
    return FALSE;
  if (picture_fill (picture, motif, needles, pixels_per_mm, detail, times))
    return TRUE;
  hw_thread_picture_clear (picture);
  return FALSE;
}

void
hw_thread_picture_clear (HwThreadPicture *picture)
{
  g_return_if_fail (picture != NULL);

  g_clear_pointer (&picture->surface, cairo_surface_destroy);
}

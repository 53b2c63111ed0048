/* Artwork on paper is there to recognise the motif by, not to be stitched from: a picture of its thread,
 * pale enough for the lines over it. Pictures, not strokes: 20,000 stitches as strokes make a file no
 * printer likes. */
#include "template-artwork.h"

#include <math.h>

#include "../drawing/thread-painting.h"
#include "artwork-ahead.h"

#define FINEST 5.0          /* pixels per mm, about 130 to the inch */
#define COARSEST 2.0        /* below this a motif is a smear */
#define PIXELS_OF_A_JOB 8e6 /* all pictures of one job together */
#define TINT_STEPS 48       /* fewer tints compress better; pale ones do not show the steps */
#define CUT_OUT 170         /* what is clearer than this, of 255, is left out */

double
hw_artwork_fineness (const HwMotif *const *motifs, guint n_motifs)
{
  double area = 0;

  for (guint i = 0; i < n_motifs; i++)
    {
      HwBox box = motifs[i]->outline->box;
      double scale = motifs[i]->placement.scale;

      area += (box.x1 - box.x0) * (box.y1 - box.y0) * scale * scale;
    }

  return CLAMP (sqrt (PIXELS_OF_A_JOB / MAX (area, 1)), COARSEST, FINEST);
}

/* What a part of a colour becomes when it is thinned, in few steps. */
static void
fill_tints (guchar *tint, double paleness)
{
  for (int i = 0; i < 256; i++)
    {
      double level = 1 - (1 - i / 255.0) * (1 - paleness);

      if (paleness > 0)
        level = round (level * TINT_STEPS) / TINT_STEPS;
      tint[i] = (guchar)round (255 * MIN (level, 1));
    }
}

/* Lays the picture on white paper and thins it. Alone it fills its box and needs no mask in the file; else
 * it is cut out along the thread's edge, since half-clear pixels would make the file several times as
 * large. */
static cairo_surface_t *
lay_on_paper (cairo_surface_t *picture, double paleness, gboolean alone)
{
  int width = cairo_image_surface_get_width (picture), height = cairo_image_surface_get_height (picture);
  cairo_surface_t *paper
      = cairo_image_surface_create (alone ? CAIRO_FORMAT_RGB24 : CAIRO_FORMAT_ARGB32, width, height);
  guint32 clear = alone ? 0xffffff : 0;
  guchar tint[256];

  if (cairo_surface_status (paper) != CAIRO_STATUS_SUCCESS)
    return paper;

  fill_tints (tint, paleness);
  cairo_surface_flush (picture);
  for (int y = 0; y < height; y++)
    {
      const guint32 *from
          = (const guint32 *)(const void *)(cairo_image_surface_get_data (picture)
                                            + (gsize)y * cairo_image_surface_get_stride (picture));
      guint32 *to = (guint32 *)(void *)(cairo_image_surface_get_data (paper)
                                        + (gsize)y * cairo_image_surface_get_stride (paper));

      for (int x = 0; x < width; x++)
        {
          guint32 p = from[x], white = 255 - (p >> 24);
          guint red = MIN (255, ((p >> 16) & 255) + white);
          guint green = MIN (255, ((p >> 8) & 255) + white);
          guint blue = MIN (255, (p & 255) + white);

          if (white > CUT_OUT)
            to[x] = clear;
          else
            to[x] = 0xffu << 24 | (guint32)tint[red] << 16 | (guint32)tint[green] << 8 | tint[blue];
        }
    }
  cairo_surface_mark_dirty (paper);

  return paper;
}

void
hw_artwork_paint_wish (HwArtwork *artwork, const HwArtworkWish *wish)
{
  g_autoptr (HwMotif) turned = hw_motif_copy (wish->motif);
  HwThreadPicture picture = { NULL };
  HwArtworkGround ground = wish->ground;

  *artwork = (HwArtwork){ .pixels_per_mm = wish->pixels_per_mm,
                          .strength = ground == HW_ARTWORK_SOFT ? 1 - wish->paleness : 1 };
  turned->placement.position = (HwPoint){ 0, 0 };
  turned->placement.angle = wish->turn;
  if (!hw_thread_picture_paint (&picture, turned, wish->pixels_per_mm, 1))
    return;

  artwork->x = picture.x;
  artwork->y = picture.y;
  artwork->surface = ground == HW_ARTWORK_SOFT
                         ? cairo_surface_reference (picture.surface)
                         : lay_on_paper (picture.surface, wish->paleness, ground == HW_ARTWORK_ALONE);
  hw_thread_picture_clear (&picture);
}

void
hw_artwork_paint (HwArtwork *artwork, const HwArtworkWish *wish)
{
  if (!hw_artwork_take_foreseen (wish, artwork))
    hw_artwork_paint_wish (artwork, wish);
}

void
hw_artwork_draw (const HwArtwork *artwork, cairo_t *cr)
{
  if (artwork->surface == NULL)
    return;

  cairo_save (cr);
  cairo_scale (cr, 1 / artwork->pixels_per_mm, 1 / artwork->pixels_per_mm);
  cairo_set_source_surface (cr, artwork->surface, artwork->x, artwork->y);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_GOOD);
  if (artwork->strength < 1)
    cairo_paint_with_alpha (cr, artwork->strength);
  else
    cairo_paint (cr);
  cairo_restore (cr);
}

void
hw_artwork_clear (HwArtwork *artwork)
{
  g_clear_pointer (&artwork->surface, cairo_surface_destroy);
}

void
hw_draw_artwork (cairo_t *cr, const HwArtworkWish *wish)
{
  HwArtwork artwork;

  hw_artwork_paint (&artwork, wish);
  hw_artwork_draw (&artwork, cr);
  hw_artwork_clear (&artwork);
}

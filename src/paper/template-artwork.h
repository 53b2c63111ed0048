/* Private to this room: a motif's artwork as a pale picture for paper. */
#pragma once

#include <cairo.h>

#include "../scene/records.h"

G_BEGIN_DECLS

/* How fine the pictures of a job may be, so that 200 motifs still make a small file: pixels per mm. */
double
hw_artwork_fineness (const HwMotif *const *motifs, guint n_motifs);

typedef enum
{
  HW_ARTWORK_ALONE, /* nothing lies below it: it may cover its whole box with white, which makes the smallest file */
  HW_ARTWORK_CUT, /* cut out along the thread's edge */
  HW_ARTWORK_SOFT /* what lies below shines through; the largest file */
} HwArtworkGround;

/* The motif's artwork at its size on the cloth and mirrored as on the cloth, turned by `turn` degrees about
 * its centre. paleness: 0 as it is, 1 white. */
typedef struct
{
  cairo_surface_t *surface; /* NULL: nothing to show */
  double x, y;              /* its top left corner from the motif's centre, pixels */
  double pixels_per_mm;
  double strength; /* it is drawn with, 0 to 1 */
} HwArtwork;

/* All that a picture depends on. */
typedef struct
{
  const HwMotif *motif;
  double turn, paleness;
  HwArtworkGround ground;
  double pixels_per_mm;
} HwArtworkWish;

/* Takes the picture that was painted ahead, else paints it. */
void
hw_artwork_paint (HwArtwork *artwork, const HwArtworkWish *wish);
/* Paints it, on any thread. */
void
hw_artwork_paint_wish (HwArtwork *artwork, const HwArtworkWish *wish);
/* Centred on (0, 0) of the current user space, mm. Drawn again on a later page, it is kept only once in a
 * PDF. */
void
hw_artwork_draw (const HwArtwork *artwork, cairo_t *cr);
void
hw_artwork_clear (HwArtwork *artwork);

/* Paints, draws and clears. */
void
hw_draw_artwork (cairo_t *cr, const HwArtworkWish *wish);

G_END_DECLS

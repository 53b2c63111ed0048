/* Embroidery that looks like embroidery: each stitch a short strand with a light and a dark side along the thread when near,
 * the block's colour with the sheen of its stitch direction when far. A small line rasteriser of our own into pixels: cairo
 * cannot stroke 20,000 stitches within a frame. */
#pragma once

#include <cairo.h>

#include "../scene/records.h"

G_BEGIN_DECLS

typedef struct
{
  cairo_surface_t *surface; /* ARGB32 premultiplied */
  double x, y; /* where its top left pixel's corner lies relative to the motif's position, in pixels */
} HwThreadPicture;

/* Paints the motif's artwork (its needle list; else its picture; else its outline filled in its thread colours, stitched-looking) under its own turn,
 * scale and mirroring, at pixels_per_mm. light: where light comes from is fixed to the cloth (top left), not to the motif.
 * May be called on any thread. detail: 1 = every stitch; n > 1 = every nth row coarse. Free with hw_thread_picture_clear().
 * Returns FALSE when there is nothing to paint or it would exceed 64 million pixels. */
gboolean
hw_thread_picture_paint (HwThreadPicture *picture, const HwMotif *motif, double pixels_per_mm, guint detail);
void
hw_thread_picture_clear (HwThreadPicture *picture);

/* The motif's thread colour for a needle list's thread index: by name, else by position. */
HwColour
hw_motif_thread_colour (const HwMotif *motif, guint thread);

/* Draws the artwork pale, as vectors (needle list as thin lines, else outline filled) in the motif's own mm at the current user space: for
 * templates. paleness 0 = full colour, 1 = white. */
void
hw_thread_draw_pale (cairo_t *cr, const HwMotif *motif, double paleness);

G_END_DECLS

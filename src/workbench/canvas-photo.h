/* The photograph under the motifs. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef struct _HwCanvas HwCanvas;
typedef struct _HwCanvasPhoto HwCanvasPhoto;

HwCanvasPhoto *
hw_canvas_photo_new (void);
void
hw_canvas_photo_free (HwCanvasPhoto *photo);
/* Looks which photo is shown now, and puts it square in the background where that is not done yet. */
void
hw_canvas_refresh_photo (HwCanvas *canvas);
/* Its file is another one by now: it is read again, and what was read stays until that has gone well. */
void
hw_canvas_reread_photo (HwCanvas *canvas);
/* Whether it is shown as finely as it will be. */
gboolean
hw_canvas_photo_is_sharp (HwCanvas *canvas);
/* On the cloth, in fabric mm. */
void
hw_canvas_draw_photo (HwCanvas *canvas, cairo_t *cr);
/* 0 to 1: how far a motif stands back so that the photo is seen. 1 without a photo, or when nothing is faded. */
double
hw_canvas_photo_alpha (HwCanvas *canvas, const char *motif_id);

G_END_DECLS

/* The table: the cloth lies on it, motifs are dragged, turned and scaled on it, hoopings and marks show over it. A widget that watches a
 * bench and calls its verbs; it knows no rule of planning. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_CANVAS (hw_canvas_get_type ())
G_DECLARE_FINAL_TYPE (HwCanvas, hw_canvas, HW, CANVAS, GtkWidget)

/* Property "bench" (HwBench). Rulers, readout and candidates' ghosts are part of it. */
GtkWidget *
hw_canvas_new (HwBench *bench);
void
hw_canvas_set_bench (HwCanvas *canvas, HwBench *bench);
void
hw_canvas_zoom_fit (HwCanvas *canvas);
void
hw_canvas_zoom_by (HwCanvas *canvas, double factor); /* about the middle */
void
hw_canvas_zoom_true_size (HwCanvas *canvas);
/* Brings a fabric point into view without changing the zoom. */
void
hw_canvas_show (HwCanvas *canvas, HwPoint where);
/* The point of the cloth in the middle of the table (mm) and the zoom (pixels per mm); FALSE when the whole cloth is shown, however large the window is. */
gboolean
hw_canvas_get_place (HwCanvas *canvas, HwPoint *centre, double *zoom);
void
hw_canvas_set_place (HwCanvas *canvas, HwPoint centre, double zoom);
/* How many pixels at its right something lies over: what is asked to be shown is brought beside it. */
void
hw_canvas_set_covered (HwCanvas *canvas, double covered);
/* Footprints and marks drawn or not: properties "show-hoopings", "show-marks", "show-order" (gboolean, default TRUE). How dense the stitching lies: "show-density"
 * (gboolean, default FALSE). */

/* For tests: client pixels of a fabric point. */
void
hw_canvas_to_pixels (HwCanvas *canvas, HwPoint where, double *x, double *y);

G_END_DECLS

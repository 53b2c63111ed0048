/* A picture of artwork on white, to be looked at closely and drawn over: it can be zoomed and panned; what is drawn over it, and what a press there means, is
 * the business of whoever shows it. */
#pragma once

#include <gtk/gtk.h>

#include "canvas-view.h"
#include "photo-levels.h"

G_BEGIN_DECLS

#define HW_TYPE_ARTWORK_VIEW (hw_artwork_view_get_type ())
G_DECLARE_FINAL_TYPE (HwArtworkView, hw_artwork_view, HW, ARTWORK_VIEW, GtkWidget)

/* Places are in mm of what is shown. Each may be NULL. */
typedef struct
{
  void (*draw) (HwArtworkView *view, cairo_t *cr, gpointer data);     /* in pixels */
  gboolean (*press) (HwArtworkView *view, HwPoint at, gpointer data); /* FALSE: it pans */
  void (*pull) (HwArtworkView *view, HwPoint at, gpointer data);
  void (*let_go) (HwArtworkView *view, gpointer data);
  const char *(*hover) (HwArtworkView *view, HwPoint at, gpointer data); /* the cursor's name, or NULL */
  void (*menu) (HwArtworkView *view, HwPoint at, gpointer data);
  gboolean (*key) (HwArtworkView *view, guint key, GdkModifierType held, gpointer data);
} HwArtworkHands;

/* label: for those who do not see it. hands and data must live as long as the view. */
GtkWidget *
hw_artwork_view_new (const char *label, const HwArtworkHands *hands, gpointer data);
/* levels may be NULL. box: where the picture lies, mm; shown: what the view shows at first. */
void
hw_artwork_view_show (HwArtworkView *view, HwPhotoLevels *levels, HwBox box, HwBox shown);
const HwView *
hw_artwork_view_get_view (HwArtworkView *view);
/* Shifts so that the place is in sight. */
void
hw_artwork_view_reveal (HwArtworkView *view, HwPoint at);
void
hw_artwork_view_zoom_by (HwArtworkView *view, double factor); /* about the middle; 0: all of it */

G_END_DECLS

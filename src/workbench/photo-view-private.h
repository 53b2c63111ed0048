/* The inside of the view of a photo, shared by the files that make it up and by no other. */
#pragma once

#include "photo-view.h"

G_BEGIN_DECLS

typedef enum
{
  HW_PHOTO_HAND_NONE,
  HW_PHOTO_HAND_HANDLE,
  HW_PHOTO_HAND_PAN
} HwPhotoHand;

struct _HwPhotoView
{
  GtkWidget parent_instance;

  HwSquaring *squaring;
  HwPhotoLevels *levels;
  GArray *spots; /* HwPhotoSpot */
  gboolean movable;
  HwBox cloth;
  HwOutline *edge;
  GArray *line; /* HwPoint */
  gboolean checking;

  double zoom; /* pixels of the widget a photo pixel takes */
  HwPoint at;  /* where the photo's top left lies, px of the widget */
  gboolean fitted;

  int chosen; /* a handle; from the number of handles on: a spot; or -1 */
  int hover;
  HwPhotoHand hand;
  HwPoint last; /* of the drag, from where it began */
  HwPoint pointer;
  double pinch_zoom;
};

/* How many there are that can be taken hold of, and where one of them is in the photo. */
guint
hw_photo_view_count (HwPhotoView *view);
HwPoint *
hw_photo_view_place (HwPhotoView *view, guint index);
HwPoint
hw_photo_view_to_widget (HwPhotoView *view, HwPoint px);
/* Everything over and under the handles. */
void
hw_photo_view_draw (HwPhotoView *view, GtkSnapshot *snapshot);
/* photo-view-hands.c */
void
hw_photo_view_add_hands (HwPhotoView *view);
void
hw_photo_view_zoom_at (HwPhotoView *view, double factor, HwPoint at);
void
hw_photo_view_emit (HwPhotoView *view, const char *signal, guint point);

G_END_DECLS

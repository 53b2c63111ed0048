/* A photograph as it was taken, with handles to be dragged onto places that are known. */
#pragma once

#include <gtk/gtk.h>

#include "photo-levels.h"
#include "photo-squaring.h"

G_BEGIN_DECLS

#define HW_TYPE_PHOTO_VIEW (hw_photo_view_get_type ())
G_DECLARE_FINAL_TYPE (HwPhotoView, hw_photo_view, HW, PHOTO_VIEW, GtkWidget)

/* A place in the photo where something was found, or is looked for, and that waits for approval. */
typedef struct
{
  HwPoint px;
  char *name;     /* to tell it by */
  gboolean faint; /* not approved */
} HwPhotoSpot;

/* Signals: "moved" (uint): a handle has another place; "chosen" (uint): a handle was pressed; "spot-moved" (uint): a spot has; "line-changed": a point was added to the
 * line that is checked. squaring must live as long as the view. */
GtkWidget *
hw_photo_view_new (HwSquaring *squaring);
void
hw_photo_view_set_levels (HwPhotoView *view, HwPhotoLevels *levels);
/* Lines of the cloth that are drawn over the photo as they would lie, fabric mm: its own rim, and the edge line or NULL. */
void
hw_photo_view_set_lines (HwPhotoView *view, HwBox cloth, const HwOutline *edge);
/* Copies n of them; movable: they can be taken hold of like handles. */
void
hw_photo_view_set_spots (HwPhotoView *view, const HwPhotoSpot *spots, guint n, gboolean movable);
/* Where a spot is now, px. */
HwPoint
hw_photo_view_get_spot (HwPhotoView *view, guint spot);
void
hw_photo_view_choose_spot (HwPhotoView *view, guint spot);
void
hw_photo_view_choose (HwPhotoView *view, int point); /* -1: none */
/* Clicks on the photo set points of a line that is straight on the cloth; off forgets them. */
void
hw_photo_view_set_checking (HwPhotoView *view, gboolean checking);
/* (transfer none) (element-type HwPoint): px */
const GArray *
hw_photo_view_get_line (HwPhotoView *view);
/* The squaring has changed. */
void
hw_photo_view_refresh (HwPhotoView *view);
void
hw_photo_view_fit (HwPhotoView *view);
/* The middle of what is seen, px of the photo. */
HwPoint
hw_photo_view_middle (HwPhotoView *view);

G_END_DECLS

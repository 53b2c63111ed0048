/* The inside of the window that puts a photo square, shared by the files that make it up and by no other. */
#pragma once

#include "photo-desk.h"
#include "photo-marks.h"

G_BEGIN_DECLS

typedef struct
{
  HwPhotoDesk desk; /* first: one is the other */
  guint index;      /* of the photo in the scene */
  HwPhoto *photo;

  GtkWidget *look, *marks_told, *marks, *use_marks, *follow;
  GArray *seen;       /* HwSeenMark, or NULL */
  GPtrArray *seen_in; /* the places they were looked for in */
  GPtrArray *ticks;   /* a check button for each */
  gboolean stretched;
  HwStretch stretch;
} HwPhotoSquare;

/* photo-square-dialog.c */
/* The scene is taken over with the photo put square. */
void
hw_photo_square_apply (HwPhotoSquare *square);

/* photo-square-marks.c */
GtkWidget *
hw_photo_square_make_marks (HwPhotoSquare *square);
void
hw_photo_square_update_marks (HwPhotoSquare *square);

G_END_DECLS

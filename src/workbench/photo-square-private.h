/* The inside of the window that puts a photo square, shared by the files that make it up and by no other. */
#pragma once

#include "bench.h"
#include "photo-marks.h"
#include "photo-view.h"

G_BEGIN_DECLS

typedef struct
{
  HwBench *bench;
  GtkWindow *window;
  guint index; /* of the photo in the scene */
  HwPhoto *photo;
  HwPicture *picture; /* NULL while it is being opened */
  HwPhotoLevels *levels;
  HwSquaring *squaring;
  GPtrArray *places;  /* HwKnownPlace */
  gboolean untouched; /* the handles are still where they were put to begin with */
  GCancellable *cancellable;
  gboolean updating;

  GtkStack *stage; /* "opening", "photo" */
  GtkWidget *opening;
  GtkWidget *view_box;
  HwPhotoView *view;
  GtkWidget *column;
  GtkWidget *told;
  GtkWidget *take;

  GtkWidget *rows; /* a box, one row for each handle */
  GPtrArray *offs; /* the labels that tell how far each is off */

  GtkWidget *paper, *find_sheet, *sheet_told, *sheet_place, *sheet_x, *sheet_y, *sheet_turn;
  GtkWidget *bow, *fit_bow, *bow_told;
  GtkWidget *straight_told;

  GtkWidget *look, *marks_told, *marks, *use_marks, *follow;
  GArray *seen;       /* HwSeenMark, or NULL */
  GPtrArray *seen_in; /* the places they were looked for in */
  GPtrArray *ticks;   /* a check button for each */
  gboolean stretched;
  HwStretch stretch;
} HwPhotoSquare;

/* photo-square-dialog.c */
/* A handle moved: fits anew and tells what comes of it. */
void
hw_photo_square_solve (HwPhotoSquare *square, gboolean fit_bow);
/* There are other handles: the same, with the list made anew. */
void
hw_photo_square_renew (HwPhotoSquare *square);
GtkWidget *
hw_photo_square_heading (const char *text);
/* The scene is taken over with the photo put square. */
void
hw_photo_square_apply (HwPhotoSquare *square);

/* photo-square-rows.c */
GtkWidget *
hw_photo_square_make_rows (HwPhotoSquare *square);
void
hw_photo_square_fill_rows (HwPhotoSquare *square);
void
hw_photo_square_update_rows (HwPhotoSquare *square);

/* photo-square-sheet.c */
GtkWidget *
hw_photo_square_make_sheet (HwPhotoSquare *square);
void
hw_photo_square_update_sheet (HwPhotoSquare *square);

/* photo-square-lens.c */
GtkWidget *
hw_photo_square_make_lens (HwPhotoSquare *square);
void
hw_photo_square_update_lens (HwPhotoSquare *square);
void
hw_photo_square_tell_line (HwPhotoSquare *square);

/* photo-square-marks.c */
GtkWidget *
hw_photo_square_make_marks (HwPhotoSquare *square);
void
hw_photo_square_update_marks (HwPhotoSquare *square);

G_END_DECLS

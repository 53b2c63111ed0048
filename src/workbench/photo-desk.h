/* A photo on the table: it fills a window, handles lie on it, and beside it stands a column with what each handle is on, and how far off it is. What
 * becomes of it is the affair of the window that holds the desk: one puts the photo square, another reads marks in it. Shared by these and by no other. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"
#include "photo-view.h"

G_BEGIN_DECLS

typedef struct _HwPhotoDesk HwPhotoDesk;

struct _HwPhotoDesk
{
  /* Of the window that holds the desk. opened: the photo is there; handles and parts of the column are to be put. solved: the handles were fitted
   * anew. free_whole: what the desk is part of is let go, or NULL for the desk alone. */
  void (*opened) (HwPhotoDesk *desk);
  void (*solved) (HwPhotoDesk *desk);
  GDestroyNotify free_whole;

  HwBench *bench;
  GtkWindow *window;
  HwPicture *picture; /* NULL while it is being opened */
  HwPhotoLevels *levels;
  HwSquaring *squaring;
  GPtrArray *places;  /* HwKnownPlace that handles may be on */
  gboolean untouched; /* the handles are still where they were put to begin with */
  GCancellable *cancellable;
  gboolean updating;

  GtkStack *stage; /* "opening", "photo" */
  GtkWidget *opening;
  GtkWidget *view_box;
  HwPhotoView *view;
  GtkWidget *column;
  GtkWidget *told;
  GtkWidget *take; /* the button that makes use of it all */

  GtkWidget *rows;                       /* a box, one row for each handle */
  GPtrArray *offs;                       /* the labels that tell how far each is off */
  const char *across_label, *down_label; /* of a typed position, with the handle's number for %u */
  const char *across, *down;             /* the same in a word */

  GtkWidget *paper, *find_sheet, *sheet_told, *sheet_place, *sheet_x, *sheet_y, *sheet_turn;
  GtkWidget *bow, *fit_bow, *bow_told;
  GtkWidget *straight_told;
};

/* Makes the window over parent, not shown yet; takes over places. words: what to do, over the photo; take: what the button says that makes use of it. The desk is let go with
 * the window, or by hw_photo_desk_clear() before that. */
void
hw_photo_desk_init (HwPhotoDesk *desk,
                    GtkWindow *parent,
                    HwBench *bench,
                    GPtrArray *places,
                    const char *title,
                    const char *words,
                    const char *take);
void
hw_photo_desk_clear (HwPhotoDesk *desk);
/* Opens the photo in the background and shows it; folder: where its path starts, or NULL. */
void
hw_photo_desk_open (HwPhotoDesk *desk, const HwPhoto *photo, const char *folder);
/* The view over the photo with the handles there are, called by `opened` before parts are added: frame, fabric or hoop mm, and a line in it or NULL, are
 * drawn over the photo as they would lie. */
void
hw_photo_desk_lay_out (HwPhotoDesk *desk, HwBox frame, const HwOutline *line);
/* At the foot of the column, below a thin line. */
void
hw_photo_desk_append (HwPhotoDesk *desk, GtkWidget *part);
/* A handle moved: fits anew and tells what comes of it. */
void
hw_photo_desk_solve (HwPhotoDesk *desk, gboolean fit_bow);
/* There are other handles: the same, with the list made anew. */
void
hw_photo_desk_renew (HwPhotoDesk *desk);
/* The same, once the list is no longer at work. */
void
hw_photo_desk_renew_soon (HwPhotoDesk *desk);
GtkWidget *
hw_photo_desk_heading (const char *text);

/* photo-desk-rows.c */
GtkWidget *
hw_photo_desk_make_rows (HwPhotoDesk *desk);
void
hw_photo_desk_fill_rows (HwPhotoDesk *desk);
void
hw_photo_desk_update_rows (HwPhotoDesk *desk);

/* photo-desk-sheet.c */
GtkWidget *
hw_photo_desk_make_sheet (HwPhotoDesk *desk);
/* Looks for it in the background; its handles come in place of those that were not touched yet. */
void
hw_photo_desk_find_sheet (HwPhotoDesk *desk);
void
hw_photo_desk_update_sheet (HwPhotoDesk *desk);

/* photo-desk-lens.c */
GtkWidget *
hw_photo_desk_make_lens (HwPhotoDesk *desk);
void
hw_photo_desk_update_lens (HwPhotoDesk *desk);
void
hw_photo_desk_tell_line (HwPhotoDesk *desk);

G_END_DECLS

/* The inside of the window that reads marks in a photo, shared by the files that make it up and by no other. */
#pragma once

#include "photo-desk.h"
#include "photo-reader.h"
#include "photo-readings.h"

G_BEGIN_DECLS

typedef struct
{
  HwPhotoDesk desk; /* first: one is the other */
  HwPhoto *photo;
  HwHoop *hoop;     /* NULL: a sheet of paper beside the marks */
  GPtrArray *marks; /* HwKnownPlace: where the marks should be */
  GArray *readings; /* HwPhotoReading */
  HwPhotoWorth worth;
  gboolean measured;
  gboolean looked;
  HwPhotoRead read;
  GWeakRef owner;

  GtkWidget *look, *marks_told, *list;
  GPtrArray *ticks, *texts; /* of each reading */
} HwPhotoReader;

/* photo-reader-marks.c */
GtkWidget *
hw_photo_reader_make_marks (HwPhotoReader *reader);
/* The handles moved. */
void
hw_photo_reader_update_marks (HwPhotoReader *reader);
/* A square was dragged in the photo. */
void
hw_photo_reader_put_mark (HwPhotoReader *reader, guint index);

G_END_DECLS

/* What a JPEG or PNG file says of its picture before any of it is decoded: size, turn, resolution, the day it was taken, and whether the file is all there. Private to this room. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  HW_PICTURE_JPEG,
  HW_PICTURE_PNG,
  HW_PICTURE_OTHER
} HwPictureKind;

typedef struct
{
  HwPictureKind kind;
  guint width, height; /* pixels as stored; 0: not found */
  guint orientation;   /* 1 to 8, as EXIF counts; 1: upright */
  double dpi_x, dpi_y; /* as stored, along width and height; 0: not said */
  char day[11];        /* "2026-11-25" by the camera's clock, or "" */
  gboolean whole;      /* the mark that ends such a file was reached */
} HwPictureNotes;

/* Told by the content alone. Never reads past the end, whatever the bytes are. */
void
hw_picture_notes_read (const guint8 *bytes, gsize length, HwPictureNotes *notes);

G_END_DECLS

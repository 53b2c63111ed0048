/* A raster picture in memory: a photograph of the cloth, a scanned template. Immutable and shared by reference. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  gatomicrefcount ref_count;
  guint width, height; /* pixels, upright: any turn the camera noted is taken out already */
  gsize stride;        /* bytes a row */
  guint8 *pixels;      /* red, green, blue, opacity: 8 bits each, not premultiplied */
  double dpi_x, dpi_y; /* pixels per inch that the file claims; 0: it says nothing */
} HwPicture;

/* Takes over pixels (g_malloc'ed, height * stride bytes). Returns: (transfer full) */
HwPicture *
hw_picture_new (guint width, guint height, gsize stride, guint8 *pixels);
HwPicture *
hw_picture_ref (const HwPicture *picture);
void
hw_picture_unref (HwPicture *picture);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPicture, hw_picture_unref)

/* Luminance 0 to 255 of a pixel over white; x, y within the picture. */
guint8
hw_picture_grey (const HwPicture *picture, guint x, guint y);

G_END_DECLS

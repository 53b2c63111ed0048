/* Photographs and scans from JPEG and PNG files: bounded in memory, upright by the camera's note (EXIF orientation, CIPA DC-008, tag 0x0112). */
#pragma once

#include <gio/gio.h>

#include "../scene/picture.h"

G_BEGIN_DECLS

#define HW_PICTURE_ERROR (hw_picture_error_quark ())
typedef enum
{
  HW_PICTURE_ERROR_READ,
  HW_PICTURE_ERROR_FORMAT,   /* neither JPEG nor PNG, or broken */
  HW_PICTURE_ERROR_TOO_LARGE /* over 200 megapixels, or 60,000 pixels along a side */
} HwPictureError;
GQuark
hw_picture_error_quark (void);

/* Returns: (transfer full) (nullable) */
HwPicture *
hw_picture_load (const char *path, GError **error);
HwPicture *
hw_picture_load_bytes (GBytes *bytes, const char *name, GError **error);
/* The day the picture was taken, "2026-11-25", by the camera's note (EXIF, CIPA DC-008, tag 0x9003, or 0x0132); NULL when it says none. Nothing is decoded.
 * Returns: (transfer full) (nullable) */
char *
hw_picture_day (GBytes *bytes);
gboolean
hw_picture_save_png (const HwPicture *picture, const char *path, GError **error);
/* The picture as it lies on the cloth: box (fabric mm) at dpi pixels per inch, taken from photo through the homography given as a function from mm to
 * photo pixels; outside the photo transparent. Returns: (transfer full) (nullable): NULL and HW_PICTURE_ERROR_TOO_LARGE beyond 200 megapixels. */
typedef gboolean (*HwPictureWay) (double x_mm, double y_mm, double *x_px, double *y_px, gpointer data);
HwPicture *
hw_picture_squared (const HwPicture *photo,
                    double x,
                    double y,
                    double width,
                    double height,
                    double dpi,
                    HwPictureWay way,
                    gpointer data,
                    GError **error);

G_END_DECLS

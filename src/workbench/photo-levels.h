/* A picture kept at several sizes, each half of the one before, so that any zoom is drawn quickly and without sparkle. */
#pragma once

#include <cairo.h>

#include "../scene/picture.h"

G_BEGIN_DECLS

/* Refcounted, immutable once made. */
typedef struct _HwPhotoLevels HwPhotoLevels;

/* Long work for a large picture. The largest size kept has most_pixels at most. Returns: (transfer full) (nullable): NULL without memory for it */
HwPhotoLevels *
hw_photo_levels_new (const HwPicture *picture, double most_pixels);
HwPhotoLevels *
hw_photo_levels_ref (HwPhotoLevels *levels);
void
hw_photo_levels_unref (HwPhotoLevels *levels);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPhotoLevels, hw_photo_levels_unref)

/* The whole picture over the box x, y, width, height of the present user space, which has no turn. */
void
hw_photo_levels_paint (HwPhotoLevels *levels, cairo_t *cr, double x, double y, double width, double height);

G_END_DECLS

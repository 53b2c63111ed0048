/* A piece of a photograph as grey values that can be reckoned with: cut out, made coarser and smoothed. Private to this room. */
#pragma once

#include "../geometry/point.h"
#include "../scene/picture.h"

G_BEGIN_DECLS

typedef struct
{
  guint width, height;
  float *grey;
  double x, y;   /* px of the photo: top left of the patch */
  double coarse; /* px of the photo along a side of a patch pixel: a whole number */
} HwGreyPatch;

/* The part of the picture within x0..x1, y0..y1 (px; cut off at the picture's sides), each patch pixel the mean of coarse x coarse. FALSE when nothing is left. Clear
 * the patch afterwards. */
gboolean
hw_grey_patch_take (
    HwGreyPatch *patch, const HwPicture *picture, double x0, double y0, double x1, double y1, guint coarse);
void
hw_grey_patch_clear (HwGreyPatch *patch);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwGreyPatch, hw_grey_patch_clear)

/* Gauss, sigma in patch pixels. */
void
hw_grey_patch_smooth (HwGreyPatch *patch, double sigma);

/* Between pixels, whose middles are at halves; the border goes on outside. */
double
hw_grey_patch_at (const HwGreyPatch *patch, double x, double y);

static inline HwPoint
hw_grey_patch_to_photo (const HwGreyPatch *patch, HwPoint p)
{
  return (HwPoint){ patch->x + patch->coarse * p.x, patch->y + patch->coarse * p.y };
}

static inline HwPoint
hw_grey_patch_from_photo (const HwGreyPatch *patch, HwPoint px)
{
  return (HwPoint){ (px.x - patch->x) / patch->coarse, (px.y - patch->y) / patch->coarse };
}

G_END_DECLS

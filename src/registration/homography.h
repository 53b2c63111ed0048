/* Photo to cloth: the plane homography from photo pixels to fabric mm, by the normalised direct linear transform (Hartley and Zisserman, Multiple View Geometry,
 * 2nd ed. 2004, algorithm 4.2) and, from more than four points, Levenberg-Marquardt refinement of the distances on the cloth; with one number for the bow of a
 * camera's lens (radial, division model, Fitzgibbon 2001), about the picture's middle. */
#pragma once

#include "../geometry/point.h"
#include "../scene/photo.h"

G_BEGIN_DECLS

typedef struct
{
  double m
      [3]
      [3]; /* mm = m px, in homogeneous coordinates, the third positive in front of the camera. m[2][2] is 1; -1 when the photo's top left is beyond the
                     horizon */
  double
      bow; /* px are first put straight: c + (px - c) / (1 + bow r^2), r in half diagonals of the picture */
  HwPoint middle;  /* px: c */
  double diagonal; /* px: half the picture's diagonal */
} HwHomography;

#define HW_HOMOGRAPHY_ERROR (hw_homography_error_quark ())
typedef enum
{
  HW_HOMOGRAPHY_ERROR_TOO_FEW, /* fewer than four points */
  HW_HOMOGRAPHY_ERROR_LINE,    /* three of four, or all but one, on one line or in one place */
  HW_HOMOGRAPHY_ERROR_MIRRORED, /* the points lie the other way round on the cloth: two are exchanged, or the photo is mirrored */
  HW_HOMOGRAPHY_ERROR_NOT_FINITE, /* a number that is none, or too large */
  HW_HOMOGRAPHY_ERROR_BOW         /* the bow is wished for, and the points do not tell it */
} HwHomographyError;
GQuark
hw_homography_error_quark (void);

/* width, height: of the photo, px. fit_bow: also fit the bow (needs six points or more; else *h's bow is taken as given by bow). residuals: mm at each
 * point (n of them), may be NULL. */
gboolean
hw_homography_fit (const HwPhotoPoint *points,
                   guint n,
                   double width,
                   double height,
                   double bow,
                   gboolean fit_bow,
                   HwHomography *h,
                   double *residuals,
                   GError **error);
/* To mm; not numbers (NAN) when px lies beyond the horizon. */
HwPoint
hw_homography_apply (const HwHomography *h, HwPoint px);
/* From mm back to photo pixels. FALSE when the place lies beyond the horizon. */
gboolean
hw_homography_back (const HwHomography *h, HwPoint mm, HwPoint *px);
/* The point whose leaving out makes the others agree, or -1; by: mm it lies from where the others put it, may be NULL. It takes six points or more: of five
 * any four agree. */
int
hw_homography_bad_point (
    const HwPhotoPoint *points, guint n, const HwHomography *h, double width, double height, double *by);
/* How far points that lie on one straight line of the cloth are from straight in the squared photo, mm (largest distance from their best line). */
double
hw_homography_straightness (const HwHomography *h, const HwPoint *px, guint n);
/* mm per axis that handles are likely off by: from what the fit leaves over at n points, and what is assumed beforehand (mm), which four points alone cannot tell
 * from. unknowns: 8, or 9 when the bow was fitted too. */
double
hw_homography_point_sigma (const double *residuals, guint n, guint unknowns, double assumed);
/* mm per axis that each of n_px places in the photo is likely told wrongly by, when each point is off by sigma mm per axis; h is their fit, its bow held. Infinite beyond the
 * horizon. FALSE when a fit fails. */
gboolean
hw_homography_spread (const HwPhotoPoint *points,
                      guint n,
                      double width,
                      double height,
                      const HwHomography *h,
                      double sigma,
                      const HwPoint *px,
                      guint n_px,
                      double *spread);

G_END_DECLS

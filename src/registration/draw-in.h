/* What stitched cloth drew in: the cloth's change fitted from distances between marks, or from readings, and carried over to what is not stitched yet. The change is
 * a symmetric stretch S about a still point (the turn and shift of a hooping are not the cloth's): p' = about + S (p - about). Squared distances are
 * linear in S S, so that the fit is one linear least-squares problem. */
#pragma once

#include "../geometry/point.h"
#include "../geometry/units.h"

G_BEGIN_DECLS

/* A distance measured on the cloth between two points whose places in the scene are known. */
typedef struct
{
  HwPoint from, to; /* fabric mm, as the scene has them */
  double measured;  /* mm */
} HwDistance;

typedef enum
{
  HW_STRETCH_ALIKE, /* one distance, or all in one direction: the same in all directions is assumed */
  HW_STRETCH_AXES,  /* two directions: across and along, no shear */
  HW_STRETCH_FULL   /* three directions or more */
} HwStretchKind;

typedef struct
{
  HwStretchKind kind;
  double xx, xy, yy; /* S, symmetric; 1, 0, 1: unchanged */
  double rms;        /* mm that remain over the distances */
  double *residuals; /* mm, measured less fitted, for each distance; free with g_free(); NULL from readings */
} HwStretch;

#define HW_DRAW_IN_ERROR (hw_draw_in_error_quark ())
typedef enum
{
  HW_DRAW_IN_ERROR_TOO_FEW,   /* no distance, fewer than two readings */
  HW_DRAW_IN_ERROR_TOO_SHORT, /* a distance between places less than 10 mm apart tells nothing */
  HW_DRAW_IN_ERROR_DOUBTFUL   /* a change over 20 %, or of a factor 25.4: a wrong unit or a wrong mark */
} HwDrawInError;
GQuark
hw_draw_in_error_quark (void);

/* n >= 1 distances. Sets stretch->residuals. */
gboolean
hw_stretch_from_distances (const HwDistance *distances, guint n, HwStretch *stretch, GError **error);
/* From where points are in the scene and where they were found, in axes that may be turned and shifted against the scene's (two points or more). The
 * full affine fit with its turn taken off (polar decomposition) from three points not on one line; fewer: the same in all directions. */
gboolean
hw_stretch_from_points (
    const HwPoint *scene, const HwPoint *found, guint n, HwStretch *stretch, GError **error);

/* Least-squares affine fit b = A a + shift (GSL): matrix row by row. n >= 3 not on one line, else HW_FIT_ERROR. */
typedef struct
{
  double xx, xy, yx, yy;
  HwPoint shift;
  double rms;
} HwAffineFit;
gboolean
hw_affine_fit (const HwPoint *a, const HwPoint *b, guint n, HwAffineFit *fit, GError **error);

/* Percent across (x) and along the grain (y); negative: drawn in. */
void
hw_stretch_percents (const HwStretch *stretch, double *across, double *along);
HwPoint
hw_stretch_apply (const HwStretch *stretch, HwPoint about, HwPoint p);
/* "Drawn in 0.8 % across, 0.3 % along the grain." / "Stretched ..." / "The cloth has kept its size." Returns: (transfer full) */
char *
hw_stretch_text (const HwStretch *stretch);

G_END_DECLS

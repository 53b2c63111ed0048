/* Between the search for a cross and its exact fit. Private to this room. */
#pragma once

#include "grey-patch.h"

G_BEGIN_DECLS

/* Two lines crossing, in patch pixels. */
typedef struct
{
  HwPoint at;
  double turn[2];  /* of the lines, radians */
  double width;    /* sigma of a line across itself */
  double contrast; /* grey; negative: darker than the cloth */
  double told;     /* 0 to 1: the part of what is uneven about the place that the cross accounts for */
  double
      sigma; /* of the place, per axis: from what the fit leaves over, as though each pixel erred by itself */
} HwCross;

/* Least squares of a cross's picture over the pixels within reach of *cross (at, turn are the beginning). FALSE when it does not settle. */
gboolean
hw_cross_fit (const HwGreyPatch *patch, double reach, HwCross *cross);
/* How far the weakest part of its four arms stands out from the cloth on both its sides, as a part of the cross's contrast: about 1 for a clean cross, 0 or less
 * where an arm is missing. arm: patch pixels. */
double
hw_cross_weakest_arm (const HwGreyPatch *patch, double arm, const HwCross *cross);

G_END_DECLS

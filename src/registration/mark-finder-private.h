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
} HwCross;

/* Least squares of a cross's picture over the pixels within reach of *cross (at, turn are the beginning). FALSE when it does not settle. */
gboolean
hw_cross_fit (const HwGreyPatch *patch, double reach, HwCross *cross);

G_END_DECLS

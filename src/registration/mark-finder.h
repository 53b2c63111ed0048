/* Drawn crosses and sheets of paper found in photographs. */
#pragma once

#include "../scene/picture.h"
#include "homography.h"

G_BEGIN_DECLS

typedef struct
{
  HwPoint px;        /* of the cross's middle, to parts of a pixel */
  double confidence; /* 0 to 1; under 0.5: rather not */
  double sigma;      /* px per axis that px is likely off by, if it is the cross at all */
} HwFoundMark;

/* Looks for a drawn cross (two thin lines, dark or light on the cloth, at any turn, 60 degrees or more apart as seen) within radius pixels of guess; radius counts up to 40
 * arms. arm: about half its length in pixels, 3 or more; a fifth more or less does not matter. Two crosses alike within the radius are not chosen between: the confidence is
 * then low. FALSE when nothing like one is there. */
gboolean
hw_find_cross (const HwPicture *picture, HwPoint guess, double radius, double arm, HwFoundMark *found);
/* The four corners of the largest bright four-cornered sheet (as A4 or Letter paper laid on the cloth), clockwise as seen, from the one nearest the
 * picture's top left. Of two, one on the other, it is the one on top. FALSE when there is none to be sure of: what covers over half the picture may as well be pale cloth. */
gboolean
hw_find_sheet (const HwPicture *picture, HwPoint corners[4]);

G_END_DECLS

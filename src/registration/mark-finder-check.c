/* Whether what a cross was fitted to has the four arms of one. Along each arm the line must stand out from the cloth on both its sides, near the middle and farther out
 * alike: where a line ends on another an arm is missing, a corner lacks two, a dot's arms soon end, the edge of a shadow has the same cloth on one side. */
#include <math.h>

#include "mark-finder-private.h"

#define FROM 0.28 /* of the arm */
#define TO 0.76
#define HALF 0.52
#define PIECES 4
#define PIECE_EASE 0.2  /* a piece is short, and the weave counts for more in it */
#define STEP 0.5        /* patch pixels along an arm */
#define BESIDE 2.2      /* widths of the line, and a pixel: where the cloth beside it begins */
#define BESIDE_PIXELS 3 /* it is looked at over as many */

/* How much the cloth on one side, or the line itself, differs from `ground` along a part of an arm. */
static double
mean_along (const HwGreyPatch *patch,
            HwPoint at,
            HwPoint along,
            double from,
            double to,
            double aside,
            int n,
            double step)
{
  double sum = 0;
  int m = 0;

  for (double t = from; t <= to; t += STEP)
    for (int k = 0; k < n; k++, m++)
      {
        double s = aside + k * step;

        sum += hw_grey_patch_at (patch, at.x + t * along.x - s * along.y, at.y + t * along.y + s * along.x);
      }
  return sum / m;
}

/* How far the line stands out from the side where it does so least, as a part of the cross's contrast. */
static double
part_stands_out (const HwGreyPatch *patch, const HwCross *cross, HwPoint along, double from, double to)
{
  double half = MAX (0.5 * cross->width, 0.25), begin = BESIDE * cross->width + 1;
  double on = mean_along (patch, cross->at, along, from, to, -half, 3, half);
  double left = mean_along (patch, cross->at, along, from, to, begin, BESIDE_PIXELS, 1);
  double right = mean_along (patch, cross->at, along, from, to, -begin, BESIDE_PIXELS, -1);

  return MIN ((on - left) / cross->contrast, (on - right) / cross->contrast);
}

double
hw_cross_weakest_arm (const HwGreyPatch *patch, double arm, const HwCross *cross)
{
  double weakest = 1, piece = (TO - FROM) / PIECES * arm;

  g_assert (patch != NULL && cross != NULL);

  for (guint i = 0; i < 4; i++)
    {
      double turn = cross->turn[i / 2] + (i % 2) * G_PI;
      HwPoint along = { cos (turn), sin (turn) };

      weakest = MIN (weakest, part_stands_out (patch, cross, along, FROM * arm, HALF * arm));
      weakest = MIN (weakest, part_stands_out (patch, cross, along, HALF * arm, TO * arm));
      for (guint k = 0; k < PIECES; k++)
        weakest = MIN (weakest, PIECE_EASE
                                    + part_stands_out (patch, cross, along, FROM * arm + k * piece,
                                                       FROM * arm + (k + 1) * piece));
    }
  return weakest;
}

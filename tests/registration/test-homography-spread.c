/* What a photo put square is worth: the scatter that is foretold against the scatter of many photos whose handles were put by an unsteady hand. */
#include "registration/homography.h"

#include "seen-square.h"

#define SIGMA 0.4 /* mm per axis of each handle */
#define PROBES 3
#define TRIALS 60

static const HwPoint probes[PROBES] = { { 150, 100 }, { 40, 150 }, { 260, 40 } };

/* Sums over the probes of one view, from many hands: mm^2 foretold and found. */
static void
try_view (guint n, double *foretold, double *found, double *left_over)
{
  Seen seen = seen_askew ();
  HwPhotoPoint exact[12], points[12];
  HwPoint px[PROBES];
  double spread[PROBES], residuals[12];
  HwHomography h;

  seen_points (&seen, exact, n, 0);
  for (guint k = 0; k < PROBES; k++)
    px[k] = seen_at (&seen, probes[k]);
  g_assert_true (hw_homography_fit (exact, n, PHOTO_WIDTH, PHOTO_HEIGHT, 0, FALSE, &h, NULL, NULL));
  g_assert_true (hw_homography_spread (exact, n, PHOTO_WIDTH, PHOTO_HEIGHT, &h, SIGMA, px, PROBES, spread));
  for (guint trial = 0; trial < TRIALS; trial++)
    {
      for (guint i = 0; i < n; i++)
        {
          points[i] = exact[i];
          points[i].mm.x += scatter (SIGMA);
          points[i].mm.y += scatter (SIGMA);
        }
      g_assert_true (hw_homography_fit (points, n, PHOTO_WIDTH, PHOTO_HEIGHT, 0, FALSE, &h, residuals, NULL));
      for (guint k = 0; k < PROBES; k++)
        {
          *found += pow (hw_point_distance (hw_homography_apply (&h, px[k]), probes[k]), 2);
          *foretold += 2 * spread[k] * spread[k];
        }
      *left_over += pow (hw_homography_point_sigma (residuals, n, 8, SIGMA), 2);
    }
}

static void
scatter_is_as_foretold (void)
{
  static const guint counts[] = { 4, 5, 8, 12 };

  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    {
      double foretold = 0, found = 0, left_over = 0, ratio, sigma;
      guint views = 20;

      for (guint view = 0; view < views; view++)
        try_view (counts[i], &foretold, &found, &left_over);
      ratio = sqrt (found / foretold);
      sigma = sqrt (left_over / (views * TRIALS));
      g_test_message (
          "%u handles: found %.3f of what was foretold; sigma %.3f mm told from what is left over", counts[i],
          ratio, sigma);
      g_assert_cmpfloat_with_epsilon (ratio, 1, 0.08);
      g_assert_cmpfloat_with_epsilon (sigma, SIGMA, 0.03);
    }
}

static void
four_points_are_worth_what_is_assumed (void)
{
  const double nothing_left[4] = { 0 };
  const double off[10] = { 3, 3, 3, 3, 3, 3, 3, 3, 3, 3 };

  g_assert_cmpfloat (hw_homography_point_sigma (nothing_left, 4, 8, 0.5), ==, 0.5);
  /* Ten handles 3 mm off each: 90 mm^2 over 12 that the fit does not need and 4 of the assumption, 0.25 mm^2 each. */
  g_assert_cmpfloat_with_epsilon (hw_homography_point_sigma (off, 10, 8, 0.5), sqrt (91.0 / 16), 1e-9);
}

/* A square seen from above: its middle is where its diagonals cross. A corner that moves along its diagonal leaves it, one that moves across takes it along by half as much:
 * four times a quarter, over two axes. */
static void
the_middle_of_a_square_is_told_best (void)
{
  const HwPhotoPoint square[4] = { { { 1000, 500 }, { 0, 0 } },
                                   { { 3000, 500 }, { 200, 0 } },
                                   { { 3000, 2500 }, { 200, 200 } },
                                   { { 1000, 2500 }, { 0, 200 } } };
  const HwPoint px[] = { { 2000, 1500 }, { 1000, 500 }, { 4000, 2900 } };
  double spread[3];
  HwHomography h;

  g_assert_true (hw_homography_fit (square, 4, PHOTO_WIDTH, PHOTO_HEIGHT, 0, FALSE, &h, NULL, NULL));
  g_assert_true (hw_homography_spread (square, 4, PHOTO_WIDTH, PHOTO_HEIGHT, &h, 1, px, 3, spread));
  g_assert_cmpfloat_with_epsilon (spread[0], sqrt (0.5), 1e-4);
  g_assert_cmpfloat_with_epsilon (spread[1], 1, 0.01);
  g_assert_cmpfloat (spread[2], >, 1.5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/homography-spread/foretold", scatter_is_as_foretold);
  g_test_add_func ("/registration/homography-spread/assumed", four_points_are_worth_what_is_assumed);
  g_test_add_func ("/registration/homography-spread/middle", the_middle_of_a_square_is_told_best);
  return g_test_run ();
}

/* Where lines cross in a real photograph, against a general-purpose library. board.png is the piece from 218, 66 on of left01.jpg, a photograph of a board of black and white
 * squares in the Debian package opencv-doc 4.6.0 (OpenCV, Apache License 2.0), in grey and otherwise unchanged. How far each pixel is from the grey midway between black and white
 * is smallest along the edges of the squares: seen so, two dark lines cross wherever four squares meet, as soft and noisy as the lens and the camera made them. */
#include <math.h>

#include "formats/picture-load.h"
#include "registration/mark-finder.h"

#define ACROSS 9
#define DOWN 6
#define BOARD (ACROSS * DOWN)
#define SQUARE 30 /* px, about */
#define ARM 9.0
#define RADIUS 4.0

/* Found there once with OpenCV 4.6.0 (python3-opencv): cv2.findChessboardCorners (9, 6), then cv2.cornerSubPix with a window of 11 x 11; the middle of the top left pixel is
 * 0.5, 0.5. */
static const HwPoint theirs[BOARD]
    = { { 26.927, 28.665 },   { 56.915, 26.693 },   { 87.970, 24.844 },   { 120.799, 23.394 },
        { 154.169, 22.412 },  { 188.974, 21.280 },  { 224.121, 20.819 },  { 260.133, 20.798 },
        { 296.290, 21.048 },  { 27.406, 60.745 },   { 57.276, 59.400 },   { 88.570, 58.542 },
        { 121.112, 57.664 },  { 154.683, 56.728 },  { 189.129, 56.689 },  { 224.604, 56.584 },
        { 260.518, 56.703 },  { 296.740, 57.293 },  { 27.870, 92.777 },   { 57.809, 92.628 },
        { 89.020, 92.129 },   { 121.393, 91.941 },  { 154.901, 91.904 },  { 189.291, 92.018 },
        { 224.580, 92.314 },  { 260.328, 92.864 },  { 296.374, 93.883 },  { 28.879, 124.863 },
        { 58.316, 125.065 },  { 89.662, 125.536 },  { 121.776, 126.057 }, { 154.986, 126.494 },
        { 189.220, 126.949 }, { 224.234, 128.149 }, { 259.927, 128.846 }, { 295.628, 130.074 },
        { 29.875, 156.764 },  { 59.408, 157.900 },  { 90.043, 158.799 },  { 122.015, 159.875 },
        { 155.170, 160.835 }, { 189.101, 162.115 }, { 223.772, 163.093 }, { 259.208, 164.559 },
        { 294.321, 166.057 }, { 31.326, 188.112 },  { 60.120, 189.590 },  { 91.010, 191.059 },
        { 122.539, 192.771 }, { 155.209, 194.422 }, { 188.690, 196.156 }, { 222.996, 197.723 },
        { 257.816, 199.156 }, { 292.876, 200.728 } };

static HwPicture *
load_board (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "outside", "board.png", NULL);
  g_autofree char *bytes = NULL;
  g_autoptr (GBytes) all = NULL;
  gsize length;
  HwPicture *picture;

  g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  all = g_bytes_new (bytes, length);
  picture = hw_picture_load_bytes (all, "board.png", &error);
  g_assert_no_error (error);
  return picture;
}

static int
compare_bytes (gconstpointer a, gconstpointer b)
{
  return *(const guint8 *)a - *(const guint8 *)b;
}

/* Midway between the dark and the light within a square's width of a place. */
static double
middle_grey (const HwPicture *picture, HwPoint at)
{
  guint8 greys[SQUARE * SQUARE];
  guint n = 0;

  for (int y = (int)at.y - SQUARE / 2; y < (int)at.y + SQUARE / 2; y++)
    for (int x = (int)at.x - SQUARE / 2; x < (int)at.x + SQUARE / 2; x++)
      if (x >= 0 && y >= 0 && x < (int)picture->width && y < (int)picture->height)
        greys[n++] = hw_picture_grey (picture, (guint)x, (guint)y);
  qsort (greys, n, 1, compare_bytes);
  return (greys[n / 8] + greys[n - 1 - n / 8]) / 2.0;
}

static HwPicture *
lines_of (const HwPicture *picture, double middle)
{
  guint8 *pixels = g_malloc (4 * (gsize)picture->width * picture->height);

  for (guint i = 0; i < picture->width * picture->height; i++)
    {
      double away = fabs (hw_picture_grey (picture, i % picture->width, i / picture->width) - middle);

      pixels[4 * i] = pixels[4 * i + 1] = pixels[4 * i + 2] = (guint8)MIN (lround (2 * away), 255);
      pixels[4 * i + 3] = 255;
    }
  return hw_picture_new (picture->width, picture->height, 4 * (gsize)picture->width, pixels);
}

static void
crossings_of_a_real_photograph_against_opencv (void)
{
  g_autoptr (HwPicture) board = load_board ();
  double squares = 0, worst = 0, foretold = 0;
  guint n = 0;

  for (guint i = 0; i < BOARD; i++)
    {
      g_autoptr (HwPicture) lines = lines_of (board, middle_grey (board, theirs[i]));
      HwPoint guess = { theirs[i].x + g_test_rand_double_range (-2.5, 2.5),
                        theirs[i].y + g_test_rand_double_range (-2.5, 2.5) };
      HwFoundMark found;
      double off;

      if (!hw_find_cross (lines, guess, RADIUS, ARM, &found) || found.confidence < 0.5)
        continue;
      off = hw_point_distance (found.px, theirs[i]);
      g_test_message ("corner %u off %.3f px, said %.3f, confidence %.2f", i, off, found.sigma,
                      found.confidence);
      n++;
      squares += off * off;
      foretold += 2 * found.sigma * found.sigma;
      worst = MAX (worst, off);
    }
  g_test_message ("%u of %u, rms %.3f px, worst %.3f px, foretold %.3f px", n, BOARD, sqrt (squares / n),
                  worst, sqrt (foretold / n));
  g_assert_cmpuint (n, ==, BOARD);
  g_assert_cmpfloat (sqrt (squares / n), <, 0.2);
  g_assert_cmpfloat (worst, <, 0.5);
  /* Both are off a little; what is said of the finder is of that size. */
  g_assert_cmpfloat (sqrt (squares), <, 2 * sqrt (foretold));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/mark-finder/real-photograph-against-opencv",
                   crossings_of_a_real_photograph_against_opencv);
  return g_test_run ();
}

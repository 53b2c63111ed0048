/* Photo to cloth against general-purpose libraries and on a real photograph. */
#include "python-road.h"
#include "../registration/seen-square.h"

enum
{
  CASES = 60,
  PROBES = 5
};

/* Points and then the places in the photo that are asked about, one case a line: px and mm of each point, px of each probe. */
static void
append_case (GString *input, const HwPhotoPoint *points, guint n, const HwPoint *probes)
{
  append_number (input, n);
  for (guint i = 0; i < n; i++)
    {
      append_number (input, points[i].px.x);
      append_number (input, points[i].px.y);
      append_number (input, points[i].mm.x);
      append_number (input, points[i].mm.y);
    }
  for (guint i = 0; i < PROBES; i++)
    {
      append_number (input, probes[i].x);
      append_number (input, probes[i].y);
    }
  g_string_append_c (input, '\n');
}

static void
compare_probes (const HwHomography *h, const HwPoint *probes, const double *theirs)
{
  for (guint i = 0; i < PROBES; i++)
    {
      HwPoint ours = hw_homography_apply (h, probes[i]);

      g_assert_cmpfloat_with_epsilon (ours.x, theirs[2 * i], 1e-6);
      g_assert_cmpfloat_with_epsilon (ours.y, theirs[2 * i + 1], 1e-6);
    }
}

typedef struct
{
  HwPhotoPoint points[12];
  HwPoint probes[PROBES];
} Case;

static void
fill_case (Case *this, GString *input, guint n, double bow, double sigma)
{
  Seen seen = seen_askew ();

  seen.bow = bow;
  seen_points (&seen, this->points, n, sigma);
  for (guint i = 0; i < PROBES; i++)
    this->probes[i] = seen_at (&seen, cloth_place ());
  append_case (input, this->points, n, this->probes);
}

/* scikit-image (python3-skimage 0.19), skimage.transform.ProjectiveTransform.estimate: the direct linear transform. From four points, or where more agree exactly, there
 * is one answer. */
static const char *const projective
    = "import sys\n"
      "import numpy as np\n"
      "from skimage.transform import ProjectiveTransform\n"
      "for line in sys.stdin:\n"
      "    v = np.array([float(w) for w in line.split()])\n"
      "    n = int(v[0])\n"
      "    d, probes = v[1:1 + 4 * n].reshape(-1, 4), v[1 + 4 * n:].reshape(-1, 2)\n"
      "    t = ProjectiveTransform()\n"
      "    assert t.estimate(d[:, :2], d[:, 2:])\n"
      "    print(*(repr(float(x)) for x in t(probes).ravel()), *(repr(float(x)) for x in (t.params / "
      "t.params[2, 2]).ravel()))\n";

static void
test_exact_points_against_scikit_image (void)
{
  g_autofree Case *cases = g_new0 (Case, CASES);
  g_autoptr (GString) input = g_string_new (NULL);
  g_auto (GStrv) lines = NULL;

  for (guint i = 0; i < CASES; i++)
    fill_case (&cases[i], input, i % 2 == 0 ? 4 : 9, 0, i % 2 == 0 ? 9 : 0);
  lines = python_road (projective, input->str);
  g_assert_cmpuint (g_strv_length (lines), ==, CASES);
  for (guint i = 0; i < CASES; i++)
    {
      double theirs[2 * PROBES + 9];
      HwHomography h;

      g_assert_cmpuint (read_numbers (lines[i], theirs, 2 * PROBES + 9), ==, 2 * PROBES + 9);
      g_assert_true (hw_homography_fit (cases[i].points, i % 2 == 0 ? 4 : 9, PHOTO_WIDTH, PHOTO_HEIGHT, 0,
                                        FALSE, &h, NULL, NULL));
      compare_probes (&h, cases[i].probes, theirs);
      for (guint k = 0; k < 9; k++)
        g_assert_cmpfloat_with_epsilon (h.m[k / 3][k % 3] / h.m[2][2], theirs[2 * PROBES + k],
                                        1e-6 * MAX (1, fabs (theirs[2 * PROBES + k])));
    }
}

/* SciPy (python3-scipy 1.10), scipy.optimize.least_squares: the least distances on the cloth, from scikit-image's direct transform on; px about the middle of
 * the photo in half diagonals; the last number of a line is the bow. */
static const char *const least_distances
    = "import sys\n"
      "import numpy as np\n"
      "from scipy.optimize import least_squares\n"
      "from skimage.transform import ProjectiveTransform\n"
      "width, height, bows = (float(w) for w in sys.argv[1:4]) if len(sys.argv) > 3 else (4000, 3000, 1)\n"
      "c, half = np.array([width, height]) / 2, np.hypot(width, height) / 2\n"
      "def straight(p, bow):\n"
      "    p = (p - c) / half\n"
      "    return p / (1 + bow * (p ** 2).sum(1))[:, None]\n"
      "def land(x, p):\n"
      "    q = np.column_stack([straight(p, x[8] if len(x) > 8 else 0), np.ones(len(p))])\n"
      "    q = q @ np.append(x[:8], 1).reshape(3, 3).T\n"
      "    return q[:, :2] / q[:, 2:]\n"
      "for line in sys.stdin:\n"
      "    v = np.array([float(w) for w in line.split()])\n"
      "    n = int(v[0])\n"
      "    d, probes = v[1:1 + 4 * n].reshape(-1, 4), v[1 + 4 * n:].reshape(-1, 2)\n"
      "    t = ProjectiveTransform()\n"
      "    assert t.estimate(straight(d[:, :2], 0), d[:, 2:])\n"
      "    x = (t.params / t.params[2, 2]).ravel()[:8]\n"
      "    for start in (x, np.append(x, 0)):\n"
      "        s = least_squares(lambda x: (land(x, d[:, :2]) - d[:, 2:]).ravel(), start, xtol=1e-15, "
      "ftol=1e-15, gtol=1e-15, x_scale='jac', jac='3-point')\n"
      "        print(*(repr(float(w)) for w in land(s.x, probes).ravel()), repr(float(np.sqrt(2 * s.cost / "
      "n))), repr(float(s.x[-1])))\n";

static double
rms_of (const double *residuals, guint n)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += residuals[i] * residuals[i] / n;
  return sqrt (sum);
}

static void
test_scattered_points_against_scipy (void)
{
  g_autofree Case *cases = g_new0 (Case, CASES);
  g_autoptr (GString) input = g_string_new (NULL);
  g_auto (GStrv) lines = NULL;

  for (guint i = 0; i < CASES; i++)
    fill_case (&cases[i], input, 12, g_test_rand_double_range (-0.2, 0.1), 2);
  lines = python_road (least_distances, input->str);
  g_assert_cmpuint (g_strv_length (lines), ==, 2 * CASES);
  for (guint i = 0; i < 2 * CASES; i++)
    {
      double theirs[2 * PROBES + 2], residuals[12];
      gboolean fit_bow = i % 2 == 1;
      const Case *this = &cases[i / 2];
      HwHomography h;

      g_assert_cmpuint (read_numbers (lines[i], theirs, 2 * PROBES + 2), ==, 2 * PROBES + 2);
      if (fit_bow && fabs (theirs[2 * PROBES + 1]) > 0.3)
        continue;
      g_assert_true (
          hw_homography_fit (this->points, 12, PHOTO_WIDTH, PHOTO_HEIGHT, 0, fit_bow, &h, residuals, NULL));
      compare_probes (&h, this->probes, theirs);
      g_assert_cmpfloat_with_epsilon (rms_of (residuals, 12), theirs[2 * PROBES], 1e-9);
      if (fit_bow)
        g_assert_cmpfloat_with_epsilon (h.bow, theirs[2 * PROBES + 1], 1e-7);
    }
}

/* The 9 x 6 inner corners of the board in left01.jpg, 640 x 480 px, a photograph in the Debian package opencv-doc 4.6.0 (examples/data). Found there once
 * with scikit-image 0.19 (skimage.feature.corner_peaks, then corner_subpix with a window of 11 on the picture smoothed by 1 px); the middle of the top left
 * pixel is 0.5, 0.5. A square of the board counts as 30 mm here. */
#define ACROSS 9
#define DOWN 6
#define BOARD (ACROSS * DOWN)
#define SQUARE 30.0

static const HwPoint board[BOARD] = {
  { 244.878, 94.603 },  { 274.832, 92.637 },  { 305.973, 90.822 },  { 338.755, 89.381 },
  { 372.258, 88.327 },  { 406.940, 87.252 },  { 442.168, 86.773 },  { 478.234, 86.753 },
  { 514.341, 87.038 },  { 245.384, 126.646 }, { 275.222, 125.440 }, { 306.516, 124.483 },
  { 339.081, 123.550 }, { 372.717, 122.757 }, { 407.173, 122.582 }, { 442.611, 122.501 },
  { 478.558, 122.704 }, { 514.757, 123.291 }, { 245.830, 158.784 }, { 275.738, 158.494 },
  { 307.045, 158.123 }, { 339.482, 157.910 }, { 372.870, 157.827 }, { 407.381, 158.021 },
  { 442.589, 158.379 }, { 478.441, 158.830 }, { 514.420, 159.867 }, { 246.833, 190.888 },
  { 276.373, 191.076 }, { 307.559, 191.558 }, { 339.763, 192.016 }, { 373.056, 192.478 },
  { 407.265, 192.981 }, { 442.295, 194.115 }, { 477.959, 194.821 }, { 513.604, 196.105 },
  { 247.870, 222.746 }, { 277.420, 223.867 }, { 308.068, 224.766 }, { 340.027, 225.831 },
  { 373.160, 226.834 }, { 407.140, 228.154 }, { 441.760, 229.157 }, { 477.202, 230.532 },
  { 512.455, 232.066 }, { 249.322, 254.070 }, { 278.170, 255.585 }, { 308.961, 257.054 },
  { 340.484, 258.765 }, { 373.186, 260.446 }, { 406.706, 262.186 }, { 441.014, 263.696 },
  { 475.810, 265.147 }, { 510.892, 266.697 },
};

static void
fill_board (HwPhotoPoint *points)
{
  for (guint i = 0; i < BOARD; i++)
    points[i] = (HwPhotoPoint){ board[i], { SQUARE * (i % ACROSS), SQUARE * (i / ACROSS) } };
}

static double
worst_row (const HwHomography *h)
{
  double worst = 0;

  for (guint i = 0; i < DOWN; i++)
    worst = MAX (worst, hw_homography_straightness (h, board + i * ACROSS, ACROSS));
  return worst;
}

static void
test_real_photograph_against_scipy (void)
{
  g_autoptr (GString) input = g_string_new (NULL);
  g_autofree char *script = NULL;
  g_auto (GStrv) lines = NULL;
  HwPhotoPoint points[BOARD];
  HwHomography h[2];

  fill_board (points);
  append_case (input, points, BOARD, board);
  script = g_strdup_printf ("import sys\nsys.argv = ['', '640', '480', '1']\n%s", least_distances);
  lines = python_road (script, input->str);
  g_assert_cmpuint (g_strv_length (lines), ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      double theirs[2 * PROBES + 2], residuals[BOARD];

      g_assert_cmpuint (read_numbers (lines[i], theirs, 2 * PROBES + 2), ==, 2 * PROBES + 2);
      g_assert_true (hw_homography_fit (points, BOARD, 640, 480, 0, i == 1, &h[i], residuals, NULL));
      compare_probes (&h[i], board, theirs);
      g_assert_cmpfloat_with_epsilon (rms_of (residuals, BOARD), theirs[2 * PROBES], 1e-9);
      g_test_message ("bow %.4f, rms %.3f mm, rows straight to %.3f mm", h[i].bow, rms_of (residuals, BOARD),
                      worst_row (&h[i]));
      g_assert_cmpfloat (rms_of (residuals, BOARD), <, i == 0 ? 0.8 : 0.15);
    }
  g_assert_cmpfloat_with_epsilon (h[1].bow, -0.161, 0.005);
  g_assert_cmpfloat (worst_row (&h[1]), <, 0.5);
  g_assert_cmpfloat (worst_row (&h[1]), <, 0.5 * worst_row (&h[0]));
}

/* Eight corners around the rim and one within, the bow fitted: the other 45, which the fit has not seen, lie within half a millimetre of their places. */
static void
test_real_photograph_at_points_left_out (void)
{
  static const guint used[] = { 0, 4, 8, 18, 26, 45, 49, 53, 22 };
  HwPhotoPoint points[BOARD], some[G_N_ELEMENTS (used)];
  double worst = 0;
  HwHomography h;

  fill_board (points);
  for (guint i = 0; i < G_N_ELEMENTS (used); i++)
    some[i] = points[used[i]];
  g_assert_true (hw_homography_fit (some, G_N_ELEMENTS (used), 640, 480, 0, TRUE, &h, NULL, NULL));
  for (guint i = 0; i < BOARD; i++)
    worst = MAX (worst, hw_point_distance (hw_homography_apply (&h, points[i].px), points[i].mm));
  g_test_message ("bow %.4f, worst %.3f mm", h.bow, worst);
  g_assert_cmpfloat (worst, <, 0.5);
}

/* A corner 2 mm off is told, on the real photograph as well. */
static void
test_real_photograph_with_a_wrong_point (void)
{
  HwPhotoPoint points[BOARD];
  HwHomography h;
  double by;

  fill_board (points);
  g_assert_true (hw_homography_fit (points, BOARD, 640, 480, 0, TRUE, &h, NULL, NULL));
  g_assert_cmpint (hw_homography_bad_point (points, BOARD, &h, 640, 480, &by), ==, -1);
  points[31].mm.x += 2;
  g_assert_true (hw_homography_fit (points, BOARD, 640, 480, 0, TRUE, &h, NULL, NULL));
  g_assert_cmpint (hw_homography_bad_point (points, BOARD, &h, 640, 480, &by), ==, 31);
  g_assert_cmpfloat_with_epsilon (by, 2, 0.3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/homography/exact-points-against-scikit-image",
                   test_exact_points_against_scikit_image);
  g_test_add_func ("/outside/homography/scattered-points-against-scipy", test_scattered_points_against_scipy);
  g_test_add_func ("/outside/homography/real-photograph-against-scipy", test_real_photograph_against_scipy);
  g_test_add_func ("/outside/homography/real-photograph-at-points-left-out",
                   test_real_photograph_at_points_left_out);
  g_test_add_func ("/outside/homography/real-photograph-with-a-wrong-point",
                   test_real_photograph_with_a_wrong_point);
  return g_test_run ();
}

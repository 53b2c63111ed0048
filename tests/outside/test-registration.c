/* Fits and predicted errors against published values, a general-purpose library and simulation. */
#include <math.h>

#include "python-road.h"
#include "registration/correction.h"
#include "registration/draw-in.h"
#include "registration/mark-error.h"
#include "registration/rigid-fit.h"

/* S. Umeyama 1991, "Least-squares estimation of transformation parameters between two point patterns", IEEE PAMI 13(4), 376-380, the worked
 * example: X = (0,0) (1,0) (0,2), Y = (0,0) (-1,0) (0,2); rotation (0.832 0.555; -0.555 0.832), scale 0.721, translation (-0.800, 0.400). The mean
 * squared error there, 0.5333, was recomputed. */
static void
test_worked_example_of_umeyama (void)
{
  HwPoint x[] = { { 0, 0 }, { 1, 0 }, { 0, 2 } }, y[] = { { 0, 0 }, { -1, 0 }, { 0, 2 } };
  HwRigidFit fit;
  double scale;

  g_assert_true (hw_similarity_fit (x, y, 3, &fit, &scale, NULL));
  g_assert_cmpfloat_with_epsilon (cos (fit.turn * G_PI / 180), 0.832, 0.0005);
  g_assert_cmpfloat_with_epsilon (-sin (fit.turn * G_PI / 180), 0.555, 0.0005);
  g_assert_cmpfloat_with_epsilon (scale, 0.721, 0.0005);
  g_assert_cmpfloat_with_epsilon (fit.shift.x, -0.800, 0.0005);
  g_assert_cmpfloat_with_epsilon (fit.shift.y, 0.400, 0.0005);
  g_assert_cmpfloat_with_epsilon (fit.rms * fit.rms, 0.5333, 0.0001);
}

/* scikit-image (python3-skimage 0.19, skimage.transform): EuclideanTransform and SimilarityTransform. */
static const char *const skimage = "import sys\n"
                                   "import numpy as np\n"
                                   "from skimage.transform import EuclideanTransform, SimilarityTransform\n"
                                   "for line in sys.stdin:\n"
                                   "    v = np.array([float(w) for w in line.split()]).reshape(2, -1, 2)\n"
                                   "    e, s = EuclideanTransform(), SimilarityTransform()\n"
                                   "    assert e.estimate(v[0], v[1]) and s.estimate(v[0], v[1])\n"
                                   "    print(*(repr(float(x)) for x in (np.degrees(e.rotation), "
                                   "*e.translation, np.degrees(s.rotation), *s.translation,\n"
                                   "          s.scale)))\n";

static void
test_against_scikit_image (void)
{
  enum
  {
    CASES = 100,
    POINTS = 5
  };
  HwPoint a[CASES][POINTS], b[CASES][POINTS];
  g_autoptr (GString) input = g_string_new (NULL);
  g_auto (GStrv) lines = NULL;

  for (guint i = 0; i < CASES; i++)
    {
      double turn = g_test_rand_double_range (-170, 170);

      for (guint k = 0; k < POINTS; k++)
        {
          HwPoint turned;

          a[i][k] = (HwPoint){ g_test_rand_double_range (-90, 90), g_test_rand_double_range (-90, 90) };
          turned = hw_point_turn (a[i][k], turn);
          b[i][k] = (HwPoint){ turned.x + g_test_rand_double_range (-5, 5),
                               turned.y + g_test_rand_double_range (-5, 5) };
        }
      for (guint k = 0; k < POINTS; k++)
        {
          append_number (input, a[i][k].x);
          append_number (input, a[i][k].y);
        }
      for (guint k = 0; k < POINTS; k++)
        {
          append_number (input, b[i][k].x);
          append_number (input, b[i][k].y);
        }
      g_string_append_c (input, '\n');
    }
  lines = python_road (skimage, input->str);
  g_assert_cmpuint (g_strv_length (lines), ==, CASES);
  for (guint i = 0; i < CASES; i++)
    {
      double theirs[7], scale;
      HwRigidFit fit;

      g_assert_cmpuint (read_numbers (lines[i], theirs, 7), ==, 7);
      g_assert_true (hw_rigid_fit (a[i], b[i], POINTS, &fit, NULL));
      g_assert_cmpfloat_with_epsilon (fit.turn, theirs[0], 1e-9);
      g_assert_cmpfloat_with_epsilon (fit.shift.x, theirs[1], 1e-9);
      g_assert_cmpfloat_with_epsilon (fit.shift.y, theirs[2], 1e-9);
      g_assert_true (hw_similarity_fit (a[i], b[i], POINTS, &fit, &scale, NULL));
      g_assert_cmpfloat_with_epsilon (fit.turn, theirs[3], 1e-9);
      g_assert_cmpfloat_with_epsilon (fit.shift.x, theirs[4], 1e-9);
      g_assert_cmpfloat_with_epsilon (fit.shift.y, theirs[5], 1e-9);
      g_assert_cmpfloat_with_epsilon (scale, theirs[6], 1e-9);
    }
}

typedef struct
{
  HwPoint marks[4];
  guint n;
  double tre2; /* mm^2, found by simulation elsewhere: 40,000 trials, sigma 0.35 mm, target (55, 30) */
  double fre2;
} Layout;

static const Layout layouts[] = {
  { { { -60, -80 }, { 60, 80 } }, 2, 0.1465, 0.0613 },
  { { { -60, -80 }, { 60, -80 }, { 0, 80 } }, 3, 0.1131, 0.1225 },
  { { { -60, -80 }, { 60, -80 }, { 60, 80 }, { -60, 80 } }, 4, 0.0733, 0.1531 },
};

static const HwPoint target = { 55, 30 };

/* J. M. Fitzpatrick, J. B. West and C. R. Maurer 1998, "Predicting error in rigid-body point-based registration", IEEE Transactions on
 * Medical Imaging 17(5), 694-702, in its planar form; the values are simulations of it. */
static void
test_predicted_error_against_simulated_values (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (layouts); i++)
    {
      double error = hw_mark_error (layouts[i].marks, layouts[i].n, 0.35, target);

      g_assert_cmpfloat_with_epsilon (error * error, layouts[i].tre2, 0.01 * layouts[i].tre2);
    }
}

static double
normal (void)
{
  /* Box and Muller 1958. */
  return sqrt (-2 * log (1 - g_test_rand_double ())) * cos (2 * G_PI * g_test_rand_double ());
}

/* The same by simulation here, with the fit of our own, at several targets; also E[FRE^2] = (1 - 3/(2N)) FLE^2 of the same source. The published form is of first
 * order in sigma over the marks' distances, here 1 in 300. */
static void
test_predicted_error_against_own_simulation (void)
{
  static const HwPoint targets[] = { { 55, 30 }, { 0, 0 }, { -20, 95 }, { 70, -90 } };
  const guint trials = 60000;

  for (guint i = 0; i < G_N_ELEMENTS (layouts); i++)
    {
      const Layout *layout = &layouts[i];
      double sum_tre2[G_N_ELEMENTS (targets)] = { 0 }, sum_fre2 = 0;
      double fre2 = (1 - 3 / (2.0 * layout->n)) * 2 * 0.35 * 0.35;

      for (guint k = 0; k < trials; k++)
        {
          HwPoint read[4];
          HwRigidFit fit;

          for (guint m = 0; m < layout->n; m++)
            read[m]
                = (HwPoint){ layout->marks[m].x + 0.35 * normal (), layout->marks[m].y + 0.35 * normal () };
          g_assert_true (hw_rigid_fit (layout->marks, read, layout->n, &fit, NULL));
          sum_fre2 += fit.rms * fit.rms;
          for (guint t = 0; t < G_N_ELEMENTS (targets); t++)
            {
              HwPoint at = hw_point_turn (targets[t], fit.turn);

              sum_tre2[t]
                  += pow (at.x + fit.shift.x - targets[t].x, 2) + pow (at.y + fit.shift.y - targets[t].y, 2);
            }
        }
      /* 60,000 trials leave 0.4 to 0.6 % of scatter. */
      for (guint t = 0; t < G_N_ELEMENTS (targets); t++)
        {
          double error = hw_mark_error (layout->marks, layout->n, 0.35, targets[t]);

          g_assert_cmpfloat_with_epsilon (sum_tre2[t] / trials, error * error, 0.02 * error * error);
        }
      g_assert_cmpfloat_with_epsilon (sum_fre2 / trials, fre2, 0.02 * fre2);
      g_assert_cmpfloat_with_epsilon (layout->fre2, fre2, 0.002);
    }
}

/* SciPy (python3-scipy 1.10): scipy.spatial.transform.Rotation.align_vectors on centred points in the plane z = 0. */
static const char *const align_vectors
    = "import sys\n"
      "import numpy as np\n"
      "from scipy.spatial.transform import Rotation\n"
      "for line in sys.stdin:\n"
      "    a, b = np.array([float(w) for w in line.split()]).reshape(2, -1, 2)\n"
      "    flat = lambda p: np.column_stack([p - p.mean(0), np.zeros(len(p))])\n"
      "    r, _ = Rotation.align_vectors(flat(b), flat(a))\n"
      "    m = r.as_matrix()[:2, :2]\n"
      "    print(repr(float(np.degrees(np.arctan2(m[1, 0], m[0, 0])))), *map(repr, "
      "map(float, b.mean(0) - m @ a.mean(0))))\n";

/* NumPy and SciPy: least squares (numpy.linalg.lstsq) for the affine fit and the right polar factor (scipy.linalg.polar) for what of it is the cloth's. Where
 * the points fit exactly, skimage.transform.AffineTransform finds the same (else it weighs the errors of both sides). */
static const char *const affine
    = "import sys\n"
      "import numpy as np\n"
      "from scipy.linalg import polar\n"
      "from skimage.transform import AffineTransform\n"
      "for line in sys.stdin:\n"
      "    a, b = np.array([float(w) for w in line.split()]).reshape(2, -1, 2)\n"
      "    x = np.linalg.lstsq(np.column_stack([a, np.ones(len(a))]), b, rcond=None)[0]\n"
      "    s = polar(x[:2].T, side='right')[1]\n"
      "    t = AffineTransform()\n"
      "    assert t.estimate(a[:3], b[:3])\n"
      "    print(*(repr(float(v)) for v in (*x.T.ravel(), s[0, 0], s[0, 1], s[1, 1], "
      "*t.params[:2].ravel())))\n";

enum
{
  MARK_CASES = 100,
  MARKS = 5
};

/* Marks at random in a field, and where they were found: the cloth changed by up to 4 %, turned, shifted and read with scatter. */
static char *
write_marks (HwPoint a[MARK_CASES][MARKS], HwPoint b[MARK_CASES][MARKS])
{
  GString *input = g_string_new (NULL);

  for (guint i = 0; i < MARK_CASES; i++)
    {
      HwStretch cloth = { .xx = g_test_rand_double_range (0.96, 1.04),
                          .xy = g_test_rand_double_range (-0.02, 0.02),
                          .yy = g_test_rand_double_range (0.96, 1.04) };
      double turn = g_test_rand_double_range (-20, 20), x = g_test_rand_double_range (-9, 9);

      for (guint k = 0; k < MARKS; k++)
        {
          /* The first three span the field. */
          double spread = k < 3 ? 15 : 80;
          HwPoint about = { k == 0 ? -60 : k == 1 ? 60 : 0, k == 2 ? 70 : k < 2 ? -50 : 0 }, moved;

          a[i][k] = (HwPoint){ about.x + g_test_rand_double_range (-spread, spread),
                               about.y + g_test_rand_double_range (-spread, spread) };
          moved = hw_point_turn (hw_stretch_apply (&cloth, (HwPoint){ 0, 0 }, a[i][k]), turn);
          b[i][k] = (HwPoint){ moved.x + x + 0.35 * normal (), moved.y - x + 0.35 * normal () };
        }
      for (guint k = 0; k < 2 * MARKS; k++)
        {
          HwPoint p = k < MARKS ? a[i][k] : b[i][k - MARKS];

          append_number (input, p.x);
          append_number (input, p.y);
        }
      g_string_append_c (input, '\n');
    }
  return g_string_free (input, FALSE);
}

static void
test_correction_against_scipy (void)
{
  HwPoint a[MARK_CASES][MARKS], b[MARK_CASES][MARKS];
  g_autofree char *input = write_marks (a, b);
  g_auto (GStrv) lines = python_road (align_vectors, input);

  g_assert_cmpuint (g_strv_length (lines), ==, MARK_CASES);
  for (guint i = 0; i < MARK_CASES; i++)
    {
      HwCorrectionTask task = { .shift_step = 0.1,
                                .turn_step = 1,
                                .sigma = 0.35,
                                .tolerance = 0.7,
                                .targets = a[i],
                                .n_targets = MARKS };
      HwReading readings[MARKS] = { 0 };
      HwCorrectionAnswer answer;
      double theirs[3];

      for (guint k = 0; k < MARKS; k++)
        {
          readings[k].design = a[i][k];
          readings[k].at = b[i][k];
        }
      g_assert_cmpuint (read_numbers (lines[i], theirs, 3), ==, 3);
      g_assert_true (hw_correction_find (readings, MARKS, &task, &answer, NULL));
      g_assert_cmpfloat_with_epsilon (answer.exact.turn, theirs[0], 1e-9);
      g_assert_cmpfloat_with_epsilon (answer.exact.shift.x, theirs[1], 1e-9);
      g_assert_cmpfloat_with_epsilon (answer.exact.shift.y, theirs[2], 1e-9);
      hw_correction_answer_clear (&answer);
    }
}

static void
test_affine_and_draw_in_against_scipy_and_scikit_image (void)
{
  HwPoint a[MARK_CASES][MARKS], b[MARK_CASES][MARKS];
  g_autofree char *input = write_marks (a, b);
  g_auto (GStrv) lines = python_road (affine, input);

  g_assert_cmpuint (g_strv_length (lines), ==, MARK_CASES);
  for (guint i = 0; i < MARK_CASES; i++)
    {
      HwAffineFit all, three;
      HwStretch stretch;
      double theirs[15];

      g_assert_cmpuint (read_numbers (lines[i], theirs, 15), ==, 15);
      g_assert_true (hw_affine_fit (a[i], b[i], MARKS, &all, NULL));
      g_assert_true (hw_affine_fit (a[i], b[i], 3, &three, NULL));
      g_assert_true (hw_stretch_from_points (a[i], b[i], MARKS, &stretch, NULL));
      {
        double ours[] = { all.xx,      all.xy,        all.shift.x, all.yx,     all.yy,
                          all.shift.y, stretch.xx,    stretch.xy,  stretch.yy, three.xx,
                          three.xy,    three.shift.x, three.yx,    three.yy,   three.shift.y };

        for (guint k = 0; k < G_N_ELEMENTS (ours); k++)
          g_assert_cmpfloat_with_epsilon (ours[k], theirs[k], 1e-9);
      }
    }
}

/* SciPy (python3-scipy 1.10), scipy.optimize.least_squares: the three numbers of S by plain search on the measured lengths themselves. Ours is linear
 * in the squares, which is the same to first order; 0.35 mm on 60 mm or more leaves some hundred-thousandths between them. */
static const char *const search_stretch
    = "import sys\n"
      "import numpy as np\n"
      "from scipy.optimize import least_squares\n"
      "for line in sys.stdin:\n"
      "    d = np.array([float(w) for w in line.split()]).reshape(-1, 3)\n"
      "    e, m = d[:, :2], d[:, 2]\n"
      "    f = lambda s: np.hypot(s[0] * e[:, 0] + s[1] * e[:, 1], s[1] * e[:, 0] + s[2] * e[:, 1]) - m\n"
      "    print(*(repr(float(v)) for v in least_squares(f, [1, 0, 1], xtol=1e-14, ftol=1e-14, "
      "gtol=1e-14).x))\n";

static void
test_draw_in_from_distances_against_scipy (void)
{
  enum
  {
    DISTANCES = 8
  };
  HwDistance distances[MARK_CASES][DISTANCES];
  g_autoptr (GString) input = g_string_new (NULL);
  g_auto (GStrv) lines = NULL;

  for (guint i = 0; i < MARK_CASES; i++)
    {
      HwStretch cloth = { .xx = g_test_rand_double_range (0.96, 1.04),
                          .xy = g_test_rand_double_range (-0.02, 0.02),
                          .yy = g_test_rand_double_range (0.96, 1.04) };

      for (guint k = 0; k < DISTANCES; k++)
        {
          HwPoint from = { g_test_rand_double_range (0, 500), g_test_rand_double_range (0, 500) };
          HwPoint way = hw_point_turn ((HwPoint){ g_test_rand_double_range (60, 250), 0 },
                                       k * 180.0 / DISTANCES + g_test_rand_double_range (-9, 9));
          HwPoint to = { from.x + way.x, from.y + way.y };

          distances[i][k] = (HwDistance){
            from, to, hw_point_distance (from, hw_stretch_apply (&cloth, from, to)) + 0.35 * normal ()
          };
          append_number (input, way.x);
          append_number (input, way.y);
          append_number (input, distances[i][k].measured);
        }
      g_string_append_c (input, '\n');
    }
  lines = python_road (search_stretch, input->str);
  g_assert_cmpuint (g_strv_length (lines), ==, MARK_CASES);
  for (guint i = 0; i < MARK_CASES; i++)
    {
      HwStretch stretch;
      double theirs[3];

      g_assert_cmpuint (read_numbers (lines[i], theirs, 3), ==, 3);
      g_assert_true (hw_stretch_from_distances (distances[i], DISTANCES, &stretch, NULL));
      g_assert_cmpfloat_with_epsilon (stretch.xx, theirs[0], 1e-4);
      g_assert_cmpfloat_with_epsilon (stretch.xy, theirs[1], 1e-4);
      g_assert_cmpfloat_with_epsilon (stretch.yy, theirs[2], 1e-4);
      g_free (stretch.residuals);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/registration/worked-example-of-umeyama", test_worked_example_of_umeyama);
  g_test_add_func ("/outside/registration/against-scikit-image", test_against_scikit_image);
  g_test_add_func ("/outside/registration/predicted-error-against-simulated-values",
                   test_predicted_error_against_simulated_values);
  g_test_add_func ("/outside/registration/predicted-error-against-own-simulation",
                   test_predicted_error_against_own_simulation);
  g_test_add_func ("/outside/registration/correction-against-scipy", test_correction_against_scipy);
  g_test_add_func ("/outside/registration/affine-and-draw-in-against-scipy-and-scikit-image",
                   test_affine_and_draw_in_against_scipy_and_scikit_image);
  g_test_add_func ("/outside/registration/draw-in-from-distances-against-scipy",
                   test_draw_in_from_distances_against_scipy);
  return g_test_run ();
}

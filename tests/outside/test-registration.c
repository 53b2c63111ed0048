/* Fits and predicted errors against published values, a general-purpose library and simulation. */
#include <math.h>

#include "python-road.h"
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

/* The same by simulation here, with the fit of our own; also E[FRE^2] = (1 - 3/(2N)) FLE^2 of the same source. */
static void
test_predicted_error_against_own_simulation (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (layouts); i++)
    {
      const Layout *layout = &layouts[i];
      const guint trials = 20000;
      double sum_tre2 = 0, sum_fre2 = 0, error = hw_mark_error (layout->marks, layout->n, 0.35, target);

      for (guint k = 0; k < trials; k++)
        {
          HwPoint read[4], at;
          HwRigidFit fit;

          for (guint m = 0; m < layout->n; m++)
            read[m]
                = (HwPoint){ layout->marks[m].x + 0.35 * normal (), layout->marks[m].y + 0.35 * normal () };
          g_assert_true (hw_rigid_fit (layout->marks, read, layout->n, &fit, NULL));
          at = hw_point_turn (target, fit.turn);
          sum_tre2 += pow (at.x + fit.shift.x - target.x, 2) + pow (at.y + fit.shift.y - target.y, 2);
          sum_fre2 += fit.rms * fit.rms;
        }
      /* 20,000 trials leave about 1 % of scatter; 5 % is five times that. */
      g_assert_cmpfloat_with_epsilon (sum_tre2 / trials, error * error, 0.05 * error * error);
      g_assert_cmpfloat_with_epsilon (sum_fre2 / trials, layout->fre2, 0.05 * layout->fre2);
      g_assert_cmpfloat_with_epsilon (layout->fre2, (1 - 3 / (2.0 * layout->n)) * 2 * 0.35 * 0.35, 0.002);
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
  return g_test_run ();
}

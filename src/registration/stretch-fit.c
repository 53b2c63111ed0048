/* The affine fit of one set of points to another, and what of it is the cloth's: by polar decomposition A = R S every change is a symmetric
 * stretch S and then a turn R, with S S = A'A (N. J. Higham 1986, SIAM J. Sci. Stat. Comput. 7(4)). The turn is the hooping's. Least squares
 * by singular value decomposition (GSL). */
#include "stretch-fit.h"

#include <gsl/gsl_linalg.h>
#include <math.h>

#include "rigid-fit.h"
#include "../geometry/language.h"

#define SHORTEST 10.0
#define MOST 0.20
/* Unknowns whose singular value is smaller than this part of the largest are not told: errors would come out so many times larger. */
#define TOLD 0.05
/* Points are on a line when they spread less than this part of its length to its sides. */
#define ON_A_LINE 0.05

G_DEFINE_QUARK (hw_draw_in_error_quark, hw_draw_in_error)

gboolean
hw_least_squares (const double *rows, const double *right, guint n, guint unknowns, double *result)
{
  guint padded = MAX (n, unknowns); /* the decomposition wants no fewer rows than columns */
  gsl_matrix *u = gsl_matrix_calloc (padded, unknowns), *v = gsl_matrix_alloc (unknowns, unknowns);
  gsl_vector *values = gsl_vector_alloc (unknowns), *work = gsl_vector_alloc (unknowns);
  gsl_vector *b = gsl_vector_calloc (padded), *x = gsl_vector_alloc (unknowns);
  gboolean told;

  for (guint i = 0; i < n; i++)
    {
      for (guint k = 0; k < unknowns; k++)
        gsl_matrix_set (u, i, k, rows[i * unknowns + k]);
      gsl_vector_set (b, i, right[i]);
    }
  gsl_linalg_SV_decomp (u, v, values, work);
  told = gsl_vector_get (values, unknowns - 1) > TOLD * gsl_vector_get (values, 0);
  if (told)
    {
      gsl_linalg_SV_solve (u, v, values, b, x);
      for (guint k = 0; k < unknowns; k++)
        result[k] = gsl_vector_get (x, k);
    }
  gsl_matrix_free (u);
  gsl_matrix_free (v);
  gsl_vector_free (values);
  gsl_vector_free (work);
  gsl_vector_free (b);
  gsl_vector_free (x);
  return told;
}

static gboolean
set_doubtful (GError **error)
{
  g_set_error_literal (
      error, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_DOUBTFUL,
      _ ("The cloth would have changed by more than 20 %, which cloth hardly does. See whether the unit is "
         "right and each measure belongs to its marks."));
  return FALSE;
}

/* The root of a symmetric matrix of two rows (Cayley and Hamilton): (G + d 1) / t, d^2 = det G, t^2 = tr G + 2 d. */
gboolean
hw_stretch_root (const double g[3], HwStretch *stretch, GError **error)
{
  double det = g[0] * g[2] - g[1] * g[1], trace = g[0] + g[2], d, t, middle, half;

  if (!(det > 0 && trace > 0))
    return set_doubtful (error);
  d = sqrt (det);
  t = sqrt (trace + 2 * d);
  stretch->xx = (g[0] + d) / t;
  stretch->xy = g[1] / t;
  stretch->yy = (g[2] + d) / t;
  middle = (stretch->xx + stretch->yy) / 2;
  half = hypot ((stretch->xx - stretch->yy) / 2, stretch->xy);
  if (!(middle + half <= 1 + MOST && middle - half >= 1 - MOST))
    return set_doubtful (error);
  return TRUE;
}

static HwPoint
mean_of (const HwPoint *points, guint n)
{
  HwPoint mean = { 0, 0 };

  for (guint i = 0; i < n; i++)
    mean = (HwPoint){ mean.x + points[i].x / n, mean.y + points[i].y / n };
  return mean;
}

/* Root mean square distance from the mean along the line that lies best, and to its sides. */
static void
measure_spread (const HwPoint *points, guint n, double *along, double *aside)
{
  HwPoint mean = mean_of (points, n);
  double xx = 0, xy = 0, yy = 0, middle, half;

  for (guint i = 0; i < n; i++)
    {
      double x = points[i].x - mean.x, y = points[i].y - mean.y;

      xx += x * x / n;
      xy += x * y / n;
      yy += y * y / n;
    }
  middle = (xx + yy) / 2;
  half = hypot ((xx - yy) / 2, xy);
  *along = sqrt (MAX (0, middle + half));
  *aside = sqrt (MAX (0, middle - half));
}

gboolean
hw_affine_fit (const HwPoint *a, const HwPoint *b, guint n, HwAffineFit *fit, GError **error)
{
  g_autofree double *rows = NULL;
  g_autofree double *x = NULL;
  g_autofree double *y = NULL;
  HwPoint mean_a, mean_b;
  double along, aside, first[2], second[2], sum = 0;

  g_return_val_if_fail ((a != NULL && b != NULL) || n == 0, FALSE);
  g_return_val_if_fail (fit != NULL, FALSE);

  if (n < 3)
    {
      g_set_error_literal (
          error, HW_FIT_ERROR, HW_FIT_ERROR_TOO_FEW,
          _ ("Three points are needed to tell how the cloth has changed in each direction."));
      return FALSE;
    }
  measure_spread (a, n, &along, &aside);
  mean_a = mean_of (a, n);
  mean_b = mean_of (b, n);
  rows = g_new (double, 2 * n);
  x = g_new (double, n);
  y = g_new (double, n);
  for (guint i = 0; i < n; i++)
    {
      rows[2 * i] = a[i].x - mean_a.x;
      rows[2 * i + 1] = a[i].y - mean_a.y;
      x[i] = b[i].x - mean_b.x;
      y[i] = b[i].y - mean_b.y;
    }
  if (!(aside > ON_A_LINE * along) || !hw_least_squares (rows, x, n, 2, first)
      || !hw_least_squares (rows, y, n, 2, second))
    {
      g_set_error_literal (
          error, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT,
          _ ("The points lie on one line, so the change across it cannot be told. Take a point that lies "
             "to its side."));
      return FALSE;
    }
  *fit = (HwAffineFit){ first[0], first[1], second[0], second[1] };
  fit->shift = (HwPoint){ mean_b.x - fit->xx * mean_a.x - fit->xy * mean_a.y,
                          mean_b.y - fit->yx * mean_a.x - fit->yy * mean_a.y };
  for (guint i = 0; i < n; i++)
    sum += pow (fit->xx * a[i].x + fit->xy * a[i].y + fit->shift.x - b[i].x, 2)
           + pow (fit->yx * a[i].x + fit->yy * a[i].y + fit->shift.y - b[i].y, 2);
  fit->rms = sqrt (sum / n);
  return TRUE;
}

static gboolean
can_be_used (const HwPoint *scene, guint n, GError **error)
{
  double along, aside, longest = 0;

  if (n < 2)
    {
      g_set_error_literal (error, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_TOO_FEW,
                           _ ("One mark does not tell how the cloth has changed. Read two at least."));
      return FALSE;
    }
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < i; k++)
      longest = MAX (longest, hw_point_distance (scene[i], scene[k]));
  measure_spread (scene, n, &along, &aside);
  if (!(longest >= SHORTEST) || !isfinite (along))
    {
      g_autofree char *least = hw_length_text (SHORTEST, HW_UNIT_MM);

      g_set_error (error, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_TOO_SHORT,
                   _ ("The marks lie so near each other that they tell nothing of the cloth: two of them "
                      "have to lie %s apart at "
                      "least."),
                   least);
      return FALSE;
    }
  return TRUE;
}

gboolean
hw_stretch_from_points (
    const HwPoint *scene, const HwPoint *found, guint n, HwStretch *stretch, GError **error)
{
  HwAffineFit affine;
  HwRigidFit rigid;
  double scale;

  g_return_val_if_fail ((scene != NULL && found != NULL) || n == 0, FALSE);
  g_return_val_if_fail (stretch != NULL, FALSE);

  *stretch = (HwStretch){ .xx = 1, .yy = 1 };
  if (!can_be_used (scene, n, error))
    return FALSE;
  if (hw_affine_fit (scene, found, n, &affine, NULL))
    {
      double g[3]
          = { affine.xx * affine.xx + affine.yx * affine.yx, affine.xx * affine.xy + affine.yx * affine.yy,
              affine.xy * affine.xy + affine.yy * affine.yy };

      stretch->kind = HW_STRETCH_FULL;
      stretch->rms = affine.rms;
      /* Turned over, no cloth lies so. */
      if (affine.xx * affine.yy - affine.xy * affine.yx <= 0)
        return set_doubtful (error);
      return hw_stretch_root (g, stretch, error);
    }
  if (!hw_similarity_fit (scene, found, n, &rigid, &scale, NULL))
    return set_doubtful (error);
  stretch->kind = HW_STRETCH_ALIKE;
  stretch->rms = rigid.rms;
  return hw_stretch_root ((double[]){ scale * scale, 0, scale * scale }, stretch, error);
}

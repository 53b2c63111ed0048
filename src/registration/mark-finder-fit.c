/* The exact place of a drawn cross: its picture, two lines of Gauss profile that cross on evenly shaded cloth, is fitted to the grey values by least squares (least
 * squares matching: A. Gruen 1985, South African Journal of Photogrammetry, Remote Sensing and Cartography 14(3); Levenberg-Marquardt method of GSL). The weave differs
 * from pixel to pixel and averages out over the arms. */
#include "mark-finder-private.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <math.h>

#define MOST_STEPS 60
#define NARROWEST 0.3 /* patch pixels */

enum
{
  X,
  Y,
  TURN_1,
  TURN_2,
  WIDTH,
  CONTRAST,
  GROUND,
  SHADE_X,
  SHADE_Y,
  UNKNOWNS
};

typedef struct
{
  double x, y, grey; /* x, y about the beginning */
} Pixel;

typedef struct
{
  GArray *pixels; /* Pixel */
} Place;

static const Pixel *
pixels_of (const Place *place)
{
  return (const Pixel *)(gpointer)place->pixels->data;
}

static int
find_differences (const gsl_vector *v, void *data, gsl_vector *differences)
{
  const Place *place = data;
  const double *u = gsl_vector_const_ptr (v, 0);
  double c1 = cos (u[TURN_1]), s1 = sin (u[TURN_1]), c2 = cos (u[TURN_2]), s2 = sin (u[TURN_2]);
  double sharp = 1 / (2 * MAX (u[WIDTH] * u[WIDTH], NARROWEST * NARROWEST));

  for (guint i = 0; i < place->pixels->len; i++)
    {
      const Pixel *pixel = &pixels_of (place)[i];
      double x = pixel->x - u[X], y = pixel->y - u[Y], d1 = c1 * y - s1 * x, d2 = c2 * y - s2 * x;
      double a = exp (-d1 * d1 * sharp), b = exp (-d2 * d2 * sharp);

      gsl_vector_set (differences, i,
                      u[GROUND] + u[SHADE_X] * pixel->x + u[SHADE_Y] * pixel->y
                          + u[CONTRAST] * (a + b - a * b) - pixel->grey);
    }
  return GSL_SUCCESS;
}

static void
gather (Place *place, const HwGreyPatch *patch, HwPoint at, double reach)
{
  int x0 = (int)MAX (floor (at.x - reach), 0), y0 = (int)MAX (floor (at.y - reach), 0);
  int x1 = (int)MIN (ceil (at.x + reach), patch->width), y1 = (int)MIN (ceil (at.y + reach), patch->height);

  place->pixels = g_array_new (FALSE, FALSE, sizeof (Pixel));
  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++)
      {
        Pixel pixel = { x + 0.5 - at.x, y + 0.5 - at.y, patch->grey[(gsize)y * patch->width + x] };

        if (hypot (pixel.x, pixel.y) <= reach)
          g_array_append_val (place->pixels, pixel);
      }
}

/* Sum of squares about the plane that lies best, so that shade counts for nothing. The pixels lie about evenly around the beginning. */
static double
unevenness (const Place *place, double *mean)
{
  guint n = place->pixels->len;
  double sum = 0, x = 0, y = 0, xx = 0, yy = 0, rest = 0;

  for (guint i = 0; i < n; i++)
    sum += pixels_of (place)[i].grey / n;
  for (guint i = 0; i < n; i++)
    {
      const Pixel *p = &pixels_of (place)[i];

      x += p->x * (p->grey - sum);
      y += p->y * (p->grey - sum);
      xx += p->x * p->x;
      yy += p->y * p->y;
    }
  for (guint i = 0; i < n; i++)
    {
      const Pixel *p = &pixels_of (place)[i];

      rest += pow (p->grey - sum - p->x * x / xx - p->y * y / yy, 2);
    }
  *mean = sum;
  return rest;
}

static gboolean
is_sound (const HwCross *begun, const double *u, double reach)
{
  double between = fabs (sin (u[TURN_1] - u[TURN_2]));

  return isfinite (u[X]) && hypot (u[X], u[Y]) < 0.5 * reach && between > 0.6 && fabs (u[WIDTH]) < 0.4 * reach
         && u[CONTRAST] * begun->contrast > 0;
}

/* Of X and Y together, per axis. */
static double
place_sigma (gsl_multifit_nlinear_workspace *work, double rest, guint n)
{
  gsl_matrix *covariance = gsl_matrix_alloc (UNKNOWNS, UNKNOWNS);
  double both;

  gsl_multifit_nlinear_covar (gsl_multifit_nlinear_jac (work), 0, covariance);
  both = (gsl_matrix_get (covariance, X, X) + gsl_matrix_get (covariance, Y, Y)) / 2;
  gsl_matrix_free (covariance);
  return sqrt (both * rest / (n - UNKNOWNS));
}

gboolean
hw_cross_fit (const HwGreyPatch *patch, double reach, HwCross *cross)
{
  gsl_multifit_nlinear_parameters parameters = gsl_multifit_nlinear_default_parameters ();
  gsl_multifit_nlinear_fdf function = { .f = find_differences, .p = UNKNOWNS };
  gsl_multifit_nlinear_workspace *work;
  g_autoptr (GArray) pixels = NULL;
  Place place;
  double mean, uneven, rest, u[UNKNOWNS];
  gsl_vector_view begin;
  gboolean sound;
  int why;

  g_assert (patch != NULL && cross != NULL);

  gather (&place, patch, cross->at, reach);
  pixels = place.pixels;
  if (pixels->len < 4 * UNKNOWNS)
    return FALSE;
  uneven = unevenness (&place, &mean);
  u[X] = u[Y] = u[SHADE_X] = u[SHADE_Y] = 0;
  u[TURN_1] = cross->turn[0];
  u[TURN_2] = cross->turn[1];
  u[WIDTH] = cross->width;
  u[CONTRAST] = cross->contrast;
  u[GROUND] = mean - 0.3 * cross->contrast;
  begin = gsl_vector_view_array (u, UNKNOWNS);
  function.n = pixels->len;
  function.params = &place;
  work = gsl_multifit_nlinear_alloc (gsl_multifit_nlinear_trust, &parameters, function.n, function.p);
  gsl_multifit_nlinear_init (&begin.vector, &function, work);
  gsl_multifit_nlinear_driver (MOST_STEPS, 1e-6, 1e-6, 0, NULL, NULL, &why, work);
  gsl_vector_memcpy (&begin.vector, gsl_multifit_nlinear_position (work));
  gsl_blas_ddot (gsl_multifit_nlinear_residual (work), gsl_multifit_nlinear_residual (work), &rest);
  cross->sigma = place_sigma (work, rest, pixels->len);
  gsl_multifit_nlinear_free (work);

  sound = is_sound (cross, u, reach);
  cross->at = (HwPoint){ cross->at.x + u[X], cross->at.y + u[Y] };
  cross->turn[0] = u[TURN_1];
  cross->turn[1] = u[TURN_2];
  cross->width = MAX (fabs (u[WIDTH]), NARROWEST);
  cross->contrast = u[CONTRAST];
  cross->told = uneven > 0 ? CLAMP (1 - rest / uneven, 0, 1) : 0;
  return sound;
}

/* Whether the readings of a hooping agree, and which one does not. Sums of squares of what a fit leaves, over sigma^2, follow the chi-square law with 2 n less the
 * fitted numbers (3 for shift and turn, 4 with a stretch) degrees of freedom. Each reading in turn is left out: the one sought lets the others
 * agree, and lies farther from where they put it than their own scatter and its own explain. A cloth that stretched evenly
 * puts all marks out and must not be taken for one wrong reading, so that nothing is said while a stretch explains all. */
#include <gsl/gsl_cdf.h>
#include <math.h>

#include "correction-private.h"

/* What chance does: within the first in 99 of 100 hoopings, beyond the second in 1 of 1000. */
#define LIKELY 0.99
#define UNLIKELY 0.999
/* One more number fitted takes off this much of the misfit in 1 of 20 cases; a stretch must take off more to be believed. */
#define STRETCH_COSTS 3.84
/* Part by which cloth often gives or draws in (common practice, no source). */
#define USUAL_STRETCH 0.01

typedef struct
{
  gboolean known; /* a fit could be made */
  HwRigidFit fit;
  double scale;
  double misfit; /* sum of squares over sigma^2 */
} Fit;

/* The fit of all readings but one (-1: of all). */
static Fit
fit_without (const HwUsedReadings *used, int left_out, gboolean stretching, double sigma)
{
  g_autofree HwPoint *a = g_new (HwPoint, used->n), *b = g_new (HwPoint, used->n);
  guint n = 0;
  Fit fit = { .scale = 1 };

  for (guint i = 0; i < used->n; i++)
    if ((int)i != left_out)
      {
        a[n] = used->design[i];
        b[n++] = used->at[i];
      }
  fit.known = stretching ? hw_similarity_fit (a, b, n, &fit.fit, &fit.scale, NULL)
                         : hw_rigid_fit (a, b, n, &fit.fit, NULL);
  if (fit.known)
    fit.misfit = n * (fit.fit.rms / sigma) * (fit.fit.rms / sigma);
  return fit;
}

/* How many times the scatter (squared, 2 degrees of freedom) a reading lies from where the fit of the others puts it, and how many mm. The
 * others' mean scatters by sigma^2 / m, their turn moves a point at distance d of it sideways by sigma d / (f sqrt (m)) (mark-error.h), and their
 * stretch moves it along by the same. */
static double
farness (
    const HwUsedReadings *used, guint i, const Fit *others, gboolean stretching, double sigma, double *by)
{
  guint m = used->n - 1;
  HwPoint mean = { 0, 0 }, arm, put, way;
  double spread = 0, d, along, sideways, both;

  for (guint k = 0; k < used->n; k++)
    if (k != i)
      mean = (HwPoint){ mean.x + used->design[k].x / m, mean.y + used->design[k].y / m };
  for (guint k = 0; k < used->n; k++)
    if (k != i)
      spread += pow (hw_point_distance (used->design[k], mean), 2);
  put = hw_point_turn (used->design[i], others->fit.turn);
  way = (HwPoint){ used->at[i].x - others->scale * put.x - others->fit.shift.x,
                   used->at[i].y - others->scale * put.y - others->fit.shift.y };
  *by = hypot (way.x, way.y);
  arm = hw_point_turn ((HwPoint){ used->design[i].x - mean.x, used->design[i].y - mean.y }, others->fit.turn);
  d = hypot (arm.x, arm.y);
  both = 1 + 1.0 / m;
  if (d == 0)
    return *by * *by / (sigma * sigma * both);
  along = (way.x * arm.x + way.y * arm.y) / d;
  sideways = (way.y * arm.x - way.x * arm.y) / d;
  return (sideways * sideways / (both + d * d / spread)
          + along * along / (both + (stretching ? d * d / spread : 0)))
         / (sigma * sigma);
}

/* Of three readings, leaving one out leaves two, which have but their distance to agree on, and a little stretch of the cloth explains much of that. What neither
 * chance nor the usual stretch explains, over sigma^2. */
static double
misfit_of_two (const HwUsedReadings *used, guint left_out, double sigma)
{
  guint a = (left_out + 1) % 3, b = (left_out + 2) % 3;
  double planned = hw_point_distance (used->design[a], used->design[b]);
  double read = hw_point_distance (used->at[a], used->at[b]);
  double excess = MAX (0, fabs (read - planned) - USUAL_STRETCH * planned);

  return excess * excess / (2 * sigma * sigma);
}

/* One of three is named only where neither other choice leaves a likely distance. */
static gboolean
stands_alone (const HwUsedReadings *used, guint i, double sigma)
{
  for (guint k = 0; k < 3; k++)
    if (k != i && misfit_of_two (used, k, sigma) <= gsl_cdf_chisq_Pinv (UNLIKELY, 1))
      return FALSE;
  return TRUE;
}

/* Looks for a reading without which the others agree better than any found before, by *least. */
static void
seek_outlier (
    const HwUsedReadings *used, gboolean stretching, double sigma, double *least, HwAgreement *agreement)
{
  int freedom = 2 * ((int)used->n - 1) - (stretching ? 4 : 3);

  if (freedom < 1)
    return;
  for (guint i = 0; i < used->n; i++)
    {
      Fit others = fit_without (used, i, stretching, sigma);
      double by, cost;

      if (used->n == 3)
        others.misfit = misfit_of_two (used, i, sigma);
      cost = others.misfit + (stretching ? STRETCH_COSTS : 0);
      if (!others.known || cost >= *least || others.misfit > gsl_cdf_chisq_Pinv (LIKELY, freedom)
          || farness (used, i, &others, stretching, sigma, &by) <= gsl_cdf_chisq_Pinv (UNLIKELY, 2)
          || (used->n == 3 && !stands_alone (used, i, sigma)))
        continue;
      *least = cost;
      agreement->outlier = i;
      agreement->by = by;
    }
}

HwAgreement
hw_readings_agree (const HwUsedReadings *used, double sigma)
{
  HwAgreement agreement = { .outlier = -1 };
  double freedom = 2.0 * used->n - 4, least = INFINITY;
  Fit stretched;

  if (used->n < 3)
    return agreement;
  stretched = fit_without (used, -1, TRUE, sigma);
  if (!stretched.known || stretched.misfit <= gsl_cdf_chisq_Pinv (LIKELY, freedom))
    return agreement;
  seek_outlier (used, FALSE, sigma, &least, &agreement);
  seek_outlier (used, TRUE, sigma, &least, &agreement);
  if (agreement.outlier >= 0)
    agreement.without = fit_without (used, agreement.outlier, FALSE, sigma).fit;
  agreement.at_odds = agreement.outlier >= 0 || stretched.misfit > gsl_cdf_chisq_Pinv (UNLIKELY, freedom);
  return agreement;
}

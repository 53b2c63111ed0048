/* Uneven light on a scan taken away: a shadow or a fall of light across the paper. Each colour of the paper along the page's edges is fitted by a surface of the second degree,
 * with weights that let go of what lies far from it (iteratively reweighted least squares, P. W. Holland and R. E. Welsch 1977, Communications in Statistics 6(9)), and the
 * page is divided by that surface, since light multiplies. */
#include "artwork-private.h"

#include <gsl/gsl_linalg.h>
#include <math.h>

#define TERMS 6
#define MOST_SAMPLES 2400
#define ROUNDS 12
#define FIRST_SCALE 64.0 /* levels of 256 that an edge pixel may lie off, to begin with */
#define LAST_SCALE 6.0
#define MOST_OFF 10.0    /* levels: what is nearer lies on paper */
#define LEAST_SHARE 0.6  /* of the edges that is paper; less is no page with a ground of one kind */
#define LEAST_UNEVEN 4.0 /* levels; less is even light, and stays as it is */
#define LEAST_LIGHT 0.3  /* of the brightest light that must be left in the deepest shadow */

typedef struct
{
  double terms[TERMS];
  double parts[3];
  double off; /* levels from the surface */
} Sample;

typedef double Surface[3][TERMS];

static void
fill_terms (double terms[TERMS], double x, double y)
{
  terms[0] = 1;
  terms[1] = x;
  terms[2] = y;
  terms[3] = x * y;
  terms[4] = x * x;
  terms[5] = y * y;
}

static double
value_of (const double surface[TERMS], const double terms[TERMS])
{
  double sum = 0;

  for (guint i = 0; i < TERMS; i++)
    sum += surface[i] * terms[i];
  return sum;
}

static void
add_sample (GArray *samples, const guint8 *data, gsize stride, int width, int height, int x, int y)
{
  guint32 pixel = ((const guint32 *)(gconstpointer)(data + (gsize)y * stride))[x];
  Sample sample = { .off = 0 };

  fill_terms (sample.terms, 2.0 * x / width - 1, 2.0 * y / height - 1);
  for (guint c = 0; c < 3; c++)
    sample.parts[c] = pixel >> (16 - 8 * c) & 0xff;
  g_array_append_val (samples, sample);
}

/* Pixels along the four edges, evenly. Returns: (transfer full) */
static GArray *
sample_edges (const guint8 *data, gsize stride, int width, int height)
{
  GArray *samples = g_array_new (FALSE, FALSE, sizeof (Sample));
  int step = MAX ((2 * width + 2 * height) / MOST_SAMPLES, 1);

  for (int x = 0; x < width; x += step)
    {
      add_sample (samples, data, stride, width, height, x, 0);
      add_sample (samples, data, stride, width, height, x, height - 1);
    }
  for (int y = 0; y < height; y += step)
    {
      add_sample (samples, data, stride, width, height, 0, y);
      add_sample (samples, data, stride, width, height, width - 1, y);
    }
  return samples;
}

static gboolean
fit_once (const GArray *samples, double scale, Surface surface)
{
  double normal[TERMS * TERMS] = { 0 }, right[3][TERMS] = { { 0 } };
  gsl_matrix_view matrix = gsl_matrix_view_array (normal, TERMS, TERMS);

  for (guint s = 0; s < samples->len; s++)
    {
      const Sample *sample = &g_array_index (samples, Sample, s);
      double near = 1 / (1 + sample->off * sample->off / (scale * scale)), weight = near * near;

      for (guint i = 0; i < TERMS; i++)
        {
          for (guint k = 0; k < TERMS; k++)
            normal[i * TERMS + k] += weight * sample->terms[i] * sample->terms[k];
          for (guint c = 0; c < 3; c++)
            right[c][i] += weight * sample->terms[i] * sample->parts[c];
        }
    }
  for (guint i = 0; i < TERMS; i++)
    normal[i * TERMS + i] += 1e-9 * samples->len;
  if (gsl_linalg_cholesky_decomp1 (&matrix.matrix) != GSL_SUCCESS)
    return FALSE;
  for (guint c = 0; c < 3; c++)
    {
      gsl_vector_view known = gsl_vector_view_array (right[c], TERMS);
      gsl_vector_view found = gsl_vector_view_array (surface[c], TERMS);

      gsl_linalg_cholesky_solve (&matrix.matrix, &known.vector, &found.vector);
    }
  return TRUE;
}

static void
measure_off (GArray *samples, Surface surface)
{
  for (guint s = 0; s < samples->len; s++)
    {
      Sample *sample = &g_array_index (samples, Sample, s);
      double sum = 0;

      for (guint c = 0; c < 3; c++)
        {
          double off = sample->parts[c] - value_of (surface[c], sample->terms);

          sum += off * off;
        }
      sample->off = sqrt (sum / 3);
    }
}

/* FALSE when the edges show no paper of one kind. */
static gboolean
fit_paper (GArray *samples, Surface surface)
{
  double scale = FIRST_SCALE;
  guint on_paper = 0;

  for (guint round = 0; round < ROUNDS; round++)
    {
      if (!fit_once (samples, scale, surface))
        return FALSE;
      measure_off (samples, surface);
      scale = MAX (scale * 0.7, LAST_SCALE);
    }
  for (guint s = 0; s < samples->len; s++)
    on_paper += g_array_index (samples, Sample, s).off < MOST_OFF;
  return on_paper >= LEAST_SHARE * samples->len;
}

/* The brightest light of each colour on the page, where the light is uneven enough to matter and nowhere too faint. */
static gboolean
find_brightest (Surface surface, double brightest[3])
{
  gboolean uneven = FALSE;

  for (guint c = 0; c < 3; c++)
    {
      double darkest = INFINITY;

      brightest[c] = -INFINITY;
      for (int i = 0; i <= 16; i++)
        for (int k = 0; k <= 16; k++)
          {
            double terms[TERMS], value;

            fill_terms (terms, i / 8.0 - 1, k / 8.0 - 1);
            value = value_of (surface[c], terms);
            brightest[c] = MAX (brightest[c], value);
            darkest = MIN (darkest, value);
          }
      brightest[c] = MIN (brightest[c], 255);
      if (!(darkest > LEAST_LIGHT * brightest[c]))
        return FALSE;
      uneven |= brightest[c] - darkest >= LEAST_UNEVEN;
    }
  return uneven;
}

void
hw_artwork_even_light (guint8 *data, gsize stride, int width, int height)
{
  g_autoptr (GArray) samples = sample_edges (data, stride, width, height);
  Surface surface;
  double brightest[3];

  if (!fit_paper (samples, surface) || !find_brightest (surface, brightest))
    return;
  for (int y = 0; y < height; y++)
    {
      guint32 *row = (guint32 *)(gpointer)(data + (gsize)y * stride);

      for (int x = 0; x < width; x++)
        {
          guint32 pixel = row[x] & 0xff000000u;
          double terms[TERMS];

          fill_terms (terms, 2.0 * x / width - 1, 2.0 * y / height - 1);
          for (guint c = 0; c < 3; c++)
            {
              double part = row[x] >> (16 - 8 * c) & 0xff;

              part *= brightest[c] / value_of (surface[c], terms);
              pixel |= (guint32)lround (CLAMP (part, 0, 255)) << (16 - 8 * c);
            }
          row[x] = pixel;
        }
    }
}

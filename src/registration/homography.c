/* Photo to cloth. The plane homography is found by the direct linear transform on normalised points (Hartley and Zisserman, Multiple View Geometry, 2nd ed. 2004,
 * algorithm 4.2); from more than four points the distances on the cloth are then made least by the Levenberg-Marquardt method (GSL), where the bow of the lens may be one
 * more unknown: by the division model a point at r half diagonals from the middle belongs at r / (1 + bow r^2) (Fitzgibbon 2001, CVPR). */
#include "homography.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <math.h>

#include "../geometry/language.h"

#define FEWEST 4
#define FEWEST_FOR_BOW 6
#define MOST_BOW 0.3
/* Points are on a line when they spread less than this part of its length to its sides. */
#define ON_A_LINE 0.01
/* Less than this part of the largest: a singular value that is none. */
#define NOTHING 1e-9
/* The bow is told when one unit of it moves the points by more than this part of their spread, in a way that no other view would. */
#define BOW_TOLD 0.01
#define MOST_STEPS 200
#define WAY_OFF 1e9 /* mm: what a view that has points behind the camera is said to miss by */

G_DEFINE_QUARK (hw_homography_error_quark, hw_homography_error)

/* p becomes scale (p - mean): about the middle of the points, and about as far from it as 1. */
typedef struct
{
  HwPoint mean;
  double scale;
} Frame;

typedef struct
{
  const HwPhotoPoint *points;
  guint n;
  HwPoint middle;
  double diagonal;
  double bow;  /* when it is none of the unknowns */
  Frame photo; /* of the points put straight by the bow at the beginning */
  Frame cloth;
  guint unknowns; /* 8, and the bow as the ninth */
} Task;

static gboolean
fail (GError **error, HwHomographyError code, const char *text)
{
  g_set_error_literal (error, HW_HOMOGRAPHY_ERROR, code, text);
  return FALSE;
}

static HwPoint
put_straight (HwPoint px, HwPoint middle, double diagonal, double bow)
{
  double x = px.x - middle.x, y = px.y - middle.y;
  double part = 1 + bow * (x * x + y * y) / (diagonal * diagonal);

  return (HwPoint){ middle.x + x / part, middle.y + y / part };
}

static HwPoint
into_frame (const Frame *frame, HwPoint p)
{
  return (HwPoint){ frame->scale * (p.x - frame->mean.x), frame->scale * (p.y - frame->mean.y) };
}

/* The point in the frame of the photo, and what a little bow changes of it. */
static HwPoint
photo_point (const Task *task, guint i, double bow, HwPoint *by_bow)
{
  double x = task->points[i].px.x - task->middle.x, y = task->points[i].px.y - task->middle.y;
  double r2 = (x * x + y * y) / (task->diagonal * task->diagonal), part = 1 + bow * r2;
  double change = -task->photo.scale * r2 / (part * part);

  if (by_bow != NULL)
    *by_bow = (HwPoint){ change * x, change * y };
  return into_frame (&task->photo, (HwPoint){ task->middle.x + x / part, task->middle.y + y / part });
}

static gboolean
are_on_a_line (double xx, double xy, double yy)
{
  double middle = (xx + yy) / 2, half = hypot ((xx - yy) / 2, xy);

  return !(middle - half > ON_A_LINE * ON_A_LINE * (middle + half));
}

/* Whether some point can be left out so that the others lie on one line or in one place. p about their mean. */
static gboolean
all_but_one_on_a_line (const HwPoint *p, guint n)
{
  double xx = 0, xy = 0, yy = 0, part = n / (n - 1.0);

  for (guint i = 0; i < n; i++)
    {
      xx += p[i].x * p[i].x;
      xy += p[i].x * p[i].y;
      yy += p[i].y * p[i].y;
    }
  for (guint i = 0; i < n; i++)
    if (are_on_a_line (xx - part * p[i].x * p[i].x, xy - part * p[i].x * p[i].y, yy - part * p[i].y * p[i].y))
      return TRUE;
  return FALSE;
}

/* FALSE when the points are in one place. Writes them in their frame. */
static gboolean
find_frame (HwPoint *p, guint n, Frame *frame)
{
  double sum = 0;

  *frame = (Frame){ { 0, 0 }, 1 };
  for (guint i = 0; i < n; i++)
    frame->mean = (HwPoint){ frame->mean.x + p[i].x / n, frame->mean.y + p[i].y / n };
  for (guint i = 0; i < n; i++)
    sum += pow (p[i].x - frame->mean.x, 2) + pow (p[i].y - frame->mean.y, 2);
  frame->scale = sqrt (2 * n / sum);
  if (!(sum > 0) || !isfinite (frame->scale))
    return FALSE;
  for (guint i = 0; i < n; i++)
    p[i] = into_frame (frame, p[i]);
  return TRUE;
}

/* a to b, both in their frames. FALSE when more than one view would do. */
static gboolean
transform_directly (const HwPoint *a, const HwPoint *b, guint n, double view[9])
{
  /* The decomposition wants no fewer rows than columns: with four points one row of zeros. */
  gsl_matrix *rows = gsl_matrix_calloc (MAX (2 * n, 9), 9), *v = gsl_matrix_alloc (9, 9);
  gsl_vector *values = gsl_vector_alloc (9), *work = gsl_vector_alloc (9);
  gboolean told;

  for (guint i = 0; i < n; i++)
    {
      const double source[3] = { a[i].x, a[i].y, 1 };

      for (guint k = 0; k < 3; k++)
        {
          gsl_matrix_set (rows, 2 * i, k, -source[k]);
          gsl_matrix_set (rows, 2 * i, 6 + k, b[i].x * source[k]);
          gsl_matrix_set (rows, 2 * i + 1, 3 + k, -source[k]);
          gsl_matrix_set (rows, 2 * i + 1, 6 + k, b[i].y * source[k]);
        }
    }
  gsl_linalg_SV_decomp (rows, v, values, work);
  told = gsl_vector_get (values, 7) > NOTHING * gsl_vector_get (values, 0);
  for (guint k = 0; k < 9; k++)
    view[k] = gsl_matrix_get (v, k, 8);
  gsl_matrix_free (rows);
  gsl_matrix_free (v);
  gsl_vector_free (values);
  gsl_vector_free (work);
  return told;
}

/* Whether a camera can have seen the points so: all in front of it, none of the cloth turned over. Scales the view to 1 in the middle of the points. */
static gboolean
can_be_seen (const Task *task, double bow, double view[9])
{
  double det, part = view[8];

  if (!(fabs (part) > NOTHING))
    return FALSE;
  for (guint k = 0; k < 9; k++)
    view[k] /= part;
  for (guint i = 0; i < task->n; i++)
    {
      HwPoint a = photo_point (task, i, bow, NULL);

      if (!(view[6] * a.x + view[7] * a.y + 1 > NOTHING))
        return FALSE;
    }
  det = view[0] * (view[4] - view[5] * view[7]) - view[1] * (view[3] - view[5] * view[6])
        + view[2] * (view[3] * view[7] - view[4] * view[6]);
  return det > NOTHING;
}

static double
bow_of (const Task *task, const gsl_vector *x)
{
  return task->unknowns > 8 ? gsl_vector_get (x, 8) : task->bow;
}

/* Where a point of the photo's frame lands in the cloth's; w as well. */
static HwPoint
land (const gsl_vector *x, HwPoint a, double *w)
{
  const double *h = gsl_vector_const_ptr (x, 0);

  *w = h[6] * a.x + h[7] * a.y + 1;
  return (HwPoint){ (h[0] * a.x + h[1] * a.y + h[2]) / *w, (h[3] * a.x + h[4] * a.y + h[5]) / *w };
}

static int
find_misses (const gsl_vector *x, void *data, gsl_vector *misses)
{
  const Task *task = data;
  double bow = bow_of (task, x), mm = 1 / task->cloth.scale, w;

  for (guint i = 0; i < task->n; i++)
    {
      HwPoint wanted = into_frame (&task->cloth, task->points[i].mm);
      HwPoint landed = land (x, photo_point (task, i, bow, NULL), &w);
      gboolean seen = w > NOTHING && fabs (bow) < 1;

      gsl_vector_set (misses, 2 * i, seen ? mm * (landed.x - wanted.x) : WAY_OFF);
      gsl_vector_set (misses, 2 * i + 1, seen ? mm * (landed.y - wanted.y) : WAY_OFF);
    }
  return GSL_SUCCESS;
}

static int
find_slopes (const gsl_vector *x, void *data, gsl_matrix *slopes)
{
  const Task *task = data;
  const double *h = gsl_vector_const_ptr (x, 0);
  double bow = bow_of (task, x), w;

  gsl_matrix_set_zero (slopes);
  for (guint i = 0; i < task->n; i++)
    {
      HwPoint by_bow;
      HwPoint a = photo_point (task, i, bow, &by_bow), b = land (x, a, &w);
      double part = 1 / (w * task->cloth.scale);
      const double source[3] = { part * a.x, part * a.y, part };

      for (guint k = 0; k < 3; k++)
        {
          gsl_matrix_set (slopes, 2 * i, k, source[k]);
          gsl_matrix_set (slopes, 2 * i + 1, 3 + k, source[k]);
        }
      for (guint k = 0; k < 2; k++)
        {
          gsl_matrix_set (slopes, 2 * i, 6 + k, -b.x * source[k]);
          gsl_matrix_set (slopes, 2 * i + 1, 6 + k, -b.y * source[k]);
        }
      if (task->unknowns > 8)
        {
          gsl_matrix_set (slopes, 2 * i, 8,
                          part * ((h[0] - b.x * h[6]) * by_bow.x + (h[1] - b.x * h[7]) * by_bow.y));
          gsl_matrix_set (slopes, 2 * i + 1, 8,
                          part * ((h[3] - b.y * h[6]) * by_bow.x + (h[4] - b.y * h[7]) * by_bow.y));
        }
    }
  return GSL_SUCCESS;
}

/* How far one unit of bow moves the points in a way the other unknowns cannot, as a part of their spread: the last of R in slopes = Q R. */
static double
effect_of_bow (const Task *task, const gsl_vector *x)
{
  gsl_matrix *slopes = gsl_matrix_alloc (2 * task->n, task->unknowns);
  gsl_vector *tau = gsl_vector_alloc (task->unknowns);
  double last;

  find_slopes (x, (void *)task, slopes);
  gsl_linalg_QR_decomp (slopes, tau);
  last = fabs (gsl_matrix_get (slopes, task->unknowns - 1, task->unknowns - 1));
  gsl_matrix_free (slopes);
  gsl_vector_free (tau);
  return last * task->cloth.scale / sqrt (2.0 * task->n);
}

/* Makes the distances on the cloth least. FALSE when the bow cannot be told. */
static gboolean
refine (Task *task, double view[9], double *bow)
{
  gsl_multifit_nlinear_parameters parameters = gsl_multifit_nlinear_default_parameters ();
  gsl_multifit_nlinear_fdf function
      = { .f = find_misses, .df = find_slopes, .n = 2 * (gsize)task->n, .p = task->unknowns, .params = task };
  gsl_multifit_nlinear_workspace *work
      = gsl_multifit_nlinear_alloc (gsl_multifit_nlinear_trust, &parameters, function.n, function.p);
  gsl_vector *x = gsl_vector_alloc (task->unknowns);
  gboolean told = TRUE;
  int why;

  for (guint k = 0; k < 8; k++)
    gsl_vector_set (x, k, view[k]);
  if (task->unknowns > 8)
    {
      gsl_vector_set (x, 8, *bow);
      told = effect_of_bow (task, x) > BOW_TOLD;
    }
  if (told)
    {
      gsl_multifit_nlinear_init (x, &function, work);
      gsl_multifit_nlinear_driver (MOST_STEPS, 1e-14, 1e-14, 0, NULL, NULL, &why, work);
      gsl_vector_memcpy (x, gsl_multifit_nlinear_position (work));
      for (guint k = 0; k < 8; k++)
        view[k] = gsl_vector_get (x, k);
      view[8] = 1;
      *bow = bow_of (task, x);
    }
  gsl_multifit_nlinear_free (work);
  gsl_vector_free (x);
  return told;
}

/* Out of both frames. */
static void
write_matrix (const Task *task, const double view[9], HwHomography *h)
{
  const Frame *photo = &task->photo, *cloth = &task->cloth;
  double rows[3][3], last;

  for (guint i = 0; i < 3; i++)
    {
      rows[i][0] = view[3 * i] * photo->scale;
      rows[i][1] = view[3 * i + 1] * photo->scale;
      rows[i][2] = view[3 * i + 2] - rows[i][0] * photo->mean.x - rows[i][1] * photo->mean.y;
    }
  for (guint k = 0; k < 3; k++)
    {
      rows[0][k] = rows[0][k] / cloth->scale + cloth->mean.x * rows[2][k];
      rows[1][k] = rows[1][k] / cloth->scale + cloth->mean.y * rows[2][k];
    }
  last = fabs (rows[2][2]) > NOTHING ? fabs (rows[2][2]) : 1;
  for (guint i = 0; i < 3; i++)
    for (guint k = 0; k < 3; k++)
      h->m[i][k] = rows[i][k] / last;
}

static gboolean
is_finite (const Task *task, double width, double height)
{
  if (!(isfinite (width) && isfinite (height) && isfinite (task->bow)))
    return FALSE;
  for (guint i = 0; i < task->n; i++)
    {
      const HwPhotoPoint *p = &task->points[i];

      if (!(isfinite (p->px.x) && isfinite (p->px.y) && isfinite (p->mm.x) && isfinite (p->mm.y)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
set_too_few (gboolean fit_bow, GError **error)
{
  return fail (error, HW_HOMOGRAPHY_ERROR_TOO_FEW,
               fit_bow ? _ ("Six known points are needed to find the bow of the lens.")
                       : _ ("Four known points are needed to put a photo square."));
}

static gboolean
set_line (GError **error)
{
  return fail (error, HW_HOMOGRAPHY_ERROR_LINE,
               _ ("Too many of the points lie on one line or in one place. Take four at least of which no "
                  "three are on one line."));
}

static gboolean
set_mirrored (GError **error)
{
  return fail (error, HW_HOMOGRAPHY_ERROR_MIRRORED,
               _ ("The points do not follow each other on the cloth as they do in the photo: two of them are "
                  "exchanged, one is far off, or the photo is mirrored."));
}

static gboolean
set_not_finite (GError **error)
{
  return fail (error, HW_HOMOGRAPHY_ERROR_NOT_FINITE,
               _ ("A place of a point is no number, or too large to work with."));
}

/* Frames, and the direct transform for the bow in task. */
static gboolean
begin (Task *task, double view[9], GError **error)
{
  g_autofree HwPoint *a = g_new (HwPoint, task->n);
  g_autofree HwPoint *b = g_new (HwPoint, task->n);

  for (guint i = 0; i < task->n; i++)
    {
      a[i] = put_straight (task->points[i].px, task->middle, task->diagonal, task->bow);
      b[i] = task->points[i].mm;
    }
  if (!find_frame (a, task->n, &task->photo) || !find_frame (b, task->n, &task->cloth))
    return set_line (error);
  if (all_but_one_on_a_line (a, task->n) || all_but_one_on_a_line (b, task->n)
      || !transform_directly (a, b, task->n, view))
    return set_line (error);
  if (!can_be_seen (task, task->bow, view))
    return set_mirrored (error);
  return TRUE;
}

static gboolean
fit (Task *task, gboolean fit_bow, double view[9], double *bow, GError **error)
{
  *bow = task->bow;
  if (!begin (task, view, error))
    return FALSE;
  if (task->n == FEWEST)
    return TRUE;
  task->unknowns = fit_bow ? 9 : 8;
  if (!refine (task, view, bow))
    return fail (error, HW_HOMOGRAPHY_ERROR_BOW,
                 _ ("The points do not tell the bow of the lens. Take some near the middle of the photo and "
                    "some near its corners."));
  if (fit_bow && !(fabs (*bow) <= MOST_BOW))
    {
      task->bow = CLAMP (*bow, -MOST_BOW, MOST_BOW);
      return fit (task, FALSE, view, bow, error);
    }
  return can_be_seen (task, *bow, view) || set_mirrored (error);
}

gboolean
hw_homography_fit (const HwPhotoPoint *points,
                   guint n,
                   double width,
                   double height,
                   double bow,
                   gboolean fit_bow,
                   HwHomography *h,
                   double *residuals,
                   GError **error)
{
  Task task
      = { points,          n, { width / 2, height / 2 }, hypot (width, height) / 2, bow, { { 0, 0 }, 1 },
          { { 0, 0 }, 1 }, 8 };
  double view[9];

  g_return_val_if_fail (points != NULL || n == 0, FALSE);
  g_return_val_if_fail (width > 0 && height > 0, FALSE);
  g_return_val_if_fail (h != NULL, FALSE);

  if (n < (fit_bow ? FEWEST_FOR_BOW : FEWEST))
    return set_too_few (fit_bow, error);
  if (!is_finite (&task, width, height))
    return set_not_finite (error);
  if (!fit (&task, fit_bow, view, &bow, error))
    return FALSE;
  *h = (HwHomography){ .bow = bow, .middle = task.middle, .diagonal = task.diagonal };
  write_matrix (&task, view, h);
  for (guint k = 0; k < 9; k++)
    if (!isfinite (h->m[k / 3][k % 3]))
      return set_not_finite (error);
  if (residuals != NULL)
    for (guint i = 0; i < n; i++)
      residuals[i] = hw_point_distance (hw_homography_apply (h, points[i].px), points[i].mm);
  return TRUE;
}

HwPoint
hw_homography_apply (const HwHomography *h, HwPoint px)
{
  HwPoint p;
  double w;

  g_return_val_if_fail (h != NULL, ((HwPoint){ NAN, NAN }));

  p = put_straight (px, h->middle, h->diagonal, h->bow);
  w = h->m[2][0] * p.x + h->m[2][1] * p.y + h->m[2][2];
  if (!(w > 0))
    return (HwPoint){ NAN, NAN };
  return (HwPoint){ (h->m[0][0] * p.x + h->m[0][1] * p.y + h->m[0][2]) / w,
                    (h->m[1][0] * p.x + h->m[1][1] * p.y + h->m[1][2]) / w };
}

/* From where a point belongs to where the lens puts it: the small root of bow q r^2 - r + q = 0. */
static gboolean
bend (const HwHomography *h, HwPoint p, HwPoint *px)
{
  double x = p.x - h->middle.x, y = p.y - h->middle.y;
  double root = 1 - 4 * h->bow * (x * x + y * y) / (h->diagonal * h->diagonal), part;

  if (!(root >= 0))
    return FALSE;
  part = 2 / (1 + sqrt (root));
  *px = (HwPoint){ h->middle.x + part * x, h->middle.y + part * y };
  return TRUE;
}

gboolean
hw_homography_back (const HwHomography *h, HwPoint mm, HwPoint *px)
{
  double rows[3][3], x, y, z, det = 0;

  g_return_val_if_fail (h != NULL && px != NULL, FALSE);

  for (guint i = 0; i < 3; i++)
    for (guint k = 0; k < 3; k++)
      {
        guint i1 = (i + 1) % 3, i2 = (i + 2) % 3, k1 = (k + 1) % 3, k2 = (k + 2) % 3;

        rows[k][i] = h->m[i1][k1] * h->m[i2][k2] - h->m[i1][k2] * h->m[i2][k1];
      }
  for (guint k = 0; k < 3; k++)
    det += h->m[0][k] * rows[k][0];
  x = rows[0][0] * mm.x + rows[0][1] * mm.y + rows[0][2];
  y = rows[1][0] * mm.x + rows[1][1] * mm.y + rows[1][2];
  z = rows[2][0] * mm.x + rows[2][1] * mm.y + rows[2][2];
  /* The matrix times (x, y, z) is det times (mm, 1): on the camera's side that third number is positive for a positive z. */
  if (!(z * det > 0))
    return FALSE;
  return bend (h, (HwPoint){ x / z, y / z }, px);
}

/* The cloth's change from distances measured on it. A distance vector e of the scene becomes S e, so its new length m obeys m^2 = e . (S S) e, which is linear in
 * the three numbers of G = S S; an error of m counts 2 m times in m^2, so that each equation is weighted by 1 / (2 m). How
 * many of the three numbers can be told is asked of the directions measured (their singular values). S is the symmetric root of G. */
#include "draw-in.h"

#include <math.h>

#include "stretch-fit.h"
#include "../geometry/figures.h"
#include "../geometry/language.h"

#define SHORTEST 10.0
#define MOST 0.20
/* Directions nearer each other than this, degrees, are one. */
#define ONE_DIRECTION 8.0

static double
planned_length (const HwDistance *distance)
{
  return hw_point_distance (distance->from, distance->to);
}

static gboolean
set_doubtful (GError **error, guint number, double planned, double measured)
{
  double times = measured / planned;
  g_autofree char *was = hw_length_text (planned, HW_UNIT_MM);
  g_autofree char *is = hw_length_text (measured, HW_UNIT_MM);

  if (fabs (times * HW_MM_PER_INCH - 1) < MOST || fabs (times / HW_MM_PER_INCH - 1) < MOST)
    g_set_error (
        error, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_DOUBTFUL,
        /* Translators: the number of a distance in a list, then two lengths. */
        _ ("Distance %u measures %s where the scene has %s: it seems to be in the other unit. Choose "
           "inches or millimetres and measure again."),
        number, is, was);
  else
    g_set_error (
        error, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_DOUBTFUL,
        _ ("Distance %u measures %s where the scene has %s, more than cloth gives. See whether it was "
           "measured between the right marks."),
        number, is, was);
  return FALSE;
}

static gboolean
can_be_used (const HwDistance *distances, guint n, GError **error)
{
  if (n == 0)
    {
      g_set_error_literal (
          error, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_TOO_FEW,
          _ ("There is no distance to tell the cloth's change from. Measure one between two marks "
             "at least."));
      return FALSE;
    }
  for (guint i = 0; i < n; i++)
    {
      double planned = planned_length (&distances[i]), measured = distances[i].measured;

      /* Written so that what is no number fails too. */
      if (!(planned >= SHORTEST))
        {
          g_autofree char *least = hw_length_text (SHORTEST, HW_UNIT_MM);

          g_set_error (
              error, HW_DRAW_IN_ERROR, HW_DRAW_IN_ERROR_TOO_SHORT,
              _ ("Distance %u is too short to tell anything: its ends have to lie %s apart at least. Measure "
                 "between marks that lie farther from each other."),
              i + 1, least);
          return FALSE;
        }
      if (!(fabs (measured / planned - 1) <= MOST))
        return set_doubtful (error, i + 1, planned, measured);
    }
  return TRUE;
}

/* How many of the kinds of HwStretchKind the directions allow, by number. */
static HwStretchKind
kind_by_count (const HwDistance *distances, guint n)
{
  g_autofree double *found = g_new (double, n);
  guint n_found = 0;

  for (guint i = 0; i < n; i++)
    {
      double direction
          = atan2 (distances[i].to.y - distances[i].from.y, distances[i].to.x - distances[i].from.x)
            * (180 / G_PI);
      gboolean is_new = TRUE;

      for (guint k = 0; k < n_found; k++)
        if (fabs (remainder (direction - found[k], 180)) < ONE_DIRECTION)
          is_new = FALSE;
      if (is_new)
        found[n_found++] = direction;
    }
  return n_found >= 3 ? HW_STRETCH_FULL : n_found == 2 ? HW_STRETCH_AXES : HW_STRETCH_ALIKE;
}

/* The equations e . G e = m^2 of n distances for the unknowns of the kind, each weighted. */
static guint
write_equations (const HwDistance *distances, guint n, HwStretchKind kind, double *rows, double *right)
{
  guint unknowns = kind == HW_STRETCH_FULL ? 3 : kind == HW_STRETCH_AXES ? 2 : 1;

  for (guint i = 0; i < n; i++)
    {
      double x = distances[i].to.x - distances[i].from.x, y = distances[i].to.y - distances[i].from.y;
      double m = distances[i].measured, weight = 1 / (2 * m);
      double *row = rows + i * unknowns;

      right[i] = m * m * weight;
      switch (kind)
        {
        case HW_STRETCH_FULL:
          row[0] = x * x * weight;
          row[1] = y * y * weight;
          row[2] = 2 * x * y * weight;
          break;
        case HW_STRETCH_AXES:
          row[0] = x * x * weight;
          row[1] = y * y * weight;
          break;
        case HW_STRETCH_ALIKE:
        default:
          row[0] = (x * x + y * y) * weight;
          break;
        }
    }
  return unknowns;
}

/* FALSE when the directions cannot tell so much: two along the diagonals of a square tell nothing of across against along. */
static gboolean
solve_kind (const HwDistance *distances, guint n, HwStretchKind kind, double g[3])
{
  g_autofree double *rows = g_new (double, 3 * n);
  g_autofree double *right = g_new (double, n);
  double unknown[3];
  guint unknowns = write_equations (distances, n, kind, rows, right);

  if (!hw_least_squares (rows, right, n, unknowns, unknown))
    return FALSE;
  g[0] = unknown[0];
  g[1] = kind == HW_STRETCH_FULL ? unknown[2] : 0;
  g[2] = kind == HW_STRETCH_ALIKE ? unknown[0] : unknown[1];
  return TRUE;
}

static void
find_residuals (const HwDistance *distances, guint n, HwStretch *stretch)
{
  double sum = 0;

  stretch->residuals = g_new (double, n);
  for (guint i = 0; i < n; i++)
    {
      HwPoint from = hw_stretch_apply (stretch, distances[i].from, distances[i].from);
      HwPoint to = hw_stretch_apply (stretch, distances[i].from, distances[i].to);

      stretch->residuals[i] = distances[i].measured - hw_point_distance (from, to);
      sum += stretch->residuals[i] * stretch->residuals[i];
    }
  stretch->rms = sqrt (sum / n);
}

gboolean
hw_stretch_from_distances (const HwDistance *distances, guint n, HwStretch *stretch, GError **error)
{
  double g[3];
  int kind;

  g_return_val_if_fail (distances != NULL || n == 0, FALSE);
  g_return_val_if_fail (stretch != NULL, FALSE);

  *stretch = (HwStretch){ .xx = 1, .yy = 1 };
  if (!can_be_used (distances, n, error))
    return FALSE;
  for (kind = kind_by_count (distances, n); kind > HW_STRETCH_ALIKE; kind--)
    if (solve_kind (distances, n, kind, g))
      break;
  if (kind == HW_STRETCH_ALIKE)
    g_assert (solve_kind (distances, n, HW_STRETCH_ALIKE, g));
  stretch->kind = kind;
  if (!hw_stretch_root (g, stretch, error))
    return FALSE;
  find_residuals (distances, n, stretch);
  return TRUE;
}

void
hw_stretch_percents (const HwStretch *stretch, double *across, double *along)
{
  g_return_if_fail (stretch != NULL && across != NULL && along != NULL);

  *across = 100 * (stretch->xx - 1);
  *along = 100 * (stretch->yy - 1);
}

HwPoint
hw_stretch_apply (const HwStretch *stretch, HwPoint about, HwPoint p)
{
  double x = p.x - about.x, y = p.y - about.y;

  g_return_val_if_fail (stretch != NULL, p);

  return (HwPoint){ about.x + stretch->xx * x + stretch->xy * y,
                    about.y + stretch->xy * x + stretch->yy * y };
}

char *
hw_stretch_text (const HwStretch *stretch)
{
  double across, along;
  g_autofree char *x = NULL;
  g_autofree char *y = NULL;

  g_return_val_if_fail (stretch != NULL, NULL);

  hw_stretch_percents (stretch, &across, &along);
  if (fabs (across) < 0.05 && fabs (along) < 0.05)
    return g_strdup (_ ("The cloth has kept its size."));
  x = hw_figure_text (fabs (across), 1);
  y = hw_figure_text (fabs (along), 1);
  if (stretch->kind == HW_STRETCH_ALIKE)
    /* Translators: %s is a figure in percent. */
    return g_strdup_printf (
        across < 0 ? _ ("Drawn in %s %% (the same across and along the grain, as far as can be told).")
                   : _ ("Stretched %s %% (the same across and along the grain, as far as can be told)."),
        x);
  /* What rounds to nothing goes with the other. */
  if (fabs (across) < 0.05)
    across = along;
  if (fabs (along) < 0.05)
    along = across;
  if (across < 0)
    return g_strdup_printf (along < 0 ? _ ("Drawn in %s %% across, %s %% along the grain.")
                                      : _ ("Drawn in %s %% across, stretched %s %% along the grain."),
                            x, y);
  return g_strdup_printf (along < 0 ? _ ("Stretched %s %% across, drawn in %s %% along the grain.")
                                    : _ ("Stretched %s %% across, %s %% along the grain."),
                          x, y);
}

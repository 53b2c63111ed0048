/* Readings that cannot have been meant as they stand. A hooping set by hand lies within about 15 mm and 10 degrees of what was planned and the cloth gives 5 % at
 * most (common practice, no source); so readings are judged by what remains when shift, turn and stretch stay within a little more than
 * that. Two letters exchanged fit perfectly with half a turn, which no hand does. Where they do not fit as they stand, each way of mistyping them is tried: another
 * unit, letters exchanged, a sign turned. */
#include <gsl/gsl_cdf.h>
#include <math.h>

#include "correction-private.h"

/* By how much a hooping may be off. */
typedef struct
{
  double shift;   /* mm */
  double turn;    /* degrees */
  double stretch; /* part */
} Bounds;

static const Bounds by_hand = { 18, 12, 0.06 };
/* Readings that agree so well with each other that only the hooping can be off are believed up to here. */
static const Bounds farthest = { 40, 30, 0.06 };

/* Beyond this the misfit is no chance: 1 in 1000. */
#define UNLIKELY 0.999
/* Less than this left over, mm, is a matter of one wrong reading and not of what was meant. */
#define NOT_FAR 5.0
/* The misfit must fall by this much, in units of chance, for another meaning to be believed: e^5 times likelier. */
#define CONVINCING 10.0

typedef struct
{
  double misfit; /* over sigma^2 */
  double cost;   /* the same, more for a motion that a hand hardly makes */
  double rms;    /* mm */
} Judgement;

static HwPoint
mean_of (const HwPoint *points, guint n)
{
  HwPoint mean = { 0, 0 };

  for (guint i = 0; i < n; i++)
    mean = (HwPoint){ mean.x + points[i].x / n, mean.y + points[i].y / n };
  return mean;
}

/* One reading tells no turn: it may be off by all that shift, turn and stretch together do at its place. */
static double
left_of_one (HwPoint design, HwPoint at)
{
  double allowed = by_hand.shift
                   + hypot (design.x, design.y) * (by_hand.stretch + 2 * sin (by_hand.turn * (G_PI / 360)));

  return MAX (0, hw_point_distance (design, at) - allowed);
}

/* What remains with a turn and stretch and the shift that suits them, brought within its bound. */
static Judgement
judge_motion (const HwPoint *design,
              const HwPoint *at,
              guint n,
              double sigma,
              const Bounds *bounds,
              double turn,
              double scale)
{
  HwPoint moved = hw_point_turn (mean_of (design, n), turn), mean = mean_of (at, n);
  HwPoint shift = { mean.x - scale * moved.x, mean.y - scale * moved.y };
  double length = hypot (shift.x, shift.y), sum = 0;
  Judgement judgement;

  if (length > bounds->shift)
    shift = (HwPoint){ shift.x * bounds->shift / length, shift.y * bounds->shift / length };
  for (guint i = 0; i < n; i++)
    {
      HwPoint p = hw_point_turn (design[i], turn);

      sum += pow (scale * p.x + shift.x - at[i].x, 2) + pow (scale * p.y + shift.y - at[i].y, 2);
    }
  judgement.misfit = sum / (sigma * sigma);
  judgement.cost = judgement.misfit + pow (2 * turn / bounds->turn, 2) + pow (2 * length / bounds->shift, 2);
  judgement.rms = sqrt (sum / n);
  return judgement;
}

/* The fit within bounds: turn and stretch found and brought within them. Marks near each other hardly tell a turn, and the one found may put them far
 * off; so other turns within the bounds are tried as well. */
static Judgement
judge (const HwPoint *design, const HwPoint *at, guint n, double sigma, const Bounds *bounds)
{
  Judgement best = { INFINITY, INFINITY, INFINITY };
  HwRigidFit fit;
  double scale;

  if (n == 1)
    {
      double left = left_of_one (design[0], at[0]), misfit = left * left / (sigma * sigma);

      return (Judgement){ misfit, misfit, left };
    }
  if (hw_similarity_fit (design, at, n, &fit, &scale, NULL))
    best = judge_motion (design, at, n, sigma, bounds, CLAMP (fit.turn, -bounds->turn, bounds->turn),
                         CLAMP (scale, 1 - bounds->stretch, 1 + bounds->stretch));
  for (double turn = -bounds->turn; turn <= bounds->turn; turn += bounds->turn / 8)
    {
      Judgement other = judge_motion (design, at, n, sigma, bounds, turn, 1);

      if (other.misfit < best.misfit)
        best = other;
    }
  return best;
}

static gboolean
fits (const Judgement *judgement, guint n)
{
  return judgement->misfit <= gsl_cdf_chisq_Pinv (UNLIKELY, 2.0 * n);
}

typedef struct
{
  const HwUsedReadings *used;
  double sigma;
  Judgement stands; /* as they stand */
  Judgement best;
  HwDoubt doubt;
} Inquiry;

static void
try_meaning (Inquiry *inquiry, const HwPoint *at, HwDoubtKind kind, int first, int second)
{
  guint n = inquiry->used->n;
  Judgement then = judge (inquiry->used->design, at, n, inquiry->sigma, &by_hand);

  if (!fits (&then, n) || then.misfit > inquiry->stands.misfit - CONVINCING
      || (inquiry->doubt.kind != HW_DOUBT_NONE && then.cost >= inquiry->best.cost))
    return;
  inquiry->best = then;
  inquiry->doubt.kind = kind;
  inquiry->doubt.first = first < 0 ? -1 : (int)inquiry->used->index[first];
  inquiry->doubt.second = second < 0 ? -1 : (int)inquiry->used->index[second];
  inquiry->doubt.rms_then = then.rms;
}

static void
try_factors (Inquiry *inquiry, HwDoubtKind kind, double u, double v)
{
  const HwUsedReadings *used = inquiry->used;
  g_autofree HwPoint *at = g_new (HwPoint, used->n);

  for (guint i = 0; i < used->n; i++)
    at[i] = (HwPoint){ u * used->at[i].x, v * used->at[i].y };
  try_meaning (inquiry, at, kind, -1, -1);
}

static void
try_exchanges (Inquiry *inquiry)
{
  const HwUsedReadings *used = inquiry->used;
  g_autofree HwPoint *at = g_memdup2 (used->at, used->n * sizeof (HwPoint));

  for (guint i = 0; i < used->n; i++)
    for (guint k = i + 1; k < used->n; k++)
      {
        at[i] = used->at[k];
        at[k] = used->at[i];
        try_meaning (inquiry, at, HW_DOUBT_SWAPPED, i, k);
        at[i] = used->at[i];
        at[k] = used->at[k];
      }
}

/* Whether the readings agree with each other so well that the hooping is off and not they. One reading has none to agree with. */
static gboolean
hooping_is_far_off (const HwUsedReadings *used, double sigma)
{
  Judgement judgement;

  if (used->n < 2)
    return FALSE;
  judgement = judge (used->design, used->at, used->n, sigma, &farthest);
  return fits (&judgement, used->n);
}

/* Whether all is well once one reading is left out: that is for the correction to tell. */
static gboolean
only_one_is_wrong (const HwUsedReadings *used, double sigma)
{
  for (guint out = 0; used->n > 2 && out < used->n; out++)
    {
      g_autofree HwPoint *design = g_memdup2 (used->design, used->n * sizeof (HwPoint));
      g_autofree HwPoint *at = g_memdup2 (used->at, used->n * sizeof (HwPoint));
      Judgement rest;

      design[out] = design[used->n - 1];
      at[out] = at[used->n - 1];
      rest = judge (design, at, used->n - 1, sigma, &farthest);
      if (fits (&rest, used->n - 1))
        return TRUE;
    }
  return FALSE;
}

HwDoubt
hw_readings_doubt (const HwReading *readings, guint n, double sigma)
{
  g_auto (HwUsedReadings) used = { NULL };
  Inquiry inquiry = { .used = &used, .sigma = sigma, .doubt = { HW_DOUBT_NONE, -1, -1, 0, 0 } };

  g_return_val_if_fail (readings != NULL || n == 0, inquiry.doubt);
  g_return_val_if_fail (sigma > 0, inquiry.doubt);

  hw_used_readings_init (&used, readings, n);
  if (used.n == 0)
    return inquiry.doubt;
  inquiry.stands = judge (used.design, used.at, used.n, sigma, &by_hand);
  inquiry.doubt.rms = inquiry.doubt.rms_then = inquiry.stands.rms;
  if (fits (&inquiry.stands, used.n))
    return inquiry.doubt;

  try_factors (&inquiry, HW_DOUBT_INCHES, HW_MM_PER_INCH, HW_MM_PER_INCH);
  try_factors (&inquiry, HW_DOUBT_MILLIMETRES, 1 / HW_MM_PER_INCH, 1 / HW_MM_PER_INCH);
  if (used.n > 1)
    {
      try_exchanges (&inquiry);
      try_factors (&inquiry, HW_DOUBT_MIRRORED_U, -1, 1);
      try_factors (&inquiry, HW_DOUBT_MIRRORED_V, 1, -1);
    }
  if (inquiry.doubt.kind == HW_DOUBT_NONE && inquiry.stands.rms > NOT_FAR
      && !hooping_is_far_off (&used, sigma) && !only_one_is_wrong (&used, sigma))
    inquiry.doubt.kind = HW_DOUBT_FAR;
  return inquiry.doubt;
}

/* The shift that lets one motif join others in a field. At one angle of the hoop the two sides are separate questions, each with a closed answer:
 * the moving extent [m0, m1] and the resting one [r0, r1] lie in a width w together when the shift is within [r1 - w - m0, r0 + w - m1]. Over the
 * angles the smallest shift is looked for on a comb of angles and then by golden section; what is found is checked by the exact test. */
#include <math.h>

#include "advice-private.h"

#define COMB 2.0      /* degrees */
#define ALMOST 1.5    /* an axis is preferred when its shift is at most so many times the smallest */
#define ALMOST_MM 0.5 /* and so much more */

typedef struct
{
  const GArray *resting, *moving;
  double width, height; /* mm, usable */
} Question;

typedef struct
{
  double low, high;
} Extent;

static Extent
extent_along (const GArray *hull, HwPoint e)
{
  Extent extent = { INFINITY, -INFINITY };

  for (guint i = 0; i < hull->len; i++)
    {
      HwPoint p = g_array_index (hull, HwPoint, i);
      double d = p.x * e.x + p.y * e.y;

      extent.low = MIN (extent.low, d);
      extent.high = MAX (extent.high, d);
    }
  return extent;
}

/* The shifts along one side of the field that will do; FALSE when none does. */
static gboolean
shifts_along (const Question *q, HwPoint e, double width, Extent *shifts)
{
  Extent r = extent_along (q->resting, e), m = extent_along (q->moving, e);

  if (r.high - r.low > width || m.high - m.low > width)
    return FALSE;
  *shifts = (Extent){ r.high - width - m.low, r.low + width - m.high };
  return TRUE;
}

/* The distances along the direction d whose part along e is within the shifts. */
static void
keep_distances (Extent *distances, double part, Extent shifts)
{
  if (fabs (part) < 1e-12)
    {
      if (shifts.low > 1e-9 || shifts.high < -1e-9)
        distances->low = INFINITY;
      return;
    }
  distances->low = MAX (distances->low, MIN (shifts.low / part, shifts.high / part));
  distances->high = MIN (distances->high, MAX (shifts.low / part, shifts.high / part));
}

/* The smallest shift at an angle: along the direction, or any when that is NULL. INFINITY when there is none. */
static double
shift_at (const Question *q, double degrees, const HwPoint *direction, HwPoint *shift)
{
  HwPoint e = hw_point_turn ((HwPoint){ 1, 0 }, degrees), f = { -e.y, e.x };
  Extent u, v, distances = { 0, INFINITY };
  double du, dv;

  if (!shifts_along (q, e, q->width, &u) || !shifts_along (q, f, q->height, &v))
    return INFINITY;
  if (direction != NULL)
    {
      keep_distances (&distances, direction->x * e.x + direction->y * e.y, u);
      keep_distances (&distances, direction->x * f.x + direction->y * f.y, v);
      if (distances.low > distances.high)
        return INFINITY;
      *shift = (HwPoint){ direction->x * distances.low, direction->y * distances.low };
      return distances.low;
    }
  du = CLAMP (0, u.low, u.high);
  dv = CLAMP (0, v.low, v.high);
  *shift = (HwPoint){ du * e.x + dv * f.x, du * e.y + dv * f.y };
  return hypot (du, dv);
}

static double
refine (const Question *q, double degrees, const HwPoint *direction, double best, HwPoint *shift)
{
  const double golden = 0.6180339887498949;
  double low = degrees - COMB, high = degrees + COMB;

  for (guint i = 0; i < 24; i++)
    {
      double a = high - golden * (high - low), b = low + golden * (high - low);
      HwPoint shift_a, shift_b;
      double at_a = shift_at (q, a, direction, &shift_a), at_b = shift_at (q, b, direction, &shift_b);

      if (MIN (at_a, at_b) < best)
        {
          best = MIN (at_a, at_b);
          *shift = at_a <= at_b ? shift_a : shift_b;
        }
      if (at_a <= at_b)
        high = b;
      else
        low = a;
    }
  return best;
}

static double
smallest_shift (const Question *q, gboolean quarter, const HwPoint *direction, HwPoint *shift)
{
  double best = INFINITY, best_angle = 0;

  for (double degrees = 0; degrees < 180; degrees += quarter ? 90 : COMB)
    {
      HwPoint here;
      double distance = shift_at (q, degrees, direction, &here);

      if (distance < best)
        {
          best = distance;
          best_angle = degrees;
          *shift = here;
        }
    }
  if (!quarter && isfinite (best))
    best = refine (q, best_angle, direction, best, shift);
  return best;
}

static gboolean
fits_shifted (const HwSnapshot *usable, const GArray *resting, const GArray *moving, HwPoint shift)
{
  g_autofree HwPoint *points = g_new (HwPoint, resting->len + moving->len);
  g_autofree HwPoint *hull = g_new (HwPoint, resting->len + moving->len + 1);
  guint n;

  memcpy (points, resting->data, resting->len * sizeof (HwPoint));
  for (guint i = 0; i < moving->len; i++)
    {
      HwPoint p = g_array_index (moving, HwPoint, i);

      points[resting->len + i] = (HwPoint){ p.x + shift.x, p.y + shift.y };
    }
  n = hw_convex_hull (points, resting->len + moving->len, hull);
  for (guint h = 0; h < usable->hoops->len; h++)
    if (hw_sharing_fits (hull, n, hw_snapshot_hoop (usable, h), &usable->fabric))
      return TRUE;
  return FALSE;
}

static double
away_from_zero (double value, double step)
{
  double whole = ceil (fabs (value) / step - 1e-6) * step;

  return value < 0 ? -whole : whole + 0.0;
}

/* To figures a person can set: the coarsest step at which it still fits. */
static gboolean
round_shift (
    const HwSnapshot *usable, const GArray *resting, const GArray *moving, HwUnit unit, HwPoint *shift)
{
  const double steps[2][3] = { { 1, 0.5, 0.1 }, { 0.05 * 25.4, 0.02 * 25.4, 0.01 * 25.4 } };
  double length = hypot (shift->x, shift->y);

  for (guint k = 0; k < 3; k++)
    {
      double step = steps[unit == HW_UNIT_INCH][k];
      HwPoint rounded = { away_from_zero (fabs (shift->x) < 1e-6 ? 0 : shift->x, step),
                          away_from_zero (fabs (shift->y) < 1e-6 ? 0 : shift->y, step) };

      if (hypot (rounded.x, rounded.y) > length * 1.1 + 0.4
          || !fits_shifted (usable, resting, moving, rounded))
        continue;
      *shift = rounded;
      return TRUE;
    }
  return FALSE;
}

/* Over all hoops. */
static double
over_hoops (const HwSnapshot *usable,
            const GArray *resting,
            const GArray *moving,
            const HwPoint *direction,
            HwPoint *shift)
{
  double best = INFINITY;

  for (guint h = 0; h < usable->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (usable, h);
      Question q = { resting, moving, hoop->field_width - 2 * hoop->clearance,
                     hoop->field_height - 2 * hoop->clearance };
      HwPoint here;
      double distance = smallest_shift (&q, hoop->turn == HW_TURN_QUARTER, direction, &here);

      if (distance < best)
        {
          best = distance;
          *shift = here;
        }
    }
  return best;
}

gboolean
hw_advice_shift (const HwSnapshot *usable,
                 const GArray *resting,
                 const GArray *moving,
                 double most,
                 HwUnit unit,
                 HwPoint *shift)
{
  const HwPoint axes[] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };
  HwPoint exact, plain = { 0, 0 };
  double smallest = over_hoops (usable, resting, moving, NULL, &exact), along = INFINITY;

  if (!(smallest > 1e-6 && smallest <= most))
    return FALSE;
  for (guint k = 0; k < G_N_ELEMENTS (axes); k++)
    {
      HwPoint here;
      double distance = over_hoops (usable, resting, moving, &axes[k], &here);

      if (distance < along)
        {
          along = distance;
          plain = here;
        }
    }
  if (along <= MIN (smallest * ALMOST + ALMOST_MM, most)
      && round_shift (usable, resting, moving, unit, &plain))
    *shift = plain;
  else if (round_shift (usable, resting, moving, unit, &exact))
    *shift = exact;
  else
    return FALSE;
  return hypot (shift->x, shift->y) <= most;
}

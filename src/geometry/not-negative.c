/* The spans on which a polynomial of degree four is not negative. Its Bernstein coefficients settle most cases at
 * once (a polynomial lies within their hull: Farouki 2012, "The Bernstein polynomial basis: a centennial
 * retrospective", Computer Aided Geometric Design 29(6)); the rest is cut at the roots, which are bracketed between the
 * roots of the derivative, and those between the roots of the second derivative, which are known in closed form. */
#include "not-negative.h"

#include <math.h>
#include <string.h>

/* Value of the polynomial of the given degree, and of its derivative. */
static double
value_at (const double *c, guint degree, double x, double *slope)
{
  double value = c[degree], rise = 0;

  for (guint i = degree; i > 0; i--)
    {
      rise = rise * x + value;
      value = value * x + c[i - 1];
    }
  *slope = rise;
  return value;
}

/* The root between lo and hi, where the polynomial is monotone and changes sign: Newton's step, halving where it would
 * leave the bracket. */
static double
bracketed_root (const double *c, guint degree, double lo, double hi)
{
  double slope, at_lo = value_at (c, degree, lo, &slope);
  double x = (lo + hi) / 2;

  for (guint i = 0; i < 100; i++)
    {
      double value = value_at (c, degree, x, &slope), next;

      if (value == 0)
        return x;
      if ((value < 0) == (at_lo < 0))
        lo = x;
      else
        hi = x;
      next = x - value / slope;
      if (!(next > lo && next < hi))
        next = (lo + hi) / 2;
      if (next == x || hi - lo <= 1e-16)
        return next;
      x = next;
    }
  return x;
}

/* Roots in (0, 1) where the sign changes, given the points that cut (0, 1) into monotone parts. */
static guint
roots_between (const double *c, guint degree, const double *cuts, guint n_cuts, double *roots)
{
  double lo = 0, slope, at_lo = value_at (c, degree, 0, &slope);
  guint n = 0;

  for (guint i = 0; i <= n_cuts; i++)
    {
      double hi = i < n_cuts ? cuts[i] : 1;
      double at_hi = value_at (c, degree, hi, &slope);

      if ((at_lo < 0) != (at_hi < 0))
        roots[n++] = bracketed_root (c, degree, lo, hi);
      lo = hi;
      at_lo = at_hi;
    }
  return n;
}

/* Roots of c0 + c1 x + c2 x^2 in (0, 1), in order. */
static guint
quadratic_roots (double c0, double c1, double c2, double *roots)
{
  double square = c1 * c1 - 4 * c2 * c0, half, x[2];
  guint n = 0, found = 0;

  if (square < 0)
    return 0;
  half = -(c1 + copysign (sqrt (square), c1)) / 2;
  if (c2 != 0)
    x[n++] = half / c2;
  if (half != 0)
    x[n++] = c0 / half;
  if (n == 2 && x[0] > x[1])
    {
      double first = x[1];

      x[1] = x[0];
      x[0] = first;
    }
  for (guint i = 0; i < n; i++)
    if (x[i] > 0 && x[i] < 1)
      roots[found++] = x[i];
  return found;
}

/* The polynomial over y in [0, 1] with x = from + (to - from) y. */
static void
over_unit (const double c[5], double from, double to, double unit[5])
{
  double scale = 1;

  memcpy (unit, c, 5 * sizeof (double));
  for (guint i = 0; i < 4; i++)
    for (guint j = 4; j > i; j--)
      unit[j - 1] += from * unit[j];
  for (guint i = 1; i < 5; i++)
    {
      scale *= to - from;
      unit[i] *= scale;
    }
}

/* 1: not negative anywhere; -1: negative everywhere; 0: not settled. */
static int
settled_sign (const double a[5])
{
  double b[5] = { a[0], a[0] + a[1] / 4, a[0] + a[1] / 2 + a[2] / 6,
                  a[0] + a[1] * 3 / 4 + a[2] / 2 + a[3] / 4, a[0] + a[1] + a[2] + a[3] + a[4] };
  guint negative = 0;

  for (guint i = 0; i < 5; i++)
    negative += b[i] < 0;
  return negative == 0 ? 1 : negative == 5 ? -1 : 0;
}

guint
hw_not_negative (const double c[5], double from, double to, HwSpan spans[3])
{
  double a[5], slopes[4], bends[2], turns[3], ends[6], slope;
  guint n_bends, n_turns, n_roots, n = 0;
  int sign;

  over_unit (c, from, to, a);
  sign = settled_sign (a);
  if (sign < 0)
    return 0;
  if (sign > 0)
    {
      spans[0] = (HwSpan){ from, to };
      return 1;
    }
  for (guint i = 0; i < 4; i++)
    slopes[i] = a[i + 1] * (i + 1);
  n_bends = quadratic_roots (2 * a[2], 6 * a[3], 12 * a[4], bends);
  n_turns = roots_between (slopes, 3, bends, n_bends, turns);
  ends[0] = 0;
  n_roots = roots_between (a, 4, turns, n_turns, ends + 1);
  ends[n_roots + 1] = 1;
  for (guint i = 0; i <= n_roots; i++)
    if (value_at (a, 4, (ends[i] + ends[i + 1]) / 2, &slope) >= 0)
      {
        double lo = i == 0 ? from : from + (to - from) * ends[i];
        double hi = i == n_roots ? to : from + (to - from) * ends[i + 1];

        if (n > 0 && spans[n - 1].to == lo)
          spans[n - 1].to = hi;
        else
          spans[n++] = (HwSpan){ lo, hi };
      }
  return n;
}

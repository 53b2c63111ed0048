/* Rotating calipers: a hull between two pairs of parallel lines at right angles, turned through a quarter. Between
 * events, while the same four hull points touch the lines, the extents are d . e for constant vectors d, so
 * whatever is asked about them has a closed answer. */
#pragma once

#include "point.h"

G_BEGIN_DECLS

/* The turns from direction `from` to direction `to` (unit vectors of u; v is u turned by +90 degrees). */
typedef struct
{
  HwPoint from, to;
  HwPoint u_far, u_near; /* the hull points that touch, largest and smallest u */
  HwPoint v_far, v_near;
  HwPoint across; /* extent along u = across . e */
  HwPoint along;  /* extent along v = along . e (e is still the direction of u) */
} HwCaliperSpan;

/* Private state; lives on the stack. */
typedef struct
{
  const HwPoint *hull;
  guint n;
  guint touch[4];   /* the points touching at u, v, -u, -v */
  HwPoint event[4]; /* directions of u at which each hands over to its successor */
  HwPoint e;        /* where the next span begins */
  guint left;       /* hand-overs still possible */
  gboolean done;
} HwCalipers;

/* Begins at u = (1, 0). hull: n >= 1 points, clockwise as seen, kept by the caller. */
void
hw_calipers_start (HwCalipers *calipers, const HwPoint *hull, guint n);

/* The next span, in order of turn from 0 to 90 degrees; FALSE when the quarter is done. No allocation. */
gboolean
hw_calipers_next (HwCalipers *calipers, HwCaliperSpan *span);

static inline double
hw_dot (HwPoint a, HwPoint b)
{
  return a.x * b.x + a.y * b.y;
}

static inline double
hw_cross (HwPoint a, HwPoint b)
{
  return a.x * b.y - a.y * b.x;
}

/* The unit vectors e with d . e = k: *rising has d . e growing with the turn, *falling shrinking. FALSE when
 * there is none (|k| > |d|). */
gboolean
hw_directions_with_extent (HwPoint d, double k, HwPoint *rising, HwPoint *falling);

G_END_DECLS

/* The sharing question, yes or no. A set of motifs fits a hoop at some angle when both extents of its hull stay within the
 * usable field there. Between caliper events an extent is |d| cos (t - phi), which is concave while positive, so it is
 * within its limit only next to the ends of the span: looking at the ends, and at one crossing where the two
 * extents are within their limits at opposite ends, answers exactly and without a single angle. */
#include "sharing-private.h"

#include <math.h>

#include "../geometry/hull.h"

HwHoopCase
hw_hoop_case (const HwHoop *hoop, const HwFabric *fabric)
{
  return (HwHoopCase){ .field_u = hoop->field_width,
                       .field_v = hoop->field_height,
                       .usable_u = hoop->field_width - 2 * hoop->clearance + HW_SHARING_TOLERANCE,
                       .usable_v = hoop->field_height - 2 * hoop->clearance + HW_SHARING_TOLERANCE,
                       .frame_u = hoop->frame_width,
                       .frame_v = hoop->frame_height,
                       .clearance = hoop->clearance,
                       .cloth_width = fabric->width,
                       .cloth_height = fabric->height,
                       .clamped = fabric->hold == HW_HOLD_CLAMPED };
}

HwHoopCase
hw_hoop_case_exchanged (const HwHoopCase *as_is)
{
  HwHoopCase exchanged = *as_is;

  exchanged.field_u = as_is->field_v;
  exchanged.field_v = as_is->field_u;
  exchanged.usable_u = as_is->usable_v;
  exchanged.usable_v = as_is->usable_u;
  exchanged.frame_u = as_is->frame_v;
  exchanged.frame_v = as_is->frame_u;
  return exchanged;
}

/* The crossing case: u is within its limit at one end of the span only, v at the other only. TRUE when they are so
 * together somewhere between; *e is then such a direction. */
static gboolean
meets_between (const HwCaliperSpan *span, double limit_u, double limit_v, gboolean u_at_start, HwPoint *e)
{
  HwPoint rising, falling;

  if (!hw_directions_with_extent (span->across, limit_u, &rising, &falling))
    return FALSE;
  *e = u_at_start ? rising : falling;
  return hw_dot (span->along, *e) <= limit_v;
}

/* How the extents stand to their limits over one span. */
typedef enum
{
  SPAN_NEVER,  /* nowhere */
  SPAN_START,  /* at its beginning */
  SPAN_END,    /* at its end, not at its beginning */
  SPAN_BETWEEN /* at direction e, at neither end */
} SpanAnswer;

static SpanAnswer
span_answer (const HwCaliperSpan *span, double limit_u, double limit_v, HwPoint *e)
{
  gboolean u_start = hw_dot (span->across, span->from) <= limit_u;
  gboolean v_start = hw_dot (span->along, span->from) <= limit_v;
  gboolean u_end, v_end;

  if (u_start && v_start)
    return SPAN_START;
  u_end = hw_dot (span->across, span->to) <= limit_u;
  v_end = hw_dot (span->along, span->to) <= limit_v;
  if (u_end && v_end)
    return SPAN_END;
  if (((u_start && v_end) || (v_start && u_end)) && meets_between (span, limit_u, limit_v, u_start, e))
    return SPAN_BETWEEN;
  return SPAN_NEVER;
}

/* No angle helps a hull with more area than the field, or wider than its diagonal in one of four directions. */
static gboolean
is_hopeless (const HwPoint *hull, guint n, const HwHoopCase *hoop)
{
  double diagonal = hypot (hoop->usable_u, hoop->usable_v);
  double x0 = INFINITY, x1 = -INFINITY, y0 = x0, y1 = x1, s0 = x0, s1 = x1, d0 = x0, d1 = x1;

  for (guint i = 0; i < n; i++)
    {
      double x = hull[i].x, y = hull[i].y, s = x + y, d = x - y;

      x0 = MIN (x0, x);
      x1 = MAX (x1, x);
      y0 = MIN (y0, y);
      y1 = MAX (y1, y);
      s0 = MIN (s0, s);
      s1 = MAX (s1, s);
      d0 = MIN (d0, d);
      d1 = MAX (d1, d);
    }
  if (x1 - x0 > diagonal || y1 - y0 > diagonal || MAX (s1 - s0, d1 - d0) > diagonal * G_SQRT2)
    return TRUE;
  if (hoop->clamped
      && (x0 < -HW_SHARING_TOLERANCE || y0 < -HW_SHARING_TOLERANCE
          || x1 > hoop->cloth_width + HW_SHARING_TOLERANCE || y1 > hoop->cloth_height + HW_SHARING_TOLERANCE)
      && hoop->frame_u >= hoop->field_u && hoop->frame_v >= hoop->field_v)
    return TRUE;
  return n > 4 && hw_hull_area (hull, n) > hoop->usable_u * hoop->usable_v;
}

static gboolean
clamped_fits_at (const HwHoopCase *hoop, const HwCaliperSpan *span, HwPoint e)
{
  HwHullPose pose = hw_hull_pose_in_span (span, e);

  return hw_greatest_margin (hoop, &pose) >= hoop->clearance;
}

/* Whether the span holds an angle for the hoop. */
static gboolean
span_fits (const HwHoopCase *hoop, const HwCaliperSpan *span)
{
  HwSpan parts[HW_MOST_SPANS];
  HwPoint e = span->from;
  SpanAnswer answer = span_answer (span, hoop->usable_u, hoop->usable_v, &e);

  if (answer == SPAN_NEVER || !hoop->clamped)
    return answer != SPAN_NEVER;
  if (answer == SPAN_END)
    e = span->to;
  return clamped_fits_at (hoop, span, e) || hw_allowed_parts (hoop, span, &e, parts) > 0;
}

static gboolean
fits_any_angle (const HwPoint *hull, guint n, const HwHoopCase *hoop)
{
  HwHoopCase exchanged = hw_hoop_case_exchanged (hoop);
  HwCalipers calipers;
  HwCaliperSpan span;

  hw_calipers_start (&calipers, hull, n);
  while (hw_calipers_next (&calipers, &span))
    if (span_fits (hoop, &span) || span_fits (&exchanged, &span))
      return TRUE;
  return FALSE;
}

static gboolean
fits_upright (const HwPoint *hull, guint n, const HwHoopCase *hoop)
{
  HwHoopCase exchanged = hw_hoop_case_exchanged (hoop);
  HwHullPose pose = hw_hull_pose_at (hull, n, 0);

  return hw_greatest_margin (hoop, &pose) >= hoop->clearance - HW_SHARING_TOLERANCE / 2
         || hw_greatest_margin (&exchanged, &pose) >= hoop->clearance - HW_SHARING_TOLERANCE / 2;
}

gboolean
hw_sharing_fits (const HwPoint *hull, guint n_hull, const HwHoop *hoop, const HwFabric *fabric)
{
  HwHoopCase as_is;

  g_return_val_if_fail (hull != NULL || n_hull == 0, FALSE);
  g_return_val_if_fail (hoop != NULL && fabric != NULL, FALSE);

  as_is = hw_hoop_case (hoop, fabric);
  if (n_hull == 0 || as_is.usable_u < HW_SHARING_TOLERANCE || as_is.usable_v < HW_SHARING_TOLERANCE)
    return FALSE;
  if (hoop->turn == HW_TURN_QUARTER)
    return fits_upright (hull, n_hull, &as_is);
  return !is_hopeless (hull, n_hull, &as_is) && fits_any_angle (hull, n_hull, &as_is);
}

/* The hull of one motif as placed; out holds n_hull points. */
static guint
placed_hull (const HwMotif *motif, HwPoint *out)
{
  guint n = motif->outline->n_hull;

  for (guint i = 0; i < n; i++)
    out[motif->placement.mirrored ? n - 1 - i : i]
        = hw_placement_apply (&motif->placement, motif->outline->hull[i]);
  return n;
}

GArray *
hw_sharing_hull (const HwSnapshot *snapshot, const guint *motifs, guint n_motifs)
{
  g_autoptr (GArray) hull = g_array_new (FALSE, FALSE, sizeof (HwPoint));

  g_return_val_if_fail (snapshot != NULL, NULL);
  g_return_val_if_fail (motifs != NULL || n_motifs == 0, NULL);

  for (guint i = 0; i < n_motifs; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, motifs[i]);
      g_autoptr (GArray) merged = g_array_new (FALSE, FALSE, sizeof (HwPoint));
      g_autofree HwPoint *placed = g_new (HwPoint, motif->outline->n_hull + 1);
      guint n = placed_hull (motif, placed), n_merged;

      g_array_set_size (merged, hull->len + n + 2);
      n_merged = hw_hull_merge ((const HwPoint *)hull->data, hull->len, placed, n, (HwPoint *)merged->data);
      g_array_set_size (merged, n_merged);
      g_array_unref (hull);
      hull = g_steal_pointer (&merged);
    }
  return g_steal_pointer (&hull);
}

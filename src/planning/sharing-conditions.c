/* Where on a span of the calipers the conditions of sharing hold. On floated cloth these are the two extents alone.
 * On clamped cloth the hoop's centre must keep the hull in the field (a rectangle of centres in hoop axes) and the
 * frame on the cloth (an upright rectangle of centres). Two rectangles meet unless one of their four axes separates them
 * (separating axis theorem: Gottschalk, Lin and Manocha 1996, "OBBTree", SIGGRAPH). With cosine c and sine s of the hoop's angle,
 * each of these conditions is a form k + kc c + ks s + kcc c^2 + kcs c s + kss s^2 >= 0 between caliper events: in the
 * tangent of the half angle, a polynomial of degree four over (1 + z^2)^2. */
#include "sharing-private.h"

#include <math.h>
#include <string.h>

/* mm: what sums of lengths and sines may be off, in plenty. */
#define ROUNDING 1e-9

HwHullPose
hw_hull_pose_at (const HwPoint *hull, guint n, double degrees)
{
  HwPoint e = hw_point_turn ((HwPoint){ 1, 0 }, degrees), f = { -e.y, e.x };
  double u0 = INFINITY, u1 = -INFINITY, v0 = INFINITY, v1 = -INFINITY;

  for (guint i = 0; i < n; i++)
    {
      double u = hw_dot (hull[i], e), v = hw_dot (hull[i], f);

      u0 = MIN (u0, u);
      u1 = MAX (u1, u);
      v0 = MIN (v0, v);
      v1 = MAX (v1, v);
    }
  return (HwHullPose){ e, u1 - u0, v1 - v0, (u0 + u1) / 2, (v0 + v1) / 2 };
}

double
hw_greatest_margin (const HwHoopCase *hoop, const HwHullPose *pose)
{
  double free_u = (hoop->field_u - pose->wide) / 2, free_v = (hoop->field_v - pose->high) / 2;
  double margin = MIN (free_u, free_v);
  double c, s, room_x, room_y, off_x, off_y;

  if (!hoop->clamped)
    return margin;

  /* The centres that keep a margin m reach free - m from the hull's middle along u and v; those that keep the frame on
   * the cloth reach room from the cloth's middle along x and y. No axis separates the two up to the m given by
   * each line below. */
  c = fabs (pose->e.x);
  s = fabs (pose->e.y);
  room_x = (hoop->cloth_width - hoop->frame_u * c - hoop->frame_v * s + HW_SHARING_TOLERANCE) / 2;
  room_y = (hoop->cloth_height - hoop->frame_u * s - hoop->frame_v * c + HW_SHARING_TOLERANCE) / 2;
  if (room_x < -ROUNDING || room_y < -ROUNDING)
    return -INFINITY;
  room_x = MAX (room_x, 0);
  room_y = MAX (room_y, 0);
  off_x = pose->middle_u * pose->e.x - pose->middle_v * pose->e.y - hoop->cloth_width / 2;
  off_y = pose->middle_u * pose->e.y + pose->middle_v * pose->e.x - hoop->cloth_height / 2;
  margin = MIN (margin, (room_x + free_u * c + free_v * s - fabs (off_x)) / (c + s));
  margin = MIN (margin, (room_y + free_u * s + free_v * c - fabs (off_y)) / (c + s));
  margin = MIN (margin, free_u + room_x * c + room_y * s - fabs (off_x * pose->e.x + off_y * pose->e.y));
  margin = MIN (margin, free_v + room_x * s + room_y * c - fabs (off_y * pose->e.x - off_x * pose->e.y));
  return margin;
}

/* k + kc c + ks s */
typedef struct
{
  double k, c, s;
} Linear;

/* k + kc c + ks s + kcc c^2 + kcs c s + kss s^2 */
typedef struct
{
  double k, c, s, cc, cs, ss;
} Form;

/* form += sign * a */
static void
add (Form *form, double sign, Linear a)
{
  form->k += sign * a.k;
  form->c += sign * a.c;
  form->s += sign * a.s;
}

/* form += sign * a * c */
static void
add_times_c (Form *form, double sign, Linear a)
{
  form->c += sign * a.k;
  form->cc += sign * a.c;
  form->cs += sign * a.s;
}

/* form += sign * a * s */
static void
add_times_s (Form *form, double sign, Linear a)
{
  form->s += sign * a.k;
  form->cs += sign * a.c;
  form->ss += sign * a.s;
}

/* The form as a polynomial in z, the tangent of half the turn from the direction `middle`, times (1 + z^2)^2. */
static void
form_polynomial (const Form *form, HwPoint middle, double z[5])
{
  double c = middle.x, s = middle.y;
  double k1 = form->c * c + form->s * s, k2 = form->s * c - form->c * s;
  double k11 = form->cc * c * c + form->cs * c * s + form->ss * s * s;
  double k22 = form->cc * s * s - form->cs * c * s + form->ss * c * c;
  double k12 = 2 * (form->ss - form->cc) * c * s + form->cs * (c * c - s * s);

  z[0] = form->k + k1 + k11;
  z[1] = 2 * (k2 + k12);
  z[2] = 2 * form->k - 2 * k11 + 4 * k22;
  z[3] = 2 * (k2 - k12);
  z[4] = form->k - k1 + k11;
}

#define N_CONDITIONS 12

/* The conditions over a span, for turns between 0 and 90 degrees (c, s >= 0). */
static void
write_conditions (const HwHoopCase *hoop, const HwCaliperSpan *span, Form conditions[N_CONDITIONS])
{
  double slack = HW_SHARING_TOLERANCE / 2, w = hoop->cloth_width / 2, h = hoop->cloth_height / 2;
  /* Half the reach of the centres: the field's along u and v, the frame's along x and y. */
  Linear a = { hoop->usable_u / 2, -span->across.x / 2, -span->across.y / 2 };
  Linear b = { hoop->usable_v / 2, -span->along.x / 2, -span->along.y / 2 };
  Linear x = { w + slack, -hoop->frame_u / 2, -hoop->frame_v / 2 };
  Linear y = { h + slack, -hoop->frame_v / 2, -hoop->frame_u / 2 };
  /* The hull's middle from the cloth's middle, along u and v. */
  Linear u = { 0, (span->u_far.x + span->u_near.x) / 2, (span->u_far.y + span->u_near.y) / 2 };
  Linear v = { 0, (span->v_far.y + span->v_near.y) / 2, -(span->v_far.x + span->v_near.x) / 2 };

  memset (conditions, 0, N_CONDITIONS * sizeof (Form));
  add (&conditions[0], 1, a);
  add (&conditions[1], 1, b);
  add (&conditions[2], 1, x);
  add (&conditions[3], 1, y);
  for (int i = 0; i < 2; i++)
    {
      double sign = i == 0 ? 1 : -1;
      Form *on_x = &conditions[4 + i], *on_y = &conditions[6 + i];
      Form *on_u = &conditions[8 + i], *on_v = &conditions[10 + i];

      add (on_x, 1, x);
      add_times_c (on_x, 1, a);
      add_times_s (on_x, 1, b);
      add_times_c (on_x, sign, u);
      add_times_s (on_x, -sign, v);
      on_x->k -= sign * w;

      add (on_y, 1, y);
      add_times_s (on_y, 1, a);
      add_times_c (on_y, 1, b);
      add_times_s (on_y, sign, u);
      add_times_c (on_y, sign, v);
      on_y->k -= sign * h;

      add (on_u, 1, a);
      add_times_c (on_u, 1, x);
      add_times_s (on_u, 1, y);
      add (on_u, sign, u);
      add (on_u, -sign, (Linear){ 0, w, h });

      add (on_v, 1, b);
      add_times_s (on_v, 1, x);
      add_times_c (on_v, 1, y);
      add (on_v, sign, v);
      add (on_v, -sign, (Linear){ 0, h, -w });
    }
}

/* The common parts of two lists of spans, both in order. */
static guint
common_parts (const HwSpan *a, guint na, const HwSpan *b, guint nb, HwSpan *out)
{
  guint n = 0;

  for (guint i = 0; i < na; i++)
    for (guint j = 0; j < nb; j++)
      {
        double from = MAX (a[i].from, b[j].from), to = MIN (a[i].to, b[j].to);

        if (from <= to && n < HW_MOST_SPANS)
          out[n++] = (HwSpan){ from, to };
      }
  return n;
}

guint
hw_allowed_parts (const HwHoopCase *hoop, const HwCaliperSpan *span, HwPoint *middle, HwSpan *parts)
{
  Form conditions[N_CONDITIONS];
  HwPoint sum = { span->from.x + span->to.x, span->from.y + span->to.y };
  double length = hypot (sum.x, sum.y), half;
  guint n = 1;

  *middle = (HwPoint){ sum.x / length, sum.y / length };
  half = hw_cross (*middle, span->to) / (1 + hw_dot (*middle, span->to));
  parts[0] = (HwSpan){ -half, half };
  write_conditions (hoop, span, conditions);
  for (guint i = 0; i < (hoop->clamped ? N_CONDITIONS : 2) && n > 0; i++)
    {
      HwSpan holds[3], before[HW_MOST_SPANS];
      double z[5];

      form_polynomial (&conditions[i], *middle, z);
      memcpy (before, parts, n * sizeof (HwSpan));
      n = common_parts (before, n, holds, hw_not_negative (z, -half, half, holds), parts);
    }
  return n;
}

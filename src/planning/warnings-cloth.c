/* Is the cloth large enough? On clamped cloth every frame must lie on it; on floated cloth the stitching must, and the whole field of a
 * hooping that found no room for its marks. A hoop can be shifted as far as its motifs leave room in the field; so each hooping asks for a
 * length of cloth, and for a place of it that is a range. Along one axis, ranges [low - half, ..., high + half] are served by any cloth that
 * begins at or before the least of (high - half), ends at or after the greatest of (low + half), and is as long as the longest frame. */
#include <math.h>

#include "sharing.h"
#include "warnings-private.h"
#include "../geometry/language.h"

#define VISIBLE 0.05 /* mm */
#define SAME_ANGLE 1e-6

/* What is asked of the cloth along one axis. */
typedef struct
{
  double begin; /* at or before this */
  double end;   /* at or after this */
  double length;
} Wanted;

static void
want (Wanted *wanted, double low, double high, double half)
{
  wanted->begin = MIN (wanted->begin, high - half);
  wanted->end = MAX (wanted->end, low + half);
  wanted->length = MAX (wanted->length, MAX (2 * half, wanted->end - wanted->begin));
}

typedef struct
{
  Wanted x, y;
} Asked;

static void
want_box (Asked *asked, HwBox box)
{
  want (&asked->x, (box.x0 + box.x1) / 2, (box.x0 + box.x1) / 2, (box.x1 - box.x0) / 2);
  want (&asked->y, (box.y0 + box.y1) / 2, (box.y0 + box.y1) / 2, (box.y1 - box.y0) / 2);
}

/* A frame that may be shifted while its field holds a box; at an angle other than upright it is taken where it is. */
static void
want_frame (Asked *asked, const HwHoop *hoop, HwPoint centre, double angle, HwBox held)
{
  HwBox frame = hw_hooping_box (centre, angle, hoop->frame_width, hoop->frame_height);
  HwBox usable = hw_hooping_box (centre, angle, hoop->field_width - 2 * hoop->clearance,
                                 hoop->field_height - 2 * hoop->clearance);

  if (fabs (remainder (angle, 90)) > SAME_ANGLE)
    {
      want_box (asked, frame);
      return;
    }
  want (&asked->x, MIN (centre.x, centre.x + held.x1 - usable.x1),
        MAX (centre.x, centre.x + held.x0 - usable.x0), (frame.x1 - frame.x0) / 2);
  want (&asked->y, MIN (centre.y, centre.y + held.y1 - usable.y1),
        MAX (centre.y, centre.y + held.y0 - usable.y0), (frame.y1 - frame.y0) / 2);
}

static void
ask_for_hooping (Asked *asked, const HwWarner *warner, const HwHooping *hooping)
{
  const HwHoop *hoop = hw_snapshot_hoop (warner->snapshot, hooping->hoop);
  HwBox held = HW_BOX_EMPTY;

  for (guint k = 0; k < hooping->n_motifs; k++)
    held = hw_box_union (held, warner->placed[hooping->motifs[k]].outline->box);
  if (warner->snapshot->fabric.hold != HW_HOLD_CLAMPED)
    {
      want_box (asked, held);
      if (hooping->n_marks < 2)
        want_box (asked,
                  hw_hooping_box (hooping->centre, hooping->angle, hoop->field_width, hoop->field_height));
    }
  else if (hooping->hold == HW_PLACE_PINNED)
    want_box (asked, hw_hooping_box (hooping->centre, hooping->angle, hoop->frame_width, hoop->frame_height));
  else
    want_frame (asked, hoop, hooping->centre, hooping->angle, held);
}

/* A motif that only a larger cloth lets into a hoop: the smallest frame whose field takes it. */
static void
ask_for_unplanned (Asked *asked, const HwWarner *warner, guint motif)
{
  const HwOutline *outline = warner->placed[motif].outline;
  HwFabric loose = warner->snapshot->fabric;
  const HwHoop *best = NULL;
  HwPose best_pose = { { 0, 0 }, 0, 0 };
  const double liked[] = { 0, 90 };

  loose.hold = HW_HOLD_FLOATED;
  for (guint h = 0; h < warner->snapshot->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (warner->snapshot, h);
      HwPose pose;

      if (hoop->set_aside
          || !hw_sharing_pose (outline->hull, outline->n_hull, hoop, &loose, liked, G_N_ELEMENTS (liked),
                               warner->snapshot->machine.turn_step, &pose))
        continue;
      if (best != NULL && hoop->frame_width * hoop->frame_height >= best->frame_width * best->frame_height)
        continue;
      best = hoop;
      best_pose = pose;
    }
  if (best != NULL)
    want_frame (asked, best, best_pose.centre, best_pose.angle, outline->box);
}

static void
ask_for_all (Asked *asked, const HwWarner *warner)
{
  const HwPlan *plan = warner->plan;

  for (guint h = 0; h < plan->n_hoopings; h++)
    if (plan->hoopings[h].hold != HW_PLACE_FROZEN)
      ask_for_hooping (asked, warner, &plan->hoopings[h]);
  if (warner->snapshot->fabric.hold != HW_HOLD_CLAMPED)
    return;
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);

      if (problem->kind == HW_PROBLEM_OVERSIZE && problem->motif >= 0)
        ask_for_unplanned (asked, warner, problem->motif);
    }
}

/* The side to cut: as long as it is, or as long as asked, up to the next whole millimetre or tenth of an inch. */
static double
side_to_cut (const Wanted *wanted, double side, HwUnit unit)
{
  double step = unit == HW_UNIT_INCH ? HW_MM_PER_INCH / 10 : 1;

  return wanted->length <= side + VISIBLE ? side : ceil (wanted->length / step - 1e-9) * step;
}

/* How far the picture has to move along an axis to lie on a cloth of that side; 0 where it can stay. */
static double
move_for (const Wanted *wanted, double side)
{
  double begin = MIN (MAX (0, wanted->end - side), wanted->begin);

  return fabs (begin) < VISIBLE ? 0 : -begin;
}

static char *
move_text (double dx, double dy, HwUnit unit)
{
  g_autofree char *across = hw_length_text (fabs (dx), unit), *along = hw_length_text (fabs (dy), unit);
  g_autofree char *one = g_strdup_printf (dx < 0 ? _ ("%s to the left") : _ ("%s to the right"), across);
  g_autofree char *other = g_strdup_printf (dy < 0 ? _ ("%s up") : _ ("%s down"), along);

  if (dx == 0 && dy == 0)
    return g_strdup ("");
  if (dy == 0)
    return g_strdup_printf (_ (" Move the whole picture %s on it."), one);
  if (dx == 0)
    return g_strdup_printf (_ (" Move the whole picture %s on it."), other);
  return g_strdup_printf (_ (" Move the whole picture %s and %s on it."), one, other);
}

void
hw_warn_cloth (HwWarner *warner)
{
  const HwFabric *fabric = &warner->snapshot->fabric;
  Asked asked = { { INFINITY, -INFINITY, 0 }, { INFINITY, -INFINITY, 0 } };
  double width, height, beyond;
  g_autofree char *size = NULL, *move = NULL;

  ask_for_all (&asked, warner);
  beyond = MAX (asked.x.length - fabric->width, asked.y.length - fabric->height);
  if (beyond <= VISIBLE)
    return;
  width = side_to_cut (&asked.x, fabric->width, warner->unit);
  height = side_to_cut (&asked.y, fabric->height, warner->unit);
  size = hw_size_text (width, height, warner->unit);
  move = move_text (move_for (&asked.x, width), move_for (&asked.y, height), warner->unit);
  hw_warner_tell (
      warner, HW_PROBLEM_CLOTH_TOO_SMALL, -1, -1, beyond, (HwPoint){ fabric->width / 2, fabric->height / 2 },
      g_strdup_printf (_ ("The cloth is too small for its hoopings: a piece of %s would do.%s"), size, move));
  warner->told = 0;
}

/* The choice of a hoop: at an angle that leaves the motifs unturned at the machine, or else on its turn step; the smaller hoop, which holds
 * the cloth better; the greater margin. */
#include "hoop-choice.h"

#include <math.h>

#define SAME_ANGLE 1e-6 /* degrees */
#define SLACK 5e-7      /* mm: rounding */

typedef struct
{
  double angle;
  guint times;
} Liked;

static gint
compare_liked (gconstpointer pa, gconstpointer pb)
{
  const Liked *a = pa, *b = pb;

  if (a->times != b->times)
    return a->times > b->times ? -1 : 1;
  return a->angle < b->angle ? -1 : a->angle > b->angle;
}

GArray *
hw_liked_angles (const HwSnapshot *snapshot, const guint *motifs, guint n)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (Liked));
  GArray *liked = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint k = 0; k < n; k++)
    {
      Liked own = { hw_angle_normal (hw_snapshot_motif (snapshot, motifs[k])->placement.angle), 1 };
      gboolean known = FALSE;

      for (guint i = 0; i < found->len && !known; i++)
        {
          known = fabs (g_array_index (found, Liked, i).angle - own.angle) < SAME_ANGLE;
          if (known)
            g_array_index (found, Liked, i).times++;
        }
      if (!known)
        g_array_append_val (found, own);
    }
  g_array_sort (found, compare_liked);
  for (guint i = 0; i < found->len; i++)
    g_array_append_val (liked, g_array_index (found, Liked, i).angle);
  return liked;
}

/* How the motifs are turned at the machine when the hoop lies at the angle. */
static guint
trouble_at (double angle, const GArray *liked, double step)
{
  for (guint i = 0; i < liked->len; i++)
    {
      double turn = g_array_index (liked, double, i) - angle;

      if (fabs (remainder (turn, 90)) < SAME_ANGLE
          || (step > 0 && fabs (remainder (turn, step)) < SAME_ANGLE))
        return 0;
    }
  return 1;
}

static gboolean
is_better (const HwSnapshot *snapshot, const HwHoopChoice *a, const HwHoopChoice *b)
{
  const HwHoop *ha = hw_snapshot_hoop (snapshot, a->hoop), *hb = hw_snapshot_hoop (snapshot, b->hoop);
  double area_a = ha->field_width * ha->field_height, area_b = hb->field_width * hb->field_height;

  if (a->trouble != b->trouble)
    return a->trouble < b->trouble;
  if (area_a != area_b)
    return area_a < area_b;
  return a->pose.margin > b->pose.margin + SLACK;
}

gboolean
hw_hoop_choose (
    const HwSnapshot *snapshot, const HwPoint *hull, guint n_hull, const GArray *liked, HwHoopChoice *choice)
{
  gboolean found = FALSE;

  g_return_val_if_fail (snapshot != NULL && choice != NULL, FALSE);

  for (guint i = 0; i < snapshot->hoops->len; i++)
    {
      HwHoopChoice here = { .hoop = i };

      if (hw_snapshot_hoop (snapshot, i)->set_aside
          || !hw_sharing_pose (hull, n_hull, hw_snapshot_hoop (snapshot, i), &snapshot->fabric,
                               (const double *)liked->data, liked->len, snapshot->machine.turn_step,
                               &here.pose))
        continue;
      here.trouble = trouble_at (here.pose.angle, liked, snapshot->machine.turn_step);
      if (!found || is_better (snapshot, &here, choice))
        *choice = here;
      found = TRUE;
    }
  return found;
}

gboolean
hw_hoop_choose_along_grain (const HwSnapshot *snapshot,
                            const HwPoint *hull,
                            guint n_hull,
                            HwHoopChoice *choice)
{
  gboolean found = FALSE;

  g_return_val_if_fail (snapshot != NULL && choice != NULL, FALSE);

  for (guint i = 0; i < snapshot->hoops->len; i++)
    for (guint turn = 0; turn < 2; turn++)
      {
        HwHoopChoice here = { .hoop = i };

        if (hw_snapshot_hoop (snapshot, i)->set_aside
            || !hw_sharing_pose_at (hull, n_hull, hw_snapshot_hoop (snapshot, i), &snapshot->fabric,
                                    90.0 * turn, &here.pose))
          continue;
        if (!found || is_better (snapshot, &here, choice))
          *choice = here;
        found = TRUE;
      }
  return found;
}

static gboolean
frame_is_on_cloth (const HwSnapshot *snapshot, const HwHoop *hoop, const HwPose *pose)
{
  for (int k = 0; k < 4; k++)
    {
      HwPoint corner = { hoop->frame_width / (k & 1 ? 2 : -2), hoop->frame_height / (k & 2 ? 2 : -2) };
      HwPoint at = hw_point_turn (corner, pose->angle);

      at = (HwPoint){ at.x + pose->centre.x, at.y + pose->centre.y };
      if (at.x < -SLACK || at.y < -SLACK || at.x > snapshot->fabric.width + SLACK
          || at.y > snapshot->fabric.height + SLACK)
        return FALSE;
    }
  return TRUE;
}

gboolean
hw_hoop_suits (
    const HwSnapshot *snapshot, const HwPoint *hull, guint n_hull, const GArray *liked, HwHoopChoice *choice)
{
  const HwHoop *hoop;
  double margin = G_MAXDOUBLE;

  g_return_val_if_fail (choice->hoop < snapshot->hoops->len, FALSE);

  hoop = hw_snapshot_hoop (snapshot, choice->hoop);
  if (hoop->turn == HW_TURN_QUARTER && fabs (remainder (choice->pose.angle, 90)) > SAME_ANGLE)
    return FALSE;
  for (guint i = 0; i < n_hull; i++)
    {
      HwPoint p = { hull[i].x - choice->pose.centre.x, hull[i].y - choice->pose.centre.y };

      p = hw_point_turn (p, -choice->pose.angle);
      margin = MIN (margin, MIN (hoop->field_width / 2 - fabs (p.x), hoop->field_height / 2 - fabs (p.y)));
    }
  if (margin < hoop->clearance - SLACK)
    return FALSE;
  if (snapshot->fabric.hold == HW_HOLD_CLAMPED && !frame_is_on_cloth (snapshot, hoop, &choice->pose))
    return FALSE;
  choice->pose.margin = margin;
  choice->trouble = trouble_at (choice->pose.angle, liked, snapshot->machine.turn_step);
  return TRUE;
}

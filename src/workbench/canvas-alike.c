/* Two plans side by side, as they are drawn. Poses that differ by less than can be seen at the nearest zoom count as equal. */

#include "canvas-alike.h"

#include <math.h>

#define UNSEEN 0.005 /* mm; degrees */

static gboolean
same_hoop (const HwHoop *a, const HwHoop *b)
{
  return a == b
         || (g_str_equal (a->id, b->id) && a->field_width == b->field_width
             && a->field_height == b->field_height && a->frame_width == b->frame_width
             && a->frame_height == b->frame_height);
}

static gboolean
same_motifs (const HwPlan *a, const HwHooping *p, const HwPlan *b, const HwHooping *q)
{
  if (p->n_motifs != q->n_motifs)
    return FALSE;
  for (guint i = 0; i < p->n_motifs; i++)
    if (!g_str_equal (hw_snapshot_motif (a->snapshot, p->motifs[i])->id,
                      hw_snapshot_motif (b->snapshot, q->motifs[i])->id))
      return FALSE;
  return TRUE;
}

static gboolean
same_marks (const HwHooping *p, const HwHooping *q)
{
  if (p->n_marks != q->n_marks)
    return FALSE;
  for (guint i = 0; i < p->n_marks; i++)
    if (!g_str_equal (p->marks[i].letter, q->marks[i].letter)
        || hw_point_distance (p->marks[i].at, q->marks[i].at) > UNSEEN)
      return FALSE;
  return TRUE;
}

gboolean
hw_plans_look_alike (const HwPlan *a, const HwPlan *b)
{
  if (a == b)
    return TRUE;
  if (a == NULL || b == NULL || a->n_hoopings != b->n_hoopings)
    return FALSE;
  for (guint i = 0; i < a->n_hoopings; i++)
    {
      const HwHooping *p = &a->hoopings[i], *q = &b->hoopings[i];

      if (!same_hoop (hw_snapshot_hoop (a->snapshot, p->hoop), hw_snapshot_hoop (b->snapshot, q->hoop))
          || hw_point_distance (p->centre, q->centre) > UNSEEN
          || fabs (hw_angle_normal (p->angle - q->angle)) > UNSEEN || !same_motifs (a, p, b, q)
          || !same_marks (p, q))
        return FALSE;
    }
  return TRUE;
}

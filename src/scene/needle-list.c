/* A needle list: the path of the needle through a motif's artwork, kept once however many motifs show it. */
#include "needle-list.h"

HwNeedleList *
hw_needle_list_new (HwNeedlePoint *points, guint n_points, char **threads)
{
  HwNeedleList *list;

  g_return_val_if_fail (points != NULL || n_points == 0, NULL);

  list = g_new0 (HwNeedleList, 1);
  g_atomic_ref_count_init (&list->ref_count);
  list->points = points;
  list->n_points = n_points;
  list->threads = threads != NULL ? threads : g_new0 (char *, 1);
  list->box = HW_BOX_EMPTY;
  for (guint i = 0; i < n_points; i++)
    {
      if (points[i].action != HW_NEEDLE_STITCH)
        continue;
      list->n_stitches++;
      list->box.x0 = MIN (list->box.x0, points[i].x);
      list->box.y0 = MIN (list->box.y0, points[i].y);
      list->box.x1 = MAX (list->box.x1, points[i].x);
      list->box.y1 = MAX (list->box.y1, points[i].y);
    }
  return list;
}

HwNeedleList *
hw_needle_list_ref (const HwNeedleList *list)
{
  HwNeedleList *shared = (HwNeedleList *)list;

  g_return_val_if_fail (list != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_needle_list_unref (HwNeedleList *list)
{
  g_return_if_fail (list != NULL);

  if (!g_atomic_ref_count_dec (&list->ref_count))
    return;
  g_free (list->points);
  g_strfreev (list->threads);
  g_free (list);
}

gboolean
hw_needle_list_equal (const HwNeedleList *a, const HwNeedleList *b)
{
  if (a == b)
    return TRUE;
  if (a == NULL || b == NULL || a->n_points != b->n_points)
    return FALSE;
  for (guint i = 0; i < a->n_points; i++)
    {
      const HwNeedlePoint *p = &a->points[i], *q = &b->points[i];

      if (p->x != q->x || p->y != q->y || p->thread != q->thread || p->action != q->action)
        return FALSE;
    }
  return g_strv_equal ((const char *const *)a->threads, (const char *const *)b->threads);
}

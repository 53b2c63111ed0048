/* A needle list: the path of the needle through a motif's artwork, kept once however many motifs show it. */
#include "needle-list.h"

#include <math.h>

/* A stretch begins with its first stitch, or with the jumps just before it that name its thread already. */
static guint
first_point (const HwNeedlePoint *points, guint stitch, guint after)
{
  guint first = stitch;

  while (first > after && points[first - 1].action != HW_NEEDLE_STITCH
         && points[first - 1].thread == points[stitch].thread)
    first--;
  return first;
}

/* The stretch that the stitch at i is in, begun when the thread is another than before. after: the point past the stitch before. */
static HwNeedleStretch *
stretch_at (GArray *stretches, const HwNeedlePoint *points, guint i, guint after)
{
  HwNeedleStretch *last = NULL;
  HwNeedleStretch fresh = { .thread = points[i].thread };

  if (stretches->len > 0)
    {
      last = &g_array_index (stretches, HwNeedleStretch, stretches->len - 1);
      if (last->thread == points[i].thread)
        return last;
      fresh.first = last->end = first_point (points, i, after);
    }
  g_array_append_val (stretches, fresh);
  return &g_array_index (stretches, HwNeedleStretch, stretches->len - 1);
}

static void
find_stretches (HwNeedleList *list)
{
  const HwNeedlePoint *points = list->points, *hole = NULL;
  GArray *stretches = g_array_new (FALSE, FALSE, sizeof (HwNeedleStretch));
  guint after = 0;
  gsize n;

  for (guint i = 0; i < list->n_points; i++)
    {
      HwNeedleStretch *stretch;

      if (points[i].action == HW_NEEDLE_TRIM || points[i].action == HW_NEEDLE_COLOUR)
        hole = NULL;
      if (points[i].action != HW_NEEDLE_STITCH)
        continue;
      stretch = stretch_at (stretches, points, i, after);
      if (hole != NULL && hole->thread == points[i].thread)
        stretch->path += hypot (points[i].x - hole->x, points[i].y - hole->y);
      else if (stretch->stitches > 0)
        stretch->cuts++;
      stretch->stitches++;
      hole = &points[i];
      after = i + 1;
    }
  if (stretches->len > 0)
    g_array_index (stretches, HwNeedleStretch, stretches->len - 1).end = list->n_points;
  list->stretches = g_array_steal (stretches, &n);
  list->n_stretches = (guint)n;
  g_array_unref (stretches);
}

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
  find_stretches (list);
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
  g_free (list->stretches);
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

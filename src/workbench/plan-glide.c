#include "plan-glide.h"

#include <math.h>

/* One outline in both is enough: records are shared by all snapshots of a scene. */
static gboolean
same_scene (const HwSnapshot *a, const HwSnapshot *b)
{
  g_autoptr (GHashTable) outlines = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < a->motifs->len; i++)
    g_hash_table_add (outlines, hw_snapshot_motif (a, i)->outline);
  for (guint i = 0; i < b->motifs->len; i++)
    if (g_hash_table_contains (outlines, hw_snapshot_motif (b, i)->outline))
      return TRUE;
  return FALSE;
}

/* Motif id -> its hooping in the plan + 1. */
static GHashTable *
hooping_of_each (const HwPlan *plan)
{
  GHashTable *table = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < plan->n_hoopings; i++)
    for (guint j = 0; j < plan->hoopings[i].n_motifs; j++)
      g_hash_table_insert (table, hw_snapshot_motif (plan->snapshot, plan->hoopings[i].motifs[j])->id,
                           GUINT_TO_POINTER (i + 1));
  return table;
}

static gboolean
same_hoop (const HwPlan *a, guint i, const HwPlan *b, guint j)
{
  return g_str_equal (hw_snapshot_hoop (a->snapshot, a->hoopings[i].hoop)->id,
                      hw_snapshot_hoop (b->snapshot, b->hoopings[j].hoop)->id);
}

/* The hooping before that most motifs of this one were in, of the same hoop and not taken by another; -1: none. */
static int
goes_on_from (const HwPlan *before, const HwPlan *after, guint hooping, GHashTable *of, const gboolean *taken)
{
  const HwHooping *now = &after->hoopings[hooping];
  g_autofree guint *shared = g_new0 (guint, before->n_hoopings + 1);
  int best = -1;

  for (guint j = 0; j < now->n_motifs; j++)
    {
      const char *id = hw_snapshot_motif (after->snapshot, now->motifs[j])->id;
      guint was = GPOINTER_TO_UINT (g_hash_table_lookup (of, id));

      if (was > 0)
        shared[was - 1]++;
    }
  for (guint i = 0; i < before->n_hoopings; i++)
    if (shared[i] > 0 && !taken[i] && same_hoop (before, i, after, hooping)
        && (best < 0 || shared[i] > shared[best]))
      best = (int)i;
  return best;
}

HwGlide *
hw_glide_new (const HwPlan *before, const HwPlan *after)
{
  g_autoptr (GHashTable) of = NULL;
  g_autofree gboolean *taken = NULL;
  HwGlide *glide;

  g_return_val_if_fail (before != NULL && after != NULL, NULL);

  if (!same_scene (before->snapshot, after->snapshot))
    return NULL;
  of = hooping_of_each (before);
  taken = g_new0 (gboolean, before->n_hoopings + 1);
  glide = g_new0 (HwGlide, 1);
  glide->n = after->n_hoopings;
  glide->n_before = before->n_hoopings;
  glide->from = g_new0 (HwGlideFrom, glide->n + 1);
  glide->leaves = g_new0 (gboolean, glide->n_before + 1);
  for (guint i = 0; i < glide->n; i++)
    {
      const HwHooping *now = &after->hoopings[i];
      HwGlideFrom *from = &glide->from[i];

      from->before = goes_on_from (before, after, i, of, taken);
      from->known = from->before >= 0;
      from->centre = from->known ? before->hoopings[from->before].centre : now->centre;
      from->angle = from->known ? before->hoopings[from->before].angle : now->angle;
      if (from->known)
        taken[from->before] = TRUE;
      glide->anything |= !from->known || hw_point_distance (from->centre, now->centre) > 0.01
                         || fabs (from->angle - now->angle) > 0.01;
    }
  for (guint i = 0; i < glide->n_before; i++)
    {
      glide->leaves[i] = !taken[i];
      glide->anything |= glide->leaves[i];
    }
  return glide;
}

void
hw_glide_free (HwGlide *glide)
{
  if (glide == NULL)
    return;
  g_free (glide->from);
  g_free (glide->leaves);
  g_free (glide);
}

double
hw_glide_part (double ms)
{
  double left = 1 - CLAMP (ms / HW_GLIDE_LASTS, 0, 1);

  return 1 - left * left * left;
}

void
hw_glide_pose (
    const HwGlide *glide, const HwPlan *after, guint hooping, double part, HwPoint *centre, double *angle)
{
  const HwHooping *now;
  const HwGlideFrom *from;

  g_return_if_fail (glide != NULL && hooping < glide->n && hooping < after->n_hoopings);

  now = &after->hoopings[hooping];
  from = &glide->from[hooping];
  centre->x = from->centre.x + (now->centre.x - from->centre.x) * part;
  centre->y = from->centre.y + (now->centre.y - from->centre.y) * part;
  *angle = from->angle + remainder (now->angle - from->angle, 360) * part;
}

/* A plan laid out for questions. The order holds between motifs that are still to be stitched: what is stitched already, and what cannot be, makes
 * nobody wait. A set of motifs that share a hooping takes in whatever must come between them. */
#include "explain-private.h"

#include <math.h>

#include "parts-hoopings.h"
#include "sharing-private.h"
#include "../geometry/language.h"

#define MOST_NAMES 6

static void
lay_out_hoops (HwExplaining *ex)
{
  guint n = ex->scene->hoops->len;

  ex->usable = hw_snapshot_copy (ex->scene);
  ex->hoop_of = g_new0 (guint, n + 1);
  g_ptr_array_set_size (ex->usable->hoops, 0);
  for (guint h = 0; h < n; h++)
    if (!hw_snapshot_hoop (ex->scene, h)->set_aside)
      {
        ex->hoop_of[ex->usable->hoops->len] = h;
        g_ptr_array_add (ex->usable->hoops, hw_hoop_ref (hw_snapshot_hoop (ex->scene, h)));
      }
}

static void
lay_out_hoopings (HwExplaining *ex)
{
  guint n = ex->scene->motifs->len;

  ex->hooping_of = g_new (guint, n + 1);
  ex->number = g_new (guint, n + 1);
  for (guint i = 0; i < n; i++)
    ex->hooping_of[i] = ex->number[i] = G_MAXUINT;
  for (guint h = 0; h < ex->plan->n_hoopings; h++)
    for (guint k = 0; k < ex->plan->hoopings[h].n_motifs; k++)
      ex->hooping_of[ex->plan->hoopings[h].motifs[k]] = h;
}

/* Ties the plan does not keep are left out: they contradict others, and the plan says so. */
static void
add_ties (HwExplaining *ex, const guint *place)
{
  g_autoptr (GArray) ties = hw_order_ties (ex->scene);

  for (guint t = 0; t < ties->len; t++)
    {
      HwTie tie = g_array_index (ties, HwTie, t);

      if (ex->number[tie.first] != G_MAXUINT && ex->number[tie.second] != G_MAXUINT
          && place[tie.first] < place[tie.second])
        hw_order_tie (ex->order, ex->number[tie.first], ex->number[tie.second], NULL);
    }
}

static void
lay_out_order (HwExplaining *ex)
{
  guint n = ex->scene->motifs->len, planned = 0, places = 0;
  g_autofree HwPlaced *row = g_new (HwPlaced, n + 1);
  g_autofree guint *place = g_new0 (guint, n + 1);

  ex->motif = g_new (guint, n + 1);
  for (guint i = 0; i < n; i++)
    if (ex->hooping_of[i] != G_MAXUINT && ex->plan->hoopings[ex->hooping_of[i]].hold != HW_PLACE_FROZEN)
      {
        row[planned] = ex->placed[i];
        ex->number[i] = planned;
        ex->motif[planned++] = i;
      }
  for (guint h = 0; h < ex->plan->n_hoopings; h++)
    for (guint k = 0; k < ex->plan->hoopings[h].n_motifs; k++)
      place[ex->plan->hoopings[h].motifs[k]] = places++;
  ex->order = hw_order_new (row, planned, NULL, NULL, NULL);
  add_ties (ex, place);
}

/* Asked of every set of motifs that is spoken of: a table, since a person may keep many pairs apart. */
static guint8 *
apart_table (const HwSnapshot *scene)
{
  guint n = scene->motifs->len;
  guint8 *table;
  g_autoptr (GHashTable) index = NULL;

  if (scene->apart->len == 0)
    return NULL;
  table = g_new0 (guint8, (gsize)n * n);
  index = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < n; i++)
    g_hash_table_insert (index, hw_snapshot_motif (scene, i)->id, GUINT_TO_POINTER (i + 1));
  for (guint a = 0; a < scene->apart->len; a++)
    {
      const HwApart *apart = g_ptr_array_index (scene->apart, a);
      guint first = GPOINTER_TO_UINT (g_hash_table_lookup (index, apart->first));
      guint second = GPOINTER_TO_UINT (g_hash_table_lookup (index, apart->second));

      if (first > 0 && second > 0)
        table[(gsize)(first - 1) * n + second - 1] = 1;
    }
  return table;
}

HwExplaining *
hw_explaining_new (const HwPlan *plan, HwUnit unit)
{
  HwExplaining *ex = g_new0 (HwExplaining, 1);
  guint n = plan->snapshot->motifs->len;

  ex->plan = plan;
  ex->scene = plan->snapshot;
  ex->unit = unit;
  ex->apart = apart_table (ex->scene);
  ex->part = hw_plan_parts_of_motifs (plan);
  ex->placed = g_new0 (HwPlaced, n + 1);
  for (guint i = 0; i < n; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (ex->scene, i);

      ex->placed[i] = (HwPlaced){ hw_outline_place (motif->outline, &motif->placement), i };
    }
  lay_out_hoops (ex);
  lay_out_hoopings (ex);
  lay_out_order (ex);
  return ex;
}

void
hw_explaining_free (HwExplaining *ex)
{
  for (guint i = 0; i < ex->scene->motifs->len; i++)
    hw_outline_unref (ex->placed[i].outline);
  g_free (ex->placed);
  hw_order_free (ex->order);
  hw_snapshot_unref (ex->usable);
  g_free (ex->hoop_of);
  g_free (ex->hooping_of);
  g_free (ex->number);
  g_free (ex->motif);
  g_free (ex->apart);
  g_free (ex->part);
  g_free (ex);
}

gboolean
hw_explaining_before (const HwExplaining *ex, guint i, guint j)
{
  guint a = ex->number[i], b = ex->number[j];

  return a != G_MAXUINT && b != G_MAXUINT
         && (hw_order_has (ex->order, a, b) || (ex->part[i] >= 0 && ex->part[i] < ex->part[j]));
}

char *
hw_explaining_order_text (const HwExplaining *ex, guint i, guint j)
{
  g_autoptr (GArray) loop = NULL;
  g_autofree char *chain = NULL;

  if (i < j && hw_overlaps_ask (NULL, &ex->placed[i], &ex->placed[j]))
    return g_strdup_printf (_ ("%s lies over %s"), hw_explaining_name (ex, j), hw_explaining_name (ex, i));
  if (!hw_order_has (ex->order, ex->number[i], ex->number[j]))
    return g_strdup_printf (_ ("the part “%s” is stitched before the part “%s”"),
                            ((const HwPart *)g_ptr_array_index (ex->scene->parts, ex->part[i]))->name,
                            ((const HwPart *)g_ptr_array_index (ex->scene->parts, ex->part[j]))->name);
  /* A tie the other way round is refused and hands back the way from i to j. */
  hw_order_tie (ex->order, ex->number[j], ex->number[i], &loop);
  g_assert (loop != NULL);
  if (loop->len == 3)
    return g_strdup_printf (_ ("%s is tied before %s"), hw_explaining_name (ex, i),
                            hw_explaining_name (ex, j));
  for (guint k = 0; k < loop->len; k++)
    g_array_index (loop, guint, k) = ex->motif[g_array_index (loop, guint, k)];
  chain = hw_order_chain_text (ex->scene, &g_array_index (loop, guint, 1), loop->len - 1);
  return g_strdup_printf (_ ("the order goes %s"), chain);
}

char *
hw_explaining_names (const HwExplaining *ex, const guint *motifs, guint n)
{
  GString *text = g_string_new (NULL);
  guint named = n <= MOST_NAMES ? n : MOST_NAMES - 1;

  for (guint k = 0; k < named; k++)
    {
      if (k > 0)
        g_string_append (text, k + 1 == n ? _ (" and ") : _ (", "));
      g_string_append (text, hw_explaining_name (ex, motifs[k]));
    }
  if (named < n)
    g_string_append_printf (text, ngettext (" and %u more", " and %u more", n - named), n - named);
  return g_string_free (text, FALSE);
}

char *
hw_explaining_hoop_size (const HwExplaining *ex, const HwHoop *hoop)
{
  return hw_size_text (hoop->field_width, hoop->field_height, ex->unit);
}

GArray *
hw_explaining_between (const HwExplaining *ex, const guint *motifs, guint n)
{
  const guint words = ex->order->words;
  g_autofree guint64 *set = g_new0 (guint64, 2 * (gsize)words + 1);
  guint64 *before = set + words;
  GArray *between = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint m = 0; m < n; m++)
    if (ex->number[motifs[m]] != G_MAXUINT)
      {
        hw_mask_add (set, ex->number[motifs[m]]);
        hw_mask_join (before, HW_MASK_ROW (ex->order->before, ex->number[motifs[m]], words), words);
      }
  hw_mask_drop (before, set, words);
  for (HW_MASK_EACH (k, before, words))
    if (hw_mask_meets (HW_MASK_ROW (ex->order->before, k, words), set, words))
      g_array_append_val (between, ex->motif[k]);
  return between;
}

/* By the person, whichever is named first. */
static gboolean
is_kept_apart (const HwExplaining *ex, guint a, guint b)
{
  const gsize n = ex->scene->motifs->len;

  return ex->apart != NULL && (ex->apart[a * n + b] || ex->apart[b * n + a]);
}

gboolean
hw_explaining_apart (const HwExplaining *ex, const guint *motifs, guint n, guint pair[2])
{
  for (guint k = 0; (ex->apart != NULL || ex->scene->parts->len > 0) && k < n; k++)
    for (guint l = 0; l < n; l++)
      if (is_kept_apart (ex, motifs[k], motifs[l])
          || (ex->part[motifs[k]] >= 0 && ex->part[motifs[k]] < ex->part[motifs[l]]))
        {
          pair[0] = motifs[k];
          pair[1] = motifs[l];
          return TRUE;
        }
  return FALSE;
}

char *
hw_explaining_apart_text (const HwExplaining *ex, const guint pair[2])
{
  g_autofree char *names = hw_explaining_names (ex, pair, 2);

  if (is_kept_apart (ex, pair[0], pair[1]))
    return g_strdup_printf (_ ("%s are to be kept apart"), names);
  return g_strdup_printf (_ ("%s are in different parts"), names);
}

GArray *
hw_explaining_hull (const HwExplaining *ex, const guint *motifs, guint n)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  GArray *hull = g_array_new (FALSE, FALSE, sizeof (HwPoint));

  for (guint k = 0; k < n; k++)
    g_array_append_vals (points, ex->placed[motifs[k]].outline->hull, ex->placed[motifs[k]].outline->n_hull);
  g_array_set_size (hull, points->len + 1);
  g_array_set_size (hull, hw_convex_hull ((const HwPoint *)points->data, points->len, (HwPoint *)hull->data));
  return hull;
}

gboolean
hw_explaining_fits (const HwExplaining *ex, const GArray *hull)
{
  for (guint h = 0; h < ex->usable->hoops->len; h++)
    if (hw_sharing_fits ((const HwPoint *)hull->data, hull->len, hw_snapshot_hoop (ex->usable, h),
                         &ex->scene->fabric))
      return TRUE;
  return FALSE;
}

double
hw_explaining_miss (const HwExplaining *ex, const GArray *hull)
{
  return hw_sharing_nearest ((const HwPoint *)hull->data, hull->len, ex->usable).miss;
}

char *
hw_explaining_needs_text (const HwExplaining *ex, const GArray *hull)
{
  HwNearMiss near_miss = hw_sharing_nearest ((const HwPoint *)hull->data, hull->len, ex->usable);
  const HwHoop *hoop;
  HwHullPose pose;
  g_autofree char *needed = NULL, *size = NULL, *taken = NULL, *miss = NULL;

  if (!isfinite (near_miss.miss))
    return g_strdup (_ ("have no hoop with a usable field"));
  hoop = hw_snapshot_hoop (ex->usable, near_miss.hoop);
  pose = hw_hull_pose_at ((const HwPoint *)hull->data, hull->len, near_miss.angle);
  needed = hw_size_text (pose.wide, pose.high, ex->unit);
  size = hw_explaining_hoop_size (ex, hoop);
  miss = hw_length_text (near_miss.miss, ex->unit);
  if (near_miss.by_frame)
    return g_strdup_printf (_ ("need %s together, and the frame of the %s hoop would pass the clamped cloth "
                               "by %s there"),
                            needed, size, miss);
  taken = hw_size_text (hoop->field_width - 2 * hoop->clearance, hoop->field_height - 2 * hoop->clearance,
                        ex->unit);
  if (ex->usable->hoops->len == 1)
    return g_strdup_printf (_ ("need %s together; the %s hoop takes %s, %s too little"), needed, size, taken,
                            miss);
  return g_strdup_printf (_ ("need %s together; the %s hoop comes nearest and takes %s, %s too little"),
                          needed, size, taken, miss);
}

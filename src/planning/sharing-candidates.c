/* Every way to take some motifs in one hooping: a candidate for each hoop and each interval of its angles, the handiest first. */
#include "sharing-private.h"

typedef struct
{
  HwCandidate candidate;
  guint rank;
  double area; /* of the field, mm^2 */
} Ranked;

static int
compare_ranked (gconstpointer pa, gconstpointer pb)
{
  const Ranked *a = pa, *b = pb;

  if (a->rank != b->rank)
    return a->rank < b->rank ? -1 : 1;
  if (a->area != b->area)
    return a->area < b->area ? -1 : 1;
  if (a->candidate.pose.margin != b->candidate.pose.margin)
    return a->candidate.pose.margin > b->candidate.pose.margin ? -1 : 1;
  return (a->candidate.hoop > b->candidate.hoop) - (a->candidate.hoop < b->candidate.hoop);
}

/* An interval cut at 180 degrees is one: its second part is put before its first. */
static void
join_at_half_turn (GArray *intervals)
{
  HwAngleInterval *first, *last;

  if (intervals->len < 2)
    return;
  first = &g_array_index (intervals, HwAngleInterval, 0);
  last = &g_array_index (intervals, HwAngleInterval, intervals->len - 1);
  if (first->from > 1e-9 || last->to < 180 - 1e-9)
    return;
  first->from = last->from - 180;
  g_array_set_size (intervals, intervals->len - 1);
}

/* Unturned first, then as each of the motifs lies. */
static GArray *
liked_angles (const HwSnapshot *snapshot, const guint *motifs, guint n_motifs)
{
  GArray *liked = g_array_new (FALSE, TRUE, sizeof (double));

  g_array_set_size (liked, 1);
  for (guint i = 0; i < n_motifs; i++)
    {
      double angle = hw_hoop_angle_normal (hw_snapshot_motif (snapshot, motifs[i])->placement.angle);
      guint j = 0;

      while (j < liked->len && g_array_index (liked, double, j) != angle)
        j++;
      if (j == liked->len)
        g_array_append_val (liked, angle);
    }
  return liked;
}

GArray *
hw_sharing_candidates (const HwSnapshot *snapshot, const guint *motifs, guint n_motifs)
{
  g_autoptr (GArray) ranked = g_array_new (FALSE, FALSE, sizeof (Ranked));
  g_autoptr (GArray) hull = NULL;
  g_autoptr (GArray) liked = NULL;
  GArray *candidates = g_array_new (FALSE, FALSE, sizeof (HwCandidate));

  g_return_val_if_fail (snapshot != NULL, candidates);
  g_return_val_if_fail (motifs != NULL || n_motifs == 0, candidates);

  hull = hw_sharing_hull (snapshot, motifs, n_motifs);
  liked = liked_angles (snapshot, motifs, n_motifs);
  for (guint h = 0; h < snapshot->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (snapshot, h);
      g_autoptr (GArray) intervals = NULL;

      if (hoop->set_aside)
        continue;
      intervals = hw_sharing_angles ((const HwPoint *)hull->data, hull->len, hoop, &snapshot->fabric);
      join_at_half_turn (intervals);
      for (guint i = 0; i < intervals->len; i++)
        {
          Ranked found = { .candidate.hoop = h, .area = hoop->field_width * hoop->field_height };

          if (hw_sharing_pose_between ((const HwPoint *)hull->data, hull->len, hoop, &snapshot->fabric,
                                       g_array_index (intervals, HwAngleInterval, i),
                                       (const double *)liked->data, liked->len, snapshot->machine.turn_step,
                                       &found.candidate.pose, &found.rank))
            g_array_append_val (ranked, found);
        }
    }
  g_array_sort (ranked, compare_ranked);
  for (guint i = 0; i < ranked->len; i++)
    g_array_append_val (candidates, g_array_index (ranked, Ranked, i).candidate);
  return candidates;
}

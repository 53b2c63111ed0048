/* The scene brought to the truth. Stitching draws cloth in, and what is not stitched yet then lies elsewhere than the scene says; a hooping set crooked and
 * stitched all the same lies elsewhere than planned. The scene's axes are the cloth as it lies now, so both are answered by moving what the
 * scene holds: the unstitched part by the cloth's stretch, the stitched hooping by the shift and turn at which it landed. */
#include "follow.h"

typedef struct
{
  const HwStretch *stretch;
  HwPoint about;
} Way;

static HwPoint
moved (const Way *way, HwPoint p)
{
  return hw_stretch_apply (way->stretch, way->about, p);
}

/* The ids of all motifs that are stitched; they are the snapshot's. */
static GHashTable *
stitched_ids (const HwSnapshot *snapshot)
{
  GHashTable *ids = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < snapshot->frozen->len; i++)
    {
      const HwPin *pin = snapshot->frozen->pdata[i];

      for (guint k = 0; pin->motifs != NULL && pin->motifs[k] != NULL; k++)
        g_hash_table_add (ids, pin->motifs[k]);
    }
  return ids;
}

/* The common box of the motifs as they lie, of those in ids only unless it is NULL. */
static HwBox
common_box (const HwSnapshot *snapshot, GHashTable *ids)
{
  HwBox box = HW_BOX_EMPTY;

  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);
      g_autoptr (HwOutline) placed = NULL;

      if (ids != NULL && !g_hash_table_contains (ids, motif->id))
        continue;
      placed = hw_outline_place (motif->outline, &motif->placement);
      box = hw_box_union (box, placed->box);
    }
  return box;
}

HwPoint
hw_follow_still_point (const HwSnapshot *snapshot)
{
  g_autoptr (GHashTable) stitched = NULL;
  HwBox box;

  g_return_val_if_fail (snapshot != NULL, ((HwPoint){ 0, 0 }));

  stitched = stitched_ids (snapshot);
  box = common_box (snapshot, stitched);
  if (hw_box_is_empty (box))
    box = common_box (snapshot, NULL);
  if (hw_box_is_empty (box))
    box = (HwBox){ 0, 0, snapshot->fabric.width, snapshot->fabric.height };
  return (HwPoint){ (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 };
}

static void
replace (GPtrArray *list, guint at, gpointer record, GDestroyNotify unref)
{
  gpointer old = list->pdata[at];

  list->pdata[at] = record;
  unref (old);
}

static void
move_motif (GPtrArray *motifs, guint at, HwPoint position, double turn)
{
  HwMotif *motif = hw_motif_copy (motifs->pdata[at]);

  motif->placement.position = position;
  if (turn != 0)
    motif->placement.angle = hw_angle_normal (motif->placement.angle + turn);
  replace (motifs, at, motif, (GDestroyNotify)hw_motif_unref);
}

/* The places that the readings of a hooping stand for, in its hoop axes, once the cloth has moved under it. */
static HwWork *
work_moved (const HwWork *work, const HwPin *before, HwPoint centre, const Way *way)
{
  HwWork *copy = hw_work_copy (work);

  for (guint i = 0; i < copy->n_readings; i++)
    {
      HwPoint lies = hw_point_turn (copy->readings[i].design, before->angle);

      lies = moved (way, (HwPoint){ before->centre.x + lies.x, before->centre.y + lies.y });
      copy->readings[i].design
          = hw_point_turn ((HwPoint){ lies.x - centre.x, lies.y - centre.y }, -before->angle);
    }
  return copy;
}

static HwPin *
pin_moved (const HwPin *before, const Way *way)
{
  HwPin *pin = hw_pin_copy (before);

  /* Without a hoop and at 0, 0 it was given no place at all. */
  if (before->hoop != NULL || before->centre.x != 0 || before->centre.y != 0)
    pin->centre = moved (way, before->centre);
  for (guint i = 0; i < pin->n_marks; i++)
    pin->marks[i].at = moved (way, pin->marks[i].at);
  if (before->work != NULL && before->work->n_readings > 0)
    {
      g_clear_pointer (&pin->work, hw_work_unref);
      pin->work = work_moved (before->work, before, pin->centre, way);
    }
  return pin;
}

static HwHeldMark *
held_mark_moved (const HwHeldMark *before, const Way *way)
{
  HwHeldMark *mark = hw_held_mark_new (before->motif, moved (way, before->at));

  mark->unknown = hw_unknown_ref (before->unknown);
  return mark;
}

static HwOutline *
outline_moved (const HwOutline *before, const Way *way)
{
  HwRing *rings = g_new0 (HwRing, before->n_rings);
  HwOutline *outline;

  for (guint i = 0; i < before->n_rings; i++)
    {
      rings[i] = (HwRing){ g_new (HwPoint, before->rings[i].n_points), before->rings[i].n_points };
      for (guint k = 0; k < rings[i].n_points; k++)
        rings[i].points[k] = moved (way, before->rings[i].points[k]);
    }
  outline = hw_outline_new (rings, before->n_rings);
  for (guint i = 0; i < before->n_rings; i++)
    g_free (rings[i].points);
  g_free (rings);
  return outline;
}

static HwEdgeLine *
edge_line_moved (const HwEdgeLine *before, const Way *way)
{
  HwEdgeLine *edge = hw_edge_line_copy (before);

  hw_outline_unref (edge->outline);
  edge->outline = outline_moved (before->outline, way);
  /* Sheared, a rectangle or an ellipse is none any more. */
  if (way->stretch->xy != 0)
    {
      edge->shape = HW_EDGE_POLYGON;
      edge->corner_radius = 0;
    }
  return edge;
}

HwSnapshot *
hw_follow_cloth (const HwSnapshot *snapshot, const HwStretch *stretch, HwPoint about)
{
  Way way = { stretch, about };
  g_autoptr (GHashTable) stitched = NULL;
  HwSnapshot *now;

  g_return_val_if_fail (snapshot != NULL && stretch != NULL, NULL);

  stitched = stitched_ids (snapshot);
  now = hw_snapshot_copy (snapshot);
  for (guint i = 0; i < now->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (now, i);

      if (!g_hash_table_contains (stitched, motif->id))
        move_motif (now->motifs, i, moved (&way, motif->placement.position), 0);
    }
  for (guint i = 0; i < now->pins->len; i++)
    replace (now->pins, i, pin_moved (now->pins->pdata[i], &way), (GDestroyNotify)hw_pin_unref);
  for (guint i = 0; i < now->held_marks->len; i++)
    {
      const HwHeldMark *mark = now->held_marks->pdata[i];

      if (!g_hash_table_contains (stitched, mark->motif))
        replace (now->held_marks, i, held_mark_moved (mark, &way), (GDestroyNotify)hw_held_mark_unref);
    }
  if (now->edge_line != NULL)
    {
      HwEdgeLine *edge = edge_line_moved (now->edge_line, &way);

      hw_edge_line_unref (now->edge_line);
      now->edge_line = edge;
    }
  return now;
}

HwSnapshot *
hw_land_hooping (const HwSnapshot *snapshot, guint frozen, const HwCorrection *landed)
{
  const HwPin *before;
  HwPin *pin;
  HwPoint shift;
  HwSnapshot *now;

  g_return_val_if_fail (snapshot != NULL && landed != NULL, NULL);
  g_return_val_if_fail (frozen < snapshot->frozen->len, NULL);

  before = snapshot->frozen->pdata[frozen];
  shift = hw_point_turn (landed->shift, before->angle);
  now = hw_snapshot_copy (snapshot);
  for (guint i = 0; before->motifs != NULL && before->motifs[i] != NULL; i++)
    {
      int at = hw_snapshot_find_motif (now, before->motifs[i]);
      HwPoint from, to;

      if (at < 0)
        continue;
      /* A turn about the centre is the same turn in the hoop's axes and in the cloth's. */
      from = hw_snapshot_motif (now, at)->placement.position;
      to = hw_point_turn ((HwPoint){ from.x - before->centre.x, from.y - before->centre.y }, landed->turn);
      move_motif (now->motifs, (guint)at,
                  (HwPoint){ before->centre.x + shift.x + to.x, before->centre.y + shift.y + to.y },
                  landed->turn);
    }
  pin = hw_pin_copy (before);
  pin->centre = (HwPoint){ before->centre.x + shift.x, before->centre.y + shift.y };
  pin->angle = hw_angle_normal (before->angle + landed->turn);
  replace (now->frozen, frozen, pin, (GDestroyNotify)hw_pin_unref);
  return now;
}

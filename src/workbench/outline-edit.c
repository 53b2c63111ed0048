/* An outline in the hand. Outlines are immutable: each step makes a new one, and the ones before are kept for undoing. */
#include "outline-edit.h"

#include <math.h>
#include <string.h>

struct _HwOutlineEdit
{
  GPtrArray *steps; /* HwOutline; steps[now] is what is shown */
  guint now;
  gboolean moving;
};

HwOutlineEdit *
hw_outline_edit_new (const HwOutline *outline)
{
  g_return_val_if_fail (outline != NULL, NULL);

  HwOutlineEdit *edit = g_new0 (HwOutlineEdit, 1);
  edit->steps = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
  g_ptr_array_add (edit->steps, hw_outline_ref (outline));
  return edit;
}

void
hw_outline_edit_free (HwOutlineEdit *edit)
{
  g_return_if_fail (edit != NULL);

  g_ptr_array_unref (edit->steps);
  g_free (edit);
}

const HwOutline *
hw_outline_edit_get (HwOutlineEdit *edit)
{
  g_return_val_if_fail (edit != NULL, NULL);
  return edit->steps->pdata[edit->now];
}

guint
hw_outline_edit_count (HwOutlineEdit *edit)
{
  return hw_outline_count_points (hw_outline_edit_get (edit));
}

static gboolean
is_spot (const HwOutline *outline, HwOutlineSpot spot)
{
  return spot.ring < outline->n_rings && spot.point < outline->rings[spot.ring].n_points;
}

HwPoint
hw_outline_edit_at (HwOutlineEdit *edit, HwOutlineSpot spot)
{
  const HwOutline *outline = hw_outline_edit_get (edit);

  g_return_val_if_fail (is_spot (outline, spot), ((HwPoint){ 0, 0 }));
  return outline->rings[spot.ring].points[spot.point];
}

gboolean
hw_outline_edit_point_near (HwOutlineEdit *edit, HwPoint at, double reach, HwOutlineSpot *spot)
{
  const HwOutline *outline = hw_outline_edit_get (edit);
  gboolean found = FALSE;

  for (guint r = 0; r < outline->n_rings; r++)
    for (guint i = 0; i < outline->rings[r].n_points; i++)
      {
        double away = hw_point_distance (outline->rings[r].points[i], at);

        if (away > reach)
          continue;
        reach = away;
        *spot = (HwOutlineSpot){ r, i };
        found = TRUE;
      }
  return found;
}

static double
distance_to_side (HwPoint a, HwPoint b, HwPoint at)
{
  double dx = b.x - a.x, dy = b.y - a.y, length = dx * dx + dy * dy;
  double part = length > 0 ? CLAMP (((at.x - a.x) * dx + (at.y - a.y) * dy) / length, 0, 1) : 0;

  return hypot (a.x + dx * part - at.x, a.y + dy * part - at.y);
}

gboolean
hw_outline_edit_side_near (HwOutlineEdit *edit, HwPoint at, double reach, HwOutlineSpot *spot)
{
  const HwOutline *outline = hw_outline_edit_get (edit);
  gboolean found = FALSE;

  for (guint r = 0; r < outline->n_rings; r++)
    for (guint i = 0; i < outline->rings[r].n_points; i++)
      {
        const HwRing *ring = &outline->rings[r];
        double away = distance_to_side (ring->points[i], ring->points[(i + 1) % ring->n_points], at);

        if (away > reach)
          continue;
        reach = away;
        *spot = (HwOutlineSpot){ r, i + 1 };
        found = TRUE;
      }
  return found;
}

/* The ring of the spot becomes these points, or goes when there are too few for one. */
static void
take_step (HwOutlineEdit *edit, guint ring, HwPoint *points, guint n, gboolean merge)
{
  const HwOutline *before = hw_outline_edit_get (edit);
  g_autofree HwRing *rings = g_memdup2 (before->rings, before->n_rings * sizeof (HwRing));

  rings[ring] = (HwRing){ points, n };
  HwOutline *after = hw_outline_new (rings, before->n_rings);
  if (merge)
    {
      hw_outline_unref (edit->steps->pdata[edit->now]);
      edit->steps->pdata[edit->now] = after;
      return;
    }
  g_ptr_array_set_size (edit->steps, (int)edit->now + 1);
  g_ptr_array_add (edit->steps, after);
  edit->now++;
}

void
hw_outline_edit_move (HwOutlineEdit *edit, HwOutlineSpot spot, HwPoint to, gboolean merge)
{
  const HwOutline *outline = hw_outline_edit_get (edit);

  g_return_if_fail (is_spot (outline, spot));

  const HwRing *ring = &outline->rings[spot.ring];
  g_autofree HwPoint *points = g_memdup2 (ring->points, ring->n_points * sizeof (HwPoint));
  points[spot.point] = to;
  take_step (edit, spot.ring, points, ring->n_points, merge && edit->moving && edit->now > 0);
  edit->moving = TRUE;
}

void
hw_outline_edit_add (HwOutlineEdit *edit, HwOutlineSpot spot, HwPoint at)
{
  const HwOutline *outline = hw_outline_edit_get (edit);

  g_return_if_fail (spot.ring < outline->n_rings && spot.point <= outline->rings[spot.ring].n_points);

  const HwRing *ring = &outline->rings[spot.ring];
  g_autofree HwPoint *points = g_new (HwPoint, ring->n_points + 1);
  memcpy (points, ring->points, spot.point * sizeof (HwPoint));
  points[spot.point] = at;
  memcpy (points + spot.point + 1, ring->points + spot.point,
          (ring->n_points - spot.point) * sizeof (HwPoint));
  take_step (edit, spot.ring, points, ring->n_points + 1, FALSE);
  /* The hand that added it goes on moving it, as one step. */
  edit->moving = TRUE;
}

gboolean
hw_outline_edit_remove (HwOutlineEdit *edit, HwOutlineSpot spot)
{
  const HwOutline *outline = hw_outline_edit_get (edit);

  g_return_val_if_fail (is_spot (outline, spot), FALSE);

  const HwRing *ring = &outline->rings[spot.ring];
  g_autofree HwPoint *points = g_memdup2 (ring->points, ring->n_points * sizeof (HwPoint));
  if (ring->n_points <= 3 && outline->n_rings == 1)
    return FALSE;
  memmove (points + spot.point, points + spot.point + 1,
           (ring->n_points - 1 - spot.point) * sizeof (HwPoint));
  edit->moving = FALSE;
  take_step (edit, spot.ring, points, ring->n_points - 1, FALSE);
  return TRUE;
}

gboolean
hw_outline_edit_undo (HwOutlineEdit *edit)
{
  g_return_val_if_fail (edit != NULL, FALSE);

  edit->moving = FALSE;
  if (!hw_outline_edit_can_undo (edit))
    return FALSE;
  edit->now--;
  return TRUE;
}

gboolean
hw_outline_edit_redo (HwOutlineEdit *edit)
{
  g_return_val_if_fail (edit != NULL, FALSE);

  edit->moving = FALSE;
  if (!hw_outline_edit_can_redo (edit))
    return FALSE;
  edit->now++;
  return TRUE;
}

gboolean
hw_outline_edit_can_undo (HwOutlineEdit *edit)
{
  g_return_val_if_fail (edit != NULL, FALSE);
  return edit->now > 0;
}

gboolean
hw_outline_edit_can_redo (HwOutlineEdit *edit)
{
  g_return_val_if_fail (edit != NULL, FALSE);
  return edit->now + 1 < edit->steps->len;
}

gboolean
hw_outline_edit_is_changed (HwOutlineEdit *edit)
{
  g_return_val_if_fail (edit != NULL, FALSE);
  return !hw_outline_equal (edit->steps->pdata[0], hw_outline_edit_get (edit));
}

HwOutlineSpot
hw_outline_edit_beside (HwOutlineEdit *edit, HwOutlineSpot spot, int step)
{
  const HwOutline *outline = hw_outline_edit_get (edit);

  g_return_val_if_fail (is_spot (outline, spot), spot);

  if (step > 0 && ++spot.point >= outline->rings[spot.ring].n_points)
    spot = (HwOutlineSpot){ (spot.ring + 1) % outline->n_rings, 0 };
  else if (step < 0 && spot.point-- == 0)
    {
      spot.ring = (spot.ring + outline->n_rings - 1) % outline->n_rings;
      spot.point = outline->rings[spot.ring].n_points - 1;
    }
  return spot;
}
